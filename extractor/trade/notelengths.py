"""Lengths in running words, and the small words that tie them to what they measure."""

from typing import NamedTuple

import regex as re

from extractor.trade.inches import FEET_INCHES, NUMBER, feet_and_inches, inches
from extractor.trade.nailwords import UNIT

LENGTH = rf"(?P<length>(?:{FEET_INCHES.replace('?P<feet>', '?:').replace('?P<rest>', '?:')})|(?:{NUMBER}){UNIT}?)"
ON_CENTER = r"(?: ?(?:o\.? ?/? ?c\b\.?|on[- ]cent(?:er|re)s?))"
BE = r"(?:shall be|to be|must be|will be|are|is|be)"
ALL = r"(?:all|every|each|any)"
PANEL = (
    r"(?:(?:panel|pnl\.?|sheathing|plywood|plywd\.?|osb|wsp|wood structural panel|shear ?wall|shear panel"
    r"|unsupported|adjoining|abutting|horizontal|horiz\.?|vertical|interior|exterior|and|&|/)s? )*"
)
_MARK = r"(?:(?:[A-Z]{0,4}-?\d{1,2}[A-Z]?(?:-\d{1,2})?['*]?|[A-Z]{1,2}['*]?)(?![\w\"/]|\.\d| ?o\.?c))"
MARKS = rf"(?>{_MARK}(?:(?:, ?(?:and |& |or )?| and | & | or | thru | through | to |/)(?:types? |walls? )?{_MARK})*)"
OF_WALLS = (
    rf"(?: (?:of|at|in|for) (?:{ALL} |the )*(?:(?:shear |wood |plywood )*(?:walls?|panels?)(?: types?| marks?| panels?"
    rf"| sheathing| plywood)?|(?:wall )?types?|marks?|sheathing|plywood)(?: {MARKS})?"
    r"| (?:at|in|for) (?-i:[A-Z]{1,4}-?\d{1,2}[A-Z]?)(?![\w\"/]))"
)
SPACED = re.compile(
    rf"(?:@|\bat\b|\bspaced?(?: at)?\b|\bspacing(?: of| {BE}|:)?)(?: a)?(?: max(?:imum"
    rf"|\.)?)? ?{LENGTH}{ON_CENTER}?(?: max(?:imum|\.)?)?(?! ?(?:from|of (?:the )?end|embed|min\.? embed|edge))",
    re.I,
)


def length_in(text: str) -> float | None:
    """Inches of a length as it is written: 7", 4'-0", 12 in."""
    if feet := next(feet_and_inches(text), None):
        return feet[0]
    m = re.search(NUMBER, text)
    return inches(m[0]) if m else None


def has_unit(written: str) -> bool:
    """Whether a length has its unit written."""
    return re.search(r"[\"']|in", written, re.I) is not None


_FEW = r"\d(?:[ -]\d/\d)?(?: ?\"| ?in(?:ches|ch|\.)?(?![a-z]))?"
_NAILED_AT = re.compile(
    rf"\b(?:where|when|if) (?:the )?{PANEL}?(?:edge )?(?:nail(?:s|ing)|fasteners|spacing)(?: spacing)?"
    r"(?: (?:is|are))?(?: spaced)?"
    rf"(?: at|,)? ?(?P<at1>{_FEW})(?: ?(?:o\.?/?c\.?|on cent(?:er|re)))?(?P<less1> (?:or|and) (?:less|closer))?"
    rf"|^\W*(?P<at3>{_FEW})(?: ?(?:o\.?/?c\.?|on cent(?:er|re)))?(?P<less3> (?:or|and) (?:less|closer))?"
    r"(?= (?:edge )?(?:nail(?:s|ing)|spacing)\b)"
    rf"|\b(?:at|of|with|for|having) (?:the )?(?:joints (?:of|with) )?(?P<at2>{_FEW})"
    r"(?: ?(?:o\.?/?c\.?|on cent(?:er|re)))?(?P<less2> (?:or|and) (?:less|closer))? ?(?:edge )?(?:nail(?:s|ing)|spacing)\b",
    re.I,
)
_MORE = re.compile(r"\d ?d\b|\d(?! ?x\b|\)| ?- ?x\b)|\bplf\b|\b(?:both|two) (?:sides|faces)", re.I)


class EdgeLimit(NamedTuple):
    """The edge nailing that a clause is limited to, inches, and the words that say so."""

    spacing_in: float
    or_less: bool
    span: tuple[int, int]


def edge_limit(clause: str) -> EdgeLimit | None:
    """The one edge spacing that a clause is for: STAGGER NAILS AT 2" SPACING, 3x WHERE NAILS ARE SPACED 2" O.C.

    None where the clause has no such limit, or has more to it: a nail size, a load, two spacings.
    """
    found = list(_NAILED_AT.finditer(clause))
    if len(found) != 1:
        return None
    m = found[0]
    value = length_in(m["at1"] or m["at2"] or m["at3"])
    rest = clause[: m.start()] + " " + clause[m.end() :]
    if value is None or not 1.5 <= value <= 12 or _MORE.search(re.sub(r"^\W*\d+\. ?", "", rest)):
        return None
    return EdgeLimit(value, bool(m["less1"] or m["less2"] or m["less3"]), m.span())
