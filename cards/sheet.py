"""Card sizes, papers, and where each side of each card stands on the sheet. Lengths in inches."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from extractor.errors import UsageError

Layout = Literal["fold", "duplex", "single"]
Side = Literal["front", "back"]
LAYOUTS: tuple[Layout, ...] = get_args(Layout)
PAPERS = {"letter": (8.5, 11.0), "a4": (8.268, 11.693)}  # ASME Y14.1 size A, from memory; ISO 216

_SIDE, _HEAD, _FOOT, _GAP = 0.25, 0.80, 0.80, 0.14  # margin at the sides, strips at top and bottom, between cards


@dataclass(frozen=True)
class Size:
    """A card held across: width and height in inches, and the scale of its type.

    Source: index cards 3x5, 4x6, 5x8 (US stationery practice). Margin and hole: common practice.
    """

    name: str
    width: float
    height: float
    scale: float = 1.0
    margin: float = 0.15
    hole: float = 0.5  # square kept free in the corner of the ring hole


SIZES = {
    "3x5": Size("3x5", 5.0, 3.0),
    "4x6": Size("4x6", 6.0, 4.0, 1.2),
    "5x8": Size("5x8", 8.0, 5.0, 1.6),
}


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
    """The size of that name; a UsageError lists the names there are."""
    if name.lower() not in SIZES:
        raise UsageError(f"There is no card size {name}.", where="--size", do=f"Use one of: {', '.join(SIZES)}.")
    return SIZES[name.lower()]


def plans(cards: int, size: Size, paper: str, layout: str) -> tuple[SheetPlan, ...]:
    """The printed pages for ``cards`` cards, in the order they come out of the printer."""
    if paper not in PAPERS:
        raise UsageError(f"There is no paper {paper}.", where="--paper", do=f"Use one of: {', '.join(PAPERS)}.")
    if layout not in LAYOUTS:
        raise UsageError(f"There is no layout {layout}.", where="--layout", do=f"Use one of: {', '.join(LAYOUTS)}.")
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
    """The way of laying out that takes the most cards; the upright sheet alone for duplex, which is flipped on its long edge."""
    upright, across = paper, (paper[1], paper[0])
    one = (size.width, size.height)
    if layout == "duplex":
        tries = [_Grid(upright, one)]
    elif layout == "single":
        tries = [_Grid(upright, one), _Grid(across, one)]
    else:
        beside, below = (2 * size.width, size.height), (size.width, 2 * size.height)
        tries = [_Grid(turn, beside) for turn in (across, upright)] + [_Grid(turn, below, False) for turn in (upright, across)]
    best = max(tries, key=lambda grid: grid.room)
    return best if best.room else None


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
    """Fronts on one page, their backs on the next in mirrored columns, for a flip on the long edge."""
    sides: tuple[Side, ...] = ("front", "back")
    for page in _pages(cards, grid.room):
        for side in sides:
            corners = [grid.corner(place, mirrored=side == "back") for place in range(len(page))]
            yield _apart([Cell(card, side, *corner) for card, corner in zip(page, corners, strict=True)], size, grid)


def _single(cards: int, size: Size, grid: _Grid) -> Iterator[SheetPlan]:
    """Fronts and backs as pieces of their own, each card's two next to each other in reading order."""
    sides: tuple[Side, ...] = ("front", "back")
    for page in _pages(2 * cards, grid.room):
        yield _apart([Cell(piece // 2, sides[piece % 2], *grid.corner(place)) for place, piece in enumerate(page)], size, grid)


def _apart(cells: Sequence[Cell], size: Size, grid: _Grid) -> SheetPlan:
    """A page of pieces that are each cut out on their own."""
    cuts = tuple(Rule(cell.left, cell.top, size.width, size.height, "cut") for cell in cells)
    return SheetPlan(*grid.paper, tuple(cells), cuts)
