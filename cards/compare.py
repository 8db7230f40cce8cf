"""Two jobs -> what changed between them: rows, sheets, marks on plans, findings, and what the comparison could not see."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Any, Literal

from cards import numbers
from cards.changed import Asked, Compared, CountChange, Plans, SheetChange
from cards.findings import numbered
from cards.rowchanges import revision, row_changes, with_hold_downs, words_of
from cards.words import Words
from extractor.checks.hit import place
from extractor.record import Basis, Finding, Job, Reading, SheetRecord


def compare(old: Job, new: Job) -> Compared:
    """What changed from ``old`` to ``new``."""
    holds = tuple(row_changes(old, old.hold_downs, new.hold_downs))
    walls = tuple(with_hold_downs(row, old, new, holds) for row in row_changes(old, old.wall_types, new.wall_types))
    opened, closed = _findings(old, new)
    return Compared(
        old=_plans(old), new=_plans(new), rows=(*walls, *holds), sheets=tuple(_sheets(old, new)),
        counts=tuple(_counts(old, new)), notes=tuple(_notes(old, new)),
        opened=opened, closed=closed, warnings=tuple(_warnings(old, new)),
    )  # fmt: skip


def schedule_sheets(job: Job) -> tuple[SheetRecord, ...]:
    """The sheets that the rows of the shear wall schedule stand on, in order."""
    pages = dict.fromkeys(wall.mark.source.page for wall in job.wall_types)
    by_page = {sheet.page: sheet for sheet in job.sheets}
    return tuple(by_page.get(page) or SheetRecord(page=page) for page in pages)


def _plans(job: Job) -> Plans:
    return Plans(file=job.plan_set.file, sha256=job.plan_set.sha256, pages=job.plan_set.pages,
                 schedule="; ".join(revision(sheet) for sheet in schedule_sheets(job)))  # fmt: skip


def _sheets(old: Job, new: Job) -> Iterator[SheetChange]:
    before, now = _numbered_sheets(old), _numbered_sheets(new)
    for name, sheet in now.items():
        was = before.get(name)
        if was is None:
            yield SheetChange(sheet=name, status="added", what=f"{revision(sheet)}{_titled(sheet)}")
        elif what := list(_sheet_lines(was, sheet)):
            yield SheetChange(sheet=name, status="changed", what="; ".join(what))
    for name, sheet in before.items():
        if name not in now:
            yield SheetChange(sheet=name, status="dropped", what=f"{revision(sheet)}{_titled(sheet)}")


def _numbered_sheets(job: Job) -> dict[str, SheetRecord]:
    return {words_of(sheet.number).upper(): sheet for sheet in reversed(job.sheets) if sheet.number}


def _titled(sheet: SheetRecord) -> str:
    return f", {sheet.title}" if sheet.title else ""


def _sheet_lines(old: SheetRecord, new: SheetRecord) -> Iterator[str]:
    date = Words("en").date
    if old.revision != new.revision:
        yield f"revision {old.revision or 'not found'} is now {new.revision or 'not found'}"
    if old.date != new.date:
        was, now = (date(one.date) if one.date else "not found" for one in (old, new))
        yield f"date {was} is now {now}"
    if words_of(old.title or "") != words_of(new.title or ""):
        yield f"title “{old.title or ''}” is now “{new.title or ''}”"
    if old.text != new.text:
        yield f"its text was {old.text} and is now {new.text}"


def _counts(old: Job, new: Job) -> Iterator[CountChange]:
    before, now = _drawn(old), _drawn(new)
    for key in sorted({*before, *now}, key=lambda one: (one[0] != "wall", one[2], one[1])):
        if before[key] != now[key]:
            yield CountChange(kind=key[0], mark=key[1], sheet=key[2], old=before[key], new=now[key])


def _drawn(job: Job) -> Counter[tuple[Literal["wall", "hold-down"], str, str]]:
    found: Counter[tuple[Literal["wall", "hold-down"], str, str]] = Counter()
    for mark in job.plan_marks:
        found[mark.kind, mark.mark, mark.sheet or f"page {mark.page}"] += len(mark.boxes)
    return found


ABOUT_ALL = {"codes": "code edition", "categories": "seismic design category", "lumber": "lumber",
             "stud_spacing_in": "stud spacing", "nail_edge_in": "distance of nails to panel edges"}  # fmt: skip


def _notes(old: Job, new: Job) -> Iterator[str]:
    """What notes say about the whole job, where the values differ."""
    for name in Basis.model_fields:
        before, now = getattr(old.basis, name), getattr(new.basis, name)
        if {one.value for one in before} != {one.value for one in now}:
            yield f"{ABOUT_ALL[name]}: {_printed(before)} is now {_printed(now)}"


def _printed(every: Iterable[Reading[Any]]) -> str:
    return ", ".join(f"“{one.as_printed}” ({place(one.source)})" for one in every) or "not found"


def _findings(old: Job, new: Job) -> tuple[tuple[Asked, ...], tuple[Asked, ...]]:
    """Findings opened and closed. One that asks the same about the same is neither, wherever it stands now."""
    before = numbered(old)
    known = {entry.number: entry for entry in (*numbers.in_use(), *numbers.given(old.findings)) if entry}
    with numbers.using(tuple(known.values())):
        now = numbered(new)
    was, is_now = Counter(_asks(one) for _, one in before), Counter(_asks(one) for _, one in now)
    opened, closed = [], []
    for number, one in now:
        if was[_asks(one)]:
            was[_asks(one)] -= 1
        else:
            opened.append(_asked(number, one))
    for number, one in before:
        if is_now[_asks(one)]:
            is_now[_asks(one)] -= 1
        else:
            closed.append(_asked(number, one))
    return tuple(opened), tuple(closed)


def _asks(finding: Finding) -> tuple[object, ...]:
    return finding.code, finding.level, finding.wall_type, finding.field, "" if finding.wall_type else finding.message


def _asked(number: str | None, one: Finding) -> Asked:
    return Asked(number=number, level=one.level, wall_type=one.wall_type, message=one.message)


def _warnings(old: Job, new: Job) -> Iterator[str]:
    """What a reader has to know before trusting the comparison."""
    if old.plan_set.sha256 == new.plan_set.sha256:
        yield "Both are the same plan file: only answers can make a difference."
    for name, job in (("old", old), ("new", new)):
        for block in job.coverage.blocks_not_read:
            yield f"In the {name} plans “{block.title}” ({place(block.source)}) was not read and is not compared: {block.why}."
        if job.coverage.sheets_without_text:
            pages = ", ".join(map(str, job.coverage.sheets_without_text))
            yield f"In the {name} plans page {pages} holds no text and is not compared."
        if nameless := [str(sheet.page) for sheet in job.sheets if not sheet.number and sheet.text != "none"]:
            yield f"In the {name} plans page {', '.join(nameless)} has no sheet number that could be read: it is not matched."
    dated = {(sheet.revision, sheet.date) for sheet in schedule_sheets(new)}
    if len(dated) > 1:
        yield "The new plans mix revisions of the schedule: " + "; ".join(map(revision, schedule_sheets(new))) + "."
    yield from _backwards(old, new)


def _backwards(old: Job, new: Job) -> Iterable[str]:
    before, now = _numbered_sheets(old), _numbered_sheets(new)
    for sheet in schedule_sheets(new):
        was = before.get(words_of(sheet.number or "").upper())
        if was and was.date and sheet.date and sheet.number and now and sheet.date < was.date:
            yield (f"Sheet {sheet.number} of the new plans is dated {sheet.date}, that of the old plans {was.date}. Were they "
                   "named the wrong way round?")  # fmt: skip
