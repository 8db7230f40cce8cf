"""Tables without rules between their lines: which lines are a row's."""

from pathlib import Path

import pytest

from extractor.read import read
from extractor.record import readings

from .sheets import plans, table

HEAD = ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "BASE", "CAPACITY (PLF)"]
ROWS = (("Q1", 6, 48, 6, 260), ("Q2", 4, 32, 4, 380), ("Q3", 3, 16, 3, 490))


def _lines(first: bool) -> str:
    lines = [HEAD]
    for mark, edge, bolts, nails, plf in ROWS:
        full = [mark, '15/32" PLYWOOD', "8d COMMON", f'{edge}"', '12"']
        bolted, nailed = f'5/8" ANCHOR BOLTS AT {bolts}"', f'PLATE TO JOISTS 16d AT {nails}"'
        blank = ["", "ONE FACE", "", "", ""]
        lines += [[*full, bolted, str(plf)], [*blank, nailed, ""]] if first else [[*blank, bolted, ""], [*full, nailed, str(plf)]]
    return "<h2>SHEAR WALL SCHEDULE</h2>" + table(lines, "open")


@pytest.mark.parametrize("first", [True, False], ids=["mark on the first line", "mark on the last line"])
def test_lines_as_far_from_each_other_go_with_the_mark_they_belong_to(first: bool, tmp_path: Path) -> None:
    """Common practice, no source: bolts to concrete and nails to wood stand under each other in one cell."""
    walls = {wall.mark.value: dict(readings(wall)) for wall in read([plans(tmp_path, _lines(first))]).wall_types}
    assert list(walls) == ["Q1", "Q2", "Q3"]
    for mark, edge, bolts, nails, _ in ROWS:
        values = walls[mark]
        assert values["sheathing.faces"].value == 1
        assert values["edge.spacing_in"].value == edge
        assert (values["anchors.diameter_in"].value, values["anchors.spacing_in"].value) == (0.625, bolts)
        assert (values["bottom_plate.penny"].value, values["bottom_plate.spacing_in"].value) == ("16d", nails)


def test_notes_numbered_in_brackets_are_no_rows(tmp_path: Path) -> None:
    """Common practice, no source."""
    notes = "".join(
        f"<p style='margin:2pt'>({i}) {text}" for i, text in enumerate(["BLOCK ALL PANEL EDGES.", "SHEATHING IS ON ONE FACE."], 1)
    )
    head = ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "CAPACITY (PLF)"]
    rows = [[m, '15/32" PLYWOOD', "8d COMMON", f'{e}"', '12"', str(plf)] for m, e, _, _, plf in ROWS]
    job = read([plans(tmp_path, "<h2>SHEAR WALL SCHEDULE</h2>" + table([head, *rows], "open") + notes)])
    walls = {wall.mark.value: dict(readings(wall)) for wall in job.wall_types}
    assert list(walls) == ["Q1", "Q2", "Q3"]
    assert [walls[m]["edge.spacing_in"].value for m in walls] == [6, 4, 3]
    assert {walls[m]["framing.blocked"].value for m in walls} == {True}


def test_same_as_another_row_and_more(tmp_path: Path) -> None:
    """Drawn set: what the cell says itself stands; lost, a wall of two faces would have had one."""
    rows = [
        ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD"],
        ["K3", '15/32" PLYWOOD, ONE FACE', "8d COMMON", '3"', '12"'],
        ["K5", "SAME AS K3, EACH FACE", "8d COMMON", '3"', '12"'],
    ]
    job = read([plans(tmp_path, "<h2>SHEAR WALL SCHEDULE</h2>" + table(rows))])
    told = {w.mark.value: {name: r.value for name, r in readings(w)} for w in job.wall_types}
    names = ("sheathing.thickness_in", "sheathing.material", "sheathing.faces")
    assert [told["K5"][name] for name in names] == [0.46875, "plywood", 2]
