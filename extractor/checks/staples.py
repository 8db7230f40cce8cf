"""Stapled panels against the published allowable shears."""

from collections.abc import Iterator

from extractor.checks.construction import GRADES, stated_basis
from extractor.checks.hit import Hit, mark_of, value
from extractor.published.tables import StapleShear, rule, staple_row
from extractor.record import Capacity, Level, WallType
from extractor.trade.inches import as_fraction

WOOD = ("plywood", "osb", "wood structural panel")


def stapled_capacity_over_the_table(wall: WallType) -> Iterator[Hit]:
    """A stated capacity is higher than the published table gives for that panel, staple, edge spacing and number of faces.

    Why: either the capacity or a value beside it is wrong, and the wall as stapled is weaker than the design counts on.
    Fires: 15/32 Structural I, 16 gauge staples at 4 in, one face: 380 plf (allowable seismic; the table gives 280). Silent: up
    to 280; 392 for wind (1.4 times); other gauges; a capacity without load or method. Milder where faces or grade are open,
    for two faces, and for panels other than Structural I, whose rows are from memory.
    Source: IBC-2009 Table 2306.3 (16 gauge staples).
    """
    for stated in value(wall, "capacity") or ():
        row, faces = _row(wall), value(wall, "sheathing.faces")
        times = _times(stated)
        if row is None or times is None:
            continue
        limit = row.plf * times * (faces or 1)
        if stated.plf.value and stated.plf.value > row.plf * times * (faces or 2) + (faces or 2) and wall.capacity:
            sure = row.origin.status == "confirmed" and faces == 1 and len(_grades(wall)) == 1
            yield Hit(
                f"{mark_of(wall)}: capacity {stated.plf.value:g} plf is over the published {limit:g} plf (allowable "
                f"{stated_basis(stated)[0]}) for {as_fraction(value(wall, 'sheathing.thickness_in'))} panels with {row.gauge} "
                f"gauge staples at {row.edge_in:g} in, {'both faces' if faces == 2 else 'one face'}."
                + ("" if sure else " Part of this rule is from memory: the adopted code decides.")
                + " Ask the engineer which value is right.",
                wall.capacity.source,
                "capacity",
                level=None if sure else Level.ASK,
            )
            return


def _row(wall: WallType) -> StapleShear | None:
    """The published row, the stronger grade where the row leaves it open; None where the table does not know the wall."""
    thickness, edge, gauge = (value(wall, name) for name in ("sheathing.thickness_in", "edge.spacing_in", "fastener.gauge"))
    stapled = value(wall, "fastener.kind") == "staple" and value(wall, "sheathing.material") in WOOD
    if not (stapled and thickness and edge and gauge) or value(wall, "edge.rows") not in (None, 1):
        return None
    return staple_row(thickness + 1e-3, _grades(wall)[-1], gauge, edge)


def _grades(wall: WallType) -> tuple[str, ...]:
    return GRADES[value(wall, "sheathing.grade")]


def _times(stated: Capacity) -> float | None:
    """What the allowable value may be multiplied by for the stated basis; None where it is not stated as allowable."""
    load, method = stated_basis(stated)
    if method != "ASD" or load is None:
        return None
    return rule("wind increase").number if load == "wind" else 1.0
