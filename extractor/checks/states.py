"""Values that are printed and cannot be used: not understood, sent elsewhere, or said twice differently."""

from collections.abc import Iterator
from typing import NamedTuple

import regex as re

from extractor.checks.fields import BEFORE, LABELS, NEEDED, step
from extractor.checks.hit import MANY, Hit, hold_down_name, listed, mark_of, place, printed
from extractor.record import HoldDown, Job, Level, Reading, State, WallType, readings

ELSEWHERE = re.compile(r"(?:/|\b(?:SHEETS?|SEE|ON|PER)\s+)([A-Z]{1,2}-?\d{1,3}(?:\.\d{1,2})?)\b", re.I)
PLANS = re.compile(r"\bPLANS?\b|\bPLN\b", re.I)
NEEDED_OF_HOLD_DOWNS = ("model", "post", "anchor.diameter_in", "anchor.embedment_in")


def unreadable_value(job: Job) -> Iterator[Hit]:
    """Words stand in the row and no value could be read from them.

    Why: a number that somebody thinks the words mean is a guess.
    Fires: "S/32" for the sheathing thickness; once for three rows or more with the same words. Silent: words of the row that
    belong to no field; milder for the capacity, which nobody builds from.
    Source: common practice, no source.
    """
    for mark, who, record, field, label, found, _ in _doubtful(job, State.UNREADABLE):
        yield Hit(
            f"{who}: the {label} is unreadable: {printed(found)} gives no value. Look at "
            f"{place(found.source)}, and ask the engineer if the sheet does not settle it.",
            found.source,
            field,
            mark,
            None if _needed(record, field) else Level.ASK,
        )


def value_elsewhere(job: Job) -> Iterator[Hit]:
    """The row sends the reader elsewhere and gives no value.

    Why: until somebody has looked there, the value is unknown; some of these places do not exist.
    Fires: "PER ENGINEER", and "SEE DTL 5/S5.1" where no sheet S5.1 is in the set. Milder where the place may well exist.
    Silent: hold-downs "PER PLAN" where the plans draw hold-downs.
    Source: common practice, no source.
    """
    drawn = any(mark.kind == "hold-down" for mark in job.plan_marks)
    for mark, who, record, field, label, found, many in _doubtful(job, State.DEFERRED):
        to_plans = bool(PLANS.search(found.as_printed))
        if to_plans and drawn and field == "hold_down.marks":
            continue
        absent = _absent_sheet(found.as_printed, job)
        exists = to_plans or (bool(ELSEWHERE.search(found.as_printed)) and not absent)
        why = f" Sheet {absent} is not in this plan set." if absent else ""
        needed = _needed(record, field)
        yield Hit(
            f"{who}: no value for the {label}: the row{'s refer' if many else ' refers'} to {printed(found)}.{why} "
            + (f"Look there before {BEFORE[step(field, '')]}." if exists else "Ask the engineer for it."),
            found.source,
            field,
            mark,
            (Level.ASK if needed else Level.NOTE) if exists else None if needed else Level.ASK,
        )


def conflicting_value(job: Job) -> Iterator[Hit]:
    """Two places on the plans give different values for one field.

    Why: whichever is built, the other may be the one that was meant.
    Fires: the row says 12 in, a note says 6 in for the same type. Silent: a note that yields to the row (U.N.O.); milder for
    the capacity, which nobody builds from.
    Source: common practice, no source.
    """
    for mark, who, _, field, label, found, _ in _doubtful(job, State.CONFLICT):
        others = ", ".join(f"{printed(other)} ({other.origin}, {place(other.source)})" for other in found.also)
        yield Hit(
            f"{who}: the plans conflict about the {label}: {printed(found)} ({found.origin}, "
            f"{place(found.source)}) against {others}. Ask the engineer which one is right.",
            found.source,
            field,
            mark,
            Level.ASK if field == "capacity" else None,
        )


class Doubt(NamedTuple):
    """A reading in doubt: the mark for its finding, the rows in words, the first of them, its field and what that is in words."""

    mark: str | None
    who: str
    record: WallType | HoldDown
    field: str
    label: str
    found: Reading[object]
    many: bool = False


def _doubtful(job: Job, state: State) -> Iterator[Doubt]:
    """Readings in doubt; the same words in the same field of many wall types are one doubt."""
    alike: dict[tuple[object, ...], list[Doubt]] = {}
    for wall in job.wall_types:
        for one in _of_row(mark_of(wall), wall, state):
            alike.setdefault((one.field, one.label, one.found.as_printed, _others(one.found)), []).append(one)
    for same in alike.values():
        if len(same) < MANY:
            yield from same
        else:
            yield same[0]._replace(mark=None, who=listed([mark_of(one.record) for one in same]), many=True)
    for hold_down in job.hold_downs:
        yield from _of_row(hold_down_name(job, mark_of(hold_down)), hold_down, state)


def _others(found: Reading[object]) -> tuple[object, ...]:
    return tuple((other.as_printed, other.source) for other in found.also)


def _of_row(mark: str | None, record: WallType | HoldDown, state: State) -> Iterator[Doubt]:
    """One doubt for each cell: words that stand for size and spacing of one anchor are one, and the spacing speaks for them."""
    cells: dict[tuple[object, ...], list[tuple[str, Reading[object]]]] = {}
    for field, found in readings(record):
        if found.state is state and "[" not in field:
            one_cell = (found.as_printed, found.source) if state is not State.CONFLICT else field
            cells.setdefault((field.split(".")[0], one_cell), []).append((field, found))
    for same in cells.values():
        field, found = next((pair for pair in same if pair[0].endswith("spacing_in")), same[0])
        yield Doubt(mark, _name(record), record, field, listed([LABELS.get(name, name) for name, _ in same]), found)


def _name(record: WallType | HoldDown) -> str:
    return f"Hold-down {mark_of(record)}" if isinstance(record, HoldDown) else mark_of(record)


def _needed(record: WallType | HoldDown, field: str) -> bool:
    return field in (NEEDED_OF_HOLD_DOWNS if isinstance(record, HoldDown) else NEEDED) or field == "mark"


def _absent_sheet(words: str, job: Job) -> str | None:
    """The sheet that the words name and that is not in the set; None while a sheet's number is not known."""
    known = {sheet.number.upper() for sheet in job.sheets if sheet.number}
    if not known or any(sheet.number is None for sheet in job.sheets):
        return None
    named = [m[1].upper() for m in ELSEWHERE.finditer(words)]
    return next((sheet for sheet in named if sheet not in known), None)
