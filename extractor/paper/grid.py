"""A table on the sheet: from rules, or from white space where none are drawn, to rows of cells that keep their words."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from extractor import limits
from extractor.paper.phrases import along, lines, phrases
from extractor.paper.rules import Rule
from extractor.paper.words import Word, union
from extractor.record import Box

TOUCH = 4.0  # points: rules that end this close to each other meet


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its words in reading order, its box, and the rows and columns it covers."""

    words: tuple[Word, ...]
    box: Box
    row: int
    col: int
    rows: int = 1
    cols: int = 1
    drawn: bool = False  # curves or strokes in the cell that are no text

    @property
    def text(self) -> str:
        """The words joined by spaces, footnote markers left out."""
        return " ".join(word.text for word in self.words if not word.raised)

    @property
    def markers(self) -> tuple[str, ...]:
        """Footnote markers that hang on the cell's words."""
        return tuple(m for word in self.words if word.raised for m in word.text.replace(",", " ").split())


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows of cells with the box of the whole; ``ruled`` tells whether drawn lines made it, so that merged cells are known."""

    cells: tuple[Cell, ...]
    box: Box
    rows: int
    cols: int
    ruled: bool
    _at: dict[tuple[int, int], Cell] = field(default_factory=dict, compare=False, repr=False)

    def at(self, row: int, col: int) -> Cell | None:
        """The cell that covers this place."""
        if not self._at:
            for cell in self.cells:
                for r in range(cell.row, cell.row + cell.rows):
                    for c in range(cell.col, cell.col + cell.cols):
                        self._at[r, c] = cell
        return self._at.get((row, col))

    def transposed(self) -> "Grid":
        """The same grid with rows and columns exchanged."""
        cells = tuple(Cell(c.words, c.box, c.col, c.row, c.cols, c.rows, c.drawn) for c in self.cells)
        return Grid(cells, self.box, self.cols, self.rows, self.ruled)


def inside(box: Box, outer: Box, slack: float = 0.0) -> bool:
    """Whether the middle of ``box`` lies in ``outer``."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return outer[0] - slack <= x <= outer[2] + slack and outer[1] - slack <= y <= outer[3] + slack


def components(found: Sequence[Rule]) -> list[list[Rule]]:
    """Rules that meet, directly or through others, as separate networks; lone rules are left out."""
    level = sorted((r for r in found if r.level), key=lambda r: r.at)
    upright = sorted((r for r in found if not r.level), key=lambda r: r.at)
    parent = {id(r): id(r) for r in found}
    by_id = {id(r): r for r in found}

    def root(key: int) -> int:
        while parent[key] != key:
            parent[key] = parent[parent[key]]
            key = parent[key]
        return key

    heights = [other.at for other in level]
    for rule in upright:
        for i in range(bisect_left(heights, rule.start - TOUCH), bisect_right(heights, rule.end + TOUCH)):
            if level[i].start - TOUCH <= rule.at <= level[i].end + TOUCH:
                parent[root(id(level[i]))] = root(id(rule))
    groups: dict[int, list[Rule]] = {}
    for key in parent:
        groups.setdefault(root(key), []).append(by_id[key])
    return [group for group in groups.values() if len(group) > 1]


def extent(group: Sequence[Rule]) -> Box:
    """The box round a network of rules."""
    xs = [v for r in group for v in ((r.start, r.end) if r.level else (r.at,))]
    ys = [v for r in group for v in ((r.at,) if r.level else (r.start, r.end))]
    return min(xs), min(ys), max(xs), max(ys)


def _positions(values: list[float]) -> list[float]:
    out: list[list[float]] = []
    for value in sorted(values):
        if out and value - out[-1][-1] <= 2.5:
            out[-1].append(value)
        else:
            out.append([value])
    return [sum(group) / len(group) for group in out]


def ruled(group: Sequence[Rule], words: Sequence[Word]) -> Grid | None:
    """The grid that a network of rules draws, its words put into cells; None where it has no cells, or more than any table."""
    if len(group) > limits.RULES:
        return None
    xs = _positions([r.at for r in group if not r.level])
    ys = _positions([r.at for r in group if r.level])
    if len(xs) < 2 or len(ys) < 2:
        return None
    level = sorted((r for r in group if r.level), key=lambda r: r.at)
    upright = sorted((r for r in group if not r.level), key=lambda r: r.at)
    ats = {True: [r.at for r in level], False: [r.at for r in upright]}

    def covered(rules: list[Rule], at: float, start: float, end: float) -> bool:
        """Whether rules at this place cover most of the way from start to end."""
        there = ats[rules is level]
        near = rules[bisect_left(there, at - 2.6) : bisect_right(there, at + 2.6)]
        reach = sum(max(0.0, min(r.end, end) - max(r.start, start)) for r in near)
        return reach >= 0.6 * (end - start)

    rows, cols = len(ys) - 1, len(xs) - 1
    if rows * cols > limits.CELLS:
        return None
    owner = {(r, c): (r, c) for r in range(rows) for c in range(cols)}

    def root(key: tuple[int, int]) -> tuple[int, int]:
        while owner[key] != key:
            key = owner[key]
        return key

    for r in range(rows):
        for c in range(cols):
            if c + 1 < cols and not covered(upright, xs[c + 1], ys[r], ys[r + 1]):
                owner[root((r, c + 1))] = root((r, c))
            if r + 1 < rows and not covered(level, ys[r + 1], xs[c], xs[c + 1]):
                owner[root((r + 1, c))] = root((r, c))
    members: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for key in owner:
        members.setdefault(root(key), []).append(key)
    spans = []
    for places in members.values():
        r0, r1 = min(p[0] for p in places), max(p[0] for p in places)
        c0, c1 = min(p[1] for p in places), max(p[1] for p in places)
        if len(places) == (r1 - r0 + 1) * (c1 - c0 + 1):
            spans.append((r0, c0, r1, c1))
        else:  # an L-shaped area is no cell; keep its pieces
            spans += [(r, c, r, c) for r, c in places]
    box = (xs[0], ys[0], xs[-1], ys[-1])
    boxes = [(xs[c0], ys[r0], xs[c1 + 1], ys[r1 + 1]) for r0, c0, r1, c1 in spans]
    held = _share([w for w in words if inside(w.box, box, 1.0)], boxes)
    cells = [Cell(reading_order(held[i]), boxes[i], r0, c0, r1 - r0 + 1, c1 - c0 + 1) for i, (r0, c0, r1, c1) in enumerate(spans)]
    return _tidy(Grid(tuple(sorted(cells, key=lambda k: (k.row, k.col))), box, rows, cols, True))


def _share(words: Sequence[Word], boxes: Sequence[Box]) -> list[list[Word]]:
    """Words to cells by their middle; a phrase with a word across a rule goes whole to where its middle lies."""
    held: list[list[Word]] = [[] for _ in boxes]

    def home(box: Box) -> int | None:
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        return next((i for i, b in enumerate(boxes) if b[0] <= x <= b[2] and b[1] <= y <= b[3]), None)

    for phrase in phrases(words, wide=0.6):
        homes = [home(word.box) for word in phrase.words]
        across = [
            h is not None and (w.box[0] < boxes[h][0] - 2 or w.box[2] > boxes[h][2] + 2)
            for w, h in zip(phrase.words, homes, strict=True)
        ]
        whole = home(phrase.box) if any(across) and phrase.turn in (0, 180) else None
        for word, own in zip(phrase.words, homes, strict=True):
            at = whole if whole is not None else own
            if at is not None:
                held[at].append(word)
    return held


def reading_order(words: Sequence[Word]) -> tuple[Word, ...]:
    """Level lines top to bottom, then turned lines left to right."""
    rows = lines(words)
    rows.sort(
        key=lambda row: (
            row[0].turn not in (0, 180),
            row[0].box[0] if row[0].turn == 90 else -row[0].box[0] if row[0].turn == 270 else min(w.box[1] for w in row),
        )
    )
    return tuple(word for row in rows for word in row)


def _tidy(grid: Grid) -> Grid | None:
    """Leave out rows and columns that hold no words at all and are thinner than type (double rules)."""
    keep_rows = [r for r in range(grid.rows) if not all(_thin(grid.at(r, c), r, grid, True) for c in range(grid.cols))]
    keep_cols = [c for c in range(grid.cols) if not all(_thin(grid.at(r, c), c, grid, False) for r in range(grid.rows))]
    if len(keep_rows) < 1 or len(keep_cols) < 1:
        return None
    if len(keep_rows) == grid.rows and len(keep_cols) == grid.cols:
        return grid
    row_of, col_of = {r: i for i, r in enumerate(keep_rows)}, {c: i for i, c in enumerate(keep_cols)}
    cells = []
    for cell in grid.cells:
        rs = [row_of[r] for r in range(cell.row, cell.row + cell.rows) if r in row_of]
        cs = [col_of[c] for c in range(cell.col, cell.col + cell.cols) if c in col_of]
        if rs and cs:
            cells.append(Cell(cell.words, cell.box, rs[0], cs[0], len(rs), len(cs), cell.drawn))
    return Grid(tuple(cells), grid.box, len(keep_rows), len(keep_cols), grid.ruled)


def _thin(cell: Cell | None, _at: int, _grid: Grid, by_row: bool) -> bool:
    if cell is None:
        return True
    size = cell.box[3] - cell.box[1] if by_row else cell.box[2] - cell.box[0]
    return size < 5.0 and not cell.words


def columns_by_space(words: Sequence[Word], least: float) -> list[tuple[float, float]]:
    """Column intervals: where no word stands for at least ``least`` points, in any of the words' lines, a column ends."""
    spans = sorted((w.box[0], w.box[2]) for w in words)
    out: list[list[float]] = []
    for start, end in spans:
        if out and start - out[-1][1] < least:
            out[-1][1] = max(out[-1][1], end)
        else:
            out.append([start, end])
    return [(a, b) for a, b in out]


def open_grid(rows: Sequence[Sequence[Word]], columns: Sequence[tuple[float, float]]) -> Grid:
    """The grid of an unruled table: phrases of each row put into the columns they overlap; one over several spans them."""
    cells: list[Cell] = []
    edges = [columns[0][0] - 1000.0, *((a[1] + b[0]) / 2 for a, b in pairwise(columns)), columns[-1][1] + 1000.0]
    for r, row in enumerate(rows):
        held: dict[tuple[int, int], list[Word]] = {}
        for part in phrases(row, wide=0.9):
            over = [
                c
                for c, (a, b) in enumerate(columns)
                if min(b, part.box[2]) - max(a, part.box[0]) > 0.25 * min(b - a, part.box[2] - part.box[0])
            ]
            if len(over) > 1:
                pieces = _pieces(part.words, edges[over[0] + 1 : over[-1] + 1])
                if len(pieces) == 1:
                    held.setdefault((over[0], over[-1]), []).extend(part.words)
                    continue
                for piece in pieces:
                    x = (piece[0].box[0] + piece[-1].box[2]) / 2
                    c = next(i for i in range(len(columns)) if edges[i] <= x < edges[i + 1])
                    held.setdefault((c, c), []).extend(piece)
                continue
            if over:
                held.setdefault((over[0], over[0]), []).extend(part.words)
                continue
            for word in part.words:
                x = (word.box[0] + word.box[2]) / 2
                c = next(i for i in range(len(columns)) if edges[i] <= x < edges[i + 1])
                held.setdefault((c, c), []).append(word)
        for (c0, c1), words in sorted(held.items()):
            cells.append(Cell(reading_order(words), union(w.box for w in words), r, c0, 1, c1 - c0 + 1))
    box = union(w.box for row in rows for w in row)
    return Grid(tuple(cells), box, len(rows), len(columns), False)


def _pieces(words: Sequence[Word], edges: Sequence[float]) -> list[list[Word]]:
    """The phrase cut at as many of its widest gaps as it crosses column edges; whole where its gaps are all alike."""
    gaps = [along(b)[0] - along(a)[1] for a, b in pairwise(words)]
    if not gaps:
        return [list(words)]
    usual = sorted(gaps)[(len(gaps) - 1) // 2]
    widest = sorted(range(len(gaps)), key=lambda i: -gaps[i])[: len(edges)]
    cuts = sorted(i + 1 for i in widest if gaps[i] > max(1.25 * usual if len(gaps) > 1 else 0.0, 0.4 * words[0].size))
    return [list(words[a:b]) for a, b in pairwise([0, *cuts, len(words)])]
