"""Sheets with schedules to wall types, hold-downs and what was seen and not read."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from extractor.paper.grid import Grid
from extractor.paper.plans import Progress, Sheet
from extractor.record import Box, Finding, HoldDown, UnreadBlock, UnusedWords, WallType
from extractor.schedule import columns, notes
from extractor.schedule.find import Block, Layout, blocks
from extractor.schedule.rows import Row, Rows, listed, table_rows

WANTED = {"sheathing", "fastener", "edge", "field", "nailing", "sheathing_and_nailing"}


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
    general: list[notes.Said] = []
    found: list[tuple[Block, Rows, set[str], list[notes.Said]]] = []
    all_blocks: list[Block] = []
    for i, sheet in enumerate(sheets):
        layout = Layout(sheet)
        here = list(blocks(layout))
        all_blocks += here
        headed_notes, single = notes.wall_notes(layout, here)
        with_rows = []
        for block in here:
            rows, headed = _rows(block, out)
            if rows is None:
                single += notes.schedule_notes(block)
                continue
            own = notes.schedule_notes(block)
            if block.kind == "hold-down":
                single += notes.about_panels(own)
            with_rows.append((block, rows, headed, own))
            out.boxes.setdefault(sheet.page, []).append(block.box)
            out.boxes[sheet.page] += [p.box for p in block.notes]
        here_walls = [entry for entry in with_rows if entry[0].kind == "wall"]
        for entry in here_walls:
            entry[3].extend(headed_notes)
        general += single if here_walls else [*headed_notes, *single]
        found += with_rows
        if progress:
            progress(i + 1, len(sheets), f"reading {sheet.number or f'page {sheet.page}'}")
    _share_notes(found)
    nails = notes.definitions(all_blocks, [*general, *(s for _, _, _, own in found for s in own)])
    walls: list[WallType] = []
    holds: list[HoldDown] = []
    for block, rows, headed, own in found:
        used = {m for row in rows.rows for m in row.markers} | headed
        out.unused += rows.unused
        for row in rows.rows:
            if block.kind == "wall":
                notes.fill(row, own, general, nails, headed, used)
                row.fields.pop("fastener.legend", None)
                walls.append(row.record())
            else:
                holds.append(row.record())
    out.walls, out.hold_downs = tuple(walls), tuple(holds)
    return out


def _rows(block: Block, out: Reading) -> tuple[Rows | None, set[str]]:
    """The block's rows and the footnote markers on its headings; None where it gives none, which is said."""
    if block.kind == "nail-legend":
        return None, set()
    if block.grid is None:
        if block.title.mark:
            return listed(block), set()
        _not_read(block, out, "no table was made out under the title")
        return None, set()
    kind = block.kind
    if block.title.mark and block.grid.cols == 2:
        table = columns.name(_with_mark(block), kind, block.place)
    else:
        table = columns.name(block.grid, kind, block.place)
    if table is None:
        _not_read(block, out, "no column of marks with values under it was made out")
        return None, set()
    if kind == "wall" and (not table.kinds & WANTED or len(table.kinds) < 3):
        _not_read(block, out, "fewer than three of mark, sheathing, nail and edge spacing were made out")
        return None, set()
    if kind == "hold-down" and len(table.kinds) < 2:
        _not_read(block, out, "fewer than two columns were made out")
        return None, set()
    headed = {m for cell in block.grid.cells if cell.row < table.first for m in cell.markers} | {m for w in block.heading.words if w.raised for m in [w.text]}
    return table_rows(block, table), headed


def _with_mark(block: Block) -> Grid:
    """A block of heading and value for one type, with its mark from the title as the first line."""
    from extractor.paper.grid import Cell

    assert block.grid is not None
    grid = block.grid
    mark = [w for w in block.heading.words if w.text.strip(":.") == block.title.mark] or [block.heading.words[-1]]
    cells = [Cell((), block.heading.box, 0, 0), Cell(tuple(mark), block.heading.box, 0, 1)]
    cells += [Cell(c.words, c.box, c.row + 1, c.col, c.rows, c.cols, c.drawn) for c in grid.cells]
    return Grid(tuple(cells), grid.box, grid.rows + 1, grid.cols, grid.ruled)


def _not_read(block: Block, out: Reading, why: str) -> None:
    text = " ".join(w.text for w in block.heading.words)
    out.not_read.append(UnreadBlock(title=text, why=why, source=block.place.source(block.heading.box)))


def _share_notes(found: list[tuple[Block, Rows, set[str], list[notes.Said]]]) -> None:
    """A wall schedule without notes of its own shares those of the next one below it on the sheet."""
    for block, _, _, own in found:
        if own or block.kind != "wall":
            continue
        below = [
            (other.box[1], said)
            for other, _, _, said in found
            if other.kind == "wall" and other.place == block.place and said and other.box[1] >= block.box[3] - 4 and min(other.box[2], block.box[2]) > max(other.box[0], block.box[0])
        ]
        if below:
            own += min(below, key=lambda entry: entry[0])[1]


__all__ = ["Reading", "Row", "read_blocks"]
