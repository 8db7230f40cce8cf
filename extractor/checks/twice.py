"""Rows that say one thing twice: two rows with one mark."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeVar

from extractor.checks.fields import LABELS
from extractor.checks.hit import Hit, hold_down_name, listed, mark_key, mark_of
from extractor.record import Capacity, HoldDown, Job, Level, Reading, WallType, readings
from extractor.trade.titles import scope_in

Row = TypeVar("Row", WallType, HoldDown)


def duplicate_mark(job: Job) -> Iterator[Hit]:
    """Two rows of the schedule have the same mark and different values.

    Why: a crew that finds the first row never looks for the second.
    Fires: SW3 twice, with 4 in and 3 in edge nailing; one finding where two storeys use the same marks and no title says which.
    Only a note where both rows say the same, or where each row's schedule is for a storey or a kind of wall of its own.
    Silent: marks that differ in a letter.
    Source: common practice, no source.
    """
    storeys = [same for same in _same_marks(job.wall_types) if _stand_apart(same)]
    apart = {id(row) for same in storeys for row in same} if len(storeys) > 1 else set()
    if apart:
        yield Hit(
            f"Two storeys use the same marks for different walls: {listed([f'type {mark_of(same[0])}' for same in storeys])} "
            "stand twice in the schedule, once with sill anchors and once with plate nailing. Ask the engineer for marks that "
            "differ.",
            storeys[0][-1].mark.source,
        )
    yield from _twice(job, [row for row in job.wall_types if id(row) not in apart], "the schedule")


def duplicate_hold_down(job: Job) -> Iterator[Hit]:
    """Two rows of the hold-down table have the same mark and different values.

    Why: one mark with two anchors leaves it to chance which is cast.
    Fires: HD2 twice, with a 5/8 and a 7/8 anchor. Only a note where both rows say the same.
    Silent: marks that differ in a letter.
    Source: common practice, no source.
    """
    yield from _twice(job, job.hold_downs, "the hold-down table")


def _same_marks(rows: Sequence[Row]) -> list[list[Row]]:
    by_mark: dict[str, list[Row]] = {}
    for row in rows:
        by_mark.setdefault(mark_key(mark_of(row)), []).append(row)
    return [same for same in by_mark.values() if len(same) > 1]


def _stand_apart(rows: list[WallType]) -> bool:
    """Whether of two rows one is bolted to concrete and the other is nailed to framing, and no title says where each belongs."""
    bolted = [row.anchors.spacing_in is not None and row.bottom_plate.spacing_in is None for row in rows]
    nailed = [row.bottom_plate.spacing_in is not None and row.anchors.spacing_in is None for row in rows]
    return len(rows) == 2 and any(bolted) and any(nailed) and len(_scopes(rows)) < 2


def _twice(job: Job, rows: Sequence[Row], table: str) -> Iterator[Hit]:
    for same in _same_marks(rows):
        first, second = same[0], same[-1]
        mark = mark_of(first)
        differ = [LABELS.get(field, field) for field in _differences(first, second)]
        scopes = _scopes(same)
        apart = len(scopes) == 2
        says = "with the same values"
        if differ:
            which = "once for “{}” and once for “{}”, ".format(*scopes) if apart else ""
            ask = "Read the row for the place" if apart else "Ask the engineer which row holds"
            says = f"{which}and they differ in: {', '.join(differ)}. {ask}"
        yield Hit(
            f"{mark} stands twice in {table}, {says}.",
            second.mark.source,
            None,
            mark if isinstance(first, WallType) else hold_down_name(job, mark),
            None if differ and not apart else Level.NOTE,
        )


def _scopes(rows: Iterable[WallType | HoldDown]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(scope for row in rows if (scope := _scope(row))))


def _scope(row: WallType | HoldDown) -> str | None:
    """The row's words that say which storey or walls its schedule is for."""
    return next((words.as_printed for words in row.other if scope_in(words.as_printed)), None)


def _differences(first: WallType | HoldDown, second: WallType | HoldDown) -> list[str]:
    one, two = ({name: _comparable(found) for name, found in readings(row) if "[" not in name} for row in (first, second))
    return [name for name in {**one, **two} if name != "mark" and one.get(name) != two.get(name)]


def _comparable(found: Reading[Any]) -> object:
    """What a reading says, without its words and place."""
    items = found.value if isinstance(found.value, tuple) else (found.value,)
    return found.state, tuple(item.plf.value if isinstance(item, Capacity) else item for item in items)
