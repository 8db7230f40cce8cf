"""The sheets that values were read from, each value boxed and numbered, each sheet followed by what its numbers stand for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards import page
from cards.findings import GOVERN
from cards.fit import font_file
from cards.traced import Rows, harmless, places, sheet_line, traced
from extractor.highlights import Marked, highlighted
from extractor.record import Box, Job

HEADS = ("no.", "for", "what it is", "as printed", "as understood")
HINT = "Each number stands at a box on the sheet before this page."


@dataclass(frozen=True)
class Entry:
    """A line of a list: the numbered place, whose value it is, the field, the words and what was understood."""

    number: str
    marks: str
    label: str
    printed: str
    text: str
    state: str
    questions: str
    loud: bool


def sheets_pdf(job: Job, plans: Sequence[Path], paper: str = "letter") -> bytes:
    """The sheets of ``job`` that hold values, as a PDF; ``plans`` are the PDFs it was read from."""
    rows = traced(job)
    numbers = places(rows)
    pages = dict.fromkeys(at[0] for at in numbers)
    marked = []
    for number in pages:
        boxes = tuple((f"{n}", at[1]) for at, n in numbers.items() if at[0] == number)
        what = _sheet(job, number)
        listed = page.pdf(
            page.html("sheets.html", title=what, paper=paper, entries=tuple(_entries(rows, numbers, number)),
                      file=_file(job), govern=GOVERN, heads=HEADS, hint=HINT),
            "sheets.css",
        )  # fmt: skip
        marked.append(Marked(number, boxes, f"{what} · {_file(job)} · {GOVERN}", listed))
    return highlighted(plans, marked, font=font_file(True).read_bytes())


def _file(job: Job) -> str:
    return f"{harmless(job.plan_set.file)}, file {job.plan_set.sha256[:8]}"


def _sheet(job: Job, number: int) -> str:
    sheet = next((one for one in job.sheets if one.page == number), None)
    if sheet is None:
        return f"page {number}"
    name = f"{sheet.number} (page {number})" if sheet.number else f"page {number}"
    return harmless(f"{name}: {sheet_line(sheet)}")


def _entries(rows: Rows, numbers: dict[tuple[int, Box], int], number: int) -> Iterator[Entry]:
    """Lines for one sheet in the order of its numbers; rows that share words and meaning share a line."""
    groups: dict[tuple[int, str, str, str, str, tuple[str, ...]], list[str]] = {}
    for _, values in rows:
        for value in values:
            source = value.reading.source
            if source.page == number:
                place, printed = numbers[number, source.box], value.reading.as_printed
                key = (place, value.label, printed, value.text, value.state, value.questions)
                groups.setdefault(key, []).append(value.mark)
    for (place, label, printed, text, state, questions), marks in sorted(groups.items(), key=lambda group: group[0][0]):
        loud = state != "read" or bool(questions)
        yield Entry(f"{place}", ", ".join(dict.fromkeys(marks)), label, printed, text, "" if state == "read" else state,
                    ", ".join(questions), loud)  # fmt: skip
