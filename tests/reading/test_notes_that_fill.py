"""What notes say once for all walls, and what they may not say for them."""

from pathlib import Path
from typing import Any

import pytest

from extractor.read import read
from extractor.record import Job, Origin, readings

from .sheets import plans, table

HEAD = ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD", "ANCHOR BOLTS", "CAPACITY (PLF)"]
ROWS = [
    ["6", '15/32" PLYWOOD', "8d COMMON", '6"', '12"', '5/8" @ 48"', "260 / 365"],
    ["4", '15/32" PLYWOOD', "8d COMMON", '4"', '12"', "", "380 / 532"],
]
WHOLE = '1. ANCHOR BOLTS OF SHEAR WALLS ARE 5/8" DIAMETER AT 32" O.C. U.N.O.'


def _job(folder: Path, *notes: str, head: list[str] = HEAD, rows: list[list[str]] = ROWS) -> Job:
    text = "<h3>SHEAR WALL NOTES</h3>" + "".join(f"<p>{note}" for note in notes)
    return read([plans(folder, "<h2>SHEAR WALL SCHEDULE</h2>" + table([head, *rows]) + text)])


def _values(job: Job, mark: str) -> dict[str, Any]:
    return dict(readings(next(w for w in job.wall_types if w.mark.value == mark)))


def test_a_blank_cell_of_bolts_is_filled_by_a_note_that_gives_size_and_spacing(tmp_path: Path) -> None:
    """Common practice, no source: a note U.N.O. speaks of the rows that note nothing else."""
    job = _job(tmp_path, WHOLE)
    four, six = _values(job, "4"), _values(job, "6")
    assert (four["anchors.spacing_in"].value, four["anchors.spacing_in"].origin) == (32, Origin.NOTE)
    assert (six["anchors.spacing_in"].value, six["anchors.spacing_in"].origin) == (48, Origin.SCHEDULE)


def test_a_wall_nailed_to_wood_gets_no_bolts_from_a_note(tmp_path: Path) -> None:
    """A bolt that nobody specified for an upper storey would be a wrong value."""
    head = [*HEAD[:6], "SOLE PLATE NAILING", HEAD[6]]
    rows = [[*ROWS[0][:6], "", ROWS[0][6]], [*ROWS[1][:6], '16d @ 6"', ROWS[1][6]]]
    assert "anchors.spacing_in" not in _values(_job(tmp_path, WHOLE, head=head, rows=rows), "4")


@pytest.mark.parametrize(
    ("note", "loads"),
    [
        ("1. THE FIRST CAPACITY IS SEISMIC, THE SECOND WIND; BOTH ARE ASD.", ["seismic", "wind"]),
        ("1. FIRST VALUE IN THE SCHEDULE IS FOR WIND, SECOND VALUE FOR SEISMIC.", ["wind", "seismic"]),
        ("1. CAPACITIES ARE FOR WIND OR SEISMIC.", [None, None]),
    ],
)
def test_a_note_tells_which_of_two_capacities_is_for_which_load(note: str, loads: list[str | None], tmp_path: Path) -> None:
    """Common practice, no source."""
    stated = _values(_job(tmp_path, note), "6")["capacity"].value
    assert [c.load.value if c.load else None for c in stated] == loads


def test_notes_headed_shear_walls_unless_noted_otherwise_are_about_shear_walls(tmp_path: Path) -> None:
    """Common practice, no source: the notes themselves then name no wall."""
    sheet = "<h2>SHEAR WALL SCHEDULE</h2>" + table([HEAD, *ROWS])
    notes = "<h3>SHEAR WALLS UNLESS NOTED OTHERWISE IN THE SCHEDULE</h3><p>1. STUDS AT ABUTTING PANEL EDGES 3x OR (2) 2x U.N.O."
    other = '<h3>ROOF</h3><p>1. SHEATHING: 19/32" PLYWOOD.'
    job = read([plans(tmp_path, notes + other, sheet)])
    assert _values(job, "4")["framing.panel_edge"].value == "3x or 2-2x"
    assert _values(job, "4")["sheathing.thickness_in"].value == 15 / 32


def test_a_note_for_one_edge_spacing_fills_the_rows_nailed_so(tmp_path: Path) -> None:
    """Common practice, no source: nails closer than others are staggered, on wider studs."""
    notes = ('1. STAGGER NAILS AT 4" SPACING.', '2. 3x FRAMING AT ADJOINING PANEL EDGES WHERE NAILS ARE SPACED 4" O.C. OR LESS.')
    job = _job(tmp_path, *notes)
    four, six = _values(job, "4"), _values(job, "6")
    assert (four["edge.staggered"].value, four["framing.panel_edge"].value) == (True, "3x")
    assert four["edge.staggered"].origin == Origin.NOTE
    assert not {"edge.staggered", "framing.panel_edge"} & six.keys()


def test_a_style_told_before_several_nails_is_that_of_all(tmp_path: Path) -> None:
    """Common practice, no source."""
    rows = [[*row[:2], nail, *row[3:]] for row, nail in zip(ROWS, ("8d", "10d"), strict=True)]
    job = _job(tmp_path, '1. NAILS ARE COMMON NAILS: 8d = 0.131" x 2-1/2", 10d = 0.148" x 3".', rows=rows)
    told = [(v["fastener.style"].value, v["fastener.diameter_in"].value) for v in (_values(job, "6"), _values(job, "4"))]
    assert told == [("common", 0.131), ("common", 0.148)]


def test_a_list_of_notes_headed_shear_walls_is_no_table_of_types(tmp_path: Path) -> None:
    """A wall type that nobody scheduled is the worst kind of row: note 1 is not a type 1."""
    notes = "<h3>SHEAR PANELS</h3>" + "".join(
        f"<p style='margin:2pt'>{i} {text}"
        for i, text in enumerate(
            ['FIELD NAILING OF SHEAR PANELS IS 12" ON CENTER WITH THE SAME NAIL.', "BLOCK ALL PANEL EDGES."], 1
        )
    )
    sheet = "<h2>SHEAR WALL SCHEDULE</h2>" + table([HEAD, *ROWS])
    job = read([plans(tmp_path, f"<div class=at style='left:700pt;top:30pt;width:330pt'>{notes}</div>{sheet}")])
    assert [wall.mark.value for wall in job.wall_types] == ["6", "4"]
    assert _values(job, "6")["framing.blocked"].value is True


TWO_PARTS = (
    "<h2>SHEAR WALL SCHEDULE</h2><p><b>SHEATHING AND NAILING</b>"
    + table([[*HEAD[:5], HEAD[6]], ["6", '15/32" PLYWOOD', "8d COMMON", '6"', '12"', "260"]])
    + "<p><b>ANCHORAGE</b>"
    + table([["MARK", "SILL", "ANCHOR BOLTS"], ["6", "2x", '5/8" @ 48"']])
    + "<p><b>NOTES</b><p>1. ALLOWABLE SHEARS ARE ASD, SEISMIC.<p>2. BLOCK ALL PANEL EDGES."
)


def test_notes_under_the_second_part_of_a_schedule_are_the_first_part_s_too(tmp_path: Path) -> None:
    """Common practice, no source: one list of notes stands under both tables."""
    six = _values(read([plans(tmp_path, TWO_PARTS)]), "6")
    (stated,) = six["capacity"].value
    assert (stated.method.value, stated.load.value, six["framing.blocked"].value) == ("ASD", "seismic", True)


GENERAL = (
    "<h2>STRUCTURAL GENERAL NOTES</h2><h3>{over}</h3><p>1. PLANS GOVERN OVER DETAILS.<p>2. {note}",
    "<h2>SHEAR WALL SCHEDULE</h2>" + table([HEAD, *ROWS]),
)


@pytest.mark.parametrize(
    ("over", "note", "field", "value"),
    [
        ("FOUNDATIONS", 'ANCHOR BOLTS SHALL BE EMBEDDED 7" INTO CONCRETE.', "anchors.embedment_in", 7.0),
        ("STRUCTURAL STEEL", 'ANCHOR BOLTS SHALL BE EMBEDDED 7" INTO CONCRETE.', "anchors.embedment_in", None),
        ("FOUNDATIONS", 'ANCHOR BOLTS AT STEEL COLUMNS SHALL BE EMBEDDED 12" INTO CONCRETE.', "anchors.embedment_in", None),
        ("WOOD", "ALL NAILS SHALL BE BOX U.N.O.", "fastener.style", "common"),
        ("FOUNDATIONS", 'ANCHOR BOLTS SHALL BE 1/2" DIAMETER AT 72" O.C., EMBEDDED 7".', "anchors.embedment_in", None),
    ],
)
def test_a_general_note_fills_what_schedules_leave_to_it_and_gives_way_to_rows(
    over: str, note: str, field: str, value: Any, tmp_path: Path
) -> None:
    """Common practice, no source. A rule with a size of its own may be for other walls, and says nothing for these."""
    sheets = [sheet.format(over=over, note=note) for sheet in GENERAL]
    found = _values(read([plans(tmp_path, *sheets)]), "6").get(field)
    assert (found.value if found else None) == value
