"""Lengths in running words, and the small words that tie them to what they measure."""

import regex as re

from extractor.trade.inches import FEET_INCHES, NUMBER, feet_and_inches, inches
from extractor.trade.nailwords import UNIT

LENGTH = rf"(?P<length>(?:{FEET_INCHES.replace('?P<feet>', '?:').replace('?P<rest>', '?:')})|(?:{NUMBER}){UNIT}?)"
ON_CENTER = r"(?: ?(?:o\.? ?/? ?c\b\.?|on[- ]cent(?:er|re)s?))"
BE = r"(?:shall be|to be|must be|will be|are|is|be)"
ALL = r"(?:all|every|each|any)"
PANEL = (
    r"(?:(?:panel|sheathing|plywood|plywd\.?|osb|wsp|wood structural panel|shear ?wall|shear panel"
    r"|unsupported|adjoining|abutting|horizontal|horiz\.?|vertical|interior|exterior|and|&|/)s? )*"
)
_MARK = r"(?:(?:[A-Z]{0,4}-?\d{1,2}[A-Z]?(?:-\d{1,2})?['*]?|[A-Z]{1,2}['*]?)(?![\w\"/]|\.\d| ?o\.?c))"
MARKS = rf"(?>{_MARK}(?:(?:, ?(?:and |& |or )?| and | & | or | thru | through | to |/)(?:types? |walls? )?{_MARK})*)"
OF_WALLS = (
    rf"(?: (?:of|at|in|for) (?:{ALL} |the )*(?:(?:shear |wood |plywood )*(?:walls?|panels?)(?: types?| marks?| panels?"
    rf"| sheathing| plywood)?|(?:wall )?types?|marks?|sheathing|plywood)(?: {MARKS})?)"
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
