"""Rows of a named table: each becomes one record of readings."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

import regex as re

from extractor.paper.grid import Cell
from extractor.paper.phrases import lines, phrases
from extractor.paper.words import Word, union
from extractor.record import Capacity, HoldDown, Origin, Reading, State, UnusedWords, WallType
from extractor.schedule.columns import LETTERS, Column, Said, Table
from extractor.schedule.labels import labelled_parts
from extractor.schedule.layout import Block
from extractor.schedule.reading import Place, Printed, agree, assemble, capacities, conflict, from_found, printed, reading
from extractor.trade.cells import main_field, read
from extractor.trade.headingfacts import FACES
from extractor.trade.holddown import stacked_kind
from extractor.trade.inches import NUMBER, inches
from extractor.trade.marks import is_mark
from extractor.trade.text import Found
from extractor.trade.titles import Title
from extractor.trade.units import in_unit

EMBED = re.compile(r"\bEMBED", re.I)
SECOND = re.compile(rf" ?(?:x|/|,|-) ?(?P<deep>{NUMBER})\"?")
LOADS = re.compile(r"\b(?:(?P<seismic>SEIS(?:MIC|\.)?)|(?P<wind>WIND))(?![A-Z])", re.I)
NAILED = re.compile(r"\bNAIL(?:S|ING)?\b", re.I)
_ONE = r"[(\[]?(?:\d{1,2}|(?-i:[A-H]))[)\]]?"
POINTS = re.compile(
    rf"(?:see )?(?:(?:foot)?notes? ?)?{_ONE}(?:(?: ?[,&/;] ?| and | ){_ONE})*\.?", re.I
)  # a remark of notes alone: 1, 4
BANDED = ("sheathing", "fastener", "framing", "edge", "field")
WORDY = re.compile(r"[\p{L}\p{N}]")


@dataclass
class Row:
    """A record under construction: readings by dotted name, capacities, words left over; and what its cells gave, for dittos."""

    kind: str
    mark: Reading[str]
    place: Place
    scope: str | None = None
    title: tuple[Word, ...] = ()  # of its table, which may say what load a capacity is for
    fields: dict[str, Reading[Any]] = field(default_factory=dict)
    stated: list[Capacity] = field(default_factory=list)
    other: list[Reading[str]] = field(default_factory=list)
    by_column: dict[int, tuple[Found, ...]] = field(default_factory=dict)
    markers: set[str] = field(default_factory=set)
    contested: list[Capacity] = field(default_factory=list)
    scoped: tuple[Word, ...] = ()  # the words that say which walls or storey the row is for
    blank: set[str] = field(default_factory=set)  # kinds of column whose cell is empty
    filled: set[str] = field(default_factory=set)  # and those whose cell is not
    told_by_mark: set[str] = field(default_factory=set)  # fields that a note gives to this type by its mark

    def put(self, name: str, value: Reading[Any]) -> None:
        """Set a field; a second value that differs makes a conflict of two columns, or of one cell something unreadable."""
        own = self.fields.get(name)
        if own is None:
            self.fields[name] = value
        elif name == "hold_down.marks" and own.state is State.READ and value.state is State.READ:
            self.fields[name] = _both(own, value)  # AT FOUNDATION HD5, AT UPPER FLOORS ST2: the wall has both
        elif own.state is State.READ and value.state is State.READ and not agree(own, value):
            self.fields[name] = conflict(own, [value])
        elif own.state in (State.DEFERRED, State.NONE) and value.state is State.READ:
            self.fields[name] = value

    def agrees(self, other: "Row") -> bool:
        """Whether no field that both give differs."""
        plf = [c.plf.value for c in self.stated], [c.plf.value for c in other.stated]
        return (not all(plf) or plf[0] == plf[1]) and all(
            agree(v, other.fields[k]) for k, v in self.fields.items() if k in other.fields
        )

    def join(self, other: "Row") -> None:
        """Take in the same type from another table: what it adds is added, what differs makes a conflict."""
        for name, value in other.fields.items():
            own = self.fields.get(name)
            if own is not None and own.state in (State.READ, State.CONFLICT) and value.state in (State.READ, State.CONFLICT):
                if not agree(own, value):
                    self.fields[name] = conflict(own, [value.model_copy(update={"state": State.READ, "also": ()})])
            elif own is None or own.state is State.DEFERRED:
                self.fields[name] = value
        if not self.stated:
            self.stated = other.stated
        elif other.stated and [c.plf.value for c in self.stated] != [c.plf.value for c in other.stated]:
            self.contested = other.stated
        self.other += [o for o in other.other if o.value not in {mine.value for mine in self.other}]

    def tell_scope(self) -> None:
        """Put the words that say which walls or storey the row is for with the row's other words."""
        told = reading("other", " ".join(w.text for w in self.scoped), self.scoped, self.place) if self.scoped else None
        if told is not None and told.value not in {o.value for o in self.other}:
            self.other.insert(0, told)

    def record(self) -> Any:
        """The finished wall type or hold-down."""
        fields: dict[str, Any] = dict(self.fields)
        none = fields.pop("capacity", None)
        if self.kind == "wall":
            fields["capacity"] = capacities(self.stated, none)
            other = capacities(self.contested)
            if fields["capacity"] is not None and other is not None:
                fields["capacity"] = conflict(fields["capacity"], [other])
        return assemble(WallType if self.kind == "wall" else HoldDown, {"mark": self.mark, **fields, "other": tuple(self.other)})


def _both(own: Reading[Any], other: Reading[Any]) -> Reading[Any]:
    """The hold-downs of two columns as one reading."""
    mine, more = tuple(own.value or ()), tuple(other.value or ())
    if set(more) <= set(mine):
        return own
    told = f"{own.as_printed} {other.as_printed}"
    box = union([own.source.box, other.source.box])
    marks = tuple(dict.fromkeys((*mine, *more)))
    return own.model_copy(update={"value": marks, "as_printed": told, "source": own.source.model_copy(update={"box": box})})


@dataclass
class Rows:
    """The rows of one block and the printed words of it that ended nowhere."""

    rows: list[Row] = field(default_factory=list)
    holds: list[Row] = field(default_factory=list)  # hold-downs that the rows of walls tell in columns of their own
    unused: list[UnusedWords] = field(default_factory=list)


def table_rows(block: Block, table: Table) -> Rows:
    """Every row of the table that begins with a mark; other words of the table are unused."""
    out, scope, seen = Rows(), block.title.scope, set[int]()
    scoped = block.heading.words if scope else ()
    place, grid = block.place, table.grid
    for column in table.columns:
        if column.kind is None and column.text and column.text.text:
            out.unused.append(_unused(column.text.words, place))
    row, banded = _with_bands(table), None
    while row < grid.rows:
        cell = grid.at(row, table.mark)
        height = cell.rows - (row - cell.row) if cell else 1
        if cell is None or not cell.words or id(cell) in seen or cell.cols == grid.cols:
            band = [c for c in _row_cells(table, row, row + 1) if c.words and id(c) not in seen]
            if len(band) == 1 and (band[0].cols > 1 or cell is band[0]):
                scope, scoped = band[0].text.strip().casefold() or scope, band[0].words or scoped
                banded = _band(printed(band[0].words, place))
                band = band if banded is None else []
            out.unused += _row_unused(band, place)
            seen |= {id(c) for c in band}
            row += 1
            continue
        mark, rest, signs = _mark(printed(cell.words, place))
        if mark is None:
            out.unused += _row_unused([c for c in _row_cells(table, row, row + height) if c.words and id(c) not in seen], place)
            row += height
            continue
        made = Row(block.kind, mark, place, scope, block.heading.words, scoped=scoped)
        made.markers |= {*cell.markers, *signs}
        if rest:
            made.other.append(reading("other", " ".join(w.text for w in rest), rest, place))
        if table.columns[table.mark].kind in ("hd_mark_model", "hd_model"):
            made.fields["model"] = mark
        seen.add(id(cell))
        for column in table.columns:
            if column.index != table.mark:
                _column(made, table, column, range(row, row + height), out.rows, block.title)
        if banded is not None:
            _take_band(made, *banded)
        faces_of_title(made, block)
        out.rows.append(made)
        if table.holds and (held := _held(made, table, range(row, row + height), out.holds)):
            out.holds.append(held)
        row += height
    return out


def faces_of_title(made: Row, block: Block) -> None:
    """Give a wall of panels the faces that its title tells for all, unless the row or its band tells them."""
    text = printed((block.over or block.heading).words, made.place)
    m = FACES.search(text.text)
    told = Found("sheathing.faces", 1 if m["one"] else 2, m.span()) if m else None
    panels = block.kind == "wall" and any(name.startswith("sheathing.") for name in made.fields)
    if block.title.faces and told and panels and "sheathing.faces" not in made.fields:
        made.fields["sheathing.faces"] = from_found(told, text)


def _with_bands(table: Table) -> int:
    """The first row of data, or of the bands over the whole width right above it."""
    row = table.first
    while row > 1 and (cell := table.grid.at(row - 1, 0)) is not None and cell.words and cell.cols == table.grid.cols:
        row = max(cell.row, 1)
    return row


def _band(text: Printed) -> tuple[Printed, tuple[Found, ...]] | None:
    """What a band between rows says for all rows under it: SERIES N: 7/16" OSB, ONE SIDE; 8d COMMON NAILS. None where nothing."""
    found = tuple(f for f in read(text.text, "wall") if f.state is State.READ and f.field.split(".")[0] in BANDED)
    return (text, found) if found else None


def _take_band(made: Row, text: Printed, found: Sequence[Found]) -> None:
    """Give the row what the band over it says and the row itself leaves open; its own panel or nail stands alone."""
    own = {name.split(".")[0] for name in made.fields}
    for f in found:
        if f.field.split(".")[0] not in own:
            made.fields[f.field] = from_found(f, text)


def _held(wall: Row, table: Table, rows: Iterable[int], before: Sequence[Row]) -> Row | None:
    """The one hold-down that a wall's row names, with what the row tells of it; None where it names none or several."""
    named = wall.fields.get("hold_down.marks")
    marks = named.value if named is not None and named.state is State.READ else None
    if named is None or not marks or len(marks) != 1:
        return None
    mark = named.model_copy(update={"value": marks[0]})
    made = Row("hold-down", Reading[str](**dict(mark)), wall.place, wall.scope, wall.title)
    for column in table.holds:
        _column(made, table, column, rows, before, Title("hold-down"))
    return made


def _row_cells(table: Table, row0: int, row1: int) -> list[Cell]:
    out: list[Cell] = []
    for r in range(row0, row1):
        for c in range(table.grid.cols):
            cell = table.grid.at(r, c)
            if cell is not None and cell not in out:
                out.append(cell)
    return out


def _row_unused(cells: Sequence[Cell], place: Place) -> list[UnusedWords]:
    """The words of a row without a mark, as one."""
    return [_unused([w for c in cells for w in c.words], place)] if cells else []


def _unused(words: Sequence[Word], place: Place) -> UnusedWords:
    return UnusedWords(as_printed=" ".join(w.text for w in words), source=place.source(union(w.box for w in words)))


def _mark(text: Printed) -> tuple[Reading[str] | None, tuple[Word, ...], tuple[str, ...]]:
    """The mark in its cell, the words beside it, and the footnote signs on it that no mark has (6†)."""
    if not text.words:
        return None, (), ()
    bare = text.text.rstrip("†‡§ ")
    signs = tuple(text.text[len(bare) :].replace(" ", ""))
    if is_mark(bare) or LETTERS.fullmatch(bare):
        return reading("mark", bare, text.words, text.place), (), signs
    head = text.words[0]
    first = text.text[slice(*text.plain.spans[0])].rstrip("†‡§")
    if is_mark(first) and len(text.words) <= 6:
        return reading("mark", first, [head], text.place), text.words[1:], signs
    return None, (), ()


def _column(made: Row, table: Table, column: Column, rows: Iterable[int], before: Sequence[Row], said: Title) -> None:
    """Read the row's cells in one column into the row."""
    cells: list[Cell] = []
    for r in rows:
        cell = table.grid.at(r, column.index)
        if cell is not None and cell.words and cell not in cells:
            cells.append(cell)
    cells = [c for c in cells if c.col == column.index or not _read_before(table, c, column)]
    words = tuple(w for c in cells for w in c.words)
    if not words:
        blank = table.grid.at(next(iter(rows)), column.index)
        main = main_field(column.kind) if column.kind else None
        if blank is not None and blank.drawn and main:
            made.put(main, _drawn(main, blank, made))
        elif column.kind:
            made.blank.add(column.kind)
        return
    made.markers |= {m for c in cells for m in c.markers}
    made.filled |= {column.kind} if column.kind else set()
    text = printed(words, made.place)
    if not text.words:
        return
    if column.kind == "remarks" and POINTS.fullmatch(text.text.strip()):
        made.markers |= set(re.findall(r"\d{1,2}|(?<![A-Za-z])[A-Z](?![A-Za-z])", text.text))
    if made.kind == "hold-down" and column.kind is None and stacked(made, text):
        return
    unit = column.said.heading.unit if column.said else None
    found = in_unit(text.text, column.kind or "remarks", unit) or read(text.text, column.kind or "remarks")
    if column.kind == "hd_anchor" and column.text and EMBED.search(column.text.text):
        found = (*found, *_embedment_beside(text.text, found))
    ditto = next((f for f in found if f.field == "ditto"), None)
    if ditto is not None:
        source = (
            next((r for r in before if r.mark.value == ditto.value), None) if ditto.value else (before[-1] if before else None)
        )
        own = tuple(f for f in found if f is not ditto)  # SAME AS K3, EACH FACE: what the cell says itself stands
        again = tuple(f._replace(span=ditto.span) for f in source.by_column.get(column.index, ())) if source else ()
        found = (*(f for f in again if f.field not in {o.field for o in own}), *own)
    made.by_column[column.index] = found
    take(made, text, found, column.said, said)


def stacked(made: Row, text: Printed) -> bool:
    """A cell that tells a whole hold-down line by line, each value with its name or plain to see; False where it does not."""
    values: list[tuple[str, Printed, Said | None]] = []
    for line in lines(text.words):
        parts = labelled_parts(line, made.place, "hold-down")
        values += [(said.kind, value, Said(said, label)) for label, said, value in parts]
        for piece in [] if parts else _pieces(line, made.place):
            kind = stacked_kind(piece.text)
            if kind and values and values[-1][0] == kind:  # 5/8" ROD, 8" EMBEDMENT
                piece = printed((*values.pop()[1].words, *piece.words), made.place)
            values += [(kind, piece, None)] if kind else []
    kinds = [kind for kind, _, _ in values]
    if len(kinds) < 3 or len(set(kinds)) < len(kinds):
        return False
    for kind, value, said in values:
        take(made, value, read(value.text, kind), said)
    return True


def _pieces(line: Sequence[Word], place: Place) -> list[Printed]:
    """The parts of a line between commas, without the word MODEL before one and POST behind one."""
    ends = [i + 1 for i, w in enumerate(line) if w.text.endswith(",")]
    parts = [list(line[a:b]) for a, b in pairwise([0, *ends, len(line)]) if b > a]
    for part in parts:
        part[-1] = replace(part[-1], text=part[-1].text.rstrip(","))
        if len(part) > 1 and part[0].text.strip(":").upper() == "MODEL":
            del part[0]
        if len(part) > 1 and part[-1].text.upper() in ("POST", "POSTS"):
            del part[-1]
    return [printed(part, place) for part in parts]


def _drawn(name: str, cell: Cell, made: Row) -> Reading[Any]:
    """What stands for a cell that holds a drawing and no text: unreadable, not blank."""
    stroke = Word("(drawn, no text)", cell.box, 0.0)
    return reading(name, None, [stroke], made.place, state=State.UNREADABLE, table=made.kind)


def _embedment_beside(text: str, found: Sequence[Found]) -> Iterator[Found]:
    """The second length of a cell under ANCHOR x EMBED.: `5/8" x 10"` is a rod and how deep it goes."""
    size = next((f for f in found if f.field == "anchor.diameter_in" and f.state is State.READ), None)
    if size is None or any(f.field == "anchor.embedment_in" for f in found):
        return
    m = SECOND.match(text, size.span[1])
    if m and (deep := inches(m["deep"])) >= 3:
        yield Found("anchor.embedment_in", deep, m.span("deep"))


def _read_before(table: Table, cell: Cell, column: Column) -> bool:
    """Whether a cell over several columns was read in an earlier column of a kind."""
    return any(table.columns[c].kind is not None and c != table.mark for c in range(cell.col, column.index))


def take(
    made: Row,
    text: Printed,
    found: Sequence[Found],
    said: Said | None,
    title: Title | None = None,
    *,
    origin: Origin = Origin.SCHEDULE,
) -> None:
    """Put what was found in ``text`` into the row, with what the heading says of it; words left over go to other."""
    table = made.kind
    found = _with_loads(found, said)
    for f in found:
        if f.field == "capacity" and f.state is State.READ:
            made.stated.append(_capacity(f, text, said, title, made.title, origin))
        else:
            made.put(f.field, from_found(f, text, origin=origin, table=table))
    if said and any(f.state is State.READ for f in found):
        for f in said.heading.facts:
            if f.field not in made.fields and not f.field.startswith("capacity."):
                made.fields[f.field] = from_found(f, said.text, table=table)
    nails = NAILED.search(said.text.text) if said and "fastener.kind" not in made.fields else None
    if said and nails and any(f.state is State.READ and f.field in ("fastener.diameter_in", "fastener.penny") for f in found):
        made.fields["fastener.kind"] = from_found(Found("fastener.kind", "nail", nails.span()), said.text, table=table)
    used = {i for f in found for i in text.plain.words_in(f.span)}
    used |= {i for i, (start, end) in enumerate(text.plain.spans) if start == end}  # the twin of a value in inches
    left = [w for i, w in enumerate(text.words) if i not in used]
    for part in phrases(left, wide=1.5) if left else []:
        if WORDY.search(part.text):
            made.other.append(reading("other", part.text, part.words, made.place, origin=origin))


def _with_loads(found: Sequence[Found], said: Said | None) -> Sequence[Found]:
    """Two capacities of a cell under SEISMIC / WIND with their loads, in the heading's order."""
    plain = [f for f in found if f.field == "capacity" and f.state is State.READ and f.value[1] is None]
    order = [m.lastgroup for m in LOADS.finditer(said.text.text)] if said else []
    if len(plain) != 2 or sorted(filter(None, order)) != ["seismic", "wind"]:
        return found
    loads = {id(f): load for f, load in zip(plain, order, strict=True)}
    return [f._replace(value=(f.value[0], loads[id(f)], f.value[2])) if id(f) in loads else f for f in found]


def _capacity(
    f: Found, text: Printed, said: Said | None, title: Title | None, titled: Sequence[Word], origin: Origin
) -> Capacity:
    """A capacity with its load and method, each with the words of the cell, the heading or the title that say it."""
    plf, load, method = f.value
    number = reading("capacity.plf", plf, text.within(f.span), text.place, origin=origin)
    parts: dict[str, Any] = {}
    for name, own in (("load", load), ("method", method)):
        heading = getattr(said.heading, name) if said else None
        value = own or heading or (getattr(title, name) if title else None)
        if value:
            words = text.within(f.span) if own else said.text.words if said and heading else titled
            parts[name] = reading(f"capacity.{name}", value, words, text.place, origin=origin)
    return Capacity(plf=number, **parts)
