"""Blocks on a sheet: a title and the table, the running text and the notes that belong to it."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

import regex as re

from extractor.paper.grid import Cell, Grid, inside
from extractor.paper.phrases import Paragraph, Phrase, lines, paragraphs, phrases
from extractor.paper.words import union
from extractor.record import Box
from extractor.schedule import columns
from extractor.schedule.continued import right_over, second_parts
from extractor.schedule.heldlines import beside_marks
from extractor.schedule.layout import Block, Layout
from extractor.schedule.open_table import NOTES, open_table
from extractor.schedule.prose import boxed, columned, headed, listed, running, told
from extractor.schedule.reading import printed
from extractor.trade.headings import heading
from extractor.trade.titles import Title, title

HOLD_DOWN_ONLY = {"hd_post", "hd_anchor", "hd_embedment", "hd_capacity", "hd_fasteners"}


def blocks(layout: Layout) -> tuple[Block, ...]:
    """The titled blocks of the sheet that hold walls, hold-downs or nail definitions, in reading order."""
    out: list[Block] = []
    for head, said in layout.titles:
        if said.kind not in ("wall", "hold-down", "nail-legend"):
            continue
        if any(inside(head.box, b.box) and b.grid is not None for b in out if b.title.mark is None):
            continue
        if said.kind == "nail-legend" and _in_a_cell(layout, head, 4 if said.sure else 2):
            continue
        block = _block(layout, head, said)
        if block is None:
            continue
        worded = block.kind == "wall" and not said.mark and (block.grid is None or not _tabled(block))
        bare = replace(block, grid=None, inner=())
        types = (told(layout, bare) or boxed(layout, bare) or headed(layout, bare)) if worded else []
        if worded and not types and block.grid is not None:
            types = columned(bare, block.grid)
        if block.kind == "hold-down" and (block.grid is None or columns.name(block.grid, "hold-down", block.place) is None):
            types = beside_marks(layout, block)
        if any(inside(t.box, one.box, 2.0) for one in types for t, other in layout.titles if other.mark):
            types = []  # each is told under a title of its own
        if types:
            around = tuple(_round(layout, bare, types, (*out, *types)))
            types = [replace(t, notes=around, over=head if t.title.faces else None) for t in types]
        out += types or [one for whole in _parted(block) for one in _beside_itself(whole)]
    out += _along_the_side(layout, out)
    out += _untitled_hold_downs(layout, out)
    out += second_parts(layout, out)
    if any(b.title.mark for b in out):  # the title over blocks of one type each is no table of its own
        over = [b for b in out if not (b.title.mark or b.kind != "wall" or b.grid is not None or b.text)]
        out = [b for b in out if b not in over]
        typed = [b for b in out if b.title.mark and not b.notes]
        around = tuple(p for title in over for p in _round(layout, title, typed, out))
        out = [replace(b, notes=around) if b in typed else b for b in out]
        if len(over) == 1 and over[0].title.faces:
            head, faces = over[0].heading, over[0].title.faces
            out = [replace(b, over=head, title=b.title._replace(faces=faces)) if b.title.mark else b for b in out]
    return tuple(replace(b, notes=(*_between(layout, b), *notes_under(layout, b, out))) if b.grid is not None else b for b in out)


def _between(layout: Layout, block: Block) -> list[Paragraph]:
    """Sentences between the title and the table under it."""
    head, grid = block.heading.box, block.grid
    if grid is None or block.title.continued:
        return []
    return [
        p
        for p in layout.paragraphs
        if head[3] - 2 < p.box[1]
        and p.box[3] < grid.box[1] + 2
        and block.box[0] - 2 < p.box[0] < block.box[2]
        and len(p.words) > 3
    ]


def _round(layout: Layout, title: Block, types: Sequence[Block], found: Sequence[Block]) -> list[Paragraph]:
    """What stands between a title and the first of the types told under it, and what stands under the last of them."""
    types = [b for b in types if b.box[1] > title.heading.box[1]]
    centred = any(b.box[0] < title.heading.box[0] - 60 for b in types) and any(b.box[2] > title.heading.box[2] for b in types)
    types = types if centred else [b for b in types if b.box[0] > title.heading.box[0] - 60]
    if not types:
        return []
    top, right = min(b.box[1] for b in types), max(b.box[2] for b in types)
    left = min(title.heading.box[0], *(b.box[0] for b in types)) - 30
    between = [
        p
        for p in layout.paragraphs
        if title.heading.box[3] - 2 < p.box[1] and p.box[3] < top + 2 and left < p.box[0] < right and len(p.words) > 3
    ]
    whole = replace(title, box=union([title.heading.box, *(b.box for b in types)]))
    return [*between, *notes_under(layout, whole, found)]


def _parted(block: Block) -> list[Block]:
    """The block, or two of them where a hold-down table with headings of its own goes on in the grid of a wall schedule."""
    grid = block.grid
    if grid is None or block.kind != "wall":
        return [block]
    for row in range(2, grid.rows - 1):
        heads = [c for c in grid.cells if c.row == row and c.words]
        if len(heads) < 4 or not all(heading(printed(c.words, block.place).text, "hold-down") for c in heads):
            continue
        above, below = part(grid, 0, row, 0, grid.cols), part(grid, row, grid.rows, 0, grid.cols)
        table = columns.name(below, "hold-down", block.place) if below is not None else None
        if (
            above is not None
            and below is not None
            and table is not None
            and {"hd_model"} <= table.kinds
            and len(table.kinds & HOLD_DOWN_ONLY) > 1
        ):
            first = Phrase(heads[0].words, heads[0].box, heads[0].words[0].size)
            second = replace(
                block, kind="hold-down", title=Title("hold-down"), heading=first, grid=below, box=below.box, inner=()
            )
            return [replace(block, grid=above, box=union([block.heading.box, above.box])), second]
    return [block]


def _beside_itself(block: Block) -> list[Block]:
    """The block, or its halves where the headings begin again further to the right: a schedule that goes on beside itself."""
    grid = block.grid
    if grid is None or grid.rows < 2 or grid.cols < 3:
        return [block]
    across = _spans([_heading_down(grid, col) for col in range(grid.cols)])
    down = _spans([cell.text if (cell := grid.at(row, 0)) is not None and cell.row == row else "" for row in range(grid.rows)])
    halves = [(0, grid.rows, a, b) for a, b in across] or [(a, b, 0, grid.cols) for a, b in down]
    kept = [part(grid, *half) for half in halves]
    first, *others = [replace(block, grid=made) for made in kept if made is not None] or [block]  # notes are for all: one box
    return [first, *(replace(one, title=block.title._replace(continued=True)) for one in others)]


def _spans(heads: Sequence[str]) -> list[tuple[int, int]]:
    """From where to where the headings of a table run that stand there twice and more, in the same words; nothing where once."""
    starts = [at for at, text in enumerate(heads) if text and text == heads[0]]
    if len(starts) < 2 or starts[1] < 3:
        return []
    spans = list(pairwise([*starts, len(heads)]))
    wanted = [text for text in heads[: starts[1]] if text]
    return spans if all([text for text in heads[a:b] if text] == wanted for a, b in spans) else []


def _heading_down(grid: Grid, col: int) -> str:
    """The words over a column, down to the first row with a digit in it; a heading over several columns counts for each."""
    out = []
    for row in range(min(3, grid.rows - 1)):
        cell = grid.at(row, col)
        if cell is None or cell.cols == grid.cols:
            continue
        if re.search(r"\d", cell.text):
            break
        if cell.text not in out:
            out.append(cell.text)
    return " ".join(out).strip()


def _tabled(block: Block) -> bool:
    """Whether columns with marks under their heading were made out in what looks like a table."""
    return block.grid is not None and (block.grid.ruled or columns.name(block.grid, "wall", block.place) is not None)


def _in_a_cell(layout: Layout, head: Phrase, most: int) -> bool:
    """Whether words stand in a cell of a table of more columns than ``most``: NAILS names a row there and opens no legend."""
    for net in layout.nets:
        if inside(head.box, net[0]) and net[0][3] - net[0][1] < 0.5 * layout.sheet.size[1]:
            grid = layout.grid(net)
            if grid is None or grid.cols <= most:
                continue
            if any(head.words[0] in c.words and c.cols < grid.cols for c in grid.cells):
                return True
    return False


def _along_the_side(layout: Layout, found: Sequence[Block]) -> list[Block]:
    """Ruled tables whose title runs up a band at their left, over all rows."""
    out = []
    for net in layout.nets:
        turned = [w for w in layout.sheet.words if w.turn in (90, 270) and inside(w.box, net[0])]
        if not turned or any(b.grid is not None and inside(b.grid.box, net[0], 2.0) and b.kind != "hold-down" for b in found):
            continue
        grid = layout.grid(net)
        band = grid.at(0, 0) if grid is not None else None
        if grid is None or band is None or band.rows < grid.rows or grid.cols < 4 or not set(band.words) <= set(turned):
            continue
        ordered = sorted(band.words, key=lambda w: w.box[1], reverse=band.words[0].turn == 90) if band.words else []
        said = title(" ".join(w.text for w in ordered)) if ordered else None
        kept = part(grid, 0, grid.rows, band.cols, grid.cols)
        if said is None or kept is None or said.kind not in ("wall", "hold-down"):
            continue
        head = Phrase(tuple(ordered), band.box, ordered[0].size)
        out.append(Block(said.kind, said, head, layout.place, layout.sheet, grid=kept, box=net[0]))
    return out


def _untitled_hold_downs(layout: Layout, found: Sequence[Block]) -> list[Block]:
    """Ruled tables that no known title heads and whose headings only a hold-down table has: mark, model, and what holds it."""
    out = []
    for box, net in layout.nets:
        if any(b.grid is not None and inside(box, b.box) for b in found) or any(
            inside(t.box, box) for t, s in layout.titles if s.sure
        ):
            continue
        grid = layout.grid((box, net))
        table = columns.name(grid, "hold-down", layout.place) if grid is not None and grid.rows > 1 and grid.cols > 3 else None
        if table is None or grid is None or not {"hd_mark", "hd_model"} <= table.kinds or len(table.kinds & HOLD_DOWN_ONLY) < 2:
            continue
        over = [
            p
            for p in layout.sheet.phrases
            if p.turn == 0 and -2 < box[1] - p.box[3] < 3 * p.size and box[0] - 5 < p.box[0] < box[2]
        ]
        if any(p is t for p in over for t, s in layout.titles if s.kind == "other"):
            continue
        head = max(over, key=lambda p: p.box[3], default=Phrase(grid.cells[0].words, grid.cells[0].box, 8.0))
        out.append(Block("hold-down", Title("hold-down", sure=False), head, layout.place, layout.sheet, grid=grid, box=box))
    return out


def _block(layout: Layout, head: Phrase, said: Title) -> Block | None:
    base = Block(said.kind, said, head, layout.place, layout.sheet, box=head.box)
    if said.body and said.body[1] > said.body[0]:
        return running(layout, base)
    grid = _ruled_under(layout, head)
    if grid is None and not said.mark:
        grid = _ruled_over(layout, base) or open_table(layout, head, said.kind)
    if grid is not None:
        box = union([head.box, grid.box])
        grid, inner = _without_notes(grid)
        return replace(base, grid=grid, inner=inner, box=box)
    if said.mark:
        return listed(layout, base)
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
    ranked = [
        (above, net) for above, net in ranked if not any(inside(t.box, net[0]) for t in marked) or inside(head.box, net[0], 1.0)
    ]
    for _, net in sorted(ranked, key=lambda entry: (entry[0], entry[1][0][3] - entry[1][0][1])):
        grid = layout.grid(net)
        if grid is None:
            continue
        grid = _from_title(grid, head, layout)
        if grid is not None and grid.rows >= 2 and grid.cols >= 2 and not _lumped(grid) and not _goes_on(layout, head, net[0]):
            return grid
    return None


def _goes_on(layout: Layout, head: Phrase, box: Box) -> bool:
    """Whether the table goes on outside the network: level rules as wide as it stand apart from it, over it and below."""
    alike = [r.at for r in layout.rules if r.level and abs(r.start - box[0]) < 4 and abs(r.end - box[2]) < 4]
    inner = [y for y in alike if box[1] - 2 <= y <= box[3] + 2]
    over = [y for y in alike if head.box[3] - 2 < y < box[1] - 2]
    pitch = (box[3] - box[1]) / max(1, len(inner) - 1)
    below = [y for y in alike if box[3] + 2 < y < box[3] + 2.5 * pitch]
    return bool(over and below)


def _ruled_over(layout: Layout, block: Block) -> Grid | None:
    """The ruled table that a title stands right under, as titles of details do; none that another title heads."""
    head, kind = block.heading, block.kind
    for box, net in layout.nets if kind in ("wall", "hold-down") else ():
        gap = head.box[1] - box[3]
        if not -2 <= gap <= 5 * head.size or min(box[2], head.box[2]) <= max(box[0], head.box[0]):
            continue
        if any(t is not head and (inside(t.box, box) or right_over(t, box)) for t, _ in layout.titles):
            continue
        grid = layout.grid((box, net))
        table = columns.name(grid, "wall" if kind == "wall" else "hold-down", layout.place) if grid is not None else None
        if table is not None and len(table.kinds) >= 4:
            return grid
    return None


def _other_title_between(layout: Layout, head: Phrase, foot: float) -> bool:
    return any(
        other is not head
        and head.box[3] <= other.box[1] < foot
        and min(other.box[2], head.box[2]) > max(other.box[0], head.box[0])
        for other, _ in layout.titles
    )


def _lumped(grid: Grid) -> bool:
    """Whether the rules leave several values in one cell, row after row: the columns are then told by white space."""
    wide = [
        c
        for c in grid.cells
        if c.words and any(b.box[0] - a.box[2] > 1.6 * a.size for line in lines(c.words) for a, b in pairwise(line))
    ]
    if len(wide) < max(2, grid.rows // 2):
        return False
    held = sum(len(c.words) for c in wide)
    return grid.cols <= 3 or held > 0.7 * sum(len(c.words) for c in grid.cells)


def _from_title(grid: Grid, head: Phrase, layout: Layout) -> Grid | None:
    """The part of the grid under a title that stands in one of its own cells, down to the next such title."""
    titled = [
        c.row
        for c in grid.cells
        if c.row > 0 and c.cols == grid.cols and any(t.words[0] in c.words for t, s in layout.titles if t is not head)
    ]
    if not inside(head.box, grid.box, 1.0):
        return part(grid, 0, min(titled), 0, grid.cols) if titled else grid
    at = next((c for c in grid.cells if head.words[0] in c.words), None)
    if at is None:
        return None
    if at.row == 0 and at.cols < grid.cols and _among_headings(grid, at, layout):
        return _without_words(grid, at, head)
    stops = [
        c.row
        for c in grid.cells
        if c.row > at.row
        and c.cols >= 2
        and any(t.words[0] in c.words for t, s in layout.titles)
        and c.col <= at.col < c.col + c.cols
    ]
    last = min(stops, default=grid.rows)
    if at.row + at.rows == grid.rows and at.cols == grid.cols:  # a title in a band under its table
        return part(grid, 0, at.row, 0, grid.cols)
    return part(grid, at.row + at.rows, last, at.col, at.col + at.cols) if at.cols > 1 else None


def _among_headings(grid: Grid, at: Cell, layout: Layout) -> bool:
    """Whether the cell of a title stands in a row of column headings, in the place of a heading of its own."""
    beside = [c for c in grid.cells if c.row == 0 and c is not at and c.words]
    if any(t.words[0] in c.words for t, said in layout.titles if said.sure for c in beside):
        return False
    texts = [printed(c.words, layout.place).text for c in beside]
    named = sum(heading(text) is not None or heading(text, "hold-down") is not None for text in texts)
    return len(beside) > 1 and named >= 0.6 * len(beside)


def _without_words(grid: Grid, at: Cell, head: Phrase) -> Grid:
    """The grid with the title's words taken out of its cell."""
    cells = tuple(replace(c, words=tuple(w for w in c.words if w not in head.words)) if c is at else c for c in grid.cells)
    return replace(grid, cells=cells)


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


def notes_under(layout: Layout, block: Block, found: Iterable[Block]) -> tuple[Paragraph, ...]:
    """The notes under the block: paragraphs below it, within its width, until another title or a wide gap."""
    box = block.box
    foot, out = box[3], []
    tables = [net for net, _ in layout.nets if net[3] - net[1] < 0.5 * layout.sheet.size[1]]
    stop = min(
        (
            t.box[1]
            for t, s in layout.titles
            if t is not block.heading and t.box[1] > box[3] - 2 and t.box[0] < box[2] and t.box[2] > box[0] and s.kind != "notes"
        ),
        default=float("inf"),
    )
    for p in sorted(layout.paragraphs, key=lambda p: p.box[1]):
        if p.box[1] < box[3] - 3 or p.box[1] >= stop or p.box[0] < box[0] - 30 or p.box[0] > box[0] + 0.75 * (box[2] - box[0]):
            continue
        if p.box[1] - foot > 6.5 * p.size:
            break
        if any(inside(p.box, b.box) for b in found if b is not block):
            break
        if len(p.words) < 4 and any(inside(p.box, net) and not inside(block.box, net) for net in tables):
            continue
        if (
            p.number is None
            and not p.text.rstrip().endswith(".")
            and any(right_over(p, net) for net in tables if net[1] > box[3])
        ):
            continue  # words over the next table are its title, known or not
        foot = max(foot, p.box[3])
        if not NOTES.fullmatch(p.text.strip()):
            out.append(p)
    return tuple(out)
