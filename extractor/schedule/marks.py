"""Marks drawn on plans: each of a family that the schedules use, standing alone, in a symbol of its kind if it has one."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import regex as re

from extractor.paper.grid import inside
from extractor.paper.phrases import Phrase
from extractor.paper.plans import Sheet
from extractor.paper.symbols import Index, Symbol, grid_bubbles, symbol
from extractor.paper.titleblock import NUMBER
from extractor.paper.words import Word
from extractor.record import Box, PlanMark
from extractor.schedule.legends import LEGEND, Kind, legend_boxes, legend_symbols
from extractor.trade.marks import Marked, family, with_length
from extractor.trade.text import plain_word

LARGE = 14.0  # points: no mark on a plan is as large
PLANS = re.compile(
    r"\bPLANS?\b|\bFRAMING\b|\bFLOORS?\b|\bFOUNDATION\b|\bLEVELS?\b|\bROOF\b|\bLOFT\b|\bSTOR(?:E?Y|IES)\b|\bBASEMENT\b", re.I
)
VIEW = re.compile(r"(?:[\w'-]+ ){1,4}PLAN", re.I)
TITLED = re.compile(r"^ *(?:[\w'-]+ ){1,4}PLAN *\r?$", re.I | re.M)
SCALE = re.compile(r"\bSCALE\b|\d ?\"? ?= ?\d+ ?'", re.I)
PAPER = re.compile(
    r"\bNOTES?\b|\bSCHEDULES?\b|\bDETAILS?\b|\bELEVATIONS?\b|\bSECTIONS?\b|\bCOVER\b|\bINDEX\b|\bTITLE SHEET\b|\bTABLES?\b", re.I
)


@dataclass(frozen=True)
class _Seen:
    """A text that may be a mark: which marks it names, its phrase, its symbol."""

    marks: tuple[str, ...]
    length_in: float | None
    phrase: Phrase
    around: Symbol | None


def closed(mark: str) -> str:
    """The mark without spaces: V 1, letter-spaced or not, is one mark."""
    return mark.replace(" ", "")


def plain_looking(marks: Iterable[str]) -> bool:
    """Whether marks are so short that other things on a plan look the same: single letters, bare numbers."""
    return any(re.fullmatch(r"\d{1,2}|[A-Z]{1,2}|[A-Z]\d?", m) for m in marks)


def find(
    sheets: Sequence[Sheet], titles: dict[int, str | None], scheduled: dict[Kind, Sequence[str]], outside: dict[int, list[Box]]
) -> tuple[PlanMark, ...]:
    """Marks on plan sheets, counted by sheet. ``outside`` are boxes on each page (schedules, notes) whose marks do not count."""
    spelt = {kind: {closed(m): m for m in marks} for kind, marks in scheduled.items()}
    scheduled = {kind: [closed(m) for m in marks] for kind, marks in scheduled.items()}
    patterns: dict[Kind, re.Pattern[str]] = {kind: family(marks) for kind, marks in scheduled.items() if marks}
    seen: list[tuple[Sheet, Kind, list[_Seen]]] = []
    for sheet in sheets:
        name = titles.get(sheet.page) or ""
        if not patterns or not _may_hold(sheet, patterns):
            continue
        if PLANS.search(name) or not (PAPER.search(name) or sheet.page in outside) or _shows_plan(sheet):
            seen += [
                (sheet, kind, found) for kind, found in _on_sheet(sheet, patterns, scheduled, outside.get(sheet.page, [])).items()
            ]
    out: list[PlanMark] = []
    for sheet, kind, found in seen:
        known = set(scheduled.get(kind, ()))
        sizes = {round(s.phrase.size, 1) for _, k, others in seen if k == kind for s in others if set(s.marks) <= known}
        counted = _counted(found, known, kind, sheet, sizes)
        out += [one.model_copy(update={"mark": spelt.get(kind, {}).get(one.mark, one.mark)}) for one in counted]
    return tuple(out)


def _shows_plan(sheet: Sheet) -> bool:
    """Whether a drawing on the sheet is titled as a plan, with its scale under the title."""
    if not (SCALE.search(sheet.quick) and (sheet.scrambled or TITLED.search(sheet.quick))):
        return False
    scales = [p for p in sheet.phrases if SCALE.search(p.text)]
    return any(
        VIEW.fullmatch(p.text) and -2 < s.box[1] - p.box[3] < 3 * p.size and s.box[0] < p.box[2] and s.box[2] > p.box[0]
        for p in sheet.phrases
        for s in scales
    )


def _may_hold(sheet: Sheet, patterns: dict[Kind, re.Pattern[str]]) -> bool:
    if sheet.scrambled or len(sheet.quick) < 40:
        return True
    tidy = plain_word(sheet.quick)
    return any(p.search(tidy) or p.search(sheet.compact) for p in patterns.values())


def _on_sheet(
    sheet: Sheet, patterns: dict[Kind, re.Pattern[str]], scheduled: dict[Kind, Sequence[str]], outside: Sequence[Box]
) -> dict[Kind, list[_Seen]]:
    """What stands on one sheet for marks of each kind."""
    width, height = sheet.size
    quick = _from_tokens(sheet, patterns, scheduled, outside)
    if quick is not None:
        return quick
    symbols = any(plain_looking(marks) for marks in scheduled.values() if marks) or _shared(scheduled)
    seen: dict[Kind, list[_Seen]] = {"wall": [], "hold-down": []}
    loose: list[_Seen] = []
    near = list(sheet.outlines((0, 0, width, height), largest=130.0)) if symbols else []
    index = Index(near)
    for phrase in sheet.phrases:
        text = " ".join(plain_word(w.text) for w in phrase.words if not w.raised)
        if len(text) > 24 or any(inside(phrase.box, box) for box in outside):
            continue
        if text == sheet.number and phrase.size > LARGE:
            continue  # the sheet's own number
        listed = any(closed(text) in marks for marks in scheduled.values()) or _parted(closed(text), patterns, scheduled)
        read = Marked((closed(text),), None) if listed else with_length(text)
        if read is not None:
            read = Marked(tuple(map(closed, read.marks)), read.length_in)
        if read is None:
            if symbols and len(text) <= 4:
                loose.append(_Seen((text,), None, phrase, symbol(phrase.box, phrase.size, index.near(phrase.box))))
            continue
        around = symbol(phrase.box, phrase.size, index.near(phrase.box)) if symbols else None
        kinds = [kind for kind, pattern in patterns.items() if all(pattern.fullmatch(m) for m in read.marks)]
        here = _Seen(read.marks, read.length_in, phrase, around)
        for kind in kinds:
            seen[kind].append(here)
        if not kinds:
            split = {kind: tuple(m for m in read.marks if pattern.fullmatch(m)) for kind, pattern in patterns.items()}
            if sum(map(len, split.values())) == len(read.marks):
                for kind, marks in split.items():
                    if marks:
                        seen[kind].append(_Seen(marks, read.length_in, phrase, around))
            else:
                loose.append(here)
    legend = {kind: legend_symbols(sheet, kind, index, outside) if symbols else [] for kind in seen}
    shown = legend_boxes(sheet)
    bubbles = grid_bubbles([(s.phrase, s.around) for s in [*seen["wall"], *seen["hold-down"], *loose] if s.around])
    out: dict[Kind, list[_Seen]] = {}
    for kind, found in seen.items():
        found = [s for s in found if not any(inside(s.phrase.box, box) for box in shown) and not _two_texts(s, sheet)]
        found = [s for s in found if id(s.phrase) not in bubbles]
        known = set(scheduled.get(kind, ()))
        if symbols and (plain_looking(known) or _shared(scheduled)):
            other: Kind = "hold-down" if kind == "wall" else "wall"
            strangers = [s for s in loose if id(s.phrase) not in bubbles]
            found = _by_symbol(found, known, legend[kind], legend[other], strangers)
        out[kind] = found
    return out


def _from_tokens(
    sheet: Sheet, patterns: dict[Kind, re.Pattern[str]], scheduled: dict[Kind, Sequence[str]], outside: Sequence[Box]
) -> dict[Kind, list[_Seen]] | None:
    """The same from the quick pass, where it leaves no doubt: marks that nothing else looks like, each alone on its line.

    None where a look at the whole sheet is needed: short marks, a length beside one, a mark that no schedule has.
    """
    if (
        sheet.scrambled
        or sheet.kind != "drawn"
        or any(plain_looking(marks) for marks in scheduled.values() if marks)
        or _shared(scheduled)
    ):
        return None
    out: dict[Kind, list[_Seen]] = {"wall": [], "hold-down": []}
    tidy = plain_word(sheet.quick)
    for kind, pattern in patterns.items():
        tokens = [t for t in sheet.tokens if pattern.fullmatch(t.text)]
        if len(tokens) != sum(1 for _ in pattern.finditer(tidy)):
            return None
        for token in tokens:
            if not token.alone or token.text not in scheduled[kind]:
                return None
            told = any(legend.search(f"{token.before} {token.after}") for legend in LEGEND.values())
            if told or any(inside(token.box, box) for box in outside):
                continue
            word = Word(token.text, token.box, min(token.box[2] - token.box[0], token.box[3] - token.box[1]))
            out[kind].append(_Seen((token.text,), None, Phrase((word,), token.box, word.size), None))
    return out


def _parted(text: str, patterns: dict[Kind, re.Pattern[str]], scheduled: dict[Kind, Sequence[str]]) -> bool:
    """Whether a text is a mark with a stroke in it, SW/6, of a make with marks of the schedule: no mark and a length."""
    return any("/" in mark for marks in scheduled.values() for mark in marks) and any(
        p.fullmatch(text) for p in patterns.values()
    )


def _shared(scheduled: dict[Kind, Sequence[str]]) -> bool:
    """Whether walls and hold-downs use a mark both."""
    return bool(set(scheduled.get("wall", ())) & set(scheduled.get("hold-down", ())))


def _two_texts(seen: _Seen, sheet: Sheet) -> bool:
    """Whether the symbol holds a second text that is no length: a detail bubble over its sheet number."""
    if seen.around is None:
        return False
    box = seen.around.box
    for phrase in sheet.phrases:
        if phrase is not seen.phrase and inside(phrase.box, box) and NUMBER.fullmatch(phrase.text.replace(" ", "")):
            return True
    return False


def _by_symbol(
    found: list[_Seen], known: set[str], own: Sequence[Symbol], others: Sequence[Symbol], loose: Sequence[_Seen]
) -> list[_Seen]:
    """Those in the kind of symbol that the legend shows; without a legend, in the one whose texts are the schedule's marks."""
    groups: list[list[_Seen]] = []
    for s in found:
        if s.around is None or (not own and any(s.around.like(o) for o in others)):
            continue
        group = next((g for g in groups if _alike(g[0], s)), None)
        if group is None:
            groups.append([s])
        else:
            group.append(s)
    bare = any(re.fullmatch(r"\d{1,2}|[A-Z]{1,2}", m) for m in known)
    ranked: list[tuple[float, list[_Seen]]] = []
    for group in groups:
        strangers = sum(1 for s in loose if bare and _alike(group[0], s))
        right = sum(set(s.marks) <= known for s in group)
        shown = max((_closeness(group[0].around, o) for o in own if group[0].around), default=0.0)
        if own:
            if shown > 0.35:
                ranked.append((right * shown**6, group))
        elif right >= 0.6 * (len(group) + strangers) and not _grid_bubbles(group):
            ranked.append((right, group))
    if ranked:
        best = max(ranked, key=lambda entry: entry[0])[1]
        if own or not bare:  # marks of one family drawn in larger symbols too, or in another text size
            return [
                s
                for worth, g in ranked
                for s in g
                if g is best
                or (
                    g[0].around
                    and best[0].around
                    and g[0].around.make == best[0].around.make
                    and worth > 0
                    and not _grid_bubbles(g)
                    and not bare
                )
            ]
        return best
    sizes = Counter(round(s.phrase.size, 1) for s in found if s.around is None and set(s.marks) <= known)
    if any(s.around for s in found) or not sizes:
        return []
    size = sizes.most_common(1)[0][0]
    return [s for s in found if s.around is None and abs(s.phrase.size - size) < 0.15]


def _alike(a: _Seen, b: _Seen) -> bool:
    """Whether both stand in the same kind of symbol and in type of the same size."""
    return (
        a.around is not None
        and b.around is not None
        and a.around.like(b.around)
        and abs(a.phrase.size - b.phrase.size) < 0.07 * a.phrase.size
    )


def _closeness(a: Symbol | None, b: Symbol) -> float:
    """1 for symbols of one make and height, less for another height, 0 for another make."""
    if a is None or a.make != b.make:
        return 0.0
    return min(a.height, b.height) / max(a.height, b.height, 0.1)


def _grid_bubbles(group: Sequence[_Seen]) -> bool:
    """Whether the texts stand in lines and count up along them, as the bubbles of a grid do."""
    lined = 0
    for axis in (0, 1):
        rows: dict[int, list[_Seen]] = defaultdict(list)
        for s in group:
            if s.around:
                rows[round((s.around.box[1 - axis] + s.around.box[3 - axis]) / 8)].append(s)
        for row in rows.values():
            if len(row) < 3:
                continue
            row.sort(key=lambda s: s.phrase.box[axis])
            labels = [s.marks[0] for s in row]
            keys = [(len(m), m) for m in labels]
            if len(set(labels)) == len(labels) and all(a < b for a, b in pairwise(keys)):
                lined += len(row)
    return lined >= 0.7 * len(group)


def _counted(found: Sequence[_Seen], known: set[str], kind: Kind, sheet: Sheet, sizes: set[float]) -> list[PlanMark]:
    """One record a mark; a mark that no schedule has is kept only in type of a size that scheduled marks have on some sheet."""
    boxes: dict[str, list[tuple[Box, float | None]]] = defaultdict(list)
    for s in sorted(found, key=lambda s: (round(s.phrase.box[1]), s.phrase.box[0])):
        for mark in s.marks:
            if (
                mark in known
                or any(abs(s.phrase.size - size) < 0.15 * size for size in sizes)
                or (not sizes and s.around is not None)
            ):
                boxes[mark].append((s.phrase.box, s.length_in))
    return [
        PlanMark(
            mark=mark,
            kind=kind,
            page=sheet.page,
            sheet=sheet.number,
            boxes=tuple((round(a, 2), round(b, 2), round(c, 2), round(d, 2)) for (a, b, c, d), _ in places),
            lengths_in=tuple(length for _, length in places) if any(length for _, length in places) else (),
        )
        for mark, places in sorted(boxes.items())
    ]
