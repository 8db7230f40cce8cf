"""One schedule cell, or running text about a wall, in; every value it holds out, each with its place in the text."""

from collections.abc import Callable, Iterable

import regex as re

from extractor.record import State
from extractor.trade import anchors, capacity, framing, holddown, nails, plates, sheathing, spacing, states
from extractor.trade.inches import MARK, NUMBER
from extractor.trade.spans import around, leftovers, mask, mask_found, only, overlap, settled, trimmed
from extractor.trade.text import Found, Span

Reader = Callable[[str], Iterable[Found]]

_BOTH_SIDES = re.compile(r"(?<!\w)(?:both|two|2|each|ea\.?) (?:sides?|faces?)(?: of wall)?(?!\w)", re.I)
_NAILED_SIDES = re.compile(r"(?<!\w)both (?:sides|faces)(?: of wall)?(?!\w)", re.I)
_PENNY = re.compile(nails.PENNY, re.I)
_COUNTED = re.compile(rf"(?:\(\d\) ?|(?<!\S)\d-)?{nails.PENNY}", re.I)
_BOLT_LENGTH = re.compile(rf" ?x ?{NUMBER}{MARK}?|^\s*\(\d\)", re.I)
_STUDS = re.compile(r"(?<![\w/.\"-])(?:\(2\) ?-?2 ?x|[234] ?x) (?:studs?|framing|members?)(?!\w)(?! (?:at|@|for|in) )", re.I)
_CONNECTOR = re.compile(r"(?<!\S)(?:and|&|on|with|w/|use|provide) $", re.I)
_SIZE = re.compile(r"\d\"|\d/\d|\d'|[A-Z]{1,4}-?\d", re.I)
_LUMBER = re.compile(r"\d ?x", re.I)


def read(text: str, kind: str) -> tuple[Found, ...]:
    """Every value of a cell whose column is of this kind, in order of place; words in no span belong to ``other``.

    ``text`` is plain text (`extractor.trade.text.plain`). A blank cell gives nothing. Words for "none" and "see plan" give the
    column's main field in that state, a ditto gives the field ``ditto``, and words with a meaning that were not understood
    give the main field as unreadable. Of a field (but ``capacity``) at most one value comes back, in several places if it is
    said several times; two different ones are one unreadable.

    >>> [(f.field, f.value) for f in read('6" O.C. STAGG.', "edge")]
    [('edge.spacing_in', 6.0), ('edge.staggered', True)]
    """
    reader, main = _KINDS[kind]
    if not text.strip():
        return ()
    whole = _whole_cell(text, kind, main)
    if whole is not None:
        return whole
    if kind not in _NO_DITTO and (ditto := states.ditto(text)):
        rest = [f for f in settled(reader(mask(text, [ditto.span]))) if f.state is State.READ and not _in(f.span, ditto.span)]
        return (ditto, *rest)
    found = settled(reader(text))
    return tuple(_with_connectors(text, settled([*found, *_not_understood(text, kind, found)])))


def _in(span: Span, other: Span) -> bool:
    """Whether a span lies within another."""
    return other[0] <= span[0] and span[1] <= other[1]


def kinds() -> tuple[str, ...]:
    """The kinds of column that `read` knows."""
    return tuple(_KINDS)


def main_field(kind: str) -> str | None:
    """The dotted field that a column of this kind is for; None for remarks and running text."""
    return next(iter(_KINDS[kind][1]), None) if kind in _KINDS else None


def _with_connectors(text: str, found: list[Found]) -> list[Found]:
    """The same with words such as AND and W/ taken in where they stand right before a value; alone they mean nothing."""
    taken = [f.span for f in found]
    widened = []
    for f in found:
        m = _CONNECTOR.search(text, 0, f.span[0])
        free = m and f.state is State.READ and not any(overlap(m.span(), span) for span in taken)
        widened.append(f._replace(span=(m.start(), f.span[1])) if free else f)
    return widened


def _whole_cell(text: str, kind: str, main: tuple[str, ...]) -> tuple[Found, ...] | None:
    """The cell in the state none or deferred, where that is all it says."""
    if not main or (kind == "blocking" and framing.blocking(text)):
        return None
    state = states.stated(text, hold_down=kind == "hold_down")
    if state is None:
        return None
    empty = () if state is State.NONE and main[0] in ("hold_down.marks", "capacity") else None
    span = trimmed(text, (0, len(text)))
    return tuple(Found(field, empty, span, state) for field in main)


def _not_understood(text: str, kind: str, found: list[Found]) -> list[Found]:
    """The main field as deferred or unreadable, where the cell has words that ask for it."""
    main = _KINDS[kind][1]
    if not main:
        return []
    present = {f.field for f in found}
    if kind in _ANOTHER and (clash := _size_beside(text, kind, found)):
        return clash
    if present & {*main[:1], *_STANDS_FOR.get(kind, ())}:
        return []
    deferred = states.deferrals(mask_found(text, found))
    if deferred:
        return [Found(field, None, deferred[0], State.DEFERRED) for field in main if field not in present]
    chunks = [
        c for c in leftovers(text, [*(f.span for f in found), *_harmless(text, kind)]) if re.search(r"\w|\"", text[slice(*c)])
    ]
    odd = chunks if not found else [c for c in chunks if re.search(r"[\d\"]", text[slice(*c)])]
    if not odd or (kind == "bottom_plate" and plates.other_fastener(text)):
        return []
    return [Found(main[0], None, around(odd), State.UNREADABLE)]


def _size_beside(text: str, kind: str, found: list[Found]) -> list[Found]:
    """A value with another of its kind beside it that nothing explains: which one holds is a question."""
    main = _KINDS[kind][1][0]
    own = [f for f in found if f.field == main and f.state is State.READ]
    harmless = [*_harmless(text, kind), *(holddown.posts(text) if kind == "hold_down" else ())]
    odd = [c for c in leftovers(text, [*(f.span for f in found), *harmless]) if _ANOTHER[kind].search(text[slice(*c)])]
    return [Found(main, None, span, State.UNREADABLE) for span in odd] if own and odd else []


def _harmless(text: str, kind: str) -> list[Span]:
    if kind == "hold_down":
        return states.deferrals(text)  # #1 and 24/16 are no asides here
    spans = [m.span() for m in states.HARMLESS.finditer(text)]
    if kind in _ANOTHER:
        spans += [*spacing.asides(text), *framing.stitching(text), *(f.span for f in nails.sizes(text))]
    if kind in ("anchors", "sill_anchors", "hd_anchor"):
        spans += [m.span() for m in _BOLT_LENGTH.finditer(text)]
    return spans


def _nailing(column: spacing.Column) -> Reader:
    def nailing(text: str) -> list[Found]:
        masked = mask(text, framing.stitching(text))
        studs = _STUDS.search(masked) if column in ("edge", "nailing") else None  # 3", 3x STUDS: studs at the edges
        found = framing.panel_edge(only(masked, studs.span())) if studs else []
        masked = mask_found(masked, found)
        found += [*framing.panel_edge_in_words(masked), *framing.blocking_in_words(masked), *nails.fasteners(masked)]
        found += spacing.nailing(mask_found(masked, found), column)
        return found + [Found("sheathing.faces", 2, m.span()) for m in _NAILED_SIDES.finditer(masked)]

    return nailing


def _fastener(text: str) -> Iterable[Found]:
    return nails.legend_letter(text) or _nailing("fastener")(text)


def _sheathing(text: str) -> list[Found]:
    return _wall(text) if _PENNY.search(text) else [*framing.blocking_in_words(text), *sheathing.panel(text)]


def _panel_edge(text: str) -> list[Found]:
    return framing.panel_edge(mask(text, framing.stitching(text)))


def _anchors(text: str) -> list[Found]:
    """Anchorage; nails alone cannot hold a plate to concrete, so a cell of nails is the bottom plate's."""
    if both := _at_concrete_and_wood(text):
        return both
    sill = framing.sill_in_words(text)
    found = anchors.anchors(mask_found(text, sill))
    return plates.bottom_plate(text) if not found and _PENNY.search(text) else [*sill, *found]


def _bottom_plate(text: str) -> list[Found]:
    """Plate nailing; a cell of anchor bolts in the same column is anchorage."""
    if both := _at_concrete_and_wood(text):
        return both
    bolts = any(f.field == "anchors.kind" for f in anchors.anchors(text))
    return anchors.anchors(text) if bolts and not _PENNY.search(text) else plates.bottom_plate(text)


def _at_concrete_and_wood(text: str) -> list[Found]:
    """Bolts to concrete and nails to wood told one after the other in a cell, each with its spacing; else nothing."""
    nail = _COUNTED.search(text)
    bolt = next((f for f in anchors.anchors(text) if f.field == "anchors.diameter_in"), None)
    if nail is None or bolt is None:
        return []
    cut = max(nail.start(), bolt.span[0])
    before, after = only(text, (0, cut)), only(text, (cut, len(text)))
    bolted, nailed = (before, after) if bolt.span[0] < cut else (after, before)
    found = [*anchors.anchors(bolted), *plates.bottom_plate(nailed)]
    told = {f.field for f in found if f.state is State.READ}
    return found if told >= {"anchors.spacing_in", "bottom_plate.penny", "bottom_plate.spacing_in"} else []


def _sill_anchors(text: str) -> list[Found]:
    found = framing.sill(text)
    return found + anchors.anchors(mask_found(text, found))


def _wall(text: str) -> list[Found]:
    """Running text: the clauses that name what they speak of first, then nails, panel and spacings out of what is left."""
    found: list[Found] = []
    masked = mask(text, framing.stitching(text))
    for clause in _CLAUSES:
        found += clause(masked)
        masked = mask_found(masked, found)
    masked = mask(masked, anchors.anchor_parts(text))
    fasteners = nails.fasteners(masked)
    masked = mask_found(masked, fasteners)
    panel = sheathing.panel_in_words(masked)
    return [*found, *fasteners, *panel, *spacing.nailing(mask_found(masked, panel), "fastener")]


_CLAUSES: tuple[Reader, ...] = (
    capacity.capacities_in_words,
    holddown.hold_downs_in_words,
    anchors.anchors_in_words,
    plates.bottom_plate_in_words,
    framing.sill_in_words,
    framing.panel_edge_in_words,
    framing.blocking_in_words,
)


def _remarks(text: str) -> list[Found]:
    """Only clauses that can mean nothing else: BOTH SIDES, BLOCKED, STAGGER NAILS, 3x STUDS AT PANEL JOINTS."""
    found = [*framing.panel_edge_in_words(text), *framing.blocking_in_words(text), *spacing.staggered(text)]
    return found + [f for f in sheathing.faces(text) if f.value == 1 or _BOTH_SIDES.search(text[slice(*f.span)])]


def _as_printed(*fields: str) -> Reader:
    return lambda text: [f for field in fields for f in holddown.printed(text, field)]


_ANOTHER = {
    **dict.fromkeys(("edge", "field", "nailing", "bottom_plate", "top_plate", "hold_down"), _SIZE),
    **dict.fromkeys(("panel_edge", "sill"), _LUMBER),
}
_NO_DITTO = frozenset({"wall", "remarks", "mark", "hd_mark", "hd_mark_model"})
_FASTENER = tuple(f"fastener.{name}" for name in ("penny", "diameter_in", "length_in", "gauge", "legend"))
_STANDS_FOR = {
    "fastener": _FASTENER,
    "anchors": ("bottom_plate.penny", "bottom_plate.spacing_in"),
    "bottom_plate": ("anchors.kind",),
    "sheathing_and_nailing": ("edge.spacing_in",),
    "sill_anchors": ("anchors.spacing_in",),
}
_ANCHORS = ("anchors.spacing_in", "anchors.diameter_in")
_KINDS: dict[str, tuple[Reader, tuple[str, ...]]] = {
    "mark": (holddown.mark, ("mark",)),
    "sheathing": (_sheathing, ("sheathing.thickness_in",)),
    "faces": (sheathing.bare_faces, ("sheathing.faces",)),
    "fastener": (_fastener, ("fastener.penny",)),
    "nail_diameter": (nails.diameter_cell, ("fastener.diameter_in",)),
    "nail_length": (nails.length_cell, ("fastener.length_in",)),
    "edge": (_nailing("edge"), ("edge.spacing_in",)),
    "edge_rows": (spacing.rows_cell, ("edge.rows",)),
    "field": (_nailing("field"), ("field.spacing_in",)),
    "nailing": (_nailing("nailing"), ("edge.spacing_in",)),
    "sheathing_and_nailing": (_wall, ("sheathing.thickness_in",)),
    "blocking": (framing.blocking, ("framing.blocked",)),
    "panel_edge": (_panel_edge, ("framing.panel_edge",)),
    "sill": (framing.sill, ("framing.sill",)),
    "anchors": (_anchors, _ANCHORS),
    "sill_anchors": (_sill_anchors, ("framing.sill", *_ANCHORS)),
    "embedment": (anchors.embedment_cell, ("anchors.embedment_in",)),
    "washer": (anchors.washers, ("anchors.washer_in",)),
    "bottom_plate": (_bottom_plate, ("bottom_plate.spacing_in",)),
    "top_plate": (plates.top_plate, ("top_plate.connector",)),
    "hold_down": (holddown.wall_hold_downs, ("hold_down.marks",)),
    "capacity": (capacity.capacities, ("capacity",)),
    "wall": (_wall, ()),
    "remarks": (_remarks, ()),
    "hd_mark": (holddown.mark, ("mark",)),
    "hd_model": (_as_printed("model"), ("model",)),
    "hd_mark_model": (_as_printed("mark", "model"), ("mark",)),
    "hd_post": (_as_printed("post"), ("post",)),
    "hd_fasteners": (_as_printed("fasteners"), ("fasteners",)),
    "hd_anchor": (holddown.anchor, ("anchor.diameter_in",)),
    "hd_embedment": (holddown.embedment, ("anchor.embedment_in",)),
    "hd_capacity": (holddown.capacity_lb, ("capacity_lb",)),
}
