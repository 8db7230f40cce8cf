"""Marks as drawn beside walls and posts: what one looks like, which are of the same make, and a mark with a length."""

from collections.abc import Iterable
from typing import NamedTuple

import regex as re

from extractor.trade.inches import TAPE, feet_and_inches, inches
from extractor.trade.text import plain_word

_ONE = r"[A-Za-z0-9#(][A-Za-z0-9.'*#+/()-]{0,9}"
_MARK = re.compile(rf"{_ONE}|[A-Za-z.]{{1,5}} \d{{1,2}}[A-Za-z*]?|{_ONE} \([A-Za-z0-9-]{{1,6}}\)")
_WORDS = frozenset(
    (
        "MARK MK MK. TYPE TYPES NOTE NOTES NONE SAME DITTO DO KEY TAG SYM SYM. SYMBOL NO NO. SEE PER TYP TYP. WALL "
        "WALLS SIZE EDGE EDGES FIELD NAIL NAILS SILL POST POSTS ALL AND OR AT THE FOR PLF LB LBS ASD LRFD OSB WSP PLY "
        "PLAN PLANS N/A NA U.N.O. UNO TBD EXIST EXIST. YES REQ'D INT INT. EXT EXT. TIE MODEL HD H.D. SW S.W. DIA DIA. "
        "IN IN. O.C. OC E.N. EN F.N. FN A.B. AB BLOCKED MIN MIN. MAX MAX. E/O LEVEL UNIT UNITS W/ (E) (N) WIND PANEL "
    ).split()
)
_DATA = re.compile(
    rf"\d+ ?[dxX]|(?:[5-9]|\d\d) ?D|\d[xX]\d+|\({TAPE}\)|{TAPE}\"?|\d+-{TAPE}.*|\(?\d\)? ?\d[xX].*"
    r"|.*\d\"|\d*\.\d+|\d{4,}|.*\d'-?\d.*|\d{2,}'"
)
_LEAD, _SPLIT = re.compile(r"([A-Za-z]+|\d+|[^A-Za-z\d]+)"), re.compile(r" ?/ ?| ?& ?|, ?")


def is_mark(text: str) -> bool:
    """Whether a schedule's mark cell can hold this: short, at most one space, letters and digits, not a word or a size.

    >>> is_mark("SW-1"), is_mark("P1-4"), is_mark("4*"), is_mark("TYPE"), is_mark('15/32"'), is_mark("8d")
    (True, True, True, False, False, False)
    """
    mark = plain_word(text)
    if not _MARK.fullmatch(mark) or {mark.upper(), mark.upper().strip("()")} & _WORDS or _DATA.fullmatch(mark):
        return False
    letters = sum(c.isalpha() for c in mark)
    digits = sum(c.isdigit() for c in mark)
    return mark.count("(") == mark.count(")") and bool(letters or digits) and (digits > 0 or letters <= 4)


def same_mark(a: str, b: str) -> bool:
    """Whether two marks are the same in print; SW-1, SW1 and SW 1 are three marks."""
    return plain_word(a) == plain_word(b)


def loose_key(mark: str) -> str:
    """A key under which spellings of one mark meet, for "did you mean"; never to match a mark with its row.

    >>> loose_key("SW-1") == loose_key("sw 01") == loose_key("S.W.1")
    True
    """
    closed = re.sub(r"[ ._-]", "", plain_word(mark).upper())
    return str(re.sub(r"(?<!\d)0+(?=\d)", "", closed))


def family(marks: Iterable[str]) -> re.Pattern[str]:
    """A pattern for ``fullmatch`` with marks of the same make: these letters and signs, any number in the place of theirs.

    SW1, SW2 give SW with one or two digits and perhaps a letter; A, B give single capitals; HA, HB give H with a capital; 6, 33
    give one or two digits.
    """
    plain = {plain_word(mark) for mark in marks} - {""}
    shapes = sorted({_shape(mark) for mark in plain} | _lettered(plain))
    return re.compile(rf"(?<!\w)(?:{'|'.join(shapes) or '(?!)'})(?!\w)")


def _lettered(marks: Iterable[str]) -> set[str]:
    """The patterns of marks of two or three capitals that differ in the last one alone."""
    stems = [mark[:-1] for mark in marks if re.fullmatch("[A-Z]{2,3}", mark)]
    return {rf"{stem}[A-Z]" for stem in stems if stems.count(stem) > 1}


def _shape(mark: str) -> str:
    """The pattern for one mark: its first letters stay, digits become any digits, later letters any letters."""
    runs = _LEAD.findall(mark)
    if len(runs) == 1 and runs[0].isalpha():
        one = "[A-Z]" if runs[0].isupper() else "[a-z]"
        return one if len(mark) == 1 else rf"{re.escape(mark)}"
    out = []
    for i, run in enumerate(runs):
        if run.isdigit():
            out.append(rf"\d{{{len(run)}}}" if len(run) > 2 and len(runs) == 1 else rf"\d{{1,{max(2, len(run))}}}")
        elif run.isalpha() and i:
            out.append(rf"[A-Z]{{1,{len(run)}}}" if run.isupper() else rf"[A-Za-z]{{1,{len(run)}}}")
        else:
            out.append(re.escape(run))
    if runs[-1].isdigit() and runs[0].isalpha() and len(runs[0]) > 1:
        out.append("[A-Z]?")
    return "".join(out)


class Marked(NamedTuple):
    """The marks in one drawn text, and the wall's length in inches where it is written with them."""

    marks: tuple[str, ...]
    length_in: float | None


_FEET = rf"\d{{1,3}} ?' ?-? ?(?:(?:\d{{1,2}}[ -])?{TAPE}|\d{{1,2}})? ?\"?"
_BARE = r"\d{1,2}-(?:1[01]|\d)(?!\d)"  # 8-0, as drawn without signs
_LENGTH = rf"(?:L ?= ?)?(?P<length>{_FEET}|{_BARE})"
_GAP = r"(?: ?[/,:@x(] ?| - | )\(?"
_MARKS = r"(?P<marks>[A-Za-z0-9][A-Za-z0-9.'*-]*(?: ?/ ?[A-Za-z][A-Za-z0-9.'*-]*)*)"
_LENGTH_LAST = re.compile(rf"{_MARKS}{_GAP}{_LENGTH}\)?")
_LENGTH_FIRST = re.compile(rf"{_LENGTH}\)?{_GAP}{_MARKS}\)?")
_DETAIL = re.compile(rf"\d+/[A-Z]+-?\d+(?:\.\d+)?|{_BARE}")
_PLF = re.compile(rf"{_MARKS} ?[/(:]? ?(?P<plf>\d{{3,4}}) ?(?:PLF|plf|#/FT|#/')?\)?")


def with_length(text: str) -> Marked | None:
    """The mark or marks in a drawn text, with the length that stands with them; None where it is neither.

    >>> with_length("SW4 / 8-0"), with_length("SW1/HD2"), with_length("4/S3")
    (Marked(marks=('SW4',), length_in=96.0), Marked(marks=('SW1', 'HD2'), length_in=None), None)
    """
    plain = plain_word(text)
    for pattern in (_LENGTH_LAST, _LENGTH_FIRST):
        m = pattern.fullmatch(plain)
        if m and (marks := _split(m["marks"])) and (length := _feet(m["length"])) is not None:
            return Marked(marks, length)
    if _DETAIL.fullmatch(plain):
        return None
    if is_mark(plain) and "/" not in plain:
        return Marked((plain,), None)
    if marks := _split(plain):
        return Marked(marks, None)
    m = _PLF.fullmatch(plain)
    marks = _split(m["marks"]) if m else ()
    return Marked(marks, None) if any(c.isalpha() for c in "".join(marks)) else None


def _split(text: str) -> tuple[str, ...]:
    """The marks that slashes part; nothing unless each is a mark, and two begin with letters (4/S3 is a detail)."""
    marks = tuple(_SPLIT.split(text))
    if not all(is_mark(mark) for mark in marks):
        return ()
    return marks if len(marks) == 1 or all(mark[0].isalpha() and any(c.isdigit() for c in mark) for mark in marks) else ()


def _feet(text: str) -> float | None:
    """Inches of a length in feet and inches; 8-0 is eight feet; None where it is no length."""
    if re.fullmatch(_BARE, text):
        feet, rest = text.split("-")
        return int(feet) * 12.0 + inches(rest)
    return next((length for length, _ in feet_and_inches(text)), None)
