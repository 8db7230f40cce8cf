"""Whom a clause of a note speaks of: shear walls, some of them, one place, or something else altogether."""

import regex as re

_SHEAR_WALL = re.compile(
    r"\b(?:shear|5hear)[ -]?(?:wall|panel)s?\b|\bwall types?\b|\bs\.?w\.?[ -]?\d{1,2}[a-z]?\b|\bsw types?\b", re.I
)
_NOT_SHEAR_WALL = re.compile(
    r"\b(?:not|non-?|other than|except|outside|besides|no)\b[^.;]{0,40}?\bshear[ -]?(?:wall|panel)s?"
    r"|\belsewhere\b|\bother walls\b|\bnon-?(?:shear|bearing)\b|\bbearing walls?\b"
    r"|\bordinary\b|\bpartitions?\b|\bbraced (?:wall|panel)s?\b|\bportal\b|\bfurring\b|\bunmarked\b"
    r"|\bnot (?:marked|noted|scheduled|shown)\b",
    re.I,
)
_DECK = re.compile(
    r"\b(?:roofs?|roofing|diaphragms?|sub-?floor\w*|decks?|decking|ceilings?|rafters?|trusses|truss"
    r"|(?<!rim |band )joists?|headers?|beams?|girders?|lintels?|stairs?|gutters?)\b"
    r"|\bfloors?\b(?=(?: (?:and|or|&) roofs?)? (?:sheath|shtg|deck|diaphragm|panel|framing|plywood"
    r"|joist|nailing))|(?<!first |second |third |upper |lower |main |1st |2nd |3rd |ground |at |each "
    r"|all )\bfloors?\b",
    re.I,
)
_NAILS_OF_BOTH = re.compile(
    r"\bnail(?:s|ing)? (?:for|of|at|in) (?:all )?(?:[a-z]+(?:,? and|,|/| &) ?)*walls?\b[^.;:]{0,20}\b(?:diaphragm|roof|floor)"
    r"|\bnail(?:s|ing)? (?:for|of|at|in) (?:all )?(?:[a-z]+(?:,? and|,|/| &) ?)+walls?\b",
    re.I,
)
_PLATE_ON = re.compile(
    r"(?<=\b(?:plates?|pl\.) )(?:to|on|over) (?:the )?(?:floors?|joists?|sub-?floor\w*)(?: framing| joists?| sheathing)*", re.I
)  # what a bottom plate stands on: the clause is about the plate
_ELSE = re.compile(
    r"\b(?:inspections?|inspectors?|observation|observed?|notif(?:y|ied)|rebar|reinforc\w+|laps?|lapped"
    r"|splices?|(?<!into |into the |plates? (?:at|on|to) )(?:footings?|slabs?)|masonry|cmu|steel(?! (?:pl|sq|wash))"
    r"|weld\w*|glulams?|soil|backfill|excavat\w+"
    r"|moisture|species|lumber|submit\w*|shop drawings|verify|coordinate|columns?|lag screws?"
    r"|machine bolts?|straps?|clips?|connectors?|hangers?|(?<!intermediate )studs? (?:@|at \d|spac\w+|\d)|bored|notch\w*"
    r"|overdriv\w*|edge distance|substitut\w*|alternat\w+|option\w*|existing|retrofit"
    r"|(?<!\b(?:embed|set|space|use|provide) (?:the |all )?)epox\w+"
    r"|embedded items|hot-?dip\w*|treated wood)\b",
    re.I,
)
_HOLD_DOWN = re.compile(r"\b(?:hold{1,2}[ -]?(?:downs?|dn)|holdowns?|tie[ -]?downs?|h\.d\.|hdu?s?\b|hd-?\d+)", re.I)
_NO_HOLD_DOWN = re.compile(r"\bno (?=hold|tie)|\bnot (?=req|needed)", re.I)
_CONDITION = re.compile(
    r"\b(?:where(?! (?:the )?(?:panels?|sheathing|plywood)(?: edges| panels| joints)? (?:abut|meet"
    r"|join))|when|if|unless(?! (?:otherwise |noted|shown|specified|detailed|indicated|called"
    r"|the schedule (?:says|notes|shows|calls|gives|indicates)))"
    r"|except\w*|in lieu|may (?:be|use)|or less|or closer|or more|or greater|exceed\w*|greater than"
    r"|less than|more than|closer than|as required|as req'?d|required by|having|with edge|over \d+ ?plf"
    r"|walls? (?:with(?! (?:\d|flat|solid|min))|over|under|longer|taller|adjacent|supporting|less|above|below)"
    r"|types? (?:with|ending|marked|that|having|whose|shown)|all others?|the others?|marks? (?:with|ending|that)|followed by"
    r"|for (?:edge|nail|panel edge|spacing|walls? (?:with|over|of)|capacit)|at edge nailing|in seismic"
    r"|(?:for|at|through) \d{1,2}/\d{1,2}(?:\"|-? ?inch)? ?(?:thick )?(?:panels?|sheathing|plywood|osb|wsp)"
    r"|(?:nail\w*|spacing|edges?)[^.;]{0,20}\d ?(?:\"|in\b)[^.;]{0,30} requires?"
    r"|spaced (?:less|closer)|only (?:at|where|if|when|for)|(?:at|for) [^.;]{0,40}? only)\b",
    re.I,
)
_YIELDS = re.compile(
    r"\bu\.? ?n\.? ?o\b|\bunless (?:otherwise )?(?:noted|shown|specified|detailed|indicated|called)"
    r"|\btyp(?:ical(?:ly)?|\.)?(?![a-z])|\bu\.o\.n\b|\bunless the schedule (?:says|notes|shows|calls|gives|indicates)",
    re.I,
)
BUT_THE_SCHEDULE = re.compile(r",? ?\bunless the schedule (?:says|notes|shows|calls|gives|indicates)\b.*", re.I)
_ONE_PLACE = re.compile(
    r"\b(?:wall )?(?:grid ?)?lines? (?:[A-Z]|\d{1,2})(?:\.\d)?\b|\bgrid(?:line)?s? (?:[A-Z]|\d{1,2})\b"
    r"|\b(?:at|in|of|for) (?:the )?(?:garages?|stairs?|stairwells?|porch\w*|entry|kitchen|bath\w*|tower"
    r"|bay window|carport)\b|\b(?:at|around|over|under|above|below|beside|near) (?:all |the |each |wall |door |window )*"
    r"(?:openings?|windows?|doors?|corners?|intersections?|collectors?|drag struts?)\b"
    r"|\b(?:garage|porch|tower|carport|entry|stair) walls?\b"
    r"|\b(?:north|south|east|west|front|rear|back|left|right|n\.|s\.|e\.|w\.)(?:[- ](?:side|facing"
    r"|end))? (?:elevation|walls?)\b|\bthis (?:wall|location)\b|\b(?:at|for) (?:unit|lot"
    r"|building) \w+\b|\broom\b",
    re.I,
)
_SCOPE = re.compile(
    r"\b(?P<face>exterior|interior|ext\.|int\.)(?= (?:shear |plywood |wood )*(?:walls?|panels?|sheath))"
    r"|\b(?:at|for|in|on) (?:the )?(?P<level>(?:first|second|third|upper|lower|main|ground|1st|2nd"
    r"|3rd) (?:floor|story|level)s?|basement)"
    r"|^\W*(?P<start>(?:first|second|third|upper|lower|main|ground|1st|2nd|3rd) (?:floor|story"
    r"|level)s?)(?= (?:shear )?walls?|:)|(?P<gypsum>\bgyp(?:sum|\.)?\b|\bgwb\b|\bdrywall\b)",
    re.I,
)
_SAME = {"ext.": "exterior", "int.": "interior", "1st": "first", "2nd": "second", "3rd": "third"}


def about_walls(clause: str) -> bool:
    """Whether the clause speaks of shear walls by name."""
    return _SHEAR_WALL.search(clause) is not None


def elsewhere(clause: str) -> bool:
    """Whether the clause is about something else: a roof, a floor, a hold-down, inspection, walls that are no shear walls."""
    if _NOT_SHEAR_WALL.search(clause) or _ELSE.search(clause) or _HOLD_DOWN.search(clause):
        return True
    return _DECK.search(_PLATE_ON.sub(" ", clause)) is not None and not about_walls(clause)


def of_hold_downs(clause: str) -> bool:
    """Whether the clause is about hold-downs, and nothing else that is no shear wall."""
    if _NOT_SHEAR_WALL.search(_NO_HOLD_DOWN.sub(" ", clause)) or _ELSE.search(clause) or _DECK.search(clause):
        return False
    return _HOLD_DOWN.search(clause) is not None


def with_decks(clause: str) -> bool:
    """Whether a clause about shear walls speaks of roofs or floors as well: then only its nail is theirs for sure."""
    return about_walls(clause) and _DECK.search(_PLATE_ON.sub(" ", clause)) is not None


def nails_of_walls_too(clause: str) -> bool:
    """Whether a clause about decks speaks of the nails of walls as well: NAILS FOR WALL AND DIAPHRAGM SHEATHING."""
    return _NAILS_OF_BOTH.search(clause) is not None


def conditional(clause: str) -> bool:
    """Whether the clause holds only under a condition that a reader of one row can't judge."""
    return _CONDITION.search(clause) is not None


def yields(clause: str) -> bool:
    """Whether the clause gives way to the row: U.N.O., UNLESS NOTED OTHERWISE, TYPICAL."""
    return _YIELDS.search(clause) is not None


def speaks_of_notes(clause: str) -> bool:
    """Whether the clause is about all notes or details here: THESE NOTES ARE TYPICAL UNLESS NOTED OTHERWISE."""
    return (
        re.search(
            r"(?i)\b(?:these|all|following|above|the) (?:\w+ )?(?:notes|details"
            r"|schedules?)\b[^.;]{0,40}\b(?:typ|apply|are|u\.?n\.?o)",
            clause,
        )
        is not None
    )


def one_place(clause: str) -> bool:
    """Whether the clause is a rule for one place on the plans."""
    return _ONE_PLACE.search(clause) is not None


def some_walls(clause: str) -> bool:
    """Whether the clause is for walls marked in a way that only the plans show."""
    return (
        re.search(
            r"(?i)\b(?:walls?|panels?) (?:so |thus |that are |which are )?(?:marked|noted|indicated"
            r"|designated|tagged|shown|labell?ed)\b",
            clause,
        )
        is not None
    )


def scope(clause: str) -> str | None:
    """The walls a clause is limited to: "exterior", "second floor", "gypsum"; None for all."""
    m = _SCOPE.search(clause)
    if not m:
        return None
    if m["gypsum"]:
        return "gypsum"
    first, *rest = (m["face"] or m["level"] or m["start"]).lower().split()
    return " ".join([_SAME.get(first, first), *rest])
