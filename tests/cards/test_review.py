"""The review page as a file: every value beside its picture, nothing from a network, no words of a plan run as code."""

import base64
import hashlib
import io
import re
from functools import cache

import pytest
from PIL import Image

from cards.phone import phone
from cards.review import review
from cards.screen import css_string
from cards.shots import windows
from cards.traced import not_found, traced
from extractor.record import Job, PlanMark, Sheathing, Source
from tests.cards.making import finding, job, spoiled, wall
from tests.cards.making import read as printed_as
from tests.cards.sets import DEMO, job_of

EVIL = "</script><script>alert(1)</script><img src=x onerror=alert(2)>\"'`{{7*7}}"


@cache
def demo() -> tuple[Job, str]:
    found = job_of(DEMO)
    return found, review(found, [DEMO]).decode()


def ticks(text: str) -> int:
    return len(re.findall(r"<input type=\"checkbox\"[^>]* data-tick>", text))


def test_every_value_and_every_open_field_has_a_box_to_tick() -> None:
    found, text = demo()
    rows = traced(found)
    assert ticks(text) == sum(len(values) + bool(not_found(row)) for row, values in rows)
    for _, values in rows:
        for value in values:
            assert f'id="v{value.number}"' in text


def test_every_value_stands_beside_a_picture() -> None:
    found, text = demo()
    values = sum(len(own) for _, own in traced(found))
    with_place = sum(one.source is not None for one in found.findings)
    assert len(re.findall(r'<svg class="shot"', text)) == values + with_place
    assert "No picture" not in text


def test_a_picture_has_the_pixels_of_what_it_says_to_show() -> None:
    _, text = demo()
    shown = re.findall(r'<image [^>]*? width="([\d.]+)" height="([\d.]+)" href="data:image/png;base64,([^"]+)"', text)
    assert len(shown) > 200
    for width, height, data in shown[::17]:
        size = Image.open(io.BytesIO(base64.b64decode(data))).size
        assert size == pytest.approx((float(width) * 2, float(height) * 2), abs=1)


def test_findings_come_before_values_and_the_worst_first() -> None:
    _, text = demo()
    levels = re.findall(r'<article class="finding (\w+)">', text)
    assert levels == sorted(levels, key=["stop", "ask", "note"].index)
    assert text.index('class="finding') < text.index('class="value')


def test_what_the_plans_leave_open_is_named() -> None:
    text = review(spoiled()).decode()
    for words in ("Not found on the plans for SW4", "field nailing spacing", "CAN&#39;T READ", "CONFLICT", "NONE (per plans)",
                  "SEE: “PER PLAN”", "No pictures: the plans were not at hand"):  # fmt: skip
        assert words in text, words


@pytest.mark.parametrize("make", [review, phone])
def test_a_page_takes_nothing_from_a_network(make: "type[review]") -> None:
    text = make(spoiled()).decode()
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]+)"', text)
    assert policy
    assert policy[1].startswith("default-src &#39;none&#39;;")
    assert "unsafe" not in policy[1]
    assert not re.search(r"https?://|//[a-z]|url\((?!data:)|@import|<link|<iframe", re.sub(r"base64,[\w+/=]+", "", text))


@pytest.mark.parametrize("make", [review, phone])
def test_a_page_runs_its_own_style_and_script_and_no_other(make: "type[review]") -> None:
    text = make(spoiled()).decode()
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', text)
    assert policy
    for tag in ("style", "script"):
        parts = re.findall(rf"<{tag}>(.*?)</{tag}>", text, re.S)
        assert len(parts) == 1
        own = base64.b64encode(hashlib.sha256(parts[0].encode()).digest()).decode()
        assert f"{tag}-src &#39;sha256-{own.replace('+', '+')}&#39;" in policy[1].replace("&#43;", "+")
    assert not re.search(r"<[^>]+\s(?:style|on\w+)=", re.sub(r"<script>.*</script>", "", text, flags=re.S))


@pytest.mark.parametrize("make", [review, phone])
def test_words_of_a_plan_stay_words(make: "type[review]") -> None:
    plate = Sheathing(thickness_in=printed_as(0.5, EVIL))
    whole = job(wall(EVIL, sheathing=plate), findings=(finding("edge.spacing_in", EVIL, message=EVIL),), file=EVIL + ".pdf",
                drawn=(PlanMark(mark=EVIL + "2", kind="wall", page=4, sheet=EVIL, boxes=((1, 2, 3, 4),)),))  # fmt: skip
    text = make(whole).decode()
    assert text.count("<script>") == 1
    assert text.count("</script>") == 1
    assert "<img" not in text
    assert "{{7*7}}" in text


def test_a_file_name_cannot_end_the_style() -> None:
    assert css_string('a"}</style>') == r'"a\22 \7d \3c \2f style\3e "'


ROW = Source(page=3, sheet="S1", box=(100, 200, 120, 212))


@pytest.mark.parametrize(
    ("box", "page", "parts", "source"),
    [
        ((130, 200, 170, 212), 3, 1, "next to the mark: one picture holds both"),
        ((900, 200, 950, 212), 3, 2, "far along the row: mark and value as two parts"),
        ((900, 195, 950, 240), 3, 2, "a cell of two lines"),
        ((100, 600, 140, 612), 3, 1, "far below: the value alone"),
        ((130, 200, 170, 212), 2, 1, "on another sheet: the value alone"),
    ],
)
def test_the_mark_of_the_row_is_shown_with_the_value(box: tuple[float, ...], page: int, parts: int, source: str) -> None:
    got = windows(Source(page=page, sheet="S1", box=box), ROW)
    assert len(got) == parts, source
    assert got[-1].box[0] <= box[0] <= box[2] <= got[-1].box[2], source
    if parts == 2:
        assert got[0].box[0] <= 100
        assert got[0].box[2] >= 120
        assert (got[0].box[1], got[0].box[3]) == (got[1].box[1], got[1].box[3]), "not the same band of the sheet"


def test_the_same_job_gives_the_same_page() -> None:
    found, text = demo()
    assert review(found, [DEMO]).decode() == text
    assert review(spoiled()) == review(spoiled())
