"""What a sheathing cell says: thickness off the closed list, material, grade, faces."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or published table"
OURS = "trade wording, our own row"


def said(text: str, kind: str = "sheathing") -> dict[str, object]:
    """Field to value; a field that is not a plain reading stands as its state."""
    found = read(plain(text.split()).text, kind)
    return {f.field.removeprefix("sheathing."): f.value if f.state is State.READ else f.state for f in found}


PANELS = [
    ('7/16" OSB W/ EXT. GLUE, P.I. 24/0', {"thickness_in": 0.4375, "material": "osb"}, SEEN),
    ("15/32' 5-PLY C-D PLYWOOD", {"thickness_in": 0.46875, "material": "plywood"}, "permit set, foot mark typed for inch"),
    ('7/16" o.s.b.', {"thickness_in": 0.4375, "material": "osb"}, SEEN),
    ('7/16" THICK WOOD STRUCTURAL PANEL', {"thickness_in": 0.4375, "material": "wood structural panel"}, SEEN),
    ("15/32-inch CDX", {"thickness_in": 0.46875, "material": "plywood"}, SEEN),
    ('1/2" 5-PLY STRUCTURAL PLYWOOD', {"thickness_in": 0.5, "material": "plywood"}, SEEN),
    ('15/32" PLYWOOD OVER 5/8" GYP. BD., ONE SIDE', {"thickness_in": 0.46875, "material": "plywood", "faces": 1}, OURS),
    ('7/16" OSB O/ GWB', {"thickness_in": 0.4375, "material": "osb"}, OURS),
    ('5/8" GYP. BD.', {"thickness_in": 0.625, "material": "gypsum"}, OURS),
    ("STRUCTURAL I", {"grade": "structural 1"}, SEEN),
    ("RATED SHEATHING, EXPOSURE 1", {"grade": "rated sheathing"}, SEEN),
    ("7/16 RATED O.S.B.", {"thickness_in": 0.4375, "material": "osb", "grade": "rated sheathing"}, "invented set clinic"),
    ("3/8", {"thickness_in": 0.375}, SEEN),
    ("19/32", {"thickness_in": 0.59375}, SEEN),
    ('15/32" CDX PLYWD', {"thickness_in": 0.46875, "material": "plywood"}, OURS),
    ("15/32 STR. I", {"thickness_in": 0.46875, "grade": "structural 1"}, OURS),
    ("STR-1", {"grade": "structural 1"}, OURS),
    ("STRUCT 1", {"grade": "structural 1"}, OURS),
    ('STRUCTURAL 1/2" PLYWOOD', {"thickness_in": 0.5, "material": "plywood"}, "a 1 that begins 1/2 is no grade"),
    ('15/32" WSP', {"thickness_in": 0.46875, "material": "wood structural panel"}, OURS),
    ('1/2" NOM.', {"thickness_in": 0.5}, OURS),
    ("7/16 RATED 24/16", {"thickness_in": 0.4375}, "span rating is no second thickness"),
    ('(1) LAYER 15/32" EA. SIDE', {"thickness_in": 0.46875, "faces": 2}, OURS),
    ('15/32" BOTH SIDES', {"thickness_in": 0.46875, "faces": 2}, OURS),
    ("DBL SIDED", {"faces": 2}, OURS),
    ("2-SIDED", {"faces": 2}, OURS),
    ("E.S.", {"faces": 2}, OURS),
    ("SAME AS 4, EA. FACE", {"ditto": "4", "faces": 2}, OURS),
    ("SAME", {"ditto": None}, "columns-as-types schedule"),
    ('1/2" GYP. BD.', {"thickness_in": 0.5, "material": "gypsum"}, OURS),
    ('5/8" GWB BOTH SIDES UNBLOCKED', {"thickness_in": 0.625, "material": "gypsum", "faces": 2, "framing.blocked": False}, OURS),
    ('T1-11 5/8"', {"thickness_in": 0.625, "material": "other"}, OURS),
    ("0.469 OSB", {"thickness_in": 0.46875, "material": "osb"}, "decimal of a listed size"),
    ('1-1/8" PLYWOOD', {"thickness_in": 1.125, "material": "plywood"}, OURS),
    ("½″ PLYWOOD", {"thickness_in": 0.5, "material": "plywood"}, "one-glyph fraction and prime"),
    (
        '7/16" RATED SHTG. PLY OR OSB, 1 SIDE',
        {"thickness_in": 0.4375, "material": "wood structural panel", "grade": "rated sheathing", "faces": 1},
        OURS,
    ),
    (
        '15/32" RATED SHEATHING PLYWOOD, ONE SIDE',
        {"thickness_in": 0.46875, "material": "plywood", "grade": "rated sheathing", "faces": 1},
        OURS,
    ),
    ('15/32"² PLYWOOD', {"thickness_in": 0.46875, "material": "plywood"}, "raised footnote"),
]


@pytest.mark.parametrize(("text", "want", "source"), PANELS)
def test_a_sheathing_cell(text: str, want: dict[str, object], source: str) -> None:
    assert said(text) == want, source


QUESTIONS = [
    ('15/32" INT RATED PLYWOOD OR 7/16" OSB', "thickness_in", "permit set: two sizes are no single value"),
    ('15/32" PLYWD OR 7/16" OSB', "thickness_in", OURS),
    ("5/16 or 1/4", "thickness_in", "published table"),
    ("1 5/32", "thickness_in", "15/32 torn, permit set"),
    ("S/32", "thickness_in", "15/32 misread, permit set"),
    ('7/G"', "thickness_in", "7/16 misread, permit set"),
    ("7/162", "thickness_in", "7/16 with a fused footnote, permit set"),
    ("3/82 PLYWOOD", "thickness_in", "3/8 with a fused footnote"),
    ("7307/16", "thickness_in", "730 and 7/16 fused, published table"),
    ("18/32 OSB", "thickness_in", "no panel is made so"),
    ('%" PLYWOOD', "thickness_in", "lost fraction, permit set"),
    ('15/32" PLYWOOD AND 5/8" GWB', "thickness_in", "two layers in one cell, and nobody says which is nailed"),
    ('15/32" PLYWOOD AND 5/8" GWB', "material", "two layers in one cell"),
    ("EXISTING", "thickness_in", OURS),
]


@pytest.mark.parametrize(("text", "field", "source"), QUESTIONS)
def test_a_panel_that_is_not_clear_is_a_question_and_never_a_size(text: str, field: str, source: str) -> None:
    assert said(text)[field] is State.UNREADABLE, source


def test_alternatives_of_two_sizes_still_say_either_panel() -> None:
    assert said('15/32" PLYWD OR 7/16" OSB')["material"] == "wood structural panel"


STATES = [
    ("PER PLAN", State.DEFERRED),
    ("SEE DTL 4/S5", State.DEFERRED),
    ("-", State.NONE),
    ("N/A", State.NONE),
    ("—", State.NONE),
]


@pytest.mark.parametrize(("text", "state"), STATES)
def test_none_and_see_plan_are_told_apart(text: str, state: State) -> None:
    assert said(text) == {"thickness_in": state}


FACES = [("1", 1), ("2", 2), ("ONE SIDE", 1), ("BOTH", 2), ("EA. FACE", 2), ("3", State.UNREADABLE), ("-", State.NONE)]


@pytest.mark.parametrize(("text", "want"), FACES)
def test_a_column_of_faces(text: str, want: object) -> None:
    assert said(text, "faces") == {"faces": want}
