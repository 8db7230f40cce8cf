"""What a heading states once for all its cells: panel, faces, nail, bolt, load and method, unit."""

from collections.abc import Iterator

import regex as re

from extractor.record import State
from extractor.trade.anchors import kinds, washers
from extractor.trade.inches import inches
from extractor.trade.nailwords import nail_words
from extractor.trade.text import Found

_BOTH_PANELS = r"(?:plywood|plywd\.?|ply\.?) ?(?:or|/) ?osb|osb ?(?:or|/) ?(?:plywood|plywd\.?|ply\.?)"
MATERIALS = (
    ("wood structural panel", rf"wsp|wood structural panels?|{_BOTH_PANELS}"),
    ("plywood", r"plywood|plywd\.?|plyw'd\.?|(?<=\d/\d{1,2}(?: ?\"| in\.?)? )ply\b\.?"),
    ("osb", r"o\.?s\.?b(?:\.|(?![a-z.]))|oriented strand ?board"),
    ("gypsum", r"gyp(?:sum|\.)?(?: (?:bd\.?|board|wallboard|sheathing))?|gwb"),
    ("fiberboard", r"fiber ?board"),
)
_MATERIAL = re.compile("|".join(rf"(?P<m{i}>(?<![a-z])(?:{pattern})(?![a-z]))" for i, (_, pattern) in enumerate(MATERIALS)), re.I)
_GRADE = re.compile(
    r"(?P<structural>(?<![a-z])(?:structural|struct\.?|str\.?)[ -]?(?:I|1)(?![a-z0-9]))|(?P<rated>rated (?:sheathing|shtg\.?))",
    re.I,
)
FACES = re.compile(
    r"\b(?:(?P<one>one|single|1|\(1\))[- ]?(?:side|face)d?|(?P<two>both|two|each|ea\.?|double|2"
    r"|\(2\)) ?-?(?:side|face)s?d?)\b(?! or)|\((?P<one>1)\) (?:side|face)|\((?P<two>2)\) (?:side|face)s",
    re.I,
)
THICKNESS = re.compile(
    r"(?<![\d/.'-])(?<!\d )(?P<inches>1/4|5/16|3/8|7/16|15/32|1/2|19/32|5/8|23/32|3/4"
    r"|1-1/8)(?![\d/])(?: ?\"|-? ?inch\b| ?in\b\.?)?",
    re.I,
)
BOLT = (
    r"(?:anchor ?bolts?|a\.? ?b\.?(?:'?s)?(?![a-z])|(?:mud ?sill|sill(?: plate)?|foundation|fnd\.?"
    r"|plate) bolt(?:s|ing)?|bolts?(?![a-z]))"
)
_BOLT = re.compile(rf"(?<![a-z]){BOLT}", re.I)
BOLT_SIZE = re.compile(
    r"(?<![\d/.'-])(?P<inches>3/8|1/2|5/8|3/4|7/8|1(?:[ -]1/[48])?)(?![\d/])(?: ?\"| ?in\b\.?)? ?(?:Ø"
    rf"|dia(?:meter)?\b\.?)? ?(?:x ?\d{{1,2}}\"? )?(?={BOLT})",
    re.I,
)
_SIZE_AFTER = re.compile(
    rf"(?<={BOLT}[ ,(]{{1,2}})(?P<inches>3/8|1/2|5/8|3/4|7/8)(?![\d/])"
    r"(?: ?(?:\"|in\b\.?)(?: ?Ø| ?dia(?:meter)?\b\.?)?| ?Ø| ?dia(?:meter)?\b\.?)(?: ?x ?\d{1,2}\"(?! ?x)|(?! ?x))",
    re.I,
)
_LOAD = re.compile(r"(?<![a-z])(?:(?P<seismic>seis(?:mic|\.)?|eq\.?|earthquake)|(?P<wind>wind))(?![a-z])(?! design cat)", re.I)
_METHOD = re.compile(  # phi times the nominal strength is the LRFD strength: ANSI/AWC SDPWS-2015 4.3.3
    r"(?<![a-z])(?:(?P<ASD>asd|allow(?:able|\.) stress(?: design)?)|(?P<LRFD>lrfd|strength design|(?:phi|φ|ϕ|Ø) ?v_?n?)"
    r"|(?P<nominal>nominal|v_?n(?<!(?:phi|φ|ϕ|Ø) ?v_?n)))(?![a-z])",
    re.I,
)
_V_SUBSCRIPT = re.compile(r"(?<![a-z])v(?:(?P<seismic>s)|(?P<wind>w))(?![a-z])", re.I)
_UNITS = (
    ("klf", r"klf|k(?:ips?)? ?(?:/|per) ?(?:ft\.?|foot|lf)"),
    ("plf", r"p\.?l\.?f\.?|(?:lbs?\.?|pounds?|#) ?(?:/|per) ?(?:lin\w*\.? )?(?:ft\.?|foot|lf|')"),
    ("kip", r"kips?|(?<=\()k(?=\))"),
    ("lb", r"lbs?\.?|pounds?|(?<=\()#(?=\))"),
    ("in", r"(?<=\()in(?:ch(?:es)?)?\.?(?=[ ),])|inches|in\.?$|(?<=, )in\.?(?=[ )]|$)"),
    ("ft", r"(?<=\()(?:ft\.?|feet)(?=[ ),])|feet|(?<=, )ft\.?$"),
)
_UNIT = tuple((unit, re.compile(rf"(?<![a-z])(?:{pattern})(?![a-z])", re.I)) for unit, pattern in _UNITS)
_STAPLES, _OTHERS = re.compile(r"\bstaples?\b", re.I), re.compile(r"\b(?:nail\w*|screws?|or)\b", re.I)
_CAPACITIES, _LENGTHS = ("plf", "klf", "kip", "lb"), ("in", "ft")
_NAILED = ("nailing", "fastener", "edge", "field", "sheathing_and_nailing")
_SHEATHED = ("sheathing", "sheathing_and_nailing", "faces")


def unit_in(text: str, kind: str) -> str | None:
    """The unit that a heading gives for bare numbers, of those its kind can have; None where it gives none."""
    fitting = _CAPACITIES if kind in ("capacity", "hd_capacity") else _LENGTHS
    return next((unit for unit, pattern in _UNIT if unit in fitting and pattern.search(text)), None)


def facts_in(text: str, kind: str) -> tuple[Found, ...]:
    """What the heading says about each of its cells, with spans in the text."""
    found: list[Found] = []
    if kind in _SHEATHED:
        found += _panel(text)
    if kind in _NAILED:
        nail = nail_words(text) or ()
        found += nail
        said = re.search(r"\bnail(?:s|ing)?\b", text, re.I)
        where = said.span() if said else next((f.span for f in nail if f.field == "fastener.penny"), None)
        if nail and where:
            found.append(Found("fastener.kind", "nail", where))
        elif not nail and (staples := _STAPLES.search(text)) and not _OTHERS.search(text):
            found.append(Found("fastener.kind", "staple", staples.span()))
    elif kind == "bottom_plate":
        found += [f._replace(field="bottom_plate.penny") for f in nail_words(text) or () if f.field == "fastener.penny"]
    if kind in ("anchors", "sill_anchors", "embedment", "washer"):
        found += _bolts(text)
    if kind == "capacity":
        found += _basis(text)
    return tuple(sorted(found, key=lambda f: f.span))


def materials(text: str) -> Iterator[Found]:
    """Panel materials by name."""
    for m in _MATERIAL.finditer(text):
        yield Found("sheathing.material", next(name for i, (name, _) in enumerate(MATERIALS) if m[f"m{i}"]), m.span())


def grades(text: str) -> Iterator[Found]:
    """Panel grades by name."""
    for m in _GRADE.finditer(text):
        yield Found("sheathing.grade", "structural 1" if m["structural"] else "rated sheathing", m.span())


def _panel(text: str) -> list[Found]:
    """Thickness, material, grade and faces, each where the heading says exactly one."""
    found = [Found("sheathing.thickness_in", inches(m["inches"]), m.span()) for m in THICKNESS.finditer(text)]
    found += [*materials(text), *grades(text)]
    found += [Found("sheathing.faces", 1 if m["one"] else 2, m.span()) for m in FACES.finditer(text)]
    return [f for f in found if sum(g.field == f.field for g in found) == 1]


def _bolts(text: str) -> list[Found]:
    """The kind of anchor where the words are a bolt's, one bolt size, and one washer."""
    found = [f for f in kinds(text) if f.state is State.READ][:1]
    found = found or [Found("anchors.kind", "anchor bolt", m.span()) for m in _BOLT.finditer(text)][:1]
    sizes = [Found("anchors.diameter_in", inches(m["inches"]), m.span()) for m in BOLT_SIZE.finditer(text)]
    sizes = sizes or [Found("anchors.diameter_in", inches(m["inches"]), m.span()) for m in _SIZE_AFTER.finditer(text)]
    plates = [f for f in washers(text) if f.state is State.READ]
    return found + (sizes if len(sizes) == 1 else []) + (plates if len(plates) == 1 else [])


def _basis(text: str) -> list[Found]:
    """Load and method; a heading that names both loads gives none."""
    loads = [Found("capacity.load", m.lastgroup, m.span()) for pattern in (_LOAD, _V_SUBSCRIPT) for m in pattern.finditer(text)]
    methods = [Found("capacity.method", m.lastgroup, m.span()) for m in _METHOD.finditer(text)]
    return [
        *(loads if len({f.value for f in loads}) == 1 else [])[:1],
        *(methods if len({f.value for f in methods}) == 1 else [])[:1],
    ]
