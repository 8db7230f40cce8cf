"""Characters and lines as a page holds them, from a few numbers: what the tables of the reader's tests are made of."""

from extractor.paper.page import Char, Outline
from extractor.paper.words import Word

WIDE = 0.5  # of the type size: the width of every letter here


def chars(text: str, x: float = 100, y: float = 100, size: float = 10, *, step: float = WIDE, turn: int = 0) -> list[Char]:
    """Letters one after another from ``x`` on, their baseline at ``y``; blanks take room and are not drawn."""
    ahead = {0: (1.0, 0.0), 90: (0.0, -1.0), 180: (-1.0, 0.0), 270: (0.0, 1.0)}[turn]
    out = []
    for i, letter in enumerate(text):
        if letter == " ":
            continue
        dx, dy = ahead
        at = (x + dx * i * step * size, y + dy * i * step * size)
        end = (at[0] + dx * WIDE * size, at[1] + dy * WIDE * size)
        up = (dy * 0.8 * size, -dx * 0.8 * size)  # a quarter turn to the left of the way ahead
        corners = [at, end, (at[0] + up[0], at[1] + up[1]), (end[0] - up[0] / 4, end[1] - up[1] / 4)]
        xs, ys = [p[0] for p in corners], [p[1] for p in corners]
        out.append(Char(letter, (min(xs), min(ys), max(xs), max(ys)), at, size, ahead, False))
    return out


def line(x0: float, y0: float, x1: float, y1: float) -> Outline:
    """A stroked straight line."""
    return Outline((min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)), ((x0, y0), (x1, y1)), 0, False, True, False)


def rectangle(x0: float, y0: float, x1: float, y1: float, *, filled: bool = False) -> Outline:
    """A closed rectangle, stroked or filled."""
    points = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return Outline((x0, y0, x1, y1), points, 0, True, not filled, filled)


def polygon(*points: tuple[float, float], curves: int = 0) -> Outline:
    """A closed stroked outline."""
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Outline((min(xs), min(ys), max(xs), max(ys)), points, curves, True, True, False)


def word(text: str, x: float, y: float, size: float = 10, *, raised: bool = False, turn: int = 0) -> Word:
    """A word whose letters stand on ``y``."""
    return Word(text, (x, y - 0.8 * size, x + WIDE * size * len(text), y + 0.2 * size), size, turn, raised)
