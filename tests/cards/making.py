"""Invented wall types for card tests, and what a reader sees on a printed page."""

import io
from collections.abc import Iterator
from typing import Any

import pdfplumber

from extractor.record import (
    Anchors,
    BottomPlate,
    EdgeNailing,
    Fastener,
    FieldNailing,
    Finding,
    Framing,
    HoldDown,
    HoldDownAnchor,
    Job,
    Level,
    Origin,
    PlanMark,
    PlanSetRecord,
    Reading,
    Sheathing,
    SheetRecord,
    Source,
    State,
    TopPlate,
    WallHoldDowns,
    WallType,
)

PLACE = Source(page=4, sheet="S3.1", box=(100, 200, 140, 212))
NOTE_PLACE = Source(page=1, sheet="S-001", box=(50, 60, 90, 72))


def read(value: Any, words: str | None = None) -> Reading[Any]:
    return Reading(value=value, as_printed=words or f"{value}", state=State.READ, origin=Origin.SCHEDULE, source=PLACE)


def from_note(value: Any) -> Reading[Any]:
    return Reading(value=value, as_printed=f"{value}", state=State.READ, origin=Origin.NOTE, source=NOTE_PLACE)


def answered(value: Any, reference: str) -> Reading[Any]:
    return Reading(value=value, as_printed=reference, state=State.READ, origin=Origin.ANSWER, source=PLACE)


def silent(state: State, words: str) -> Reading[Any]:
    """A reading without a value: unreadable, deferred or none."""
    return Reading(value=None, as_printed=words, state=state, origin=Origin.SCHEDULE, source=PLACE)


def conflict(value: Any, other: Any) -> Reading[Any]:
    return Reading(value=value, as_printed=f"{value}", state=State.CONFLICT, origin=Origin.SCHEDULE, source=PLACE,
                   also=(from_note(other),))  # fmt: skip


def wall(mark: str = "SW4", **parts: Any) -> WallType:
    """A complete invented wall type; ``parts`` replace parts of it."""
    full: dict[str, Any] = {
        "sheathing": Sheathing(thickness_in=read(15 / 32), material=read("osb"), grade=read("rated sheathing"), faces=read(1)),
        "fastener": nail(),
        "edge": EdgeNailing(spacing_in=read(4.0)),
        "field": FieldNailing(spacing_in=read(12.0)),
        "framing": Framing(panel_edge=read("3x"), blocked=from_note(True), sill=read("2x")),
        "anchors": Anchors(kind=read("anchor bolt"), diameter_in=read(0.625), spacing_in=read(32.0), embedment_in=from_note(7.0),
                           washer_in=read((3.0, 3.0, 0.229))),
        "hold_down": WallHoldDowns(marks=read(("HD2",))),
    }  # fmt: skip
    return WallType(mark=read(mark), **{**full, **parts})


def nail(**parts: Any) -> Fastener:
    full = {"kind": read("nail"), "penny": read("8d"), "style": read("common"), "diameter_in": read(0.131),
            "length_in": read(2.5)}  # fmt: skip
    return Fastener(**{name: value for name, value in {**full, **parts}.items() if value is not None})


def full_wall(mark: str = "SW1") -> WallType:
    """A wall type with something in every line, and more words than a card has room for."""
    connector = read("KT-22 framing angle each side, (6) nails 0.131 x 1-1/2 each leg")
    return wall(mark, edge=EdgeNailing(spacing_in=read(2.0), rows=read(2), staggered=read(True)),
                bottom_plate=BottomPlate(penny=read("16d"), spacing_in=read(4.0)),
                top_plate=TopPlate(connector=connector, spacing_in=read(24.0)), other=(read("SEE 5/S4.1"),))  # fmt: skip


HOLD_DOWN = HoldDown(
    mark=read("HD2"), model=read("KT-22"), post=read("(2) 2x6"), fasteners=read("(16) 1/4 x 3 SCREWS"),
    anchor=HoldDownAnchor(diameter_in=read(0.625), embedment_in=read(12.0)), capacity_lb=read(3075.0),
)  # fmt: skip


def finding(field: str | None, mark: str | None = "SW4", level: str = "stop", code: str = "missing-value",
            message: str = "It is not in the row. Ask the engineer.") -> Finding:  # fmt: skip
    return Finding(code=code, level=Level(level), wall_type=mark, field=field, message=message)


def job(*walls: WallType, findings: tuple[Finding, ...] = (), drawn: tuple[PlanMark, ...] = (), file: str = "kestrel-lot-7.pdf",
        holds: tuple[HoldDown, ...] = (HOLD_DOWN,)) -> Job:  # fmt: skip
    return Job(
        plan_set=PlanSetRecord(file=file, sha256="c0ffee12" * 8, pages=9),
        sheets=(SheetRecord(page=4, number="S3.1", title="SCHEDULES", revision="2", date="2026-05-12"),),
        wall_types=walls,
        hold_downs=holds,
        findings=findings,
        plan_marks=drawn,
    )


def spoiled() -> Job:
    """A wall type for each value state, and two that are fine."""
    walls = (
        wall("SW1"),
        wall("SW2", edge=EdgeNailing(spacing_in=conflict(4.0, 6.0))),
        wall("SW3", edge=EdgeNailing(spacing_in=silent(State.UNREADABLE, '4?"')),
             fastener=nail(length_in=None, diameter_in=None)),
        wall("SW4", field=FieldNailing(), fastener=Fastener(), framing=Framing(), anchors=Anchors(),
             sheathing=Sheathing(thickness_in=read(15 / 32)), hold_down=WallHoldDowns(marks=silent(State.DEFERRED, "PER PLAN"))),
        wall("SW5", field=FieldNailing(spacing_in=answered(12.0, "RFI 3, 12 May")), hold_down=WallHoldDowns(
            marks=Reading(value=(), as_printed="-", state=State.NONE, origin=Origin.SCHEDULE, source=PLACE))),
        full_wall("P1-4"),
    )  # fmt: skip
    return job(*walls, findings=(
        finding("edge.spacing_in", "SW2", code="conflicting-value", message="Schedule and note differ. Ask the engineer."),
        finding("edge.spacing_in", "SW3", code="unreadable-value"),
        finding("fastener.length_in", "SW3", "ask"),
        finding("field.spacing_in", "SW4"),
        finding("fastener.penny", "SW4"),
        finding("framing.blocked", "SW4", "ask"),
    ))  # fmt: skip


def pages(pdf: bytes) -> Iterator[Any]:
    with pdfplumber.open(io.BytesIO(pdf)) as opened:
        yield from opened.pages


def printed(pdf: bytes) -> list[str]:
    """Each printed line as "page x,top size text", to the point: what a reader sees, not how it was drawn."""
    return [f"{page.page_number} {line['x0']:.0f},{line['top']:.0f} {line['chars'][0]['size']:.0f}pt {line['text']}"
            for page in pages(pdf) for line in page.extract_text_lines()]  # fmt: skip


def side(page: Any, number: int, which: str) -> Any:
    """One side of the ``number``-th card on a sheet of 3x5 cards that fold: the page cropped to it."""
    left = (page.width - 720) / 2 + (360 if which == "back" else 0)
    top = 0.80 * 72 + number * (216 + 0.14 * 72)
    return page.crop((left, top, left + 360, top + 216))


def text(part: Any) -> str:
    """All words of a part of a page in reading order, on one line."""
    return " ".join((part.extract_text() or "").replace("\u00a0", " ").split())
