"""Stated capacities against the published tables, and the basis they need before anybody can compare them."""

from collections.abc import Iterator

from extractor.checks.construction import (
    CREDITED_IN,
    Construction,
    Over,
    construction,
    limits,
    over_the_table,
    stated_basis,
)
from extractor.checks.hit import Hit, listed, mark_of, value
from extractor.checks.wholejob import later_edition
from extractor.published.tables import Load, Method, published_plf
from extractor.record import Capacity, Job, Level, WallType
from extractor.trade.inches import as_fraction

METHODS: dict[Method, str] = {"ASD": "allowable", "LRFD": "LRFD", "nominal": "nominal"}
GRADES = {("structural 1",): "Structural I", ("sheathing",): "rated sheathing", ("sheathing", "structural 1"): "sheathing"}
UNSAID = {"sheathing.faces": "how many faces are sheathed", "sheathing.grade": "the panel grade"}
FACES = {None: "one face (the faces are not stated)", 1: "one face", 2: "both faces"}


def capacity_over_the_table(job: Job) -> Iterator[Hit]:
    """A stated capacity is higher than the published table gives for that panel, nail, edge spacing and number of faces.

    Why: either the capacity or a value beside it is wrong, and the wall as nailed is weaker than the design counts on.
    Fires: 15/32 rated sheathing, 8d common at 4 in, one face: 430 plf (allowable seismic; the table gives 380). Silent: up to
    380, and 381 (rounding, 1 plf a face); 7/16 with 8d up to the 15/32 row; gypsum, staples, and any nail the table is not for.
    Panels over gypsum board have rows of their own, allowable seismic only, and are asked about.
    Milder where faces, grade, load or method are open, where two faces or LRFD rest on a rule that is from memory, and where the
    notes name a code of 2021 or later, whose table is not held here.
    Source: SDPWS-2008 Table 4.3A (nominal / 2.0 for ASD); the same allowable values in IBC-2009 Table 2306.3.
    """
    for wall, over in over_the_table(job):
        made = construction(wall)
        if made is None or wall.capacity is None:
            continue
        memory, later = made.faces == 2 or over.basis[1] == "LRFD", later_edition(job)
        yield Hit(
            f"{mark_of(wall)}: capacity {over.stated.plf.value:g} plf is over the published {over.limit:g} plf "
            f"({_basis(over.basis)}) for {_words(wall, made)}.{_open(wall, over)}"
            + (" The rule for this is from memory: the adopted code decides." if memory else "")
            + (f" The notes name {later}; its table is not held here, and the adopted code decides." if later else "")
            + " Ask the engineer which value is right.",
            wall.capacity.source,
            _unsaid(wall, over)[0] if _unsaid(wall, over) else "capacity",
            mark_of(wall),
            None if over.sure and made.sure and not (memory or later or made.over_gypsum) else Level.ASK,
        )


def capacity_rests_on_a_credit(job: Job) -> Iterator[Hit]:
    """A capacity is over the row for its panel and within the 15/32 row, which thinner panels with 8d may be credited with.

    Why: the credit holds only for studs at 16 in or less, or panels laid across the studs; a crew with studs at 24 in would not
    get that strength.
    Fires: 7/16, 8d at 4 in, 380 plf allowable seismic (its own row gives 350). Silent: 350. Once for the schedule. A question
    where other rows of such panels keep to their own row, so that this one may be a slip.
    Source: SDPWS-2008 Table 4.3A footnote 2 (from memory: the adopted code decides).
    """
    stated = [(wall, one) for wall in job.wall_types for one in value(wall, "capacity") or ()]
    own = dict.fromkeys(mark_of(wall) for wall, one in stated if _against_own_row(wall, one) == 0)
    over = {mark_of(wall): wall for wall, one in stated if _against_own_row(wall, one, loose=not own) > 0}
    if not over:
        return
    first = next(iter(over.values()))
    others = f" {listed(list(own))} {'keeps' if len(own) == 1 else 'keep'} to the row for the panel." if own else ""
    yield Hit(
        f"{listed(list(over))}: the capacity is over the published row for this panel and within the 15/32 row.{others} "
        "Thinner panels with 8d nails may use that row with studs at 16 in or less, or with panels laid across the studs. "
        "The rule is from memory: the adopted code decides." + (" Ask the engineer which value is right." if own else ""),
        first.capacity.source if first.capacity else None,
        "capacity",
        mark_of(first) if len(over) == 1 else None,
        None if own else Level.NOTE,
    )


def _against_own_row(wall: WallType, stated: Capacity, *, loose: bool = False) -> int:
    """0 for the value of the panel's own row, 1 for one over it and within the 15/32 row, -1 for anything else.

    ``loose`` takes the better grade where none is stated.
    """
    made, (load, method) = construction(wall), stated_basis(stated)
    if made is None or load is None or method is None or not stated.plf.value or made.penny != "8d":
        return -1
    if made.over_gypsum:
        return -1
    own = published_plf(made.thickness_in + 1e-3, made.grades[-1 if loose else 0], made.penny, made.edge_in, load, method)
    most = limits(made, load, method)
    if own is None or most is None or made.thickness_in > CREDITED_IN - 1e-3:
        return -1
    faces = made.faces or (2 if loose else 1)
    if abs(stated.plf.value - own * faces) <= faces:
        return 0
    return 1 if own * faces + faces < stated.plf.value <= (most.generous if loose else most.strict) + faces else -1


def capacity_basis_not_stated(job: Job) -> Iterator[Hit]:
    """Capacities are listed and nothing says for which load or by which method.

    Why: one wall may be listed as 380, 532, 760 or 1,065 plf; without the words nobody can compare it with anything.
    Fires: a column headed CAPACITY (PLF) and no note. Silent: ALLOWABLE SEISMIC SHEAR. Once for the schedule.
    Source: SDPWS-2008 Table 4.3A has a seismic and a wind column of nominal values.
    """
    bare = [wall for wall in job.wall_types if any(None in stated_basis(one) for one in value(wall, "capacity") or ())]
    if bare and bare[0].capacity:
        yield Hit(
            f"The load (seismic or wind) or the method (allowable, LRFD or nominal) of the capacity was not found for "
            f"{listed([mark_of(wall) for wall in bare])}. Nothing is nailed from it.",
            bare[0].capacity.source,
            "capacity",
        )


def _basis(basis: tuple[Load, Method]) -> str:
    return f"{METHODS[basis[1]]} {basis[0]}"


def _words(wall: WallType, made: Construction) -> str:
    """The construction in words, with what is credited to it."""
    credited = made.penny == "8d" and made.thickness_in < CREDITED_IN - 1e-3 and not made.over_gypsum
    behind = " over gypsum board (IBC-2009 Table 2306.3)" if made.over_gypsum else ""
    return (
        f"{as_fraction(made.thickness_in)} {GRADES[made.grades]}{behind}, {made.penny} at "
        f"{as_fraction(made.edge_in)} in, {FACES[made.faces]}" + (", even credited with the 15/32 row" if credited else "")
    )


def _open(wall: WallType, over: Over) -> str:
    """What the row leaves open that would explain the capacity."""
    if over.inferred:
        return f" Load or method are not stated; other rows follow {_basis(over.basis)} values."
    unsaid = [UNSAID[field] for field in _unsaid(wall, over)]
    return f" Not said in the row: {', '.join(unsaid)}." if unsaid else ""


def _unsaid(wall: WallType, over: Over) -> list[str]:
    return [field for field in UNSAID if value(wall, field) is None and not (over.sure or over.inferred)]
