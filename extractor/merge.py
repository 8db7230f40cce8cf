"""Two job records, one of them of a few reissued sheets, as one: rows and marks of a reissued sheet take the old ones' place.

A record cannot be read again: a value that a note on a reissued sheet gave to a row that stays is refused, not kept. So are new
rows in place of rows that took values from notes on sheets that stay: the new rows have not met those notes.
"""

import hashlib
from collections.abc import Iterable
from typing import Any, TypeVar

from extractor.checks import CHECKS, check
from extractor.checks.hit import mark_of
from extractor.errors import UsageError
from extractor.record import Basis, Coverage, HoldDown, Job, Origin, Source, WallType, readings

Row = TypeVar("Row", WallType, HoldDown)


def merged(old: Job, new: Job) -> Job:
    """``old`` with the sheets of ``new`` in place of its sheets of the same number; pages of ``new`` count on after ``old``'s."""
    numbers = {_tidy(sheet.number) for sheet in new.sheets}
    if "" in numbers:
        raise UsageError("A sheet of the reissued plans has no number that could be read.", where=new.plan_set.file,
                         do="Put the set together by hand and compare whole sets.")  # fmt: skip
    moved = _moved(new, old.plan_set.pages)
    gone = {sheet.page for sheet in old.sheets if _tidy(sheet.number) in numbers}
    walls, holds = _rows(old.wall_types, moved.wall_types, gone), _rows(old.hold_downs, moved.hold_downs, gone)
    codes = {one.code for one in CHECKS}
    findings = [one for one in old.findings if not _at(one.source, gone)] + list(moved.findings)
    job = Job(
        plan_set=old.plan_set.model_copy(update={
            "file": f"{old.plan_set.file} with {', '.join(sheet.number or '' for sheet in new.sheets)} of {new.plan_set.file}",
            "sha256": hashlib.sha256(f"{old.plan_set.sha256}+{new.plan_set.sha256}".encode()).hexdigest(),
            "pages": old.plan_set.pages + new.plan_set.pages}),
        sheets=(*(sheet for sheet in old.sheets if sheet.page not in gone), *moved.sheets),
        wall_types=walls,
        hold_downs=holds,
        plan_marks=(*(mark for mark in old.plan_marks if mark.page not in gone), *moved.plan_marks),
        findings=tuple(one for one in findings if one.code not in codes),
        coverage=_coverage(old.coverage, moved.coverage, gone),
        basis=_basis(old.basis, moved.basis, gone),
    )  # fmt: skip
    return job.model_copy(update={"findings": check(job)})


def _basis(old: Basis, new: Basis, gone: set[int]) -> Basis:
    """What the notes say on the sheets that stay and on the new ones, each different value once."""
    return Basis.model_validate(
        {
            name: tuple(
                {
                    one.value: one
                    for one in (*getattr(new, name), *(one for one in getattr(old, name) if one.source.page not in gone))
                }.values()
            )
            for name in Basis.model_fields
        }
    )


def _rows(old: Iterable[Row], new: Iterable[Row], gone: set[int]) -> tuple[Row, ...]:
    """The rows that stay, with the new rows where the first of those that go stood."""
    before: list[Row] = []
    after: list[Row] = []
    here: list[Row] = before
    for row in old:
        if row.mark.source.page in gone:
            here = after
            _refuse_unmet(row, gone)
            continue
        _refuse_lost(row, gone)
        here.append(row)
    before.extend(new)
    before.extend(after)
    return tuple(before)


def _refuse_lost(row: WallType | HoldDown, gone: set[int]) -> None:
    for name, one in readings(row):
        if any(_at(part.source, gone) for part in (one, *one.also)):
            raise _again(f"{mark_of(row)} stays, and its {name} came from sheet {one.source.sheet}, which is reissued")


def _refuse_unmet(row: WallType | HoldDown, gone: set[int]) -> None:
    for name, one in readings(row):
        for part in (one, *one.also):
            if part.origin is not Origin.ANSWER and not _at(part.source, gone):
                sheet = part.source.sheet or f"page {part.source.page}"
                raise _again(f"{mark_of(row)} is reissued, and its {name} came from sheet {sheet}, which stays. The new rows "
                             "have not met what stands there")  # fmt: skip


def _again(what: str) -> UsageError:
    do = "Name the PDFs of both plan sets instead of records."
    return UsageError(f"{what}. A record cannot be read again.", where="--reissue", do=do)


def _coverage(old: Coverage, new: Coverage, gone: set[int]) -> Coverage:
    return Coverage(
        pages_read=(*(page for page in old.pages_read if page not in gone), *new.pages_read),
        sheets_without_text=(*(page for page in old.sheets_without_text if page not in gone), *new.sheets_without_text),
        blocks_not_read=(*(one for one in old.blocks_not_read if not _at(one.source, gone)), *new.blocks_not_read),
        words_not_used=(*(one for one in old.words_not_used if not _at(one.source, gone)), *new.words_not_used),
    )


def _at(source: Source | None, pages: set[int]) -> bool:
    return source is not None and source.page in pages


def _tidy(number: str | None) -> str:
    return "".join((number or "").upper().split())


def _moved(job: Job, by: int) -> Job:
    """The job with each page counted ``by`` further; messages stay as they are."""
    return Job.model_validate(_shifted(job.model_dump(), by))


def _shifted(part: Any, by: int) -> Any:
    if isinstance(part, dict):
        return {name: value + by if name == "page" else tuple(page + by for page in value)
                if name in ("pages_read", "sheets_without_text") else _shifted(value, by)
                for name, value in part.items()}  # fmt: skip
    return tuple(_shifted(one, by) for one in part) if isinstance(part, (tuple, list)) else part
