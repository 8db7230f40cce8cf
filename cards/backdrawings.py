"""What is drawn on the back of a card, from the type's own numbers: panel, nail, joints, wall end, opening.

A drawing whose number the plans don't give, or that an open stop disputes, is not drawn: its place asks. Lengths in points.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from cards import drawing
from cards.face import Face
from cards.fit import LEADING, paragraph, width_pt
from cards.front import Words
from cards.values import Shown, Value, asked, called, inch
from extractor.record import State, readings

TYPE = 8.0
NAIL = 34.0  # height of the nail's strip
_NOT_NAILS = ("staple", "screw")
_LONGEST_NAIL = 3.6  # inches; a longer one leaves no room for its words


@dataclass(frozen=True)
class Picture:
    """A drawing at a place."""

    left: float
    top: float
    svg: str


@dataclass(frozen=True)
class Ask:
    """A hatched box in place of a drawing."""

    left: float
    top: float
    width: float
    height: float
    size: float
    lines: tuple[str, ...]

    @property
    def svg(self) -> str:
        """The hatching."""
        return drawing.stripes(self.width - 2, self.height - 2, 4.0)

    @property
    def above(self) -> float:
        """White above the words, so that they stand in the middle."""
        return (self.height - len(self.lines) * self.size * LEADING) / 2 - 1


@dataclass(frozen=True)
class Place:
    """Room for one drawing."""

    left: float
    top: float
    width: float
    height: float


Item = Picture | Ask | Words
Draw = Callable[[Face, Place, float], Iterable[Item]]


def clean(face: Face, name: str) -> Any:
    """A field's value where the plans give one that nobody disputes and no stop is open about; else None."""
    reading = dict(readings(face.wall)).get(name)
    disputed = any(question.stop and question.finding.field == name for question in face.questions)
    return reading.value if reading and reading.state is State.READ and not disputed else None


def ask_box(face: Face, names: Sequence[str], place: Place, k: float) -> Iterable[Ask]:
    """A box that names what is missing, unreadable or in conflict among ``names`` and where to ask."""
    values = list({id(value): value for name in names if (value := face.value(name))}.values())
    bad = [value for value in values if value.bad]
    texts = [
        _why(face, value, names)
        for value in bad or values
        if value.bad or value.warning or value.shown in (Shown.NONE, Shown.DEFERRED)
    ]
    texts = texts or [face.words.say("missing", what=called(tuple(names[:1])), q="")]
    size, room = TYPE * k, place.width - 14 * k
    lines = paragraph("; ".join(dict.fromkeys(texts)), room, size, True)
    if len(lines) * size * LEADING > place.height - 2:
        lines = paragraph(bad[0].warning[0] if bad else texts[0], room, size, True)
    yield Ask(place.left, place.top, place.width, place.height, size, lines)


def _why(face: Face, value: Value, names: Sequence[str]) -> str:
    """What keeps a drawing from being drawn."""
    if value.shown is not Shown.MISSING:
        return value.words
    lacking = tuple(name for name in value.fields if name in names) or value.fields[:1]
    return face.words.say("missing", what=called(lacking), q=asked(value.questions))


def panel(face: Face, place: Place, k: float) -> Iterable[Item]:
    """One panel with its nails, both numbers, and the count in 2 ft."""
    edge, field = clean(face, "edge.spacing_in"), clean(face, "field.spacing_in")
    rows = clean(face, "edge.rows") or 1
    if not edge or not field:
        yield from ask_box(face, ("edge.spacing_in", "field.spacing_in"), Place(0, 0, place.width, place.height), k)
        return
    yield Picture(place.left, place.top, drawing.panel(place.height, edge, field, rows))
    left = place.left + place.height / 2 + 4 * k
    size, room = TYPE * k, place.width - place.height / 2 - 4 * k
    words = face.words
    top = place.top
    for text, big in ((f"{words.first('edge')} {inch(edge)}", True), (f"{words.first('field')} {inch(field)}", True),
                      (words.first("count", n=nails_in_two_feet(edge)), False), (words.first("from_edge"), False),
                      (words.first("drawn"), False)):  # fmt: skip
        lines = paragraph(text, room, size, big)
        if top + len(lines) * size * LEADING > place.top + place.height:
            continue
        yield Words(left, top, room, size, lines, big)
        top += len(lines) * size * LEADING + 2 * k


def nails_in_two_feet(spacing_in: float) -> int:
    """Nails in 2 ft of edge, counted from a nail, both ends included: 6 in gives 5, 4 in 7, 3 in 9, 2 in 13."""
    return int(24 / spacing_in + 1e-9) + 1


def kinds_of(face: Face) -> list[Draw]:
    """What is drawn, first things first: high, flush and deep; panel joint; blocked joint; wall end; opening."""
    kinds: list[Draw] = [_heights, _joint]
    if clean(face, "framing.blocked") is not False:
        kinds.append(_blocked)
    if clean(face, "hold_down.marks"):
        kinds.append(_wall_end)
    return [*kinds, _opening] if clean(face, "edge.spacing_in") else kinds


_LOW, _TALL = 39.0, 50.0  # least height of a row of drawings, and of one with a wall end or an opening, their words included


def _in_rows(kinds: Sequence[Draw]) -> list[tuple[float, Sequence[Draw]]]:
    """Drawings in rows, each with its least height."""
    tall = [kind for kind in kinds if kind in (_wall_end, _opening)]
    low = [kind for kind in kinds if kind not in tall]
    return [(height, row) for height, row in ((_LOW, low), (_TALL, tall)) if row]


def rows_height(kinds: Sequence[Draw], k: float) -> float:
    """The least height that the drawings take in rows."""
    return sum(height for height, _ in _in_rows(kinds)) * k


def in_rows(face: Face, kinds: Sequence[Draw], place: Place, k: float) -> Iterable[Item]:
    """The drawings in rows with their words, grown to fill their place; a row of fewer drawings has wider ones."""
    grown, top = place.height / rows_height(kinds, 1.0) if kinds else 1.0, place.top
    for least, row in _in_rows(kinds):
        gap = 5 * k
        wide = (place.width - gap * (len(row) - 1)) / len(row)
        for i, kind in enumerate(row):
            yield from kind(face, Place(place.left + i * (wide + gap), top, wide, least * grown - 2 * k), k)
        top += least * grown


def _drawn(picture: str, caption: str, place: Place, k: float) -> Iterable[Item]:
    size = TYPE * k
    lines = paragraph(caption, place.width, size, True)[:1] if width_pt(caption, size, True) <= place.width else ()
    lines = lines or paragraph(caption, place.width, size, True)
    yield Picture(place.left, place.top, picture)
    yield Words(place.left, place.top + place.height - len(lines) * size * LEADING, place.width, size, lines, True, "center")


def _room(caption: str, place: Place, k: float) -> float:
    return place.height - len(paragraph(caption, place.width, TYPE * k, True)) * TYPE * k * LEADING - k


def _heights(face: Face, place: Place, k: float) -> Iterable[Item]:
    thickness = clean(face, "sheathing.thickness_in")
    if not thickness:
        return ask_box(face, ("sheathing.thickness_in",), place, k)
    both = face.words.say("flush_ok")
    caption = both if width_pt(both, TYPE * k, True) <= place.width else face.words.first("flush_ok")
    return _drawn(drawing.heights(place.width, _room(caption, place, k), thickness), caption, place, k)


def _joint(face: Face, place: Place, k: float) -> Iterable[Item]:
    return _section(face, "framing.panel_edge", drawing.joint, place, k)


def _blocked(face: Face, place: Place, k: float) -> Iterable[Item]:
    if clean(face, "framing.blocked") is None:
        return ask_box(face, ("framing.blocked",), place, k)
    return _section(face, "framing.blocked", drawing.blocked, place, k)


def _section(face: Face, name: str, draw: Any, place: Place, k: float) -> Iterable[Item]:
    """A joint's section on the stud or block that the plans name; where they name two, the words alone."""
    option, thickness = clean(face, "framing.panel_edge"), clean(face, "sheathing.thickness_in")
    if not option or not thickness:
        return ask_box(face, ("framing.panel_edge",) if not option else ("sheathing.thickness_in",), place, k)
    stagger = f", {face.words.first('stagger')}" if clean(face, "edge.staggered") else ""
    value = face.value("framing.panel_edge")
    caption = face.words.first("blocked_joint") if name == "framing.blocked" else (value.text if value else option) + stagger
    if option not in drawing.WIDTHS_IN:
        lines = paragraph(face.words.first("joint_caption", value=caption), place.width, TYPE * k, True)
        return [Words(place.left, place.top + place.height / 3, place.width, TYPE * k, lines, True, "center")]
    length, diameter = clean(face, "fastener.length_in"), clean(face, "fastener.diameter_in")
    nail = (length, diameter) if length and diameter else None
    return _drawn(draw(place.width, _room(caption, place, k), option, thickness, nail), caption, place, k)


def _wall_end(face: Face, place: Place, k: float) -> Iterable[Item]:
    edge = clean(face, "edge.spacing_in")
    if not edge:
        return ask_box(face, ("edge.spacing_in",), place, k)
    caption = ", ".join(clean(face, "hold_down.marks"))
    return _drawn(drawing.wall_end(place.width, _room(caption, place, k), edge), caption, place, k)


def _opening(face: Face, place: Place, k: float) -> Iterable[Item]:
    caption = face.words.first("opening")
    return _drawn(drawing.opening(place.width, _room(caption, place, k), clean(face, "edge.spacing_in")), caption, place, k)


def nail(face: Face, width: float, k: float) -> list[Item]:
    """The nail at actual size, and what a drawing cannot show; placed at the top of its strip."""
    nail = face.lines[0]
    length, diameter = clean(face, "fastener.length_in"), clean(face, "fastener.diameter_in")
    if nail.key in _NOT_NAILS:
        return []
    if not length or nail.key != "nail" or length > _LONGEST_NAIL:
        names = ("fastener.length_in", "fastener.diameter_in", "fastener.kind")
        asks = ask_box(face, names, Place(0, 0, width, NAIL), k)
        return [replace(ask, height=min(NAIL, len(ask.lines) * ask.size * LEADING + 8)) for ask in asks]
    marks = [(float(i), f"{i}") for i in range(1, int(length) + 1) if length - i > 0.3] + [(length, inch(length))]
    marks[:1] = [(1.0, '1.00"')] if length > 1.3 else marks[:1]
    left = length * 72 + 26
    size = TYPE * k
    caption = f"{inch(length)} × {inch(diameter)}: " if diameter else ""
    lines = paragraph(caption + face.words.say("length_only"), width - left, size)
    return [Picture(0, 0, drawing.nail(length, diameter, marks, TYPE)), Words(left, 0, width - left, size, lines)]
