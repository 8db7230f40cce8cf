"""A Face -> the front of a card as lines in boxes: what stands where and how large. Lengths in points."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from cards.face import Face, Line
from cards.fit import LEADING, RISE, Run, Text, fitted, paragraph, width_pt
from cards.sheet import Size
from cards.values import Shown, Value, asked
from cards.words import Words as Spoken
from extractor.record import Job

PATTERNS = 8  # border patterns, in order of the schedule; the mark itself is the letter
BIG = {"nail": 20.0, "staple": 20.0, "screw": 20.0, "fastener": 20.0, "edge": 22.0, "field": 22.0, "sheathing": 13.0,
       "hold_down": 13.0}  # fmt: skip
USUAL, LEAST, TAIL, LABEL, LABEL_BOTH, FOOT = 12.0, 10.0, 8.0, 9.0, 8.0, 8.0
_ROWS = (("nail", "staple", "screw", "fastener"), ("edge", "field"), ("sheathing",), ("block", "joint"), ("hold_down",),
         ("sill",), ("bottom_plate",), ("top_plate",))  # fmt: skip
_MAIN = ("edge.spacing_in", "field.spacing_in", "fastener.length_in", "fastener.diameter_in", "fastener.gauge")
_PAIRS = {"edge": 0.5, "block": 0.57}  # the left cell of a row of two and its share of the width
_PAD = 2.8  # line above a row, and white above and below its words, together
_GIVES = 1.3  # of it that a full card can do without
_HEAD, _MARK, BAND = 36.0, 42.0, 15.0


@dataclass(frozen=True)
class Cell:
    """A label and its value."""

    left: float
    label_width: float
    width: float
    label: str
    label_size: float
    text: Text

    @property
    def above(self) -> float:
        """Points from the top to the first baseline, of the value or of the label."""
        return max(self.text.above, self.label_size * RISE)

    @property
    def below(self) -> float:
        """Points from the first baseline to the foot."""
        return max(self.text.height - self.text.above, self.label_size * (LEADING - RISE))


def _words_height(cells: Iterable[Cell]) -> float:
    """Points that cells on one baseline take."""
    cells = list(cells)
    return max(cell.above for cell in cells) + max(cell.below for cell in cells)


@dataclass(frozen=True)
class Row:
    """Cells beside each other on one baseline, with the row's place on the card and the white above its words."""

    top: float
    height: float
    pad: float
    cells: tuple[Cell, ...]


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
class Front:
    """The front of one card, inside its margins."""

    pattern: int
    mark: Words
    mark_box: tuple[float, float, float, float]
    head: tuple[Words, ...]
    band: Words | None
    rows: tuple[Row, ...]
    foot: Words


def front(face: Face, job: Job, size: Size, number: int, of: int) -> Front:
    """The front of card ``number`` of ``of``."""
    k, width, height = size.scale, (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72
    mark, mark_box = _mark(face, size, width)
    left = mark_box[0] + mark_box[2] + 6 * k
    foot = _foot(face, job, width, height, k)
    band = _band(face, width, k)
    top = _HEAD * k + 2 * k + (BAND + 2) * k * bool(band)
    return Front(
        pattern=(number - 1) % PATTERNS, mark=mark, mark_box=mark_box, head=tuple(_head(face, job, left, width, k, number, of)),
        band=band, rows=_rows(face, width, top, foot.top - 1 * k, k), foot=foot,
    )  # fmt: skip


def _mark(face: Face, size: Size, width: float) -> tuple[Words, tuple[float, float, float, float]]:
    """The mark, as large as its box allows: 42 points for a mark of usual length, less for a longer one, whole in any case."""
    k = size.scale
    left = (size.hole - size.margin) * 72 + 4 * k
    room = width - left - 132 * k
    lines, type_size = _mark_lines(face.mark, room, k)
    wide = max(width_pt(line, type_size, True) for line in lines)
    box = (left, 0.0, max(wide + 12 * k, 46 * k), _HEAD * k)
    height = len(lines) * type_size
    return Words(left, (_HEAD * k - height) / 2, box[2], type_size, lines, True, "center"), box


def _mark_lines(mark: str, room: float, k: float) -> tuple[tuple[str, ...], float]:
    if width_pt(mark, _MARK * k, True) <= room:
        return (mark,), _MARK * k
    for type_size in (36.0, 32.0, 28.0, 24.0, 20.0, 17.0, 15.0, 13.0, 11.0, 10.0, 9.0, 8.0):
        lines = paragraph(mark, room, type_size * k, True)
        if len(lines) * type_size <= _HEAD - 2:
            break
    return lines, type_size * k


def _head(face: Face, job: Job, left: float, width: float, k: float, number: int, of: int) -> Iterable[Words]:
    """Job, plan revision with its date, and the card's number, at the right."""
    room = width - left
    top = 0.0
    revision = plan_revision(face)
    for text, size, bold in ((job_name(job), 10.0, False), (revision, 11.0, True),
                             (face.words.say("card_of", n=number, of=of), 9.0, True)):  # fmt: skip
        words = one_line(text, room, size * k, 8 * k, bold)
        yield replace(words, left=left, top=top, align="right")
        top += words.size * LEADING


def one_line(text: str, room: float, size: float, least: float, bold: bool) -> Words:
    """Text on one line; a file name too long for its place at the least size is cut with dots."""
    while size > least and width_pt(text, size, bold) > room:
        size -= 0.25
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


def _band(face: Face, width: float, k: float) -> Words | None:
    """The hold band's words with the numbers of what holds the card."""
    if not face.hold:
        return None
    numbers = tuple(reason for reason in face.reasons if reason.startswith("Q-"))
    named = asked(numbers[:3])(Spoken(face.words.spoken[0]))
    text = face.words.say("hold") + (named.replace(")", ", ...)") if len(numbers) > 3 else named)
    size = 12.5 * k
    while width_pt(text, size, True) > width - 50 * k:
        size -= 0.25
    return Words(0, _HEAD * k + 2 * k, width, size, (text,), True, "center")


def _foot(face: Face, job: Job, width: float, height: float, k: float) -> Words:
    """Where the row stands, which notes fill it, the file's digest, and who governs."""
    words = face.words
    parts = [face.row]
    if face.note_sheets:
        parts.append(words.first("notes", sheets=", ".join(face.note_sheets)))
    parts += [words.first("file", digest=job.plan_set.sha256[:8]), words.say("govern_short")]
    lines = paragraph("  ·  ".join(parts).replace("  ", " "), width, FOOT * k)
    return Words(0, height - len(lines) * FOOT * k * LEADING, width, FOOT * k, lines)


def _rows(face: Face, width: float, top: float, bottom: float, k: float) -> tuple[Row, ...]:
    """The rows between header and foot, in the first of ``_tries`` that fits; white that is left goes between them."""
    for drawn in _tries(face, width, k):
        spare = (bottom - top - _height(drawn, k)) / len(drawn)
        if spare >= -_GIVES * k:
            break
    rows = []
    for cells in drawn:
        words = _words_height(cell for cell, _ in cells)
        height = words + _PAD * k + max(-_GIVES * k, min(spare, 7 * k))
        rows.append(Row(top, height, (height - words) / 2, tuple(cell for cell, _ in cells)))
        top += height
    return tuple(rows)


Laid = list[list[tuple[Cell, str]]]


def _tries(face: Face, width: float, k: float) -> Iterator[Laid]:
    """Usual sizes; least sizes; then long lines as "see sheet", the last of the card first.

    After that smaller than the least, and at the very last the words of bad states in one language: only cards on hold.
    """
    yield _laid(face, width, k, _Type(k, 1.0), frozenset())
    drawn = _laid(face, width, k, _Type(k, 0.0), frozenset())
    yield drawn
    if face.words.both:
        yield _laid(face, width, k, _Type(k, 0.0, 9.0), frozenset())
    long_lines: frozenset[str] = frozenset()
    for keys in reversed(_ROWS[2:]):
        if any(cell.text.height > 2 * LEAST * k and key in keys for cells in drawn for cell, key in cells):
            long_lines |= {line.key for line in face.lines if line.key in keys and not line.bad}
            drawn = _laid(face, width, k, _Type(k, 0.0), long_lines)
            yield drawn
    for one_language in (False, True):
        for least in (9.0, 8.0, 7.0):
            yield _laid(face, width, k, _Type(k, 0.0, least, 17.0, one_language), long_lines)


@dataclass(frozen=True)
class _Type:
    """Sizes of type on one try: ``roomy`` 1 for usual sizes and 0 for the least; the main numbers at most ``main``."""

    k: float
    roomy: float
    least: float = LEAST
    main: float = 22.0
    one_language: bool = False

    def sizes(self, key: str, value: Value, *, first: bool) -> tuple[float, float]:
        """Size and floor of a value in points: the main numbers keep theirs, the words beside them give way."""
        usual = BIG.get(key, USUAL)
        if usual < 20:
            size, floor = self._between(usual), self.least
        elif value.bad or value.shown is Shown.DEFERRED:
            size, floor = self._between(13.0), self.least
        elif first or value.fields[0] in _MAIN:
            size = floor = min(usual, self.main)
        else:
            floor = min(12.0, self.least + 2)
            size = max(floor, self._between(14.0))
        return size * self.k, floor * self.k

    def box(self, key: str) -> tuple[float, float]:
        """Size and floor of the words of a bad state."""
        return self._between(min(BIG.get(key, USUAL), 11.0)) * self.k, self.least * self.k

    def _between(self, usual: float) -> float:
        return self.least + (usual - self.least) * self.roomy


def _height(drawn: Laid, k: float) -> float:
    return sum(_words_height(cell for cell, _ in cells) + _PAD * k for cells in drawn)


def _laid(face: Face, width: float, k: float, sizes: _Type, long_lines: frozenset[str]) -> Laid:
    """Rows of cells; two lines that share a row stand each on their own where that takes less height."""
    lines = {line.key: line for line in face.lines}
    runs = {key: [_too_long(face, sizes)] if key in long_lines else _runs(line, sizes) for key, line in lines.items()}
    label = max(60 * k, *(_label_width(line, k) for keys in _ROWS for line in face.lines if line.key == keys[0]))
    drawn: Laid = []
    for keys in _ROWS:
        row = [lines[key] for key in keys if key in lines]
        ways = [[row], [[line] for line in row]] if len(row) > 1 else [[row]] if row else [[]]
        laid: list[Laid] = [[list(_cells(some, runs, width, label, k)) for some in way] for way in ways]
        shortest: Laid = min(laid, key=lambda rows: _height(rows, k))
        drawn += shortest
    return drawn


def _label_width(line: Line, k: float) -> float:
    return width_pt(" · ".join(line.label), _label_size(line, k), True) + 5 * k


def _label_size(line: Line, k: float) -> float:
    return (LABEL if len(line.label) == 1 else LABEL_BOTH) * k


def _cells(
    row: Sequence[Line], runs: dict[str, list[Run]], width: float, label: float, k: float
) -> Iterator[tuple[Cell, str]]:
    """The cells of a row, each with its line's key."""
    left = 0.0
    for i, line in enumerate(row):
        label = _label_width(line, k) if i else max(label, _label_width(line, k))
        end = width * _PAIRS[line.key] if line.key in _PAIRS and len(row) > 1 else width
        room = end - left - label
        text = fitted(runs[line.key], room - 3 * k)
        yield Cell(left, label, room, " · ".join(line.label), _label_size(line, k), text), line.key
        left = end


def _too_long(face: Face, sizes: _Type) -> Run:
    """Words in place of a line that this card has no room for."""
    size, floor = sizes.box("sill")
    return Run(face.words.say("too_long_both" if face.words.both else "too_long", where=face.row), size, floor, True, "deferred")


def _runs(line: Line, sizes: _Type) -> list[Run]:
    """The line's values as runs, each in the look of its state; a tail that several share is said once, after the last."""
    runs: list[Run] = []
    for i, value in enumerate(line.values):
        after = line.values[i + 1] if i + 1 < len(line.values) else None
        said_later = after is not None and after.tail == value.tail and not after.bad
        runs += _value_runs(replace(value, tail="") if said_later else value, line.key, sizes, runs)
    return runs


def _value_runs(value: Value, key: str, sizes: _Type, before: list[Run]) -> Iterator[Run]:
    size, floor = sizes.sizes(key, value, first=not before)
    glue = value.glue.strip() if before else ""
    if glue in (",", ";") and not before[-1].boxed and value.text:
        before[-1] = replace(before[-1], text=before[-1].text + glue)
    elif glue and value.text:
        yield Run(glue, size, floor)
    if value.text:
        look = value.shown.value if value.shown in (Shown.DEFERRED, Shown.NONE) else "read"
        number = value.text.removesuffix(" o.c.")
        yield Run(number, size, floor, True, look)
        if number != value.text:
            yield Run("o.c.", min(size, 12 * sizes.k), min(floor, 10 * sizes.k), True)
    if value.tail:
        tail = TAIL * sizes.k
        answered = value.shown is Shown.ANSWERED
        whole = value.tail.replace(" ", "\u00a0") if len(value.tail) < 30 else value.tail
        yield Run(whole if answered else f"({whole})", tail, tail, False, "answered" if answered else "tail")
    for warning in value.warning[:1] if sizes.one_language else value.warning:
        yield Run(warning, *sizes.box(key), True, value.shown.value)
