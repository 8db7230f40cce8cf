"""The phone page says what the cards say: every value, every state, every question, and marks that have no row."""

import re
from html import unescape
from typing import Any

import pytest

from cards.face import faces
from cards.phone import phone
from extractor.errors import UsageError
from extractor.record import BottomPlate, EdgeNailing, PlanMark, State
from tests.cards.making import conflict, finding, job, read, silent, spoiled, wall


def articles(data: bytes) -> dict[str, str]:
    """Plain words of each card by its mark."""
    done = {}
    for article in re.findall(r"<article.*?</article>", data.decode(), re.S):
        words = " ".join(unescape(re.sub(r"<[^>]+>", " ", article)).split())
        mark = re.search(r"<h1[^>]*><span>(.*?)</span>", article)
        assert mark
        done[unescape(mark[1])] = words
    return done


def spaced(text: str) -> str:
    return " ".join(text.replace(" ,", ",").replace(" ;", ";").split())


@pytest.mark.parametrize("language", ["en", "es", "en+es"])
def test_every_value_of_every_card_is_there(language: Any) -> None:
    whole = spoiled()
    got = articles(phone(whole, language))
    for face in faces(whole, language):
        for line in face.lines:
            for value in line.values:
                for words in (value.text, value.tail, *value.warning):
                    assert spaced(words) in spaced(got[face.mark]), f"{face.mark} {line.key}"


@pytest.mark.parametrize(
    ("mark", "parts", "says", "source"),
    [
        ("A", {}, '4" o.c. 7 nails in 2 ft', "read; 4 in is 7 nails in 2 ft, both ends counted"),
        ("B", {"edge": EdgeNailing(spacing_in=conflict(4.0, 6.0))}, "CONFLICT - ASK", "two places disagree"),
        ("C", {"edge": EdgeNailing(spacing_in=silent(State.UNREADABLE, "4?"))}, "CAN'T READ - SEE S3.1 row 1", "not understood"),
        ("D", {"edge": EdgeNailing()}, "NOT ON PLANS - ASK", "missing"),
        ("E", {"bottom_plate": BottomPlate(penny=silent(State.NONE, "-"))}, "NONE (per plans)", "the plans say none"),
        ("F", {"edge": EdgeNailing(spacing_in=silent(State.DEFERRED, "SEE 5/S4"))}, "SEE: “SEE 5/S4”", "sent elsewhere"),
    ],
)
def test_each_state_in_words(mark: str, parts: dict[str, Any], says: str, source: str) -> None:
    assert says in articles(phone(job(wall(mark, **parts))))[mark], source


@pytest.mark.parametrize("mark", ["B", "C", "D"])
def test_nothing_is_counted_from_a_spacing_in_doubt(mark: str) -> None:
    doubt = {"B": conflict(4.0, 6.0), "C": silent(State.UNREADABLE, "4?"), "D": None}[mark]
    words = articles(phone(job(wall(mark, edge=EdgeNailing(spacing_in=doubt)))))[mark]
    assert "nails in" not in words


def test_a_card_on_hold_says_so_loud_and_on_its_button() -> None:
    whole = spoiled()
    data = phone(whole)
    for face in faces(whole):
        words = articles(data)[face.mark]
        assert ("HOLD - DO NOT NAIL FROM THIS CARD" in words) is face.hold
        button = re.search(rf'<li data-mark="{face.mark}">(.*?)</li>', data.decode())
        assert button
        assert ("HOLD" in button[1]) is face.hold


def test_a_mark_that_is_drawn_and_has_no_row_is_found_and_says_ask() -> None:
    drawn = (PlanMark(mark="SW9", kind="wall", page=5, sheet="S2.2", boxes=((1, 2, 3, 4),)),)
    whole = job(wall("SW4"), drawn=drawn, findings=(finding(None, "SW9", code="undefined-mark"),))
    words = articles(phone(whole))["SW9"]
    assert "NOT IN THE SCHEDULE - ASK (Q-01)" in words
    assert "Drawn on S2.2." in words
    assert "o.c." not in words


@pytest.mark.parametrize("language", ["en", "es", "en+es"])
def test_each_card_says_file_revision_and_who_governs(language: str) -> None:
    for words in articles(phone(spoiled(), language)).values():
        assert "c0ffee12" in words
        assert "REV 2" in words
        assert "2026" in words
        assert "Approved plans and the engineer govern" in words or "Mandan los planos aprobados" in words


def test_capacity_is_kept_from_the_crew() -> None:
    whole = job(wall(), findings=(finding("capacity", level="ask", message="380 plf: nominal or allowable? Ask."),))
    assert "plf" not in articles(phone(whole))["SW4"]


def test_typing_is_offered_where_buttons_are_many() -> None:
    assert b'id="find"' not in phone(job(wall("SW1")))
    assert b'id="find"' in phone(job(*(wall(f"SW{n}") for n in range(1, 20))))


def test_a_language_that_is_not_there_is_refused() -> None:
    with pytest.raises(UsageError, match="no language fr"):
        phone(job(wall()), "fr")


def test_the_same_job_gives_the_same_page() -> None:
    assert phone(spoiled()) == phone(spoiled())


def test_other_words_of_the_row_are_not_lost() -> None:
    assert "SEE 7/S4.1" in articles(phone(job(wall(other=(read("SEE 7/S4.1"),)))))["SW4"]
