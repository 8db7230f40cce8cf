"""What general notes say about the whole job: code, seismic category, framing lumber, stud spacing, nails from the panel edge."""

from collections.abc import Callable, Iterator
from typing import Any

import regex as re

from extractor.trade.inches import inches
from extractor.trade.text import Found

YEAR = r"(?:19|20)\d\d"
NAMES = {"INTERNATIONAL BUILDING CODE": "IBC", "INTERNATIONAL RESIDENTIAL CODE": "IRC", "CALIFORNIA BUILDING CODE": "CBC",
         "CALIFORNIA RESIDENTIAL CODE": "CRC"}  # fmt: skip
SPECIES = {"DOUGLAS FIR": "douglas fir-larch", "DF": "douglas fir-larch", "HEM": "hem-fir", "SPRUCE": "spruce-pine-fir",
           "SPF": "spruce-pine-fir", "SOUTHERN": "southern pine"}  # fmt: skip
_NAME = rf"(?P<name>{'|'.join(NAMES)}|\b(?:IBC|IRC|CBC|CRC|SDPWS)\b)(?: ?\((?:IBC|IRC|CBC|CRC|SDPWS)\))?"
_FIRS = r"DOUGLAS FIR(?:[- ]LARCH)?|D\.?F\.?[-/]L\b\.?|HEM[- ]FIR"
_WOOD = rf"(?P<wood>{_FIRS}|SPRUCE[- ]PINE[- ]FIR|\bS-?P-?F\b|SOUTHERN (?:YELLOW )?PINE)"
_STUDS = r"(?:\b(?:WALL )?STUDS?\b|\bWALL FRAMING\b|\bFRAMING LUMBER\b|\bSAWN LUMBER\b)"
_NOT_STUDS = r"(?!\b(?:SILLS?|PLATES?|POSTS?|BEAMS?|JOISTS?|RAFTERS?|BLOCKING)\b)"


def _code(m: Any) -> str:
    name = " ".join(m["name"].upper().split())
    return f"{NAMES.get(name, name)}-{m['before'] or m['after']}"


def _species(m: Any) -> str:
    words = m["wood"].upper().replace(".", "")
    return SPECIES[next(key for key in SPECIES if words.replace("S-P-F", "SPF").startswith(key))]


_TERMS: tuple[tuple[str, Any, Callable[[Any], Any]], ...] = (
    ("codes", re.compile(rf"(?P<before>\b{YEAR}) (?:EDITION )?(?:OF )?(?:THE )?{_NAME}()(?P<after>)", re.I), _code),
    ("codes", re.compile(rf"(?P<before>){_NAME}(?:[-, ]{{1,2}}| EDITION )\(?(?P<after>{YEAR})\b", re.I), _code),
    (
        "categories",
        re.compile(
            r"\b(?:SEISMIC DESIGN CATEGORY|S\.?D\.?C\.?):? ?=? ?\"?(?P<value>[A-F][0-2]?)\b"
            r"(?!\"? ?(?:, ?[A-F][0-2]?\b|-|/|OR\b|AND\b|TO\b|THROUGH\b))",
            re.I,
        ),
        lambda m: m["value"].upper(),
    ),
    ("lumber", re.compile(rf"{_STUDS}(?:{_NOT_STUDS}[^.;\d]){{0,40}}?{_WOOD}", re.I), _species),
    ("lumber", re.compile(rf"{_WOOD}(?:{_NOT_STUDS}[^.;\d]){{0,30}}?{_STUDS}", re.I), _species),
    (
        "stud_spacing_in",
        re.compile(
            r"\bSTUDS?\b(?: (?!\d+d\b)[\w/.x-]+){0,3}? ?(?:@|AT) ?"
            r"(?P<value>12|16|19\.2|24)(?:\"| IN\.?)? ?O\.? ?C\b",
            re.I,
        ),
        lambda m: float(m["value"]),
    ),
    (
        "nail_edge_in",
        re.compile(
            r"\bNAIL[^.;]{0,80}?(?<![\d/-])(?P<value>\d/\d{1,2})(?:\"| IN(?:CH)?\.?) ?(?:MIN(?:IMUM)?\.? )?"
            r"(?:EDGE DISTANCE|FROM (?:THE )?(?:PANEL )?EDGES?)",
            re.I,
        ),
        lambda m: inches(m["value"]),
    ),
)  # fmt: skip


def basis(text: str) -> Iterator[Found]:
    """What plain text says about the whole job, each with its span.

    >>> [(f.field, f.value) for f in basis("DESIGN PER 2018 INTERNATIONAL BUILDING CODE. STUDS DOUGLAS FIR-LARCH.")]
    [('codes', 'IBC-2018'), ('lumber', 'douglas fir-larch')]
    """
    for field, pattern, value in _TERMS:
        for m in pattern.finditer(text):
            yield Found(field, value(m), m.span())
