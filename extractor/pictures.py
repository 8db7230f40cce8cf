"""Pictures of what stands on the plans, cut from the sheets that hold it.

Boxes are in the reader's coordinates: points from the top left of the page as seen, after CropBox and /Rotate. Several files
are one plan set whose pages count through. Only the parts of a sheet that are shown are ever rendered, in a guarded process.
"""

import hashlib
import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import pypdfium2 as pdfium
import pypdfium2.raw as c
from PIL import Image

from extractor import files, password
from extractor.guard import Progress, guarded
from extractor.paper.page import View
from extractor.record import Box, Source

SCALE = 2.0  # pixels a point: 144 to the inch, at which the smallest lettering of a sheet still reads
LARGEST = 12_000_000  # pixels of one picture; all of a 36 x 24 in sheet would be 18 million

Pixels = tuple[int, int, int, int]
"""Left, top, right and bottom in pixels from the top left of the sheet."""


@dataclass(frozen=True)
class Picture:
    """A part of a sheet as PNG, in greys; ``box`` is what it shows, ``size`` its width and height in pixels."""

    page: int
    box: Box
    size: tuple[int, int]
    png: bytes


def digest(paths: Sequence[Path]) -> str:
    """The sha256 of a plan set as its job record has it: of the file, or of several files' digests in order."""
    each = []
    for path in paths:
        with files.opened(path) as file:
            each.append(hashlib.file_digest(file, "sha256").hexdigest())
    return each[0] if len(each) == 1 else hashlib.sha256("".join(each).encode()).hexdigest()


def picture(paths: Sequence[Path], source: Source, *, scale: float = SCALE, margin: float = 6.0) -> Picture | None:
    """One place of the plans; None where the set lacks the page or the page lacks the place."""
    return pictures(paths, [source], scale=scale, margin=margin).get(source)


def pictures(
    paths: Sequence[Path], sources: Iterable[Source], *, scale: float = SCALE, margin: float = 6.0
) -> dict[Source, Picture]:
    """A picture of each place with ``margin`` points round it; a place that is on no sheet has none."""
    wanted = tuple(dict.fromkeys(sources))
    if not wanted or not paths:
        return {}
    return guarded(partial(_pictures, tuple(paths), wanted, scale, margin), None, ", ".join(map(str, paths)))


def _pictures(paths: Sequence[Path], wanted: Sequence[Source], scale: float, margin: float, _: Progress) -> dict[Source, Picture]:
    made: dict[Source, Picture] = {}
    cuts: dict[tuple[int, Pixels], Picture] = {}
    for number, view, page in opened(paths, {source.page for source in wanted}):
        here = {source: _pixels(source.box, view, scale, margin) for source in wanted if source.page == number}
        for region in _joined({place for place in here.values() if place}, LARGEST):
            shown = _render(page, view, region, scale)
            for source, place in here.items():
                if place and source not in made and _inside(place, region):
                    if (number, place) not in cuts:
                        cuts[number, place] = _picture(number, place, _cut(shown, place, region), scale)
                    made[source] = cuts[number, place]
    return made


def located(paths: Sequence[Path], numbers: set[int]) -> Iterator[tuple[int, pdfium.PdfDocument, int]]:
    """Document and index of pages of the set by their number from 1, in order; a number that the set lacks is left out."""
    before = 0
    for path in paths:
        document = pdfium.PdfDocument(path, password=password.in_use())
        try:
            for index in range(len(document)):
                if before + index + 1 in numbers:
                    yield before + index + 1, document, index
            before += len(document)
        finally:
            document.close()


def opened(paths: Sequence[Path], numbers: set[int]) -> Iterator[tuple[int, View, pdfium.PdfPage]]:
    """Those pages with their views, one open at a time."""
    for number, document, index in located(paths, numbers):
        page = document[index]
        try:
            yield number, View(page), page
        finally:
            page.close()


def _pixels(box: Box, view: View, scale: float, margin: float) -> Pixels | None:
    """The pixels that a box and its margin touch, kept on the sheet; None where the box is beside the sheet."""
    x0, y0, x1, y1 = (max(0.0, box[0] - margin), max(0.0, box[1] - margin),
                      min(view.width, box[2] + margin), min(view.height, box[3] + margin))  # fmt: skip
    if x0 >= x1 or y0 >= y1:
        return None
    return int(x0 * scale), int(y0 * scale), int(-(-x1 * scale // 1)), int(-(-y1 * scale // 1))


def _joined(places: Iterable[Pixels], largest: int) -> list[Pixels]:
    """Places that touch as one, again and again, unless the whole would be larger than ``largest`` pixels."""
    done: list[Pixels] = []
    for place in sorted(places, key=lambda at: (at[1], at[0], at[3], at[2])):
        whole, again = place, True
        while again:
            again = False
            for other in done:
                both = _round(whole, other)
                if _touch(whole, other) and (_area(both) <= largest or both in (whole, other)):
                    done.remove(other)
                    whole, again = both, True
                    break
        done.append(whole)
    return sorted(done, key=lambda at: (at[1], at[0]))


def _touch(a: Pixels, b: Pixels) -> bool:
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def _round(a: Pixels, b: Pixels) -> Pixels:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[2], b[2]), max(a[3], b[3])


def _inside(a: Pixels, b: Pixels) -> bool:
    return _round(a, b) == b


def _area(a: Pixels) -> int:
    return (a[2] - a[0]) * (a[3] - a[1])


def _render(page: pdfium.PdfPage, view: View, region: Pixels, scale: float) -> Image.Image:
    """The region in greys, with whatever stands on the sheet as annotation."""
    left, top, right, bottom = region
    bitmap = pdfium.PdfBitmap.new_native(right - left, bottom - top, c.FPDFBitmap_Gray)
    try:
        bitmap.fill_rect((255, 255, 255, 255), 0, 0, right - left, bottom - top)
        size = round(view.width * scale), round(view.height * scale)
        c.FPDF_RenderPageBitmap(bitmap.raw, page.raw, -left, -top, *size, 0, c.FPDF_ANNOT | c.FPDF_GRAYSCALE)
        return Image.frombytes("L", (bitmap.width, bitmap.height), bytes(bitmap.buffer), "raw", "L", bitmap.stride)
    finally:
        bitmap.close()


def _cut(shown: Image.Image, place: Pixels, region: Pixels) -> Image.Image:
    return shown.crop((place[0] - region[0], place[1] - region[1], place[2] - region[0], place[3] - region[1]))


def _picture(page: int, place: Pixels, shown: Image.Image, scale: float) -> Picture:
    data = io.BytesIO()
    shown.quantize(16).save(data, "PNG", optimize=True)  # sixteen greys are plenty for lettering and lines
    box = (place[0] / scale, place[1] / scale, place[2] / scale, place[3] / scale)
    return Picture(page, box, shown.size, data.getvalue())
