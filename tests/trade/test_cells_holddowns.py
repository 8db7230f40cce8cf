"""Hold-down cells of a wall's row, and the cells of a hold-down table. Every model is invented."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "published key or permit set"
OURS = "trade wording, our own row"


def said(text: str, kind: str) -> dict[str, object]:
    found = read(plain(text.split()).text, kind)
    return {f.field: f.value if f.state in (State.READ, State.NONE) else f.state for f in found}


MARKS = [
    ("HD2", ("HD2",), OURS),
    ("HD-1", ("HD-1",), OURS),
    ("HD-A", ("HD-A",), OURS),
    ("KT-22", ("KT-22",), OURS),
    ("KT-22 EA. END", ("KT-22",), OURS),
    ("(2) KT-12", ("KT-12",), "count before the model, published key"),
    ("HD1/HD2", ("HD1", "HD2"), OURS),
    ("KT-22/KT-34", ("KT-22", "KT-34"), "a second model is never dropped"),
    ("HD1 & HD2", ("HD1", "HD2"), OURS),
    ("STRAP QS-37 EA. END", ("QS-37",), OURS),
    ("TB8-Q25 W/ (2)2x", ("TB8-Q25",), OURS),
    ("1", ("1",), "triangle with a number"),
    ("1 & 2", ("1", "2"), OURS),
    ("A", ("A",), OURS),
    ("NONE", (), OURS),
    ("NOT REQ'D", (), OURS),
    ("–", (), OURS),
    ("SEE PLAN", State.DEFERRED, OURS),
    ("PER PLAN", State.DEFERRED, OURS),
    ("#1", State.UNREADABLE, "a mark, or a grade?"),
    ("NO HD2", State.UNREADABLE, "which then?"),
    ("HD2 (HD4 @ GARAGE)", State.UNREADABLE, "depends on the place"),
    ("E/O", State.UNREADABLE, OURS),
    ("HD EA. END", State.UNREADABLE, "which hold-down?"),
    ("1/2", State.UNREADABLE, "two marks, or a size"),
    ("W/ (2)2x", State.UNREADABLE, "a post alone"),
]


@pytest.mark.parametrize(("text", "want", "source"), MARKS)
def test_hold_downs_that_a_row_names(text: str, want: object, source: str) -> None:
    assert said(text, "hold_down") == {"hold_down.marks": want}, source


def test_none_is_not_the_same_as_see_plan() -> None:
    assert [read(text, "hold_down")[0].state for text in ("NONE", "SEE PLAN")] == [State.NONE, State.DEFERRED]


TABLE = [
    ("HD2", "hd_mark", {"mark": "HD2"}, OURS),
    ("(1)", "hd_mark", {"mark": "1"}, OURS),
    ("KT-22", "hd_model", {"model": "KT-22"}, OURS),
    ("QD-5", "hd_mark_model", {"mark": "QD-5", "model": "QD-5"}, OURS),
    ("4x8 #1 OR 6x6 #1", "hd_post", {"post": "4x8 #1 OR 6x6 #1"}, SEEN),
    ("MIN. (2)  2x STUDS", "hd_post", {"post": "MIN. (2) 2x STUDS"}, SEEN),
    ("PER PLAN", "hd_post", {"post": State.DEFERRED}, OURS),
    ("(10) 1/4x3 SCREWS", "hd_fasteners", {"fasteners": "(10) 1/4x3 SCREWS"}, OURS),
    ('5/8" THREADED ROD', "hd_anchor", {"anchor.diameter_in": 0.625}, SEEN),
    ('1 1/8" THREADED ROD', "hd_anchor", {"anchor.diameter_in": 1.125}, SEEN),
    ('7/8"Ø x 18" EMBED', "hd_anchor", {"anchor.diameter_in": 0.875, "anchor.embedment_in": 18.0}, OURS),
    ("1″", "hd_anchor", {"anchor.diameter_in": 1.0}, OURS),
    ("5/8 in.", "hd_anchor", {"anchor.diameter_in": 0.625}, OURS),
    ('5/8"x12"', "hd_anchor", {"anchor.diameter_in": 0.625}, "12 may be a length"),
    ("12 in.", "hd_embedment", {"anchor.embedment_in": 12.0}, OURS),
    ("SHEAR WALL MARK", "mark", {"mark": State.UNREADABLE}, "a heading's words"),
    ("SW 1", "mark", {"mark": "SW 1"}, OURS),
    ("SW1²", "mark", {"mark": "SW1"}, "raised footnote"),
]


@pytest.mark.parametrize(("text", "kind", "want", "source"), TABLE)
def test_a_hold_down_table_cell(text: str, kind: str, want: dict[str, object], source: str) -> None:
    assert said(text, kind) == want, source
