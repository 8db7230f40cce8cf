"""What the notes say about the whole job, against the rows: code edition, framing lumber, stud spacing, nails from the edge."""

from collections.abc import Iterator

import regex as re

from extractor.checks.construction import construction, limits, stated_basis
from extractor.checks.fields import is_wood
from extractor.checks.hit import Hit, listed, mark_of, place, printed, source_of, value
from extractor.published.tables import rule
from extractor.record import Job, Level, Reading, WallType
from extractor.trade.inches import as_fraction

LIGHT = ("hem-fir", "spruce-pine-fir")
THIN_IN = 7 / 16
WIDE_STUDS_IN = 24.0


def code_edition_not_found(job: Job) -> Iterator[Hit]:
    """No note names the building code with its year.

    Why: the published strengths and the rules for framing and washers change from edition to edition.
    Fires: ALL WORK SHALL CONFORM TO THE BUILDING CODE. Silent: 2018 INTERNATIONAL BUILDING CODE.
    Source: common practice, no source.
    """
    if not job.basis.codes:
        yield Hit(
            "No code with its year was found in the notes. Capacities and framing were compared with SDPWS-2008 and the older "
            "allowable tables; the adopted code decides."
        )


def code_editions_differ(job: Job) -> Iterator[Hit]:
    """The notes name one code with two different years.

    Why: nobody knows which edition the capacities belong to; tables of two editions must not be mixed.
    Fires: IBC 2018 on one sheet, IBC 2021 on another. Silent: IBC 2018 beside CBC 2019; one edition named twice.
    Source: common practice, no source.
    """
    by_name: dict[str, list[Reading[str]]] = {}
    for one in job.basis.codes:
        by_name.setdefault((one.value or "").partition("-")[0], []).append(one)
    for name, several in by_name.items():
        if len(several) > 1:
            said = listed([f"{printed(one)} ({place(one.source)})" for one in several])
            yield Hit(f"The notes name two editions of {name}: {said}. Ask the engineer which one holds.", several[1].source)


def capacity_without_the_lumber_factor(job: Job) -> Iterator[Hit]:
    """The notes name studs of lighter lumber, and a capacity is the full value for Douglas fir-larch or southern pine.

    Why: nails hold less in lighter lumber; the published values are for Douglas fir-larch and southern pine.
    Fires: hem-fir studs, 15/32 with 8d at 4 in and 380 plf (0.93 times 380 is 353). Silent: 353; Douglas fir-larch; notes that
    name no lumber. Once for the schedule.
    Source: SDPWS-2015 Table 4.3A footnote 3 (specific gravities from memory: the adopted code decides).
    """
    named = [one for one in job.basis.lumber if one.value]
    if not named or any(one.value not in LIGHT for one in named):
        return
    factor = max(rule(f"species factor {one.value}").number for one in named)
    full = [wall for wall in job.wall_types if _over_with(wall, factor)]
    if full and full[0].capacity:
        yield Hit(
            f"{listed([mark_of(wall) for wall in full])}: the notes name {listed([printed(one) for one in named])}, and the "
            f"capacity is over {factor:g} times the published value. The rule is from memory: the adopted code decides. Ask the "
            "engineer whether the capacity is for this lumber.",
            full[0].capacity.source,
            "capacity",
        )


def field_nailing_wide_for_the_studs(job: Job) -> Iterator[Hit]:
    """Studs are at 24 in, panels are 7/16 or thinner, and field nails are further apart than 6 in.

    Why: a thin panel between studs that far apart buckles before the edge nails give.
    Fires: studs at 24 in, 7/16 panels, field 12 in. Silent: studs at 16 in; 15/32 panels; field 6 in; only a note where some
    studs are closer. Once for the schedule.
    Source: SDPWS-2015 4.3.7.1 (from memory: the adopted code decides).
    """
    spacings = {one.value for one in job.basis.stud_spacing_in}
    most = rule("field spacing at studs 24").number
    rows = [
        wall
        for wall in job.wall_types
        if is_wood(wall)
        and (value(wall, "field.spacing_in") or 0) > most
        and 0 < (value(wall, "sheathing.thickness_in") or 0) <= THIN_IN + 1e-3
    ]
    if rows and WIDE_STUDS_IN in spacings:
        yield Hit(
            f"{listed([mark_of(wall) for wall in rows])}: panels of {as_fraction(THIN_IN)} in or less, field nails wider than "
            f"{as_fraction(most)} in, and the notes put studs at {as_fraction(WIDE_STUDS_IN)} in. Such walls are nailed at "
            f"{as_fraction(most)} in; the rule is from memory: the adopted code decides. Ask the engineer.",
            source_of(rows[0], "field.spacing_in"),
            "field.spacing_in",
            level=None if spacings == {WIDE_STUDS_IN} else Level.NOTE,
        )


def nails_close_to_the_panel_edge(job: Job) -> Iterator[Hit]:
    """A note lets nails stand closer to the panel edge than the published distance.

    Why: a nail too near the edge tears out of the panel.
    Fires: 1/4 in from the panel edge. Silent: 3/8 in.
    Source: SDPWS-2015 4.3.7.1 (3/8 in).
    """
    least = rule("nail to panel edge").number
    for one in job.basis.nail_edge_in:
        if one.value and one.value < least:
            yield Hit(
                f"The notes say {printed(one)} ({place(one.source)}); nails stand at least {as_fraction(least)} in from the "
                "panel edge. Ask the engineer.",
                one.source,
            )


def low_seismic(job: Job) -> bool:
    """Whether the notes name a Seismic Design Category and none that is D, E or F."""
    named = {one.value or "" for one in job.basis.categories}
    return bool(named) and not any(re.match("[D-F]", category) for category in named)


def later_edition(job: Job) -> str | None:
    """A code of 2021 or later that the notes name: its tables are not those that are held here."""
    named = [one.value or "" for one in job.basis.codes]
    return next((name for name in named if int(name.rpartition("-")[2]) >= 2021), None)


def _over_with(wall: WallType, factor: float) -> bool:
    made = construction(wall)
    for stated in value(wall, "capacity") or ():
        load, method = stated_basis(stated)
        most = limits(made, load, method) if made and load and method else None
        rounding = (made.faces or 2) if made else 0
        if most and stated.plf.value and factor * most.generous + rounding < stated.plf.value <= most.generous + rounding:
            return True
    return False
