"""Drawn paths to rules, level and upright lines: pieces and dashes of one line, and thin filled boxes, are one rule."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import floor

from extractor.paper.page import Outline

SLANT = 0.7  # points: how far from level a level line may be
THIN = 3.2  # points: a filled box no thicker is a rule
DASH = 7.5  # points: a gap no wider is bridged
LINE = 1.2  # points: pieces no farther apart across lie on one line


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
    """Pieces that follow each other on one line, a dash apart at the most, as one rule, which lies where the longest lies.

    Each piece is held against the runs near it, not against the piece before it: among dense lines every piece has a neighbour.
    """
    runs: dict[int, list[list[float]]] = defaultdict(list)  # by height, in steps of LINE
    done: list[list[float]] = []
    for at, start, end in sorted(pieces, key=lambda piece: (piece[1], piece[0], piece[2])):
        step, best = floor(at / LINE), None
        for key in (step - 1, step, step + 1):
            open_ = runs.get(key)
            if not open_:
                continue
            if any(start - run[2] > DASH for run in open_):
                done += [run for run in open_ if start - run[2] > DASH]
                open_ = runs[key] = [run for run in open_ if start - run[2] <= DASH]
            for run in open_:
                if abs(run[0] - at) <= LINE and (best is None or abs(run[0] - at) < abs(best[0] - at)):
                    best = run
        if best is None:
            runs[step].append([at, start, end, end - start])
            continue
        best[2] = max(best[2], end)
        if end - start > best[3]:
            best[3] = end - start
            if floor(best[0] / LINE) != step:
                runs[floor(best[0] / LINE)] = [run for run in runs[floor(best[0] / LINE)] if run is not best]
                runs[step].append(best)
            best[0] = at
    done += [run for open_ in runs.values() for run in open_]
    return [Rule(level, at, start, end) for at, start, end, _ in sorted(done)]
