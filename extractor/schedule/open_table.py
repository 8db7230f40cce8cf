"""Tables that no rules divide into cells: rows by lines of text, columns by white space."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from statistics import median
from typing import Literal

import regex as re

from extractor.paper.grid import Cell, Grid, columns_by_space, inside, open_grid, reading_order
from extractor.paper.phrases import Phrase, lines, phrases
from extractor.paper.words import Word, union
from extractor.record import Box
from extractor.schedule.layout import Layout, text_of
from extractor.trade.headingfacts import FACES
from extractor.trade.headings import heading
from extractor.trade.marks import family, is_mark
from extractor.trade.text import plain_word

Table = Literal["wall", "hold-down"]
NOTES = re.compile(r"(?:SHEAR ?WALL |SCHEDULE |GENERAL |FOOT ?)*NOTES?\b ?:?", re.I)
DATA = re.compile(r"\d+d\b|\d/\d|[@\"]|\bO\.?C\.?|\b\d{3,}\b|\b[234]x\b|\b(?:ONE|BOTH|\d) (?:SIDES?|FACES?)\b", re.I)


def open_table(layout: Layout, head: Phrase, kind: str) -> Grid | None:
    """The table under the title that no rules divide into cells: rows by lines of text, columns by white space."""
    region = _region(layout, head, kind)
    words = [w for w in layout.sheet.words if inside(w.box, region) and w not in head.words]
    if not words:
        return None
    rows = sorted(lines([w for w in words if w.turn == 0]), key=lambda row: sum(w.middle[1] for w in row) / len(row))
    if rows and len(rows[0]) > 7 and len(phrases(rows[0])) == 1:
        rows = rows[1:]  # a sentence between the title and the table
    rows = _until_end(rows, layout, head)
    if len(rows) < 2:
        return None
    if _labels_first(rows, kind):
        across = _between_ticks(rows, layout)
        apart = [w for row in rows for w in row if id(w) not in across]
        columns = columns_by_space(apart, 0.9 * median(w.size for w in apart)) if apart else []
        if len(columns) < 2:
            return None
        made = _with_spans(_under_labels(rows, columns), columns, across)
        return made if made.rows >= 3 else None
    turned = [w for w in words if w.turn != 0 and w.box[3] < max(w2.box[3] for w2 in rows[-1]) + 2]
    first = _first_data(rows, kind)
    if first is None or (first == 0 and not turned):
        return None
    data = _without_sentences(_one_table(rows[first:], head))
    size = median(w.size for row in data for w in row)
    columns = columns_by_space([w for row in data for w in row], 0.9 * size)
    left, right = columns[0][0] - 40, columns[-1][1] + 60
    heads = [[w for w in row if left < w.middle[0] < right] for row in rows[:first]]
    columns = _with_empty_columns(columns, heads, size)
    level = [r for r in layout.rules if r.level and r.start < columns[0][1] and r.end > columns[-1][0]]
    grouped = _anchored(data, columns, [r.at for r in level])
    made = open_grid([*(h for h in heads if h), *grouped], columns)
    if turned:
        made = _with_turned(made, [w for w in turned if left < w.middle[0] < right], columns)
    return made if made.cols >= 3 else None


def _labels_first(rows: Sequence[Sequence[Word]], kind: str) -> bool:
    """Whether the lines begin with the headings and the first line names the marks: types side by side."""
    table: Table = "hold-down" if kind == "hold-down" else "wall"
    starts = [_across(row, 0.9) for row in rows]
    labels = sum(heading(text_of(parts[0]), table) is not None for parts in starts)
    marks = [text_of(p) for p in starts[0][1:]]
    return (
        labels >= 3
        and labels >= 0.6 * len(rows)
        and bool(marks)
        and all(map(is_mark, marks))
        and not all(heading(m, table) for m in marks)
    )


def _between_ticks(rows: Sequence[Sequence[Word]], layout: Layout) -> dict[int, tuple[float, float]]:
    """By word: from where to where short upright rules in its line hold it as one value, which may go for several columns."""
    out: dict[int, tuple[float, float]] = {}
    uprights = [r for r in layout.rules if not r.level]
    for row in rows:
        middle = median(w.middle[1] for w in row)
        ticks = sorted(r.at for r in uprights if r.start < middle < r.end)
        for left, right in pairwise(ticks):
            held = [w for w in row if left < w.middle[0] < right]
            if len(held) < len(row) and len(phrases(held, wide=0.9)) == 1:
                out |= dict.fromkeys(map(id, held), (left, right))
    return out


def _with_spans(
    rows: Sequence[Sequence[Word]], columns: Sequence[tuple[float, float]], across: dict[int, tuple[float, float]]
) -> Grid:
    """The grid of lines and columns, with each value that upright rules hold put into all columns between them."""
    made = open_grid([[w for w in row if id(w) not in across] for row in rows], columns)
    cells = list(made.cells)
    for r, row in enumerate(rows):
        for left, right in dict.fromkeys(across[id(w)] for w in row if id(w) in across):
            words = [w for w in row if across.get(id(w)) == (left, right)]
            cols = [c for c, (a, b) in enumerate(columns) if left < (a + b) / 2 < right]
            if cols:
                cells.append(Cell(reading_order(words), union(w.box for w in words), r, cols[0], 1, len(cols)))
    return Grid(tuple(sorted(cells, key=lambda c: (c.row, c.col))), made.box, made.rows, made.cols, made.ruled)


def _under_labels(rows: Sequence[Sequence[Word]], columns: Sequence[tuple[float, float]]) -> list[list[Word]]:
    """Lines without a label of their own go on with the line above them."""
    out: list[list[Word]] = []
    for row in rows:
        if out and not any(w.middle[0] <= columns[0][1] for w in row):
            out[-1] += row
        else:
            out.append(list(row))
    return out


def _region(layout: Layout, head: Phrase, kind: str) -> Box:
    """Where the table may lie: down from the title, to the next title at its side or below."""
    width, height = layout.sheet.size
    x0, x1, foot = head.box[0] - 0.35 * width, width, height
    for other, _ in layout.titles:
        if other is head:
            continue
        side = other.box[1] < head.box[3] + 8 * head.size and other.box[3] > head.box[1] - 6 * head.size
        if side and other.box[0] > head.box[2] + 20:
            x1 = min(x1, other.box[0] - 6)
        if side and other.box[2] < head.box[0] - 20:
            x0 = max(x0, other.box[2] + 6, x0)
    for other, said in layout.titles:
        if (
            other is not head
            and other.box[1] > head.box[3]
            and other.box[0] < x1
            and other.box[2] > x0
            and other.box[0] < head.box[2] + 300
            and said.kind != "notes"
        ):
            foot = min(foot, other.box[1] - 2)
    for box, _ in layout.nets:
        if inside(head.box, box, 2.0) and box[3] > head.box[3] + 2 * head.size:
            x0, x1, foot = max(x0, box[0]), min(x1, box[2]), min(foot, box[3])
    framed = any(inside(head.box, box, 2.0) and box[0] >= x0 and box[2] <= x1 for box, _ in layout.nets)
    stack = _stack(layout, head, foot)
    if stack and not (framed and stack[1] - stack[0] < 0.7 * (x1 - x0)):
        return max(x0, stack[0] - 2), head.box[3] - 0.2 * head.size, min(x1, stack[1] + 2), foot
    x0, x1 = _island(layout, head, x0, x1, foot, "hold-down" if kind == "hold-down" else "wall")
    return x0, head.box[3] - 0.2 * head.size, x1, foot


def _stack(layout: Layout, head: Phrase, foot: float) -> tuple[float, float] | None:
    """From where to where level rules run under the title where three or more of them run alike: the table is as wide."""
    below = [
        r
        for r in layout.rules
        if r.level and head.box[3] - 2 < r.at < foot and r.start < head.box[2] and r.end > head.box[0] and r.end - r.start > 60
    ]
    near = [r for r in below if r.at < head.box[3] + 5 * head.size]
    for first in sorted(near, key=lambda r: r.start - r.end):
        if sum(abs(r.start - first.start) < 4 and abs(r.end - first.end) < 4 for r in below) >= 3:
            return first.start, first.end
    return None


def _island(layout: Layout, head: Phrase, x0: float, x1: float, foot: float, table: Table) -> tuple[float, float]:
    """From where to where the table under the title reaches.

    Columns are parted by gutters up to nine type heights. Wider ones part what stands beside the table, unless headings go on
    along the line or the lines on both sides of the gutter are the same lines.
    """
    band = (x0, head.box[3] - 0.2 * head.size, x1, min(foot, head.box[3] + 22 * head.size))
    words = [w for w in layout.sheet.words if inside(w.box, band)]
    if not words:
        return x0, x1
    wide = 9 * median([w.size for w in words if w.box[2] > head.box[0]] or [head.size])
    strips = columns_by_space(words, 3.0)
    left, right = head.box[0], head.box[2]
    for _ in range(3):
        left, right = _along_headings(words, left, right, wide, table)
        for start, end in (*strips, *reversed(strips)):
            if end > left - wide and start < right + wide:
                left, right = min(left, start), max(right, end)
    for start, end in strips:
        if right + wide <= start < right + 4 * wide and _same_lines(words, (left, right), (start, end)):
            right = end
    return max(x0, left - 4), min(x1, right + 4)


def _same_lines(words: Sequence[Word], one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Whether most lines of text in two strips stand level with each other."""
    levels = [{round(w.box[3], 1) for w in words if a <= w.middle[0] <= b} for a, b in (one, other)]
    if min(map(len, levels)) < 3:
        return False
    met = [sum(any(abs(y - z) < 2.5 for z in levels[1 - i]) for y in level) / len(level) for i, level in enumerate(levels)]
    return min(met) >= 0.75


def _along_headings(words: Sequence[Word], left: float, right: float, wide: float, table: Table) -> tuple[float, float]:
    """The reach grown to the right along a line of column headings, which may stand far apart."""
    for row in lines([w for w in words if w.turn == 0]):
        parts = [p for p in phrases(row, wide=0.9) if heading(text_of(p), table) is not None]
        if len(parts) < 3:
            continue
        for p in parts:
            if p.box[0] - right < 2.2 * wide and left - p.box[2] < wide:
                left, right = min(left, p.box[0]), max(right, p.box[2])
    return left, right


def _until_end(rows: list[list[Word]], layout: Layout, head: Phrase) -> list[list[Word]]:
    """The lines down to a heading of notes, a numbered note, or a wide gap."""
    out: list[list[Word]] = []
    pitch: list[float] = []
    for row in rows:
        text = " ".join(w.text for w in row)
        if (
            NOTES.fullmatch(text.strip())
            or (out and re.match(r"(?:\(?\d{1,2}|[A-Z])[.)] ?[A-Z][A-Za-z]+ ", text))
            or (out and len(phrases(row)) == 1 and len(row) > 7)
            or _sentence_among(row, out)
        ):
            break
        top = min(w.box[1] for w in row)
        if out:
            gap = top - max(w.box[3] for w in out[-1])
            limit = 2.2 * max(w.size for w in row) + 2.0 * (median(pitch) if len(pitch) > 1 else 2 * row[0].size)
            if gap > limit:
                break
            pitch.append(max(gap, 0.0))
        elif top - head.box[3] > 6 * head.size:
            break
        out.append(row)
    return out


def _sentence_among(row: Sequence[Word], rows: Sequence[Sequence[Word]]) -> bool:
    """Whether a line of a number and a sentence follows lines of four cells and more: a note without a point after its number."""
    words = sorted(row, key=lambda w: w.box[0])
    if len(words) < 6 or not re.fullmatch(r"\(?\d{1,2}[.)]?", words[0].text) or len(phrases(row)) > 2:
        return False
    return sum(len(phrases(one)) > 3 for one in rows) > 1


def _first_data(rows: Sequence[Sequence[Word]], kind: str) -> int | None:
    """The first line that holds a row's values: it begins with a mark, or most of its phrases are data and no headings."""
    table: Table = "hold-down" if kind == "hold-down" else "wall"
    for i, row in enumerate(rows):
        parts = [text_of(p) for p in _across(row, 0.8)]
        data = sum(bool(DATA.search(p)) and heading(p, table) is None for p in parts)
        heads = sum(heading(p, table) is not None for p in parts)
        begins = is_mark(parts[0]) and (heading(parts[0], table) is None or any(map(str.isdigit, parts[0])))
        if (begins and data >= 1 and data >= heads) or (data >= 3 and data > heads):
            while i > 0 and _all_data(rows[i - 1], rows[i]):  # lines of the first row that stand above its mark
                i -= 1
            return i
    return None


def _across(row: Sequence[Word], wide: float) -> list[Phrase]:
    """The phrases of one line, left to right."""
    return sorted(phrases(row, wide=wide), key=lambda p: p.box[0])


def _all_data(row: Sequence[Word], below: Sequence[Word]) -> bool:
    """Whether a line holds values only and stands as close over the next as lines of one cell do."""
    close = min(w.box[1] for w in below) - max(w.box[3] for w in row) < 0.35 * row[0].size
    parts = [text_of(p) for p in _across(row, 0.8)]
    return close and all(DATA.search(p) and (FACES.search(p) or any(map(str.isdigit, p))) for p in parts)


def _one_table(rows: list[list[Word]], head: Phrase) -> list[list[Word]]:
    """The lines without what stands beside the table: a gutter much wider than the table's own ends it."""
    words = [w for row in rows for w in row]
    spans = columns_by_space(words, 0.9 * median(w.size for w in words))  # gutters, not the gaps between words
    gaps = [(b[0] - a[1], a[1], b[0]) for a, b in pairwise(spans)]
    if not gaps:
        return rows
    usual = median(g for g, _, _ in gaps)
    limit = max(110.0, 3.5 * usual)
    right = next((a for gap, a, _ in gaps if gap > limit and a > head.box[2] - 10), None)
    left = next((b for gap, _, b in reversed(gaps) if gap > limit and b < head.box[0] + 30), None)
    kept = [[w for w in row if (right is None or w.middle[0] <= right) and (left is None or w.middle[0] >= left)] for row in rows]
    return [row for row in kept if row]


def _without_sentences(rows: list[list[Word]]) -> list[list[Word]]:
    """The lines down to the last one with a gutter in it; below it stand sentences that begin at the table's left edge."""
    parted = [len(phrases(row)) > 1 for row in rows]
    last = max((i for i, apart in enumerate(parted) if apart), default=len(rows) - 1)
    edge = min((min(w.box[0] for w in row) for row, apart in zip(rows, parted, strict=True) if apart), default=0.0)
    kept = list(rows)
    while len(kept) > last + 1 and len(kept[-1]) > 2 and min(w.box[0] for w in kept[-1]) < edge + kept[-1][0].size:
        kept.pop()
    return kept


def _with_empty_columns(
    columns: list[tuple[float, float]], heads: Sequence[Sequence[Word]], size: float
) -> list[tuple[float, float]]:
    """The columns and those that have a heading and no value in any row."""
    out = list(columns)
    for row in heads[-1:]:
        for p in phrases(row, wide=0.9):
            if not any(min(b, p.box[2]) - max(a, p.box[0]) > -0.5 * size for a, b in out) and p.box[0] < out[-1][1] + 200:
                out.append((p.box[0], p.box[2]))
    return sorted(out)


def _anchored(data: Sequence[Sequence[Word]], columns: Sequence[tuple[float, float]], level: Sequence[float]) -> list[list[Word]]:
    """Lines grouped into rows: by drawn rules where there are some, else each mark holds the lines nearest to it."""
    edge = (columns[0][1] + columns[1][0]) / 2 if len(columns) > 1 else columns[0][1]
    names = [" ".join(w.text for w in row if w.middle[0] < edge and not w.raised) for row in data]
    alike = family(filter(is_mark, names))  # 5D between 5C and 5E is no nail
    anchors = [i for i, name in enumerate(names) if is_mark(name) or alike.fullmatch(plain_word(name))]
    if len(anchors) in (0, len(data)):
        return [list(row) for row in data]
    tops = [min(w.box[1] for w in row) for row in data]
    feet = [max(w.box[3] for w in row) for row in data]
    inner = [y for y in level if tops[0] + 2 < y < feet[-1] - 2]
    band = [sum(y < foot - 1 for y in inner) for foot in feet] if inner else list(range(len(data)))
    topped, footed = band[anchors[0]] == band[0], band[anchors[-1]] == band[-1]
    cuts = []
    for a, b in pairwise(anchors):
        between = [y for y in level if feet[a] - 2 <= y <= tops[b] + 2]
        if between:
            wide = sorted({next((i for i in range(a + 1, b + 1) if tops[i] >= y - 2), b) for y in between})
        else:
            gaps = [tops[i] - feet[i - 1] for i in range(a + 1, b + 1)]
            wide = [i for i, g in enumerate(gaps, a + 1) if g >= max(gaps) - 0.5]
        cuts.append(wide[0] if len(wide) == 1 else _even(wide, topped=topped, footed=footed))
    bounds = [0, *cuts, len(data)]
    return [[w for row in data[a:b] for w in row] for a, b in pairwise(bounds)]


def _even(wide: Sequence[int], *, topped: bool, footed: bool) -> int:
    """Where a row ends among lines as far from each other: marks stand on the first line of a row, on its last, or half-way."""
    if topped and not footed:
        return wide[-1]
    return wide[0] if footed and not topped else wide[len(wide) // 2]


def _with_turned(grid: Grid, turned: Sequence[Word], columns: Sequence[tuple[float, float]]) -> Grid:
    """Put turned headings over the columns they stand on, as a row of their own above the rest."""
    held: dict[int, list[Word]] = {}
    for word in turned:
        c = min(range(len(columns)), key=lambda i: max(columns[i][0] - word.middle[0], word.middle[0] - columns[i][1], 0.0))
        held.setdefault(c, []).append(word)
    cells = [Cell(reading_order(ws), union(w.box for w in ws), 0, c) for c, ws in held.items()]
    cells += [replace(c, row=c.row + 1) for c in grid.cells]
    return Grid(tuple(cells), union(c.box for c in cells), grid.rows + 1, grid.cols, False)
