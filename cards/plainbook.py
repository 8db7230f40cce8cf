"""Tables as a workbook: text stays text, counts are numbers, nothing is ever a formula. The same tables give the same bytes."""

import datetime
import io
from collections.abc import Sequence
from typing import Any, NamedTuple

from cards.findings import GOVERN, REPORT, guarded

LONGEST = 32_000  # characters of a cell; a workbook takes 32,767


class Table(NamedTuple):
    """One sheet: its name, its headings with their widths in characters, and its rows."""

    name: str
    columns: Sequence[tuple[str, float]]
    rows: Sequence[Sequence[str | float | None]]


def workbook(title: str, head: str, tables: Sequence[Table]) -> bytes:
    """The tables as xlsx, after them a sheet with ``head`` and with who governs."""
    import xlsxwriter

    data = io.BytesIO()
    book: Any = xlsxwriter.Workbook(data, {"in_memory": True, "strings_to_formulas": False, "strings_to_numbers": False,
                                           "strings_to_urls": False})  # fmt: skip
    book.set_properties({"title": title, "created": datetime.datetime(2000, 1, 1)})
    bold = book.add_format({"bold": True, "bottom": 2, "text_wrap": True, "valign": "top"})
    text = book.add_format({"text_wrap": True, "valign": "top", "num_format": "@"})
    for table in tables:
        _sheet(book.add_worksheet(table.name), table, bold, text)
    notes = book.add_worksheet("Read this")
    notes.set_column(0, 0, 120)
    for row, words in enumerate((head, GOVERN, " ".join(REPORT.split()))):
        notes.write_string(row, 0, guarded(words), text)
    book.close()
    return data.getvalue()


def _sheet(sheet: Any, table: Table, bold: Any, text: Any) -> None:
    for column, (name, width) in enumerate(table.columns):
        sheet.set_column(column, column, width)
        sheet.write_string(0, column, name, bold)
    for row, cells in enumerate(table.rows, 1):
        for column, cell in enumerate(cells):
            if isinstance(cell, str):
                if cell:
                    sheet.write_string(row, column, guarded(cell)[:LONGEST], text)
            elif cell is not None:
                sheet.write_number(row, column, cell)
    sheet.freeze_panes(1, 1)
    sheet.autofilter(0, 0, max(1, len(table.rows)), len(table.columns) - 1)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(0)
    sheet.set_footer("&L" + GOVERN + "&RPage &P of &N")
