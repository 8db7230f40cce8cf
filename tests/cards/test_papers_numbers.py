"""Question numbers: the number on a card in somebody's pocket keeps its meaning."""

from pathlib import Path

import pytest

from cards import numbers
from cards.face import face
from cards.findings import numbered
from cards.packet import packet
from extractor.errors import UsageError
from extractor.record import Finding
from tests.cards.making import finding, job, wall


def numbers_of(*findings: Finding) -> dict[str, str]:
    return {f"{one.wall_type} {one.field}": number for number, one in numbered(job(findings=findings)) if number}


EDGE, POST, GRADE = (finding("edge.spacing_in", "SW1"), finding("anchors.spacing_in", "SW2", "ask"),
                     finding("sheathing.grade", "SW3", "ask"))  # fmt: skip


def test_the_first_numbers_follow_the_steps_of_the_job_whatever_order_findings_come_in() -> None:
    for order in ((EDGE, POST, GRADE), (GRADE, EDGE, POST)):
        assert numbers_of(*order) == {
            "SW2 anchors.spacing_in": "Q-01",
            "SW3 sheathing.grade": "Q-02",
            "SW1 edge.spacing_in": "Q-03",
        }


def test_a_note_has_no_number_and_takes_none() -> None:
    assert numbers_of(finding("capacity", "SW9", "note"), EDGE) == {"SW1 edge.spacing_in": "Q-01"}


def test_a_number_stays_when_another_question_is_answered_and_is_never_given_again(tmp_path: Path) -> None:
    packet(job(wall("SW1"), findings=(EDGE, POST, GRADE)), tmp_path)
    packet(job(wall("SW1"), findings=(EDGE, GRADE)), tmp_path)
    new = finding("anchors.diameter_in", "SW4", message="The bolt is missing.")
    with numbers.using(numbers.load(tmp_path / numbers.NAME)):
        assert numbers_of(EDGE, new) == {"SW1 edge.spacing_in": "Q-03", "SW4 anchors.diameter_in": "Q-04"}
        assert [entry.name for entry in numbers.closed((EDGE, new))] == ["Q-01", "Q-02"]


def test_cards_print_the_number_that_was_kept(tmp_path: Path) -> None:
    one = wall("SW1")
    packet(job(one, findings=(EDGE, POST)), tmp_path)
    with numbers.using(numbers.load(tmp_path / numbers.NAME)):
        assert [question.number for question in face(one, job(one, findings=(EDGE,))).questions] == ["Q-02"]


@pytest.mark.parametrize(
    ("before", "after", "same", "source"),
    [
        ("SW1: “4” against “6”.", "SW1: “4” against “3”.", True, "the words on the sheet changed, the question is the same"),
        ("SW7 is drawn once (sheet S2.1).", "SW7 is drawn 3 times (sheet S2.1 and S2.2).", True, "a count is no other question"),
    ],
)
def test_a_question_is_known_again(before: str, after: str, same: bool, source: str) -> None:
    first = finding("edge.spacing_in", "SW1", message=before)
    with numbers.using(tuple(entry for entry in numbers.given((POST, first)) if entry)):
        assert (numbers_of(finding("edge.spacing_in", "SW1", message=after)) == {"SW1 edge.spacing_in": "Q-02"}) is same, source


def test_two_hold_downs_whose_mark_is_also_a_walls_are_two_questions() -> None:
    """A hold-down 3 beside a wall type 3 has no mark in its finding: only the words tell it from hold-down 4."""
    three, four = (finding("post", None, message=f"Hold-down {n}: the post is missing.") for n in (3, 4))
    with numbers.using(tuple(entry for entry in numbers.given((three,)) if entry)):
        assert numbers_of(four) == {"None post": "Q-02"}


def test_marks_with_quotes_and_line_ends_survive_the_file(tmp_path: Path) -> None:
    odd = finding("edge.spacing_in", 'S"W\\1\n[x] = "y"\x7f')
    path = tmp_path / numbers.NAME
    path.write_text(numbers.as_toml((POST, odd)), encoding="utf-8")
    with numbers.using(numbers.load(path)):
        assert list(numbers_of(odd).values()) == ["Q-02"]


HEAD = 'format = "nailcard.questions/1"\n'
ONE = "[[question]]\nnumber = 1\n"


@pytest.mark.parametrize("text", ['format = "other/1"', "[[question]", HEAD + '[[question]]\nnumber = "1"', HEAD + ONE + ONE])
def test_a_damaged_file_stops_the_run_before_numbers_move(text: str, tmp_path: Path) -> None:
    (tmp_path / numbers.NAME).write_text(text)
    with pytest.raises(UsageError, match="question numbers is damaged"):
        packet(job(wall("SW1"), findings=(EDGE,)), tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [numbers.NAME]
