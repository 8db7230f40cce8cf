"""Cards as text geometry: what a framer sees on the printed sheet, read back from the PDF."""

import io
import re
from functools import cache
from itertools import combinations, pairwise
from typing import Any

import pikepdf
import pypdfium2
import pytest
import zxingcpp

from cards.drawing import panel_nails
from cards.pocket import cards_pdf
from cards.values import inch
from extractor.errors import UsageError
from extractor.record import EdgeNailing, Fastener, FieldNailing, Job, State, readings
from tests.cards.making import finding, full_wall, job, nail, pages, printed, read, side, silent, spoiled, text, wall
from tests.cards.sets import DEMO, job_of

SAFE_PT = 0.15 * 72
HOLE_PT = 0.5 * 72


def plain_job() -> Job:
    return job(wall("SW4"), wall("SW2", edge=EdgeNailing(spacing_in=read(2.0))), wall("A", fastener=nail(penny=None)))


def nasty_job() -> Job:
    """Every line of every card long, missing or in doubt, and all of it on hold."""
    long_mark = "WALL TYPE 12-B (NORTH)"
    walls = (full_wall(), full_wall(long_mark), wall("X", fastener=Fastener(), edge=EdgeNailing(), field=FieldNailing()))
    questions = tuple(finding("framing.sill", mark, "stop", message=f"Question {i}: " + "words of a long question " * 4)
                      for mark in ("SW1", long_mark, "X") for i in range(4))  # fmt: skip
    return job(*walls, findings=questions, file="a plan set whose name is far too long for a card, revision 12.pdf")


def long_job() -> Job:
    """A 10d nail whose drawing leaves its words little room."""
    ten = nail(penny=read("10d"), length_in=read(3.0), diameter_in=read(0.148))
    return job(wall("SW5", fastener=ten, edge=EdgeNailing(spacing_in=read(3.0))), full_wall())


@cache
def made(name: str, **how: str) -> bytes:
    jobs = {"plain": plain_job, "spoiled": spoiled, "nasty": nasty_job, "long": long_job}
    return cards_pdf(jobs[name](), **how)


def sides(pdf: bytes) -> list[Any]:
    """Both sides of each 3x5 card that folds, two cards a sheet, in order."""
    found = [side(page, place, which) for page in pages(pdf) for place in range(2) for which in ("front", "back")]
    return [part for part in found if text(part)]


def words_of(part: Any) -> list[dict[str, Any]]:
    return list(part.extract_words(use_text_flow=False, keep_blank_chars=False, extra_attrs=["size"]))


SHEETS = [
    ("plain", {}, "usual"),
    ("spoiled", {}, "each value state"),
    ("nasty", {}, "too much of everything"),
    ("plain", {"language": "es"}, "Spanish"),
    ("spoiled", {"language": "es"}, "Spanish, each value state"),
    ("plain", {"language": "en+es"}, "two languages"),
    ("spoiled", {"language": "en+es"}, "two languages, each value state"),
    ("nasty", {"language": "en+es"}, "two languages, too much of everything"),
    ("long", {"language": "en+es"}, "two languages, a 3 in nail beside a gauge of 3 in"),
]


def ink(word: dict[str, Any]) -> tuple[float, float]:
    """Top and foot of a word's letters: the typeface's own box has room for accents above and tails below."""
    return word["top"] + 0.05 * word["size"], word["bottom"] - 0.25 * word["size"]


@pytest.mark.parametrize(("name", "how", "what"), SHEETS)
def test_no_words_overlap(name, how, what):
    for page in pages(made(name, **how)):
        for one, other in combinations(words_of(page), 2):
            if min(one["x1"], other["x1"]) - max(one["x0"], other["x0"]) > 0.5:
                (top, foot), (other_top, other_foot) = ink(one), ink(other)
                assert min(foot, other_foot) - max(top, other_top) <= 0.3, (one["text"], other["text"], page.page_number)


@pytest.mark.parametrize(("name", "how", "what"), SHEETS)
def test_nothing_stands_in_the_margin_or_where_the_hole_is_punched(name, how, what):
    for number, part in enumerate(sides(made(name, **how))):
        left, top, right, bottom = part.bbox
        for word in words_of(part):
            assert left + SAFE_PT - 0.6 <= word["x0"] < word["x1"] <= right - SAFE_PT + 0.6, word["text"]
            assert top + SAFE_PT - 0.6 <= word["top"] < word["bottom"] <= bottom - SAFE_PT + 2.5, word["text"]
        hole = (left, top, left + HOLE_PT, top + HOLE_PT) if number % 2 == 0 else (right - HOLE_PT, top, right, top + HOLE_PT)
        assert not part.crop(hole).chars


@pytest.mark.parametrize(
    ("what", "find", "least", "source"),
    [
        ("mark", r"SW4", 42, "42 pt reads at 5 ft: cap height 0.007 of the distance"),
        ("nail", r"2-1/2\"", 20, "17 pt reads at arm's length"),
        ("edge", r"4\"", 22, "17 pt reads at arm's length"),
        ("field", r"12\"", 22, "17 pt reads at arm's length"),
        ("sheathing", r"15/32\"", 10, "10 pt reads in the hand"),
        ("hold-down", r"HD2,", 10, "10 pt reads in the hand"),
        ("bolts", r"5/8\"", 10, "10 pt reads in the hand"),
        ("digest", r"c0ffee12", 8, "foot of the card"),
    ],
)
def test_type_is_large_enough_for_its_distance(what, find, least, source):
    front = sides(made("plain"))[0]
    found = [word["size"] for word in words_of(front) if re.fullmatch(find, word["text"])]
    assert found
    assert max(found) >= least - 0.01


@pytest.mark.parametrize(("name", "how", "what"), SHEETS[:1] + SHEETS[3:4] + SHEETS[5:6])
def test_nothing_is_printed_under_8_points(name, how, what):
    assert min(char["size"] for page in pages(made(name, **how)) for char in page.chars) >= 7.99


@pytest.mark.parametrize("name", ["plain", "spoiled"])
def test_every_number_on_a_front_is_in_the_job(name):
    one = {"plain": plain_job, "spoiled": spoiled}[name]()
    known = {"2", "12", "2026", "c0ffee12", "001", "S3.1", str(len(one.wall_types)), *map(str, range(1, 10))}
    for record in (*one.wall_types, *one.hold_downs):
        for field, reading in readings(record):
            for found in (reading, *reading.also):
                values = found.value if isinstance(found.value, tuple) else (found.value,)
                known |= {inch(v).rstrip('"') for v in values if isinstance(v, int | float) and not field.endswith("_lb")}
                known |= set(re.findall(r"[\d./-]+", found.as_printed))
    for part in sides(made(name))[::2]:
        front = re.sub(r"= \d+ mm", "", text(part))
        numbers = re.findall(r"(?<![\w.-])\d[\d./-]*(?=[\"\s,)]|$)", front)
        assert numbers
        assert {n.rstrip(".,") for n in numbers} <= known


def test_a_card_names_job_revision_date_sheet_row_digest_and_who_governs():
    front = text(sides(made("plain"))[0])
    for words in ("kestrel-lot-7", "REV 2, 12 May 2026", "Card 1 of 3", "S3.1 row 1", "file c0ffee12", "Approved plans govern"):
        assert words in front


def test_the_back_says_who_governs_and_the_safety_line():
    back = text(sides(made("plain"))[1])
    assert "Approved plans and the engineer govern. Card and plans differ? Stop and ask." in back
    assert "Full sequential trigger." in back
    assert "read the DIAMETER on the box" in back


def test_the_hold_band_is_there_when_a_stop_is_open_and_only_then():
    fronts = [text(part) for part in sides(made("spoiled"))[::2]]
    assert ["HOLD - DO NOT NAIL FROM THIS CARD" in front for front in fronts] == [False, True, True, True, False, False]


@pytest.mark.parametrize(
    ("issue", "marks", "source"),
    [
        ("issue", ["SW1", "SW5", "P1-4"], "a card on hold is never issued"),
        ("draft", ["SW2", "SW3", "SW4"], "those on hold"),
        ("all", ["SW1", "SW2", "SW3", "SW4", "SW5", "P1-4"], "both"),
    ],
)
def test_issue(issue, marks, source):
    pdf = made("spoiled", issue=issue)
    found = [re.match(r"\S+", text(part)).group() for part in sides(pdf)[::2]]
    assert found == marks


def test_with_no_card_to_issue_the_sheet_says_so():
    one = job(wall(), findings=(finding("edge.spacing_in"),))
    assert any("No card to issue" in line for line in printed(cards_pdf(one, issue="issue")))


def test_states_are_all_worded_and_none_is_blank():
    fronts = [text(part) for part in sides(made("spoiled"))[::2]]
    for number, words in ((1, "CONFLICT - ASK (Q-04)"), (1, '4" (S3.1) | 6" (note, S-001)'), (2, "CAN'T READ - SEE"),
                          (2, "SIZE NOT ON PLANS - ASK (Q-02)"), (3, "NOT ON PLANS - ASK (Q-01)"), (3, "SEE: “PER PLAN”"),
                          (4, "ANSWER: RFI 3, 12 May"), (4, "NONE (per plans)"),
                          (0, "all panel edges (note, S-001)")):  # fmt: skip
        assert words in fronts[number]


def test_nothing_is_drawn_from_a_missing_number():
    back = sides(made("spoiled"))[7]
    left, top = back.bbox[:2]
    assert text(back.crop((left, top, left + 112, top + 115))) == "FIELD SPACING NOT ON PLANS - ASK (Q-06)"
    assert "LENGTH, DIAMETER NOT ON PLANS - ASK (Q-01)" in text(back)
    assert not dots(back)


def dots(part: Any) -> list[tuple[float, float]]:
    """Nails of a panel drawing: strokes so short that they print as a round dot."""
    return [(line["x0"], line["top"]) for line in part.lines if 0 < line["x1"] - line["x0"] < 0.05 and line["height"] < 0.05]


@pytest.mark.parametrize(
    ("edge", "field", "count", "source"),
    [
        (6.0, 12.0, 62, "2*16 + 2*8 + 2*(8-1), counted by hand"),
        (4.0, 12.0, 86, "2*24 + 2*12 + 2*(8-1)"),
        (3.0, 12.0, 110, "2*32 + 2*16 + 2*(8-1)"),
        (2.0, 12.0, 158, "2*48 + 2*24 + 2*(8-1)"),
        (6.0, 6.0, 78, "2*16 + 2*8 + 2*(16-1)"),
    ],
)
def test_the_panel_drawn_has_as_many_nails_as_the_panel_built(edge, field, count, source):
    one = wall(edge=EdgeNailing(spacing_in=read(edge)), field=FieldNailing(spacing_in=read(field)))
    back = sides(cards_pdf(job(one)))[1]
    found = dots(left_of(back, 112))
    assert len(found) == len({(round(x, 2), round(y, 2)) for x, y in found}) == len(panel_nails(edge, field)) == count


def left_of(part: Any, width: float) -> Any:
    left, top, _, bottom = part.bbox
    return part.crop((left, top, left + width, bottom))


@pytest.mark.parametrize(
    ("edge", "count", "source"),
    [(6.0, 28, "2*6 + 2*8 round 3 x 4 ft"), (4.0, 42, "2*9 + 2*12"), (2.0, 84, "2*18 + 2*24")],
)
def test_a_3x5_back_has_all_five_drawings_and_the_opening_has_its_nails(edge, count, source):
    back = sides(cards_pdf(job(wall(edge=EdgeNailing(spacing_in=read(edge))))))[1]
    for words in ("FLUSH", "3x", "block", "HD2", "opening", 'at least 3/8"'):
        assert words in text(back)
    caption = next(word for word in words_of(back) if word["text"] == "opening")
    post = next(word for word in words_of(back) if word["text"] == "HD2")
    middle = (caption["x0"] + post["x1"]) / 2
    found = [(x, y) for x, y in dots(back) if x > middle]
    assert len(set(found)) == len(found) == count
    into_post = [y for x, y in dots(back) if back.bbox[0] + 112 < x < middle]
    assert len({round(low - high, 2) for low, high in pairwise(sorted(into_post))}) <= 1


def test_a_number_that_an_open_stop_disputes_is_not_drawn():
    disputed = job(wall(), findings=(finding("edge.spacing_in"), finding("fastener.length_in")))
    back = sides(cards_pdf(disputed))[1]
    assert not dots(back)
    assert "EDGE GAUGE" not in text(back)
    assert "length check" not in text(back)
    assert "ASK (Q-01)" in text(back)


@pytest.mark.parametrize(
    ("edge", "apart", "words", "source"),
    [
        (4.0, 4.0, 'line to line: 4"', "measured on the sheet"),
        (3.0, 3.0, 'line to line: 3"', "measured on the sheet"),
        (2.5, 2.5, 'line to line: 2-1/2"', "measured on the sheet"),
        (6.0, 3.0, 'line to line: 6" = 2 × 3"', "6 in is longer than the card: two threes"),
    ],
)
def test_gauge_ticks_are_one_spacing_apart(edge, apart, words, source):
    back = sides(cards_pdf(job(wall(edge=EdgeNailing(spacing_in=read(edge))))))[1]
    assert words in text(back)
    low = back.bbox[3] - SAFE_PT - 17.5
    ticks = sorted({round(line["x0"], 2) for line in back.lines if line["height"] > 15 and line["top"] > low})
    assert len(ticks) == 2
    assert ticks[1] - ticks[0] == pytest.approx(apart * 72, abs=0.25 / 25.4 * 72)


@pytest.mark.parametrize(("length", "source"), [(2.5, "8d common"), (3.0, "10d common"), (2.375, "as a box might print it")])
def test_the_nail_is_drawn_at_its_length(length, source):
    back = sides(cards_pdf(job(wall(fastener=nail(length_in=read(length))))))[1]
    outlines = [shape for shape in (*back.curves, *back.rects) if shape["fill"] and shape["width"] > 100 and shape["height"] < 12]
    assert max(shape["width"] for shape in outlines) == pytest.approx(length * 72, abs=0.25 / 25.4 * 72)


def test_bars_for_the_printers_scale_are_four_inches_and_100_mm():
    for page in pages(made("plain")):
        foot = page.crop((0, page.height - 70, page.width, page.height))
        thick = sorted(line["width"] for line in foot.lines if line["linewidth"] > 2)
        assert thick == pytest.approx([100 / 25.4 * 72, 4 * 72], abs=0.1)
        assert "If this bar is not 4 in, do not use the nail drawing or gauge." in text(foot)


def test_a_sheet_has_a_header_with_job_digest_revision_and_page():
    heads = [text(page.crop((0, 0, page.width, 57))) for page in pages(made("plain"))]
    assert len(heads) == 2
    for number, head in enumerate(heads, 1):
        for words in ("kestrel-lot-7", "file c0ffee12", "S3.1 REV 2, 12 May 2026", f"page {number} of 2", "Fold on"):
            assert words in head


@pytest.mark.parametrize(("count", "sheets"), [(1, 1), (12, 6), (60, 30)])
def test_one_card_for_each_type_two_on_a_sheet(count, sheets):
    one = job(*(wall(f"W{i}") for i in range(1, count + 1)))
    pdf = pypdfium2.PdfDocument(cards_pdf(one))
    words = " ".join(page.get_textpage().get_text_bounded() for page in pdf)
    numbers = [(int(n), int(of)) for n, of in re.findall(r"Card (\d+) of (\d+)\s+2\s+NAIL", words)]
    assert numbers == [(i, count) for i in range(1, count + 1)]
    assert len(pdf) == sheets


def test_only_black_white_and_grey():
    for page in pages(made("spoiled")):
        for shape in (*page.chars, *page.lines, *page.rects, *page.curves):
            for colour in (shape["stroking_color"], shape["non_stroking_color"]):
                assert colour is None or isinstance(colour, int | float) or len(set(colour)) == 1


def test_the_same_job_gives_the_same_bytes():
    assert cards_pdf(plain_job()) == cards_pdf(plain_job())


def test_the_typeface_is_in_the_file():
    with pikepdf.open(io.BytesIO(made("plain"))) as pdf:
        fonts = [font for page in pdf.pages for font in page.Resources.Font.values()]
        assert {str(font.BaseFont).split("+")[-1] for font in fonts} == {"Card", "Card-Bold"}
        assert all("/FontFile2" in font.DescendantFonts[0].FontDescriptor for font in fonts)


def test_the_qr_says_in_plain_text_what_the_card_says():
    page = pypdfium2.PdfDocument(made("spoiled"))[0].render(scale=300 / 72, grayscale=True).to_pil()
    codes = sorted(code.text for code in zxingcpp.read_barcodes(page))
    assert codes == [
        "HOLD|kestrel-lot-7|SW2|REV 2 2026-05-12|2-1/2x0.131|EASK F12|HD2|card 2/6|c0ffee12",
        "kestrel-lot-7|SW1|REV 2 2026-05-12|2-1/2x0.131|E4 F12|HD2|card 1/6|c0ffee12",
    ]


def test_spanish_has_its_accents_and_two_languages_have_both():
    spanish = text(sides(cards_pdf(job(wall(field=FieldNailing())), language="es"))[0])
    assert all(word in spanish for word in ("NO ESTÁ EN LOS", "PREGUNTE", "CENTRO"))
    assert "ALTO - NO CLAVE CON ESTA TARJETA" in spanish
    both = text(sides(made("plain", language="en+es"))[0])
    assert "EDGE · BORDES" in both
    assert all(word in both for word in ("todos", "los", "bordes"))


def test_a_long_connector_is_whole_on_the_card_or_the_card_says_where_it_stands():
    front = text(sides(cards_pdf(job(full_wall())))[0])
    assert "KT-22 framing angle each side, (6) nails 0.131 x 1-1/2 each leg" in front or "SEE S3.1 row 1: too long" in front


@pytest.mark.parametrize(
    ("size", "layout", "paper", "source"),
    [
        ("4x6", "fold", "letter", "front above back"),
        ("4x6", "single", "a4", ""),
        ("5x8", "single", "letter", "large print"),
        ("5x8", "duplex", "letter", "large print"),
        ("3x5", "duplex", "letter", "three on an upright sheet"),
        ("3x5", "single", "a4", ""),
        ("3x5", "fold", "a4", ""),
    ],
)
def test_other_sizes_and_layouts_print_every_card(size, layout, paper, source):
    pdf = made("plain", size=size, layout=layout, paper=paper)
    found = [char for page in pages(pdf) for char in page.chars]
    assert found
    assert all(char["x0"] > 0 and char["x1"] < page.width for page in pages(pdf) for char in page.chars)


@pytest.mark.parametrize(
    ("how", "source"),
    [
        ({"size": "2x2"}, "no such size"),
        ({"layout": "scroll"}, "no such layout"),
        ({"paper": "legal"}, "no such paper"),
        ({"language": "fr"}, "no such language"),
        ({"issue": "some"}, "no such issue"),
        ({"size": "5x8", "layout": "fold"}, "ten inches of card and two strips are more than eleven"),
    ],
)
def test_what_cannot_be_printed_says_what_can(how, source):
    with pytest.raises(UsageError, match="Use"):
        cards_pdf(plain_job(), **how)


def test_an_unreadable_mark_is_printed_as_it_stands():
    one = wall().model_copy(update={"mark": silent(State.UNREADABLE, "S#4")})
    assert text(sides(cards_pdf(job(one)))[0]).startswith("S#4")


def test_in_two_languages_every_value_of_the_demo_still_stands_on_its_card():
    demo = job_of(DEMO)
    fronts = [text(part) for part in sides(cards_pdf(demo, language="en+es"))[::2]]
    assert len(fronts) == len(demo.wall_types)
    for front in fronts:
        assert "SEE / VEA" not in front
        for words in ('15/32"', "anchor bolts", "post", "16d", "KP-35"):
            assert words in front


@pytest.mark.parametrize(
    ("level", "language", "words", "source"),
    [
        ("stop", "en", ["ASK (Q-01)"], "two places disagree: the card says so beside the value"),
        ("ask", "es", ["PREGUNTE (P-01)"], "an open question that holds nothing"),
        ("note", "en", [], "a note asks nothing"),
    ],
)
def test_a_value_with_an_open_question_does_not_look_like_one_without(level, language, words, source):
    asked = job(wall(), findings=(finding("fastener.diameter_in", level=level),))
    front = text(sides(cards_pdf(asked, language=language))[0])
    assert re.findall(r"(?:ASK|PREGUNTE) \([QP]-\d+\)", front) == words
    assert '0.131"' in front


def test_a_card_whose_foot_has_room_says_what_to_do_with_it_when_a_newer_sheet_is_out():
    assert "Newer sheet? Hand this in." in text(sides(made("plain"))[0])


def test_two_cards_with_one_mark_say_which_storey_they_are_for():
    """Common practice, no source: a framer on the second floor holds a card that says LEVEL 2 beside the mark."""
    storeys = ("LEVEL 1 SHEAR PANELS (ON CONCRETE)", "LEVEL 2 SHEAR PANELS (ON WOOD FLOOR)")
    found = job(*(wall("1", other=(read(words),)) for words in storeys), wall("3"))
    said = " ".join(text(page) for page in pages(cards_pdf(found)))
    assert [said.count(f"{storey} · kestrel-lot-7") for storey in ("LEVEL 1", "LEVEL 2")] == [1, 1]


@pytest.mark.parametrize("language", ["en", "en+es"])
def test_card_sheets_of_a_set_with_schedules_of_two_revisions_say_so(language):
    """Common practice, no source: cards of two issues in one pocket are how a wall gets nailed to a withdrawn sheet."""
    first, second = wall("SW4"), wall("SW5")
    moved = second.mark.model_copy(update={"source": second.mark.source.model_copy(update={"page": 5, "sheet": "S3.2"})})
    found = job(first, second.model_copy(update={"mark": moved}))
    one = found.sheets[0]
    sheets = (one, one.model_copy(update={"page": 5, "number": "S3.2", "revision": "3"}))
    for page in pages(cards_pdf(found.model_copy(update={"sheets": sheets}), language=language)):
        said = " ".join(text(page).split())
        assert "SCHEDULE SHEETS OF DIFFERENT ISSUES - ASK" in said
        assert "S3.2 REV 3" in said
    assert all("DIFFERENT ISSUES" not in text(page) for page in pages(cards_pdf(found, language=language)))
