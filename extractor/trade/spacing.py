"""Nail spacings: at the panel edges, in the field, how many rows, whether staggered."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

import regex as re

from extractor.record import State
from extractor.trade.inches import ALONE, MARK, TAPE, inches
from extractor.trade.spans import MASK, around, mask, mask_found
from extractor.trade.text import Found, Span

Column = Literal["edge", "field", "nailing", "fastener"]

CLOSEST_IN, WIDEST_IN = 1.0, 24.0  # no nail in a wall is spaced outside; the number is something else
OC = (
    r"(?:(?<![A-Z])o\.? ?/?c(?!\w)\.?|(?<![A-Z])on[ -]?cent(?:er|re)s?(?!\w)|c\.?(?: ?to ?|/"
    r"|-)c(?!\w)\.?|(?<!\w)(?:ctrs?|centers?|centres?)(?!\w)\.?)"
)
AT = r"(?:@|(?<!\w)(?:at|spaced)(?!\w))"
LIMIT = r"(?:(?<!\w)(?:max(?:imum)?|min(?:imum)?|typ(?:ical)?)(?!\w)\.?)"
_UNIT = rf"(?P<unit>{MARK}? ?{LIMIT}? ?{OC}(?: ?{LIMIT})?|{MARK}(?: ?{LIMIT})?)"

_TO = r"(?:(?:@|(?<!\w)(?:at|along|in|into|to|for|on)(?!\w)) ?)?(?:the )?(?:all )?(?:other (?!studs?|framing|supp|mem))?"
_EDGES = (
    r"(?:(?:abutting|adjoining|supported) )?(?:(?:panel|sheathing|plywood|sht'?g\.?"
    r"|shear wall) )?(?:edges?|perim(?:eter)?\.?)(?: (?:of|on) (?:each |the |all )?panels?)?"
)
_NAILING = r"(?:[ -]?nail(?:s|ing)?)?(?: spacing)?"
_EDGE = rf"(?:(?:boundary|bndry\.?) ?(?:/|&|and) ?)?(?:{_EDGES}{_NAILING}|(?:panel )?p?\.?e\.? ?n\.?(?!\w)|p\.e\.(?!\w))"
_MEMBERS = r"(?:members?|framing|supports?|supp\.?|studs?|mem\.?|locations?)"
_FIELD = (
    rf"(?:other {_MEMBERS}|field{_NAILING}(?: of (?:the )?panels?)?|f\.? ?n\.?(?!\w)"
    rf"|int(?:erm(?:ed(?:iate)?)?)?\.? {_MEMBERS}|interm(?:ed(?:iate)?)?\.?{_NAILING}"
    rf"|int\.? nail(?:s|ing))"
)
_SECOND = r"(?: ?(?:/|&|,|and|\+) ?)"
_SOME = rf"(?:(?:\d{{1,2}}[ -])?{TAPE}|\d{{1,2}})"
_WHOLE = rf"(?:\d{{1,2}}[ -]{TAPE}|\d{{1,2}})"

_STUD_SPACING = rf"(?<!\w)studs?(?:(?: spaced)? ?{AT}|:) ?\d{{2}}(?: ?\"|(?![\d/]))(?: ?{OC})?(?: {LIMIT})?"
_ITEMS = {
    "skip": (
        rf"(?<!\w)\d*[ -]?\d*/?\d+ ?\"? (?:min\.? )?(?:edge dist(?:ance|\.)?"
        rf"|from (?:the )?(?:panel )?edges?|clear(?:ance)?|nom(?:inal|\.))"
        rf"|edge dist(?:ance|\.)|v\.i\.f\.|verify in field|{_STUD_SPACING}(?! ?:)|(?:x ?)?(?<![\w/.]){_SOME}{MARK}? ?crown(?!\w)"
        r"|(?<!\w)(?:block(?:ed)?|blk'?g\.?|blocking) (?:at )?(?:all )?(?:panel )?edges?(?!\w)"
        r"|(?<!\w)(?:all )?(?:panel )?edges? (?:shall be )?blocked(?!\w)"
    ),
    "many": rf"{_STUD_SPACING} ?: ?{_SOME}{MARK}?|(?<![\w/.'-])\d{{1,2}}\"?(?: ?/ ?\d{{1,2}}\"?){{2,}}(?![\w/])(?: ?{OC})?",
    "pair": (
        rf"(?<![\w/.'\-:#])(?<!\d[ ,])(?P<at>{AT} ?)?(?P<one>{_WHOLE})(?P<one_unit>{MARK}?(?: ?{OC})?)"
        r" ?(?P<sep>/|:|-|,|&|(?<!\w)and(?!\w)) ?"
        rf"(?:{AT} ?)?(?P<two>{_WHOLE})(?P<two_unit>{MARK}?(?: ?{OC})?)(?! ?[/:-] ?\d)(?! \d)(?![\w/'\"])"
    ),
    "spacing": rf"(?:(?P<at>{AT}) ?)?(?P<n>{ALONE})(?! ?')(?:{_UNIT}|(?![\w/\"]))(?! ?x ?\d)",
    "both": rf"(?<![\w.]){_TO}{_EDGE}{_SECOND}{_TO}{_FIELD}(?!\w)",
    "boundary": rf"(?<![\w.]){_TO}(?:b\. ?n\.|bn|boundar(?:y|ies)(?:[ -]?nail(?:s|ing)?)?)(?!\w)(?! ?(?:/|&|and) ?edge)",
    "edge": rf"(?<![\w.]){_TO}{_EDGE}(?!\w)",
    "field": rf"(?<![\w.]){_TO}{_FIELD}(?!\w)",
    "stop": r";|(?<=\w{4})\.(?= )",
}
_ITEM = re.compile("|".join(f"(?P<{name}>{pattern})" for name, pattern in _ITEMS.items()), re.I)
_LETTERS = {"many": "M", "both": "X", "boundary": "B", "edge": "E", "field": "F", "stop": "P"}
_ROWS = re.compile(
    (
        r"(?:(?<!\w)in )?(?<![\w/.])(?:\((?P<n>[1-4])\) ?|(?P<n>[1-4])[ -]?|(?P<word>single|one|double"
        r"|dbl\.?|two|three) )rows?(?!\w)(?: of(?: nails)?(?!\w))?"
    ),
    re.I,
)
_ROW_WORDS = {"single": 1, "one": 1, "double": 2, "dbl": 2, "two": 2, "three": 3}
_FOOTNOTE = re.compile(r"(?<=[\w.\"]) ?(?:\(\d{1,2}\))+$")
_STAGGERED = re.compile(
    (
        r"(?<!(?:not|un|no|non)[- ]?)(?<!\w)stagg?(?:er(?:ed)?)?(?!\w)\.?(?! ?(?:\w+ )?(?:joints?"
        r"|panels?|splices?|seams?|sheets?|studs?))(?! not| n/a)(?: nail(?:s|ing)?(?!\w))?"
    ),
    re.I,
)


class _Item(NamedTuple):
    kind: str  # S spacing, W bare number, E edge, F field, X both, B boundary, M too many, P a stop
    span: Span
    value: float = 0.0
    sure: bool = True


def nailing(text: str, column: Column) -> list[Found]:
    """Spacings with the place each belongs to, rows and staggering.

    A spacing without a label is the column's own; in a nailing column it is the edge's, and a pair is edge, then field.
    """
    told = [*rows(text), *staggered(text)]
    footnotes = [m.span() for m in _FOOTNOTE.finditer(text)]
    unrowed = mask(mask_found(text, [f for f in told if f.field == "edge.rows"]), footnotes)
    return [*_assigned(unrowed, list(_items(unrowed)), column), *(told if column != "field" else ())]


def asides(text: str) -> list[Span]:
    """Spans of words with numbers that are no nail spacing: edge distance, stud spacing, verify in field."""
    return [m.span() for m in _ITEM.finditer(text) if m["skip"]]


def rows(text: str) -> Iterator[Found]:
    """Number of rows of edge nails: 2 ROWS, (2) ROWS, DOUBLE ROW."""
    for m in _ROWS.finditer(text):
        value = int(m["n"]) if m["n"] else _ROW_WORDS[m["word"].lower().rstrip(".")]
        yield Found("edge.rows", value, m.span())


def staggered(text: str) -> Iterator[Found]:
    """STAGG., STAGGERED; staggered joints and panels are another matter."""
    for m in _STAGGERED.finditer(text):
        yield Found("edge.staggered", True, m.span())


def _items(text: str) -> Iterator[_Item]:
    for m in _ITEM.finditer(text):
        name = next(name for name in _ITEMS if m[name])
        if name == "pair":
            yield from _pair(text, m)
        elif name == "spacing":
            sure = bool(m["at"] or re.search(OC, m["unit"] or "", re.I))
            yield _Item("S" if m["at"] or m["unit"] else "W", m.span(), inches(m["n"]), sure)
        elif name != "skip":
            yield _Item(_LETTERS[name], m.span())


def _pair(text: str, m: "re.Match[str]") -> Iterator[_Item]:
    fraction = m["sep"] == "/" and not m["one_unit"] and re.fullmatch(TAPE, f"{m['one']}/{m['two']}")
    if fraction and m["two_unit"]:
        yield _Item("S", m.span(), inches(f"{m['one']}/{m['two']}"), bool(m["at"]))  # 3/8" is one size
        return
    if fraction or (m["sep"] == "-" and "/" in m["two"]):
        yield _Item("M", m.span(), sure=bool(m["at"]))  # 3/8 may be a size, or 3 and 8
        return
    lone = not m["at"] and not m["one_unit"] and not m["two_unit"] and text.strip() != m.group()
    kind = "W" if lone and m["sep"] in ",-&" else "S"
    yield _Item(kind, (m.start(), m.end("one_unit")), inches(m["one"]))
    yield _Item(kind, (m.start("two"), m.end()), inches(m["two"]))


def _assigned(text: str, items: list[_Item], column: Column) -> Iterator[Found]:
    too_many = [i for i in items if i.kind == "M" and (i.sure or column != "fastener")]
    if too_many:
        yield _spacing("field" if column == "field" else "edge", None, around(i.span for i in too_many))
        return
    items = [i for i in items if i.kind != "M" and not (column == "fastener" and i.kind == "S" and i.value < CLOSEST_IN)]
    items = _without_strays(text, items, column)
    kinds = "".join(i.kind for i in items if i.kind != "P")
    spaced = [i for i in items if i.kind == "S"]
    labels = [i for i in items if i.kind in "EFX"]
    if not spaced:
        return
    if not labels and "B" not in kinds:
        yield from _unlabelled(text, spaced, column)
    elif re.fullmatch("SS(?:EF|FE|X)|(?:EF|FE|X)SS", kinds):
        yield from _in_order(spaced, labels)
    elif re.fullmatch("SESF|SFSE", kinds) and not any(re.match(r" ?[:=]", text[i.span[1] :]) for i in labels):
        for number, label in zip(spaced, labels, strict=True):  # 3" O.C. STAGG. EDGES @ 12" O.C. FIELD
            yield from _labelled(text, number, label)
    else:
        yield from _by_neighbour(text, items, column)


def _without_strays(text: str, items: list[_Item], column: Column) -> list[_Item]:
    """Bare numbers count beside a label, or where nothing else stands in an edge or field cell."""
    kept = []
    for i, item in enumerate(items):
        if item.kind != "W":
            kept.append(item)
            continue
        near = [
            n
            for n in items[max(0, i - 1) : i + 2]
            if n.kind in "EFX" and not text[min(n.span[1], item.span[1]) : max(n.span[0], item.span[0])].strip(" :=@-")
        ]
        rest = text[: item.span[0]] + text[item.span[1] :]
        alone = column in ("edge", "field") and not re.search(r"[\d\"]", rest)
        if near or (alone and len(items) == 1):
            kept.append(item._replace(kind="S"))
    return kept


def _unlabelled(text: str, spaced: list[_Item], column: Column) -> Iterator[Found]:
    if column == "fastener" and not (len(spaced) == 2 and _joined(text, spaced)):
        spaced = [i for i in spaced if i.sure]
    place = "field" if column == "field" else "edge"
    if len(spaced) == 1:
        yield _spacing(place, spaced[0].value, spaced[0].span)
    elif len(spaced) == 2 and _joined(text, spaced) and _edge_and_field(spaced, column):
        yield from _in_order(spaced, [_Item("E", spaced[0].span), _Item("F", spaced[1].span)])
    elif spaced:
        yield from (_spacing(place, i.value, i.span) for i in spaced)  # two values in one field end up unreadable


def _joined(text: str, spaced: list[_Item]) -> bool:
    between = text[spaced[0].span[1] : spaced[1].span[0]]
    return bool(re.fullmatch(r"[\s/:;,&\0()-]*(?:and)?\s*", _STAGGERED.sub("", between), re.I))


def _edge_and_field(spaced: list[_Item], column: Column) -> bool:
    """Whether an unlabelled pair is edge and field: in a nailing column yes, in an edge column only with a field's 10 or 12."""
    if column in ("nailing", "fastener"):
        return True
    return column == "edge" and spaced[0].value < spaced[1].value and spaced[1].value in (10, 12)


def _in_order(spaced: list[_Item], labels: list[_Item]) -> Iterator[Found]:
    places = ["edge", "field"] if labels[0].kind in "EX" else ["field", "edge"]
    spans = [i.span for i in spaced]
    if labels[0].span not in spans:  # two labels, then two numbers, or the other way round: the words go to the nearer number
        own = around(i.span for i in labels)
        last = own[0] >= spans[1][1]
        spans = [spans[0], around([spans[1], own])] if last else [around([spans[0], own]), spans[1]]
    for place, item, span in zip(places, spaced, spans, strict=True):
        yield _spacing(place, item.value, span)


def _by_neighbour(text: str, items: list[_Item], column: Column) -> Iterator[Found]:
    lonely: list[_Item] = []
    found: list[Found] = []
    turned = spare = False  # a label went with the number after its colon; a label has no number
    i = 0
    while i < len(items):
        pair = items[i : i + 2]
        kinds = "".join(p.kind for p in pair)
        ahead = len(items) > i + 2 and items[i + 2].kind == "S" and re.match(r" ?[:=]", text[pair[-1].span[1] :])
        if re.fullmatch("[EFXB]S", kinds) or (re.fullmatch("S[EFXB]", kinds) and not ahead):
            number, label = pair if kinds[0] == "S" else pair[::-1]
            found += _labelled(text, number, label)
            i += 2
            continue
        if items[i].kind == "S":
            lonely.append(items[i])
            turned = turned or bool(ahead)
        spare = spare or items[i].kind in "EFX"
        i += 1
    if turned and spare:  # 6" EDGES: 12" FIELD: nobody knows which way
        yield from (_spacing(place, None, i.span) for place in ("edge", "field") for i in items if i.kind == "S")
        return
    yield from found
    yield from _leftover_spacings(lonely, {f.field for f in found}, items, column)


def _labelled(text: str, number: _Item, label: _Item) -> Iterator[Found]:
    if label.kind == "B":
        return
    between = text[min(number.span[1], label.span[1]) : max(number.span[0], label.span[0])]
    close = not re.search(rf"[^\s,:;=().{MASK}-]", between)
    span = around([number.span, label.span]) if close else number.span
    if label.kind == "X":
        yield _spacing("edge", number.value, span)
        yield _spacing("field", number.value, span)
    else:
        yield _spacing("edge" if label.kind == "E" else "field", number.value, span)


def _leftover_spacings(lonely: list[_Item], fields: set[str], items: list[_Item], column: Column) -> Iterator[Found]:
    """A number without a label among labelled ones: the edge's if it comes first and the field is named, else not understood."""
    first = next((i for i in items if i.kind == "S"), None)
    for item in lonely if column != "fastener" else (i for i in lonely if i.sure):
        missing = [place for place in ("edge", "field") if f"{place}.spacing_in" not in fields]
        if missing == ["edge"] and item is first and len(lonely) == 1 and column != "field":
            yield _spacing("edge", item.value, item.span)
        else:
            yield _spacing(missing[0] if missing else "edge", None, item.span)


def _spacing(place: str, value: float | None, span: Span) -> Found:
    fits = value is not None and CLOSEST_IN <= value <= WIDEST_IN
    return Found(f"{place}.spacing_in", value if fits else None, span, State.READ if fits else State.UNREADABLE)


def rows_cell(text: str) -> list[Found]:
    """How many rows of nails stand along an edge, out of a column of its own: 1, TWO, 2 ROWS."""
    m = _ROWS_CELL.fullmatch(text)
    if not m:
        return []
    value = next(i for i, word in enumerate(("", "one", "two", "three")) if m["n"].lower() in (str(i), word))
    rows = Found("edge.rows", value, m.span("n"))
    return [rows, Found("edge.staggered", True, m.span("stag"))] if m["stag"] else [rows]


_ROWS_CELL = re.compile(r"\s*\(?(?P<n>[123]|one|two|three)\)?(?: rows?)?,? ?(?P<stag>stagg?(?:ered|\.)?)?\s*", re.I)
