"""Marks on the plans against rows of the schedule and the hold-down table, both ways."""

from collections.abc import Iterator

import regex as re

from extractor.checks.hit import Hit, hold_down_name, listed, mark_key, mark_of
from extractor.record import HoldDown, Job, Level, PlanMark, Source, State, WallType

COUNT = re.compile(r"^\(?\d{1,2}\)\s*")


def undefined_mark(job: Job) -> Iterator[Hit]:
    """A wall mark is drawn on a plan and no row of the schedule defines it.

    Why: nobody knows what to nail there.
    Fires: SW6 on the upper plan, the schedule stops at SW5. Silent: "SW-1" on a plan for "SW1" in the schedule.
    Source: common practice, no source.
    """
    defined = {mark_key(mark_of(wall)) for wall in job.wall_types}
    for drawn in _drawn(job, "wall").values():
        if mark_key(drawn[0].mark) not in defined:
            yield Hit(
                f"{drawn[0].mark} is drawn {_times(drawn)} ({_places(drawn)}) and is not in the schedule: no row says what it "
                "is. Ask the engineer.",
                _first(drawn),
                None,
                drawn[0].mark,
            )


def unused_mark(job: Job) -> Iterator[Hit]:
    """A row of the schedule is never drawn on a plan.

    Why: either the row is left over, or its mark was forgotten on a plan and that wall is built as another type.
    Fires: SW4 in the schedule and on no plan. Only a note where no wall mark at all was found. Silent: a mark drawn once.
    Source: common practice, no source.
    """
    drawn = _drawn(job, "wall")
    if not drawn and job.wall_types:
        yield Hit(
            "No wall mark was found on the plans, so the rows could not be matched with walls.",
            job.wall_types[0].mark.source,
            level=Level.NOTE,
        )
        return
    rows = {mark_key(mark_of(wall)): wall for wall in reversed(job.wall_types)}
    for key, wall in reversed(rows.items()):
        if key not in drawn:
            mark = mark_of(wall)
            yield Hit(
                f"{mark} stands in the schedule and is never drawn on a plan. Ask the engineer whether a wall was meant to "
                "have it.",
                wall.mark.source,
                None,
                mark,
            )


def wall_lengths_not_read(job: Job) -> Iterator[Hit]:
    """Wall marks are drawn, and some of them have no length that could be read beside them.

    Why: a plan for walls against wind and earthquake gives the length of every shear wall; panels and nails are ordered from it.
    Fires: marks without a length. Silent: a length at every mark, and plans without wall marks. Once for the set.
    Source: common practice, no source.
    """
    walls = [mark for mark in job.plan_marks if mark.kind == "wall"]
    total = sum(len(mark.boxes) for mark in walls)
    told = sum(length is not None for mark in walls for length in mark.lengths_in)
    if told < total:
        yield Hit(
            f"A wall length was read at {told or 'none'} of {total} wall marks. Take the others from the dimensions on the plan, "
            "and look whether every shear wall has them."
        )


def undefined_hold_down(job: Job) -> Iterator[Hit]:
    """A hold-down is drawn or named in a row, and the hold-down table has no row for it.

    Why: its anchor has to be in the concrete before anybody frames.
    Fires: HD3 on the foundation plan, the table stops at HD2. Silent: a model that the table lists under a mark; and where no
    hold-down table was read at all (another check asks for it once).
    Source: common practice, no source.
    """
    if not job.hold_downs:
        return
    defined = _defined(job)
    drawn, named = _drawn(job, "hold-down"), _named(job)
    for key in dict.fromkeys([*drawn, *named]):
        if key in defined:
            continue
        mark = drawn[key][0].mark if key in drawn else named[key][0][0]
        where = [f"drawn {_times(drawn[key])} ({_places(drawn[key])})"] if key in drawn else []
        where += [f"named in row {listed([mark_of(wall) for _, wall in named[key]])}"] if key in named else []
        row = named[key][0][1].hold_down.marks if key in named else None
        yield Hit(
            f"Hold-down {mark} is {listed(where)} and is not in the hold-down schedule: no row gives its post or anchor. Ask "
            "the engineer before the pour.",
            _first(drawn[key]) if key in drawn else row.source if row else None,
            None,
            hold_down_name(job, mark),
        )


def hold_down_table_not_found(job: Job) -> Iterator[Hit]:
    """Rows or plans name hold-downs and no hold-down table was read.

    Why: a model alone gives no post, no anchor and no embedment, and the anchors are needed before the pour.
    Fires: rows that name KT-22 and QD-4, no table. Silent: plans without hold-downs, and plans with a table.
    Source: common practice, no source.
    """
    if job.hold_downs:
        return
    named, drawn = _named(job), _drawn(job, "hold-down")
    marks = [pairs[0][0] for pairs in named.values()] + [marks[0].mark for key, marks in drawn.items() if key not in named]
    if marks:
        row = next(iter(named.values()))[0][1].hold_down.marks if named else None
        yield Hit(
            f"No hold-down table was found for {listed(marks)}: post, anchor and embedment are missing. Ask the engineer before "
            "the pour.",
            row.source if row else _first(next(iter(drawn.values()))),
            "anchor.diameter_in",
        )


def unused_hold_down(job: Job) -> Iterator[Hit]:
    """A row of the hold-down table is never drawn and no wall type names it.

    Why: either the row is left over, or a hold-down was forgotten on the plans and will be missed in the concrete.
    Fires: HD3 in the table and nowhere else. Only a note where no hold-down is drawn or named at all. Silent: a hold-down
    that a wall type names.
    Source: common practice, no source.
    """
    used = {*_drawn(job, "hold-down"), *_named(job)}
    if not used and job.hold_downs:
        yield Hit(
            "No hold-down of the table was found on the plans or in a row, so they could not be matched with walls.",
            job.hold_downs[0].mark.source,
            level=Level.NOTE,
        )
        return
    for row in job.hold_downs:
        if not used & set(_keys(row)):
            mark = mark_of(row)
            yield Hit(
                f"Hold-down {mark} stands in the hold-down table, is never drawn on a plan, and no row names it. Ask the "
                "engineer before the pour whether one was meant to be drawn.",
                row.mark.source,
                None,
                hold_down_name(job, mark),
            )


def _keys(row: HoldDown) -> list[str]:
    names = [mark_of(row)] + ([str(row.model.value)] if row.model and row.model.value else [])
    return [mark_key(COUNT.sub("", name)) for name in names]


def _defined(job: Job) -> set[str]:
    return {key for row in job.hold_downs for key in _keys(row)}


def _drawn(job: Job, kind: str) -> dict[str, list[PlanMark]]:
    drawn: dict[str, list[PlanMark]] = {}
    for mark in job.plan_marks:
        if mark.kind == kind:
            drawn.setdefault(mark_key(COUNT.sub("", mark.mark)), []).append(mark)
    return drawn


def _named(job: Job) -> dict[str, list[tuple[str, WallType]]]:
    """Hold-downs that wall types name, by key, each with the words and the wall types."""
    named: dict[str, list[tuple[str, WallType]]] = {}
    for wall in job.wall_types:
        found = wall.hold_down.marks
        for mark in found.value or () if found and found.state in (State.READ, State.CONFLICT) else ():
            named.setdefault(mark_key(COUNT.sub("", mark)), []).append((mark, wall))
    return named


def _times(drawn: list[PlanMark]) -> str:
    count = sum(len(mark.boxes) for mark in drawn)
    return "once" if count == 1 else f"{count} times"


def _places(drawn: list[PlanMark]) -> str:
    return listed(list(dict.fromkeys(f"sheet {mark.sheet}" if mark.sheet else f"page {mark.page}" for mark in drawn)))


def _first(drawn: list[PlanMark]) -> Source | None:
    return next((Source(page=mark.page, sheet=mark.sheet, box=mark.boxes[0]) for mark in drawn if mark.boxes), None)
