"""Pages of several PDFs put together as one PDF, in an order of one's own."""

from collections.abc import Iterable
from pathlib import Path

import pypdfium2 as pdfium

from extractor import password


def picked(pages: Iterable[tuple[Path, int]], out: Path) -> None:
    """Write a PDF of these pages, each a file and an index from 0, to ``out``; every file is opened once."""
    documents: dict[Path, pdfium.PdfDocument] = {}
    made = pdfium.PdfDocument.new()
    try:
        for path, index in pages:
            if path not in documents:
                documents[path] = pdfium.PdfDocument(path, password=password.in_use())
            made.import_pages(documents[path], [index])
        made.save(out)
    finally:
        made.close()
        for document in documents.values():
            document.close()
