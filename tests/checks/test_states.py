"""Printed and not usable: every such value has a finding that names the wall, the field and the words."""

import pytest

from extractor.record import Level
from tests.checks.making import conflict, drawn, elsewhere, found, hold_down, job, unreadable, wall

PRACTICE = "common practice, no source"


@pytest.mark.parametrize(
    ("field", "words", "level", "source"),
    [
        ("sheathing.thickness_in", "S/32", Level.STOP, PRACTICE),
        ("edge.spacing_in", "?", Level.STOP, PRACTICE),
        ("hold_down.marks", "⊗", Level.STOP, PRACTICE),
        ("capacity", "7307/16", Level.ASK, "nobody builds from the capacity"),
    ],
)
def test_words_that_give_no_value(field: str, words: str, level: Level, source: str) -> None:
    (finding,) = found("unreadable-value", job(wall("SW4", {field: unreadable(words)})))
    assert (finding.level, finding.wall_type, finding.field) == (level, "SW4", field)
    assert f"“{words}” gives no value. Look at sheet S3.1" in finding.message


def test_words_of_no_field_are_no_finding() -> None:
    odd = wall("SW4")
    odd = odd.model_copy(update={"other": (unreadable("TYP."),)})
    assert found("unreadable-value", job(odd)) == []


@pytest.mark.parametrize(
    ("field", "words", "level", "says", "source"),
    [
        ("anchors.spacing_in", "PER ENGINEER", Level.STOP, "Ask the engineer for it.", PRACTICE),
        ("edge.spacing_in", "SEE DTL 5/S5.1", Level.STOP, "Sheet S5.1 is not in this plan set.", PRACTICE),
        ("edge.spacing_in", "SEE DTL 5/S3.1", Level.ASK, "Look there before nailing.", "sheet S3.1 is in the set"),
        ("hold_down.marks", "PER PLAN", Level.ASK, "Look there before the pour.", "no hold-down is drawn"),
        ("top_plate.connector", "SEE 4/S3.1", Level.NOTE, "Look there before nailing.", "often left to a detail"),
    ],
)
def test_a_value_sent_elsewhere(field: str, words: str, level: Level, says: str, source: str) -> None:
    (finding,) = found("value-elsewhere", job(wall("SW4", {field: elsewhere(words)})))
    assert (finding.level, finding.wall_type, finding.field) == (level, "SW4", field)
    assert f"refers to “{words}”" in finding.message
    assert says in finding.message


def test_one_cell_that_gives_no_value_is_one_finding() -> None:
    words = elsewhere("PER ENGINEER")
    plans = job(wall("SW4", {"anchors.diameter_in": words, "anchors.spacing_in": words, "edge.spacing_in": words}))
    anchors, edge = found("value-elsewhere", plans)[::-1]
    assert (anchors.field, edge.field) == ("anchors.spacing_in", "edge.spacing_in")
    assert "no value for the sill anchor diameter and sill anchor spacing" in anchors.message


def test_the_same_words_in_many_rows_are_one_finding() -> None:
    rows = [wall(f"P{n}", {"hold_down.marks": elsewhere("SEE PLAN")}) for n in range(4)]
    (finding,) = found("value-elsewhere", job(*rows, wall("P9")))
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, None, "hold_down.marks")
    assert finding.message.startswith("P0, P1, P2 and P3: no value for the hold-down: the rows refer to “SEE PLAN”.")
    assert [f.wall_type for f in found("value-elsewhere", job(*rows[:2]))] == ["P0", "P1"]


def test_one_note_against_many_rows_is_one_conflict() -> None:
    rows = [wall(f"P{n}", {"field.spacing_in": conflict(12, '12"', 6, '6"')}) for n in range(3)]
    (finding,) = found("conflicting-value", job(*rows))
    assert (finding.level, finding.wall_type) == (Level.STOP, None)
    assert finding.message.startswith('P0, P1 and P2: the plans conflict about the field nailing spacing: “12"”')


def test_hold_downs_per_plan_are_fine_where_the_plans_draw_them() -> None:
    plans = job(wall("SW4", {"hold_down.marks": elsewhere("PER PLAN")}), drawn("SW4"), drawn("HD1", "hold-down"))
    assert found("value-elsewhere", plans) == []


def test_a_sheet_is_not_called_absent_while_a_sheet_number_is_unknown() -> None:
    plans = job(wall("SW4", {"edge.spacing_in": elsewhere("SEE DTL 5/S5.1")}))
    unknown = plans.model_copy(update={"sheets": (*plans.sheets, plans.sheets[0].model_copy(update={"page": 4, "number": None}))})
    (finding,) = found("value-elsewhere", unknown)
    assert finding.level is Level.ASK
    assert "not in this plan set" not in finding.message


def test_a_conflict_shows_both_values_and_both_places() -> None:
    (finding,) = found("conflicting-value", job(wall("SW2", {"field.spacing_in": conflict(12, '12" O.C.', 6, '6" O.C.')})))
    assert (finding.level, finding.wall_type, finding.field) == (Level.STOP, "SW2", "field.spacing_in")
    assert finding.message == (
        'SW2: the plans conflict about the field nailing spacing: “12" O.C.” (schedule, sheet S3.1) against “6" O.C.” (note, '
        "sheet S1.0). Ask the engineer which one is right."
    )


def test_a_hold_down_in_doubt_is_named() -> None:
    (finding,) = found("conflicting-value", job(wall(), hold_down("HD2", {"post": conflict("4x4", "4x4", "4x6", "4x6")})))
    assert (finding.wall_type, finding.field, finding.level) == ("HD2", "post", Level.STOP)
    assert finding.message.startswith("Hold-down HD2: the plans conflict about the post")


def test_a_hold_down_with_the_mark_of_a_wall_is_not_taken_for_the_wall() -> None:
    (finding,) = found("unreadable-value", job(wall("4"), hold_down("4", {"post": unreadable("4x?")})))
    assert finding.wall_type is None
    assert finding.message.startswith("Hold-down 4: ")
