"""Tables without a title of their own: part two of a schedule, another storey's, and rows that go on from another table."""

from collections.abc import Iterator, Sequence

import regex as re

from extractor.paper.grid import Grid, inside
from extractor.paper.phrases import Paragraph, Phrase
from extractor.record import Box
from extractor.schedule import columns
from extractor.schedule.columns import Table
from extractor.schedule.layout import Block, Layout
from extractor.trade.marks import family, is_mark
from extractor.trade.titles import Title

NAILED = {"sheathing", "fastener", "edge", "field", "nailing"}  # columns that no other table has together

OF_WALLS = {"sill", "anchors", "sill_anchors", "bottom_plate", "hold_down"}  # no deck has any of them
STOREY = re.compile(
    r"(?!(?:FLOORS?|WALLS?)$)(?:(?:UPPER|LOWER|MAIN|GROUND|TOP|FIRST|SECOND|THIRD|FOURTH|1ST|2ND|3RD|4TH|BASEMENT"
    r"|FLOORS?|LEVELS?|STOR(?:E?Y|IES)|WALLS?|\d)[ .:,-]*)+",
    re.I,
)
DECKS = re.compile(r"\b(?:ROOF|DECKS?|DIAPHRAGMS?|CEILING|SUB-?FLOOR|FLOOR (?:SHEATHING|NAILING|PANELS?))\b", re.I)


def second_parts(layout: Layout, found: Sequence[Block]) -> list[Block]:
    """Ruled tables under no known title: on the marks of a schedule beside them, or with the headings of a schedule themselves.

    The first tell framing and anchorage apart from the nailing; the second are the schedule of another storey, or the only one,
    under words that no title has: a column that only walls have stands beside panel and nailing, the marks are of one family, or
    they are made alike under the name of a storey and the same headings.
    """
    known: set[str] = set()
    columned: list[frozenset[str]] = []
    for block in found:
        table = columns.name(block.grid, "wall", block.place) if block.grid is not None and block.kind == "wall" else None
        if table:
            known |= set(_marks(table.grid, table.mark, table.first))
            columned.append(frozenset(table.kinds))
    out = []
    for box, grid in _untold(layout, found):
        table = columns.name(grid, "wall", layout.place)
        marks = _marks(grid, table.mark, table.first) if table and len(table.kinds) > 2 else []
        if not marks or not table:
            continue
        alike = bool(table.kinds & OF_WALLS) or (bool(known) and all(map(family(known).fullmatch, marks)))
        same = table.kinds in columned and {_make(m) for m in marks} <= {_make(m) for m in known}
        alike = alike or (same and _storey_over(box, layout))
        itself = len(table.kinds & NAILED) > 2 and alike and _of_walls(marks, box, layout, grid)
        if itself or set(marks) <= known:
            out.append(Block("wall", Title("wall", sure=False), _first(grid), layout.place, layout.sheet, grid=grid, box=box))
    return out


def going_on(layout: Layout, found: Sequence[Block], last: Table) -> Iterator[tuple[Block, Table]]:
    """Ruled rows under no title and no headings whose columns are as wide as those of ``last`` and that go on with its marks."""
    alike = family(_marks(last.grid, last.mark, last.first))
    known = set(_marks(last.grid, last.mark, last.first))
    for box, grid in _untold(layout, found):
        marks = _marks(grid, last.mark, 0)
        if grid.cols != last.grid.cols or not _as_wide(grid, last.grid) or len(marks) != grid.rows or set(marks) & known:
            continue
        if all(alike.fullmatch(mark) or mark[:1].isalpha() == next(iter(known))[:1].isalpha() for mark in marks):
            block = Block("wall", Title("wall", continued=True), _first(grid), layout.place, layout.sheet, grid=grid, box=box)
            yield block, Table(grid, 0, last.columns, last.mark)


def _untold(layout: Layout, found: Sequence[Block]) -> Iterator[tuple[Box, Grid]]:
    """Ruled tables of the sheet that no title heads or stands in, and that no block holds."""
    for box, net in layout.nets:
        if any(inside(box, b.box, 2.0) or inside(b.box, box, 2.0) for b in found if b.box != b.heading.box):
            continue
        if any(inside(t.box, box) or right_over(t, box) for t, said in layout.titles if said.kind != "nail-legend"):
            continue
        grid = layout.grid((box, net))
        if grid is not None and grid.cols > 2:
            yield box, grid


def _of_walls(marks: Sequence[str], box: Box, layout: Layout, grid: Grid) -> bool:
    """Whether the marks are no words (ROOF, DECK) and nothing right above the table or over all its columns speaks of a deck."""
    above = [p.text for p in layout.sheet.phrases if p.turn == 0 and right_over(p, box)]
    above += [c.text for c in grid.cells if c.cols == grid.cols]
    return all(len(mark) < 3 or any(map(str.isdigit, mark)) for mark in marks) and not any(map(DECKS.search, above))


def _make(mark: str) -> str:
    """How a mark is made: letters and digits by their places, so that L1 and U1 are alike."""
    return "".join("9" if c.isdigit() else "A" if c.isalpha() else c for c in mark)


def _storey_over(box: Box, layout: Layout) -> bool:
    """Whether the words right above a table name a storey, and nothing but a storey."""
    above = [p.text for p in layout.sheet.phrases if p.turn == 0 and right_over(p, box)]
    return bool(above) and all(map(STOREY.fullmatch, above))


def right_over(title: Phrase | Paragraph, box: Box) -> bool:
    """Whether a title stands right above a table."""
    return 0 <= box[1] - title.box[3] < 3 * title.size and title.box[0] < box[2] and title.box[2] > box[0]


def _marks(grid: Grid, col: int, first: int) -> list[str]:
    """The marks down a column."""
    cells = [grid.at(row, col) for row in range(first, grid.rows)]
    return [cell.text for row, cell in enumerate(cells, first) if cell is not None and cell.row == row and is_mark(cell.text)]


def _first(grid: Grid) -> Phrase:
    """The words that stand for the missing title."""
    cell = min((c for c in grid.cells if c.words), key=lambda c: (c.row, c.col))
    return Phrase(cell.words, cell.box, cell.words[0].size)


def _as_wide(grid: Grid, other: Grid) -> bool:
    """Whether the columns of both tables are cut at the same places, or at the same shares of their width."""
    cuts, others = _cuts(grid), _cuts(other)
    return len(cuts) == len(others) and all(abs(a - b) < 0.015 for a, b in zip(cuts, others, strict=True))


def _cuts(grid: Grid) -> list[float]:
    """Where columns begin, as shares of the table's width."""
    left, width = grid.box[0], grid.box[2] - grid.box[0]
    starts = {c.col: c.box[0] for c in grid.cells if c.cols == 1}
    return [(starts[col] - left) / width for col in sorted(starts)]
