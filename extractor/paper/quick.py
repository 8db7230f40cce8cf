"""The quick pass: every page opened once, its text taken as pdfium orders it, its title block and short words with their places.

A set of many pages is shared between this process and a second one.
"""

import ctypes
import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path
from typing import Any, Literal, NamedTuple

import pypdfium2 as pdfium
import pypdfium2.raw as c
import regex as re

from extractor import guard, limits
from extractor.errors import DamagedPlansError, OverLimitError
from extractor.paper import page as drawn
from extractor.paper.page import View
from extractor.paper.phrases import phrases
from extractor.paper.titleblock import Places, TitleBlock, from_places, places, title_block
from extractor.paper.words import from_labels, words
from extractor.record import Box

TextKind = Literal["drawn", "annotations", "ocr", "none"]
FEW = 12  # characters: a page with fewer has no text to speak of
MANY = 24  # pages: from here on a second process pays
HEAD_START = 16  # pages that the second process reads while this one loads the grammar
LEADERS = frozenset("._-…·")  # dots that lead from a label to its value say nothing of the font
BOUNDED = 256  # characters: more stand at no place of a title block
TOKEN = re.compile(r"(?<!\S)(?:[A-Z]{1,4}[-.]?\d{1,3}[A-Z]?|[A-Z]{1,3}-[A-Z]\d?)(?!\S)")
COMMON = frozenset(
    "THE OF AND TO AT IN FOR SEE ALL PER SHALL BE PLAN WALL NOTES SCALE SHEET DATE TYP MIN STUDS EDGE NAIL WITH ON IS BY SCHEDULE"
    " PROJECT ROOF FLOOR CONCRETE BEAM MARK SIZE FOUNDATION FRAMING TITLE ENGINEER STRUCTURAL".split()
)


_UNSEEN = dict.fromkeys((0, *drawn.UNSEEN), " ")  # one sign for one: places in the text are counted


class Token(NamedTuple):
    """A short word with a digit, as marks are, found in the quick text; ``alone`` where no other word is near on its line."""

    text: str
    box: Box
    alone: bool
    before: str  # the rest of the text line on either side
    after: str


class Quick(NamedTuple):
    """What the quick pass takes from one page."""

    text: str
    kind: TextKind
    size: tuple[float, float]
    block: TitleBlock | None
    tokens: tuple[Token, ...]


def garbled(text: str) -> bool:
    """Whether a text of many words has none of the words that every drawing has, or hardly a letter among its characters."""
    solid = [ch for ch in text if not (ch.isspace() or ch in LEADERS)]
    if len(solid) < 60:
        return False
    known = sum(ch.isascii() and ch.isalnum() for ch in solid)
    if known < 0.35 * len(solid):
        return True
    pieces = [p for p in re.findall(r"[^\W\d_]{2,}", text.upper())]
    return len(pieces) >= 60 and not COMMON & set(pieces) and not COMMON & {p[::-1] for p in pieces}


def quick_pass(
    path: Path, document: pdfium.PdfDocument, password: str | None, meanwhile: Callable[[], object]
) -> Iterator[Quick]:
    """What the pass takes from each page, in order. From `MANY` pages on the larger part is read by a second process.

    ``meanwhile`` is called once, while the second process is at work: this one has the grammar to load.
    """
    count = len(document)
    alone = count < MANY or (os.cpu_count() or 1) < 2 or not guard.can_fork()
    if alone:
        meanwhile()
        yield from _pages(document, range(count), path)
        return
    middle = max(1, (count - HEAD_START) * 2 // 5)
    with ProcessPoolExecutor(1, multiprocessing.get_context("fork"), guard.end_with, (os.getpid(),)) as pool:
        rest = pool.submit(_elsewhere, path, middle, count, password)
        yield from _pages(document, range(middle), path)
        meanwhile()
        try:
            yield from rest.result()
        except BrokenProcessPool as error:
            raise OverLimitError(
                "Reading these plans takes more memory or time than any plan set does.",
                where=str(path),
                do="Ask for a new PDF, or read the sheets that matter alone.",
            ) from error


def _elsewhere(path: Path, start: int, end: int, password: str | None) -> list[Quick]:
    document = pdfium.PdfDocument(path, password=password)
    try:
        return list(_pages(document, range(start, end), path))
    finally:
        document.close()


def _pages(document: pdfium.PdfDocument, indexes: Sequence[int], path: Path) -> Iterator[Quick]:
    learnt: dict[tuple[float, float], Places | None] = {}
    for index in indexes:
        try:
            page = document[index]
        except pdfium.PdfiumError as error:
            raise DamagedPlansError(
                "A page is broken.", where=f"{path}, page {index + 1}", do="Download the plans again, or ask for a new PDF."
            ) from error
        try:
            with drawn.placed(path, index + 1):
                quick = _quick(page, learnt)
        finally:
            page.close()
        yield quick


def _quick(page: pdfium.PdfPage, learnt: dict[tuple[float, float], Places | None]) -> Quick:
    """The page's text in the file's order, where it comes from, and what stands at the places of the title block."""
    view = View(page)
    size = (view.width, view.height)
    raw = c.FPDFText_LoadPage(page.raw)
    try:
        count = c.FPDFText_CountChars(raw)
        drawn.refuse("letters", count, limits.LETTERS)
        buffer = ctypes.create_string_buffer((count + 1) * 2)
        c.FPDFText_GetText(raw, 0, count, ctypes.cast(buffer, ctypes.POINTER(ctypes.c_ushort)))
        text = buffer.raw[: 2 * count].decode("utf-16-le", "replace").translate(_UNSEEN)
        annotated = c.FPDFPage_GetAnnotCount(page.raw) > 0
        if len(text.strip()) >= FEW:
            kind: TextKind = "ocr" if _may_be_scan(page) and drawn.is_ocr(page) else "drawn"
            tokens = tuple(_tokens(raw, text, view))
            block = _block(page, raw, view, learnt)
            if annotated:
                text += "\n" + "\n".join(label.text for label in drawn.labels(page, view, any_title=False))
            return Quick(text, kind, size, block, tokens)
        if annotated:
            found = drawn.labels(page, view, any_title=True)
            notes = "\n".join(label.text for label in found)
            if len(notes) >= FEW:
                return Quick(notes, "annotations", size, title_block(phrases(from_labels(found)), size), ())
        return Quick(text, "none", size, None, ())
    finally:
        c.FPDFText_ClosePage(raw)


def _block(page: pdfium.PdfPage, raw: Any, view: View, learnt: dict[tuple[float, float], Places | None]) -> TitleBlock:
    """The title block: from the places where a sheet of this size had it, or worked out from all the sheet's words."""
    size = (view.width, view.height)
    known = learnt.get(size)
    if known:
        texts = [_bounded(raw, view.back(box)) if box else "" for box in known]
        block = from_places(*texts)
        if block and (block.date or not known.date):
            return block
    found = phrases(words(drawn.chars(page, view)))
    learnt[size] = places(found, size)
    return title_block(found, size)


def _bounded(raw: Any, box: tuple[float, float, float, float]) -> str:
    left, bottom, right, top = box
    buffer = (ctypes.c_ushort * BOUNDED)()
    size = c.FPDFText_GetBoundedText(raw, left, top, right, bottom, buffer, BOUNDED)
    return bytes(buffer)[: 2 * min(size, BOUNDED)].decode("utf-16-le", "replace").rstrip("\x00").translate(_UNSEEN)


def _tokens(raw: Any, text: str, view: View) -> Iterator[Token]:
    """Words that may be marks, with their boxes, and whether they stand alone on their line."""
    for m in TOKEN.finditer(text):
        start, end = m.span()
        line0, line1 = text.rfind("\n", 0, start) + 1, text.find("\n", end)
        before, after = text[line0:start].strip(), text[end : line1 if line1 >= 0 else len(text)].strip()
        box = _box(raw, start, end, view)
        if box is None:
            continue
        height = min(box[2] - box[0], box[3] - box[1])
        alone = (
            not before or _far(raw, start - 1 - (len(text[line0:start]) - len(text[line0:start].rstrip())), box, height, view)
        ) and (not after or _far(raw, end + (len(text[end:line1]) - len(text[end:line1].lstrip())), box, height, view))
        yield Token(m[0], box, alone, before[-60:], after[:60])


def _far(raw: Any, index: int, box: Box, height: float, view: View) -> bool:
    other = _box(raw, index, index + 1, view)
    if other is None:
        return False
    apart = max(other[0] - box[2], box[0] - other[2], other[1] - box[3], box[1] - other[3])
    return apart > 1.1 * height


def _box(raw: Any, start: int, end: int, view: View) -> Box | None:
    rect, out = c.FS_RECTF(), []
    for i in (start, end - 1):
        index = c.FPDFText_GetCharIndexFromTextIndex(raw, i)
        if index < 0 or not c.FPDFText_GetLooseCharBox(raw, index, rect):
            return None
        out.append(view.box(rect.left, rect.bottom, rect.right, rect.top))
    (a0, b0, a1, b1), (c0, d0, c1, d1) = out
    return min(a0, c0), min(b0, d0), max(a1, c1), max(b1, d1)


def _may_be_scan(page: pdfium.PdfPage) -> bool:
    """Whether a picture lies among the first objects of the page: only then is it worth asking how its text is drawn."""
    for i in range(min(40, c.FPDFPage_CountObjects(page.raw))):
        if c.FPDFPageObj_GetType(c.FPDFPage_GetObject(page.raw, i)) == c.FPDF_PAGEOBJ_IMAGE:
            return True
    return False
