"""A wall type as a row of the published tables: panel, nail, edge spacing, faces; and what those tables give for it."""

from collections.abc import Iterator
from typing import NamedTuple

from extractor.checks.fields import is_wood
from extractor.checks.hit import value
from extractor.published.tables import Load, Method, allowable_plf, nails, nominal_row, published_plf
from extractor.record import Capacity, Job, WallType
from extractor.trade.sheathing import gypsum_behind

TABLE_NAILS = (None, "common", "galvanized box", "common or galvanized box")
COLUMNS_IN = (6.0, 4.0, 3.0, 2.0)
GRADES = {"structural 1": ("structural 1",), "rated sheathing": ("sheathing",), None: ("sheathing", "structural 1")}
BASES: tuple[tuple[Load, Method], ...] = (
    ("seismic", "ASD"),
    ("wind", "ASD"),
    ("seismic", "LRFD"),
    ("seismic", "nominal"),
    ("wind", "LRFD"),
    ("wind", "nominal"),
)
CREDITED_IN = 15 / 32  # 3/8 and 7/16 panels with 8d nails may be credited to this row


class Construction(NamedTuple):
    """What the published tables ask about a wall; ``grades`` are those that the row may mean, the weaker first."""

    edge_in: float
    thickness_in: float
    penny: str
    grades: tuple[str, ...]
    faces: int | None
    sure: bool  # the row says that the sheathing is a wood structural panel
    over_gypsum: bool = False  # and that the panel is applied over gypsum board, for which the older allowable table has rows

    def __str__(self) -> str:
        """The construction in words, for a message."""
        return f"{self.penny} at {self.edge_in:g} in"


class Limits(NamedTuple):
    """Published plf: ``strict`` as the row says, ``generous`` where all that it leaves open is read in its favour."""

    strict: float
    generous: float


class Over(NamedTuple):
    """A stated capacity over the published value; ``sure`` where nothing that the row leaves open could explain it."""

    stated: Capacity
    limit: float
    basis: tuple[Load, Method]
    sure: bool
    inferred: bool  # load or method are not stated; the other rows follow this basis


def construction(wall: WallType) -> Construction | None:
    """The wall as the tables see it.

    None where they cannot know it: gypsum, staples, other nails, two rows of nails, edge nailing wider than any column, a value
    that is open.
    """
    thickness, edge, penny = value(wall, "sheathing.thickness_in"), value(wall, "edge.spacing_in"), _table_penny(wall)
    if not (thickness and edge and penny) or not is_wood(wall) or value(wall, "edge.rows") not in (None, 1):
        return None
    if edge > COLUMNS_IN[0]:
        return None
    grade = value(wall, "sheathing.grade")
    named = value(wall, "sheathing.material") is not None
    behind = board_behind(wall) is not None
    return Construction(edge, thickness, penny, GRADES[grade], value(wall, "sheathing.faces"), named, behind)


def board_behind(wall: WallType) -> float | None:
    """Inches of gypsum board between panel and studs, 0.0 where its size is not printed; None where none is named."""
    return next((found for one in wall.other if (found := gypsum_behind(f"PANEL {one.value}")) is not None), None)


def nominal_seismic_plf(made: Construction) -> float | None:
    """Nominal seismic shear of one face as the row says it, without any credit. Source: SDPWS-2008 Table 4.3A."""
    row = nominal_row(made.thickness_in, made.grades[0], made.penny, _columns(made.edge_in)[0])
    return row.seismic_plf if row else None


def limits(made: Construction, load: Load, method: Method) -> Limits | None:
    """Published plf of the whole wall; None where the tables have no row.

    Source: SDPWS-2008 Table 4.3A; over gypsum board IBC-2009 Table 2306.3, which has allowable seismic values alone.
    """
    if made.over_gypsum:
        return _over_gypsum(made) if (load, method) == ("seismic", "ASD") else None
    credited = made.penny == "8d" and 3 / 8 - 1e-3 <= made.thickness_in < CREDITED_IN
    thickness = CREDITED_IN if credited else made.thickness_in + 1e-3
    wide, close = _columns(made.edge_in)
    strict = published_plf(thickness, made.grades[0], made.penny, wide, load, method)
    favoured: Load = "wind" if method == "nominal" else load  # the 2021 edition prints one nominal value, the older wind value
    generous = published_plf(thickness, made.grades[-1], made.penny, close, favoured, method)
    if strict is None or generous is None or made.edge_in < COLUMNS_IN[-1]:
        return None
    return Limits(strict * (made.faces or 1), generous * (made.faces or 2))


def _over_gypsum(made: Construction) -> Limits | None:
    """The older allowable seismic shear of panels over gypsum board. Source: IBC-2009 Table 2306.3."""
    wide, close = _columns(made.edge_in)
    strict = allowable_plf(made.thickness_in + 1e-3, made.grades[0], made.penny, wide, "over gypsum")
    generous = allowable_plf(made.thickness_in + 1e-3, made.grades[-1], made.penny, close, "over gypsum")
    if strict is None or generous is None or made.edge_in < COLUMNS_IN[-1]:
        return None
    return Limits(strict * (made.faces or 1), generous * (made.faces or 2))


def over_the_table(job: Job) -> Iterator[tuple[WallType, Over]]:
    """Wall types with a stated capacity over the published value, one for each wall, the surest first."""
    walls = [(wall, made, value(wall, "capacity") or ()) for wall in job.wall_types if (made := construction(wall))]
    pairs = [(made, stated) for _, made, capacities in walls for stated in capacities]
    followed = {basis: _followed(pairs, *basis) for basis in {stated_basis(stated) for _, stated in pairs}}
    for wall, made, capacities in walls:
        found = [_over(made, stated, followed[stated_basis(stated)]) for stated in capacities]
        over = sorted((one for one in found if one), key=lambda one: not one.sure)
        if over:
            yield wall, over[0]


def stated_basis(stated: Capacity) -> tuple[Load | None, Method | None]:
    """Load and method as the plans say them; None where they do not."""
    return stated.load.value if stated.load else None, stated.method.value if stated.method else None


def _over(made: Construction, stated: Capacity, followed: tuple[Load, Method] | None) -> Over | None:
    plf, (load, method) = stated.plf.value, stated_basis(stated)
    fitting = {basis: found for basis in _compatible(load, method) if (found := limits(made, *basis))}
    if not plf or not fitting:
        return None
    rounding = float(made.faces or 2)  # 1 plf a face
    known = load is not None and method is not None
    basis = next(iter(fitting)) if known else followed
    if plf > max(found.generous for found in fitting.values()) + rounding:
        shown = basis if basis in fitting else max(fitting, key=lambda one: fitting[one].strict)
        return Over(stated, fitting[shown].strict, shown, known, basis in fitting and not known)
    if basis in fitting and plf > fitting[basis].strict + rounding:
        return Over(stated, fitting[basis].strict, basis, False, not known)
    return None


def _followed(pairs: list[tuple[Construction, Capacity]], load: Load | None, method: Method | None) -> tuple[Load, Method] | None:
    """The basis that at least two rows, and most, follow to the pound; None where there is none."""
    stated = [(made, one.plf.value) for made, one in pairs if stated_basis(one) == (load, method) and one.plf.value]
    counts = {basis: sum(_exactly(made, plf, basis) for made, plf in stated) for basis in _compatible(load, method)}
    best = max(counts, key=lambda basis: counts[basis])
    return best if counts[best] >= 2 and 2 * counts[best] > len(stated) else None


def _exactly(made: Construction, plf: float, basis: tuple[Load, Method]) -> bool:
    """Whether a capacity is the published value of one of the things the row may mean."""
    if made.over_gypsum:
        return False
    for grade in made.grades:
        for thickness in (made.thickness_in + 1e-3, CREDITED_IN):
            one = published_plf(thickness, grade, made.penny, _columns(made.edge_in)[0], *basis)
            if one and any(abs(plf - faces * one) <= faces for faces in ((made.faces,) if made.faces else (1, 2))):
                return True
    return False


def _compatible(load: Load | None, method: Method | None) -> list[tuple[Load, Method]]:
    """The bases a capacity may have, as far as the plans leave them open."""
    return [basis for basis in BASES if load in (None, basis[0]) and method in (None, basis[1])]


def _columns(edge_in: float) -> tuple[float, float]:
    """The table's columns on either side of a spacing, the wider first; both the same where it is one of them."""
    wide = min((column for column in COLUMNS_IN if column >= edge_in), default=COLUMNS_IN[0])
    return wide, max((column for column in COLUMNS_IN if column <= edge_in), default=COLUMNS_IN[-1])


def _table_penny(wall: WallType) -> str | None:
    """The penny size where the nail is one that the tables are for, named or given by its size."""
    if value(wall, "fastener.kind") not in (None, "nail") or value(wall, "fastener.style") not in TABLE_NAILS:
        return None
    penny = value(wall, "fastener.penny")
    if wall.fastener.penny is not None:
        return penny if penny in ("6d", "8d", "10d") else None
    size = (value(wall, "fastener.diameter_in"), value(wall, "fastener.length_in"))
    return next(
        (
            n.penny
            for n in nails()
            if n.style == "common" and (n.diameter_in, n.length_in) == size and n.penny in ("6d", "8d", "10d")
        ),
        None,
    )
