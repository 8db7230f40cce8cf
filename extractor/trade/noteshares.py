"""One value each for several types in a sentence: STUDS AT PANEL JOINTS: 2x AT SW1 AND SW2, 3x AT SW3."""

from collections.abc import Callable, Collection
from itertools import pairwise
from typing import NamedTuple

import regex as re

from extractor.record import State
from extractor.trade.framing import panel_edge, sill
from extractor.trade.inches import inches
from extractor.trade.notemarks import marks
from extractor.trade.text import Found, Span

_LUMBER = r"(?:(?:\([12]\) ?-?|double |dbl\.? |2-)?[234] ?-?x(?: ?\d{1,2}(?![\d\"/]))?)"
_MARK = r"(?:(?!\d ?x\b)(?:[A-Z]{0,4}-?\d{1,2}[A-Z]?|[A-Z]{1,2})(?![\w\"'/]))"
_AND = r"(?: ?, ?(?:and |& |or )?| ?& ?| and | or | thru | through | to | ?- ?)"
_TYPES = (
    r"(?:(?:shear )?(?:walls? )?(?:types?|walls?|marks?|nos?\.) )?"
    rf"(?P<marks>{_MARK}(?:{_AND}{_MARK})*|(?:the |all )*others?(?: (?:types?|walls?))?)"
)
_TREATED = r"(?:(?:studs?|members?|framing|p\.?t\.?(?:d\.?f\.?)?|treated|pressure[- ]treated|sills?|plates?) )*"
_AND_SO_ON = r"(?:(?: ?[,;] ?(?:and )?| and )%s)+\.?\s*"
_SHARE = rf"(?P<value>{_LUMBER}) ?{_TREATED}(?:at|@|for|on) {_TYPES}"
_JOINT = r"(?:(?:abutting|adjoining) (?:panel )?(?:edges?|panels?|joints?)|panel (?:joints?|edges?))"
_ON_CONCRETE = r"(?: (?:on|at) (?:the )?(?:concrete|conc\.|slabs?|foundations?|podium))"
_SHARES = re.compile(
    rf"(?P<subject>[^\d]*?\b(?:(?P<joint>{_JOINT})|(?P<sill>(?:mud ?)?sills?(?: plates?)?{_ON_CONCRETE}?))"
    r"(?: of (?:all )?shear walls)?)"
    rf"(?: (?:shall|must|to)(?: be)?| (?:are|is))? ?:?,? ?(?:a )?{_SHARE}{_AND_SO_ON % _SHARE}",
    re.I,
)
_VALUE_FIRST = re.compile(  # 3x STUDS AT ABUTTING PANEL EDGES OF MARKS B AND C; 2x AT MARK A
    rf"(?P<value>{_LUMBER}) (?P<subject>(?:studs?|framing|members?)(?: members?)? (?:at|@) (?:all )?(?P<joint>{_JOINT})) "
    rf"(?:of|at|for|in) {_TYPES}{_AND_SO_ON % _SHARE}",
    re.I,
)
_SPACED = rf"(?P<value>\d(?:-\d/\d)?) ?\" ?(?:o\.?c\.? )?(?:at|@|for) {_TYPES}"
_PLATES = re.compile(  # NAIL BOTTOM PLATES TO RIM WITH 16d @ 6" AT MARK A, 4" AT MARK B
    rf"[^\d]*\b(?:bottom|sole) (?:plates?|pl\.)[^\d]*\b(?P<penny>\d{{1,2}}d) ?(?:@|at) ?{_SPACED}{_AND_SO_ON % _SPACED}", re.I
)
_STUDS = re.compile(r"\b(?:studs?|framing|members?)\b", re.I)
_WITH_BLOCKS = re.compile(r"\bstuds? (?:and|&|or) (?:blocking|blocks|blk'?g\.?)", re.I)
_NOT = re.compile(r"\b(?:block\w*|blk'?g|not?|except|bolts?|anchors?|nail\w*)\b", re.I)
_SIZE = re.compile(rf"(?<![\w/.-]){_LUMBER}|\d ?\"|\d ?d\b|\d/\d", re.I)


class Share(NamedTuple):
    """Values for the types that a part of a sentence names."""

    marks: tuple[str, ...]
    found: tuple[Found, ...]


def shares(sentence: str, known: Collection[str]) -> tuple[Share, ...]:
    """Framing at panel joints, sills or plate nails that a sentence shares out among types.

    Nothing unless every mark is a scheduled one, and told once.
    """
    if m := _PLATES.fullmatch(sentence):
        penny = Found("bottom_plate.penny", m["penny"].lower(), m.span("penny"))
        return _told(m, known, lambda value, span: (penny, Found("bottom_plate.spacing_in", inches(value), span)))
    m = _SHARES.fullmatch(sentence) or _VALUE_FIRST.fullmatch(sentence)
    if m is None or _NOT.search(_WITH_BLOCKS.sub("studs", m["subject"])) or (m["joint"] and not _STUDS.search(m["subject"])):
        return ()
    return _told(m, known, _joint if m["joint"] else _sill)


def _joint(value: str, span: Span) -> tuple[Found, ...]:
    return tuple(f._replace(span=span) for f in panel_edge(value) if f.state is State.READ)


def _sill(value: str, span: Span) -> tuple[Found, ...]:
    return tuple(f._replace(span=span) for f in sill(value) if f.state is State.READ)


def _told(m: "re.Match[str]", known: Collection[str], read: Callable[[str, Span], tuple[Found, ...]]) -> tuple[Share, ...]:
    """The shares of a sentence; nothing where a value or a mark is not understood."""
    out: list[Share] = []
    for value, listed, span in zip(m.captures("value"), m.captures("marks"), m.spans("value"), strict=True):
        rest = re.fullmatch(r"(?i)(?:the |all )*others?.*", listed) is not None
        named = tuple(k for k in sorted(known) if not any(k in s.marks for s in out)) if rest else _named(listed, known)
        found = read(value, span)
        if not named or not found:
            return ()
        out.append(Share(named, found))
    told = [mark for share in out for mark in share.marks]
    return tuple(out) if len(told) == len(set(told)) else ()


def _named(listed: str, known: Collection[str]) -> tuple[str, ...]:
    """The scheduled types of a list, a range as all it holds; none where one of them is not scheduled."""
    parts = re.split(r"(?i) ?, ?(?:and |& |or )?| ?& ?| and | or ", listed)
    groups = [next((names for names, _ in marks(f"TYPES {part}", known)), ()) for part in parts]
    held = [tuple(name for name in names if name in known) for names in groups]
    return tuple(dict.fromkeys(name for names in held for name in names)) if all(held) else ()


def alternating(sentence: str, known: Collection[str]) -> bool:
    """Whether a sentence gives values and types by turns (2x AT SW1, 3x AT SW2): no value of it is for all that it names."""
    groups = sorted(span for _, span in marks(sentence, known))
    between = [sentence[a[1] : b[0]] for a, b in pairwise(groups)]
    return any(_SIZE.search(part) for part in between)
