"""One wall type and the job's findings -> a Face: every line a card prints, in order, each still holding its reading.

A face says what the plans say and nothing more. What the plans leave out is a value of its own, with the question's number.
"""

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from typing import Any

from cards.findings import numbered
from cards.values import Asking, Shown, Value, asked, missing, worded
from cards.words import Language, Words
from extractor.record import Finding, HoldDown, Job, Level, Reading, SheetRecord, Source, WallType, readings
from extractor.trade.titles import scope_in

CRITICAL = ("fastener", "edge", "field", "sheathing", "hold_down")  # NAIL, EDGE, FIELD, SHEATHING, HOLD-DOWN
_ALWAYS_BAD_HOLDS = ("edge.spacing_in", "field.spacing_in", "sheathing.thickness_in")
_LISTED_ON_BACK = ("sheathing.grade", "framing.sill", "anchors.kind", "anchors.diameter_in", "anchors.spacing_in",
                   "anchors.embedment_in", "anchors.washer_in", "bottom_plate.penny", "top_plate.connector")  # fmt: skip
_HOLD_DOWN_TABLE = ("model", "post", "fasteners", "capacity_lb", "anchor.diameter_in", "anchor.embedment_in")
_FLOOR = {"bottom_plate.penny", "bottom_plate.spacing_in"}


@dataclass(frozen=True)
class Line:
    """A label (once for each language printed) and the values behind it."""

    key: str
    label: tuple[str, ...]
    values: tuple[Value, ...]

    @property
    def words(self) -> str:
        """The whole line as text."""
        return "".join(value.glue * bool(i) + value.words for i, value in enumerate(self.values))

    @property
    def bad(self) -> bool:
        """True where a value of the line is missing, unreadable or in conflict."""
        return any(value.bad for value in self.values)


@dataclass(frozen=True)
class Question:
    """An open question that touches this card."""

    number: str
    finding: Finding

    @property
    def stop(self) -> bool:
        """True where nothing may be built before the answer."""
        return self.finding.level is Level.STOP


@dataclass(frozen=True)
class Face:
    """What one card says: ``lines`` in the order of the front, then ``details`` and the rest that only the back carries.

    ``hold`` is true where nobody may nail from this card, with ``reasons``: question numbers, or fields without one.
    """

    wall: WallType
    words: Words
    lines: tuple[Line, ...]
    hold_downs: tuple[HoldDown, ...]
    questions: tuple[Question, ...]
    reasons: tuple[str, ...]
    details: tuple[Line, ...]
    not_given: tuple[str, ...]
    sheet: SheetRecord | None
    row: str
    note_sheets: tuple[str, ...]
    scope: str = ""

    @property
    def named(self) -> str:
        """The mark, with the storey or the walls that its schedule is for where another schedule has the same mark."""
        return f"{self.mark} ({self.scope})" if self.scope else self.mark

    @property
    def mark(self) -> str:
        """The mark as the plans print it."""
        return self.wall.mark.value or self.wall.mark.as_printed

    @property
    def hold(self) -> bool:
        """True where the card carries the hold band and is not issued."""
        return bool(self.reasons)

    def line(self, key: str) -> Line | None:
        """The line with this key, or None where the card has none."""
        return next((line for line in self.lines if line.key == key), None)

    def value(self, name: str) -> Value | None:
        """The printed value that stands for a field, or None where the front has none."""
        return next((value for line in self.lines for value in line.values if name in value.fields), None)


def face(wall: WallType, job: Job, language: Language = "en") -> Face:
    """Every line to print for ``wall``, in the order of the card."""
    words = Words(language)
    holds = _hold_downs(wall, job)
    open_questions = tuple(Question(n, f) for n, f in numbered(job) if n and concerns(f, wall, holds))
    ask = Asking(words, lambda source: _place(source, wall, job), lambda name: _numbers(name, open_questions),
                 lambda mark: tuple(q.number for q in open_questions if _names(q.finding.message, mark)),
                 lambda name: _numbers(name, open_questions, wider=False))  # fmt: skip
    lines = tuple(line for line in _lines(wall, job, holds, ask) if line.values)
    given = {name for line in lines for value in line.values for name in value.fields}
    present = dict(readings(wall))
    return Face(
        wall=wall, words=words, lines=lines, hold_downs=holds, questions=open_questions,
        reasons=_reasons(lines, open_questions), details=tuple(_details(wall, holds, ask)),
        not_given=tuple(name for name in _LISTED_ON_BACK if name not in given and name not in present
                        and not (name in _FLOOR and present.keys() & _FLOOR)),
        sheet=next((sheet for sheet in job.sheets if sheet.page == wall.mark.source.page), None),
        row=words.first("row", sheet=lambda one: _sheet(wall.mark.source, one), n=_row(wall, job)),
        note_sheets=_note_sheets(wall, words), scope=_scope(wall, job),
    )  # fmt: skip


def _scope(wall: WallType, job: Job) -> str:
    """What tells the type from another of the same mark, LEVEL 2; nothing where no other has the mark, or nothing tells them."""
    same = [other for other in job.wall_types if other.mark.value == wall.mark.value]
    told = (scope_in(words.as_printed) for words in wall.other)
    return next((scope.upper() for scope in told if scope), "") if len(same) > 1 else ""


def faces(job: Job, language: Language = "en") -> tuple[Face, ...]:
    """A face for each wall type, in the schedule's own order."""
    return tuple(face(wall, job, language) for wall in job.wall_types)


def concerns(finding: Finding, wall: WallType, holds: Iterable[HoldDown] = ()) -> bool:
    """Whether a finding touches this wall's card: its own, its hold-downs' (rows ``holds``), or the whole schedule's.

    A finding about no wall and no field touches the walls that its message names; a stop of that kind touches all, unless it
    is about a single mark.
    """
    hold_downs = {*_marks(wall), *(name.value for row in holds for name in (row.mark, row.model) if name and name.value)}
    if finding.wall_type is not None:
        return finding.wall_type == wall.mark.value or finding.wall_type in hold_downs
    if finding.field in _HOLD_DOWN_TABLE:
        return any(_names(finding.message, name) for name in hold_downs)
    if finding.field is not None:
        return _holds_back(finding.field, wall)
    about_one = finding.level is not Level.STOP or finding.code.startswith(("undefined-", "unused-", "duplicate-"))
    return not about_one or any(_names(finding.message, name) for name in (wall.mark.value or "", *hold_downs))


def _names(message: str, mark: str) -> bool:
    """Whether a message names a mark; a single letter or digit only right after the word for what it is."""
    before = r"(?:mark|type|wall|row|hold-down)s? [\"']?" if len(mark) == 1 else r"(?<![\w-])"
    return bool(mark) and bool(re.search(rf"{before}{re.escape(mark)}(?![\w-])", message, re.I))


def _holds_back(name: str, wall: WallType) -> bool:
    """A finding for the whole schedule about one field touches a wall unless the wall has that value after all."""
    reading = dict(readings(wall)).get(name)
    return reading is None or reading.state.value not in ("read", "none")


def _marks(wall: WallType) -> tuple[str, ...]:
    reading = wall.hold_down.marks
    return (reading.value or ()) if reading else ()


def _hold_downs(wall: WallType, job: Job) -> tuple[HoldDown, ...]:
    """The rows of the hold-down table that the wall names, by mark or by model."""
    names = _marks(wall)
    return tuple(row for row in job.hold_downs if row.mark.value in names or (row.model and row.model.value in names))


def _numbers(name: str, questions: Iterable[Question], *, wider: bool = True) -> tuple[str, ...]:
    """Numbers of the questions about a field: about itself, else, where ``wider``, about what it belongs to ("fastener")."""
    group = name.split(".", maxsplit=1)[0]
    own = tuple(q.number for q in questions if q.finding.field in (name, name.removeprefix("hold_down.")))
    return own or tuple(q.number for q in questions if wider and q.finding.field == group)


def _reasons(lines: Iterable[Line], questions: Iterable[Question]) -> tuple[str, ...]:
    """Why nobody may nail from the card: open stops, and a bad value in a line that the wall's strength hangs on."""
    stops = [q.number for q in questions if q.stop]
    bad = [value for line in lines if line.key in CRITICAL or line.key in ("nail", "staple", "screw")
           for value in line.values if _holds(value)]  # fmt: skip
    return tuple(dict.fromkeys([*stops, *(n for value in bad for n in value.questions or value.fields[:1])]))


def _holds(value: Value) -> bool:
    if value.shown in (Shown.UNREADABLE, Shown.CONFLICT):
        return True
    whole_nail = "fastener.penny" in value.fields and "fastener.length_in" in value.fields
    return value.shown is Shown.MISSING and (whole_nail or any(name in _ALWAYS_BAD_HOLDS for name in value.fields))


def _lines(wall: WallType, job: Job, holds: tuple[HoldDown, ...], ask: Asking) -> Iterable[Line]:
    yield _nail(wall, ask)
    yield Line("edge", ask.words.lines("edge"), tuple(_edge(wall, ask)))
    yield Line("field", ask.words.lines("field"), tuple(_given_or_asked([("field.spacing_in", wall.field.spacing_in)], ask, "")))
    yield Line("sheathing", ask.words.lines("sheathing"), tuple(_sheathing(wall, ask)))
    yield Line("block", ask.words.lines("block"), tuple(_given_or_asked([("framing.blocked", wall.framing.blocked)], ask, "")))
    yield Line("joint", ask.words.lines("joint"), tuple(_joint(wall, ask)))
    yield Line("hold_down", ask.words.lines("hold_down"), tuple(_hold_down(wall, job, holds, ask)))
    yield Line("sill", ask.words.lines("sill"), tuple(_sill(wall, ask)))
    yield Line("bottom_plate", ask.words.lines("bottom_plate"), tuple(_bottom_plate(wall, ask)))
    yield Line("top_plate", ask.words.lines("top_plate"), tuple(_top_plate(wall, ask)))


def _given_or_asked(pairs: Iterable[tuple[str, Reading[Any] | None]], ask: Asking, what: str | None = None) -> Iterable[Value]:
    """Values in order, then one box for all that the plans don't give."""
    pairs = list(pairs)
    yield from (worded(name, reading, ask) for name, reading in pairs if reading)
    silent = tuple(name for name, reading in pairs if reading is None)
    if silent:
        yield missing(silent, ask, what=what)


def _optional(pairs: Iterable[tuple[str, Reading[Any] | None]], ask: Asking, glue: str = ", ") -> Iterable[Value]:
    """Values that a row may leave out: one that is silent gets a box only where a question asks about it."""
    for name, reading in pairs:
        if reading:
            yield worded(name, reading, ask, glue)
        elif ask.numbers(name):
            yield missing((name,), ask)


def _nail(wall: WallType, ask: Asking) -> Line:
    nail = wall.fastener
    kind = nail.kind.value if nail.kind and nail.kind.value else "nail" if nail.penny else "fastener"
    sizes: list[tuple[str, Reading[Any] | None]]
    sizes = [("fastener.length_in", nail.length_in), ("fastener.diameter_in", nail.diameter_in)]
    if kind == "staple":
        sizes = [("fastener.gauge", nail.gauge), ("fastener.length_in", nail.length_in)]
    names = [("fastener.penny", nail.penny), ("fastener.style", nail.style)]
    values = [worded(name, r, ask, " × " if i else "") for i, (name, r) in enumerate(sizes) if r]
    if len(values) == 1:
        values = [_said_alone(values[0], ask.words)]
    values += [worded(name, r, ask, " " if i else "   ") for i, (name, r) in enumerate(names) if r]
    silent = tuple(name for name, reading in sizes if reading is None)
    unnamed = () if nail.style or kind != "nail" or len(silent) < len(sizes) else ("fastener.style",)
    if not values:
        values = [missing((*silent, "fastener.penny", *unnamed), ask, what="")]
    elif silent:
        whole = ("fastener.size",) if len(silent) == len(sizes) else silent
        values.append(_asked_as((*unnamed, *whole), (*unnamed, *silent), ask))
    return Line(kind, ask.words.lines(kind), tuple(values))


def _asked_as(keys: tuple[str, ...], names: tuple[str, ...], ask: Asking) -> Value:
    """A box for ``names`` that calls them ``keys``."""
    box = missing(names, ask, what="")
    return replace(box, warning=missing(keys, replace(ask, numbers=lambda _: box.questions)).warning)


def _said_alone(value: Value, words: Words) -> Value:
    """A length or a diameter that stands alone says which it is."""
    key = {"fastener.length_in": "long", "fastener.diameter_in": "thick"}.get(value.fields[0])
    return replace(value, text=words.first(key, value=value.text)) if key and value.text and not value.bad else value


def _edge(wall: WallType, ask: Asking) -> Iterable[Value]:
    yield from _given_or_asked([("edge.spacing_in", wall.edge.spacing_in)], ask, "")
    yield from _optional([("edge.rows", wall.edge.rows)], ask)


def _sheathing(wall: WallType, ask: Asking) -> Iterable[Value]:
    panel = wall.sheathing
    if panel.thickness_in:
        yield worded("sheathing.thickness_in", panel.thickness_in, ask)
    for name, reading in (("sheathing.material", panel.material), ("sheathing.grade", panel.grade)):
        if reading:
            yield worded(name, reading, ask, ", " if name.endswith("grade") else " ")
    if panel.faces:
        yield worded("sheathing.faces", panel.faces, ask, ", ")
    named = (("thickness_in", panel.thickness_in), ("material", panel.material or panel.grade), ("faces", panel.faces))
    silent = [f"sheathing.{name}" for name, reading in named if reading is None]
    if panel.grade is None and ask.numbers("sheathing.grade"):
        silent.append("sheathing.grade")
    if silent:
        yield missing(tuple(silent), ask)


def _hold_down(wall: WallType, job: Job, holds: tuple[HoldDown, ...], ask: Asking) -> Iterable[Value]:
    marks = wall.hold_down.marks
    if marks is None:
        yield _at_plan_marks(job, ask)
        return
    yield worded("hold_down.marks", marks, ask)
    if not marks.value:
        return
    known = {name for row in holds for name in (row.mark.value, row.model.value if row.model else None)}
    for row in holds:
        yield from _hold_down_row(row, ask, named=len(marks.value) > 1)
    for mark in marks.value:
        if job.hold_downs and mark not in known:
            numbers = ask.numbers("hold_down.marks") or ask.about(mark)
            warning = ask.words.lines("no_row", mark=mark, q=asked(numbers))
            yield Value(("hold_down.marks",), Shown.MISSING, warning=warning, questions=numbers)


def _hold_down_row(row: HoldDown, ask: Asking, *, named: bool) -> Iterable[Value]:
    """Model and post of a hold-down the wall names; its mark before them where the wall names several."""
    if row.model and row.model.value != row.mark.value:
        model = worded("hold_down.model", row.model, ask, "; " if named else ", ")
        yield replace(model, text=f"{row.mark.value} {model.text}") if named and model.text else model
    if row.post:
        yield worded("hold_down.post", row.post, ask, ", ")
    else:
        yield missing(("hold_down.post",), ask)


def _at_plan_marks(job: Job, ask: Asking) -> Value:
    """No hold-down in the row: the marks that the plans draw, if they draw any; else the plans don't say."""
    drawn = [mark for mark in job.plan_marks if mark.kind == "hold-down"]
    if not drawn or ask.numbers("hold_down.marks"):
        return missing(("hold_down.marks",), ask, what="")
    marks = ", ".join(dict.fromkeys(mark.mark for mark in drawn))
    sheets = ", ".join(dict.fromkeys(mark.sheet or ask.words.first("page", n=mark.page) for mark in drawn))
    key = "at_plan_marks_both" if ask.words.both else "at_plan_marks"
    return Value(("hold_down.marks",), Shown.DEFERRED, text=ask.words.say(key, marks=marks, sheets=sheets))


def _details(wall: WallType, holds: tuple[HoldDown, ...], ask: Asking) -> Iterable[Line]:
    """What is set before the nailing and stands on the back: fasteners and anchor of each hold-down, bolts' embedment."""
    for row in holds:
        parts = (("fasteners", row.fasteners), ("anchor", row.anchor.diameter_in), ("embed", row.anchor.embedment_in))
        values = [_detail(key, reading, ask) for key, reading in parts if reading]
        yield Line("hold_down", (row.mark.value or row.mark.as_printed,), tuple(values))
    if wall.anchors.embedment_in:
        embed = worded("anchors.embedment_in", wall.anchors.embedment_in, ask)
        yield Line("sill", ask.words.lines("sill"), (embed,))


def _detail(key: str, reading: Reading[Any], ask: Asking) -> Value:
    value = worded({"fasteners": "hold_down.fasteners"}.get(key, "sheathing.thickness_in"), reading, ask, ", ")
    plain = value.shown in (Shown.DEFERRED, Shown.NONE) or not value.text
    return replace(value, fields=(f"hold_down.{key}",), text=value.text if plain else ask.words.first(key, value=value.text))


def _joint(wall: WallType, ask: Asking) -> Iterable[Value]:
    yield from _given_or_asked([("framing.panel_edge", wall.framing.panel_edge)], ask, "")
    yield from _optional([("edge.staggered", wall.edge.staggered)], ask)


def _sill(wall: WallType, ask: Asking) -> Iterable[Value]:
    bolts, sill = wall.anchors, wall.framing.sill
    on_floor = wall.bottom_plate.penny or wall.bottom_plate.spacing_in
    nothing = not any((bolts.kind, bolts.diameter_in, bolts.spacing_in, bolts.washer_in))
    yield from _optional([("framing.sill", sill)], ask)
    if nothing and on_floor and not ask.numbers("anchors.spacing_in"):
        return
    silent = [(f"anchors.{name}") for name, reading in (("diameter_in", bolts.diameter_in), ("spacing_in", bolts.spacing_in))
              if reading is None]  # fmt: skip
    pairs = (("diameter_in", bolts.diameter_in, ", "), ("kind", bolts.kind, " "), ("spacing_in", bolts.spacing_in, " @ "),
             ("washer_in", bolts.washer_in, ", "))  # fmt: skip
    yield from (worded(f"anchors.{name}", reading, ask, glue) for name, reading, glue in pairs if reading)
    silent += [name for name in ("anchors.kind", "anchors.washer_in") if ask.numbers(name) and not dict(readings(wall)).get(name)]
    if silent:
        yield missing(tuple(silent), ask)


def _bottom_plate(wall: WallType, ask: Asking) -> Iterable[Value]:
    plate = wall.bottom_plate
    if plate.penny:
        yield worded("bottom_plate.penny", plate.penny, ask)
    if plate.spacing_in:
        yield worded("bottom_plate.spacing_in", plate.spacing_in, ask, " @ ")
    if (plate.penny is None) != (plate.spacing_in is None) or (not plate.penny and ask.numbers("bottom_plate.spacing_in")):
        yield missing(("bottom_plate.spacing_in",) if plate.spacing_in is None else ("bottom_plate.penny",), ask)


def _top_plate(wall: WallType, ask: Asking) -> Iterable[Value]:
    yield from _optional([("top_plate.connector", wall.top_plate.connector)], ask)
    if wall.top_plate.spacing_in:
        yield worded("top_plate.spacing_in", wall.top_plate.spacing_in, ask, " @ ")


def _sheet(source: Source, words: Words) -> str:
    return source.sheet or words.first("page", n=source.page)


def _row(wall: WallType, job: Job) -> int:
    """The wall's place in the schedule, counted from 1 among the types on its sheet."""
    here = [other for other in job.wall_types if other.mark.source.page == wall.mark.source.page]
    same = [i for i, other in enumerate(here, 1) if other is wall] or [i for i, other in enumerate(here, 1) if other == wall]
    return same[0] if same else 1


def _place(source: Source, wall: WallType, job: Job) -> Callable[[Words], str]:
    """Where to look, in the words of one language: the row for the schedule's sheet, else the sheet."""
    if source.page != wall.mark.source.page:
        return lambda words: _sheet(source, words)
    return lambda words: words.first("row", sheet=_sheet(source, words), n=_row(wall, job))


def _note_sheets(wall: WallType, words: Words) -> tuple[str, ...]:
    """Sheets of the notes and legends that fill this wall's values."""
    filled = (r for _, r in readings(wall) if r.origin in ("note", "legend"))
    return tuple(dict.fromkeys(_sheet(reading.source, words) for reading in filled))


def schedule_sheets(job: Job) -> tuple[SheetRecord, ...]:
    """The sheets that hold rows of the schedule or of the hold-down table."""
    pages = {wall.mark.source.page for wall in job.wall_types} | {row.mark.source.page for row in job.hold_downs}
    return tuple(sheet for sheet in job.sheets if sheet.page in pages)


def mixed(job: Job) -> bool:
    """Whether the sheets of the schedule differ in revision or date."""
    return len({(sheet.revision, sheet.date) for sheet in schedule_sheets(job)}) > 1
