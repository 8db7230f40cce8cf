"""Lumber in a schedule: framing where panel edges abut, the sill plate; and whether panel edges are blocked."""

from collections.abc import Iterator
from itertools import pairwise

import regex as re

from extractor.record import State
from extractor.trade.spans import around, only, parts
from extractor.trade.text import Found, Span

_COUNT = r"(?:\((?P<n>[1-4])\) ?-? ?|(?P<n>[1-4])-|(?P<word>single|one|double|doubled|dbl\.?|two|triple|three)[ -])"
_WIDTH = r"(?:4|6|8|10|12)"
_X = rf" ?-?x(?: ?{_WIDTH}(?!\d)(?!\"|['.-]|/\d(?!x)| ?x ?\d))?(?![\w.])(?! ?\d)"
_NOMINAL = r"\"? ?(?:in\. ?)?nom(?:inal|\.)?(?!\w)\.?"
LUMBER = rf"(?<![\w.'\"-])(?<!\d/){_COUNT}?(?P<x>[2-8])(?:{_X}|{_NOMINAL})"
_LUMBER = re.compile(LUMBER, re.I)
_WORDS = {"single": 1, "one": 1, "double": 2, "doubled": 2, "dbl": 2, "two": 2, "triple": 3, "three": 3}
_OR = re.compile(r"(?P<or>[\s,]*\(?or\)?[\s,]*)|[\s/&]*", re.I)

_MEMBER = (
    r"(?:studs?|framing|members?|mullions?|posts?|or (?:wider|thicker|larger)|min(?:imum)?\.?"
    r"|nom(?:inal|\.)?|wide|thick|lumber)(?!\w)\.?"
)
_JOINT = r"(?:(?:all )?(?:abutting|adjoining|adjacent|vert(?:ical|\.)?) )?(?:panel |sheathing )?(?:edges?|joints?|panels?)(?!\w)"
_AT_JOINT = rf"(?: ?(?:@|at|where|for) ?(?:{_JOINT}(?: (?:abut|meet|adjoin)(?!\w))?))"
_ENOUGH = r"(?: (?:are|is|shall be)(?: (?:sufficient|adequate|acceptable|enough|used|provided|required|placed|installed))?)"
_AFTER_PANEL_EDGE = re.compile(rf"(?: ?{_MEMBER}){{0,2}}(?:{_ENOUGH}?{_AT_JOINT})?", re.I)
_AFTER_SILL = re.compile(
    (
        r"(?:[ ,]*(?:p\.? ?t\.?(?:d\.?f\.?)?|pressure[- ]treated|treated|d\.?f\.?|hf|mud ?sill|sills?"
        r"|plates?|pl\.|min\.?|nom\.?)(?!\w)\.?)*"
    ),
    re.I,
)
_BEFORE_SILL = re.compile(
    r"(?:(?:p\.? ?t\.?(?:d\.?f\.?)?|pressure[- ]treated|treated|mud ?sill:?|sill:?|plate:?)(?!\w)\.?[ ,]*)+$", re.I
)

_EDGES = r"(?:all )?(?:panel )?(?:edges|joints)"
_HORIZONTAL = r"(?:@|at) ?(?:all )?(?:horiz(?:ontal|\.)?|unsupported|panel) ?(?:panel )?(?:edges|joints|jts\.?)"
_BLOCK = r"(?:block(?:ed|ing)?|blk'?g\.?|blk'?d\.?|blkd\.?)"
_NOT = r"(?:not req'?d\.?|not required|none|no)"
_UNBLOCKED = (
    r"(?:un-?(?:blocked|blk'?d\.?)|not blocked|no (?:blocking|blk'?g\.?)(?: req'?d\.?| required)?|without blocking"
    rf"|(?:blocking|blk'?g\.?)[ :]*{_NOT})"
)
_BLOCKED = (
    rf"{_BLOCK} (?:at )?{_EDGES}|{_EDGES} (?:shall be |to be )?{_BLOCK}|{_BLOCK} {_HORIZONTAL}"
    rf"|(?:provide )?{_BLOCK} req'?d\.?|{_BLOCK}"
)
_BLOCKING = re.compile(rf"(?<![\w-])(?:(?P<no>{_UNBLOCKED})|(?P<yes>{_BLOCKED}))(?!\w)", re.I)
_SURE_BLOCKING = re.compile(
    (
        rf"(?<![\w-])(?:(?P<no>un-?blocked|not blocked)|(?P<yes>{_BLOCK} (?:at )?{_EDGES}"
        rf"|{_EDGES} (?:shall be |to be )?{_BLOCK}|blocked|blk'?d\.?|blkd\.?))(?!\w)"
    ),
    re.I,
)
_BLOCKING_CELL = re.compile(
    rf"\(?(?:(?P<yes>yes|y|req'?d\.?|required|all|{_EDGES}|provide|✓|✔|√|☑)"
    r"|(?P<no>no|n|none|none req'?d\.?|not req'?d\.?|not required))\.?\)?(?P<typical>[, (]*(?:typ|u\.n\.o)\.?\)?)?",
    re.I,
)
_FLAT_BLOCK = re.compile(r"[23] ?x(?: ?[468])? (?:flat(?:wise)?|blocks?|blk'?g\.?|blocking)(?: (?:flat(?:wise)?|min\.?))?", re.I)
_FLAT = re.compile(rf"(?<!\w)(?:flat(?:wise)? ?)?{_HORIZONTAL}(?!\w)", re.I)


def lumber(text: str) -> list[tuple[str, Span]]:
    """Lumber by nominal thickness with its span: 3x is "3x", (2)2x and DBL 2x6 are "2-2x", 3" NOM. is "3x"."""
    return [(_thickness(m), m.span()) for m in _LUMBER.finditer(text)]


def _thickness(m: "re.Match[str]") -> str:
    count = int(m["n"]) if m["n"] else _WORDS[m["word"].lower().rstrip(".")] if m["word"] else 1
    return f"{count}-{m['x']}x" if count > 1 else f"{m['x']}x"


def panel_edge(text: str) -> list[Found]:
    """Framing where panels abut; alternatives joined by OR are one value, any other second size makes it unreadable."""
    return [_covered(text, f, _AFTER_PANEL_EDGE) for f in _alternatives(text, "framing.panel_edge")]


def sill(text: str) -> list[Found]:
    """The sill plate's nominal thickness, with the words for treated lumber round it."""
    found = []
    for f in _alternatives(text, "framing.sill"):
        before = _BEFORE_SILL.search(text, 0, f.span[0])
        covered = _covered(text, f, _AFTER_SILL)
        found.append(covered._replace(span=(before.start(), covered.span[1])) if before else covered)
    return found


def _alternatives(text: str, field: str) -> Iterator[Found]:
    sizes = lumber(text)
    if not sizes:
        return
    values = list(dict.fromkeys(value for value, _ in sizes))
    span = around(span for _, span in sizes)
    if len(values) == 1:
        together = all(_joint(text, a, b) for (_, a), (_, b) in pairwise(sizes))
        yield from [Found(field, values[0], span)] if together else [Found(field, values[0], s) for _, s in sizes]
    elif all(_joint(text, a, b) == "or" for (_, a), (_, b) in pairwise(sizes)):
        yield Found(field, " or ".join(values), span)
    else:
        yield Found(field, None, span, State.UNREADABLE)


def _joint(text: str, one: Span, other: Span) -> str:
    m = _OR.fullmatch(re.sub(rf"\b{_MEMBER}", " ", text[one[1] : other[0]], flags=re.I))
    return "" if not m else "or" if m["or"] else "and"


def _covered(text: str, found: Found, after: "re.Pattern[str]") -> Found:
    m = after.match(text, found.span[1])
    return found._replace(span=(found.span[0], m.end() if m else found.span[1]))


def blocking(text: str) -> list[Found]:
    """Blocked or not, out of a blocking column, where YES, ALL EDGES and a tick are enough."""
    m = _BLOCKING_CELL.fullmatch(text.strip())
    if m:
        start = len(text) - len(text.lstrip())
        return [Found("framing.blocked", bool(m["yes"]), (start, start + m.end() - len(m["typical"] or "")))]
    found = _blocked(_BLOCKING, text)
    if not found and (m := _FLAT_BLOCK.fullmatch(text.strip())):
        start = len(text) - len(text.lstrip())
        return [Found("framing.blocked", True, (start, start + len(m[0])))]
    return found or [Found("framing.blocked", True, m.span()) for m in _FLAT.finditer(text)]


def blocking_in_words(text: str) -> list[Found]:
    """Blocked or not, out of running text: BLOCKED, UNBLOCKED, BLOCK ALL PANEL EDGES."""
    return _blocked(_SURE_BLOCKING, text)


def _blocked(pattern: "re.Pattern[str]", text: str) -> list[Found]:
    """What the words say; with a NOT, NO or EXCEPT close by that no pattern knows it is unreadable."""
    found = []
    for m in pattern.finditer(text):
        doubt = not m["no"] and (_BUT.match(text, m.end()) or _BUT_BEFORE.search(text, 0, m.start()))
        found.append(
            Found("framing.blocked", None if doubt else bool(m["yes"]), m.span(), State.UNREADABLE if doubt else State.READ)
        )
    return found


_BUT = re.compile(r"(?: \w+){0,3}[ :(-]*(?<!\w)(?:not?|none|except|unless|n/a|where|only)(?!\w)", re.I)
_BUT_BEFORE = re.compile(r"(?<!\w)(?:not?|none|except|unless)(?: \w+){0,2} $", re.I)
_STITCHED = re.compile(
    rf"(?:(?<=(?:\(2\) ?-? ?|2-|dbl\.? |double |two )2 ?x(?: ?{_WIDTH})?(?: studs?)?[ ,]+)(?:w/ ?|with )(?=[^;]*\dd)"
    r"|(?<!\w)stitch\w*(?: nail\w*)?|(?<!\w)nailed together|(?<!\w)laminated|(?<!\w)face[- ]?nail\w*)[^,;]*+",
    re.I,
)
_JOINT_BEFORE = re.compile(rf"(?:{_AT_JOINT}|(?<!\w){_JOINT}) ?(?:{_MEMBER} ?)?[:=]? ?$", re.I)


def stitching(text: str) -> list[Span]:
    """Spans of the words that say how two studs are nailed together; never wall nailing."""
    return [m.span() for m in _STITCHED.finditer(text)]


def panel_edge_in_words(text: str) -> list[Found]:
    """Framing where panels abut, out of running text: only lumber right beside the words for a panel joint."""
    found = (_beside_joint(text, f, part) for part in parts(text) for f in panel_edge(only(text, part)))
    return [f for f in found if f]


def _beside_joint(text: str, found: Found, part: Span) -> Found | None:
    if re.search(_AT_JOINT, text[slice(*found.span)], re.I):
        return found
    before = _JOINT_BEFORE.search(text, part[0], found.span[0])
    return found._replace(span=(before.start(), found.span[1])) if before else None


def sill_in_words(text: str) -> list[Found]:
    """The sill plate out of running text: only lumber right beside SILL or MUDSILL."""
    found = [f for part in parts(text) for f in sill(only(text, part))]
    return [f for f in found if re.search(r"sill", text[slice(*f.span)], re.I)]
