"""Drawn paths to rules, level and upright lines: pieces and dashes of one line, and thin filled boxes, are one rule."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from extractor.paper.page import Outline

SLANT = 0.7  # points: how far from level a level line may be
THIN = 3.2  # points: a filled box no thicker is a rule
DASH = 7.5  # points: a gap no wider is bridged


@dataclass(frozen=True, slots=True)
class Rule:
    """A level or upright line: where it lies across, and from where to where it runs."""

    level: bool
    at: float
    start: float
    end: float


def rules(found: Iterable[Outline]) -> list[Rule]:
    """Rules of the drawn paths, pieces joined."""
    pieces: dict[bool, list[tuple[float, float, float]]] = {True: [], False: []}
    for outline in found:
        x0, y0, x1, y1 = outline.box
        if outline.filled and not outline.curves:
            if y1 - y0 <= THIN and x1 - x0 > y1 - y0:
                pieces[True].append(((y0 + y1) / 2, x0, x1))
                continue
            if x1 - x0 <= THIN and y1 - y0 > x1 - x0:
                pieces[False].append(((x0 + x1) / 2, y0, y1))
                continue
            if not outline.stroked:
                continue
        if not outline.stroked and not outline.filled:
            continue
        points = outline.points + (outline.points[:1] if outline.closed else ())
        if outline.curves:
            continue
        for (ax, ay), (bx, by) in pairwise(points):
            if abs(ay - by) <= SLANT and abs(ax - bx) > 0.5:
                pieces[True].append(((ay + by) / 2, min(ax, bx), max(ax, bx)))
            elif abs(ax - bx) <= SLANT and abs(ay - by) > 0.5:
                pieces[False].append(((ax + bx) / 2, min(ay, by), max(ay, by)))
    return [rule for level, found_pieces in pieces.items() for rule in _join(found_pieces, level)]


def _join(pieces: list[tuple[float, float, float]], level: bool) -> list[Rule]:
    """Pieces within a point and a half across are one line; gaps up to a dash are bridged."""
    pieces.sort()
    out: list[Rule] = []
    group: list[tuple[float, float, float]] = []
    for piece in pieces:
        if group and piece[0] - group[-1][0] > 1.2:
            out += _bridge(group, level)
            group = []
        group.append(piece)
    return out + (_bridge(group, level) if group else [])


def _bridge(group: list[tuple[float, float, float]], level: bool) -> list[Rule]:
    runs: list[list[float]] = []
    for at, start, end in sorted(group, key=lambda piece: piece[1]):
        if runs and start - runs[-1][2] <= DASH:
            length, new = runs[-1][2] - runs[-1][1], end - start
            runs[-1][0] = at if new > length else runs[-1][0]
            runs[-1][2] = max(runs[-1][2], end)
        else:
            runs.append([at, start, end])
    return [Rule(level, at, start, end) for at, start, end in runs]
