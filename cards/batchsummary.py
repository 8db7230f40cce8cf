"""The summary of a batch: a line for each plan set, as text, as a page without any network, and as a workbook."""

from collections.abc import Sequence
from pathlib import Path

from cards import output, page
from cards.findings import GOVERN, REPORT
from cards.plainbook import Table, workbook
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
    """The same as a workbook."""
    widths = (40, 14, 8, 11, 9, 8, 8, 11, 9, 24, 80)
    rows = [_cells(one) for one in _failed_first(results)]
    return workbook("Batch summary", headline(results), [Table("Plan sets", list(zip(COLUMNS, widths, strict=True)), rows)])


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
