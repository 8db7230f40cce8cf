"""A Face -> the back of a card: drawings from the type's own numbers, what is open, safety, and who governs.

A drawing whose number the plans don't give is not drawn: its place asks. Lengths in points.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from cards import drawing
from cards.face import Face, Line
from cards.fit import LEADING, paragraph, width_pt
from cards.front import Words, job_name, one_line
from cards.sheet import Size
from cards.values import Shown, Value, asked, called, inch, number_in
from extractor.record import Job, State, readings

TYPE = 8.0
_NOT_NAILS = ("staple", "screw")
_LONGEST_NAIL = 3.6  # inches; a longer one leaves no room for its words
_GAUGE, _NAIL, _GAP, _QR = 17.0, 34.0, 4.0, 60.0
_SMALL = 7.5 / TYPE  # type of a small card's back


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
class Back:
    """The back of one card, inside its margins."""

    pictures: tuple[Picture, ...]
    asks: tuple[Ask, ...]
    words: tuple[Words, ...]


@dataclass(frozen=True)
class _Place:
    """Room for one drawing."""

    left: float
    top: float
    width: float
    height: float


Item = Picture | Ask | Words
_Draw = Callable[[Face, _Place, float], Iterable[Item]]


def back(face: Face, job: Job, size: Size, number: int, of: int) -> Back:
    """The back of card ``number`` of ``of``."""
    items = _small(face, job, size, number, of) if size.kind == "small" else _whole(face, job, size, number, of)
    return Back(tuple(i for i in items if isinstance(i, Picture)), tuple(i for i in items if isinstance(i, Ask)),
                tuple(i for i in items if isinstance(i, Words)))  # fmt: skip


def _small(face: Face, job: Job, size: Size, number: int, of: int) -> list[Item]:
    """The back of a small card: gauge and who governs at the foot, the panel with its numbers, the QR."""
    k, width, height = size.scale * _SMALL, (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    hole, bottom = (size.hole - size.margin) * 72, height - _GAUGE
    items: list[Item] = [*_gauge(face, _Place(0, bottom, width, _GAUGE), k, width / 72 - 0.1)]
    govern = paragraph(face.words.say("govern_short") + ". " + face.words.say("see_back"), width, TYPE * k)
    bottom -= len(govern) * TYPE * k * LEADING + 2
    items.append(Words(0, bottom, width, TYPE * k, govern))
    bottom -= 2
    code = min(_QR * size.scale, bottom - hole)
    items.append(Picture(width - code, hole, qr(text_code(face, job, number, of), code)))
    title, middle = 2 * TYPE * k * LEADING, bottom / 2 + 4 * k
    items += _title(face, _Place(middle, bottom - title, width - code - 6 - middle, 0), k, number, of, under=True)
    high = bottom if clean(face, "edge.spacing_in") and clean(face, "field.spacing_in") else bottom - title - 3
    items += _panel(face, _Place(0, 0, width - code - 6, high), k)
    return items


def _whole(face: Face, job: Job, size: Size, number: int, of: int) -> list[Item]:
    """The back of a card, filled from the bottom: gauge, nail, safety; then drawings, QR and words.

    On a larger card type grows less than the card, so that there is room for more drawings.
    """
    k, width, height = max(1.0, 0.86 * size.scale), (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    hole = (size.hole - size.margin) * 72
    bottom = height - _GAUGE
    items: list[Item]
    items = [*_gauge(face, _Place(0, bottom, width, _GAUGE), k, width / 72 - 0.5)]
    bottom = min(bottom, *(i.top for i in items))  # words beside the gauge may be higher than it
    nail = _nail(face, width, k)
    high = max((i.height for i in nail if isinstance(i, Words)), default=_NAIL if nail else -_GAP)
    bottom -= max(high, _NAIL if nail else -_GAP) + _GAP
    items += [replace(item, top=bottom) for item in nail]
    safety = paragraph(_safety(face), width, TYPE * k)
    bottom -= len(safety) * TYPE * k * LEADING + _GAP
    items.append(Words(0, bottom, width, TYPE * k, safety))
    bottom -= _GAP
    code = min(_QR * k, bottom - hole - 2)
    items.append(Picture(width - code, hole + 1, qr(text_code(face, job, number, of), code)))
    under = bottom - hole - code >= 2 * TYPE * k
    title = _Place(width - code, hole + code + 2, code, 0) if under else _Place(104 * k, 0, width - 110 * k - code, 0)
    items += _title(face, title, k, number, of, under=under)
    items += _panel(face, _Place(0, 0, 100 * k, min(bottom, 108 * k)), k)
    left = 104 * k
    taken = 0.0 if under else TYPE * k * LEADING
    items += _middle(face, _Place(left, taken, width - left - code - 6 * k, bottom - taken), k)
    return items


def clean(face: Face, name: str) -> Any:
    """A field's value where the plans give one that nobody disputes; else None."""
    reading = dict(readings(face.wall)).get(name)
    return reading.value if reading and reading.state is State.READ else None


def text_code(face: Face, job: Job, number: int, of: int) -> str:
    """What the QR says, as plain text; a value that must be asked about says ASK, so the code never tells more than the card.

    "demo|SW4|REV 2 2026-05-12|2-1/2x0.131|E4 F12|HD2|card 4/9|1a2b3c4d"
    """
    nail = "x".join(_short(face, f"fastener.{name}_in") for name in ("length", "diameter"))
    holds = clean(face, "hold_down.marks")
    sheet = face.sheet
    parts = (job_name(job)[:24], face.mark, f"REV {sheet.revision or '?'} {sheet.date or '?'}" if sheet else "REV ?",
             nail, f"E{_short(face, 'edge.spacing_in')} F{_short(face, 'field.spacing_in')}",
             "/".join(holds) if holds else "-", f"card {number}/{of}", job.plan_set.sha256[:8])  # fmt: skip
    return "|".join(("HOLD", *parts) if face.hold else parts)


def _short(face: Face, name: str) -> str:
    value = clean(face, name)
    return inch(value).rstrip('"') if value else "ASK"


def qr(text: str, side: float) -> str:
    """The text as a QR code, level Q, four modules of white around it."""
    import segno

    code = segno.make(text, error="q", micro=False, boost_error=False)
    path = code.svg_inline(border=4, omitsize=True)
    return path.replace("<svg ", f'<svg width="{side:.2f}pt" height="{side:.2f}pt" ', 1)


def _lines(face: Face, keys: Sequence[str]) -> list[Line]:
    return [line for line in face.lines if line.key in keys]


def _ask(face: Face, names: Sequence[str], place: _Place, k: float) -> Iterable[Ask]:
    """A box that names what is missing, unreadable or in conflict among ``names`` and where to ask."""
    values = list({id(value): value for name in names if (value := face.value(name))}.values())
    bad = [value for value in values if value.bad]
    texts = [_why(face, value, names) for value in bad or values if value.bad or value.shown in (Shown.NONE, Shown.DEFERRED)]
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


def _gauge(face: Face, place: _Place, k: float, room_in: float) -> Iterable[Item]:
    """Two ticks one edge spacing apart along the long edge, or a part of one where the whole is longer than ``room_in``."""
    edge = clean(face, "edge.spacing_in")
    if not edge:
        yield from _ask(face, ("edge.spacing_in",), place, k)
        return
    steps = drawing.gauge_steps(edge, room_in)
    part = edge / steps
    yield Picture(0, place.top, drawing.gauge(edge, _GAUGE, room_in))
    text = f"{inch(edge)}" if steps == 1 else f"{inch(edge)} = {steps} × {inch(part)}"
    size = TYPE * k
    label = f"{face.words.say('gauge_line')}: {text}"
    inside = width_pt(label, size, True) < part * 72 - 12
    left = 8.0 if inside else part * 72 + 10
    lines = (label,) if inside else paragraph(label, place.width - left, size, True)
    low = 0.0 if inside else _GAUGE - len(lines) * size * LEADING
    yield Words(left, place.top + low, place.width - left, size, lines, True)


def _safety(face: Face) -> str:
    """The safety line and who governs; in two languages the shorter words for the second."""
    words = face.words
    if not words.both:
        return f"{words.say('safety')} {words.say('govern')}"
    pairs = zip(words.lines("safety"), words.lines("govern_both"), strict=True)
    return " ".join(f"{safety} {govern}" for safety, govern in pairs)


def _nail(face: Face, width: float, k: float) -> list[Item]:
    """The nail at actual size, and what a drawing cannot show; placed at the top of its strip."""
    nail = face.lines[0]
    length, diameter = clean(face, "fastener.length_in"), clean(face, "fastener.diameter_in")
    if nail.key in _NOT_NAILS:
        return []
    if not length or nail.key != "nail" or length > _LONGEST_NAIL:
        names = ("fastener.length_in", "fastener.diameter_in", "fastener.kind")
        return list(_ask(face, names, _Place(0, 0, width, _NAIL), k))
    marks = [(float(i), f"{i}") for i in range(1, int(length) + 1) if length - i > 0.3] + [(length, inch(length))]
    marks[:1] = [(1.0, '1.00"')] if length > 1.3 else marks[:1]
    left = length * 72 + 26
    size = TYPE * k
    caption = f"{inch(length)} × {inch(diameter)}: " if diameter else ""
    lines = paragraph(caption + face.words.say("length_only"), width - left, size)
    return [Picture(0, 0, drawing.nail(length, diameter, marks, TYPE)), Words(left, 0, width - left, size, lines)]


def _panel(face: Face, place: _Place, k: float) -> Iterable[Item]:
    """One panel with its nails, both numbers, and the count in 2 ft."""
    edge, field = clean(face, "edge.spacing_in"), clean(face, "field.spacing_in")
    rows = clean(face, "edge.rows") or 1
    if not edge or not field:
        yield from _ask(face, ("edge.spacing_in", "field.spacing_in"), _Place(0, 0, place.width, place.height), k)
        return
    yield Picture(place.left, place.top, drawing.panel(place.height, edge, field, rows))
    left = place.left + place.height / 2 + 4 * k
    size, room = TYPE * k, place.width - place.height / 2 - 4 * k
    words = face.words
    top = place.top
    for text, big in ((f"{words.first('edge')} {inch(edge)}", True), (f"{words.first('field')} {inch(field)}", True),
                      (words.first("count", n=nails_in_two_feet(edge)), False), (words.first("drawn"), False)):  # fmt: skip
        lines = paragraph(text, room, size, big)
        yield Words(left, top, room, size, lines, big)
        top += len(lines) * size * LEADING + 3 * k


def nails_in_two_feet(spacing_in: float) -> int:
    """Nails in 2 ft of edge, counted from a nail, both ends included: 6 in gives 5, 4 in 7, 3 in 9, 2 in 13."""
    return int(24 / spacing_in + 1e-9) + 1


def _title(face: Face, place: _Place, k: float, number: int, of: int, *, under: bool) -> Iterable[Item]:
    """Whose back this is: two lines under the QR, or one beside it where there is no room."""
    size = TYPE * k
    texts = (f"{face.mark} {face.words.first('back')}", face.words.first("card_of", n=number, of=of))
    lines = (one_line(text, place.width, size, min(size, 7.0), True) for text in (texts if under else [", ".join(texts)]))
    top = place.top
    for words in lines:
        yield replace(words, left=place.left, top=top, align="center" if under else "left")
        top += words.height


def _middle(face: Face, place: _Place, k: float) -> Iterable[Item]:
    """Drawings of joint and nail, and below them what is open on this card; the words come first where room is short."""
    size = TYPE * k
    top, room = place.top, place.height
    line = size * LEADING
    must, may = _said(face, place.width, size)
    picture = 54 * k
    kinds, across = _kinds(face), max(3, int(place.width / (56 * k)))
    while kinds and len(must) * line + picture <= room:
        yield from _pictures(face, kinds[:across], across, _Place(place.left, top, place.width, picture - 3 * k), k)
        kinds = kinds[across:]
        top += picture
        room -= picture
    if len(must) * line > room:
        must = _shortened(face, place.width, size, int(room / line))
    for lines in may:
        if (len(must) + len(lines)) * line <= room:
            must = (*must, *lines)
    yield Words(place.left, top, place.width, size, must)


def _said(face: Face, width: float, size: float) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """Broken lines: what this card has to say, and what it says if there is room."""
    words = face.words
    must = [f"{number_in(q.number, words)} {_message(face, q.finding)}" for q in face.questions]
    must += [f"{detail.label[0]}: {detail.words}" for detail in face.details if detail.values]
    if face.not_given:
        must.append(_not_given(face))
    if face.wall.other:
        must.append(words.first("other", what="; ".join(reading.as_printed for reading in face.wall.other)))
    may = [*words.lines("openings")]
    if (clean(face, "edge.spacing_in") or 12) <= 4:
        may += words.lines("special")
    broken = [paragraph(text, width, size) for text in must]
    return tuple(line for lines in broken for line in lines), [paragraph(text, width, size) for text in may]


def _not_given(face: Face) -> str:
    """What the plans leave open for this type and the front doesn't ask about, so that no blank is silent."""
    return face.words.first("not_given", what=lambda words: called(face.not_given)(words).strip().lower())


def _message(face: Face, finding: Any) -> str:
    """A finding's message; one about capacity stays off the crew's card."""
    about_capacity = (finding.field or "").startswith("capacity") or "capacity" in finding.code
    return face.words.first("see_questions") if about_capacity else finding.message


def _shortened(face: Face, width: float, size: float, lines: int) -> tuple[str, ...]:
    """The same where there is no room: question numbers and where the words are, as many lines as fit."""
    words = face.words
    numbers = ", ".join(number_in(q.number, words) for q in face.questions)
    texts = [f"{numbers}: {words.first('see_questions')}"] if numbers else []
    texts += [f"{detail.label[0]}: {detail.words}" for detail in face.details if detail.values]
    if face.not_given:
        texts.append(_not_given(face))
    if face.wall.other:
        texts.append(words.first("other_see", where=face.row))
    broken = [line for text in texts for line in paragraph(text, width, size)]
    if len(broken) <= lines:
        return tuple(broken)
    rest = paragraph(words.first("too_long", where=face.row), width, size)
    return (*broken[: max(0, lines - len(rest))], *rest)


def _kinds(face: Face) -> list[_Draw]:
    """What is drawn, first things first: high, flush and deep; panel joint; blocked joint; wall end; opening."""
    kinds: list[_Draw] = [_heights, _joint]
    if clean(face, "framing.blocked") is not False:
        kinds.append(_blocked)
    if clean(face, "hold_down.marks"):
        kinds.append(_wall_end)
    return [*kinds, _opening] if clean(face, "edge.spacing_in") else kinds


def _pictures(face: Face, kinds: Sequence[_Draw], across: int, place: _Place, k: float) -> Iterable[Item]:
    """A row of drawings with their words."""
    wide = (place.width - 5 * k * (across - 1)) / across
    for i, kind in enumerate(kinds):
        yield from kind(face, _Place(place.left + i * (wide + 5 * k), place.top, wide, place.height), k)


def _drawn(picture: str, caption: str, place: _Place, k: float) -> Iterable[Item]:
    size = TYPE * k
    lines = paragraph(caption, place.width, size, True)[:1] if width_pt(caption, size, True) <= place.width else ()
    lines = lines or paragraph(caption, place.width, size, True)
    yield Picture(place.left, place.top, picture)
    yield Words(place.left, place.top + place.height - len(lines) * size * LEADING, place.width, size, lines, True, "center")


def _room(caption: str, place: _Place, k: float) -> float:
    return place.height - len(paragraph(caption, place.width, TYPE * k, True)) * TYPE * k * LEADING - 2 * k


def _heights(face: Face, place: _Place, k: float) -> Iterable[Item]:
    thickness = clean(face, "sheathing.thickness_in")
    if not thickness:
        return _ask(face, ("sheathing.thickness_in",), place, k)
    both = face.words.say("flush_ok")
    caption = both if width_pt(both, TYPE * k, True) <= place.width else face.words.first("flush_ok")
    return _drawn(drawing.heights(place.width, _room(caption, place, k), thickness), caption, place, k)


def _joint(face: Face, place: _Place, k: float) -> Iterable[Item]:
    return _section(face, "framing.panel_edge", drawing.joint, place, k)


def _blocked(face: Face, place: _Place, k: float) -> Iterable[Item]:
    if clean(face, "framing.blocked") is None:
        return _ask(face, ("framing.blocked",), place, k)
    return _section(face, "framing.blocked", drawing.blocked, place, k)


def _section(face: Face, name: str, draw: Any, place: _Place, k: float) -> Iterable[Item]:
    """A joint's section on the stud or block that the plans name; where they name two, the words alone."""
    option, thickness = clean(face, "framing.panel_edge"), clean(face, "sheathing.thickness_in")
    if not option or not thickness:
        return _ask(face, ("framing.panel_edge",) if not option else ("sheathing.thickness_in",), place, k)
    stagger = f", {face.words.first('stagger')}" if clean(face, "edge.staggered") else ""
    value = face.value("framing.panel_edge")
    caption = face.words.first("blocked_joint") if name == "framing.blocked" else (value.text if value else option) + stagger
    if option not in drawing.WIDTHS_IN:
        lines = paragraph(face.words.first("joint_caption", value=caption), place.width, TYPE * k, True)
        return [Words(place.left, place.top + place.height / 3, place.width, TYPE * k, lines, True, "center")]
    length, diameter = clean(face, "fastener.length_in"), clean(face, "fastener.diameter_in")
    nail = (length, diameter) if length and diameter else None
    return _drawn(draw(place.width, _room(caption, place, k), option, thickness, nail), caption, place, k)


def _wall_end(face: Face, place: _Place, k: float) -> Iterable[Item]:
    edge = clean(face, "edge.spacing_in")
    if not edge:
        return _ask(face, ("edge.spacing_in",), place, k)
    caption = ", ".join(clean(face, "hold_down.marks"))
    return _drawn(drawing.wall_end(place.width, _room(caption, place, k), edge), caption, place, k)


def _opening(face: Face, place: _Place, k: float) -> Iterable[Item]:
    caption = face.words.first("opening")
    return _drawn(drawing.opening(place.width, _room(caption, place, k), clean(face, "edge.spacing_in")), caption, place, k)
