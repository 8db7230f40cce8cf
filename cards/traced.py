"""A job's values in one list: each with its number, what was understood, what it is worth, and the questions about it.

The numbers are the same in the workbook, on the review page and on the sheets with boxes. A capacity counts as its parts; of a
conflict each side has a line.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Literal

from cards.face import concerns
from cards.findings import numbered
from cards.values import inch, text_of
from cards.words import Words
from extractor.checks.fields import LABELS
from extractor.record import Box, Finding, HoldDown, Job, Origin, Reading, Record, SheetRecord, Source, State, WallType, readings

ORIGINS = {Origin.SCHEDULE: "its row", Origin.NOTE: "a note", Origin.LEGEND: "a legend", Origin.ANSWER: "the engineer's answer"}
STATES = {
    State.READ: "read",
    State.NONE: "plans say none",
    State.DEFERRED: "plans send elsewhere",
    State.UNREADABLE: "CAN'T READ",
    State.CONFLICT: "CONFLICT",
}
NOT_FOUND = "NOT FOUND ON THE PLANS"
_MORE = {
    "plf": "capacity",
    "load": "load of the capacity (seismic or wind)",
    "method": "basis of the capacity (ASD, LRFD, nominal)",
    "other": "other words in the row",
}
_WORDS = Words("en")


@dataclass(frozen=True)
class Traced:
    """One value. ``text`` is what was understood, as a tape reads it; ``decimal`` the same as a number, in ``unit``.

    ``shown`` is the state of its field: each side of a conflict is one value and shows the conflict.
    """

    number: int
    kind: Literal["wall type", "hold-down"]
    mark: str
    name: str
    label: str
    reading: Reading[Any]
    shown: State
    text: str
    decimal: float | None
    unit: str
    questions: tuple[str, ...]

    @property
    def state(self) -> str:
        """What it is worth, in words."""
        return STATES[self.shown]

    @property
    def origin(self) -> str:
        """Where it came from, in words."""
        return ORIGINS[self.reading.origin]

    @property
    def plain(self) -> bool:
        """True for a value that was read and that no question is about."""
        return self.shown is State.READ and not self.questions


Row = WallType | HoldDown
Rows = tuple[tuple[Row, tuple[Traced, ...]], ...]


def traced(job: Job) -> Rows:
    """Each wall type and then each hold-down with its values, numbered through from 1."""
    rows: tuple[Row, ...] = (*job.wall_types, *job.hold_downs)
    done: list[tuple[Row, tuple[Traced, ...]]] = []
    number = 1
    for row in rows:
        values = tuple(_row(row, job, number))
        number += len(values)
        done.append((row, values))
    return tuple(done)


def mark_of(row: Row) -> str:
    """The mark as the plans print it."""
    return row.mark.value or row.mark.as_printed


def kind_of(row: Row) -> Literal["wall type", "hold-down"]:
    """What the row is a row of."""
    return "wall type" if isinstance(row, WallType) else "hold-down"


def label_of(name: str) -> str:
    """A field's name in a framer's words; ``capacity[0].plf`` and ``other[2]`` by what they are."""
    return LABELS.get(name) or _MORE.get(name.split(".")[-1]) or _MORE.get(name.split("[")[0]) or name


def not_found(row: Row) -> tuple[str, ...]:
    """Dotted names of the fields that the plans leave open; a nail has no gauge, a staple no penny size."""
    kind = row.fastener.kind.value if isinstance(row, WallType) and row.fastener.kind else None
    beside = {"nail": ("fastener.gauge",), "staple": ("fastener.penny", "fastener.style"), None: ("fastener.gauge",)}
    return tuple(name for name in _blank(row) if name not in beside.get(kind, ()))


def questions_about(job: Job, row: Row, name: str) -> tuple[str, ...]:
    """Numbers of the open questions about a field of a row."""
    return tuple(number for number, finding in numbered(job) if number and _about(finding, row, name))


def unread(job: Job) -> Iterator[tuple[str, str, str]]:
    """What was seen and not read: what it is, the words, and where."""
    seen = job.coverage
    skipped = sorted(set(range(1, job.plan_set.pages + 1)) - {*seen.pages_read, *seen.sheets_without_text})
    for page in seen.sheets_without_text:
        yield "sheet without text: look at it yourself", "", _page(job, page)
    for page in skipped if seen.pages_read else ():
        yield "sheet not looked at", "", _page(job, page)
    for block in seen.blocks_not_read:
        yield "table seen and not read", f"{block.title}: {block.why}", place(block.source)
    for words in seen.words_not_used:
        yield "words in a schedule that ended in no value", words.as_printed, place(words.source)


def sheet_line(sheet: SheetRecord) -> str:
    """A sheet's title, revision and date; what the title block leaves out is said."""
    revision = f"revision {sheet.revision}" if sheet.revision else "no revision on the sheet"
    date = _WORDS.date(sheet.date) if sheet.date else "no date on the sheet"
    return ", ".join(part for part in (sheet.title, revision, date) if part)


def revisions(job: Job) -> str:
    """The sheets that hold the rows, each with revision and date, in one line: what a page stands for."""
    pages = {row.mark.source.page for row in job.wall_types} | {row.mark.source.page for row in job.hold_downs}
    held = [sheet.model_copy(update={"title": None}) for sheet in job.sheets if sheet.page in pages]
    return harmless("; ".join(f"{sheet.number or f'page {sheet.page}'} {sheet_line(sheet)}" for sheet in held))


def harmless(text: str) -> str:
    """Words from a plan on one line, without the signs that a terminal, a page or a spreadsheet could obey."""
    return "".join(c if c.isprintable() else " " for c in text)


def _page(job: Job, page: int) -> str:
    number = next((sheet.number for sheet in job.sheets if sheet.page == page), None)
    return f"sheet {number}, page {page}" if number else f"page {page}"


def place(source: Source | None) -> str:
    """Sheet and page in words; nothing where there is no place."""
    if source is None:
        return ""
    return f"sheet {source.sheet}, page {source.page}" if source.sheet else f"page {source.page}"


def understood(name: str, value: object) -> str:
    """A value as a tape reads it: 15/32", 4" o.c., 3,075 lb."""
    last = name.split(".")[-1]
    if name == "capacity" and isinstance(value, tuple):
        return "; ".join(" ".join(str(one.value) for _, one in readings(entry)) for entry in value)
    if last == "plf":
        return f"{value:,.10g} plf"
    if last == "capacity_lb":
        return f"{value:,.10g} lb"
    if name in ("anchor.diameter_in", "anchor.embedment_in") and isinstance(value, float):
        return inch(value)
    return text_of(name, value, _WORDS)


def _about(finding: Finding, row: Row, name: str) -> bool:
    """Whether a finding is about this field: about itself, else about the thing it belongs to ("fastener")."""
    field = finding.field
    if not field or not (name == field or name.startswith((f"{field}.", f"{field}["))):
        return False
    if finding.wall_type is not None:
        return finding.wall_type == row.mark.value
    if isinstance(row, WallType):
        return concerns(finding, row)
    return bool(re.search(rf"(?<![\w-]){re.escape(mark_of(row))}(?![\w-])", finding.message, re.I))


def _row(row: Row, job: Job, number: int) -> Iterator[Traced]:
    for name, reading in _leaves(row):
        questions = questions_about(job, row, name)
        for one in (reading, *reading.also):
            value = one.value if isinstance(one.value, (int, float)) and not isinstance(one.value, bool) else None
            yield Traced(
                number, kind_of(row), mark_of(row), name, label_of(name), one, reading.state, _text(name, one),
                None if value is None else float(value), _unit(name) if value is not None else "", questions,
            )  # fmt: skip
            number += 1


def _leaves(row: Row) -> Iterator[tuple[str, Reading[Any]]]:
    """Readings of a row; a capacity with entries gives the readings of its entries."""
    for name, reading in readings(row):
        if name == "capacity" and reading.value and not reading.also and isinstance(reading.value, tuple):
            for i, entry in enumerate(reading.value):
                yield from readings(entry, f"capacity[{i}].")
        else:
            yield name, reading


def _text(name: str, reading: Reading[Any]) -> str:
    if reading.state is State.UNREADABLE or (reading.value is None and reading.state in (State.READ, State.CONFLICT)):
        return "CAN'T READ"
    if reading.state is State.DEFERRED:
        return _WORDS.say("deferred", words=reading.as_printed)
    if reading.state is State.NONE:
        return _WORDS.say("none")
    if name.startswith("other["):
        return "kept as printed"
    return understood(name, reading.value)


def _unit(name: str) -> str:
    last = name.split(".")[-1]
    return {"plf": "plf", "capacity_lb": "lb"}.get(last) or ("in" if last.endswith("_in") else "")


def _blank(record: Record, prefix: str = "") -> Iterator[str]:
    for name in type(record).model_fields:
        value = getattr(record, name)
        if value is None:
            yield prefix + name
        elif isinstance(value, Record) and not isinstance(value, Reading):
            yield from _blank(value, f"{prefix}{name}.")


def places(rows: Rows) -> dict[tuple[int, Box], int]:
    """The number of each place that values were read from, by page and box: from 1 through the sheets, in reading order.

    A place may hold several values, and one note may fill many rows.
    """
    found = {(value.reading.source.page, value.reading.source.box) for _, values in rows for value in values}
    return {at: n for n, at in enumerate(sorted(found, key=lambda at: (at[0], round(at[1][1] / 4), at[1][0], at[1])), 1)}
