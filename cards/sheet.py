"""Card sizes, papers, and where each side of each card stands on the sheet. Lengths in inches."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, get_args

from extractor.errors import UsageError

Layout = Literal["fold", "duplex", "single"]
Side = Literal["front", "back"]
Kind = Literal["card", "small", "tag"]
LAYOUTS: tuple[Layout, ...] = get_args(Layout)
PAPERS = {"letter": (8.5, 11.0), "a4": (8.268, 11.693)}  # ASME Y14.1 size A, from memory; ISO 216

_SIDE, _HEAD, _FOOT, _GAP = 0.25, 0.80, 0.80, 0.14  # margin at the sides, strips at top and bottom, between cards


@dataclass(frozen=True)
class Size:
    """A card held across: width and height in inches, and the scale of its type.

    A ``small`` card has five lines and sends to the larger card for the rest; a ``tag`` is stapled to the wall, has no back and
    is cut from its sheet by one line. Source: index cards 3x5, 4x6, 5x8 (US stationery practice); ID-1, 3.370 x 2.125 in,
    ISO/IEC 7810. Margin, hole and corners: common practice.
    """

    name: str
    width: float
    height: float
    scale: float = 1.0
    margin: float = 0.15
    hole: float = 0.5  # square kept free in the corner of the ring hole
    kind: Kind = "card"
    radius: float = 0.1875  # of the rounded corners


SIZES = {
    "3x5": Size("3x5", 5.0, 3.0),
    "4x6": Size("4x6", 6.0, 4.0, 1.2),
    "5x8": Size("5x8", 8.0, 5.0, 1.6),
    "id-1": Size("id-1", 3.370, 2.125, margin=0.125, hole=0.4, kind="small", radius=0.125),
    "half-letter": Size("half-letter", 8.5, 5.5, 1.5, 0.4, 0.0, "tag", 0.0),
}
LEAST_CARD, LEAST_SMALL = (4.5, 2.7), (3.0, 1.85)
_SIZE = re.compile(r"(\d{1,3}(?:\.\d{1,4})?) ?x ?(\d{1,3}(?:\.\d{1,4})?) ?(in|mm)?", re.I | re.ASCII)
_BORDER = re.compile(r"(\d{1,2}(?:\.\d{1,4})?) ?(in|mm)", re.I | re.ASCII)


@dataclass(frozen=True)
class Cell:
    """One side of one card on a sheet: its number, its top left corner, and whether it is printed upside down."""

    card: int
    side: Side
    left: float
    top: float
    turned: bool = False


@dataclass(frozen=True)
class Rule:
    """A line to cut or to fold along."""

    left: float
    top: float
    width: float
    height: float
    kind: Literal["cut", "fold"]


@dataclass(frozen=True)
class SheetPlan:
    """One printed page: its size and everything that stands on it."""

    width: float
    height: float
    cells: tuple[Cell, ...]
    rules: tuple[Rule, ...]


@dataclass(frozen=True)
class _Grid:
    """Pieces of one size in columns and rows on a paper turned one way; ``beside`` says how a fold lies."""

    paper: tuple[float, float]
    piece: tuple[float, float]
    beside: bool = True

    @property
    def columns(self) -> int:
        return int((self.paper[0] - 2 * _SIDE + _GAP + 1e-6) / (self.piece[0] + _GAP))

    @property
    def rows(self) -> int:
        return int((self.paper[1] - _HEAD - _FOOT + _GAP + 1e-6) / (self.piece[1] + _GAP))

    @property
    def room(self) -> int:
        return self.columns * self.rows

    def corner(self, place: int, *, mirrored: bool = False) -> tuple[float, float]:
        """Top left corner of a place, counted in rows; columns run from the right where the sheet has been flipped."""
        row, column = divmod(place, self.columns)
        column = self.columns - 1 - column if mirrored else column
        wide = self.columns * (self.piece[0] + _GAP) - _GAP
        return ((self.paper[0] - wide) / 2 + column * (self.piece[0] + _GAP), _HEAD + row * (self.piece[1] + _GAP))


def size_named(name: str) -> Size:
    """The size of that name, a custom one, or either less the border of a pouch; a UsageError says what there is.

    "4.5x3" and "120x80mm" are custom sizes; "id-1/2mm" is what to cut so that a pouch with a sealed border of 2 mm comes out at
    ID-1: the insert is the finished size less two borders. Below 4.5 x 2.7 in a card has five lines; below 3 x 1.85 in, about
    an ID-1 insert, nothing could be read.

    >>> insert = size_named("id-1/2mm")
    >>> round(insert.width, 2), round(insert.height, 2)
    (3.21, 1.97)
    """
    finished, _, pouch = name.strip().lower().partition("/")
    border = _inches(_BORDER.fullmatch(pouch.strip()), 1) if pouch else 0.0
    known = SIZES.get(finished.strip())
    if known and border == 0:
        return known
    m = _SIZE.fullmatch(finished.strip())
    if border is None or not (known or m) or (known and known.kind == "tag"):
        raise _no_size(name)
    wide, high = (known.width, known.height) if known else sorted(_sides(m), reverse=True)
    return _custom(name, wide - 2 * border, high - 2 * border)


def handy(name: str) -> str:
    """The size for cards that hold words of no single wall type: the same, or 3x5 where that is a small card or a tag."""
    return name if size_named(name).kind == "card" else "3x5"


def on_paper(size: Size, paper: str) -> Size:
    """A tag is half of the sheet that it is printed on; every other size stays as it is."""
    if size.kind != "tag" or paper not in PAPERS:
        return size
    return replace(size, width=PAPERS[paper][0], height=PAPERS[paper][1] / 2)


def _custom(name: str, wide: float, high: float) -> Size:
    """A card of that width and height; type grows with the card and never gets smaller than on the smallest named one."""
    fits = any(_best(Size(name, wide, high), paper, "single") for paper in PAPERS.values())
    if not fits or wide < LEAST_SMALL[0] or high < LEAST_SMALL[1]:
        raise _no_size(name)
    if wide >= LEAST_CARD[0] and high >= LEAST_CARD[1]:
        return Size(name, wide, high, max(1.0, min(wide / 5, high / 3)))
    small = SIZES["id-1"]
    return replace(small, name=name, width=wide, height=high, scale=max(1.0, min(wide / small.width, high / small.height)))


def _sides(m: re.Match[str] | None) -> tuple[float, float]:
    unit = 25.4 if m and (m[3] or "").lower() == "mm" else 1.0
    return (float(m[1]) / unit, float(m[2]) / unit) if m else (0.0, 0.0)


def _inches(m: re.Match[str] | None, group: int) -> float | None:
    return float(m[group]) / (25.4 if m[2].lower() == "mm" else 1.0) if m else None


def _no_size(name: str) -> UsageError:
    return UsageError(
        f"There is no card size {name}.",
        where="--size",
        do=f"Use one of: {', '.join(SIZES)}; or width x height, 4.5x3 or 120x80mm, from 3 x 1.85 in to what "
        "the paper takes; and the border of a pouch, where there is one: id-1/2mm.",
    )


def plans(cards: int, size: Size, paper: str, layout: str) -> tuple[SheetPlan, ...]:
    """The printed pages for ``cards`` cards, in the order they come out of the printer."""
    if paper not in PAPERS:
        raise UsageError(f"There is no paper {paper}.", where="--paper", do=f"Use one of: {', '.join(PAPERS)}.")
    if layout not in LAYOUTS:
        raise UsageError(f"There is no layout {layout}.", where="--layout", do=f"Use one of: {', '.join(LAYOUTS)}.")
    if size.kind == "tag":
        return tuple(_tags(cards, on_paper(size, paper), PAPERS[paper]))
    grid = _best(size, PAPERS[paper], layout)
    if grid is None:
        what = f"A {size.name} card in layout {layout} does not fit on {paper} paper."
        raise UsageError(what, where="--size, --layout, --paper", do="Use --layout single, or a smaller card.")
    if layout == "fold":
        return tuple(_folded(cards, size, grid))
    if layout == "duplex":
        return tuple(_duplex(cards, size, grid))
    return tuple(_single(cards, size, grid))


def _best(size: Size, paper: tuple[float, float], layout: str) -> _Grid | None:
    """The way of laying out that takes the most cards.

    Duplex is flipped on the long edge: an upright sheet, or where a card fits no upright one, a sheet across that holds one.
    """
    upright, across = paper, (paper[1], paper[0])
    one = (size.width, size.height)
    if layout == "duplex":
        tries = [_Grid(upright, one), _Grid(across, one, False)]
        tries = tries[:1] if tries[0].room else [grid for grid in tries[1:] if grid.room == 1]
    elif layout == "single":
        tries = [_Grid(upright, one), _Grid(across, one)]
    else:
        beside, below = (2 * size.width, size.height), (size.width, 2 * size.height)
        tries = [_Grid(turn, beside) for turn in (across, upright)] + [_Grid(turn, below, False) for turn in (upright, across)]
    best = max(tries, key=lambda grid: grid.room, default=None)
    return best if best and best.room else None


def _pages(cards: int, room: int) -> Iterator[Sequence[int]]:
    yield from (range(first, min(first + room, cards)) for first in range(0, max(cards, 1), room))


def _folded(cards: int, size: Size, grid: _Grid) -> Iterator[SheetPlan]:
    """Front and back in one piece, folded behind: the back turns over like a page, with the hole in the same corner."""
    for page in _pages(cards, grid.room):
        cells: list[Cell] = []
        rules: list[Rule] = []
        for place, card in enumerate(page):
            left, top = grid.corner(place)
            cells.append(Cell(card, "front", left, top))
            if grid.beside:
                cells.append(Cell(card, "back", left + size.width, top))
                rules.append(Rule(left + size.width, top - 0.08, 0, size.height + 0.16, "fold"))
            else:
                cells.append(Cell(card, "back", left, top + size.height, turned=True))
                rules.append(Rule(left - 0.08, top + size.height, size.width + 0.16, 0, "fold"))
            rules.append(Rule(left, top, *grid.piece, "cut"))
        yield SheetPlan(*grid.paper, tuple(cells), tuple(rules))


def _duplex(cards: int, size: Size, grid: _Grid) -> Iterator[SheetPlan]:
    """Fronts on one page, their backs on the next in mirrored columns, for a flip on the long edge.

    On a sheet across, the long edge is the upper one: rows are mirrored instead, and the back stands on its head.
    """
    sides: tuple[Side, ...] = ("front", "back")
    for page in _pages(cards, grid.room):
        for side in sides:
            corners = [grid.corner(place, mirrored=side == "back") for place in range(len(page))]
            over = side == "back" and not grid.beside
            if over:
                corners = [(left, grid.paper[1] - top - size.height) for left, top in corners]
            yield _apart([Cell(card, side, *corner, over) for card, corner in zip(page, corners, strict=True)], size, grid)


def _single(cards: int, size: Size, grid: _Grid) -> Iterator[SheetPlan]:
    """Fronts and backs as pieces of their own, each card's two next to each other in reading order."""
    sides: tuple[Side, ...] = ("front", "back")
    for page in _pages(2 * cards, grid.room):
        yield _apart([Cell(piece // 2, sides[piece % 2], *grid.corner(place)) for place, piece in enumerate(page)], size, grid)


def _tags(cards: int, size: Size, paper: tuple[float, float]) -> Iterator[SheetPlan]:
    """Two tags a sheet, one above the other, and the line between them to cut."""
    for page in _pages(cards, 2):
        cells = tuple(Cell(card, "front", 0, place * size.height) for place, card in enumerate(page))
        yield SheetPlan(*paper, cells, (Rule(0, size.height, paper[0], 0, "cut"),))


def _apart(cells: Sequence[Cell], size: Size, grid: _Grid) -> SheetPlan:
    """A page of pieces that are each cut out on their own."""
    cuts = tuple(Rule(cell.left, cell.top, size.width, size.height, "cut") for cell in cells)
    return SheetPlan(*grid.paper, tuple(cells), cuts)
