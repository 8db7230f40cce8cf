"""Text that has to fit: its width in the card's typeface, shrunk to a floor, then broken into lines. Nothing is cut off.

Widths are the typeface's own advance widths, so a line that fits here fits on paper.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

LEADING = 1.16  # line height over type size in paragraphs
TIGHT = 1.08  # the same for the values on the front
_SLACK = 1.01  # kerning and rounding
RISE = 0.87  # from the top of such a line to its baseline, over type size
_WHITE = re.compile(r"[ \t\r\n]+")  # where a line may break; a no-break space is none
BOX_PT = 13.0  # what the frame of a boxed run adds to its width
FRAMES = {"conflict": 5.0, "doubted": 4.0}  # what a heavy frame adds to its height; the others 3


@cache
def font_file(bold: bool) -> Path:
    """The file of the card's typeface, in which 1 l I and 0 O differ."""
    import fontpkg_atkinson_hyperlegible as typeface

    return Path(typeface.ROOT) / "files" / f"AtkinsonHyperlegible-{'Bold' if bold else 'Regular'}.ttf"


@cache
def _advances(bold: bool) -> dict[str, float]:
    """Width of each character in ems; the one for a missing character under ""."""
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    with TTFont(font_file(bold), lazy=True) as font:
        em, widths = font["head"].unitsPerEm, font["hmtx"].metrics
        return {"": widths[".notdef"][0] / em} | {chr(c): widths[glyph][0] / em for c, glyph in font.getBestCmap().items()}


@cache
def width_pt(text: str, size: float, bold: bool = False) -> float:
    """Width of a line of text in points."""
    advances = _advances(bold)
    return sum(advances.get(c, advances[""]) for c in text) * size * _SLACK


@dataclass(frozen=True)
class Run:
    """Words in one size and weight; ``look`` is the state they are in.

    The words of a box stay together: in one line, or in ``lines`` where they are wider than the place.
    """

    text: str
    size: float
    floor: float
    bold: bool = False
    look: str = "read"
    joined: bool = False  # no space before it
    lines: tuple[str, ...] = ()

    @property
    def boxed(self) -> bool:
        """True for the looks that have a frame."""
        return self.look in ("missing", "unreadable", "conflict", "answered", "deferred", "doubted")

    @property
    def width(self) -> float:
        """Points, its frame included."""
        return max(width_pt(text, self.size, self.bold) for text in self.lines or (self.text,)) + BOX_PT * self.boxed

    @property
    def height(self) -> float:
        """Points, its frame included."""
        if not self.boxed:
            return self.size * TIGHT
        return self.inner + FRAMES.get(self.look, 3.0) + 3 * bool(self.lines)

    @property
    def above(self) -> float:
        """Points from its top to its baseline; a box of several lines hangs by its middle."""
        return self.height / 2 + 0.25 * self.size if self.lines else self.size * RISE + 1.5 * self.boxed

    @property
    def inner(self) -> float:
        """Points inside its frame."""
        return self.size * TIGHT * max(1, len(self.lines))


@dataclass(frozen=True)
class Text:
    """Broken lines of runs and the height they take in points."""

    lines: tuple[tuple[Run, ...], ...]

    @property
    def height(self) -> float:
        """Points, at the card's leading; a line with a box is a little higher."""
        return sum(max(run.height for run in line) for line in self.lines)

    @property
    def above(self) -> float:
        """Points from the top to the baseline of the first line."""
        return max(run.above for run in self.lines[0])

    @property
    def sized(self) -> tuple[tuple[float, float, tuple[Run, ...]], ...]:
        """Each line with the size of its largest type and its height."""
        return tuple((max(run.size for run in line), max(run.height for run in line), line) for line in self.lines)


def fitted(runs: Sequence[Run], width: float, steps: int = 8) -> Text:
    """One line at the largest size that fits; at the floor, as many lines as it takes."""
    for step in range(steps + 1):
        sized = [replace(run, size=run.size - (run.size - run.floor) * step / steps) for run in runs]
        text = Text(tuple(_broken(sized, width)))
        if len(text.lines) == 1 and not any(run.lines for run in text.lines[0]):
            break
    return text


def paragraph(text: str, width: float, size: float, bold: bool = False) -> tuple[str, ...]:
    """Text broken into lines at one size."""
    return tuple(" ".join(run.text for run in line) for line in _broken([Run(text, size, size, bold)], width))


def _broken(runs: Iterable[Run], width: float) -> Iterable[tuple[Run, ...]]:
    line: list[Run] = []
    used = 0.0
    for piece in _pieces(runs, width):
        space = 0.0 if piece.joined or not line else width_pt(" ", piece.size, piece.bold)
        if line and used + space + piece.width > width:
            yield tuple(_merged(line))
            line, used, space = [], 0.0, 0.0
        line.append(piece)
        used += space + piece.width
    if line:
        yield tuple(_merged(line))


def _pieces(runs: Iterable[Run], width: float) -> Iterable[Run]:
    """Words that may go to the next line; a box stays whole, in several lines where it is wider than one."""
    for run in runs:
        if run.boxed and run.width <= width:
            yield run
        elif run.boxed:
            yield replace(run, lines=paragraph(run.text, width - BOX_PT, run.size, run.bold))
        else:
            for i, word in enumerate(_WHITE.split(run.text.strip(" "))):
                yield from (replace(run, text=part, joined=(run.joined and not i) or j > 0)
                            for j, part in enumerate(_cut(word, run, width)))  # fmt: skip


def _cut(word: str, run: Run, width: float) -> Iterable[str]:
    """A word in parts that each fit on a line; nearly always the word itself."""
    while len(word) > 1 and width_pt(word, run.size, run.bold) > width:
        end = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or width_pt(word[:n], run.size, run.bold) <= width)
        yield word[:end]
        word = word[end:]
    yield word


def _merged(line: Sequence[Run]) -> Iterable[Run]:
    """Neighbours of the same size, weight and look as one run."""
    done: list[Run] = []
    for run in line:
        last = done[-1] if done else None
        if last and not run.boxed and (last.size, last.bold, last.look) == (run.size, run.bold, run.look):
            done[-1] = replace(last, text=last.text + ("" if run.joined else " ") + run.text)
        else:
            done.append(run)
    return done
