"""A rule and its exception in one sentence: PLYWOOD ON ONE FACE, EXCEPT PD ON BOTH FACES; WASHERS 3 x 3 x 1/4 EXCEPT AT G1."""

from collections.abc import Collection
from typing import NamedTuple

import regex as re

from extractor.record import State
from extractor.trade.framing import panel_edge, sill
from extractor.trade.headingfacts import FACES
from extractor.trade.notemarks import marks
from extractor.trade.text import Found, Span

_EXCEPT = re.compile(r"[, ]+\(?except(?:ing)?(?: that| for| at| in)?(?= )", re.I)


class Excepted(NamedTuple):
    """Where the rule and its exception stand, the types that each is for."""

    rule: Span
    rest: tuple[str, ...]
    exception: Span
    named: tuple[str, ...]


def excepted(sentence: str, known: Collection[str]) -> Excepted | None:
    """The two parts of a sentence with one EXCEPT whose words name scheduled types; None for any other."""
    found = list(_EXCEPT.finditer(sentence))
    if len(found) != 1 or not known:
        return None
    before, after = sentence[: found[0].start()], sentence[found[0].end() :]
    named = tuple(dict.fromkeys(mark for group, _ in marks(after, known) for mark in group))
    rest = tuple(mark for mark in sorted(known) if mark not in named)
    if not named or not rest or not set(named) <= set(known) or any(marks(before, known)):
        return None
    return Excepted((0, len(before)), rest, (found[0].end(), len(sentence)), named)


def instead(rule: Collection[Found], words: str) -> tuple[Found, ...]:
    """What the exception gives in place of the rule's faces or lumber, with spans in its own words."""
    fields = {f.field for f in rule}
    out: list[Found] = []
    if "sheathing.faces" in fields:
        out += [Found("sheathing.faces", 1 if m["one"] else 2, m.span()) for m in FACES.finditer(words)][:1]
    for field, read in (("framing.panel_edge", panel_edge), ("framing.sill", sill)):
        given = read(words) if field in fields else []
        out += given if len(given) == 1 and given[0].state is State.READ else []
    return tuple(out)
