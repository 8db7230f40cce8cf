"""A good schedule of invented walls, and ways to spoil it one field at a time."""

from collections.abc import Iterable
from typing import Any

from extractor.checks import CHECKS
from extractor.record import (
    Basis,
    Capacity,
    Coverage,
    Finding,
    HoldDown,
    Job,
    Origin,
    PlanMark,
    PlanSetRecord,
    Reading,
    SheetRecord,
    Source,
    State,
    WallType,
)

PLACE = Source(page=3, sheet="S3.1", box=(100, 200, 140, 212))
NOTE = Source(page=1, sheet="S1.0", box=(50, 60, 90, 72))
GOOD: dict[str, Any] = {
    "sheathing.thickness_in": 15 / 32,
    "sheathing.material": "plywood",
    "sheathing.grade": "rated sheathing",
    "sheathing.faces": 1,
    "fastener.kind": "nail",
    "fastener.penny": "8d",
    "fastener.style": "common",
    "fastener.diameter_in": 0.131,
    "fastener.length_in": 2.5,
    "edge.spacing_in": 6,
    "field.spacing_in": 12,
    "framing.panel_edge": "2x",
    "framing.blocked": True,
    "framing.sill": "2x",
    "anchors.kind": "anchor bolt",
    "anchors.diameter_in": 5 / 8,
    "anchors.spacing_in": 48,
    "anchors.embedment_in": 7,
    "anchors.washer_in": (3, 3, 0.229),
    "bottom_plate.penny": "16d",
    "bottom_plate.spacing_in": 6,
    "top_plate.connector": "(1) QC-9 EA. BLOCK",
    "hold_down.marks": ("HD1",),
    "capacity": ((260, "seismic", "ASD"),),
}

HOLD_DOWN: dict[str, Any] = {
    "model": "KT-22",
    "post": "4x4",
    "fasteners": "(10) 1/4 SCREWS",
    "capacity_lb": 3075,
    "anchor.diameter_in": 5 / 8,
    "anchor.embedment_in": 12,
}


def read(value: Any, words: str | None = None) -> Reading[Any]:
    """A value read off the row."""
    return Reading(value=value, as_printed=words or f"{value}", state=State.READ, origin=Origin.SCHEDULE, source=PLACE)


def none(words: str = "-") -> Reading[Any]:
    """The row says that there is none."""
    return Reading(value=None, as_printed=words, state=State.NONE, origin=Origin.SCHEDULE, source=PLACE)


def elsewhere(words: str) -> Reading[Any]:
    """The row sends the reader elsewhere."""
    return Reading(value=None, as_printed=words, state=State.DEFERRED, origin=Origin.SCHEDULE, source=PLACE)


def unreadable(words: str) -> Reading[Any]:
    """Words that were not understood."""
    return Reading(value=None, as_printed=words, state=State.UNREADABLE, origin=Origin.SCHEDULE, source=PLACE)


def conflict(value: Any, words: str, other: Any, other_words: str) -> Reading[Any]:
    """The row says one thing, a note another."""
    note = Reading(value=other, as_printed=other_words, state=State.READ, origin=Origin.NOTE, source=NOTE)
    return Reading(value=value, as_printed=words, state=State.CONFLICT, origin=Origin.SCHEDULE, source=PLACE, also=(note,))


def wall(mark: str = "SW1", changes: dict[str, Any] | None = None, *, other: Iterable[str] = ()) -> WallType:
    """A good wall type with some fields changed; None takes a field out."""
    made = _nested({"mark": mark, **GOOD, **(changes or {})})
    return WallType.model_validate({**made, "other": tuple(read(words) for words in other)})


def hold_down(mark: str = "HD1", changes: dict[str, Any] | None = None) -> HoldDown:
    """A good row of the hold-down table with some fields changed."""
    return HoldDown.model_validate(_nested({"mark": mark, **HOLD_DOWN, **(changes or {})}))


def drawn(mark: str, kind: Any = "wall", times: int = 1, lengths: tuple[float | None, ...] = ()) -> PlanMark:
    """A mark on a plan sheet."""
    boxes = tuple((10.0, 10.0 * i, 20.0, 10.0 * i + 8) for i in range(times))
    return PlanMark(mark=mark, kind=kind, page=2, sheet="S2.1", boxes=boxes, lengths_in=lengths)


def notes(**said: tuple[Any, ...]) -> Basis:
    """What the notes say about the whole job."""
    made = {
        name: tuple(Reading(value=one, as_printed=f"{one}", state=State.READ, origin=Origin.NOTE, source=NOTE) for one in values)
        for name, values in said.items()
    }
    return Basis.model_validate(made)


def job(*rows: WallType | HoldDown | PlanMark, **more: Any) -> Job:
    """A job of these rows. Unless given: every wall type is drawn once, and HD1 is in the hold-down table."""
    walls = tuple(row for row in rows if isinstance(row, WallType))
    hold_downs = tuple(row for row in rows if isinstance(row, HoldDown)) or (hold_down(),)
    marks = tuple(row for row in rows if isinstance(row, PlanMark)) or tuple(
        drawn(mark) for mark in dict.fromkeys(row.mark.as_printed for row in walls)
    )
    sheets = tuple(
        SheetRecord(page=page, number=number, revision="1", date="2026-01-02")
        for page, number in enumerate(("S1.0", "S2.1", "S3.1"), 1)
    )
    given: dict[str, Any] = {
        "hold_downs": hold_downs,
        "plan_marks": marks,
        "sheets": sheets,
        "coverage": Coverage(),
        "basis": notes(codes=("IBC-2018",)),
        **more,
    }
    return Job(plan_set=PlanSetRecord(file="plans.pdf", sha256="0" * 64, pages=3), wall_types=walls, **given)


def found(code: str, plans: Job) -> list[Finding]:
    """What one check finds."""
    return next(check for check in CHECKS if check.code == code).findings(plans)


def _nested(flat: dict[str, Any]) -> dict[str, Any]:
    made: dict[str, Any] = {}
    for name, value in flat.items():
        *groups, leaf = name.split(".")
        at = made
        for group in groups:
            at = at.setdefault(group, {})
        if value is not None:
            at[leaf] = value if isinstance(value, Reading) else read(_capacities(value) if leaf == "capacity" else value)
    return made


def _capacities(stated: tuple[tuple[Any, ...], ...]) -> tuple[Capacity, ...]:
    return tuple(
        Capacity(plf=read(plf), load=read(load) if load else None, method=read(method) if method else None)
        for plf, load, method in stated
    )
