"""Characters to words: the ways in which drawing programs write text, each a row."""

import random

import pytest

from extractor.paper.page import Char, Label
from extractor.paper.words import from_labels, words
from tests.reading.drawn import chars

WAYS: list[tuple[str, list[Char], list[str], str]] = [
    ("two words", chars("8d COMMON"), ["8d", "COMMON"], "any drawing"),
    ("cells side by side", chars("4", 100) + chars("12", 140), ["4", "12"], "columns of bare numbers"),
    ("two lines", chars("SW1", y=100) + chars("SW2", y=112), ["SW1", "SW2"], "rows"),
    ("doubled for bold", chars("22 PLF") + chars("22 PLF", 100.4), ["22", "PLF"], "fixtures: doubled-bold"),
    ("two of one digit", chars("22"), ["22"], "a pair of digits is no doubled one"),
    (
        "small capitals",
        chars("S", size=20) + chars("HEAR", 100 + 20 * 0.55, size=14),
        ["SHEAR"],
        "common practice, no source: titles",
    ),
    ("letter-spaced", chars("SHEAR", step=0.8) + chars("WALL", 145, step=0.8), ["SHEAR", "WALL"], "fixtures: letter-spaced"),
    ("condensed", chars("PLYWD", step=0.45), ["PLYWD"], "narrow type whose boxes overlap"),
    ("turned left", chars("EDGE", turn=90), ["EDGE"], "fixtures: headings-turned"),
    ("turned right", chars("FIELD", turn=270), ["FIELD"], "fixtures: headings-turned"),
    ("upside down", chars("NOTE", turn=180), ["NOTE"], "a sheet scanned the wrong way up"),
    ("ligature", [c._replace(box=(100, 92, 108, 102)) for c in chars("fi")] + chars("ELD", 108), ["fiELD"],
     "fixtures: unicode-marks"),
    ("stacked fraction", chars("1", 100, 96, 5) + chars("2", 100, 102, 5) + chars('"', 103, 100), ['1/2"'],
     "fixtures: stacked-fractions"),
    ("whole and stacked", chars("3", 94.5, 100) + chars("1", 100, 96, 5) + chars("2", 100, 102, 5) + chars('"', 103, 100),
     ['3-1/2"'], "fixtures: stacked-fractions"),
    ("slanted fraction", chars("7", 100, 97, 5) + chars("/", 102, 100) + chars("16", 106, 101, 5), ["7/16"],
     "fixtures: stacked-fractions"),
    ("numbers in a column", chars("1", 100, 96, 5) + chars("2", 100, 102, 5), ["1", "2"], "two rows of small numbers"),
    ("not on a tape", chars("5", 100, 96, 5) + chars("7", 100, 102, 5) + chars('"', 103, 100), ["5", "7", '"'],
     "no tape has sevenths"),
]  # fmt: skip


@pytest.mark.parametrize(("way", "drawn", "printed", "source"), WAYS, ids=[row[0] for row in WAYS])
def test_the_words_are_those_a_reader_sees(way: str, drawn: list[Char], printed: list[str], source: str) -> None:
    assert sorted(word.text for word in words(drawn)) == sorted(printed), source


@pytest.mark.parametrize(("way", "drawn", "printed", "source"), WAYS[:9], ids=[row[0] for row in WAYS[:9]])
def test_the_order_in_the_file_says_nothing(way: str, drawn: list[Char], printed: list[str], source: str) -> None:
    shuffled = list(drawn)
    random.Random(7).shuffle(shuffled)
    assert sorted(word.text for word in words(shuffled)) == sorted(printed), "fixtures: one-character-at-a-time-shuffled"


FOOTNOTES = [
    (
        "raised after a value",
        chars("7/16") + chars("2", 120.5, 96, 6),
        {"2": True, "7/16": False},
        "7/16 with note 2 is not 7/162",
    ),
    ("two notes", chars("SW4") + chars("1,3", 115.5, 96, 6), {"1,3": True, "SW4": False}, "fixtures: footnotes-superscript"),
    ("smaller and level", chars("8d") + chars("2", 112, 100, 6), {"2": False, "8d": False}, "small type on the line is no note"),
    ("far off", chars("8d") + chars("2", 130, 96, 6), {"2": False, "8d": False}, "nothing hangs across a gap"),
    ("as large", chars("8d") + chars("2", 110.5, 96, 9), {"2": False, "8d": False}, "a footnote is small"),
]


@pytest.mark.parametrize(("way", "drawn", "raised", "source"), FOOTNOTES, ids=[row[0] for row in FOOTNOTES])
def test_a_footnote_hangs_on_its_word_and_is_no_digit_of_it(
    way: str, drawn: list[Char], raised: dict[str, bool], source: str
) -> None:
    assert {word.text: word.raised for word in words(drawn)} == raised, source


def test_strings_drawn_over_each_other_stay_two() -> None:
    """A cell's text runs over its edge into the next: 132. and PANEL, not 13P2A.NEL."""
    over = chars("NOTE 132.", 100) + chars("PANEL", 133.5)
    assert {"132.", "PANEL"} <= {word.text for word in words(over)}


def test_a_letter_that_the_file_does_not_name_marks_its_word() -> None:
    drawn = chars("8d")
    found = words([drawn[0]._replace(unmapped=True), drawn[1], *chars("COMMON", 130)])
    assert {word.text: word.unmapped for word in found} == {"8d": True, "COMMON": False}


LABELS = [
    (Label("SHEAR WALL", (100, 90, 150, 100)), [("SHEAR", 0), ("WALL", 0)], "words of stroke type"),
    (Label('6" O.C.\n12" O.C.', (100, 90, 140, 110)), [('6"', 0), ("O.C.", 0), ('12"', 0), ("O.C.", 0)], "two lines"),
    (Label("EDGE NAILING", (100, 40, 110, 100)), [("EDGE", 90), ("NAILING", 90)], "a tall box holds turned words"),
]


@pytest.mark.parametrize(("label", "printed", "source"), LABELS)
def test_annotations_give_words_in_their_place(label: Label, printed: list[tuple[str, int]], source: str) -> None:
    found = from_labels([label])
    assert [(word.text, word.turn) for word in found] == printed, source
    x0, y0, x1, y1 = label.box
    for word in found:
        assert x0 - 0.01 <= word.box[0] < word.box[2] <= x1 + 0.01
        assert y0 - 0.01 <= word.box[1] < word.box[3] <= y1 + 0.01
