"""Sheets of the plans with boxes and numbers drawn on, as drawn lines on drawn sheets: nothing turns into a picture.

Each sheet gets a strip above it that says what it is, and is followed by the pages that list its numbers.
"""

import ctypes
import hashlib
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as c

from extractor.guard import Progress, guarded
from extractor.paper.page import View
from extractor.pictures import located
from extractor.record import Box

STRIP = 0.017  # height of the strip above a sheet, in parts of the sheet's longer side
_ALONG = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}  # where the reader's right is, in page space
INK, PAPER, MARKER = (0, 0, 0), (255, 255, 255), (255, 238, 140)


@dataclass(frozen=True)
class Marked:
    """A sheet to show: its page, its numbered boxes, the words of its strip, and the pages that list its numbers (a PDF)."""

    page: int
    boxes: tuple[tuple[str, Box], ...]
    strip: str
    listed: bytes


def highlighted(paths: Sequence[Path], sheets: Sequence[Marked], *, font: bytes) -> bytes:
    """The sheets with their boxes, each followed by its list, as one PDF whose pages count through.

    ``font`` is a TrueType file for numbers and words. The same plans and boxes give the same bytes.
    """
    return guarded(partial(_highlighted, tuple(paths), tuple(sheets), font), None, ", ".join(map(str, paths)))


def _highlighted(paths: Sequence[Path], sheets: Sequence[Marked], font: bytes, _: Progress) -> bytes:
    wanted = {sheet.page: sheet for sheet in sheets}
    lists = {number: pdfium.PdfDocument(sheet.listed) for number, sheet in wanted.items()}
    total = sum(1 + len(listed) for listed in lists.values())
    made = pdfium.PdfDocument.new()
    try:
        face = _font(made, font)
        for number, document, index in located(paths, set(wanted)):
            made.import_pages(document, [index])
            made.import_pages(lists[number])
            pages = range(len(made) - 1 - len(lists[number]), len(made))
            for page in pages:
                with _Pen(made[page], face) as pen:
                    count = f"page {page + 1} of {total}"
                    if page == pages[0]:
                        _draw_sheet(pen, wanted[number], count)
                    else:
                        pen.words(count, 8.0, pen.view.width - 36, pen.view.height - 22, right=True)
        data = io.BytesIO()
        made.save(data)
    finally:
        made.close()
        for listed in lists.values():
            listed.close()
    return _steady(data.getvalue())


def _draw_sheet(pen: "_Pen", sheet: Marked, count: str) -> None:
    """Boxes with their numbers, and above the sheet a strip of new paper that says what this is."""
    for number, box in sheet.boxes:
        pen.frame(box)
        pen.number(number, box)
    high = STRIP * max(pen.view.width, pen.view.height)
    pen.add_above(high)
    size, wide = high * 0.5, pen.view.width
    room = wide - 3 * size - pen.width(count, size)
    size = min(size, size * room / max(1.0, pen.width(sheet.strip, size)))
    pen.words(sheet.strip, size, size, -0.32 * high)
    pen.words(count, high * 0.5, wide - high * 0.5, -0.32 * high, right=True)


class _Pen:
    """Draws on one page in the reader's coordinates, whichever way the page is turned."""

    def __init__(self, page: pdfium.PdfPage, face: Any) -> None:
        self.page, self.face, self.view = page, face, View(page)
        self.along = _ALONG[self.view.turn]

    def __enter__(self) -> "_Pen":
        return self

    def __exit__(self, *_: object) -> None:
        self.page.gen_content()
        self.page.close()

    def frame(self, box: Box) -> None:
        """A marker's stroke over the words, which prints as light grey, and a line round them."""
        wider = (box[0] - 1.5, box[1] - 1.0, box[2] + 1.5, box[3] + 1.0)
        self._rectangle(wider, fill=MARKER, blend=b"Multiply")
        self._rectangle(wider, line=0.9)

    def number(self, text: str, box: Box) -> None:
        """A number at the upper left corner of a box, with a white edge so that it reads on top of lines."""
        size = min(8.0, max(4.0, 0.5 * (box[3] - box[1])))
        place = (box[0] - 1.5, box[1] + 0.25 * size - 1.0)
        self.words(text, size, *place, edge=0.35 * size)
        self.words(text, size, *place)

    def add_above(self, high: float) -> None:
        """Make the page higher at the top, as a reader sees it, by ``high`` points of white."""
        x0, y0, x1, y1 = self.view.back((0.0, -high, self.view.width, self.view.height))
        self.page.set_mediabox(x0, y0, x1, y1)
        self.page.set_cropbox(x0, y0, x1, y1)
        self._rectangle((0.0, -high, self.view.width, 0.0), fill=PAPER)

    def words(self, text: str, size: float, x: float, baseline: float, *, right: bool = False, edge: float = 0.0) -> None:
        """Words that start at ``x``, or end there; with ``edge`` only a white rim of that width."""
        if right:
            x -= self.width(text, size)
        item = self._text(text, size)
        left, bottom, _, _ = self.view.back((x, baseline, x, baseline))
        a, b = self.along
        c.FPDFPageObj_Transform(item, a, b, -b, a, left, bottom)
        c.FPDFPageObj_SetFillColor(item, *INK, 255)
        if edge:
            c.FPDFPageObj_SetStrokeColor(item, *PAPER, 255)
            c.FPDFPageObj_SetStrokeWidth(item, edge)
            c.FPDFPageObj_SetLineJoin(item, c.FPDF_LINEJOIN_ROUND)
            c.FPDFTextObj_SetTextRenderMode(item, c.FPDF_TEXTRENDERMODE_STROKE)
        c.FPDFPage_InsertObject(self.page.raw, item)

    def width(self, text: str, size: float) -> float:
        """Width of words in points."""
        item = self._text(text, size)
        left, bottom, right, top = (ctypes.c_float() for _ in range(4))
        c.FPDFPageObj_GetBounds(item, left, bottom, right, top)
        c.FPDFPageObj_Destroy(item)
        return right.value - left.value

    def _text(self, text: str, size: float) -> Any:
        item = c.FPDFPageObj_CreateTextObj(self.page.pdf.raw, self.face, size)
        data = (text + "\0").encode("utf-16-le", "replace")
        c.FPDFText_SetText(item, ctypes.cast(ctypes.create_string_buffer(data), ctypes.POINTER(ctypes.c_ushort)))
        return item

    def _rectangle(self, box: Box, *, fill: tuple[int, int, int] | None = None, line: float = 0.0, blend: bytes = b"") -> None:
        x0, y0, x1, y1 = self.view.back(box)
        item = c.FPDFPageObj_CreateNewRect(x0, y0, x1 - x0, y1 - y0)
        if fill:
            c.FPDFPageObj_SetFillColor(item, *fill, 255)
        if line:
            c.FPDFPageObj_SetStrokeColor(item, *INK, 255)
            c.FPDFPageObj_SetStrokeWidth(item, line)
        if blend:
            c.FPDFPageObj_SetBlendMode(item, blend)
        c.FPDFPath_SetDrawMode(item, c.FPDF_FILLMODE_WINDING if fill else c.FPDF_FILLMODE_NONE, bool(line))
        c.FPDFPage_InsertObject(self.page.raw, item)


def _font(document: pdfium.PdfDocument, data: bytes) -> Any:
    held = (ctypes.c_uint8 * len(data)).from_buffer_copy(data)
    return c.FPDFText_LoadFont(document.raw, held, len(data), c.FPDF_FONT_TRUETYPE, 1)


def _steady(data: bytes) -> bytes:
    """The file without the time of writing, and with an identifier made from what it holds."""
    data = re.sub(rb"/(?:CreationDate|ModDate) ?\(D:[^()]*\)", lambda m: b" " * len(m[0]), data)
    blank = re.sub(rb"/ID ?\[<[0-9A-F]{32}><[0-9A-F]{32}>\]", lambda m: b" " * len(m[0]), data)
    own = hashlib.sha256(blank).hexdigest()[:32].upper().encode()
    return re.sub(rb"(/ID ?\[<)[0-9A-F]{32}(><)[0-9A-F]{32}(>\])", rb"\g<1>" + own + rb"\g<2>" + own + rb"\g<3>", data)
