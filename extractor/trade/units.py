"""Bare numbers in cells whose heading gives another unit: kips under KLF or (KIPS), feet under (FT)."""

import regex as re

from extractor.trade.capacity import LEAST_PLF, MOST_PLF
from extractor.trade.text import Found

_KIPS = re.compile(r"(?<![\w.,/])(?:\d{1,2})?\.\d{1,3}(?![\w.,/])|(?<![\w.,/])\d{1,2}\.\d{1,3}(?![\w.,/])")
_BETWEEN = re.compile(r"[\s/,&]*")
_FEET = re.compile(r"(?P<feet>\d{1,2})(?P<half>\.5|\.0)?")
_LEAST_LB, _MOST_LB = 200.0, 100_000.0


def in_unit(text: str, kind: str, unit: str | None) -> tuple[Found, ...]:
    """The values of a cell that is nothing but numbers in the heading's unit; nothing where it is more, or the unit is plain.

    >>> [f.value for f in in_unit("0.26 / 0.365", "capacity", "klf")], [f.value for f in in_unit("4", "anchors", "ft")]
    ([(260.0, None, None), (365.0, None, None)], [48.0])
    """
    if kind in ("capacity", "hd_capacity") and unit in ("klf", "kip"):
        return _pounds(text, kind)
    if kind == "anchors" and unit == "ft" and (m := _FEET.fullmatch(text.strip())):
        start = len(text) - len(text.lstrip())
        return (Found("anchors.spacing_in", float(m[0]) * 12, (start, start + len(m[0]))),)
    return ()


def _pounds(text: str, kind: str) -> tuple[Found, ...]:
    """Kips as pounds, where all numbers are possible."""
    numbers = list(_KIPS.finditer(text))
    rest = _KIPS.sub("", text)
    values = [round(float(m[0]) * 1000, 3) for m in numbers]
    if not values or not _BETWEEN.fullmatch(rest):
        return ()
    if kind == "hd_capacity":
        fits = len(values) == 1 and _LEAST_LB <= values[0] <= _MOST_LB
        return (Found("capacity_lb", values[0], numbers[0].span()),) if fits else ()
    if not all(LEAST_PLF <= value <= MOST_PLF for value in values):
        return ()
    return tuple(Found("capacity", (value, None, None), m.span()) for value, m in zip(values, numbers, strict=True))
