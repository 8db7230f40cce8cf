"""What general notes say about the whole job."""

import pytest

from extractor.trade.basis import basis

NOTES = "general notes as engineers write them; common practice, no source"


@pytest.mark.parametrize(
    ("text", "says", "source"),
    [
        ("DESIGN PER 2018 INTERNATIONAL BUILDING CODE.", [("codes", "IBC-2018")], NOTES),
        ("ALL WORK PER IBC 2021 AND SDPWS-2021", [("codes", "IBC-2021"), ("codes", "SDPWS-2021")], NOTES),
        ("2022 CALIFORNIA BUILDING CODE (CBC)", [("codes", "CBC-2022")], NOTES),
        ("INTERNATIONAL BUILDING CODE, 2015 EDITION", [("codes", "IBC-2015")], NOTES),
        ("ALL WORK SHALL CONFORM TO THE BUILDING CODE", [], "no edition"),
        ("SEISMIC DESIGN CATEGORY D", [("categories", "D")], NOTES),
        ("SDS 0.94, SEISMIC DESIGN CATEGORY D, R = 6-1/2", [("categories", "D")], "practice sets"),
        ("SDC = D2", [("categories", "D2")], NOTES),
        ("IN SEISMIC DESIGN CATEGORY D, E OR F PROVIDE", [], "a rule for several categories says nothing about this house"),
        ("ALL FRAMING LUMBER DOUGLAS FIR-LARCH.", [("lumber", "douglas fir-larch")], "practice sets"),
        ("WALL STUDS SHALL BE HEM-FIR #2 OR BETTER", [("lumber", "hem-fir")], NOTES),
        ("SILL PLATES: HEM-FIR P.T. STUDS: SPF NO 2", [("lumber", "spruce-pine-fir")], "the sill is no stud"),
        ("POSTS AND BEAMS DF-L NO. 1", [], "posts are no studs"),
        ('STUDS 2x6 @ 16" O.C. AT EXTERIOR WALLS', [("stud_spacing_in", 16.0)], "practice sets"),
        ('DOUBLE STUDS 16d @ 24" O.C.', [], "practice sets: nails, no studs"),
        ("STUDS AT 24 IN. O.C.", [("stud_spacing_in", 24.0)], NOTES),
        ('PANEL EDGE NAILS 3/8" FROM PANEL EDGES', [("nail_edge_in", 0.375)], NOTES),
        ('NAILS 8d, 1/4" EDGE DISTANCE', [("nail_edge_in", 0.25)], NOTES),
    ],
)
def test_what_a_note_says(text: str, says: list[tuple[str, object]], source: str) -> None:
    assert [(one.field, one.value) for one in basis(text)] == says
    assert all(text[slice(*one.span)] for one in basis(text))
