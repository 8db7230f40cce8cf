"""Nailing and panels against the published tables and construction rules."""

from collections.abc import Iterator

from extractor.checks.construction import board_behind, construction
from extractor.checks.fields import is_wood
from extractor.checks.hit import Hit, listed, mark_key, mark_of, source_of, value
from extractor.published.tables import nail_length_in, nominal_shears, panels, rule
from extractor.record import Job, Level, Source, WallType
from extractor.trade.inches import as_fraction

EIGHT_FEET_IN = 96.0
THIN_NAILS = ("sinker", "cooler")


def edge_nailing_too_wide(wall: WallType) -> Iterator[Hit]:
    """Edge nails are further apart than any published shear wall has them.

    Why: no published strength exists for it; a digit may be wrong or two columns may have changed places.
    Fires: wood panels, edge 8 in. Silent: 6 in; gypsum, which has columns of its own.
    Source: SDPWS-2015 4.3.7.1 and the columns of SDPWS-2008 Table 4.3A.
    """
    yield from _wider(wall, "edge.spacing_in", "edge nailing", rule("edge spacing limit").number)


def field_nailing_too_wide(wall: WallType) -> Iterator[Hit]:
    """Field nails are further apart than the published rule for shear walls.

    Why: a panel that is not held at the studs buckles.
    Fires: wood panels, field 16 in. Silent: 12 in; gypsum.
    Source: SDPWS-2015 4.3.7.1.
    """
    yield from _wider(wall, "field.spacing_in", "field nailing", rule("field spacing limit").number)


def nail_penetration_short(wall: WallType) -> Iterator[Hit]:
    """The nail through this panel does not go as far into the framing as its row of the table asks.

    Why: a short nail pulls out before the wall reaches its strength.
    Fires: 8d, 1-3/4 in long, through 15/32 (1-9/32 in left; 1-3/8 in needed). Silent: 8d, 2-1/2 in long; a nail without a length
    that is published.
    Source: SDPWS-2008 Table 4.3A (6d 1-1/4 in, 8d 1-3/8 in, 10d 1-1/2 in).
    """
    penny, left = value(wall, "fastener.penny"), penetration_in(wall)
    least = rule(f"penetration {penny}").number if penny in ("6d", "8d", "10d") else 0.0
    if left is not None and left < least - 1e-6:
        yield Hit(
            f"{mark_of(wall)}: through {as_fraction(value(wall, 'sheathing.thickness_in'))} sheathing the {penny} nail goes "
            f"{as_fraction(left)} in into the framing; below code: at least {as_fraction(least)} in. "
            "Ask the engineer which nail.",
            source_of(wall, "fastener.length_in"),
            "fastener.length_in",
        )


def panel_too_thin_for_the_nail(wall: WallType) -> Iterator[Hit]:
    """The published table has no row for a panel this thin with this nail.

    Why: without a row there is no published strength; a thickness or a nail may be wrong.
    Fires: 7/16 with 10d. Silent: 15/32 with 10d; 3/8 with 8d; a row that puts the panel over gypsum.
    Source: SDPWS-2008 Table 4.3A (10d: 15/32 and thicker, 8d: 3/8 and thicker, 6d: 5/16 and thicker; 1/4 beside it in the older
    tables).
    """
    made = construction(wall)
    if made is None or not made.sure or any("GYP" in (words.as_printed.upper()) for words in wall.other):
        return
    least = min(row.min_thickness_in for row in nominal_shears() if row.nail == made.penny and row.grade in made.grades)
    least = 1 / 4 if made.penny == "6d" else least
    if made.thickness_in < least - 1e-3:
        yield Hit(
            f"{mark_of(wall)}: the published table has no row for {as_fraction(made.thickness_in)} panels with {made.penny} "
            f"nails; it starts at {as_fraction(least)}. Ask the engineer.",
            source_of(wall, "sheathing.thickness_in"),
            "sheathing.thickness_in",
        )


def panel_thickness_unknown(wall: WallType) -> Iterator[Hit]:
    """No panel of this thickness is made.

    Why: a digit is wrong, on the sheet or in the reading.
    Fires: 5/32, 7/32. Silent: 7/16, 15/32, 1/2, 19/32 and the other thicknesses of the list; gypsum.
    Source: PS 1 / PS 2 performance categories (some from memory: the adopted code decides).
    """
    thickness = value(wall, "sheathing.thickness_in")
    if thickness and is_wood(wall) and not any(abs(panel.thickness_in - thickness) < 2e-3 for panel in panels()):
        yield Hit(
            f"{mark_of(wall)}: {as_fraction(thickness)} in is not a panel thickness that is made. The list is partly from "
            "memory: the adopted code decides. Look at the sheet and ask the engineer.",
            source_of(wall, "sheathing.thickness_in"),
            "sheathing.thickness_in",
        )


def nail_thinner_than_the_table(wall: WallType) -> Iterator[Hit]:
    """A wood panel is nailed with sinkers or coolers; the published strengths are for common or galvanized box nails.

    Why: an 8d cooler is 0.113 in thick, an 8d common 0.131 in; taking one for the other is a common error.
    Fires: "8d cooler" on plywood with a capacity. Silent: "8d common", "10d galvanized box"; gypsum, where coolers belong.
    Source: SDPWS-2008 Table 4.3A (common or galvanized box nails).
    """
    style, penny = value(wall, "fastener.style"), f"{value(wall, 'fastener.penny') or ''} ".lstrip()
    if style in THIN_NAILS and value(wall, "sheathing.material") is not None and is_wood(wall) and wall.capacity:
        yield Hit(
            f"{mark_of(wall)}: {penny}{style} nails are thinner than the common or galvanized box nails of the published shear "
            "wall table. Ask the engineer whether they are meant.",
            source_of(wall, "fastener.style"),
            "fastener.style",
        )


def close_nailing_on_unblocked_wall(wall: WallType) -> Iterator[Hit]:
    """A wall without blocking has edge nails closer than the rule for unblocked walls.

    Why: the published strengths for close nailing are for blocked panel edges.
    Fires: unblocked, edge 4 in. Silent: blocked, or unblocked at 6 in; gypsum.
    Source: SDPWS-2015 4.3.3.2 (from memory: the adopted code decides).
    """
    edge, least = value(wall, "edge.spacing_in"), rule("unblocked edge spacing").number
    if value(wall, "framing.blocked") is False and edge and edge < least and construction(wall):
        yield Hit(
            f"{mark_of(wall)}: unblocked, with edge nailing at {as_fraction(edge)} in; unblocked walls are not nailed closer "
            f"than {as_fraction(least)} in. The rule is from memory: the adopted code decides. Ask the engineer.",
            source_of(wall, "framing.blocked"),
            "framing.blocked",
        )


def drawn_wall_too_narrow(job: Job) -> Iterator[Hit]:
    """A wall's length is written at its mark, and it is too short for a shear wall even at a height of 8 ft.

    Why: a tall narrow wall tips; the published limit of height to width is 3.5 to 1.
    Fires: 2'-0" at a mark. Silent: 2'-4" (27-7/16 in is the limit for 8 ft), marks without a length, gypsum.
    Source: SDPWS-2015 Table 4.3.4 (3.5 to 1, blocked).
    """
    least = EIGHT_FEET_IN / rule("aspect ratio").number
    wood = {mark_key(mark_of(wall)) for wall in job.wall_types if is_wood(wall)}
    for mark in job.plan_marks:
        for box, length in zip(mark.boxes, mark.lengths_in, strict=False):
            if mark.kind == "wall" and mark_key(mark.mark) in wood and length is not None and length < least:
                yield Hit(
                    f"{mark.mark}: a wall drawn {as_fraction(length)} in long is beyond the published limit of height to width, "
                    "3.5 to 1, even at a height of 8 ft. Ask the engineer.",
                    Source(page=mark.page, sheet=mark.sheet, box=box),
                    None,
                    mark.mark,
                )


def special_inspection_possible(job: Job) -> Iterator[Hit]:
    """Edge nailing is close enough that a special inspection may be called for.

    Why: a special inspector has to come before the wall is covered.
    Fires: edge 4 in. Silent: edge 6 in. Once for the schedule.
    Source: IBC-2015 1705 (from memory: the adopted code decides).
    """
    most = rule("special inspection edge spacing").number
    rows = [wall for wall in job.wall_types if is_wood(wall) and 0 < (value(wall, "edge.spacing_in") or 0) <= most]
    if rows:
        yield Hit(
            f"{listed([mark_of(wall) for wall in rows])}: edge nailing at {as_fraction(most)} in or closer may need "
            "special inspection; the adopted code "
            "decides (rule from memory). See the special inspection sheet or ask the building department.",
            source_of(rows[0], "edge.spacing_in"),
            None,
        )


def penetration_in(wall: WallType) -> float | None:
    """How far the nail goes into the framing, from the printed length or else the published one; inches."""
    thickness = value(wall, "sheathing.thickness_in")
    length = value(wall, "fastener.length_in")
    if length is None and wall.fastener.length_in is None:
        length = nail_length_in(value(wall, "fastener.penny"), value(wall, "fastener.style"))
    board = board_behind(wall)
    if board == 0.0:  # gypsum board between, and its size is not printed
        return None
    return length - thickness - (board or 0.0) if length and thickness and is_wood(wall) else None


def _wider(wall: WallType, field: str, name: str, most: float) -> Iterator[Hit]:
    spacing = value(wall, field)
    if spacing and spacing > most and is_wood(wall) and value(wall, "fastener.kind") in (None, "nail"):
        yield Hit(
            f"{mark_of(wall)}: {name} at {as_fraction(spacing)} in is beyond the published limit of {as_fraction(most)} in. Ask "
            "the engineer.",
            source_of(wall, field),
            field,
            level=None if value(wall, "sheathing.material") else Level.ASK,
        )
