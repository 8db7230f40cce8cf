"""A sheet as it looks when it is turned to read the text that runs up or down it."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property

from extractor.paper.page import Outline
from extractor.paper.plans import Sheet
from extractor.paper.words import Word
from extractor.record import Box


class TurnedSheet(Sheet):
    """The sheet turned so that its words of one direction run level; its boxes are those of the turned sheet."""

    def __init__(self, sheet: Sheet, turn: int) -> None:
        """``turn`` is the direction of the words, 90 for those that read upward, 270 for downward."""
        self.sheet, self.turn = sheet, turn
        self.plans, self.page, self.document, self.index = sheet.plans, sheet.page, sheet.document, sheet.index
        self.quick, self.kind, self.tokens, self._block = sheet.quick, sheet.kind, sheet.tokens, sheet.block
        self.size = (sheet.size[1], sheet.size[0])

    @cached_property
    def words(self) -> tuple[Word, ...]:
        """The words of that direction, level."""
        return tuple(
            replace(w, box=turned(w.box, self.turn, self.sheet.size), turn=0) for w in self.sheet.words if w.turn == self.turn
        )

    def outlines(self, region: Box, *, largest: float | None = None) -> Iterator[Outline]:
        """Drawn paths that meet ``region`` of the turned sheet."""
        size = self.sheet.size
        for o in self.sheet.outlines(back(region, self.turn, size), largest=largest):
            points = tuple(_point(x, y, self.turn, size) for x, y in o.points)
            yield o._replace(box=turned(o.box, self.turn, size), points=points)


def _point(x: float, y: float, turn: int, size: tuple[float, float]) -> tuple[float, float]:
    return (size[1] - y, x) if turn == 90 else (y, size[0] - x)


def turned(box: Box, turn: int, size: tuple[float, float]) -> Box:
    """A box of a sheet of this size on the sheet turned to read words of direction ``turn``."""
    (ax, ay), (bx, by) = _point(box[0], box[1], turn, size), _point(box[2], box[3], turn, size)
    return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)


def back(box: Box, turn: int, size: tuple[float, float]) -> Box:
    """A box of the turned sheet on the sheet itself, whose size this is."""
    x0, y0, x1, y1 = box
    if turn == 90:
        return y0, size[1] - x1, y1, size[1] - x0
    return size[0] - y1, x0, size[0] - y0, x1
