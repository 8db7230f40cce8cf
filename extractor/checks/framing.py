"""Framing where panels meet: 3 in nominal or doubled under close nailing, staggered nails, joints of two faces."""

from collections.abc import Iterator

from extractor.checks.construction import construction, nominal_seismic_plf
from extractor.checks.fields import is_wood
from extractor.checks.hit import Hit, listed, mark_of, printed, source_of, value
from extractor.checks.published import penetration_in
from extractor.checks.wholejob import low_seismic
from extractor.published.tables import rule
from extractor.record import Job, WallType
from extractor.trade.inches import as_fraction


def panel_edge_framing_too_narrow(wall: WallType) -> Iterator[Hit]:
    """Panel edges meet on a 2x where the nailing calls for 3 in nominal framing.

    Why: rows of close nails split a 2x; then the panel edge holds nothing.
    Fires: 2x with edge nails at 2 in, or with 10d at 3 in. Silent: "3x", "2-2x", "3x or 2-2x"; 8d at 3 in; 10d that go no more
    than 1-1/2 in into the framing; gypsum.
    Source: SDPWS-2008 4.3.7.1 (the depth and the doubled 2x are from memory).
    """
    why, framing = _wide_framing(wall), wall.framing.panel_edge
    if why and framing and _narrow(value(wall, "framing.panel_edge")):
        yield Hit(
            f"{mark_of(wall)}: framing at panel edges is {printed(framing)}; below code: {why} requires 3 in nominal framing. "
            "Ask the engineer.",
            framing.source,
            "framing.panel_edge",
        )


def panel_edge_framing_not_given(job: Job) -> Iterator[Hit]:
    """Nailing that calls for 3 in nominal framing, and nobody says what the panel edges meet on.

    Why: the crew will set the usual 2x stud, and close nails split it.
    Fires: edge nails at 2 in, no framing in any row or note. Silent: where other rows give it (then the one row is asked for).
    Source: SDPWS-2008 4.3.7.1.
    """
    for wall in job.wall_types:
        why = _wide_framing(wall)
        if why and not any(row.framing.panel_edge for row in job.wall_types if is_wood(row)):
            yield Hit(
                f"{mark_of(wall)}: {why} requires 3 in nominal framing at panel edges; the framing is missing on the plans. Ask "
                "the engineer before ordering.",
                source_of(wall, "edge.spacing_in"),
                "framing.panel_edge",
                mark_of(wall),
            )


def panel_edge_framing_narrow_for_shear(job: Job) -> Iterator[Hit]:
    """Panel edges meet on a 2x, and the nominal shear of one face is over the limit for that in high seismic areas.

    Why: in Seismic Design Category D, E and F heavy walls need 3 in nominal framing whatever the nail spacing.
    Fires: 2x with 15/32 sheathing, 8d at 4 in (760 plf nominal). Silent: 7/16 at 4 in (700 plf), "3x", "2-2x", and plans whose
    notes name Seismic Design Category A, B or C.
    Source: SDPWS-2008 4.3.7.1.
    """
    most = rule("wide framing nominal shear").number
    for wall in job.wall_types if not low_seismic(job) else ():
        made, framing = construction(wall), wall.framing.panel_edge
        nominal = nominal_seismic_plf(made) if made else None
        narrow = framing and _narrow(value(wall, "framing.panel_edge")) and not _wide_framing(wall)
        if nominal and nominal > most and framing and narrow:
            yield Hit(
                f"{mark_of(wall)}: framing at panel edges is {printed(framing)} with a nominal seismic shear of {nominal:g} plf "
                f"a face. Over {most:g} plf the code requires 3 in nominal framing in Seismic Design Category D, E and F. Ask "
                "the engineer.",
                framing.source,
                "framing.panel_edge",
                mark_of(wall),
            )


def stagger_not_stated(job: Job) -> Iterator[Hit]:
    """Nailing that goes with 3 in nominal framing is also to be staggered, and the plans do not say so.

    Why: staggered rows keep the wide member from splitting too.
    Fires: 3x with edge nails at 2 in. Silent: a row that says staggered, or rows at wider spacing. Once for the schedule.
    Source: SDPWS-2008 4.3.7.1.
    """
    rows = [
        wall
        for wall in job.wall_types
        if _wide_framing(wall) and wall.edge.staggered is None and _wide(value(wall, "framing.panel_edge"))
    ]
    if rows:
        yield Hit(
            f"{_rows(rows)}: edge nails this close are to be staggered at panel edges; a word about it was not found.",
            source_of(rows[0], "edge.spacing_in"),
            "edge.staggered",
        )


def joints_on_both_faces(job: Job) -> Iterator[Hit]:
    """Walls sheathed on both faces with close nailing: joints of the two faces fall on different studs, or on 3 in studs.

    Why: nails from both sides into one 2x stud split it.
    Fires: both faces, edge 4 in. Silent: one face, or both at 6 in. Once for the schedule.
    Source: SDPWS-2015 Table 4.3A footnote 6 (from memory: the adopted code decides).
    """
    least = rule("offset joints edge spacing").number
    rows = [
        wall
        for wall in job.wall_types
        if value(wall, "sheathing.faces") == 2 and construction(wall) and value(wall, "edge.spacing_in") < least
    ]
    if rows:
        yield Hit(
            f"{_rows(rows)}: sheathed on both faces. Look in the details whether panel joints of the two faces are on different "
            "studs. The rule is from memory: the adopted code decides.",
            source_of(rows[0], "sheathing.faces"),
            "sheathing.faces",
        )


def _wide_framing(wall: WallType) -> str | None:
    """Why 3 in nominal framing is called for; None where it is not."""
    edge, nail = value(wall, "edge.spacing_in"), value(wall, "fastener.penny")
    if not edge or not is_wood(wall) or value(wall, "fastener.kind") not in (None, "nail"):
        return None
    if edge <= rule("wide framing edge spacing").number:
        return f"edge nailing at {as_fraction(edge)} in"
    left, made = penetration_in(wall), construction(wall)
    deep = left is None or left > rule("penetration 10d").number
    if made and nail == "10d" and edge <= rule("wide framing edge spacing for 10d").number and deep:
        return f"10d edge nailing at {as_fraction(edge)} in"
    return None


def _wide(framing: str | None) -> bool:
    return framing is not None and not _narrow(framing)


def _narrow(framing: str | None) -> bool:
    return framing is not None and "2x" in (part.strip() for part in framing.split(" or "))


def _rows(rows: list[WallType]) -> str:
    return listed([mark_of(wall) for wall in rows])
