"""Which letters of a cell are spoken for: masking, what is left over, and one value a field."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

import regex as re

from extractor.record import State
from extractor.trade.text import Found, Span

MASK = "\0"  # stands for letters already read; no pattern matches it
MANY = frozenset({"capacity"})  # fields of which one cell may hold several
_CHUNK = re.compile(rf"[^\s{MASK}]++")
_SHORTENED = "(?:stagg?|struct?|embed|interm|galv|shtg|plywd|blkg|anch|sched|diam|horiz|vert|memb|bndry|perim|supp|typ|edg|cont)"
_PART = re.compile(rf"(?:\([^()]*+\)|[^,;.]|\.(?!\s|$)|(?<=(?<!\w)(?:\w{{1,3}}|{_SHORTENED}))\.|,(?=\d{{3}}(?!\d)))++", re.I)
_PUNCTUATION = " ,;:.()[]&+=-/@*"


def mask(text: str, spans: Iterable[Span]) -> str:
    """The text, as long as before, with the letters inside the spans made unreadable."""
    letters = list(text)
    for start, end in spans:
        letters[start:end] = MASK * (end - start)
    return "".join(letters)


def mask_found(text: str, found: Iterable[Found]) -> str:
    """The text with the letters of what was found made unreadable."""
    return mask(text, (f.span for f in found))


def only(text: str, span: Span) -> str:
    """The text, as long as before, with everything outside the span made unreadable."""
    return MASK * span[0] + text[slice(*span)] + MASK * (len(text) - span[1])


def parts(text: str) -> list[Span]:
    """The parts of running text between commas, semicolons and full stops; brackets and abbreviations stay whole."""
    return [m.span() for m in _PART.finditer(text) if re.search(r"\w", m.group())]


def trimmed(text: str, span: Span) -> Span:
    """The span without blanks at its ends."""
    start, end = span
    while start < end and text[start].isspace():
        start += 1
    while start < end and text[end - 1].isspace():
        end -= 1
    return start, end


def leftovers(text: str, spans: Iterable[Span]) -> list[Span]:
    """Chunks of the text that no span touches, without bare punctuation."""
    chunks = (m for m in _CHUNK.finditer(mask(text, spans)))
    return [m.span() for m in chunks if m.group().strip(_PUNCTUATION)]


def overlap(one: Span, other: Span) -> bool:
    """Whether two spans share a letter."""
    return one[0] < other[1] and other[0] < one[1]


def around(spans: Iterable[Span]) -> Span:
    """The span from the first letter to the last."""
    starts, ends = zip(*spans, strict=True)
    return min(starts), max(ends)


def settled(found: Iterable[Found]) -> list[Found]:
    """One value a field, in order of place: the same said twice stays, two values in one field become one unreadable."""
    by_field: dict[str, list[Found]] = {}
    for f in sorted(found, key=lambda f: (f.span[0], -f.span[1])):
        kept = by_field.setdefault(f.field, [])
        clash = next((i for i, k in enumerate(kept) if overlap(k.span, f.span)), None)
        if clash is None:
            kept.append(f)
        elif (kept[clash].value, kept[clash].state) != (f.value, f.state):
            kept.append(f)  # two readings of the same letters: settled below as two values
    return sorted((g for field, group in by_field.items() for g in _one_value(field, group)), key=lambda f: f.span)


def _one_value(field: str, group: Sequence[Found]) -> Sequence[Found]:
    if len(group) == 1 or (field in MANY and not _touching(group)):
        return group
    if len({(repr(f.value), f.state) for f in group}) == 1 and not _touching(group):
        return group
    return (Found(field, None, around(f.span for f in group), State.UNREADABLE),)


def _touching(group: Sequence[Found]) -> bool:
    return any(overlap(a.span, b.span) for a, b in pairwise(group))
