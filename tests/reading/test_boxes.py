"""Wall types told in boxes, a box a type: the name of a value on the left, the value on the right, once or twice on a line."""

from pathlib import Path

import pytest
from weasyprint import HTML

from extractor.read import read
from extractor.record import readings

STYLE = (
    "@page{size:17in 11in;margin:0.5in} body{font:9pt Arial} td{width:1.7in}"
    " .box{position:relative;width:7in;height:1.6in;margin:8pt 0} svg{position:absolute;left:0;top:0}"
)
RULE = "<svg width=7in height=1.6in><rect x=1 y=1 width=670 height=151 fill=none stroke=black /></svg>"
ONE = (
    ("Panels", '15/32" plywood, one face'),
    ("Nails", "8d common"),
    ("Edge nailing", '{edge}" o.c.'),
    ("Field nailing", '12" o.c.'),
    ("Sill", '5/8" anchor bolts at {bolts}"'),
)


def _plans(folder: Path, pairs: int) -> Path:
    boxes = []
    for mark, edge, bolts in (("B1", 6, 48), ("B2", 4, 32)):
        cells = [f"<td>{name}<td>{value.format(edge=edge, bolts=bolts)}" for name, value in ONE]
        lines = "".join("<tr>" + "".join(cells[i : i + pairs]) for i in range(0, len(cells), pairs))
        boxes.append(f"<div class=box>{RULE}<p>Type {mark}<table>{lines}</table></div>")
    out = folder / "plans.pdf"
    HTML(string=f"<style>{STYLE}</style><h1>Shear wall types</h1>{''.join(boxes)}").write_pdf(out)
    return out


@pytest.mark.parametrize("pairs", [1, 2])
def test_a_box_a_type_is_read_by_the_names_of_its_values(pairs: int, tmp_path: Path) -> None:
    """Common practice, no source: offices that draw no table put one box for each type under one title."""
    walls = {wall.mark.value: wall for wall in read([_plans(tmp_path, pairs)]).wall_types}
    assert walls.keys() == {"B1", "B2"}
    for mark, edge, bolts in (("B1", 6, 48), ("B2", 4, 32)):
        values = dict(readings(walls[mark]))
        assert {values[name].state for name in values} == {"read"}
        assert values["edge.spacing_in"].value == edge
        assert values["field.spacing_in"].value == 12
        assert values["anchors.spacing_in"].value == bolts
