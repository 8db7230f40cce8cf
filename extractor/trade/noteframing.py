"""What a clause of a note says about framing: whether panel edges are blocked, the studs where panels meet, the sill plate."""

from collections.abc import Iterator

import regex as re

from extractor.record import State
from extractor.trade.framing import panel_edge
from extractor.trade.notelengths import ALL, BE, MARKS, OF_WALLS, PANEL
from extractor.trade.text import Found

_EDGES = r"(?:edges|joints|edge|joint)(?! (?:nail|spac|dist|fram|stud))"
_STUD = r"(?:studs?|framing|members?|framing members?)"
_BLKG = r"(?:blocking|blkg\.?|blk'g\.?)"
_BLOCKED = re.compile(
    rf"(?:{ALL} )?{PANEL}{_EDGES}{OF_WALLS}{{0,2}}(?:,? which)?(?: {BE})?(?: fully"
    r"| solidly?)? ?,? (?:blocked|supported|backed)\b"
    rf"|(?:{ALL} )?{PANEL}{_EDGES}{OF_WALLS}{{0,2}} (?:(?:shall |must )?(?:fall|land|occur|bear|be nailed|meet)? ?(?:on|over|at)"
    r"(?: and (?:are|be|shall be) nailed to)? "
    rf"(?:solid |common )?(?:framing|studs|framing members|members)(?: members)?,? (?:or|and) {_BLKG}"
    rf"|(?:shall |must )?(?:requires?|receive|have) (?:solid |flat |2x |full )*{_BLKG})"
    rf"|\bblock (?:{ALL} )?(?:of )?(?:the )?{PANEL}{_EDGES}"
    rf"|(?:{_BLKG}|blocks|blocked|backing)(?: {BE})?(?: required| req'?d\.?| provided"
    r"| installed| placed)?(?: at| on| @| behind| along| under| for| to support|,)?"
    rf" (?:{ALL} )?(?:of )?(?:the )?{PANEL}{_EDGES}"
    rf"|\b(?:fully|edge)[- ]block(?:ed|ing)\b|\b(?:shear )?(?:walls?|panels|types?)(?: (?:types? )?{MARKS})? {BE} blocked\b"
    r"|\bblocked (?:shear )?walls\b|\bedges (?:fully )?blocked\b"
    r"|(?:^\W*|[,:] ?)(?:(?:shall be|to be|are|is) )?blocked(?=[.,;]|\s*$)",
    re.I,
)
_UNBLOCKED = re.compile(
    rf"\bunblocked\b|\bno (?:edge )?{_BLKG}(?: (?:is )?(?:required|req'?d\.?))?"
    rf"|{_BLKG} (?:(?:of|at|for|along) (?:{ALL} |the )*{PANEL}{_EDGES} )?(?:{BE} )?(?:not|n't) (?:{BE} )?"
    r"(?:required|req'?d\.?|needed)"
    r"|\bedges (?:need|are|shall|do)(?: not|n't) (?:need to )?be blocked|\bnot blocked",
    re.I,
)
_NOT_ON_FRAMING = re.compile(r"\bnot (?:supported|falling|occurring|bearing|landing|located|on|over|backed)\b", re.I)
_AT_STUDS = re.compile(r"\b(?:abutting|adjoining|adjacent|vertical)\b", re.I)
_LIMITED = re.compile(r",? (?:with|having|nailed|that|which|for|spaced|@|at)\b[^.;]*\d", re.I)  # AT PANEL EDGES WITH 2" NAILING
_NEGATED = re.compile(r"\b(?:not?|never|neither|nor|none|optional|permitted|allowed)\b", re.I)


def blocking(clause: str) -> Iterator[Found]:
    """Whether panel edges are blocked; a clause with a NOT that no pattern knows says nothing."""
    if m := _UNBLOCKED.search(clause):
        yield Found("framing.blocked", False, m.span())
    elif (m := _BLOCKED.search(clause)) and not _NEGATED.search(_NOT_ON_FRAMING.sub(" ", clause)):
        yield from () if _on_studs(m[0]) else (Found("framing.blocked", True, m.span()),)


def _on_studs(words: str) -> bool:
    """Whether the words only say that joints on a stud are supported, which says nothing of blocking."""
    return _AT_STUDS.search(words) is not None and not re.search(r"(?i)bl(?:oc)?k", words)


_ONE = (
    r"(?<![\w/.)-])(?:(?:\([12]\) ?-?|double |dbl\.? |doubled |two |2-)?[234] ?-?x(?: ?\d{1,2}(?![\d\"/]))?(?![\w/])"
    r"|[234](?:-inch nominal|\" nom(?:inal|\.)?| inch nominal| in\.? nom(?:inal|\.)))(?: nom(?:inal|\.)?)?"
)
_WIDTH = rf"(?P<width>{_ONE}(?: {_STUD})?(?: ?(?:/|,? ?\bor\b) ?(?:a )?{_ONE})?)"
_ABUT = (
    rf"(?:(?:{ALL} |the )*(?:abutting|adjoining|adjacent)(?: panels?| sheathing| plywood)* ?(?:edges?"
    rf"|joints?)?|(?:{ALL} |the )*(?:panel|sheathing|plywood) (?:edges|joints)"
    r"|where (?:the )?(?:panels?|sheathing|plywood)(?: edges| panels| joints)? (?:abut|meet|join)s?)"
)
_WIDE = re.compile(
    rf"{_WIDTH}(?: min(?:imum|\.)?| or wider| thick| wide"
    rf"| p\.?t\.?)* ?{_STUD}?[^.;:\d]{{0,24}}?(?:\bat\b|@|\bwhere\b|\balong\b|\bbehind\b"
    rf"|\bfor\b) ?(?:{_ABUT.replace('where ', '(?:where )?')})"
    rf"|\b(?:abutting|adjoining) (?:panels? )?(?:edges|joints)(?: {BE}|shall|must)? "
    rf"(?:supported|nailed|fastened|fall|land|occur) (?:on|by|to|over|with) (?:a )?{_WIDTH}(?! ?(?:\w+ )?bl(?:oc)?k)"
    rf"|{_STUD} (?:at |@ |receiving )?{_ABUT}{OF_WALLS}?(?: {BE}|:)?(?: at least| a| min(?:imum"
    rf"|\.)?)* {_WIDTH}",
    re.I,
)
_NOT_STUDS = re.compile(r"\b(?:block\w*|blk'?g|sills?|plates?|posts?|rim|beams?)\b", re.I)
_NOMINAL = re.compile(r"([234])(?:-inch nominal|\" nom| inch nominal| in\.? nom)", re.I)
_TREATED = r"(?:p\.?t\.?(?:d\.?f\.?)? |pressure[- ]treated |treated |min\.? |nom\.? |nominal |d\.?f\.? )*"
_SILL = re.compile(
    r"\b(?:sole|bottom) (?:plates?|pl\.) (?:at|on|to) (?:the )?(?:slab|concrete|conc\.|foundation)s?"
    rf"(?: {BE}|:)? (?P<width3>[234]) ?x(?! ?\d ?x)|(?P<width>[234]) ?x(?: ?\d+)? {_TREATED}(?:mud ?sills?|sill plates?|sills?)\b"
    r"|\b(?:mud ?sills?|sill plates?|sills?)(?: (?:at|on) (?:the )?(?:podium|concrete|slabs?|foundations?))?"
    rf"{OF_WALLS}?(?: {BE}|:)?(?: a| min(?:imum|\.)?)* (?P<width2>[234]) ?x(?! ?\d ?x)",
    re.I,
)


def framing(clause: str) -> Iterator[Found]:
    """Framing where panels meet, and the sill plate; a clause that says NOT, NO or PERMITTED says neither."""
    if _NEGATED.search(clause) or re.match(r"\(\d\) \d ?x", clause):  # a note's number, or how many studs
        return
    for m in _WIDE.finditer(clause):
        if _other_size(clause, m):
            continue
        if _NOT_STUDS.search(m[0]) or _LIMITED.match(clause, m.end()):
            continue
        read = panel_edge(_NOMINAL.sub(r"\1x", m["width"]))
        if len(read) == 1 and read[0].state is State.READ:
            yield Found("framing.panel_edge", read[0].value, m.span())
    for m in _SILL.finditer(clause):
        if _other_size(clause, m):
            continue
        if _LIMITED.match(clause, m.end()) and not re.match(rf"{OF_WALLS}", clause[m.end() :], re.I):
            continue
        yield Found("framing.sill", f"{m['width'] or m['width2'] or m['width3']}x", m.span())


def _other_size(clause: str, m: "re.Match[str]") -> bool:
    """Whether the clause goes on with another size for other walls: 2x AT NOS. 1 AND 2; 3x AT NOS. 3 AND 4."""
    own = re.search(r"[234](?= ?-?x)", m[0], re.I)
    others = re.findall(r"(?<![\w/.)-])([234]) ?x\b(?= [^,;]*\b(?:at|for|on)\b)", clause[m.end() :], re.I)
    return own is not None and any(size != own[0] for size in others)
