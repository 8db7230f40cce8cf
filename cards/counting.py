"""A job and its wall lengths -> what to order, worked out wall by wall, with the working beside each number.

A number that hangs on an open stop, or on a value that the plans do not give, is not worked out: it says which question.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from cards import quantities as q
from cards.face import Face, faces
from cards.lengths import Wall, in_feet
from cards.papers import counts, drawn
from cards.values import Shown, inch
from extractor.checks.fields import LABELS, is_wood
from extractor.checks.hit import mark_key, mark_of, value
from extractor.published.tables import rule
from extractor.record import HoldDown, Job, Reading, State

STUDS_IN = 16.0  # taken where the foreman gives none: it takes more nails than 24, and the paper says so
SHORTER = (96.0, 108.0, 120.0)
PANEL = ("sheathing.thickness_in", "sheathing.material", "sheathing.grade", "sheathing.faces")
NAIL = ("fastener.kind", "fastener.penny", "fastener.style", "fastener.diameter_in", "fastener.length_in", "fastener.gauge")
NAILING = ("edge.spacing_in", "edge.rows", "field.spacing_in")
BOLTS = ("anchors.kind", "anchors.diameter_in", "anchors.spacing_in", "anchors.embedment_in", "anchors.washer_in")
_PLATES_IN = 3.0  # two top plates: a panel that ends within them leaves no stud and no block to nail a strip to
Places = Sequence[tuple[str, int]]
Words = tuple[tuple[str, str], ...]
_COUNT = re.compile(r"^\(?(\d{1,2})\)\s*")  # "(2) HD4" is drawn where two stand


@dataclass(frozen=True)
class Worked:
    """A number that was worked out, or ``why`` it was not. ``least`` says that there may be more; ``name`` is of what."""

    number: float | None = None
    how: str = ""
    why: str = ""
    name: str = ""
    least: bool = False

    @property
    def done(self) -> bool:
        """Whether there is a number."""
        return self.number is not None


@dataclass(frozen=True)
class Line:
    """One line of the foreman's list, worked out for all its ``wall.count`` walls together."""

    wall: Wall
    known: bool
    sides: str
    panels: Worked
    panel_in: float
    nails: Worked
    blocks: Worked
    block_in: float
    bolts: Worked
    washer: str
    shorter: tuple[str, ...]
    remarks: tuple[str, ...]

    @property
    def each_side(self) -> bool:
        """Whether panels and nails are for one side because the plans do not say how many are sheathed."""
        return self.sides == ""


@dataclass(frozen=True)
class Held:
    """Hold-downs of one mark: as drawn sheet by sheet, and two a segment to compare with."""

    mark: str
    drawn: str
    expected: Worked
    differs: str
    words: Words


@dataclass(frozen=True)
class Order:
    """Everything on the order sheet."""

    lines: tuple[Line, ...]
    hold_downs: tuple[Held, ...]


def order(job: Job, walls: Sequence[Wall]) -> Order:
    """What to order for ``walls``."""
    by_mark = {mark_key(face.mark): face for face in faces(job)}
    several = _several(job)
    lines = tuple(
        _uncounted(wall, f"{wall.mark} stands for several rows: {', '.join(several[key])}. Count each by hand.")
        if (key := mark_key(wall.mark)) in several
        else _line(wall, by_mark.get(key))
        for wall in walls
    )
    return Order(lines, tuple(_held(job, walls, tuple(by_mark.values()))))


def _several(job: Job) -> dict[str, list[str]]:
    """Marks that more than one row of the schedules has, with the names of the rows."""
    rows: dict[str, list[str]] = {}
    for face in faces(job):
        rows.setdefault(mark_key(face.mark), []).append(face.named)
    return {key: names for key, names in rows.items() if len(names) > 1}


def nail_names(job: Job) -> tuple[str, ...]:
    """The nails of a job as the order sheet names them."""
    return tuple(dict.fromkeys(name for face in faces(job) if (name := nail_name(face))))


def nail_name(face: Face) -> str:
    """The nail in the words of the card: 2-1/2" x 0.131" 8d common; nothing where its size is not on the plans."""
    return _named(face, NAIL) if value(face.wall, "fastener.penny") or value(face.wall, "fastener.length_in") else ""


def _line(wall: Wall, face: Face | None) -> Line:
    if face is None:
        return _uncounted(wall, f"{wall.mark} has no row in the schedule. Ask the engineer.")
    panel_in = _panel_length(wall.height_in) if wall.height_in else 0.0
    sides = value(face.wall, "sheathing.faces")
    washer = value(face.wall, "anchors.washer_in")
    blocks, block_in = _blocks(wall, face, panel_in)
    return Line(
        wall, True, {1: "one", 2: "both"}.get(sides, ""), _panels(wall, face, panel_in), panel_in, _nails(wall, face, panel_in),
        blocks, block_in, _bolts(wall, face), " x ".join(map(inch, washer or ())), tuple(_shorter(wall, face, panel_in)),
        tuple(_remarks(wall, face)),
    )  # fmt: skip


def _uncounted(wall: Wall, words: str) -> Line:
    """A wall for which nothing is worked out, and why."""
    why = Worked(why=words)
    return Line(wall, False, "", why, 0, why, why, 0, why, "", (), ())


def _panel_length(height_in: float) -> float:
    """The panel that reaches in one piece, else the stocked one that takes the fewest pieces, the shortest of those."""
    return q.panel_length(height_in) or min(SHORTER, key=lambda length: (len(q.stacked(height_in, length)), length))


def _open(face: Face, needed: Iterable[str], useful: Iterable[str] = ()) -> str:
    """Why a number cannot be worked out: what of ``needed`` is not known, or an open stop on it or on what is ``useful``."""
    needed, every = tuple(needed), {*needed, *useful}
    groups = {name.split(".")[0] for name in every}
    stops = [
        one.number
        for one in face.questions
        if one.stop
        and (one.finding.field in every | groups or (one.finding.field is None and one.finding.wall_type in (None, face.mark)))
    ]
    doubt = [name for name in every if (found := face.value(name)) and found.shown in (Shown.CONFLICT, Shown.UNREADABLE)]
    lacking = [name for name in needed if value(face.wall, name) is None]
    names = list(dict.fromkeys(name for name in LABELS if name in {*doubt, *lacking}))
    asked = [number for name in names if (found := face.value(name)) for number in found.questions]
    numbers = ", ".join(dict.fromkeys([*stops, *asked]))
    if not stops and not names:
        return ""
    what = f"{', '.join(LABELS[name] for name in names)}: not settled on the plans" if names else "an open STOP"
    return f"{what}. {f'See {numbers}.' if numbers else 'Ask the engineer.'}"


def _sized(wall: Wall) -> str:
    """Why a wall's own size keeps a number from being worked out."""
    lacking = [name for name, given in (("length", wall.length_in), ("height", wall.height_in)) if given is None]
    return f"{' and '.join(lacking)} not given: fill in walls.csv." if lacking else ""


def _panels(wall: Wall, face: Face, panel_in: float) -> Worked:
    why = _open(face, ["sheathing.thickness_in"], PANEL) or _sized(wall)
    if why or wall.length_in is None or wall.height_in is None:
        return Worked(why=why)
    columns, pieces = q.panel_columns(wall.length_in), len(q.stacked(wall.height_in, panel_in))
    factors = [(columns, "along"), (pieces, "high"), (_sides(face), "sides"), (wall.count, "walls")]
    return Worked(_product(factors), _working(factors), name=_named(face, PANEL[:3]))


def _nails(wall: Wall, face: Face, panel_in: float) -> Worked:
    spacings = ["edge.spacing_in", "field.spacing_in"]
    why = _open(face, spacings, (*NAIL, *NAILING, "sheathing.faces"))
    if not why and not nail_name(face):
        why = _open(face, ["fastener.length_in"], NAIL)
    why = why or _sized(wall)
    if why or wall.length_in is None or wall.height_in is None:
        return Worked(why=why)
    each = column_nails(wall, face, panel_in)
    columns, around = q.panel_columns(wall.length_in), _around_openings(wall, face)
    factors = [(_sides(face), "sides"), (wall.count, "walls")]
    how, rest = f"{columns} x {each} a panel", _working(factors)
    if around:
        how = f"({how} + {around} round openings)" if rest else f"{how} + {around} round openings"
    how += f" x {rest}" if rest else ""
    return Worked((columns * each + around) * _product(factors), how, name=nail_name(face))


def column_nails(wall: Wall, face: Face, panel_in: float) -> int:
    """Nails of the panels that stand above each other in one 4 ft column, one side."""
    edge, fields, rows = (value(face.wall, name) for name in ("edge.spacing_in", "field.spacing_in", "edge.rows"))
    studs = q.interior_studs(wall.studs_in or STUDS_IN)
    return sum(q.panel_nails(piece, edge, fields, studs, rows=rows or 1) for piece in q.stacked(wall.height_in or 0, panel_in))


def _around_openings(wall: Wall, face: Face) -> int:
    edge = value(face.wall, "edge.spacing_in")
    return sum(q.edge_nails(high, edge, width_in=wide) for wide, high in wall.openings)


def _blocks(wall: Wall, face: Face, panel_in: float) -> tuple[Worked, float]:
    """Blocks behind horizontal joints, and the inches of lumber in them."""
    why = _open(face, ["framing.blocked"], ["framing.panel_edge"]) or _sized(wall)
    if why or wall.length_in is None or wall.height_in is None:
        return Worked(why=why), 0.0
    if value(face.wall, "framing.blocked") is False:
        return Worked(0, "not blocked, per plans"), 0.0
    joints = len(q.stacked(wall.height_in, panel_in)) - 1
    pieces, inches = q.blocking(wall.length_in, wall.studs_in or STUDS_IN)
    if not joints:
        return Worked(0, "panels in one piece: no joint"), 0.0
    factors = [(pieces, "bays"), (joints, "joints"), (wall.count, "walls")]
    return Worked(_product(factors), _working(factors)), inches * joints * wall.count


def _bolts(wall: Wall, face: Face) -> Worked:
    record = face.wall
    on_floor = record.bottom_plate.penny or record.bottom_plate.spacing_in
    given = any((record.anchors.kind, record.anchors.diameter_in, record.anchors.spacing_in))
    if on_floor and not given:
        return Worked(0, "plate nailing in the row, no bolts")
    why = _open(face, ["anchors.diameter_in", "anchors.spacing_in"], BOLTS)
    if why or wall.length_in is None:
        return Worked(why=why or "length not given: fill in walls.csv.")
    spacing = value(record, "anchors.spacing_in")
    pieces = wall.pieces_in or (wall.length_in,)
    each = [q.sill_bolts(piece, spacing) for piece in pieces]
    how = " + ".join(map(str, each))
    how = f"({how}) x {wall.count} walls" if wall.count > 1 else how
    how += ", by plate piece" if wall.pieces_in else ", as ONE plate piece: give the pieces"
    how += "; where it stands on concrete" if on_floor else ""
    return Worked(sum(each) * wall.count, how, name=_named(face, BOLTS[:2]), least=not wall.pieces_in)


def _shorter(wall: Wall, face: Face, panel_in: float) -> Iterator[str]:
    """What panels shorter than the wall cost: nails, a joint, blocks."""
    if wall.height_in is None or wall.length_in is None or not _nails(wall, face, panel_in).done or panel_in < wall.height_in:
        return
    columns, times = q.panel_columns(wall.length_in), _sides(face) * wall.count
    best = column_nails(wall, face, panel_in) * columns * times
    for short in SHORTER:
        pieces = q.stacked(wall.height_in, short)
        if len(pieces) < 2:
            continue
        feet, rest = f"{short / 12:g} ft", inch(pieces[-1])
        if pieces[-1] < _PLATES_IN:
            yield f"{feet}: ends {rest} short, in the top plates: longer panels, or ask for a detail"
            continue
        more = column_nails(wall, face, short) * columns * times - best
        blocks, inches = q.blocking(wall.length_in, wall.studs_in or STUDS_IN)
        joints = (len(pieces) - 1) * wall.count
        yield (f"{feet} + {rest} strip: {more} more nails ({100 * more / best:.0f} %), {joints} joint{'s' * (joints > 1)} with "
               f"{blocks * joints} blocks, {in_feet(inches * joints)}")  # fmt: skip


def _remarks(wall: Wall, face: Face) -> Iterator[str]:
    if wall.studs_in is None:
        yield "studs"
    if face.wall.sheathing.faces is None:
        yield "sides"
    if is_wood(face.wall) and wall.length_in and wall.height_in and wall.height_in > rule("aspect ratio").number * wall.length_in:
        yield "narrow"


def _sides(face: Face) -> int:
    sides = value(face.wall, "sheathing.faces")
    return int(sides) if sides else 1


def _product(factors: Iterable[tuple[int, str]]) -> int:
    total = 1
    for number, _ in factors:
        total *= number
    return total


def _working(factors: Iterable[tuple[int, str]]) -> str:
    """The factors with their names; those that are one are left out."""
    return " x ".join(f"{number} {name}" for number, name in factors if number != 1)


def _named(face: Face, fields: Iterable[str]) -> str:
    """Values of a card's lines in their own words; frames and sources left out."""
    wanted = set(fields)
    values = [one for line in face.lines for one in line.values if wanted & set(one.fields) and one.text]
    return "".join((one.glue.replace("   ", " ") if i else "") + one.text for i, one in enumerate(values))


def _held(job: Job, walls: Sequence[Wall], every: Sequence[Face]) -> Iterator[Held]:
    """Hold-downs of the table, then those that are drawn without a row in it."""
    on_plans = _drawn(job)
    seen: set[str] = set()
    for row in job.hold_downs:
        keys = {mark_key(name.value) for name in (row.mark, row.model) if name and name.value}
        seen |= keys
        places = [place for key in on_plans if key in keys for place in on_plans[key][1]]
        yield _compared(mark_of(row), places, walls, [face for face in every if row in face.hold_downs], _words(row))
    for key, (mark, places) in on_plans.items():
        if key not in seen:
            naming = [face for face in every if key in map(mark_key, value(face.wall, "hold_down.marks") or ())]
            yield _compared(mark, places, walls, naming, (("", "NO ROW IN A HOLD-DOWN TABLE - ASK"),))


def _drawn(job: Job) -> dict[str, tuple[str, list[tuple[str, int]]]]:
    """Hold-down marks as drawn, by key: the mark, and how many on each sheet; "(2) HD4" is two."""
    found: dict[str, tuple[str, list[tuple[str, int]]]] = {}
    for mark, sheets in drawn(job, "hold-down").values():
        times = int(m[1]) if (m := _COUNT.match(mark)) else 1
        plain = _COUNT.sub("", mark)
        found.setdefault(mark_key(plain), (plain, []))[1].extend((sheet, count * times) for sheet, count in sheets)
    return found


def _compared(mark: str, places: Places, walls: Sequence[Wall], naming: Sequence[Face], words: Words) -> Held:
    """A hold-down with its marks as drawn and two a segment of the walls that name it."""
    marks = {mark_key(face.mark) for face in naming}
    segments = sum(wall.count for wall in walls if mark_key(wall.mark) in marks)
    several = [face.mark for face in naming if len(value(face.wall, "hold_down.marks") or ()) > 1]
    expected = Worked(q.hold_downs_expected(segments), f"2 x {segments} segments of {', '.join(face.mark for face in naming)}")
    if not naming:
        expected = Worked(why="no row of the schedule names it")
    elif several:
        expected = Worked(why=f"{', '.join(several)} names more than one hold-down")
    elif not segments:
        expected = Worked(why=f"no wall of {', '.join(face.mark for face in naming)} in walls.csv")
    return Held(mark, counts(places) or "none drawn", expected, _difference(places, expected), words)


def _difference(places: Places, expected: Worked) -> str:
    """How marks and two a segment differ; sheets are never added up, because two may draw the same hold-down."""
    if expected.number is None:
        return "not compared"
    if not places:
        return f"none drawn against {expected.number:g}: look, and ask"
    if len(places) > 1:
        each = ", ".join(f"{sheet}: {count - expected.number:+g}" for sheet, count in places)
        return f"by sheet {each}: look whether two sheets draw the same ones"
    more = places[0][1] - expected.number
    return "same" if not more else f"{more:+g} drawn: look, and ask"


def _words(row: HoldDown) -> Words:
    """Model, post, fasteners and anchor as the table prints them; what is not clear says so."""
    parts: tuple[tuple[str, Reading[Any] | None], ...] = (
        ("model", row.model), ("post", row.post), ("fasteners", row.fasteners), ("anchor", row.anchor.diameter_in),
        ("embedment", row.anchor.embedment_in),
    )  # fmt: skip
    return tuple((name, _as_read(one)) for name, one in parts)


def _as_read(one: Reading[Any] | None) -> str:
    if one is None:
        return "NOT ON PLANS - ASK"
    both = " | ".join(side.as_printed for side in (one, *one.also))
    return {
        State.UNREADABLE: f"CAN'T READ “{both}” - ASK", State.CONFLICT: f"CONFLICT - ASK: {both}", State.NONE: "NONE (per plans)",
        State.DEFERRED: f"SEE: “{both}”",
    }.get(one.state, both)  # fmt: skip
