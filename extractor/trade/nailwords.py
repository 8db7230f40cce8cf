"""Nails in running words: penny size, style, diameter and length; and the sentences and legend rows that define a nail."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import regex as re

from extractor.trade.inches import NUMBER, inches
from extractor.trade.text import Found, Span

UNIT = r"(?: ?(?:\"|-?(?<![a-z])in(?:ch(?:es)?)?\b\.?))"
PENNY = re.compile(r"(?<![\w./-])(?P<penny>[2-9]|10|12|16|20|30|40|50|60) ?d\b", re.I)
_GALV = r"(?:hot[- ]dip(?:ped)?[ -])?(?:galv(?:anized|anised|'d)?\.?|hdg)"
STYLES = (
    ("common or galvanized box", rf"com(?:mon|\.)? or {_GALV} box"),
    ("galvanized box", rf"{_GALV} box"),
    ("common", r"common wire|commons?\b|com\.|cmn\.?|com(?= nail)"),
    ("sinker", r"(?:cement[- ]coated )?sinkers?\b"),
    ("cooler", r"coolers?\b"),
    ("casing", r"(?:galv(?:anized)?\.? )?casing\b"),
    ("deformed shank", r"(?:ring|screw|deformed|annular)[- ]shank\b"),
    ("box", r"box\b"),
)
STYLE = re.compile("|".join(rf"(?P<s{i}>\b(?:{pattern}))" for i, (_, pattern) in enumerate(STYLES)), re.I)
_ROUND = r"(?: ?\(?(?:Ø|dia(?:m(?:eter)?)?\b\.?)\)?)"
_ENDS = r"(?! ?[-–—]\d)(?: ?(?:long|lg\.?|length)\b)?(?! ?\"?[ ,]*(?:@|x ?[\d.]|o\.?/?c\b|on cent))"
_JOINED = rf"(?P<one>{NUMBER}){UNIT}?{_ROUND}? ?%s ?(?P<two>{NUMBER}){UNIT}?+{_ROUND}?+{_ENDS}"
_SIZES = re.compile(_JOINED % r"(?:x|by|and|,|(?<=\)) ?(?=\d))", re.I)
_COLUMNS = re.compile(_JOINED % r"(?:x|by|and|,|\||\b|(?<=[\")Ø]))", re.I)
_DIAMETER = re.compile(rf"\((?P<a>0?\.\d{{3}}){UNIT}?{_ROUND}?\)|(?P<b>(?<![\d.])0?\.\d{{3}}){UNIT}?{_ROUND}", re.I)
_THINNEST, _THICKEST, _SHORTEST, _LONGEST = 0.06, 0.22, 1.0, 8.0
_KEY = re.compile(r"(?P<key>[A-Z])(?: ?[|:=-] ?| )(?=\(?(?:\d|\.\d|com|box|sink|galv|nail))", re.I)
_SPACED = re.compile(r"@|\bo\.?c\b|\bon cent|\bedges?\b|\bfield\b", re.I)


def pennies(text: str) -> Iterator[tuple[str, Span]]:
    """Penny sizes in lower case with their spans; the size in 3-8d (three nails) is not one."""
    for m in PENNY.finditer(text):
        yield f"{m['penny']}d", m.span()


def styles(text: str) -> Iterator[tuple[str, Span]]:
    """Styles of nail by name, with their spans."""
    for m in STYLE.finditer(text):
        yield next(name for i, (name, _) in enumerate(STYLES) if m[f"s{i}"]), m.span()


def sizes(text: str, *, columns: bool = False) -> Iterator[tuple[float, float | None, Span]]:
    """Diameter and length in inches, either order, the thin one is the diameter; or a diameter alone with a None length.

    With ``columns`` the two may stand side by side without an x, as in a table of nails.
    """
    taken = []
    for m in (_COLUMNS if columns else _SIZES).finditer(text):
        thin, long = sorted((inches(m["one"]), inches(m["two"])))
        if _THINNEST < thin < _THICKEST and _SHORTEST <= long <= _LONGEST:
            taken.append(m.span())
            yield thin, long, m.span()
    for m in _DIAMETER.finditer(text):
        thin = inches(m["a"] or m["b"])
        if _THINNEST < thin < _THICKEST and not any(a < m.end() and m.start() < b for a, b in taken):
            yield thin, None, m.span()


class NailDefinition(NamedTuple):
    """What a legend row or a sentence says a nail is: ``key`` is the letter or the penny size it is called by."""

    key: str
    found: tuple[Found, ...]

    def value(self, name: str) -> object:
        """The value of ``penny``, ``style``, ``diameter_in`` or ``length_in``; None where it isn't said."""
        return next((f.value for f in self.found if f.field == f"fastener.{name}"), None)


def nail_words(text: str, offset: int = 0, *, columns: bool = False) -> tuple[Found, ...] | None:
    """All that these words say about one nail; None where they speak of two, or say one thing twice."""
    found = [Found("fastener.penny", value, span) for value, span in pennies(text)]
    found += [Found("fastener.style", value, span) for value, span in styles(text)]
    for thin, long, span in sizes(text, columns=columns):
        found.append(Found("fastener.diameter_in", thin, span))
        if long is not None:
            found.append(Found("fastener.length_in", long, span))
    if len({f.field for f in found}) < len(found):
        return None
    return tuple(f._replace(span=(f.span[0] + offset, f.span[1] + offset)) for f in sorted(found, key=lambda f: f.span))


def nail_definition(text: str, offset: int = 0) -> NailDefinition | None:
    """The nail that a legend row (M 8d common 0.131" x 2-1/2") or words (8d = 0.131 x 2-1/2) define; None for anything else.

    Words with a spacing are nailing, not a definition. ``offset`` moves the spans, for a text that is part of a longer one.
    """
    if _SPACED.search(text):
        return None
    key = _KEY.match(text)
    start = key.end() if key else 0
    found = nail_words(text[start:], offset + start, columns=True)
    if not found:
        return None
    fields = {f.field.removeprefix("fastener.") for f in found}
    if key and ("penny" in fields or fields >= {"diameter_in", "length_in"}):
        return NailDefinition(key["key"], found)
    if {"penny", "diameter_in"} <= fields:
        return NailDefinition(str(next(f.value for f in found if f.field == "fastener.penny")), found)
    return None


def _size_first(text: str, offset: int) -> tuple[NailDefinition, ...]:
    """Nails defined by their size first: ALL NAILS ARE COMMON NAILS: .131 x 2-1/2 = 8d, .148 x 3 = 10d."""
    head, colon, rest = text.partition(":")
    parts = rest.split(",") if colon and styles(head) else ()
    if not parts or not all(re.fullmatch(r"[^=]*\.\d{2,3}[^=]*= ?\d{1,2}d[ .]*", part, re.I) for part in parts):
        return ()
    named = list(styles(head))
    if len(named) != 1:
        return ()
    (style, span), out, at = named[0], [], len(head) + 1
    for part in parts:
        found = nail_words(part, offset + at)
        at += len(part) + 1
        if not found:
            return ()
        told = Found("fastener.style", style, (span[0] + offset, span[1] + offset))
        penny = next((str(f.value) for f in found if f.field == "fastener.penny"), "")
        out.append(NailDefinition(penny, (told, *found)))
    return tuple(out)


def nail_definitions(text: str, offset: int = 0) -> tuple[NailDefinition, ...]:
    """Each nail that a text defines, parted where the next penny size begins; a style told before the first is that of all."""
    if sized := _size_first(text, offset):
        return sized
    starts = [span[0] for _, span in pennies(text)]
    edges = [0, *starts[1:], len(text)] if starts else [0, len(text)]
    parts = (nail_definition(text[a:b].rstrip(" ,;"), offset + a) for a, b in pairwise(edges))
    defined = tuple(part for part in parts if part)
    head = [Found("fastener.style", value, (span[0] + offset, span[1] + offset)) for value, span in styles(text[: edges[1]])]
    lead = [style for style in head if starts and style.span[1] <= starts[0] + offset]  # NAILS ARE COMMON NAILS: 8d ..., 10d ...
    if len(lead) != 1:
        return defined
    return tuple(part if part.value("style") else part._replace(found=(*lead, *part.found)) for part in defined)
