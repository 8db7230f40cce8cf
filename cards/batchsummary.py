"""The summary of a batch: a line for each plan set, as text, as a page without any network, and as a workbook."""

import datetime
import io
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from cards import output, page
from cards.findings import GOVERN, REPORT, guarded
from cards.task import Result
from extractor.errors import Exit

COLUMNS = ("plan set", "result", "types", "hold-downs", "on HOLD", "STOP", "ASK", "unreadable", "seconds", "file", "what to know")
_FAILED = {Exit.PLANS: "NOT READ", Exit.NO_SCHEDULE: "NO SCHEDULE", Exit.OUTPUT: "NOT WRITTEN", Exit.USAGE: "NOT DONE",
           Exit.BUG: "STOPPED"}  # fmt: skip


def write(results: Sequence[Result], out: Path) -> tuple[Path, ...]:
    """Write ``summary.txt``, ``summary.html`` and ``summary.xlsx`` into ``out``."""
    made = (("summary.txt", as_text(results).encode()), ("summary.html", as_html(results).encode()),
            ("summary.xlsx", as_workbook(results)))  # fmt: skip
    for name, data in made:
        output.write(out / name, data)
    return tuple(out / name for name, _ in made)


def headline(results: Sequence[Result]) -> str:
    """The batch in one line.

    >>> headline(results)  # doctest: +SKIP
    '40 plan sets: 38 packets, 2 not done. 12 STOP and 31 ASK are open. 3 values could not be read.'
    """
    good = [one for one in results if one.code == Exit.FINE]
    again = sum(one.again for one in good)
    return (f"{_count(len(results), 'plan set')}: {_count(len(good), 'packet')}"
            + (f" ({again} finished before)" if again else "") + f", {len(results) - len(good)} not done. "
            f"{sum(one.stops for one in good)} STOP and {sum(one.asks for one in good)} ASK are open. "
            f"{_count(sum(one.unreadable for one in good), 'value')} could not be read.")  # fmt: skip


def line(result: Result) -> str:
    """One plan set in one line, for progress."""
    if result.code != Exit.FINE:
        return guard(f"{result.name}  {outcome(result)}: {result.says}")
    more = "finished before" if result.again else f"{result.seconds:g} s"
    return guard(f"{result.name}  {_count(result.types, 'type')}, {result.stops} STOP, {result.asks} ASK, "
                 f"{result.unreadable} unreadable, {more}")  # fmt: skip


def outcome(result: Result) -> str:
    """What came of a plan set, in a word or two."""
    return "packet" if result.code == Exit.FINE else _FAILED.get(Exit(result.code), "NOT DONE")


def guard(text: str) -> str:
    """One line that a terminal prints and does not obey."""
    return "".join(c if c.isprintable() else " " for c in text)


def as_text(results: Sequence[Result]) -> str:
    """A line a plan set, those that were not done first."""
    good = [one for one in results if one.code == Exit.FINE]
    failed = [line(one) for one in results if one.code != Exit.FINE]
    parts = [[headline(results)], ["Not done:", *failed] if failed else [], [line(one) for one in good],
             [f"{guard(one.name)}: {guard(one.says)}" for one in good if one.says],
             [GOVERN], REPORT.splitlines()]  # fmt: skip
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def as_html(results: Sequence[Result]) -> str:
    """The same as one page."""
    return page.html("batch.html", css=(page.templates() / "changes.css").read_text(encoding="utf-8"), headline=headline(results),
                     columns=COLUMNS, rows=[(one.code != Exit.FINE, _cells(one)) for one in _failed_first(results)],
                     govern=GOVERN, report=REPORT)  # fmt: skip


def as_workbook(results: Sequence[Result]) -> bytes:
    """The same as a workbook: counts are numbers, everything else is text that no spreadsheet takes for a formula."""
    import xlsxwriter

    data = io.BytesIO()
    book: Any = xlsxwriter.Workbook(data, {"in_memory": True, "strings_to_formulas": False, "strings_to_numbers": False,
                                           "strings_to_urls": False})  # fmt: skip
    book.set_properties({"title": "Batch summary", "created": datetime.datetime(2026, 1, 1)})
    head, wrapped = book.add_format({"bold": True, "bottom": 2}), book.add_format({"text_wrap": True, "valign": "top"})
    sheet = book.add_worksheet("Plan sets")
    for column, (name, width) in enumerate(zip(COLUMNS, (40, 14, 8, 11, 9, 8, 8, 11, 9, 24, 80), strict=True)):
        sheet.set_column(column, column, width, wrapped)
        sheet.write_string(0, column, name, head)
    for row, one in enumerate(_failed_first(results), 1):
        for column, cell in enumerate(_cells(one)):
            if isinstance(cell, str):
                sheet.write_string(row, column, guarded(cell)[:32_000])
            else:
                sheet.write_number(row, column, cell)
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, max(1, len(results)), len(COLUMNS) - 1)
    notes = book.add_worksheet("Read this")
    notes.set_column(0, 0, 120, wrapped)
    for row, text in enumerate((headline(results), GOVERN, " ".join(REPORT.split()))):
        notes.write_string(row, 0, guarded(text))
    book.close()
    return data.getvalue()


def _failed_first(results: Sequence[Result]) -> list[Result]:
    return sorted(results, key=lambda one: (one.code == Exit.FINE, -one.stops, one.name))


def _cells(one: Result) -> tuple[str | float, ...]:
    good = one.code == Exit.FINE
    counts: tuple[str | float, ...] = (one.types, one.hold_downs, one.on_hold, one.stops, one.asks, one.unreadable)
    says = guard(one.says) or ("finished before, nothing has changed since" if one.again else "")
    return (guard(one.name), outcome(one), *(counts if good else ("",) * 6), one.seconds,
            f"{guard(one.file)}, {one.digest[:8]}" if one.digest else "", says)  # fmt: skip


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}{'s' * (number != 1)}"
