"""The job record: what was read off a plan set, every value with the words it was read from and their place.

One plan set gives one `Job`, which is written as JSON (``nailcard read --out job.json``) and read back equal. Every value
that came off a drawing is a `Reading`; a field that the plans do not give is None. Nothing here is ever filled by custom.
"""

from collections.abc import Iterator
from enum import StrEnum
from typing import Annotated, Final, Generic, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field, model_validator

FORMAT: Final = "nailcard.job/1"


class Record(BaseModel):
    """A frozen record that takes no unknown keys."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class State(StrEnum):
    """What a reading is worth."""

    READ = "read"
    NONE = "none"  # the plans say there is none
    DEFERRED = "deferred"  # the plans send the reader elsewhere
    UNREADABLE = "unreadable"  # printed, not understood
    CONFLICT = "conflict"  # two places disagree


class Origin(StrEnum):
    """How a value got into its field."""

    SCHEDULE = "schedule"
    NOTE = "note"
    LEGEND = "legend"
    ANSWER = "answer"


class Level(StrEnum):
    """How much a finding weighs: don't build yet, ask, or know."""

    STOP = "stop"
    ASK = "ask"
    NOTE = "note"


Box = tuple[float, float, float, float]
"""x0, top, x1, bottom in PDF points from the top left of the page as a reader sees it (after /Rotate)."""


class Source(Record):
    """Where words stand: page counted from 1, sheet number as printed, and the box round the words."""

    page: Annotated[int, Field(ge=1)]
    sheet: str | None
    box: Box


T = TypeVar("T")


class Reading(Record, Generic[T]):
    """A value, the words it was read from, and where they stand.

    ``value`` is None where the words were not understood (``unreadable``), send the reader elsewhere (``deferred``) or say
    that there is none (``none``; a list is then empty). In a ``conflict`` it is the schedule row's own, and ``also`` holds
    the readings that differ.
    """

    value: T | None
    as_printed: Annotated[str, Field(min_length=1)]
    state: State
    origin: Origin
    source: Source
    also: tuple["Reading[T]", ...] = ()

    @model_validator(mode="after")
    def _state_fits_value(self) -> "Reading[T]":
        if self.state is State.READ and self.value is None:
            raise ValueError("a reading in state read has a value")
        if self.state in (State.UNREADABLE, State.DEFERRED) and self.value is not None:
            raise ValueError(f"a reading in state {self.state} has no value")
        if self.state is State.NONE and self.value not in (None, ()):
            raise ValueError("a reading in state none has no value")
        if (self.state is State.CONFLICT) != bool(self.also):
            raise ValueError("a conflict has the other readings in also, and nothing else has any")
        return self


Inches = Annotated[float, Field(gt=0, le=240, allow_inf_nan=False)]
Material = Literal["plywood", "osb", "wood structural panel", "gypsum", "fiberboard", "other"]
Grade = Literal["structural 1", "rated sheathing"]
Load = Literal["seismic", "wind"]
Method = Literal["ASD", "LRFD", "nominal"]


class Sheathing(Record):
    """The panel: thickness in inches, what it is, how many faces of the wall it covers."""

    thickness_in: Reading[Inches] | None = None
    material: Reading[Material] | None = None
    grade: Reading[Grade] | None = None
    faces: Reading[Literal[1, 2]] | None = None


class Fastener(Record):
    """The nail, staple or screw, as given on the plans only; a published diameter belongs to a check."""

    kind: Reading[Literal["nail", "staple", "screw"]] | None = None
    penny: Reading[str] | None = None
    style: Reading[str] | None = None
    diameter_in: Reading[Inches] | None = None
    length_in: Reading[Inches] | None = None
    gauge: Reading[int] | None = None


class EdgeNailing(Record):
    """Nailing at panel edges, inches on center."""

    spacing_in: Reading[Inches] | None = None
    rows: Reading[int] | None = None
    staggered: Reading[bool] | None = None


class FieldNailing(Record):
    """Nailing at intermediate framing, inches on center."""

    spacing_in: Reading[Inches] | None = None


class Framing(Record):
    """Framing at abutting panel edges ("2x", "3x", "2-2x", alternatives joined by " or "), blocking, sill plate."""

    panel_edge: Reading[str] | None = None
    blocked: Reading[bool] | None = None
    sill: Reading[str] | None = None


class Anchors(Record):
    """Sill anchorage to concrete; a plate washer is sides first, thickness last, in inches."""

    kind: Reading[Literal["anchor bolt", "screw anchor", "strap anchor", "epoxy rod"]] | None = None
    diameter_in: Reading[Inches] | None = None
    spacing_in: Reading[Inches] | None = None
    embedment_in: Reading[Inches] | None = None
    washer_in: Reading[tuple[Inches, ...]] | None = None


class BottomPlate(Record):
    """Bottom plate to rim or floor framing."""

    penny: Reading[str] | None = None
    spacing_in: Reading[Inches] | None = None


class TopPlate(Record):
    """Shear transfer at the top: hardware or nailing as marked on the plans."""

    connector: Reading[str] | None = None
    spacing_in: Reading[Inches] | None = None


class WallHoldDowns(Record):
    """Hold-down marks or models named in the row; an empty list in state none where the row says none."""

    marks: Reading[tuple[str, ...]] | None = None


class Capacity(Record):
    """One stated shear capacity in pounds per foot; load and method are None where nothing on the plans says them."""

    plf: Reading[Annotated[float, Field(gt=0)]]
    load: Reading[Load] | None = None
    method: Reading[Method] | None = None


class WallType(Record):
    """One row of the shear wall schedule. The mark is the one as printed, its symbol left out."""

    mark: Reading[str]
    sheathing: Sheathing = Sheathing()
    fastener: Fastener = Fastener()
    edge: EdgeNailing = EdgeNailing()
    field: FieldNailing = FieldNailing()
    framing: Framing = Framing()
    anchors: Anchors = Anchors()
    bottom_plate: BottomPlate = BottomPlate()
    top_plate: TopPlate = TopPlate()
    hold_down: WallHoldDowns = WallHoldDowns()
    capacity: Reading[tuple[Capacity, ...]] | None = None
    other: tuple[Reading[str], ...] = ()


class HoldDownAnchor(Record):
    """The rod or bolt under a hold-down, inches."""

    diameter_in: Reading[Inches] | None = None
    embedment_in: Reading[Inches] | None = None


class HoldDown(Record):
    """One row of the hold-down table."""

    mark: Reading[str]
    model: Reading[str] | None = None
    post: Reading[str] | None = None
    fasteners: Reading[str] | None = None
    capacity_lb: Reading[Annotated[float, Field(gt=0)]] | None = None
    anchor: HoldDownAnchor = HoldDownAnchor()
    other: tuple[Reading[str], ...] = ()


class PlanMark(Record):
    """A mark drawn on one plan sheet: a box for each time it is drawn, in reading order."""

    mark: str
    kind: Literal["wall", "hold-down"]
    page: int
    sheet: str | None
    boxes: tuple[Box, ...]
    lengths_in: tuple[float | None, ...] = ()


class SheetRecord(Record):
    """One page of the plan set, from its title block; date as ISO where it was understood."""

    page: int
    number: str | None = None
    title: str | None = None
    revision: str | None = None
    date: str | None = None
    text: Literal["drawn", "annotations", "ocr", "none"] = "drawn"


class Finding(Record):
    """Something missing, unclear or contradictory; code is a short name in words, field a dotted field name."""

    code: str
    level: Level
    wall_type: str | None = None
    field: str | None = None
    message: str
    source: Source | None = None
    citation: str | None = None


class UnreadBlock(Record):
    """A table or block that was seen and not read, and why."""

    title: str
    why: str
    source: Source


class UnusedWords(Record):
    """Words inside a schedule that ended in no value."""

    as_printed: str
    source: Source


class Coverage(Record):
    """What was seen and not read; silence about it would be the worst error."""

    pages_read: tuple[int, ...] = ()
    sheets_without_text: tuple[int, ...] = ()
    blocks_not_read: tuple[UnreadBlock, ...] = ()
    words_not_used: tuple[UnusedWords, ...] = ()


class PlanSetRecord(Record):
    """The file or files, their digest and how many pages they have."""

    file: str
    sha256: str
    pages: int


class Basis(Record):
    """What the notes say about the whole job, each different value once; empty where nothing was found."""

    codes: tuple[Reading[str], ...] = ()
    categories: tuple[Reading[str], ...] = ()
    lumber: tuple[Reading[str], ...] = ()
    stud_spacing_in: tuple[Reading[Inches], ...] = ()
    nail_edge_in: tuple[Reading[Inches], ...] = ()


class Job(Record):
    """Everything that was read off one plan set."""

    format: Literal["nailcard.job/1"] = FORMAT
    plan_set: PlanSetRecord
    sheets: tuple[SheetRecord, ...] = ()
    wall_types: tuple[WallType, ...] = ()
    hold_downs: tuple[HoldDown, ...] = ()
    plan_marks: tuple[PlanMark, ...] = ()
    findings: tuple[Finding, ...] = ()
    coverage: Coverage = Coverage()
    basis: Basis = Basis()

    def to_json(self) -> str:
        """The document as JSON text, indented, ending in a newline."""
        return self.model_dump_json(indent=1) + "\n"


def readings(record: Record, prefix: str = "") -> Iterator[tuple[str, Reading[object]]]:
    """Each reading of a wall type or hold-down with its dotted field name, in the order of the record.

    >>> [name for name, _ in readings(wall)]  # doctest: +SKIP
    ['mark', 'sheathing.thickness_in', 'edge.spacing_in', 'other[0]']
    """
    for name in type(record).model_fields:
        value = getattr(record, name)
        if isinstance(value, Reading):
            yield prefix + name, value
        elif isinstance(value, tuple):
            yield from ((f"{prefix}{name}[{i}]", item) for i, item in enumerate(value) if isinstance(item, Reading))
        elif isinstance(value, Record):
            yield from readings(value, f"{prefix}{name}.")
