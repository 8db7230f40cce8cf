"""A schedule turned on its sheet, so that its words run up or down the sheet."""

from pathlib import Path

import pytest

from extractor.read import read
from extractor.record import readings

from .sheets import plans, table

SCHEDULE = "<h2>SHEAR WALL SCHEDULE (ASD, SEISMIC)</h2>" + table(
    [
        ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "CAPACITY (PLF)"],
        ["S.W. 1", '15/32" PLYWOOD', "8d COMMON", '6"', '12"', "260"],
        ["S.W. 2", '15/32" PLYWOOD', "8d COMMON", '4"', '12"', "380"],
    ]
)


@pytest.mark.parametrize("degrees", [-90, 90], ids=["upward", "downward"])
def test_a_turned_table_gives_the_values_and_the_places_of_its_words(degrees: int, tmp_path: Path) -> None:
    """Common practice, no source: a wide schedule is turned to fit its sheet."""
    turned = f"<div class=at style='left:320pt;top:250pt;width:500pt;transform:rotate({degrees}deg)'>{SCHEDULE}</div>"
    job = read([plans(tmp_path, "<h3>GENERAL NOTES</h3><p>1. WORK TO THE APPROVED PLANS.</p>" + turned)])
    assert [wall.mark.value for wall in job.wall_types] == ["S.W. 1", "S.W. 2"]
    for wall, edge, plf in zip(job.wall_types, (6, 4), (260, 380), strict=True):
        told = dict(readings(wall))
        assert (told["edge.spacing_in"].value, told["field.spacing_in"].value) == (edge, 12)
        (stated,) = told["capacity"].value
        assert (stated.plf.value, stated.method.value) == (plf, "ASD")
        x0, y0, x1, y1 = told["sheathing.thickness_in"].source.box
        assert y1 - y0 > x1 - x0, "the words run along the sheet's side"
    first, second = (wall.mark.source.box for wall in job.wall_types)
    assert abs(first[1] - second[1]) < 2 or abs(first[3] - second[3]) < 2, "the marks stand level with each other"
