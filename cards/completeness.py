"""What a complete set of shear wall plans tells, and whether this one does: yes, no, not found, or not looked for.

The list is common practice with one building department's demands for a lateral plan. It counts what was read; a yes is no
approval, and what the reader does not look for is never a yes.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cards.papers import drawn
from extractor.checks.hit import listed, mark_key, mark_of
from extractor.record import HoldDown, Job, Reading, State, WallType, readings

YES, NO, NOT_FOUND, LOOK = "YES", "NO", "NOT FOUND", "LOOK YOURSELF"
SHOWN = 5  # marks named behind a NO; the rest is counted
_USED = (State.READ, State.NONE)  # the plans say it, or say that there is none
_COUNT = re.compile(r"^\(?\d{1,2}\)\s*")


@dataclass(frozen=True)
class Told:
    """One line of the list: the answer, what it is about, and what it rests on."""

    answer: str
    what: str
    why: str = ""


def told(job: Job) -> tuple[Told, ...]:
    """The list for one job."""
    return tuple((*_marks(job), *_walls(job), *_holds(job), *_rest(job)))


def complete(wall: WallType) -> bool:
    """Whether a wall type's row, with its notes, tells panel, nail, spacings, blocking, joint, sill, anchors and hold-down."""
    return all(_given(wall, fields) for _, fields in _NEEDS)


_NEEDS = (
    ("Edge and field nailing", ("edge.spacing_in", "field.spacing_in")),
    ("Nail length and diameter", ("fastener.length_in", "fastener.diameter_in")),
    ("Sheathing thickness and kind or grade", ("sheathing.thickness_in", "sheathing.material|sheathing.grade")),
    ("One side or both", ("sheathing.faces",)),
    ("Blocking", ("framing.blocked",)),
    ("Stud where panels meet", ("framing.panel_edge",)),
    ("Sill anchors or plate nailing", ("anchors.diameter_in|bottom_plate.penny", "anchors.spacing_in|bottom_plate.spacing_in")),
    ("Hold-downs", ("hold_down.marks",)),
)
_OFTEN_ELSEWHERE = (
    ("Sill plate size", ("framing.sill",)),
    ("Plate washers", ("anchors.washer_in",)),
    ("Sill anchor embedment", ("anchors.embedment_in",)),
    ("Sill nailing on upper floors", ("bottom_plate.spacing_in",)),
    ("Top connection", ("top_plate.connector",)),
)


def _given(wall: WallType, fields: Sequence[str]) -> bool:
    """Whether each field is told; "a|b" is one of two, and a staple's gauge stands for a nail's diameter."""
    known = dict(readings(wall))
    kind = known.get("fastener.kind")
    if kind and kind.value == "staple":
        fields = ["fastener.gauge" if field == "fastener.diameter_in" else field for field in fields]
    return all(any(_used(known.get(name)) for name in field.split("|")) for field in fields)


def _used(reading: Reading[object] | None) -> bool:
    return reading is not None and reading.state in _USED


def _marks(job: Job) -> Iterator[Told]:
    walls, holds = drawn(job, "wall"), drawn(job, "hold-down")
    rows = {mark_key(mark_of(wall)): mark_of(wall) for wall in job.wall_types}
    table = {mark_key(name): mark_of(row) for row in job.hold_downs for name in _names(row)}
    named = [mark for wall in job.wall_types if wall.hold_down.marks for mark in wall.hold_down.marks.value or ()]
    used = {mark_key(_COUNT.sub("", mark)): mark for mark in [*(mark for mark, _ in holds.values()), *named]}
    bare = [mark for key, (mark, _) in walls.items() if key not in rows]
    yield _told("Every wall mark has a row", bare, bool(walls), "no row: ")
    undrawn = [mark for key, mark in rows.items() if key not in walls]
    yield _told("Every row is drawn", undrawn, bool(walls and rows), "not drawn: ")
    yield _told("Every hold-down has a row", [mark for key, mark in used.items() if key not in table], bool(used), "no row: ")


def _names(row: HoldDown) -> list[str]:
    names = [mark_of(row)] + ([str(row.model.value)] if row.model and row.model.value else [])
    return [_COUNT.sub("", name) for name in names]


def _told(what: str, lacking: Sequence[str], found: bool, lead: str) -> Told:
    if not found:
        return Told(NOT_FOUND, what)
    return Told(NO, what, lead + _some(lacking)) if lacking else Told(YES, what)


def _some(marks: Sequence[str]) -> str:
    marks = list(dict.fromkeys(marks))
    return ", ".join(marks) if len(marks) <= SHOWN else f"{', '.join(marks[:SHOWN])} and {len(marks) - SHOWN} more"


def _walls(job: Job) -> Iterator[Told]:
    """What rows and notes tell for each wall type."""
    for what, fields in (*_NEEDS, *_OFTEN_ELSEWHERE):
        lacking = [mark_of(wall) for wall in job.wall_types if not _given(wall, fields)]
        names = [name for field in fields for name in field.split("|")]
        said = any(dict(readings(wall)).get(name) for wall in job.wall_types for name in names)
        yield _told(what, lacking, said, "not for: ")


def _holds(job: Job) -> Iterator[Told]:
    """What the hold-down table tells for each of its rows."""
    asked = (("Hold-down anchor and embedment", ("anchor.diameter_in", "anchor.embedment_in")), ("Hold-down post", ("post",)))
    for what, fields in asked:
        lacking = [mark_of(row) for row in job.hold_downs if not all(_used(dict(readings(row)).get(name)) for name in fields)]
        yield _told(what, lacking, len(lacking) < len(job.hold_downs), "not for: ")


def _rest(job: Job) -> Iterator[Told]:
    """Lengths, sheets, and what only a person can look for."""
    walls = [mark for mark in job.plan_marks if mark.kind == "wall"]
    total = sum(len(mark.boxes) for mark in walls)
    long = sum(length is not None for mark in walls for length in mark.lengths_in)
    answer = NOT_FOUND if not long else YES if long == total else NO
    yield Told(answer, "Length of every wall", f"{long} of {total} marks" * bool(long))
    bare = [mark_of(wall) for wall in job.wall_types if wall.capacity and not all(one.load and one.method for one in
            wall.capacity.value or ())]  # fmt: skip
    yield _told("Basis of capacities", bare, any(wall.capacity for wall in job.wall_types), "load or method open: ")
    titled = [sheet for sheet in job.sheets if "SPECIAL INSPECTION" in (sheet.title or "").upper()]
    special = [sheet.number or f"page {sheet.page}" for sheet in titled]
    yield Told(YES if special else NOT_FOUND, "Special inspection sheet, by its title", listed(special))
    editions = listed([one.as_printed for one in job.basis.codes]) if job.basis.codes else ""
    yield Told(YES if editions else NOT_FOUND, "Code edition", editions)
    for what in ("Openings, drag struts and straps", "Perforated or force-transfer walls named"):
        yield Told(LOOK, what)
