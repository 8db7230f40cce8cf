"""What a row only points to: a key of the anchorage table, a sign that a footnote explains, a unit in the heading."""

from pathlib import Path
from typing import Any

import pytest

from extractor.read import read
from extractor.record import Job, Origin, readings

from .sheets import plans, table

TITLE = "<h2>SHEAR WALL SCHEDULE</h2>"
HEAD = ["MARK", "SHEATHING", "NAILS", "EDGES", "FIELD"]


def _values(job: Job, mark: str) -> dict[str, Any]:
    return dict(readings(next(w for w in job.wall_types if w.mark.value == mark)))


def test_bolts_by_the_key_of_an_anchorage_table(tmp_path: Path) -> None:
    """Drawn set: the row says A, and a table beside it what A is; a key that it does not have stays a question."""
    walls = [[*row, key] for row, key in zip(_rows("SW6", "SW4", "SW3"), ("A", "B", "D"), strict=True)]
    keys = [
        ["KEY", "BOLT DIA.", "SPACING", "P.T. SILL", "EMBED."],
        ["A", '5/8"', '32" o.c.', "2x", '7"'],
        ["B", '3/4"', '16" o.c.', "3x", '8"'],
    ]
    sheet = TITLE + table([[*HEAD, "SILL ANCHORAGE (SEE TABLE)"], *walls]) + "<h2>SILL ANCHORAGE TABLE</h2>" + table(keys)
    job = read([plans(tmp_path, sheet)])
    told = {mark: _values(job, mark) for mark in ("SW6", "SW4", "SW3")}
    names = ("anchors.diameter_in", "anchors.spacing_in", "anchors.embedment_in", "framing.sill")
    assert [told["SW6"][name].value for name in names] == [0.625, 32, 7, "2x"]
    assert [told["SW4"][name].value for name in names] == [0.75, 16, 8, "3x"]
    assert told["SW4"]["anchors.spacing_in"].origin is Origin.LEGEND
    assert told["SW3"]["anchors.spacing_in"].state == "unreadable"


def _rows(*marks: str) -> list[list[str]]:
    return [[mark, '15/32" PLYWOOD', "8d COMMON", f'{edge}"', '12"'] for mark, edge in zip(marks, (6, 4, 3), strict=False)]


def test_signs_on_marks_are_footnotes(tmp_path: Path) -> None:
    """Drawn set: a dagger is never part of a mark, a star not where a footnote begins with one; each row keeps its own rule."""
    notes = "<p>(a) PLYWOOD ON ONE SIDE OF WALL U.N.O. † INDICATES PLYWOOD ON BOTH SIDES. * CRIPPLE WALLS ONLY."
    job = read([plans(tmp_path, TITLE + table([HEAD, *_rows("1*", "2", "6†")]) + notes)])
    assert [w.mark.value for w in job.wall_types] == ["1", "2", "6"]
    assert [_values(job, mark)["sheathing.faces"].value for mark in ("1", "2", "6")] == [1, 1, 2]


def test_a_star_without_a_footnote_belongs_to_the_mark(tmp_path: Path) -> None:
    """Common practice, no source."""
    job = read([plans(tmp_path, TITLE + table([HEAD, *_rows("4", "4*")]))])
    assert [w.mark.value for w in job.wall_types] == ["4", "4*"]


def test_kips_in_the_heading(tmp_path: Path) -> None:
    """1 kip is 1000 pounds (NIST Handbook 44, Appendix C, from memory)."""
    walls = table(
        [[*HEAD, "V, KLF (SEISMIC, ASD)"], *([*row, v] for row, v in zip(_rows("S1", "S2"), ("0.26", "0.38"), strict=True))]
    )
    holds = table([["MARK", "MODEL", "POST", "ANCHOR", "TENSION (K), ASD"], ["D1", "RIX-5", "(2) 2x4", '5/8"', "2.36"]])
    job = read([plans(tmp_path, TITLE + walls + "<h2>HOLD DOWNS</h2>" + holds)])
    assert [w.capacity.value[0].plf.value for w in job.wall_types if w.capacity and w.capacity.value] == [260, 380]
    assert [h.capacity_lb.value for h in job.hold_downs if h.capacity_lb] == [2360]


def test_a_schedule_under_words_that_no_title_has(tmp_path: Path) -> None:
    """Drawn set: its headings tell it; a deck's nailing table with the same columns is none."""
    rows = [[*row, '5/8" @ 32"'] for row in _rows("P6", "P4")]
    walls = "<h2>LATERAL WORK</h2>" + table([[*HEAD, "SILL BOLTS"], *rows])
    decks = "<h2>ROOF DIAPHRAGM</h2>" + table([HEAD, *_rows("D1", "D2")])
    job = read([plans(tmp_path, "<p>SEE PLANS FOR SHEAR WALLS.</p>" + walls + decks)])
    assert [w.mark.value for w in job.wall_types] == ["P6", "P4"]


def test_notes_numbered_without_points_under_a_table_without_rules(tmp_path: Path) -> None:
    """Drawn set: they are sentences, and part none of its columns."""
    rows = [[*row, "None"] for row in _rows("SW-1", "SW-2")]
    notes = (
        "<p>1 Values are nominal, for framing of specific gravity 0.42.<p>2 Sill bolts are anchor bolts, see the general notes."
    )
    job = read([plans(tmp_path, TITLE + table([[*HEAD, "Hold-down"], *rows], "open") + notes)])
    assert [(w.mark.value, _values(job, w.mark.value or "")["edge.spacing_in"].value) for w in job.wall_types] == [
        ("SW-1", 6),
        ("SW-2", 4),
    ]


@pytest.mark.parametrize("title", ["DIAPHRAGM NAILING", "HORIZONTAL NAILING", "PANEL NAILING", "FLOOR AND ROOF PANELS"])
@pytest.mark.parametrize("inside", [True, False], ids=["in the frame", "above it"])
def test_the_nailing_of_decks_under_any_title_is_no_wall(title: str, inside: bool, tmp_path: Path) -> None:
    """Common practice, no source: decks have panels, nails and capacities too, and neither sills nor bolts nor hold-downs."""
    head = ["MARK", "SHEATHING", "NAILS", "BOUNDARY", "EDGES", "FIELD", "BLOCKED", "FRAMING", "CAPACITY (PLF)"]
    rows = [["D1", '15/32" PLYWOOD', "8d COMMON", '6"', '6"', '12"', "NO", "2x", "240"]]
    over = [[f"<td colspan=9>{title}"]] if inside else []
    deck = ("" if inside else f"<h3>{title}</h3>") + table([*over, head, *rows])
    job = read([plans(tmp_path, TITLE + table([HEAD, *_rows("1", "2")]) + "<p>&nbsp;<p>" + deck)])
    assert [w.mark.value for w in job.wall_types] == ["1", "2"]


def test_remarks_that_only_name_notes_say_which_notes_are_the_row_s(tmp_path: Path) -> None:
    """Drawn set: read for all rows, one face and both faces would contradict each other, and all nails would be staggered."""
    rows = [[*row, told] for row, told in zip(_rows("W10", "W20"), ("1, 4", "NOTES 1, 2 & 3"), strict=True)]
    notes = "".join(
        f"<p>{i}. {words}"
        for i, words in enumerate(
            ("ALL PANEL EDGES BLOCKED.", "SHEATHING ON BOTH FACES.", "EDGE NAILS STAGGERED.", "SHEATHING ON ONE FACE."), 1
        )
    )
    job = read([plans(tmp_path, TITLE + table([[*HEAD, "REMARKS"], *rows]) + "<p>REMARKS:" + notes)])
    ten, twenty = _values(job, "W10"), _values(job, "W20")
    assert [ten["sheathing.faces"].value, twenty["sheathing.faces"].value] == [1, 2]
    assert ["edge.staggered" in ten, twenty["edge.staggered"].value] == [False, True]
    assert [ten["framing.blocked"].value, twenty["framing.blocked"].value] == [True, True]
