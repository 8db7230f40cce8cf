"""Running text about a wall: everything may occur, and only what is named is read."""

import pytest

from extractor.record import State
from extractor.trade.cells import kinds, read
from extractor.trade.text import plain


def said(text: str, kind: str = "wall") -> dict[str, object]:
    return {f.field: f.value if f.state in (State.READ, State.NONE) else f.state for f in read(plain(text.split()).text, kind)}


def test_a_sentence_of_capitals() -> None:
    got = said('7/16 OSB, 8d @ 4" O.C. EDGES, 12" FIELD, BLOCKED, 3x STUDS AT JOINTS, 5/8" A.B. @ 32"')
    assert got == {
        "sheathing.thickness_in": 0.4375,
        "sheathing.material": "osb",
        "fastener.penny": "8d",
        "fastener.kind": "nail",
        "edge.spacing_in": 4.0,
        "field.spacing_in": 12.0,
        "framing.blocked": True,
        "framing.panel_edge": "3x",
        "anchors.kind": "anchor bolt",
        "anchors.diameter_in": 0.625,
        "anchors.spacing_in": 32.0,
    }


def test_a_paragraph() -> None:
    got = said(
        "15/32-inch plywood on one face, 8d common nails (0.131 in. × 2-1/2 in.) at 6 inches on center at panel edges and "
        "12 inches on center at intermediate framing. Use 2x studs where panels abut. Anchor bolts 5/8-inch diameter at 48 "
        "inches on center. No hold-downs. Allowable shear 260 plf (ASD, seismic)."
    )
    assert got == {
        "sheathing.thickness_in": 0.46875,
        "sheathing.material": "plywood",
        "sheathing.faces": 1,
        "fastener.penny": "8d",
        "fastener.kind": "nail",
        "fastener.style": "common",
        "fastener.diameter_in": 0.131,
        "fastener.length_in": 2.5,
        "edge.spacing_in": 6.0,
        "field.spacing_in": 12.0,
        "framing.panel_edge": "2x",
        "anchors.kind": "anchor bolt",
        "anchors.diameter_in": 0.625,
        "anchors.spacing_in": 48.0,
        "hold_down.marks": (),
        "capacity": (260.0, "seismic", "ASD"),
    }


def test_stitching_plate_nails_and_bolts_are_not_wall_nailing() -> None:
    got = said(
        '15/32" STR. I PLYWD, 10d @ 2" O.C. EDGES (STAGG.), 12" FIELD, 3x SILL, (2) 2x STITCHED W/ 16d @ 6", '
        '5/8" DIA. A.B. @ 1\'-4" O.C. W/ 3x3x1/4" PL. WASHERS, HD4 EA. END'
    )
    assert (got["fastener.penny"], got["edge.spacing_in"], got["field.spacing_in"]) == ("10d", 2.0, 12.0)
    assert (got["anchors.spacing_in"], got["anchors.washer_in"], got["framing.sill"]) == (16.0, (3.0, 3.0, 0.25), "3x")
    assert got["hold_down.marks"] == ("HD4",)


def test_a_plate_clause_is_the_plates() -> None:
    got = said('SOLE PLATE: 16d @ 4" O.C., 7/16 OSB 8d @ 6/12')
    assert (got["bottom_plate.penny"], got["bottom_plate.spacing_in"], got["fastener.penny"]) == ("16d", 4.0, "8d")


def test_without_commas_the_bolt_keeps_its_own_spacing() -> None:
    got = said('7/16" OSB 8d @ 4" EDGES 12" FIELD 5/8" A.B. @ 32"')
    assert (got["edge.spacing_in"], got["field.spacing_in"], got["anchors.spacing_in"]) == (4.0, 12.0, 32.0)


def test_words_round_the_values_of_a_sentence() -> None:
    assert said("2x studs are sufficient at adjoining panel edges.") == {"framing.panel_edge": "2x"}
    assert said("3x studs are not required at adjoining panel edges.") == {}
    assert said("Fasten the sill with 5/8 in. diameter anchor bolts at 48 in. on center. No hold-downs are required.") == {
        "anchors.kind": "anchor bolt",
        "anchors.diameter_in": 0.625,
        "anchors.spacing_in": 48.0,
        "hold_down.marks": (),
    }


@pytest.mark.parametrize("printed", ['"', "″", '" "', "DO", "do.", "DITTO"])
@pytest.mark.parametrize("kind", [k for k in kinds() if k not in ("wall", "remarks", "mark", "hd_mark", "hd_mark_model")])
def test_a_ditto_is_one_in_every_column(printed: str, kind: str) -> None:
    assert said(printed, kind) == {"ditto": None}


def test_a_gap_between_panels_is_no_spacing() -> None:
    got = said('7/16" OSB, 8d @ 4" EDGES, 12" FIELD. LEAVE 1/8" GAP AT PANEL EDGES')
    assert (got["edge.spacing_in"], got["field.spacing_in"]) == (4.0, 12.0)


def test_labelled_clauses() -> None:
    got = said('7/16 OSB; NAILS: 8d @ 3"/12"; SILL: 3x; BOLTS: 5/8" A.B. @ 24"; 2x6 STUDS @ 16" O.C.; PANEL EDGES: 3x')
    assert (got["edge.spacing_in"], got["field.spacing_in"]) == (3.0, 12.0)
    assert (got["framing.sill"], got["framing.panel_edge"]) == ("3x", "3x")


def test_sheathing_and_nailing_in_one_cell() -> None:
    got = said('7/16" OSB W/ 8d COMMON @ 4" E.N., 12" F.N.', "sheathing_and_nailing")
    assert (got["sheathing.thickness_in"], got["edge.spacing_in"], got["field.spacing_in"]) == (0.4375, 4.0, 12.0)


def test_remarks_give_only_what_can_mean_nothing_else() -> None:
    assert said("BOTH SIDES", "remarks") == {"sheathing.faces": 2}
    assert said("STAGGER NAILS", "remarks") == {"edge.staggered": True}
    assert said("3x STUDS AT PANEL JOINTS", "remarks") == {"framing.panel_edge": "3x"}
    assert said('8d @ 6"', "remarks") == {}
    assert said("SEE NOTE 3", "remarks") == {}


def test_a_hold_down_named_by_letters_and_the_words_for_each_end() -> None:
    """Drawn set; AT EACH END is a place and no hold-down named AT."""
    assert said("3x stud at panel joints. Tie-down TB at each end.")["hold_down.marks"] == ("TB",)
    assert "hold_down.marks" not in said("TIE-DOWN AT EACH END OF WALL")


def test_the_sill_in_a_cell_of_bolts() -> None:
    """Drawn set: the sill stands under the bolts."""
    got = said('5/8" A.B. @ 24" 3x P.T. SILL', "anchors")
    assert (got["framing.sill"], got["anchors.diameter_in"], got["anchors.spacing_in"]) == ("3x", 0.625, 24.0)


def test_the_board_behind_a_panel_is_no_size_of_the_panel_and_is_left_over_for_the_card() -> None:
    """Trade wording, our own row: sheathing over gypsum board at a fire-rated wall."""
    text = '15/32" PLYWOOD OVER 5/8" GYP. BD., ONE SIDE'
    taken = [text[slice(*f.span)] for f in read(text, "sheathing")]
    assert not any("GYP" in words or "OVER" in words for words in taken)
