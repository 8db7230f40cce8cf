"""Sill anchorage to concrete: kind, diameter, spacing, embedment, plate washer."""

from collections.abc import Iterator
from fractions import Fraction

import regex as re

from extractor.record import State
from extractor.trade.inches import ALONE, MARK, NUMBER, TAPE, inches
from extractor.trade.nails import PENNY
from extractor.trade.spacing import AT, LIMIT, OC
from extractor.trade.spans import MASK, mask, mask_found, only, parts, trimmed
from extractor.trade.text import Found, Span

DIAMETERS = {
    name: float(sum(Fraction(part) for part in name.split("-")))
    for name in ("1/4", "5/16", "3/8", "1/2", "5/8", "3/4", "7/8", "1", "1-1/8", "1-1/4", "1-3/8", "1-1/2", "1-3/4", "2")
}  # bolts and rods as sold; anything else is a question. Source: common practice, no source.
_CLOSEST_BARE_IN = 8.0  # a bare 4 may be feet or inches
_CLOSEST_IN, _WIDEST_IN = 3.0, 144.0
_SHALLOWEST_IN, _DEEPEST_IN = 1.5, 96.0

_ROUND = r"(?:Ø|dia(?:m(?:eter)?)?(?!\w)\.?)"
_FROM = r"(?<![\w/.'#-])(?<!\d )"
_SIZE = rf"(?P<d>(?:1[ -])?{TAPE}|[12](?![\d/.'])(?! \d)(?!-\d))"
_BOLT_WORD = (
    r"(?:a\.? ?b\.?'?s?(?!\w)|anch(?:or|\.)? ?bolts?|bolts?|anchors?|(?:all[- ]?)?thread(?:ed)?"
    r"|rods?|epox|screw anch|sill bolt|mud ?sill|j-?bolts?|a\.?t\.?r)"
)
_LONG = rf"(?: ?x ?{NUMBER}{MARK}?(?: ?(?:long|lg\.?)(?!\w))?(?! ?x))"
_DIAMETER = re.compile(
    (
        rf"(?:{_ROUND} ?)?{_FROM}{_SIZE}(?:{MARK}? ?{_ROUND}|{MARK}(?= ?{_BOLT_WORD})"
        rf"|(?=[ -]{_BOLT_WORD})|{MARK}?(?={_LONG}? ?(?:{_BOLT_WORD}|@|at |,|$|\())|{MARK}(?=$"
        rf"|[\s,;)]))"
    ),
    re.I,
)
_ODD_DIAMETER = re.compile(
    (
        rf"(?:{_ROUND} ?)?(?<![\w/.'-])(?:\d{{1,2}}[ -])?(?=\w{{0,2}}\d"
        rf"|\w{{1,3}}/\w{{0,2}}\d)\w{{1,3}}/\w{{1,3}}{MARK}?(?: ?{_ROUND}|(?= ?{_BOLT_WORD})|(?= ?@))"
        rf"|(?<!\w)[^\s\d@(]{{1,2}} ?\" ?(?={_ROUND}|{_BOLT_WORD})"
    ),
    re.I,
)

_FEET = (
    rf"(?P<feet>\d{{1,2}}) ?(?:'|(?:ft\.?|feet|foot)(?!\w))(?: ?-? ?(?P<rest>(?:\d{{1,2}}[ -])?{TAPE}|\d{{1,2}}) ?\"?)?(?![\d/])"
)
_LENGTH = rf"(?:{_FROM}{_FEET}|(?P<n>{ALONE})(?P<mark>{MARK})?)"
_SPACING = re.compile(
    rf"(?P<at>{AT} ?){_LENGTH}(?! ?x ?\d)(?: ?{LIMIT})?(?: ?{OC})?(?: ?{LIMIT})?|{_LENGTH}(?: ?{LIMIT})? ?{OC}(?: ?{LIMIT})?",
    re.I,
)
_RANGE = re.compile(rf"(?:{AT} ?)?{ALONE}{MARK}? ?(?:to|-) ?\d{{1,3}}{MARK}?(?: ?{OC})?", re.I)
_LONE_SPACING = re.compile(rf"\s*(?:{_LENGTH})(?: ?{LIMIT})?\s*", re.I)

_EPOXY = r"(?:epox(?:y|ied)(?:[- ]set|[- ]grouted)?|adhesive)"
_ROD = r"(?:(?:all[- ]?thread(?:ed)?|thread(?:ed)?|a\.?t\.?r\.?)(?: ?(?:rods?|bolts?|anchors?))?|rods?)"
_KINDS = re.compile(
    rf"(?P<unclear>(?<!\w){_EPOXY} (?:a\.? ?b\.?'?s?(?!\w)|anchor bolts?))"
    rf"|(?P<rod>(?<!\w)(?:{_EPOXY} (?:anchor )?{_ROD}|{_ROD}(?: \w+)? ?(?:w/ ?|with |in "
    rf"|set in )?{_EPOXY}|{_EPOXY} anchors?))(?!\w)"
    r"|(?P<screw>(?<!\w)(?:screw[- ]?anchors?|anchor screws?|screw[- ]type anchors?|concrete screws?))(?!\w)"
    r"|(?P<strap>(?<!\w)(?:strap[- ]?anchors?|anchor straps?))(?!\w)"
    r"|(?P<bolt>(?<![\w.])(?:a\. ?b\.(?:'?s)?|a ?b'?s?|a\.b|anch(?:or|\.)?[- ]?bolt(?:s|ing)?"
    r"|(?:(?:mud ?)?sill|foundation|fdn\.?|found\.)(?: ?(?:plate|pl\.))? ?bolt(?:s|ing)?))(?!\w)",
    re.I,
)
_KIND_NAMES = {"rod": "epoxy rod", "screw": "screw anchor", "strap": "strap anchor", "bolt": "anchor bolt"}

_EMBED = r"(?:embed(?:ment|ded|\.)?|emb\.|embd\.?)"
_WITH = rf"(?:w/ ?|with )?(?:{LIMIT} )?"
_CONCRETE = r"(?:(?:into|in) (?:the )?conc(?:rete|\.)?)"
_DEPTH = rf"(?P<n>{ALONE})(?:{MARK})?(?: ?{LIMIT})?"
_EMBEDMENT = re.compile(
    rf"(?:{_WITH}{_DEPTH} ?(?:{_EMBED}(?!\w)(?: ?{LIMIT})?(?: {_CONCRETE})?|{_CONCRETE})"
    rf"|{_WITH}{_EMBED}(?: depth)?[ :=]*(?:{LIMIT} )?(?:of )?{_DEPTH}(?! ?(?:x|{OC})))(?!\w)",
    re.I,
)
_LONE_EMBEDMENT = re.compile(rf"\s*(?:{LIMIT} )?(?:{_FEET}|(?P<n>{ALONE}){MARK}?)(?: ?{LIMIT})?\s*", re.I)

_PIECE = rf"(?:(?:\d{{1,2}}[ -])?{TAPE}|\d*\.\d+|\d{{1,2}})"
_INCH = rf"(?:{MARK})?"
_PLATE = r"(?:(?:steel )?(?:pl(?:ate|\.)?|bpl|brg\.? pl\.?|bearing plate|square|sq\.?) ?(?:washers?)?|washers?)(?!\w)\.?"
_SQUARE = r"(?:sq(?:uare)?\.?)"
_THICK = r"(?: ?(?:thick|thk\.?)(?!\w))?"
_WASHER = re.compile(
    rf"(?:(?<!\w)(?:w/ ?|with )?{_PLATE} ?)?(?<![\w/.'-])(?:"
    rf"(?P<a>{_PIECE}){_INCH} ?x ?(?P<b>{_PIECE}){_INCH} ?x ?(?P<c>{_PIECE})(?![\d/.]){_INCH}{_THICK}"
    rf"|(?P<a>{_PIECE}){_INCH} {_SQUARE}(?: {_PLATE})? ?(?:x|,) ?(?P<c>{_PIECE})(?![\d/.]){_INCH}{_THICK}"
    rf"|(?P<c>{_PIECE}){_INCH} ?x ?(?P<a>{_PIECE}){_INCH} {_SQUARE})(?: ?(?:galv\.? )?{_PLATE})?",
    re.I,
)
_ODD_WASHER = re.compile(
    r"(?<![\w/.'-])[\d./\"-]+ ?x ?[\d./\"-]+(?: ?x ?[\d./\"-]+)?(?= ?(?:\w+ )?(?:pl\.?|plate)? ?washers?)", re.I
)
_NAIL_CLAUSE = re.compile(rf"(?:\(?\d\)?[ -]?)?(?<!\w){PENNY}[^@,;/&]{{0,20}}(?:{AT} ?{NUMBER}{MARK}?(?: ?{OC})?)?", re.I)
_PENNY = re.compile(PENNY, re.I)
_ANCHOR_WORDS = re.compile(
    (
        r"(?<!\w)(?:a\.? ?b\.?'?s?(?!\w)|anchor(?! straps? for)\w*|bolts?(?!\w)|bolting|threaded rod"
        r"|all-?thread|epox\w*|screw anchors?|embed\w*|washers?)"
    ),
    re.I,
)


def kinds(text: str) -> Iterator[Found]:
    """Anchor bolt, screw anchor, strap anchor or epoxy rod, where words say so; a bare ANCHORS says nothing."""
    for m in _KINDS.finditer(text):
        name = next(name for name in ("unclear", *_KIND_NAMES) if m[name])
        value = _KIND_NAMES.get(name)
        yield Found("anchors.kind", value, m.span(), State.READ if value else State.UNREADABLE)


def washers(text: str) -> Iterator[Found]:
    """Plate washers, sides first and thickness last, whichever way they are printed; inches."""
    taken = []
    for m in _WASHER.finditer(text):
        numbers = [inches(m[name]) for name in ("a", "b", "c") if m[name]]
        *sides, thick = sorted(numbers if len(numbers) == 3 else [numbers[0], *numbers], reverse=True)
        fits = thick <= 0.75 and all(1.5 <= side <= 12 for side in sides)
        if fits or re.search(_PLATE, m.group(), re.I):
            taken.append(m.span())
            yield Found(
                "anchors.washer_in", (*sides, thick) if fits else None, m.span(), State.READ if fits else State.UNREADABLE
            )
    for m in _ODD_WASHER.finditer(mask(text, taken)):
        yield Found("anchors.washer_in", None, m.span(), State.UNREADABLE)


def embedments(text: str) -> Iterator[Found]:
    """Embedment in inches: W/ 5" EMBED, EMBED 7", 7" INTO CONCRETE. A bolt's length is not its embedment."""
    for m in _EMBEDMENT.finditer(text):
        yield _embedment(inches(m["n"]), m.span())


def embedment_cell(text: str) -> list[Found]:
    """The embedment out of its own column, where a number is enough."""
    m = _LONE_EMBEDMENT.fullmatch(text)
    if m and m["feet"]:
        return [_embedment(int(m["feet"]) * 12 + (inches(m["rest"]) if m["rest"] else 0.0), trimmed(text, m.span()))]
    return [_embedment(inches(m["n"]), trimmed(text, m.span()))] if m else list(embedments(text))


def _embedment(value: float, span: Span) -> Found:
    fits = _SHALLOWEST_IN <= value <= _DEEPEST_IN
    return Found("anchors.embedment_in", value if fits else None, span, State.READ if fits else State.UNREADABLE)


def diameters(text: str) -> Iterator[Found]:
    """Diameters off the list of bolts as sold, inches; an odd fraction beside the word for a bolt is unreadable."""
    taken = []
    for m in _DIAMETER.finditer(text):
        taken.append(m.span())
        yield Found("anchors.diameter_in", DIAMETERS.get(m["d"].replace(" ", "-")), m.span(), _known(m["d"]))
    for m in _ODD_DIAMETER.finditer(mask(text, taken)):
        yield Found("anchors.diameter_in", None, m.span(), State.UNREADABLE)


def _known(size: str) -> State:
    return State.READ if size.replace(" ", "-") in DIAMETERS else State.UNREADABLE


def spacings(text: str) -> Iterator[Found]:
    """Spacings in inches, feet and inches worked out: 4'-0" is 48. A bare 4 may be feet or inches and is unreadable."""
    ranges = [m.span() for m in _RANGE.finditer(text)]
    yield from (Found("anchors.spacing_in", None, span, State.UNREADABLE) for span in ranges)
    for m in _SPACING.finditer(mask(text, ranges)):
        yield _spacing(m)


def _spacing(m: "re.Match[str]") -> Found:
    if m["feet"]:
        value = int(m["feet"]) * 12 + (inches(m["rest"]) if m["rest"] else 0.0)
        fits = not m["rest"] or inches(m["rest"]) < 12
    else:
        value = inches(m["n"])
        fits = value >= (_CLOSEST_IN if m["mark"] else _CLOSEST_BARE_IN)
    fits = fits and _CLOSEST_IN <= value <= _WIDEST_IN
    return Found("anchors.spacing_in", value if fits else None, m.span(), State.READ if fits else State.UNREADABLE)


def anchors(text: str) -> list[Found]:
    """All that an anchor cell says. Plate nailing that shares the cell is left over, and so is a bolt's length."""
    masked = mask(text, (m.span() for m in _NAIL_CLAUSE.finditer(text)))
    found: list[Found] = []
    for read in (washers, embedments):
        found += read(mask_found(masked, found))
    sized = mask_found(masked, found)
    found += diameters(sized)  # what stands beside a size, a bolt or an @, says that it is one
    for read in (kinds, spacings):
        found += read(mask_found(masked, found))
    if not any(f.field == "anchors.spacing_in" for f in found):
        found += _lone_spacing(mask_found(masked, found))
    return found


def _lone_spacing(text: str) -> list[Found]:
    m = _LONE_SPACING.fullmatch(text.replace(MASK, " "))
    return [_spacing(m)] if m else []


def anchors_in_words(text: str) -> list[Found]:
    """Anchorage out of running text: only the parts that speak of anchors, bolts, rods or washers are read."""
    return [f for part in anchor_parts(text) for f in anchors(only(text, part))]


def anchor_parts(text: str) -> list[Span]:
    """Spans of running text that speak of anchorage; beside a nail in the same breath only from the bolt to its spacing."""
    spans = [part for part in parts(text) if _ANCHOR_WORDS.search(text[slice(*part)])]
    return [_narrowed(text, part) if _PENNY.search(text[slice(*part)]) else part for part in spans]


def _narrowed(text: str, part: Span) -> Span:
    first = next(
        (m for m in _DIAMETER.finditer(text, *part) if re.match(rf"{_LONG}? ?{_BOLT_WORD}", text[m.end() : part[1]], re.I)), None
    )
    if first is None:
        return part[0], part[0]
    last = _SPACING.search(text, first.end(), part[1])
    return first.start(), last.end() if last else part[1]
