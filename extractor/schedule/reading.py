"""The one place where readings are made: words, a value found in their plain text, and where they stand."""

from collections.abc import Iterable, Mapping, Sequence
from types import UnionType
from typing import Any, NamedTuple, get_args, get_origin

from pydantic import BaseModel, ValidationError

from extractor.paper.turned import back
from extractor.paper.words import Word, union
from extractor.record import Box, Capacity, HoldDown, Origin, Reading, Record, Source, State, WallType
from extractor.trade.text import Found, Plain, Span, plain, without_twins


class Place(NamedTuple):
    """The page and the sheet number that words stand on; and how the sheet of this size was turned to read them."""

    page: int
    sheet: str | None
    turn: int = 0
    size: tuple[float, float] = (0.0, 0.0)

    def on_page(self, box: Box) -> Box:
        """The box on the sheet as a reader sees it."""
        return back(box, self.turn, self.size) if self.turn else box

    def source(self, box: Box) -> Source:
        """A source here, its box in hundredths of a point."""
        x0, y0, x1, y1 = self.on_page(box)
        return Source(page=self.page, sheet=self.sheet, box=(round(x0, 2), round(y0, 2), round(x1, 2), round(y1, 2)))


class Printed(NamedTuple):
    """Words as they stand in a cell or a note, their plain text, and the place; footnote markers are left out of the text."""

    words: tuple[Word, ...]
    plain: Plain
    place: Place

    @property
    def text(self) -> str:
        """The plain text."""
        return self.plain.text

    def within(self, span: Span) -> tuple[Word, ...]:
        """The words that the span of the plain text touches; all of them where it touches none."""
        return tuple(self.words[i] for i in self.plain.words_in(span)) or self.words


def printed(words: Iterable[Word], place: Place) -> Printed:
    """The words without footnote markers, ready to be read; the text leaves out metric twins in brackets."""
    kept = tuple(w for w in words if not w.raised)
    return Printed(kept, without_twins(plain([w.text for w in kept])), place)


def _leaves(model: type[BaseModel], prefix: str = "") -> dict[str, Any]:
    out: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        kinds = get_args(info.annotation) if get_origin(info.annotation) is UnionType else (info.annotation,)
        for kind in kinds:
            if isinstance(kind, type) and issubclass(kind, Reading):
                out[prefix + name] = kind
            elif isinstance(kind, type) and issubclass(kind, Record):
                out |= _leaves(kind, f"{prefix}{name}.")
    return out


LEAVES: dict[str, dict[str, Any]] = {
    "wall": _leaves(WallType),
    "hold-down": _leaves(HoldDown),
}
AS_PRINTED = ("model", "post", "fasteners")  # these values are the words themselves
_PARTS: dict[str, Any] = {"capacity.plf": Reading[float], "capacity.load": Reading[str], "capacity.method": Reading[str]}


def reading(
    field: str,
    value: Any,
    words: Sequence[Word],
    place: Place,
    *,
    state: State = State.READ,
    origin: Origin = Origin.SCHEDULE,
    table: str = "wall",
) -> Reading[Any]:
    """A reading of ``field`` from ``words``; a value that the record does not take becomes unreadable, never rounded."""
    kind = LEAVES[table].get(field) or _PARTS.get(field) or Reading[str]
    source = place.source(union(w.box for w in words))
    text = " ".join(w.text for w in words)
    if state is State.READ and table == "hold-down" and field in AS_PRINTED and plain(text.split()).text == value:
        value = text
    if state is State.READ and any(w.unmapped or w.disputed for w in words):
        state, value = State.UNREADABLE, None
    if state is not State.READ:
        value = () if state is State.NONE and field in ("hold_down.marks", "capacity") else None
    try:
        return kind(value=value, as_printed=text, state=state, origin=origin, source=source)
    except ValidationError:
        return kind(value=None, as_printed=text, state=State.UNREADABLE, origin=origin, source=source)


def from_found(found: Found, text: Printed, *, origin: Origin = Origin.SCHEDULE, table: str = "wall") -> Reading[Any]:
    """The reading of what the grammar found in ``text``."""
    return reading(found.field, found.value, text.within(found.span), text.place, state=found.state, origin=origin, table=table)


def capacities(parts: Sequence[Capacity], none: Reading[Any] | None = None) -> Reading[tuple[Capacity, ...]] | None:
    """The capacities of a row as one reading; ``none`` is the row's dash where it states no number at all."""
    if not parts:
        return none
    first = parts[0].plf
    box = union(p.plf.source.box for p in parts)
    state = State.READ if all(p.plf.state is State.READ for p in parts) else State.UNREADABLE
    return Reading[tuple[Capacity, ...]](
        value=tuple(parts) if state is State.READ else None,
        as_printed=" ".join(p.plf.as_printed for p in parts),
        state=state,
        origin=first.origin,
        source=first.source.model_copy(update={"box": box}),
    )


def conflict(own: Reading[Any], others: Sequence[Reading[Any]]) -> Reading[Any]:
    """``own`` marked as contradicted by ``others``."""
    return own.model_copy(update={"state": State.CONFLICT, "also": (*own.also, *others)})


def agree(a: Reading[Any], b: Reading[Any]) -> bool:
    """Whether two readings say the same."""
    if a.state is not b.state and State.CONFLICT not in (a.state, b.state):
        return False
    if isinstance(a.value, float | int) and isinstance(b.value, float | int):
        return abs(a.value - b.value) < 1e-6
    return bool(a.value == b.value)


def assemble(model: type[Any], fields: Mapping[str, Any]) -> Any:
    """A record from dotted names: {"edge.spacing_in": reading} gives WallType(edge=EdgeNailing(spacing_in=reading))."""
    nested: dict[str, Any] = {}
    for name, value in fields.items():
        head, _, rest = name.partition(".")
        if rest:
            nested.setdefault(head, {})[rest] = value
        else:
            nested[head] = value
    made = {}
    for head, value in nested.items():
        kind = model.model_fields[head].annotation
        made[head] = assemble(kind, value) if isinstance(value, dict) else value
    return model(**made)


def with_fields(record: Any, fields: Mapping[str, Any]) -> Any:
    """A copy of the record with these dotted fields set."""
    out = record
    for name, value in fields.items():
        head, _, rest = name.partition(".")
        out = out.model_copy(update={head: with_fields(getattr(out, head), {rest: value}) if rest else value})
    return out


def get(record: Any, field: str) -> Any:
    """The value at a dotted name."""
    for part in field.split("."):
        record = getattr(record, part)
    return record
