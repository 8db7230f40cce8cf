"""Plan sets for tests written as HTML, a page a sheet; weasyprint draws them."""

from collections.abc import Iterable
from pathlib import Path

from weasyprint import HTML

STYLE = """
@page { size: 17in 11in; margin: 0.5in }
body { font: 9pt Arial; margin: 0 }
section { break-after: page; position: relative; height: 9.9in }
table { border-collapse: collapse }
td { padding: 3pt 12pt; text-align: center }
table.open td { padding: 0 12pt }
table.ruled td { border: 0.7pt solid black }
.at { position: absolute }
.circle { border: 0.7pt solid black; border-radius: 50%; width: 18pt; height: 18pt; line-height: 18pt; text-align: center }
.hexagon { width: 24pt; height: 20pt; line-height: 20pt; text-align: center }
.hexagon svg { position: absolute; left: 0; top: 0 }
"""
HEXAGON = (
    '<svg width="24pt" height="20pt" viewBox="0 0 24 20"><polygon points="6,0 18,0 24,10 18,20 6,20 0,10"'
    ' fill="none" stroke="black" stroke-width="0.7"/></svg>'
)


def table(rows: Iterable[Iterable[str]], kind: str = "ruled") -> str:
    """A table of rows of cells; a cell may begin with its own tag, `<td colspan=2>`. ``kind`` "ruled" draws all rules."""
    lines = ("".join(cell if cell.startswith("<td") else f"<td>{cell}" for cell in row) for row in rows)
    return f'<table class="{kind}">' + "".join(f"<tr>{line}" for line in lines) + "</table>"


def mark(text: str, x: float, y: float, shape: str = "circle") -> str:
    """A mark in its symbol, x and y points from the sheet's corner."""
    drawn = HEXAGON if shape == "hexagon" else ""
    return f'<div class="at {shape}" style="left: {x}pt; top: {y}pt">{drawn}{text}</div>'


def plans(folder: Path, *sheets: str) -> Path:
    """The PDF of these sheets."""
    out = folder / "plans.pdf"
    HTML(string=f"<style>{STYLE}</style>" + "".join(f"<section>{sheet}</section>" for sheet in sheets)).write_pdf(out)
    return out


def box(text: str, x: float, y: float, width: float, height: float) -> str:
    """Text in a drawn box."""
    rule = f'<rect x="0.5" y="0.5" width="{width - 1}" height="{height - 1}" fill="none" stroke="black" stroke-width="0.7"/>'
    drawn = (
        f'<svg class="at" style="left:0;top:0" width="{width}pt" height="{height}pt" viewBox="0 0 {width} {height}">{rule}</svg>'
    )
    inner = f'<div class="at" style="left:8pt;top:8pt;width:{width - 16}pt">{text}</div>'
    return f'<div class="at" style="left:{x}pt;top:{y}pt;width:{width}pt;height:{height}pt">{drawn}{inner}</div>'
