"""Column headings: each names the cells under it; a data cell names none."""

from typing import Literal

import pytest

from extractor.trade.headings import heading, settle, votes

TRADE = "common practice, no source"

WALL = [
    (
        "mark",
        "MARK | TYPE | SW TYPE | WALL TYPE | S.W. | SYM | SYMBOL | KEY | TAG | DESIGNATION | NO. "
        "| # | SHEAR WALL | SHEAR WALL MARK | wall | MK.",
        TRADE,
    ),
    (
        "sheathing",
        "SHEATHING | SHTG | SHT'G | SHTHG | SHEATHING MATERIAL | PANEL GRADE | PANEL | PLYWOOD |"
        " PLYWD | PLY | WSP | MATERIAL | BOARD",
        TRADE,
    ),
    (
        "sheathing",
        "MINIMUM NOMINAL PANEL THICKNESS | SHEATHING (ONE SIDE U.N.O.) | SHEATHING (WSP) PANEL | sheathing, one face",
        "SDPWS-2008 Table 4.3A; sets magpie mews, bramble hall",
    ),
    ("faces", "FACES | SIDES | NO. OF SIDES | SHEATHING (WSP) FACES | SHEATHED SIDES | SIDE(S)", "set magpie mews"),
    (
        "fastener",
        "NAIL SIZE | FASTENER TYPE & SIZE | NAIL (COMMON OR GALVANIZED BOX) | NAILS | NAIL | NAIL"
        " TYPE | FASTENERS | NAILING SIZE | 8d NAILS",
        "SDPWS-2008 Table 4.3A; 780 CMR Table 2306.3",
    ),
    (
        "nailing",
        "NAILING | FASTENING | NAILING (EDGE/FIELD) | NAIL SPACING EDGE / FIELD | E.N. / F.N. | SHEATHING NAILING | EDGE / FIELD",
        "set carriage barn",
    ),
    (
        "edge",
        "NAIL SPACING AT PANEL EDGES (IN.) | PANEL EDGE FASTENER SPACING (IN.) | EDGE NAILING |"
        " EDGE NAIL | P.E.N. | EDGE | EDGES | E.N. | EN",
        "SDPWS-2008 Table 4.3A",
    ),
    (
        "edge",
        "PANEL EDGE | BOUNDARY/EDGE | SHEATHING EDGE | NAILING EDGE | 8d NAILS EDGE | NAIL"
        " SPACING EDGE | EDGE SPACING | at edges",
        "sets clubhouse, magpie mews, bramble hall",
    ),
    (
        "field",
        "FIELD NAILING | FIELD | F.N. | FN | INTERMEDIATE | INTERM. | INT. NAILING | INTERMEDIATE"
        " MEMBERS | NAILING FIELD | 8d NAILS FIELD | in field",
        TRADE,
    ),
    ("blocking", "BLOCKING | BLK'G | BLKG | BLOCKED (Y/N) | BLOCK EDGES | BLKG REQ'D | BLOCKED", TRADE),
    ("blocking", "FRAMING HORIZONTAL JOINTS | HORIZ. PANEL JOINTS", "drawn set"),
    (
        "panel_edge",
        "FRAMING AT ADJOINING PANEL EDGES | STUD @ PANEL JOINTS | PANEL EDGE MEMBER | MIN. STUD"
        " AT ABUTTING PANELS | EDGE STUDS | FRAMING MEMBER",
        TRADE,
    ),
    (
        "panel_edge",
        "STUDS AT PANEL EDGES | STUD AT EDGES | STUD @ JOINT | EDGE MEMBER | EDGE FRAMING | PANEL"
        " EDGE STUDS | STUD WIDTH AT PANEL JOINTS",
        "sets bakery, clubhouse, rowhouses, depot, tern cottage, mill workshop",
    ),
    (
        "panel_edge",
        "BOUNDARY MEMBER | FRAMING AT PANEL JOINTS | studs at joints | PANEL JOINTS",
        "sets magpie mews, bramble hall",
    ),
    ("sill", "SILL PLATE | SILL | MUDSILL | MUD SILL | FND SILL | P.T. SILL | SILL PL. SIZE | FRAMING AT SILL", TRADE),
    (
        "anchors",
        "SILL ANCHORAGE | ANCHOR BOLTS | A.B. | AB | ANCHOR BOLT SPACING | SILL BOLTS | SILL"
        " BOLTING | FOUNDATION BOLTS | A.B. SIZE & SPACING",
        TRADE,
    ),
    (
        "anchors",
        "BASE ANCHORAGE (CONC.) | SILL PLATE TO CONC. | BOTTOM PLATE - CONCRETE | ANCHORAGE"
        " CONCRETE | BOTTOM PLATE BOLTS | MUDSILL BOLTS | ANCHORS",
        "set mill workshop",
    ),
    ("sill_anchors", "SILL / A.B. | SILL PLATE & ANCHOR BOLTS", TRADE),
    (
        "bottom_plate",
        "SECOND STORY SILL PLATE NAILING | SOLE PLATE NAILING | SILL NAILING | BOTTOM PLATE"
        " NAILING | BOT. PL. ATTACHMENT | B.P. NAILING",
        "city list of what a schedule has to show",
    ),
    (
        "bottom_plate",
        "PLATE TO RIM | BASE PLATE CONN. (WOOD) | SILL OR RIM NAILING | ANCHORAGE WOOD | BOTTOM PLATE NAILS | SOLE PLATE",
        "sets tern cottage, clubhouse",
    ),
    (
        "top_plate",
        "SHEAR TRANSFER | TOP PLATE CONNECTION | RIM TO TOP PLATE | BLKG TO TOP PL. | RIM JOIST"
        " CONN. | CLIPS | FRAMING CLIP SPACING",
        TRADE,
    ),
    ("top_plate", "TRUSS OR RIM TO TOP PLATE | TRUSSES/BLKG. TO TOP PL. | TOP: RIM / BLOCKING TO DOUBLE PLATE", "drawn set"),
    ("field", "INTERMED. NAILS | INTERM. | FIELD", "drawn set"),
    (
        "hold_down",
        "HOLDOWN | HOLD-DOWN | HD | H.D. | HD EA. END | TIE-DOWN | END POST / HD | HD MARK | TIE | tie-down | ENDS"
        " | UPLIFT DEVICE | TIE-DOWN EA. END | END ANCHORAGE",
        "sets magpie mews, gable and grain; a drawn set",
    ),
    (
        "capacity",
        "CAPACITY | ALLOWABLE SHEAR (PLF) | VS | VW | V ALLOW | SHEAR (#/FT) | SEISMIC | WIND | ASD | LRFD | CAP. (PLF) | PLF",
        "SDPWS-2008 Table 4.3A",
    ),
    (
        "capacity",
        "v (PLF)1 | CAPACITY (ASD SEISMIC) | ASD SEISMIC, PLF | plf, ASD seismic | ALLOWABLE"
        " SHEAR (ASD) WIND, PLF | CAPACITY SEISMIC",
        "sets tern cottage, bakery, rowhouses, mill workshop",
    ),
    ("sheathing", "SKIN | O.S.B. THICK.", "drawn sets"),
    ("edge", "EDGES O/C | PNL. EDGE NLG. | EDGE NAILG. (E.N.) | PANEL PERIMETER | A EDGE", "drawn sets"),
    ("field", "FIELD O/C | INTERMED. NLG. | AT OTHER STUDS | WITHIN PANEL | B FIELD", "drawn sets"),
    ("edge_rows", "ROWS AT EDGES | NO. OF ROWS", "drawn set"),
    ("panel_edge", "STUD OR BLK'G @ ABUTTING PNLS. | ADJOINING PANEL EDGES ON | STUDS AT VERTICAL SEAMS", "drawn sets"),
    ("sill", "TRTD. SILL | TREATED SILL", "drawn sets"),
    (
        "bottom_plate",
        "SOLE PL. NLG. @ FRAMED FLR. | PLATE NAILING @ 2ND FLR. | BOTT. PL. TO FLOOR JSTS. | SOLE PLATE (FRAMED FLOOR)",
        "drawn sets",
    ),
    ("anchors", "FDN. BOLTS W/ 3x3x1/4 WASHERS | SCREW ANCHORS TO PODIUM | SILL ANCHORAGE @ CONC. (SEE TABLE)", "drawn sets"),
    ("capacity", "WIND SHEAR, ASD (LBS PER FT) | V, KLF (SEISMIC, ASD)", "drawn sets"),
    ("embedment", "EMBED. | MIN. EMBEDMENT | A.B. EMBEDMENT", TRADE),
    ("washer", "PLATE WASHER | PL. WASHERS", TRADE),
    ("sheathing_and_nailing", "SHEATHING & NAILING | SHEATHING AND NAILING", TRADE),
    ("remarks", "REMARKS | NOTES | COMMENTS | SEE NOTE | DETAIL | DET. REF. | STUD SPACING | WALL LENGTH", TRADE),
]
HOLD_DOWN = [
    ("hd_mark", "MARK | TIE | TYPE | SYMBOL | HD-TYPE | HOLD-DOWN MARK | KEY", "a designer's published key"),
    ("hd_model", "UNIT | MAKE UP | CATALOG NO. | DEVICE NO.", "drawn sets"),
    ("hd_post", "STUD PACK", "drawn set"),
    ("hd_fasteners", "BOLTS THRU POST", "drawn set"),
    ("hd_embedment", "INTO CONC. | DEPTH IN CONC. | EMB. | EMBEDDED", "drawn sets"),
    ("hd_model", "MODEL | MODEL NO. | HARDWARE | HOLD-DOWN MODEL", TRADE),
    ("hd_mark_model", "MARK / MODEL | MARK/MODEL", TRADE),
    ("hd_post", "POST | POST SIZE | END STUDS | POST / END STUDS | MIN. POST", TRADE),
    ("hd_fasteners", "SCREWS | NAILS | FASTENERS | FASTENERS TO POST | BOLTS TO POST", "sets tern cottage, clubhouse, bakery"),
    ("hd_anchor", "ANCHOR | ANCHOR BOLT | A.B. | BOLT | THREADED ROD | ANCHOR DIA.", "sets bakery, clubhouse, depot"),
    ("hd_embedment", "EMBED. | EMBEDMENT | EMBED | MIN. EMBED. | ANCHOR EMBED | EMBED DEPTH", "sets clubhouse, bakery"),
    (
        "hd_capacity",
        "CAPACITY | CAPACITY (LBS) | LB | POUNDS | UPLIFT | T (LBS) | LBS | ALLOWABLE TENSION (LBS) | CAPACITY (KIPS)",
        "sets magpie mews, bramble hall, carriage barn",
    ),
    ("remarks", "DETAIL | REMARKS | FTG WIDTH | CONDITION", TRADE),
]
ROWS = [
    (table, kind, text, source)
    for table, rows in (("wall", WALL), ("hold-down", HOLD_DOWN))
    for kind, texts, source in rows
    for text in texts.split(" | ")
]


@pytest.mark.parametrize(("table", "kind", "text", "source"), ROWS)
def test_names_its_cells(table: Literal["wall", "hold-down"], kind: str, text: str, source: str) -> None:
    read = heading(text, table)
    assert read is not None, source
    assert read.kind == kind, source


def test_what_a_heading_says_of_its_bolts_and_its_strength() -> None:
    """Drawn sets."""
    bolts, strength = heading("FDN. BOLTS W/ 3x3x1/4 WASHERS"), heading("DESIGN STRENGTH \u00d8Vn, LRFD (PLF) WIND")
    assert bolts is not None
    assert strength is not None
    told = {f.field: f.value for f in bolts.facts}
    assert (told["anchors.kind"], told["anchors.washer_in"]) == ("anchor bolt", (3.0, 3.0, 0.25))
    assert (strength.method, strength.load) == ("LRFD", "wind")


NOT_HEADINGS = [
    ('8d COMMON @ 6" O.C.', "nailing", "set bakery"),
    ('6" O.C.', "spacing", "set bakery"),
    ('6" / 12"', "spacing", "set carriage barn"),
    ('15/32" PLYWOOD, ONE SIDE', "sheathing", "set tern cottage"),
    ("PLYWOOD, 2 SIDES", "sheathing", "set clubhouse, second line of a cell"),
    ("3x", "member", "set bakery"),
    ("(2) 2x", "member", "set bramble hall"),
    ("260 PLF", "capacity", "set bakery"),
    ("260", "number", "set tern cottage"),
    ('5/8" DIA. @ 48" O.C.', "anchors", "set bakery"),
    ("4310 LB", "pounds", "set tern cottage"),
    ("NONE", "none", "set gable and grain"),
    ("HD2", "mark", "set bakery"),
    ("SW-1", "mark", "set tern cottage"),
    ("PER ENGINEER", "deferred", "set depot"),
    ("SAME", "deferred", "set mill workshop"),
]


@pytest.mark.parametrize(("text", "kind", "source"), NOT_HEADINGS)
def test_data_is_no_heading(text: str, kind: str, source: str) -> None:
    assert heading(text) is None, source
    assert votes(text) == kind


@pytest.mark.parametrize(
    ("text", "source"),
    [
        ("THE ENGINEER SHALL BE NOTIFIED 48 HOURS BEFORE COVERING SHEAR WALLS.", "set bakery"),
        ("SHEAR WALL SW-1", "set depot, title of a block"),
        ("SHTG. & NAILING PER SHEAR WALL SCHED.", "set bakery, detail"),
        ('NAILS AT INTERMEDIATE FRAMING 12" O.C.', "set mill workshop, note"),
        ("WIDGET", "no word of the trade"),
    ],
)
def test_other_words_are_no_heading(text: str, source: str) -> None:
    assert heading(text) is None, source


FACTS = [
    ("SHEATHING (WSP)", {"sheathing.material": "wood structural panel"}, None, "set magpie mews"),
    ("sheathing, one face", {"sheathing.faces": 1}, None, "set bramble hall"),
    ("SHEATHING BOTH SIDES", {"sheathing.faces": 2}, None, TRADE),
    ("8d NAILS", {"fastener.penny": "8d", "fastener.kind": "nail"}, None, "set clubhouse"),
    (
        "NAIL (COMMON OR GALVANIZED BOX)",
        {"fastener.style": "common or galvanized box", "fastener.kind": "nail"},
        None,
        "780 CMR Table 2306.3 (IBC-2009 basis)",
    ),
    ("ANCHOR BOLTS", {"anchors.kind": "anchor bolt"}, None, "set bakery"),
    ("SILL BOLTS", {"anchors.kind": "anchor bolt"}, None, "set rowhouses"),
    ("A.B.", {"anchors.kind": "anchor bolt"}, None, "set clubhouse"),
    ("ANCHORS", {}, None, "set magpie mews: a bare ANCHORS gives no kind"),
    ('5/8" A.B. SPACING', {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, None, TRADE),
    ("ALLOWABLE PLF (ASD) SEISMIC", {"capacity.method": "ASD", "capacity.load": "seismic"}, "plf", "set magpie mews"),
    ("ALLOWABLE SHEAR (ASD) WIND, PLF", {"capacity.method": "ASD", "capacity.load": "wind"}, "plf", "set mill workshop"),
    ("ALLOWABLE SHEAR (PLF)", {}, "plf", "nobody says ASD here: a question"),
    ("SEISMIC / WIND", {}, None, "both loads: no one load"),
    ("v (PLF)", {}, "plf", "set tern cottage"),
    ("CAPACITY (KLF)", {}, "klf", TRADE),
    ("SEISMIC PLF", {"capacity.load": "seismic"}, "plf", "drawn set"),
    ("V SEISMIC", {"capacity.load": "seismic"}, None, "drawn set"),
    ("V WIND", {"capacity.load": "wind"}, None, TRADE),
    ("ASD #/FT", {"capacity.method": "ASD"}, "plf", "drawn set"),
    ('5/8" A.B. O.C.', {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, None, "drawn set"),
    ('A.B. 5/8" DIA.', {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, None, TRADE),
    ("Sill bolts, 5/8 in. diameter", {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, None, "drawn set"),
    ("16d SOLE PLATE NAILS, UPPER FLR", {"bottom_plate.penny": "16d"}, None, "drawn set"),
    ("SHTG. (ONE SIDE)", {"sheathing.faces": 1}, None, "drawn set"),
    ("PANEL (ONE SIDE)", {"sheathing.faces": 1}, None, "drawn set"),
    ("NAILS (COMMON)", {"fastener.kind": "nail", "fastener.style": "common"}, None, "drawn set"),
    ("NAIL SPACING AT PANEL EDGES (IN.)", {}, "in", "SDPWS-2008 Table 4.3A"),
]


@pytest.mark.parametrize(("text", "facts", "unit", "source"), FACTS)
def test_states_once_for_all_rows(text: str, facts: dict[str, object], unit: str | None, source: str) -> None:
    read = heading(text)
    assert read is not None
    assert {f.field: f.value for f in read.facts} == facts, source
    assert read.unit == unit, source
    assert all(text[slice(*f.span)].strip() for f in read.facts)


def test_kips_are_not_pounds() -> None:
    kips, pounds = heading("CAPACITY (KIPS)", "hold-down"), heading("CAPACITY (LBS)", "hold-down")
    assert kips is not None
    assert pounds is not None
    assert (kips.unit, pounds.unit) == ("kip", "lb")


@pytest.mark.parametrize(
    ("text", "refs", "source"),
    [
        ("NAILING2", ("2",), "set tern cottage"),
        ("v (PLF)1", ("1",), "set tern cottage"),
        ("SHEATHING (NOTE 4)", ("4",), TRADE),
        ("NAIL SIZE", (), "set mill workshop"),
    ],
)
def test_points_to_notes(text: str, refs: tuple[str, ...], source: str) -> None:
    read = heading(text)
    assert read is not None
    assert read.refs == refs, source


SETTLED = [
    ("SOLE PLATE", ['16d @ 6"', '16d @ 4"'], "bottom_plate", "set clubhouse"),
    ("SOLE PLATE", ["2x", "3x P.T."], "sill", TRADE),
    ("EDGES", ["UNBLOCKED", "BLOCKED"], "blocking", "set rowhouses, interior walls"),
    ("EDGES", ['6" O.C.', '4" O.C.'], "edge", TRADE),
    ("PANEL EDGES", ["2x", "3x"], "panel_edge", TRADE),
    ("FASTENERS", ['5d COOLER @ 7" EDGES, 7" FIELD'], "nailing", "set rowhouses, interior walls"),
    ("NAILS", ["10d COMMON", "8d COMMON"], "fastener", "set depot"),
    ("SILL", ["whatever"], "sill", "cells that don't tell"),
]


@pytest.mark.parametrize(("text", "cells", "kind", "source"), SETTLED)
def test_cells_settle_what_a_heading_leaves_open(text: str, cells: list[str], kind: str, source: str) -> None:
    read = heading(text)
    assert read is not None
    assert settle(read, cells).kind == kind, source


def test_a_part_of_a_hold_down_is_not_its_mark() -> None:
    for text in ("HOLD-DOWN POST", "HOLD-DOWN CAPACITY", "HOLD-DOWN BOLT"):
        read = heading(text)
        assert read is not None
        assert read.kind == "remarks"
