"""The panel: thickness off a closed list, material, grade, and how many faces of the wall it covers."""

from collections.abc import Iterator
from fractions import Fraction

import regex as re

from extractor.record import State
from extractor.trade.inches import MARK
from extractor.trade.spans import MASK, around, mask_found
from extractor.trade.states import HARMLESS
from extractor.trade.text import Found, Span

# Performance categories that wall panels are made in, and gypsum board. Source: PS 2-10 Table 1; 1/4 and 5/16: 780 CMR
# Table 2306.3 (IBC-2009 basis). A thickness is one of these or it is not read; nothing is rounded.
THICKNESSES = {
    name: float(sum(Fraction(part) for part in name.split("-")))
    for name in ("1/4", "5/16", "3/8", "7/16", "15/32", "1/2", "19/32", "5/8", "23/32", "3/4", "1-1/8")
}
_DECIMALS = {
    f"{value:.{places}f}".lstrip("0"): value
    for value in THICKNESSES.values()
    for places in (2, 3, 4, 5)
    if abs(float(f"{value:.{places}f}") - value) < 0.0006
}

_LISTED = "|".join(sorted((re.escape(name).replace(r"\-", "[ -]") for name in THICKNESSES), key=len, reverse=True))
_INCH = rf"(?:{MARK}|')?"  # 15/32' is a slip for inches: no panel is measured in feet
_LISTED_SIZE = rf"(?P<printed>(?<![\w/.'#-])(?<!\d )(?P<size>(?:{_LISTED})(?![\d/.])|[01]?\.\d{{2,5}}(?![\d/.]))(?![A-Z]){_INCH})"
_ODD_SIZE = rf"(?P<printed>(?<![\w/.'#-])(?<!\d )(?P<size>(?:\d{{1,2}}[ -])?\w{{1,4}}/\d{{1,4}}){_INCH})"
_ANY_SIZE = re.compile(
    rf"(?P<printed>(?<![\w/.-])(?P<size>(?:\d{{1,2}}[ -])?(?=\w{{0,5}}\d"
    rf"|\w{{1,6}}/\w{{0,3}}\d)\w{{1,6}}/\w{{1,4}}|\d*\.\d+){_INCH})(?!/)"
    r"|(?P<printed>(?<![\w/.-])(?P<size>\w{0,3}\d+(?:[ -]\d+)?)(?:\"| ?in(?:ch)?\b))"
    r"|(?P<printed>(?<![^ (])(?P<size>[^\w\s(]{0,2}\w?)\")",
    re.I,
)

_LISTED_OR = r"(?:or|/|,|and/or|&)"
_C_D = r"(?:c-?d-?x|cdx|c-d|c/d|c-c)"
_PLY = (
    rf"(?:(?:{_C_D} )?(?:plywood|plywd\.?|plyw'd\.?|ply ?wd\.?"
    rf"|(?<![\d-])(?<!\d )ply\.?(?!\w))(?: {_C_D})?(?!\w)|(?<!\w){_C_D}(?!\w))"
)
_OSB = r"(?:(?<!\w)o\.?s\.?b\.?(?!\w)|oriented strand ?board)"
_SIZE_BETWEEN = rf"(?:\d{{1,2}}/\d{{1,2}}{_INCH} )?"
_EITHER = rf"{_PLY} ?{_LISTED_OR} ?{_SIZE_BETWEEN}{_OSB}|{_OSB} ?{_LISTED_OR} ?{_SIZE_BETWEEN}{_PLY}"
_WSP = (
    r"(?<!\w)w\.?s\.?p\.?(?!\w)(?: panels?)?|wood struct(?:ural|\.)? ?panels?(?: sheathing)?|wood str\.? ?panels?"
    r"|(?<!\w)rated (?:wood )?panels?|(?<!\w)structural panels?"
)
_GYPSUM = (
    r"(?<!\w)gyp(?:sum|\.)?(?: ?(?:wall ?b(?:oar)?d\.?|b(?:oar)?d\.?|wb|shtg\.?|sheathing|panels?))?(?!\w)"
    r"|(?<!\w)g\.?w\.?b\.?(?!\w)|(?<!\w)g\.b\.(?!\w)|(?<!\w)dry ?wall(?!\w)"
)
_FIBERBOARD = r"(?<!\w)fib(?:er|re) ?b(?:oar)?d\.?(?!\w)"
_OTHER = (
    r"(?<!\w)t ?-?1 ?-11(?!\d)(?: siding)?|(?<!\w)siding(?!\w)|(?<!\w)stucco(?!\w)"
    r"|(?<!\w)plaster(?!\w)|particle ?board|hard ?board"
)
_MATERIALS = (
    ("wood structural panel", _EITHER),
    ("wood structural panel", _WSP),
    ("plywood", _PLY),
    ("osb", _OSB),
    ("gypsum", _GYPSUM),
    ("fiberboard", _FIBERBOARD),
    ("other", _OTHER),
)
_MATERIAL = re.compile("|".join(rf"(?P<m{i}>{pattern})" for i, (_, pattern) in enumerate(_MATERIALS)), re.I)

_STRUCTURAL_1 = r"(?<!\w)str(?:uc(?:t(?:ural)?)?)?\.?[ -]?(?:i|1)(?![\w/.\"'-])(?! \d+/)"
_RATED = (
    r"(?<!\w)(?:int\.? |ext\.? )?rated"
    r" (?:plywood|plywd\.?|ply\b|osb|o\.s\.b\.?|sheathing|sht'?h?g\.?|shth?'?g\.?|sheath\.?)(?!\w)"
)
_GRADES = re.compile(rf"(?P<one>{_STRUCTURAL_1}(?: rated)?)|(?P<rated>{_RATED})", re.I)

_SIDE = r"(?:sides?|faces?)(?: only)?(?!\w)|sided(?!\w)"
_ONE = rf"(?<![\w/])(?:\(1\)|1|one|single)[ -]?(?:{_SIDE})"
_TWO = rf"(?<![\w/])(?:\(2\)|2|two|both|each|ea\.?|dbl\.?|double)[ -]?(?:{_SIDE})|(?<![\w.])e\.s\.(?!\w)"
_FACES = re.compile(rf"(?:\((?=[^()]*\)))?(?:(?P<one>{_ONE})|(?P<two>{_TWO}))(?:(?<=\([^()]*)\))?", re.I)
_BARE_FACES = re.compile(r"\(?(?P<n>[12])\)?|(?P<one>one|single)|(?P<two>two|both|each|dbl\.?|double)", re.I)

_BETWEEN = (
    rf"(?:thick|nom(?:inal)?\.?|min(?:imum)?\.?|int\.?|ext\.?|rated|exterior|\d-?ply|\d\d/\d\d?"
    rf"|structural|{_C_D}|wood|type ['\"]?x['\"]?"
    r"|exp\.? ?1|t&g|exist\.?|\(e\)|new|,) ?"
)
_NAMED = rf"(?:{'|'.join(pattern for _, pattern in _MATERIALS)}|{_STRUCTURAL_1}|{_RATED})"
_NOT_A_SIZE = r"(?! ?(?:@|x |o\.?/?c|dia|a\.b|anchor|bolt|Ø))"
_BESIDE_NAME = re.compile(
    rf"{_LISTED_SIZE}[ ,]*(?:{_BETWEEN}){{0,4}}(?={_NAMED})|{_ODD_SIZE} ?(?:{_BETWEEN}){{0,4}}(?={_NAMED})"
    rf"|(?<={_NAMED}[ ,:-]{{0,3}}){_LISTED_SIZE}{_NOT_A_SIZE}",
    re.I,
)
_AT_START = re.compile(rf"\s*(?:\(1\) layer )?{_LISTED_SIZE}(?=$|[\s,;(]){_NOT_A_SIZE}", re.I)


def thickness(text: str) -> float | None:
    """Inches of a thickness as printed, off the closed list; None for anything else.

    >>> thickness("15/32"), thickness("0.469"), thickness("18/32")
    (0.46875, 0.46875, None)
    """
    tidy = text.strip().replace(" ", "-")
    return THICKNESSES.get(tidy, _DECIMALS.get(tidy.lstrip("0")))


def materials(text: str) -> Iterator[Found]:
    """What the panel is made of; PLYWOOD OR OSB is a wood structural panel of either make."""
    for m in _MATERIAL.finditer(text):
        name = next(name for i, (name, _) in enumerate(_MATERIALS) if m[f"m{i}"])
        yield Found("sheathing.material", name, m.span())


def grades(text: str) -> Iterator[Found]:
    """Structural 1 or rated sheathing."""
    for m in _GRADES.finditer(text):
        yield Found("sheathing.grade", "structural 1" if m["one"] else "rated sheathing", m.span())


def faces(text: str) -> Iterator[Found]:
    """How many faces are sheathed: ONE SIDE, BOTH SIDES, EA. FACE."""
    for m in _FACES.finditer(text):
        yield Found("sheathing.faces", 1 if m["one"] else 2, m.span())


def bare_faces(text: str) -> Iterator[Found]:
    """Faces in a column of their own, where 1, 2, ONE or BOTH is enough."""
    bare = _BARE_FACES.fullmatch(text.strip())
    if not bare:
        yield from faces(text)
        return
    start = len(text) - len(text.lstrip())
    value = int(bare["n"]) if bare["n"] else 1 if bare["one"] else 2
    yield Found("sheathing.faces", value, (start, start + len(bare.group())))


_BEHIND = re.compile(
    rf"(?<=\w[^;]*)(?<!\w)(?:applied )?(?:over|o/) ?(?:(?:one |1 |\(1\) |a )?layers? (?:of )?)?(?:(?P<size>{_LISTED}){_INCH} ?)?"
    rf"(?:type ['\"]?x['\"]? )?(?:{_GYPSUM})(?: type ['\"]?x['\"]?)?",
    re.I,
)


def gypsum_behind(text: str) -> float | None:
    """Inches of gypsum board that a panel is applied over (PLYWOOD OVER 5/8" GYP. BD.), 0.0 without a size; None for none."""
    m = _BEHIND.search(text)
    return None if m is None else THICKNESSES.get((m["size"] or "").replace(" ", "-"), 0.0)


def _without_behind(text: str) -> str:
    """The text with the board behind the panel masked: it is left over, and no size or material of the panel."""
    return str(_BEHIND.sub(lambda m: MASK * len(m.group()), text))


def panel(text: str) -> list[Found]:
    """All that a sheathing cell says; every size in it has to be a thickness off the list, and one only."""
    text = _without_behind(text)
    found = [*materials(text), *grades(text), *faces(text)]
    names = [f for f in found if f.value != "wood structural panel"]  # that one may hold the second of two sizes
    return found + _one_thickness(_sizes(mask_found(text, names)))


def panel_in_words(text: str) -> list[Found]:
    """What running text says of the panel: only a size beside the name of a panel, or at the very beginning, is its thickness."""
    text = _without_behind(text)
    found = [*materials(text), *grades(text), *faces(text)]
    first = _AT_START.match(text)
    matches = [*_BESIDE_NAME.finditer(text), *([first] if first else [])]
    sizes = {m.span("printed"): thickness(m["size"]) for m in matches}
    return found + _one_thickness([_thickness_found(span, value) for span, value in sorted(sizes.items())])


def _sizes(text: str) -> list[Found]:
    masked = HARMLESS.sub(lambda m: MASK * len(m.group()), text)
    return [_thickness_found(m.span("printed"), thickness(m["size"])) for m in _ANY_SIZE.finditer(masked)]


def _thickness_found(span: Span, value: float | None) -> Found:
    return Found("sheathing.thickness_in", value, span, State.READ if value else State.UNREADABLE)


def _one_thickness(sizes: list[Found]) -> list[Found]:
    if len({(f.value, f.state) for f in sizes}) > 1:
        return [_thickness_found(around(f.span for f in sizes), None)]
    return sizes
