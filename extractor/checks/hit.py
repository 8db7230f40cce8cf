"""What a check gives, and what it looks at: readings by their dotted name, and their values where they were really read."""

from collections.abc import Callable, Iterable, Iterator
from functools import wraps
from typing import Any, NamedTuple

import regex as re

from extractor.record import HoldDown, Job, Level, Reading, Record, Source, State, WallType


class Hit(NamedTuple):
    """One thing that is wrong: the words for it, its place, the dotted field and the mark it is about.

    ``level`` is set only where this hit is milder than its check.
    """

    message: str
    source: Source | None = None
    field: str | None = None
    mark: str | None = None
    level: Level | None = None


MANY = 3
"""As many rows with the same fault in one field have one cause, and get one finding that names them all."""

Find = Callable[[Job], Iterator[Hit]]


def each_wall(find: Callable[[WallType], Iterator[Hit]]) -> Find:
    """A check of one wall type, run on each of a job; its hits are about that wall type."""

    @wraps(find)
    def run(job: Job) -> Iterator[Hit]:
        for wall in job.wall_types:
            yield from (hit._replace(mark=hit.mark or mark_of(wall)) for hit in find(wall))

    return run


def each_hold_down(find: Callable[[HoldDown], Iterator[Hit]]) -> Find:
    """A check of one hold-down, run on each of a job; its hits are about that hold-down."""

    @wraps(find)
    def run(job: Job) -> Iterator[Hit]:
        for hold_down in job.hold_downs:
            yield from (hit._replace(mark=hit.mark or hold_down_name(job, mark_of(hold_down))) for hit in find(hold_down))

    return run


def mark_of(record: WallType | HoldDown) -> str:
    """The mark of a row, as understood or else as printed."""
    return record.mark.value or record.mark.as_printed


def mark_key(mark: str) -> str:
    """A mark as a reader compares it: SW-1, SW 1 and sw1 are one, 1-1 and 11 are two.

    >>> mark_key("SW-1"), mark_key("1-1")
    ('sw1', '1-1')
    """
    key: str = re.sub(r"(?<=[a-z])[\s-]+(?=\d)", "", " ".join(mark.casefold().split()))
    return key


def hold_down_name(job: Job, mark: str) -> str | None:
    """A hold-down's mark for a finding; None where a wall type has the same mark, so that nobody takes one for the other."""
    return None if any(mark_of(wall) == mark for wall in job.wall_types) else mark


def reading(record: Record, dotted: str) -> Reading[Any] | None:
    """The reading of a field by its dotted name; None where the plans do not give it.

    >>> reading(wall, "edge.spacing_in")  # doctest: +SKIP
    """
    found: Any = record
    for name in dotted.split("."):
        found = getattr(found, name)
    return found if isinstance(found, Reading) else None


def value(record: Record, dotted: str) -> Any:
    """The value of a field that was read and is not in doubt; None otherwise."""
    found = reading(record, dotted)
    return found.value if found is not None and found.state is State.READ else None


def source_of(wall: WallType, field: str) -> Source:
    """Where a field's words stand, or the row's mark where the row does not give the field."""
    found = reading(wall, field)
    return found.source if found else wall.mark.source


def printed(found: Reading[Any] | None) -> str:
    """The words as they stand on the sheet, in quotes that no inch mark closes."""
    return f"“{found.as_printed}”" if found else "“”"


def place(source: Source) -> str:
    """Where words stand: sheet S3.1, or page 7 where the sheet has no number."""
    return f"sheet {source.sheet}" if source.sheet else f"page {source.page}"


def rows_named(message: str, marks: Iterable[str]) -> tuple[str, ...]:
    """Which of ``marks`` a finding for several rows begins with; none where it begins otherwise.

    >>> rows_named("W1 and W3: the sill plate size is missing.", ["W1", "W2", "W3"])
    ('W1', 'W3')
    """
    head = message.partition(": ")[0].removeprefix("Hold-downs ")
    parts = set(re.split(", | and ", head))
    named = [mark for mark in dict.fromkeys(marks) if mark in parts]
    return tuple(named) if named and listed(named) == head else ()


def listed(words: list[str]) -> str:
    """Words in a row: a, b and c."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
