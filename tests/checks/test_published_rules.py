"""Framing, nailing, panels and bolts against the published rules."""

import pytest

from extractor.record import Coverage, Level, SheetRecord, UnreadBlock, UnusedWords
from tests.checks.making import PLACE, drawn, found, job, wall

RULE = "SDPWS-2008 4.3.7.1"
TEN = {"fastener.penny": "10d", "fastener.diameter_in": 0.148, "fastener.length_in": 3}
GYPSUM = {"sheathing.material": "gypsum", "sheathing.grade": None, "sheathing.thickness_in": 0.5}


@pytest.mark.parametrize(
    ("changes", "fires", "source"),
    [
        ({"edge.spacing_in": 2, "framing.panel_edge": "2x"}, True, f"{RULE}: 2 in or closer"),
        (TEN | {"edge.spacing_in": 3, "framing.panel_edge": "2x"}, True, f"{RULE}: 10d at 3 in or closer"),
        (TEN | {"edge.spacing_in": 2, "framing.panel_edge": "3x or 2x"}, True, f"{RULE}: one of the two is too narrow"),
        ({"edge.spacing_in": 2, "framing.panel_edge": "3x"}, False, RULE),
        ({"edge.spacing_in": 2, "framing.panel_edge": "2-2x"}, False, f"{RULE}: two 2x joined (from memory)"),
        ({"edge.spacing_in": 2, "framing.panel_edge": "3x or 2-2x"}, False, f"{RULE}: two 2x joined (from memory)"),
        ({"edge.spacing_in": 3, "framing.panel_edge": "2x"}, False, f"{RULE}: 8d at 3 in is another rule"),
        (TEN | {"edge.spacing_in": 4, "framing.panel_edge": "2x"}, False, f"{RULE}: 10d at 4 in is another rule"),
        (
            TEN | {"edge.spacing_in": 3, "framing.panel_edge": "2x", "fastener.length_in": 1.875},
            False,
            f"{RULE}: 1-13/32 in deep, no more than 1-1/2",
        ),
        (GYPSUM | {"edge.spacing_in": 2, "framing.panel_edge": "2x"}, False, "wood panels only"),
    ],
)
def test_close_nails_into_a_2x(changes: dict[str, object], fires: bool, source: str) -> None:
    findings = found("panel-edge-framing-too-narrow", job(wall("X3", changes)))
    assert [(f.level, f.wall_type, f.field) for f in findings] == ([(Level.STOP, "X3", "framing.panel_edge")] if fires else [])


def test_the_words_for_a_2x_that_is_too_narrow() -> None:
    (finding,) = found("panel-edge-framing-too-narrow", job(wall("X3", TEN | {"edge.spacing_in": 3})))
    assert finding.message == (
        "X3: framing at panel edges is “2x”; below code: 10d edge nailing at 3 in requires 3 in nominal framing. "
        "Ask the engineer."
    )


@pytest.mark.parametrize(
    ("rows", "marks", "source"),
    [
        (({"edge.spacing_in": 2, "framing.panel_edge": None}, {"framing.panel_edge": None}), ["SW0"], RULE),
        (({"edge.spacing_in": 2, "framing.panel_edge": None}, {}), [], "the other row gives it: asked for as a blank"),
        (({"framing.panel_edge": None},), [], f"{RULE}: 6 in needs no wide framing"),
    ],
)
def test_close_nails_and_no_word_about_framing(rows: tuple[dict[str, object], ...], marks: list[str], source: str) -> None:
    plans = job(*(wall(f"SW{number}", changes) for number, changes in enumerate(rows)))
    assert [f.wall_type for f in found("panel-edge-framing-not-given", plans)] == marks


@pytest.mark.parametrize(
    ("changes", "fires", "source"),
    [
        ({"edge.spacing_in": 4, "framing.panel_edge": "2x"}, True, f"{RULE}: 760 plf nominal is over 700"),
        (
            {"edge.spacing_in": 4, "framing.panel_edge": "2x", "sheathing.thickness_in": 7 / 16},
            False,
            f"{RULE}: 700 is not over 700",
        ),
        ({"edge.spacing_in": 4, "framing.panel_edge": "3x"}, False, RULE),
        ({"edge.spacing_in": 6, "framing.panel_edge": "2x"}, False, f"{RULE}: 520 plf nominal"),
        ({"edge.spacing_in": 2, "framing.panel_edge": "2x"}, False, "one cause: 2 in into 2x is a stop already"),
    ],
)
def test_heavy_shear_on_a_2x_is_asked_about(changes: dict[str, object], fires: bool, source: str) -> None:
    findings = found("panel-edge-framing-narrow-for-shear", job(wall("SW2", changes)))
    assert [f.level for f in findings] == ([Level.ASK] if fires else [])
    assert all("Seismic Design Category D, E and F" in f.message for f in findings)


@pytest.mark.parametrize(
    ("code", "changes", "level", "source"),
    [
        ("edge-nailing-too-wide", {"edge.spacing_in": 8}, Level.STOP, "SDPWS-2015 4.3.7.1: 6 in"),
        ("edge-nailing-too-wide", {"edge.spacing_in": 6}, None, "SDPWS-2015 4.3.7.1: 6 in"),
        ("edge-nailing-too-wide", GYPSUM | {"edge.spacing_in": 7}, None, "gypsum has columns of its own"),
        ("edge-nailing-too-wide", {"edge.spacing_in": 8, "sheathing.material": None}, Level.ASK, "the board is not named"),
        ("field-nailing-too-wide", {"field.spacing_in": 16}, Level.STOP, "SDPWS-2015 4.3.7.1: 12 in"),
        ("field-nailing-too-wide", {"field.spacing_in": 12}, None, "SDPWS-2015 4.3.7.1: 12 in"),
        ("nail-penetration-short", {"fastener.length_in": 1.75}, Level.STOP, "SDPWS-2008 Table 4.3A: 8d 1-3/8 in"),
        ("nail-penetration-short", {"fastener.length_in": 2.375}, None, "2-3/8 less 15/32 is 1-29/32 in"),
        ("nail-penetration-short", {"fastener.length_in": None}, None, "8d common is 2-1/2 in, NDS-2018 Table L4"),
        ("nail-penetration-short", TEN | {"fastener.length_in": 1.5}, Level.STOP, "SDPWS-2008 Table 4.3A: 10d 1-1/2 in"),
        ("panel-too-thin-for-the-nail", TEN | {"sheathing.thickness_in": 7 / 16}, Level.ASK, "Table 4.3A: 10d from 15/32"),
        ("panel-too-thin-for-the-nail", TEN, None, "Table 4.3A: 10d from 15/32"),
        ("panel-too-thin-for-the-nail", {"sheathing.thickness_in": 5 / 16}, Level.ASK, "Table 4.3A: 8d from 3/8"),
        ("panel-too-thin-for-the-nail", {"sheathing.thickness_in": 3 / 8}, None, "Table 4.3A: 8d from 3/8"),
        ("panel-thickness-unknown", {"sheathing.thickness_in": 5 / 32}, Level.ASK, "PS 1 / PS 2: 15/32 torn apart"),
        ("panel-thickness-unknown", {"sheathing.thickness_in": 0.469}, None, "15/32 to three places"),
        ("panel-thickness-unknown", {"sheathing.thickness_in": 19 / 32}, None, "PS 1 / PS 2"),
        ("nail-thinner-than-the-table", {"fastener.style": "cooler"}, Level.ASK, "Table 4.3A: common or galvanized box"),
        ("nail-thinner-than-the-table", {"fastener.style": "galvanized box"}, None, "Table 4.3A: common or galvanized box"),
        ("nail-thinner-than-the-table", GYPSUM | {"fastener.style": "cooler"}, None, "coolers belong in gypsum"),
        ("close-nailing-on-unblocked-wall", {"framing.blocked": False, "edge.spacing_in": 4}, Level.ASK, "from memory"),
        ("close-nailing-on-unblocked-wall", {"framing.blocked": False}, None, "6 in, from memory"),
        ("anchor-bolt-below-house-code", {"anchors.diameter_in": 3 / 8}, Level.ASK, "IRC-2006 R403.1.6: 1/2 in"),
        ("anchor-bolt-below-house-code", {"anchors.spacing_in": 96}, Level.ASK, "IRC-2006 R403.1.6: 72 in"),
        ("anchor-bolt-below-house-code", {"anchors.embedment_in": 4}, Level.ASK, "IRC-2006 R403.1.6: 7 in"),
        ("anchor-bolt-below-house-code", {"anchors.spacing_in": 72, "anchors.diameter_in": 0.5}, None, "IRC-2006 R403.1.6"),
        ("anchor-bolt-below-house-code", {"anchors.kind": "epoxy rod", "anchors.embedment_in": 5}, None, "anchor bolts only"),
        ("plate-washer-small", {"anchors.washer_in": (2, 2, 3 / 16)}, Level.ASK, "IBC-2006 2305.3.11: 3 x 3 x 0.229"),
        ("plate-washer-small", {"anchors.washer_in": (3, 3, 1 / 4)}, None, "IBC-2006 2305.3.11: 3 x 3 x 0.229"),
        ("plate-washer-small", {"anchors.washer_in": (0.229, 3, 3)}, None, "thickness may be printed first"),
        ("stagger-not-stated", {"edge.spacing_in": 2, "framing.panel_edge": "3x"}, Level.NOTE, RULE),
        ("stagger-not-stated", {"edge.spacing_in": 2, "framing.panel_edge": "3x", "edge.staggered": True}, None, RULE),
        ("joints-on-both-faces", {"sheathing.faces": 2, "edge.spacing_in": 4}, Level.NOTE, "Table 4.3A footnote 6, from memory"),
        ("joints-on-both-faces", {"sheathing.faces": 2}, None, "Table 4.3A footnote 6, from memory"),
        ("special-inspection-possible", {"edge.spacing_in": 4}, Level.NOTE, "IBC-2015 1705, from memory"),
        ("special-inspection-possible", {"edge.spacing_in": 6}, None, "IBC-2015 1705, from memory"),
        ("special-inspection-possible", {"edge.spacing_in": None}, None, "a missing spacing is not a close one"),
    ],
)
def test_fires_or_is_silent(code: str, changes: dict[str, object], level: Level | None, source: str) -> None:
    assert [finding.level for finding in found(code, job(wall("SW1", changes)))] == ([level] if level else [])


def test_penetration_says_what_is_left() -> None:
    (finding,) = found("nail-penetration-short", job(wall("SW1", {"fastener.length_in": 1.75})))
    assert finding.message == (
        "SW1: through 15/32 sheathing the 8d nail goes 1-9/32 in into the framing; below code: at least 1-3/8 in. Ask the "
        "engineer which nail."
    )


def test_special_inspection_is_never_required_nor_excused() -> None:
    (finding,) = found("special-inspection-possible", job(wall("SW1"), wall("SW2", {"edge.spacing_in": 4})))
    assert finding.message.startswith("SW2: edge nailing at 4 in or closer may need special inspection")
    assert "required" not in finding.message


@pytest.mark.parametrize(
    ("length", "fires", "source"),
    [(24, True, "SDPWS-2015 Table 4.3.4: 96 / 24 is 4"), (28, False, "96 / 28 is 3.43"), (None, False, "no length drawn")],
)
def test_a_wall_drawn_too_short(length: float | None, fires: bool, source: str) -> None:
    plans = job(wall("SW1"), drawn("SW1", times=2, lengths=(144, length)))
    assert [f.level for f in found("drawn-wall-too-narrow", plans)] == ([Level.ASK] if fires else [])


@pytest.mark.parametrize(
    ("printed", "fires", "source"),
    [
        ('15/32" OSB 8d COMMON 4" O.C. 12" O.C. 5/8" @ 32"', True, "drawn set: the mark is drawn as lines"),
        ("TYP", False, "common practice, no source"),
        ('2x6 P.T. SILL, 5/8" @ 48"', False, "the second line of a row"),
        ("LOWER LEVEL WALLS", False, "a band between rows"),
    ],
)
def test_a_row_without_a_mark_is_a_question(printed: str, fires: bool, source: str) -> None:
    plans = job(wall(), coverage=Coverage(words_not_used=(UnusedWords(as_printed=printed, source=PLACE),)))
    assert [f.level for f in found("row-without-mark", plans)] == ([Level.ASK] if fires else []), source
    assert len(found("words-not-used", plans)) == (0 if fires else 1)


@pytest.mark.parametrize(
    ("why", "level"),
    [
        ("no column of marks with values under it was made out", Level.ASK),
        ("fewer than two columns were made out", Level.ASK),
        ("no table was made out under the title", Level.NOTE),
        ("its rows speak of reinforcing bars and of no nail or staple: walls of concrete or masonry", Level.NOTE),
    ],
)
def test_a_table_whose_columns_were_not_understood_is_a_question(why: str, level: Level) -> None:
    """Common practice, no source: a title over other tables, and walls of concrete, are no question."""
    block = UnreadBlock(title="SHEAR WALL SCHEDULE", why=why, source=PLACE)
    assert [f.level for f in found("table-not-read", job(wall(), coverage=Coverage(blocks_not_read=(block,))))] == [level]


def test_what_was_not_read_is_said() -> None:
    pages = (SheetRecord(page=1, number="S1.0"), SheetRecord(page=2, text="none"), SheetRecord(page=3, number="S3.1", text="ocr"))
    block = UnreadBlock(title="SHEAR WALL SCHEDULE", why="its columns could not be told apart", source=PLACE)
    coverage = Coverage(blocks_not_read=(block,), words_not_used=(UnusedWords(as_printed="TYP", source=PLACE),))
    plans = job(wall(), sheets=pages, coverage=coverage)
    assert found("sheet-without-text", plans)[0].message.startswith("No text on page 2: a picture, nothing on it was read.")
    assert found("sheet-read-from-a-scan", plans)[0].message.startswith("The text of sheet S3.1 (page 3) comes from a scan.")
    assert "its columns could not be told apart" in found("table-not-read", plans)[0].message
    assert "“TYP”" in found("words-not-used", plans)[0].message
    quiet = job(wall())
    for code in ("sheet-without-text", "sheet-read-from-a-scan", "table-not-read", "words-not-used"):
        assert found(code, quiet) == []
