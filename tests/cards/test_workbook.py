"""The workbook read back: every value is there, text stays text, nothing is blank without a word."""

import io
from typing import Any

import openpyxl
import pytest

from cards.findings import numbered
from cards.traced import label_of, traced
from cards.workbook import workbook
from extractor.record import EdgeNailing, PlanMark, Sheathing
from tests.cards.making import finding, job, nail, spoiled, wall
from tests.cards.making import read as printed_as
from tests.cards.sets import DEMO, job_of


def opened(data: bytes) -> Any:
    return openpyxl.load_workbook(io.BytesIO(data))


def lines(data: bytes, sheet: str) -> list[dict[str, Any]]:
    """The lines of a sheet by their headings."""
    heads, *rows = opened(data)[sheet].iter_rows(values_only=True)
    return [dict(zip(heads, row, strict=True)) for row in rows]


def field(data: bytes, mark: str, label: str) -> list[tuple[Any, ...]]:
    """What the Values sheet says of a field: as printed, as understood, decimal, unit, state."""
    keys = ("as printed", "as understood", "decimal", "unit", "state")
    return [tuple(line[key] for key in keys) for line in lines(data, "Values") if (line["mark"], line["field"]) == (mark, label)]


def test_a_line_for_every_value_in_the_order_of_the_schedule() -> None:
    whole = spoiled()
    values = [value for _, own in traced(whole) for value in own]
    got = lines(workbook(whole), "Values")
    assert [line["no."] for line in got] == list(range(1, len(values) + 1))
    assert [line["as printed"] for line in got] == [value.reading.as_printed for value in values]


@pytest.mark.parametrize(
    ("label", "value", "words", "understood", "decimal", "unit"),
    [
        ("sheathing thickness", 0.375, "3/8", '3/8"', 0.375, "in"),  # a spreadsheet's own reading of 3/8 is 8 March
        ("sheathing thickness", 0.46875, '15/32"', '15/32"', 0.46875, "in"),
        ("sheathing thickness", 1.125, "1 1/8", '1-1/8"', 1.125, "in"),
    ],
)
def test_a_fraction_stays_a_fraction(label: str, value: float, words: str, understood: str, decimal: float, unit: str) -> None:
    data = workbook(job(wall(sheathing=Sheathing(thickness_in=printed_as(value, words)))))
    assert field(data, "SW4", label) == [(words, understood, decimal, unit, "read")]


@pytest.mark.parametrize(
    ("mark", "source"),
    [
        ("12-11", "a mark that a spreadsheet takes for a day"),
        ("3/8", "a mark that a spreadsheet takes for a day"),
        ("1E5", "a mark that a spreadsheet takes for 100,000"),
        ("007", "a mark whose noughts count"),
        ("=1+1", "words that a spreadsheet would work out"),
        ('=HYPERLINK("http://x","y")', "words that a spreadsheet would link"),
        ("+A1", "words that a spreadsheet would work out"),
        ("-2", "words that a spreadsheet would work out"),
        ("@SUM(A1)", "words that a spreadsheet would work out"),
    ],
)
def test_words_of_the_plans_stay_text(mark: str, source: str) -> None:
    book = opened(workbook(job(wall(mark), drawn=(PlanMark(mark=mark, kind="wall", page=4, sheet=mark, boxes=((1, 2, 3, 4),)),))))
    cells = [cell for sheet in book for row in sheet.iter_rows(min_row=2) for cell in row if cell.value == mark]
    assert len(cells) > 4, source
    assert {(cell.data_type, cell.number_format) for cell in cells} == {("s", "@")}, source


def test_no_cell_is_a_formula_or_a_date() -> None:
    cells = [cell for sheet in opened(workbook(spoiled())) for row in sheet.iter_rows() for cell in row]
    assert {cell.data_type for cell in cells} <= {"s", "n"}


def test_a_number_is_a_number_only_where_it_is_one() -> None:
    for line in lines(workbook(spoiled()), "Values"):
        assert isinstance(line["decimal"], int | float) or line["decimal"] is None
        assert all(isinstance(line[key], str) for key in ("mark", "field", "as printed", "as understood", "state", "from"))


@pytest.mark.parametrize(
    ("mark", "heading", "says", "source"),
    [
        ("SW1", "edge nailing spacing", '4" o.c.', "a value that was read"),
        ("SW2", "edge nailing spacing", 'CONFLICT: 4" o.c. | 6" o.c.', "two places disagree: both"),
        ("SW3", "edge nailing spacing", "CAN'T READ", "printed and not understood"),
        ("SW3", "nail length", "NOT FOUND ON THE PLANS - ask ({q})", "missing, with its question"),
        ("SW4", "field nailing spacing", "NOT FOUND ON THE PLANS - ask ({q})", "missing, with its question"),
        ("SW4", "hold-down", "SEE: “PER PLAN”", "the plans send the reader elsewhere"),
        ("SW5", "hold-down", "NONE (per plans)", "the plans say none"),
        ("SW1", "staple gauge", "does not apply", "a nailed wall"),
        ("SW1", "connection at the top of the wall", "NOT FOUND ON THE PLANS", "missing, nobody asked"),
    ],
)
def test_no_two_states_look_alike(mark: str, heading: str, says: str, source: str) -> None:
    line = next(line for line in lines(workbook(spoiled()), "Types") if line["mark"] == mark)
    asked = {(found.wall_type, label_of(found.field or "")): number for number, found in numbered(spoiled())}
    assert line[heading] == says.replace("{q}", asked.get((mark, heading)) or "no question"), source


def test_no_field_of_a_type_or_hold_down_is_left_blank() -> None:
    data = workbook(spoiled())
    for line in lines(data, "Types") + lines(data, "Hold-downs"):
        blank = [heading for heading, cell in line.items() if cell in (None, "") and heading != "questions"]
        assert not blank


def test_both_sides_of_a_conflict_have_a_line() -> None:
    got = field(workbook(spoiled()), "SW2", "edge nailing spacing")
    assert got == [("4.0", '4" o.c.', 4, "in", "CONFLICT"), ("6.0", '6" o.c.', 6, "in", "CONFLICT")]


def test_a_card_on_hold_is_on_hold_here() -> None:
    cards = {line["mark"]: line["card"] for line in lines(workbook(spoiled()), "Types")}
    assert cards == {"SW1": "to compare", "SW2": "HOLD", "SW3": "HOLD", "SW4": "HOLD", "SW5": "to compare", "P1-4": "to compare"}


def test_findings_come_first_and_worst_first() -> None:
    book = opened(workbook(spoiled()))
    assert book.sheetnames == ["Findings", "Values", "Types", "Marks", "Hold-downs", "Coverage"]
    levels = [line["level"] for line in lines(workbook(spoiled()), "Findings") if line["level"]]
    assert levels == sorted(levels, key=["STOP", "ASK", "NOTE"].index)
    assert levels[0] == "STOP"


def test_a_mark_without_a_row_says_so() -> None:
    drawn = tuple(PlanMark(mark=mark, kind="wall", page=4, sheet="S2.1", boxes=((1, 2, 3, 4),)) for mark in ("SW4", "SW9"))
    got = {line["mark"]: line["row found"] for line in lines(workbook(job(wall("SW4"), drawn=drawn)), "Marks")}
    assert got == {"SW4": "yes", "SW9": "NO ROW"}


def test_what_was_not_read_is_listed(request: pytest.FixtureRequest) -> None:
    said = [f"{line['what']}: {line['words']}" for line in lines(workbook(request.getfixturevalue("job")), "Coverage")]
    for wanted in ("FOOTING SCHEDULE", "SIM.", "sheet without text", "sheet not looked at", "engineer of record govern",
                   "kestrel-court.pdf", "c0ffee12" * 8):  # fmt: skip
        assert any(wanted in line for line in said), wanted


def test_every_sheet_prints_with_file_page_and_who_governs() -> None:
    for sheet in opened(workbook(job(wall()))):
        head, foot = sheet.oddHeader, sheet.oddFooter
        assert "kestrel-lot-7.pdf" in head.left.text
        assert "c0ffee12" in head.left.text
        assert "revision 2, 12 May 2026" in head.left.text
        assert head.right.text == "Page &P of &N"
        assert "engineer of record govern" in foot.left.text
        assert sheet.freeze_panes is not None
        assert sheet.auto_filter.ref


def test_values_have_pictures_where_the_plans_are_at_hand() -> None:
    found = job_of(DEMO)
    values = sum(len(own) for _, own in traced(found))
    assert len(opened(workbook(found, [DEMO]))["Values"]._images) == values
    assert len(opened(workbook(found))["Values"]._images) == 0
    assert any(line["what"] == "no pictures" for line in lines(workbook(found), "Coverage"))


def test_the_same_job_gives_the_same_bytes() -> None:
    assert workbook(spoiled()) == workbook(spoiled())


def test_a_text_longer_than_a_cell_is_cut_with_a_word() -> None:
    long = workbook(job(wall(fastener=nail(style=printed_as("common", "COMMON " * 6000)))))
    ((printed, *_),) = field(long, "SW4", "kind of nail (common, box, sinker)")
    assert printed.endswith("[longer: see the job record]")


def test_a_question_stands_beside_its_value() -> None:
    asked = job(wall(edge=EdgeNailing(spacing_in=printed_as(4.0))), findings=(finding("edge.spacing_in", "SW4", "ask"),))
    line = next(line for line in lines(workbook(asked), "Values") if line["field"] == "edge nailing spacing")
    assert line["question"] == "Q-01"
