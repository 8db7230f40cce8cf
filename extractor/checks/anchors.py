"""Sill bolts and plate washers against the published minimums."""

from collections.abc import Iterator

from extractor.checks.hit import Hit, mark_of, reading, value
from extractor.checks.wholejob import low_seismic
from extractor.published.tables import rule
from extractor.record import Job, Reading, WallType
from extractor.trade.inches import as_fraction


def anchor_bolt_below_house_code(wall: WallType) -> Iterator[Hit]:
    """A sill bolt is thinner, further apart or less deep than the house code's minimum.

    Why: an engineered wall seldom has less than the house code asks of any wall; a digit may be wrong.
    Fires: 3/8 in bolts; bolts at 96 in; 4 in embedment. Silent: 1/2 in at 72 in with 7 in; screw anchors, straps and epoxy rods.
    Source: IRC-2006 R403.1.6 (1/2 in, 72 in, 7 in).
    """
    if value(wall, "anchors.kind") != "anchor bolt":
        return
    for field, name, limit, at_least in (
        ("anchors.diameter_in", "diameter", rule("bolt diameter").number, True),
        ("anchors.spacing_in", "spacing", rule("bolt spacing").number, False),
        ("anchors.embedment_in", "embedment", rule("bolt embedment").number, True),
    ):
        number, found = value(wall, field), reading(wall, field)
        if number and found and (number < limit if at_least else number > limit):
            yield Hit(
                f"{mark_of(wall)}: anchor bolt {name} of {as_fraction(number)} in is below code for houses: "
                f"{'at least' if at_least else 'no more than'} {as_fraction(limit)} in. Ask the engineer before the pour.",
                found.source,
                field,
            )


def plate_washer_small(job: Job) -> Iterator[Hit]:
    """A plate washer is smaller than the published minimum for high seismic areas.

    Why: a small washer lets the sill split along the bolts.
    Fires: 2 x 2 x 3/16. Silent: 3 x 3 x 0.229, and 3 x 3 x 1/4; plans whose notes name Seismic Design Category A, B or C.
    Source: IBC-2006 2305.3.11 (Seismic Design Category D, E and F).
    """
    for wall in job.wall_types if not low_seismic(job) else ():
        found: Reading[tuple[float, ...]] | None = wall.anchors.washer_in
        size = value(wall, "anchors.washer_in")
        if not found or not size or len(size) != 3:
            continue
        thin, *sides = sorted(size)
        if thin < rule("washer thickness").number - 1e-3 or min(sides) < rule("washer side").number:
            yield Hit(
                f"{mark_of(wall)}: a plate washer of {' x '.join(as_fraction(part) for part in size)} is smaller than the 3 x 3 "
                "x 0.229 in that the code requires in Seismic Design Category D, E and F. Ask the engineer.",
                found.source,
                "anchors.washer_in",
                mark_of(wall),
            )
