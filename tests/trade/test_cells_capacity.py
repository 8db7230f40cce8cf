"""Stated capacities: a number with a footnote stuck to it is not a stronger wall."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or published table"
OURS = "trade wording, our own row"


def said(text: str, kind: str = "capacity") -> list[object]:
    found = (f for f in read(plain(text.split()).text, kind) if f.field == "capacity")
    return [f.value if f.state is not State.UNREADABLE else "?" for f in found]


CAPACITIES = [
    ("260", [(260.0, None, None)], OURS),
    ("260 PLF", [(260.0, None, None)], OURS),
    ("260 #/FT", [(260.0, None, None)], OURS),
    ("260#/'", [(260.0, None, None)], OURS),
    ("V=260", [(260.0, None, None)], OURS),
    ("0.26 KLF", [(260.0, None, None)], OURS),
    ("260/365 (SEIS/WIND)", [(260.0, "seismic", None), (365.0, "wind", None)], OURS),
    ("260 SEISMIC / 365 WIND", [(260.0, "seismic", None), (365.0, "wind", None)], OURS),
    ("seismic: 260 plf; wind: 365 plf", [(260.0, "seismic", None), (365.0, "wind", None)], OURS),
    ("260/365", [(260.0, None, None), (365.0, None, None)], "nobody says which is which"),
    ("260 PLF / 365 PLF (WIND)", [(260.0, None, None), (365.0, None, None)], "one word for two numbers"),
    ("340 PLF ASD SEISMIC", [(340.0, "seismic", "ASD")], OURS),
    ("490 NOM.", [(490.0, None, "nominal")], OURS),
    ("2x490=980", [(980.0, None, None)], OURS),
    ("980 (2 SIDES)", [(980.0, None, None)], OURS),
    ("242 (HF)", [(242.0, None, None)], OURS),
    ("490(l)", [(490.0, None, None)], "footnote, published table"),
    ("260¹", [(260.0, None, None)], "raised footnote"),
    ("1,540", [(1540.0, None, None)], OURS),
    ("-", [()], OURS),
    ("SEE CALCS", [None], OURS),
    ("< 260", ["?"], OURS),
    ("2x490=990", ["?"], "the sum is wrong"),
    ("7307/16", ["?"], "730 and 7/16 fused, published table"),
    ("2607/16", ["?"], "260 and 7/16 fused"),
    ("0 18 14", ["?"], "860 torn, published table"),
    ("260 365", ["?"], "torn, or two"),
    ("260 LBS", ["?"], "pounds, not pounds per foot"),
    ("30", ["?"], "no wall is stated so weak"),
]


@pytest.mark.parametrize(("text", "want", "source"), CAPACITIES)
def test_a_capacity_cell(text: str, want: list[object], source: str) -> None:
    assert said(text) == want, source


def test_a_dash_is_none_and_calcs_are_elsewhere() -> None:
    assert [read(text, "capacity")[0].state for text in ("-", "SEE CALCS")] == [State.NONE, State.DEFERRED]


def test_both_sides_beside_a_capacity_is_said_of_the_panel_too() -> None:
    assert ("sheathing.faces", 2) in [(f.field, f.value) for f in read("980 (2 SIDES)", "capacity")]


HOLD_DOWN_POUNDS = [
    ("2,215 LB", 2215.0, SEEN),
    ('5,730 lbRequires 8" stem wall', 5730.0, "condition fused to the number, published key"),
    ("2510", 2510.0, OURS),
    ("3.2 KIPS", 3200.0, OURS),
    ("2215/3075", None, "which one?"),
    ("2,215 OR 3,075", None, "which one?"),
]


@pytest.mark.parametrize(("text", "want", "source"), HOLD_DOWN_POUNDS)
def test_pounds_of_a_hold_down(text: str, want: float | None, source: str) -> None:
    assert [f.value for f in read(text, "hd_capacity")] == [want], source
