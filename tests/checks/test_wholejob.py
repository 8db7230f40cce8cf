"""Notes about the whole job against the rows."""

import pytest

from extractor.record import Level
from tests.checks.making import found, job, notes, wall

FOOTNOTE_3 = "SDPWS Table 4.3A footnote 3: 1 - (0.5 - specific gravity); the gravities are from memory"
RULE = "SDPWS-2015 4.3.7.1"
CLOSE = {"edge.spacing_in": 4, "framing.panel_edge": "3x"}


def stated(plf: float) -> dict[str, object]:
    return CLOSE | {"capacity": ((plf, "seismic", "ASD"),)}


@pytest.mark.parametrize(
    ("codes", "missing", "differ", "source"),
    [
        ((), True, False, "no edition is named"),
        (("IBC-2018",), False, False, "one edition"),
        (("IBC-2018", "CBC-2019"), False, False, "a state's own code beside the model code"),
        (("IBC-2018", "IBC-2021"), False, True, "two editions of one code"),
    ],
)
def test_code_editions(codes: tuple[str, ...], missing: bool, differ: bool, source: str) -> None:
    plans = job(wall(), basis=notes(codes=codes))
    assert [f.level for f in found("code-edition-not-found", plans)] == [Level.NOTE] * missing
    assert [f.level for f in found("code-editions-differ", plans)] == [Level.ASK] * differ


@pytest.mark.parametrize(
    ("lumber", "plf", "fires", "source"),
    [
        (("hem-fir",), 380, True, f"{FOOTNOTE_3}: 0.93 times 380 = 353"),
        (("hem-fir",), 354, False, f"{FOOTNOTE_3}: 353, and rounding of 1 plf"),
        (("spruce-pine-fir",), 353, True, f"{FOOTNOTE_3}: 0.92 times 380 = 350"),
        (("hem-fir", "spruce-pine-fir"), 353, False, "the stronger of the two is allowed for"),
        (("douglas fir-larch",), 380, False, "the table is for it"),
        (("douglas fir-larch", "hem-fir"), 380, False, "nobody says which walls are hem-fir"),
        ((), 380, False, "no lumber is named"),
        (("hem-fir",), 430, False, "over the table itself: another finding"),
    ],
)
def test_capacities_for_lighter_lumber(lumber: tuple[str, ...], plf: float, fires: bool, source: str) -> None:
    plans = job(wall("A", stated(plf)), wall("B", stated(plf)), basis=notes(lumber=lumber))
    findings = found("capacity-without-the-lumber-factor", plans)
    assert [(f.level, f.wall_type, f.field) for f in findings] == ([(Level.ASK, None, "capacity")] if fires else [])
    assert all("from memory: the adopted code decides" in f.message for f in findings)


@pytest.mark.parametrize(
    ("studs", "changes", "level", "source"),
    [
        ((24.0,), {}, Level.ASK, f"{RULE}: 7/16 on studs at 24 needs 6 in (from memory)"),
        ((16.0, 24.0), {}, Level.NOTE, "some walls have studs at 16"),
        ((16.0,), {}, None, f"{RULE}: 7/16 on studs at 16 may have 12 in"),
        ((24.0,), {"sheathing.thickness_in": 15 / 32}, None, f"{RULE}: 15/32 may have 12 in"),
        ((24.0,), {"field.spacing_in": 6}, None, RULE),
        ((24.0,), {"sheathing.material": "gypsum"}, None, "wood panels only"),
    ],
)
def test_field_nailing_goes_with_studs_and_thickness(
    studs: tuple[float, ...], changes: dict[str, object], level: Level | None, source: str
) -> None:
    thin = wall("A", {"sheathing.thickness_in": 7 / 16} | changes)
    findings = found("field-nailing-wide-for-the-studs", job(thin, basis=notes(stud_spacing_in=studs)))
    assert [f.level for f in findings] == ([level] if level else [])


@pytest.mark.parametrize(("inches", "fires", "source"), [(0.25, True, RULE), (0.375, False, RULE), (0.5, False, RULE)])
def test_nails_stand_three_eighths_from_the_panel_edge(inches: float, fires: bool, source: str) -> None:
    findings = found("nails-close-to-the-panel-edge", job(wall(), basis=notes(nail_edge_in=(inches,))))
    assert [f.level for f in findings] == [Level.ASK] * fires


@pytest.mark.parametrize(
    ("categories", "fires", "source"),
    [((), True, "not named: asked"), (("D",), True, "SDPWS-2008 4.3.7.1"), (("C",), False, "D, E and F only"),
     (("B", "D2"), True, "one of two is D")],
)  # fmt: skip
def test_rules_for_high_seismic_areas_stay_silent_elsewhere(categories: tuple[str, ...], fires: bool, source: str) -> None:
    row = wall("A", {"edge.spacing_in": 4, "anchors.washer_in": (2, 2, 0.1875)})
    plans = job(row, basis=notes(categories=categories))
    for code in ("panel-edge-framing-narrow-for-shear", "plate-washer-small"):
        assert [f.wall_type for f in found(code, plans)] == ["A"] * fires


def test_a_later_edition_than_the_tables_is_asked_and_not_stopped() -> None:
    (finding,) = found("capacity-over-the-table", job(wall("A", stated(430)), basis=notes(codes=("IBC-2021",))))
    assert finding.level is Level.ASK
    assert "The notes name IBC-2021; its table is not held here, and the adopted code decides." in finding.message
    (finding,) = found("capacity-over-the-table", job(wall("A", stated(430)), basis=notes(codes=("IBC-2018",))))
    assert finding.level is Level.STOP
