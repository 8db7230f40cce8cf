"""Notes: what a sentence says about shear walls, for whom, and above all what it doesn't say."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extractor.trade.notes import nail_definition, nail_definitions, note

TRADE = "common practice, no source"
BOLT = {"anchors.kind": "anchor bolt"}
WASHER = {"anchors.washer_in": (3.0, 3.0, 0.229)}
DIMS_8D = {"fastener.diameter_in": 0.131, "fastener.length_in": 2.5}
DIMS_10D = {"fastener.diameter_in": 0.148, "fastener.length_in": 3.0}
COMMON, BLOCKED = {"fastener.style": "common"}, {"framing.blocked": True}
FIELD_12, EDGE_6 = {"field.spacing_in": 12.0}, {"edge.spacing_in": 6.0}
BASIS = {"capacity.load": "seismic", "capacity.method": "ASD"}

SAYS = [
    ("1. ALL PANEL EDGES SHALL BE BLOCKED.", BLOCKED, "set bakery"),
    ("BLOCK ALL PANEL EDGES.", BLOCKED, "set tern cottage"),
    ("BLOCK PANEL EDGES.", BLOCKED, "set carriage barn"),
    ("2. ALL EDGES BLOCKED.", BLOCKED, "set mill workshop"),
    ("PROVIDE 2x FLAT BLOCKING AT ALL UNSUPPORTED PANEL EDGES.", BLOCKED, TRADE),
    ("2x BLKG. REQ'D @ ALL PANEL EDGES", BLOCKED, TRADE),
    ("ALL PLYWOOD EDGES TO BE SUPPORTED BY FRAMING OR BLOCKING.", BLOCKED, TRADE),
    ("SHEATHING SHALL BE BLOCKED AT ALL EDGES", BLOCKED, TRADE),
    ("Block all panel edges of shear walls. The types are marked in circles on K-3.", BLOCKED, "set rookery row"),
    ("UNBLOCKED", {"framing.blocked": False}, TRADE),
    ("BLOCKING IS NOT REQUIRED.", {"framing.blocked": False}, TRADE),
    ('2. ANCHOR BOLT EMBEDMENT 7" MINIMUM.', {**BOLT, "anchors.embedment_in": 7.0}, "set bakery"),
    ('EMBED ANCHOR BOLTS 7" INTO CONCRETE.', {**BOLT, "anchors.embedment_in": 7.0}, "set tern cottage"),
    ('ANCHOR BOLTS SHALL EXTEND 7" INTO CONCRETE', {**BOLT, "anchors.embedment_in": 7.0}, TRADE),
    ('MIN. EMBEDMENT OF ANCHOR BOLTS IS 7".', {**BOLT, "anchors.embedment_in": 7.0}, TRADE),
    (
        '5/8" DIA. ANCHOR BOLTS WITH 7" EMBEDMENT U.N.O.',
        {**BOLT, "anchors.diameter_in": 0.625, "anchors.embedment_in": 7.0},
        TRADE,
    ),
    ("4. PLATE WASHERS 3x3x0.229 AT ALL MUDSILL BOLTS.", {**BOLT, **WASHER}, "set mill workshop"),
    ('2. Plate washers 3" x 3" x 0.229" at all anchor bolts.', {**BOLT, **WASHER}, "set magpie mews"),
    ('0.229" x 3" x 3" PLATE WASHERS', WASHER, "2006 IBC 2305.3.11"),
    ('3" SQUARE x 0.229" THICK PLATE WASHERS', WASHER, "general notes in a city archive"),
    ("3. NAILS ARE COMMON NAILS.", COMMON, "set mill workshop"),
    ("ALL NAILS SHALL BE COMMON WIRE NAILS U.N.O.", COMMON, TRADE),
    (
        "NAILS SHALL BE COMMON OR GALVANIZED BOX.",
        {"fastener.style": "common or galvanized box"},
        "780 CMR Table 2306.3 (IBC-2009 basis)",
    ),
    (
        'A. ALL NAILS 10d COMMON (0.148" x 3").',
        {"fastener.kind": "nail", "fastener.penny": "10d", **COMMON, **DIMS_10D},
        "set gable and grain",
    ),
    ('NAILS 0.131" x 2-1/2".', {"fastener.kind": "nail", **DIMS_8D}, "set tern cottage"),
    ("NAILS COMMON; BLOCK ALL PANEL EDGES.", {**COMMON, **BLOCKED}, "set clubhouse"),
    ("USE 8d COMMON NAILS.", {"fastener.kind": "nail", "fastener.penny": "8d", **COMMON}, TRADE),
    ('1. NAILS AT INTERMEDIATE FRAMING 12" O.C.', FIELD_12, "set mill workshop"),
    ('FIELD NAILING 12" O.C.', FIELD_12, TRADE),
    ("B. NAIL TO FRAMING IN THE FIELD OF PANELS AT 12 IN. O.C. EDGE SPACINGS ARE O.C.", FIELD_12, "set gable and grain"),
    ('12" O.C. FIELD NAILING AT ALL WALLS', FIELD_12, TRADE),
    ("FIELD NAILING IS 12 INCHES ON CENTER.", FIELD_12, TRADE),
    ('FIELD NAIL ALL PANELS @ 12" O.C.', FIELD_12, TRADE),
    ('EDGE NAILING 6" O.C., FIELD NAILING 12" O.C. U.N.O.', {**EDGE_6, **FIELD_12}, TRADE),
    ('6" AT PANEL EDGES AND 12" AT INTERMEDIATE MEMBERS', {**EDGE_6, **FIELD_12}, "general notes in a city archive"),
    ('E.N. = 6" O.C., F.N. = 12" O.C.', {**EDGE_6, **FIELD_12}, TRADE),
    ("C. BLOCK ALL PANEL EDGES. SHEATH ONE FACE.", {**BLOCKED, "sheathing.faces": 1}, "set gable and grain"),
    ("SHEATH BOTH FACES.", {"sheathing.faces": 2}, TRADE),
    (
        'ALL SHEATHING SHALL BE 15/32" STRUCTURAL I PLYWOOD.',
        {"sheathing.thickness_in": 0.46875, "sheathing.grade": "structural 1", "sheathing.material": "plywood"},
        TRADE,
    ),
    ("PROVIDE 3x STUDS AT ALL ABUTTING PANEL EDGES.", {"framing.panel_edge": "3x"}, TRADE),
    ("USE 3x OR (2)2x STUDS WHERE PANELS ABUT.", {"framing.panel_edge": "3x or 2-2x"}, TRADE),
    (
        "FRAMING AT ADJOINING PANEL EDGES SHALL BE 3x NOMINAL OR WIDER.",
        {"framing.panel_edge": "3x"},
        "SDPWS-2008 4.3.7.1, from memory",
    ),
    ("SILL PLATE 3x P.T. AT ALL SHEAR WALLS.", {"framing.sill": "3x"}, TRADE),
    ('ANCHOR BOLTS 5/8" DIA. AT 48" O.C. U.N.O.', {**BOLT, "anchors.diameter_in": 0.625, "anchors.spacing_in": 48.0}, TRADE),
    ('SILL BOLTS 5/8"Ø @ 4\'-0" O.C. TYP.', {**BOLT, "anchors.diameter_in": 0.625, "anchors.spacing_in": 48.0}, TRADE),
    ("D. VALUES ARE FOR SEISMIC, ALLOWABLE STRESS DESIGN.", BASIS, "set gable and grain"),
    ("1 ALLOWABLE STRESS DESIGN, SEISMIC.", BASIS, "set tern cottage"),
    ("CAPACITIES ARE ASD", {"capacity.method": "ASD"}, TRADE),
    ("SHEAR VALUES ARE FOR WIND AND SEISMIC (ASD).", {"capacity.method": "ASD"}, "both loads: no one load"),
    ("VALUES SHOWN ARE NOMINAL.", {"capacity.method": "nominal"}, TRADE),
    ('SOLE PLATE NAILING 16d @ 6" O.C. U.N.O.', {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 6.0}, TRADE),
    ("STAGGER NAILS AT PANEL EDGES.", {"edge.staggered": True}, TRADE),
    ("ALL NAILS IN SHEAR WALLS AND DIAPHRAGMS SHALL BE COMMON.", COMMON, TRADE),
]


@pytest.mark.parametrize(("text", "says", "source"), SAYS)
def test_says(text: str, says: dict[str, object], source: str) -> None:
    read = note(text)
    assert {f.field: f.value for f in read.found} == says, source
    assert all(text[slice(*f.span)].strip() for f in read.found)


SILENT = [
    (
        '1. ROOF SHEATHING 15/32" PANEL INDEX 32/16, NAILED 10d @ 6" AT BOUNDARIES AND SUPPORTED'
        ' EDGES AND 12" IN THE FIELD U.N.O. ON PLAN.',
        "set bakery",
    ),
    ('2. FLOOR SHEATHING 23/32" T&G, GLUED AND NAILED 10d @ 6" EDGES, 10" FIELD.', "set bakery"),
    (
        '5. ROOF DECK: 1/2" PANELS, 8d AT 6 INCHES ON EDGES AND 12 INCHES BETWEEN. FLOOR DECK:'
        ' 3/4" PANELS, GLUE AND 10d AT 6 AND 12.',
        "set tern cottage",
    ),
    ("ROOF SHEATHING SHALL BE RATED. NAILS 8d COMMON. BLOCK ALL PANEL EDGES.", "the roof's own sentences go on"),
    ('1. PERIODIC INSPECTION OF NAILING, BOLTING AND ANCHORAGE WHERE FASTENER SPACING IS 4" O.C. OR LESS.', "set bakery"),
    ("1. THE ENGINEER SHALL BE NOTIFIED 48 HOURS BEFORE COVERING SHEAR WALLS.", "set bakery"),
    ("2. REINFORCING: ASTM A615 GRADE 60. LAP 40 BAR DIAMETERS MIN.", "set bakery"),
    ('4. TYPICAL INTERIOR BEARING WALL STUDS 2x6 @ 16" O.C.', "set carriage barn"),
    ("1. PROVIDE 2x6 BLKG. AT 8'-0\" MAX. IN TALL WALLS.", "set bakery"),
    ('3/8" MIN. EDGE DISTANCE', "set bakery, detail"),
    ('NAILS 3/8" FROM PANEL EDGES', "SDPWS-2008 4.3.7.1"),
    ('LEAVE 1/8" GAP AT PANEL EDGES.', "set bakery"),
    ("4. BACKFILL BOTH SIDES OF STEM WALLS EVENLY.", "set bakery"),
    ("3. Both faces: offset joints.", "set magpie mews"),
    ("4. ALL HOLD-DOWN BOLTS SHALL BE TIED IN PLACE BEFORE THE FOUNDATION INSPECTION.", "set bakery"),
    ('HOLD-DOWN ANCHORS: EMBED 12" MIN.', TRADE),
    ("3. SEISMIC DESIGN CATEGORY C, SITE CLASS D, SDS = 0.42, R = 6.5.", "set bakery"),
    ("WHERE 3x IS SHOWN USE 3x. STAGGER NAILS AT PANEL EDGES.", "may go on with the condition"),
    ("DOUBLE 2x STUDS MAY BE USED IN LIEU OF 3x STUDS AT PANEL EDGES.", TRADE),
    ('ANCHOR BOLTS 1/2" DIA. AT 72" O.C. AT NON-SHEAR WALLS', TRADE),
    ("CLIPPED HEAD OR BOX NAILS ARE NOT PERMITTED.", "county Title 26 section 2305.4"),
    ("NAILS SHALL BE 8d COMMON OR 10d BOX.", "which one is for a person to say"),
    ('8d = 0.131" x 2 1/2" OR 10d = 0.148" x 3"', "which one is for a person to say"),
    ("NAILS OF SHEAR WALLS SHALL BE 8d or 10d", "which one is for a person to say"),
    ('16d @ 16" O.C. SOLE PLATE', "a plate's own nails"),
    ('STITCH (2)2x WITH 16d @ 6" O.C. STAGGERED.', TRADE),
    ("VALUES MAY BE INCREASED 40 PERCENT FOR WIND.", TRADE),
    ("SEE S3.0 FOR THE SHEAR WALL SCHEDULE.", "set bakery"),
    ('EDGE NAILING 6" O.C., EDGE NAILING 4" O.C.', "says two things"),
]


@pytest.mark.parametrize(("text", "source"), SILENT)
def test_gives_no_value(text: str, source: str) -> None:
    assert note(text).found == (), source


LIMITS = [
    ('1. SHEAR WALL SW-2: FIELD NAILING 6" O.C.', {"marks": ("SW-2",), "about_walls": True}, "set depot"),
    ("11. At wall type B space anchor bolts at 24 inches on center.", {"marks": ("B",), "about_walls": True}, "set rookery row"),
    ('ANCHOR BOLTS AT TYPE B AT 24"', {"marks": ("B",)}, TRADE),
    ("WALLS SW3 AND SW4 SHALL HAVE 3x SILL PLATES.", {"marks": ("SW3", "SW4")}, TRADE),
    ("AT SHEAR WALLS A, B AND C BLOCK ALL EDGES.", {"marks": ("A", "B", "C")}, TRADE),
    ("SHEAR WALLS SW1-SW3: 3x SILL PLATES.", {"marks": ("SW1-SW3", "SW1", "SW2", "SW3")}, TRADE),
    ("SW1 THRU SW3: ALL EDGES BLOCKED", {"marks": ("SW1 THRU SW3", "SW1", "SW2", "SW3")}, TRADE),
    ("AT EACH SHEAR WALL A PLATE WASHER IS REQUIRED.", {"marks": ()}, "an article is no mark"),
    ('TYPE X GYP. BOARD 5/8" EACH SIDE.', {"marks": (), "only_scope": "gypsum"}, "a board is no mark"),
    ("1. 10d NAILS ARE COMMON.", {"only_penny": "10d", "number": "1"}, "set rowhouses"),
    ("8d = 0.131 x 2-1/2", {"only_penny": "8d"}, "nail table in a city archive"),
    ("2. EXTERIOR WALLS HAVE ALL PANEL EDGES BLOCKED.", {"only_scope": "exterior", "marks": ()}, "set rowhouses"),
    ('SECOND FLOOR SHEAR WALLS: FIELD NAILING 12" O.C.', {"only_scope": "second floor"}, TRADE),
    ('ANCHOR BOLTS 5/8" DIA. AT 48" O.C. U.N.O.', {"yields": True}, TRADE),
    ('FIELD NAILING 12" O.C. UNLESS SHOWN OTHERWISE', {"yields": True, "conditional": False}, TRADE),
    ('F.N. 12" O.C. TYP.', {"yields": True}, TRADE),
    ("ALL PANEL EDGES SHALL BE BLOCKED.", {"yields": False, "about_walls": False, "one_place": False}, "set bakery"),
    ('WALL LINE 3: ANCHOR BOLTS AT 24" O.C.', {"one_place": True}, TRADE),
    ("AT GRID B PROVIDE 3x SILL PLATE.", {"one_place": True}, TRADE),
    ('AT GARAGE: EDGE NAILING 3" O.C.', {"one_place": True}, TRADE),
    ("WALLS MARKED WITH A STAR ARE SHEATHED BOTH SIDES.", {"one_place": True}, "only the plans show which"),
    ('WHERE EDGE SPACING IS 2" O.C. PROVIDE 3x FRAMING.', {"conditional": True}, TRADE),
]


@pytest.mark.parametrize(("text", "limits", "source"), LIMITS)
def test_for_whom(text: str, limits: dict[str, object], source: str) -> None:
    read = note(text)
    assert {name: getattr(read, name) for name in limits} == limits, source


def test_a_limit_holds_for_its_own_clause_only() -> None:
    nails, blocks = note("10d NAILS ARE COMMON; BLOCK ALL PANEL EDGES.").clauses
    assert (nails.only_penny, blocks.only_penny) == ("10d", None)


def test_a_subject_before_a_colon_holds_for_all_that_follows() -> None:
    first, second = note('SHEAR WALL SW-2: NAILS COMMON; FIELD NAILING 6" O.C.').clauses
    assert first.marks == second.marks == ("SW-2",)


def test_elsewhere_begins_at_the_semicolon() -> None:
    first, second = note('AT SHEAR WALLS BLOCK ALL EDGES; ELSEWHERE 5/8" A.B. @ 48" O.C.').clauses
    assert (first.elsewhere, second.elsewhere) == (False, True)
    assert [f.field for f in first.found] == ["framing.blocked"]


def test_scheduled_marks_are_known_without_a_word_before_them() -> None:
    assert note("P4 AND P3: 3x SILL.").marks == ()
    assert set(note("P4 AND P3: 3x SILL.", known=("P6", "P4", "P3")).marks) == {"P4", "P3"}
    assert note("SHEAR WALL P1-6: 3x SILL.", known=("P1-6",)).marks == ("P1-6",), "a mark with a dash is no range"


SHARED = [
    ("STUDS AT ABUTTING PANEL EDGES: 2x AT SW-1 AND SW-2, 3x AT SW-3.", {"SW-1": "2x", "SW-2": "2x", "SW-3": "3x"}),
    (
        "STUDS AT ABUTTING PANEL EDGES OF SHEAR WALLS SHALL BE 3x AT TYPE SW-3 AND 2x AT TYPES SW-1 AND SW-2.",
        {"SW-1": "2x", "SW-2": "2x", "SW-3": "3x"},
    ),
    ("STUDS AT ABUTTING PANEL EDGES: 2x AT SW-1 AND SW-9, 3x AT SW-3.", {}),
    ("STUDS AT ABUTTING PANEL EDGES: 2x AT SW-1, 3x AT SW-1.", {}),
    ("BLOCKING AT ABUTTING PANEL EDGES: 2x AT SW-1, 3x AT SW-2.", {}),
]
SHARED_SILLS = [
    ("SILLS: 2x TREATED AT SW-1 AND SW-2, 3x TREATED AT SW-3.", {"SW-1": "2x", "SW-2": "2x", "SW-3": "3x"}),
    ("SILLS ARE 2x AT SW-1 BUT 3x AT SW-3 WITH LONGER BOLTS.", {}),
    ("SILLS: 2x TREATED AT SW-1; 3x TREATED AT SW-2 AND SW-3.", {"SW-1": "2x", "SW-2": "3x", "SW-3": "3x"}),
    ("MUDSILL 2x P.T.D.F. AT NOS. SW-1 AND SW-2; 3x P.T.D.F. AT NOS. SW-3.", {"SW-1": "2x", "SW-2": "2x", "SW-3": "3x"}),
]


@pytest.mark.parametrize(("text", "sills"), SHARED_SILLS)
def test_a_sill_for_some_types_is_never_given_to_all_that_a_note_names(text: str, sills: dict[str, str]) -> None:
    """Drawn set: read as one value for all, two types would have got 2x where the note says 3x."""
    clauses = [c for c in note(text, ("SW-1", "SW-2", "SW-3")).clauses if c.found]
    assert {mark: f.value for c in clauses for mark in c.marks for f in c.found if f.field == "framing.sill"} == sills


@pytest.mark.parametrize(("text", "framing"), SHARED)
def test_framing_shared_out_among_types(text: str, framing: dict[str, str]) -> None:
    """Drawn sets; a mark that is not scheduled, or told twice, leaves all as a question."""
    clauses = [c for c in note(text, ("SW-1", "SW-2", "SW-3")).clauses if c.found]
    told = {mark: f.value for c in clauses for mark in c.marks for f in c.found if f.field == "framing.panel_edge"}
    assert told == framing


@pytest.mark.parametrize(
    ("text", "number", "source"),
    [
        ("1.THE SHEATHING", "1", "no space, as in city archives"),
        ("A. ALL NAILS", "A", "set gable and grain"),
        ("(3) BLOCK", "3", TRADE),
        ("NOTE 3: ALL", "3", TRADE),
        ("A.B. SHALL BE EMBEDDED", None, "an abbreviation is no number"),
        ("2 ROWS OF NAILS", None, "a count is no number"),
        ("10d NAILS ARE COMMON", None, "a nail is no number"),
    ],
)
def test_number(text: str, number: str | None, source: str) -> None:
    assert note(text).number == number, source


DEFINED = [
    ('M 8d common 0.131" x 2-1/2"', "M", "8d", "common", 0.131, 2.5, "set bramble hall"),
    ("8d = 0.131 x 2-1/2", "8d", "8d", None, 0.131, 2.5, "nail table in a city archive"),
    ('8d COMMON (0.131" x 2-1/2")', "8d", "8d", "common", 0.131, 2.5, "set carriage barn"),
    ('12d COMMON 0.148 3 1/4"', "12d", "12d", "common", 0.148, 3.25, "nail table in a city archive"),
    ('8d COMMON 0.131(dia) 2 1/2"', "8d", "8d", "common", 0.131, 2.5, "nail table in a city archive"),
    ("10d COMMONS (0.148)", "10d", "10d", "common", 0.148, None, "trade article"),
    ('10d BOX 3" x 0.128"', "10d", "10d", "box", 0.128, 3.0, "length first: the thin one is the diameter"),
    ("N: 10d common", "N", "10d", "common", None, None, TRADE),
]


@pytest.mark.parametrize(("text", "key", "penny", "style", "diameter", "length", "source"), DEFINED)
def test_nail_definition(
    text: str, key: str, penny: str, style: str | None, diameter: float | None, length: float | None, source: str
) -> None:
    read = nail_definition(text)
    assert read is not None, source
    assert (read.key, *(read.value(n) for n in ("penny", "style", "diameter_in", "length_in"))) == (
        key,
        penny,
        style,
        diameter,
        length,
    ), source


@pytest.mark.parametrize(
    ("text", "source"),
    [
        ('8d COMMON @ 6" O.C.', "nailing, not a definition"),
        ('8d (0.131) 6" O.C.', "nailing: 6 is no nail length"),
        ("8d COMMON", "says no size"),
        ('8d = 0131" x 2-1/2"', "a lost point is not guessed"),
        ("3-8d TOENAIL", "three nails"),
        ("0.229 x 3 x 3", "a washer"),
    ],
)
def test_defines_no_nail(text: str, source: str) -> None:
    assert nail_definition(text) is None, source


def test_one_note_can_define_several_nails() -> None:
    text = 'NAILS: 8d COMMON (0.131" x 2-1/2"), 10d COMMON (0.148" x 3").'
    assert [d.key for d in nail_definitions(text)] == ["8d", "10d"]
    read = note(text)
    assert read.found == (), "which nail is for the row to say"
    assert [(d.key, d.value("diameter_in")) for d in read.definitions] == [("8d", 0.131), ("10d", 0.148)]


EXCEPTED = [
    (
        "PLYWOOD ON ONE FACE OF STUDS, EXCEPT SW-3 ON BOTH FACES WITH THE SAME NAILING EACH FACE.",
        {"SW-1": 1, "SW-2": 1, "SW-3": 2},
    ),
    ("PLYWOOD ON ONE FACE OF STUDS, EXCEPT SW-9 ON BOTH FACES.", {}),
]


@pytest.mark.parametrize(("text", "faces"), EXCEPTED)
def test_a_rule_and_its_exception(text: str, faces: dict[str, int]) -> None:
    """Drawn set; an exception that is not scheduled leaves all as a question."""
    clauses = [c for c in note(text, ("SW-1", "SW-2", "SW-3")).clauses if c.found]
    assert {mark: f.value for c in clauses for mark in c.marks for f in c.found if f.field == "sheathing.faces"} == faces


def test_an_exception_without_a_value_only_takes_its_types_out() -> None:
    """Drawn set: what G1 gets instead is no plate washer, and its size is not told."""
    read = note(
        'ANCHOR BOLTS: 7" MIN. EMBEDMENT, 1/4" x 3" x 3" PLATE WASHERS EXCEPT CUT WASHERS AT SW-3.', ("SW-1", "SW-2", "SW-3")
    )
    (rule,) = [c for c in read.clauses if c.found]
    assert rule.marks == ("SW-1", "SW-2")


def test_field_nailing_of_one_type_and_bolts_of_one_type_under_a_subject() -> None:
    """Drawn sets: both contradict a row, and would be lost without the type."""
    (field,) = note('FIELD NAILING AT SW4 SHALL BE 6" O.C. EACH SIDE.', ("SW4",)).clauses
    assert (field.marks, [(f.field, f.value) for f in field.found]) == (("SW4",), [("field.spacing_in", 6.0)])
    _, bolts = note('ANCHOR BOLTS IN SHEAR WALLS: EMBED 7". SPACE AT 20" ON CENTER IN S-3 WALLS.', ("S-3",)).clauses
    assert (bolts.marks, [(f.field, f.value) for f in bolts.found]) == (("S-3",), [("anchors.spacing_in", 20.0)])


def test_a_sign_on_the_mark_limits_what_a_note_says_of_it() -> None:
    """Drawn set."""
    one, both = note("PLYWOOD ON ONE SIDE OF WALL U.N.O. † INDICATES PLYWOOD ON BOTH SIDES WITH NAILING AT EACH SIDE.").clauses
    assert (one.only_sign, one.yields, [f.value for f in one.found]) == (None, True, [1])
    assert (both.only_sign, [(f.field, f.value) for f in both.found]) == ("†", [("sheathing.faces", 2)])


@pytest.mark.parametrize(
    ("text", "keys", "source"),
    [
        ("ALL NAILS ARE COMMON NAILS: .131 x 2-1/2 = 8d, .148 x 3 = 10d.", ["8d", "10d"], "drawn set"),
        ('NAILS ARE COMMON WIRE NAILS: 8d 0.131" x 2-1/2"; 10d 0.148" x 3".', ["8d", "10d"], "drawn set"),
        ("COMMON NAILS: 8d = .131 x 2-1/2, 10d = .148 x 3, 16d = .162 x 3-1/2.", ["8d", "10d", "16d"], "drawn set"),
    ],
)
def test_lists_of_nails_are_definitions_and_no_nail_for_all(text: str, keys: list[str], source: str) -> None:
    read = note(text)
    assert [d.key for d in read.definitions] == keys, source
    assert all(d.value("style") == "common" for d in read.definitions)
    assert "fastener.penny" not in {f.field for f in read.found}


def test_nails_of_walls_and_decks_are_defined_for_the_walls() -> None:
    """Drawn set: one sentence for both; a sentence for roofs alone defines none."""
    both = note('NAILS FOR WALL AND DIAPHRAGM SHEATHING: 8d = 0.131" x 2-1/2" COMMON; 10d = 0.148" x 3" COMMON.')
    assert [d.key for d in both.definitions] == ["8d", "10d"]
    assert note('NAILS FOR ROOF SHEATHING: 8d = 0.131" x 2-1/2" COMMON; 10d = 0.148" x 3" COMMON.').definitions == ()


WORDS = [
    "ALL",
    "PANEL",
    "EDGES",
    "BLOCKED",
    "SHEAR WALL",
    "SW1",
    "8d",
    "COMMON",
    "NAILS",
    '6"',
    "O.C.",
    "FIELD",
    "@",
    "WHERE",
    "ROOF",
    "ANCHOR BOLTS",
    '5/8"',
    "DIA.",
    "3x",
    "AT",
    ";",
    ".",
    "-",
    "U.N.O.",
    "3x3x1/4",
    "WASHERS",
]


@given(st.one_of(st.text(max_size=60), st.lists(st.sampled_from(WORDS), max_size=14).map(" ".join)))
def test_any_text_is_read_without_fail(text: str) -> None:
    read = note(text)
    for clause in read.clauses:
        assert 0 <= clause.span[0] <= clause.span[1] <= len(text)
        assert all(clause.span[0] <= f.span[0] < f.span[1] <= clause.span[1] for f in clause.found)
        assert len({f.field for f in clause.found}) == len(clause.found)
        assert not clause.found or not (clause.conditional or clause.elsewhere)


def test_nails_at_one_spacing_are_staggered_and_no_others() -> None:
    """Drawn set: read for all walls it would be an order nobody gave."""
    (clause,) = note('2" EDGE NAILING IS STAGGERED.').clauses
    assert clause.only_edge is not None
    assert (clause.only_edge.spacing_in, [(f.field, f.value) for f in clause.found]) == (2.0, [("edge.staggered", True)])


def test_sills_at_some_types_and_at_the_others() -> None:
    """Drawn set."""
    clauses = note("SILLS ARE 3x AT SW-2 THROUGH SW-3, 2x AT OTHERS.", ("SW-1", "SW-2", "SW-3")).clauses
    assert {mark: f.value for c in clauses for mark in c.marks for f in c.found} == {"SW-1": "2x", "SW-2": "3x", "SW-3": "3x"}


def test_plate_nails_and_studs_shared_out_with_the_value_first() -> None:
    """Drawn set."""
    known = ("A", "B", "C")
    plates = note('UPPER FLOOR: NAIL BOTTOM PLATES TO RIM WITH 16d @ 6" AT MARK A, 4" AT MARK B AND 3" AT MARK C.', known).clauses
    told = {m: f.value for c in plates for m in c.marks for f in c.found if f.field == "bottom_plate.spacing_in"}
    assert told == {"A": 6.0, "B": 4.0, "C": 3.0}
    studs = note("3x STUDS AT ABUTTING PANEL EDGES OF MARKS B AND C; 2x AT MARK A.", known).clauses
    assert {m: f.value for c in studs for m in c.marks for f in c.found} == {"A": "2x", "B": "3x", "C": "3x"}


def test_a_rule_for_one_nail_size_is_for_rows_of_that_size() -> None:
    """Drawn set: read for all walls it would contradict the gypsum types' nails."""
    (clause,) = note('10d SHEAR WALL NAILS ARE COMMON, 0.148" x 3".').clauses
    assert (clause.only_penny, "fastener.penny" in {f.field for f in clause.found}) == ("10d", False)


def test_rods_of_one_type_spaced_by_a_note() -> None:
    """Drawn set; epoxy anchors that need an approval first are nobody's."""
    (clause,) = note('AT WALL TYPE C SPACE THE EPOXY RODS 16" O.C.', ("C",)).clauses
    assert {f.field: f.value for f in clause.found} == {"anchors.kind": "epoxy rod", "anchors.spacing_in": 16.0}
    assert note("USE EPOXY ANCHORS ONLY WHERE APPROVED BY THE ENGINEER.").found == ()
