"""The words that head columns, each with the idea it stands for; headings.py puts the ideas together."""

from collections.abc import Iterator
from typing import NamedTuple

import regex as re

from extractor.trade.text import Span

_P = r"(?:plates?|pl\.?)(?![a-z])"  # plate
_WORDS: tuple[tuple[str, str], ...] = (
    # the top and the bottom of the wall, before the words they are made of
    (
        "TOP",
        r"shear transfer(?: connect\w+| clips?)?|(?:double |dbl\.? )?top (?:plates?|pl\.?|connect\w+"
        r"|transfer|of wall)|roof ?/ ?floor to wall|(?:roof|floor) to wall",
    ),
    (
        "TOP",
        r"(?:rim|blkg\.?|blk'g\.?|blocking|block)(?: joist)? (?:to|@|at) (?:top )?(?:pl\.?|plates?"
        r"|wall)(?! ?washer)|rim joist conn\w*\.?|rim conn\w*\.?",
    ),
    (
        "TOP",
        r"(?:(?:(?:roof|floor) )?(?:roof|floor|truss(?:es)?|rafters?|joists?|rim(?: joists?| board)?|blocking|blkg\.?)"
        r"(?: ?(?:or|and|/|&|,) ?)?)+ (?:to|at|@) (?:(?:dbl\.?|double)(?: top)?|top) (?:plates?|pl\.?)",
    ),
    ("TOP", r"top(?= ?:)"),
    ("TOP", r"(?:framing )?(?:clips?|angles?)(?: spacing)?|a-?clips?|drag (?:conn\w*|strut)"),
    ("WASHER", r"(?:plate |pl\.? |bearing |square |bpl\.? ?)?washers?"),
    (
        "NAILED",
        rf"(?:{_P} )?to (?:the )?(?:rim|floor|flr\.?|framing|joists?|jsts?\.?|wood|blocking|blkg\.?)"
        r"(?: below| board| joists?| jsts?\.?)?",
    ),
    (
        "HOLD",
        r"hold{1,2}(?: ?- ?| )?(?:downs?|dn\.?s?)|holdowns?|tie(?: ?- ?| )?downs?|h\.? ?d\.?(?![a-z])'?s?(?![a-z])"
        r"|tension ties?"
        r"|anchors? at (?:the )?(?:wall |each )?ends?(?: of walls?)?|ties?|uplift (?:anchors?|devices?|hardware)"
        r"|over-?turning(?: anchors?)?|end(?: post)? anch(?:or(?:age|s)?|\.)",
    ),
    # bolts and anchors
    (
        "EMBED",
        r"(?:min\.? |minimum )?(?:embedm?(?:ent|\.)?|embed(?:ded)?\.?|embed'?t\.?|emb\.)(?: depth)?(?: into conc(?:rete|\.)?)?"
        r"|(?:depth )?(?:in|into) (?:conc(?:rete|\.)?|footings?|ftg\.?)|set depth",
    ),
    (
        "BOLT",
        r"anchor ?bolts?|a\.? ?b\.?(?:'?s)?(?![a-z/])|anch\.? bolts?|(?:mud ?sill|sill|foundation"
        r"|fnd\.?|fdn\.?|found\.|plate|sill plate) bolts?|(?:sill|sill plate) bolting|bolts?|bolting",
    ),
    ("SILLANCHOR", r"sill (?:plate )?(?:anchor(?:age|s)?|anch\.?)|mud ?sill (?:anchor(?:age|s)?|anch\.?)"),
    (
        "CONC",
        r"(?:to |at |@ |on |in )?(?:concrete|conc\.?|foundation|fnd\.?|fdn\.?|ftg\.?|footing|slab|stem ?wall|podium(?: slab)?)",
    ),
    ("ANCHOR", r"(?:screw|strap)[- ]anchors?|(?:base )?anchor(?:age|s|ing)?|anch\.?|threaded rods?|rods?"),
    # plates
    ("SILL", rf"(?:p\.?t\.? |fnd\.? |foundation )?(?:mud ?sill|sill)s?(?: {_P})?|f(?:ou)?nd(?:ation)?\.? sill"),
    (
        "BOTTOM",
        rf"(?:bottom|bott?\.?|btm\.?|sole|base) {_P}|b\.? ?p\.?(?![a-z])|(?:sole|base|bottom"
        r"|bot\.?)(?= (?:conn|attach|nail|plate))|rim(?: joist| board)?",
    ),
    ("PLATE", r"plates?|pl\.?(?![a-z])"),
    # framing at edges
    (
        "BLOCK",
        r"block(?:ing|ed|s)?|blkg\.?|blk'?g\.?|blk'?d\.?|unblocked|blkd|horiz(?:ontal|\.)?(?: panel)? (?:joints?|seams?)",
    ),
    ("BOUNDARYMEMBER", r"boundary (?:members?|elements?|studs?|framing)|chords?|end (?:posts?|studs?|members?)|jamb studs?"),
    ("ENDS", r"(?:ea\.?|each|both|wall|at|@)? ?ends?(?: of wall)?"),
    ("STUD", r"studs?|framing|frmg\.?|members?|mbrs?\.?|posts?"),
    ("STUDSPACING", r"stud spac\w+|studs? (?:@|o\.?c\.?).*"),
    (
        "JOINT",
        r"(?:adjoining|abutting|adjacent|adj\.?|abut'?g\.?)(?: panels?| sheathing)*(?: edges?"
        r"| joints?)?|panel joints?|joints?|seams?|splices?",
    ),
    # nailing
    (
        "EDGE",
        r"(?:panel |pnl\.? |sheathing |plywood |ply\.? |perimeter |perim\.? )?(?:edges?|edg\.)(?! dist)"
        r"|p\.? ?e\.? ?n\.?(?![a-z])|e\.? ?n\.?(?![a-z.])|perimeter",
    ),
    ("BOUNDARY", r"boundar(?:y|ies)|bndry\.?|bdry\.?|b\.? ?n\.?(?![a-z.])"),
    (
        "FIELD",
        r"(?:at |@ )?(?:all )?other (?:studs?|framing|members|supports)|(?:with)?in (?:the )?panels?|interior of panels?"
        r"|(?:in )?(?:the )?field|fld\.?|f\.? ?n\.?(?![a-z.])|intermediate|interm(?:ed)?\.?|int\.?(?= (?:nail"
        r"|stud|fram|member|supp|spac|fast))|interior(?= nail)",
    ),
    ("FASTEN", r"nails?|nailing|nail'?g\.?|nl'?g\.?|fasteners?|fastening|fast\.?|fstnrs?\.?|staples?|stapling|screws?"),
    ("ATTACH", r"attach(?:ment|\.)?|connect(?:ion|or)s?|conn\.?|connx'?n?\.?"),
    # the panel
    (
        "SHEATH",
        r"sheath(?:ing|ed|'g|g)?\.?|shtg\.?|sht'g\.?|shthg\.?|shtng\.?|sh'?t'?g\.?|wsp"
        r"|wood structural panels?|plywood|plywd\.?|plyw'?d\.?|ply\.?(?![a-z])|o\.?s\.?b\.?(?![a-z])|siding|skins?",
    ),
    ("SHEATH", r"gyp(?:sum|\.)?(?: (?:bd\.?|board|wallboard))?|gwb|wallboard|board|bd\.|facing|diaphragm material"),
    ("GRADE", r"grades?|thick(?:ness|\.)?|thk\.?|span rating|ratings?|rated"),
    ("MATERIAL", r"materials?|mat'?l\.?"),
    ("PANEL", r"panels?|pnls?\.?"),
    ("FACES", r"(?:no\.? of |number of |# of |# )?(?:sides?|faces?)|sided|one|both|two|each|ea\.|single|double|dbl\.?"),
    # strength
    (
        "CAPACITY",
        r"capacit(?:y|ies)|cap\.?(?![a-z])|allow(?:able|\.)?(?: (?:unit|design))?(?: shear| load"
        r"| tension| uplift)?(?: (?:value|capacity|strength))?s?|unit shears?",
    ),
    (
        "CAPACITY",
        r"(?:phi|φ|ϕ|Ø) ?v_?n?(?![a-z])|v_?n(?![a-z])",
    ),
    (
        "CAPACITY",
        r"shear (?:capacity|value|strength|load|resistance|flow)|v ?allow\.?|v ?\(?(?:asd"
        r"|all)?\)?(?= ?[,(=]|$)|v(?= (?:seis|wind|eq|asd|lrfd|plf))|v[sw](?![a-z])|strength|demand|resistance|design shear",
    ),
    (
        "LOADS",
        r"(?:(?:lbs?\.?|pounds?|#|k(?:ips?)?) ?(?:/|per) ?(?:lin(?:eal|ear)?\.? )?(?:ft\.?|foot|feet|'|lf))|plf|klf|p\.l\.f\.?",
    ),
    ("UPLIFT", r"uplift|tension|t(?= ?[(=]|$)|load"),
    ("SEISMIC", r"seis(?:mic|\.)?|eq\.?(?![a-z])|earthquake"),
    ("WIND", r"wind"),
    (
        "METHOD",
        r"asd|lrfd|allow(?:able|\.) stress(?: design)?|strength design"
        r"|nominal(?= (?:shear|unit|cap|strength|plf))|nominal(?= ?$)",
    ),
    ("SHEARWALL", r"(?:shear|5hear)[ -]?(?:walls?|panels?)(?: (?:schedule|sched\.?))?|s\.? ?w\.?(?![a-z])"),
    ("SHEAR", r"shear"),
    # the row's name, and the rest
    (
        "MODEL",
        r"(?:models?|devices?|products?|hardware|hdwr\.?|part)(?: no\.?| number)|models?|devices?|products?|hardware|hdwr\.?",
    ),
    (
        "MARK",
        r"marks?|mk\.?(?![a-z])|symbols?|sym\.?(?![a-z])|keys?|tags?|designations?|desig\.?|call-?outs?"
        r"|labels?|i\.?d\.?(?![a-z])|no\.?(?![a-z])|number|#(?! ?/)",
    ),
    ("TYPE", r"types?|typ(?= ?$)"),
    (
        "REMARK",
        r"(?:bearing|stands|supported) on|see notes?|remarks?|comments?|(?:foot)?notes?|details?|det\.?(?: ref\.?)?"
        r"|dtls?\.?(?: ref\.?)?|references?|ref\.?|descriptions?|conditions?|cond\.?|locations?|uses?",
    ),
    (
        "MEASURE",
        r"heights?|widths?|wall lengths?|aspect ratio|h ?/ ?[bwl]|qty\.?|quantity|species|weight"
        r"|g ?a(?= ?[,(]|$)|stiffness|ftg\.? width|line|grid|level|floor",
    ),
    ("LENGTH", r"length|lg\.?(?![a-z])"),
    ("DIAMETER", r"dia(?:m(?:eter)?)?\.?(?![a-z])|Ø"),
    ("SPACING", r"spac(?:ing|e|'?g)?\.?s?|spcg\.?|o\.? ?/? ?c\.?(?![a-z])|on[- ]cent(?:er|re)s?|@ ?o\.?c\.?"),
    ("SIZE", r"sizes?"),
    ("WALL", r"walls?"),
    (
        "WOOD",
        r"at (?:the )?(?:floors|flrs\.?)|(?:(?:wood|framed) )+(?:floors?|flrs?\.?)(?: framing)?|wood"
        r"|(?:upper|second|2nd|third|3rd) (?:floors?|flrs?\.?|stor(?:e?y|ies)|levels?|lvl\.?)",
    ),
)
_FILL = (
    r"min(?:imum|\.)?(?![a-z])|max(?:imum|\.)?(?![a-z])|req(?:uired|'?d|\.)?(?![a-z])|nominal"
    r"|nom\.?(?![a-z])|typ(?:ical|\.)?(?![a-z])|at|@|and|or|of|the|for|in|to|w/|with|from"
    r"|per|on|as|see|table|all|each|ea\.?|u\.?n\.?o\.?(?![a-z])|unless (?:noted|shown|specified) otherwise|(?:common"
    r"|galvanized|galv\.?|box|cooler|sinker|com\.)(?![a-z])|\(?y/?n\)?|pattern"
    r"|design|values?|method|shear|into|common|rows?|stag\w*\.?|where|occurs?|panels? abut|supports?"
    r"|supported|structural|struct\.?|i(?![a-z])|info\w*|data|base|unit"
    r"|\(?(?:in|ft|lbs?|pounds|kips?|inch(?:es)?|feet|k)\b(?!\.? ?(?:/|per\b))\.?\)?|yes|no|side|edition|sdpws|ibc|cbc"
    r"|total|pack|group|covered|sheathed|trtd\.?|treated|tr\.(?= )"
    r"|above|below|upper|lower|\d+% ?|increase|direction|applied|fin(?:ish)?\.?|wide|exterior|interior|ext\.?|int\.?"
)
_TOKEN = re.compile(
    "|".join(
        [
            *(rf"(?P<{name}{i}>(?<![a-z]){pattern})(?![a-z])" for i, (name, pattern) in enumerate(_WORDS)),
            rf"(?P<FILL>(?<![a-z])(?:{_FILL}))(?![a-z])",
        ]
    ),
    re.I,
)
_NUMBERS = re.compile(r"[\d./\"'()\[\]{},:;&+*=|-]+|Ø|\bd\b|x\b", re.I)


class Idea(NamedTuple):
    """One idea a heading's words stand for, and where."""

    name: str
    span: Span


def ideas(text: str) -> tuple[tuple[Idea, ...], tuple[str, ...]]:
    """The ideas in a heading in reading order, and the words that stand for none that is known here."""
    found: list[Idea] = []
    unknown: list[str] = []
    at = 0
    for m in _TOKEN.finditer(text):
        unknown += _rest(text[at : m.start()])
        at = m.end()
        if m.lastgroup and m.lastgroup != "FILL":
            found.append(Idea(m.lastgroup.rstrip("0123456789"), m.span()))
    return tuple(found), (*unknown, *_rest(text[at:]))


def _rest(text: str) -> Iterator[str]:
    """Words in the text between two ideas, signs and numbers left out."""
    yield from (word for word in _NUMBERS.sub(" ", text).split() if word)
