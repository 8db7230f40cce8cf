"""Open plan sets; a quick pass over every sheet's text; words and drawn lines of one sheet when asked for."""

import hashlib
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from types import TracebackType

import pypdfium2 as pdfium
import pypdfium2.raw as c

from extractor import limits
from extractor import password as kept
from extractor.errors import (
    DamagedPlansError,
    EmptyPlansError,
    LockedPlansError,
    MissingPlansError,
    NotPdfError,
    OverLimitError,
)
from extractor.files import is_file, is_folder, opened
from extractor.paper import page as drawn
from extractor.paper.page import Outline, View
from extractor.paper.phrases import Phrase, phrases
from extractor.paper.quick import Quick, garbled, quick_pass
from extractor.paper.titleblock import TitleBlock, title_block
from extractor.paper.words import Word, from_labels, words
from extractor.record import Box

Progress = Callable[[int, int, str], None]
"""Called with sheets done, sheets in all, and what is being done."""


class Sheet:
    """One page of the plan set. What the quick pass took is always there; words and lines are read when first asked for."""

    def __init__(self, plans: "PlanSet", page: int, document: int, index: int, quick: Quick) -> None:
        """``page`` counts from 1 through the set; ``document`` and ``index`` say where it lies."""
        self.plans, self.page, self.document, self.index = plans, page, document, index
        self.quick, self.kind, self.size, self.tokens = quick.text, quick.kind, quick.size, quick.tokens
        self._block = quick.block

    @cached_property
    def block(self) -> TitleBlock:
        """What the title block says."""
        if self._block is not None:
            return self._block
        return title_block(self.phrases, self.size) if self.kind != "none" else TitleBlock(None, None, None, None)

    @property
    def number(self) -> str | None:
        """The sheet number."""
        return self.block.number

    @cached_property
    def garbled(self) -> bool:
        """Whether the file gives letters that make no words: a broken map from glyphs to letters."""
        return garbled(self.quick) and not self.scrambled

    @cached_property
    def compact(self) -> str:
        """The quick text in capitals without any space: how a phrase is searched whatever the letter-spacing."""
        return "".join(self.quick.split()).upper()

    @cached_property
    def scrambled(self) -> bool:
        """Whether the file's order of characters is no reading order (one character at a time), so the quick text says little."""
        pieces = self.quick.split()
        return len(pieces) > 40 and sum(map(len, pieces)) / len(pieces) < 1.7

    @cached_property
    def words(self) -> tuple[Word, ...]:
        """Every word on the sheet."""
        with self.plans.page(self) as (page, view):
            if self.kind == "annotations":
                return tuple(from_labels(drawn.labels(page, view, any_title=True)))
            return tuple(words(drawn.chars(page, view)) + from_labels(drawn.labels(page, view, any_title=False)))

    def take(self, words: tuple[Word, ...]) -> None:
        """Take these words for the sheet's, and make its phrases anew."""
        self.__dict__["words"] = words
        self.__dict__.pop("phrases", None)

    @cached_property
    def phrases(self) -> tuple[Phrase, ...]:
        """The words as phrases."""
        return tuple(phrases(self.words))

    def outlines(self, region: Box, *, largest: float | None = None) -> Iterator[Outline]:
        """Drawn paths that meet ``region``; ``largest`` leaves out longer ones."""
        with self.plans.page(self) as (page, view):
            yield from drawn.outlines(page, view, region, largest=largest)


class PlanSet:
    """One or several PDFs as one plan set; a context manager that closes them."""

    def __init__(self, files: Sequence[Path], documents: Sequence[pdfium.PdfDocument], digests: Sequence[str]) -> None:
        """Take opened documents; the quick pass is `open_plans`'s."""
        self.files, self.documents, self.digests = tuple(files), tuple(documents), tuple(digests)
        self.sheets: tuple[Sheet, ...] = ()

    @property
    def sha256(self) -> str:
        """The file's digest; of several files, the digest of their digests in order."""
        if len(self.digests) == 1:
            return self.digests[0]
        return hashlib.sha256("".join(self.digests).encode()).hexdigest()

    @property
    def name(self) -> str:
        """The file's name, or the names joined; line ends, signs that turn a line round and broken letters are replaced."""
        return " + ".join("".join(ch if ch.isprintable() else "\ufffd" for ch in path.name) for path in self.files)

    @contextmanager
    def page(self, sheet: Sheet) -> Iterator[tuple[pdfium.PdfPage, View]]:
        """The sheet's page, open for as long as the block runs, and the view that turns it upright."""
        page = self.documents[sheet.document][sheet.index]
        try:
            with drawn.placed(self.files[sheet.document], sheet.index + 1):
                yield page, View(page)
        finally:
            page.close()

    def __enter__(self) -> "PlanSet":
        """Itself."""
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        """Close the documents."""
        for document in self.documents:
            document.close()


def find_pdfs(paths: Sequence[Path]) -> list[Path]:
    """The PDF files named, and those in the folders named, by name; MissingPlansError where there are none."""
    out: list[Path] = []
    for path in paths:
        if is_folder(path):
            inside = sorted(p for p in path.iterdir() if p.suffix.lower() == ".pdf" and not is_folder(p))
            if not inside:
                raise MissingPlansError("The folder holds no PDF.", where=str(path), do="Name the plan PDF or its folder.")
            out += inside
        elif is_file(path):
            out.append(path)
        else:
            raise MissingPlansError("There is no such file.", where=str(path), do="Check the name and the folder.")
    if not out:
        raise MissingPlansError("No plans were named.", where="the command line", do="Name the plan PDF or its folder.")
    return out


def open_plans(
    paths: Sequence[Path],
    progress: Progress | None = None,
    password: str | None = None,
    meanwhile: Callable[[], object] = lambda: None,
) -> PlanSet:
    """Open the plans and read every sheet's quick text, one page open at a time.

    ``meanwhile`` is called while a second process reads part of a large set: a moment for slow imports.
    Raises MissingPlansError, EmptyPlansError, NotPdfError, LockedPlansError or DamagedPlansError; each names the file.
    """
    files = find_pdfs(paths)
    password = password or kept.in_use()
    documents, digests = [], []
    for path in files:
        document, digest = _open(path, password)
        documents.append(document)
        digests.append(digest)
    plans = PlanSet(files, documents, digests)
    total = sum(len(d) for d in documents)
    if total > limits.PAGES:
        raise OverLimitError(
            f"The plans have {total:,} pages; at most {limits.PAGES:,} are read.",
            where=plans.name,
            do="Name the files of one plan set.",
        )
    sheets: list[Sheet] = []
    for number, (path, document) in enumerate(zip(files, documents, strict=True)):
        for quick in quick_pass(path, document, password, meanwhile):
            sheets.append(Sheet(plans, len(sheets) + 1, number, len(sheets) - sum(len(d) for d in documents[:number]), quick))
            if progress:
                progress(len(sheets), total, "looking through sheets")
    plans.sheets = tuple(sheets)
    return plans


def _open(path: Path, password: str | None) -> tuple[pdfium.PdfDocument, str]:
    try:
        with opened(path) as file:
            head = file.read(1024)
            file.seek(0, 2)
            size = file.tell()
            if size > limits.BYTES:
                raise OverLimitError(
                    f"The file is larger than {limits.BYTES >> 30} GB.", where=str(path), do="Name the sheets that matter alone."
                )
            file.seek(max(0, size - 2048))
            tail = file.read()
            file.seek(0)
            digest = hashlib.file_digest(file, "sha256").hexdigest()
    except OSError as error:
        raise DamagedPlansError(
            "The file cannot be read.", where=f"{path}: {error.strerror}", do="Check the disk, or copy the file again."
        ) from error
    if not size:
        raise EmptyPlansError("The file is empty.", where=str(path), do="Download or copy the plans again.")
    if b"%PDF-" not in head:
        raise NotPdfError("This is no PDF.", where=str(path), do="Ask for the plans as PDF, or print them to PDF.")
    if b"%%EOF" not in tail:
        raise DamagedPlansError(
            "The PDF is cut short: its end is missing.", where=str(path), do="Download or copy the plans again."
        )
    try:
        document = pdfium.PdfDocument(path, password=password)
        pages = len(document)
    except pdfium.PdfiumError as error:
        if c.FPDF_GetLastError() == c.FPDF_ERR_PASSWORD or "password" in str(error).lower():
            raise LockedPlansError(
                "The password does not open the plans." if password else "The plans need a password.",
                where=f"{path}, from page 1 on",
                do="Ask the engineer for an unlocked PDF, or name a file that holds the password: --password-file FILE.",
            ) from error
        raise DamagedPlansError(
            "The PDF is broken and cannot be opened.", where=str(path), do="Download the plans again, or ask for a new PDF."
        ) from error
    if not pages:
        raise EmptyPlansError("The PDF has no pages.", where=str(path), do="Ask for the plans again.")
    return document, digest
