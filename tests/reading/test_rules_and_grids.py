"""Drawn lines to rules, rules and white space to tables: how offices draw them, each a row."""

import random

import pytest

from extractor import limits
from extractor.paper.grid import Grid, columns_by_space, components, extent, open_grid, ruled
from extractor.paper.page import Outline
from extractor.paper.rules import Rule, rules
from extractor.paper.words import Word
from tests.reading.drawn import line, polygon, rectangle, word

DRAWN: list[tuple[str, list[Outline], list[tuple[bool, float, float, float]], str]] = [
    ("a line", [line(100, 50, 300, 50)], [(True, 50, 100, 300)], "any table"),
    ("drawn backwards", [line(300, 50, 100, 50)], [(True, 50, 100, 300)], "any table"),
    ("upright", [line(100, 50, 100, 90)], [(False, 100, 50, 90)], "any table"),
    ("slanted", [line(100, 50, 300, 60)], [], "a leader is no rule"),
    ("thin filled box", [rectangle(100, 50, 300, 50.8, filled=True)], [(True, 50.4, 100, 300)], "thin boxes for rules"),
    ("shading", [rectangle(100, 50, 300, 70, filled=True)], [], "fixtures: shaded-rows-no-rules"),
    ("dashes", [line(100 + i * 12, 50, 107 + i * 12, 50) for i in range(10)], [(True, 50, 100, 215)], "dashed rules"),
    ("hundreds of pieces", [line(100 + i, 50 + (i % 2) * 0.3, 101 + i, 50 + (i % 2) * 0.3) for i in range(200)],
     [(True, 50, 100, 300)], "fixtures: rules-in-hundreds-of-pieces"),
    ("a wide gap", [line(100, 50, 150, 50), line(200, 50, 250, 50)], [(True, 50, 100, 150), (True, 50, 200, 250)], "two tables"),
    ("two lines close by", [line(100, 50, 300, 50), line(100, 53, 300, 53)], [(True, 50, 100, 300), (True, 53, 100, 300)],
     "double rules"),
    ("box", [rectangle(100, 50, 300, 70)],
     [(True, 50, 100, 300), (True, 70, 100, 300), (False, 100, 50, 70), (False, 300, 50, 70)], "a cell drawn as a box"),
    ("round", [polygon((100, 50), (110, 60), (100, 70), (90, 60), curves=4)], [], "a symbol round a mark"),
]  # fmt: skip


@pytest.mark.parametrize(("way", "drawn", "found", "source"), DRAWN, ids=[row[0] for row in DRAWN])
def test_rules_are_those_a_reader_sees(
    way: str, drawn: list[Outline], found: list[tuple[bool, float, float, float]], source: str
) -> None:
    got = sorted(((r.level, r.at, r.start, r.end) for r in rules(drawn)), reverse=True)
    assert [(a, *(pytest.approx(v, abs=0.35) for v in b)) for a, *b in sorted(found, reverse=True)] == got, source


def test_dense_lines_beside_a_table_do_not_swallow_its_rules() -> None:
    """Short lines lie at every height beside a table: each of its rules is found, none is joined to another."""
    draw = random.Random(3)
    beside = [line(x, y, x + 12, y) for x, y in ((draw.uniform(420, 900), draw.uniform(40, 400)) for _ in range(20_000))]
    table = [line(100, 100 + 18 * i, 400, 100 + 18 * i) for i in range(10)]
    found = {(round(r.at, 1), r.start) for r in rules([*beside, *table]) if r.level and r.start == 100}
    assert found == {(100.0 + 18 * i, 100) for i in range(10)}


def _net(xs: list[float], ys: list[float], missing: tuple[Rule, ...] = ()) -> list[Rule]:
    level = [Rule(True, y, xs[0], xs[-1]) for y in ys]
    upright = [Rule(False, x, ys[0], ys[-1]) for x in xs]
    return [rule for rule in [*level, *upright] if rule not in missing]


XS, YS = [100.0, 160.0, 220.0, 280.0], [50.0, 70.0, 90.0, 110.0]
TEXT = [word(f"{'ABC'[c]}{r}", XS[c] + 6, YS[r] + 14) for r in range(3) for c in range(3)]


def _cells(grid: Grid | None) -> list[tuple[str, int, int, int, int]]:
    assert grid is not None
    return [(cell.text, cell.row, cell.col, cell.rows, cell.cols) for cell in grid.cells if cell.words]


def test_a_full_grid_gives_each_word_its_cell() -> None:
    assert _cells(ruled(_net(XS, YS), TEXT)) == [(f"{'ABC'[c]}{r}", r, c, 1, 1) for r in range(3) for c in range(3)]


MERGED = [
    ("down", [Rule(True, 90.0, 160.0, 280.0)], (True, 90.0), [("A1 A2", 1, 0, 2, 1)], "fixtures: merged-down-and-across"),
    ("across", [Rule(False, 160.0, 70.0, 110.0)], (False, 160.0), [("A0 B0", 0, 0, 1, 2)], "fixtures: headings-three-levels"),
]


@pytest.mark.parametrize(("way", "instead", "without", "merged", "source"), MERGED, ids=[row[0] for row in MERGED])
def test_a_rule_that_stops_merges_the_cells_beside_it(
    way: str, instead: list[Rule], without: tuple[bool, float], merged: list[tuple[str, int, int, int, int]], source: str
) -> None:
    net = [rule for rule in _net(XS, YS) if (rule.level, rule.at) != without] + instead
    found = _cells(ruled(net, TEXT))
    assert set(merged) <= set(found), source
    assert len(found) == 8


def test_text_that_runs_over_its_cell_stays_in_one_piece() -> None:
    """A long note in a narrow cell: its last word lies over the rule and belongs to the cell in which the middle lies."""
    text = [word("PLYWOOD", 106, 64), word("ONE", 146, 64), word("4", 226, 64)]
    assert _cells(ruled(_net(XS, [50.0, 70.0, 90.0]), text)) == [("PLYWOOD ONE", 0, 0, 1, 1), ("4", 0, 2, 1, 1)]


def test_double_rules_make_no_column_of_their_own() -> None:
    grid = ruled(_net([100.0, 160.0, 163.0, 220.0], YS), [word("A", 110, 64), word("B", 170, 64)])
    assert _cells(grid) == [("A", 0, 0, 1, 1), ("B", 0, 1, 1, 1)]


def test_two_tables_are_two_networks() -> None:
    left, right = _net(XS, YS), _net([x + 400 for x in XS], YS)
    found = sorted(extent(group) for group in components([*left, *right]))
    assert found == [(100, 50, 280, 110), (500, 50, 680, 110)]


def test_lone_lines_are_no_table() -> None:
    assert components([Rule(True, 50, 100, 200), Rule(False, 400, 100, 200)]) == []


def test_a_net_larger_than_any_table_is_none() -> None:
    many = [float(i) * 6 for i in range(int(limits.CELLS**0.5) + 3)]
    assert ruled(_net(many, many), TEXT) is None


def _row(y: float, *cells: tuple[str, float]) -> list[Word]:
    return [word(piece, x + 6 * 5 * 0 + sum(5 * (len(p) + 1) for p in text.split()[:i]), y)
            for text, x in cells for i, piece in enumerate(text.split())]  # fmt: skip


def test_white_space_tells_columns_where_no_rules_do() -> None:
    rows = [_row(60, ("MARK", 100), ("NAIL", 160), ("EDGE", 260)), _row(75, ("W1", 100), ("8d COMMON", 160), ('6"', 260)),
            _row(90, ("W2", 100), ("10d COMMON", 160), ('4"', 260))]  # fmt: skip
    columns = columns_by_space([w for row in rows for w in row], 9)
    assert [round(a) for a, _ in columns] == [100, 160, 260]
    grid = open_grid(rows, columns)
    assert [cell.text for cell in grid.cells] == ["MARK", "NAIL", "EDGE", "W1", "8d COMMON", '6"', "W2", "10d COMMON", '4"']


def test_a_table_turned_over_is_turned_back_by_turning_again() -> None:
    grid = ruled(_net(XS, YS), TEXT)
    assert grid is not None
    assert [(c.row, c.col, c.text) for c in grid.transposed().transposed().cells] == [(c.row, c.col, c.text) for c in grid.cells]
    turned = grid.transposed().at(2, 0)
    assert turned is not None
    assert turned.text == "C0"
