"""The register of issued cards, ``issued.toml`` beside the job: what was handed out, from which plan file, with which answers.

An issue is one plan file with one set of answers. Making its packet again adds nothing; making a packet from a changed file, or
with another answer, begins the next issue, and the packet says so.
"""

import datetime
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

from pydantic import Field, ValidationError

from cards import kept
from cards.compare import schedule_sheets
from cards.face import faces
from cards.rowchanges import revision
from cards.words import Words
from extractor.answers import answered, reference_of
from extractor.record import Finding, Job, Level, Record

NAME = "issued.toml"
FORMAT = "nailcard.issued/1"
CODE = "plans-changed-since-the-last-packet"
_NOTE = "What was issued for this job, and from which plan file. nailcard compare reads it to say which cards to collect."


class IssuedCard(Record):
    """One card of an issue: its number among ``of``, its mark, and whether it was a draft on HOLD."""

    mark: str
    number: int
    draft: bool


class Issue(Record):
    """One issue of a job's cards. ``sheets`` are those of the schedule, with revision and date."""

    number: Annotated[int, Field(ge=1)]
    date: datetime.date
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    file: str
    sheets: str
    copies: Annotated[int, Field(ge=1, le=10_000)]
    answers: tuple[str, ...] = ()
    card: tuple[IssuedCard, ...] = ()

    @property
    def named(self) -> str:
        """The issue in one line: "issue 2, 12 May 2026, file c0ffee12"."""
        return f"issue {self.number}, {Words('en').date(self.date.isoformat())}, file {self.sha256[:8]}"


def issues(folder: Path) -> tuple[Issue, ...]:
    """The issues in a folder's register, in order; none where there is no register."""
    path = folder / NAME
    try:
        return tuple(Issue.model_validate(one) for one in kept.read(path, FORMAT).get("issue", ()))
    except (ValidationError, TypeError) as error:
        raise kept.damaged(path, str(error)) from error


def add(job: Job, folder: Path, *, copies: int | None = None, today: datetime.date | None = None) -> Issue:
    """Enter the issue of ``job`` in the folder's register, once however often its packet is made; gives the entry."""
    with kept.locked(folder):
        return add_held(job, folder, copies=copies, today=today)


def add_held(job: Job, folder: Path, *, copies: int | None = None, today: datetime.date | None = None) -> Issue:
    """The same for a caller that holds the folder with ``kept.locked``."""
    before = issues(folder)
    known = next((one for one in before if is_of(one, job)), None)
    made = Issue(
        number=known.number if known else max((one.number for one in before), default=0) + 1,
        date=known.date if known else today or datetime.date.today(),
        sha256=job.plan_set.sha256,
        file=kept.plain(job.plan_set.file),
        sheets=kept.plain("; ".join(revision(sheet) for sheet in schedule_sheets(job))),
        copies=copies or (known.copies if known else 1),
        answers=answers_in(job),
        card=_cards(job),
    )
    if made != known:
        rows = sorted([*(one for one in before if one is not known), made], key=lambda one: one.number)
        kept.write(folder / NAME, FORMAT, _NOTE, {"issue": [one.model_dump() for one in rows]})
    return made


def is_of(issue: Issue, job: Job) -> bool:
    """Whether an issue was made from this plan file with these answers."""
    return (issue.sha256, issue.answers) == (job.plan_set.sha256, answers_in(job))


def answers_in(job: Job) -> tuple[str, ...]:
    """The references of the answers that are in a job, each once, in the order of the rows."""
    return tuple(dict.fromkeys(kept.plain(reference_of(one.as_printed)) for _, _, one in answered(job)))


def noticed(job: Job, before: Sequence[Issue]) -> Job:
    """The job with a note first among its notes where earlier issues came from another plan file or had other answers."""
    others = [one for one in before if not is_of(one, job)]
    findings = [one for one in job.findings if one.code != CODE]
    if others:
        notes = next((i for i, one in enumerate(findings) if one.level is Level.NOTE), len(findings))
        findings.insert(notes, Finding(code=CODE, level=Level.NOTE, message=notice(job, others)))
    return job.model_copy(update={"findings": tuple(findings)})


def notice(job: Job, others: Sequence[Issue]) -> str:
    """What to say on the first page when something else was issued before."""
    what = "The plan file changed" if any(one.sha256 != job.plan_set.sha256 for one in others) else "The answers changed"
    earlier = "; ".join(one.named for one in others)
    which = "that issue" if len(others) == 1 else "those issues"
    files = [earlier_record(one.sha256) for one in others if one.sha256 != job.plan_set.sha256]
    how = f"run nailcard compare with {files[-1]} of this folder as the old plans" if files else "run nailcard compare"
    return f"{what} since cards were issued ({earlier}). Collect every card of {which} before these are handed out: {how}."


def earlier_record(sha256: str) -> str:
    """The name under which a packet's folder keeps the record of an earlier plan file."""
    return f"job-{sha256[:8]}.json"


def _cards(job: Job) -> tuple[IssuedCard, ...]:
    return tuple(IssuedCard(mark=kept.plain(one.mark) or "?", number=number, draft=one.hold)
                 for number, one in enumerate(faces(job), 1))  # fmt: skip
