"""Stated shear capacity in pounds per foot, with load and method where the words are there."""

from collections.abc import Iterator
from fractions import Fraction

import regex as re

from extractor.record import State
from extractor.trade.sheathing import faces
from extractor.trade.spans import around, mask_found
from extractor.trade.states import HARMLESS
from extractor.trade.text import Found, Span

LEAST_PLF, MOST_PLF = 40.0, 6000.0  # a stated capacity outside is some other number

_NUMBER = r"(?:\d{1,3}(?:,\d{3}){1,2}+|\d{1,6}+)(?!\d)(?:\.\d{1,6}+(?!\d))?"
_PER_FOOT = r"(?: ?/ ?| per )(?:(?:lin(?:eal|ear|\.)? ?)?(?:ft|foot|l\.?f)(?!\w)\.?|')"
_POUNDS = rf"(?:p\.?l\.?f(?!\w)\.?|(?:#|lbs?\.?|pounds){_PER_FOOT})"
_KIPS = rf"(?:klf(?!\w)\.?|(?:kips?|k){_PER_FOOT})"
_UNIT = rf"(?:(?P<plf>{_POUNDS})|(?P<klf>{_KIPS})|(?P<force>(?:#|lbs?\.?|pounds|kips?|k|psf|psi)(?!\w)))"
_VALUE = re.compile(
    rf"(?P<limit>[<>≤≥±~] ?)?(?<![\w/.,#-])(?:(?<!\w)v ?= ?)?(?:(?P<times>[12]) ?x ?(?P<each>\d{{2,"
    rf"4}}) ?= ?)?(?P<n>{_NUMBER})(?![\w.]*\d)(?! \d)(?: ?{_UNIT})?(?!\w)"
    rf"|(?P<limit>[<>≤≥±~] ?)?(?<=\d(?: ?{_POUNDS})? ?[/,&] ?)(?P<n>{_NUMBER})(?![\w./]*\d)(?! \d)(?: ?{_UNIT})?(?!\w)",
    re.I,
)
_LOADS = re.compile(
    (
        r"(?<![\w.])(?:(?P<seismic>seis(?:mic|m)?\.?|e\.?q\.?|earthquake|\(s\)|(?<=[\d(/])s(?=[)/]))"
        r"|(?P<wind>wind|\(w\)|(?<=[\d(/])w(?=[)/])))(?!\w)"
    ),
    re.I,
)
_METHODS = re.compile(
    (
        r"(?<!\w)(?:(?P<ASD>a\.?s\.?d\.?|allowable stress(?: design)?)|(?P<LRFD>l\.?r\.?f\.?d\.?"
        r"|strength(?: design)?)|(?P<nominal>nominal|nom\.?))(?!\w)"
    ),
    re.I,
)
_TORN = re.compile(r"(?<![\w.,])\d+(?: \d+)+(?![\w.])")
_DRESS = re.compile(r"[\s()\[\],;:/&+=-]*(?:and|for|allowable|shear|capacity|v|load|loads)?[\s()\[\],;:/&+=-]*", re.I)
_SURE = re.compile(
    (
        rf"(?:(?<!\w)(?:(?:allowable |unit )?(?:shear|capacity)|v)(?: ?[=:]| of"
        rf"| is)? ?)?(?<![\w/.,-])(?P<n>{_NUMBER}) ?(?:(?P<plf>{_POUNDS})|(?P<klf>{_KIPS}))"
    ),
    re.I,
)


def capacities(text: str) -> list[Found]:
    """Each capacity of a cell as (plf, load, method), and the faces it says it holds for."""
    sides = list(faces(text))
    masked = mask_found(text, sides)
    masked = HARMLESS.sub(lambda m: m.group() if re.search(r"nom", m.group(), re.I) else "\0" * len(m.group()), masked)
    torn = [m.span() for m in _TORN.finditer(masked)]
    numbers = [m for m in _VALUE.finditer(masked) if not any(a < m.end() and m.start() < b for a, b in torn)]
    found = [Found("capacity", None, span, State.UNREADABLE) for span in torn]
    found += _with_words(masked, numbers)
    if any(f.state is State.UNREADABLE for f in found):  # one odd number in the cell, and none of them is sure
        found = [Found("capacity", None, around(f.span for f in found), State.UNREADABLE)]
    return [*sides, *found]


def capacities_in_words(text: str) -> list[Found]:
    """Capacities out of running text: only numbers in pounds or kips per foot."""
    return list(_with_words(text, list(_SURE.finditer(text))))


def _with_words(text: str, numbers: list["re.Match[str]"]) -> Iterator[Found]:
    words = [(m, m.lastgroup) for pattern in (_LOADS, _METHODS) for m in pattern.finditer(text)]
    near = [(m, name) for m, name in words if _near(text, m.span(), numbers)]
    loads = [(m.span(), name) for m, name in near if name in ("seismic", "wind")]
    methods = [(m.span(), name) for m, name in near if name not in ("seismic", "wind")]
    load_of, method_of = _matched(numbers, loads), _matched(numbers, methods)
    for i, m in enumerate(numbers):
        value = _plf(m)
        own = [m.span(), *(span for span, name in near_words(i, numbers, [*loads, *methods]))]
        span = around(own)
        if value is None:
            yield Found("capacity", None, span, State.UNREADABLE)
        else:
            yield Found("capacity", (value, load_of[i], method_of[i]), span)


def near_words(i: int, numbers: list["re.Match[str]"], words: list[tuple[Span, str]]) -> list[tuple[Span, str]]:
    """The load and method words that a number's span takes in: those up to the next number; the first also those before it."""
    start = numbers[i].start() if i else -1
    end = numbers[i + 1].start() if i + 1 < len(numbers) else 10**9
    return [(span, name) for span, name in words if start <= span[0] < end]


def _near(text: str, span: Span, numbers: list["re.Match[str]"]) -> bool:
    return any(abs(span[0] - m.end()) <= 40 or abs(m.start() - span[1]) <= 40 for m in numbers)


def _matched(numbers: list["re.Match[str]"], words: list[tuple[Span, str]]) -> list[str | None]:
    """For each number the word that belongs to it: one word for all methods, or as many words as numbers, in order."""
    names = [name for _, name in words]
    if len(set(names)) == 1 and (len(numbers) == 1 or names[0] not in ("seismic", "wind")):
        return [names[0]] * len(numbers)
    if len(names) == len(numbers) and (_alternate(numbers, words) or _apart(numbers, words)):
        return list(names)
    return [None] * len(numbers)


def _alternate(numbers: list["re.Match[str]"], words: list[tuple[Span, str]]) -> bool:
    order = "".join(kind for _, kind in sorted([(m.start(), "n") for m in numbers] + [(span[0], "w") for span, _ in words]))
    return order in ("nw" * len(numbers), "wn" * len(numbers))


def _apart(numbers: list["re.Match[str]"], words: list[tuple[Span, str]]) -> bool:
    return bool(words[0][0][0] >= numbers[-1].end() or words[-1][0][1] <= numbers[0].start())


def _plf(m: "re.Match[str]") -> float | None:
    groups = m.groupdict()
    if groups.get("limit") or groups.get("force"):
        return None
    value = Fraction(m["n"].replace(",", ""))
    if groups.get("each") and int(groups["times"]) * int(groups["each"]) != value:
        return None
    plf = float(value * 1000 if groups.get("klf") else value)
    return plf if LEAST_PLF <= plf <= MOST_PLF else None
