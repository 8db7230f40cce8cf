"""Which cards to collect and which walls to look at again, after two plan sets were compared."""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from cards.changed import Compared, RowChange
from cards.drawing import SHAPES
from cards.face import faces
from cards.front import shape_of
from cards.register import Issue, is_of
from cards.values import inch
from extractor.checks.hit import mark_key
from extractor.record import Box, Job, PlanMark, Record

NEAR = 36.0  # points: marks closer than half an inch stand at the same place of a plan
SAME = "its values are the same; its file and sheet date are old: change it for the new card"
SHIFTED = 18.0  # points: a plan that was moved on its sheet by more than this is compared as moved


class Recall(Record):
    """One card of the old plans: its number, its mark, and why it goes. ``now`` where it must not be used any longer at all."""

    number: int
    of: int
    mark: str
    now: bool
    why: str
    copies: int | None


class Retag(Record):
    """One wall to look at again: what its mark was and is, where it is drawn, and why."""

    sheet: str
    was: str | None
    now: str | None
    place: str
    length: str
    why: str


def recalls(old: Job, new: Job, found: Compared, issued: Sequence[Issue] = ()) -> tuple[Recall, ...]:
    """The cards of the old plans: first those whose wall type changed, then those that only carry an old file's digest.

    Where nothing but answers differs, a card whose values are the same stays.
    """
    rows = {row.number: row for row in found.wall_types if row.number}
    copies = [one.copies for one in issued if is_of(one, old)]
    held = {one.mark: one.hold for one in faces(new)}
    every = []
    for number, one in enumerate(faces(old), 1):
        why = _why(rows.get(number), one.hold, held)
        if not why and old.plan_set.sha256 == new.plan_set.sha256:
            continue
        every.append(Recall(number=number, of=len(old.wall_types), mark=one.mark, now=bool(why), why=why or SAME,
                            copies=copies[0] if copies else None))  # fmt: skip
    return tuple(sorted(every, key=lambda one: (not one.now, one.number)))


def corners(old: Job, new: Job) -> str:
    """How a new card is told from an old one on the ring: by the shape in the corner, or, where that is the same, not by it."""
    was, now = _shapes(old), _shapes(new)
    if not {*was} & {*now}:
        return f"Old cards have {' or '.join(was)} in the corner, new cards {' or '.join(now)}."
    return ("The shape in the corner does not tell old cards from new ones: the sheets have the same revision, or none. Look at "
            f"the file on the card: {old.plan_set.sha256[:8]} is old, {new.plan_set.sha256[:8]} is new.")  # fmt: skip


def _shapes(job: Job) -> tuple[str, ...]:
    every = (shape_of(one.sheet.revision if one.sheet else None) for one in faces(job))
    return tuple(dict.fromkeys("no shape" if which is None else f"a {SHAPES[which]}" for which in every))


def not_registered(old: Job, issued: Sequence[Issue]) -> str:
    """What to know where the register beside the old job holds other issues, and not the one that is compared."""
    if not issued or any(is_of(one, old) for one in issued):
        return ""
    known = any(one.sha256 == old.plan_set.sha256 for one in issued)
    what = "with the answers of the old plans" if known else "from the old plan file"
    return (f"No card was issued {what}. Cards on site are of {'; '.join(one.named for one in issued)}: compare the plans they "
            "were made from.")  # fmt: skip


def _why(row: RowChange | None, was_held: bool, held: dict[str, bool]) -> str:
    if row is None:
        return ""
    if row.status == "withdrawn":
        return "withdrawn: no row of the new plans has this mark"
    if row.status == "renumbered":
        return f"renumbered: the same values now stand under {row.new_mark}"
    why = [f"changed: {', '.join(dict.fromkeys(one.label for one in row.values))}"] if row.values else []
    why += [f"hold-down {', '.join(row.hold_downs)} changed"] if row.hold_downs else []
    if held.get(row.new_mark or "", was_held) and not was_held:
        why.append("a question that says STOP came up: the new card is on HOLD")
    elif not held.get(row.new_mark or "", was_held) and was_held:
        why.append("was on HOLD, can be issued now")
    return "; ".join(why)


def retags(old: Job, new: Job, found: Compared) -> tuple[Retag, ...]:
    """Walls whose type changed and walls whose mark changed, by sheet and place, a line for each place."""
    changed = {key: row for row in found.wall_types for key in (mark_key(row.old_mark or ""), mark_key(row.new_mark or ""))
               if key and row.status in ("changed", "withdrawn", "renumbered")}  # fmt: skip
    lines = [_line(place, changed) for place in _places(old, new)]
    return tuple(line for line in lines if line)


class _Place(NamedTuple):
    """One place of a plan sheet with the mark it had and the mark it has."""

    sheet: str
    box: Box
    was: str | None
    now: str | None
    length_in: float | None


def _line(at: _Place, changed: dict[str, RowChange]) -> Retag | None:
    row = changed.get(mark_key(at.now or at.was or ""))
    if at.was is None:
        why = "a wall mark that is new here"
    elif at.now is None:
        why = "a wall mark that is gone"
    elif mark_key(at.was) != mark_key(at.now):
        why = f"the mark was {at.was} and is {at.now}"
    elif row is None:
        return None
    else:
        why = {"changed": "its type changed", "withdrawn": "its type was withdrawn"}.get(row.status, "its type was renumbered")
        if row.values:
            why += f": {', '.join(dict.fromkeys(one.label for one in row.values))}"
        if row.hold_downs:
            why += f"; hold-down {', '.join(row.hold_downs)} changed"
    return Retag(sheet=at.sheet, was=at.was, now=at.now, place=_where(at.box), why=why,
                 length=f"{at.length_in / 12:.4g} ft" if at.length_in else "")  # fmt: skip


def _where(box: Box) -> str:
    across, down = (box[0] + box[2]) / 144, (box[1] + box[3]) / 144
    return f"{inch(round(across * 2) / 2)} from the left, {inch(round(down * 2) / 2)} from the top"


class _Mark(NamedTuple):
    mark: str
    box: Box
    length_in: float | None


def _places(old: Job, new: Job) -> Iterator[_Place]:
    before, now = _by_sheet(old), _by_sheet(new)
    for sheet in dict.fromkeys((*now, *before)):
        yield from sorted(_matched(sheet, before.get(sheet, []), now.get(sheet, [])), key=lambda at: (at.box[1], at.box[0]))


def _by_sheet(job: Job) -> dict[str, list[_Mark]]:
    sheets: dict[str, list[_Mark]] = {}
    for mark in job.plan_marks:
        if mark.kind == "wall":
            sheets.setdefault(mark.sheet or f"page {mark.page}", []).extend(_each(mark))
    return sheets


def _each(mark: PlanMark) -> Iterable[_Mark]:
    lengths = (*mark.lengths_in, *([None] * len(mark.boxes)))
    return (_Mark(mark.mark, box, length) for box, length in zip(mark.boxes, lengths, strict=False))


def _matched(sheet: str, old: list[_Mark], new: list[_Mark]) -> Iterator[_Place]:
    """Marks of one sheet paired: the same mark at its place, another mark at its place, the same mark elsewhere, one alone."""
    shift = _shift(old, new)
    before, now = list(old), list(new)
    for alike, near in ((True, NEAR), (False, NEAR), (True, float("inf"))):
        for one, other in _pairs(before, now, shift, near, alike=alike):
            before.remove(one)
            now.remove(other)
            yield _Place(sheet, other.box, one.mark, other.mark, other.length_in)
    yield from (_Place(sheet, one.box, one.mark, None, one.length_in) for one in before)
    yield from (_Place(sheet, one.box, None, one.mark, one.length_in) for one in now)


def _pairs(old: Sequence[_Mark], new: Sequence[_Mark], shift: tuple[float, float], near: float, *,
           alike: bool) -> list[tuple[_Mark, _Mark]]:  # fmt: skip
    """The closest pairs first, each mark at most once."""
    every = sorted(
        ((_apart(one.box, other.box, shift), i, j) for i, one in enumerate(old) for j, other in enumerate(new)
         if (mark_key(one.mark) == mark_key(other.mark)) is alike), key=lambda pair: pair,
    )  # fmt: skip
    left, right, pairs = set(range(len(old))), set(range(len(new))), []
    for distance, i, j in every:
        if distance <= near and i in left and j in right:
            left.remove(i)
            right.remove(j)
            pairs.append((old[i], new[j]))
    return pairs


def _apart(a: Box, b: Box, shift: tuple[float, float]) -> float:
    across, down = (b[0] + b[2] - a[0] - a[2]) / 2 - shift[0], (b[1] + b[3] - a[1] - a[3]) / 2 - shift[1]
    return math.hypot(across, down)


def _shift(old: Sequence[_Mark], new: Sequence[_Mark]) -> tuple[float, float]:
    """How far a whole plan was moved on its sheet: what most marks agree on; nothing where they don't."""
    moves = Counter((round((b.box[0] - a.box[0]) / SHIFTED), round((b.box[1] - a.box[1]) / SHIFTED))
                    for a in old for b in new if mark_key(a.mark) == mark_key(b.mark))  # fmt: skip
    if not moves:
        return 0.0, 0.0
    (across, down), votes = max(moves.items(), key=lambda move: (move[1], move[0] == (0, 0)))
    return (across * SHIFTED, down * SHIFTED) if votes >= 3 and 2 * votes > min(len(old), len(new)) else (0.0, 0.0)
