"""Stated capacities against the published table: over it is found, anything the plans may mean is not."""

import pytest

from extractor.record import Level
from tests.checks.making import found, job, wall

T43A = "SDPWS-2008 Table 4.3A"
STR1_10D = {
    "sheathing.grade": "structural 1",
    "fastener.penny": "10d",
    "fastener.diameter_in": 0.148,
    "fastener.length_in": 3,
}


def stated(plf: float, load: str | None = "seismic", method: str | None = "ASD", **changes: object) -> dict[str, object]:
    return {"edge.spacing_in": 4, "framing.panel_edge": "3x", "capacity": ((plf, load, method),), **changes}


@pytest.mark.parametrize(
    ("changes", "level", "field", "says", "source"),
    [
        (
            stated(430),
            Level.STOP,
            "capacity",
            "capacity 430 plf is over the published 380 plf (allowable seismic) for 15/32 rated sheathing, 8d at 4 in, one face.",
            f"{T43A}: 760 / 2.0 = 380",
        ),
        (stated(560, **STR1_10D), Level.STOP, "capacity", "over the published 510 plf", f"{T43A}: 1020 / 2.0 = 510"),
        (stated(600, "wind"), Level.STOP, "capacity", "over the published 532.5 plf (allowable wind)", f"{T43A}: 1065 / 2.0"),
        (stated(1100, "wind", "nominal"), Level.STOP, "capacity", "over the published 1065 plf (nominal wind)", T43A),
        (
            stated(400, **{"sheathing.thickness_in": 7 / 16}),
            Level.STOP,
            "capacity",
            "380 plf (allowable seismic) for 7/16 rated sheathing, 8d at 4 in, one face, even credited with the 15/32 row.",
            "Table 4.3A footnote 2",
        ),
        (stated(860, **{"sheathing.faces": 2}), Level.ASK, "capacity", "760 plf (allowable seismic)", "two faces: from memory"),
        (stated(700, "seismic", "LRFD"), Level.ASK, "capacity", "from memory: the adopted code decides", "LRFD 0.8: from memory"),
        (stated(430, **{"sheathing.material": None}), Level.ASK, "capacity", "380 plf", "the board is not named"),
        (
            stated(420, **{"sheathing.grade": None}),
            Level.ASK,
            "sheathing.grade",
            "the panel grade",
            f"{T43A}: Structural I has 430",
        ),
        (
            stated(760, **{"sheathing.faces": None}),
            Level.ASK,
            "sheathing.faces",
            "how many faces",
            f"{T43A}: both faces have 760",
        ),
        (stated(900, "seismic", "nominal"), Level.ASK, "capacity", "760 plf (nominal seismic)", "2021: one nominal value, 1065"),
        (stated(1100, None, None), Level.ASK, "capacity", "1065 plf (nominal wind)", "over the table on any basis"),
        (stated(450, **{"edge.spacing_in": 3.5}), Level.ASK, "capacity", "380 plf", f"{T43A}: between 380 and 490"),
    ],
)
def test_over_the_table(changes: dict[str, object], level: Level, field: str, says: str, source: str) -> None:
    (finding,) = found("capacity-over-the-table", job(wall("SW2", changes)))
    assert (finding.level, finding.wall_type, finding.field) == (level, "SW2", field)
    assert says in finding.message
    assert finding.message.endswith("Ask the engineer which value is right.")


@pytest.mark.parametrize(
    ("changes", "source"),
    [
        (stated(380), f"{T43A}: 760 / 2.0"),
        (stated(381), "rounding, 1 plf"),
        (stated(353), "hem-fir, 0.93 times 380"),
        (stated(533, "wind"), "1065 / 2.0 = 532.5, rounded"),
        (stated(532, "wind"), "1.4 times 380"),
        (stated(760, "seismic", "nominal"), T43A),
        (stated(608, "seismic", "LRFD"), "0.8 times 760"),
        (stated(760, None, None), "nominal seismic, allowable on two faces"),
        (stated(532, None, "ASD"), "allowable wind"),
        (stated(760, **{"sheathing.faces": 2}), "twice 380"),
        (stated(1066, "wind", "ASD", **{"sheathing.faces": 2}), "twice 532.5 and rounding of 1 plf a face"),
        (stated(380, **{"sheathing.thickness_in": 7 / 16}), "Table 4.3A footnote 2: credited to 15/32"),
        (stated(350, **{"sheathing.thickness_in": 7 / 16}), f"{T43A}: 700 / 2.0"),
        (stated(380, **{"sheathing.thickness_in": 0.5}), "1/2 is at least 15/32"),
        (stated(900, **{"sheathing.material": "gypsum"}), "no table here for gypsum"),
        (stated(900, **{"fastener.kind": "staple"}), "no table here for staples"),
        (stated(900, **{"fastener.style": "ring shank"}), "not a nail of the table"),
        (stated(900, **{"edge.rows": 2}), "two rows of nails are another table"),
        (stated(900, **{"edge.spacing_in": None}), "a missing spacing is its own finding"),
    ],
)
def test_within_the_table_or_beside_it(changes: dict[str, object], source: str) -> None:
    assert found("capacity-over-the-table", job(wall("SW2", changes))) == []


def test_a_row_that_leaves_the_basis_the_other_rows_follow() -> None:
    rows = [
        wall("SW1", stated(260, None, None, **{"edge.spacing_in": 6})),
        wall("SW2", stated(440, None, None)),
        wall("SW3", stated(490, None, None, **{"edge.spacing_in": 3})),
    ]
    (finding,) = found("capacity-over-the-table", job(*rows))
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, "SW2", "capacity")
    assert "Load or method are not stated; other rows follow allowable seismic values." in finding.message


def test_a_missing_basis_is_said_once_for_the_schedule() -> None:
    rows = [wall("SW1", stated(260, None, "ASD", **{"edge.spacing_in": 6})), wall("SW2", stated(380, None, "ASD")), wall("SW3")]
    (finding,) = found("capacity-basis-not-stated", job(*rows))
    assert (finding.level, finding.wall_type, finding.field) == (Level.NOTE, None, "capacity")
    assert "SW1 and SW2" in finding.message
    assert found("capacity-basis-not-stated", job(wall("SW3"))) == []


def test_one_finding_for_a_row_that_is_over_for_both_loads() -> None:
    over = stated(0)
    over["capacity"] = ((430, "seismic", "ASD"), (602, "wind", "ASD"))
    assert len(found("capacity-over-the-table", job(wall("SW2", over)))) == 1


@pytest.mark.parametrize(
    ("plf", "board", "level", "source"),
    [
        (440, 'OVER 5/8" GYP. BD.', Level.ASK, "IBC-2009 Table 2306.3: 10d over gypsum, structural I at 4 in, 430"),
        (430, 'OVER 5/8" GYP. BD.', None, "IBC-2009 Table 2306.3: 430"),
        (500, "", None, f"{T43A}: direct on framing 1020 / 2.0 = 510"),
    ],
)
def test_panels_over_gypsum_board_are_held_against_their_own_rows(
    plf: float, board: str, level: Level | None, source: str
) -> None:
    made = wall("SW4", stated(plf, **STR1_10D), other=(board,) if board else ())
    hits = found("capacity-over-the-table", job(made))
    assert [hit.level for hit in hits] == ([level] if level else []), source
    assert all("over gypsum board" in hit.message for hit in hits)
