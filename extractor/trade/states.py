"""Words that stand in a cell for a value: there is none, look elsewhere, the same as above; and words that do no harm."""

import regex as re

from extractor.record import State
from extractor.trade.text import Found, Span

_REQUIRED = r"(?:req'?d\.?|required|necessary)"
_NONE = re.compile(
    rf"\(?(?:-(?: ?-)*|n ?/ ?a\.?|n\.a\.|none\.?(?: {_REQUIRED})?|not {_REQUIRED}|no(?:ne)? {_REQUIRED}|not applicable|nil)\)?",
    re.I,
)
_NO_HOLD_DOWN = re.compile(
    (
        rf"(?:no|without|none:?)(?: (?:hold-?downs?|holdowns?|hold downs?|tie-?downs?|h\.?d\.?'?s?"
        rf"|straps?))(?: {_REQUIRED})?\.?|no\.?"
    ),
    re.I,
)

SHEET = r"(?:\d{1,2}/)?[A-Z]{1,2}-?\d{1,3}(?:\.\d{1,2})?(?![\w\"'/])"  # S5, 4/S5.1
_NUMBERS = r"#?\d{1,2}(?![\d/\"'])(?:(?:, ?| ?& ?| and | ?- ?)#?\d{1,2}(?![\d/\"']))*"
_PLACE = (
    r"(?:plans?|drawings?|dwgs?\.?|details?|dtls?\.?|dets?\.?|sched(?:ule)?s?\.?|engineer|engr?\.?|e\.?o\.?r\.?|arch(?:itect|\.)?"
    r"|(?:key|foot)?notes?|tables?|legend|sheets?|sht\.?|elevations?|elev\.?|sections?|specs?\.?|calcs?\.?|s\.e\.)(?![\w])"
)
_WHERE = rf"(?:{_PLACE}(?: (?:no\.? ?)?(?:{SHEET}|{_NUMBERS}(?:/{SHEET})?))?|{SHEET})"
_SENT = (
    r"(?:(?:see|as per|per|refer(?: to)?|ref\.?|as (?:shown|noted|indicated)(?: on| in)?|(?:shown|noted) (?:on|in)|by)(?![\w]))"
)
DEFERRAL = (
    rf"(?:{_SENT} (?:the )?(?:(?!per |see )[A-Z][\w.&'-]*+ ){{0,3}}?{_WHERE}"
    rf"|(?<![\w]){_PLACE} {SHEET}|(?<!\w)(?:note|notes) {_NUMBERS})"
)
_DEFERRAL = re.compile(rf"(?<![\w]){DEFERRAL}", re.I)
_ALL_DEFERRED = re.compile(
    rf"\(?{DEFERRAL}(?: for [\w .,'&-]+)?(?:[\s,;&/]+(?:and )?{DEFERRAL})*[\s.)*]*|\(?as (?:shown|noted|indicated)\.?\)?", re.I
)

_MARK = r"(?P<mark>[A-Z]{0,4}[- ]?\d{1,3}[A-Z]?(?:-[A-Z\d]{1,3})?|[A-Z]{1,2}(?:-[A-Z\d]{1,2})?)"
_NAMED = rf"same as (?:(?:wall |sw |shear wall )?(?:type|mark|wall)? ?)?{_MARK}(?![\w\"'/])"
_DITTO = re.compile(
    (
        rf"(?:ditto|(?:same )?as (?:above|previous|preceding|left)|same as (?:above|previous|preceding"
        rf"|left)|{_NAMED}|same|do\.?|\"(?: ?\")*)(?!\w)"
    ),
    re.I,
)

_ASIDES = (
    DEFERRAL,
    r"(?<!\w)(?:typ|u\.?n\.?o|min|max|v\.?i\.?f|sim|nom|approx)(?!\w)\.?",
    r"\([en]\)|\*+",
    r"(?<=[\w.\"')]) ?\(\d{1,2}\)$",  # a footnote
    r"(?<![\w/])(?:p\.?i\.?|panel index|span(?: rating| index)?)? ?(?:12|16|20|24|32|40|48|54|60)/(?:0|12|16|20|24|32|48)(?!\d)",
    r"(?<!\w)(?:exp(?:osure|\.)?) ?[12i](?!\w)|(?<!\d)\d-? ?ply(?!\w)|\(?\d\)?[- ]?layers?(?!\w)",
    r"(?<!\w)type ?['\"]?[xcws]['\"]?(?!\w)",
    r"(?<!\w)studs? ?(?:@|at) ?\d{2}(?: ?\"|(?![\d/]))(?: ?o\.?/?c\.?)?(?: max\.?)?",
    r"(?<!\w)(?:no\.?|#) ?[12](?!\w)|(?<!\w)4'? ?x ?(?:8|9|10)'?(?!\d)",
)
HARMLESS = re.compile("|".join(_ASIDES), re.I)


def stated(text: str, *, hold_down: bool = False) -> State | None:
    """NONE or DEFERRED where that is all the cell says; None for anything else. A lone NO speaks in a hold-down cell only."""
    tidy = text.strip()
    if _NONE.fullmatch(tidy) or (hold_down and _NO_HOLD_DOWN.fullmatch(tidy)):
        return State.NONE
    return State.DEFERRED if _ALL_DEFERRED.fullmatch(tidy) else None


def deferrals(text: str) -> list[Span]:
    """Spans of the words that send the reader elsewhere: SEE PLAN, PER DTL 4/S5, NOTE 3."""
    return [m.span() for m in _DEFERRAL.finditer(text)]


def ditto(text: str) -> Found | None:
    """A ditto at the beginning of the cell; its value is the mark it names ("SAME AS SW1"), or None for the row above.

    A lone inch mark, DO and SAME are dittos only where nothing else stands in the cell.
    """
    start = len(text) - len(text.lstrip())
    m = _DITTO.match(text, start)
    if not m:
        return None
    rest = text[m.end() :].strip(" .,;")
    alone = m.group().lower().rstrip(".") in ("do", "same") or m.group().startswith('"')
    if rest and alone:
        return None
    mark = m["mark"]
    if mark and mark.upper() in ("IN", "ON", "AT", "OR", "TO"):
        return None
    return Found("ditto", mark, m.span())
