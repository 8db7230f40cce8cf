"""Bottom plate to rim or floor framing, and the shear transfer at the top."""

import regex as re

from extractor.record import State
from extractor.trade.inches import ALONE, DECIMAL, MARK, TAPE, inches
from extractor.trade.nails import PENNIES, PENNY
from extractor.trade.spacing import AT, LIMIT, OC
from extractor.trade.spans import only, parts
from extractor.trade.text import Found

_CLOSEST_IN, _WIDEST_IN = 1.0, 48.0
_SPACING = re.compile(
    rf"(?P<at>{AT} ?)(?P<n>{ALONE}){MARK}?(?: ?{LIMIT})?(?: ?{OC})?(?: ?{LIMIT})?|(?P<n>{ALONE}){MARK}? ?{OC}(?: ?{LIMIT})?", re.I
)
_LONE = re.compile(rf"\s*(?P<n>{ALONE}){MARK}?\s*", re.I)
_PENNY = re.compile(PENNY, re.I)
_NO_NAIL = re.compile(r"(?<!\w)(?:screws?|lags?|bolts?|staples?)(?!\w)", re.I)
_SCREW_SIZE = re.compile(r"(?<![\w/.])(?:\(\d\) ?)?(?:1/4|5/16|3/8)\"? ?x ?\d(?:-\d/\d)?\"?(?! ?x)", re.I)
_SIZE = re.compile(rf"(?<![\w/.'-])(?:{DECIMAL}|{TAPE}){MARK}? ?x ?\d", re.I)
_MODEL = re.compile(
    r"(?<![\w./-])(?P<text>[A-Z]{1,5}-?\d{1,3}[A-Z]{0,2}(?:-[A-Z]?\d{1,3})?)(?![\w/\"'])"
    r"(?: (?:framing )?(?:clips?|angles?|straps?|anchors?|ties?)(?!\w))?"
)
_HARDWARE = re.compile(r"(?<!\w)(?P<text>(?:framing )?(?:clips?|angles?|anchors?))(?!\w)", re.I)
_TOENAIL = re.compile(
    (
        rf"(?<!\w)(?P<text>(?:\((?:\d)\) ?|\d-)?{PENNY}(?: (?:common|com\.|box"
        rf"|sinkers?))?(?: ?(?:t\.?n\.?|toe-?nails?|toe nails?|nails?)(?!\w))?)"
    ),
    re.I,
)
_PLATE = r"(?:sole|bottom|bot\.?|btm\.?|base|sill)[ -]?(?:plate|pl\.?)(?: (?:nailing|nails|to rim|to floor|attachment))?"
_SAYS_PLATE = re.compile(rf"(?<!\w)(?:{_PLATE}|plate nailing|nail(?:ed)? plate)(?!\w)", re.I)


def bottom_plate(text: str) -> list[Found]:
    """Nail size and spacing of a bottom plate; screws, bolts and staples have no field and stay as printed words."""
    found: list[Found] = []
    for m in _PENNY.finditer(text):
        penny = f"{int(m['n'])}d"
        known = penny in PENNIES
        found.append(Found("bottom_plate.penny", penny if known else None, m.span(), State.READ if known else State.UNREADABLE))
    if found or not other_fastener(text):
        found += _spacings(text, "bottom_plate.spacing_in")
    return found


def _spacings(text: str, field: str) -> list[Found]:
    spaced = list(_SPACING.finditer(text))
    lone = _LONE.fullmatch(text)
    found: list[Found] = []
    for m in [*spaced, *([lone] if lone and not spaced else [])]:
        value = inches(m["n"])
        fits = _CLOSEST_IN <= value <= _WIDEST_IN
        found.append(Found(field, value if fits else None, m.span(), State.READ if fits else State.UNREADABLE))
    return found


def other_fastener(text: str) -> bool:
    """Whether the cell speaks of a screw, bolt or staple, which bottom plate nailing has no field for."""
    return bool(_NO_NAIL.search(text) or _SCREW_SIZE.search(text)) and not _PENNY.search(text)


def top_plate(text: str) -> list[Found]:
    """The connector as printed (CP40, 8d TN) and its spacing; two connectors in one cell are unreadable."""
    found = [Found("top_plate.connector", m["text"], m.span()) for m in _MODEL.finditer(text)]
    found += [Found("top_plate.connector", " ".join(m["text"].split()), m.span()) for m in _TOENAIL.finditer(text)]
    if not found:
        found = [Found("top_plate.connector", m["text"], m.span()) for m in _HARDWARE.finditer(text)]
    return found + _spacings(text, "top_plate.spacing_in")


def bottom_plate_in_words(text: str) -> list[Found]:
    """Bottom plate nailing out of running text: only parts that name the plate and hold one nail and one spacing."""
    found: list[Found] = []
    for part in parts(text):
        if _SAYS_PLATE.search(text[slice(*part)]):
            read = bottom_plate(only(text, part))
            if sorted(f.field for f in read) == ["bottom_plate.penny", "bottom_plate.spacing_in"]:
                found += read
    return found
