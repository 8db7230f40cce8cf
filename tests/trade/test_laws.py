"""Laws of the grammar: fractions survive the way there and back, and no text makes it stumble."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from extractor.record import State
from extractor.trade.cells import kinds, read
from extractor.trade.inches import as_fraction, feet_and_inches, inches
from extractor.trade.notes import note
from extractor.trade.text import plain

TAPE = [(whole, top, bottom) for whole in range(25) for bottom in (2, 4, 8, 16, 32, 64) for top in range(1, bottom)]
SPELLINGS = ("{whole}-{top}/{bottom}", "{whole} {top}/{bottom}")


def test_a_tape_has_three_thousand_fractions() -> None:
    assert len(TAPE) == 3000


@pytest.mark.parametrize("spelling", SPELLINGS)
def test_tape_fractions_go_to_text_and_back(spelling: str) -> None:
    for whole, top, bottom in TAPE:
        value = float(whole + Fraction(top, bottom))
        printed = spelling.format(whole=whole, top=top, bottom=bottom) if whole else f"{top}/{bottom}"
        assert inches(printed) == value
        assert inches(as_fraction(value)) == value
        assert inches(as_fraction(value).replace("-", " ")) == value


def test_a_spacing_reads_back_as_printed() -> None:
    for eighths in range(8, 24 * 8 + 1):
        printed = as_fraction(eighths / 8)
        for text in (f'{printed}" O.C.', f'8d @ {printed}"', f'E.N. {printed.replace("-", " ")}"'):
            got = {f.field: f.value for f in read(text, "edge")}
            assert got["edge.spacing_in"] == eighths / 8, text


def test_feet_and_inches_there_and_back() -> None:
    for feet in range(1, 12):
        for rest in range(12):
            assert [value for value, _ in feet_and_inches(f"{feet}'-{rest}\"")] == [feet * 12 + rest]
            spacings = [f.value for f in read(f"@ {feet}'-{rest}\" O.C.", "anchors") if f.field == "anchors.spacing_in"]
            assert spacings == [feet * 12 + rest]


WORDS = st.sampled_from(
    """8d 10d 16d 7d @ AT & , ; / : - " ' ( ) 6 4 3 2 12 6" 4" 12" 4'-0" 1/2 15/32 7/16" 5/8" 18/32 2-1/2" 1 0.131 .148" x X 3x 2x
    (2)2x O.C. oc EDGES FIELD E.N. F.N. B.N. EN FN EDGE/FIELD PANEL ROWS STAGG. COMMON BOX GALV. NAILS STAPLES SCREWS GA. 16
    OSB PLYWOOD WSP CDX STR. I RATED SHTG. GYP. BD. ONE BOTH SIDES FACE A.B. ANCHOR BOLT EPOXY ROD EMBED WASHER SILL P.T.
    HD2 KT-22 EA. END NONE N/A PER PLAN SEE DTL 4/S5 NOTE 3 DITTO SAME AS SW1 260 365 1,540 PLF KLF SEISMIC WIND ASD #/FT
    BLOCKED UNBLOCKED STITCHED W/ OR AND TO MIN. MAX. TYP. U.N.O. Ø DIA. ½ ″ ′ × ² ✓ . $ % {""".split()
)
CELLS = st.one_of(st.lists(WORDS, max_size=14).map(" ".join), st.lists(WORDS, max_size=8).map("".join), st.text(max_size=40))
KINDS = st.sampled_from(kinds())


@settings(deadline=None, max_examples=600)
@given(CELLS, KINDS)
def test_no_text_makes_the_grammar_raise_and_spans_lie_in_it(printed: str, kind: str) -> None:
    text = plain(printed.split()).text
    found = read(text, kind)
    assert found == read(text, kind), "the same text reads the same twice"
    for f in found:
        assert 0 <= f.span[0] < f.span[1] <= len(text)
        assert text[slice(*f.span)].strip()
        assert f.field != "ditto" or f.state is State.READ
        if f.field != "ditto":
            assert (f.value not in (None, ())) == (f.state is State.READ)


@settings(deadline=None, max_examples=600)
@given(CELLS, KINDS)
def test_a_field_has_one_value_and_its_spans_do_not_overlap(printed: str, kind: str) -> None:
    found = read(plain(printed.split()).text, kind)
    for field in {f.field for f in found}:
        own = sorted((f for f in found if f.field == field), key=lambda f: f.span)
        assert all(a.span[1] <= b.span[0] for a, b in pairwise(own))
        assert field == "capacity" or len({(repr(f.value), f.state) for f in own}) == 1


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=60), KINDS)
def test_raw_text_that_was_never_tidied_does_no_harm(text: str, kind: str) -> None:
    assert all(0 <= f.span[0] < f.span[1] <= len(text) for f in read(text, kind))


@pytest.mark.parametrize("kind", kinds())
@pytest.mark.parametrize(
    "text", ["1" * 400, "0." + "1" * 400, '6" ' * 60, "8d " * 60, "(" * 200, "1/2 " * 60, "3x OR " * 60, "HD1/" * 60]
)
def test_absurdly_long_text_does_no_harm(text: str, kind: str) -> None:
    assert all(f.span[1] <= len(text) for f in read(plain(text.split()).text, kind))


@pytest.mark.parametrize("again", ["8d @ ", '6" O.C. ', '5/8" DIA. A.B. @ ', "8d (0.131 x 2 1/2) "])
def test_a_note_that_repeats_itself_for_ever_comes_to_an_end(again: str) -> None:
    """A hundred thousand letters in one sentence: each is looked at a few times, not once for every letter before it."""
    text = "SHEAR WALLS SHALL HAVE " + again * (100_000 // len(again))
    assert all(text[slice(*found.span)].strip() for found in note(text).found)


@pytest.mark.parametrize("again", ["ALL ", "OF ", "AND ", "THE ", "AT ", "PANEL EDGES AT ", "E.N. (E.N.) ", "TYPE ALL ", "SW1, "])
def test_nothing_is_taken_from_a_sentence_longer_than_any(again: str) -> None:
    """A hundred thousand letters without a point: nobody tells what it is about, and what comes after it may go on with it."""
    read = note("2. SHEAR WALLS " + again * (100_000 // len(again)) + "HAVE 3X AT PANEL EDGES. SILL PLATES ARE 3X.")
    assert read.about_walls
    assert read.conditional
    assert not [found for found in read.found if found.field.startswith("framing.panel")]
