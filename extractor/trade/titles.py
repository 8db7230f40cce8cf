"""The words over a block: which table or list of notes it opens, and what they say about its rows.

Only what reads as a title is one. A sentence about a schedule, the name of a detail or of a sheet gives None.
"""

from typing import Literal, NamedTuple

import regex as re

from extractor.trade.letterspacing import close_up
from extractor.trade.marks import is_mark
from extractor.trade.text import Span

Kind = Literal["wall", "hold-down", "nail-legend", "notes", "other"]


class Title(NamedTuple):
    """What a title opens.

    ``sure`` is False for words that stand over a schedule and over notes alike (SHEAR WALLS): what lies below decides.
    ``about`` says whose notes they are. ``mark`` and ``body`` belong to one block or one sentence for each wall type.
    """

    kind: Kind
    sure: bool = True
    scope: str | None = None  # "exterior", "interior", "second floor", "garage" ...
    continued: bool = False
    combined: bool = False  # walls and hold-downs in one table
    load: str | None = None
    method: str | None = None
    faces: int | None = None
    about: Literal["wall", "hold-down"] | None = None
    mark: str | None = None
    mark_span: Span | None = None
    body: Span | None = None  # the rest of the text, which speaks of that type


_SHEAR = r"(?:(?:shear|5hear)[ -]?(?:walls?|panels?)|(?:ftao|perforated) walls?)(?![a-z])"
_UPLIFT = (
    r"(?:(?:uplift|over-?turning) (?:(?:anchor|restraint|hold-?down) )?(?:devices?|anchors?|anchorages?|hardware|restraints?)"
    r"|(?:end[- ]post|wall end|shear wall end|shear panel end) (?:anchors?|anchorages?|hardware)|anchor (?:ties?|devices?)"
    r"|end anchorages?)(?![a-z])"
)
_STRAP = (
    r"(?:(?:floor[- ]to[- ]floor|inter-?(?:storey|story|floor)|floor|storey|story|hold{1,2}[ -]?downs?|holdowns?|tie[ -]?downs?)"
    r" (?:tie )?(?:straps?|ties)(?: ties?)?)(?![a-z])"
)
_PLACE = re.compile(
    r"(?<![a-z])(?:cast[- ]in(?:[- ]place)?|(?:to|at|in) (?:the )?(?:concrete|foundations?|slab)"
    r"|(?:between|at) (?:floors|stor(?:ey|ie)s))(?![a-z])",
    re.I,
)
_HOLD = (
    rf"(?:(?:tension|end) ties?|hold{{1,2}}[ -]?(?:down|dn\.?)s?|holdowns?|tie[ -]?downs?|hdu?s?|h\.d\."
    rf"|{_UPLIFT}|{_STRAP})(?![a-z])"
)
_TABLE = r"(?:schedules?|sched\.?|tables?|keys?|legends?|types?|chart|matrix)(?![a-z])"
_SURE = re.compile(r"\b(?:schedules?|sched\b|tables?|keys?|legends?|types|type schedule|chart|matrix)", re.I)
_ORDINAL = (
    r"(?:(?:first|second|third|fourth|1st|2nd|3rd|4th|upper|lower|main|ground|top|basement|roof|attic"
    r"|garage|loft)(?: and | & |/|, )?)+"
)
_SCOPE = re.compile(
    rf"\b(?P<face>exterior|ext\.|interior|int\.|outside|inside|party|corridor|demising|gable|cripple)(?![a-z])"
    rf"|\b(?P<level>{_ORDINAL} ?(?:floor|flr\.?|level|lvl\.?|story|storey)s?|basement|garage|attic|upper|lower)(?![a-z])"
    rf"|\b(?P<unit>(?:building|bldg\.?|unit|block|level|phase|plan) (?:[A-Z]|\d{{1,2}}))\b",
    re.I,
)
_SAME_SCOPE = {"ext.": "exterior", "int.": "interior", "outside": "exterior", "inside": "interior"}
_SAME_LEVEL = (
    ("1st", "first"),
    ("2nd", "second"),
    ("3rd", "third"),
    ("4th", "fourth"),
    (r"fl(?:oo)?rs?\.?", "floor"),
    (r"lvl\.?", "level"),
)
_CONTINUED = re.compile(r"\(?\bcont(?:inued|'d|d\b|\.)\.?\)?", re.I)
_OTHER_WALLS = re.compile(
    r"\b(?:(?<!\bon )(?<!\bat )(?<!\bto )concrete|conc|cmu|masonry|block walls?|cold[- ]formed|cfs|metal|steel"
    r"|icf|clt|brick|grout\w*|rebar|reinf\w*|braced|portal"
    r"|pre-?fab\w*|factory|pre-?manufactured|proprietary|moment frames?|diaphragms?|retaining)\b",
    re.I,
)
_QUALIFIER = (
    r"wood(?:en)?|steel|plywood|plywd\.?|ply\.?|osb|wsp|wood structural panels?|structural|struct\.?"
    r"|panels?|sheathed|sheathing|gypsum|gyp\.?|gwb|gyp\.? board|board"
    r"|perforated|segmented|ftao|force transfer around openings?|typical|typ\.?|general|new|nailing"
    r"|nail|fastening|construction|anchorage"
    r"|anchors?|bolts?|attachments?|connections?|requirements|information|data|types?|capacit(?:y|ies)"
    r"|asd|lrfd|nominal|seismic|wind|allowable"
    r"|stress|design|plf|strength|lateral|df-?l|douglas fir(?:-larch)?|hem-?fir|spf|framing|framed"
    r"|walls?|on|one|two|both|each|1|2|sides?|faces?"
    r"|sided|single|double|and|&|/|-|or|for|w/|with|of|the|notes?|hardware|devices?|straps?|rods?|posts?"
    r"|details?|systems?|assembl(?:y|ies)|designations?|specifications?|specs?|properties|descriptions?|list|summary|index|marks?|symbols?|uno|u\.n\.o\.?"
    r"|by|letters?|numbers?|unless|noted|otherwise|floors?|flr\.?|levels?|stor(?:y|ey|ies)|all|at|@|only|residence|house|adu"
)
_WORD = re.compile(rf"(?:{_QUALIFIER})(?![a-z])", re.I)
_ASIDE = re.compile(r"\([^()]*\)")
_FOOTNOTE = re.compile(r"(?<=[A-Za-z)])\s?(?:\d(?:, ?\d)*|\*+)$|(?<=\s)\d(?:, ?\d)+$")
_SENTENCE = re.compile(
    r"^(?:see|per|refer|provide|install|use|where|when|if|all|at|in|for|the|notify|verify|coordinate"
    r"|note that|#)\b|^nail (?:to|all|with|each|at|studs?|panels?)\b"
    r"|\b(?:shall|must|per|see|refer|is|are|be|to be|where|should|will|may|before|after|indicates?"
    r"|denotes?|by(?! (?:mark|type|letter|number|symbol)s?$)|into|on(?! (?:one|both|each|two|1|2) (?:faces?|sides?))|for all)\b",
    re.I,
)
_DRAWING = re.compile(
    r"\b(?:plans?|elevations?|details?|diagrams?|sections?|layout|at|@|to|framing plan)$|\bto\b|\bat\b"
    r"|@|\bplan\b|\bdiagram\b|\belevation\b",
    re.I,
)
_SHEET_REFERENCE = re.compile(r"[:,] ?(?:see |sheet )?[A-Z]{1,2}-?\d+(?:\.\d+)?\.?$", re.I)
_METHOD = re.compile(
    r"\b(?:(?P<ASD>asd|allowable stress(?: design)?)|(?P<LRFD>lrfd|strength design)"
    r"|(?P<nominal>nominal (?:shear|capacit\w+|unit)|nominal$))\b",
    re.I,
)
_LOAD = re.compile(r"\b(?P<load>seismic|wind)\b(?! design cat)", re.I)
_FACES = re.compile(r"\b(?P<one>one|1|single)[- ](?:side|face)|\b(?P<two>both|two|2|each|double)[- ](?:side|face)", re.I)

_BLOCK = re.compile(
    r"(?:(?:wood |plywood |exterior |interior )?(?:(?:shear|5hear)[ -]?(?:wall|panel)|wall"
    r"|s\.?w\.?)(?P<type>(?: -)? types?| marks?| no\.?)?|type(?= \S+ shear))"
    r"(?: |: ?| - )(?P<quote>[\"'#(]?)(?P<mark>[A-Za-z]{0,4}-?[A-Za-z]?\d{1,2}[A-Za-z]?\*?|[A-Z]|[A-Z]{2}|[A-Z]-\d)[\"')]?"
    r"(?P<tail> shear[ -]?(?:wall|panel))?(?P<end>$| ?[:.;] ?(?:$|(?=\S))| ?- (?=\S)| ?\()",
    re.I,
)
_MARK_FIRST = re.compile(r"(?P<mark>[A-Z]{1,3}-?\d{1,2}[A-Z]?|[A-Z])(?: ?[:=] ?| - )(?=\S)")
_WALL_WORDS = (
    re.compile(r"\d/\d+|\bplywood|\bplywd|\bosb\b|\bsheath|\bshtg|\bwsp\b|\bgyp", re.I),
    re.compile(r"\d ?d\b|\bnail|\bstaple|\bscrew", re.I),
)

_NAILS = re.compile(
    r"(?:nail|fastener)s?(?: and fastener)? (?:legend|key|types?|sizes?|definitions?|designations?"
    r"|symbols?|chart|table|schedule of sizes)|nails|nail schedule",
    re.I,
)
_NOTES = re.compile(
    rf"(?P<about>{_SHEAR}|{_HOLD})?(?: (?:and|&) {_HOLD})?(?: schedule"
    r"| sched\.?)?(?P<words>(?: ?(?:general|structural|plan|framing|foundation|wood|key|keyed|sheet|"
    r"typical|construction|design|lateral|timber|nailing|carpentry|wall))*) ?(?:foot)?notes?(?: and specifications)?",
    re.I,
)
_SECTION = re.compile(r"^\d{1,2}\.0 (?=[A-Z]{3})")  # 8.0 SHEAR WALLS
_HOLD_ASIDE = re.compile(r"\((?:hold{1,2}[ -]?downs|holdowns|tie[ -]?downs)\)$", re.I)  # ANCHORS AT WALL ENDS (HOLD-DOWNS)
_NUMBERED_NOTE = re.compile(r"(?:see )?notes? ?\d{1,2}(?: ?(?:,|&|and) ?\d{1,2})*", re.I)  # in a column of remarks
_NOTES_ON = re.compile(r"(?:(?:schedule|general) )?(?:foot)?notes? (?:to|for|on|of) [^.:]{3,40}", re.I)
_UNLESS = re.compile(
    rf"{_SHEAR},? (?:u\.?n\.?o\.?|unless (?:otherwise )?(?:noted|shown|specified)(?: otherwise)?)(?: (?:in|on) .{{3,40}})?", re.I
)
_OTHER_NAMES = (
    r"(?:(?:opening|window|door|wood|roof|floor|ceiling|beam|stud|post|column|footing|pad|spread|strip"
    r"|wall|interior|exterior|foundation|steel|timber|glulam|lvl|sawn"
    r"|(?:girder|beam|header|post|footing|joist|column)s? (?:and|&)"
    r"|horizontal|vertical|roof and floor|roof & floor|structural|special|design|general|building|live"
    r"|dead|snow|wind|seismic|concrete|reinforcing|post-installed"
    r"|prefabricated|deferred|glued-laminated|code|project|drawing|sheet|lumber|material|bracing|braced|wood structural)[ -])*"
    r"(?:headers?|beams?|girders?|footings?|pads?|posts?|columns?|studs?|joists?|rafters?|trusses|lintels?"
    r"|piers?|piles?|slabs?|straps?|anchors?|diaphragms?"
    r"|braced walls?|bracing|braced wall (?:panels?|lines?)|loads?|design (?:criteria|loads?)|criteria"
    r"|abbreviations?|symbols?|inspections?|observation|concrete|masonry"
    r"|lumber|timber|steel|foundations?|submittals?|connections?|connectors|hardware|sheathing|decks?"
    r"|finishes|windows|doors|materials?|index|drawings|revisions|general)"
    r"(?: (?:table|list|schedule|index))?"
)
_HEADING_TOO = re.compile(r"sheathing|hardware|anchors|connect\w+|posts|concrete|steel|lumber|timber|general|index|.*[^s]", re.I)
_OTHER = re.compile(rf"{_OTHER_NAMES}|table \d[\w.()]*.*|(?:nominal|allowable) (?:unit )?shear (?:capacit\w+|values?).*", re.I)
_SOME_TABLE = re.compile(r"(?:[A-Z][\w.&/'-]* ?){1,6}\b(?:schedules?|sched\.?|legend|table)(?: .{0,24})?", re.I)
_WALL_TABLE = re.compile(
    r"(?:typical |wood |wood[- ]framed |structural )*(?:wall|lateral(?: wall)?)(?: panel| sheathing"
    r"| nailing| construction| type)* (?:schedule|sched\.?|types)",
    re.I,
)
_LONGEST = 90  # characters; a longer line is running text
_VOCABULARY = (
    "SHEAR WALL WALLS PANEL PANELS SHEARWALL SHEARWALLS SCHEDULE SCHEDULES TYPE TYPES KEY LEGEND HOLD DOWN DOWNS "
    "HOLDOWN HOLDOWNS HOLDDOWN TIE TIES TIEDOWN TIEDOWNS NOTES NOTE GENERAL STRUCTURAL WOOD PLYWOOD EXTERIOR INTERIOR "
    "NAIL NAILS NAILING FASTENING FASTENER HEADER HEADERS FOOTING FOOTINGS DIAPHRAGM DIAPHRAGMS STUD STUDS LOADS "
    "DESIGN CRITERIA ABBREVIATIONS SPECIAL INSPECTION INSPECTIONS BEAM BEAMS POST POSTS COLUMN COLUMNS ROOF FLOOR "
    "FIRST SECOND AND OF SYMBOLS TABLE FOUNDATION PLAN FRAMING DETAILS CONCRETE LUMBER CONTINUED LEVEL UPPER LOWER SW "
    "STEEL"
).split()


def title(text: str) -> Title | None:
    """What a line opens as a title; None for sentences, details, sheet names and anything that is no title.

    >>> title("PLYWOOD SHEAR WALL SCHEDULE").kind, title("SHEAR PANELS").sure, title("SHEAR WALL SW-1").mark
    ('wall', False, 'SW-1')
    >>> title("SEE S3.0 FOR THE SHEAR WALL SCHEDULE.") is None
    True
    """
    line = close_up(_SECTION.sub("", text.strip()), _VOCABULARY)
    if _NUMBERED_NOTE.fullmatch(line):
        return None
    if block := _one_type(line):
        return block
    dotted = re.search(r"(?i)sched\.|\bdn\.|h\.d\.$", line) is not None
    line = line.strip(" :-_*#" if dotted else " :.-_*#")
    if not line or len(line) > _LONGEST or _SHEET_REFERENCE.search(line):
        return None
    bare = " ".join(_ASIDE.sub(" ", _CONTINUED.sub(" ", line)).split()).strip(" -:")
    bare = _FOOTNOTE.sub("", bare).strip()
    if _NOTES_ON.fullmatch(bare):
        about: Literal["wall", "hold-down"] | None = "hold-down" if re.search(_HOLD, bare, re.I) else None
        return Title("notes", scope=scope_in(line), about="wall" if re.search(_SHEAR, bare, re.I) else about)
    if _SENTENCE.search(bare):
        return None
    aside = _HOLD_ASIDE.search(line)
    if aside and re.search(r"(?i)\b(?:anchors?|hardware|ties|devices)\b", bare) and not re.search(_SHEAR, bare, re.I):
        return Title("hold-down", sure=False)
    return _named(line, bare)


def _named(line: str, bare: str) -> Title | None:
    """The title that ``bare`` is by its words; qualifiers come from the whole line."""
    if m := _NOTES.fullmatch(bare):
        about: Literal["wall", "hold-down"] | None = None
        if m["about"]:
            about = "wall" if re.match(_SHEAR, m["about"], re.I) else "hold-down"
        return Title("notes", scope=scope_in(line), continued=_is_continued(line), about=about)
    if _UNLESS.fullmatch(bare):
        return Title("notes", about="wall")
    shear, hold = re.search(rf"\b{_SHEAR}", bare, re.I), re.search(rf"\b{_HOLD}", bare, re.I)
    if shear:
        return _wall(line, bare, hold is not None)
    if (hold or re.fullmatch(rf"ties?(?: {_TABLE})|ties", bare, re.I)) and (opened := _hold_down(line, bare)):
        return opened
    if _NAILS.fullmatch(bare):
        return Title("nail-legend", sure=bare.lower() != "nails", continued=_is_continued(line))
    if _WALL_TABLE.fullmatch(bare):
        return Title("wall", sure=False, scope=scope_in(line), continued=_is_continued(line))
    if re.fullmatch(rf"s\.?w\.? {_TABLE}", bare, re.I) and _SURE.search(bare):
        return _said(Title("wall"), line)
    if _OTHER.fullmatch(bare) and (_SURE.search(bare) or " " in bare or not _HEADING_TOO.fullmatch(bare)):
        return Title("other", sure=_SURE.search(bare) is not None, continued=_is_continued(line))
    if _SOME_TABLE.fullmatch(bare) and not re.fullmatch(r"(?i)(?:notes (?:and|&) )?schedules?", bare):
        return Title("other", continued=_is_continued(line))
    return None


def _wall(line: str, bare: str, hold: bool) -> Title | None:
    """A shear wall title: only known words beside the name, or a schedule with a few words after it."""
    if _OTHER_WALLS.search(line):
        return Title("other", sure=_SURE.search(bare) is not None) if _SURE.search(bare) or not _DRAWING.search(bare) else None
    core = re.sub(rf"(?i)\b(?:{_SHEAR}|{_HOLD}|{_TABLE})", " ", _SCOPE.sub(" ", bare))
    known, tabled = all(_WORD.fullmatch(word) for word in re.findall(r"[^\s,:;]+", core)), _SURE.search(bare) is not None
    if not tabled and _DRAWING.search(bare):
        return None
    if not known and not (tabled and len(core.split()) <= 4 and re.match(rf"(?i)[^-]*{_SHEAR}[^-]*{_TABLE}", bare)):
        return None
    if not tabled and re.fullmatch(rf"(?i){_SHEAR} {_UPLIFT}", bare) and bare.lower().endswith("s"):
        return _hold_down(line, re.sub(rf"(?i)^{_SHEAR} ", "", bare))
    if not tabled and not re.search(
        r"(?i)(?:walls|panels)\b|\b(?:nailing|construction|anchorage|requirements|data|designations?"
        r"|information|by (?:mark|type|letter|number|symbol)s?|specifications?|properties|descriptions?"
        r"|assembl(?:y|ies)|systems?|sheathing|fastening|attachments?)$",
        bare,
    ):
        return None  # SHEAR WALL or SHEAR WALL MARK heads a column or points at a wall
    if hold and re.search(rf"(?i){_SHEAR} {_HOLD}(?! (?:and|&))", bare) and not re.search(r"(?i)\band\b|&|/| - ", bare):
        return _hold_down(line, bare)
    return _said(Title("wall", sure=tabled and known, combined=hold), line)


def _hold_down(line: str, bare: str) -> Title | None:
    """A hold-down title: a schedule, or a bare plural."""
    line, bare = (" ".join(_PLACE.sub(" ", text).split()) for text in (line, bare))
    if _OTHER_WALLS.search(re.sub("(?i)steel", "", bare)):
        return None
    core = re.sub(rf"(?i)\b(?:{_SHEAR}|{_HOLD}|{_TABLE}|ties?)(?![a-z])", " ", _SCOPE.sub(" ", bare))
    known, tabled = all(_WORD.fullmatch(word) for word in re.findall(r"[^\s,:;]+", core)), _SURE.search(bare) is not None
    plural = re.fullmatch(
        r"(?i)(?:.* )?(?:hold{1,2}[ -]?(?:downs|dns)|holdowns|tie[ -]?downs|ties|uplift (?:devices|anchors|hardware)"
        r"|anchor (?:ties|devices)"
        rf"|(?:hold{{1,2}}[ -]?downs?|holdowns?|tie[ -]?downs?) (?:hardware|devices|anchors)|{_STRAP}(?<=s))"
        r"(?: (?:and|&) (?:straps|anchors|posts))?",
        bare,
    )
    if not known or not (tabled or plural) or (not tabled and re.search(r"(?i)\bat\b|@|\bdetails?\b", bare)):
        return None
    return _said(Title("hold-down", sure=tabled), line)


def _one_type(line: str) -> Title | None:
    """One block or one sentence for a wall type: SHEAR WALL SW-1; Wall type A. 15/32-inch plywood ..."""
    m = _BLOCK.match(line)
    if m and _may_be_mark(m):
        rest = line[m.end("end") :]
        named_shear = re.match(r"(?i).*shear|.*s\.?w", m[0]) is not None or (m["type"] or "").strip().lower().startswith("type")
        opened = m["end"].strip() == "("
        if rest.strip() and not opened and _describes_wall(rest):
            return _typed(line, m, m.end("end"))
        if named_shear and (not rest.strip() or opened) and not _SENTENCE.search(line[m.end("mark") :]):
            return _typed(line, m, None)
        return None
    m = _MARK_FIRST.match(line)
    return _typed(line, m, m.end()) if m and is_mark(m["mark"]) and _describes_wall(line[m.end() :]) else None


def _may_be_mark(m: "re.Match[str]") -> bool:
    """Whether the block's mark is one: a letter alone stands after TYPE or closes the line; SHEAR WALL TYPES is no mark."""
    mark = m["mark"]
    if not is_mark(mark) or not (mark.isupper() or mark.isdigit() or any(c.isdigit() for c in mark)):
        return False
    return not (mark.isalpha() and len(mark) > 1 and not m["type"])


def _typed(line: str, m: "re.Match[str]", body: int | None) -> Title:
    """The title of one type; its qualifiers are left to its own rows or words."""
    span = None if body is None else (body, len(line))
    return Title(
        "wall",
        scope=scope_in(line[: m.end()]),
        mark=m["mark"],
        mark_span=m.span("mark"),
        body=span,
        continued=_is_continued(line[: m.end() + 12]),
    )


def _describes_wall(text: str) -> bool:
    """Whether words name both a panel and a fastener."""
    return all(pattern.search(text) for pattern in _WALL_WORDS)


def _is_continued(line: str) -> bool:
    return _CONTINUED.search(line) is not None


def scope_in(line: str) -> str | None:
    """The walls a title speaks of, in lower case and full words: "exterior", "second floor"; None for all."""
    found = []
    for m in _SCOPE.finditer(line):
        word = m[0].lower()
        for short, full in _SAME_LEVEL:
            word = re.sub(rf"\b{short}(?![a-z])", full, word)
        found.append(_SAME_SCOPE.get(word, word))
    return ", ".join(found) or None


def _said(opened: Title, line: str) -> Title:
    """The title with its scope, load, method and faces as far as the line says them; both loads give none."""
    loads = {m["load"].lower() for m in _LOAD.finditer(line)}
    method, faces = _METHOD.search(line), _FACES.search(line)
    return opened._replace(
        scope=scope_in(line),
        continued=_is_continued(line),
        load=loads.pop() if len(loads) == 1 else None,
        method=method.lastgroup if method else None,
        faces=(1 if faces["one"] else 2) if faces else None,
    )
