"""The job as a workbook: findings first, then a line for every value, type, mark and hold-down, and what was not read.

Everything printed on the plans is a cell of text, so that 3/8 stays 3/8, 12-11 stays a mark, and =1+1 is never worked out. A
number stands beside it as a twin. The same job gives the same bytes.
"""

import io
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, NamedTuple

import xlsxwriter

from cards.face import face
from cards.findings import GOVERN, REPORT, numbered, summary
from cards.traced import (
    NOT_FOUND,
    Row,
    Rows,
    Traced,
    harmless,
    label_of,
    mark_of,
    not_found,
    place,
    places,
    questions_about,
    revisions,
    sheet_line,
    traced,
    unread,
)
from cards.values import inch
from extractor.checks.fields import BEFORE, LABELS, step
from extractor.pictures import Picture, pictures
from extractor.record import Box, HoldDown, Job, Source, WallType

LONGEST = 32_000  # characters of a cell; a workbook takes 32,767
PICTURE = (290, 34)  # pixels that a picture may take in its cell
_HOLD_DOWN = ("model", "post", "fasteners", "capacity_lb", "anchor.diameter_in", "anchor.embedment_in")
_WALL = tuple(name for name in LABELS if name not in ("mark", *_HOLD_DOWN))

Cell = str | float | None


class Column(NamedTuple):
    """A heading and its width in characters."""

    heading: str
    width: float


FINDINGS = tuple(
    Column(*pair) for pair in (("level", 8), ("question", 10), ("hold-up", 18), ("mark", 10), ("field", 26), ("what", 80),
                               ("sheet", 10), ("page", 7), ("rule from", 26), ("check", 28), ("answer", 30), ("reference", 14),
                               ("answered by", 16), ("date", 12))
)  # fmt: skip
VALUES = tuple(
    Column(*pair) for pair in (("no.", 7), ("row of", 11), ("mark", 10), ("field", 34), ("as printed", 34), ("as understood", 26),
                               ("decimal", 10), ("unit", 6), ("state", 20), ("from", 22), ("sheet", 10), ("page", 7),
                               ("no. on sheets.pdf", 10), ("box on the page, points from its top left", 24), ("question", 12),
                               ("picture", 42), ("checked by", 16), ("date", 12))
)  # fmt: skip
PICTURE_COLUMN = [column.heading for column in VALUES].index("picture")
TYPES = tuple(Column(*pair) for pair in (("mark", 10), ("sheet", 10), ("page", 7), ("card", 12), ("questions", 16)))
MARKS = tuple(
    Column(*pair) for pair in (("mark", 10), ("kind", 12), ("sheet", 10), ("page", 7), ("times drawn", 12), ("row found", 12),
                               ("lengths written beside it", 40))
)  # fmt: skip
HOLD_DOWNS = tuple(Column(*pair) for pair in (("mark", 10), ("sheet", 10), ("page", 7), ("questions", 16), ("times drawn", 12)))
ORDER = tuple(
    Column(*pair) for pair in (("part", 24), ("what", 60), ("calc, for ordering only", 14), ("unit", 10),
                               ("how it was worked out", 44), ("say before ordering", 50))
)  # fmt: skip
COVERAGE = tuple(Column(*pair) for pair in (("what", 40), ("words", 90), ("where", 24)))


def workbook(job: Job, plans: Sequence[Path] = (), order: Sequence[Sequence[Cell]] = ()) -> bytes:
    """The workbook of ``job`` as xlsx; ``plans`` are the PDFs it was read from, for pictures beside the values.

    ``order`` are the lines of the order sheet, where wall lengths are known.
    """
    rows = traced(job)
    numbers = places(rows)
    values = [value for _, own in rows for value in own]
    shown = pictures(plans, (_around(value) for value in values), margin=0.0) if plans else {}
    data = io.BytesIO()
    book = xlsxwriter.Workbook(data, {"in_memory": True, "strings_to_formulas": False, "strings_to_numbers": False,
                                      "strings_to_urls": False})  # fmt: skip
    book.set_properties({"title": harmless(job.plan_set.file), "comments": GOVERN, "created": datetime(2000, 1, 1)})
    write = _Writer(book, job)
    write.sheet("Findings", FINDINGS, list(_findings(job)))
    sheet = write.sheet("Values", VALUES, [_value(value, numbers) for value in values])
    _add_pictures(sheet, values, shown)
    write.sheet("Types", [*TYPES, *(Column(label_of(name), 18) for name in _WALL)], list(_types(job, rows)))
    write.sheet("Marks", MARKS, list(_marks(job)))
    write.sheet("Hold-downs", [*HOLD_DOWNS, *(Column(label_of(name), 18) for name in _HOLD_DOWN)], list(_holds(job, rows)))
    if order:
        write.sheet("Order", ORDER, order)
    write.sheet("Coverage", COVERAGE, list(_coverage(job, pictured=bool(plans))))
    book.close()
    return data.getvalue()


class _Writer:
    """Writes sheets that look alike: bold headings that stay in sight, filters, text as text, and what governs at the foot."""

    def __init__(self, book: xlsxwriter.Workbook, job: Job) -> None:
        self.book = book
        base = {"valign": "top", "text_wrap": True, "border": 1, "border_color": "#999999"}
        self.text = book.add_format({**base, "num_format": "@"})
        self.loud = book.add_format({**base, "num_format": "@", "bold": True, "border": 2, "border_color": "#000000"})
        self.number = book.add_format(base)
        self.heading = book.add_format({**base, "bold": True, "bottom": 2, "bg_color": "#E6E6E6"})
        name, sheets = (harmless(text).replace("&", "&&") for text in (job.plan_set.file[:80], revisions(job)[:90]))
        self.header = f"&L&B{name}&B, file {job.plan_set.sha256[:8]}, {sheets}&C&A&RPage &P of &N"
        self.footer = f"&L{GOVERN} Not an engineer's review."

    def sheet(self, name: str, columns: Sequence[Column], lines: Sequence[Sequence[Cell]]) -> Any:
        """A sheet with its headings in the first row and ``lines`` below."""
        sheet = self.book.add_worksheet(name)
        for column, (heading, width) in enumerate(columns):
            sheet.set_column(column, column, width)
            sheet.write_string(0, column, heading, self.heading)
        for row, cells in enumerate([[column.heading for column in columns], *lines]):
            sheet.set_row_pixels(row, _pixels_high(columns, cells))
            for column, cell in enumerate(cells if row else ()):
                self._cell(sheet, row, column, cell)
        sheet.freeze_panes(1, 3 if name == "Values" else 1)
        sheet.autofilter(0, 0, max(1, len(lines)), len(columns) - 1)
        sheet.set_landscape()
        sheet.set_paper(3 if len(columns) > 9 else 1)  # 11 x 17 in, or letter
        sheet.fit_to_pages(1, 0)
        sheet.repeat_rows(0)
        sheet.set_header(self.header)
        sheet.set_footer(self.footer)
        return sheet

    def _cell(self, sheet: Any, row: int, column: int, cell: Cell) -> None:
        if isinstance(cell, str):
            text = harmless(cell)
            text = text if len(text) <= LONGEST else text[:LONGEST] + " [longer: see the job record]"
            sheet.write_string(row, column, text, self.loud if _is_loud(text) else self.text)
        elif cell is not None:
            sheet.write_number(row, column, cell, self.number)
        else:
            sheet.write_blank(row, column, None, self.text)


def _pixels_high(columns: Sequence[Column], cells: Sequence[Cell], least: int = 22) -> int:
    """Height of a row in which every cell shows all its lines, a few pixels too high rather than one too low."""
    lines = max((-(-len(cell) // max(1, int(column.width * 0.9))) for column, cell in zip(columns, cells, strict=True)
                 if isinstance(cell, str)), default=1)  # fmt: skip
    return min(540, max(least, 20 * lines + 2))


def _is_loud(text: str) -> bool:
    return text.startswith(("CAN'T READ", "CONFLICT", NOT_FOUND, "STOP", "HOLD"))


def _findings(job: Job) -> Iterator[Sequence[Cell]]:
    for number, finding in numbered(job):
        at = finding.source
        yield (finding.level.upper(), number or "", f"before {BEFORE[step(finding.field, finding.code)]}" if number else "",
               finding.wall_type or "", label_of(finding.field) if finding.field else "", finding.message,
               (at.sheet or "") if at else "", float(at.page) if at else "", finding.citation or "", finding.code,
               "", "", "", "")  # fmt: skip
    yield ("", "", "", "", "", summary(job), *[""] * 8)


def _value(value: Traced, numbers: dict[tuple[int, Box], int]) -> Sequence[Cell]:
    source = value.reading.source
    box = " ".join(f"{edge:.1f}" for edge in source.box)
    return (float(value.number), value.kind, value.mark, value.label, value.reading.as_printed, value.text, value.decimal,
            value.unit, value.state, value.origin, source.sheet or "", float(source.page),
            float(numbers.get((source.page, source.box), 0)), box, ", ".join(value.questions), "", "", "")  # fmt: skip


def _around(value: Traced) -> Source:
    """The place of a value with some of its row on both sides."""
    x0, y0, x1, y1 = value.reading.source.box
    return value.reading.source.model_copy(update={"box": (x0 - 40, y0 - 5, x1 + 40, y1 + 5)})


def _add_pictures(sheet: Any, values: Sequence[Traced], shown: dict[Source, Picture]) -> None:
    """A picture beside each value, which moves, hides and sorts with its row."""
    for row, value in enumerate(values, 1):
        picture = shown.get(_around(value))
        if picture is None:
            continue
        factor = min(0.75, PICTURE[0] / picture.size[0], PICTURE[1] / picture.size[1])
        sheet.set_row_pixels(row, _pixels_high(VALUES, _value(value, {}), PICTURE[1] + 6))
        sheet.insert_image(row, PICTURE_COLUMN, f"{value.number}.png", {
            "image_data": io.BytesIO(picture.png), "x_scale": factor, "y_scale": factor, "x_offset": 2, "y_offset": 2,
            "object_position": 1, "description": f"{place(value.reading.source)} of the plans at this value",
        })  # fmt: skip


def _types(job: Job, rows: Rows) -> Iterator[Sequence[Cell]]:
    for wall, values in rows:
        if isinstance(wall, WallType):
            card = face(wall, job)
            at = wall.mark.source
            yield (mark_of(wall), at.sheet or "", float(at.page), "HOLD" if card.hold else "to compare",
                   ", ".join(question.number for question in card.questions),
                   *(_field(name, wall, values, job) for name in _WALL))  # fmt: skip


def _holds(job: Job, rows: Rows) -> Iterator[Sequence[Cell]]:
    for hold, values in rows:
        if isinstance(hold, HoldDown):
            at = hold.mark.source
            asked = dict.fromkeys(q for name in ("mark", *_HOLD_DOWN) for q in questions_about(job, hold, name))
            drawn = sum(len(mark.boxes) for mark in job.plan_marks if mark.kind == "hold-down" and mark.mark == mark_of(hold))
            yield (mark_of(hold), at.sheet or "", float(at.page), ", ".join(asked), float(drawn),
                   *(_field(name, hold, values, job) for name in _HOLD_DOWN))  # fmt: skip


def _field(name: str, row: Row, values: Sequence[Traced], job: Job) -> str:
    """All that one row gives for a field; what the plans leave open is said, with the number of the question."""
    mine = [value for value in values if value.name.split("[")[0] == name]
    if not mine:
        if name not in not_found(row):
            return "does not apply"
        questions = questions_about(job, row, name)
        return NOT_FOUND + (f" - ask ({', '.join(questions)})" if questions else "")
    texts = " | ".join(dict.fromkeys(value.text for value in mine))
    return f"CONFLICT: {texts}" if mine[0].state == "CONFLICT" else texts


def _marks(job: Job) -> Iterator[Sequence[Cell]]:
    known = {"wall": {mark_of(row).casefold() for row in job.wall_types},
             "hold-down": {mark_of(row).casefold() for row in job.hold_downs}}  # fmt: skip
    for mark in job.plan_marks:
        lengths = ", ".join("not written" if length is None else inch(length) for length in mark.lengths_in)
        yield (mark.mark, mark.kind, mark.sheet or "", float(mark.page), float(len(mark.boxes)),
               "yes" if mark.mark.casefold() in known[mark.kind] else "NO ROW", lengths)  # fmt: skip


def _coverage(job: Job, *, pictured: bool) -> Iterator[Sequence[Cell]]:
    plans = job.plan_set
    yield "plan set", plans.file, f"{plans.pages} pages"
    yield "digest of the file (sha256)", plans.sha256, ""
    yield from (("sheet", sheet_line(sheet), _where(sheet.number, sheet.page)) for sheet in job.sheets)
    yield "looked through", f"{len(job.coverage.pages_read)} of {plans.pages} pages", ""
    yield from unread(job)
    if not pictured:
        yield "no pictures", "The plans were not at hand when this was written.", ""
    yield "open", summary(job), ""
    yield "who governs", GOVERN, ""
    yield "report", " ".join(REPORT.split()), ""


def _where(number: str | None, page: int) -> str:
    return f"sheet {number}, page {page}" if number else f"page {page}"
