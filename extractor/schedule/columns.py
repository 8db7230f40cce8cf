"""A grid's headings to named columns, whichever way the table runs."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

import regex as re

from extractor.paper.grid import Cell, Grid
from extractor.paper.words import Word
from extractor.record import State
from extractor.schedule.reading import Place, Printed, printed
from extractor.trade.cells import read
from extractor.trade.headings import Heading, heading, settle, votes
from extractor.trade.headingwords import ideas
from extractor.trade.marks import is_mark
from extractor.trade.text import Found, plain, plain_word

SPACING = re.compile(r"(?:BOLT |A\.?B\.? |MAX\.? )?SPAC(?:ING|'G)(?:,? ?\(?O\.?C\.?\)?)?", re.I)
UNITS = re.compile(r"[(\[]?(?:IN\.?|INCHES|PLF|LBS?\.?|LB/FT|#/FT|#|KIPS|FT\.?|O\.?C\.?|IN\.? ?O\.?C\.?|-|\.|,|\s)+[)\]]?", re.I)
LETTERS = re.compile(r"[A-Z]{1,3}|\d{1,2}[A-Z]|[A-Z]{1,4}/\d{1,2}|(?:[A-Z]\.){2} ?-?\d{1,2}[A-Z]?")
LENGTH_BELOW = re.compile(r"(?<=\d[A-Z]?) (?:WALL )?(?:LENGTH|LGTH\.?|LEN\.?|L)$", re.I)  # the lower half of a mark's symbol
Kind = Literal["wall", "hold-down"]
DEEPEST = 6  # heading rows at the most


class Said(NamedTuple):
    """What a heading says and the words that say it."""

    heading: Heading
    text: Printed


@dataclass(frozen=True)
class Column:
    """One column: what its cells hold (None: not understood), what the heading itself says, and the heading's words."""

    index: int
    kind: str | None
    said: Said | None
    text: Printed | None


@dataclass(frozen=True)
class Table:
    """A grid with its columns named; rows from ``first`` on are data."""

    grid: Grid
    first: int
    columns: tuple[Column, ...]
    mark: int
    holds: tuple[Column, ...] = ()  # what a wall's table tells of the hold-down it names: model, post, anchor

    @property
    def kinds(self) -> set[str]:
        """The kinds of column that were understood."""
        return {c.kind for c in self.columns if c.kind}


def name(grid: Grid, kind: Kind, place: Place) -> Table | None:
    """The grid as a table of ``kind`` ("wall", "hold-down"); None where no column of marks with data under it is found."""
    upright, turned = _table(grid, kind, place), _table(_under_bands(grid).transposed(), kind, place)
    if upright and (turned is None or _worth(upright) >= _worth(turned)):
        return upright
    return turned


def _worth(table: Table) -> float:
    return len(table.kinds) + 0.01 * (table.grid.rows - table.first)


def _under_bands(grid: Grid) -> Grid:
    """Rows of labels under a label that spans the whole width (CAPACITY, then SEISMIC, WIND): the label goes before each."""
    bands = {c.row: c for c in grid.cells if c.col == 0 and c.cols == grid.cols and c.words and grid.cols > 2}
    if not bands or 0 in bands:
        return grid
    keep = [r for r in range(grid.rows) if r not in bands]
    row_of = {r: i for i, r in enumerate(keep)}
    cells = []
    for cell in grid.cells:
        rows = [row_of[r] for r in range(cell.row, cell.row + cell.rows) if r in row_of]
        if not rows:
            continue
        above = max((r for r in bands if r < cell.row), default=None)
        words = (*bands[above].words, *cell.words) if above is not None and cell.col == 0 and cell.words else cell.words
        cells.append(Cell(words, cell.box, rows[0], cell.col, len(rows), cell.cols, cell.drawn))
    return Grid(tuple(cells), grid.box, len(keep), grid.cols, grid.ruled)


def _table(grid: Grid, kind: Kind, place: Place) -> Table | None:
    best: Table | None = None
    for first in range(1, min(DEEPEST, grid.rows - 1) + 1):
        columns = _columns(grid, first, kind, place)
        mark = _mark_column(grid, first, columns, kind)
        if mark is None:
            continue
        if columns[mark].kind not in MARKS:
            columns = tuple(Column(c.index, MARK_OF[kind], c.said, c.text) if c.index == mark else c for c in columns)
        walls, holds = _with_hold_downs(grid, first, columns, place) if kind == "wall" else (columns, ())
        table = Table(grid, first, walls, mark, holds)
        if best is None or len(table.kinds) > len(best.kinds):
            best = table
        if len({c.kind for c in columns if c.kind}) >= 3:
            break
    return best


HOLD_DOWN_PARTS = {"hd_model", "hd_post", "hd_anchor", "hd_embedment", "hd_capacity", "hd_fasteners"}


def _with_hold_downs(
    grid: Grid, first: int, columns: Sequence[Column], place: Place
) -> tuple[tuple[Column, ...], tuple[Column, ...]]:
    """The wall's columns, and those that tell the parts of its hold-down; all the wall's where fewer than two do."""
    told: dict[int, Said] = {}
    for column in columns:
        levels = _levels(grid, first, column.index)
        text = printed([w for cell in levels for w in cell.words], place)
        if not levels or "HOLD" not in {idea.name for idea in ideas(text.text)[0]}:
            continue
        lowest = printed(levels[-1].words, place)
        if said := heading(lowest.text, "hold-down") or heading(text.text, "hold-down"):
            told[column.index] = Said(said, text)
    if len({said.heading.kind for said in told.values()} & HOLD_DOWN_PARTS) < 2:
        return tuple(columns), ()
    named = next(
        (i for kind in ("hd_mark", "hd_mark_model", "hd_model") for i, s in told.items() if s.heading.kind == kind), None
    )
    if named is None:
        return tuple(columns), ()
    mark = Heading("hold_down")
    walls = tuple(
        Column(c.index, "hold_down", Said(mark, told[c.index].text), told[c.index].text)
        if c.index == named
        else Column(c.index, None, None, None)
        if c.index in told
        else c
        for c in columns
    )
    holds = tuple(
        Column(i, s.heading.kind, s, s.text)
        for i, s in told.items()
        if i != named or s.heading.kind in ("hd_model", "hd_mark_model")
    )
    return walls, holds


VALUES = {"edge", "field", "nailing", "anchors", "capacity", "embedment", "blocking", "bottom_plate", "edge_rows", "washer"}
MARKS = ("mark", "hd_mark", "hd_mark_model")
MARK_OF = {"wall": "mark", "hold-down": "hd_mark"}


def _mark_column(grid: Grid, first: int, columns: Sequence[Column], kind: Kind) -> int | None:
    """The column of marks: headed so, or the first column with a blank heading; its first data cell is a mark."""

    def marks(col: int) -> bool:
        cell = grid.at(first, col)
        if cell is None or cell.row < first:
            return False
        text = LENGTH_BELOW.sub("", cell.text)
        return is_mark(text) and (heading(text, kind) is None or len(text) <= 2)

    def lettered(col: int) -> bool:
        """Letters alone (SW) are a mark under a heading of marks, where values stand beside them."""
        cell = grid.at(first, col)
        beside = [
            c
            for c in range(grid.cols)
            if c != col and (other := grid.at(first, c)) is not None and other.words and heading(other.text, kind) is None
        ]
        return cell is not None and cell.row >= first and bool(LETTERS.fullmatch(cell.text)) and len(beside) >= 3

    headed = [c.index for c in columns if c.kind in MARKS and (marks(c.index) or lettered(c.index))]
    if headed:
        return headed[0]
    front = columns[0]
    unsaid = front.kind not in VALUES and (
        front.kind is None
        or any(c.kind == front.kind for c in columns[1:])
        or (front.said is not None and not front.said.heading.sure)
    )
    if unsaid and marks(0) and sum(c.kind is not None for c in columns[1:]) >= 3 and _distinct_marks(grid, first):
        return 0
    if kind == "hold-down":  # a table keyed by model alone
        return next((c.index for c in columns if c.kind == "hd_model" and marks(c.index)), None)
    return None


def _described(grid: Grid, first: int, col: int) -> bool:
    """Whether the cells tell whole walls in words (CONSTRUCTION, DESCRIPTION)."""
    cell = grid.at(first, col)
    text = " ".join(map(plain_word, cell.text.split())) if cell is not None and cell.row >= first else ""
    groups = {f.field.split(".")[0] for f in read(text, "wall") if f.state is State.READ} if len(text) > 30 else set()
    return len(groups & {"sheathing", "fastener", "edge", "field"}) >= 3


def _with_aside(text: Printed, kind: Kind) -> Heading | None:
    """A heading that tells a value of the column in brackets: EDGE NAILING (FIELD @ 12" O.C.)."""
    aside = re.search(r"\([^()]*\d[^()]*\)", text.text)
    said = heading((text.text[: aside.start()] + text.text[aside.end() :]).strip(), kind) if aside else None
    if aside is None or said is None:
        return None
    told = [f for f in read(aside[0][1:-1], "wall") if f.state is State.READ and f.field != "capacity"]
    behind = len(aside[0])
    own = [f if f.span[1] <= aside.start() else f._replace(span=(f.span[0] + behind, f.span[1] + behind)) for f in said.facts]
    given = {f.field for f in own}
    inner = [
        f._replace(span=(f.span[0] + aside.start() + 1, f.span[1] + aside.start() + 1)) for f in told if f.field not in given
    ]
    return said._replace(facts=(*own, *inner), sure=False)


def _distinct_marks(grid: Grid, first: int) -> bool:
    """Whether every cell of the first column is a mark of its own; of four and more, one may stand twice."""
    texts = [
        cell.text for row in range(first, grid.rows) if (cell := grid.at(row, 0)) is not None and cell.row == row and cell.words
    ]
    twice = len(texts) - len(set(texts))
    return bool(texts) and twice <= (len(texts) > 3) and all(map(is_mark, texts))


def _columns(grid: Grid, first: int, kind: Kind, place: Place) -> tuple[Column, ...]:
    out = []
    for col in range(grid.cols):
        cells = _levels(grid, first, col)
        column = _column(col, [cell.words for cell in cells], kind, place)
        if column.said:
            data = [
                cell.text
                for row in range(first, grid.rows)
                if (cell := grid.at(row, col)) is not None and cell.row == row and cell.words
            ]
            said = settle(column.said.heading, [" ".join(map(plain_word, text.split())) for text in data])
            column = Column(col, said.kind, Said(said, column.said.text), column.text)
        elif kind == "wall" and column.text and _described(grid, first, col):
            column = Column(col, "wall", None, column.text)
        elif kind == "wall" and column.text and _faces_below(grid, first, col) and (panel := _value(column.text)):
            column = Column(col, "faces", Said(Heading("faces", panel, sure=False), column.text), column.text)
        out.append(column)
    return _agreeing(_one_mark(_spaced(out)))


def _spaced(columns: list[Column]) -> list[Column]:
    """SPACING right after a column of anchors as the anchors' own."""
    out = list(columns)
    for before, (i, column) in zip(columns, enumerate(columns[1:], 1), strict=False):
        if column.kind is None and column.text and SPACING.fullmatch(column.text.text.strip()) and before.kind == "anchors":
            out[i] = replace(column, kind="anchors")
    return out


def _one_mark(columns: list[Column]) -> list[Column]:
    """Of two columns of hold-down marks the less sure one as models: SYM., then HOLDOWN."""
    named = [c for c in columns if c.kind == "hd_mark" and c.said]
    sure = [c for c in named if c.said and c.said.heading.sure]
    if len(named) < 2 or not sure:
        return columns
    models = [c.index for c in named if c is not sure[0] and c.said and "hd_model" in c.said.heading.also]
    return [replace(c, kind="hd_model") if c.index in models[:1] else c for c in columns]


def _faces_below(grid: Grid, first: int, col: int) -> bool:
    """Whether every cell of the column tells faces, or repeats the one above."""
    found = [
        read(plain([w.text for w in cell.words]).text, "faces")
        for row in range(first, grid.rows)
        if (cell := grid.at(row, col)) is not None and cell.row == row and cell.words
    ]
    return bool(found) and all(len(cell) == 1 and cell[0].field in ("sheathing.faces", "ditto") for cell in found)


def _value(text: Printed) -> tuple[Found, ...]:
    """The panel or the nail that a heading gives as a cell would: `15/32" PLYWOOD ONE FACE`, over columns or over one."""
    vote = votes(text.text)
    return tuple(f for f in read(text.text, vote) if f.state is State.READ) if vote in ("sheathing", "fastener") else ()


def _agreeing(columns: Sequence[Column]) -> tuple[Column, ...]:
    """The columns without what their headings say of the panel and the nail where two headings say it differently."""
    told: dict[str, set[str]] = {}
    for column in columns:
        for f in column.said.heading.facts if column.said else ():
            if f.field.startswith(("sheathing.", "fastener.")):
                told.setdefault(f.field, set()).add(repr(f.value))
    torn = {field for field, values in told.items() if len(values) > 1}
    return tuple(
        replace(
            c,
            said=Said(c.said.heading._replace(facts=tuple(f for f in c.said.heading.facts if f.field not in torn)), c.said.text),
        )
        if c.said and torn
        else c
        for c in columns
    )


def _levels(grid: Grid, first: int, col: int) -> list[Cell]:
    """The heading cells over a column, from the top down; one over the whole table is none."""
    cells: list[Cell] = []
    for row in range(first):
        cell = grid.at(row, col)
        if cell is not None and cell.words and cell not in cells and not (cell.cols == grid.cols and grid.cols > 2):
            cells.append(cell)
    return cells


def _column(col: int, levels: list[tuple[Word, ...]], kind: Kind, place: Place) -> Column:
    """The column under a heading of several levels, from the top down: all joined, or the lowest levels alone."""
    for start in range(len(levels)):
        text = printed([w for level in levels[start:] for w in level], place)
        said = heading(text.text, kind) or _with_aside(text, kind)
        if said:
            told = _under_value(said, text, printed([w for level in levels[:start] for w in level], place))
            return Column(col, said.kind, told, text)
    named = [level for level in levels if not UNITS.fullmatch(" ".join(w.text for w in level))]
    text = printed([w for level in named or levels for w in level], place)
    said = heading(text.text, kind) if len(named) < len(levels) else None
    return Column(col, said.kind if said else None, Said(said, text) if said else None, text if levels else None)


def _under_value(said: Heading, text: Printed, above: Printed) -> Said:
    """The heading with what the levels above it give as a value for all the columns under them."""
    value = _value(above) if above.words else ()
    whole = printed((*above.words, *text.words), text.place) if value else text
    if not value or not whole.text.startswith(above.text) or not whole.text.endswith(text.text):
        return Said(said, text)
    behind = len(whole.text) - len(text.text)
    own = tuple(f._replace(span=(f.span[0] + behind, f.span[1] + behind)) for f in said.facts)
    return Said(said._replace(facts=(*value, *own)), whole)
