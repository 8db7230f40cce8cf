"""Schedules for storeys, and straps between them."""

from pathlib import Path

import pytest

from extractor.read import read
from extractor.record import Level, readings

from .sheets import plans, table

HEAD = ["NO.", "SHEATHING", "NAILS", "EDGES", "FIELD", "CAPACITY (PLF)"]


def _level(storey: int, edges: dict[str, int]) -> str:
    rows = [[mark, '15/32" PLYWOOD', "8d COMMON", f'{edge}"', '12"', "260"] for mark, edge in edges.items()]
    return f"<h2>LEVEL {storey} SHEAR PANELS</h2>" + table([HEAD, *rows])


def test_one_mark_in_the_schedules_of_two_storeys_is_two_types(tmp_path: Path) -> None:
    """Common practice, no source: offices count from 1 on each storey. The rows say which storey they are for."""
    job = read([plans(tmp_path, _level(1, {"1": 6, "2": 3}), _level(2, {"1": 4, "2": 3}))])
    ones = [w for w in job.wall_types if w.mark.value == "1"]
    assert [dict(readings(w))["edge.spacing_in"].value for w in ones] == [6, 4]
    assert [w.other[0].as_printed for w in ones] == ["LEVEL 1 SHEAR PANELS", "LEVEL 2 SHEAR PANELS"]
    twice = [f for f in job.findings if f.code == "duplicate-mark"]
    assert [(f.wall_type, f.level) for f in twice] == [("1", Level.NOTE)]
    assert "“LEVEL 1 SHEAR PANELS”" in twice[0].message


def test_a_table_of_straps_between_floors_is_read_as_hold_downs(tmp_path: Path) -> None:
    """Common practice, no source."""
    straps = "<h2>FLOOR-TO-FLOOR STRAPS</h2>" + table(
        [
            ["MARK", "MODEL", "POST ABOVE AND BELOW", "NAILS, TOTAL", "CAPACITY (LB)"],
            ["T1", "ZMT-30", "(2) 2x6", "(22) 10d", "2,760"],
        ]
    )
    (strap,) = read([plans(tmp_path, _level(1, {"1": 6}), straps)]).hold_downs
    told = {name: r.value for name, r in readings(strap)}
    assert (told["mark"], told["model"], told["post"]) == ("T1", "ZMT-30", "(2) 2x6")
    assert (told["fasteners"], told["capacity_lb"]) == ("(22) 10d", 2760)


def test_a_list_of_straps_without_posts_or_capacities_is_no_table_of_hold_downs(tmp_path: Path) -> None:
    """Common practice, no source: straps over beams are tagged too. It is named as seen and not read."""
    straps = "<h2>FLOOR STRAPS</h2>" + table([["TAG", "STRAP", "LENGTH", "NAILS"], ["ST1", "QS-18", '18"', "14-10d"]])
    job = read([plans(tmp_path, _level(1, {"1": 6}), straps)])
    assert not job.hold_downs
    assert [block.title for block in job.coverage.blocks_not_read] == ["FLOOR STRAPS"]


def test_a_second_storeys_schedule_under_a_heading_of_its_own_is_read(tmp_path: Path) -> None:
    """Common practice, no source: SHEARWALL SCHEDULES over both, UPPER FLOOR over the second. Lost rows would be lost walls."""
    first, second = (
        table([HEAD, *([m, '15/32" PLYWOOD', "8d COMMON", f'{e}"', '12"', "260"] for m, e in part)])
        for part in ((("L1", 6), ("L2", 4)), (("U1", 6), ("U2", 3)))
    )
    job = read([plans(tmp_path, f"<h2>SHEARWALL SCHEDULES</h2>{first}<p>UPPER</p>{second}")])
    edges = [(w.mark.value, dict(readings(w))["edge.spacing_in"].value) for w in job.wall_types]
    assert edges == [("L1", 6), ("L2", 4), ("U1", 6), ("U2", 3)]


@pytest.mark.parametrize(("heading", "marks"), [("ROOF NAILING", ("D1", "D2")), ("UPPER", ("ROOF", "DECK"))])
def test_a_deck_nailed_like_a_wall_is_no_wall(heading: str, marks: tuple[str, str], tmp_path: Path) -> None:
    """A wall type that nobody scheduled is the worst kind of row."""
    rows = [[m, '15/32" PLYWOOD', "8d COMMON", '6"', '12"', "260"] for m in marks]
    job = read([plans(tmp_path, f"{_level(1, {'1': 6})}<p>{heading}</p>{table([HEAD, *rows])}")])
    assert [w.mark.value for w in job.wall_types] == ["1"]
