"""What a fastener cell says: a wrong diameter builds a weaker wall, a lost decimal point is a question."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set, code table or box label"
OURS = "trade wording, our own row"


def said(text: str) -> dict[str, object]:
    found = read(plain(text.split()).text, "fastener")
    return {f.field.removeprefix("fastener."): f.value if f.state is State.READ else f.state for f in found}


def nail(penny: str, style: str | None = None, diameter: float | None = None, length: float | None = None) -> dict[str, object]:
    given = {"kind": "nail", "penny": penny, "style": style, "diameter_in": diameter, "length_in": length}
    return {field: value for field, value in given.items() if value is not None}


NAILS = [
    ("8d", nail("8d"), SEEN),
    ("6d", nail("6d"), SEEN),
    ("8D COMMON", nail("8d", "common"), "permit set, capital D"),
    ("8d COMMON OR GALVANIZED BOX", nail("8d", "common or galvanized box"), "780 CMR Table 2306.3 (IBC-2009 basis)"),
    ("10d COMMONS (0.148)", nail("10d", "common", 0.148), SEEN),
    ('8d common (2-1/2" x 0.131")', nail("8d", "common", 0.131, 2.5), "code table, length first"),
    ("8d common 0.131″×2-1/2″", nail("8d", "common", 0.131, 2.5), "engineer, diameter first"),
    ('8d COMMON 0.131(dia) 2 1/2"', nail("8d", "common", 0.131, 2.5), SEEN),
    ('12d COMMON 0.148 3 1/4"', nail("12d", "common", 0.148, 3.25), SEEN),
    ('10d box (3" x 0.128")', nail("10d", "box", 0.128, 3.0), "NDS-2018 Table L4"),
    ('16d common (3-1/2" x 0.162")', nail("16d", "common", 0.162, 3.5), "NDS-2018 Table L4"),
    ("8d common nails (0.131 in. x 2-1/2 in.)", nail("8d", "common", 0.131, 2.5), OURS),
    ("16D SINKER", nail("16d", "sinker"), SEEN),
    ("5d COOLER", nail("5d", "cooler"), SEEN),
    ("8d RING SHANK", nail("8d", "deformed shank"), SEEN),
    ("8d GUN NAILS", nail("8d"), "a gun nail is not a style"),
    ("8d COM.", nail("8d", "common"), OURS),
    ("8d CMN", nail("8d", "common"), OURS),
    ('10d (0.148"x3")', nail("10d", None, 0.148, 3.0), OURS),
    ("8d GALV. BOX", nail("8d", "galvanized box"), OURS),
    ("8d HDG", nail("8d"), "a finish is not a style"),
    ("10d SHORT (0.148 x 2-1/8)", nail("10d", None, 0.148, 2.125), OURS),
    ("3-8d", nail("8d"), "count and size, code fastening table"),
    ("4-16d", nail("16d"), "count and size, code fastening table"),
    ("8d 0.1480", nail("8d", None, 0.148), "last 0 is a diameter sign; the number is the same"),
    (".131x2-1/2 8d", nail("8d", None, 0.131, 2.5), OURS),
    ("8d²", nail("8d"), "raised footnote"),
    ('8d x 2-1/2"', nail("8d", None, None, 2.5), OURS),
]


@pytest.mark.parametrize(("text", "want", "source"), NAILS)
def test_a_nail(text: str, want: dict[str, object], source: str) -> None:
    assert said(text) == want, source


OTHERS = [
    ('3" x 0.131" nails', {"kind": "nail", "length_in": 3.0, "diameter_in": 0.131}, SEEN),
    ("2-3/8 x .131 SMOOTH", {"length_in": 2.375, "diameter_in": 0.131}, "box label"),
    ("2-3/8 x .113 SMOOTH", {"length_in": 2.375, "diameter_in": 0.113}, "box label"),
    ('4-3" x 0.131"', {"length_in": 3.0, "diameter_in": 0.131}, "four nails of 3 in, not a length of 4-3"),
    ('0.148"Øx3"', {"length_in": 3.0, "diameter_in": 0.148}, OURS),
    (".148x3", {"length_in": 3.0, "diameter_in": 0.148}, OURS),
    ('0.131" DIA. x 2-1/2"', {"length_in": 2.5, "diameter_in": 0.131}, OURS),
    ("galvanized casing", {"kind": "nail", "style": "casing"}, SEEN),
    ('1-3/4" 16 GAGE STAPLES', {"kind": "staple", "gauge": 16, "length_in": 1.75}, "code fastening table"),
    ('16 GA. x 1-1/2" x 7/16" CROWN STAPLES', {"kind": "staple", "gauge": 16, "length_in": 1.5}, "the crown is no length"),
    ("14 GA.", {"gauge": 14}, OURS),
    ('1-1/4" TYPE W DRYWALL SCREWS', {"kind": "screw", "length_in": 1.25}, OURS),
    ('#6 x 1-1/4" TYPE S SCREWS', {"kind": "screw", "length_in": 1.25}, OURS),
    ("M", {"legend": "M"}, "letter out of a nail legend"),
    ("DITTO", {"ditto": None}, OURS),
    ('"', {"ditto": None}, "a lone inch mark is a ditto"),
    ("SEE NOTE 3", {"penny": State.DEFERRED}, OURS),
    (
        '10d @ 6" EDGES, 12" FIELD',
        {**nail("10d"), "edge.spacing_in": 6.0, "field.spacing_in": 12.0},
        "one column for all nailing",
    ),
    ('5d COOLER @ 7" EDGES, 7" FIELD', {**nail("5d", "cooler"), "edge.spacing_in": 7.0, "field.spacing_in": 7.0}, OURS),
]


@pytest.mark.parametrize(("text", "want", "source"), OTHERS)
def test_other_fasteners(text: str, want: dict[str, object], source: str) -> None:
    assert said(text) == want, source


QUESTIONS = [
    ("7d", "penny", "no nail is sold so"),
    ("5d / 8d COOLER", "penny", "two sizes, gypsum table"),
    ("8d or 10d", "penny", "which one?"),
    ('0131" x 2-1/2"', "diameter_in", "lost decimal point, official fastener table"),
    ("01310", "diameter_in", "diameter sign read as 0, permit set"),
    ("3 x 148", "diameter_in", "box label without a point"),
    ("8d (131 x 2-1/2)", "diameter_in", "lost decimal point"),
    ("P8", "penny", OURS),
]


@pytest.mark.parametrize(("text", "field", "source"), QUESTIONS)
def test_a_nail_that_is_not_clear_is_a_question(text: str, field: str, source: str) -> None:
    assert said(text)[field] is State.UNREADABLE, source


def test_a_length_beside_a_diameter_is_never_an_edge_spacing() -> None:
    assert "edge.spacing_in" not in said('10d COMMON 0.148 3"')


COLUMNS = [
    ("0.131", "nail_diameter", {"fastener.diameter_in": 0.131}, "unit in the heading"),
    ("131", "nail_diameter", {"fastener.diameter_in": State.UNREADABLE}, "lost decimal point"),
    ("2 1/2", "nail_length", {"fastener.length_in": 2.5}, "unit in the heading"),
    ('3"', "nail_length", {"fastener.length_in": 3.0}, OURS),
    ("1 2", "nail_length", {"fastener.length_in": State.UNREADABLE}, "torn"),
]


@pytest.mark.parametrize(("text", "kind", "want", "source"), COLUMNS)
def test_diameter_and_length_in_columns_of_their_own(text: str, kind: str, want: dict[str, object], source: str) -> None:
    assert {f.field: f.value if f.state is State.READ else f.state for f in read(text, kind)} == want, source
