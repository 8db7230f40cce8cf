"""The other card sizes as a reader sees them: nothing overlaps, nothing is cut, nothing is too small, nothing vanishes."""

import io
from functools import cache
from itertools import combinations
from typing import Any

import pypdfium2
import pytest
import zxingcpp

from cards.drawing import SHAPES
from cards.front import shape_of
from cards.pocket import cards_pdf
from cards.sheet import on_paper, plans, size_named
from extractor.record import Framing, Job
from tests.cards.making import finding, job, pages, read, spoiled, text, wall
from tests.cards.test_pocket import ink, nasty_job, plain_job, words_of

JOBS = {"plain": plain_job, "spoiled": spoiled, "nasty": nasty_job}
WAYS = [(name, size, layout, paper) for name in JOBS for size, layout, paper in (
    ("id-1", "fold", "letter"), ("id-1/2mm", "duplex", "a4"), ("half-letter", "fold", "letter"), ("half-letter", "fold", "a4"),
    ("4.5x3.2", "single", "letter"), ("4x6", "fold", "letter"), ("5x8", "duplex", "a4"))]  # fmt: skip


@cache
def made(name: str, size: str, layout: str = "fold", paper: str = "letter", language: str = "en") -> bytes:
    return cards_pdf(JOBS[name](), size=size, layout=layout, paper=paper, language=language)


def parts(sets: Job, pdf: bytes, size: str, layout: str, paper: str) -> list[tuple[str, Any]]:
    """Each side with what is printed on it, as it stands on the sheet."""
    card = on_paper(size_named(size), paper)
    found = []
    for page, sheet in zip(pages(pdf), plans(len(sets.wall_types), card, paper, layout), strict=True):
        for cell in sheet.cells:
            left, top = cell.left * 72, cell.top * 72
            found.append((cell.side, page.crop((left, top, left + card.width * 72, top + card.height * 72 - 0.01))))
    return found


BOTH = [(name, size, layout, "letter", "en+es") for name in JOBS
        for size, layout in (("id-1/2mm", "fold"), ("4x6", "fold"), ("half-letter", "fold"), ("5x8", "single"))]  # fmt: skip


@pytest.mark.parametrize(("name", "size", "layout", "paper", "language"), [*((*way, "en") for way in WAYS), *BOTH])
def test_no_words_overlap_on_any_size(name, size, layout, paper, language):
    for page in pages(made(name, size, layout, paper, language)):
        for one, other in combinations(words_of(page), 2):
            if min(one["x1"], other["x1"]) - max(one["x0"], other["x0"]) > 0.5:
                (top, foot), (other_top, other_foot) = ink(one), ink(other)
                assert min(foot, other_foot) - max(top, other_top) <= 0.5, (one["text"], other["text"], page.page_number)


@pytest.mark.parametrize(("name", "size", "layout", "paper"), WAYS)
def test_all_is_inside_the_margins_and_at_least_seven_points(name, size, layout, paper):
    card, sets = on_paper(size_named(size), paper), JOBS[name]()
    safe = card.margin * 72 - 2.5
    for _, part in parts(sets, made(name, size, layout, paper), size, layout, paper):
        left, top, right, bottom = part.bbox
        assert part.chars
        for char in part.chars:
            assert left + safe <= char["x0"] < char["x1"] <= right - safe, char["text"]
            assert top + safe <= char["top"] < char["bottom"] <= bottom - safe, char["text"]
            assert char["size"] >= 6.99, char["text"]


@pytest.mark.parametrize(
    ("size", "words", "least", "source"),
    [
        ("half-letter", "SW4", 84, "a sheet on the wall is read at 10 ft: cap height 0.007 of the distance"),
        ("half-letter", '4"', 17, "17 pt reads at arm's length"),
        ("id-1", "SW4", 30, "the mark of a small card"),
        ("id-1", '2-1/2"', 14, "the nail of a small card"),
        ("id-1", '4"', 16, "edge and field of a small card"),
        ("id-1", '15/32"', 10, "10 pt reads in the hand"),
        ("id-1", "HD2,", 10, "10 pt reads in the hand"),
        ("5x8", '4"', 35, "large print: 1.6 times"),
    ],
)
def test_type_of_each_size_is_large_enough(size, words, least, source):
    layout = "single" if size == "5x8" else "fold"
    found = [word["size"] for word in words_of(next(pages(made("plain", size, layout)))) if word["text"] == words]
    assert max(found) >= least - 0.01


@pytest.mark.parametrize("language", ["en", "es", "en+es"])
@pytest.mark.parametrize(("size", "layout"), [("4x6", "fold"), ("3x5", "duplex"), ("id-1", "fold"), ("3x5", "single")])
def test_what_stands_above_the_cards_ends_above_them_and_says_all(size, layout, language):
    sets = plain_job()
    first = plans(len(sets.wall_types), size_named(size), "letter", layout)[0]
    top = min(cell.top for cell in first.cells) * 72
    page = next(pages(made("plain", size, layout, "letter", language)))
    above = [char for char in page.chars if char["top"] < top]
    assert max(char["bottom"] for char in above) <= top
    said = text(page.crop((0, 0, page.width, top)))
    assert all(words in said for words in ("kestrel-lot-7", "c0ffee12", "REV 2, 12"))
    assert ("biling" in said) == (language != "en")


def test_a_value_beside_a_long_one_stays_on_a_small_card_in_two_languages():
    sets = job(wall(framing=Framing(blocked=None, panel_edge=read("3x"))), findings=(finding("framing.blocked", level="ask"),))
    for side, part in parts(sets, cards_pdf(sets, size="id-1", language="en+es"), "id-1", "fold", "letter"):
        if side == "front":
            assert "3x" in text(part)
            assert max(char["x1"] for char in part.chars) <= part.bbox[2] - size_named("id-1").margin * 72 + 2.5


def test_a_small_card_has_five_lines_and_sends_to_the_larger_card_for_the_rest():
    sets = plain_job()
    (_, front), (_, back), *_ = parts(sets, made("plain", "id-1"), "id-1", "fold", "letter")
    for words in ("SW4", '2-1/2" × 0.131" 8d common', '4"', '12"', '15/32" OSB', "BLOCKING all panel edges",
                  "JOINT STUD 3x", "HD2", "REV 2, 12 May 2026", "c0ffee12", "Approved plans govern"):  # fmt: skip
        assert words in text(front)
    assert "SILL" not in text(front).upper().replace("SILLS", "")
    assert "Sill, plates, top, joints, questions: SEE 3x5 CARD." in text(back)


@pytest.mark.parametrize("size", ["id-1", "id-1/2mm"])
def test_a_small_card_on_hold_says_so_and_hides_no_doubt(size):
    sets = spoiled()
    fronts = [text(part) for side, part in parts(sets, made("spoiled", size), size, "fold", "letter") if side == "front"]
    assert ["HOLD - DO NOT NAIL" in front for front in fronts] == [False, True, True, True, False, False]
    for number, words in ((1, "CONFLICT -"), (2, "CAN'T READ"), (3, "NOT ON PLANS - ASK (Q-01)"), (3, "ASK (Q-06)"),
                          (3, "SEE 3x5 CARD")):  # fmt: skip
        assert words in fronts[number]


def test_a_tag_carries_all_that_a_sheet_says_elsewhere():
    sets = plain_job()
    tags = parts(sets, made("plain", "half-letter"), "half-letter", "fold", "letter")
    assert [side for side, _ in tags] == ["front"] * 3
    for words in ("kestrel-lot-7", "c0ffee12", "S3.1 row 1", "REV 2, 12 May 2026", "page 1 of 2", "Card 1 of 3",
                  "Approved plans and the engineer govern. Card and plans differ? Stop and ask."):  # fmt: skip
        assert words in text(tags[0][1])
    assert "page 2 of 2" in text(tags[2][1])


@pytest.mark.parametrize("size", ["id-1", "4x6"])
def test_the_qr_of_other_sizes_reads(size):
    page = pypdfium2.PdfDocument(io.BytesIO(made("plain", size)))[0].render(scale=300 / 72, grayscale=True).to_pil()
    read = [code.text for code in zxingcpp.read_barcodes(page, try_rotate=True)]
    assert "kestrel-lot-7|SW4|REV 2 2026-05-12|2-1/2x0.131|E4 F12|HD2|card 1/3|c0ffee12" in read


@pytest.mark.parametrize(
    ("revision", "shape", "source"),
    [
        ("A", "circle", "first"), ("B", "square", "second"), ("C", "triangle", "third"), ("F", "circle", "round again"),
        ("1", "circle", "first"), ("2", "square", "second"), ("REV 3", "triangle", "with its word"),
        ("6", "circle", "round again"),
        ("0", "hexagon", "the one before the first"), ("BID SET", None, "words have no shape"), (None, None, "no revision"),
        ("2A", None, "neither a letter nor a number"),
    ],
)  # fmt: skip
def test_the_corner_shape_goes_with_the_revision(revision, shape, source):
    found = shape_of(revision)
    assert (SHAPES[found] if found is not None else None) == shape


@pytest.mark.parametrize(("revision", "word"), [("B", "square"), ("1", "circle"), ("BID SET", None), (None, None)])
def test_the_word_stands_beside_the_shape(revision, word):
    sets = job(wall())
    sheets = tuple(sheet.model_copy(update={"revision": revision}) for sheet in sets.sheets)
    front = text(parts(sets, cards_pdf(sets.model_copy(update={"sheets": sheets})), "3x5", "fold", "letter")[0][1])
    assert [shape for shape in SHAPES if shape in front] == ([word] if word else [])
    assert f"REV {revision}" in front or revision is None


@pytest.mark.parametrize(("edge", "twin", "source"), [(4.0, "102", "101.6: arithmetic"), (3.0, "76", "76.2: arithmetic")])
def test_millimetres_stand_beside_a_spacing_and_never_in_its_place(edge, twin, source):
    from extractor.record import EdgeNailing

    sets = job(wall(edge=EdgeNailing(spacing_in=read(edge))))
    part = parts(sets, cards_pdf(sets), "3x5", "fold", "letter")[0][1]
    assert f"o.c. = {twin} mm" in text(part)
    sizes = {word["text"]: word["size"] for word in words_of(part)}
    assert sizes[twin] <= 8.01 < sizes["o.c."]


def test_a_long_sill_keeps_its_two_lines_at_ten_points_where_main_numbers_can_give():
    from tests.cards.making import full_wall

    front = parts(job(full_wall()), cards_pdf(job(full_wall())), "3x5", "fold", "letter")[0][1]
    assert "too long" not in text(front)
    assert "washer" in text(front)
    assert "KT-22 framing angle each" in text(front)
    sizes = [word["size"] for word in words_of(front) if word["text"] in ('2"', '12"')]
    assert min(sizes) >= 17
