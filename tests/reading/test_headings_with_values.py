"""Headings that give a value once for the column, or for all the columns under them."""

from pathlib import Path
from typing import Any

from extractor.read import read
from extractor.record import readings

from .sheets import plans, table

TITLE = "<h2>SHEAR WALL SCHEDULE</h2>"


def _rows(path: Path) -> dict[str, dict[str, Any]]:
    return {wall.mark.value: {name: r.value for name, r in readings(wall)} for wall in read([path]).wall_types}


def test_a_panel_told_over_several_columns_holds_for_every_row(tmp_path: Path) -> None:
    """Common practice, no source: what is the same for all types stands once, over the columns."""
    rows = _rows(
        plans(
            tmp_path,
            TITLE
            + table(
                [
                    ["<td rowspan=2>MARK", '<td colspan=3>15/32" PLYWOOD ONE FACE', "<td rowspan=2>CAPACITY (PLF)"],
                    ["NAIL", "EDGES", "FIELD"],
                    ["31", "8d COMMON", '6"', '12"', "260"],
                    ["32", "8d COMMON", '4"', '12"', "380"],
                ]
            ),
        )
    )
    for mark, edge in (("31", 6), ("32", 4)):
        assert rows[mark]["sheathing.thickness_in"] == 15 / 32
        assert (rows[mark]["sheathing.material"], rows[mark]["sheathing.faces"]) == ("plywood", 1)
        assert (rows[mark]["fastener.penny"], rows[mark]["edge.spacing_in"]) == ("8d", edge)


def test_a_panel_in_the_heading_and_its_faces_in_the_rows(tmp_path: Path) -> None:
    """Common practice, no source."""
    rows = _rows(
        plans(
            tmp_path,
            TITLE
            + table(
                [
                    ["MARK", '15/32" PLYWOOD ON', "8d COMMON AT EDGES", "8d COMMON IN FIELD"],
                    ["F1", "ONE FACE", '6" O.C.', '12" O.C.'],
                    ["F2", "DO", '4" O.C.', "DO"],
                    ["F3", "BOTH FACES", '3" O.C.', "DO"],
                ]
            ),
        )
    )
    assert [rows[m]["sheathing.faces"] for m in ("F1", "F2", "F3")] == [1, 1, 2]
    assert {rows[m]["sheathing.thickness_in"] for m in rows} == {15 / 32}
    assert {rows[m]["fastener.kind"] for m in rows} == {"nail"}


def test_two_headings_that_tell_the_nail_differently_tell_none(tmp_path: Path) -> None:
    """A wrong nail that looks right is worse than a question."""
    rows = _rows(
        plans(
            tmp_path,
            TITLE
            + table(
                [
                    ["MARK", "SHEATHING", "10d COMMON AT EDGES", "8d COMMON IN FIELD"],
                    ["F1", '15/32" PLYWOOD', '6" O.C.', '12" O.C.'],
                    ["F2", '15/32" PLYWOOD', '4" O.C.', '12" O.C.'],
                ]
            ),
        )
    )
    assert rows["F1"].get("fastener.penny") is None
    assert rows["F1"]["edge.spacing_in"] == 6
