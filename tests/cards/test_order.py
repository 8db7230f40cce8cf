"""The order sheet: arithmetic that anyone can check by hand, and nothing counted that hangs on an open question."""

import doctest
from pathlib import Path

import pytest

from cards import lengths, packsizes, quantities
from cards import order as orders
from cards.counting import Line, order
from cards.lengths import Wall
from cards.packet import packet
from cards.packsizes import Packs
from extractor.record import BottomPlate, EdgeNailing, FieldNailing, Framing, Job, PlanMark, Sheathing, State, WallHoldDowns
from tests.cards.making import conflict, finding, from_note, job, pages, read, silent, text, wall
from tests.cards.seeing import faults

NINE = Wall("SW4", "walls.csv line 2", 144, 108, studs_in=16)
NAIL = '2-1/2" × 0.131" 8d common'
OURS = Packs(10, {packsizes.key(NAIL): {"strip": 25, "coil": 225, "box": 2000, "per_pound": 106}})


def line(one: Wall = NINE, **parts: object) -> Line:
    return order(job(wall("SW4", **parts)), [one]).lines[0]


def said(sets: Job, walls: list[Wall], packs: Packs | None = None) -> str:
    return " ".join(text(page) for page in pages(orders.order_pdf(sets, walls, packs)))


@pytest.mark.parametrize("module", [quantities, lengths])
def test_examples_in_the_words_of_each_formula_hold(module):
    assert doctest.testmod(module).failed == 0


@pytest.mark.parametrize(
    ("height", "edge", "at_16", "at_24", "source"),
    [
        (96, 6, 62, 55, "2*16 + 2*8 + 2*7, and one stud less: arithmetic"),
        (96, 4, 86, 79, "2*24 + 2*12 + 2*7: arithmetic"),
        (96, 3, 110, 103, "2*32 + 2*16 + 2*7: arithmetic"),
        (96, 2, 158, 151, "2*48 + 2*24 + 2*7: arithmetic"),
        (108, 6, 68, 60, "2*18 + 2*8 + 2*8: arithmetic"),
        (108, 4, 94, 86, "2*27 + 2*12 + 2*8: arithmetic"),
        (108, 3, 120, 112, "2*36 + 2*16 + 2*8: arithmetic"),
        (108, 2, 172, 164, "2*54 + 2*24 + 2*8: arithmetic"),
        (120, 6, 74, 65, "2*20 + 2*8 + 2*9: arithmetic"),
        (120, 4, 102, 93, "2*30 + 2*12 + 2*9: arithmetic"),
        (120, 3, 130, 121, "2*40 + 2*16 + 2*9: arithmetic"),
        (120, 2, 186, 177, "2*60 + 2*24 + 2*9: arithmetic"),
    ],
)
def test_nails_of_one_panel(height, edge, at_16, at_24, source):
    studs = [quantities.interior_studs(spacing) for spacing in (16, 24)]
    assert [quantities.panel_nails(height, edge, 12, one) for one in studs] == [at_16, at_24]


@pytest.mark.parametrize(
    ("height", "panel", "source"),
    [
        (97.125, 97.125, "92-5/8 + 3 x 1-1/2: arithmetic"),
        (109.125, 109.125, "104-5/8 + 3 x 1-1/2; a 108 in panel ends 1-1/8 in short: arithmetic"),
        (121.125, 121.125, "116-5/8 + 3 x 1-1/2: arithmetic"),
        (110, 120, "cut from 10 ft: arithmetic"),
        (108, 108, "9 ft: arithmetic"),
    ],
)
def test_the_panel_reaches_from_sill_to_top_plate(height, panel, source):
    assert quantities.panel_length(height) == panel


@pytest.mark.parametrize(
    ("pieces", "bolts", "least", "source"),
    [
        ((), 5, True, "(144 - 24) / 32 = 3.75, so 4 + 1: arithmetic"),
        ((144.0,), 5, False, "one 12 ft plate: arithmetic"),
        ((96.0, 48.0), 6, False, "8 ft: 4, and 4 ft: 2: arithmetic"),
    ],
)
def test_sill_bolts_go_by_plate_piece(pieces, bolts, least, source):
    made = line(Wall("SW4", "", 144, 108, pieces_in=pieces)).bolts
    assert (made.number, made.least) == (bolts, least)


def test_a_twelve_foot_wall():
    """3 panels x 94 = 282; 8 ft panels and a 1 ft strip: 86 + 30 = 116 a column, 348, 66 more (23 %), 9 blocks. Arithmetic."""
    made = line()
    assert (made.panels.number, made.panel_in, made.nails.number, made.blocks.number) == (3, 108, 282, 0)
    assert made.shorter == ('8 ft + 12" strip: 66 more nails (23 %), 1 joint with 9 blocks, 10\'-10 1/2"',)


def test_a_panel_that_ends_in_the_top_plates_is_never_an_offer():
    made = line(Wall("SW4", "", 144, 109.125))
    assert '9 ft: ends 1-1/8" short, in the top plates: longer panels, or ask for a detail' in made.shorter
    assert made.panel_in == 109.125


@pytest.mark.parametrize(
    ("change", "panels", "nails", "source"),
    [
        ({"sheathing": Sheathing(thickness_in=read(15 / 32), material=read("osb"), faces=read(2))}, 6, 564, "both sides: twice"),
        ({"edge": EdgeNailing(spacing_in=read(4.0), rows=read(2))}, 3, 516, "2 x (2*27 + 2*12) + 2*8 = 172 a panel"),
        ({"edge": EdgeNailing(spacing_in=read(2.0))}, 3, 516, "2*54 + 2*24 + 2*8 = 172 a panel"),
    ],
)
def test_sides_rows_and_spacing_count(change, panels, nails, source):
    made = line(**change)
    assert (made.panels.number, made.nails.number) == (panels, nails)


def test_a_wall_higher_than_any_panel_has_a_blocked_joint():
    made = line(Wall("SW4", "", 192, 132, studs_in=16))
    assert (made.panels.number, made.panel_in, made.blocks.number, made.block_in) == (8, 96, 12, 12 * 14.5)


@pytest.mark.parametrize(
    ("parts", "questions", "lost", "kept", "source"),
    [
        ({"field": FieldNailing()}, (finding("field.spacing_in"),), "nails", "panels", "a spacing that is not on the plans"),
        ({"edge": EdgeNailing(spacing_in=conflict(4.0, 6.0))}, (finding("edge.spacing_in"),), "nails", "panels", "two spacings"),
        ({}, (finding("fastener.diameter_in"),), "nails", "panels", "the nail is read, and a STOP is open on it"),
        ({}, (finding("sheathing.thickness_in"),), "panels", "nails", "a STOP on the panel"),
        ({}, (finding("anchors.spacing_in"),), "bolts", "nails", "a STOP on the bolts"),
        ({"framing": Framing(panel_edge=read("3x"))}, (finding("framing.blocked"),), "blocks", "nails", "blocking not given"),
    ],
)
def test_what_hangs_on_an_open_stop_is_not_counted_and_says_which_question(parts, questions, lost, kept, source):
    sets = job(wall("SW4", **parts), findings=questions)
    made = order(sets, [NINE]).lines[0]
    one = getattr(made, lost)
    assert one.number is None
    assert "Q-01" in one.why
    assert getattr(made, kept).number is not None
    assert "In no total" in said(sets, [NINE])


def test_a_stop_about_the_whole_row_counts_nothing():
    made = order(job(wall("SW4"), findings=(finding(None, message="SW4 is in the schedule twice."),)), [NINE]).lines[0]
    assert [one.number for one in (made.panels, made.nails, made.blocks, made.bolts)] == [None] * 4


def test_sides_that_the_plans_do_not_give_are_counted_once_and_said():
    sets = job(wall("SW4", sheathing=Sheathing(thickness_in=read(15 / 32), material=read("osb"))))
    assert "SW4: the plans do not say how many sides are sheathed. Panels and nails are for ONE side." in said(sets, [NINE])


def test_a_mark_without_a_row_is_in_no_total():
    whole = said(job(wall("SW4")), [NINE, Wall("SW9", "walls.csv line 3", 144, 108)])
    assert "SW9 has no row in the schedule. Ask the engineer." in whole
    assert "SW4 282" in whole


def test_packs_are_the_buyers_own():
    """282 + 10 % = 310.2, so 311; 13 strips of 25; 311 / 106 = 2.93 lb. Arithmetic; sizes as a buyer might give them."""
    made = {(one.part, one.unit): one.printed for one in orders.totals(order(job(wall("SW4")), [NINE]), OURS)}
    assert [made["nails", unit] for unit in ("nails", "strips", "coils", "boxes", "lb")] == ["311", "13", "2", "1", "3"]
    bare = said(job(wall("SW4")), [NINE])
    assert "strips, coils, boxes and pounds are not worked out" in bare


@pytest.mark.parametrize(
    ("drawn", "difference", "source"),
    [
        ((("S2.1", "HD2", 2),), "same", "two for one segment"),
        ((("S2.1", "HD2", 4),), "+2 drawn: look, and ask", "more than two a segment"),
        ((("S2.1", "(2) HD2", 1),), "same", "one mark for two"),
        ((("S1.0", "HD2", 2), ("S2.1", "HD2", 2)), "by sheet S1.0: +0, S2.1: +0: look whether", "two sheets are never added up"),
        ((), "none drawn against 2: look, and ask", "no mark"),
    ],
)
def test_hold_downs_go_by_marks_and_differences_are_said(drawn, difference, source):
    box = ((0, 0, 1, 1),)
    marks = tuple(PlanMark(mark=mark, kind="hold-down", page=2, sheet=sheet, boxes=box * n) for sheet, mark, n in drawn)
    [held] = order(job(wall("SW4"), drawn=marks), [NINE]).hold_downs
    assert held.expected.number == 2
    assert held.differs.startswith(difference)
    assert ("post", "(2) 2x6") in held.words


def test_a_post_in_doubt_is_never_printed_as_read():
    sets = job(wall("SW4"))
    doubt = sets.hold_downs[0].model_copy(update={"post": conflict("4x4", "4x6"), "fasteners": silent(State.UNREADABLE, "1?")})
    [held] = order(sets.model_copy(update={"hold_downs": (doubt,)}), [NINE]).hold_downs
    assert dict(held.words)["post"] == "CONFLICT - ASK: 4x4 | 4x6"
    assert dict(held.words)["fasteners"].startswith("CAN'T READ")


def test_a_wall_on_framing_has_plate_nails_and_no_bolts():
    from extractor.record import Anchors

    made = line(anchors=Anchors(), bottom_plate=BottomPlate(penny=read("16d"), spacing_in=read(4.0)))
    assert made.bolts.number == 0


def test_worked_out_numbers_look_different_and_the_page_says_for_ordering_only():
    [page, *_] = pages(orders.order_pdf(job(wall("SW4", hold_down=WallHoldDowns(marks=read(("HD2",))))), [NINE], OURS))
    words = page.extract_words(extra_attrs=["fontname", "non_stroking_color"])
    labels = [word for word in words if word["text"].startswith("calc")]
    assert labels
    assert all(word["non_stroking_color"] in ((1,), (1, 1, 1), 1) for word in labels)
    after = [word for word in words if word["text"] == "311"]
    assert after
    assert not any("Bold" in word["fontname"] for word in after)
    assert "FOR ORDERING ONLY" in text(page)
    for here in ("kestrel-lot-7", "c0ffee12", "S3.1 REV 2, 12 May 2026", "page 1 of", "The approved plans and the engineer"):
        assert here in text(page)


def test_nothing_lies_on_anything_and_no_type_is_under_six_and_a_half_points():
    many = [Wall(f"SW{i % 3}", f"walls.csv line {i}", 100 + 17 * i, 109.125, "upper", 1 + i % 3) for i in range(30)]
    sets = job(wall("SW0"), wall("SW1", edge=EdgeNailing(spacing_in=from_note(2.0))))
    for page in pages(orders.order_pdf(sets, many, OURS)):
        assert not faults(page)
        assert min(char["size"] for char in page.chars) > 6.5


def test_the_same_walls_give_the_same_bytes():
    assert orders.order_pdf(job(wall("SW4")), [NINE], OURS) == orders.order_pdf(job(wall("SW4")), [NINE], OURS)


def test_the_packet_asks_for_lengths_then_counts_and_never_writes_over_what_was_filled_in(tmp_path: Path):
    marks = (PlanMark(mark="SW4", kind="wall", page=2, sheet="S2.1", boxes=((0, 0, 1, 1),) * 2),)
    sets = job(wall("SW4"), drawn=marks)
    packet(sets, tmp_path)
    asked = tmp_path / lengths.TEMPLATE
    assert asked.read_text(encoding="utf-8-sig").count("type SW4") == 2
    assert not (tmp_path / "order.pdf").exists()
    filled = asked.read_text(encoding="utf-8-sig").replace("type SW4,,,", "type SW4,12',9',")
    asked.write_text(filled, encoding="utf-8")
    packet(sets, tmp_path)
    assert asked.read_text(encoding="utf-8") == filled
    assert (tmp_path / "order.pdf").read_bytes().startswith(b"%PDF")


def test_the_workbook_has_the_order_as_text_and_numbers():
    import io

    import openpyxl

    from cards.workbook import workbook

    sets = job(wall("SW4"))
    book = openpyxl.load_workbook(io.BytesIO(workbook(sets, (), orders.rows(sets, [NINE], OURS))))
    cells = [[cell.value for cell in row] for row in book["Order"].iter_rows()]
    assert cells[0][2] == "calc, for ordering only"
    assert ["nails", NAIL, 282, "nails", "SW4 282", None] in [[value or None for value in row] for row in cells]
    assert "Order" not in openpyxl.load_workbook(io.BytesIO(workbook(sets))).sheetnames


def test_nothing_is_ordered_for_a_mark_that_two_storeys_use():
    """Common practice, no source: which of the two types a wall is, only its storey tells."""
    storeys = (read("LEVEL 1 SHEAR PANELS"), read("LEVEL 2 SHEAR PANELS"))
    sets = job(*(wall("SW4", other=(words,)) for words in storeys))
    (one,) = order(sets, [NINE]).lines
    assert not one.panels.done
    assert "SW4 (LEVEL 1), SW4 (LEVEL 2)" in one.panels.why


@pytest.mark.parametrize(
    ("length", "height", "narrow"),
    [(24, 96, True), (27.5, 96, False), (28, 108, True), (31, 108, False), (None, 96, False)],
)
def test_a_wall_too_narrow_for_its_height_is_asked_about(length: float | None, height: float, narrow: bool):
    """ANSI/AWC SDPWS-2015 Table 4.3.4: 3.5 to 1 at the most; 96 / 3.5 = 27.43, 108 / 3.5 = 30.86."""
    printed = said(job(wall("SW4")), [Wall("SW4", "walls.csv line 2", length, height)])
    assert ("Higher than 3-1/2 times its length" in printed) is narrow
