"""A plan set with some of its sheets reissued: a new S3.1 takes the place of the old S3.1, the rest stays.

The sheets are put together before anything is read, because notes on one sheet fill rows on another.
"""

import hashlib
import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import Literal, NamedTuple

from extractor.errors import UsageError
from extractor.guard import guarded
from extractor.paper.pick import picked
from extractor.paper.plans import PlanSet, Progress, Sheet, open_plans
from extractor.read import read
from extractor.record import Job


class Taken(NamedTuple):
    """One page of the combined set: its page there, its sheet number, and the file and page it was taken from."""

    page: int
    sheet: str | None
    how: Literal["kept", "replaced", "added"]
    file: Path
    file_page: int


def reissued(old: Sequence[Path], new: Sequence[Path], progress: Progress | None = None) -> tuple[Job, tuple[Taken, ...]]:
    """The job of ``old`` with the sheets of ``new`` in place of the sheets of the same number; and what came from where.

    A sheet of ``new`` whose number ``old`` does not have is added at the end. UsageError where a number is not clear.
    """
    with tempfile.TemporaryDirectory(prefix="nailcard-") as folder:  # taken away here, however the process that fills it ends
        work = partial(_put_together, tuple(old), tuple(new), Path(folder) / "combined.pdf")
        record, taken = guarded(work, progress, ", ".join(map(str, (*old, *new))))
    return Job.model_validate_json(record), taken


def _put_together(old: Sequence[Path], new: Sequence[Path], combined: Path, progress: Progress) -> tuple[str, tuple[Taken, ...]]:
    """The record, as text because its generic parts cross to no other process, and what came from where."""
    with open_plans(old) as before, open_plans(new) as after:
        order = _order(before, after)
        pages = [(_file(sheet), sheet.index) for sheet, _ in order]
        taken = tuple(Taken(page, sheet.number, how, _file(sheet), sheet.index + 1)
                      for page, (sheet, how) in enumerate(order, 1))  # fmt: skip
        name = f"{before.name} with {', '.join(sheet.number or '' for sheet in after.sheets)} of {after.name}"
        digest = hashlib.sha256(f"{before.sha256}+{after.sha256}".encode()).hexdigest()
    picked(pages, combined)
    job = read([combined], progress)
    plans = job.plan_set.model_copy(update={"file": name, "sha256": digest})
    return job.model_copy(update={"plan_set": plans}).to_json(), taken


def _order(before: PlanSet, after: PlanSet) -> list[tuple[Sheet, Literal["kept", "replaced", "added"]]]:
    """The sheets of the combined set, each kept, in place of an old one, or added."""
    incoming = {_number(sheet): sheet for sheet in after.sheets}
    _clear(after.sheets, after.name, incoming)
    known = Counter(_number(sheet) for sheet in before.sheets)
    if twice := [number for number in incoming if known[number] > 1]:
        raise UsageError(f"The old plans have sheet {', '.join(twice)} more than once.", where=before.name,
                         do="Put the set together by hand and compare whole sets.")  # fmt: skip
    order: list[tuple[Sheet, Literal["kept", "replaced", "added"]]] = []
    for sheet in before.sheets:
        other = incoming.get(_number(sheet)) if _number(sheet) else None
        order.append((other, "replaced") if other else (sheet, "kept"))
    return order + [(sheet, "added") for number, sheet in incoming.items() if not known[number]]


def _clear(sheets: Iterable[Sheet], name: str, incoming: dict[str, Sheet]) -> None:
    """Each reissued sheet has a number of its own."""
    every = list(sheets)
    if nameless := [str(sheet.page) for sheet in every if not _number(sheet)]:
        raise UsageError(f"The sheet number of page {', '.join(nameless)} could not be read, so it takes no sheet's place.",
                         where=name, do="Put the set together by hand and compare whole sets.")  # fmt: skip
    if len(incoming) < len(every):
        raise UsageError("The reissued plans have one sheet number twice.", where=name, do="Name each reissued sheet once.")


def _number(sheet: Sheet) -> str:
    return "".join((sheet.number or "").upper().split())


def _file(sheet: Sheet) -> Path:
    return sheet.plans.files[sheet.document]
