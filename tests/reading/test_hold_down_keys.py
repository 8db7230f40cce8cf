"""Hold-down tables that stack a hold-down's values in one cell, with names or without."""

from pathlib import Path

import pytest

from extractor.read import read
from extractor.record import readings

from .sheets import plans, table

WALLS = "<h2>SHEAR WALL SCHEDULE</h2>" + table(
    [
        ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "HOLD-DOWN"],
        ["R6", '15/32" PLYWOOD', "8d COMMON", '6"', '12"', "HD-E3"],
        ["R4", '15/32" PLYWOOD', "8d COMMON", '4"', '12"', "HD-E6"],
    ]
)
NAMED = 'MODEL: {}<br>ANCHOR BOLT: {}" DIA., {}" EMBEDMENT<br>POST: {}<br>CAPACITY: {} LBS'
PLAIN = '{}<br>{}" THREADED ROD, {}" EMBED<br>{}<br>{} LB'
KINDS = (("HD-E3", "RGX-3", "5/8", 10, "(2) 2x6", "3,330"), ("HD-E6", "RGX-6", "7/8", 16, "4x6", "6,280"))


@pytest.mark.parametrize("form", [NAMED, PLAIN], ids=["with names", "without"])
def test_a_cell_that_stacks_a_hold_down(form: str, tmp_path: Path) -> None:
    """A published key of hold-downs lists device, anchor, studs and capacity in four lines a row; the models are invented."""
    rows = [["MARK", "HOLD-DOWN ASSEMBLY"], *([mark, form.format(*parts)] for mark, *parts in KINDS)]
    job = read([plans(tmp_path, WALLS + "<h2>HOLD-DOWN KEY</h2>" + table(rows))])
    assert [hold.mark.value for hold in job.hold_downs] == ["HD-E3", "HD-E6"]
    for hold, (_, model, size, deep, post, pounds) in zip(job.hold_downs, KINDS, strict=True):
        told = {name: r.value for name, r in readings(hold)}
        assert (told["model"], told["post"]) == (model, post)
        assert told["anchor.diameter_in"] == {"5/8": 0.625, "7/8": 0.875}[size]
        assert told["anchor.embedment_in"] == deep
        assert told["capacity_lb"] == float(pounds.replace(",", ""))


GROUPED = [
    ["<td colspan=5>SHEARWALL", "<td colspan=5>HOLDOWN EACH END"],
    ["MARK", "SHEATHING", "NAILS", "EDGE", "FIELD", "MARK", "MODEL", "POST", "ANCHOR", "TENSION (LB)"],
]
NAMED_EACH = [
    [
        *"MARK SHEATHING NAILS EDGE FIELD HOLD-DOWN".split(),
        *(f"HOLD-DOWN {one}" for one in ("MODEL", "POST", "ANCHOR", "CAPACITY (LB)")),
    ]
]


@pytest.mark.parametrize("head", [GROUPED, NAMED_EACH], ids=["one heading over them", "each named"])
@pytest.mark.parametrize("second", ["4x6", "6x6"], ids=["agree", "differ"])
def test_one_table_for_walls_and_their_hold_downs(head: list[list[str]], second: str, tmp_path: Path) -> None:
    """Common practice, no source; the models are invented. Two rows that give one hold-down two posts contradict each other."""
    wall = ['15/32" OSB', "8d COMMON"]
    rows = [
        ["1", *wall, '6"', '12"', "NONE", "-", "-", "-", "-"],
        ["2", *wall, '4"', '12"', "H1", "TEK-3", "4x6", '5/8"', "3,010"],
        ["3", *wall, '3"', '12"', "H1", "TEK-3", second, '5/8"', "3,010"],
    ]
    job = read([plans(tmp_path, "<h2>SHEARWALL - HOLDOWN SCHEDULE</h2>" + table([*head, *rows]))])
    marks = [dict(readings(w))["hold_down.marks"] for w in job.wall_types]
    assert [m.value for m in marks] == [(), ("H1",), ("H1",)]
    (hold,) = job.hold_downs
    told = dict(readings(hold))
    assert (told["mark"].value, told["model"].value, told["post"].value) == ("H1", "TEK-3", "4x6")
    assert (told["anchor.diameter_in"].value, told["capacity_lb"].value) == (0.625, 3010)
    assert told["post"].state == ("read" if second == "4x6" else "conflict")


def test_hold_downs_told_in_lines_beside_their_marks(tmp_path: Path) -> None:
    """Drawn set: a key without a table; the models are invented."""
    told = [("RX2", "HX-23", "(2) 2x6", "5/8", 8, "2,340"), ("RX3", "HX-36", "4x6", "3/4", 12, "3,610")]
    lines = [
        f"<div class=at style='left:{20 + 300 * i}pt;top:200pt'><b>{m}</b></div>"
        f"<div class=at style='left:{60 + 300 * i}pt;top:200pt'>"
        f'MODEL {model}<br>{post} POST, (12) 10d COMMON<br>{rod}"Ø ROD, {deep}" EMBEDMENT<br>{pounds} LBS</div>'
        for i, (m, model, post, rod, deep, pounds) in enumerate(told)
    ]
    walls = table([["MARK", "SHEATHING", "NAILS", "EDGE", "FIELD"], ["1", '15/32" OSB', "8d COMMON", '6"', '12"']])
    key = "<div class=at style='left:20pt;top:170pt'><b>HOLD-DOWN DETAIL KEY</b></div>" + "".join(lines)
    job = read([plans(tmp_path, "<h2>SHEAR WALL SCHEDULE</h2>" + walls + key)])
    for hold, (m, model, post, rod, deep, pounds) in zip(job.hold_downs, told, strict=True):
        values = {name: r.value for name, r in readings(hold)}
        assert (values["mark"], values["model"], values["post"], values["fasteners"]) == (m, model, post, "(12) 10d COMMON")
        assert values["anchor.diameter_in"] == {"5/8": 0.625, "3/4": 0.75}[rod]
        assert (values["anchor.embedment_in"], values["capacity_lb"]) == (deep, float(pounds.replace(",", "")))
