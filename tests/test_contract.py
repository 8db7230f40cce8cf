"""The job record is a contract: written and read it is equal, and nothing that breaks its rules can be made."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from extractor.record import FORMAT, Job, Origin, Reading, Source, State, WallType, readings

LEAF = {"value", "as_printed", "state", "origin", "source", "also"}
DOCUMENT = ["format", "plan_set", "sheets", "wall_types", "hold_downs", "plan_marks", "findings", "coverage", "basis"]
FIELDS = """mark sheathing.thickness_in sheathing.material sheathing.grade sheathing.faces fastener.kind fastener.penny
fastener.style fastener.diameter_in fastener.length_in fastener.gauge edge.spacing_in edge.rows edge.staggered field.spacing_in
framing.panel_edge framing.blocked framing.sill anchors.kind anchors.diameter_in anchors.spacing_in anchors.embedment_in
anchors.washer_in bottom_plate.penny bottom_plate.spacing_in top_plate.connector top_plate.spacing_in hold_down.marks capacity
other""".split()
HOLD_DOWN = "mark model post fasteners capacity_lb anchor.diameter_in anchor.embedment_in other".split()

PLACE = Source(page=7, sheet=None, box=(0.0, 0.0, 1.0, 1.0))


def test_a_job_written_and_read_is_equal(job: Job) -> None:
    assert Job.model_validate_json(job.to_json()) == job


@given(
    printed=st.text(st.characters(exclude_categories=["Cs"]), min_size=1),
    value=st.floats(min_value=1 / 64, max_value=240) | st.sampled_from([0.148, 15 / 32, 2.5]),
)
def test_any_printed_words_come_back_unchanged(printed: str, value: float) -> None:
    reading = Reading[float](value=value, as_printed=printed, state=State.READ, origin=Origin.NOTE, source=PLACE)
    assert Reading[float].model_validate_json(reading.model_dump_json()) == reading


def test_the_document_has_its_parts_in_order(job: Job) -> None:
    document = json.loads(job.to_json())
    assert list(document) == DOCUMENT
    assert document["format"] == FORMAT == "nailcard.job/1"


def test_a_record_from_before_the_basis_was_added_is_read(job: Job) -> None:
    document = json.loads(job.to_json())
    del document["basis"]
    assert Job.model_validate(document) == job


def test_every_value_is_a_leaf_with_its_words_and_place(job: Job) -> None:
    leaf = json.loads(job.to_json())["wall_types"][0]["sheathing"]["thickness_in"]
    assert set(leaf) == LEAF
    assert leaf["value"] == 0.46875
    assert leaf["as_printed"] == '15/32"'
    assert leaf["source"] == {"page": 7, "sheet": "S3.1", "box": [412.5, 300.0, 455.1, 318.2]}


def test_what_the_plans_do_not_give_is_null_not_none_state(job: Job) -> None:
    assert json.loads(job.to_json())["wall_types"][1]["field"]["spacing_in"] is None


def test_readings_carry_the_dotted_names_of_the_record(job: Job) -> None:
    assert [name for name, _ in readings(job.wall_types[1])] == [
        "mark", "sheathing.thickness_in", "sheathing.material", "fastener.kind", "fastener.penny", "fastener.style",
        "fastener.diameter_in", "fastener.length_in", "edge.spacing_in",
    ]  # fmt: skip


def properties(schema: dict[str, Any], name: str) -> dict[str, Any]:
    return dict(schema["$defs"][name]["properties"])


@pytest.mark.parametrize(("record", "names"), [("WallType", FIELDS), ("HoldDown", HOLD_DOWN)])
def test_the_schema_names_every_field_and_no_other(record: str, names: list[str]) -> None:
    schema = Job.model_json_schema()
    found = []
    for name, at in properties(schema, record).items():
        group = at.get("$ref", "").rpartition("/")[2]
        if group and not group.startswith("Reading"):
            found += [f"{name}.{inner}" for inner in properties(schema, group)]
        else:
            found.append(name)
    assert found == names


@pytest.mark.parametrize(
    ("value", "state", "also", "why"),
    [
        (None, "read", (), "read, and no value: a silent blank"),
        (6.0, "unreadable", (), "not understood, and yet a value: a guess"),
        (6.0, "deferred", (), "sent elsewhere, and yet a value: a guess"),
        (6.0, "none", (), "the plans say none, and yet a value"),
        (6.0, "conflict", (), "a conflict with nobody on the other side"),
        (-6.0, "read", (), "no spacing is below nothing"),
        (float("nan"), "read", (), "not a number"),
        (241.0, "read", (), "no spacing is twenty feet"),
    ],
)
def test_a_leaf_that_would_mislead_cannot_be_made(value: float | None, state: str, also: tuple[Any, ...], why: str) -> None:
    leaf = {"value": value, "as_printed": '6"', "state": state, "origin": "schedule", "also": also,
            "source": PLACE.model_dump()}  # fmt: skip
    with pytest.raises(ValidationError):
        WallType.model_validate({"mark": {**leaf, "value": "SW1", "state": "read"}, "edge": {"spacing_in": leaf}})


@pytest.mark.parametrize(
    "change",
    [
        {"format": "nailcard.job/2"},
        {"walls": []},
        {"wall_types": [{"mark": {"value": "SW1", "as_printed": "", "state": "read", "origin": "schedule"}}]},
        {"wall_types": [{"mark": "SW1"}]},
    ],
    ids=["another format", "an unknown part", "a value without its words", "a bare value"],
)
def test_a_document_that_breaks_the_contract_is_refused(job: Job, change: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Job.model_validate({**json.loads(job.to_json()), **change})


def test_records_cannot_be_changed(job: Job) -> None:
    with pytest.raises(ValidationError):
        job.wall_types[0].mark.value = "SW9"  # type: ignore[misc]
