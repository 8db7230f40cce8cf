from itertools import combinations, product

import pytest

from cards.sheet import LAYOUTS, PAPERS, SIZES, plans, size_named
from extractor.errors import UsageError

CARDS = [name for name in SIZES if name != "half-letter"]
WAYS = [way for way in product(CARDS, LAYOUTS, PAPERS) if way[:2] != ("5x8", "fold")]


@pytest.mark.parametrize(("size", "layout", "paper"), WAYS)
def test_every_side_is_printed_once_on_the_paper_and_apart(size, layout, paper):
    card = SIZES[size]
    sheets = plans(5, card, paper, layout)
    seen = sorted((cell.card, cell.side) for sheet in sheets for cell in sheet.cells)
    assert seen == sorted((n, which) for n in range(5) for which in ("front", "back"))
    for sheet in sheets:
        assert sorted((sheet.width, sheet.height)) == list(PAPERS[paper])
        for cell in sheet.cells:
            assert 0.249 <= cell.left <= sheet.width - card.width - 0.249
            assert 0.79 <= cell.top <= sheet.height - card.height - 0.79
        for one, other in combinations(sheet.cells, 2):
            beside = abs(one.left - other.left) >= card.width - 1e-6
            assert beside or abs(one.top - other.top) >= card.height - 1e-6


@pytest.mark.parametrize(("size", "paper"), [("3x5", "letter"), ("4x6", "letter"), ("5x8", "letter"), ("3x5", "a4")])
def test_flipped_on_the_long_edge_each_back_lies_behind_its_front(size, paper):
    sheets = plans(5, SIZES[size], paper, "duplex")
    for front, back in zip(sheets[::2], sheets[1::2], strict=True):
        behind = {cell.card: (front.width - cell.left - SIZES[size].width, cell.top) for cell in back.cells}
        for cell in front.cells:
            assert behind[cell.card] == pytest.approx((cell.left, cell.top))


@pytest.mark.parametrize(
    ("size", "turned", "source"),
    [("3x5", False, "beside each other: turns like a page"), ("4x6", True, "below each other: turned, to turn like a page")],
)
def test_folded_the_back_reads_upright_when_the_card_is_turned_like_a_page(size, turned, source):
    (sheet,) = plans(1, SIZES[size], "letter", "fold")
    front, back = sheet.cells
    assert (back.left > front.left, back.turned) == (not turned, turned)


def test_on_a_sheet_across_the_long_edge_is_the_upper_one_so_the_back_stands_on_its_head():
    front, back = plans(1, SIZES["5x8"], "a4", "duplex")
    assert front.width > front.height
    assert back.cells[0].turned
    assert (back.cells[0].left, back.height - back.cells[0].top - 5) == pytest.approx((front.cells[0].left, front.cells[0].top))


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_tags_are_two_a_sheet_with_one_line_to_cut(paper):
    sheets = plans(3, SIZES["half-letter"], paper, "fold")
    assert [len(sheet.cells) for sheet in sheets] == [2, 1]
    assert [(rule.top, rule.width) for rule in sheets[0].rules] == [(PAPERS[paper][1] / 2, PAPERS[paper][0])]
    assert {cell.side for sheet in sheets for cell in sheet.cells} == {"front"}


@pytest.mark.parametrize(
    ("name", "wide", "high", "kind", "scale", "source"),
    [
        ("id-1", 3.370, 2.125, "small", 1.0, "ISO/IEC 7810"),
        ("id-1/2mm", 3.2125, 1.9675, "small", 1.0, "finished size less two borders: arithmetic"),
        ("3x5/0.25in", 4.5, 2.5, "small", 2.5 / 2.125, "what is left in the pouch takes five lines"),
        ("4.5x3", 4.5, 3.0, "card", 1.0, "custom: type never below that of the smallest"),
        ("3.5x6", 6.0, 3.5, "card", 3.5 / 3, "custom: held across"),
        ("148x105mm", 5.8268, 4.1339, "card", 5.8268 / 5, "A6, ISO 216"),
    ],
)
def test_sizes_named_and_custom(name, wide, high, kind, scale, source):
    size = size_named(name)
    assert (size.width, size.height, size.scale) == pytest.approx((wide, high, scale), abs=1e-3)
    assert size.kind == kind


@pytest.mark.parametrize(
    ("name", "source"),
    [("2x2", "under the floor"), ("20x5", "wider than paper"), ("3x5/2", "a border without a unit"), ("id-1/1in", "nothing left"),
     ("half-letter/2mm", "a tag is not laminated"), ("card", "no name"), ("0x0", "nothing"), ("", "nothing")],
)  # fmt: skip
def test_sizes_that_cannot_be_read_or_printed_say_what_can(name, source):
    with pytest.raises(UsageError, match="Use one of: 3x5"):
        size_named(name)


@pytest.mark.parametrize(("size", "layout", "paper"), [("5x8", "fold", "letter"), ("5x8", "fold", "a4")])
def test_what_does_not_fit_says_what_does(size, layout, paper):
    with pytest.raises(UsageError, match="single"):
        plans(1, SIZES[size], paper, layout)
