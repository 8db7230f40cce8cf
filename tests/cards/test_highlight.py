"""The boxed sheets read back: each number stands at its words, and the list says what the plans say there."""

import io
from functools import cache
from pathlib import Path
from typing import Any

import pdfplumber
import pytest

from cards.highlight import sheets_pdf
from cards.traced import places, traced
from extractor.highlights import STRIP
from extractor.read import read
from extractor.record import Job

FIXTURES = Path(__file__).parents[2] / "fixtures"
SETS = ["demo.pdf", "rotate-90.pdf", "rotate-270.pdf", "annotations-only.pdf"]
OUR_FACE = "AtkinsonHyperlegible"


@cache
def made(name: str) -> tuple[Job, bytes]:
    found = read([FIXTURES / name])
    return found, sheets_pdf(found, [FIXTURES / name])


def plans_page(page: Any) -> bool:
    return max(page.width, page.height) > 1300


@pytest.mark.parametrize("name", SETS)
def test_each_number_stands_at_its_words(name: str) -> None:
    found, data = made(name)
    numbers = places(traced(found))
    pages = list(dict.fromkeys(page for page, _ in numbers))
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        sheets = [page for page in pdf.pages if plans_page(page)]
        assert len(sheets) == len(pages)
        for number, sheet in zip(pages, sheets, strict=True):
            above = STRIP * max(sheet.width, sheet.height - 0) / (1 + 0 * number)
            drawn = {(w["text"], round(w["x0"]), round(w["bottom"])) for w in words_of_ours(sheet)}
            above = sheet.height - original_height(name, number)
            for (page, box), n in numbers.items():
                if page == number:
                    near = [(x, y) for text, x, y in drawn if text == f"{n}"]
                    assert any(abs(x - box[0]) < 5 and abs(y - above - box[1]) < 7 for x, y in near), f"{n} at {box}"


def words_of_ours(sheet: Any) -> list[dict[str, Any]]:
    """Words in the typeface that the numbers are set in; the white rim under each is another copy."""
    ours = sheet.filter(lambda item: item["object_type"] != "char" or OUR_FACE in item["fontname"])
    return list(ours.extract_words(x_tolerance=0.8, use_text_flow=True))


def original_height(name: str, number: int) -> float:
    with pdfplumber.open(FIXTURES / name) as plans:
        return float(plans.pages[number - 1].height)


@pytest.mark.parametrize("name", SETS)
def test_no_word_of_a_sheet_is_lost_under_the_boxes(name: str) -> None:
    found, data = made(name)
    pages = list(dict.fromkeys(page for page, _ in places(traced(found))))
    with pdfplumber.open(io.BytesIO(data)) as pdf, pdfplumber.open(FIXTURES / name) as plans:
        sheets = [page for page in pdf.pages if plans_page(page)]
        for number, sheet in zip(pages, sheets, strict=True):
            before = [char["text"] for char in plans.pages[number - 1].chars]
            after = [char["text"] for char in sheet.chars if OUR_FACE not in char["fontname"]]
            assert sorted(after) == sorted(before)
            assert len(sheet.annots) == len(plans.pages[number - 1].annots)


def test_the_list_says_what_each_number_is() -> None:
    found, data = made("demo.pdf")
    numbers = places(traced(found))
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        rows = [row for page in pdf.pages if not plans_page(page) for table in [lines(page)] for row in table]
    for _, values in traced(found):
        for value in values:
            number = f"{numbers[value.reading.source.page, value.reading.source.box]}"
            said = " ".join(text for n, text in rows if n == number)
            for words in (value.mark, value.text.split()[0], value.reading.as_printed.split()[0]):
                assert words in said, f"{number}: {value.label}"


def lines(page: Any) -> list[tuple[str, str]]:
    """Number and words of each line of a list; a line runs on until the next number."""
    done: list[tuple[str, str]] = []
    words = sorted(page.extract_words(), key=lambda word: (round(word["top"]), word["x0"]))
    body = [word for word in words if 80 < word["top"] < page.height - 45]
    for word in body:
        if word["x0"] < 38 and word["text"].isdigit():
            done.append((word["text"], ""))
        elif done:
            done[-1] = (done[-1][0], done[-1][1] + " " + word["text"])
    return done


@pytest.mark.parametrize("name", SETS)
def test_every_page_says_file_sheet_and_page(name: str) -> None:
    found, data = made(name)
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        for n, page in enumerate(pdf.pages, 1):
            text = " ".join((page.extract_text() or "").split())
            assert found.plan_set.sha256[:8] in text or (not plans_page(page) and n > 1)
            assert f"page {n} of {len(pdf.pages)}" in text
            assert "engineer of record govern" in text or not plans_page(page)


def test_the_same_plans_give_the_same_bytes() -> None:
    found, data = made("demo.pdf")
    assert sheets_pdf(found, [FIXTURES / "demo.pdf"]) == data
    assert b"CreationDate" not in data[-4000:]
