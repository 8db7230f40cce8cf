"""The outline round a mark: its make tells wall marks from grid bubbles, window tags and section marks."""

import math

import pytest

from extractor.paper.page import Outline
from extractor.paper.symbols import Symbol, symbol
from tests.reading.drawn import line, polygon, rectangle

TEXT = (96.0, 96.0, 104.0, 104.0)  # a short mark round 100, 100


def ring(corners: int, wide: float = 12, high: float = 12, start: float = 0.0) -> list[tuple[float, float]]:
    """Corners on an oval round 100, 100."""
    return [(100 + wide * math.cos(start + 2 * math.pi * i / corners), 100 + high * math.sin(start + 2 * math.pi * i / corners))
            for i in range(corners)]  # fmt: skip


def strokes(points: list[tuple[float, float]]) -> list[Outline]:
    """The outline as separate lines, as programs that explode blocks leave it."""
    return [line(*a, *b) for a, b in zip(points, [*points[1:], points[0]], strict=True)]


MAKES: list[tuple[str, list[Outline], str | None, str]] = [
    ("circle", [polygon(*ring(12), curves=4)], "circle", "grid bubbles and many wall marks"),
    ("oval", [polygon(*ring(12, 20, 10), curves=4)], "oval", "long marks"),
    ("circle of many corners", [polygon(*ring(24))], "circle", "a circle drawn as a polygon"),
    ("box", [rectangle(88, 88, 112, 112)], "box", "boxed marks"),
    ("diamond", [polygon(*ring(4))], "4", "fixtures: marks-in-diamonds-with-lengths"),
    ("hexagon", [polygon(*ring(6))], "6", "the usual shear wall mark"),
    ("triangle", [polygon(*ring(3, start=math.pi / 2))], "3", "revision marks"),
    ("box of strokes", strokes([(88, 88), (112, 88), (112, 112), (88, 112)]), "box", "exploded blocks"),
    ("hexagon of strokes", strokes(ring(6)), "6", "exploded blocks"),
    ("open strokes", strokes(ring(6))[:5], None, "a ring that does not close is none"),
    ("leader", [line(104, 104, 160, 160)], None, "a leader is no symbol"),
    ("nothing", [], None, "bare marks"),
    ("around something else", [polygon(*[(x + 60, y) for x, y in ring(6)])], None, "the neighbour's symbol"),
    ("a room", [rectangle(20, 20, 300, 200)], None, "walls round a mark are no symbol"),
    ("inner of two", [polygon(*ring(6)), polygon(*ring(12, 20, 20), curves=4)], "6", "the smaller one is the mark's own"),
]


@pytest.mark.parametrize(("way", "drawn", "make", "source"), MAKES, ids=[row[0] for row in MAKES])
def test_the_make_of_a_symbol(way: str, drawn: list[Outline], make: str | None, source: str) -> None:
    found = symbol(TEXT, 10, drawn)
    assert (found.make if found else None) == make, source


def _symbol(make: str, wide: float, high: float) -> Symbol:
    return Symbol(make, wide, high, (0, 0, wide, high))


ALIKE = [
    (_symbol("6", 24, 24), _symbol("6", 24, 24), True, "one office draws all marks alike"),
    (_symbol("6", 24, 24), _symbol("4", 24, 24), False, "a diamond is another mark"),
    (_symbol("circle", 24, 24), _symbol("circle", 36, 36), False, "grid bubbles are larger than wall marks"),
    (_symbol("box", 24, 14), _symbol("box", 40, 14), True, "a box stretches with its text"),
    (_symbol("6", 24, 24), _symbol("6", 33, 33), True, "a hexagon grows with its text"),
    (_symbol("6", 24, 24), _symbol("6", 60, 60), False, "a detail bubble is no mark"),
]


@pytest.mark.parametrize(("one", "other", "alike", "source"), ALIKE)
def test_symbols_of_one_make_and_size_are_alike(one: Symbol, other: Symbol, alike: bool, source: str) -> None:
    assert one.like(other) is alike, source
    assert other.like(one) is alike, source
