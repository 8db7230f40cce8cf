"""Lengths in running words, and the small words that tie them to what they measure."""

import regex as re

from extractor.trade.inches import FEET_INCHES, NUMBER, feet_and_inches, inches
from extractor.trade.nailwords import UNIT

LENGTH = rf"(?P<length>(?:{FEET_INCHES.replace('?P<feet>', '?:').replace('?P<rest>', '?:')})|(?:{NUMBER}){UNIT}?)"
ON_CENTER = r"(?: ?(?:o\.? ?/? ?c\b\.?|on[- ]cent(?:er|re)s?))"
BE = r"(?:shall be|to be|must be|will be|are|is|be)"
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
