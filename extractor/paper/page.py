"""One page of a PDF through pdfium: characters and drawn lines, in points from the top left as a reader sees the page."""

import ctypes
import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, NamedTuple

import pypdfium2 as pdfium
import pypdfium2.raw as c

from extractor import limits
from extractor.errors import OverLimitError
from extractor.record import Box

UNSEEN = frozenset(
    {*range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x206A), 0xFEFF}
)  # no ink, or turn a line round
INVISIBLE = 3  # PDF text render mode of an OCR layer


class Char(NamedTuple):
    """One drawn character: its box, the start of its baseline, its size, and the direction it is read in (x, y)."""

    text: str
    box: Box
    origin: tuple[float, float]
    size: float
    direction: tuple[float, float]
    unmapped: bool


class Label(NamedTuple):
    """A string that stands on the page as an annotation, with the annotation's rectangle."""

    text: str
    box: Box


class Segment(NamedTuple):
    """A drawn straight line."""

    x0: float
    y0: float
    x1: float
    y1: float


class Outline(NamedTuple):
    """One drawn path: its box, its corners in order, how many of its pieces are curves, and whether it closes."""

    box: Box
    points: tuple[tuple[float, float], ...]
    curves: int
    closed: bool
    stroked: bool
    filled: bool


DEVICE = 1_000_000  # a square so fine that its corners give the page's own to a thousandth of a point


def _page_point(page: pdfium.PdfPage, x: int, y: int) -> tuple[float, float]:
    px, py = ctypes.c_double(), ctypes.c_double()
    c.FPDF_DeviceToPage(page.raw, 0, 0, DEVICE, DEVICE, 0, x, y, px, py)
    return px.value, py.value


class View:
    """Page space to what a reader sees: CropBox and /Rotate are applied here and nowhere else."""

    def __init__(self, page: pdfium.PdfPage) -> None:
        """Take the turn and the visible part of ``page``, its boxes inherited or not: what pdfium would draw."""
        corners = [_page_point(page, x, y) for x, y in ((0, 0), (DEVICE, DEVICE))]
        self.left, self.right = sorted(x for x, _ in corners)
        self.bottom, self.top = sorted(y for _, y in corners)
        self.turn = page.get_rotation() % 360
        width, height = self.right - self.left, self.top - self.bottom
        self.width, self.height = (width, height) if self.turn in (0, 180) else (height, width)

    def point(self, x: float, y: float) -> tuple[float, float]:
        """A point of the page as seen."""
        if self.turn == 0:
            return x - self.left, self.top - y
        if self.turn == 90:
            return y - self.bottom, x - self.left
        if self.turn == 180:
            return self.right - x, y - self.bottom
        return self.top - y, self.right - x

    def shows(self, box: Box) -> bool:
        """Whether some of the box lies on the page, and the box is no larger than a page."""
        x0, y0, x1, y1 = box
        return (
            x1 >= 0
            and y1 >= 0
            and x0 <= self.width
            and y0 <= self.height
            and max(x1 - x0, y1 - y0) <= max(self.width, self.height)
        )

    def vector(self, x: float, y: float) -> tuple[float, float]:
        """A direction of the page as seen, y down."""
        if self.turn == 0:
            return x, -y
        if self.turn == 90:
            return y, x
        if self.turn == 180:
            return -x, y
        return -y, -x

    def box(self, left: float, bottom: float, right: float, top: float) -> Box:
        """A rectangle of the page as seen: x0, top, x1, bottom."""
        (ax, ay), (bx, by) = self.point(left, bottom), self.point(right, top)
        return min(ax, bx), min(ay, by), max(ax, bx), max(ay, by)

    def back(self, box: Box) -> tuple[float, float, float, float]:
        """The page-space rectangle (left, bottom, right, top) of a box as seen."""
        x0, y0, x1, y1 = box
        if self.turn == 0:
            return self.left + x0, self.top - y1, self.left + x1, self.top - y0
        if self.turn == 90:
            return self.left + y0, self.bottom + x0, self.left + y1, self.bottom + x1
        if self.turn == 180:
            return self.right - x1, self.bottom + y0, self.right - x0, self.bottom + y1
        return self.right - y1, self.top - x1, self.right - y0, self.top - x0


@contextmanager
def placed(path: object, page: int) -> Iterator[None]:
    """Give an OverLimitError inside the file and the page (from 1) that it is about."""
    try:
        yield
    except OverLimitError as error:
        raise OverLimitError(error.what, where=f"{path}, page {page}", do=error.do) from None


def refuse(what: str, count: int, most: int) -> None:
    """Raise an OverLimitError where a page holds more of something than any sheet does."""
    if count > most:
        raise OverLimitError(
            f"A sheet holds {count:,} {what}; at most {most:,} are read.",
            where="a sheet",
            do="Ask for a simpler PDF of this sheet.",
        )


def chars(page: pdfium.PdfPage, view: View) -> list[Char]:
    """Every character drawn on the page; spaces that pdfium adds are left out, drawn spaces are kept."""
    textpage = page.get_textpage()
    raw, out = textpage.raw, []
    rect, matrix = c.FS_RECTF(), c.FS_MATRIX()
    x, y = ctypes.c_double(), ctypes.c_double()
    rect_p, matrix_p, x_p, y_p = ctypes.byref(rect), ctypes.byref(matrix), ctypes.byref(x), ctypes.byref(y)
    for i in range(c.FPDFText_CountChars(raw)):
        if c.FPDFText_IsGenerated(raw, i) == 1:
            continue
        code = c.FPDFText_GetUnicode(raw, i)
        if code in (2, 0xAD):  # a hyphen at a line's end, a soft one that is drawn
            code = 45
        if code in (0, 10, 13, 0xFFFE, 0xFFFF):
            if code == 0 or code >= 0xFFFE:
                code = 0xFFFD
            else:
                continue
        if code in UNSEEN:
            continue
        if 0xD800 <= code <= 0xDFFF or code < 32 or 0x7F <= code < 0xA0:
            code = 0xFFFD
        c.FPDFText_GetLooseCharBox(raw, i, rect_p)
        c.FPDFText_GetMatrix(raw, i, matrix_p)
        c.FPDFText_GetCharOrigin(raw, i, x_p, y_p)
        size = c.FPDFText_GetFontSize(raw, i)
        along, across = math.hypot(matrix.a, matrix.b), math.hypot(matrix.c, matrix.d)
        if not along or not across:
            continue
        box = view.box(rect.left, rect.bottom, rect.right, rect.top)
        if not view.shows(box):
            continue
        out.append(
            Char(
                chr(code),
                box,
                view.point(x.value, y.value),
                abs(size) * across,
                view.vector(matrix.a / along, matrix.b / along),
                code == 0xFFFD or c.FPDFText_HasUnicodeMapError(raw, i) == 1,
            )
        )
    textpage.close()
    return out


def is_ocr(page: pdfium.PdfPage) -> bool:
    """Whether the page's text is an invisible layer over a picture that fills most of the page."""
    width, height = page.get_size()
    picture = invisible = visible = 0
    for item in _objects(page.raw):
        kind = c.FPDFPageObj_GetType(item)
        if kind == c.FPDF_PAGEOBJ_IMAGE:
            box = _bounds(item)
            picture = picture or (box[2] - box[0]) * (box[3] - box[1]) > 0.5 * width * height
        elif kind == c.FPDF_PAGEOBJ_TEXT:
            if c.FPDFTextObj_GetTextRenderMode(item) == INVISIBLE:
                invisible += 1
            else:
                visible += 1
    return bool(picture) and invisible > visible


def labels(page: pdfium.PdfPage, view: View, *, any_title: bool) -> list[Label]:
    """Words that stand in annotations: those titled as plotted text, or all of them where ``any_title``."""
    out = []
    count = c.FPDFPage_GetAnnotCount(page.raw)
    refuse("annotations", count, limits.LABELS)
    for i in range(count):
        annot = c.FPDFPage_GetAnnot(page.raw, i)
        if not annot:
            continue
        try:
            text = _string(annot, b"Contents").strip()
            rect = c.FS_RECTF()
            shown = c.FPDFAnnot_GetRect(annot, rect) and rect.right > rect.left and rect.top > rect.bottom
            box = view.box(rect.left, rect.bottom, rect.right, rect.top)
            if text and shown and view.shows(box) and (any_title or "TEXT" in _string(annot, b"T").upper()):
                out.append(Label(text, box))
        finally:
            c.FPDFPage_CloseAnnot(annot)
    return out


def _string(annot: Any, key: bytes) -> str:
    size = c.FPDFAnnot_GetStringValue(annot, key, None, 0)
    if size <= 2:
        return ""
    buffer = ctypes.create_string_buffer(size)
    c.FPDFAnnot_GetStringValue(annot, key, ctypes.cast(buffer, ctypes.POINTER(c.FPDF_WCHAR)), size)
    return buffer.raw[: size - 2].decode("utf-16-le", "replace")


_Matrix = tuple[float, float, float, float, float, float]
_SAME: _Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
MAX_FORM_DEPTH = 8


def _objects(raw: Any) -> Iterator[Any]:
    for i in range(c.FPDFPage_CountObjects(raw)):
        item = c.FPDFPage_GetObject(raw, i)
        if item:
            yield item


def _bounds(item: Any) -> tuple[float, float, float, float]:
    left, bottom, right, top = (ctypes.c_float() for _ in range(4))
    if not c.FPDFPageObj_GetBounds(item, left, bottom, right, top):
        return 0.0, 0.0, 0.0, 0.0
    return left.value, bottom.value, right.value, top.value


def _times(a: _Matrix, b: _Matrix) -> _Matrix:
    return (
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    )


def _apply(m: _Matrix, x: float, y: float) -> tuple[float, float]:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


def _matrix(item: Any) -> _Matrix:
    m = c.FS_MATRIX()
    c.FPDFPageObj_GetMatrix(item, m)
    return m.a, m.b, m.c, m.d, m.e, m.f


def _paths(page: pdfium.PdfPage, region: tuple[float, float, float, float]) -> Iterator[tuple[Any, _Matrix]]:
    """Path objects whose bounds meet ``region`` (page space), forms walked with their matrices."""

    def walk(item: Any, outer: _Matrix, depth: int) -> Iterator[tuple[Any, _Matrix]]:
        kind = c.FPDFPageObj_GetType(item)
        if kind not in (c.FPDF_PAGEOBJ_PATH, c.FPDF_PAGEOBJ_FORM):
            return
        left, bottom, right, top = _bounds(item)
        if outer is not _SAME:
            corners = [_apply(outer, x, y) for x in (left, right) for y in (bottom, top)]
            left, right = min(p[0] for p in corners), max(p[0] for p in corners)
            bottom, top = min(p[1] for p in corners), max(p[1] for p in corners)
        if right < region[0] or left > region[2] or top < region[1] or bottom > region[3]:
            return
        if kind == c.FPDF_PAGEOBJ_PATH:
            yield item, outer
        elif depth < MAX_FORM_DEPTH:
            inner = _times(_matrix(item), outer)
            for i in range(c.FPDFFormObj_CountObjects(item)):
                child = c.FPDFFormObj_GetObject(item, i)
                if child:
                    yield from walk(child, inner, depth + 1)

    for item in _objects(page.raw):
        yield from walk(item, _SAME, 0)


def outlines(page: pdfium.PdfPage, view: View, region: Box, *, largest: float | None = None) -> Iterator[Outline]:
    """Every subpath of every path that meets ``region``; ``largest`` skips paths that are longer than that either way."""
    refuse("drawn lines", c.FPDFPage_CountObjects(page.raw), limits.PATHS)
    x, y = ctypes.c_float(), ctypes.c_float()
    x_p, y_p = ctypes.byref(x), ctypes.byref(y)
    for item, outer in _paths(page, view.back(region)):
        if largest is not None and outer is _SAME:
            left, bottom, right, top = _bounds(item)
            if right - left > largest or top - bottom > largest:
                continue
        matrix = _times(_matrix(item), outer)
        fill, stroke = ctypes.c_int(), ctypes.c_int()
        c.FPDFPath_GetDrawMode(item, fill, stroke)
        points: list[tuple[float, float]] = []
        curves, closed = 0, False
        for i in range(c.FPDFPath_CountSegments(item)):
            segment = c.FPDFPath_GetPathSegment(item, i)
            kind = c.FPDFPathSegment_GetType(segment)
            if kind == c.FPDF_SEGMENT_MOVETO and points:
                yield _outline(points, curves, closed, bool(stroke.value), bool(fill.value))
                points, curves, closed = [], 0, False
            c.FPDFPathSegment_GetPoint(segment, x_p, y_p)
            points.append(view.point(*_apply(matrix, x.value, y.value)))
            curves += kind == c.FPDF_SEGMENT_BEZIERTO
            if c.FPDFPathSegment_GetClose(segment):
                closed = True
        if points:
            yield _outline(points, curves, closed, bool(stroke.value), bool(fill.value))


def _outline(points: list[tuple[float, float]], curves: int, closed: bool, stroked: bool, filled: bool) -> Outline:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return Outline((min(xs), min(ys), max(xs), max(ys)), tuple(points), curves, closed, stroked, filled)
