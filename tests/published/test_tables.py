"""Published tables against each other and against worked examples that a framer can redo by hand."""

import pytest

from extractor.published.tables import (
    allowable_plf,
    allowable_shears,
    nail_diameter_in,
    nail_length_in,
    nails,
    nails_named,
    nominal_row,
    nominal_shears,
    panels,
    published_plf,
    rules,
    staple_row,
    staple_shears,
)

EDITIONS = ("2008", "2015")


@pytest.mark.parametrize("row", [r for r in nominal_shears() if r.origin.edition == "2008"], ids=lambda r: f"{r.grade}-{r.nail}")
def test_nominal_seismic_is_twice_the_allowable_and_wind_is_2_8_times(row) -> None:  # type: ignore[no-untyped-def]
    allowable = allowable_plf(row.min_thickness_in, row.grade, row.nail, row.edge_in)
    assert allowable is not None
    assert row.seismic_plf / 2.0 == allowable  # SDPWS-2008 Table 4.3A against IBC-2009 Table 2306.3
    assert row.wind_plf == 5 * round(2.8 * allowable / 5 + 1e-9)  # to the nearest 5
    assert abs(row.wind_plf / 2.0 - 1.4 * allowable) <= 1.0 + 1e-9  # against the 40 percent wind increase of IBC-2009 2306.3


def test_2015_repeats_2008_and_says_that_this_is_from_memory() -> None:
    old, new = ([r for r in nominal_shears() if r.origin.edition == edition] for edition in EDITIONS)
    assert [r[:7] for r in old] == [r[:7] for r in new]
    assert {r.origin.status for r in new} == {"from memory"}
    assert "from memory" not in {r.origin.status for r in old}


def test_closer_nails_and_thicker_panels_are_never_weaker() -> None:
    for row in nominal_shears():
        for other in nominal_shears():
            same = (row.origin.edition, row.grade, row.nail) == (other.origin.edition, other.grade, other.nail)
            if same and row.edge_in <= other.edge_in and row.min_thickness_in >= other.min_thickness_in:
                assert row.seismic_plf >= other.seismic_plf
                assert row.wind_plf >= other.wind_plf


@pytest.mark.parametrize(
    ("thickness", "grade", "penny", "edge", "load", "method", "plf", "source"),
    [
        (15 / 32, "sheathing", "8d", 4, "seismic", "nominal", 760, "SDPWS-2008 Table 4.3A"),
        (15 / 32, "sheathing", "8d", 4, "seismic", "ASD", 380, "760 / 2.0; Engineered Wood Construction Guide Table 29"),
        (15 / 32, "sheathing", "8d", 4, "wind", "nominal", 1065, "SDPWS-2008 Table 4.3A"),
        (15 / 32, "sheathing", "8d", 4, "wind", "ASD", 532.5, "1065 / 2.0"),
        (15 / 32, "structural 1", "10d", 2, "seismic", "ASD", 870, "1740 / 2.0"),
        (7 / 16, "sheathing", "8d", 6, "seismic", "ASD", 240, "480 / 2.0"),
        (19 / 32, "sheathing", "10d", 3, "seismic", "ASD", 665, "1330 / 2.0"),
        (1 / 2, "sheathing", "8d", 3, "seismic", "ASD", 490, "1/2 is at least 15/32: 980 / 2.0"),
        (15 / 32, "sheathing", "8d", 4, "seismic", "LRFD", 608, "0.8 times 760 (from memory)"),
        (7 / 16, "sheathing", "10d", 4, "seismic", "ASD", None, "no row: 10d starts at 15/32"),
        (15 / 32, "sheathing", "8d", 5, "seismic", "ASD", None, "no column for 5 in"),
        (15 / 32, "sheathing", "16d", 4, "seismic", "ASD", None, "no row for 16d"),
    ],
)
def test_published_shears(
    thickness: float, grade: str, penny: str, edge: float, load: str, method: str, plf: float | None, source: str
) -> None:
    assert published_plf(thickness, grade, penny, edge, load, method) == plf  # type: ignore[arg-type]


def test_the_2021_basis_gives_the_same_allowable_seismic_value() -> None:
    row = nominal_row(15 / 32, "sheathing", "8d", 4)
    assert row is not None
    assert round(row.wind_plf / 2.8) == 380  # one nominal value of 1065, over 2.8 (2021, from memory)


@pytest.mark.parametrize(
    ("penny", "style", "length", "diameter", "source"),
    [
        ("6d", "common", 2, 0.113, "NDS-2018 Table L4"),
        ("8d", "common", 2.5, 0.131, "NDS-2018 Table L4"),
        ("10d", "common", 3, 0.148, "NDS-2018 Table L4"),
        ("16d", "common", 3.5, 0.162, "NDS-2018 Table L4"),
        ("8d", "box", 2.5, 0.113, "NDS-2018 Table L4"),
        ("10d", "box", 3, 0.128, "NDS-2018 Table L4"),
        ("8d", "galvanized box", 2.5, 0.113, "IBC-2009 Table 2306.3"),
        ("8d", "cooler", 2.375, 0.113, "ASTM F1667"),
        ("10d", "sinker", 2.875, 0.120, "NDS-2018 Table L4"),
        ("8d", "ring shank", None, None, "not in the table"),
        ("9d", "common", None, None, "not in the table"),
        (None, "common", None, None, "no penny size"),
    ],
)
def test_nails(penny: str | None, style: str | None, length: float | None, diameter: float | None, source: str) -> None:
    assert (nail_length_in(penny, style), nail_diameter_in(penny, style)) == (length, diameter)


def test_a_name_may_mean_several_nails() -> None:
    assert {nail.style for nail in nails_named("8d", "common or galvanized box")} == {"common", "galvanized box"}
    assert {nail.diameter_in for nail in nails_named("8d", "box")} == {0.113, 0.099}  # the second is the coated kind
    assert {"common", "box", "sinker", "cooler"} <= {nail.style for nail in nails_named("8d", None)}


def test_an_8d_nail_leaves_enough_in_the_framing() -> None:
    left = (nail_length_in("8d", "common") or 0) - 15 / 32
    assert left == 2.03125  # 2.500 - 0.469
    assert left > rules()["penetration 8d"].number == 1.375  # 780 CMR Table 2306.3


def test_every_row_says_where_it_stands_and_how_far_it_is_confirmed() -> None:
    rows = [*nails(), *nominal_shears(), *allowable_shears(), *panels(), *rules().values()]
    for row in rows:
        assert row.origin.standard
        assert row.origin.table
        assert row.origin.how_confirmed
        assert (row.origin.status == "from memory") or row.origin.how_confirmed != "from memory"
    assert len(rows) == 33 + 96 + 100 + 14 + 27


@pytest.mark.parametrize(
    ("name", "number", "source"),
    [
        ("wide framing edge spacing", 2, "SDPWS-2008 4.3.7.1"),
        ("wide framing edge spacing for 10d", 3, "SDPWS-2008 4.3.7.1"),
        ("wide framing nominal shear", 700, "SDPWS-2008 4.3.7.1"),
        ("field spacing limit", 12, "SDPWS-2015 4.3.7.1"),
        ("bolt spacing", 72, "IRC-2006 R403.1.6"),
        ("aspect ratio", 3.5, "SDPWS-2015 Table 4.3.4"),
    ],
)
def test_rules_a_stop_or_a_question_rests_on_are_confirmed(name: str, number: float, source: str) -> None:
    assert (rules()[name].number, rules()[name].origin.status) == (number, "confirmed")


@pytest.mark.parametrize(
    ("thickness", "grade", "edge", "plf", "source"),
    [
        (3 / 8, "structural 1", 6, 155, "IBC-2009 Table 2306.3 (780 CMR)"),
        (7 / 16, "structural 1", 3, 345, "IBC-2009 Table 2306.3 (780 CMR)"),
        (15 / 32, "structural 1", 4, 280, "IBC-2009 Table 2306.3 (780 CMR)"),
        (15 / 32, "structural 1", 2, 475, "IBC-2009 Table 2306.3 (780 CMR)"),
        (19 / 32, "sheathing", 4, 280, "from memory"),
    ],
)
def test_stapled_shears(thickness: float, grade: str, edge: float, plf: float, source: str) -> None:
    row = staple_row(thickness, grade, 16, edge)
    assert row is not None
    assert row.plf == plf
    assert (row.origin.status == "from memory") == (source == "from memory")


def test_stapled_walls_are_weaker_than_8d_nailed_ones_and_only_structural_1_is_confirmed() -> None:
    for row in staple_shears():
        nailed = allowable_plf(max(row.min_thickness_in, 3 / 8), row.grade, "8d", row.edge_in)
        assert nailed is not None
        assert row.plf < nailed
        assert (row.origin.status == "confirmed") == (row.grade == "structural 1")
