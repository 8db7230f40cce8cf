"""Questions to the engineer: one issue each, quoted words with their place, and nothing that leads him."""

import re
from functools import cache

import pytest

from cards import numbers
from cards.questions import questions, questions_pdf, questions_text
from extractor.record import EdgeNailing, FieldNailing, Finding, Level, PlanMark, Source
from tests.cards.making import HOLD_DOWN, PLACE, conflict, finding, job, pages, spoiled, text, wall

SILENT = finding(
    "field.spacing_in", "SW4",
    message="SW4: the field nailing spacing is missing: neither the row nor a note gives it. Ask the engineer before nailing.",
)  # fmt: skip
DIFFER = finding(
    "edge.spacing_in", "SW2", code="conflicting-value",
    message="SW2: the plans conflict about the edge nailing spacing: “4.0” (schedule, sheet S3.1) against “6.0” (note, sheet "
            "S-001). Ask the engineer which one is right.",
)  # fmt: skip
UNDEFINED = Finding(
    code="undefined-mark", level=Level.STOP, wall_type="SW7", source=Source(page=6, sheet="S2.1", box=(5, 5, 9, 9)),
    message="SW7 is drawn 2 times (sheet S2.1) and is not in the schedule: no row says what it is. Ask the engineer.",
)  # fmt: skip
DRAWN = PlanMark(mark="SW7", kind="wall", page=6, sheet="S2.1", boxes=((5, 5, 9, 9), (20, 5, 24, 9)))


@cache
def whole() -> list[str]:
    made = questions_pdf(job(wall("SW4", field=FieldNailing()), wall("SW2", edge=EdgeNailing(spacing_in=conflict(4.0, 6.0))),
                             findings=(SILENT, DIFFER, UNDEFINED), drawn=(DRAWN,)))  # fmt: skip
    assert made
    return [text(page) for page in pages(made)]


def test_each_question_says_what_stands_on_the_plans_and_where() -> None:
    said = " ".join(whole())
    assert "“4.0” - schedule, sheet S3.1, page 4" in said
    assert "“6.0” - note, sheet S-001, page 1" in said
    assert "“SW7” drawn on S2.1: 2" in said
    assert "Row SW4, sheet S3.1, page 4: “" in said


@pytest.mark.parametrize(
    ("number", "before", "asks", "source"),
    [
        ("Q-01", "BEFORE THE POUR", "Which row of the schedule is meant", "common practice: anchors first"),
        ("Q-02", "BEFORE NAILING", "What applies to type SW4?", "common practice: one issue each"),
        ("Q-03", "BEFORE NAILING", "Which holds for type SW2: A or B?", "common practice: choices where the plans give them"),
    ],
)
def test_question_is_sorted_by_when_it_is_needed(number: str, before: str, asks: str, source: str) -> None:
    said = " ".join(whole())
    start = said.index(f" {number} ")
    block = said[start : said.index("Reissue sheet?", start)]
    for words in (before, asks, "ANSWER", "Answered by", "Changes plans? Y"):
        assert " ".join(words.split()) in block, source


def test_both_values_of_a_conflict_are_choices_and_neither_is_first_by_merit() -> None:
    [one] = questions(job(wall("SW2", edge=EdgeNailing(spacing_in=conflict(4.0, 6.0))), findings=(DIFFER,)))
    assert one.choices == (("A", '4" o.c. (schedule, sheet S3.1, page 4)'), ("B", '6" o.c. (note, sheet S-001, page 1)'))


def test_the_letter_does_not_tell_the_engineer_to_ask_the_engineer() -> None:
    said = " ".join(whole())
    assert "Ask the engineer" not in said.replace("Questions to the engineer", "")
    assert "neither the row nor a note gives it." in said


@pytest.mark.parametrize("phrase", ["we assume", "typ.", "please confirm all", "as usual", "should be"])
def test_nothing_leads_to_an_answer(phrase: str) -> None:
    made = questions_text(spoiled())
    assert made
    assert phrase not in made.lower()


def test_cards_that_wait_are_named() -> None:
    [one] = questions(job(wall("SW1"), wall("SW4", field=FieldNailing()), findings=(SILENT,)))
    assert one.cards == "SW4 (card 2 of 2)"


def test_a_hold_downs_question_shows_the_hold_downs_own_row() -> None:
    missing = finding("post", "HD2", "ask", "hold-down-value-missing", "Hold-down HD2: the post is missing.")
    [one] = questions(job(wall("SW4"), findings=(missing,)))
    assert one.subject == "hold-down HD2: post"
    assert "“(16) 1/4 x 3 SCREWS”" in " ".join(one.says)
    assert HOLD_DOWN.mark.value == "HD2"


def test_pictures_are_asked_for_the_row_and_printed() -> None:
    asked: list[Source] = []

    def cut(places: object) -> dict[Source, bytes]:
        asked.extend(places)  # type: ignore[call-overload]
        return {}

    sets = job(wall("SW4", field=FieldNailing()), findings=(SILENT,))
    assert questions_pdf(sets, pictures=cut) == questions_pdf(sets)
    [place] = asked
    (x0, top, x1, bottom), (a, b, c, d) = place.box, PLACE.box
    assert place.page == PLACE.page
    assert x0 <= a - 12 < c + 12 <= x1, "names of values stand beside a narrow row"
    assert (b - top, bottom - d) == (4, 4)


def test_a_question_about_several_rows_quotes_rows_and_names_all() -> None:
    marks = ("SW1", "SW2", "SW3", "SW4", "SW5")
    says = "SW1, SW2, SW3 and SW4: the field nailing spacing is missing: neither the rows nor a note give it."
    many = Finding(code="missing-value", level=Level.STOP, field="field.spacing_in", message=says)
    [one] = questions(job(*(wall(mark, field=FieldNailing()) for mark in marks), findings=(many,)))
    assert one.subject == "types SW1, SW2, SW3 and SW4: field nailing spacing"
    assert one.asks == "What applies to types SW1, SW2, SW3 and SW4?"
    assert [line.split(",")[0] for line in one.says] == ["Row SW1", "Row SW2", "Row SW3", "Other rows: SW4."]
    assert len(one.pictures) == 1


def test_no_open_question_no_paper() -> None:
    nothing = job(wall("SW1"), findings=(finding("capacity", "SW1", "note"),))
    assert questions_pdf(nothing) is None
    assert questions_text(nothing) is None


def test_an_earlier_question_that_is_gone_is_not_gone_in_silence() -> None:
    with numbers.using(tuple(entry for entry in numbers.given((SILENT, DIFFER)) if entry)):
        made = questions_text(job(wall("SW4"), findings=(SILENT,)))
    assert made
    assert "Asked earlier and not found in this reading: Q-02 (SW2). Look that each was answered." in made


HOSTILE = "SW4](http://x) <script>alert(1)</script> | # *b* `c`"


def test_words_of_a_plan_file_mean_nothing_in_the_text_or_on_paper() -> None:
    sets = job(wall(HOSTILE), findings=(finding("field.spacing_in", HOSTILE),), file="<b>|x</b>.pdf")
    made, paper = questions_text(sets), questions_pdf(sets)
    assert made
    assert paper
    assert not re.search(r"(?<!\\)[<>|`]", made.replace("- [ ] ", ""))
    assert not re.search(r"(?<!\\)\]\(", made)
    assert "<script>alert(1)</script>" in " ".join(text(page) for page in pages(paper))


def test_each_page_says_whose_it_is_and_that_the_plans_govern() -> None:
    said = whole()
    for n, page in enumerate(said, 1):
        for words in ("Job kestrel-lot-7", "file c0ffee12", "S3.1 REV 2, 12 May 2026", f"page {n} of {len(said)}",
                      "The approved plans and the engineer of record govern.", "It is not design"):  # fmt: skip
            assert words in page


def test_same_job_same_bytes() -> None:
    assert questions_pdf(spoiled()) == questions_pdf(spoiled())
