"""Wordings of the notes that engineers write about shear walls, each with what it says; and the many that say nothing."""

import pytest

from extractor.trade.notes import Clause, note
from extractor.trade.text import plain

TRADE, DRAWN = "common practice, no source", "drawn set"

SAYS = [
    ('INTERMEDIATE (FIELD) NAILING OF SHEAR WALL PANELS IS 12" O.C.', {"field.spacing_in": 12.0}, DRAWN),
    ('FIELD NAIL SHEAR WALLS AT 12" O.C.', {"field.spacing_in": 12.0}, DRAWN),
    ('NAIL INTERMEDIATE MEMBERS AT 12" O.C.', {"field.spacing_in": 12.0}, DRAWN),
    ('FIELD NAILING SHALL BE 12" O.C. TYP.', {"field.spacing_in": 12.0}, DRAWN),
    ('PANELS SHALL BE NAILED AT 12" O.C. TO INTERMEDIATE FRAMING MEMBERS.', {"field.spacing_in": 12.0}, TRADE),
    ('NAIL SPACING AT INTERMEDIATE STUDS SHALL BE 12" O.C. MAX.', {"field.spacing_in": 12.0}, TRADE),
    ('FIELD (INTERMEDIATE) NAILING 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ("FIELD NAILS AT 12 INCHES ON CENTER IN ALL SHEAR WALLS.", {"field.spacing_in": 12.0}, TRADE),
    ('NAIL PANELS TO INTERMEDIATE SUPPORTS AT 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('F.N. SHALL BE 12" O.C. AT ALL SHEAR WALLS', {"field.spacing_in": 12.0}, TRADE),
    ('SPACE FIELD NAILS 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('SPACE NAILS 12" O.C. ALONG INTERMEDIATE FRAMING MEMBERS.', {"field.spacing_in": 12.0}, TRADE),
    ('MAXIMUM FIELD NAIL SPACING IS 12".', {"field.spacing_in": 12.0}, TRADE),
    ('ALL INTERMEDIATE NAILING 12" O.C. UNLESS NOTED OTHERWISE.', {"field.spacing_in": 12.0}, TRADE),
    ('USE 12" O.C. NAILING AT INTERMEDIATE FRAMING.', {"field.spacing_in": 12.0}, TRADE),
    ('PANEL FIELD NAILING = 12" O/C', {"field.spacing_in": 12.0}, TRADE),
    ('NAIL FIELD OF PANELS @ 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('FIELD NAILING: 6" O.C.', {"field.spacing_in": 6.0}, TRADE),
    ('NAILS IN THE FIELD OF THE PANEL SHALL BE SPACED 12" ON CENTER.', {"field.spacing_in": 12.0}, TRADE),
    ("THE FIELD OF EVERY SHEAR WALL PANEL IS NAILED 12 INCHES ON CENTER.", {"field.spacing_in": 12.0}, TRADE),
    ("FIELD NAIL SPACING 1'-0\" O.C.", {"field.spacing_in": 12.0}, TRADE),
    ('INTERMEDIATE FRAMING: 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('SHEAR WALL SHEATHING SHALL BE FIELD NAILED AT 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('ALL SHEAR WALLS TO HAVE FIELD NAILING AT 12" O.C., TYP.', {"field.spacing_in": 12.0}, TRADE),
    ('PANEL EDGE NAILING SHALL BE 6" O.C. U.N.O.', {"edge.spacing_in": 6.0}, TRADE),
    ('NAIL ALL PANEL EDGES AT 6" O.C. MIN. U.N.O.', {"edge.spacing_in": 6.0}, TRADE),
    ('SHEAR WALL EDGE NAILING (E.N.) IS 4" O.C.', {"edge.spacing_in": 4.0}, TRADE),
    ('NAIL SPACING AT PANEL EDGES 3" O.C.', {"edge.spacing_in": 3.0}, TRADE),
    (
        'NAILS SHALL BE SPACED 6" O.C. AT PANEL EDGES AND 12" O.C. IN THE FIELD.',
        {"edge.spacing_in": 6.0, "field.spacing_in": 12.0},
        TRADE,
    ),
    (
        "NAIL PANELS 6 INCHES ON CENTER ALONG EDGES AND 12 INCHES ON CENTER ALONG INTERMEDIATE MEMBERS.",
        {"edge.spacing_in": 6.0, "field.spacing_in": 12.0},
        TRADE,
    ),
    ('SHEAR WALL NAILING: 6" O.C. EDGES / 12" O.C. FIELD U.N.O.', {"edge.spacing_in": 6.0, "field.spacing_in": 12.0}, TRADE),
    (
        'SHEATHING NAILED WITH 8d COMMON AT 6" O.C. EDGES AND 12" O.C. FIELD.',
        {
            "edge.spacing_in": 6.0,
            "field.spacing_in": 12.0,
            "fastener.kind": "nail",
            "fastener.style": "common",
            "fastener.penny": "8d",
        },
        TRADE,
    ),
    ("STAGGER EDGE NAILS.", {"edge.staggered": True}, TRADE),
    ("EDGE NAILS SHALL BE STAGGERED.", {"edge.staggered": True}, TRADE),
    ("NAILS AT ADJOINING PANEL EDGES SHALL BE STAGGERED.", {"edge.staggered": True}, TRADE),
    ("EDGE NAILING TO BE STAGGERED AT ALL SHEAR WALLS.", {"edge.staggered": True}, TRADE),
    ("STAGGER ALL NAILING ALONG PANEL EDGES.", {"edge.staggered": True}, TRADE),
    ("PANEL EDGE NAILS ARE STAGGERED", {"edge.staggered": True}, TRADE),
    ("STAGGER NAILING AT ABUTTING PANEL EDGES, TYP.", {"edge.staggered": True}, TRADE),
    ("STAGGERED NAILING AT ALL PANEL EDGES.", {"edge.staggered": True}, TRADE),
    ("ALL SHEAR WALLS SHALL BE BLOCKED.", {"framing.blocked": True}, TRADE),
    ("ALL SHEAR WALL PANEL EDGES SHALL BE BLOCKED.", {"framing.blocked": True}, TRADE),
    ("ALL SHEAR WALLS ARE BLOCKED WALLS.", {"framing.blocked": True}, TRADE),
    ("BLOCK ALL HORIZONTAL PANEL JOINTS.", {"framing.blocked": True}, TRADE),
    ("BLOCK ALL SHEAR WALL EDGES", {"framing.blocked": True}, TRADE),
    ("PROVIDE BLOCKING AT ALL PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("PROVIDE 2x BLOCKING BEHIND ALL PANEL JOINTS.", {"framing.blocked": True}, TRADE),
    ("PROVIDE SOLID BLOCKING AT ALL UNSUPPORTED EDGES OF SHEAR PANELS.", {"framing.blocked": True}, TRADE),
    ("BLOCKING IS REQUIRED AT ALL PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("ALL SHEAR WALLS SHALL HAVE BLOCKED PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("ALL PLYWOOD PANEL EDGES SHALL FALL ON FRAMING OR BLOCKING.", {"framing.blocked": True}, TRADE),
    ("ALL SHEATHING EDGES SHALL BE SUPPORTED BY STUDS, PLATES OR BLOCKING.", {"framing.blocked": True}, TRADE),
    ("ALL EDGES OF SHEAR WALL SHEATHING SHALL BE BLOCKED WITH 2x FLAT BLOCKING.", {"framing.blocked": True}, TRADE),
    ("SHEAR WALLS ARE BLOCKED AT ALL PANEL EDGES U.N.O.", {"framing.blocked": True}, TRADE),
    ("SHEAR WALL PANELS: ALL EDGES BLOCKED.", {"framing.blocked": True}, TRADE),
    ("BLOCK ALL EDGES, TYP.", {"framing.blocked": True}, TRADE),
    ("SHEAR WALL EDGES ARE BLOCKED.", {"framing.blocked": True}, TRADE),
    ("BLOCK UNSUPPORTED PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("ALL EDGES OF PANELS SHALL BE BLOCKED U.N.O.", {"framing.blocked": True}, TRADE),
    ("ALL PANEL EDGES REQUIRE BLOCKING.", {"framing.blocked": True}, TRADE),
    ("SHEAR WALLS ARE UNBLOCKED.", {"framing.blocked": False}, TRADE),
    ("BLOCKING OF PANEL EDGES IS NOT REQUIRED.", {"framing.blocked": False}, TRADE),
    ("NO BLOCKING REQUIRED AT PANEL EDGES.", {"framing.blocked": False}, TRADE),
    ("PANEL EDGES NEED NOT BE BLOCKED.", {"framing.blocked": False}, TRADE),
    ("ALL SHEAR WALLS ARE SHEATHED ON ONE SIDE U.N.O.", {"sheathing.faces": 1}, TRADE),
    ("SHEATHING ON ONE FACE ONLY.", {"sheathing.faces": 1}, TRADE),
    ("PANELS ARE ON ONE FACE OF THE WALL.", {"sheathing.faces": 1}, TRADE),
    ("SHEATHE ONE SIDE OF WALL UNLESS NOTED OTHERWISE.", {"sheathing.faces": 1}, TRADE),
    ("PLYWOOD ONE SIDE TYP. U.N.O.", {"sheathing.faces": 1}, TRADE),
    ("ALL SHEAR PANELS ONE SIDE UNLESS NOTED.", {"sheathing.faces": 1}, TRADE),
    ("SHEAR WALLS HAVE SHEATHING ON BOTH SIDES.", {"sheathing.faces": 2}, TRADE),
    ("SHEATHE BOTH FACES OF ALL SHEAR WALLS.", {"sheathing.faces": 2}, TRADE),
    ("INSTALL SHEATHING ON EACH FACE OF WALL.", {"sheathing.faces": 2}, TRADE),
    ("ALL NAILS ARE COMMON.", {"fastener.style": "common"}, TRADE),
    ("ALL SHEAR WALL NAILS SHALL BE COMMON NAILS.", {"fastener.style": "common"}, TRADE),
    ("NAILS SHALL BE COMMON WIRE.", {"fastener.style": "common"}, TRADE),
    ("NAILS FOR SHEAR WALLS SHALL BE COMMON WIRE NAILS.", {"fastener.style": "common"}, TRADE),
    ("COMMON NAILS SHALL BE USED AT ALL SHEAR WALLS.", {"fastener.style": "common"}, TRADE),
    ("USE COMMON NAILS ONLY.", {"fastener.style": "common"}, TRADE),
    ("NAILS INDICATED ARE COMMON NAILS U.N.O.", {"fastener.style": "common"}, TRADE),
    (
        'SHEAR WALL NAILS: 8d COMMON (0.131" DIA. x 2 1/2").',
        {
            "fastener.kind": "nail",
            "fastener.penny": "8d",
            "fastener.style": "common",
            "fastener.diameter_in": 0.131,
            "fastener.length_in": 2.5,
        },
        TRADE,
    ),
    (
        "ALL SHEAR WALL NAILING SHALL BE 10d COMMON NAILS.",
        {"fastener.kind": "nail", "fastener.penny": "10d", "fastener.style": "common"},
        TRADE,
    ),
    (
        'NAILS: 0.131" DIA. x 2-1/2" LONG.',
        {"fastener.kind": "nail", "fastener.diameter_in": 0.131, "fastener.length_in": 2.5},
        TRADE,
    ),
    (
        'NAILS SHALL BE 0.148"Ø x 3" COMMON.',
        {"fastener.kind": "nail", "fastener.style": "common", "fastener.diameter_in": 0.148, "fastener.length_in": 3.0},
        TRADE,
    ),
    ('NAILS ARE 2-1/2" x 0.131".', {"fastener.kind": "nail", "fastener.diameter_in": 0.131, "fastener.length_in": 2.5}, TRADE),
    ("ALL NAILS SHALL BE GALVANIZED BOX.", {"fastener.style": "galvanized box"}, TRADE),
    (
        'ANCHOR BOLTS SHALL BE EMBEDDED 7" MIN. INTO CONCRETE.',
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0},
        TRADE,
    ),
    ("MINIMUM ANCHOR BOLT EMBEDMENT: 7 INCHES.", {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('A.B. EMBEDMENT = 7" MIN.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('SILL BOLTS: 7" MIN. EMBED.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('ALL ANCHOR BOLTS TO HAVE 7" MIN. EMBEDMENT.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('EMBED ALL ANCHOR BOLTS A MINIMUM OF 7" IN CONCRETE.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('PROVIDE 7" MIN. EMBEDMENT AT ALL SILL BOLTS.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    (
        'EMBEDMENT OF SILL ANCHOR BOLTS IN CONCRETE SHALL BE 7" MINIMUM.',
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0},
        TRADE,
    ),
    ('ANCHOR BOLT EMBED DEPTH 9".', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 9.0}, TRADE),
    (
        "ANCHOR BOLTS SHALL HAVE A MINIMUM EMBEDMENT OF 7 INCHES INTO THE FOUNDATION.",
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0},
        TRADE,
    ),
    (
        'PROVIDE 3"x3"x1/4" PLATE WASHERS AT ALL ANCHOR BOLTS.',
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.25)},
        TRADE,
    ),
    (
        "ALL SILL BOLTS SHALL HAVE 3x3x0.229 PLATE WASHERS.",
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.229)},
        TRADE,
    ),
    ('PLATE WASHERS SHALL BE 3" x 3" x 0.229" MINIMUM.', {"anchors.washer_in": (3.0, 3.0, 0.229)}, TRADE),
    (
        "USE 0.229x3x3 PL WASHERS AT SHEAR WALL A.B.",
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.229)},
        TRADE,
    ),
    (
        'ALL SHEAR WALL ANCHOR BOLTS REQUIRE 1/4"x3"x3" PLATE WASHERS.',
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.25)},
        TRADE,
    ),
    (
        "STEEL PLATE WASHERS 3 INCHES SQUARE BY 0.229 INCH THICK AT EACH ANCHOR BOLT.",
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.229)},
        TRADE,
    ),
    ('WASHERS: 3" SQ. x 1/4".', {"anchors.washer_in": (3.0, 3.0, 0.25)}, TRADE),
    ("INSTALL 3x3x1/4 SQUARE PLATE WASHER UNDER EACH NUT.", {"anchors.washer_in": (3.0, 3.0, 0.25)}, TRADE),
    ('SILL ANCHOR BOLTS SHALL BE 5/8" DIAMETER U.N.O.', {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, TRADE),
    (
        'ALL ANCHOR BOLTS 5/8"Ø x 10" W/ 7" EMBED.',
        {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625, "anchors.embedment_in": 7.0},
        TRADE,
    ),
    ("ANCHOR BOLTS ARE 5/8 INCH DIAMETER.", {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625}, TRADE),
    (
        'SILL PLATES SHALL BE ANCHORED WITH 5/8" DIA. ANCHOR BOLTS AT 48" O.C. MAX. U.N.O.',
        {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625, "anchors.spacing_in": 48.0},
        TRADE,
    ),
    (
        'USE 5/8" A.B. AT 4\'-0" O.C. U.N.O.',
        {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.625, "anchors.spacing_in": 48.0},
        TRADE,
    ),
    (
        'FOUNDATION BOLTS 1/2" DIA. @ 32" O.C. TYP.',
        {"anchors.kind": "anchor bolt", "anchors.diameter_in": 0.5, "anchors.spacing_in": 32.0},
        TRADE,
    ),
    ("FRAMING AT ADJOINING PANEL EDGES SHALL BE 3x MIN.", {"framing.panel_edge": "3x"}, TRADE),
    ("PROVIDE 3x MEMBERS AT ALL ADJOINING PANEL EDGES.", {"framing.panel_edge": "3x"}, TRADE),
    ("STUDS AT ABUTTING PANEL EDGES: 2x MIN.", {"framing.panel_edge": "2x"}, TRADE),
    ("STUDS RECEIVING ADJOINING PANEL EDGES SHALL BE 3x.", {"framing.panel_edge": "3x"}, TRADE),
    ("ALL STUDS AT PANEL JOINTS TO BE 3x NOMINAL.", {"framing.panel_edge": "3x"}, TRADE),
    ("3x STUDS OR DOUBLE 2x STUDS AT ALL PANEL JOINTS.", {"framing.panel_edge": "3x or 2-2x"}, TRADE),
    ("PROVIDE 3x STUD AT ALL PANEL JOINTS.", {"framing.panel_edge": "3x"}, TRADE),
    ("2x STUDS AT PANEL EDGES U.N.O.", {"framing.panel_edge": "2x"}, TRADE),
    ("3x OR (2)2x STUDS AT ALL ADJOINING PANEL EDGES", {"framing.panel_edge": "3x or 2-2x"}, TRADE),
    ("(2)2x OR 3x STUDS AT ALL ADJOINING PANEL EDGES", {"framing.panel_edge": "2-2x or 3x"}, TRADE),
    ("PROVIDE (2) 2x STUDS AT ALL ADJOINING PANEL EDGES", {"framing.panel_edge": "2-2x"}, TRADE),
    ("FRAMING MEMBERS AT PANEL JOINTS ARE 3 INCH NOMINAL.", {"framing.panel_edge": "3x"}, TRADE),
    ("ALL SHEAR WALL SILL PLATES SHALL BE 3x P.T.", {"framing.sill": "3x"}, TRADE),
    ("SILLS SHALL BE 2x PRESSURE TREATED U.N.O.", {"framing.sill": "2x"}, TRADE),
    ("USE 3x MUDSILL AT ALL SHEAR WALLS", {"framing.sill": "3x"}, TRADE),
    ("SILL PLATES ARE 2x6 P.T.", {"framing.sill": "2x"}, TRADE),
    ("MUDSILL: 2x P.T.D.F.", {"framing.sill": "2x"}, TRADE),
    ("SHEAR WALL VALUES ARE ALLOWABLE STRESS (ASD).", {"capacity.method": "ASD"}, DRAWN),
    ("CAPACITIES SHOWN ARE ALLOWABLE (ASD) SEISMIC VALUES.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("SHEAR VALUES LISTED ARE ASD.", {"capacity.method": "ASD"}, TRADE),
    ("ALL CAPACITIES ARE ASD LEVEL SEISMIC LOADS.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("VALUES ARE FOR SEISMIC LOADING.", {"capacity.load": "seismic"}, TRADE),
    ("SHEAR CAPACITY IS FOR WIND, ASD.", {"capacity.method": "ASD", "capacity.load": "wind"}, TRADE),
    (
        "LISTED SHEARS ARE ALLOWABLE STRESS DESIGN VALUES FOR SEISMIC.",
        {"capacity.method": "ASD", "capacity.load": "seismic"},
        TRADE,
    ),
    ("CAPACITIES ARE LRFD (STRENGTH DESIGN) VALUES.", {"capacity.method": "LRFD"}, TRADE),
    ("TABULATED SHEARS ARE NOMINAL UNIT SHEARS.", {"capacity.method": "nominal"}, TRADE),
    ("ALLOWABLE SHEARS ARE ASD BASED ON SEISMIC.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("PLF VALUES ARE ASD.", {"capacity.method": "ASD"}, TRADE),
    ("SHEARS ARE BASED ON ALLOWABLE STRESS DESIGN.", {"capacity.method": "ASD"}, TRADE),
    (
        "SCHEDULE CAPACITIES ARE SEISMIC ALLOWABLE STRESS DESIGN LOADS.",
        {"capacity.method": "ASD", "capacity.load": "seismic"},
        TRADE,
    ),
    ('NAIL SOLE PLATES WITH 16d AT 6" O.C. U.N.O.', {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 6.0}, TRADE),
    ('BOTTOM PLATE NAILING: 16d @ 4" O.C. AT SHEAR WALLS.', {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 4.0}, TRADE),
    (
        'SOLE PLATES OF SHEAR WALLS SHALL BE NAILED TO RIM WITH 16d AT 6" O.C.',
        {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 6.0},
        TRADE,
    ),
    (
        'AT SHEAR WALLS NAIL BOTTOM PLATE TO RIM JOIST W/ 16d @ 8" O.C.',
        {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 8.0},
        TRADE,
    ),
    ("SHEAR WALL SOLE PLATE NAILS SHALL BE 16d.", {"bottom_plate.penny": "16d"}, TRADE),
    ("ALL NAILS FOR SHEAR WALLS TO BE COMMON, U.N.O.", {"fastener.style": "common"}, TRADE),
    ("NAILS CALLED OUT IN THE SCHEDULE ARE COMMON NAILS.", {"fastener.style": "common"}, TRADE),
    ("ALL NAILS NOTED ARE COMMON WIRE NAILS, NOT BOX.", {"fastener.style": "common"}, TRADE),
    ("SHEATHING NAILS: 10d COMMON.", {"fastener.kind": "nail", "fastener.penny": "10d", "fastener.style": "common"}, TRADE),
    ("USE FULL HEAD COMMON NAILS FOR ALL SHEAR WALL SHEATHING.", {"fastener.style": "common"}, TRADE),
    (
        "FASTENERS ARE 8d COMMON NAILS (0.131 x 2 1/2).",
        {
            "fastener.kind": "nail",
            "fastener.penny": "8d",
            "fastener.style": "common",
            "fastener.diameter_in": 0.131,
            "fastener.length_in": 2.5,
        },
        TRADE,
    ),
    ('INTERMEDIATE SUPPORTS: NAIL AT 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('FIELD NAILING OF ALL TYPES IS 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('FIELD NAILING TO BE 12" ON CENTER, TYPICAL AT ALL WALL TYPES.', {"field.spacing_in": 12.0}, TRADE),
    ('NAILING AT INTERMEDIATE FRAMING MEMBERS SHALL BE 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ('NAILS AT INTERMEDIATE STUDS @ 12" O.C. TYP.', {"field.spacing_in": 12.0}, TRADE),
    ('12" O.C. AT ALL INTERMEDIATE STUDS', {"field.spacing_in": 12.0}, TRADE),
    ('PANELS ARE NAILED AT 12" O.C. IN THE FIELD.', {"field.spacing_in": 12.0}, TRADE),
    ("THE NAIL SPACING AT INTERMEDIATE FRAMING IS 12 IN. O.C. FOR ALL TYPES.", {"field.spacing_in": 12.0}, TRADE),
    ('NAIL FIELD AT 12".', {"field.spacing_in": 12.0}, TRADE),
    ('PROVIDE FIELD NAILING @ 12" O.C. MAX.', {"field.spacing_in": 12.0}, TRADE),
    ('FIELD NAILING 12" O.C. (TYP. ALL TYPES).', {"field.spacing_in": 12.0}, TRADE),
    ('SHEAR PANELS SHALL BE NAILED TO ALL INTERMEDIATE STUDS AT 12" O.C.', {"field.spacing_in": 12.0}, TRADE),
    ("ALL PANEL JOINTS SHALL BE BLOCKED.", {"framing.blocked": True}, TRADE),
    ("ALL HORIZONTAL JOINTS SHALL BE BLOCKED AND EDGE NAILED.", {"framing.blocked": True}, TRADE),
    ("SOLID BLOCK ALL UNSUPPORTED PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("ALL PANEL EDGES TO BE BACKED WITH 2x OR WIDER FRAMING.", {"framing.blocked": True}, TRADE),
    ("PROVIDE BLOCKING AT ALL HORIZONTAL PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("ALL SHEAR WALL PANEL JOINTS SHALL OCCUR OVER STUDS OR BLOCKING.", {"framing.blocked": True}, TRADE),
    ("ALL WALL TYPES ARE BLOCKED.", {"framing.blocked": True}, TRADE),
    ("ALL TYPES: BLOCK ALL PANEL EDGES.", {"framing.blocked": True}, TRADE),
    ("EDGES BLOCKED AT ALL TYPES.", {"framing.blocked": True}, TRADE),
    ("SHEATHING IS APPLIED TO ONE SIDE OF THE WALL ONLY.", {"sheathing.faces": 1}, TRADE),
    ("PANELS ONE SIDE U.N.O.", {"sheathing.faces": 1}, TRADE),
    ("SHEATHING IS ON ONE SIDE OF WALL FOR ALL TYPES.", {"sheathing.faces": 1}, TRADE),
    ("ALL WALLS SHEATHED ONE FACE.", {"sheathing.faces": 1}, TRADE),
    ("PANELS SHALL BE INSTALLED ON ONE FACE.", {"sheathing.faces": 1}, TRADE),
    ('SILL BOLT EMBEDMENT 7" MIN.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('ANCHOR BOLT MINIMUM EMBEDMENT IN CONCRETE IS 7".', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('ANCHOR BOLTS: MIN. 7" EMBED, TYP.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('MIN. EMBEDMENT: 7"', {"anchors.embedment_in": 7.0}, TRADE),
    (
        'SILL BOLTS ARE ANCHOR BOLTS CAST 7" INTO THE CONCRETE.',
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0},
        DRAWN,
    ),
    ("BLK'G IS REQUIRED AT ALL PNL. EDGES NOT FALLING ON A STUD OR PLATE.", {"framing.blocked": True}, DRAWN),
    ('EMBED EPOXY-SET RODS 6" IN SOUND CONCRETE.', {"anchors.embedment_in": 6.0}, DRAWN),
    ("SOLE PLATES AT SLAB 2x TREATED SOUTHERN PINE.", {"framing.sill": "2x"}, DRAWN),
    (
        'EMBED 7" MIN. 1/4" x 3" SQ. PLATE WASHERS.',
        {"anchors.embedment_in": 7.0, "anchors.washer_in": (3.0, 3.0, 0.25)},
        DRAWN,
    ),
    (
        'SCREW ANCHORS AT PODIUM: 5/8" DIAMETER, 5" EMBEDMENT, 1/4" x 3" x 3" PLATE WASHER.',
        {
            "anchors.kind": "screw anchor",
            "anchors.diameter_in": 0.625,
            "anchors.embedment_in": 5.0,
            "anchors.washer_in": (3.0, 3.0, 0.25),
        },
        DRAWN,
    ),
    ("EN = EDGE NAILING AT ALL PANEL EDGES, WHICH SHALL BE BLOCKED.", {"framing.blocked": True}, DRAWN),
    ("EDGES OF PANELS IN SHEAR WALLS BEAR ON FRAMING OR BLOCKING (BLOCKED).", {"framing.blocked": True}, DRAWN),
    (
        "SILL ANCHORS SHALL BE ANCHOR BOLTS EMBEDDED 7 IN. IN CONCRETE.",
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0},
        TRADE,
    ),
    ('SET ANCHOR BOLTS WITH 7" MIN. EMBEDMENT.', {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}, TRADE),
    ('BOLTS SHALL HAVE 3" x 3" x 1/4" PLATE WASHERS.', {"anchors.washer_in": (3.0, 3.0, 0.25)}, TRADE),
    (
        "EACH ANCHOR BOLT SHALL RECEIVE A 3 x 3 x 0.229 IN. PLATE WASHER.",
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.229)},
        TRADE,
    ),
    (
        'PROVIDE PL 1/4" x 3" x 3" WASHER AT EACH A.B.',
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.25)},
        TRADE,
    ),
    (
        "WASHERS AT SILL BOLTS SHALL BE 3 IN. x 3 IN. x 0.229 IN. PLATES.",
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.229)},
        TRADE,
    ),
    (
        'USE 3" SQUARE x 1/4" THICK WASHERS AT ALL SILL BOLTS.',
        {"anchors.kind": "anchor bolt", "anchors.washer_in": (3.0, 3.0, 0.25)},
        TRADE,
    ),
    ("ALL ANCHORS LISTED ARE ANCHOR BOLTS.", {"anchors.kind": "anchor bolt"}, TRADE),
    ("SILL ANCHORS ARE ANCHOR BOLTS U.N.O.", {"anchors.kind": "anchor bolt"}, TRADE),
    ("STUDS AT ADJOINING PANEL EDGES SHALL BE 2x UNLESS NOTED OTHERWISE.", {"framing.panel_edge": "2x"}, TRADE),
    ("PROVIDE 3x STUDS WHERE PANELS ABUT.", {"framing.panel_edge": "3x"}, TRADE),
    ("FRAMING AT ABUTTING PANEL EDGES IS 3x.", {"framing.panel_edge": "3x"}, TRADE),
    ("ABUTTING PANEL EDGES SHALL BE SUPPORTED ON 3x FRAMING.", {"framing.panel_edge": "3x"}, TRADE),
    ("SINGLE 3x OR DOUBLE 2x STUDS AT ABUTTING PANEL EDGES.", {"framing.panel_edge": "3x or 2-2x"}, TRADE),
    ("USE 3x P.T. SILL PLATES AT ALL SHEAR WALLS.", {"framing.sill": "3x"}, TRADE),
    ("SHEAR WALL MUDSILLS SHALL BE 3x.", {"framing.sill": "3x"}, TRADE),
    ("SILL PLATE SHALL BE 2x PRESSURE TREATED.", {"framing.sill": "2x"}, TRADE),
    ("VALUES SHOWN ARE ASD SEISMIC.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("CAPACITIES ARE ALLOWABLE STRESS LEVEL FOR SEISMIC.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("SHEAR CAPACITIES ARE IN PLF, ASD, FOR SEISMIC LOADS.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    ("STATED CAPACITIES ARE ASD; SEISMIC.", {"capacity.method": "ASD", "capacity.load": "seismic"}, TRADE),
    (
        "UNIT SHEARS ARE ALLOWABLE STRESS DESIGN (ASD) FOR SEISMIC LOADING.",
        {"capacity.method": "ASD", "capacity.load": "seismic"},
        TRADE,
    ),
    ("ALL SHEAR VALUES ARE ALLOWABLE (ASD).", {"capacity.method": "ASD"}, TRADE),
    ("ALLOWABLE SHEARS ARE FOR SEISMIC LOADS.", {"capacity.load": "seismic"}, TRADE),
    ('SOLE PLATE NAILING SHALL BE 16d AT 6" O.C.', {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 6.0}, TRADE),
    (
        'NAIL BOTTOM PLATE TO FLOOR FRAMING WITH 16d @ 6" O.C.',
        {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 6.0},
        TRADE,
    ),
    (
        'FASTEN SOLE PLATES TO RIM WITH 16d @ 4" O.C. AT SHEAR WALLS.',
        {"bottom_plate.penny": "16d", "bottom_plate.spacing_in": 4.0},
        TRADE,
    ),
    ("SHEAR WALL EDGE NAILS SHALL BE STAGGERED.", {"edge.staggered": True}, TRADE),
    ("STAGGER PANEL EDGE NAILING.", {"edge.staggered": True}, TRADE),
    ("ALL EDGE NAILING SHALL BE STAGGERED.", {"edge.staggered": True}, TRADE),
    ("EDGE NAILS STAGGERED.", {"edge.staggered": True}, TRADE),
]


@pytest.mark.parametrize(("text", "says", "source"), SAYS)
def test_says(text: str, says: dict[str, object], source: str) -> None:
    read = note(text)
    assert {f.field: f.value for f in read.found} == says, source
    assert (read.marks, read.only_penny, read.only_scope, read.one_place) == ((), None, None, False), "it is for all walls"


SILENT = [
    "(2) 2x STUDS AT ALL ADJOINING PANEL EDGES",
    'FLOOR PANELS: FIELD NAILING 10" O.C.',
    'ROOF SHEATHING FIELD NAILING SHALL BE 12" O.C.',
    'AT NON-SHEAR WALLS NAIL SHEATHING 6" EDGES AND 12" FIELD.',
    'WALL SHEATHING NOT MARKED AS SHEAR WALL: 6" EDGES, 12" FIELD.',
    'SPECIAL INSPECTION OF SHEAR WALL NAILING IS REQUIRED WHERE EDGE NAILING IS 4" O.C. OR LESS.',
    'FIELD NAILING MAY BE 12" O.C.',
    'FIELD NAILING SHALL NOT EXCEED 12" O.C. WHERE STUDS ARE AT 16" O.C.',
    'WHERE STUDS ARE SPACED 24" O.C., FIELD NAILING SHALL BE 6" O.C.',
    'FOR PANELS LESS THAN 15/32", FIELD NAIL AT 6" O.C.',
    'EDGE NAIL TO ALL HOLD-DOWN POSTS AT 3" O.C.',
    "DO NOT STAGGER NAILS AT PANEL EDGES.",
    "STAGGER PANEL JOINTS.",
    "STAGGER NAILS IN TWO ROWS AT (2)2x STUDS.",
    "BLOCK JOISTS AT BEARING.",
    'BLOCKING BETWEEN JOISTS OVER SHEAR WALLS SHALL BE NAILED WITH 10d AT 6" O.C.',
    "PROVIDE FIRE BLOCKING AT 10 FT O.C.",
    "BLOCKING NOT REQUIRED FOR GYPSUM BOARD WALLS.",
    "BOTH SIDES OF WALL SHALL BE INSPECTED.",
    "WALLS WITH PANELS ON BOTH FACES: OFFSET JOINTS.",
    "EDGE NAIL BOTH SIDES OF JOINT.",
    'ANCHOR BOLTS AT NON-BEARING WALLS 1/2" DIA. @ 72" O.C.',
    'HOLD-DOWN ANCHORS SHALL HAVE 14" EMBEDMENT.',
    'THREADED RODS FOR HOLD-DOWNS: 5/8" DIA.',
    "EMBEDMENT OF EPOXY ANCHORS PER MANUFACTURER.",
    'EMBED BEAM POCKETS 6" INTO CONCRETE.',
    "SLOTTED WASHERS MAY BE USED WITH 3x3x1/4 PLATES.",
    'PLATE WASHERS SHALL EXTEND TO WITHIN 1/2" OF THE SHEATHED EDGE.',
    'PROVIDE A MINIMUM OF TWO BOLTS PER SILL PIECE, 4" FROM ENDS.',
    "2x FRAMING MAY BE USED IN LIEU OF 3x AT PANEL EDGES.",
    "NO 3x FRAMING REQUIRED AT PANEL EDGES.",
    "3x FRAMING IS NOT REQUIRED AT ADJOINING PANEL EDGES.",
    "SILL PLATES AT NON-SHEAR WALLS 2x P.T.",
    "3x SILL WHERE SHEAR EXCEEDS 350 PLF.",
    "ASD LOAD COMBINATIONS PER ASCE 7.",
    "SEISMIC DESIGN CATEGORY D.",
    "ALLOWABLE SOIL BEARING 1500 PSF (ASD).",
    "WIND LOADS ARE ASD: 110 MPH.",
    "HOLD-DOWN CAPACITIES ARE ASD.",
    "SHEAR VALUES ARE NOT ASD.",
    "NAILS SHALL NOT BE BOX.",
    "BOX NAILS SHALL NOT BE SUBSTITUTED FOR COMMON NAILS.",
    '16d COMMON NAILS AT BUILT-UP POSTS @ 6" O.C.',
    'NAIL TOP PLATES WITH 16d @ 16" O.C.',
    "NAIL STUDS TO SILL PLATE WITH (4) 8d TOENAILS.",
    "ALL NAILS SHALL BE HOT-DIPPED GALVANIZED IN TREATED WOOD.",
    'EDGE NAIL SHEATHING TO DRAG STRUTS AT 4" O.C.',
    'AT LINE 4 FIELD NAIL AT 6" O.C.',
    'FIELD NAILING IS NOT 12" O.C.',
    'PROVIDE 3" CLEAR COVER AT FIELD BENT BARS 12" O.C.',
    "EXISTING SHEAR WALLS ARE BLOCKED.",
    "VERIFY THAT ALL PANEL EDGES ARE BLOCKED.",
    "NAILING OF SHEAR WALLS SHALL BE INSPECTED BEFORE COVERING.",
    "SHEAR WALL SHEATHING IS CONTINUOUS FROM SILL TO TOP PLATE.",
    "HOLD-DOWNS ARE AT EACH END OF SHEAR WALLS, SEE PLAN.",
    'AT SHEAR WALLS WITH HOLD-DOWNS USE 5/8" ANCHOR BOLTS AT 16" O.C.',
    "UNBLOCKED DIAPHRAGM.",
    "ALL ROOF PANEL EDGES SHALL BE BLOCKED.",
    'STAGGER EDGE NAILS SPACED 3" O.C.',
    'USE 3x STUDS AT PANEL EDGES NAILED AT 2" O.C.',
    '3x SILL PLATES FOR 2" EDGE NAILING.',
    "BLOCK ALL PANEL EDGES AT OPENINGS.",
    'EDGE NAILING 3" O.C. AT CORNERS.',
    "ALL PANEL EDGES OF WALLS ABOVE GRADE ARE TO BE KEPT DRY.",
    "PROVIDE SHEAR PANELS ON EACH SIDE OF OPENING.",
    "CAPACITIES IN PARENTHESES ARE FOR WIND.",
    "INCREASE CAPACITIES 40 PERCENT FOR WIND.",
    "USE 10d COMMON NAILS FOR 15/32 PANELS.",
    "TYPES WITH A STAR ARE SHEATHED ON BOTH SIDES.",
    "A DOUBLED MARK MEANS PANELS ON BOTH FACES.",
    "DOUBLE MARKS (33) ARE SHEATHED ON BOTH FACES.",
    "BLOCK ALL PANEL EDGES; ALL OTHERS UNBLOCKED.",
    "2x FRAMING IS PERMITTED AT ADJOINING PANEL EDGES.",
    "HOLD-DOWNS ARE REQUIRED AT EACH END OF ALL SHEAR WALLS.",
    "NO HOLD-DOWNS ARE REQUIRED U.N.O. ON PLAN.",
    'NAIL SCHEDULE PER CODE TABLE. FLOOR SHEATHING EDGES 6" FIELD 12".',
    'AT GABLE END WALLS FIELD NAIL AT 12" O.C. ROOF SHEATHING',
    "PROVIDE BLOCKING AT PLATE SPLICES.",
    "STAIR WALL SHEATHING IS BLOCKED.",
    "SHEATHE BOTH SIDES WHERE SHOWN ON PLAN.",
    "NAILS SHALL NOT BE OVERDRIVEN.",
    'NAILS SHALL BE PLACED 3/8" FROM EDGES, STAGGERED.',
    "PANEL EDGES OF ROOF AND FLOOR NEED NOT BE BLOCKED.",
    'BOLTS AT COLUMNS 5/8" DIA. @ 12" O.C.',
    'LAG 5/8" DIA. @ 16" O.C. AT LEDGER.',
    "FOR GYPSUM SHEATHED WALLS USE 5d COOLER NAILS.",
    'EDGE NAIL SPACING OF 2" REQUIRES 3x STUDS AT PANEL EDGES.',
    'EDGE NAILING OF 3" AND CLOSER REQUIRES STAGGERED NAILS.',
    "CONTRACTOR MAY SUBSTITUTE (2)2x STUDS FOR 3x STUDS AT PANEL EDGES.",
    'IF 2x SILLS ARE USED, BOLTS AT 16" O.C.',
    'DRILL AND EPOXY 5/8" RODS WITH 5" EMBEDMENT AT MISSED ANCHOR BOLTS.',
    'SIZE OF HOLES IN SILL SHALL BE 1/16" LARGER THAN 5/8" BOLT.',
    "SHEAR VALUES MAY BE DOUBLED FOR PANELS ON BOTH SIDES.",
    "WALLS WITH SHEATHING BOTH SIDES: DOUBLE THE VALUES.",
    "SHEAR WALL LENGTHS ARE SHOWN ON PLAN. 12'-0\" MIN.",
]


@pytest.mark.parametrize("text", SILENT)
def test_fills_no_wall(text: str) -> None:
    assert not [f for c in note(text).clauses if not (c.one_place or c.only_scope) for f in c.found], TRADE


ALL_WALLS = [
    ("PANEL EDGES OF SHEARWALLS SHALL BE BLOCKED.", {"framing.blocked": True}, False),
    ("SHEATHE ONE SIDE OF SHEARWALLS UNLESS THE SCHEDULE SAYS BOTH SIDES.", {"sheathing.faces": 1}, True),
    (
        'ANCHOR BOLT EMBEDMENT AT SHEAR WALLS 7" WITH 3" x 3" x 1/4" PLATE WASHERS.',
        {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0, "anchors.washer_in": (3.0, 3.0, 0.25)},
        False,
    ),
    (
        "STAPLES ARE 16 GAGE, 1-1/2 INCHES LONG WITH A 7/16 INCH CROWN.",
        {"fastener.kind": "staple", "fastener.gauge": 16, "fastener.length_in": 1.5},
        False,
    ),
    ("SHEATHING GOES ON ONE SIDE OF THE WALL.", {"sheathing.faces": 1}, False),
]


@pytest.mark.parametrize(("text", "values", "yields"), ALL_WALLS)
def test_fills_all_walls(text: str, values: dict[str, object], yields: bool) -> None:
    """Common practice, no source: seen on invented plan sets that nobody wrote for this grammar."""
    (clause,) = note(plain([text]).text).clauses
    assert ({f.field: f.value for f in clause.found}, clause.yields) == (values, yields)


STAGGERED_NAILS, WIDE = ("edge.staggered", True), ("framing.panel_edge", "3x")
NAILED_SO = [
    ('STAGGER NAILS WHERE EDGE SPACING IS 2" O.C.', 2.0, False, [STAGGERED_NAILS], TRADE),
    ('3x FRAMING IS REQUIRED AT PANEL EDGES FOR TYPES WITH 2" EDGE NAILING.', 2.0, False, [WIDE], TRADE),
    ('STAGGER NAILS AT 2" SPACING.', 2.0, False, [STAGGERED_NAILS], TRADE),
    ('PROVIDE 3x FRAMING AT PANEL EDGES WITH 2" NAILING.', 2.0, False, [WIDE], TRADE),
    ('WHERE EDGE SPACING IS 2" O.C. PROVIDE 3x FRAMING AT ABUTTING PANEL EDGES.', 2.0, False, [WIDE], TRADE),
    (
        'FOR WALLS WITH 2" EDGE NAILING: PROVIDE 3x FRAMING AT PANEL EDGES. STAGGER NAILS.',
        2.0,
        False,
        [WIDE],
        "the next goes on",
    ),
    ('PROVIDE 3x STUDS AT ABUTTING PANEL EDGES WHERE EDGE NAILING IS 3" O.C. OR LESS.', 3.0, True, [WIDE], TRADE),
]


@pytest.mark.parametrize(("text", "spacing", "or_less", "values", "source"), NAILED_SO)
def test_speaks_of_walls_nailed_so(
    text: str, spacing: float, or_less: bool, values: list[tuple[str, object]], source: str
) -> None:
    clauses = [c for c in note(text).clauses if c.found]
    assert [(f.field, f.value) for c in clauses for f in c.found] == values, source
    assert [c.only_edge and c.only_edge[:2] for c in clauses] == [(spacing, or_less)], source


def test_a_limit_with_a_nail_size_in_it_stays_a_condition() -> None:
    """2 in, or 10d at 3 in: which rows that means is not read."""
    text = 'WHERE NAILS ARE SPACED AT 2" O.C. OR 10d AT 3" O.C., FRAMING AT ADJOINING PANEL EDGES SHALL BE 3x.'
    assert [c.found for c in note(text).clauses] == [()]


FOUR, LETTERED = ("1", "2", "3", "4"), ("A", "B", "C", "D")
DOUBLED = ("6", "4", "3", "2", "33", "22")
BOTH, ONE = {"sheathing.faces": 2}, {"sheathing.faces": 1}
SILL_3, SILL_2, STAGGERED, BLOCKED = (
    {"framing.sill": "3x"},
    {"framing.sill": "2x"},
    {"edge.staggered": True},
    {"framing.blocked": True},
)
FOR_SOME = [
    ("ALL PANEL EDGES OF WALLS M1, M2 AND M3 ARE BLOCKED.", ("M1", "M2", "M3"), [({"M1", "M2", "M3"}, BLOCKED)], DRAWN),
    (
        "A DOUBLED MARK (33, 22) MEANS THE SAME PANELS AND NAILS ON BOTH FACES; ALL OTHER TYPES HAVE PANELS ON ONE FACE.",
        DOUBLED,
        [({"33", "22"}, BOTH), ({"6", "4", "3", "2"}, ONE)],
        DRAWN,
    ),
    (
        "TYPES WITH A PRIME (') ARE SHEATHED BOTH SIDES; ALL OTHERS ONE SIDE.",
        ("4", "4'", "3", "3'"),
        [({"4'", "3'"}, BOTH), ({"4", "3"}, ONE)],
        DRAWN,
    ),
    ("EDGE NAILS OF TYPE 4 SHALL BE STAGGERED.", FOUR, [({"4"}, STAGGERED)], DRAWN),
    ("a. EDGE NAILS OF TYPE 4 SHALL BE STAGGERED.", FOUR, [({"4"}, STAGGERED)], DRAWN),
    ("4 AND 6 SHALL HAVE 3x SILLS.", ("4", "6", "3"), [({"4", "6"}, SILL_3)], TRADE),
    ("33 AND 22 ARE SHEATHED ON BOTH FACES.", DOUBLED, [({"33", "22"}, BOTH)], TRADE),
    ("4 SHALL BE SHEATHED ON BOTH SIDES.", FOUR, [({"4"}, BOTH)], "a mark, not the note's number"),
    ("A AND B: 3x SILL PLATES.", LETTERED, [({"A", "B"}, SILL_3)], TRADE),
    ("ALL TYPES EXCEPT 3 AND 4 SHALL HAVE 2x SILLS.", FOUR, [({"1", "2"}, SILL_2)], TRADE),
    ("ALL SHEAR WALLS EXCEPT TYPE D ARE BLOCKED.", LETTERED, [({"A", "B", "C"}, BLOCKED)], TRADE),
    ("TYPES 3 AND 4 ARE SHEATHED BOTH SIDES, ALL OTHERS ONE SIDE.", FOUR, [({"3", "4"}, BOTH), ({"1", "2"}, ONE)], TRADE),
    ("TYPE 3: SHEATH BOTH SIDES. ALL OTHER TYPES: SHEATH ONE SIDE.", FOUR, [({"3"}, BOTH), ({"1", "2", "4"}, ONE)], TRADE),
    ('MARKS ENDING IN "B" ARE SHEATHED BOTH SIDES.', ("4", "4B", "6", "6B"), [({"4B", "6B"}, BOTH)], TRADE),
    ("WALLS MARKED WITH AN ASTERISK (*) HAVE 3x SILL PLATES.", ("4", "4*"), [({"4*"}, SILL_3)], TRADE),
    ("A DOUBLED MARK MEANS PANELS ON BOTH FACES.", ("3", "33"), [({"33"}, BOTH)], TRADE),
    ("TYPES 1-3: BLOCKED.", FOUR, [({"1-3", "1", "2", "3"}, BLOCKED)], TRADE),
    ("TYPE 4' WALLS SHALL HAVE 3x SILLS.", ("4", "4'"), [({"4'"}, SILL_3)], TRADE),
    ("WALL TYPES 2, 3 AND 4*: 3x SILLS.", ("2", "3", "4", "4*"), [({"2", "3", "4*"}, SILL_3)], TRADE),
    ("NO HOLD-DOWNS ARE REQUIRED AT TYPES 1 AND 2.", FOUR, [({"1", "2"}, {"hold_down.marks": ()})], TRADE),
    ("TYPE 3: HOLD-DOWN HD4 EACH END.", FOUR, [({"3"}, {"hold_down.marks": ("HD4",)})], TRADE),
    ("HOLD-DOWNS AT SW2: KT-22 EA. END.", ("SW1", "SW2"), [({"SW2"}, {"hold_down.marks": ("KT-22",)})], TRADE),
    ("TYPES 1-4: BLOCKED. AT TYPE 3: 3x SILL.", FOUR, [({"1", "2", "3", "4", "1-4"}, BLOCKED), ({"3"}, SILL_3)], TRADE),
    (
        "SHEAR WALL TYPES 1 AND 2: BLOCK ALL EDGES; STAGGER EDGE NAILS.",
        FOUR,
        [({"1", "2"}, BLOCKED), ({"1", "2"}, STAGGERED)],
        TRADE,
    ),
    ("TYPE 3 SHALL HAVE 3x SILLS; ALL OTHERS ONE SIDE.", FOUR, [({"3"}, SILL_3)], "others than which: two rules"),
    (
        'TYPE 3 SHEAR WALLS: ANCHOR BOLTS AT 16" O.C. ALL OTHER WALLS: ANCHOR BOLTS AT 48" O.C.',
        FOUR,
        [({"3"}, {"anchors.kind": "anchor bolt", "anchors.spacing_in": 16.0})],
        "other walls may be no shear walls",
    ),
]


def told(clauses: tuple[Clause, ...]) -> list[tuple[set[str], dict[str, object]]]:
    return [(set(c.marks), {f.field: f.value for f in c.found}) for c in clauses if c.found]


@pytest.mark.parametrize(("text", "known", "says", "source"), FOR_SOME)
def test_for_some_types(text: str, known: tuple[str, ...], says: list[object], source: str) -> None:
    assert told(note(text, known).clauses) == says, source


@pytest.mark.parametrize(
    ("text", "known"),
    [
        ("TYPES WITH A PRIME (') ARE SHEATHED BOTH SIDES; ALL OTHERS ONE SIDE.", ()),
        ("TYPES WITH A PRIME (') ARE SHEATHED BOTH SIDES; ALL OTHERS ONE SIDE.", FOUR),
        ("A DOUBLED MARK (33, 22) MEANS THE SAME PANELS AND NAILS ON BOTH FACES; ALL OTHER TYPES ONE FACE.", ()),
        ("DOUBLED MARKS (33): PANELS ON BOTH FACES; STAGGER EDGE NAILS.", DOUBLED),
        ("ALL TYPES EXCEPT 9 SHALL HAVE 2x SILLS.", FOUR),
        ("WALLS MARKED WITH A STAR HAVE 3x SILLS.", FOUR),
        ("TYPE 4' WALLS SHALL HAVE 3x SILLS.", ()),
        ('TYPE "4" HAS 3x SILLS.', FOUR),
        ("WALL TYPE SW3 EACH END: HOLD-DOWN PER PLAN.", ("SW3",)),
    ],
)
def test_nobody_can_tell_which_types(text: str, known: tuple[str, ...]) -> None:
    assert told(note(text, known).clauses) == []


ALL = set[str]()
FIELD_12, COMMON = {"field.spacing_in": 12.0}, {"fastener.style": "common"}
BOLTS_7 = {"anchors.kind": "anchor bolt", "anchors.embedment_in": 7.0}
SEVERAL = [
    (
        '2.SHEAR WALL PANEL EDGES: BLOCKED, U.N.O. 3.A.B. AT SHEAR WALLS: 7" EMBED, WASHER 3x3x1/4.',
        [(ALL, BLOCKED), (ALL, {**BOLTS_7, "anchors.washer_in": (3.0, 3.0, 0.25)})],
        DRAWN,
    ),
    (
        'NOTES: a. EDGE NAILS OF TYPE 4 SHALL BE STAGGERED. b. BLOCK ALL PANEL EDGES. c. FIELD NAILING 12" O.C.',
        [({"4"}, STAGGERED), (ALL, BLOCKED), (ALL, FIELD_12)],
        DRAWN,
    ),
    (
        '1. BLOCK ALL PANEL EDGES. 2. WHERE EDGE NAILING IS 2" O.C. USE 3x STUDS. 3. FIELD NAILING 12" O.C.',
        [(ALL, BLOCKED), (ALL, FIELD_12)],
        "a condition ends with its note",
    ),
    (
        '1) NAILS ARE COMMON 2) FIELD NAILING 12" O.C. U.N.O. 3) ALL EDGES BLOCKED',
        [(ALL, COMMON), (ALL, FIELD_12), (ALL, BLOCKED)],
        TRADE,
    ),
    ('(a) BLOCK ALL EDGES (b) FIELD NAILING 12" O.C.', [(ALL, BLOCKED), (ALL, FIELD_12)], TRADE),
    (
        'SHEAR WALL NOTES: A. BLOCK ALL PANEL EDGES. B. A.B. EMBEDMENT 7" MIN. C. SEE NOTE 3. D. NAILS ARE COMMON.',
        [(ALL, BLOCKED), (ALL, BOLTS_7), (ALL, COMMON)],
        TRADE,
    ),
    (
        "1. BLOCK ALL PANEL EDGES. 2. FOR WALLS OVER 350 PLF: a. PROVIDE 3x SILLS. b. STAGGER EDGE NAILS. 3. NAILS ARE COMMON.",
        [(ALL, BLOCKED), (ALL, COMMON)],
        "a and b stand under 2 and its condition",
    ),
    ('ROOF NOTES: 1. FIELD NAILING 12" O.C. 2. BLOCK ALL PANEL EDGES.', [], "the roof's"),
    ("FOR 3x SEE NOTE 2. BLOCK ALL PANEL EDGES.", [(ALL, BLOCKED)], "NOTE 2 begins no note"),
    ("STUDS SHALL BE NO. 2. BLOCK ALL PANEL EDGES.", [(ALL, BLOCKED)], "a lumber grade"),
]


@pytest.mark.parametrize(("text", "says", "source"), SEVERAL)
def test_several_notes_in_one_text(text: str, says: list[object], source: str) -> None:
    assert told(note(text, FOUR).clauses) == says, source


def test_a_note_yields_by_its_own_words_only() -> None:
    clauses = note('2.PANEL EDGES: BLOCKED, U.N.O. 3.A.B. AT SHEAR WALLS: 7" EMBED.').clauses
    assert [c.yields for c in clauses] == [True, False]


@pytest.mark.parametrize("part", ["TYPES 1, 2, 3, ", "ALL PANEL ", "PANEL & ", "OF ALL THE WALLS ", "3x OR ", "1. ", "A AND B "])
def test_a_very_long_note_does_no_harm(part: str) -> None:
    assert note(part * 120, FOUR).found == ()
