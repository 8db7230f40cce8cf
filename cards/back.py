"""A Face -> the back of a card: what is drawn where, what is open, safety, and who governs. Lengths in points."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from cards import drawing
from cards.backdrawings import NAIL, TYPE, Ask, Item, Picture, Place, ask_box, clean, in_rows, kinds_of, nail, panel, rows_height
from cards.face import Face
from cards.fit import LEADING, paragraph, width_pt
from cards.front import Words, job_name, one_line
from cards.sheet import Size
from cards.values import called, inch, number_in
from extractor.record import Job

_GAUGE, _GAP, _QR = 17.0, 2.0, 60.0
_SMALL = 7.5 / TYPE  # type of a small card's back
_PANEL = 108.0  # height of the panel drawing, and at most half as much again on a larger card


@dataclass(frozen=True)
class Back:
    """The back of one card, inside its margins."""

    pictures: tuple[Picture, ...]
    asks: tuple[Ask, ...]
    words: tuple[Words, ...]


def back(face: Face, job: Job, size: Size, number: int, of: int) -> Back:
    """The back of card ``number`` of ``of``."""
    items = _small(face, job, size, number, of) if size.kind == "small" else _whole(face, job, size, number, of)
    return Back(tuple(i for i in items if isinstance(i, Picture)), tuple(i for i in items if isinstance(i, Ask)),
                tuple(i for i in items if isinstance(i, Words)))  # fmt: skip


def _small(face: Face, job: Job, size: Size, number: int, of: int) -> list[Item]:
    """The back of a small card: gauge and who governs at the foot, the panel with its numbers, the QR."""
    k, width, height = size.scale * _SMALL, (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    hole, bottom = (size.hole - size.margin) * 72, height - _GAUGE
    items: list[Item] = [*_gauge(face, Place(0, bottom, width, _GAUGE), k, width / 72 - 0.1)]
    bottom = min(bottom, *(i.top for i in items))
    govern = paragraph(face.words.say("govern_short") + ". " + face.words.say("see_back"), width, TYPE * k)
    bottom -= len(govern) * TYPE * k * LEADING + 2
    items.append(Words(0, bottom, width, TYPE * k, govern))
    bottom -= 2
    code = min(_QR * size.scale, bottom - hole)
    items.append(Picture(width - code, hole, qr(text_code(face, job, number, of), code)))
    title, middle = 2 * TYPE * k * LEADING, bottom / 2 + 4 * k
    items += _title(face, Place(middle, bottom - title, width - code - 6 - middle, 0), k, number, of, under=True)
    high = bottom if clean(face, "edge.spacing_in") and clean(face, "field.spacing_in") else bottom - title - 3
    items += panel(face, Place(0, 0, width - code - 6, high), k)
    return items


def _whole(face: Face, job: Job, size: Size, number: int, of: int) -> list[Item]:
    """The back of a card, filled from the bottom: gauge, nail, safety; then drawings, QR and words.

    On a larger card type grows less than the card, so that there is room for larger drawings.
    """
    k, width, height = max(1.0, 0.86 * size.scale), (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    hole = (size.hole - size.margin) * 72
    bottom = height - _GAUGE
    items: list[Item]
    items = [*_gauge(face, Place(0, bottom, width, _GAUGE), k, width / 72 - 0.5)]
    bottom = min(bottom, *(i.top for i in items))  # words beside the gauge may be higher than it
    strip = nail(face, width, k)
    high = max((NAIL if isinstance(i, Picture) else i.height for i in strip), default=-_GAP)
    bottom -= high + _GAP
    items += [replace(item, top=bottom) for item in strip]
    beside = next((i for i in strip if isinstance(i, Words)), None)
    free = Place(beside.left, bottom + beside.height + 2, beside.width, high - beside.height - 2) if beside else None
    safety = paragraph(_safety(face), width, TYPE * k)
    bottom -= len(safety) * TYPE * k * LEADING + _GAP
    items.append(Words(0, bottom, width, TYPE * k, safety))
    bottom -= _GAP
    code = min(_QR * k, bottom - hole - 2)
    items.append(Picture(width - code, hole + 1, qr(text_code(face, job, number, of), code)))
    under = bottom - hole - code >= 2 * TYPE * k
    title = Place(width - code, hole + code + 2, code, 0) if under else Place(104 * k, 0, width - 110 * k - code, 0)
    items += _title(face, title, k, number, of, under=under)
    room = Place(0, 0, width - code - 6 * k, bottom)
    whole = _all_drawn(face, room, free, k) if under else []
    return items + (whole or _some_drawn(face, room, 0.0 if under else TYPE * k * LEADING, k))


def _all_drawn(face: Face, room: Place, free: Place | None, k: float) -> list[Item]:
    """Every drawing, and below them in full width all there is to say; nothing where there is no room for both.

    Words that fit beside the nail stand in ``free``.
    """
    size = TYPE * k
    line = size * LEADING
    must, may = _said(face)
    here, rest = _beside(must, free, size)
    below = [row for text in rest for row in paragraph(text, room.width, size)]
    joined = paragraph(" ".join(text if text.endswith(".") else f"{text}." for text in rest), room.width, size)
    below = list(joined) if len(joined) < len(below) else below
    kinds = kinds_of(face)
    least = rows_height(kinds, k)
    high = room.height - len(below) * line - 2 * bool(below)
    if high < least:
        return []
    for text in may:
        rows = paragraph(text, room.width, size)
        if high - len(rows) * line >= least + 4 * k:
            below += rows
            high -= len(rows) * line
    items: list[Item] = list(here)
    items.append(Words(0, room.height - len(below) * line, room.width, size, tuple(below)))
    tall = min(high, 1.5 * _PANEL * k)
    wide = tall / 2 + 48 * k
    items += panel(face, Place(0, 0, wide, tall), k)
    return [*items, *in_rows(face, kinds, Place(wide + 4 * k, 0, room.width - wide - 4 * k, high), k)]


def _beside(must: Sequence[str], free: Place | None, size: float) -> tuple[list[Words], list[str]]:
    """Texts that fit beside the nail, as words; and the rest."""
    placed: list[str] = []
    rest = list(must)
    for text in must if free else ():
        rows = paragraph(text, free.width, size) if free else ()
        if free and (len(placed) + len(rows)) * size * LEADING <= free.height:
            placed += rows
            rest.remove(text)
    return ([Words(free.left, free.top, free.width, size, tuple(placed))] if free and placed else []), rest


def _some_drawn(face: Face, room: Place, taken: float, k: float) -> list[Item]:
    """The panel, and beside it as many drawings as what has to be said leaves room for; ``taken`` is the title's height."""
    left = 104 * k
    items = list(panel(face, Place(0, 0, 100 * k, min(room.height, _PANEL * k)), k))
    return [*items, *_middle(face, Place(left, taken, room.width - left, room.height - taken), k)]


def text_code(face: Face, job: Job, number: int, of: int) -> str:
    """What the QR says, as plain text; a value that must be asked about says ASK, so the code never tells more than the card.

    "demo|SW4|REV 2 2026-05-12|2-1/2x0.131|E4 F12|HD2|card 4/9|1a2b3c4d"
    """
    nail = "x".join(_short(face, f"fastener.{name}_in") for name in ("length", "diameter"))
    holds = clean(face, "hold_down.marks")
    sheet = face.sheet
    parts = (job_name(job)[:24], face.named, f"REV {sheet.revision or '?'} {sheet.date or '?'}" if sheet else "REV ?",
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


def _gauge(face: Face, place: Place, k: float, room_in: float) -> Iterable[Item]:
    """Two ticks one edge spacing apart along the long edge, or a part of one where the whole is longer than ``room_in``."""
    edge = clean(face, "edge.spacing_in")
    if not edge:
        yield from ask_box(face, ("edge.spacing_in",), place, k)
        return
    steps = drawing.gauge_steps(edge, room_in)
    part = edge / steps
    yield Picture(0, place.top, drawing.gauge(edge, _GAUGE, room_in))
    text = f"{inch(edge)}" if steps == 1 else f"{inch(edge)} = {steps} × {inch(part)}"
    size = TYPE * k
    for label in (f"{face.words.say('gauge_line')}: {text}", f"{face.words.first('gauge_line')}: {text}"):
        inside = width_pt(label, size, True) < part * 72 - 12
        left = 8.0 if inside else part * 72 + 10
        lines = (label,) if inside else paragraph(label, place.width - left, size, True)
        if len(lines) <= 3:
            break
    low = 0.0 if inside else _GAUGE - len(lines) * size * LEADING
    yield Words(left, place.top + low, place.width - left, size, lines, True)


def _safety(face: Face) -> str:
    """The safety line and who governs; in two languages the shorter words for the second."""
    words = face.words
    if not words.both:
        return f"{words.say('safety')} {words.say('govern')}"
    pairs = zip(words.lines("safety"), words.lines("govern_both"), strict=True)
    return " ".join(f"{safety} {govern}" for safety, govern in pairs)


def _title(face: Face, place: Place, k: float, number: int, of: int, *, under: bool) -> Iterable[Item]:
    """Whose back this is: two lines under the QR, or one beside it where there is no room."""
    size = TYPE * k
    texts = (f"{face.mark} {face.words.first('back')}", face.words.first("card_of", n=number, of=of))
    lines = (one_line(text, place.width, size, min(size, 7.0), True) for text in (texts if under else [", ".join(texts)]))
    top = place.top
    for words in lines:
        yield replace(words, left=place.left, top=top, align="center" if under else "left")
        top += words.height


def _middle(face: Face, place: Place, k: float) -> Iterable[Item]:
    """Drawings of joint and nail, and below them what is open on this card; the words come first where room is short."""
    size = TYPE * k
    top, room = place.top, place.height
    line = size * LEADING
    texts, may = _said(face)
    must = tuple(row for text in texts for row in paragraph(text, place.width, size))
    if len(must) * line > room:
        must = _shortened(face, place.width, size, int(room / line))
    kinds = kinds_of(face)
    while kinds and rows_height(kinds, k) + len(must) * line > room:
        kinds = kinds[:-1] if len(kinds) > 3 else []
    if kinds:
        high = min(rows_height(kinds, k) * 1.35, room - len(must) * line)
        yield from in_rows(face, kinds, Place(place.left, top, place.width, high), k)
        top += high
        room -= high
    for text in may:
        rows = paragraph(text, place.width, size)
        if (len(must) + len(rows)) * line <= room:
            must = (*must, *rows)
    yield Words(place.left, top, place.width, size, must)


def _said(face: Face) -> tuple[list[str], list[str]]:
    """What this card has to say, and what it says if there is room."""
    words = face.words
    must = [f"{number_in(q.number, words)} {_message(face, q.finding)}" for q in face.questions]
    must += [f"{detail.label[0]}: {detail.words}" for detail in face.details if detail.values]
    if face.not_given:
        must.append(_not_given(face))
    if face.wall.other:
        must.append(words.first("other", what="; ".join(reading.as_printed for reading in face.wall.other)))
    may = [*words.lines("openings")]
    if (clean(face, "edge.spacing_in") or 12) <= 4:
        may = [*words.lines("special"), *may]
    return must, may


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
