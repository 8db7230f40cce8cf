"""Wall marks among what looks like them: grid bubbles, legends, titles of schedules on the same sheet."""

from collections import Counter
from pathlib import Path

from extractor.read import read

from .sheets import mark, plans, table

VIEW = "<div class=at style='top:600pt;left:100pt'><b>FLOOR PLAN</b><br>SCALE 1/4\" = 1'-0\"</div>"
HEAD = ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "CAPACITY (PLF)"]


def _schedule(marks: str) -> str:
    rows = [
        [m, '15/32" PLYWOOD', "8d COMMON", f'{e}"', '12"', str(plf)]
        for m, e, plf in zip(marks, (6, 4, 3), (260, 380, 490), strict=True)
    ]
    return "<h2>SHEAR WALL SCHEDULE</h2>" + table([HEAD, *rows])


def _grid(shape: str = "circle") -> str:
    numbers = "".join(mark(str(i + 1), 100 + 200 * i, 40, shape) for i in range(4))
    return numbers + "".join(mark(letter, 40, 100 + 180 * i, shape) for i, letter in enumerate("ABC"))


def _counted(path: Path) -> Counter[str]:
    out: Counter[str] = Counter()
    for one in read([path]).plan_marks:
        out[one.mark] += len(one.boxes)
    return out


def test_the_letters_of_a_grid_in_circles_like_the_walls_are_no_walls(tmp_path: Path) -> None:
    """Common practice, no source: grids are named in circles, letters one way and numbers the other."""
    walls = [("A", 150, 120), ("B", 380, 130), ("A", 300, 260), ("C", 520, 300), ("B", 200, 420)]
    plan = "".join(mark(text, x, y) for text, x, y in walls) + _grid() + VIEW
    assert _counted(plans(tmp_path, plan, _schedule("ABC"))) == Counter({"A": 2, "B": 2, "C": 1})


def test_marks_listed_under_a_legends_heading_are_no_walls(tmp_path: Path) -> None:
    """Common practice, no source."""
    walls = [("S1", 150, 120), ("S2", 380, 130), ("S1", 300, 260)]
    lines = [("S1", "Sheathed wall"), ("S2", "Wall of two sheets"), ("S3", "Wall at the stair")]
    legend = "<h3 class=at style='left:800pt;top:60pt;margin:0'>Marks</h3>" + "".join(
        mark(text, 800, 90 + 26 * i) + f"<div class=at style='left:840pt;top:{94 + 26 * i}pt'>{words}</div>"
        for i, (text, words) in enumerate(lines)
    )
    plan = "".join(mark(text, x, y) for text, x, y in walls) + legend + VIEW
    sheet = _schedule("123").replace("<td>1<", "<td>S1<").replace("<td>2<", "<td>S2<").replace("<td>3<", "<td>S3<")
    assert _counted(plans(tmp_path, plan, sheet)) == Counter({"S1": 2, "S2": 1})


def test_a_grid_bubble_level_with_the_title_of_a_schedule_is_not_its_symbol(tmp_path: Path) -> None:
    """Common practice, no source: a plan and the schedule for it on one sheet."""
    walls = [("1", 150, 120), ("2", 380, 130), ("1", 300, 260), ("3", 520, 300)]
    plan = "".join(mark(text, x, y, "hexagon") for text, x, y in walls) + _grid()
    plan += VIEW
    schedule = f"<div class=at style='left:760pt;top:36pt'>{_schedule('123')}</div>"
    assert _counted(plans(tmp_path, plan + schedule)) == Counter({"1": 2, "2": 1, "3": 1})


def test_the_bubble_of_a_plans_title_and_the_number_of_the_sheet_are_no_marks(tmp_path: Path) -> None:
    """Drawn set: types S1 to S3 on sheets S1 to S3; the plan is titled SHEAR WALL PLAN beside a numbered circle."""
    walls = [("S1", 150, 120), ("S2", 380, 130), ("S1", 300, 260)]
    plan = "".join(mark(text, x, y, "hexagon") for text, x, y in walls)
    plan += mark("1", 100, 600) + "<div class=at style='top:602pt;left:130pt'><b>FIRST FLOOR SHEAR WALL PLAN</b></div>"
    plan += "<div class=at style='top:620pt;left:130pt'>SCALE 1/4\" = 1'-0\"</div>"
    plan += "<div class=at style='top:660pt;left:1050pt;font-size:26pt'>S3</div>"
    sheet = _schedule("123").replace("<td>1<", "<td>S1<").replace("<td>2<", "<td>S2<").replace("<td>3<", "<td>S3<")
    assert _counted(plans(tmp_path, plan, sheet)) == Counter({"S1": 2, "S2": 1})
