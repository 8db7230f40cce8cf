"""Nails, staples and screws as a schedule prints them: kind, penny size, style, diameter, length, gauge."""

from collections.abc import Iterator

import regex as re

from extractor.record import State
from extractor.trade.inches import MARK, TAPE, inches
from extractor.trade.spans import mask_found, overlap, trimmed
from extractor.trade.text import Found, Span

# Penny sizes that nails are sold in; 7d and 9d are not used on plans and are asked about. Source: common practice, no source.
PENNIES = frozenset(f"{n}d" for n in (2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 30, 40, 50, 60))
THINNEST_IN, THICKEST_IN = 0.08, 0.25  # no nail in a shear wall is outside; the thicker number is a length
SHORTEST_IN, LONGEST_IN = 0.75, 8.0

PENNY = r"(?<![\d.])(?P<n>\d{1,3})(?:d(?!(?!x ?\d)[A-Z\d])| ?-?penny(?!\w))"
_PENNY = re.compile(PENNY, re.I)

_GALVANIZED = r"(?:hot[- ]dip(?:ped|'d)? )?(?:galv(?:anized|anised|'d|\.)?|h\.?d\.?g\.?)"
_COMMON = r"(?:common(?: wire)?s?|comm?\.?|cmn\.?)"
_STYLES = (
    ("common or galvanized box", rf"{_COMMON}(?: nails?)? (?:or|/) ?{_GALVANIZED} box|{_GALVANIZED} box or {_COMMON}"),
    ("common or box", rf"{_COMMON}(?: nails?)? or box|box or {_COMMON}"),
    ("galvanized box", rf"{_GALVANIZED} box"),
    ("common", _COMMON),
    ("box", r"box"),
    ("sinker", r"sinkers?"),
    ("cooler", r"coolers?"),
    ("casing", r"casings?"),
    ("finish", r"finish(?:ing)?"),
    ("deformed shank", r"(?:ring|screw|annular|spiral|deformed)[ -]?shank(?:ed)?|deformed"),
)
_STYLE = re.compile("|".join(rf"(?P<s{i}>(?<![\w.]){pattern}(?!\w))" for i, (_, pattern) in enumerate(_STYLES)), re.I)
_KINDS = re.compile(
    r"(?<!\w)(?:(?P<nail>nails?|nls\.?)|(?P<staple>staples?)"
    r"|(?P<screw>(?:(?:gyp(?:sum|\.)?(?: b(?:oar)?d\.?)?|dry ?wall"
    r"|bugle[- ]head) )?(?:type ['\"]?[WS](?:/S)?['\"]? )?(?:dry ?wall )?screws?))(?![\w-])(?! (?:"
    r"anchors?|shank))",
    re.I,
)
_NAILING_WORD = r"(?<!\w)(?:toe-?|face |end |edge |field |plate )nail"

_DIAMETER = r"(?:0?\.\d{2,4}(?!\d))"
_ROUND = r"(?: ?\(?(?:Ø|dia(?:m(?:eter)?)?(?!\w)\.?)\)?)"
_LENGTH = rf"(?>\d{{1,2}}[ -]{TAPE}|{TAPE}|\d\.\d{{1,3}}(?!\d)|\d{{1,2}}(?![\d/.]\d|\d|/))"
_MIXED = rf"(?>\d{{1,2}}[ -]{TAPE})"
_LONG = r"(?: ?(?:long|lg\.?|length)(?!\w))"
_ON_CENTRE = r"(?! ?(?:o\.? ?/?c|on cent|@|edge|e\.?n|field|f\.?n))"
_BY = r" ?(?:x|by) ?"
_FROM = r"(?<![\w/.'#-])(?<!\d )"
_THICK = rf"{_FROM}(?P<d>{_DIAMETER}){MARK}?{_ROUND}?"
_THICK_BY_LONG = rf"{_THICK}{_BY}{_ROUND}?(?P<l>{_LENGTH}){MARK}?+{_LONG}?+(?! ?o\.? ?/?c)"
_THICK_COMMA_LONG = rf"{_THICK}, ?(?P<l>{_LENGTH}){MARK}?+{_LONG}?+{_ON_CENTRE}"
_THICK_THEN_MIXED = rf"{_THICK} ?(?P<l>{_MIXED}){MARK}?+{_LONG}?+{_ON_CENTRE}"
_LONG_FIRST = rf"(?<![\w/.'#])(?<!\d )(?:(?<=\d-)|(?<!-))(?P<l>{_LENGTH}){MARK}?{_LONG}?{_BY}(?P<d>{_DIAMETER}){MARK}?{_ROUND}?"
_SCREW_SIZE = (
    rf"{_FROM}(?:#\d{{1,2}}|(?P<d>1/4|3/8"
    rf"|5/16)){MARK}?{_BY}(?P<l>{_LENGTH}){MARK}?{_LONG}?(?= ?(?:\w+ ){{0,3}}(?:screws?"
    rf"|lags?)(?!\w))"
)
_SIZE = re.compile(rf"{_THICK_BY_LONG}|{_THICK_COMMA_LONG}|{_THICK_THEN_MIXED}|{_LONG_FIRST}|(?P<screw>{_SCREW_SIZE})", re.I)
_DIAMETER_ALONE = re.compile(rf"{_FROM}(?P<d>{_DIAMETER}){MARK}?{_ROUND}?(?! ?x)", re.I)
_NO_SIZE = re.compile(
    (
        rf"{_FROM}0\d{{3,4}}(?![\d/.]){MARK}?|{_FROM}{_LENGTH}{MARK}?{_BY}\.?\d{{3,4}}(?![\d/.]){MARK}?"
        rf"|{_FROM}\d{{3}}{MARK}?{_BY}{_LENGTH}(?!\w)"
    ),
    re.I,
)  # 0131" and 3 x 148 have lost their point: never guessed
_GAUGE = re.compile(r"(?<![\w/.#-])(?P<g>1[3-8]) ?-?(?:ga(?:u?ge)?|ga\.)(?!\w)\.?", re.I)
_STAPLE_LENGTH = re.compile(
    rf"(?<=ga(?:u?ge)?\.?(?: staples?)?{_BY}){_FROM}(?P<l>{_LENGTH}){MARK}{_LONG}?(?! ?crown)"
    rf"|{_FROM}(?P<l>{_LENGTH}){MARK}{_LONG}?(?=[ ,]*(?:x )?1[3-8] ?-?ga)|{_FROM}(?P<l>{_LENGTH}){MARK}? legs?(?!\w)",
    re.I,
)
_NAMED_LENGTH = re.compile(
    rf"{_FROM}(?P<l>{_LENGTH}){MARK}{_LONG}?(?= (?:(?:type ['\"]?[WS]['\"]?(?:/S)?|dry ?wall"
    rf"|gyp(?:sum|\.)?|bugle[- ]head|common|box|cooler|ring shank|galv\.?) ){{0,3}}(?:screws?"
    rf"|staples?|nails?)(?!\w))"
    rf"|{_FROM}(?P<l>{_LENGTH}){MARK}{_LONG}(?! ?x)|(?<=(?<!\w)\d{{1,2}}d ?x ?)(?P<l>{_LENGTH}){MARK}?{_LONG}?{_ON_CENTRE}",
    re.I,
)
_LONE_LENGTH = re.compile(rf"\s*(?P<l>{_LENGTH}){MARK}?{_LONG}?\s*", re.I)
_LEGEND = re.compile(r"\s*(?:nail )?(?:type )?[\"'(]?(?P<letter>[A-Z])[\"')]?\s*")


def pennies(text: str) -> Iterator[Found]:
    """Penny sizes, lower case; a size that no nail has is unreadable. The 3 in 3-8d is a count and not taken."""
    for m in _PENNY.finditer(text):
        penny = f"{int(m['n'])}d"
        known = penny in PENNIES and not m["n"].startswith("0")
        yield Found("fastener.penny", penny if known else None, m.span(), State.READ if known else State.UNREADABLE)


def styles(text: str) -> Iterator[Found]:
    """Common, box, galvanized box, sinker, cooler and so on; a finish alone (HDG) is no style."""
    for m in _STYLE.finditer(text):
        yield Found("fastener.style", next(name for i, (name, _) in enumerate(_STYLES) if m[f"s{i}"]), m.span())


def sizes(text: str) -> Iterator[Found]:
    """Diameter and length in inches in either order, the thin one is the diameter; an impossible pair is unreadable."""
    taken: list[Span] = []
    for m in _SIZE.finditer(text):
        taken.append(m.span())
        yield from _size(m)
    for m in _NO_SIZE.finditer(text):
        if not any(overlap(m.span(), span) for span in taken):
            taken.append(m.span())
            yield Found("fastener.diameter_in", None, m.span(), State.UNREADABLE)
    for m in _DIAMETER_ALONE.finditer(text):
        if not any(overlap(m.span(), span) for span in taken):
            yield _diameter(m["d"], m.span())


def _size(m: "re.Match[str]") -> Iterator[Found]:
    length = inches(m["l"])
    fits = SHORTEST_IN <= length <= LONGEST_IN
    at, end = sorted((m.span("d") if m["d"] else (m.start(), m.start("l")), m.span("l")))
    spans = {"first": (m.start(), end[0]), "last": (end[0], m.end())}
    thin, long = ("first", "last") if at != m.span("l") else ("last", "first")
    if m["screw"]:
        if m["d"]:
            yield Found("fastener.diameter_in", inches(m["d"]), spans[thin])
    else:
        yield _diameter(m["d"], spans[thin])
    yield Found("fastener.length_in", length if fits else None, spans[long], State.READ if fits else State.UNREADABLE)


def _diameter(number: str, span: Span) -> Found:
    value = inches(number)
    fits = THINNEST_IN <= value < THICKEST_IN
    return Found("fastener.diameter_in", value if fits else None, span, State.READ if fits else State.UNREADABLE)


def kinds(text: str, found: list[Found]) -> Iterator[Found]:
    """Nail, staple or screw, from the word; a penny size or a nail's style is a nail without the word."""
    named = [
        (m, m.lastgroup)
        for m in _KINDS.finditer(text)
        if not re.match(_NAILING_WORD, text[max(0, m.start() - 6) : m.end()], re.I)
    ]
    yield from (Found("fastener.kind", kind, m.span()) for m, kind in named)
    sure = [f for f in found if f.field in ("fastener.penny", "fastener.style") and f.state is State.READ]
    if sure and "nail" not in {kind for _, kind in named}:
        yield Found("fastener.kind", "nail", sure[0].span)


def staple_sizes(text: str) -> Iterator[Found]:
    """Wire gauge, and the length beside it; a crown is not a length. A nail's gauge is left alone."""
    for m in _GAUGE.finditer(text):
        yield Found("fastener.gauge", int(m["g"]), m.span())
    for m in _STAPLE_LENGTH.finditer(text):
        yield Found("fastener.length_in", inches(m["l"]), m.span())


def fasteners(text: str) -> list[Found]:
    """All that the text says of the fastener."""
    found = [*pennies(text), *sizes(text)]
    found += styles(mask_found(text, found))
    found += kinds(mask_found(text, found), found)
    if "nail" not in {f.value for f in found if f.field == "fastener.kind"}:
        found += staple_sizes(text)
    if not any(f.field == "fastener.length_in" for f in found):
        found += _named_length(mask_found(text, [f for f in found if f.field in ("fastener.diameter_in", "fastener.gauge")]))
    return found


def diameter_cell(text: str) -> list[Found]:
    """The diameter out of a column of its own."""
    return [f for f in sizes(text) if f.field == "fastener.diameter_in"]


def length_cell(text: str) -> list[Found]:
    """The length out of a column of its own, where a number is enough."""
    m = _LONE_LENGTH.fullmatch(text)
    if not m:
        return [f for f in sizes(text) if f.field == "fastener.length_in"]
    fits = SHORTEST_IN <= inches(m["l"]) <= LONGEST_IN
    value, state = (inches(m["l"]), State.READ) if fits else (None, State.UNREADABLE)
    return [Found("fastener.length_in", value, trimmed(text, m.span()), state)]


def _named_length(text: str) -> Iterator[Found]:
    """A length by its words alone: 8d x 2-1/2", 2-1/2" LONG, 1-1/4" TYPE W SCREWS."""
    for m in _NAMED_LENGTH.finditer(text):
        if SHORTEST_IN <= inches(m["l"]) <= LONGEST_IN:
            yield Found("fastener.length_in", inches(m["l"]), m.span())


def legend_letter(text: str) -> list[Found]:
    """The letter of a nail legend, where a single capital is all that stands in a fastener cell."""
    m = _LEGEND.fullmatch(text)
    return [Found("fastener.legend", m["letter"], m.span("letter"))] if m else []
