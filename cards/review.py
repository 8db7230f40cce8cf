"""The review page: findings first, then each value beside the place on the sheet it was read from, with a box to tick.

One file, no network. A person steps through with the keyboard, compares, ticks, prints and signs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.face import face
from cards.findings import GOVERN, REPORT, numbered, summary
from cards.screen import png, screen
from cards.traced import (
    Row,
    Rows,
    Traced,
    harmless,
    kind_of,
    label_of,
    mark_of,
    not_found,
    place,
    places,
    questions_about,
    revisions,
    sheet_line,
    traced,
    unread,
)
from extractor.checks.fields import BEFORE, step
from extractor.pictures import Picture, pictures
from extractor.record import Box, Finding, Job, Origin, Source, WallType

ROUND = (70.0, 12.0)  # points of the sheet shown beside and above a value
TALLEST = 140.0  # points: a row's mark and a value further apart than this are not shown as one row
APART = 170.0  # points between mark and value up to which one picture shows both
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
    frames: tuple[Box, ...]

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


@dataclass(frozen=True)
class Item:
    """A value with its picture."""

    value: Traced
    place: str
    box: int  # its number on the sheets with boxes
    shot: Shot | None


@dataclass(frozen=True)
class Group:
    """A wall type or hold-down with its values, and what the plans leave open for it."""

    key: str
    mark: str
    kind: str
    place: str
    hold: bool
    items: tuple[Item, ...]
    open: tuple[tuple[str, str], ...]  # the field's name, numbers of questions about it


def review(job: Job, plans: Sequence[Path] = ()) -> bytes:
    """The review page of ``job``; ``plans`` are the PDFs it was read from, and without them it shows no pictures."""
    rows = traced(job)
    shots = _Shots(plans, job, rows)
    digest = job.plan_set.sha256
    groups = tuple(_group(job, row, values, shots, n) for n, (row, values) in enumerate(rows, 1))
    return screen(
        "review", running=f"{harmless(job.plan_set.file)[:50]}, file {digest[:8]}, {revisions(job)[:90]}. {GOVERN}",
        file=harmless(job.plan_set.file), digest=digest, pages=job.plan_set.pages, summary=summary(job), govern=GOVERN,
        report=" ".join(REPORT.split()), groups=groups, pictured=bool(plans),
        findings=tuple(_findings(job, shots)), sheets=tuple(_sheets(job)), marks=tuple(_marks(job)), unread=tuple(unread(job)),
        total=sum(len(group.items) + bool(group.open) for group in groups),
    )  # fmt: skip


class _Shots:
    """Pictures of every place that the page shows, cut in one pass over the plans."""

    def __init__(self, plans: Sequence[Path], job: Job, rows: Rows) -> None:
        self.numbers = places(rows)
        self._marks = {(kind_of(row), mark_of(row)): row.mark.source for row, _ in rows}
        values = [windows(value.reading.source, _row_mark(row, value)) for row, own in rows for value in own]
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


def _row_mark(row: Row, value: Traced) -> Source | None:
    """The place of the row's mark, for a value that stands in the row itself."""
    return row.mark.source if value.reading.origin is Origin.SCHEDULE and value.name != "mark" else None


def _pieces(shown: Sequence[Picture], frames: Sequence[Box]) -> Iterator[Piece]:
    left = 0.0
    for picture in shown:
        x0, y0, x1, y1 = picture.box
        inside = tuple(frame for frame in frames if x0 <= frame[0] and frame[2] <= x1 and y0 <= frame[1] and frame[3] <= y1)
        yield Piece(left, x1 - x0, y1 - y0, png(picture.png), x0, y0, tuple(_wider(frame, 1.5, 1.5) for frame in inside))
        left += x1 - x0 + GAP


def _group(job: Job, row: Row, values: Sequence[Traced], shots: _Shots, number: int) -> Group:
    items = tuple(
        Item(
            value,
            place(value.reading.source),
            shots.numbers[value.reading.source.page, value.reading.source.box],
            shots.of(value.reading.source, _row_mark(row, value), _says(value)),
        )
        for value in values
    )
    still_open = tuple((label_of(name), ", ".join(questions_about(job, row, name))) for name in not_found(row))
    hold = isinstance(row, WallType) and face(row, job).hold
    return Group(f"row-{number}", mark_of(row), kind_of(row), place(row.mark.source), hold, items, still_open)


def _says(value: Traced) -> str:
    where = place(value.reading.source)
    return f"{where[:1].upper()}{where[1:]}, at the words {value.reading.as_printed}"


def _findings(job: Job, shots: _Shots) -> Iterator[tuple[str, str, str, Finding, str, Shot | None]]:
    """Level, number, the step it holds up, the finding, its place in words and its picture; worst first."""
    for number, finding in numbered(job):
        where = place(finding.source)
        shot = shots.of(finding.source, shots.mark(finding), where) if finding.source else None
        yield finding.level.upper(), number or "", f"before {BEFORE[step(finding.field, finding.code)]}", finding, where, shot


def _sheets(job: Job) -> Iterator[tuple[str, str]]:
    """Sheets that values were read from, with title, revision and date."""
    held = {value.reading.source.page for _, values in traced(job) for value in values}
    yield from ((sheet.number or f"page {sheet.page}", sheet_line(sheet)) for sheet in job.sheets if sheet.page in held)


def _marks(job: Job) -> Iterator[tuple[str, str, str, int, str]]:
    known = {"wall": {mark_of(row).casefold() for row in job.wall_types},
             "hold-down": {mark_of(row).casefold() for row in job.hold_downs}}  # fmt: skip
    for mark in job.plan_marks:
        found = "yes" if mark.mark.casefold() in known[mark.kind] else "NO ROW"
        yield mark.mark, mark.kind, mark.sheet or f"page {mark.page}", len(mark.boxes), found


def _wider(box: Box, across: float, down: float) -> Box:
    return max(0.0, box[0] - across), max(0.0, box[1] - down), box[2] + across, box[3] + down


def _round(a: Box, b: Box) -> Box:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])
