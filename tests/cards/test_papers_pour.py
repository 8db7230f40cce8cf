"""The paper before the pour: every hold-down and sill bolt by type, nothing blank, nothing added up."""

import pytest

from cards.before_pour import before_pour, before_pour_pdf
from cards.papers import spoken
from extractor.record import (
    Anchors,
    BottomPlate,
    Coverage,
    HoldDown,
    HoldDownAnchor,
    Job,
    PlanMark,
    State,
    WallHoldDowns,
)
from tests.cards.making import conflict, finding, full_wall, job, pages, read, silent, text, wall
from tests.cards.seeing import faults

EN = spoken("en")
ON_TWO_SHEETS = (PlanMark(mark="HD2", kind="hold-down", page=2, sheet="S1.0", boxes=((0, 0, 1, 1),) * 4),
                 PlanMark(mark="HD2", kind="hold-down", page=3, sheet="S2.1", boxes=((0, 0, 1, 1),) * 4))  # fmt: skip


def bare(mark: str = "HD5") -> HoldDown:
    return HoldDown(mark=read(mark))


def said(sets: Job, language: str = "en") -> str:
    return " ".join(text(page) for page in pages(before_pour_pdf(sets, language=language)))


def cells(sets: Job, mark: str) -> list[str]:
    [row] = [row for row in (*before_pour(sets, EN).hold_downs, *before_pour(sets, EN).sills) if row.mark == mark]
    return [" ".join(bit.text for bit in cell) for cell in row.cells]


def test_a_hold_down_has_model_anchor_embedment_post_and_fasteners() -> None:
    assert cells(job(wall("SW4")), "HD2") == ["KT-22", '5/8"', '12"', "(2) 2x6", "(16) 1/4 x 3 SCREWS"]


def test_marks_are_counted_sheet_by_sheet_and_never_added_up() -> None:
    """The foundation plan and the floor plan may draw the same four."""
    [row] = before_pour(job(wall("SW4"), drawn=ON_TWO_SHEETS), EN).hold_downs
    assert row.where == ("S1.0: 4, S2.1: 4", "named in rows SW4")
    assert "8" not in row.where[0]


@pytest.mark.parametrize(
    ("column", "field", "source"),
    [
        (1, "anchor.diameter_in", "common practice: what is cast in is asked before the pour"),
        (2, "anchor.embedment_in", "common practice: what is cast in is asked before the pour"),
        (3, "post", "common practice: the anchor is measured from the actual post"),
    ],
)
def test_what_the_table_leaves_out_is_asked_with_its_own_number(column: int, field: str, source: str) -> None:
    other = finding("model", "HD5", "ask", message="The model is missing.")
    own = finding(field, "HD5", "ask", message="It is missing.")
    assert cells(job(wall("SW4"), holds=(bare(),), findings=(other, own)), "HD5")[column] == "NOT ON PLANS - ASK (Q-02)", source


def test_two_diameters_are_both_printed_and_neither_is_chosen() -> None:
    row = HoldDown(mark=read("HD5"), anchor=HoldDownAnchor(diameter_in=conflict(0.625, 0.875)))
    assert cells(job(holds=(row,)), "HD5")[1] == '5/8" (S3.1) | 7/8" (note, S-001) CONFLICT - ASK'


def test_a_hold_down_without_a_row_stands_in_the_table_and_asks() -> None:
    lone = PlanMark(mark="(2) HD9", kind="hold-down", page=3, sheet="S2.1", boxes=((0, 0, 1, 1),))
    undefined = finding(None, "HD9", code="undefined-hold-down", message="Hold-down HD9 is drawn once.")
    [_, row] = before_pour(job(wall("SW4"), drawn=(lone,), findings=(undefined,)), EN).hold_downs
    assert (row.mark, row.where) == ("HD9", ("“(2) HD9” S2.1: 1",))
    assert row.cells[0][0].text == "NO ROW IN A HOLD-DOWN TABLE - ASK (Q-01)"


def test_a_hold_down_that_only_rows_name_is_there_too() -> None:
    says = "No hold-down table was found for HD2: post is missing."
    asks = finding("anchor.diameter_in", None, "ask", "hold-down-table-not-found", says)
    sets = job(wall("SW4"), holds=(), findings=(asks,))
    [row] = before_pour(sets, EN).hold_downs
    assert row.where == ("none drawn", "named in rows SW4")
    assert row.cells[0][0].text == "NO ROW IN A HOLD-DOWN TABLE - ASK (Q-01)"


def test_a_hold_down_is_not_answered_by_the_question_about_a_wall_of_its_mark() -> None:
    about_wall = finding("anchors.spacing_in", "3", message="3: the spacing is missing.")
    sets = job(wall("3", hold_down=WallHoldDowns(marks=silent(State.NONE, "-"))), holds=(bare("3"),), findings=(about_wall,))
    [row] = before_pour(sets, EN).hold_downs
    assert [cell[0].text for cell in row.cells] == ["NOT ON PLANS - ASK"] * 5


def test_sill_bolts_that_a_row_leaves_out_are_asked_for() -> None:
    sets = job(wall("SW4", anchors=Anchors(diameter_in=read(0.625))), findings=(finding("anchors.spacing_in"),))
    assert cells(sets, "SW4")[:3] == ['5/8"', "NOT ON PLANS - ASK (Q-01)", "NOT ON PLANS - ASK (Q-01)"]


def test_none_is_printed_as_none_and_not_as_a_blank() -> None:
    sets = job(wall("SW4", anchors=Anchors(diameter_in=silent(State.NONE, "-"), spacing_in=silent(State.NONE, "-"))))
    assert cells(sets, "SW4")[:2] == ["NONE (per plans)", "NONE (per plans)"]


def test_a_wall_on_framing_is_not_among_the_sill_bolts() -> None:
    upper = wall("SW8", anchors=Anchors(), framing=full_wall().framing.model_copy(update={"sill": None}),
                 bottom_plate=BottomPlate(penny=read("16d"), spacing_in=read(4.0)))  # fmt: skip
    made = before_pour(job(wall("SW4"), upper), EN)
    assert [row.mark for row in made.sills] == ["SW4"]
    assert [" ".join(bit.text for bit in row.cells[0]) for row in made.on_framing] == ['16d @ 4" o.c.']


def test_a_wall_mark_without_a_row_is_on_the_paper() -> None:
    lone = PlanMark(mark="SW7", kind="wall", page=3, sheet="S2.1", boxes=((0, 0, 1, 1),))
    sets = job(wall("SW4"), drawn=(lone,), findings=(finding(None, "SW7", code="undefined-mark"),))
    assert cells(sets, "SW7") == ["NO ROW IN THE SCHEDULE - ASK (Q-01)"]


def test_questions_that_hold_the_pour_come_first_and_others_do_not_come() -> None:
    sets = job(wall("SW4"), findings=(finding("edge.spacing_in", message="Edge."), finding("anchors.spacing_in", level="ask",
               message="Bolts."), finding("hold_down.marks", message="Hold-downs.")))  # fmt: skip
    assert [(one.number, one.level, one.message) for one in before_pour(sets, EN).questions] == [
        ("Q-01", "STOP", "Hold-downs."), ("Q-02", "ASK", "Bolts.")]  # fmt: skip


def test_spanish_calls_its_questions_by_their_spanish_letter() -> None:
    sets = job(wall("SW4"), findings=(finding("hold_down.marks"),))
    assert [(one.number, one.level) for one in before_pour(sets, spoken("es")).questions] == [("P-01", "ALTO")]


def test_nothing_open_is_no_approval() -> None:
    assert "No question that holds the pour was found. That is not an approval." in said(job(wall("SW4")))


def test_sheets_that_are_pictures_are_named_because_their_marks_are_not_counted() -> None:
    sets = job(wall("SW4")).model_copy(update={"coverage": Coverage(sheets_without_text=(7, 8))})
    assert "Not counted, no text on the sheet: pages 7-8. Count these yourself." in said(sets)


def test_no_hold_down_at_all_is_said_with_its_question() -> None:
    none = wall("SW4", hold_down=WallHoldDowns())
    assert "No hold-down was found in a row, in a table or on a plan (Q-01)." in said(
        job(none, holds=(), findings=(finding("hold_down.marks", None, "ask", "hold-downs-not-given"),)))  # fmt: skip


def test_both_languages_say_the_same_number() -> None:
    words = said(job(wall("SW4"), holds=(bare(),), findings=(finding("post", "HD5", "ask"),)), "en+es")
    assert "(Q-01)" in words
    assert "(P-01)" in words


def test_nothing_is_cut_where_marks_are_long() -> None:
    made = before_pour_pdf(job(wall("SHEARWALL-TYPE-14A"), holds=(bare("HOLDDOWN-MARK-12"),)), language="en+es")
    assert [faults(page) for page in pages(made)] == [[]] * len(list(pages(made)))
    said = "".join(text(page) for page in pages(made))
    assert all(part in said for part in ("SHEARWALL", "TYPE-14A", "HOLDDOWN", "MARK-12"))
