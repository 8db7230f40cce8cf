"""What a clause of a note says about sill anchorage: kind of anchor, size, spacing, embedment, washer."""

from collections.abc import Iterator

import regex as re

from extractor.trade.headingfacts import BOLT, BOLT_SIZE
from extractor.trade.inches import NUMBER, inches
from extractor.trade.nailwords import UNIT
from extractor.trade.notelengths import BE, LENGTH, ON_CENTER, SPACED, has_unit, length_in
from extractor.trade.text import Found, Span

_ANCHOR_BOLT = re.compile(rf"(?<![a-z])(?!bolts?(?![a-z]))(?:{BOLT})", re.I)
_ANCHOR = rf"(?:{BOLT}|(?:sill |mud ?sill )?anchors?)"
_AT_LEAST = rf"(?:[ :=]| of | at least| a| not less than|{BE}|min\.?(?:imum)?)*"
_INTO = (
    r"(?: ?(?:in|into) (?:the )?(?:concrete|conc\.?|foundation|footings?|slabs?|stem ?walls?)"
    r"(?: (?:footings?|slabs?|walls?|foundation))?)"
)
_EMBED = re.compile(
    rf"\bembed (?:epoxy[- ]?(?:set )?)(?:anchor |threaded )?rods? (?P<length>{LENGTH.replace('?P<length>', '?:')}){_INTO}?"
    rf"|(?:{_ANCHOR}|\b)[^.;:]{{0,40}}?\bembed(?:ment depth|ment|ded|\.)?(?: (?:of )?(?:shear (?:wall|panel)s? |all "
    rf"|the |sill )*{_ANCHOR})?(?: depth)?(?: (?:at|in|of|for) (?:all |the )*shear (?:wall|panel)s)?"
    rf"{_INTO}?{_AT_LEAST} ?{LENGTH}(?: ?min(?:imum|\.)?(?![a-z]))?{_INTO}?"
    rf"|\b(?:set|cast|run) (?:all |the )*{_ANCHOR} ?{LENGTH}(?: ?min(?:imum|\.)?(?![a-z]))?{_INTO}"
    rf"|{_ANCHOR}[^.;:]{{0,30}}? (?:extend(?:s|ed|ing)?|cast|set|placed|run)\b{_AT_LEAST} ?{LENGTH}"
    rf"(?: ?min(?:imum|\.)?(?![a-z]))?{_INTO}"
    rf"|{LENGTH} ?(?:min(?:imum|\.)?(?![a-z]) ?)?embed(?:ment|\.|(?![a-z]))",
    re.I,
)
_OTHER_ANCHORS = re.compile(
    r"(?:^\W*|\b(?:space|use|provide) (?:the |all )?)"
    r"(?:(?P<screw>screw[- ]anchors?)|(?P<rod>epox(?:y|ied)(?:[- ]set)? (?:anchor |threaded |all-thread )?(?:rods?|anchors?)))\b",
    re.I,
)
WASHERS = re.compile(r"\bwashers?\b|\bbpl?\.?(?![a-z])", re.I)
_SIDE = rf"(?:{NUMBER}){UNIT}?"
_THREE = re.compile(rf"(?P<a>{_SIDE}) ?(?:x|by) ?(?P<b>{_SIDE}) ?(?:x|by) ?(?P<c>{_SIDE})(?: thick)?", re.I)
_SQUARE = re.compile(
    rf"(?P<a>{_SIDE}) ?sq(?:uare|\.)? ?(?:plate )?(?:x|by) ?(?P<c>{_SIDE})(?: thick)?"
    rf"|(?P<c>{_SIDE}) ?(?:x|by) ?(?P<a>{_SIDE}) ?sq(?:uare\b|\.|\b)",
    re.I,
)


def anchors(clause: str) -> Iterator[Found]:
    """Sill anchorage: the kind by its words, embedment, washer, bolt size and spacing."""
    rest = clause
    if WASHERS.search(clause):
        for found in _washer(clause):
            yield found
            rest = _blank(rest, found.span)
    embeds = [
        m
        for m in _EMBED.finditer(rest)
        if 2 <= (length_in(m["length"]) or 0) <= 36 and not re.search(r"(?i)hold|(?<!epoxy.{0,12})rod", m[0])
    ]
    for m in embeds:
        yield Found("anchors.embedment_in", length_in(m["length"]), m.span())
        rest = _blank(rest, m.span("length"))
    if other := _OTHER_ANCHORS.search(clause):
        yield Found("anchors.kind", "screw anchor" if other["screw"] else "epoxy rod", other.span())
        yield from _bolts(rest)
        return
    bolts = _ANCHOR_BOLT.search(clause)
    if bolts and not re.search(r"(?i)\b(?:hold|lag|machine|m\.b|through|beam|post|column)", clause):
        yield Found("anchors.kind", "anchor bolt", bolts.span())
        yield from _bolts(rest)


_DIAMETER = re.compile(
    rf"(?P<inches>(?<![\d/.'-])(?:3/8|1/2|5/8|3/4|7/8|1(?:[ -]1/[48])?)(?![\d/])){UNIT}? ?(?:Ø|dia(?:m(?:eter)?)?\b\.?)", re.I
)
_AFTER_BOLT = re.compile(rf"(?<={BOLT})(?::|,| {BE})? ?(?P<inches>(?:3/8|1/2|5/8|3/4|7/8|1(?:[ -]1/[48])?)(?![\d/])){UNIT}", re.I)
_AT_OC = re.compile(rf"{LENGTH}{ON_CENTER}", re.I)


def _bolts(clause: str) -> Iterator[Found]:
    """The bolts' size and spacing, embedment and washers left out."""
    for m in [*_DIAMETER.finditer(clause), *BOLT_SIZE.finditer(clause), *_AFTER_BOLT.finditer(clause)]:
        yield Found("anchors.diameter_in", inches(m["inches"].replace(" ", "-")), m.span())
    spaced = list(SPACED.finditer(clause)) or list(_AT_OC.finditer(clause))
    for m in spaced:
        value = length_in(m["length"])
        if (
            value
            and 6 <= value <= 96
            and (has_unit(m["length"]) or re.search(ON_CENTER, m[0], re.I))
            and not re.search(r"(?i)\bends?\b", clause[m.start() : m.end() + 12])
        ):
            yield Found("anchors.spacing_in", value, m.span())


def _washer(clause: str) -> Iterator[Found]:
    """Plate washers given by three numbers in any order, or as square: two sides, then the thickness."""
    for m in [*_THREE.finditer(clause), *_SQUARE.finditer(clause)]:
        numbers = sorted(n for name in ("a", "b", "c") if name in m.groupdict() and (n := length_in(m[name])) is not None)
        thin, *sides = numbers
        sides = sides * 2 if len(sides) == 1 else sides
        if 0.1 <= thin <= 0.5 and all(1.5 <= side <= 6 for side in sides):
            yield Found("anchors.washer_in", (*sides, thin), m.span())


def _blank(text: str, span: Span) -> str:
    """The text with a span blanked out."""
    return text[: span[0]] + " " * (span[1] - span[0]) + text[span[1] :]
