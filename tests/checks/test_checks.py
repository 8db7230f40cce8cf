"""The table of checks: every check says why, when and on whose word, and none speaks out of turn."""

import inspect
from collections.abc import Iterator

import pytest

from extractor.checks import (
    CHECKS,
    Check,
    agreement,
    anchors,
    capacity,
    check,
    completeness,
    crossmarks,
    framing,
    holddowns,
    list_checks,
    pairs,
    published,
    staples,
    states,
    trust,
    twice,
    wholejob,
    worst_first,
)
from extractor.checks.hit import Hit
from extractor.record import Finding, Job, Level
from tests.checks.listed import BEGIN, README, with_page
from tests.checks.making import drawn, elsewhere, hold_down, job, wall

MODULES = (
    agreement,
    anchors,
    capacity,
    completeness,
    crossmarks,
    framing,
    holddowns,
    pairs,
    published,
    staples,
    states,
    trust,
    twice,
    wholejob,
)


@pytest.mark.parametrize("one", CHECKS, ids=lambda one: one.code)
def test_a_check_says_why_when_and_on_whose_word(one: Check) -> None:
    words = inspect.getdoc(one.find) or ""
    for part in ("Why: ", "Fires: ", "Silent: ", "Source: "):
        assert part in words
    source = words[words.index("Source: ") :]
    assert one.citation in source if one.citation else "common practice, no source" in source


@pytest.mark.parametrize("one", CHECKS, ids=lambda one: one.code)
def test_a_rule_from_memory_is_never_a_stop(one: Check) -> None:
    words = inspect.getdoc(one.find) or ""
    if "from memory: the adopted code decides" in words:
        assert one.level is not Level.STOP


def test_every_check_is_listed_once() -> None:
    written = {
        name.replace("_", "-")
        for module in MODULES
        for name, value in inspect.getmembers(module, inspect.isfunction)
        if value.__module__ == module.__name__ and "Fires: " in (value.__doc__ or "")
    }
    listed = [code for code, *_ in list_checks()]
    assert sorted(listed) == sorted(written)
    assert len(set(listed)) == len(listed)


def test_the_list_for_people_has_a_level_a_citation_and_a_line() -> None:
    for code, level, citation, line in list_checks():
        assert level in {"stop", "ask", "note"}
        assert citation
        assert line.endswith("."), code


def test_the_page_of_checks_in_readme_is_the_list() -> None:
    readme = README.read_text(encoding="utf-8")
    assert BEGIN in readme
    assert with_page(readme) == readme, "python -m tests.checks.listed writes the page anew"


def test_worst_first_then_in_the_order_of_the_job() -> None:
    plans = job(
        wall("SW1", {"field.spacing_in": None, "sheathing.thickness_in": None, "framing.blocked": None}),
        wall("SW2", {"anchors.spacing_in": elsewhere("PER ENGINEER")}),
        wall("SW3"),
        drawn("SW1"),
        drawn("SW2"),
        drawn("SW3"),
        drawn("HD9", "hold-down"),
        hold_down("HD1"),
    )
    assert [(f.level, f.code, f.field) for f in check(plans) if f.level is not Level.NOTE] == [
        (Level.STOP, "undefined-hold-down", None),
        (Level.STOP, "value-elsewhere", "anchors.spacing_in"),
        (Level.STOP, "missing-value", "sheathing.thickness_in"),
        (Level.STOP, "missing-value", "field.spacing_in"),
        (Level.ASK, "missing-in-one-row", "framing.blocked"),
    ]
    assert worst_first(reversed(check(plans)))[0].code in {"undefined-hold-down", "value-elsewhere"}


def test_a_hit_is_never_harder_than_its_check() -> None:
    def too_loud(plans: Job) -> Iterator[Hit]:
        """Says stop. Used by a check that may only note."""
        yield Hit(f"{len(plans.wall_types)} wall type.", level=Level.STOP)

    (finding,) = Check(too_loud, Level.NOTE).findings(job(wall()))
    assert (finding.code, finding.level) == ("too-loud", Level.NOTE)


def test_what_reading_found_stays_and_old_findings_of_the_checks_go() -> None:
    read = Finding(code="readings-disagree", level=Level.STOP, wall_type="SW1", field="edge.spacing_in", message="6 or 8?")
    stale = Finding(code="missing-value", level=Level.STOP, wall_type="SW1", field="edge.spacing_in", message="answered since")
    findings = check(job(wall("SW1"), wall("SW2"), findings=(stale, read)))
    assert read in findings
    assert stale not in findings
    assert check(job(wall("SW1"), wall("SW2"), findings=findings)) == findings


FORBIDDEN = ("we assume", "passes", "as usual", "please confirm", "should be ", "replace", "instead")


@pytest.mark.parametrize(
    "changes",
    [
        {"fastener.diameter_in": 0.113},
        {"edge.spacing_in": 2},
        {"edge.spacing_in": 8, "field.spacing_in": 16},
        {"capacity": ((999, "seismic", "ASD"),)},
        {"anchors.washer_in": (2, 2, 0.1875), "anchors.spacing_in": 96, "anchors.embedment_in": 4},
        {"sheathing.thickness_in": 5 / 32, "framing.blocked": False},
        {"fastener.style": "cooler", "hold_down.marks": ("HD7",)},
    ],
)
def test_messages_ask_and_never_advise(changes: dict[str, object]) -> None:
    for finding in check(job(wall("SW1", changes), wall("SW2"))):
        assert not any(word in finding.message.lower() for word in FORBIDDEN)
        assert "0.46875" not in finding.message
        if finding.level is not Level.NOTE:
            assert "sk the engineer" in finding.message
