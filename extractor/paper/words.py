"""Characters to words: any order, any direction, doubled, letter-spaced, raised footnotes, stacked fractions.

Each character is placed in the frame of its own reading direction, u along the line and v across it (down). Runs are
characters on one baseline; words are runs cut at gaps. Only then do small neighbours become footnotes or fractions.
"""

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from statistics import median

from extractor.paper.page import Char, Label
from extractor.record import Box

GAP = 0.13  # of the type size: a wider gap between two glyphs ends a word
JOIN = 1.1  # of the type size: a wider gap ends the run
NEAR = 24  # glyphs of a line that a small capital may stand behind
TAPE = frozenset({2, 4, 8, 16, 32, 64})


@dataclass(frozen=True, slots=True)
class Word:
    """Printed characters without a space between them.

    ``turn`` is the reading direction in degrees counter-clockwise (90 reads upward). ``raised`` words are footnote
    markers that hang on the word before them. ``unmapped`` words have a character that the file gives no letter for;
    ``disputed`` words were read otherwise by the second reading.
    """

    text: str
    box: Box
    size: float
    turn: int = 0
    raised: bool = False
    unmapped: bool = False
    disputed: bool = False

    @property
    def middle(self) -> tuple[float, float]:
        """The centre of the box."""
        return (self.box[0] + self.box[2]) / 2, (self.box[1] + self.box[3]) / 2


def union(boxes: Iterable[Box]) -> Box:
    """The smallest box round all ``boxes``."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)


@dataclass(slots=True)
class _Glyph:
    text: str
    u0: float
    u1: float
    v: float
    size: float
    box: Box
    unmapped: bool
    order: int  # in the file


def words(chars: Sequence[Char]) -> list[Word]:
    """Words of the page in reading order, line by line for each direction."""
    by_turn: dict[int, list[_Glyph]] = defaultdict(list)
    for order, char in enumerate(chars):
        turn = round(math.degrees(math.atan2(-char.direction[1], char.direction[0]))) % 360
        dx, dy = char.direction
        x, y = char.origin
        along = [px * dx + py * dy for px in (char.box[0], char.box[2]) for py in (char.box[1], char.box[3])]
        if turn % 90:  # a box of slanted type says little: start at the origin, half an em wide
            start = x * dx + y * dy
            along = [start, start + 0.55 * char.size]
        by_turn[turn].append(
            _Glyph(char.text, min(along), max(along), y * dx - x * dy, char.size, char.box, char.unmapped, order)
        )
    out: list[Word] = []
    for turn, glyphs in sorted(by_turn.items()):
        runs = list(_runs(glyphs))
        spaced = {round(run[0].v): limit for run in runs if (limit := _spaced(run))}
        placed = [
            word
            for run in runs
            for word in _cut(run, turn, _spaced(run) or (spaced.get(round(run[0].v)) if len(run) < 4 else None))
        ]
        out += _fractions(_footnotes(placed, turn), turn)
    return out


def _runs(glyphs: list[_Glyph]) -> list[list[_Glyph]]:
    """Glyphs of like size on one baseline, left to right, cut at wide gaps; a glyph drawn twice counts once."""
    glyphs.sort(key=lambda g: (g.v, g.u0))
    lines: list[list[_Glyph]] = []
    recent: list[list[_Glyph]] = []
    for glyph in glyphs:
        recent = [line for line in recent if glyph.v - line[-1].v <= 0.22 * max(line[-1].size, glyph.size)]
        for line in recent:
            if glyph.v - line[-1].v <= 0.12 * glyph.size and 0.8 <= glyph.size / line[0].size <= 1.25:
                line.append(glyph)
                break
        else:
            capital = next((line for line in recent if any(_small_capital(g, glyph) for g in line[-NEAR:])), None)
            if capital is not None:
                capital.append(glyph)
                continue
            lines.append([glyph])
            recent.append(lines[-1])
    runs = []
    for line in (part for whole in lines for part in _apart(sorted(whole, key=lambda g: g.u0))):
        run: list[_Glyph] = []
        for glyph in line:
            if run and _twice(run, glyph):
                continue
            if run and glyph.u0 - run[-1].u1 > JOIN * glyph.size:
                runs.append(run)
                run = []
            run.append(glyph)
        runs.append(run)
    return _spelt_out(runs)


def _small_capital(before: _Glyph, glyph: _Glyph) -> bool:
    """Whether a letter goes on, in another size, right behind a letter on exactly its baseline: capitals and small capitals."""
    level = abs(before.v - glyph.v) < 0.02 * max(before.size, glyph.size)
    letters = (
        (before.text.isalpha() or before.text == "-")
        and (glyph.text.isalpha() or glyph.text.isspace())
        and 0.6 <= glyph.size / before.size <= 1.67
    )
    return level and letters and -0.35 * glyph.size < glyph.u0 - before.u1 < 0.3 * glyph.size


def _spelt_out(runs: list[list[_Glyph]]) -> list[list[_Glyph]]:
    """Letters that stand far apart at even steps on one line (S H E A R) as one run."""
    out: list[list[_Glyph]] = []
    series: list[list[_Glyph]] = []
    for run in [*runs, []]:
        letter = len(run) == 1 and run[0].text.isalpha()
        last = series[-1][0] if series else None
        if letter and last is not None and run[0].v == last.v and 0 < run[0].u0 - last.u1 < 3.5 * last.size:
            series.append(run)
            continue
        out += [[g for r in series for g in r]] if len(series) >= 4 else series
        series = [run] if letter else []
        if not letter and run:
            out.append(run)
    return out


def _apart(line: list[_Glyph]) -> list[list[_Glyph]]:
    """The line, or, where two strings are drawn over each other's ends (132. over PANEL), each string by itself."""
    solid = [g for g in line if not g.text.isspace()]
    over = [b.u0 < a.u1 - 0.3 * min(a.u1 - a.u0, b.u1 - b.u0) and abs(b.order - a.order) > 1 for a, b in pairwise(solid)]
    if not any(o and a.text != b.text for o, (a, b) in zip(over, pairwise(solid), strict=True)):
        return [line]
    strings: list[list[_Glyph]] = []
    for glyph in sorted(line, key=lambda g: g.order):
        last = strings[-1][-1] if strings else None
        if last is not None and glyph.order - last.order <= 2 and -0.5 * glyph.size < glyph.u0 - last.u1 < JOIN * glyph.size:
            strings[-1].append(glyph)
        else:
            strings.append([glyph])
    if any(len(s) < 2 for s in strings) and len(strings) > 4:  # shuffled letters: the file's order says nothing
        return [line]
    return [sorted(s, key=lambda g: g.u0) for s in strings]


def _twice(run: list[_Glyph], glyph: _Glyph) -> bool:
    """Whether ``glyph`` repeats one just drawn: the same letter in nearly the same place (22 stays 22)."""
    width = max(glyph.u1 - glyph.u0, 0.1 * glyph.size)
    if glyph.text == "f" and run[-1].box == glyph.box and abs(run[-1].order - glyph.order) == 1:
        return False  # the letters of one ligature share its box
    return any(
        g.text == glyph.text and abs(g.u0 - glyph.u0) < 0.35 * width and abs(g.v - glyph.v) < 0.2 * glyph.size for g in run[-4:]
    )


def _spaced(run: list[_Glyph]) -> float | None:
    """The gap that ends a word of a run where every glyph stands apart (letter-spaced); None for any other run."""
    solid = [g for g in run if not g.text.isspace()]
    gaps = [b.u0 - a.u1 for a, b in pairwise(solid)]
    limit = GAP * median(g.size for g in solid) if solid else 0.0
    if len(solid) < 4 or sum(gap > limit for gap in gaps) <= 0.75 * len(gaps):
        return None
    return 1.6 * sorted(gaps)[len(gaps) // 3] + 0.05 * solid[0].size


def _cut(run: list[_Glyph], turn: int, spaced: float | None) -> list[Word]:
    """Words of a run; where the letters are spaced, or those of its line are and it is short, only gaps over ``spaced`` count."""
    solid = [g for g in run if not g.text.isspace()]
    if not solid:
        return []
    gaps = [b.u0 - a.u1 for a, b in pairwise(solid)]
    limit = spaced or GAP * median(g.size for g in solid)
    spaces = [g.u0 for g in run if g.text.isspace()]
    out: list[list[_Glyph]] = [[solid[0]]]
    for before, glyph, gap in zip(solid, solid[1:], gaps, strict=False):
        between = bisect_left(spaces, glyph.u0) > bisect_left(spaces, before.u0)
        if gap > limit or (between and not spaced):
            out.append([glyph])
        else:
            out[-1].append(glyph)
    return [_word(glyphs, turn) for glyphs in out]


def _word(glyphs: list[_Glyph], turn: int) -> Word:
    return Word(
        "".join(g.text for g in glyphs),
        union(g.box for g in glyphs),
        max(g.size for g in glyphs),
        turn,
        unmapped=any(g.unmapped for g in glyphs),
    )


def _frame(box: Box, turn: int) -> tuple[float, float, float, float]:
    """The box in the frame of its direction: u0, v0 (top), u1, v1 (foot)."""
    x0, y0, x1, y1 = box
    return {0: (x0, y0, x1, y1), 90: (-y1, x0, -y0, x1), 180: (-x1, -y1, -x0, -y0), 270: (y0, -x1, y1, -x0)}.get(
        turn, (x0, y0, x1, y1)
    )


def _neighbours(found: list[Word], turn: int) -> dict[tuple[int, int], list[int]]:
    """Words by place, in squares of 40 pt of their frame, so that a neighbour is found without looking at every word."""
    grid: dict[tuple[int, int], list[int]] = defaultdict(list)
    for i, word in enumerate(found):
        u0, v0, u1, v1 = _frame(word.box, turn)
        for a in range(int(u0 // 40), int(u1 // 40) + 1):
            for b in range(int(v0 // 40), int(v1 // 40) + 1):
                grid[a, b].append(i)
    return grid


def _near(grid: dict[tuple[int, int], list[int]], frame: tuple[float, float, float, float], reach: float) -> set[int]:
    u0, v0, u1, v1 = frame
    return {
        i
        for a in range(int((u0 - reach) // 40), int((u1 + reach) // 40) + 1)
        for b in range(int((v0 - reach) // 40), int((v1 + reach) // 40) + 1)
        for i in grid.get((a, b), ())
    }


def _footnotes(found: list[Word], turn: int) -> list[Word]:
    """Mark small raised words that hang on a bigger word as footnote markers."""
    grid = _neighbours(found, turn)
    out = list(found)
    for i, word in enumerate(found):
        if len(word.text) > 5 or not all(ch.isalnum() or ch in ",*†‡()" for ch in word.text):
            continue
        frame = _frame(word.box, turn)
        for j in _near(grid, frame, word.size):
            big = found[j]
            if word.size > 0.8 * big.size or j == i:
                continue
            _, v0, u1, v1 = _frame(big.box, turn)
            lifted = v1 - frame[3]
            if (
                -0.1 * big.size <= frame[0] - u1 <= 0.25 * big.size
                and 0.12 * big.size < lifted < 0.75 * big.size
                and frame[1] > v0 - 0.5 * big.size
            ):
                out[i] = replace(word, raised=True)
    return out


def _fractions(found: list[Word], turn: int) -> list[Word]:
    """Join a small numerator over a small denominator into one word, with the digits before and the inch mark after it."""
    grid = _neighbours(found, turn)
    used: set[int] = set()
    made: dict[int, Word] = {}
    for i, top in enumerate(found):
        if not (top.text.isdigit() and len(top.text) <= 2) or i in used:
            continue
        u0, v0, u1, v1 = frame = _frame(top.box, turn)
        for j in sorted(_near(grid, frame, 2 * top.size)):
            foot = found[j]
            digits = foot.text.rstrip("\"”″'x×").rstrip()
            if (
                j == i
                or j in used
                or not digits.isdigit()
                or int(digits) not in TAPE
                or int(top.text) >= int(digits)
                or not int(top.text)
            ):
                continue
            a0, b0, a1, b1 = _frame(foot.box, turn)
            if len(digits) < len(foot.text):
                a1 = a0 + (a1 - a0) * len(digits) / len(foot.text)
            apart = b1 - v1
            if abs(foot.size - top.size) > 0.15 * top.size:
                continue
            stacked = abs((a0 + a1) - (u0 + u1)) < 0.7 * top.size and 0.55 * top.size < apart < 1.35 * top.size
            slanted = 0 < a0 - u1 < 0.8 * top.size and 0.15 * top.size < apart < 0.9 * top.size
            if not (stacked or slanted):
                continue
            both = (min(u0, a0), min(v0, b0), max(u1, a1), max(v1, b1))
            beside = [k for k in _near(grid, both, top.size) if k not in (i, j) and _beside(found[k], both, top.size, turn)]
            slash = [k for k in beside if found[k].text == "/"]
            if stacked and not beside:
                continue
            if slanted and not slash:
                continue
            used |= {i, j, *slash}
            made[i] = replace(
                top, text=f"{top.text}/{foot.text}", box=union([top.box, foot.box]), size=top.size * 1.6, raised=False
            )
            break
    out: list[Word] = []
    for i, word in enumerate(found):
        if i in made:
            out.append(made[i])
        elif i not in used:
            out.append(word)
    return _close_up(out, set(made.values()), turn)


def _beside(word: Word, both: tuple[float, float, float, float], size: float, turn: int) -> bool:
    """Whether a bigger word (or a slash) stands level with the middle of a stacked pair and close to it."""
    u0, v0, u1, v1 = _frame(word.box, turn)
    middle = (both[1] + both[3]) / 2
    close = -0.4 * size <= u0 - both[2] <= size or -0.4 * size <= both[0] - u1 <= size
    if word.text == "/":
        return u0 < both[2] and u1 > both[0] and v0 < both[3] and v1 > both[1]
    return close and v0 < middle < v1 and word.size > 1.15 * size


def _close_up(found: list[Word], fractions: set[Word], turn: int) -> list[Word]:
    """Set a made fraction into its line: "3" before it and the inch mark after it belong to the same word."""
    if not fractions:
        return found
    out = list(found)
    for fraction in fractions:
        u0, v0, u1, v1 = _frame(fraction.box, turn)
        middle = (v0 + v1) / 2
        line = []
        for word in out:
            if word is not fraction and word.turn == fraction.turn:
                a0, b0, a1, b1 = _frame(word.box, turn)
                if b0 < middle < b1:
                    line.append((a0, a1, word))
        joined, text, box = {id(fraction)}, fraction.text, fraction.box
        before = [w for a0, a1, w in line if -0.5 < (u0 - a1) / fraction.size < 0.2 and a0 < u0]
        after = [w for a0, a1, w in line if -0.5 < (a0 - u1) / fraction.size < 0.2 and a1 > u1]
        if len(before) == 1 and before[0].text[-1:].isdigit() and not before[0].raised:
            text, box = f"{before[0].text}-{text}", union([before[0].box, box])
            joined.add(id(before[0]))
        if len(after) == 1 and not after[0].raised:
            text, box = text + after[0].text, union([box, after[0].box])
            joined.add(id(after[0]))
        at = next(i for i, word in enumerate(out) if word is fraction)
        out[at] = replace(fraction, text=text, box=box)
        out = [word for i, word in enumerate(out) if i == at or id(word) not in joined]
    return out


def from_labels(labels: Sequence[Label]) -> list[Word]:
    """Words of annotation strings; each line's width is shared out by its characters. A tall box holds turned text."""
    out = []
    for label in labels:
        lines = [line for line in label.text.replace("\r", "\n").split("\n") if line.strip()]
        x0, y0, x1, y1 = label.box
        turned = y1 - y0 > 1.3 * (x1 - x0) and len(label.text) > 2
        for i, line in enumerate(lines):
            n = max(len(line), 1)
            if turned:
                left, right = x0 + (x1 - x0) * i / len(lines), x0 + (x1 - x0) * (i + 1) / len(lines)
                step, size = (y1 - y0) / n, right - left
            else:
                top, foot = y0 + (y1 - y0) * i / len(lines), y0 + (y1 - y0) * (i + 1) / len(lines)
                step, size = (x1 - x0) / n, foot - top
            start = 0
            for piece in line.split():
                start = line.index(piece, start)
                end = start + len(piece)
                if turned:
                    box = (left, y1 - end * step, right, y1 - start * step)
                else:
                    box = (x0 + start * step, top, x0 + end * step, foot)
                out.append(Word(piece, box, size, 90 if turned else 0))
                start = end
    return out
