"""Framing at panel edges, sill plates, blocking."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or engineers' discussion"
OURS = "trade wording, our own row"


def said(text: str, kind: str) -> dict[str, object]:
    found = read(plain(text.split()).text, kind)
    return {f.field.removeprefix("framing."): f.value if f.state is State.READ else f.state for f in found}


PANEL_EDGES = [
    ("3X", "3x", OURS),
    ("3x STUD", "3x", OURS),
    ("3X MIN.", "3x", OURS),
    ("3x OR (2)2x", "3x or 2-2x", OURS),
    ("(2)2x OR 3x", "2-2x or 3x", OURS),
    ("DBL 2X", "2-2x", OURS),
    ("(2) 2x", "2-2x", OURS),
    ('(2)2x STITCHED W/ 16d @ 6"', "2-2x", SEEN),
    ("2-2X W/ 10d@3 STAGG.", "2-2x", OURS),
    ("2x", "2x", OURS),
    ("4x", "4x", OURS),
    ('3" NOM.', "3x", OURS),
    ("3x AT ABUTTING PANELS", "3x", OURS),
    ("3x @ PANEL JOINTS", "3x", OURS),
    ("2x4", "2x", OURS),
    ("NOTE 4", State.DEFERRED, OURS),
    ("-", State.NONE, OURS),
    ("3x / 2x", State.UNREADABLE, "which one?"),
    ("2X/3X", State.UNREADABLE, "which one?"),
    ("2x-3x", State.UNREADABLE, "which one?"),
]
SILLS = [
    ("2x", "2x", OURS),
    ("2x P.T.", "2x", OURS),
    ("P.T. 2x6", "2x", OURS),
    ("PTDF 2x4", "2x", OURS),
    ("2X MUDSILL", "2x", OURS),
    ("3x P.T.D.F.", "3x", OURS),
    ("3x SILL", "3x", OURS),
    ("(1)-3x", "3x", OURS),
    ("3x4 / 3x6", "3x", "two widths, one thickness"),
    ("2 x 6 PRESSURE-TREATED MUDSILL", "2x", SEEN),
    ("DBL 2x", "2-2x", OURS),
    ("2x (3x @ TYPE 4)", State.UNREADABLE, "depends on the type"),
    ("MATCH STUD WIDTH", State.UNREADABLE, OURS),
    ("LSL RIM", State.UNREADABLE, OURS),
    ("PER PLAN", State.DEFERRED, OURS),
]
BLOCKING = [
    ("BLOCK ALL EDGES", True, OURS),
    ("BLOCKED", True, OURS),
    ("YES", True, OURS),
    ("Y", True, OURS),
    ("REQ'D", True, OURS),
    ("all edges", True, OURS),
    ("✓", True, OURS),
    ("3x BLKG", True, OURS),
    ("2x FLAT @ HORIZ. JOINTS", True, OURS),
    ("UNBLOCKED", False, OURS),
    ("NO", False, OURS),
    ("NONE", False, OURS),
    ("NOT REQ'D", False, OURS),
    ("-", State.NONE, OURS),
    ("PER NOTE 1", State.DEFERRED, OURS),
    ("ALL EDGES, TYP.", True, OURS),
    ("BLOCKING NOT REQ'D", False, OURS),
    ("BLOCKED EXCEPT AT TOP", State.UNREADABLE, "where not?"),
    ("X", State.UNREADABLE, "a cross may mean yes or no"),
]


@pytest.mark.parametrize(("text", "want", "source"), PANEL_EDGES)
def test_framing_at_panel_edges(text: str, want: object, source: str) -> None:
    assert said(text, "panel_edge") == {"panel_edge": want}, source


@pytest.mark.parametrize(("text", "want", "source"), SILLS)
def test_a_sill_plate(text: str, want: object, source: str) -> None:
    assert said(text, "sill") == {"sill": want}, source


@pytest.mark.parametrize(("text", "want", "source"), BLOCKING)
def test_blocking(text: str, want: object, source: str) -> None:
    assert said(text, "blocking") == {"blocked": want}, source


def test_stitch_nailing_stays_in_the_words_left_over() -> None:
    text = '(2)2x STITCHED W/ 16d @ 6"'
    (found,) = read(text, "panel_edge")
    assert text[slice(*found.span)] == "(2)2x"


def test_the_size_of_blocking_is_not_dropped() -> None:
    (found,) = read("3x BLKG", "blocking")
    assert "3x" not in "3x BLKG"[slice(*found.span)]
