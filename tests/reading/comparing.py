"""A job held against a truth file, field by field, and fixtures read once for every test that asks for them."""

import json
import math
import unicodedata
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from extractor.read import read
from extractor.record import HoldDown, Job, PlanMark, SheetRecord, WallType

FOLDER = Path(__file__).parents[2] / "fixtures"
NAMES = sorted(path.name.removesuffix(".truth.json") for path in FOLDER.glob("*.truth.json"))
WALL = """sheathing.thickness_in sheathing.material sheathing.grade sheathing.faces fastener.kind fastener.penny fastener.style
fastener.diameter_in fastener.length_in fastener.gauge edge.spacing_in edge.rows edge.staggered field.spacing_in
framing.panel_edge framing.blocked framing.sill anchors.kind anchors.diameter_in anchors.spacing_in anchors.embedment_in
anchors.washer_in bottom_plate.penny bottom_plate.spacing_in top_plate.connector top_plate.spacing_in hold_down.marks
capacity""".split()
HOLD_DOWN = "model post fasteners capacity_lb anchor.diameter_in anchor.embedment_in".split()
SHEET = "number title revision date text".split()
SPELLING = str.maketrans({**dict.fromkeys("″“”", '"'), **dict.fromkeys("′‘’", "'"), **dict.fromkeys("‐‑‒–—−", "-"), "×": "x"})
NEAR = 1e-6  # inches: equal for any tape


@cache
def truth(name: str) -> dict[str, Any]:
    """The truth file of a fixture."""
    return dict(json.loads((FOLDER / f"{name}.truth.json").read_text(encoding="utf-8")))


@cache
def job(name: str) -> Job:
    """The job of a fixture; each is read once in a run."""
    return read([FOLDER / f"{name}.pdf"])


def readable() -> list[str]:
    """Fixtures that hold a schedule of wood walls."""
    return [name for name in NAMES if truth(name)["readable"] and truth(name)["wall_types"]]


def value(record: object, field: str) -> Any:
    """What a record gives at a dotted name: the bare value, capacities as dicts; None where it gives none."""
    for part in field.split("."):
        record = getattr(record, part)
    found = getattr(record, "value", None)
    if field == "capacity":
        return [{key: getattr(getattr(one, key), "value", None) for key in ("plf", "load", "method")} for one in found or ()]
    return list(found) if isinstance(found, tuple) else found


def same(found: Any, true: Any) -> bool:
    """Whether a value is the true one: numbers to a millionth, lists in any order, alternatives in any order."""
    if isinstance(true, bool) or isinstance(found, bool):
        return found is true
    if isinstance(true, int | float) and isinstance(found, int | float):
        return math.isclose(found, true, abs_tol=NEAR)
    if isinstance(true, list) and isinstance(found, list):
        left = list(found)
        for one in true:
            at = next((i for i, other in enumerate(left) if same(other, one)), None)
            if at is None:
                return False
            del left[at]
        return not left
    if isinstance(true, dict) and isinstance(found, dict):
        return all(same(found.get(key), true.get(key)) for key in true.keys() | found.keys())
    if isinstance(true, str) and isinstance(found, str):
        return set(_words(true).split(" or ")) == set(_words(found).split(" or "))
    return found in (None, []) and true in (None, [])


def _words(text: str) -> str:
    spelt = unicodedata.normalize("NFKC", text).translate(SPELLING).replace("''", '"')
    return " ".join(spelt.split()).casefold()


def differences(found: Job, true: Mapping[str, Any]) -> Iterator[str]:
    """Each difference between the job and the truth as one line: set of rows, mark, field, both values."""
    yield from _rows("wall type", found.wall_types, true["wall_types"], WALL)
    yield from _rows("hold-down", found.hold_downs, true["hold_downs"], HOLD_DOWN)
    yield from _marks(found.plan_marks, true["plan_marks"])
    yield from _sheets(found.sheets, true["sheets"])


def _rows(
    kind: str, found: tuple[WallType, ...] | tuple[HoldDown, ...], true: list[dict[str, Any]], fields: list[str]
) -> Iterator[str]:
    for mark, times in Counter(one.mark.value for one in found).items():
        if times > 1:
            yield f"{kind} {mark}: read {times} times"
    ours = {one.mark.value: one for one in found}
    for mark in ours.keys() - {row["mark"] for row in true}:
        yield f"{kind} {mark}: invented"
    for row in true:
        one = ours.get(row["mark"])
        if one is None:
            yield f"{kind} {row['mark']}: missing"
            continue
        for field in fields:
            got, wanted = value(one, field), row.get(field)
            if not same(got, wanted):
                yield f"{kind} {row['mark']}, {field}: {got!r}, truth {wanted!r}"


def _marks(found: tuple[PlanMark, ...], true: Mapping[str, Mapping[str, int]]) -> Iterator[str]:
    for kind, wanted in true.items():
        counted: Counter[str] = Counter()
        for mark in found:
            if mark.kind == kind:
                counted[mark.mark] += len(mark.boxes)
        for mark_ in sorted(counted.keys() | wanted.keys()):
            if counted[mark_] != wanted.get(mark_, 0):
                yield f"{kind} mark {mark_}: drawn {counted[mark_]} times, truth {wanted.get(mark_, 0)}"


def _sheets(found: tuple[SheetRecord, ...], true: list[dict[str, Any]]) -> Iterator[str]:
    if len(found) != len(true):
        yield f"{len(found)} sheets, truth {len(true)}"
    for sheet, row in zip(found, true, strict=False):
        for key in SHEET:
            if key in row and getattr(sheet, key) != row[key]:
                yield f"page {row['page']}, {key}: {getattr(sheet, key)!r}, truth {row[key]!r}"
