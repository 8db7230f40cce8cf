"""Where a note's statements begin and end: several notes run together are parted at their numbers, a note at its sentences."""

from collections.abc import Iterator
from typing import NamedTuple

import regex as re

from extractor.trade.notesubjects import conditional
from extractor.trade.text import Span

_COUNTED = (
    r"(?:rows?|sides?|faces?|in\b|inch|ft\b|feet|ply|plies|layers?|ga\b|bolts?|nails?|studs?|pieces?|per\b|x\b|hours?"
    r"|and\b|or\b|thru\b|to\b|shall\b|are\b|is\b|ha(?:s|ve)\b|means?\b|must\b|walls?\b|types?\b)"
)
_NUMBER = re.compile(
    r"\s*(?:notes? ?)?[(\[]?(?:(?P<number>\d{1,3})(?:[.):\],](?!\d)| ?- "
    rf"|\s+(?=[A-Z][A-Za-z]+ )(?!{_COUNTED}))|(?P<letter>[A-Za-z])(?:[.)](?=\s)(?!\s[A-Z]\.)|\)))\s*"
    r"|\s*notes?(?: ?(?P<after>\d{1,2}))?: ?|\s*(?P<star>\*+)\s*",
    re.I,
)
_SHORT = (
    r"(?:o\.?c|in|ft|embed|bd|min|max|dia|diam|a\.?b|no|typ|nom|req'?d|eq|w/o|ext|int|pl|plywd|shtg|blkg|galv"
    r"|com|struct|str|u\.?n\.?o|e\.?n|f\.?n|b\.?n|approx|nos|conc|fdn|fnd|ga|hd|p\.?t(?:\.?d\.?f)?|d\.?f|dbl|stagg?|horiz|vert|gyp"
    r"|bd|i\.?e|e\.?g|sq|thk|lg|ea|dtl|det|ref|sht|dwg|flr|abut|adj|interm|sched|memb|pnls?)"
)
_STRONG = (
    r"(?:provide|use|block|nails|see|where|sheath|stagger|install|values|capacities|plate washers"
    r"|all (?:nails|panel edges|edges|bolts|anchor|plate|walls|panels|shear|others?)"
    r"|edge spacings?|shear walls?|wall type|hold-?downs?|no hold|allowable|add|do not|exterior walls|interior walls"
    r"|sole plates|bottom plates|sills|sill plates)"
)
_STARTS = (
    rf"(?:{_STRONG}|nail|embed|anchor bolts|sill bolts|each|panels|sheathing|fasteners|field nailing|edge nailing|blocking|3x)"
)
_CAN_END = re.compile(r"(?i)(?:o\.?c|\bin|u\.?n\.?o|typ|req'?d|conc|embed)$")
_OTHERS = (
    r", ?(?=(?:and |with )?(?:all (?:the )?|the )?"
    r"(?:others\b|(?:other|remaining) (?:(?:shear )?(?:wall )?(?:types?|marks?)|shear walls?)\b))"
)
_BREAK = re.compile(
    r"(?<=[a-z\d)\"'])\.(?=\s|$)|;(?! ?(?:and )?(?:[234] ?x[^;]{0,40}? (?:at|for|on) |\d{1,2}d\b[^;]{0,20}\.\d))"
    r"|, ?(?=(?:exterior|interior|outside|inside) (?:side|face)\b)"
    rf"|(?<=[a-z\d)\"'.]) - (?={_STARTS}\b)|{_OTHERS}|(?<=[.)] )(?=[*†‡§]{{1,2}} ?[A-Z])",
    re.I,
)
NEAR = 40  # letters: more than any word that has a say in what follows
_AFTER_SHORT = re.compile(rf"(?:^|[^a-z]){_SHORT}$", re.I)
_ENUMERATED = re.compile(
    r"(?<![\w.,/\"'(-])(?:\((?P<item>\d{1,2}|[a-h]|[A-H])\)(?= ?[A-Z\"])"
    r"|(?P<item>\d{1,2})[.)](?= ?(?:[A-Z][A-Za-z.]|\d{1,2} ?[xd\"/]))"
    r"|(?P<item>[a-h]|[A-H])(?:\.(?= [A-Z\d])(?! [A-Z]\. )|\)(?= ?[A-Z])))"
)
_POINTER = re.compile(
    r"(?i)(?:\b(?:notes?|types?|details?|dtls?\.?|dets?\.?|marks?|walls?|items?|sections?|tables?|grade|gr\.|no\.|nos\.|units?|lines?|grids?"
    r"|sheets?|sht\.|and|or|to|step|plans?|class|group|zone|category|figures?|fig\.|exposure|levels?|floors?|per|see|at|of|with|than|least|x)|[&,@=x/-])$"
)


class Part(NamedTuple):
    """One of several notes in a text: where it is, and whether it stands under the one before (a. under 2.)."""

    span: Span
    under: bool = False


def number(text: str) -> tuple[str | None, int]:
    """The number, letter or star that a note begins with, and where its words begin."""
    m = None if re.match(r"\s*\(\d\) ?\d ?x", text) else _NUMBER.match(text)  # (2) 2x STUDS
    if not m:
        return None, 0
    return next((g for g in m.groups() if g), None), m.end()


def parts(text: str) -> list[Part]:
    """The notes that a text holds, without their numbers: 1. ... 2. ..., NOTES: a. ... b. ...; the text itself, if it is one."""
    first, start = number(text)
    kind = _kind(first) if first else None
    last, at, under = first, start, False
    out: list[Part] = []
    for m in _ENUMERATED.finditer(text, start):
        item = m["item"]
        if not _begins(text, start, m, last):
            continue
        out.append(Part((at, m.start()), under))
        kind = kind or _kind(item)
        last, at, under = item, m.end(), _kind(item) != kind
    return [*out, Part((at, len(text)), under)]


def _kind(item: str) -> str:
    """Numbers, capitals and small letters count each on their own level."""
    return "number" if item.isdigit() else "capital" if item.isupper() else "small"


def _begins(text: str, start: int, m: "re.Match[str]", last: str | None) -> bool:
    """Whether a number or letter begins a note: after a sentence, or as the next in the count, and no word points to it."""
    before = text[max(start, m.start() - NEAR) : m.start()].rstrip()
    if not before:
        return start > 0
    if _POINTER.search(before):
        return False
    if before[-1] in ".;:":
        return True
    follows = last is not None and (m["item"] == str(int(last) + 1) if last.isdigit() else m["item"] == chr(ord(last[0]) + 1))
    return follows and (not m[0].endswith(".") or re.search(r"[A-Za-z]{4}$|\"$", before) is not None)


def sentences(text: str, span: Span) -> Iterator[Span]:
    """The statements' spans: parted at sentence ends and semicolons, not at the point of an abbreviation."""
    at, end = span
    for m in _BREAK.finditer(text, at, end):
        if m.start() < at:
            continue
        word = text[max(at, m.start() - NEAR) : m.start()]  # not all before it: a note may repeat itself for ever
        if m[0] == "." and _AFTER_SHORT.search(word):
            goes_on = not (_CAN_END.search(word) and re.match(rf"\s+{_STRONG}\b", text[m.end() : end], re.I))
            if goes_on or conditional(text[at : m.start()]):
                continue
        yield from _trimmed(text, at, m.end() if m[0] == "." else m.start())
        at = m.end()
    yield from _trimmed(text, at, end)


def _trimmed(text: str, start: int, end: int) -> Iterator[Span]:
    """The span without the space round it, if anything is left."""
    words = text[start:end]
    if words.strip().strip(" .;,-"):
        yield start + len(words) - len(words.lstrip()), end - (len(words) - len(words.rstrip()))
