"""What a row leaves open: values that a wall cannot be built without, and values that other rows give."""

from collections.abc import Iterable, Iterator

from extractor.checks.fields import BEFORE, LABELS, is_wood, step
from extractor.checks.hit import MANY, Hit, listed, mark_of, reading, source_of, value
from extractor.record import Job, Level, State, WallType

REQUIRED = ("sheathing.thickness_in", "fastener.penny", "edge.spacing_in", "field.spacing_in")
ON_CONCRETE = ("anchors.spacing_in", "anchors.diameter_in", "anchors.kind")
ON_FRAMING = ("bottom_plate.spacing_in", "bottom_plate.penny")
STOREYS = {"anchors.spacing_in": ON_FRAMING, "bottom_plate.spacing_in": ON_CONCRETE, "framing.sill": ON_FRAMING}
"""A wall on concrete is bolted, one on framing is nailed: each is compared with rows that stand on the same."""
BY_ROW = (  # asked for where at least half of the other rows give them; the first of a group speaks for it
    ON_CONCRETE,
    ("hold_down.marks",),
    ("sheathing.material",),
    ("sheathing.faces",),
    ("framing.panel_edge",),
    ("framing.blocked",),
    ("framing.sill",),
    ON_FRAMING,
    ("top_plate.connector", "top_plate.spacing_in"),
    ("capacity",),
)
WOOD_ONLY = ("sheathing.material", "framing.panel_edge", "framing.sill", "bottom_plate.spacing_in", "top_plate.connector")
ASKED = ("sheathing.material", "sheathing.faces", "framing.blocked", "anchors.spacing_in")
NOTED = (
    "anchors.embedment_in",
    "anchors.washer_in",
    "sheathing.grade",
    "framing.panel_edge",
    "framing.sill",
    "bottom_plate.spacing_in",
    "top_plate.connector",
    "capacity",
)


def missing_value(job: Job) -> Iterator[Hit]:
    """A value that a wall cannot be built without stands neither in the row nor in a note.

    Why: a blank is not "none"; whoever fills it from habit builds another wall than the one that was designed.
    Fires: a row with edge nailing and no field nailing. Silent: a field that a note fills, or that is printed and unclear.
    Source: common practice, no source.
    """
    for field in REQUIRED:
        lacking = [wall for wall in job.wall_types if _lacks(wall, field)]
        if len(lacking) > 1 and len(lacking) == len(job.wall_types):
            yield Hit(
                f"The {LABELS[field]} is missing for every wall type: no row and no note gives it. {_ask_before(field)}",
                lacking[0].mark.source,
                field,
            )
            continue
        blank = [wall for wall in lacking if reading(wall, field) is None]
        if len(blank) >= MANY:
            name = LABELS["fastener.penny"] if field == "fastener.penny" else LABELS[field]
            yield _for_many(blank, (field,), f"the {name} is missing: neither the rows nor a note give it.")
            lacking = [wall for wall in lacking if wall not in blank]
        for wall in lacking:
            says = reading(wall, field)
            yield Hit(
                f"{mark_of(wall)}: the {_fastener(wall) if field == 'fastener.penny' else LABELS[field]} is missing"
                + (f", the row says “{says.as_printed}”." if says else ": neither the row nor a note gives it.")
                + f" {_ask_before(field)}",
                says.source if says else wall.mark.source,
                field,
                mark_of(wall),
            )


def nail_not_fully_named(job: Job) -> Iterator[Hit]:
    """A penny size without its kind and without dimensions is not a nail.

    Why: 8d is 0.131 in thick as a common nail and 0.113 in as a box, sinker or cooler nail; a gun nail box shows only
    length and diameter.
    Fires: "8d". Silent: "8d common", "8d (0.131 x 2-1/2)", and any row whose nail is missing or unreadable.
    Source: NDS-2018 Table L4.
    """
    bare = [wall for wall in job.wall_types if _bare_penny(wall)]
    if len(bare) > 1 and len(bare) == len(job.wall_types):
        pennies = listed(list(dict.fromkeys(value(wall, "fastener.penny") for wall in bare)))
        yield Hit(
            f"The kind and the size of the {pennies} nails are missing for every wall type: common, box, sinker and cooler "
            "nails of one penny size differ. Ask the engineer for the kind, diameter and length.",
            source_of(bare[0], "fastener.penny"),
            "fastener.style",
        )
        return
    for wall in bare:
        yield Hit(
            f"{mark_of(wall)}: “{value(wall, 'fastener.penny')}” alone is not a nail; its kind (common, box, sinker) and its "
            "size are missing. Ask the engineer for the kind, diameter and length.",
            source_of(wall, "fastener.penny"),
            "fastener.style",
            mark_of(wall),
        )


def missing_in_one_row(job: Job) -> Iterator[Hit]:
    """A row leaves open what the other rows give.

    Why: beside rows that do give it, a blank looks like "none"; the plans have to say which.
    Fires: panel-edge framing blank in one row of four; one finding for three rows or more with the same blanks. Silent: a field
    that fewer than half of the other rows give, a field of a group (anchor size and spacing) in which another is already in
    doubt, what only wood panels have, on gypsum, and anchors or a sill of walls on framing where the others stand on concrete.
    Source: common practice, no source.
    """
    for group in BY_ROW:
        blanks: dict[tuple[str, ...], list[WallType]] = {}
        walls = [wall for wall in job.wall_types if is_wood(wall)] if group[0] in WOOD_ONLY else list(job.wall_types)
        for wall in walls:
            others = [other for other in walls if other is not wall and _stand_alike(other, wall, group[0])]
            lacking = tuple(field for field in group if reading(wall, field) is None and _most_give(others, field))
            if lacking and not _in_doubt(wall, group):
                blanks.setdefault(lacking, []).append(wall)
        for fields, rows in blanks.items():
            one = len(fields) == 1
            what = f"the {listed([LABELS[field] for field in fields])} {'is' if one else 'are'} missing in"
            gives = f"other rows give {'it' if one else 'them'}."
            if len(rows) >= MANY:
                yield _for_many(rows, fields, f"{what} these rows; {gives}")
                continue
            for wall in rows:
                says = f"{mark_of(wall)}: {what} this row; {gives} {_ask_before(fields[0])}"
                yield Hit(says, wall.mark.source, fields[0], mark_of(wall))


def not_given_anywhere(job: Job) -> Iterator[Hit]:
    """A value that nobody gives: no row, no note.

    Why: what the plans are silent about is built from habit unless somebody asks.
    Fires: no row and no note says whether panel edges are blocked. Silent: a field that one row gives, and hold-downs where
    the plans draw them. Only a note: what schedules often leave to details (washers, embedment, grade, top connection).
    Source: common practice, no source.
    """
    walls = [wall for wall in job.wall_types if is_wood(wall)] or list(job.wall_types)
    for field in (*ASKED, *NOTED) if walls else ():
        if all(reading(wall, field) is None for wall in walls) and not _row_says_no_anchors(walls, field):
            level = Level.NOTE if field in NOTED else None
            yield Hit(
                f"The {LABELS[field]} was not found in any row or note." + ("" if level else " Ask the engineer."),
                walls[0].mark.source,
                field,
                None if len(job.wall_types) > 1 else mark_of(walls[0]),
                level,
            )


def hold_downs_not_given(job: Job) -> Iterator[Hit]:
    """No row, no table and no plan names a hold-down.

    Why: a missed hold-down is found after the pour. Walls without one exist; the plans have to say so.
    Fires: no hold-down column, no hold-down table, no hold-down mark on a plan. Silent: a row that says none, and a table.
    Source: common practice, no source.
    """
    named = any(wall.hold_down.marks for wall in job.wall_types)
    drawn = any(mark.kind == "hold-down" for mark in job.plan_marks)
    if job.wall_types and not (named or drawn or job.hold_downs):
        yield Hit(
            "No hold-down was found: not in a row, not in a table, not on a plan. Ask the engineer before the pour whether "
            "these walls have none.",
            job.wall_types[0].mark.source,
            "hold_down.marks",
        )


def nail_size_not_given(job: Job) -> Iterator[Hit]:
    """Nails are named and their length and diameter stand nowhere on the plans.

    Why: boxes of gun nails show length and diameter and often no name, so the crew cannot compare.
    Fires: rows that say "8d common" and no more. Silent: a schedule in which one row or note gives the dimensions.
    Source: NDS-2018 Table L4 lists the sizes; the plans should print them.
    """
    named = [wall for wall in job.wall_types if value(wall, "fastener.penny") and value(wall, "fastener.style")]
    if named and not any(wall.fastener.diameter_in or wall.fastener.length_in for wall in job.wall_types):
        yield Hit(
            "Length and diameter of the nails were not found on the plans; nail boxes show only these.",
            source_of(named[0], "fastener.penny"),
            "fastener.diameter_in",
        )


def _for_many(walls: list[WallType], fields: tuple[str, ...], what: str) -> Hit:
    """One finding for rows that leave the same open, about the schedule."""
    return Hit(f"{listed([mark_of(wall) for wall in walls])}: {what} {_ask_before(fields[0])}", walls[0].mark.source, fields[0])


def _ask_before(field: str) -> str:
    return f"Ask the engineer before {BEFORE[step(field, '')]}."


def _stand_alike(one: WallType, other: WallType, field: str) -> bool:
    """Whether two rows stand on the same, as far as anchors and plate nailing tell; True for a field of another kind."""
    given = [any(reading(wall, name) for name in STOREYS.get(field, ())) for wall in (one, other)]
    return given[0] == given[1]


def _lacks(wall: WallType, field: str) -> bool:
    if field == "fastener.penny":
        nail = wall.fastener
        return not any((nail.penny, nail.diameter_in, nail.length_in, nail.gauge)) and not _in_doubt(
            wall, ("fastener.kind", "fastener.style")
        )
    found = reading(wall, field)
    return found is None or found.state is State.NONE


def _fastener(wall: WallType) -> str:
    kind = value(wall, "fastener.kind")
    return LABELS["fastener.penny"] if kind in (None, "nail") else f"size of the {kind}s"


def _bare_penny(wall: WallType) -> bool:
    nail = wall.fastener
    kind = value(wall, "fastener.kind")
    return bool(value(wall, "fastener.penny")) and kind in (None, "nail") and not (nail.style or nail.diameter_in)


def _most_give(walls: Iterable[WallType], field: str) -> bool:
    given = [reading(wall, field) is not None for wall in walls]
    return any(given) and 2 * sum(given) >= len(given)


def _in_doubt(wall: WallType, fields: Iterable[str]) -> bool:
    """Whether a field of a group has its own finding already, or says that there is none."""
    return any(found is not None and found.state is not State.READ for found in (reading(wall, field) for field in fields))


def _row_says_no_anchors(walls: list[WallType], field: str) -> bool:
    return field.startswith("anchors.") and any(
        found is not None and found.state is not State.READ
        for wall in walls
        for found in (wall.anchors.kind, wall.anchors.diameter_in, wall.anchors.spacing_in)
    )
