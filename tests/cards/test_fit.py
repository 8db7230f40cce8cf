import pytest
from hypothesis import given
from hypothesis import strategies as st

from cards.fit import Run, fitted, paragraph, width_pt

WORDS = st.text(st.characters(codec="latin-1", categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=80).filter(str.strip)


@given(WORDS, st.floats(20, 300))
def test_no_letter_is_lost_and_no_line_is_wider_than_its_place(words, width):
    text = fitted([Run(words, 14, 10)], width)
    told = "".join(run.text for line in text.lines for run in line)
    assert [c for c in told if c != " "] == [c for c in words if c != " "]
    widest = max(sum(run.width for run in line) for line in text.lines)
    assert widest <= width + 0.01 or all(len(run.text) == 1 for line in text.lines for run in line)


@given(WORDS)
def test_type_shrinks_before_it_breaks_and_never_below_its_floor(words):
    sizes = {run.size for line in fitted([Run(words, 14, 10)], 120).lines for run in line}
    assert all(10 <= size <= 14 for size in sizes)


def test_a_box_stays_in_one_piece():
    (line,) = fitted([Run("NOT ON PLANS - ASK (Q-07)", 11, 10, True, "missing")], 90).lines
    assert [run.lines for run in line] == [("NOT ON PLANS", "- ASK (Q-07)")]


@pytest.mark.parametrize(("text", "source"), [("1lI|", "look-alikes"), ("0O", "look-alikes")])
def test_look_alikes_have_widths_of_their_own_text(text, source):
    assert width_pt(text, 10) == pytest.approx(sum(width_pt(c, 10) for c in text))


def test_a_no_break_space_keeps_its_words_together():
    assert paragraph("7 nails in\u00a02\u00a0ft", width_pt("7 nails in", 8), 8) == ("7 nails", "in\u00a02\u00a0ft")
