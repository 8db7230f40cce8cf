"""Marks against rows, both ways, for walls and for hold-downs; and one mark in two rows."""

import pytest

from extractor.record import Level
from tests.checks.making import drawn, found, hold_down, job, none, wall


def test_a_mark_without_a_row_is_a_stop_and_says_where_it_is_drawn() -> None:
    (finding,) = found("undefined-mark", job(wall("SW5"), drawn("SW5"), drawn("SW6", times=2)))
    assert (finding.level, finding.wall_type) == (Level.STOP, "SW6")
    assert finding.message == (
        "SW6 is drawn 2 times (sheet S2.1) and is not in the schedule: no row says what it is. Ask the engineer."
    )
    assert finding.source is not None
    assert finding.source.sheet == "S2.1"


@pytest.mark.parametrize(
    ("scheduled", "on_plan", "source"),
    [
        ("SW1", "SW-1", "one mark, two spellings"),
        ("SW-1", "SW 1", "one mark, two spellings"),
        ("a", "A", "one mark, two spellings"),
    ],
)
def test_spellings_of_one_mark_match(scheduled: str, on_plan: str, source: str) -> None:
    plans = job(wall(scheduled), drawn(on_plan))
    assert found("undefined-mark", plans) == []
    assert found("unused-mark", plans) == []


def test_marks_that_only_look_alike_do_not_match() -> None:
    assert [f.wall_type for f in found("undefined-mark", job(wall("11"), drawn("1-1")))] == ["1-1"]


def test_a_row_that_is_never_drawn_is_asked_about() -> None:
    (finding,) = found("unused-mark", job(wall("SW3"), wall("SW4"), drawn("SW3")))
    assert (finding.level, finding.wall_type) == (Level.ASK, "SW4")
    assert "never drawn on a plan" in finding.message


def test_plans_without_any_wall_mark_are_one_note() -> None:
    (finding,) = found("unused-mark", job(wall("SW3"), wall("SW4"), drawn("HD1", "hold-down")))
    assert (finding.level, finding.wall_type) == (Level.NOTE, None)


def test_a_hold_down_without_a_row_stops_the_pour() -> None:
    plans = job(wall("SW1", {"hold_down.marks": ("HD3",)}), drawn("SW1"), drawn("HD3", "hold-down", 2), hold_down("HD1"))
    (finding,) = found("undefined-hold-down", plans)
    assert (finding.level, finding.wall_type, finding.field) == (Level.STOP, "HD3", None)
    assert finding.message == (
        "Hold-down HD3 is drawn 2 times (sheet S2.1) and named in row SW1 and is not in the hold-down schedule: no row gives its "
        "post or anchor. Ask the engineer before the pour."
    )


@pytest.mark.parametrize(
    ("named", "source"),
    [
        (("KT-22",), "the table lists the model under HD1"),
        (("(2) KT-22",), "two of one model"),
        (("HD-1",), "one mark, two spellings"),
    ],
)
def test_a_hold_down_that_the_table_has(named: tuple[str, ...], source: str) -> None:
    plans = job(wall("SW1", {"hold_down.marks": named}), hold_down("HD1"))
    assert found("undefined-hold-down", plans) == []
    assert found("unused-hold-down", plans) == []


def test_models_in_the_rows_without_a_table_are_one_question() -> None:
    rows = (wall("SW1", {"hold_down.marks": ("KT-22",)}), wall("SW2", {"hold_down.marks": ("QD-4",)}))
    plans = job(*rows, hold_downs=())
    assert found("undefined-hold-down", plans) == []
    (finding,) = found("hold-down-table-not-found", plans)
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, None, "anchor.diameter_in")
    assert "KT-22 and QD-4" in finding.message
    assert found("hold-down-table-not-found", job(wall("SW1", {"hold_down.marks": none("NONE")}), hold_downs=())) == []


def test_a_hold_down_row_that_nothing_uses_is_asked_about() -> None:
    plans = job(wall("SW1"), drawn("SW1"), drawn("HD2", "hold-down"), hold_down("HD1"), hold_down("HD2"), hold_down("HD3"))
    (finding,) = found("unused-hold-down", plans)
    assert (finding.level, finding.wall_type, finding.field) == (Level.ASK, "HD3", None)
    assert "HD3 stands in the hold-down table, is never drawn" in finding.message


def test_two_rows_of_one_mark_are_a_stop_and_say_what_differs() -> None:
    (finding,) = found(
        "duplicate-mark", job(wall("SW3"), wall("SW3", {"edge.spacing_in": 3, "capacity": ((490, "wind", "ASD"),)}))
    )
    assert (finding.level, finding.wall_type) == (Level.STOP, "SW3")
    assert finding.message == (
        "SW3 stands twice in the schedule, and they differ in: edge nailing spacing, capacity. Ask the engineer which row holds."
    )


def test_a_row_that_is_repeated_word_for_word_is_a_note() -> None:
    assert [f.level for f in found("duplicate-mark", job(wall("SW3"), wall("SW3")))] == [Level.NOTE]
    assert found("duplicate-mark", job(wall("SW3"), wall("SW3A"))) == []


def test_two_rows_of_one_hold_down_are_a_stop() -> None:
    (finding,) = found("duplicate-hold-down", job(wall(), hold_down("HD2"), hold_down("HD2", {"anchor.diameter_in": 7 / 8})))
    assert (finding.level, finding.wall_type) == (Level.STOP, "HD2")
    assert "twice in the hold-down table, and they differ in: anchor diameter" in finding.message
