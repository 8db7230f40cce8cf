"""Notes and legends: they fill what rows leave open, with their own place, and contradict what rows say; they replace nothing."""

from collections.abc import Collection, Iterable, Iterator, Sequence
from typing import Any, NamedTuple

import regex as re

from extractor.paper.grid import Grid, inside
from extractor.paper.phrases import Paragraph, Phrase
from extractor.paper.words import Word, union
from extractor.record import Box, Capacity, Origin, Reading, State, UnreadBlock
from extractor.schedule.layout import Block, Layout
from extractor.schedule.open_table import NOTES
from extractor.schedule.reading import Place, Printed, agree, conflict, from_found, printed
from extractor.schedule.rows import Row
from extractor.trade.cells import read
from extractor.trade.framing import lumber
from extractor.trade.marks import same_mark
from extractor.trade.nailwords import NailDefinition
from extractor.trade.notelengths import EdgeLimit
from extractor.trade.notes import LONGEST, Clause, Note, nail_definition, note
from extractor.trade.text import Found, plain_word

PANEL = ("sheathing", "fastener", "edge", "field", "framing", "capacity")
KEY = re.compile(r"[A-Z]\d?|[A-Z]{2}|\d{1,2}")
BASIS = re.compile(r"\b(?:CAPACIT|SHEAR VALUE|ALLOWABLE|SHEARS?\b|SCHEDULE)", re.I)
TO_SCHEDULE = re.compile(r"NOTES? (?:TO|FOR|OF) (?:THE |THIS |ALL |BOTH )*SCHEDULES?", re.I)
SEE_NOTE = re.compile(r"\bNOTES?\b", re.I)
RULE = re.compile(r"^EMBED\b|\b(?:ALL|SHALL|MUST|ARE|HAVE|TO BE|TO HAVE)\b", re.I)  # a sentence, and no callout of a detail
NOT_SILLS = re.compile(r"\b(?:STEEL|COLUMNS?|MASONRY|CMU|HOLD|TIE)", re.I)
GENERAL = (  # general notes that name no walls and hold for theirs too: the style of all nails, details of all sill bolts
    (re.compile(r"\W*(?:ALL )?(?:SHEATHING |PANEL )?(?:COMMON |BOX )?NAIL(?:S|ING)\b", re.I), {"fastener.style"}),
    (
        re.compile(r"(?:EMBED )?(?:ALL )?(?:ANCHOR|SILL|MUDSILL|FOUNDATION) BOLTS?\b|(?:EMBED )?(?:ALL )?\bA\.?B\.?'?S\b", re.I),
        {"anchors.kind", "anchors.embedment_in", "anchors.washer_in"},
    ),
)


class Said(NamedTuple):
    """A note as read: what it says, the words that say it, the number it is printed with."""

    note: Note
    text: Printed
    number: str | None


class Definition(NamedTuple):
    """A nail defined by a legend or a sentence, and the words of it."""

    nail: NailDefinition
    text: Printed


def too_long(said: Said) -> Iterator[UnreadBlock]:
    """What stands in a note and is longer than any sentence: nobody tells what it is about, so nothing is taken from it."""
    for clause in said.note.clauses:
        if clause.span[1] - clause.span[0] > LONGEST:
            words = said.text.within(clause.span)
            begins = " ".join(w.text for w in words[:6])[:60]
            yield UnreadBlock(title=f"{begins} ...", why=f"a note with a sentence of more than {LONGEST:,} letters",
                              source=said.text.place.source(union(w.box for w in words)))  # fmt: skip


def schedule_notes(block: Block, known: Collection[str] = ()) -> list[Said]:
    """The notes under a schedule and in its own full-width rows; ``known`` are the marks it defines."""
    return [_said(p, block.place, known) for p in (*block.notes, *block.inner)]


def about_panels(notes: Iterable[Said]) -> list[Said]:
    """Of the notes under a hold-down table, what they say of shear walls, or of panels and nailing."""
    out = []
    for said in notes:
        clauses = tuple(
            c if c.about_walls else c._replace(found=tuple(f for f in c.found if f.field.split(".")[0] in PANEL))
            for c in said.note.clauses
        )
        if any(c.found for c in clauses):
            out.append(said._replace(note=said.note._replace(clauses=clauses)))
    return out


def wall_notes(layout: Layout, blocks: Sequence[Block], known: Collection[str] = ()) -> tuple[list[Said], list[Said]]:
    """Notes elsewhere on the sheet about shear walls: those under a heading that says so, and single ones that say so."""
    headed: list[Said] = []
    single: list[Said] = []
    taken = [
        b.grid.box if b.grid is not None and b.kind == "nail-legend" else b.box for b in blocks if b.grid is not None or b.text
    ]
    under = [p for b in blocks for p in b.notes]
    headings = [(h, t) for h, t in layout.titles if t.kind == "notes" or not t.sure]
    beside = [
        h
        for h, t in headings
        if t.about is None
        and (
            (TO_SCHEDULE.fullmatch(h.text.strip(" :.")) and _by_walls(h, layout, blocks))
            or (re.fullmatch(r"(?i)notes", h.text.strip(" :.")) and _by_walls(h, layout, blocks) and _level_with_walls(h, blocks))
        )
    ]
    for paragraph in layout.paragraphs:
        if any(inside(paragraph.box, box) for box in taken) or paragraph in under or NOTES.fullmatch(paragraph.text.strip()):
            continue
        if paragraph.text.strip() in known:
            continue
        if (
            any(inside(paragraph.box, box) for box, _ in layout.nets if box[3] - box[1] < 0.5 * layout.sheet.size[1])
            and len(paragraph.words) < 4
        ):
            continue
        over = _heading_over(paragraph, layout)
        said = _said(paragraph, layout.place, known)
        about = any(over is h for h, t in headings if t.about == "wall" or t.kind == "wall" or h in beside)
        if about:
            headed.append(said)
        elif said.note.about_walls or _basis_of_schedules(said):
            single.append(said)
        elif _general(said) and not (over and NOT_SILLS.search(over.text)):
            single.append(_yielding(said))
    return headed, single


def _by_walls(head: Phrase, layout: Layout, blocks: Sequence[Block]) -> bool:
    """Whether a heading of notes stands nearest to a shear wall schedule, of all tables on the sheet."""
    tables = [(_apart(head.box, b.box), b.kind == "wall") for b in blocks if b.grid is not None]
    tables += [(_apart(head.box, t.box), False) for t, said in layout.titles if said.kind == "other" and said.sure]
    return bool(tables) and min(tables)[1]


def _level_with_walls(head: Phrase, blocks: Sequence[Block]) -> bool:
    """Whether a bare NOTES stands beside a shear wall schedule, level with it."""
    walls = [b.box for b in blocks if b.kind == "wall" and b.grid is not None]
    return any(y0 - 2 * head.size < head.box[1] < y1 for _, y0, _, y1 in walls)


def _apart(a: Box, b: Box) -> float:
    """How far two boxes are from each other, along the farther of both ways."""
    return max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3], 0.0)


def _basis_of_schedules(said: Said) -> bool:
    """Whether a general note only says on what basis capacities in schedules stand: CAPACITIES IN SCHEDULES ARE ASD."""
    found = said.note.found
    return bool(found) and all(f.field.startswith("capacity.") for f in found) and bool(BASIS.search(said.text.text))


def _general(said: Said) -> bool:
    """Whether a note without walls in it defines nails, or speaks of all nails or sill bolts and of what schedules leave out."""
    fields, text = {f.field for f in said.note.found}, said.text.text
    if said.note.definitions and fields <= {"fastener.style"} and GENERAL[0][0].match(text):
        return True
    if not fields or not RULE.search(text):
        return False
    return any(fields <= given and subject.match(text) for subject, given in GENERAL)


def _yielding(said: Said) -> Said:
    """The note as one that gives way to a row."""
    return said._replace(note=said.note._replace(clauses=tuple(c._replace(yields=True) for c in said.note.clauses)))


def _heading_over(paragraph: Paragraph, layout: Layout) -> Any:
    """The nearest heading above the paragraph in its column of text: a title, or a short line that stands out."""
    best, nearest = None, 1e9
    for p in layout.sheet.phrases:
        gap = paragraph.box[1] - p.box[3]
        if p.turn == 0 and gap + 1 >= 0 and gap < nearest and abs(p.box[0] - paragraph.box[0]) < 60 and _stands_out(p, paragraph):
            best, nearest = p, gap
    return next((h for h, _ in layout.titles if best is not None and best.words[0] in h.words), best)


def _stands_out(p: Any, paragraph: Paragraph) -> bool:
    text = p.text.strip()
    return (
        p.words[0] not in paragraph.words
        and len(p.words) <= 9
        and not text.endswith((".", ","))
        and not re.match(r"\d+[.)]?$", text)
        and (p.size > 1.12 * paragraph.size or text.isupper() or text.istitle())
    )


def _said(paragraph: Paragraph, place: Place, known: Collection[str]) -> Said:
    text = printed(paragraph.words, place)
    return Said(note(text.text, known), text, paragraph.number)


def definitions(blocks: Iterable[Block], notes: Iterable[Said]) -> list[Definition]:
    """Nails defined in legends and notes."""
    out = []
    for block in blocks:
        if block.kind == "nail-legend" and block.grid is not None:
            for row in range(block.grid.rows):
                words: list[Word] = []
                for col in range(block.grid.cols):
                    cell = block.grid.at(row, col)
                    if cell is not None and cell.row == row and cell.col == col:
                        words += cell.words
                text = printed(words, block.place)
                nail = _keyed(block.grid, row, text) or (nail_definition(text.text) if text.words else None)
                if nail:
                    out.append(Definition(nail, text))
    for said in notes:
        out += [Definition(nail, said.text) for nail in said.note.definitions]
    return out


def _keyed(grid: Grid, row: int, text: Printed) -> NailDefinition | None:
    """A legend's row with a key such as N1 in its first cell and the nail spread over the others."""
    first = grid.at(row, 0)
    if first is None or len(first.words) != 1 or not KEY.fullmatch(first.text):
        return None
    rest = text.text[text.plain.spans[len(first.words) - 1][1] :]
    found = read(rest, "fastener") if len(rest) > 1 else ()
    at = len(text.text) - len(rest)
    named = tuple(
        f._replace(span=(f.span[0] + at, f.span[1] + at))
        for f in found
        if f.state is State.READ and f.field.startswith("fastener.")
    )
    return (
        NailDefinition(first.text, named)
        if {"fastener.penny", "fastener.diameter_in", "fastener.gauge"} & {f.field for f in named}
        else None
    )


def fill(
    row: Row, own: Sequence[Said], general: Sequence[Said], nails: Sequence[Definition], headed: set[str], marks_used: set[str]
) -> None:
    """Fill the row from its schedule's notes, then from the general ones, then from nail legends.

    ``headed`` are the footnote markers on the schedule's headings, ``marks_used`` those on any of its cells: a footnote
    that hangs on cells alone speaks only of the rows whose cells carry it.
    """
    for said in own:
        if said.number and said.number in marks_used and said.number not in headed and said.number not in row.markers:
            continue
        _apply(row, said)
    for said in general:
        _apply(row, said)
    for definition in nails:
        _define(row, definition)


def _speaks_of(row: Row, clause: Clause) -> bool:
    if clause.one_place or clause.conditional:
        return False
    mark = row.mark.value or ""
    bare = mark.replace(" ", "")  # S 4, letter and number apart in their symbol
    if clause.marks and not any(same_mark(mark, m) or m.casefold() in (mark.casefold(), bare.casefold()) for m in clause.marks):
        return False
    if clause.only_sign and clause.only_sign not in row.markers:
        return False
    if clause.only_scope and not (row.scope and clause.only_scope in row.scope):
        return False
    if clause.only_edge and not _nailed_at(row, clause.only_edge):
        return False
    penny = row.fields.get("fastener.penny")
    return not (clause.only_penny and (penny is None or penny.value != clause.only_penny))


def _nailed_at(row: Row, limit: EdgeLimit) -> bool:
    """Whether the row's edge nailing is read and is what a clause is limited to."""
    edge = row.fields.get("edge.spacing_in")
    if edge is None or edge.value is None or edge.state is not State.READ:
        return False
    return bool(edge.value == limit.spacing_in or (limit.or_less and edge.value < limit.spacing_in))


def _apply(row: Row, said: Said) -> None:
    for clause in sorted(said.note.clauses, key=lambda clause: clause.only_sign is None):  # the exception first
        if _speaks_of(row, clause):
            _apply_clause(row, clause, said)


def _apply_clause(row: Row, clause: Clause, said: Said) -> None:
    against: set[str] = set()
    anchored = _gives_anchors(clause) and "anchors" in row.blank and not any(k.startswith("bottom_plate.") for k in row.fields)
    told = next((str(f.value) for f in clause.found if f.field == "fastener.kind"), "nail")
    for found in clause.found:
        group = found.field.split(".")[0]
        if found.field.startswith("capacity."):
            _basis(row, found, said)
            continue
        if group in against or not (_has_place(row, found.field, told) or (anchored and group == "anchors")):
            continue
        new = from_found(found, said.text, origin=Origin.NOTE)
        own = row.fields.get(found.field)
        if own is None or (own.state is State.DEFERRED and SEE_NOTE.search(own.as_printed)):
            row.fields[found.field] = _unless_left_over(row, new, found.field)
            row.told_by_mark |= {found.field} if clause.marks else set()
        elif found.field in row.told_by_mark and not clause.marks:
            continue  # FIELD NAILING OF TYPE 3G stands before FIELD NAILING OF SHEAR WALLS
        elif own.state in (State.READ, State.CONFLICT) and new.state is State.READ and not agree(own, new):
            if group == "fastener":
                against.add(group)
            if not clause.yields:
                row.fields[found.field] = conflict(own, [new])


def _unless_left_over(row: Row, new: Reading[Any], name: str) -> Reading[Any]:
    """The note's value; unreadable where words of the row that no column took name lumber too, maybe for the same place."""
    own = next((o for o in row.other if lumber(plain_word(o.as_printed))), None) if name == "framing.panel_edge" else None
    if own is None or new.state is not State.READ:
        return new
    return new.model_copy(
        update={
            "value": None,
            "state": State.UNREADABLE,
            "as_printed": own.as_printed,
            "source": own.source,
            "origin": own.origin,
        }
    )


def _gives_anchors(clause: Clause) -> bool:
    """Whether a clause gives a whole anchorage, size and spacing: it may fill a blank cell of a column of anchors."""
    told = {f.field for f in clause.found if f.state is State.READ}
    return told >= {"anchors.diameter_in", "anchors.spacing_in"}


def _has_place(row: Row, name: str, told: str) -> bool:
    """Whether a note may fill this: details of anchors and staples only where the row has some, a sill not on framing alone.

    ``told`` is the kind of fastener that the note speaks of.
    """
    if name.startswith("anchors."):
        return any(k.startswith("anchors.") and v.state in (State.READ, State.CONFLICT) for k, v in row.fields.items())
    if name == "framing.sill" and "bottom_plate" in row.filled:
        return any(k.startswith("anchors.") and v.state is State.READ for k, v in row.fields.items())
    kind = row.fields.get("fastener.kind")
    return not name.startswith("fastener.") or (kind.value if kind is not None else "nail") == told


def _basis(row: Row, found: Any, said: Said) -> None:
    """Load or method of stated capacities that say none themselves; the loads of two that stand in the order a note tells."""
    name = found.field.split(".")[1]
    if name == "loads":
        if len(row.stated) == 2 and all(c.load is None for c in row.stated):
            parts = [Found("capacity.load", load, found.span) for load in found.value]
            row.stated = [
                Capacity(**{**dict(c), "load": from_found(part, said.text, origin=Origin.NOTE)})
                for c, part in zip(row.stated, parts, strict=True)
            ]
        return
    value: Reading[Any] = from_found(found, said.text, origin=Origin.NOTE)
    row.stated = [
        c if getattr(c, name) is not None or value.state is not State.READ else Capacity(**{**dict(c), name: value})
        for c in row.stated
    ]


def _define(row: Row, definition: Definition) -> None:
    """The nail that a legend gives for the row's letter, or for its penny size."""
    nail, text = definition
    letter = row.fields.get("fastener.legend")
    penny, style, own = nail.value("penny"), nail.value("style"), row.fields.get("fastener.style")
    unread = row.fields.get("fastener.penny")
    if letter is not None and letter.value == nail.key:
        del row.fields["fastener.legend"]
    elif unread is not None and unread.state is State.UNREADABLE and unread.as_printed.strip() == nail.key:
        del row.fields["fastener.penny"]
    else:
        size = row.fields.get("fastener.penny")
        if size is None and _same_size(row, nail):
            pass
        elif (
            size is None
            or size.value != penny
            or nail.key != penny
            or (own is not None and style is not None and own.value != style)
        ):
            return
    for found in nail.found:
        if found.field not in row.fields:
            row.fields[found.field] = from_found(found, text, origin=Origin.LEGEND)
            if found.field == "fastener.penny" and "fastener.kind" not in row.fields:
                row.fields["fastener.kind"] = from_found(
                    found._replace(field="fastener.kind", value="nail"), text, origin=Origin.LEGEND
                )


def _same_size(row: Row, nail: NailDefinition) -> bool:
    """Whether the row gives its nail by the diameter and length of this one, and says nothing against its style."""
    own = [row.fields.get(f"fastener.{name}") for name in ("diameter_in", "length_in", "style")]
    size, style = [o.value if o is not None and o.state is State.READ else None for o in own[:2]], own[2]
    told = nail.value("style")
    return (
        None not in size
        and size == [nail.value("diameter_in"), nail.value("length_in")]
        and (style is None or told is None or style.value == told)
    )
