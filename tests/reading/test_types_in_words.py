"""Wall types told in words: beside their marks, in boxes, in named values; and the notes under the same title."""

from pathlib import Path
from typing import Any

import pytest

from extractor.read import read
from extractor.record import readings

from .sheets import box, mark, plans

TITLE = "<h2>SHEAR WALL TYPES</h2>"
KINDS = (("A", 6, 48, 260), ("B", 4, 32, 380), ("C", 3, 16, 490))


def _values(path: Path) -> dict[str, dict[str, Any]]:
    return {wall.mark.value: dict(readings(wall)) for wall in read([path]).wall_types}


def test_a_sentence_beside_its_mark_in_a_circle(tmp_path: Path) -> None:
    """Common practice, no source: a key of marks, each with a sentence at its right, and one line for all under them."""
    sheet = "<h2>SHEAR WALL KEY</h2>"
    for i, (name, edge, bolts, plf) in enumerate(KINDS):
        words = (
            f'15/32" PLYWOOD, ONE SIDE. 8d COMMON NAILS @ {edge}" O.C. AT PANEL EDGES AND 12" O.C. FIELD.'
            " 2x STUDS AT PANEL JOINTS."
            f' 2x P.T. SILL W/ 5/8" ANCHOR BOLTS @ {bolts}" O.C. NO HOLDOWN. CAPACITY {plf} PLF.'
        )
        sheet += mark(name, 0, 50 + 44 * i) + f"<div class=at style='left:34pt;top:{46 + 44 * i}pt;width:480pt'>{words}</div>"
    sheet += "<div class=at style='left:0;top:190pt'>ALL PANEL EDGES BLOCKED. CAPACITIES ARE ASD, SEISMIC.</div>"
    walls = _values(plans(tmp_path, sheet))
    assert list(walls) == ["A", "B", "C"]
    for name, edge, bolts, plf in KINDS:
        told = walls[name]
        assert (told["edge.spacing_in"].value, told["field.spacing_in"].value) == (edge, 12)
        assert (told["anchors.spacing_in"].value, told["framing.sill"].value) == (bolts, "2x")
        assert told["framing.blocked"].value is True
        (stated,) = told["capacity"].value
        assert (stated.plf.value, stated.load.value, stated.method.value) == (plf, "seismic", "ASD")


def test_types_whose_sentences_begin_with_their_marks_are_told_once(tmp_path: Path) -> None:
    """A type that stands twice stops the job, so one that the reader doubles would stop it for nothing."""
    lines = "".join(
        f'<p>SW-{i}: 7/16" OSB; 8d common nails at {edge}" o.c. at panel edges, 12" o.c. in the field; {plf} plf.</p>'
        for i, (_, edge, _, plf) in enumerate(KINDS, 1)
    )
    intro = "<p>Sheathing goes on one side of the wall and all panel edges are blocked.</p>"
    job = read([plans(tmp_path, f"<h2>Shear wall types</h2><div style='width:520pt'>{intro}{lines}</div>")])
    assert [wall.mark.value for wall in job.wall_types] == ["SW-1", "SW-2", "SW-3"]
    assert {dict(readings(wall))["sheathing.faces"].value for wall in job.wall_types} == {1}


@pytest.mark.parametrize("drawn", [True, False], ids=["in boxes", "in columns"])
def test_bullets_and_two_named_values_on_a_line(drawn: bool, tmp_path: Path) -> None:
    """Common practice, no source. A field spacing read as the edge's would be a wall nailed wrong."""
    sheet = TITLE
    for i, (name, edge, bolts, _) in enumerate(KINDS):
        lines = (
            f"<b>SW{name}</b> &nbsp; &nbsp; SHEAR WALL",
            '• SHEATHING: 15/32" PLYWOOD ONE SIDE',
            "• NAILS: 8d COMMON",
            f'• EDGES: {edge}" O.C. &nbsp; FIELD: 12" O.C.',
            f'• SILL: 2x P.T. W/ 5/8" A.B. @ {bolts}" O.C.',
        )
        text = "".join(f"<div>{line}</div>" for line in lines)
        sheet += box(text, 250 * i, 40, 230, 90) if drawn else f"<div class=at style='left:{250 * i}pt;top:40pt'>{text}</div>"
    walls = _values(plans(tmp_path, sheet))
    assert list(walls) == ["SWA", "SWB", "SWC"]
    for name, edge, bolts, _ in KINDS:
        told = walls[f"SW{name}"]
        assert (told["edge.spacing_in"].value, told["field.spacing_in"].value) == (edge, 12)
        assert (told["framing.sill"].value, told["anchors.spacing_in"].value) == ("2x", bolts)
        assert told["sheathing.faces"].value == 1


def test_what_stands_between_the_title_and_the_sentences_holds_for_all_of_them(tmp_path: Path) -> None:
    """Common practice, no source: staples are defined once, over the types."""
    intro = (
        "<p>Sheathing goes on one side of the wall and all panel edges are blocked. Staples are 16 gage, 1-1/2 inches long"
        " with a 7/16 inch crown. Loads given are allowable (ASD) for seismic.</p>"
    )
    lines = "".join(
        f'<p>SW-{name}: 7/16" OSB; staples at {edge}" o.c. at panel edges, 12" o.c. in the field; {plf} plf.</p>'
        for name, edge, _, plf in KINDS
    )
    walls = _values(plans(tmp_path, f"<h2>Shear wall types</h2><div style='width:520pt'>{intro}{lines}</div>"))
    assert list(walls) == ["SW-A", "SW-B", "SW-C"]
    for name, edge, _, plf in KINDS:
        told = walls[f"SW-{name}"]
        assert (told["fastener.kind"].value, told["fastener.gauge"].value, told["fastener.length_in"].value) == (
            "staple",
            16,
            1.5,
        )
        assert (told["sheathing.faces"].value, told["framing.blocked"].value) == (1, True)
        assert told["edge.spacing_in"].value == edge
        (stated,) = told["capacity"].value
        assert (stated.plf.value, stated.load.value, stated.method.value) == (plf, "seismic", "ASD")


def test_dots_that_lead_from_a_name_to_its_value(tmp_path: Path) -> None:
    """Drawn set; so many dots are no sign of a broken font."""
    lines = [
        ("SHEATHING", '7/16" OSB'),
        ("NAILS", "8d COMMON"),
        ("EDGES", '6" O.C.'),
        ("FIELD", '12" O.C.'),
        ("SHEAR, ASD SEISMIC", "240 PLF"),
    ]
    text = "<b>TYPE W1</b><br>" + "<br>".join(f"{name} {'.' * 60} {value}" for name, value in lines)
    other = text.replace("W1", "W2").replace('6"', '4"').replace("240", "350")
    job = read(
        [
            plans(
                tmp_path,
                "<h2>SHEAR WALL TYPES (ONE SIDE SHEATHED EXCEPT AS MARKED)</h2>"
                + box(text, 20, 60, 360, 110)
                + box(other, 400, 60, 360, 110),
            )
        ]
    )
    told = {w.mark.value: dict(readings(w)) for w in job.wall_types}
    assert [(m, t["edge.spacing_in"].value, t["sheathing.faces"].value) for m, t in told.items()] == [("W1", 6, 1), ("W2", 4, 1)]
    (stated,) = told["W1"]["capacity"].value
    assert (stated.plf.value, stated.load.value, stated.method.value) == (240, "seismic", "ASD")


def test_types_side_by_side_without_frames(tmp_path: Path) -> None:
    """Drawn set: TYPE and the mark over lines of name and value; the table under them is none of theirs."""
    names = ("SHEATHING", "NAIL", "PANEL EDGES", "FIELD", "AT CONCRETE", "AT WOOD FLOOR")

    def told(mark: str, edge: int, x: int) -> str:
        values = ('15/32" PLYWOOD', "8d COMMON", f'{edge}" O.C.', '12" O.C.', '5/8" A.B. AT 48" O.C.', '16d AT 6" O.C.')
        lines = "".join(
            f"<tr><td style='text-align:left;padding:0 20pt 0 0'>{n}:<td style='text-align:left;padding:0'>{v}"
            for n, v in zip(names, values, strict=True)
        )
        return f"<div class=at style='left:{x}pt;top:60pt'>TYPE {mark}<table class=open>{lines}</table></div>"

    under = "<div class=at style='left:20pt;top:170pt'><b>HOLDOWNS</b><br>MARK MODEL POST</div>"
    values = _values(plans(tmp_path, TITLE + told("D6", 6, 20) + told("D4", 4, 420) + under))
    assert [(m, v["edge.spacing_in"].value, v["bottom_plate.spacing_in"].value) for m, v in values.items()] == [
        ("D6", 6, 6),
        ("D4", 4, 6),
    ]
    assert values["D6"]["anchors.spacing_in"].value == 48
