"""Every drawn plan set read and held against its truth file: types, fields, hold-downs, plan marks, sheets."""

import os
from pathlib import Path

import pytest

from extractor.errors import GarbledPlansError, LockedPlansError, NailcardError, NoScheduleError, PlansError, ScannedPlansError
from extractor.read import read
from extractor.record import Finding, Job, Level, State, readings
from tests.reading.comparing import FOLDER, differences, job, readable, truth, value

UNREADABLE: list[tuple[str, type[NailcardError], str, str]] = [
    ("scanned-no-text", ScannedPlansError, "pages 1 to 2", "fixtures/README.md: scanned sheets without any text"),
    ("broken-tounicode", GarbledPlansError, "page 1", "fixtures/README.md: every glyph maps to a private character"),
    ("locked-with-password", LockedPlansError, "password", "fixtures/README.md: a password is needed"),
    ("no-schedule", NoScheduleError, "pages 1 to 2", "fixtures/README.md: plans without any shear wall schedule"),
    ("concrete-shear-wall-schedule", NoScheduleError, "pages 1 to 2", "fixtures/README.md: concrete walls must not be read"),
]


def _planted(name: str, kind: str) -> set[tuple[str, str]]:
    """Wall type and field of each planted defect of a kind."""
    return {(one["wall_type"], one["field"]) for one in truth(name)["defects"] if one["kind"] == kind}


@pytest.mark.parametrize("name", readable())
def test_a_plan_set_reads_as_its_truth(name: str) -> None:
    planted = _planted(name, "unreadable-value")
    wrong = [one for one in differences(job(name), truth(name))
             if not any(one.startswith(f"wall type {mark}, {field}: None,") for mark, field in planted)]  # fmt: skip
    assert not wrong, "\n".join([f"{name}.pdf:", *wrong])


@pytest.mark.parametrize("name", readable())
def test_a_field_is_unreadable_only_where_its_letters_are(name: str) -> None:
    unread = {(wall.mark.value, field) for wall in job(name).wall_types for field, one in readings(wall)
              if one.state is State.UNREADABLE and not field.startswith("other")}  # fmt: skip
    assert unread == {(mark, field) for mark, field in _planted(name, "unreadable-value")}


def _about(job: Job, mark: str, field: str) -> list[Finding]:
    return [one for one in job.findings if one.wall_type == mark and one.field in (field, None) and one.level is not Level.NOTE]


@pytest.mark.parametrize(
    ("name", "kind", "mark", "field"),
    [(name, one["kind"], one["wall_type"], one["field"]) for name in readable() for one in truth(name)["defects"]],
)
def test_a_planted_defect_is_asked_about(name: str, kind: str, mark: str, field: str) -> None:
    assert _about(job(name), mark, field), f"{name}.pdf: {kind} of {mark} {field or ''} is passed over"


@pytest.mark.parametrize("name", readable())
def test_what_a_note_fills_says_so(name: str) -> None:
    """A card names the note that a value came from, so a row's own value and a note's must not be mixed up."""
    walls = {wall.mark.value: wall for wall in job(name).wall_types}
    assert walls.keys() == {row["mark"] for row in truth(name)["wall_types"]}
    wrong = []
    for row in truth(name)["wall_types"]:
        for field in row.get("from_notes", []):
            found = dict(readings(walls[row["mark"]])).get(field)
            if found is not None and found.origin == "schedule" and value(walls[row["mark"]], field) is not None:
                wrong.append(f"{row['mark']}, {field}: said to stand in the row, stands in a note")
    assert not wrong, "\n".join([f"{name}.pdf:", *wrong])


@pytest.mark.parametrize(("name", "error", "where", "source"), UNREADABLE)
def test_what_cannot_be_read_says_so_by_file_and_page(name: str, error: type[NailcardError], where: str, source: str) -> None:
    with pytest.raises(error) as raised:
        read([FOLDER / f"{name}.pdf"])
    said = str(raised.value)
    assert f"{name}.pdf" in said, source
    assert where in said, source
    assert isinstance(raised.value, PlansError) or error is NoScheduleError


def test_no_fixture_is_left_out() -> None:
    assert {name for name, *_ in UNREADABLE} | set(readable()) == {path.stem for path in FOLDER.glob("*.pdf")}


SETS = os.environ.get("NAILCARD_PLAN_SETS", "")
OUTSIDE = sorted(Path(SETS).rglob("*.truth.json")) if SETS else []


@pytest.mark.skipif(not OUTSIDE, reason="NAILCARD_PLAN_SETS names no folder of plan sets with truth files")
@pytest.mark.parametrize("path", OUTSIDE, ids=lambda path: str(path.name.removesuffix(".truth.json")))
def test_plan_sets_that_cannot_be_shared_read_as_their_truth(path: Path) -> None:
    import json

    true = json.loads(path.read_text(encoding="utf-8"))
    plans = path.with_name(path.name.replace(".truth.json", ".pdf"))
    if not true["readable"]:
        with pytest.raises(NailcardError):
            read([plans])
        return
    unreadable = {(one["wall_type"], one["field"]) for one in true["defects"] if one["kind"] == "unreadable-value"}
    wrong = [one for one in differences(read([plans]), true)
             if not any(one.startswith(f"wall type {mark}, {field}: None,") for mark, field in unreadable)]  # fmt: skip
    assert not wrong, "\n".join([plans.name, *wrong])
