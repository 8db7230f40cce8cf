"""One reading -> the words printed for it and what they are worth. No two states look or read alike."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from cards.words import WORDS, Words
from extractor.record import Origin, Reading, Source, State
from extractor.trade.inches import as_fraction


class Shown(StrEnum):
    """What a printed value is worth to the person who nails from it."""

    READ = "read"
    NOTE = "note"  # filled from a note or a legend, which is named
    ANSWERED = "answered"  # the engineer's written answer, named
    NONE = "none"  # the plans say there is none
    DEFERRED = "deferred"  # the plans send the reader elsewhere
    MISSING = "missing"
    UNREADABLE = "unreadable"
    CONFLICT = "conflict"


BAD = frozenset({Shown.MISSING, Shown.UNREADABLE, Shown.CONFLICT})


@dataclass(frozen=True)
class Value:
    """Words to print, the fields they stand for, and the readings they came from (none where the plans are silent).

    ``text`` has the value; ``warning`` the words of a bad state, once for each language, or of an open question about a
    value that was read; ``tail`` names the note or answer.
    """

    fields: tuple[str, ...]
    shown: Shown
    text: str = ""
    readings: tuple[Reading[Any], ...] = ()
    tail: str = ""
    warning: tuple[str, ...] = ()
    glue: str = " "
    questions: tuple[str, ...] = ()

    @property
    def bad(self) -> bool:
        """True where nobody may build from this value."""
        return self.shown in BAD

    @property
    def words(self) -> str:
        """All of it on one line."""
        return " ".join(part for part in (self.text, self.tail and f"({self.tail})", " / ".join(self.warning)) if part)


@dataclass(frozen=True)
class Asking:
    """How a value is asked about: the words, its place for "SEE ...", the question numbers of a field and of a mark.

    ``doubts`` are those about the field itself and nothing wider.
    """

    words: Words
    where: Callable[[Source], Callable[[Words], str]]
    numbers: Callable[[str], tuple[str, ...]] = field(default=lambda _: ())
    about: Callable[[str], tuple[str, ...]] = field(default=lambda _: ())
    doubts: Callable[[str], tuple[str, ...]] = field(default=lambda _: ())


def inch(value: float) -> str:
    """Inches with their mark, as a tape reads them: 15/32", 2-1/2"; a nail's shank stays decimal: 0.131"."""
    return as_fraction(value) + '"'


def _spacing(value: float, words: Words) -> str:
    return words.first("on_centre", value=inch(value))


def _washer(value: Iterable[float], words: Words) -> str:
    return words.first("washer", value=" × ".join(inch(side) for side in value))


def _joint(value: str, words: Words) -> str:
    return f" {words.first('or')} ".join(words.known(option) for option in value.split(" or "))


def _inch(value: float, _: Words) -> str:
    return inch(value)


def _known(value: str, words: Words) -> str:
    return words.known(value)


def _plain(value: object, _: Words) -> str:
    return str(value)


PRINTED: dict[str, Callable[[Any, Words], str]] = {
    "sheathing.thickness_in": _inch,
    "sheathing.material": _known,
    "sheathing.grade": _known,
    "sheathing.faces": lambda value, words: words.say(f"faces_{value}"),
    "fastener.penny": _plain,
    "fastener.style": _plain,
    "fastener.length_in": _inch,
    "fastener.diameter_in": _inch,
    "fastener.gauge": lambda value, words: words.first("gauge", value=value),
    "edge.spacing_in": _spacing,
    "edge.rows": lambda value, words: words.first("rows", n=value),
    "edge.staggered": lambda value, words: words.say("staggered_yes" if value else "staggered_no"),
    "field.spacing_in": _spacing,
    "framing.panel_edge": _joint,
    "framing.blocked": lambda value, words: words.say("blocked_yes" if value else "blocked_no"),
    "framing.sill": lambda value, words: words.first("plate", value=value),
    "anchors.kind": _known,
    "anchors.diameter_in": _inch,
    "anchors.spacing_in": _spacing,
    "anchors.embedment_in": lambda value, words: words.first("embed", value=inch(value)),
    "anchors.washer_in": _washer,
    "bottom_plate.penny": _plain,
    "bottom_plate.spacing_in": _spacing,
    "top_plate.connector": _plain,
    "top_plate.spacing_in": _spacing,
    "hold_down.marks": lambda value, _: ", ".join(value),
    "hold_down.post": lambda value, words: words.first("post", value=value),
    "hold_down.model": _plain,
}


def text_of(name: str, value: object, words: Words) -> str:
    """A value in print; a field that has no rule of its own prints as text."""
    return PRINTED.get(name, _plain)(value, words)


def worded(name: str, reading: Reading[Any], ask: Asking, glue: str = " ") -> Value:
    """The printed form of a reading in the state it is in."""
    words, numbers = ask.words, ask.numbers(name)
    made = Value((name,), Shown.READ, readings=(reading,), glue=glue, tail=_tail(reading, ask), questions=numbers)
    if reading.state is State.UNREADABLE:
        where = ask.where(reading.source)
        return replace(made, shown=Shown.UNREADABLE, warning=words.lines("unreadable", where=where, q=asked(numbers)))
    if reading.state is State.CONFLICT:
        both = " | ".join(_side(name, one, ask) for one in (reading, *reading.also))
        return replace(made, shown=Shown.CONFLICT, text=both, tail="", warning=words.lines("conflict", q=asked(numbers)))
    if reading.state is State.DEFERRED:
        return replace(made, shown=Shown.DEFERRED, text=words.say("deferred", words=reading.as_printed))
    if reading.state is State.NONE:
        return replace(made, shown=Shown.NONE, text=words.say("none"))
    doubt = words.lines("doubted", q=asked(ask.doubts(name))) if ask.doubts(name) else ()
    return replace(made, shown=_origin(reading), text=text_of(name, reading.value, words), warning=doubt)


def missing(names: tuple[str, ...], ask: Asking, *, what: str | None = None, glue: str = " ") -> Value:
    """The box for fields that the plans don't give; ``what`` names them together, an empty one leaves the name out."""
    numbers = tuple(dict.fromkeys(number for name in names for number in ask.numbers(name)))
    keys = names if what is None else (what,) if what else ()
    warning = ask.words.lines("missing", what=called(keys), q=asked(numbers))
    return Value(names, Shown.MISSING, warning=warning, glue=glue, questions=numbers)


def called(keys: tuple[str, ...]) -> Callable[[Words], str]:
    """The names of fields in the words of one language, ready to stand before "NOT ON PLANS"."""
    return lambda words: ", ".join(dict.fromkeys(words.say(key) for key in keys if key in WORDS)) + " " * bool(keys)


def asked(numbers: tuple[str, ...]) -> Callable[[Words], str]:
    """Question numbers in brackets in one language: " (Q-07)"; P in Spanish; nothing where no question was raised."""
    return lambda words: f" ({', '.join(number_in(number, words) for number in numbers)})" if numbers else ""


def number_in(number: str, words: Words) -> str:
    """A question's number in one language: Q-07 in English, P-07 in Spanish."""
    return words.first("question", n=int(number.split("-")[1]))


def _side(name: str, reading: Reading[Any], ask: Asking) -> str:
    text = reading.as_printed if reading.value is None else text_of(name, reading.value, ask.words).removesuffix(" o.c.")
    place = _tail(reading, ask) or reading.source.sheet or ask.words.first("page", n=reading.source.page)
    return f"{text} ({place})"


def _origin(reading: Reading[Any]) -> Shown:
    return {Origin.SCHEDULE: Shown.READ, Origin.ANSWER: Shown.ANSWERED}.get(reading.origin, Shown.NOTE)


def _tail(reading: Reading[Any], ask: Asking) -> str:
    """Where a value comes from when that is not the row itself."""
    if reading.origin is Origin.SCHEDULE:
        return ""
    if reading.origin is Origin.ANSWER:
        return ask.words.first("from_answer", reference=reading.as_printed.partition(" “")[0])
    sheet = reading.source.sheet or (lambda words: words.first("page", n=reading.source.page))
    return ask.words.first(f"from_{reading.origin}", sheet=sheet)
