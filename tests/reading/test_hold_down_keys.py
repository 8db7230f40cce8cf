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
