"""Published tables, read once from the CSV files beside this module.

Every row says where it stands in print (standard, edition, table) and how far it was confirmed: ``confirmed`` (read in a
public document), ``derived`` (arithmetic on confirmed values) or ``from memory`` (to be looked up before anyone rests on it).
Lengths and thicknesses in the files are written as a tape reads them. Editions stand side by side.
"""

import csv
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Literal, NamedTuple

Status = Literal["confirmed", "derived", "from memory"]
Load = Literal["seismic", "wind"]
Method = Literal["ASD", "LRFD", "nominal"]

NOMINAL_EDITION = "2008"
_STATUSES: dict[str, Status] = {"confirmed": "confirmed", "derived": "derived", "from memory": "from memory"}


class Origin(NamedTuple):
    """Where a published number stands and how far it was confirmed."""

    standard: str
    edition: str
    table: str
    status: Status
    how_confirmed: str

    def __str__(self) -> str:
        """The citation as it is printed: NDS-2018 Table L4."""
        return f"{self.standard}-{self.edition} {self.table}" if self.edition else f"{self.standard} {self.table}"


class Nail(NamedTuple):
    """A nail by name; inches."""

    penny: str
    style: str
    length_in: float
    diameter_in: float
    origin: Origin


class NominalShear(NamedTuple):
    """A row of nominal unit shears for one face, blocked, Douglas fir-larch or southern pine; inches and pounds per foot."""

    grade: str
    min_thickness_in: float
    nail: str
    min_penetration_in: float
    edge_in: float
    seismic_plf: float
    wind_plf: float
    origin: Origin


class AllowableShear(NamedTuple):
    """A row of the older allowable shears for one face, panels ``direct`` on framing or ``over gypsum``."""

    grade: str
    min_thickness_in: float
    applied: str
    nail: str
    edge_in: float
    plf: float
    origin: Origin


class StapleShear(NamedTuple):
    """A row of allowable shears for one face of panels stapled on framing; inches, wire gauge, pounds per foot."""

    grade: str
    min_thickness_in: float
    leg_in: float
    gauge: int
    edge_in: float
    plf: float
    origin: Origin


class Panel(NamedTuple):
    """A panel thickness that is made; inches."""

    name: str
    thickness_in: float
    origin: Origin


class Rule(NamedTuple):
    """A construction rule that turns on one number."""

    name: str
    number: float
    unit: str
    rule: str
    applies_when: str
    origin: Origin


@cache
def nails() -> tuple[Nail, ...]:
    """Nails by penny and style."""
    return tuple(
        Nail(row["penny"], row["style"], _number(row["length_in"]), _number(row["diameter_in"]), _origin(row))
        for row in _rows("nails.csv")
    )


@cache
def nominal_shears() -> tuple[NominalShear, ...]:
    """Nominal unit shears of wood structural panel shear walls, editions 2008 and 2015."""
    return tuple(
        NominalShear(
            row["grade"],
            _number(row["min_thickness_in"]),
            row["nail"],
            _number(row["min_penetration_in"]),
            _number(row["edge_in"]),
            _number(row["seismic_plf"]),
            _number(row["wind_plf"]),
            _origin(row),
        )
        for row in _rows("shear_wall_nominal.csv")
    )


@cache
def allowable_shears() -> tuple[AllowableShear, ...]:
    """Allowable shears of the older code tables (UBC-1997 to IBC-2009)."""
    return tuple(
        AllowableShear(
            row["grade"],
            _number(row["min_thickness_in"]),
            row["applied"],
            row["nail"],
            _number(row["edge_in"]),
            _number(row["plf"]),
            _origin(row),
        )
        for row in _rows("shear_wall_allowable.csv")
    )


@cache
def staple_shears() -> tuple[StapleShear, ...]:
    """Allowable shears of stapled walls; sheathing rows are from memory."""
    return tuple(
        StapleShear(
            row["grade"],
            _number(row["min_thickness_in"]),
            _number(row["leg_in"]),
            int(row["gauge"]),
            _number(row["edge_in"]),
            _number(row["plf"]),
            _origin(row),
        )
        for row in _rows("shear_wall_staples.csv")
    )


@cache
def panels() -> tuple[Panel, ...]:
    """Panel thicknesses that are made."""
    return tuple(Panel(row["name"], _number(row["thickness_in"]), _origin(row)) for row in _rows("panels.csv"))


@cache
def rules() -> dict[str, Rule]:
    """Construction rules by name."""
    return {
        row["name"]: Rule(
            row["name"], _number(row["number"]), row["unit"], row["rule"], row["applies_when"], _origin(row, "section")
        )
        for row in _rows("rules.csv")
    }


def rule(name: str) -> Rule:
    """One construction rule.

    >>> rule("edge spacing limit").number
    6.0
    """
    return rules()[name]


def nails_named(penny: str | None, style: str | None) -> tuple[Nail, ...]:
    """The published nails a name may mean: all styles where the style is not given, each of "common or galvanized box".

    A coated box nail of the second kind answers to "box" too.
    """
    if penny is None:
        return ()
    styles = None if style is None else {part.strip() for part in style.split(" or ")}
    return tuple(
        nail
        for nail in nails()
        if nail.penny == penny and (styles is None or nail.style in styles or ("box" in styles and nail.style.startswith("box ")))
    )


def nail_diameter_in(penny: str | None, style: str | None) -> float | None:
    """Published diameter in inches; None for a nail that the table doesn't list. Source: NDS-2018 Table L4.

    >>> nail_diameter_in("10d", "box")
    0.128
    """
    nail = _nail(penny, style)
    return nail.diameter_in if nail else None


def nail_length_in(penny: str | None, style: str | None) -> float | None:
    """Published length in inches; None for a nail that the table doesn't list. Source: NDS-2018 Table L4.

    >>> nail_length_in("8d", "common"), nail_length_in("8d", "cooler")
    (2.5, 2.375)
    """
    nail = _nail(penny, style)
    return nail.length_in if nail else None


@cache
def nominal_row(
    thickness_in: float, grade: str, penny: str, edge_in: float, *, edition: str = NOMINAL_EDITION
) -> NominalShear | None:
    """The row for a panel at least this thick; None where the table has no such row. Source: SDPWS-2008 Table 4.3A.

    ``grade`` is "structural 1" or "sheathing"; ``edge_in`` is one of the table's own columns 6, 4, 3, 2.
    """
    fitting = [
        row
        for row in nominal_shears()
        if (row.origin.edition, row.grade, row.nail, row.edge_in) == (edition, grade, penny, edge_in)
        and row.min_thickness_in <= thickness_in
    ]
    return max(fitting, key=lambda row: row.min_thickness_in, default=None)


def published_plf(
    thickness_in: float, grade: str, penny: str, edge_in: float, load: Load, method: Method, *, edition: str = NOMINAL_EDITION
) -> float | None:
    """Published shear of one face in pounds per foot for a load and a design method; None where the table has no row.

    Nominal value over 2.0 for ASD, times 0.8 for LRFD (from memory). Source: SDPWS-2008 Table 4.3A.

    >>> published_plf(15 / 32, "sheathing", "8d", 4, "seismic", "ASD")
    380.0
    """
    row = nominal_row(thickness_in, grade, penny, edge_in, edition=edition)
    if row is None:
        return None
    nominal = row.seismic_plf if load == "seismic" else row.wind_plf
    if method == "ASD":
        return nominal / rule("allowable divisor").number
    return nominal * rule("strength factor").number if method == "LRFD" else nominal


def allowable_plf(thickness_in: float, grade: str, penny: str, edge_in: float, applied: str = "direct") -> float | None:
    """Older allowable shear of one face in pounds per foot, before any wind increase. Source: IBC-2009 Table 2306.3.

    >>> allowable_plf(7 / 16, "sheathing", "8d", 6)
    240.0
    """
    fitting = [
        row
        for row in allowable_shears()
        if (row.grade, row.applied, row.nail, row.edge_in) == (grade, applied, penny, edge_in)
        and row.min_thickness_in <= thickness_in
    ]
    return max(fitting, key=lambda row: row.min_thickness_in).plf if fitting else None


def staple_row(thickness_in: float, grade: str, gauge: int, edge_in: float) -> StapleShear | None:
    """The row for a stapled panel at least this thick; None where there is none. Source: IBC-2009 Table 2306.3.

    >>> staple_row(15 / 32, "structural 1", 16, 4).plf
    280.0
    """
    fitting = [
        row
        for row in staple_shears()
        if (row.grade, row.gauge, row.edge_in) == (grade, gauge, edge_in) and row.min_thickness_in <= thickness_in
    ]
    return max(fitting, key=lambda row: row.min_thickness_in, default=None)


def _nail(penny: str | None, style: str | None) -> Nail | None:
    return next((nail for nail in nails() if (nail.penny, nail.style) == (penny, style)), None)


def _rows(name: str) -> list[dict[str, str]]:
    with files("extractor.published").joinpath(name).open(encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def _number(text: str) -> float:
    """Exact for a tape's fractions: 1-3/8 is 1.375."""
    return float(sum(Fraction(part) for part in text.split("-")))


def _origin(row: dict[str, str], place: str = "table") -> Origin:
    return Origin(row["standard"], row["edition"], row[place], _STATUSES[row["status"]], row["how_confirmed"])
