"""Rows that belong together and disagree, staples against their table, and credits that a capacity rests on."""

import pytest

from extractor.record import Level, SheetRecord
from tests.checks.making import drawn, found, hold_down, job, wall

PRACTICE = "common practice, no source"
T2306 = "IBC-2009 Table 2306.3 (780 CMR)"
CLOSE = {"edge.spacing_in": 3, "framing.panel_edge": "3x"}


@pytest.mark.parametrize(
    ("plf", "changes", "fires", "source"),
    [
        (490, {}, True, PRACTICE),
        (980, {}, False, "twice one face: from memory"),
        (490, {"edge.spacing_in": 2}, False, "other nailing, another wall"),
        (490, {"sheathing.faces": 1}, False, "two rows on one face"),
    ],
)
def test_both_faces_with_the_capacity_of_one_face(plf: float, changes: dict[str, object], fires: bool, source: str) -> None:
    both = wall("SW3D", CLOSE | {"sheathing.faces": 2, "capacity": ((plf, "seismic", "ASD"),)} | changes)
    plans = job(wall("SW3", CLOSE | {"capacity": ((490, "seismic", "ASD"),)}), both)
    findings = found("both-faces-with-the-capacity-of-one", plans)
    assert [(f.level, f.wall_type, f.field) for f in findings] == ([(Level.ASK, "SW3D", "capacity")] if fires else [])


@pytest.mark.parametrize(
    ("changes", "fields", "source"),
    [
        ({"capacity_lb": 4565}, ["capacity_lb"], PRACTICE),
        ({"anchor.diameter_in": 7 / 8}, ["anchor.diameter_in"], PRACTICE),
        ({"capacity_lb": 4565, "post": "4x6"}, [], "another post"),
        ({"capacity_lb": 4565, "fasteners": "(20) 1/4 SCREWS"}, [], "another fastening"),
        ({"capacity_lb": 4565, "model": "KT-46"}, [], "another model"),
        ({"anchor.embedment_in": 18}, [], "the same rod in another footing"),
        ({"capacity_lb": None}, [], "a blank is asked for elsewhere"),
    ],
)
def test_one_model_with_two_sets_of_data(changes: dict[str, object], fields: list[str], source: str) -> None:
    findings = found("one-hold-down-model-two-sets-of-data", job(wall(), hold_down("HD2"), hold_down("HD5", changes)))
    assert [(f.level, f.wall_type, f.field) for f in findings] == [(Level.ASK, "HD5", field) for field in fields]


STAPLED = {
    "fastener.kind": "staple",
    "fastener.gauge": 16,
    "fastener.penny": None,
    "fastener.style": None,
    "fastener.diameter_in": None,
    "fastener.length_in": 1.5,
    "sheathing.grade": "structural 1",
    "edge.spacing_in": 4,
}


@pytest.mark.parametrize(
    ("changes", "plf", "load", "level", "source"),
    [
        ({}, 380, "seismic", Level.STOP, f"{T2306}: Structural I 15/32 at 4 in is 280"),
        ({}, 400, "wind", Level.STOP, f"{T2306}: 1.4 times 280 = 392"),
        ({"sheathing.grade": "rated sheathing"}, 300, "seismic", Level.ASK, "sheathing 15/32 at 4 in is 255: from memory"),
        ({"sheathing.faces": 2}, 600, "seismic", Level.ASK, "twice one face: from memory"),
        ({}, 280, "seismic", None, T2306),
        ({}, 281, "seismic", None, "rounding, 1 plf"),
        ({}, 392, "wind", None, f"{T2306}: 1.4 times 280"),
        ({"sheathing.faces": None}, 560, "seismic", None, "perhaps both faces"),
        ({"sheathing.grade": None}, 280, "seismic", None, "perhaps Structural I"),
        ({"fastener.gauge": 14}, 380, "seismic", None, "the table here is for 16 gauge"),
        ({"sheathing.material": "gypsum"}, 380, "seismic", None, "another table"),
        ({}, 380, None, None, "no load stated"),
    ],
)
def test_stapled_walls(changes: dict[str, object], plf: float, load: str | None, level: Level | None, source: str) -> None:
    stapled = wall("T1", STAPLED | {"capacity": ((plf, load, "ASD"),)} | changes)
    findings = found("stapled-capacity-over-the-table", job(stapled))
    assert [f.level for f in findings] == ([level] if level else [])


@pytest.mark.parametrize(
    ("thickness", "plf", "fires", "source"),
    [
        (7 / 16, 380, True, "SDPWS-2008 Table 4.3A: 7/16 has 350, 15/32 has 380; footnote 2 from memory"),
        (7 / 16, 350, False, "SDPWS-2008 Table 4.3A: 700 / 2.0"),
        (7 / 16, 430, False, "over the 15/32 row too: another finding"),
        (15 / 32, 380, False, "SDPWS-2008 Table 4.3A: 760 / 2.0"),
    ],
)
def test_a_capacity_that_rests_on_a_credit_is_noted_once(thickness: float, plf: float, fires: bool, source: str) -> None:
    changes = {"sheathing.thickness_in": thickness, "edge.spacing_in": 4, "capacity": ((plf, "seismic", "ASD"),)}
    findings = found("capacity-rests-on-a-credit", job(wall("A", changes), wall("B", changes)))
    assert [(f.level, f.wall_type) for f in findings] == ([(Level.NOTE, None)] if fires else [])


def test_a_credit_that_only_one_row_takes_is_a_question() -> None:
    """IBC-2009 Table 2306.3 (780 CMR): 7/16 with 8d gives 240, 350, 450 plf, 15/32 gives 490 at 3 in; a slip looks like this."""
    panel = {"sheathing.thickness_in": 7 / 16, "sheathing.grade": None, "sheathing.material": "osb"}
    rows = [wall(m, {**panel, "edge.spacing_in": e, "capacity": ((plf, "seismic", "ASD"),)}) for m, e, plf in
            (("P1", 6, 240), ("P2", 4, 350), ("P3", 3, 490))]  # fmt: skip
    assert [(f.level, f.wall_type) for f in found("capacity-rests-on-a-credit", job(*rows))] == [(Level.ASK, "P3")]


def sheets(*issues: tuple[str | None, str | None]) -> tuple[SheetRecord, ...]:
    names = ("S1.0", "S2.1", "S3.1")
    return tuple(SheetRecord(page=n, number=names[n - 1], revision=r, date=d) for n, (r, d) in enumerate(issues, 1))


@pytest.mark.parametrize(
    ("issues", "says", "source"),
    [
        ([("1", "2026-01-02"), ("1", "2026-01-02"), ("2", "2026-01-02")], "Sheets of different issues: sheet S2.1", PRACTICE),
        ([("1", "2026-01-02"), ("1", "2026-03-04"), ("1", "2026-01-02")], "Sheets of different issues: sheet S2.1", PRACTICE),
        ([("1", "2026-01-02"), (None, None), ("1", "2026-01-02")], "No revision and no date was read on sheet S2.1", PRACTICE),
        ([("9", "2020-01-02"), ("1", "2026-01-02"), ("1", "2026-01-02")], None, "S1.0 has neither rows nor marks"),
        ([("1", None), ("1", "2026-01-02"), ("1", None)], None, "one of the two was not read: nothing differs"),
    ],
)
def test_sheets_of_different_issues(issues: list[tuple[str | None, str | None]], says: str | None, source: str) -> None:
    findings = found("mixed-revisions", job(wall(), sheets=sheets(*issues)))
    assert [f.message.startswith(says or "?") for f in findings] == ([True] if says else [])


def test_walls_without_a_length_are_counted() -> None:
    (finding,) = found("wall-lengths-not-read", job(wall("SW1"), drawn("SW1", times=3, lengths=(96.0, None, None))))
    assert finding.level is Level.NOTE
    assert finding.message.startswith("A wall length was read at 1 of 3 wall marks.")
    assert found("wall-lengths-not-read", job(wall("SW1"), drawn("SW1", lengths=(96.0,)))) == []
