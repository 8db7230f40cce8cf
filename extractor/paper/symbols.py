"""The drawn outline round a short text: circle, box, diamond, hexagon; its make and size tell marks apart."""

from collections import defaultdict
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from extractor.paper.page import Outline
from extractor.paper.phrases import Phrase
from extractor.record import Box


class Symbol(NamedTuple):
    """How an outline is made ("circle", "oval", "box", or corners such as "4", "6") and its size in points."""

    make: str
    width: float
    height: float
    box: Box

    def like(self, other: "Symbol") -> bool:
        """Whether both are of one make and size. Boxes and ovals stretch with their text, hexagons and the like grow with it."""
        if self.make != other.make:
            return False
        taller = max(self.height, other.height) / max(min(self.height, other.height), 0.1)
        wider = max(self.width, other.width) / max(min(self.width, other.width), 0.1)
        if self.make in ("box", "circle", "oval"):
            return taller < 1.12 and wider < 3.0
        return taller < 1.7 and wider < 2.2


class Index:
    """Outlines by place."""

    def __init__(self, outlines: Sequence[Outline]) -> None:
        self.cells: dict[tuple[int, int], list[Outline]] = defaultdict(list)
        for outline in outlines:
            x0, y0, x1, y1 = outline.box
            for a in range(int(x0 // 60), int(x1 // 60) + 1):
                for b in range(int(y0 // 60), int(y1 // 60) + 1):
                    self.cells[a, b].append(outline)

    def near(self, box: Box) -> list[Outline]:
        """Outlines close to the box."""
        a, b = int((box[0] + box[2]) / 2 // 60), int((box[1] + box[3]) / 2 // 60)
        out = {id(o): o for i in (a - 1, a, a + 1) for j in (b - 1, b, b + 1) for o in self.cells.get((i, j), ())}
        return list(out.values())


def symbol(box: Box, size: float, outlines: Sequence[Outline]) -> Symbol | None:
    """The smallest closed outline round ``box`` that is of a symbol's size; else short strokes that go round it."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    wide, high = box[2] - box[0], box[3] - box[1]
    best: Outline | None = None
    strokes: list[Outline] = []
    for outline in outlines:
        x0, y0, x1, y1 = outline.box
        w, h = x1 - x0, y1 - y0
        if w > 5.5 * size + wide or h > 6 * size:
            continue
        if x0 < x < x1 and y0 < y < y1 and w > 0.7 * wide and h > 0.55 * high and w > 0.6 * size and h > 0.6 * size:
            if abs((x0 + x1) / 2 - x) > 0.35 * w + 1 or abs((y0 + y1) / 2 - y) > 0.45 * h + 1:
                continue
            if (outline.closed or _meets(outline)) and (best is None or w * h < _area(best)):
                best = outline
        elif (
            not outline.closed
            and len(outline.points) == 2
            and max(w, h) < 4 * size
            and abs((x0 + x1) / 2 - x) < 3 * size
            and abs((y0 + y1) / 2 - y) < 3 * size
        ):
            strokes.append(outline)
    if best is not None:
        return Symbol(_make(best), best.box[2] - best.box[0], best.box[3] - best.box[1], best.box)
    return _ring(strokes, x, y)


def _area(outline: Outline) -> float:
    return (outline.box[2] - outline.box[0]) * (outline.box[3] - outline.box[1])


def _meets(outline: Outline) -> bool:
    (ax, ay), (bx, by) = outline.points[0], outline.points[-1]
    return len(outline.points) > 3 and abs(ax - bx) < 1 and abs(ay - by) < 1


def _make(outline: Outline) -> str:
    corners = _corners(outline)
    if outline.curves >= 4 or len(corners) > 9:
        return _round(outline.box)
    if len(corners) == 4:
        level = sum(
            abs(a[0] - b[0]) < 0.6 or abs(a[1] - b[1]) < 0.6 for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
        )
        return "box" if level >= 3 else "4"
    return str(len(corners))


def _round(box: Box) -> str:
    wide, high = box[2] - box[0], box[3] - box[1]
    return "circle" if 0.87 < wide / max(high, 0.1) < 1.15 else "oval"


def _corners(outline: Outline) -> list[tuple[float, float]]:
    """The points without repeats and without those on a straight line."""
    points = [
        p
        for i, p in enumerate(outline.points)
        if i == 0 or abs(p[0] - outline.points[i - 1][0]) + abs(p[1] - outline.points[i - 1][1]) > 0.3
    ]
    if len(points) > 1 and abs(points[0][0] - points[-1][0]) + abs(points[0][1] - points[-1][1]) < 0.6:
        points.pop()
    out = []
    for i, (x, y) in enumerate(points):
        ax, ay = points[i - 1]
        bx, by = points[(i + 1) % len(points)]
        if abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) > 0.02 * ((bx - ax) ** 2 + (by - ay) ** 2) + 0.05:
            out.append((x, y))
    return out


def _ring(strokes: Sequence[Outline], x: float, y: float) -> Symbol | None:
    """Strokes that join end to end round the point."""
    for first in strokes:
        chain, left = [first], [s for s in strokes if s is not first]
        end = first.points[1]
        while left:
            following = next((s for s in left if _near(s.points[0], end) or _near(s.points[1], end)), None)
            if following is None:
                break
            left.remove(following)
            chain.append(following)
            end = following.points[1] if _near(following.points[0], end) else following.points[0]
            if _near(end, first.points[0]) and len(chain) >= 3:
                points = tuple(p for s in chain for p in s.points)
                x0, x1 = min(p[0] for p in points), max(p[0] for p in points)
                y0, y1 = min(p[1] for p in points), max(p[1] for p in points)
                if x0 < x < x1 and y0 < y < y1:
                    made = (
                        _round((x0, y0, x1, y1))
                        if len(chain) > 9
                        else ("box" if len(chain) == 4 and all(_level(s) for s in chain) else str(len(chain)))
                    )
                    return Symbol(made, x1 - x0, y1 - y0, (x0, y0, x1, y1))
                break
    return None


def _near(a: tuple[float, float], b: tuple[float, float]) -> bool:
    return abs(a[0] - b[0]) < 0.7 and abs(a[1] - b[1]) < 0.7


def _level(stroke: Outline) -> bool:
    (ax, ay), (bx, by) = stroke.points
    return abs(ax - bx) < 0.6 or abs(ay - by) < 0.6


def grid_bubbles(seen: Sequence[tuple[Phrase, Symbol]]) -> set[int]:
    """The ids of the phrases that name the plan's grid: letters along one way, numbers along the other, both counting up.

    Both lines stand in symbols of one make and size, outside all others like them. Common practice, no source.
    """
    lines = [line for axis in (0, 1) for line in _counted_lines(seen, axis)]
    out: set[int] = set()
    for axis, line in lines:
        for other_axis, other in lines:
            crossing = axis != other_axis and _lettered(line) != _lettered(other) and _same(line[0][1], other[0][1])
            if crossing and max(len(line), len(other)) >= 3:
                out |= {id(phrase) for phrase, _ in (*line, *other)}
    return out


def _counted_lines(seen: Sequence[tuple[Phrase, Symbol]], axis: int) -> list[tuple[int, list[tuple[Phrase, Symbol]]]]:
    """Lines of labels along an axis that count up, at the edge of all symbols like theirs."""
    out = []
    for _, one in seen:
        alike = [s for s in seen if _same(s[1], one)]
        at = _middle(one, 1 - axis)
        line = sorted((s for s in alike if abs(_middle(s[1], 1 - axis) - at) < 2), key=lambda s: s[1].box[axis])
        others = [_middle(s[1], 1 - axis) for s in alike if s not in line]
        labels = [(len(s[0].text), s[0].text) for s in line]
        plain = all(text.isdigit() for _, text in labels) or all(text.isalpha() for _, text in labels)
        counts = plain and len(line) > 1 and all(a < b for a, b in pairwise(labels))
        if counts and (all(at < x for x in others) or all(at > x for x in others)) and (axis, line) not in out:
            out.append((axis, line))
    return out


def _middle(symbol: Symbol, axis: int) -> float:
    return (symbol.box[axis] + symbol.box[axis + 2]) / 2


def _same(a: Symbol, b: Symbol) -> bool:
    """Whether both are of one make and, within a twentieth, one height."""
    return a.make == b.make and abs(a.height - b.height) < 0.05 * a.height


def _lettered(line: Sequence[tuple[Phrase, Symbol]]) -> bool:
    return not line[0][0].text.isdigit()
