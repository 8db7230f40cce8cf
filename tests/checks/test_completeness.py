"""What a row leaves open is asked for, once for one cause; what the plans give or leave to details is not."""

import pytest

from extractor.checks import check
from extractor.record import Level
from tests.checks.making import drawn, elsewhere, found, hold_down, job, none, unreadable, wall

PRACTICE = "common practice, no source"


def test_a_good_schedule_has_nothing_to_ask() -> None:
    walls = (wall("SW1"), wall("SW2", {"edge.spacing_in": 4, "framing.panel_edge": "3x", "capacity": ((380, "seismic", "ASD"),)}))
    marks = [drawn(mark, lengths=(96.0,)) for mark in ("SW1", "SW2")]
    assert [finding.code for finding in check(job(*walls, *marks))] == ["special-inspection-possible"]


@pytest.mark.parametrize(
    ("changes", "field", "message", "source"),
    [
        (
            {"field.spacing_in": None},
            "field.spacing_in",
            "SW2: the field nailing spacing is missing: neither the row nor a note gives it. Ask the engineer before nailing.",
            PRACTICE,
        ),
        (
            {"sheathing.thickness_in": None},
            "sheathing.thickness_in",
            "SW2: the sheathing thickness is missing: neither the row nor a note gives it. Ask the engineer before ordering.",
            PRACTICE,
        ),
        (
            {"edge.spacing_in": none("-")},
            "edge.spacing_in",
            "SW2: the edge nailing spacing is missing, the row says “-”. Ask the engineer before nailing.",
            PRACTICE,
        ),
        (
            {f"fastener.{part}": None for part in ("penny", "style", "diameter_in", "length_in")},
            "fastener.penny",
            "SW2: the nail is missing: neither the row nor a note gives it. Ask the engineer before ordering.",
            PRACTICE,
        ),
        (
            {"fastener.kind": "staple"} | {f"fastener.{part}": None for part in ("penny", "style", "diameter_in", "length_in")},
            "fastener.penny",
            "SW2: the size of the staples is missing: neither the row nor a note gives it. Ask the engineer before ordering.",
            PRACTICE,
        ),
    ],
)
def test_a_wall_cannot_be_built_without(changes: dict[str, object], field: str, message: str, source: str) -> None:
    (finding,) = found("missing-value", job(wall("SW1"), wall("SW2", changes), wall("SW3")))
    assert (finding.level, finding.wall_type, finding.field, finding.message) == (Level.STOP, "SW2", field, message)


def test_a_column_that_nobody_has_is_one_question() -> None:
    (finding,) = found("missing-value", job(*(wall(mark, {"field.spacing_in": None}) for mark in ("SW1", "SW2", "SW3"))))
    assert (finding.wall_type, finding.field) == (None, "field.spacing_in")
    assert finding.message.startswith("The field nailing spacing is missing for every wall type")


@pytest.mark.parametrize(
    ("changes", "source"),
    [
        ({"field.spacing_in": unreadable("I2")}, "unreadable has its own finding"),
        ({"fastener.penny": None}, "0.131 x 2-1/2 names the nail"),
        ({"fastener.penny": elsewhere("SEE NOTE 9")}, "sent elsewhere has its own finding"),
    ],
)
def test_no_value_is_called_missing_when(changes: dict[str, object], source: str) -> None:
    assert found("missing-value", job(wall("SW1"), wall("SW2", changes))) == []


SIZES = {"fastener.diameter_in": None, "fastener.length_in": None}


@pytest.mark.parametrize(
    ("changes", "fires", "source"),
    [
        (SIZES | {"fastener.style": None}, True, "NDS-2018 Table L4: 8d is 0.131 common, 0.113 box"),
        ({"fastener.style": None, "fastener.diameter_in": None}, True, "NDS-2018 Table L4: common and box are both 2-1/2 long"),
        ({"fastener.style": None}, False, "0.131 x 2-1/2 is one nail"),
        (SIZES, False, "8d common is one nail, NDS-2018 Table L4"),
        (SIZES | {"fastener.style": unreadable("COMM0N?")}, False, "unreadable has its own finding"),
        (SIZES | {"fastener.style": None, "fastener.kind": "screw"}, False, "not a nail"),
    ],
)
def test_a_penny_size_alone_is_not_a_nail(changes: dict[str, object], fires: bool, source: str) -> None:
    findings = found("nail-not-fully-named", job(wall("SW1"), wall("SW2", changes)))
    assert [(f.level, f.wall_type, f.field) for f in findings] == ([(Level.STOP, "SW2", "fastener.style")] if fires else [])


@pytest.mark.parametrize(
    ("changes", "field", "source"),
    [
        ({"framing.panel_edge": None}, "framing.panel_edge", PRACTICE),
        ({"framing.blocked": None}, "framing.blocked", PRACTICE),
        ({"sheathing.faces": None}, "sheathing.faces", PRACTICE),
        ({"hold_down.marks": None}, "hold_down.marks", PRACTICE),
        ({"capacity": None}, "capacity", PRACTICE),
        ({"anchors.kind": None, "anchors.diameter_in": None, "anchors.spacing_in": None}, "anchors.spacing_in", PRACTICE),
        ({"anchors.diameter_in": None}, "anchors.diameter_in", PRACTICE),
    ],
)
def test_a_blank_beside_filled_rows_is_asked_for(changes: dict[str, object], field: str, source: str) -> None:
    (finding,) = found("missing-in-one-row", job(wall("SW1"), wall("SW2", changes), wall("SW3")))
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, "SW2", field)
    assert "missing in this row" in finding.message


GYPSUM = {"sheathing.material": "gypsum", "sheathing.grade": None, "framing.panel_edge": None, "framing.sill": None}


@pytest.mark.parametrize(
    ("changes", "source"),
    [
        ({"edge.staggered": True}, "one row says more than the others"),
        ({"anchors.spacing_in": elsewhere("PER ENGINEER"), "anchors.diameter_in": None}, "one cause: the anchor cell"),
        ({"hold_down.marks": none("NONE")}, "the plans say none"),
        (GYPSUM | {"bottom_plate.penny": None, "bottom_plate.spacing_in": None}, "only wood panels have these columns"),
    ],
)
def test_a_row_is_not_asked_for(changes: dict[str, object], source: str) -> None:
    assert found("missing-in-one-row", job(wall("SW1"), wall("SW2", changes), wall("SW3"))) == []


ANCHORS = dict.fromkeys(("anchors.kind", "anchors.diameter_in", "anchors.spacing_in", "framing.sill"))
PLATE = {"bottom_plate.penny": None, "bottom_plate.spacing_in": None}


def test_a_wall_on_framing_is_not_asked_for_the_anchors_of_walls_on_concrete() -> None:
    lower, upper = (wall("L1", PLATE), wall("L2", PLATE)), (wall("U1", ANCHORS), wall("U2", ANCHORS))
    assert found("missing-in-one-row", job(*lower, *upper)) == []
    asked = found("missing-in-one-row", job(*lower, wall("L3", PLATE | {"anchors.spacing_in": None}), *upper))
    assert [(f.wall_type, f.field) for f in asked] == [("L3", "anchors.spacing_in")]


def test_rows_with_the_same_blank_are_one_question() -> None:
    full, blank = [wall(f"A{n}") for n in range(4)], [wall(f"B{n}", {"framing.panel_edge": None}) for n in range(3)]
    (finding,) = found("missing-in-one-row", job(*full, *blank))
    assert (finding.wall_type, finding.field) == (None, "framing.panel_edge")
    assert finding.message.startswith("B0, B1 and B2: the framing at panel edges (2x, 3x or doubled) is missing in these rows;")
    bare = [wall(f"C{n}", {"field.spacing_in": None}) for n in range(3)]
    (finding,) = found("missing-value", job(*full, *bare))
    assert (finding.level, finding.wall_type, finding.field) == (Level.STOP, None, "field.spacing_in")
    assert finding.message.startswith("C0, C1 and C2: the field nailing spacing is missing")


@pytest.mark.parametrize(
    ("field", "level", "source"),
    [
        ("sheathing.faces", Level.ASK, PRACTICE),
        ("framing.blocked", Level.ASK, PRACTICE),
        ("anchors.washer_in", Level.NOTE, "often left to a detail; common practice, no source"),
        ("bottom_plate.spacing_in", Level.NOTE, "often left to a detail; common practice, no source"),
        ("sheathing.grade", Level.NOTE, "often left to the panel stamp; common practice, no source"),
    ],
)
def test_what_nobody_gives_is_said_once(field: str, level: Level, source: str) -> None:
    findings = found("not-given-anywhere", job(wall("SW1", {field: None}), wall("SW2", {field: None})))
    assert [(f.level, f.wall_type, f.field) for f in findings] == [(level, None, field)]


def test_no_hold_down_anywhere_is_a_question_before_the_pour() -> None:
    bare = wall("SW1", {"hold_down.marks": None})
    (finding,) = found("hold-downs-not-given", job(bare, hold_downs=()))
    assert finding.field == "hold_down.marks"
    assert "before the pour" in finding.message
    assert found("hold-downs-not-given", job(bare, drawn("HD1", "hold-down"), hold_downs=())) == []
    assert found("hold-downs-not-given", job(wall("SW1", {"hold_down.marks": none("NONE")}), hold_downs=())) == []


def test_nail_sizes_that_stand_nowhere_are_noted() -> None:
    assert [f.level for f in found("nail-size-not-given", job(wall("SW1", SIZES), wall("SW2", SIZES)))] == [Level.NOTE]
    assert found("nail-size-not-given", job(wall("SW1", SIZES), wall("SW2"))) == []


@pytest.mark.parametrize("field", ["post", "anchor.diameter_in", "anchor.embedment_in", "capacity_lb", "model", "fasteners"])
def test_a_hold_down_row_with_a_gap_names_the_hold_down(field: str) -> None:
    table = (hold_down("HD1"), hold_down("HD2", {field: None}), hold_down("HD3"))
    (finding,) = found("hold-down-value-missing", job(wall("SW1"), *table))
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, "HD2", field)
    assert finding.message.startswith("Hold-down HD2: ")


def test_hold_downs_with_the_same_blanks_are_one_question() -> None:
    bare = {"anchor.diameter_in": None, "anchor.embedment_in": None}
    table = (hold_down("HD1"), hold_down("HD2"), hold_down("ST1", bare), hold_down("ST2", bare))
    (finding,) = found("hold-down-value-missing", job(wall("SW1"), *table))
    assert (finding.wall_type, finding.field) == (None, "anchor.diameter_in")
    assert finding.message == (
        "Hold-downs ST1 and ST2: the anchor diameter and anchor embedment are missing in these rows of the hold-down table; "
        "other rows give them. A strap from storey to storey has no anchor. Ask the engineer before the pour."
    )


def test_a_table_without_embedments_is_one_note() -> None:
    table = (hold_down("HD1", {"anchor.embedment_in": None}), hold_down("HD2", {"anchor.embedment_in": None}))
    findings = found("hold-down-value-not-given", job(wall("SW1"), *table))
    assert [(f.level, f.wall_type, f.field) for f in findings] == [(Level.NOTE, None, "anchor.embedment_in")]
    assert found("hold-down-value-missing", job(wall("SW1"), *table)) == []
