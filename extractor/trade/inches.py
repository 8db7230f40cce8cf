"""Inches as a tape measures them, and feet and inches."""

from collections.abc import Iterator
from fractions import Fraction

import regex as re

from extractor.trade.text import Span

_SIXTEENTHS = r"(?:[13579]|1[135])/16"
_THIRTY_SECONDS = r"(?:[13579]|[12][13579]|31)/32"
_SIXTY_FOURTHS = r"(?:[13579]|[1-5][13579]|6[13])/64"
TAPE = rf"(?:1/2|[13]/4|[1357]/8|{_SIXTEENTHS}|{_THIRTY_SECONDS}|{_SIXTY_FOURTHS})(?!\d)"  # 3/17 is a date, 6/4 two spacings
WHOLE = r"\d{1,6}+(?![\d/])(?!\.\d)"
DECIMAL = r"\d{0,6}+\.\d{1,6}+(?![\d/])"
NUMBER = rf"(?<![\d/.'-])(?:(?:\d{{1,3}}[ -])?{TAPE}|{DECIMAL}|{WHOLE})"  # 1 1/8, 15/32, .148, 6; never the end of 1/3
ALONE = rf"(?<![\w/.'#-])(?<!\d )(?:(?:\d{{1,3}}[ -])?{TAPE}|{DECIMAL}|{WHOLE})(?! \d)(?!-\d)"  # not half of a torn 1 2
MARK = r"(?:[ -]?(?:\"|in(?:ch(?:es)?)?\b\.?))"  # how inches are marked
FEET_INCHES = rf"(?<![\d/.'-])(?P<feet>\d{{1,2}}) ?'(?: ?-? ?(?P<rest>(?:\d{{1,2}}[ -])?{TAPE}|\d{{1,2}}) ?\"?)?(?!\d)"

_FEET_INCHES = re.compile(FEET_INCHES)


def inches(number: str) -> float:
    """Inches, exact for a tape's fractions.

    >>> inches("1 1/8"), inches("15/32"), inches(".148")
    (1.125, 0.46875, 0.148)
    """
    return float(sum(Fraction(part) for part in re.split("[ -]", number.strip())))


def feet_and_inches(text: str) -> Iterator[tuple[float, Span]]:
    """Lengths written in feet, in inches, each with its span: 4'-0" is 48, 1'-4" is 16, 4' is 48."""
    for m in _FEET_INCHES.finditer(text):
        yield int(m["feet"]) * 12 + (inches(m["rest"]) if m["rest"] else 0.0), m.span()


def as_fraction(value: float) -> str:
    """Inches as a tape reads them, to 1/64; decimals that no tape has stay decimals.

    >>> as_fraction(2.5), as_fraction(0.46875), as_fraction(0.131)
    ('2-1/2', '15/32', '0.131')
    """
    whole, rest = divmod(Fraction(value).limit_denominator(10_000), 1)
    if rest.denominator not in (1, 2, 4, 8, 16, 32, 64):
        return f"{value:g}"
    return "-".join(str(part) for part in (whole, rest) if part) or "0"
