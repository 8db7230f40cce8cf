"""Edge and field spacing: which number belongs where, and numbers that are neither."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or code note"
OURS = "trade wording, our own row"


def said(text: str, kind: str) -> dict[str, object]:
    found = read(plain(text.split()).text, kind)
    short = {"edge.spacing_in": "edge", "field.spacing_in": "field", "edge.rows": "rows", "edge.staggered": "staggered"}
    wanted = {short[f.field]: f.value if f.state is State.READ else f.state for f in found if f.field in short}
    return wanted | {f.field: f.value for f in found if f.field == "ditto"}


EDGES = [
    ('6" O.C.', {"edge": 6.0}, SEEN),
    ('6" on center', {"edge": 6.0}, SEEN),
    ('AT 6" ON CENTER AT PANEL EDGES', {"edge": 6.0}, SEEN),
    ('3" O.C. IN ALL FRAMING', {"edge": 3.0}, SEEN),
    ("@ 4 in o.c.", {"edge": 4.0}, OURS),
    ('4"o.c. OR LESS', {"edge": 4.0}, SEEN),
    ('12"oc', {"edge": 12.0}, "no space, no points"),
    ("6", {"edge": 6.0}, "unit in the heading"),
    ('10d 2" o.c.', {"edge": 2.0}, SEEN),
    ("TWO ROWS STAGGERED", {"rows": 2, "staggered": True}, SEEN),
    ('8d @ 6" O.C.', {"edge": 6.0}, OURS),
    ("8d@6", {"edge": 6.0}, OURS),
    ('6" o/c', {"edge": 6.0}, OURS),
    ('6"oc E.N.', {"edge": 6.0}, OURS),
    ('@6"', {"edge": 6.0}, OURS),
    ("6 IN.", {"edge": 6.0}, OURS),
    ("2 INCHES STAGG.", {"edge": 2.0, "staggered": True}, OURS),
    ('E.N. @ 3"', {"edge": 3.0}, OURS),
    ('3" STAGG.', {"edge": 3.0, "staggered": True}, OURS),
    ('3" O.C. (STAGGERED)', {"edge": 3.0, "staggered": True}, OURS),
    ('2" O.C. 2 ROWS', {"edge": 2.0, "rows": 2}, OURS),
    ('(2) ROWS @ 3"', {"edge": 3.0, "rows": 2}, OURS),
    ('2" O.C. EA. ROW', {"edge": 2.0}, OURS),
    ('2 1/2"', {"edge": 2.5}, OURS),
    ('2-1/2" O.C.', {"edge": 2.5}, OURS),
    ('4" EA. SIDE', {"edge": 4.0}, OURS),
    ('EDGE: 4"', {"edge": 4.0}, OURS),
    ("4:12", {"edge": 4.0, "field": 12.0}, OURS),
    ("DO", {"ditto": None}, OURS),
    ('8d COMMON (0.131" x 2-1/2") @ 4" O.C.', {"edge": 4.0}, "a nail's length is no spacing"),
    ('.131x2-1/2 @ 4"', {"edge": 4.0}, "a nail's length is no spacing"),
    ("6¹", {"edge": 6.0}, "raised footnote"),
]
FIELDS = [
    ('12" ON CENTER AT INTERMEDIATE MEMBERS', {"field": 12.0}, SEEN),
    ('12" o.c.', {"field": 12.0}, SEEN),
    ('8" in the field', {"field": 8.0}, SEEN),
    ('12"', {"field": 12.0}, OURS),
    ('12" FIELD', {"field": 12.0}, OURS),
    ('F.N. @ 12"', {"field": 12.0}, OURS),
    ('12" O.C. INTERM.', {"field": 12.0}, OURS),
    ("12 TYP.", {"field": 12.0}, OURS),
    ("PER NOTE 2", {"field": State.DEFERRED}, OURS),
    ("SAME", {"ditto": None}, OURS),
    ('@ 12" U.N.O.', {"field": 12.0}, OURS),
    ('10" O.C.', {"field": 10.0}, OURS),
    ('STUDS @ 24: 6"', {"field": State.UNREADABLE}, "holds for one stud spacing only"),
    ('AND 1 2" ON CENTER', {"field": State.UNREADABLE}, "12 torn in two, permit set"),
]
BOTH = [
    ('6" & 12"', 6.0, 12.0, SEEN),
    ("6/12", 6.0, 12.0, SEEN),
    ('6"/12"', 6.0, 12.0, OURS),
    ('6" / 12"', 6.0, 12.0, OURS),
    ('6":12"', 6.0, 12.0, OURS),
    ("6-12", 6.0, 12.0, OURS),
    ("6,12", 6.0, 12.0, OURS),
    ("8d @ 6/12", 6.0, 12.0, OURS),
    ('8d@6"o.c. EDGE, 12"o.c. FIELD', 6.0, 12.0, OURS),
    ('10d @ 3" E.N. / 12" F.N.', 3.0, 12.0, OURS),
    ('EN 4" FN 12"', 4.0, 12.0, "label before the number"),
    ('6" EDGES 12" FIELD', 6.0, 12.0, "label after the number"),
    ('4" EDGE, 6" FIELD', 4.0, 6.0, OURS),
    ("8d AT 4/12 (2 ROWS)", 4.0, 12.0, OURS),
    ('EDGE 3" STAG / FIELD 12"', 3.0, 12.0, OURS),
    ("2-1/2/12", 2.5, 12.0, "mixed fraction before the slash"),
    ('8d COMMON @ 6" AT EDGES AND 12" IN FIELD', 6.0, 12.0, OURS),
    ("6/12 EDGE/FIELD", 6.0, 12.0, OURS),
    ('E.N./F.N.: 4"/12"', 4.0, 12.0, OURS),
    ('4" O.C. EDGE AND FIELD', 4.0, 4.0, "gypsum"),
    ('6" O.C., 12" O.C. FIELD', 6.0, 12.0, OURS),
    ('10d @ 2" STAGG. / 12"', 2.0, 12.0, OURS),
    ('6" O.C. @ EDGES; 12" O.C. @ FIELD', 6.0, 12.0, OURS),
    ('(2)2x STITCHED W/ 16d @ 6", 10d @ 3" EDGES, 12" FIELD', 3.0, 12.0, "stitch nails are not wall nails"),
]


@pytest.mark.parametrize(("text", "want", "source"), EDGES)
def test_an_edge_cell(text: str, want: dict[str, object], source: str) -> None:
    assert said(text, "edge") == want, source


@pytest.mark.parametrize(("text", "want", "source"), FIELDS)
def test_a_field_cell(text: str, want: dict[str, object], source: str) -> None:
    assert said(text, "field") == want, source


@pytest.mark.parametrize(("text", "edge", "field", "source"), BOTH)
def test_edge_and_field_in_one_cell(text: str, edge: float, field: float, source: str) -> None:
    got = said(text, "nailing")
    assert (got.get("edge"), got.get("field")) == (edge, field), source


QUESTIONS = [
    ('144" O/C MAX.', "edge", "edge", "a slab note's number"),
    ('1 2" O.C.', "edge", "edge", "12 torn in two, permit set"),
    ("4 1/3", "edge", "edge", "no tape has thirds"),
    ("6/4/3/2", "nailing", "edge", "the heading row of a published table"),
    ("6/4/3/2", "edge", "edge", "the heading row of a published table"),
    ("6/6/12", "nailing", "edge", "a diaphragm's boundary, edge, field"),
    ("3/8", "nailing", "edge", "a size, or 3 and 8?"),
    ('4" O.C. (2" AT W5)', "edge", "edge", "two spacings"),
    ("4/6", "edge", "edge", "edge and field, or two edges?"),
    ("6'", "edge", "edge", "feet"),
    ('6" EDGES, 12"', "nailing", "field", "nobody says what the 12 is"),
    ('4" B.N. / 12" F.N.', "nailing", "edge", "boundary is not said to be the panel edge"),
    ('8d @ 6" E.N., 4 1/3" F.N.', "nailing", "edge", "a size that nothing explains"),
    ("EN", "edge", "edge", OURS),
]


@pytest.mark.parametrize(("text", "kind", "field", "source"), QUESTIONS)
def test_a_spacing_that_is_not_clear_is_a_question(text: str, kind: str, field: str, source: str) -> None:
    assert said(text, kind)[field] is State.UNREADABLE, source


def test_a_footnote_behind_a_spacing_does_not_change_it() -> None:
    assert said('4" O.C.²', "edge") == {"edge": 4.0}


def test_staggered_joints_are_not_staggered_nails() -> None:
    assert "staggered" not in said('4" O.C., STAGGER PANEL JOINTS', "edge")


def test_a_different_nail_in_the_field_is_a_question() -> None:
    found = {f.field: f.state for f in read('10d @ 6" E.N., 8d @ 12" F.N.', "nailing")}
    assert found["fastener.penny"] is State.UNREADABLE
