"""Bottom plate nailing and top connections."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or code table"
OURS = "trade wording, our own row; hardware is invented"


def said(text: str, kind: str) -> dict[str, object]:
    found = read(plain(text.split()).text, kind)
    return {f.field.split(".")[-1].removesuffix("_in"): f.value if f.state is State.READ else f.state for f in found}


BOTTOM = [
    ('16d @ 16" O.C.', {"penny": "16d", "spacing": 16.0}, SEEN),
    ('3-16d @ 16" O.C.', {"penny": "16d", "spacing": 16.0}, "count and size, code table"),
    ('16d @ 6"', {"penny": "16d", "spacing": 6.0}, OURS),
    ('16d @ 6" OC', {"penny": "16d", "spacing": 6.0}, OURS),
    ('16d @ 4" 2 ROWS STAGG.', {"penny": "16d", "spacing": 4.0}, "rows have no field here"),
    ('(2) ROWS 16d @ 6"', {"penny": "16d", "spacing": 6.0}, "rows have no field here"),
    ('0.148x3-1/4 @ 4"', {"spacing": 4.0}, OURS),
    ('1/4"x6" SCREW @ 8"', {}, "a screw is no plate nail"),
    ('16d @ 6"/12"', {"penny": "16d", "spacing": State.UNREADABLE}, "two spacings"),
    ('(3)16d / 16"', {"penny": "16d", "spacing": State.UNREADABLE}, "three nails each 16 in, or at 16?"),
    ("PER PLAN", {"spacing": State.DEFERRED}, OURS),
    ("-", {"spacing": State.NONE}, OURS),
    ('5/8" A.B. @ 48"', {"kind": "anchor bolt", "diameter": 0.625, "spacing": 48.0}, "a bolt in a column of plate attachment"),
]
TOP = [
    ('CP40 @ 24" O.C.', {"connector": "CP40", "spacing": 24.0}, OURS),
    ("CP40 CLIP EA. BAY", {"connector": "CP40"}, OURS),
    ('LK4 @ 16"', {"connector": "LK4", "spacing": 16.0}, OURS),
    ("8d TN @ 6", {"connector": "8d TN", "spacing": 6.0}, OURS),
    ("CP40 @ 16 + 8d TN @ 6", {"connector": State.UNREADABLE, "spacing": State.UNREADABLE}, "two connections, one field"),
    ("1 PER BLK", {"connector": State.UNREADABLE}, OURS),
    ("PER DET. 4/S5", {"connector": State.DEFERRED}, OURS),
]


@pytest.mark.parametrize(("text", "want", "source"), BOTTOM)
def test_bottom_plate_nailing(text: str, want: dict[str, object], source: str) -> None:
    assert said(text, "bottom_plate") == want, source


@pytest.mark.parametrize(("text", "want", "source"), TOP)
def test_a_top_connection(text: str, want: dict[str, object], source: str) -> None:
    assert said(text, "top_plate") == want, source
