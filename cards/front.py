"""A Face -> the front of a card as lines in boxes: what stands where and how large. Lengths in points."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from cards.drawing import SHAPES, shape
from cards.face import Face
from cards.fit import LEADING, paragraph, width_pt
from cards.rows import STYLES, Row, Style, rows
from cards.sheet import Size
from cards.values import asked
from cards.words import Words as Spoken
from extractor.record import Job

PATTERNS = 8  # border patterns, in order of the schedule; the mark itself is the letter
_SHAPE = 20.0  # the revision's shape in the corner
_LETTER = re.compile(r"(?:REV(?:ISION)?\.?|DELTA|#|NO\.?)?\s*(?:([A-Z])|(\d{1,3}))", re.I | re.ASCII)


@dataclass(frozen=True)
class Words:
    """Lines of one size at a place, for headers and feet."""

    left: float
    top: float
    width: float
    size: float
    lines: tuple[str, ...]
    bold: bool = False
    align: str = "left"

    @property
    def height(self) -> float:
        """Points."""
        return len(self.lines) * self.size * LEADING


@dataclass(frozen=True)
class Shape:
    """The revision's shape in the corner: where it stands, its drawing, and the revision inside it."""

    left: float
    svg: str
    side: float
    revision: Words


@dataclass(frozen=True)
class Front:
    """The front of one card, inside its margins."""

    pattern: int
    mark: Words
    mark_box: tuple[float, float, float, float]
    head: tuple[Words, ...]
    shape: Shape | None
    band: Words | None
    rows: tuple[Row, ...]
    foot: Words


def front(face: Face, job: Job, size: Size, number: int, of: int, place: str = "") -> Front:
    """The front of card ``number`` of ``of``; ``place`` is the page it stands on, for a tag that has no sheet's head above it."""
    k, width, height = size.scale, (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    style = STYLES[size.kind]
    corner = _shape(face, width, k)
    mark, mark_box = _mark(face, style, size, width - (corner.side if corner else 0))
    left = mark_box[0] + mark_box[2] + 6 * k
    foot = _foot(face, job, style, width, height, k, place)
    band = _band(face, style, width, k)
    top = style.head * k + 2 * k + (style.band + 2) * k * bool(band)
    right = corner.left - 4 * k if corner else width
    head = tuple(_head(face, job, style, left, right, k, number, of))
    return Front(
        pattern=(number - 1) % PATTERNS, mark=mark, mark_box=mark_box, head=head, shape=corner, band=band,
        rows=rows(face, style, width, top, foot.top - 1 * k, k), foot=foot,
    )  # fmt: skip


def shape_of(revision: str | None) -> int | None:
    """Which shape stands for a revision, so that a stale card on the ring shows at a glance: A and 1 the first, B and 2 the next.

    None for a revision that is neither a letter nor a number: its words stand alone.

    >>> shape_of("A"), shape_of("2"), shape_of("REV C"), shape_of("F"), shape_of("BID SET"), shape_of(None)
    (0, 1, 2, 0, None, None)
    """
    m = _LETTER.fullmatch((revision or "").strip())
    if not m:
        return None
    return (ord(m[1].upper()) - ord("A") if m[1] else int(m[2]) - 1) % len(SHAPES)


def _shape(face: Face, width: float, k: float) -> Shape | None:
    """The revision's shape in the top right corner, its letter or number inside."""
    revision = face.sheet.revision if face.sheet else None
    which = shape_of(revision)
    m = _LETTER.fullmatch((revision or "").strip())
    if which is None or m is None:
        return None
    side, letter = _SHAPE * k, (m[1] or m[2]).upper()
    size = 10.0 * k
    while size > 7 and width_pt(letter, size, True) > side * 0.5:
        size -= 0.5
    low = {"triangle": 0.22, "circle": 0.0}.get(SHAPES[which], 0.0) * side
    inside = Words(width - side, (side - size * LEADING) / 2 + low, side, size, (letter,), True, "center")
    return Shape(width - side, shape(SHAPES[which], side), side, inside)


def _mark(face: Face, style: Style, size: Size, width: float) -> tuple[Words, tuple[float, float, float, float]]:
    """The mark, as large as its box allows: 42 points for a mark of usual length, less for a longer one, whole in any case."""
    k = size.scale
    left = (size.hole - size.margin) * 72 + 4 * k if size.hole else 0.0
    room = width - left - style.names * k
    lines, type_size = _mark_lines(face.mark, style, room, k)
    wide = max(width_pt(line, type_size, True) for line in lines)
    box = (left, 0.0, max(wide + 12 * k, 46 * k * style.head / 36), style.head * k)
    height = len(lines) * type_size
    return Words(left, (style.head * k - height) / 2, box[2], type_size, lines, True, "center"), box


def _mark_lines(mark: str, style: Style, room: float, k: float) -> tuple[tuple[str, ...], float]:
    if width_pt(mark, style.mark * k, True) <= room:
        return (mark,), style.mark * k
    for type_size in (48.0, 36.0, 32.0, 28.0, 24.0, 20.0, 17.0, 15.0, 13.0, 11.0, 10.0, 9.0, 8.0, 7.0):
        lines = paragraph(mark, room, type_size * k, True)
        if type_size < style.mark and len(lines) * type_size <= style.head - 2:
            break
    return lines, type_size * k


def _head(face: Face, job: Job, style: Style, left: float, right: float, k: float, number: int, of: int) -> Iterable[Words]:
    """Job, plan revision with its date and the word for its shape, and the card's number, at the right."""
    room = right - left
    top, less = 0.0, 0.0 if style.head >= 36 else 2.0
    which = shape_of(face.sheet.revision if face.sheet else None)
    of_all = (face.words.first if style.bare else face.words.say)("card_of", n=number, of=of)
    named = f"{face.words.first(SHAPES[which])} · {of_all}" if which is not None else of_all
    first = (f"{face.scope} · {job_name(job)}", 11.0, True) if face.scope else (job_name(job), 10.0, False)
    for text, size, bold in (first, (plan_revision(face), 11.0, True), (named, 9.0, True)):
        words = one_line(text, room, (size - less) * k, max(7.0, (8 - less) * k), bold)
        yield replace(words, left=left, top=top, align="right")
        top += words.size * LEADING


def one_line(text: str, room: float, size: float, least: float, bold: bool) -> Words:
    """Text on one line; a file name too long for its place at the least size is cut with dots."""
    while size > least and width_pt(text, size, bold) > room:
        size = max(least, size - 0.25)
    if width_pt(text, size, bold) > room:
        text = next(text[:n] + "..." for n in range(len(text), 0, -1) if n == 1 or width_pt(text[:n] + "...", size, bold) <= room)
    return Words(0, 0, room, size, (text,), bold)


def job_name(job: Job) -> str:
    """The plan set's file name without its ending."""
    name = job.plan_set.file
    return name[:-4] if name.lower().endswith(".pdf") else name


def plan_revision(face: Face) -> str:
    """Revision and date of the schedule's sheet, or that the sheet has none."""
    sheet, words = face.sheet, face.words
    revision = words.first("rev", revision=sheet.revision) if sheet and sheet.revision else words.first("no_rev")
    return f"{revision}, {words.date(sheet.date) if sheet and sheet.date else words.first('no_date')}"


def _band(face: Face, style: Style, width: float, k: float) -> Words | None:
    """The hold band's words with the numbers of what holds the card."""
    if not face.hold:
        return None
    numbers = tuple(reason for reason in face.reasons if reason.startswith("Q-"))
    named = asked(numbers[:3])(Spoken(face.words.spoken[0]))
    text = face.words.say("hold") + (named.replace(")", ", ...)") if len(numbers) > 3 else named)
    size = (style.band - 2.5) * k
    while size > 7 and width_pt(text, size, True) > width - 40 * k:
        size -= 0.25
    if width_pt(text, size, True) > width - 20 * k:
        text = face.words.say("hold_short") + named
    return Words(0, style.head * k + 2 * k, width, size, (text,), True, "center")


def _foot(face: Face, job: Job, style: Style, width: float, height: float, k: float, place: str) -> Words:
    """Where the row stands, which notes fill it, the file's digest, and who governs; what only a larger card has."""
    words = face.words
    size = style.foot * k
    parts = [face.row]
    if face.note_sheets and not style.bare:
        parts.append(words.first("notes", sheets=", ".join(face.note_sheets)))
    parts += [words.first("file", digest=job.plan_set.sha256[:8]), words.say("govern") if place else words.say("govern_short")]
    parts += [place] * bool(place)
    rest = " · ".join([*parts, words.say("see_rest")])
    if style.bare and len(paragraph(rest, width, size)) == 1:
        parts.append(words.say("see_rest"))
    text = "  ·  ".join(parts).replace("  ", " ")
    if style.bare and words.both and len(paragraph(text, width, size)) > 1:
        text = text.replace(words.say("govern_short"), words.first("govern_short"))
    while words.both and size > 7 * k and not place and len(paragraph(text, width, size)) > 1:
        size -= 0.25 * k
    newer = f"{text}  ·  {words.first('newer')}"
    if not style.bare and len(paragraph(newer, width, size)) == len(paragraph(text, width, size)):
        text = newer
    lines = paragraph(text, width, size)
    return Words(0, height - len(lines) * size * LEADING, width, size, lines)
