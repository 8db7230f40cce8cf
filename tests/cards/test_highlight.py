"""The boxed sheets read back: each number stands at its words, and the list says what the plans say there."""

import io
from collections.abc import Iterator
from functools import cache
from itertools import groupby
from typing import Any

import pdfplumber
import pytest

from cards.highlight import sheets_pdf
from cards.traced import places, traced
from extractor.record import Job
from tests.cards.sets import FIXTURES, job_of

SETS = ["demo.pdf", "rotate-90.pdf", "rotate-270.pdf", "annotations-only.pdf"]
OUR_FACE = "AtkinsonHyperlegible"


@cache
def made(name: str) -> tuple[Job, bytes]:
    found = job_of(FIXTURES / name)
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
            drawn = list(words_of_ours(sheet))
            above = sheet.height - original_height(name, number)
            for (page, box), n in numbers.items():
                if page == number:
                    near = [(x, y) for text, x, y in drawn if text == f"{n}"]
                    assert any(abs(x - box[0]) < 5 and abs(y - above - box[1]) < 7 for x, y in near), f"{n} at {box}"


def words_of_ours(sheet: Any) -> Iterator[tuple[str, float, float]]:
    """Text, left and bottom of each word in the typeface of the numbers, on the sheet as a reader sees it."""
    for _, run in groupby(enumerate(char for char in sheet.chars if OUR_FACE in char["fontname"]), _Runs()):
        chars = [char for _, char in run]
        yield "".join(char["text"] for char in chars), chars[0]["x0"] - sheet.bbox[0], chars[0]["bottom"] - sheet.bbox[1]


class _Runs:
    """A new key wherever a character does not go on from the one before it."""

    def __init__(self) -> None:
        self.key, self.end, self.line = 0, -1.0, -1.0

    def __call__(self, item: tuple[int, Any]) -> int:
        char = item[1]
        self.key += abs(char["x0"] - self.end) > 0.5 or abs(char["bottom"] - self.line) > 0.5
        self.end, self.line = char["x1"], char["bottom"]
        return self.key


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
        rows = [row for page in pdf.pages if not plans_page(page) for row in lines(page)]
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
    body = [word for word in words if 40 < word["top"] < page.height - 45]
    for word in body:
        if word["x0"] < 50 and word["text"].isdigit():
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
            assert found.plan_set.sha256[:8] in text
            assert f"page {n} of {len(pdf.pages)}" in text
            assert "engineer of record govern" in text


def test_the_same_plans_give_the_same_bytes() -> None:
    found, data = made("demo.pdf")
    assert sheets_pdf(found, [FIXTURES / "demo.pdf"]) == data
    assert b"CreationDate" not in data[-4000:]
