"""Anchor cells: they are read weeks before the nailing, and concrete does not forgive."""

import pytest

from extractor.record import State
from extractor.trade.cells import read
from extractor.trade.text import plain

SEEN = "permit set or city handout"
OURS = "trade wording, our own row"


def said(text: str, kind: str = "anchors") -> dict[str, object]:
    found = read(plain(text.split()).text, kind)
    return {f.field.removeprefix("anchors.").removesuffix("_in"): f.value if f.state is State.READ else f.state for f in found}


BOLT = "anchor bolt"
ANCHORS = [
    ('5/8" DIA. @ 4\'-0" O.C.', {"diameter": 0.625, "spacing": 48.0}, "feet and inches, permit set"),
    ('5/8" x 10" A.B.', {"kind": BOLT, "diameter": 0.625}, "a bolt's length is no embedment"),
    ('5/8" DIA. x 10" A.B. @ 32"', {"kind": BOLT, "diameter": 0.625, "spacing": 32.0}, OURS),
    ('48" O/C MAX', {"spacing": 48.0}, SEEN),
    ('5/8"Ø @ 48" O.C.', {"diameter": 0.625, "spacing": 48.0}, OURS),
    ("5/8 A.B. @ 32", {"kind": BOLT, "diameter": 0.625, "spacing": 32.0}, OURS),
    ("5/8 @ 32", {"diameter": 0.625, "spacing": 32.0}, OURS),
    ('5/8"x10" AB @ 16"oc', {"kind": BOLT, "diameter": 0.625, "spacing": 16.0}, OURS),
    ("@48", {"spacing": 48.0}, OURS),
    ('48"', {"spacing": 48.0}, OURS),
    ("4'-0\"", {"spacing": 48.0}, OURS),
    ("1'-4\" O.C.", {"spacing": 16.0}, OURS),
    ('5/8" SILL BOLTS @ 6 FT. O.C.', {"kind": BOLT, "diameter": 0.625, "spacing": 72.0}, OURS),
    ('(2) 5/8" A.B. MIN.', {"kind": BOLT, "diameter": 0.625}, OURS),
    (
        '5/8" EPOXY ALL-THREAD @ 24" W/ 5" EMBED',
        {"kind": "epoxy rod", "diameter": 0.625, "spacing": 24.0, "embedment": 5.0},
        OURS,
    ),
    ('5/8" SCREW ANCHOR @ 32 W/ 5" EMBED', {"kind": "screw anchor", "diameter": 0.625, "spacing": 32.0, "embedment": 5.0}, OURS),
    ('1/2" @ 72 (NON-SHEAR)', {"diameter": 0.5, "spacing": 72.0}, OURS),
    ("5/8-inch diameter at 48 inches on center", {"diameter": 0.625, "spacing": 48.0}, OURS),
    ("5/8″ at 48″ o.c.", {"diameter": 0.625, "spacing": 48.0}, OURS),
    ('ANCHORS 5/8" @ 32"', {"diameter": 0.625, "spacing": 32.0}, "a bare ANCHORS gives no kind"),
    ('5/8"x12" J-BOLT @ 48"', {"diameter": 0.625, "spacing": 48.0}, "no kind in words"),
    (
        '5/8" A.B. W/ 7" EMBED @ 48" O.C. W/ 1/4"x3"x3" PL WASHER',
        {"kind": BOLT, "diameter": 0.625, "embedment": 7.0, "spacing": 48.0, "washer": (3.0, 3.0, 0.25)},
        OURS,
    ),
    (
        '16d @ 6" (UPPER) / 5/8" A.B. @ 48"',
        {"kind": BOLT, "diameter": 0.625, "spacing": 48.0, "bottom_plate.penny": "16d", "bottom_plate.spacing": 6.0},
        "plate nails in the same cell",
    ),
    ("SEE FDN PLAN", {"spacing": State.DEFERRED, "diameter": State.DEFERRED}, OURS),
    ("PER ENGINEER", {"spacing": State.DEFERRED, "diameter": State.DEFERRED}, OURS),
    ('5/8" A.B. PER PLAN', {"kind": BOLT, "diameter": 0.625, "spacing": State.DEFERRED}, OURS),
    ('16d @ 4" O.C.', {"bottom_plate.penny": "16d", "bottom_plate.spacing": 4.0}, "nails do not anchor to concrete"),
]


@pytest.mark.parametrize(("text", "want", "source"), ANCHORS)
def test_an_anchor_cell(text: str, want: dict[str, object], source: str) -> None:
    assert said(text) == want, source


QUESTIONS = [
    ("4", "spacing", "feet or inches?"),
    ("@ 4", "spacing", "feet or inches?"),
    ('12" to 32"', "spacing", "a range, permit set"),
    ('1/2" DIA. MIN. (2) PER PANEL', "spacing", "a count, permit set"),
    ("N/A @ UPPER FLR", "spacing", "holds for one floor only"),
    ('a " DIA. A.B. @ 48"', "diameter", "lost fraction, permit set"),
    ('S/8" @ 48"', "diameter", "5/8 misread"),
    ('EPOXY A.B. 5/8" @ 32"', "kind", "two kinds in one breath"),
]


@pytest.mark.parametrize(("text", "field", "source"), QUESTIONS)
def test_an_anchor_that_is_not_clear_is_a_question(text: str, field: str, source: str) -> None:
    assert said(text)[field] is State.UNREADABLE, source


WASHERS = [
    ('3" SQUARE X 0.229" THICK', (3.0, 3.0, 0.229), SEEN),
    ('0.229" x 3" x 3"', (3.0, 3.0, 0.229), "thickness first, permit set"),
    ("3 x 3 x 0.229 (3 GAUGE)", (3.0, 3.0, 0.229), SEEN),
    ('2" x 2" x 3/16"', (2.0, 2.0, 0.1875), SEEN),
    ('3x3x1/4"', (3.0, 3.0, 0.25), OURS),
    ('1/4"x3"x3"', (3.0, 3.0, 0.25), OURS),
    ("PL WASHER 1/4x3x3", (3.0, 3.0, 0.25), OURS),
    ("BPL 3x3x.229", (3.0, 3.0, 0.229), OURS),
    ("3x3 PL. WASHER", State.UNREADABLE, "no thickness"),
    ("SLOTTED W/ CUT WASHER", State.UNREADABLE, OURS),
]


@pytest.mark.parametrize(("text", "want", "source"), WASHERS)
def test_a_plate_washer_is_sides_first(text: str, want: object, source: str) -> None:
    assert said(text, "washer") == {"washer": want}, source


def test_an_embedment_column_needs_no_word() -> None:
    assert [said(text, "embedment") for text in ('7"', "7", '7" MIN.')] == [{"embedment": 7.0}] * 3


def test_a_bolts_length_is_left_over_and_not_swallowed() -> None:
    text = '5/8" x 10" A.B. @ 32"'
    covered = [text[slice(*f.span)] for f in read(text, "anchors")]
    assert not any("10" in words for words in covered)


def test_sill_and_bolts_in_one_cell() -> None:
    assert said('2x6 P.T. W/ 5/8" A.B. @ 48"', "sill_anchors") == {
        "framing.sill": "2x",
        "kind": BOLT,
        "diameter": 0.625,
        "spacing": 48.0,
    }
