"""Where a value stands, as a picture on a page: cut from the sheet, the words in a box, the mark of the row beside them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.screen import png
from cards.traced import Row, Rows, Traced, kind_of, mark_of, places
from extractor.pictures import Picture, pictures
from extractor.record import Box, Finding, Job, Origin, Source

ROUND = (70.0, 12.0)  # points of the sheet shown beside and above a value
TALLEST = 140.0  # points: a row's mark and a value further apart than this are not shown as one row
APART = 170.0  # points between mark and value up to which one picture shows both
ZOOM = 1.6  # pixels of the page to a point of the sheet
GAP = 8.0  # points between two pieces of a row


@dataclass(frozen=True)
class Piece:
    """A part of a sheet in a picture of the page: where it goes, what it shows, and the box drawn round the words."""

    left: float
    width: float
    height: float
    href: str
    x: float
    y: float
    frames: tuple[tuple[float, float, float, float], ...]  # x, y, width, height; the value's own first

    @property
    def view(self) -> str:
        """The part in points of the sheet, as SVG wants it."""
        return f"{self.x:.2f} {self.y:.2f} {self.width:.2f} {self.height:.2f}"


@dataclass(frozen=True)
class Shot:
    """The place of a value: one piece, or the row's mark and the value side by side where they are far apart."""

    pieces: tuple[Piece, ...]
    says: str

    @property
    def width(self) -> float:
        """Points."""
        return self.pieces[-1].left + self.pieces[-1].width

    @property
    def height(self) -> float:
        """Points."""
        return max(piece.height for piece in self.pieces)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in pixels of the page."""
        return self.width * ZOOM, self.height * ZOOM


class Shots:
    """Pictures of every place that the page shows, cut in one pass over the plans."""

    def __init__(self, plans: Sequence[Path], job: Job, rows: Rows) -> None:
        self.numbers, self.at_hand = places(rows), bool(plans)
        self._marks = {(kind_of(row), mark_of(row)): row.mark.source for row, _ in rows}
        values = [windows(value.reading.source, row_mark(row, value)) for row, own in rows for value in own]
        found = [windows(finding.source, self.mark(finding)) for finding in job.findings if finding.source]
        wanted = [window for one in (*values, *found) for window in one]
        self._cut = pictures(plans, wanted, margin=0.0) if plans else {}

    def mark(self, finding: Finding) -> Source | None:
        """The place of the mark in the row that a finding is about, unless the finding is about that place itself."""
        name = finding.wall_type or ""
        mark = self._marks.get(("wall type", name)) or self._marks.get(("hold-down", name))
        return None if mark == finding.source else mark

    def of(self, source: Source, mark: Source | None, says: str) -> Shot | None:
        """The picture of a place, with its row's mark; None without the plans, or where the place is on no sheet."""
        cut = [self._cut.get(window) for window in windows(source, mark)]
        frames = (source.box,) if mark is None else (source.box, mark.box)
        shown = [picture for picture in cut if picture]
        return Shot(tuple(_pieces(shown, frames)), says) if shown and len(shown) == len(cut) else None


def windows(source: Source, mark: Source | None) -> tuple[Source, ...]:
    """The parts of the sheet to show: round the value, with its row's mark inside or as a part of its own before it."""
    around = _wider(source.box, *ROUND)
    if mark is None or mark.page != source.page:
        return (source.model_copy(update={"box": around}),)
    both = _wider(_round(source.box, mark.box), 12.0, ROUND[1])
    if both[3] - both[1] > TALLEST:
        return (source.model_copy(update={"box": around}),)
    if both[2] - both[0] <= (source.box[2] - source.box[0]) + (mark.box[2] - mark.box[0]) + APART:
        return (source.model_copy(update={"box": _round(both, (around[0], both[1], around[2], both[3]))}),)
    band = (both[1], both[3])
    parts = (_wider(mark.box, 8.0, 0.0), around)
    return tuple(source.model_copy(update={"box": (part[0], band[0], part[2], band[1])}) for part in parts)


def row_mark(row: Row, value: Traced) -> Source | None:
    """The place of the row's mark, for a value that stands in the row itself."""
    return row.mark.source if value.reading.origin is Origin.SCHEDULE and value.name != "mark" else None


def _pieces(shown: Sequence[Picture], frames: Sequence[Box]) -> Iterator[Piece]:
    left = 0.0
    for picture in shown:
        x0, y0, x1, y1 = picture.box
        inside = tuple(frame for frame in frames if x0 <= frame[0] and frame[2] <= x1 and y0 <= frame[1] and frame[3] <= y1)
        drawn = tuple((x - 1.5, y - 1.5, right - x + 3, low - y + 3) for x, y, right, low in inside)
        yield Piece(left, x1 - x0, y1 - y0, png(picture.png), x0, y0, drawn)
        left += x1 - x0 + GAP


def _wider(box: Box, across: float, down: float) -> Box:
    return max(0.0, box[0] - across), max(0.0, box[1] - down), box[2] + across, box[3] + down


def _round(a: Box, b: Box) -> Box:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])
