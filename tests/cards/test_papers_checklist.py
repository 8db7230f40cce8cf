"""The list before cover: that type's own values on every line, and no word that sounds like an approval."""

import pytest

from cards.checklist import checklist_pdf, type_lists
from cards.papers import spoken
from extractor.record import EdgeNailing, FieldNailing, Framing, Job, PlanMark, State, WallType
from tests.cards.making import conflict, finding, full_wall, job, nail, pages, read, silent, spoiled, text, wall
from tests.cards.seeing import faults

EN = spoken("en")


def line(number: int, one: WallType, *findings: object) -> str:
    [made] = type_lists(job(one, findings=findings), EN)  # type: ignore[arg-type]
    return " ".join(bit.text for bit in made.items[number - 1].bits)


@pytest.mark.parametrize(
    ("number", "values", "source"),
    [
        (1, "SW4 S3.1 REV 2, 12 May 2026", "the mark on the wall is the mark on the plans"),
        (2, '15/32" OSB, rated sheathing', "the stamp"),
        (3, "ONE side", "which side"),
        (4, '2-1/2" × 0.131" 8d common', "the label of the nail box"),
        (5, '4" o.c. 7 nails in 2 ft', "4 in is 7 nails in 2 ft, both ends counted"),
        (6, '12" o.c. 3 nails in 2 ft', "12 in is 3 nails in 2 ft, both ends counted"),
        (8, "all panel edges (note, S-001)", "where a value comes from stays with it"),
        (13, "3x", "the stud where panels meet"),
        (14, 'HD2, KT-22, post (2) 2x6 · fasteners (16) 1/4 x 3 SCREWS, anchor 5/8", embed 12"', "every part of a hold-down"),
        (15, 'sill: 2x plate, 5/8" anchor bolts @ 32" o.c., 3" × 3" × 0.229" washer top: not in the row: see the plans',
         "what the row leaves out is said"),
    ],
)  # fmt: skip
def test_each_line_has_the_types_own_values(number: int, values: str, source: str) -> None:
    assert line(number, wall("SW4")) == values, source


@pytest.mark.parametrize(
    ("number", "one", "values", "source"),
    [
        (
            5,
            wall("SW4", edge=EdgeNailing(spacing_in=silent(State.UNREADABLE, "4?"))),
            "CAN'T READ - SEE S3.1 row 1",
            "no count of a guess",
        ),
        (
            5,
            wall("SW4", edge=EdgeNailing(spacing_in=conflict(4.0, 6.0))),
            '4" (S3.1) | 6" (note, S-001) CONFLICT - ASK',
            "both values",
        ),
        (6, wall("SW4", field=FieldNailing()), "NOT ON PLANS - ASK", "no blank"),
        (8, wall("SW4", framing=Framing(blocked=read(False), panel_edge=read("2x"))), "NOT BLOCKED (per plans)", "none is said"),
        (
            4,
            wall("SW4", fastener=nail(diameter_in=None, length_in=None)),
            "8d common SIZE NOT ON PLANS - ASK",
            "the box shows the size",
        ),
    ],
)
def test_a_value_in_doubt_is_not_a_value(number: int, one: WallType, values: str, source: str) -> None:
    assert line(number, one) == values, source


@pytest.mark.parametrize(
    ("spacing", "said", "source"),
    [
        (read(6.0), (), "edge spacing over 4 in: IBC-2015 1705, from memory"),
        (read(4.0), ("May need special inspection: see the special inspection sheet / ask the building department.",),
         "4 in or closer: IBC-2015 1705, from memory"),
        (conflict(6.0, 3.0), ("May need special inspection: see the special inspection sheet / ask the building department.",),
         "one of two values is 4 in or closer"),
        (None, ("Edge spacing is not known: ask the building department whether a special inspection applies.",), "no silence"),
    ],
)  # fmt: skip
def test_special_inspection_is_named_and_never_required(spacing: object, said: tuple[str, ...], source: str) -> None:
    [made] = type_lists(job(wall("SW4", edge=EdgeNailing(spacing_in=spacing))), EN)  # type: ignore[arg-type]
    assert made.special == said, source


def test_a_type_on_hold_says_so_with_its_question() -> None:
    [made] = type_lists(job(wall("SW4", field=FieldNailing()), findings=(finding("field.spacing_in"),)), EN)
    assert made.hold == ("HOLD: Q-01 open. Do not nail or cover this type.",)


def test_a_hold_without_a_question_names_the_field() -> None:
    [made] = type_lists(job(wall("SW4", field=FieldNailing())), EN)
    assert made.hold == ("HOLD: FIELD SPACING open. Do not nail or cover this type.",)


def test_an_open_ask_is_to_be_answered_before_cover() -> None:
    [made] = type_lists(job(wall("SW4"), findings=(finding("top_plate.connector", level="ask"),)), EN)
    assert (made.hold, made.open) == ((), ("Open: Q-01. Get the answer before cover.",))


def test_there_is_a_box_for_each_mark_on_each_sheet() -> None:
    marks = (PlanMark(mark="SW-4", kind="wall", page=2, sheet="S2.1", boxes=((0, 0, 1, 1),) * 3),
             PlanMark(mark="SW4", kind="wall", page=3, sheet="S2.2", boxes=((0, 0, 1, 1),) * 99))  # fmt: skip
    [made] = type_lists(job(wall("SW4"), drawn=marks), EN)
    assert made.walls == (("S2.1", 3, 3), ("S2.2", 30, 99))


def words_of(sets: Job, language: str = "en") -> list[str]:
    made = checklist_pdf(sets, language=language)
    assert made
    assert [faults(page) for page in pages(made)] == [[]] * len(list(pages(made)))
    return [text(page) for page in pages(made)]


@pytest.mark.parametrize("language", ["en", "es", "en+es"])
def test_a_page_a_type_and_one_for_the_inspection(language: str) -> None:
    assert len(words_of(job(wall("SW4"), full_wall("SW1")), language)) == 3


def test_every_page_says_that_a_list_is_no_inspection() -> None:
    for page in words_of(spoiled()):
        assert "Passing this list is not passing inspection. Do not cover before sign-off." in page
        assert "The approved plans and the engineer of record govern." in page
        assert "file c0ffee12" in page
        assert not {"passes", "passed", "OK", "approved by"} & set(page.split())


def test_no_wall_type_no_list() -> None:
    assert checklist_pdf(job()) is None


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", ('over 1/8"', 'over 1/16"', "ask the engineer before covering")), ("es", ('más de 1/8"', "pregunte al ingeniero"))],
)
def test_the_last_page_says_when_deep_nails_go_to_the_engineer_and_offers_no_repair(
    language: str, words: tuple[str, ...]
) -> None:
    *_, last = pages(checklist_pdf(job(wall()), language=language))
    said = " ".join(text(last).split())
    assert all(word in said for word in words), "figures of the technical note on overdriven fasteners"
    assert not any(word in said for word in ("add a nail", "staple", "agregue"))
    assert faults(last) == []
