"""A plan set with a few sheets reissued, from what a person named: PDFs are put together and read, records are merged."""

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import NamedTuple

from cards.changes import From, Pictures, from_taken
from cards.load import Progress, at_hand, load, plan_files, with_findings
from extractor.record import Job


class Reissued(NamedTuple):
    """The plans as they are now, where each page was taken from, and pictures of them where PDFs are at hand."""

    job: Job
    taken: tuple[From, ...]
    pictures: Pictures | None


def reissued(
    before: Job, old: Sequence[Path], new: Sequence[Path], progress: Callable[[], AbstractContextManager[Progress]]
) -> Reissued:
    """``old`` with the sheets of ``new`` in place of those of the same number; ``before`` is the job of ``old``.

    A record whose PDFs lie beside it stands for them: sheets that are read together meet each other's notes.
    """
    old = at_hand(before, old) or old
    if any(path.suffix.lower() == ".json" for path in (*old, *new)):
        with progress() as step:
            return _merged(before, load(new, step))
    from extractor.reissue import reissued as put_together

    with progress() as step:
        job, pages = put_together(plan_files(old), plan_files(new), step)
    taken = tuple(From(page=one.page, sheet=one.sheet or "", how=one.how, file=one.file.name, file_page=one.file_page)
                  for one in pages)  # fmt: skip
    return Reissued(with_findings(job), taken, from_taken({one.page: (one.file, one.file_page) for one in pages}))


def _merged(before: Job, after: Job) -> Reissued:
    from extractor.merge import merged

    job, names = merged(before, after), {sheet.number for sheet in after.sheets}
    offset = before.plan_set.pages
    taken = [From(page=sheet.page, sheet=sheet.number or "", how="kept", file=before.plan_set.file, file_page=sheet.page)
             for sheet in before.sheets if sheet.number not in names]  # fmt: skip
    taken += [From(page=sheet.page + offset, sheet=sheet.number or "", how="reissued", file=after.plan_set.file,
                   file_page=sheet.page) for sheet in after.sheets]  # fmt: skip
    return Reissued(job, tuple(taken), None)
