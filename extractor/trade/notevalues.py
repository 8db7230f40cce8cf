"""What one clause of a note says, as values with their spans: each function reads one subject and knows no other.

The clause has been found fit to be read (notes.py): it is unconditional and not about a roof, a floor or a hold-down.
A subject that a clause speaks of twice, with two values, is left unread: which one holds is for a person to say.
"""

from collections.abc import Iterator

import regex as re

from extractor.record import State
from extractor.trade.headingfacts import FACES, THICKNESS, grades, materials
from extractor.trade.inches import inches
from extractor.trade.nails import fasteners
from extractor.trade.nailwords import nail_words, pennies
from extractor.trade.noteanchors import WASHERS, anchors
from extractor.trade.noteframing import blocking, framing
from extractor.trade.notelengths import ALL, BE, LENGTH, MARKS, OF_WALLS, ON_CENTER, PANEL, SPACED, has_unit, length_in
from extractor.trade.text import Found, Span


def found_in(clause: str) -> tuple[Found, ...]:
    """Everything the clause says, in reading order, one reading for each field."""
    found = [f for read in _READERS for f in read(clause)]
    once: dict[str, Found] = {}
    for f in sorted(found, key=lambda f: f.span):
        once.setdefault(f.field, f)
    torn = {f.field for f in found if f.value != once[f.field].value}
    return tuple(f for f in once.values() if f.field not in torn)


_NOT = re.compile(r"\b(?:not|no|prohibited|never)\b", re.I)
_NOT_BOX = re.compile(
    r"(?<=\bcommon(?: wire)?(?: nails?)?),? \(?not? (?:box|sinkers?|coolers?)"
    r"(?:,? (?:or|nor) (?:box|sinkers?|coolers?))*(?: nails?)?\)?",
    re.I,
)
_NAILS = re.compile(r"\bnail(?:s|ed|ing)?\b|\bfasteners?\b", re.I)
_PLATE_NAILS = re.compile(
    rf"\b(?:sole|bottom|bot\.|base|sill) (?:plates?|pl\.?)(?! wash){OF_WALLS}?"
    r"(?: (?:to|on|over) (?:the )?(?:rim|floor|wood|sub-?floor|framing|joists?|blocking|blkg)\w*"
    r"(?: (?:below|joists?|boards?|framing|sheathing))*)?"
    rf"(?: nail\w*|:| {BE}| with| w/| attach\w*| fasten\w*)",
    re.I,
)
_NAILED_TO_PLATE = re.compile(
    r"\bto (?:the )?(?:sole|bottom|bot\.|base|sill|mud ?sill|top|double top) ?(?:plates?|pl\.)|\btoe-?\s?nail", re.I
)  # studs or a rim to the plate: not the plate's own nails
_SHEATHED_NAILS = re.compile(
    r"\b(?:sheath\w*|panels?|plywood|osb|edges?|field|e\.n|f\.n|intermediate)\b", re.I
)  # not the studs' or the plates' own
_OTHER_NAILS = re.compile(
    r"\b(?:stitch\w*|toe-?\s?nail\w*|nail(?:ed)? together|end[- ]?nail\w*|face[- ]?nail\w*|(?:top|sole"
    r"|bottom|base|sill) (?:plates?|pl\.)|rim|blocking to|multiple|built-?up|laminat\w+)\b",
    re.I,
)


def nails(clause: str) -> Iterator[Found]:
    """The nail: penny size, style, diameter, length; those of a bottom plate go there. Alternatives are left unread."""
    clause = _NOT_BOX.sub(lambda m: " " * len(m[0]), clause)
    if _NOT.search(clause) or _NAILED_TO_PLATE.search(clause):
        return
    words = () if WASHERS.search(clause) else nail_words(clause) or ()
    if _PLATE_NAILS.search(clause):
        yield from (f._replace(field="bottom_plate.penny") for f in words if f.field == "fastener.penny")
        for m in SPACED.finditer(clause):
            if words and (value := length_in(m["length"])) and has_unit(m["length"]):
                yield Found("bottom_plate.spacing_in", value, m.span())
        return
    if _OTHER_NAILS.search(clause) or not words:
        return
    sized = {f.field for f in words} - {"fastener.style"}
    if not (_NAILS.search(clause) or sized) or (
        sized and re.search(rf"@|{ON_CENTER}", clause, re.I) and not _SHEATHED_NAILS.search(clause)
    ):
        return
    yield from words
    named = re.search(r"\bnail(?:s|ed|ing)?\b", clause, re.I)
    penny = next((f.span for f in words if f.field == "fastener.penny"), None)
    if sized and (named or penny):
        yield Found("fastener.kind", "nail", named.span() if named else penny or (0, 0))


def staples(clause: str) -> Iterator[Found]:
    """Staples by gauge and length: STAPLES ARE 16 GAGE, 1-1/2 INCHES LONG; a crown is no length."""
    found = fasteners(clause) if re.search(r"\bstaples?\b", clause, re.I) and not _NOT.search(clause) else []
    wanted = [f for f in found if f.field in ("fastener.kind", "fastener.gauge", "fastener.length_in")]
    if {f.field for f in wanted} >= {"fastener.kind", "fastener.gauge"} and all(f.state is State.READ for f in found):
        yield from wanted if {f.value for f in found if f.field == "fastener.kind"} == {"staple"} else ()


_EDGE_WORDS = (
    rf"(?:(?:all |the |at |of )*{PANEL}edges?(?! dist)(?: (?:nail(?:s|ing)?|fasteners?))?(?: spacing)?"
    r"|perimeter(?: nailing)?|e\.? ?n\.?(?![a-z.]))"
)
_FIELD_WORDS = (
    r"(?:(?:the )?field(?: \((?:intermediate|interm\.?)\))?(?: of (?:the |each |every |all )*(?:shear wall |shear )?panels?)?"
    r"(?: (?:nail(?:s|ing|ed)?|fasteners?))?(?: spacing)?|f\.? ?n\.?(?![a-z.])"
    r"|(?:all |the )?other (?:studs?|framing(?: members?)?|supports?|members)"
    r"|(?:all |the )?intermediate (?:\(field\) )?(?:nailing|nails|(?:nail )?spacing|framing(?: members?)?|members?|supports?"
    r"|studs?|bearings?|fasteners?)(?: nail(?:s|ing)?)?(?: spacing)?|interm\.?(?: \w+)?)"
)
_AT_WALLS = (
    rf"(?:\b(?:of|in|at|for|on) )?(?:\b{ALL} |\bthe )*"
    rf"\b(?:(?:plywood |wood |osb |wsp )?shear[ -]?(?:wall|panel)s?"
    rf"(?: (?:panels?|sheathing|plywood))?|sheathing|(?:wall )?types?(?: {MARKS})?)(?!\w)"
    r"|(?<=\b(?:at|for|in) )(?-i:[A-Z]{1,4}-?\d{1,2}[A-Z]?)(?![\w\"/])"
)
_LINK = (
    rf"(?:[ :=]|@|\bat\b|\bto\b|{BE}|\bspaced\b|\bnail(?:s|ed|ing)?\b|\bframing\b|\b(?:of )?(?:all "
    rf"|each )?panels\b|\bmax(?:imum|\.)?|\bw/|\bwith\b|(?<![\d-])\d{{1,2}}d\b(?: common)?|{_AT_WALLS}"
    r"|\((?:e\.? ?n\.?|f\.? ?n\.?|p\.? ?e\.? ?n\.?|typ\.?|o\.?c\.?|max\.?)\))*+"
)
_NAIL_PLACES = re.compile(
    rf"(?P<value1>{LENGTH}){ON_CENTER}?(?: ?max(?:imum|\.)?(?![a-z]))?(?: nail(?:s|ing))?(?:[ ,(]|\b(?:at|in|on|along|to|@"
    rf"|spacing)\b)*+(?:the )?(?:(?P<edge1>{_EDGE_WORDS})|(?P<field1>{_FIELD_WORDS}))"
    rf"|(?:(?P<edge2>\b{_EDGE_WORDS})"
    rf"|(?P<field2>\b{_FIELD_WORDS})){_LINK} ?(?P<value2>{LENGTH.replace('length', 'length2')}){ON_CENTER}?",
    re.I,
)
_EDGE_RANGE, _FIELD_RANGE = (1.5, 12.0), (2.0, 24.0)
_STAGGER = re.compile(
    rf"\bstagger(?:ed)? (?:the |all )*(?:{PANEL}edge )?(?:nails|nailing)\b"
    rf"|\b(?:nails|nailing)(?: (?:at|along|on|in) (?:{ALL} |the )*{PANEL}(?:edges|joints))?{OF_WALLS}? {BE} staggered"
    r"|\b(?:edge nail(?:s|ing)|e\.n\.)(?:,| at| @)? ?[\d\"/ -]{1,8}(?:o\.?c\.?)?,? staggered"
    r"|\bedge nail(?:s|ing) staggered",
    re.I,
)
_STAGGER_SOME = re.compile(
    r"\b(?:not?|n't|never)\b|[234] ?x\b(?! (?:\w+ ){0,3}(?:and|&))|\b(?:rows?|studs?|splices?|joists?|posts?)\b", re.I
)


_OF_WIDE = re.compile(r"(?<![\w/])[234] ?x(?: ?\d{1,2})?\b[^,;:]*$", re.I)  # 3x AT EDGES NAILED AT 2": not all edges


def spacings(clause: str) -> Iterator[Found]:
    """Nail spacing at panel edges and in the field, where the clause says which is which."""
    if _PLATE_NAILS.search(clause) or _OTHER_NAILS.search(clause):
        return
    staggers = re.search(r"\bstagger\b", clause, re.I)
    for m in _NAIL_PLACES.finditer(clause):
        written = m["value1"] or m["value2"]
        value, is_edge = length_in(written), bool(m["edge1"] or m["edge2"])
        low, high = _EDGE_RANGE if is_edge else _FIELD_RANGE
        if _OF_WIDE.search(clause[: m.start()]) or (staggers and staggers.end() <= m.end()):
            continue
        if value and low <= value <= high and (has_unit(written) or re.search(ON_CENTER, m[0], re.I)):
            yield Found("edge.spacing_in" if is_edge else "field.spacing_in", value, m.span())
    if (m := _STAGGER.search(clause)) and not _STAGGER_SOME.search(clause) and not _STAGGER_AT.match(clause, m.end()):
        yield Found("edge.staggered", True, m.span())


_STAGGER_AT = re.compile(r"[^.;,]*(?:\d ?\"|\d ?in\b|\bspac)", re.I)  # STAGGER NAILS AT 2" SPACING: not all of them
_SHEATHED = re.compile(r"\b(?:sheath(?:ed|ing|e)?|panels?|plywood|plywd|osb|wsp|shtg)\b", re.I)
_SHEATHED_ON = re.compile(
    r"\b(?:sheath(?:ed|e|ing)?|plywood|plywd\.?|osb|wsp|(?:panels?|sheathing) and nail(?:s|ing)) "
    r"(?:(?:is|are|goes|shall be|to be) )?"
    r"(?:(?:applied|placed|installed) )?(?:on |at |to )?(?:the )?"
    r"(?:one|both|1|2|each|two) (?:sides?|faces?)",
    re.I,
)
_OF_ELSE = re.compile(
    r" of (?!(?:the |each |every |all |such |these |those )*(?:shear |stud )?(?:walls?|panels?|studs?|framing|types?)\b)", re.I
)
_NOT_FACES = re.compile(r"\b(?:offset|joints?|stagger\w*|nails?|nailing|edges)\b", re.I)
_SHEATHING = re.compile(r"\b(?:sheath(?:ing|ed)?|shtg\.?|shear (?:walls|panels)|panels|plywood|osb)\b", re.I)
_PLAIN_PANEL = (
    r"(?:[ ,]|thick|rated|apa|cdx|cd|c-d|ext(?:erior|\.)?|grade|nom(?:inal|\.)?|min(?:imum|\.)?"
    r"|struct(?:ural|\.)?|str\.?|i|1|sheathing|shtg\.?|exposure 1|\d-ply)*+"
)


def panel(clause: str) -> Iterator[Found]:
    """Sheathing: faces, thickness with its material, grade."""
    told = FACES.fullmatch(clause.strip(" .;")) or _SHEATHED_ON.search(clause)
    if (told or _SHEATHED.search(clause)) and not _NOT.search(clause):
        for m in FACES.finditer(clause):
            part = clause[clause.rfind(",", 0, m.start()) + 1 : m.end()] + clause[m.end() :].partition(",")[0]
            if not _OF_ELSE.match(clause, m.end()) and (told or not _NOT_FACES.search(part)):
                yield Found("sheathing.faces", 1 if m["one"] else 2, m.span())
    if not _SHEATHING.search(clause) or re.search(r"(?i)\b(?:gap|gaps|washers?|bolts?|distance|penetrat)", clause):
        return
    kinds = list(materials(clause))
    thick = [
        m
        for m in THICKNESS.finditer(clause)
        if re.match(
            rf"{_PLAIN_PANEL}(?:plywood|plywd|osb|wsp|wood structural|rated|sheath|shtg|gyp|gwb)", clause[m.end() :], re.I
        )
    ]
    thick += [
        m
        for m in THICKNESS.finditer(clause)
        if re.search(rf"(?i)\b(?:sheathing|panels)[ :=]*{BE}? ?(?:min\.? )?$", clause[: m.start()])
    ]
    if (
        not thick
        and len(all_thick := list(THICKNESS.finditer(clause))) == 1
        and re.search(rf"(?i)\b(?:sheathing|panels) {BE}", clause)
        and not _NAILS.search(clause)
    ):
        thick = all_thick
    yield from (Found("sheathing.thickness_in", inches(m["inches"]), m.span()) for m in thick)
    if thick or re.search(rf"(?i)\b(?:sheathing|panels?|plywood)(?: at [a-z ]+?| of [a-z ]+?)? ?(?:{BE}|:)", clause):
        yield from kinds
        yield from grades(clause)


_STRENGTH = re.compile(r"\b(?:values?|capacit(?:y|ies)|shears?(?! ?(?:wall|panel))|strengths?|plf|tabulated|allowables?)\b", re.I)
_METHOD = re.compile(
    r"(?P<ASD>\basd\b|\b(?:allowable|working) stress(?: design)?)|(?P<LRFD>\blrfd\b|\bstrength design)"
    r"|(?P<nominal>\bnominal\b(?! (?:thick|width|dim|lumber|size|2x|3x)))",
    re.I,
)
_LOAD = re.compile(
    r"\b(?:(?P<seismic>seismic|earthquake)|(?P<wind>wind))\b(?! ?(?:design cat|speed|category|forces?[- ]resist|zone))", re.I
)
_BASIS_ONLY = re.compile(
    r"[\W\d]*(?:(?:asd|lrfd|allowable stress design|allowable stress|strength design|seismic|wind|level"
    r"|design|values?|loads?|are|for|basis|in|plf|shown|base|both|all)[\W]*)+",
    re.I,
)


_IN_ORDER = re.compile(
    r"(?<!\w)(?:first|upper|top|left)\b[^.;]{0,60}?\b(?P<one>seismic|wind)\b[^.;]{0,30}?\b(?:second|lower|bottom|right)\b"
    r"[^.;]{0,40}?\b(?P<two>seismic|wind)\b",
    re.I,
)


def loads_in_order(clause: str) -> Iterator[Found]:
    """The loads of two capacities in one cell, where a note says which stands first: field ``capacity.loads``, a pair."""
    m = _IN_ORDER.search(clause)
    if m and m["one"].lower() != m["two"].lower() and _STRENGTH.search(clause):
        yield Found("capacity.loads", (m["one"].lower(), m["two"].lower()), m.span())


def basis(clause: str) -> Iterator[Found]:
    """Load and method that capacities are stated for; both loads together give none."""
    if not (_STRENGTH.search(clause) or _BASIS_ONLY.fullmatch(clause)) or re.search(
        r"(?i)base shear|soil|bearing|\bpsf\b|snow|live|dead|increase|multipl|\bnot\b|\bmph\b|\basce\b|combination"
        r"|parenthes|bracket|column|italic|bold|bolts?\b|anchors?\b|nails?\b|screw|\brods?\b|tension|uplift|first|second",
        clause,
    ):
        return
    loads = {m.lastgroup for m in _LOAD.finditer(clause)}
    if len(loads) == 1:
        yield from (Found("capacity.load", m.lastgroup, m.span()) for m in _LOAD.finditer(clause))
    yield from (Found("capacity.method", m.lastgroup, m.span()) for m in _METHOD.finditer(clause))


def penny_subject(clause: str) -> tuple[str, Span] | None:
    """The penny size that a clause makes a rule for: 10d NAILS ARE COMMON; 8d = 0.131 x 2-1/2. None where it gives one."""
    if re.search(r"(?i)@|\bo\.?c\b|\bedges?\b|\bfield\b|\buse\b|\bprovide\b", clause) and not re.search(
        r"(?i)shall be|\bare\b|=", clause
    ):
        return None
    for value, span in pennies(clause):
        before, after = clause[: span[0]], clause[span[1] :]
        named = r"(?: com(?:mon|\.)?| box| sinker)?(?:(?: shear walls?| wall| panel| sheathing){0,2} nails?)?"
        if re.match(rf"(?i){named} ?(?:{BE}|=|:|means)(?![a-z])", after):
            return value, span
        if re.fullmatch(r"(?i)\W*(?:all )?", before) and re.match(r"(?i)[a-z .]*[(\d.]", after) and re.search(r"\.\d\d\d", after):
            return value, span
    return None


_READERS = (blocking, anchors, nails, staples, spacings, panel, framing, basis, loads_in_order)
