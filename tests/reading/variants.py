"""The same sheets stored in another way: moved, turned, wrapped in forms. What a reader sees stays where it was."""

import io
from collections.abc import Callable
from pathlib import Path

import pikepdf


def changed(source: Path, target: Path, change: Callable[[pikepdf.Pdf, pikepdf.Page], None]) -> Path:
    """A copy of the plan set with every page changed."""
    with pikepdf.open(source) as pdf:
        for page in pdf.pages:
            page.contents_coalesce()
            change(pdf, page)
        out = io.BytesIO()
        pdf.save(out, deterministic_id=True)
    target.write_bytes(out.getvalue())
    return target


def _placed(pdf: pikepdf.Pdf, page: pikepdf.Page, matrix: str) -> None:
    page.Contents = pdf.make_stream(f"q {matrix} cm\n".encode() + page.Contents.read_bytes() + b"\nQ")


def _size(page: pikepdf.Page) -> tuple[float, float]:
    left, bottom, right, top = (float(edge) for edge in page.mediabox)
    assert (left, bottom) == (0, 0)
    return right, top


def moved(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
    """The page's corner lies elsewhere than at zero."""
    width, height = _size(page)
    _placed(pdf, page, "1 0 0 1 137.5 -88.25")
    page.mediabox = [137.5, -88.25, 137.5 + width, height - 88.25]


def cropped(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
    """The sheet is the visible part of a larger page."""
    width, height = _size(page)
    _placed(pdf, page, "1 0 0 1 40 60")
    page.mediabox = [0, 0, width + 100, height + 150]
    page.cropbox = [40, 60, 40 + width, 60 + height]


def turned(degrees: int) -> Callable[[pikepdf.Pdf, pikepdf.Page], None]:
    """The page is stored turned and /Rotate puts it upright."""

    def turn(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
        width, height = _size(page)
        _placed(pdf, page, {90: f"0 1 -1 0 {height} 0", 180: f"-1 0 0 -1 {width} {height}", 270: f"0 -1 1 0 0 {width}"}[degrees])
        page.mediabox = [0, 0, *((width, height) if degrees == 180 else (height, width))]
        page.obj["/Rotate"] = degrees

    return turn


def in_forms(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
    """All that is drawn lies in a form in a form, the inner one drawn at twice its size."""
    width, height = _size(page)
    inner = pdf.make_stream(page.Contents.read_bytes())
    inner.stream_dict.update(_form(pikepdf.Array([0, 0, width, height]), page.Resources, [0.5, 0, 0, 0.5, 0, 0]))
    outer = pdf.make_stream(b"q 2 0 0 2 0 0 cm /Inner Do Q")
    resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Inner=inner))
    outer.stream_dict.update(_form(pikepdf.Array([0, 0, width, height]), resources, [1, 0, 0, 1, 0, 0]))
    page.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(Outer=outer))
    page.Contents = pdf.make_stream(b"q /Outer Do Q")


def _form(box: pikepdf.Array, resources: pikepdf.Object, matrix: list[float]) -> pikepdf.Dictionary:
    return pikepdf.Dictionary(
        Type=pikepdf.Name.XObject, Subtype=pikepdf.Name.Form, BBox=box, Resources=resources, Matrix=pikepdf.Array(matrix)
    )


def in_pieces(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
    """The content is cut into several streams, as programs that add to a page leave it."""
    lines = page.Contents.read_bytes().split(b"\nBT\n")
    middle = len(lines) // 2
    page.Contents = pikepdf.Array([pdf.make_stream(b"\nBT\n".join(lines[:middle])),
                                   pdf.make_stream(b"BT\n" + b"\nBT\n".join(lines[middle:]))])  # fmt: skip


def said_otherwise(shown: bytes, said: bytes) -> Callable[[pikepdf.Pdf, pikepdf.Page], None]:
    """The first string ``shown`` carries another text than its letters: pdfium takes the text, pdfplumber the letters."""

    def say(pdf: pikepdf.Pdf, page: pikepdf.Page) -> None:
        drawn = b"(" + shown + b") Tj"
        page.Contents = pdf.make_stream(
            page.Contents.read_bytes().replace(drawn, b"/Span <</ActualText (" + said + b")>> BDC " + drawn + b" EMC", 1)
        )

    return say


VARIANTS = {
    "moved": moved,
    "cropped": cropped,
    "turned 90": turned(90),
    "turned 180": turned(180),
    "turned 270": turned(270),
    "in forms": in_forms,
    "in pieces": in_pieces,
}
