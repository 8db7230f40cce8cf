"""A browser without a network, and the pages of the demo job and of a job with everything wrong, written once."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from cards.phone import phone
from cards.review import review
from tests.cards.making import full_wall, job, spoiled, wall
from tests.cards.sets import DEMO, job_of

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync",
         "--no-first-run")  # fmt: skip


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The machine's own browser, with a profile of its own that is thrown away."""
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    found = next(filter(None, map(shutil.which, BROWSERS)), None)
    if found is None:
        pytest.skip("no browser on this machine: .ci/setup installs one")
    with playwright.sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=found, args=list(FLAGS))
        yield started
        started.close()


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Each page by its name, in a folder of its own."""
    folder = tmp_path_factory.mktemp("pages")
    demo, many = job_of(DEMO), job(*(wall(f"SW{n}") for n in range(1, 30)), full_wall("P1-4"))
    made = {
        "review of the demo": review(demo, [DEMO]),
        "review of every bad state": review(spoiled()),
        "phone of the demo": phone(demo),
        "phone of every bad state": phone(spoiled(), "en+es"),
        "phone of many types": phone(many, "es"),
    }
    paths = {}
    for n, (name, data) in enumerate(made.items()):
        paths[name] = folder / f"{n}.html"
        paths[name].write_bytes(data)
    return paths
