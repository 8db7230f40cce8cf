"""What a row says stands before what a note says for all walls, also where the row says it in a cell of something else."""

from pathlib import Path

import pytest
from weasyprint import HTML

from extractor.read import read
from extractor.record import Job, State, readings

HEAD = ("MARK", "SHEATHING", "NAILS", "EDGE NAILING", "FIELD NAILING", "SHEAR (PLF)")
STYLE = "@page{size:17in 11in;margin:0.5in} body{font:9pt Arial} td{padding:3pt 14pt} p{margin:4pt 0}"
NOTE = "FRAMING AT ABUTTING PANEL EDGES OF SHEAR WALLS IS 2x (38 mm) U.N.O."


def _job(folder: Path, edge: str) -> Job:
    rows = [
        ("A1", '15/32" PLYWOOD', "8d COMMON", '6" (152 mm)', '12" (305 mm)', "260"),
        ("A2", '15/32" PLYWOOD', "8d COMMON", edge, '12" (305 mm)', "380"),
    ]
    table = "".join("<tr>" + "".join(f"<td>{cell}" for cell in row) for row in (HEAD, *rows))
    html = f"<style>{STYLE}</style><h2>SHEAR WALL SCHEDULE</h2><table>{table}</table><h2>SHEAR WALL NOTES</h2><p>1. {NOTE}</p>"
    HTML(string=html).write_pdf(folder / "plans.pdf")
    return read([folder / "plans.pdf"])


@pytest.mark.parametrize(
    "edge", ['4" (102 mm); 3x (64 mm) AT JOINTS', '4"; 3x AT JOINTS', '4" (102mm), 3x (64mm) AT PANEL JOINTS']
)
def test_framing_told_in_the_cell_of_the_edge_nailing_is_the_rows_own(edge: str, tmp_path: Path) -> None:
    """Common practice, no source: metric twins in brackets, and framing told beside the nailing that asks for it."""
    first, second = (dict(readings(wall)) for wall in _job(tmp_path, edge).wall_types)
    assert first["framing.panel_edge"].value == "2x"
    assert second["edge.spacing_in"].value == 4
    assert (second["framing.panel_edge"].value, second["framing.panel_edge"].origin) == ("3x", "schedule")


def test_a_note_fills_nothing_where_words_of_the_row_left_over_name_lumber(tmp_path: Path) -> None:
    framing = dict(readings(_job(tmp_path, '4" O.C. + 3x BETW. BAYS').wall_types[1]))["framing.panel_edge"]
    assert (framing.value, framing.state) == (None, State.UNREADABLE)
