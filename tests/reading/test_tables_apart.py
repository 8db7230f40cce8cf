"""One schedule in several tables: a second part without a title, rows that go on elsewhere, types told twice."""

from pathlib import Path

import pytest

from extractor.read import read
from extractor.record import Job, Level, State, readings

from .sheets import plans, table

TITLE = "<h2>SHEAR WALL SCHEDULE</h2>"
WIDE = "".join(f"<col style='width:{width}pt'>" for width in (80, 140, 110, 70, 70))
HEAD = ["WALL", "SHEATHING", "NAILS", "EDGES", "FIELD"]


def _rows(edges: dict[str, int]) -> list[list[str]]:
    return [[mark, '15/32" PLYWOOD', "8d COMMON", f'{edge}"', '12"'] for mark, edge in edges.items()]


def _table(rows: list[list[str]]) -> str:
    return table(rows).replace('<table class="ruled">', f'<table class="ruled" style="table-layout:fixed;width:470pt">{WIDE}')


def _edges(job: Job) -> list[tuple[str | None, object]]:
    return [(wall.mark.value, dict(readings(wall))["edge.spacing_in"].value) for wall in job.wall_types]


def test_a_second_table_on_the_same_marks_adds_to_the_types(tmp_path: Path) -> None:
    """Common practice, no source: nailing above, framing and anchorage below, on one column of marks."""
    second = "<p>PART 2: FRAMING AND ANCHORAGE</p>" + table(
        [
            ["WALL", "STUD @ ABUTTING PANELS", "A.B. SIZE & SPACING", "HOLD-DOWN EACH END"],
            ["1", "2x", '5/8" A.B. @ 48" O.C.', "NONE"],
            ["2", "3x", '5/8" A.B. @ 24" O.C.', "H2"],
        ]
    )
    job = read([plans(tmp_path, TITLE + _table([HEAD, *_rows({"1": 6, "2": 3})]) + second)])
    assert _edges(job) == [("1", 6), ("2", 3)]
    one, two = (dict(readings(wall)) for wall in job.wall_types)
    assert (one["framing.panel_edge"].value, one["anchors.spacing_in"].value) == ("2x", 48)
    assert (one["hold_down.marks"].state, two["hold_down.marks"].value) == (State.NONE, ("H2",))


def test_rows_go_on_on_the_next_sheet_without_title_or_headings(tmp_path: Path) -> None:
    """Common practice, no source."""
    more = (
        _table(_rows({"E3": 3, "E4": 2}))
        + "<h2>HOLD-DOWN SCHEDULE</h2>"
        + table([["MARK", "MODEL", "POST", "ANCHOR", "CAPACITY (LB)"], ["A", "LMN-3", "(2) 2x6", '5/8"', "2,890"]])
    )
    job = read([plans(tmp_path, TITLE + _table([HEAD, *_rows({"E1": 6, "E2": 4})]), more)])
    assert _edges(job) == [("E1", 6), ("E2", 4), ("E3", 3), ("E4", 2)]
    assert [wall.mark.source.page for wall in job.wall_types] == [1, 1, 2, 2]


@pytest.mark.parametrize(
    ("second", "edges", "state"),
    [
        ({"W1": 6, "W2": 4}, [("W1", 6), ("W2", 4)], State.READ),
        ({"W1": 6, "W2": 3}, [("W1", 6), ("W2", 4)], State.CONFLICT),
    ],
    ids=["agrees", "differs"],
)
def test_a_schedule_repeated_on_another_sheet_is_one(
    second: dict[str, int], edges: list[tuple[str, int]], state: State, tmp_path: Path
) -> None:
    """Common practice, no source."""
    sheets = [TITLE + _table([HEAD, *_rows(part)]) for part in ({"W1": 6, "W2": 4}, second)]
    job = read([plans(tmp_path, *sheets)])
    assert _edges(job) == edges
    assert dict(readings(job.wall_types[1]))["edge.spacing_in"].state is state


def test_a_type_that_stands_on_both_sheets_of_a_continued_schedule_is_told_twice(tmp_path: Path) -> None:
    """Common practice, no source: a crew that finds the first row never looks for the second."""
    sheets = (
        TITLE + _table([HEAD, *_rows({"W1": 6, "W2": 4})]),
        "<h2>SHEAR WALL SCHEDULE (CONT'D)</h2>" + _table([HEAD, *_rows({"W2": 3, "W3": 3, "W4": 2})]),
    )
    job = read([plans(tmp_path, *sheets)])
    assert _edges(job) == [("W1", 6), ("W2", 4), ("W2", 3), ("W3", 3), ("W4", 2)]
    assert [(f.wall_type, f.level) for f in job.findings if f.code == "duplicate-mark"] == [("W2", Level.STOP)]


def test_sentences_under_a_table_without_rules_are_no_rows(tmp_path: Path) -> None:
    """Common practice, no source: they begin at the table's left edge and would close the gutters between its columns."""
    under = "<p style='margin:2pt'>CONTINUED ON SHEET S6.2<p style='margin:2pt'>ALLOWABLE SHEARS ARE ASD FOR SEISMIC LOADS."
    rows = table([HEAD, *_rows({"W1": 6, "W2": 4})], "open")
    assert _edges(read([plans(tmp_path, TITLE + rows + under)])) == [("W1", 6), ("W2", 4)]


def test_notes_of_a_schedule_hold_for_its_rows_on_the_next_sheet(tmp_path: Path) -> None:
    """Common practice, no source: the notes stand beside the first part, under NOTES TO THE SCHEDULE."""
    notes = (
        "<div class=at style='left:560pt;top:20pt'><h3>Notes to the schedule</h3><p>1. Nails are 8d common, 0.131 x 2-1/2.</div>"
    )
    more = (
        _table(_rows({"E3": 3, "E4": 2}))
        + "<h2>HOLD-DOWN SCHEDULE</h2>"
        + table([["MARK", "MODEL", "POST", "ANCHOR", "CAPACITY (LB)"], ["A", "LMN-3", "(2) 2x6", '5/8"', "2,890"]])
    )
    job = read([plans(tmp_path, TITLE + _table([HEAD, *_rows({"E1": 6, "E2": 4})]) + notes, more)])
    assert [dict(readings(wall))["fastener.length_in"].value for wall in job.wall_types] == [2.5] * 4


def test_the_title_of_a_detail_stands_under_its_table(tmp_path: Path) -> None:
    """Common practice, no source: details are titled below, and key letters of the drawing stand before the headings."""
    head = ["WALL", "SHEATHING", "NAILS", "A EDGE", "B FIELD"]
    rows = [["V1", '15/32" OSB', "8d COMMON", '6"', '12"'], ["V2", '15/32" OSB', "8d COMMON", '4"', '12"']]
    sheet = table([head, *rows]) + "<p style='margin:6pt 0'><b>SHEAR WALL ELEVATION AND SCHEDULE</b><br>SCALE: NONE</p>"
    assert _edges(read([plans(tmp_path, sheet)])) == [("V1", 6), ("V2", 4)]


def test_a_hold_down_table_that_goes_on_in_the_grid_of_the_walls(tmp_path: Path) -> None:
    """Drawn set: one frame, headings of its own half-way down; its rows are no walls."""
    wide = "<td colspan=2>"
    rows = [["S1", '15/32" OSB', "8d COMMON", '6"', '12"', "NONE"], ["S2", '15/32" OSB', "8d COMMON", '4"', '12"', "HD-3"]]
    holds = [["HOLDOWN", "MODEL", "POST", "ANCHOR", wide + "CAPACITY (LBS)"], ["HD-3", "JW-33", "4x4", '5/8"', wide + "3,340"]]
    job = read([plans(tmp_path, "<h2>SHEAR WALL & HOLDOWN SCHEDULE</h2>" + table([[*HEAD, "HOLDOWN MARK"], *rows, *holds]))])
    assert _edges(job) == [("S1", 6), ("S2", 4)]
    (hold,) = job.hold_downs
    told = {name: r.value for name, r in readings(hold)}
    assert (told["mark"], told["model"], told["post"], told["capacity_lb"]) == ("HD-3", "JW-33", "4x4", 3340)


def test_a_remark_that_points_to_a_note_and_a_mark_like_a_nail_part_no_rows(tmp_path: Path) -> None:
    """Drawn set: NOTE 4 in a column of remarks is no heading, and 5D between 5C and 5E is no nail."""
    rows = [[f"5{c}", "7/16 in. OSB", f"8d @ {e} in. edges, 12 in. field", note] for c, e, note in
            (("A", 6, ""), ("B", 4, ""), ("C", 3, "note 4"), ("D", 2, ""), ("E", 6, "interior"))]  # fmt: skip
    lined = table([["Mark", "Sheathing, one side", "Nailing", "Remarks"], *rows], "open").replace("<tr>", "<tr class=line>")
    style = "<style>tr.line td{border-bottom:0.5pt solid black;text-align:left} table{border-top:0.5pt solid black}</style>"
    job = read([plans(tmp_path, style + "<h2>Shear Wall Schedule</h2>" + lined)])
    assert _edges(job) == [("5A", 6), ("5B", 4), ("5C", 3), ("5D", 2), ("5E", 6)]


def test_the_word_under_a_mark_in_a_split_symbol_is_no_part_of_it(tmp_path: Path) -> None:
    """Drawn set: the key shows the plan's symbol, type above and length below."""
    rows = [["N6<br>LENGTH", '7/16" OSB', "8d", '6"', '12"'], ["N4<br>LENGTH", '7/16" OSB', "8d", '4"', '12"']]
    head = ["TYPE", "PANEL, ONE SIDE", "NAILS", "AT PANEL EDGES", "AT OTHER STUDS"]
    job = read([plans(tmp_path, "<h2>SHEAR WALL KEY</h2>" + table([head, *rows]))])
    assert _edges(job) == [("N6", 6), ("N4", 4)]
    assert {dict(readings(wall))["field.spacing_in"].value for wall in job.wall_types} == {12}


@pytest.mark.parametrize("first", [True, False], ids=["before the first row", "between rows"])
def test_a_band_gives_its_panel_and_nail_to_the_rows_under_it(first: bool, tmp_path: Path) -> None:
    """Drawn set: SERIES N and SERIES P, each with a band; a row's own panel stands against its band's."""
    bands = ['SERIES N: 7/16" OSB, ONE SIDE; 8d COMMON NAILS', 'SERIES P: 15/32" PLYWOOD, BOTH SIDES; 10d COMMON NAILS']
    rows = [["N1", '6"', '12"', "240"], ["P1", '4"', '12"', "510"]]
    lines = [[f"<td colspan=4>{bands[0]}"], rows[0], [f"<td colspan=4>{bands[1]}"], rows[1]]
    sheet = TITLE + table([["MARK", "EDGE NAILS", "FIELD NAILS", "SEISMIC PLF (ASD)"], *(lines if first else lines[1:])])
    told = {w.mark.value: {k: r.value for k, r in readings(w)} for w in read([plans(tmp_path, sheet)]).wall_types}
    names = ("sheathing.thickness_in", "sheathing.faces", "fastener.penny")
    assert [told["P1"].get(name) for name in names] == [0.46875, 2, "10d"]
    assert [told["N1"].get(name) for name in names] == ([0.4375, 1, "8d"] if first else [None, None, None])


def test_a_title_in_a_band_under_its_table(tmp_path: Path) -> None:
    """Drawn set: the band is the table's last row; another table follows."""
    band = ["<td colspan=5>SHEAR WALL SCHEDULE (PANELS ON ONE FACE OF WALL)"]
    holds = [["ANCHOR", "MODEL", "END STUDS", "ROD", "TENSION, LB"], ["a", "LM-52", "(2) 2x6", '5/8"', "5,150"]]
    under = table([*holds, ["<td colspan=5>ANCHORS AT WALL ENDS (HOLD-DOWNS)"]])
    job = read([plans(tmp_path, table([HEAD, *_rows({"1": 6, "2": 4}), band]) + "<p>" + under)])
    assert _edges(job) == [("1", 6), ("2", 4)]
    assert {dict(readings(wall))["sheathing.faces"].value for wall in job.wall_types} == {1}
    assert [(h.mark.value, dict(readings(h))["model"].value) for h in job.hold_downs] == [("a", "LM-52")]


def test_notes_headed_notes_beside_a_schedule_are_its_own(tmp_path: Path) -> None:
    """Common practice, no source."""
    notes = "<div class=at style='left:20pt;top:30pt;width:200pt'><b>NOTES</b><p>1. BLOCK ALL PANEL EDGES.</div>"
    schedule = f"<div class=at style='left:300pt;top:10pt'>{TITLE}{_table([HEAD, *_rows({'1': 6, '2': 4})])}</div>"
    job = read([plans(tmp_path, notes + schedule)])
    assert {dict(readings(wall))["framing.blocked"].value for wall in job.wall_types} == {True}


def test_a_title_in_the_place_of_the_first_heading(tmp_path: Path) -> None:
    """Drawn set: the title stands over the marks, spare rows are blank, and one mark stands twice."""
    rows = [*_rows({"1": 6, "2": 4, "3": 3}), *_rows({"3": 2}), *_rows({"4": 6}), ["&nbsp;"] * 5]
    head = ["<td rowspan=2>SHEAR WALL<br>SCHEDULE", "<td rowspan=2>PLYWOOD", "<td rowspan=2>NAILS", "<td colspan=2>SPACING O.C."]
    job = read([plans(tmp_path, table([head, ["EDGE", "FIELD"], *rows]))])
    assert _edges(job) == [("1", 6), ("2", 4), ("3", 3), ("3", 2), ("4", 6)]


def test_a_title_that_runs_up_a_band_at_the_left(tmp_path: Path) -> None:
    """Drawn set: the types are columns, and a row is called NAILS."""
    style = "display:inline-block;transform:rotate(-90deg);white-space:nowrap;width:20pt"
    turned = f"<span style='{style}'><b>SHEAR WALL SCHEDULE</b></span>"
    rows = [
        [f"<td rowspan=5 style='width:30pt'>{turned}", "WALL", "A", "B"],
        ["PLYWOOD", '<td colspan=2>15/32"'],
        ["NAILS", "<td colspan=2>8d COMMON"],
        ["AT PANEL EDGES", '6" O.C.', '4" O.C.'],
        ["AT OTHER STUDS", '<td colspan=2>12" O.C.'],
    ]
    job = read([plans(tmp_path, "<style>td{height:24pt}</style>" + "<p>SHEAR WALLS PER PLAN.</p>" + table(rows))])
    assert _edges(job) == [("A", 6), ("B", 4)]
    assert {dict(readings(wall))["fastener.penny"].value for wall in job.wall_types} == {"8d"}


@pytest.mark.parametrize("kind", ["ruled", "open"])
@pytest.mark.parametrize("last", [3, None], ids=["as many on both sides", "one fewer on the right"])
def test_a_schedule_that_goes_on_beside_itself(kind: str, last: int | None, tmp_path: Path) -> None:
    """Common practice, no source: the headings stand twice, and no type of either half is lost."""
    left, right = _rows({"1": 6, "2": 4, "3": 3}), _rows({"4": 2, "5": 6, "6": last or 0})
    right = right if last else [*right[:2], [""] * 5]
    both = [[*HEAD, *HEAD], *([*a, *b] for a, b in zip(left, right, strict=True))]
    job = read([plans(tmp_path, TITLE + table(both, kind) + "<p>1. BLOCK ALL PANEL EDGES.")])
    assert _edges(job) == [("1", 6), ("2", 4), ("3", 3), ("4", 2), ("5", 6), *([("6", last)] if last else [])]
    assert {dict(readings(wall))["framing.blocked"].value for wall in job.wall_types} == {True}


def test_types_side_by_side_that_go_on_below(tmp_path: Path) -> None:
    """Common practice, no source: the labels at the left stand twice."""

    def turned(edges: dict[str, int]) -> list[list[str]]:
        rows = _rows(edges)
        return [[label, *(row[i] for row in rows)] for i, label in enumerate(HEAD)]

    job = read([plans(tmp_path, TITLE + table([*turned({"A": 6, "B": 4}), *turned({"C": 3, "D": 2})]))])
    assert _edges(job) == [("A", 6), ("B", 4), ("C", 3), ("D", 2)]


def test_each_of_three_schedules_keeps_the_faces_of_its_own_title(tmp_path: Path) -> None:
    """Drawn set: the next table's title, taken for a note, would have put panels on both faces of walls that have one."""
    three = "".join(
        f"<h3>{title}</h3>" + _table([HEAD, *_rows({mark: 6})])
        for title, mark in (
            ("EXTERIOR SHEAR WALL SCHEDULE - PANEL ON ONE FACE", "EX1"),
            ("PARTY SHEAR WALL SCHEDULE - PANEL ON BOTH FACES", "PT1"),
        )
    )
    told = {w.mark.value: dict(readings(w))["sheathing.faces"].value for w in read([plans(tmp_path, three)]).wall_types}
    assert told == {"EX1": 1, "PT1": 2}
    odd = (
        TITLE
        + _table([HEAD, *_rows({"1": 6})])
        + "<h3>FRAMES AND LEAN-TO, PANELS ON BOTH FACES</h3>"
        + table([["A", "B", "C"], ["x", "y", "z"]])
    )
    (wall,) = read([plans(tmp_path, odd)]).wall_types
    assert "sheathing.faces" not in dict(readings(wall))


def test_a_hold_down_and_a_strap_in_columns_of_their_own(tmp_path: Path) -> None:
    """Drawn set: a wall has both, one at the foundation and one at the floors; lost, the strap would be on no card."""
    head = [["<td rowspan=2>" + h for h in HEAD] + ["<td>AT FOUNDATION", "<td>AT UPPER FLOORS"], ["HOLD-DOWN", "STRAP"]]
    rows = [[*_rows({"1": 6})[0], "-", "-"], [*_rows({"2": 4})[0], "HD5", "ST2"]]
    told = {w.mark.value: w.hold_down.marks for w in read([plans(tmp_path, TITLE + table([*head, *rows]))]).wall_types}
    assert [told[m].value if told[m] else None for m in ("1", "2")] == [(), ("HD5", "ST2")]
