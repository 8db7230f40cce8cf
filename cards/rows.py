"""A Face -> the rows of a card's front: which lines stand beside each other, how large, and what gives way. In points."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from cards.face import Face, Line
from cards.fit import LEADING, RISE, Run, Text, fitted, width_pt
from cards.values import Shown, Value, called, text_of
from cards.words import Words

_BIG = {"nail": 20.0, "staple": 20.0, "screw": 20.0, "fastener": 20.0, "edge": 22.0, "field": 22.0, "sheathing": 13.0,
        "hold_down": 13.0}  # fmt: skip
_SMALL = {**dict.fromkeys(("nail", "staple", "screw", "fastener"), 15.0), "edge": 17.0, "field": 17.0, "hold_down": 11.0}
_WIDER = 0.1  # of the card's width that the first of two lines in a row may take beyond its share
_WIDEST = 0.7  # of it that the first may take at most
_LEAST_ROOM = 17.0  # of a value beside another: less breaks words
_LONG_LABELS = ("bottom_plate",)  # in two languages: its value starts further in, so that the others keep their room
_NAIL, _NAILING = ("nail", "staple", "screw", "fastener"), ("edge", "field")
LEAST = 10.0  # what matters in the hand is no smaller, but for cards on hold
_MAIN = ("edge.spacing_in", "field.spacing_in", "fastener.length_in", "fastener.diameter_in", "fastener.gauge")
_TWINS = ("edge.spacing_in", "field.spacing_in")  # have millimetres beside them where there is room


@dataclass(frozen=True)
class Style:
    """How a front is set: sizes of type in points at scale 1, which lines it has, and what stands where a line is too long.

    Main numbers are 17 points at least, which reads at arm's length; the nail of a small card is 15.
    """

    big: dict[str, float]
    usual: float
    label: float
    rows: tuple[tuple[str, ...], ...]
    tail: float = 8.0
    foot: float = 8.0
    mark: float = 42.0  # reads at 5 ft
    head: float = 36.0
    names: float = 132.0  # room for job, revision and card number beside the mark
    too_long: str = "too_long"
    pairs: dict[str, float] = field(default_factory=lambda: {"edge": 0.5, "block": 0.57, "bottom_plate": 0.5})
    pad: float = 2.8  # line above a row, and white above and below its words, together
    gives: float = 1.3  # of it that a full card can do without
    label_room: float = 60.0
    band: float = 15.0  # height of the hold band
    bare: bool = False  # short notes, and where room is short the words of a bad state without its values
    limits: tuple[float, ...] = (2.5, 1.5, 1.4)  # lines from this many on give way, in this order
    gives_way: tuple[tuple[str, ...], ...] = (("bottom_plate", "top_plate"), ("sill",), ("hold_down",), ("block", "joint"),
                                              ("sheathing",))  # fmt: skip


CARD = Style(_BIG, 12.0, 9.0, (_NAIL, _NAILING, ("sheathing",), ("block", "joint"), ("hold_down",), ("sill",),
                               ("bottom_plate", "top_plate")))  # fmt: skip
SMALL = Style(_SMALL, 10.0, 7.0, CARD.rows[:5], tail=7.0, foot=7.0, mark=30.0, head=27.0, names=100.0, too_long="see_card",
              pairs={"edge": 0.5, "block": 0.6}, label_room=44.0, band=12.0, bare=True, gives=2.0, limits=(2.5, 1.5, 0.0),
              gives_way=(("block", "joint"), ("hold_down",), ("sheathing",)))  # fmt: skip
TAG = replace(CARD, mark=84 / 1.5, head=54.0)  # at scale 1.5: 84 points, which reads at 10 ft
STYLES = {"card": CARD, "small": SMALL, "tag": TAG}


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


def rows(face: Face, style: Style, width: float, top: float, bottom: float, k: float) -> tuple[Row, ...]:
    """The rows between header and foot, in the first of ``_tries`` that fits; white that is left goes between them."""
    for drawn in _tries(face, style, width, k):
        spare = (bottom - top - _height(drawn, style, k)) / len(drawn)
        if spare >= -style.gives * k:
            break
    done = []
    for cells in drawn:
        words = _words_height(cell for cell, _ in cells)
        height = words + style.pad * k + max(-style.gives * k, min(spare, 7 * k))
        done.append(Row(top, height, (height - words) / 2, tuple(cell for cell, _ in cells)))
        top += height
    return tuple(done)


Laid = list[list[tuple[Cell, str]]]


def _tries(face: Face, style: Style, width: float, k: float) -> Iterator[Laid]:
    """Usual sizes; least sizes, a little less on a card on hold; in two languages short words of bad states; then "see sheet".

    Of long lines, three give way before two, and one alone before several. After that smaller than the least, and at the very
    last the words of bad states in one language, on a small card without the values they are about: only cards on hold.
    """
    short = face.words.both and not style.bare

    def laid(
        roomy: float, least: float = LEAST, main: float = 22.0, *, long_lines: frozenset[str] = frozenset(), bare: bool = False,
        one: bool = False,
    ) -> Laid:  # fmt: skip
        return _laid(shown, style, width, _Type(style, k, roomy, least, main, one, bare), long_lines)

    shown = face
    yield laid(1.0)
    yield laid(0.0)
    if face.words.both:
        yield laid(0.0, 9.0)
    for one in (False, True) if short else (False,):
        for least in (LEAST, *((9.0, 8.5) if face.hold else (9.0,) if short else ())[: 2 * (not style.bare)]):
            yield laid(0.0, least, 17.0, one=one)
    small = 9.0 if (face.hold or short) and not style.bare else LEAST
    drawn, long_lines = laid(0.0, small, 17.0, one=short), frozenset[str]()
    for keys, lines in ((keys, lines) for lines in style.limits for keys in style.gives_way):
        pairs_too = lines > 2 or lines == style.limits[-1]  # beside another a line wraps early: it gives way last
        high = {key for cells in drawn for cell, key in cells
                if cell.text.height > lines * LEAST * k and (pairs_too or len(cells) == 1)}  # fmt: skip
        giving = {line.key for line in face.lines if line.key in keys and line.key in high and not line.bad} - long_lines
        if giving and long_lines:
            yield laid(0.0, small, 17.0, one=short, long_lines=frozenset(giving))
        less = laid(0.0, small, 17.0, one=short, long_lines=long_lines | giving)
        if giving and _height(less, style, k) < _height(drawn, style, k):  # or the words in its place take as much room
            drawn, long_lines = less, long_lines | giving
            yield drawn
    for bare in (False, True) if style.bare else (False,):
        for one_language in (False, True):
            for least in (9.0, 8.0, 7.0):
                yield laid(0.0, least, 17.0, long_lines=long_lines, bare=bare, one=one_language)
    if style.bare and face.words.both:
        shown = _in_first(face)
        for least in (9.0, 8.0, 7.0):
            yield laid(0.0, least, 17.0, long_lines=long_lines, one=True)
    if style.bare:
        shown = _only_nailing(face)
        for least in (9.0, 8.0, 7.0):
            yield laid(0.0, least, 17.0, long_lines=frozenset({"sheathing"}), bare=True, one=True)


def _in_first(face: Face) -> Face:
    """The face with its labels, and the words for how many sides and for blocking, in the first language alone."""
    first = Words(face.words.spoken[0])

    def spoken(value: Value) -> Value:
        plain = value.shown in (Shown.READ, Shown.NOTE, Shown.ANSWERED) and len(value.readings) == 1
        return replace(value, text=text_of(value.fields[0], value.readings[0].value, first)) if plain else value

    return replace(face, lines=tuple(replace(line, label=line.label[:1], values=tuple(spoken(value) for value in line.values))
                                     for line in face.lines))  # fmt: skip


def _only_nailing(face: Face) -> Face:
    """The face with one line in place of all that is not the nail and its spacing, which sends to the larger card."""
    rest = [line for line in face.lines if line.key in ("sheathing", "block", "hold_down")]
    kept = tuple(line for line in face.lines if line.key in (*_NAIL, *_NAILING))
    return replace(face, lines=(*kept, Line("sheathing", face.words.lines("rest")[:1], rest[0].values))) if rest else face


@dataclass(frozen=True)
class _Type:
    """Sizes of type on one try: ``roomy`` 1 for usual sizes and 0 for the least; the main numbers at most ``main``."""

    style: Style
    k: float
    roomy: float
    least: float = LEAST
    main: float = 22.0
    one_language: bool = False
    bare: bool = False

    def sizes(self, key: str, value: Value, *, first: bool) -> tuple[float, float]:
        """Size and floor of a value in points: the main numbers keep theirs, the words beside them give way."""
        usual = self.style.big.get(key, self.style.usual)
        if key not in (*_NAIL, *_NAILING):
            size, floor = self._between(usual), self.least
        elif value.bad or value.shown is Shown.DEFERRED:
            size, floor = self._between(13.0), self.least
        elif first or value.fields[0] in _MAIN:
            size = floor = min(usual, self.main)
        else:
            floor = self.least if self.style.bare else min(12.0, self.least + (2 if self.least >= LEAST else 0.5))
            size = max(floor, self._between(14.0))
        return size * self.k, floor * self.k

    def box(self, key: str) -> tuple[float, float]:
        """Size and floor of the words of a bad state."""
        return self._between(min(self.style.big.get(key, self.style.usual), 11.0)) * self.k, self.least * self.k

    def _between(self, usual: float) -> float:
        return self.least + (usual - self.least) * self.roomy


def _height(drawn: Laid, style: Style, k: float) -> float:
    return sum(_words_height(cell for cell, _ in cells) + style.pad * k for cells in drawn)


def _laid(face: Face, style: Style, width: float, sizes: _Type, long_lines: frozenset[str]) -> Laid:
    """Rows of cells; two lines that share a row stand each on their own where that takes less height."""
    k = sizes.k
    lines = {line.key: line for line in face.lines}
    runs = {key: [_too_long(face, line, sizes)] if key in long_lines else _runs(line, sizes) for key, line in lines.items()}
    firsts = (_label_width(line, style, k) for keys in style.rows for line in face.lines if line.key == keys[0]
              and not (line.key in _LONG_LABELS and face.words.both))  # fmt: skip
    label = max(style.label_room * k, *firsts)
    drawn: Laid = []
    for keys in style.rows:
        row = [lines[key] for key in keys if key in lines]
        if style.bare and len(row) > 1 and long_lines.issuperset(line.key for line in row):
            row = [replace(row[0], label=(" + ".join(line.label[0] for line in row),))]
        ways = [[row], [[line] for line in row]] if len(row) > 1 else [[row]] if row else [[]]
        ends = _ends(row, runs, width, label, sizes) if len(row) > 1 else [width]
        laid: list[Laid] = [[list(_cells(some, runs, width, label, sizes, end)) for some in way]
                            for way in ways for end in (ends if len(way) == 1 else ends[:1])]  # fmt: skip
        roomy = [rows for rows in laid if all(cell.width >= _LEAST_ROOM * k for cells in rows for cell, _ in cells)]
        shortest: Laid = min(roomy or laid, key=lambda rows: _height(rows, style, k))
        drawn += shortest
    return drawn


def _ends(row: Sequence[Line], runs: dict[str, list[Run]], width: float, label: float, sizes: _Type) -> list[float]:
    """Where the first of two lines in a row may end: at its share, a little further, or where its words do."""
    share, k = sizes.style.pairs[row[0].key], sizes.k
    words = sum(run.width + width_pt(" ", run.size, run.bold) for run in runs[row[0].key])
    need = max(label, _label_width(row[0], sizes.style, k)) + words + 6 * k
    return [width * share, width * (share + _WIDER), *([need] if need < width * _WIDEST else [])]


def _label_width(line: Line, style: Style, k: float) -> float:
    return width_pt(" · ".join(line.label), _label_size(line, style, k), True) + 5 * k


def _label_size(line: Line, style: Style, k: float) -> float:
    return (style.label if len(line.label) == 1 else max(7.0, style.label - 1)) * k


def _cells(
    row: Sequence[Line], runs: dict[str, list[Run]], width: float, label: float, sizes: _Type, first_end: float
) -> Iterator[tuple[Cell, str]]:
    """The cells of a row, each with its line's key; the first of two ends at ``first_end``."""
    left, style, k = 0.0, sizes.style, sizes.k
    for i, line in enumerate(row):
        label = _label_width(line, style, k) if i else max(label, _label_width(line, style, k))
        end = first_end if not i and len(row) > 1 else width
        room = end - left - label
        text = _with_twin(line, runs[line.key], room - 3 * k, sizes)
        yield Cell(left, label, room, " · ".join(line.label), _label_size(line, style, k), text), line.key
        left = end


def _with_twin(line: Line, runs: list[Run], room: float, sizes: _Type) -> Text:
    """A line's text, with its spacing in millimetres in small type behind it where that changes nothing else."""
    text = fitted(runs, room)
    value = line.values[0]
    if value.fields[0] not in _TWINS or len(line.values) > 1 or value.shown not in (Shown.READ, Shown.NOTE, Shown.ANSWERED):
        return text
    tail = sizes.style.tail * sizes.k
    inches = float(value.readings[0].value or 0)
    twin = fitted([*runs, Run(f"= {millimetres(inches)}\u00a0mm", tail, tail, False, "tail")], room - 5 * sizes.k)
    same = len(twin.lines) == len(text.lines) == 1 and twin.lines[0][0].size == text.lines[0][0].size
    return twin if same else text


def millimetres(inches: float) -> int:
    """Inches in whole millimetres.

    >>> millimetres(4), millimetres(12)
    (102, 305)
    """
    return round(inches * 25.4)


def _too_long(face: Face, line: Line, sizes: _Type) -> Run:
    """Words in place of a line that this card has no room for: where they stand, the row or the plans."""
    size, floor = sizes.box("sill")
    if not line.values[0].readings:  # marks on the plans; the row has none
        return Run(face.words.say("see_plans"), size, floor, True, "deferred")
    key = sizes.style.too_long + ("_both" if face.words.both and sizes.style.too_long == "too_long" else "")
    return Run(face.words.say(key, where=face.row), size, floor, True, "deferred")


def _runs(line: Line, sizes: _Type) -> list[Run]:
    """The line's values as runs, each in the look of its state; a tail that several share is said once, after the last."""
    runs: list[Run] = []
    values = [replace(one, tail=one.tail.partition(",")[0]) if sizes.style.bare and one.shown is Shown.NOTE else one
              for one in line.values]  # fmt: skip
    for i, value in enumerate(values):
        after = values[i + 1] if i + 1 < len(values) else None
        said_later = after is not None and after.tail == value.tail and not after.bad
        runs += _value_runs(_bare(replace(value, tail="") if said_later else value, sizes), line.key, sizes, runs)
    return runs


def _bare(value: Value, sizes: _Type) -> Value:
    """The words of a bad state with the name of what is in doubt, in place of the values that are."""
    if not (sizes.bare and value.bad and value.text):
        return value
    named = "" if value.fields[0] in _MAIN else called(value.fields)(Words())
    warning = tuple(f"{named}{words}" for words in value.warning)
    return replace(value, text="", tail="", warning=warning)


def _one_line(value: Value, sizes: _Type) -> tuple[str, ...]:
    """The words of a bad state on one line: two languages with a short second one, on a small card the first alone."""
    short = "" if sizes.style.bare or not value.bad or len(value.warning) < 2 else Words("es").first(f"short_{value.shown}")
    return (" / ".join(filter(None, (*value.warning[:1], short))),) if value.warning else ()


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
        tail = sizes.style.tail * sizes.k
        answered = value.shown is Shown.ANSWERED
        whole = value.tail.replace(" ", "\u00a0") if len(value.tail) < 30 else value.tail
        yield Run(whole if answered else f"({whole})", tail, tail, False, "answered" if answered else "tail")
    for warning in _one_line(value, sizes) if sizes.one_language else value.warning:
        yield Run(warning, *sizes.box(key), True, value.shown.value if value.bad else "doubted")
