"""Titles of blocks: schedules are found in every spelling, and nothing else is taken for one."""

import pytest

from extractor.trade.text import plain_word
from extractor.trade.titles import title

TRADE = "common practice, no source"

SCHEDULES = [
    ("SHEAR WALL SCHEDULE", "wall", True, "set bakery"),
    ("SHEARWALL SCHEDULE", "wall", True, "city notes for backyard homes"),
    ("SHEAR-WALL SCHEDULE", "wall", True, TRADE),
    ("SHEARWALL SCHEDULES", "wall", True, "city inspection list"),
    ("SHEAR WALL SCHED.", "wall", True, TRADE),
    ("SW SCHEDULE", "wall", True, TRADE),
    ("SHEAR WALL TYPE SCHEDULE", "wall", True, TRADE),
    ("SHEAR WALL TYPES", "wall", True, TRADE),
    ("SHEAR WALL KEY", "wall", True, TRADE),
    ("WALL SCHEDULE: PLYWOOD SHEAR WALLS", "wall", True, TRADE),
    ("SHEAR WALL LEGEND", "wall", True, TRADE),
    ("SHEAR PANEL SCHEDULE", "wall", True, TRADE),
    ("SHEAR PANEL NAILING SCHEDULE", "wall", True, TRADE),
    ("PLYWOOD SHEAR WALL SCHEDULE", "wall", True, "set clubhouse"),
    ("WOOD STRUCTURAL PANEL SHEAR WALL SCHEDULE", "wall", True, TRADE),
    ("WSP SHEAR WALL SCHEDULE", "wall", True, TRADE),
    ("GYP. BOARD SHEAR WALL SCHEDULE", "wall", True, TRADE),
    ("SHEAR WALL SCHEDULE AND NOTES", "wall", True, TRADE),
    ("SHEAR WALL SCHEDULE (DF-L FRAMING)", "wall", True, TRADE),
    ("PERFORATED SHEAR WALL SCHEDULE", "wall", True, TRADE),
    ("FTAO WALL SCHEDULE", "wall", True, TRADE),
    ("Shear Wall Schedule", "wall", True, "set bramble hall"),
    ("EXTERIOR SHEAR WALLS", "wall", False, "set rowhouses"),
    ("SHEAR PANELS", "wall", False, "set gable and grain"),
    ("S H E A R   P A N E L S", "wall", False, "set gable and grain, letter-spaced"),
    ("S H E A R W A L L S", "wall", False, "letter-spaced, one space left"),
    ("Wood shear walls", "wall", False, "set rookery row"),
    ("HOLD-DOWN SCHEDULE", "hold-down", True, "set bakery"),
    ("HOLDOWN SCHEDULE", "hold-down", True, "city submittal list"),
    ("HOLD-DN SCHEDULE", "hold-down", True, TRADE),
    ("H.D. SCHEDULE", "hold-down", True, TRADE),
    ("TIE-DOWN SCHEDULE", "hold-down", True, TRADE),
    ("TIEDOWN SCHEDULE", "hold-down", True, TRADE),
    ("TIE SCHEDULE", "hold-down", True, "set magpie mews"),
    ("HOLD-DOWN DETAIL KEY", "hold-down", True, "a designer's published key"),
    ("Hold-down table", "hold-down", True, "set rookery row"),
    ("HOLD-DOWNS", "hold-down", False, "set tern cottage"),
    ("Tie-downs", "hold-down", False, "set bramble hall"),
    ("H O L D - D O W N S", "hold-down", False, "letter-spaced"),
    ("SHEAR WALL HOLD-DOWN SCHEDULE", "hold-down", True, TRADE),
    ("UPLIFT DEVICE SCHEDULE", "hold-down", True, "drawn set"),
    ("SHEAR PANEL UPLIFT DEVICES", "hold-down", False, "drawn set"),
    ("END POST ANCHORAGE SCHEDULE", "hold-down", True, "drawn set"),
    ("HOLD-DOWN HARDWARE", "hold-down", False, "drawn set"),
    ("ANCHOR TIE SCHEDULE", "hold-down", True, "drawn set"),
    ("TIE-DOWN SYSTEM SCHEDULE", "hold-down", True, TRADE),
    ("SHEAR WALL END ANCHORAGE SCHEDULE", "hold-down", True, TRADE),
    ("OVERTURNING RESTRAINT SCHEDULE", "hold-down", True, TRADE),
    ("SHEARWALL SCHEDULE - ANCHORAGE", "wall", True, "drawn set"),
    ("ROOF UPLIFT CONNECTOR SCHEDULE", "other", True, TRADE),
    ("ANCHOR BOLT SCHEDULE", "other", True, TRADE),
    ("CMU HOLD-DOWN SCHEDULE", "other", True, TRADE),
    ("NAIL LEGEND", "nail-legend", True, TRADE),
    ("Nails", "nail-legend", False, "set bramble hall"),
    ("GENERAL STRUCTURAL NOTES", "notes", True, "set bakery"),
    ("NOTE", "notes", True, "set carriage barn"),
    ("SHEAR WALL NOTES", "notes", True, "set mill workshop"),
    ("CONCRETE SHEAR WALL SCHEDULE", "other", True, TRADE),
    ("CMU SHEAR WALL SCHEDULE", "other", True, TRADE),
    ("COLD-FORMED STEEL SHEAR WALL SCHEDULE", "other", True, TRADE),
    ("FASTENING SCHEDULE", "other", True, "IRC-2018 Table R602.3(1)"),
    ("NAILING SCHEDULE", "other", True, "the code's table"),
    ("WOOD HEADER SCHEDULE", "other", True, "set rowhouses"),
    ("SPREAD FOOTING SCHEDULE", "other", True, "set bakery"),
    ("STUD SCHEDULE", "other", True, "set rowhouses"),
    ("HORIZONTAL DIAPHRAGM SCHEDULE", "other", True, "set rowhouses"),
    ("ROOF & FLOOR DIAPHRAGMS", "other", False, "set mill workshop"),
    ("BRACED WALL SCHEDULE", "other", True, TRADE),
    ("SPECIAL INSPECTION TABLE", "other", True, "set bakery"),
    ("DESIGN LOADS", "other", False, "set bakery"),
    ("ABBREVIATIONS", "other", False, "set bakery"),
    ("PANEL SCHEDULE", "other", True, "electrical sheets"),
]


@pytest.mark.parametrize(("text", "kind", "sure", "source"), SCHEDULES)
def test_opens(text: str, kind: str, sure: bool, source: str) -> None:
    read = title(plain_word(text) if "  " not in text else text)
    assert read is not None, source
    assert (read.kind, read.sure) == (kind, sure), source


NOT_TITLES = [
    ("SEE S3.0 FOR THE SHEAR WALL SCHEDULE.", "set bakery"),
    ("SEE S2 FOR SHEAR WALL TYPES.", "set rowhouses"),
    ("SHEAR WALLS: S-300.", "set mill workshop"),
    ("SHTG. & NAILING PER SHEAR WALL SCHED.", "set bakery, detail"),
    ("SHEAR WALL TYPE, SEE SCHEDULE ON S3.0", "set bakery, plan legend"),
    ("HOLD-DOWN, SEE SCHEDULE ON S3.0", "set bakery, plan legend"),
    ("POST PER HOLD-DOWN SCHEDULE", "set bakery, detail"),
    ("ROOF DIAPHRAGM TO SHEAR WALL", "set bakery, detail title"),
    ("END POST AT SHEAR WALL", "set bakery, detail title"),
    ("HOLD-DOWN AT FOUNDATION", "set bakery, detail title"),
    ("FOUNDATION AND SHEAR WALL PLAN", "set bakery, sheet title"),
    ("SHEAR WALL PLAN", "set depot, sheet title"),
    ("TYPICAL SHEAR PANEL ELEVATION", "set clubhouse, detail title"),
    ("PANEL NAILING DIAGRAM", "set bakery, detail title"),
    ("SHEAR WALL", "set tern cottage, column heading"),
    ("SHEAR WALL MARK", "set mill workshop, column heading"),
    ("HOLD-DOWN", "set bakery, column heading"),
    ("SHEATHING (WSP)", "set magpie mews, column heading"),
    ("THE ENGINEER SHALL BE NOTIFIED 48 HOURS BEFORE COVERING SHEAR WALLS.", "set bakery"),
    ("Block all panel edges of shear walls.", "set rookery row"),
    ("At wall type B space anchor bolts at 24 inches on center.", "set rookery row"),
    ('SHEAR WALL SW-2: FIELD NAILING 6" O.C.', "set depot, a note"),
    ("SHEAR WALL LINE 3", TRADE),
    ("SCHEDULES", "set bakery, sheet title"),
    ("NOTES AND SCHEDULES", "set magpie mews, sheet title"),
]


@pytest.mark.parametrize(("text", "source"), NOT_TITLES)
def test_is_no_title(text: str, source: str) -> None:
    assert title(text) is None, source


QUALIFIED = [
    ("EXTERIOR SHEAR WALLS", {"scope": "exterior"}, "set rowhouses"),
    ("INTERIOR SHEAR WALLS", {"scope": "interior"}, "set rowhouses"),
    ("SHEAR WALL SCHEDULE - SECOND FLOOR", {"scope": "second floor"}, TRADE),
    ("1ST FLR. SHEAR WALL SCHEDULE", {"scope": "first floor"}, TRADE),
    ("SHEAR WALL SCHEDULE CONT'D", {"continued": True}, TRADE),
    ("SHEAR WALL SCHEDULE (CONT.)", {"continued": True}, TRADE),
    ("SHEARWALL - HOLDOWN SCHEDULE", {"combined": True}, "city submittal list"),
    ("SHEAR WALL AND HOLD-DOWN SCHEDULE", {"combined": True}, TRADE),
    ("SHEAR WALL SCHEDULE (ASD)", {"method": "ASD", "load": None}, TRADE),
    ("SHEAR WALL SCHEDULE (SEISMIC, ASD)", {"method": "ASD", "load": "seismic"}, TRADE),
    ("SHEAR WALL SCHEDULE (WIND AND SEISMIC)", {"load": None}, "both loads: no one load"),
    ("SHEAR WALL SCHEDULE (ONE SIDE U.N.O.)", {"faces": 1}, TRADE),
    ("HOLD-DOWN NOTES", {"about": "hold-down"}, TRADE),
    ("SHEAR WALL NOTES", {"about": "wall"}, "set mill workshop"),
]


@pytest.mark.parametrize(("text", "says", "source"), QUALIFIED)
def test_says(text: str, says: dict[str, object], source: str) -> None:
    read = title(text)
    assert read is not None
    assert {name: getattr(read, name) for name in says} == says, source


ONE_TYPE = [
    ("SHEAR WALL SW-1", "SW-1", None, "set depot"),
    ("SHEAR WALL TYPE 2", "2", None, TRADE),
    ("SHEAR WALL - TYPE 4", "4", None, TRADE),
    ("TYPE A SHEAR WALL", "A", None, TRADE),
    ('SHEAR WALL TYPE 2: 7/16 OSB, 8d @ 6" O.C.', "2", '7/16 OSB, 8d @ 6" O.C.', TRADE),
    (
        "Wall type A. 15/32-inch plywood on one face, 8d common nails",
        "A",
        "15/32-inch plywood on one face, 8d common nails",
        "set rookery row",
    ),
    ('SW1: 7/16" OSB, 8d @ 4" O.C. EDGES', "SW1", '7/16" OSB, 8d @ 4" O.C. EDGES', TRADE),
]


@pytest.mark.parametrize(("text", "mark", "body", "source"), ONE_TYPE)
def test_one_block_for_each_type(text: str, mark: str, body: str | None, source: str) -> None:
    read = title(text)
    assert read is not None
    assert (read.kind, read.mark) == ("wall", mark), source
    assert (text[slice(*read.body)] if read.body else None) == body
    assert read.mark_span is not None
    assert text[slice(*read.mark_span)] == mark
