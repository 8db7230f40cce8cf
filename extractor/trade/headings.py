"""What a column's heading says its cells are, and the facts it states once for all of them.

A heading that spans others arrives joined with theirs, the upper words first: NAILING EDGE, ALLOWABLE SHEAR (ASD) WIND, PLF.
Words that could head two kinds of column give the likelier kind and the others in ``also``: the cells decide.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

import regex as re

from extractor.trade.cellvotes import FITS, votes
from extractor.trade.headingfacts import facts_in, unit_in
from extractor.trade.headingrules import hold_down_column, wall_column, word_for_word
from extractor.trade.headingwords import ideas
from extractor.trade.letterspacing import close_up
from extractor.trade.text import Found
from extractor.trade.titles import title

__all__ = ["Heading", "Table", "heading", "headings", "settle", "votes"]

Table = Literal["wall", "hold-down"]


class Heading(NamedTuple):
    """The kind of cells under a heading, what it says about all of them, and how sure that is.

    ``unit`` holds for bare numbers in the cells: "in", "ft", "plf", "klf", "lb", "kip". ``refs`` are the notes it points to.
    ``yields`` means that the facts are typical, unless noted otherwise.
    """

    kind: str
    facts: tuple[Found, ...] = ()
    unit: str | None = None
    sure: bool = True
    also: tuple[str, ...] = ()
    refs: tuple[str, ...] = ()
    yields: bool = False

    @property
    def load(self) -> str | None:
        """The load a capacity column is for; None where the heading doesn't say it, or says both."""
        return next((f.value for f in self.facts if f.field == "capacity.load"), None)

    @property
    def method(self) -> str | None:
        """ASD, LRFD or nominal; None where the heading doesn't say it."""
        return next((f.value for f in self.facts if f.field == "capacity.method"), None)


_REFS = re.compile(
    r"[\[(]?(?:see )?notes? ?(?P<note>\d+(?: ?(?:,|&|and) ?\d+)*)[\])]?"
    r"|(?<=[A-Za-z.)])(?P<raised>\d(?:, ?\d)*)$|[\[(](?P<closed>\d)[\])]$|(?P<letter>\([a-h]\))(?=(?:\([a-h]\))*$)"
    r"|(?P<star>\*+)$",
    re.I,
)
_YIELDS = re.compile(r"\bu\.?n\.?o\b|unless (?:noted|shown|specified)|\btyp", re.I)
_NOT_A_HEADING = re.compile(
    r"^\W*\"|\b(?:per(?! (?:lin\w*\.? )?(?:ft|foot|lf)\b)|shall|are|is"
    r"|have|has|see (?!notes?\b|table\b|sched)\w+|be|must|stagger|diaphragms?"
    r"|roof(?! ?/| (?:or|to) (?:[a-z]+ to )?(?:top|double|dbl))"
    r"|headers?|beams?|joist(?! conn)s? hangers?|truss\w*(?! ?(?:/|&|(?:or|to|and)\b))|rebar|braced|elevation"
    r"|diagram|plan|schedule)\b(?!\W*$)|\b(?:diaphragms?|diagram|elevation|plan)\W*$|#\d|^\(\d+\) ?\d",
    re.I,
)
_MARK_ON_PLAN = re.compile(r"(?i)(?:marks?|numbers?|symbols?|letters?|types?) (?:on|in|per) (?:the )?plans?")
_VALUE = re.compile(r"\d ?[\"'x]|\(\d{2,}\)|@ ?\d(?!st|nd|rd|th)|\d ?(?:in\b|inch|ft\b|plf)", re.I)
_MOST_WORDS = 16
_SHEETS_WORDS = (
    "SHEATHING NAILING NAIL NAILS EDGE EDGES FIELD SILL PLATE ANCHOR BOLTS BOLT HOLD DOWN MARK TYPE SIZE SPACING PANEL "
    "STUDS AT CAPACITY PLF ANCHORS FACES MODEL POST FASTENERS EMBED BLOCKING REMARKS NOTES"
).split()


def heading(text: str, table: Table = "wall") -> Heading | None:
    """The kind of cells under this heading; None where its words are not a heading's, or contradict each other.

    >>> heading("NAILING EDGE").kind, heading("v (PLF)").unit, heading("SOLE PLATE").also
    ('edge', 'plf', ('sill',))
    """
    words = close_up(text, _SHEETS_WORDS)
    refs = tuple(n for m in _REFS.finditer(words) for n in re.findall(r"\d+|\*+|[a-h]", next(g for g in m.groups() if g)))
    bare = _REFS.sub(lambda m: " " * len(m[0]), words)
    if (
        not bare.strip()
        or len(bare.split()) > _MOST_WORDS
        or votes(text) not in (None, "blocking")
        or votes(bare) not in (None, "blocking")
    ):
        return None
    if _MARK_ON_PLAN.fullmatch(bare.strip()):
        return Heading("mark" if table == "wall" else "hd_mark", refs=refs)
    opened = title(bare)
    if _NOT_A_HEADING.search(bare) or (opened is not None and opened.kind == "wall"):
        return None
    found, unknown = ideas(bare)
    names = [idea.name for idea in found]
    told = word_for_word(bare, table)
    named = told or (wall_column if table == "wall" else hold_down_column)(names, bare)
    strange = [word for word in unknown if not re.fullmatch(r"(?i)d|x|s|mm|[pt]|p\.?t\.?|df(?:-?l)?|hf|spf|cdx|plus|no", word)]
    strange = [word for word in strange if len(word) > 1 or not bare.startswith(f"{word} ")]  # A EDGE: a drawing's key letter
    if named is None or (not told and (len(strange) > 2 or (strange and len(strange) >= len(names)))):
        return None
    facts = facts_in(bare, named.kind) if words == text else ()
    rest = _without(bare, facts)
    if _VALUE.search(rest):
        return None
    return Heading(
        named.kind,
        facts,
        unit_in(bare, named.kind),
        named.sure and not strange and votes(bare) is None and not re.search(r"\d", rest),
        named.also,
        refs,
        _YIELDS.search(bare) is not None,
    )


def _without(text: str, facts: Iterable[Found]) -> str:
    """The text with the words of its facts blanked out."""
    for fact in facts:
        start, end = fact.span
        text = text[:start] + " " * (end - start) + text[end:]
    return text


def settle(head: Heading, cells: Sequence[str]) -> Heading:
    """The heading with the kind that its cells fit best, among the kinds its words allow; itself where they don't tell.

    The cells' text in plain spelling. ``sure`` becomes True where all that vote agree on one kind.
    """
    kinds = (head.kind, *head.also)
    counted = [kind_votes for cell in cells if (kind_votes := FITS.get(votes(cell) or ""))]
    if len(kinds) == 1 or not counted:
        return head
    tally = {kind: sum(kind in fits for fits in counted) for kind in kinds}
    best = max(kinds, key=lambda kind: tally[kind])
    if tally[best] == tally[head.kind]:
        return head
    return head._replace(kind=best, also=tuple(k for k in kinds if k != best), sure=tally[best] == len(counted))


def headings(texts: Iterable[str], table: Table = "wall") -> tuple[Heading | None, ...]:
    """The heading of each column."""
    return tuple(heading(text, table) for text in texts)
