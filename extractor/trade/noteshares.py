"""One value each for several types in a sentence: STUDS AT PANEL JOINTS: 2x AT SW1 AND SW2, 3x AT SW3."""

from collections.abc import Collection
from typing import NamedTuple

import regex as re

from extractor.record import State
from extractor.trade.framing import panel_edge
from extractor.trade.text import Found

_LUMBER = r"(?:(?:\([12]\) ?-?|double |dbl\.? |2-)?[234] ?-?x(?: ?\d{1,2}(?![\d\"/]))?)"
_MARK = r"(?:(?!\d ?x\b)(?:[A-Z]{0,4}-?\d{1,2}[A-Z]?|[A-Z]{1,2})(?![\w\"'/]))"
_AND = r"(?: ?, ?(?:and |& |or )?| ?& ?| and | or )"
_SHARE = (
    rf"(?P<value>{_LUMBER}) ?(?:studs? |members? |framing )?(?:at|@|for|on) (?:(?:shear )?(?:walls? )?(?:types?|walls?|marks?) )?"
    rf"(?P<marks>{_MARK}(?:{_AND}{_MARK})*)"
)
_JOINT = r"(?:(?:abutting|adjoining) (?:panel )?(?:edges?|panels?|joints?)|panel (?:joints?|edges?))"
_SHARES = re.compile(
    rf"(?P<subject>[^\d]*?\b{_JOINT}(?: of (?:all )?shear walls)?)(?: (?:shall|must|to)(?: be)?| (?:are|is))? ?:?,? ?(?:a )?"
    rf"{_SHARE}(?:(?: ?[,;] ?(?:and )?| and ){_SHARE})+\.?\s*",
    re.I,
)
_SUBJECT = re.compile(r"\b(?:studs?|framing|members?)\b", re.I)
_NOT_STUDS = re.compile(r"\b(?:block\w*|blk'?g|sills?|plates?|not?|except)\b", re.I)


class Share(NamedTuple):
    """A value for the types that a part of a sentence names."""

    marks: tuple[str, ...]
    found: Found


def shares(sentence: str, known: Collection[str]) -> tuple[Share, ...]:
    """The framing at panel joints that a sentence shares out among types; nothing unless every mark is a scheduled one, once."""
    m = _SHARES.fullmatch(sentence)
    if m is None or not _SUBJECT.search(m["subject"]) or _NOT_STUDS.search(m["subject"]):
        return ()
    out = []
    for value, marks, span in zip(m.captures("value"), m.captures("marks"), m.spans("value"), strict=True):
        named = tuple(
            part for part in re.split(r"(?i) ?, ?(?:and |& |or )?| ?& ?| and | or |/| (?:types?|walls?) ", marks) if part
        )
        read = panel_edge(value)
        if not set(named) <= set(known) or len(read) != 1 or read[0].state is not State.READ:
            return ()
        out.append(Share(named, Found("framing.panel_edge", read[0].value, span)))
    told = [mark for share in out for mark in share.marks]
    return tuple(out) if len(told) == len(set(told)) else ()
