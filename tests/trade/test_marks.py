"""Marks: what a schedule's mark cell can hold, marks of the same make, marks with lengths."""

import pytest

from extractor.trade.marks import family, is_mark, loose_key, same_mark, with_length

TRADE = "common practice, no source"

MARKS = (
    "1 9 A F SW1 SW-1 SW|1 S1 W1 P1 SW6 P1-6 6 2D 22 33 44 SW4B SW4-2 4' 4* SW-A1 PSW-1 FTAO-1 1G W6"
    " XX4 10 HD-A HD1 TD-2 T1 KT-22 TB8-Q25 QD-5 LX45 HD-A|(RJ2)"
)
NO_MARKS = (
    'MARK TYPE NOTES NONE - 8d 2x 3x 15/32" 15/32 6"|O.C. 0.131 SHEATHING PLF (2)|2x 260|PLF N/A 1540 (2)2x SEE|PLAN 12\'-6"'
)


@pytest.mark.parametrize("mark", [mark.replace("|", " ") for mark in MARKS.split()])
def test_is_a_mark(mark: str) -> None:
    assert is_mark(mark), TRADE


@pytest.mark.parametrize("text", [*(text.replace("|", " ") for text in NO_MARKS.split()), ""])
def test_is_no_mark(text: str) -> None:
    assert not is_mark(text), TRADE


FAMILIES = [
    (["SW1", "SW2", "SW3"], ["SW4", "SW12", "SW4B"], ["SW-4", "HD4", "sw4", "S4"], "set bakery"),
    (["W-1", "W-2", "W-4"], ["W-5"], ["W5", "W-A", "HD-1"], "set mill workshop: W-5 is drawn and not scheduled"),
    (["HD-A", "HD-B"], ["HD-C"], ["HD-1", "HDA"], "set clubhouse"),
    (["P6", "P4"], ["P3", "P10"], ["4", "P"], "set gable and grain"),
    (["A", "B", "C"], ["D"], ["1", "AA", "a"], "set carriage barn"),
    (["6", "4", "3", "33"], ["2", "44"], ["333", "A", '6"'], "set clubhouse"),
    (["W6", "X4", "XX4"], ["W5", "XX2"], ["Y4", "S3"], "set magpie mews: W5 is drawn and not scheduled"),
    (["A1", "B2"], ["A3", "B1"], ["S3", "F2.0"], "set bramble hall"),
    (["SW-A1"], ["SW-B2"], ["SW-12"], TRADE),
    (["P1-4", "P1-6"], ["P2-3"], ["P4"], TRADE),
    (["HA", "HB"], ["HC"], ["HD1", "PA", "HAB"], "drawn set"),
    (["HA", "TB"], ["HA"], ["HC", "TA"], "two letters that differ in the first tell nothing"),
    ([], [], ["A", "1", ""], "no marks, no family"),
]


@pytest.mark.parametrize(("scheduled", "same", "other", "source"), FAMILIES)
def test_family(scheduled: list[str], same: list[str], other: list[str], source: str) -> None:
    make = family(scheduled)
    assert [m for m in [*scheduled, *same] if not make.fullmatch(m)] == [], source
    assert [m for m in other if make.fullmatch(m)] == [], source


def test_a_mark_is_the_same_only_as_printed() -> None:
    assert same_mark("SW-1", "SW–1")  # a dash is a dash
    assert not same_mark("SW-1", "SW1")
    assert not same_mark("SW 1", "SW1")
    assert loose_key("SW-1") == loose_key("SW1") == loose_key("SW 1") == loose_key("sw 01") == loose_key("S.W.1")
    assert loose_key("SW10") != loose_key("SW1")


LENGTHS = [
    ("SW4 / 8-0", ("SW4",), 96.0, "feet and inches without signs"),
    ("SW3 8'-0\"", ("SW3",), 96.0, TRADE),
    ("12'-6\" / SW2", ("SW2",), 150.0, TRADE),
    ("SW3 8′-6 1⁄2″", ("SW3",), 102.5, "prime signs"),
    ("4 8'-0\"", ("4",), 96.0, "a number for a mark"),
    ("SW4 (8'-0\")", ("SW4",), 96.0, TRADE),
    ("SW4 L=12'-0\"", ("SW4",), 144.0, TRADE),
    ("SW1/HD2", ("SW1", "HD2"), None, "wall and hold-down"),
    ("SW3/350", ("SW3",), None, "over its capacity, which is no length"),
    ("SW-1", ("SW-1",), None, "set tern cottage"),
    ("P1-4", ("P1-4",), None, "a mark with a dash, no length"),
]


@pytest.mark.parametrize(("text", "marks", "length", "source"), LENGTHS)
def test_mark_with_length(text: str, marks: tuple[str, ...], length: float | None, source: str) -> None:
    assert with_length(text) == (marks, length), source


@pytest.mark.parametrize(
    ("text", "source"),
    [
        ("4/S3", "detail 4 on S3"),
        ("22'-8\"", "a dimension"),
        ("8-0", "a dimension"),
        ("107'-9\"", "a dimension"),
        ("SHEAR WALL", "words"),
    ],
)
def test_no_mark_in(text: str, source: str) -> None:
    assert with_length(text) is None, source
