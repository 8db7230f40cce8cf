"""Blocks on a sheet: a title and the table, the running text and the notes that belong to it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise
from statistics import median
from typing import Literal

import regex as re

from extractor.paper.grid import Cell, Grid, columns_by_space, components, extent, inside, open_grid, reading_order, ruled
from extractor.paper.page import Outline
from extractor.paper.phrases import Paragraph, Phrase, lines, paragraphs, phrase, phrases
from extractor.paper.plans import Sheet
from extractor.paper.rules import Rule, rules
from extractor.paper.words import Word, union
from extractor.record import Box
from extractor.schedule.reading import Place
from extractor.trade.cells import read
from extractor.trade.headings import heading
from extractor.trade.marks import is_mark
from extractor.trade.text import plain, plain_word
from extractor.trade.titles import Title, title

NOTES = re.compile(r"(?:SHEAR ?WALL |SCHEDULE |GENERAL |FOOT ?)*NOTES?\b ?:?", re.I)
DATA = re.compile(r"\d+d\b|\d/\d|[@\"]|\bO\.?C\.?|\b\d{3,}\b|\b[234]x\b|\b(?:ONE|BOTH|\d) (?:SIDES?|FACES?)\b", re.I)


@dataclass(frozen=True)
class Block:
    """A titled part of a sheet. ``grid`` is None for running text and for a table that could not be laid out."""

    kind: str
    title: Title
    heading: Phrase
    place: Place
    sheet: Sheet
    grid: Grid | None = None
    text: tuple[Phrase, ...] = ()
    notes: tuple[Paragraph, ...] = ()
    inner: tuple[Paragraph, ...] = ()  # notes in the table's own full-width rows
    box: Box = (0.0, 0.0, 0.0, 0.0)


@dataclass
class Layout:
    """What is laid out on one sheet, worked out once: titles, networks of rules, paragraphs."""

    sheet: Sheet
    place: Place = field(init=False)

    def __post_init__(self) -> None:
        """Take the place from the sheet."""
        self.place = Place(self.sheet.page, self.sheet.number)

    @cached_property
    def titles(self) -> list[tuple[Phrase, Title]]:
        """Phrases that are titles, two-line titles joined."""
        out, used = [], set()
        found = sorted((p for p in self.sheet.phrases if p.turn == 0), key=lambda p: (round(p.box[3] / 2), p.box[0]))
        for i, first in enumerate(found):
            if i in used:
                continue
            said = title(_plain(first))
            for j in range(i + 1, min(i + 30, len(found))):
                second = found[j]
                if second.box[1] - first.box[3] > 0.9 * first.size:
                    break
                level = abs(second.box[3] - first.box[3]) < 0.3 * first.size and 0 < second.box[0] - first.box[2] < 3 * first.size
                under = -0.3 * first.size < second.box[1] - first.box[3] and abs(second.box[0] + second.box[2] - first.box[0] - first.box[2]) < 6 * first.size
                if not (level or under) or abs(second.size - first.size) > 0.1 * first.size:
                    continue
                joined = phrase((*first.words, *second.words))
                both = title(_plain(joined))
                if both and (both.sure or level) and (said is None or (said.kind == both.kind and not said.sure and level)):
                    first, said = joined, both
                    used.add(j)
                    break
            if said and not self._names_sheet(first) and (said.sure or not self._among_headings(first, found)):
                out.append((first, said))
        return out

    def _names_sheet(self, one: Phrase) -> bool:
        """Whether the phrase is the sheet's own title, in its title block."""
        width, height = self.sheet.size
        at_edge = one.box[0] > 0.76 * width or one.box[1] > 0.84 * height
        return at_edge and bool(self.sheet.block.title) and one.text.casefold() in (self.sheet.block.title or "").casefold()

    def _among_headings(self, one: Phrase, found: Sequence[Phrase]) -> bool:
        """Whether the phrase stands in a line of column headings (NAILS, between EDGE and FIELD)."""
        level = [p for p in found if p.words[0] not in one.words and abs(p.box[3] - one.box[3]) < 0.5 * one.size and abs(p.box[0] - one.box[0]) < 60 * one.size]
        return sum(heading(_plain(p)) is not None for p in level) >= 2

    @cached_property
    def outlines(self) -> list[Outline]:
        """Every drawn path of the sheet."""
        width, height = self.sheet.size
        return self.sheet.outlines((0.0, 0.0, width, height))

    @cached_property
    def rules(self) -> list[Rule]:
        """Level and upright rules on the sheet."""
        return rules(self.outlines)

    @cached_property
    def nets(self) -> list[tuple[Box, list[Rule]]]:
        """Networks of rules that could draw a table, with their boxes; the sheet's frame is none."""
        width, height = self.sheet.size
        out = []
        for group in components(self.rules):
            box = extent(group)
            if box[2] - box[0] > 30 and box[3] - box[1] > 10 and (box[2] - box[0]) * (box[3] - box[1]) < 0.55 * width * height:
                out.append((box, group))
        return out

    @cached_property
    def paragraphs(self) -> list[Paragraph]:
        """Level text of the sheet as paragraphs."""
        heads = {id(p) for p, said in self.titles if said.mark and said.body}
        heads |= {id(p) for p in self.sheet.phrases if len(p.words) > 4 and (p.words[0].text.endswith(":") or p.words[1].text in (":", "-")) and _begins(p)}
        return paragraphs(self.sheet.phrases, lambda p: id(p) in heads)

    @cached_property
    def _grids(self) -> dict[int, Grid | None]:
        return {}

    def grid(self, net: tuple[Box, list[Rule]]) -> Grid | None:
        """The grid of a network, made once."""
        key = id(net[1])
        if key not in self._grids:
            near = [w for w in self.sheet.words if inside(w.box, net[0], 2.0)]
            self._grids[key] = self._with_drawings(ruled(net[1], near), net[0]) if near else None
        return self._grids[key]

    def _with_drawings(self, grid: Grid | None, box: Box) -> Grid | None:
        """The grid with its wordless cells marked in which something small is drawn: text plotted as lines, a symbol."""
        if grid is None or all(c.words for c in grid.cells):
            return grid
        small = [o.box for o in self.outlines if o.box[2] - o.box[0] < 40 and o.box[3] - o.box[1] < 25 and inside(o.box, box)]
        cells = tuple(c if c.words else replace(c, drawn=any(_within(o, c.box) for o in small)) for c in grid.cells)
        return Grid(cells, grid.box, grid.rows, grid.cols, grid.ruled)


def _within(box: Box, outer: Box) -> bool:
    return outer[0] + 2 < box[0] and box[2] < outer[2] - 2 and outer[1] + 1.5 < box[1] and box[3] < outer[3] - 1.5


def _plain(text: Phrase) -> str:
    return " ".join(filter(None, (plain_word(w.text) for w in text.words if not w.raised)))


def blocks(layout: Layout) -> tuple[Block, ...]:
    """The titled blocks of the sheet that hold walls, hold-downs or nail definitions, in reading order."""
    out: list[Block] = []
    for head, said in layout.titles:
        if said.kind not in ("wall", "hold-down", "nail-legend"):
            continue
        if any(inside(head.box, b.box) and b.grid is not None for b in out if b.title.mark is None):
            continue
        block = _block(layout, head, said)
        if block is None:
            continue
        told = _told(layout, block) or _boxed(layout, block) if block.kind == "wall" and block.grid is None and not said.mark else []
        out += told or [block]
    if any(b.title.mark for b in out):  # the title over blocks of one type each is no table of its own
        out = [b for b in out if b.title.mark or b.kind != "wall" or b.grid is not None or b.text]
    out = [replace(b, notes=_notes(layout, b, out)) for b in out]
    return tuple(out)


def _block(layout: Layout, head: Phrase, said: Title) -> Block | None:
    base = Block(said.kind, said, head, layout.place, layout.sheet, box=head.box)
    if said.body and said.body[1] > said.body[0]:
        return _running(layout, base)
    grid = _ruled_under(layout, head) or (None if said.mark else _open_under(layout, head, said.kind))
    if grid is not None:
        box = union([head.box, grid.box])
        grid, inner = _without_notes(grid)
        return replace(base, grid=grid, inner=inner, box=box)
    if said.mark:
        return _listed(layout, base)
    return base if said.sure else None


def _without_notes(grid: Grid) -> tuple[Grid, tuple[Paragraph, ...]]:
    """The grid without full-width rows of sentences at its foot, and those sentences."""
    inner: list[Paragraph] = []
    last = grid.rows
    while last > 2:
        cell = grid.at(last - 1, 0)
        if cell is None or cell.cols < grid.cols or grid.cols < 3 or (cell.words and len(cell.words) < 4):
            break
        inner = paragraphs(phrases(cell.words)) + inner if cell.words else inner
        last = cell.row
    kept = part(grid, 0, last, 0, grid.cols) if last < grid.rows else grid
    return kept or grid, tuple(inner)


def _running(layout: Layout, base: Block) -> Block | None:
    """A wall type told in a paragraph: `SHEAR WALL TYPE 2: 7/16 OSB, ...`."""
    for paragraph in layout.paragraphs:
        if base.heading.words[0] in paragraph.words:
            return replace(base, text=(Phrase(paragraph.words, paragraph.box, paragraph.size),), box=paragraph.box)
    return replace(base, text=(base.heading,))


def _listed(layout: Layout, base: Block) -> Block | None:
    """A wall type told in lines under its title, within the box drawn round them where there is one."""
    head, below = base.heading, []
    around = min((box for box, _ in layout.nets if inside(head.box, box)), key=lambda b: (b[2] - b[0]) * (b[3] - b[1]), default=None)
    left, right = (around[0], around[2]) if around else (head.box[0] - 30, head.box[2] + 160)
    foot = head.box[3]
    for p in sorted((p for p in layout.sheet.phrases if p.turn == 0 and p.box[1] > head.box[1] + 0.5 * head.size), key=lambda p: p.box[1]):
        if p.box[0] < left or p.box[0] > right or p.box[2] < left + 20:
            continue
        if (around and p.box[1] > around[3]) or p.box[1] - foot > 2.2 * p.size or any(p is t for t, _ in layout.titles):
            break
        below.append(p)
        foot = max(foot, p.box[3])
    return replace(base, text=tuple(below), box=around or union([head.box, *(p.box for p in below)])) if below else None


def _told(layout: Layout, base: Block) -> list[Block]:
    """Wall types told in sentences under a title, each begun by its mark: `SW-A: 7/16 OSB ONE SIDE, ...`."""
    out, foot = [], base.heading.box[3]
    for p in sorted(layout.paragraphs, key=lambda p: p.box[1]):
        if p.box[1] < base.heading.box[1] + 0.5 * base.heading.size or abs(p.box[0] - base.heading.box[0]) > 40:
            continue
        if p.box[1] - foot > 5 * p.size:
            break
        begun = _begins(Phrase(p.words, p.box, p.size), p.number)
        if begun is None or len({f.field.split(".")[0] for f in read(begun[1], "wall")}) < 2:
            break
        text = plain([w.text for w in p.words if not w.raised]).text
        start = len(text) - len(begun[1])
        said = base.title._replace(mark=begun[0], mark_span=(0, max(start, 1)), body=(start, len(text)))
        out.append(replace(base, title=said, heading=phrase(p.words[:1]), text=(Phrase(p.words, p.box, p.size),), box=p.box))
        foot = p.box[3]
    return out


def _boxed(layout: Layout, base: Block) -> list[Block]:
    """Wall types told in lines in a box each, the mark alone at the top of the box, the boxes under one title."""
    out = []
    for box, _ in layout.nets:
        if box[1] < base.heading.box[1] or any(inside(t.box, box) for t, said in layout.titles if said.kind != "nail-legend"):
            continue
        held = [p for p in layout.sheet.phrases if p.turn == 0 and inside(p.box, box)]
        if len(held) < 3 or not is_mark(_plain(held[0])) or any(p.box[1] < held[0].box[3] - 2 for p in held[1:]):
            continue
        groups = {f.field.split(".")[0] for p in held[1:] for f in read(_plain(p), "wall")}
        if len(groups & {"sheathing", "fastener", "edge", "field"}) < 2:
            continue
        said = base.title._replace(mark=_plain(held[0]), mark_span=None, body=None)
        out.append(replace(base, title=said, heading=held[0], text=tuple(held[1:]), box=box))
    return out


def _begins(line: Phrase, number: str | None = None) -> tuple[str, str] | None:
    """The mark that begins a sentence about a type, and the rest of the sentence; None for other sentences."""
    text = plain([w.text for w in line.words if not w.raised]).text
    if number is not None and is_mark(number):
        return number, text
    m = re.match(r"(?:TYPE |WALL )?(?P<mark>[A-Z0-9][A-Z0-9.'*-]{0,6}?) ?(?::|-(?= )|=|\.(?= )) ?(?P<rest>.{20,})", text, re.S)
    return (m["mark"], m["rest"]) if m and is_mark(m["mark"]) else None


def _ruled_under(layout: Layout, head: Phrase) -> Grid | None:
    """The ruled grid that the title heads: the title stands close above it, or in its top row."""
    ranked = []
    for net in layout.nets:
        box = net[0]
        if min(box[2], head.box[2]) - max(box[0], head.box[0]) <= 0:
            continue
        above = box[1] - head.box[3]
        if inside(head.box, box, 1.0):
            ranked.append((0.0, net))
        elif -4 <= above <= 5 * head.size + 16 and not _other_title_between(layout, head, box[1]):
            ranked.append((above + 1, net))
    marked = [t for t, said in layout.titles if said.mark and t is not head]
    ranked = [(above, net) for above, net in ranked if not any(inside(t.box, net[0]) for t in marked) or inside(head.box, net[0], 1.0)]
    for _, net in sorted(ranked, key=lambda entry: (entry[0], entry[1][0][3] - entry[1][0][1])):
        grid = layout.grid(net)
        if grid is None:
            continue
        grid = _from_title(grid, head, layout)
        if grid is not None and grid.rows >= 2 and grid.cols >= 2 and not _lumped(grid):
            return grid
    return None


def _other_title_between(layout: Layout, head: Phrase, foot: float) -> bool:
    return any(
        other is not head and head.box[3] <= other.box[1] < foot and min(other.box[2], head.box[2]) > max(other.box[0], head.box[0]) for other, _ in layout.titles
    )


def _lumped(grid: Grid) -> bool:
    """Whether the rules leave several values in one cell, row after row: the columns are then told by white space."""
    if grid.cols > 3:
        return False
    wide = [c for c in grid.cells if c.words and any(b.box[0] - a.box[2] > 1.6 * a.size for line in lines(c.words) for a, b in pairwise(line))]
    return len(wide) >= max(2, grid.rows // 2)


def _from_title(grid: Grid, head: Phrase, layout: Layout) -> Grid | None:
    """The part of the grid under a title that stands in one of its own cells, down to the next such title."""
    titled = [c.row for c in grid.cells if c.row > 0 and c.cols == grid.cols and any(t.words[0] in c.words for t, s in layout.titles if t is not head)]
    if not inside(head.box, grid.box, 1.0):
        return part(grid, 0, min(titled), 0, grid.cols) if titled else grid
    at = next((c for c in grid.cells if head.words[0] in c.words), None)
    if at is None:
        return None
    stops = [c.row for c in grid.cells if c.row > at.row and c.cols >= 2 and any(t.words[0] in c.words for t, s in layout.titles) and c.col <= at.col < c.col + c.cols]
    last = min(stops, default=grid.rows)
    return part(grid, at.row + at.rows, last, at.col, at.col + at.cols) if at.cols > 1 else None


def part(grid: Grid, row0: int, row1: int, col0: int, col1: int) -> Grid | None:
    """Rows row0 to row1 and columns col0 to col1 (ends left out) as a grid of their own."""
    cells = []
    for cell in grid.cells:
        r0, r1 = max(cell.row, row0), min(cell.row + cell.rows, row1)
        c0, c1 = max(cell.col, col0), min(cell.col + cell.cols, col1)
        if r0 < r1 and c0 < c1:
            cells.append(Cell(cell.words, cell.box, r0 - row0, c0 - col0, r1 - r0, c1 - c0, cell.drawn))
    if not cells or row1 - row0 < 1:
        return None
    return Grid(tuple(cells), union(c.box for c in cells), row1 - row0, col1 - col0, grid.ruled)


def _open_under(layout: Layout, head: Phrase, kind: str) -> Grid | None:
    """The table under the title that no rules divide into cells: rows by lines of text, columns by white space."""
    region = _region(layout, head, kind)
    words = [w for w in layout.sheet.words if inside(w.box, region) and w not in head.words]
    if not words:
        return None
    rows = sorted(lines([w for w in words if w.turn == 0]), key=lambda row: sum(w.middle[1] for w in row) / len(row))
    rows = _until_end(rows, layout, head)
    if len(rows) < 2:
        return None
    if _labels_first(rows, kind):
        columns = columns_by_space([w for row in rows for w in row], 0.9 * median(w.size for row in rows for w in row))
        made = open_grid(_under_labels(rows, columns), columns)
        return made if made.cols >= 2 and made.rows >= 3 else None
    turned = [w for w in words if w.turn != 0 and w.box[3] < max(w2.box[3] for w2 in rows[-1]) + 2]
    first = _first_data(rows, kind)
    if first is None or (first == 0 and not turned):
        return None
    data = _one_table(rows[first:], head)
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
    table: Literal["wall", "hold-down"] = "hold-down" if kind == "hold-down" else "wall"
    starts = [_across(row, 0.9) for row in rows]
    labels = sum(heading(_plain(parts[0]), table) is not None for parts in starts)
    marks = [_plain(p) for p in starts[0][1:]]
    return labels >= 3 and labels >= 0.6 * len(rows) and bool(marks) and all(map(is_mark, marks)) and not all(heading(m, table) for m in marks)


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
    for other, said in layout.titles:
        if other is head:
            continue
        side = other.box[1] < head.box[3] + 8 * head.size and other.box[3] > head.box[1] - 6 * head.size
        if side and other.box[0] > head.box[2] + 20:
            x1 = min(x1, other.box[0] - 6)
        if side and other.box[2] < head.box[0] - 20:
            x0 = max(x0, other.box[2] + 6, x0)
    for other, said in layout.titles:
        if other is not head and other.box[1] > head.box[3] and other.box[0] < x1 and other.box[2] > x0 and other.box[0] < head.box[2] + 300 and said.kind != "notes":
            foot = min(foot, other.box[1] - 2)
    for box, _ in layout.nets:
        if inside(head.box, box, 2.0) and box[3] > head.box[3] + 2 * head.size:
            x0, x1, foot = max(x0, box[0]), min(x1, box[2]), min(foot, box[3])
    stack = _stack(layout, head, foot)
    if stack:
        return max(x0, stack[0] - 2), head.box[3] - 0.2 * head.size, min(x1, stack[1] + 2), foot
    x0, x1 = _island(layout, head, x0, x1, foot, "hold-down" if kind == "hold-down" else "wall")
    return x0, head.box[3] - 0.2 * head.size, x1, foot


def _stack(layout: Layout, head: Phrase, foot: float) -> tuple[float, float] | None:
    """From where to where level rules run under the title where three or more of them run alike: the table is as wide."""
    below = [r for r in layout.rules if r.level and head.box[3] - 2 < r.at < foot and r.start < head.box[2] and r.end > head.box[0] and r.end - r.start > 60]
    near = [r for r in below if r.at < head.box[3] + 5 * head.size]
    for first in sorted(near, key=lambda r: r.start - r.end):
        if sum(abs(r.start - first.start) < 4 and abs(r.end - first.end) < 4 for r in below) >= 3:
            return first.start, first.end
    return None


def _island(layout: Layout, head: Phrase, x0: float, x1: float, foot: float, table: Literal["wall", "hold-down"]) -> tuple[float, float]:
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


def _along_headings(words: Sequence[Word], left: float, right: float, wide: float, table: Literal["wall", "hold-down"]) -> tuple[float, float]:
    """The reach grown to the right along a line of column headings, which may stand far apart."""
    for row in lines([w for w in words if w.turn == 0]):
        parts = [p for p in phrases(row, wide=0.9) if heading(_plain(p), table) is not None]
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
        if NOTES.fullmatch(text.strip()) or (out and re.match(r"(?:\d{1,2}|[A-Z])[.)] ?[A-Z][A-Za-z]+ ", text)) or (out and len(phrases(row)) == 1 and len(row) > 7):
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


def _first_data(rows: Sequence[Sequence[Word]], kind: str) -> int | None:
    """The first line that holds a row's values: it begins with a mark, or most of its phrases are data and no headings."""
    table = "hold-down" if kind == "hold-down" else "wall"
    for i, row in enumerate(rows):
        parts = [" ".join(plain_word(w.text) for w in p.words if not w.raised) for p in _across(row, 0.8)]
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
    parts = [_plain(p) for p in _across(row, 0.8)]
    return close and all(DATA.search(p) and any(map(str.isdigit, p)) for p in parts)


def _one_table(rows: list[list[Word]], head: Phrase) -> list[list[Word]]:
    """The lines without what stands beside the table: a gutter much wider than the table's own ends it."""
    spans = columns_by_space([w for row in rows for w in row], 6.0)
    gaps = [(b[0] - a[1], a[1], b[0]) for a, b in pairwise(spans)]
    if not gaps:
        return rows
    usual = median(g for g, _, _ in gaps)
    limit = max(110.0, 3.5 * usual)
    right = next((a for gap, a, _ in gaps if gap > limit and a > head.box[2] - 10), None)
    left = next((b for gap, _, b in reversed(gaps) if gap > limit and b < head.box[0] + 30), None)
    kept = [[w for w in row if (right is None or w.middle[0] <= right) and (left is None or w.middle[0] >= left)] for row in rows]
    return [row for row in kept if row]


def _with_empty_columns(columns: list[tuple[float, float]], heads: Sequence[Sequence[Word]], size: float) -> list[tuple[float, float]]:
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
    anchors = [i for i, row in enumerate(data) if is_mark(" ".join(w.text for w in row if w.middle[0] < edge and not w.raised))]
    if len(anchors) in (0, len(data)):
        return [list(row) for row in data]
    tops = [min(w.box[1] for w in row) for row in data]
    feet = [max(w.box[3] for w in row) for row in data]
    cuts = []
    for a, b in pairwise(anchors):
        between = [y for y in level if feet[a] - 2 <= y <= tops[b] + 2]
        if between:
            cut = next((i for i in range(a + 1, b + 1) if tops[i] >= between[0] - 2), b)
        else:
            gaps = [(tops[i] - feet[i - 1], i) for i in range(a + 1, b + 1)]
            widest = max(g for g, _ in gaps)
            cut = next(i for g, i in gaps if g >= widest - 0.5) if len(gaps) > 1 else b
        cuts.append(cut)
    bounds = [0, *cuts, len(data)]
    return [[w for row in data[a:b] for w in row] for a, b in pairwise(bounds)]


def _with_turned(grid: Grid, turned: Sequence[Word], columns: Sequence[tuple[float, float]]) -> Grid:
    """Put turned headings over the columns they stand on, as a row of their own above the rest."""
    held: dict[int, list[Word]] = {}
    for word in turned:
        c = min(range(len(columns)), key=lambda i: max(columns[i][0] - word.middle[0], word.middle[0] - columns[i][1], 0.0))
        held.setdefault(c, []).append(word)
    cells = [Cell(reading_order(ws), union(w.box for w in ws), 0, c) for c, ws in held.items()]
    cells += [replace(c, row=c.row + 1) for c in grid.cells]
    return Grid(tuple(cells), union(c.box for c in cells), grid.rows + 1, grid.cols, False)


def _notes(layout: Layout, block: Block, found: Iterable[Block]) -> tuple[Paragraph, ...]:
    """The notes under the block: paragraphs below it, within its width, until another title or a wide gap."""
    if block.grid is None:
        return ()
    box = block.box
    foot, out = box[3], []
    stop = min(
        (t.box[1] for t, s in layout.titles if t is not block.heading and t.box[1] > box[3] - 2 and t.box[0] < box[2] and t.box[2] > box[0] and s.kind != "notes"),
        default=float("inf"),
    )
    for p in sorted(layout.paragraphs, key=lambda p: p.box[1]):
        if p.box[1] < box[3] - 3 or p.box[1] >= stop or p.box[0] < box[0] - 30 or p.box[0] > box[0] + 0.75 * (box[2] - box[0]):
            continue
        if p.box[1] - foot > 6.5 * p.size:
            break
        if any(inside(p.box, b.box) for b in found if b is not block):
            break
        foot = max(foot, p.box[3])
        if not NOTES.fullmatch(p.text.strip()):
            out.append(p)
    return tuple(out)
