"""The pages opened from disk in a browser without a network: they work, they fit, and anybody can use them."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

NAMES = ("review of the demo", "review of every bad state", "phone of the demo", "phone of every bad state",
         "phone of many types")  # fmt: skip
WIDTHS = {360: 740, 1440: 900}  # a small phone, a desk
HARMLESS = ("http:", "https:", "ws:", "wss:", "ftp:")

Opener = Callable[..., Any]


@pytest.fixture
def opener(browser: Any, pages: dict[str, Path]) -> Iterator[Opener]:
    """A function that opens a page by its name; the test fails if it complained or asked for anything."""
    complaints: list[str] = []
    contexts = []

    def start(name: str, width: int = 1440, place: str = "") -> Any:
        context = browser.new_context(viewport={"width": width, "height": WIDTHS[width]}, offline=True)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: complaints.append(message.text))
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on("dialog", lambda dialog: dialog.accept())
        page.on("request", lambda asked: complaints.append(asked.url) if asked.url.startswith(HARMLESS) else None)
        page.goto(pages[name].as_uri() + place)
        return page

    yield start
    for context in contexts:
        context.close()
    assert complaints == []


def violations(page: Any) -> list[str]:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe is not installed").Axe()
    found = axe.run(page).response["violations"]
    return [f"{one['id']}: {[node['target'] for node in one['nodes']][:3]}" for one in found]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", NAMES)
def test_a_page_opens_fits_and_can_be_used_by_anybody(opener: Opener, name: str, width: int) -> None:
    page = opener(name, width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert violations(page) == []


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", [name for name in NAMES if name.startswith("phone")])
def test_a_card_on_the_phone_opens_fits_and_can_be_used_by_anybody(opener: Opener, name: str, width: int) -> None:
    page = opener(name, width, "#card-4")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert page.locator("article:visible").count() == 1
    assert violations(page) == []


@pytest.mark.parametrize("name", NAMES)
def test_a_page_prints_all_it_has(opener: Opener, name: str) -> None:
    page = opener(name)
    page.emulate_media(media="print")
    hidden = page.locator(".value:not(:visible), article:not(:visible)").count()
    assert hidden == 0
    assert page.pdf(prefer_css_page_size=True).startswith(b"%PDF-")


def test_keys_step_from_value_to_value_and_tick(opener: Opener) -> None:
    page = opener("review of the demo")
    focused = "document.activeElement.id"
    page.keyboard.press("j")
    assert page.evaluate(focused) == "v1"
    page.keyboard.press("j")
    page.keyboard.press("ArrowDown")
    assert page.evaluate(focused) == "v3"
    page.keyboard.press("k")
    page.keyboard.press("Space")
    assert page.locator("#v2").is_checked()
    assert page.get_by_role("status").inner_text().startswith("1 of ")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("n")
    assert page.evaluate(focused) == "v3", "the next one open is after the one that was ticked"


def test_a_value_stepped_to_is_in_sight_below_the_bar(opener: Opener) -> None:
    page = opener("review of the demo", 360)
    for _ in range(30):
        page.keyboard.press("j")
    place = page.evaluate("document.activeElement.getBoundingClientRect().top")
    bar = page.evaluate("document.querySelector('nav').getBoundingClientRect().bottom")
    assert bar < place < WIDTHS[360]


def test_a_letter_typed_into_a_name_ticks_and_moves_nothing(opener: Opener) -> None:
    page = opener("review of the demo")
    name = page.get_by_label("Compared by")
    name.click()
    page.keyboard.type("jkn j")
    assert name.input_value() == "jkn j"
    assert page.locator("[data-tick]:checked").count() == 0


def test_ticks_are_kept_for_the_file_and_can_be_cleared(opener: Opener) -> None:
    page = opener("review of the demo")
    page.locator("#v5").check()
    page.reload()
    assert page.locator("#v5").is_checked()
    page.get_by_role("button", name="Clear all ticks").click()
    assert page.locator("[data-tick]:checked").count() == 0
    page.reload()
    assert page.locator("[data-tick]:checked").count() == 0


def test_only_what_is_in_doubt_can_be_shown(opener: Opener) -> None:
    page = opener("review of every bad state")
    page.get_by_label("in doubt").check()
    shown = page.locator(".value:visible")
    assert 0 < shown.count() < page.locator(".value").count()
    assert shown.count() == page.locator(".value.doubt").count()


def test_a_picture_is_as_large_as_its_words_need(opener: Opener) -> None:
    page = opener("review of the demo")
    boxes = page.evaluate("[...document.querySelectorAll('.value .shot')].map(s => [s.clientWidth, s.clientHeight])")
    assert boxes
    assert all(width > 60 and height > 20 for width, height in boxes)


@pytest.mark.parametrize("name", ["phone of the demo", "phone of many types"])
def test_buttons_are_large_enough_for_a_glove(opener: Opener, name: str) -> None:
    page = opener(name, 360)
    sizes = page.evaluate("[...document.querySelectorAll('.marks a')].map(a => [a.offsetWidth, a.offsetHeight])")
    assert all(width >= 100 and height >= 72 for width, height in sizes)  # 72 px: about 3/4 in


def test_a_mark_is_found_by_thumb_and_the_way_back_is_there(opener: Opener) -> None:
    page = opener("phone of the demo", 360)
    page.get_by_role("link", name="SW4").click()
    page.locator("#card-4").wait_for()
    card = page.locator("article:visible")
    assert "SW4" in card.inner_text()
    assert "HOLD - DO NOT NAIL FROM THIS CARD" in card.inner_text()
    page.get_by_role("link", name="NEXT").click()
    page.locator("#card-5").wait_for()
    assert "SW5" in page.locator("article:visible h1").inner_text()
    page.get_by_role("link", name="ALL MARKS").click()
    page.locator("#card-5").wait_for(state="hidden")
    assert page.locator("article:visible").count() == 0
    assert page.locator(".marks a:visible").count() == 7


def test_a_mark_is_found_by_typing_however_it_is_written(opener: Opener) -> None:
    page = opener("phone of many types", 360)
    page.locator("#find").fill("p14")
    assert page.locator(".marks a:visible").all_inner_texts() == ["P1-4"]
    page.keyboard.press("Enter")
    page.locator("#card-30").wait_for()
    assert page.locator("article:visible h1").inner_text() == "P1-4"


def test_a_mark_that_is_not_there_says_stop_and_ask(opener: Opener) -> None:
    page = opener("phone of many types", 360)
    page.locator("#find").fill("SW99")
    assert page.locator(".marks a:visible").count() == 0
    assert "Pare y pregunte" in page.locator("#nothing").inner_text()


def test_the_hold_band_is_seen_without_scrolling(opener: Opener) -> None:
    page = opener("phone of the demo", 360, "#card-4")
    box = page.locator("article:visible .band").bounding_box()
    assert box
    assert box["y"] + box["height"] < WIDTHS[360]
