"""What a comparison of two plan sets gives, as records: rows, values, sheets, marks, findings."""

from typing import Literal

from extractor.record import Record, Source, State

Status = Literal["changed", "added", "withdrawn", "renumbered", "no change"]


class Side(Record):
    """What one of the two plan sets says: as understood, as printed, and where."""

    text: str
    as_printed: str
    state: State
    origin: str
    source: Source


class ValueChange(Record):
    """One field on both sides; None where a plan set does not give it. ``by_note`` where a note or a legend has a part in it."""

    field: str
    label: str
    old: Side | None
    new: Side | None
    by_note: bool = False
    why: str = ""


class RowChange(Record):
    """A wall type or hold-down: its status, its values that changed, those that only moved or were reworded.

    ``number`` is its place in the old schedule, as cards count; ``hold_downs`` are changed hold-downs that it names.
    """

    kind: Literal["wall type", "hold-down"]
    mark: str
    old_mark: str | None
    new_mark: str | None
    number: int | None
    status: Status
    values: tuple[ValueChange, ...] = ()
    moved: tuple[ValueChange, ...] = ()
    hold_downs: tuple[str, ...] = ()
    says: str = ""


class SheetChange(Record):
    """A sheet that was added or dropped, or whose revision, date or title changed; ``what`` says it in words."""

    sheet: str
    status: Literal["changed", "added", "dropped"]
    what: str


class CountChange(Record):
    """How often a mark is drawn on a sheet, before and now."""

    kind: Literal["wall", "hold-down"]
    mark: str
    sheet: str
    old: int
    new: int


class Asked(Record):
    """A finding that is new or gone, with the number of its question."""

    number: str | None
    level: str
    wall_type: str | None
    message: str


class Plans(Record):
    """One of the two plan sets."""

    file: str
    sha256: str
    pages: int
    schedule: str


class Compared(Record):
    """Everything that changed from ``old`` to ``new``; ``notes`` is what notes say about the whole job and now say otherwise."""

    old: Plans
    new: Plans
    rows: tuple[RowChange, ...]
    sheets: tuple[SheetChange, ...]
    counts: tuple[CountChange, ...]
    notes: tuple[str, ...]
    opened: tuple[Asked, ...]
    closed: tuple[Asked, ...]
    warnings: tuple[str, ...]

    @property
    def wall_types(self) -> tuple[RowChange, ...]:
        """The rows of the shear wall schedule."""
        return tuple(row for row in self.rows if row.kind == "wall type")

    @property
    def held(self) -> tuple[RowChange, ...]:
        """The rows of the hold-down table."""
        return tuple(row for row in self.rows if row.kind == "hold-down")
