"""Legends on plans: what their lines show is no wall, and tells which symbol a wall's mark stands in."""

from collections.abc import Sequence
from typing import Literal

import regex as re

from extractor.paper.grid import inside
from extractor.paper.phrases import Phrase
from extractor.paper.plans import Sheet
from extractor.paper.symbols import Index, Symbol, symbol
from extractor.record import Box

Kind = Literal["wall", "hold-down"]
LEGEND = {
    "wall": re.compile(r"\bSHEAR ?-?(?:WALL|PANEL)S?\b|\bWALL TYPES?\b", re.I),
    "hold-down": re.compile(r"\bHOLD ?-?D(?:OW)?NS?\b|\bHOLDOWNS?\b|\bTIE ?-?DOWNS?\b", re.I),
}
DRAWING = re.compile(r"(?<!\b(?:SEE|PER|ON|SHOWN ON|THE|OF)) (?:PLANS?|ELEVATIONS?|SECTIONS?|DETAILS?)\W*$", re.I)  # its title
HEAD = re.compile(
    r"(?:(?:PLAN|WALL|FRAMING|SYMBOL) )?(?:MARKS?|LEGENDS?|SYMBOLS?|KEY(?: TO (?:MARKS|SYMBOLS))?)(?: LEGEND)?:?", re.I
)


def _legend_phrases(sheet: Sheet) -> list[tuple[Kind, Phrase]]:
    return [
        (kind, p)  # type: ignore[misc]
        for p in sheet.phrases
        for kind, pattern in LEGEND.items()
        if len(p.words) <= 12 and pattern.search(p.text) and not DRAWING.search(p.text)
    ]


def legend_boxes(sheet: Sheet) -> list[Box]:
    """Where a legend shows its symbol: close to the left of the words that explain it, or listed under its heading."""
    return [
        (p.box[0] - 6 * p.size - 20, p.box[1] - 1.2 * p.size, p.box[0], p.box[3] + 1.2 * p.size)
        for _, p in _legend_phrases(sheet)
    ] + [box for head in sheet.phrases if HEAD.fullmatch(head.text.strip()) for box in _listed_under(head, sheet)]


def _listed_under(head: Phrase, sheet: Sheet) -> list[Box]:
    """Short texts under a legend's heading with words that explain them at their right, line after line."""
    out, foot = [], head.box[3]
    for p in sorted(sheet.phrases, key=lambda p: p.box[1]):
        if p.box[1] < foot - 2 or len(p.text) > 10 or not head.box[0] - 40 < p.box[0] < head.box[0] + 60:
            continue
        if p.box[1] - foot > 4 * head.size:
            break
        told = any(
            abs(q.box[1] + q.box[3] - p.box[1] - p.box[3]) < 1.6 * p.size
            and 0 < q.box[0] - p.box[2] < 9 * p.size
            and re.search(r"[A-Za-z]{4}", q.text)
            for q in sheet.phrases
        )
        if told:
            out.append(p.box)
            foot = p.box[3]
    return out


def legend_symbols(sheet: Sheet, kind: Kind, index: Index, outside: Sequence[Box]) -> list[Symbol]:
    """Symbols that the sheet's legend shows for marks of this kind."""
    out = []
    for said, p in _legend_phrases(sheet):
        other = LEGEND["hold-down" if kind == "wall" else "wall"]
        if said != kind or (other.search(p.text) and kind == "wall") or any(inside(p.box, box) for box in outside):
            continue
        box = (p.box[0] - 6 * p.size - 20, p.box[1] - 1.2 * p.size, p.box[0], p.box[3] + 1.2 * p.size)
        for inner in sheet.phrases:
            level = abs(inner.box[1] + inner.box[3] - p.box[1] - p.box[3]) < 1.6 * p.size
            if inner is not p and len(inner.text) <= 4 and level and inside(inner.box, box):
                found = symbol(inner.box, inner.size, index.near(inner.box))
                if found:
                    out.append(found)
    return out
