from itertools import combinations, product

import pytest

from cards.sheet import LAYOUTS, PAPERS, SIZES, plans
from extractor.errors import UsageError

WAYS = [way for way in product(SIZES, LAYOUTS, PAPERS) if way not in {("5x8", "fold", "letter"), ("5x8", "fold", "a4"),
                                                                      ("5x8", "duplex", "a4")}]  # fmt: skip


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


@pytest.mark.parametrize(("size", "layout", "paper"), [("5x8", "fold", "letter"), ("5x8", "duplex", "a4")])
def test_what_does_not_fit_says_what_does(size, layout, paper):
    with pytest.raises(UsageError, match="single"):
        plans(1, SIZES[size], paper, layout)
