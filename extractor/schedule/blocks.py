"""Sheets with schedules to wall types, hold-downs and what was seen and not read."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import regex as re

from extractor.paper.grid import Cell, Grid
from extractor.paper.plans import Progress, Sheet
from extractor.paper.second import checked
from extractor.paper.turned import TurnedSheet
from extractor.paper.words import union
from extractor.record import Box, Finding, HoldDown, Level, State, UnreadBlock, UnusedWords, WallType
from extractor.schedule import anchorkeys, columns, notes
from extractor.schedule.continued import going_on
from extractor.schedule.find import blocks
from extractor.schedule.layout import Block, Layout, text_of
from extractor.schedule.reading import Place
from extractor.schedule.rows import Row, Rows, table_rows
from extractor.schedule.worded import listed
from extractor.trade.text import plain_word
from extractor.trade.titles import title

BARS = re.compile(r"(?<!\w)#\d{1,2}\b")
STARRED = re.compile(r"(?:(?<=^|[.;)] ))\*{1,2}(?= ?[A-Z=:])")
WANTED = {"wall", "sheathing", "fastener", "edge", "field", "nailing", "sheathing_and_nailing"}


@dataclass
class Part:
    """A block with its rows, the footnote markers on its headings, and the notes that go with it.

    ``whole`` is False for a table that has neither panels nor nailing: it only adds to types read elsewhere. ``beside`` are
    the notes on its sheet under a heading that gives them to all shear walls.
    """

    block: Block
    rows: Rows
    headed: set[str]
    own: list[notes.Said] = field(default_factory=list)
    beside: list[notes.Said] = field(default_factory=list)
    whole: bool = True
    table: columns.Table | None = None


@dataclass
class Reading:
    """What the schedule sheets gave."""

    walls: tuple[WallType, ...] = ()
    hold_downs: tuple[HoldDown, ...] = ()
    not_read: list[UnreadBlock] = field(default_factory=list)
    unused: list[UnusedWords] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    boxes: dict[int, list[Box]] = field(default_factory=dict)

    @property
    def hold_down_marks(self) -> list[str]:
        """Marks of the hold-down tables, and those that wall rows name."""
        named = [m for w in self.walls if w.hold_down.marks and w.hold_down.marks.value for m in w.hold_down.marks.value]
        return list(dict.fromkeys([*(h.mark.value for h in self.hold_downs if h.mark.value), *named]))


def read_blocks(sheets: Sequence[Sheet], progress: Progress | None = None) -> Reading:
    """Read every block on the sheets, then let notes and legends fill the rows."""
    out = Reading()
    found: list[Part] = []
    laid_out: list[tuple[Layout, list[Block], list[Part]]] = []
    for i, sheet in enumerate(sheets):
        for layout, here in _views(sheet, out):
            parts = [part for block in here if (part := _part(block, out)) is not None]
            last = next(
                (p for p in reversed(found) if p.block.kind == "wall" and p.table and p.whole and p.table.grid.ruled), None
            )
            for block, table in going_on(layout, here, last.table) if last and last.table else ():
                here.append(block)
                parts.append(Part(block, table_rows(block, table), last.headed if last else set(), table=table))
            laid_out.append((layout, here, parts))
            found += parts
            for part in parts:
                boxes = [part.block.box, *(p.box for p in part.block.notes)]
                out.boxes.setdefault(sheet.page, []).extend(layout.place.on_page(box) for box in boxes)
        if progress:
            progress(i + 1, len(sheets), f"reading {sheet.number or f'page {sheet.page}'}")
    for part in found:
        _without_stars(part)
    known = {row.mark.value for part in found if part.block.kind == "wall" for row in part.rows.rows if row.mark.value}
    general: list[notes.Said] = []
    for layout, here, parts in laid_out:
        general += _gather_notes(layout, here, parts, known)
    all_blocks = [block for _, here, _ in laid_out for block in here]
    found = _with_companions(found, out)
    _share_notes(found)
    for part in found:
        part.own += part.beside
    said = [*general, *(s for part in found for s in part.own)]
    out.not_read += dict.fromkeys(block for one in said for block in notes.too_long(one))
    nails = notes.definitions(all_blocks, said)
    rows: dict[str, list[Row]] = {"wall": [], "hold-down": []}
    anchorkeys.fill(
        [row for part in found if part.block.kind == "wall" for row in part.rows.rows],
        [(layout, here) for layout, here, _ in laid_out],
        known,
    )
    for part in found:
        used = {m for row in part.rows.rows for m in row.markers} | part.headed
        out.unused += part.rows.unused
        for row in part.rows.rows:
            if part.block.kind == "wall":
                notes.fill(row, part.own, general, nails, part.headed, used)
                row.fields.pop("fastener.legend", None)
    for kind, together in _tables(found):
        rows[kind] = merged(rows[kind], together)
    for held in (held for part in found for held in part.rows.holds):
        rows["hold-down"] = merged(rows["hold-down"], [held])
    _hold_down_names(rows)
    out.walls = tuple(row.record() for row in rows["wall"])
    out.hold_downs = tuple(row.record() for row in rows["hold-down"])
    return out


def _views(sheet: Sheet, out: Reading) -> Iterator[tuple[Layout, list[Block]]]:
    """The sheet laid out in blocks, as it stands and, where titles of schedules run up or down it, turned to read them."""
    layout, here = _laid_out(sheet, out)
    yield layout, here
    headed = {id(word) for block in here for word in block.heading.words}  # along the side of an upright table
    for turn in (90, 270):
        runs = [p for p in sheet.phrases if p.turn == turn and len(p.words) > 1 and id(p.words[0]) not in headed]
        heads = (title(text_of(p)) for p in runs)
        if not any(said and said.sure and said.kind in ("wall", "hold-down") for said in heads):
            continue
        layout = Layout(TurnedSheet(sheet, turn))
        here = [block for block in blocks(layout) if block.grid is not None or block.text]
        if here:
            yield layout, here


def _laid_out(sheet: Sheet, out: Reading) -> tuple[Layout, list[Block]]:
    """The sheet laid out in blocks; where it has any, its words are read a second time first."""
    layout = Layout(sheet)
    here = list(blocks(layout))
    again = read_again(sheet) if here else []
    if again:
        out.findings += again
        layout = Layout(sheet)
        here = list(blocks(layout))
    return layout, here


def _gather_notes(layout: Layout, here: Sequence[Block], parts: Sequence[Part], known: set[str]) -> list[notes.Said]:
    """Give each schedule its notes; return those that speak of all walls."""
    headed, single = notes.wall_notes(layout, here, known)
    with_rows = {id(part.block): part for part in parts}
    for block in here:
        own, part = notes.schedule_notes(block, known), with_rows.get(id(block))
        if part is None:
            single += own
            continue
        part.own += own
        if block.kind == "hold-down":
            single += notes.about_panels(own)
    walls = [part for part in parts if part.block.kind == "wall"]
    for part in walls:
        part.beside += headed
    return single if walls else [*headed, *single]


def read_again(sheet: Sheet) -> list[Finding]:
    """Read the sheet's words by the other engine; words it reads otherwise are marked, and a finding names them."""
    if sheet.kind == "annotations":
        return []
    with sheet.plans.page(sheet) as (_, view):
        again, seen = checked(sheet.plans.documents[sheet.document], sheet.index, view, sheet.words, plain_word)
    odd = [w for w in again if w.disputed]
    if not odd:
        return []
    sheet.take(again)
    where = sheet.number or f"page {sheet.page}"
    words = ", ".join(f"“{w.text}”" for w in odd[:5]) + (" and others" if len(odd) > 5 else "")
    told = f"a second reading of the file gives other letters for {words}. Values in these words"
    if not seen:
        told = "the file could not be read a second time. Values on this sheet"
    place = Place(sheet.page, sheet.number)
    return [
        Finding(
            code="second-reading-disagrees",
            level=Level.NOTE,
            message=f"Sheet {where}: {told} are not taken. Read them by eye.",
            source=place.source(union(w.box for w in odd)),
            citation="common practice, no source",
        )
    ]


def _tables(found: Sequence[Part]) -> list[tuple[str, list[Row]]]:
    """The rows of each table; the blocks of one type each on a sheet are one table."""
    out: list[tuple[str, list[Row]]] = []
    typed: dict[tuple[str, Place], list[Row]] = {}
    for part in found:
        block = part.block
        if block.title.mark is None:
            out.append((block.kind, part.rows.rows))
            continue
        if (block.kind, block.place) not in typed:
            out.append((block.kind, typed.setdefault((block.kind, block.place), [])))
        typed[block.kind, block.place] += part.rows.rows
    return out


def merged(before: list[Row], rows: Sequence[Row]) -> list[Row]:
    """The rows with those of another schedule: a type that stands in both once, where they differ as a conflict.

    Two rows of one schedule stay two where they differ: a check asks about them. So do rows for different storeys, and a row
    of a schedule that goes on with other types; one that repeats most of the types is the same schedule once more.
    """
    out = list(before)
    again = 2 * sum(any(r.mark.value == row.mark.value for r in before) for row in rows) > len(rows)
    for row in rows:
        same = next((r for r in before if r.mark.value == row.mark.value), None)
        if same is None:
            out.append(row)
        elif same.scope != row.scope and not same.agrees(row):
            out.append(row)
            same.tell_scope()
            row.tell_scope()
        elif not again and not same.agrees(row):
            out.append(row)
        else:
            same.join(row)
    return out


def _with_companions(found: list[Part], out: Reading) -> list[Part]:
    """The parts, with tables that give only anchorage or hold-downs for the same marks kept; others like them are not read."""
    known = {row.mark.value for part in found if part.block.kind == "wall" and part.whole for row in part.rows.rows}
    kept = []
    for part in found:
        if part.whole or {row.mark.value for row in part.rows.rows} <= known:
            kept.append(part)
        else:
            _not_read(part.block, out, "fewer than three of mark, sheathing, nail and edge spacing were made out")
    return kept


def _part(block: Block, out: Reading) -> Part | None:
    """The block's rows and the footnote markers on its headings; None where it gives none, which is said."""
    if block.kind == "nail-legend":
        return None
    if block.grid is None:
        if block.title.mark:
            return Part(block, listed(block), set())
        _not_read(block, out, "no table was made out under the title")
        return None
    grid = _with_mark(block) if block.title.mark else block.grid
    table = columns.name(grid, "hold-down" if block.kind == "hold-down" else "wall", block.place)
    if table is None:
        _not_read(block, out, "no column of marks with values under it was made out")
        return None
    whole = bool(table.kinds & WANTED) and len(table.kinds) >= 3
    if block.kind == "hold-down" and not block.title.sure and table.kinds <= {"hd_mark", "hd_fasteners"}:
        _not_read(block, out, "it gives neither a model nor a post, an anchor or a capacity: straps, perhaps of another kind")
        return None
    rows = table_rows(block, table)
    if len(table.kinds) < 2 and not (block.kind == "hold-down" and any(len(row.fields) > 2 for row in rows.rows)):
        _not_read(block, out, "fewer than two columns were made out")
        return None
    if block.kind == "wall" and _concrete(block.grid, rows):
        _not_read(block, out, "its rows speak of reinforcing bars and of no nail or staple: walls of concrete or masonry")
        return None
    headed = {m for cell in block.grid.cells if cell.row < table.first for m in cell.markers} | {
        w.text for w in block.heading.words if w.raised
    }
    return Part(block, rows, headed, whole=whole or block.kind == "hold-down", table=table)


def _hold_down_names(rows: dict[str, list[Row]]) -> None:
    """Read a wall row's hold-down cell that is nothing but marks of the hold-down table (HDA, POST-1)."""
    names = {r.mark.value for r in rows["hold-down"] if r.mark.value}
    for row in rows["wall"]:
        own = row.fields.get("hold_down.marks")
        if own is not None and own.state is State.UNREADABLE:
            pieces = [p for p in re.split(r"[\s,/&]+", own.as_printed) if p]
            if pieces and set(pieces) <= names:
                row.fields["hold_down.marks"] = own.model_copy(update={"state": State.READ, "value": tuple(pieces)})


def _concrete(grid: Grid, rows: Rows) -> bool:
    """Whether bars stand in the table and no fastener does."""
    nailed = any(name.startswith("fastener.") for row in rows.rows for name in row.fields)
    return not nailed and sum(bool(BARS.search(cell.text)) for cell in grid.cells) >= max(2, len(rows.rows))


def _with_mark(block: Block) -> Grid:
    """A block of heading and value for one type, with its mark from the title as the first line."""
    assert block.grid is not None
    grid = _in_pairs(block.grid)
    mark = [w for w in block.heading.words if w.text.strip(":.") == block.title.mark] or [block.heading.words[-1]]
    cells = [Cell((), block.heading.box, 0, 0), Cell(tuple(mark), block.heading.box, 0, 1)]
    cells += [Cell(c.words, c.box, c.row + 1, c.col, c.rows, c.cols, c.drawn) for c in grid.cells]
    return Grid(tuple(cells), grid.box, grid.rows + 1, grid.cols, grid.ruled)


def _in_pairs(grid: Grid) -> Grid:
    """Heading, value, heading, value in one row as rows of heading and value."""
    if grid.cols < 4 or grid.cols % 2:
        return grid
    cells = []
    for cell in grid.cells:
        pair = cell.col // 2
        cells.append(
            Cell(
                cell.words,
                cell.box,
                cell.row * (grid.cols // 2) + pair,
                cell.col % 2,
                cell.rows,
                min(cell.cols, 2 - cell.col % 2),
                cell.drawn,
            )
        )
    return Grid(tuple(cells), grid.box, grid.rows * (grid.cols // 2), 2, grid.ruled)


def _not_read(block: Block, out: Reading, why: str) -> None:
    text = " ".join(w.text for w in block.heading.words)
    out.not_read.append(UnreadBlock(title=text, why=why, source=block.place.source(block.heading.box)))


def _share_notes(found: Sequence[Part]) -> None:
    """A wall schedule without notes of its own shares those of the next one below it on the sheet, or of the one it continues."""
    walls = [part for part in found if part.block.kind == "wall"]
    for i, part in enumerate(walls):
        block = part.block
        if block.title.continued and not (_tells(part) or part.beside):
            part.own += next(([*p.own, *p.beside] for p in reversed(walls[:i]) if _tells(p) or p.beside), [])
        if _tells(part):
            continue
        below = [
            (other.block.box[1], other.own)
            for other in walls
            if other.block.place == block.place
            and _tells(other)
            and other.block.box[1] >= block.box[3] - 4
            and min(other.block.box[2], block.box[2]) > max(other.block.box[0], block.box[0])
        ]
        if below:
            part.own += min(below, key=lambda entry: entry[0])[1]


def _tells(part: Part) -> bool:
    """Whether a schedule has notes of its own; the heading of the next table alone is none."""
    return any(said.number or said.note.found or said.note.definitions for said in part.own)


def _without_stars(part: Part) -> None:
    """Take the star off marks where a footnote under the table begins with one and no other row has the bare mark."""
    noted = {m[0] for p in (*part.block.notes, *part.block.inner) for m in STARRED.finditer(p.text)}
    marks = {row.mark.value for row in part.rows.rows}
    for row in part.rows.rows:
        mark = row.mark.value or ""
        bare = mark.rstrip("*")
        if bare != mark and mark[len(bare) :] in noted and bare not in marks:
            row.markers.add(mark[len(bare) :])
            row.mark = row.mark.model_copy(update={"value": bare})
