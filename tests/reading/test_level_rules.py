"""Types side by side between level rules only, where short upright rules hold a value that goes for several types."""

from pathlib import Path

from extractor.read import read
from extractor.record import readings

from .sheets import plans

STYLE = """<style>
table.level td { border-top: 0.6pt solid black; border-bottom: 0.6pt solid black; padding: 4pt 14pt }
table.level td.held { border-left: 0.6pt solid black; border-right: 0.6pt solid black }
h2 { font-variant: small-caps; margin: 0 }
p { margin: 2pt 0 }
</style>"""
ROWS = [
    ("Type", ("L-6", "L-4", "L-3", "L-2")),
    ("Nails at panel edges", ('6"', '4"', '3"', '2"')),
    ("Nails at intermediate framing", ("4:12 in. o.c.",)),
    ("Studs where panels join", ("1:2x", "3:3x")),
    ("Sill plate", ("2:2x treated", "2:3x treated")),
    ("Sill bolts, 5/8 in. diameter", ('48"', '32"', '24"', '16"')),
    ("Embedment of sill bolts", ("4:7 in.",)),
    ("Hold-down, each end", ("none", "N3", "2:N5")),
    ("Allowable shear (plf), seismic", ("310", "460", "600", "770")),
]
SENTENCE = "All types: 15/32 in. plywood on one side, all edges blocked, 10d common nails (0.148 in. x 3 in.)."


def _cell(text: str) -> str:
    wide, _, value = text.rpartition(":")
    return f"<td class=held colspan={wide}>{value}</td>" if wide else f"<td>{value}</td>"


def _sheet() -> str:
    lines = "".join(f"<tr><td>{head}</td>{''.join(map(_cell, cells))}</tr>" for head, cells in ROWS)
    held = "".join(
        f"<tr>{''.join(f'<td>{cell}</td>' for cell in row)}</tr>"
        for row in (
            ("Mark", "Model", "End posts", "Rod"),
            ("N3", "TARN-31", "(2) 2x6", "5/8 in."),
            ("N5", "TARN-52", "4x6", "7/8 in."),
        )
    )
    walls = f"<h2>Shear Wall Key</h2><p>{SENTENCE}</p><table class=level>{lines}</table>"
    return f"{STYLE}{walls}<p style='margin-top:60pt'></p><h2>Hold-down Key</h2><table class=level>{held}</table>"


def test_a_value_between_upright_rules_goes_for_the_types_it_stands_under(tmp_path: Path) -> None:
    """Drawn set: read under one type only, the wall beside it would have had a 2x where the plans ask for a 3x."""
    told = {w.mark.value: {name: r.value for name, r in readings(w)} for w in read([plans(tmp_path, _sheet())]).wall_types}
    assert list(told) == ["L-6", "L-4", "L-3", "L-2"]
    wanted = {
        "edge.spacing_in": [6, 4, 3, 2],
        "field.spacing_in": [12] * 4,
        "framing.panel_edge": ["2x", "3x", "3x", "3x"],
        "framing.sill": ["2x", "2x", "3x", "3x"],
        "anchors.diameter_in": [0.625] * 4,
        "anchors.spacing_in": [48, 32, 24, 16],
        "anchors.embedment_in": [7] * 4,
        "hold_down.marks": [[], ["N3"], ["N5"], ["N5"]],
    }
    assert {name: [list(v) if isinstance(v := told[m][name], tuple) else v for m in told] for name in wanted} == wanted


def test_a_sentence_under_the_title_goes_for_all_types(tmp_path: Path) -> None:
    """Drawn set: panel, faces, blocking and nail stand once, between the title and the table."""
    for wall in read([plans(tmp_path, _sheet())]).wall_types:
        told = {name: r.value for name, r in readings(wall)}
        assert (told["sheathing.thickness_in"], told["sheathing.material"], told["sheathing.faces"]) == (0.46875, "plywood", 1)
        assert (told["fastener.penny"], told["fastener.diameter_in"], told["fastener.length_in"]) == ("10d", 0.148, 3)
        assert told["framing.blocked"] is True


def test_a_title_in_small_capitals_with_a_hyphen_is_one(tmp_path: Path) -> None:
    """Drawn set: lost with its title, the table of hold-downs would have been lost without a word."""
    told = [{name: r.value for name, r in readings(h)} for h in read([plans(tmp_path, _sheet())]).hold_downs]
    assert [(h["mark"], h["model"], h["post"]) for h in told] == [("N3", "TARN-31", "(2) 2x6"), ("N5", "TARN-52", "4x6")]
