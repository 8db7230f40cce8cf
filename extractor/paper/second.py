"""The second reading: pdfplumber's characters against the words that pdfium's characters made."""

import io
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

import pdfplumber
import pypdfium2 as pdfium
import pypdfium2.raw as c

from extractor.paper.page import View
from extractor.paper.phrases import along, lines
from extractor.paper.words import Word, union
from extractor.record import Box

REACH = 4.0  # of the type size: how far off another engine may put a word when it takes widths otherwise
WORDLESS = (c.FPDF_PAGEOBJ_PATH, c.FPDF_PAGEOBJ_SHADING, c.FPDF_PAGEOBJ_IMAGE)
STACKED = "/-"  # signs that a stacked fraction is drawn without
_UNSTACKED = str.maketrans("", "", STACKED)

Cells = dict[tuple[int, int], list[tuple[str, Box]]]
"""The other engine's characters with their boxes, by squares of 30 points."""


class Again(NamedTuple):
    """Words that were held against the other engine's characters; ``seen`` is false where it gave none at all."""

    words: tuple[Word, ...]
    seen: bool


def checked(document: pdfium.PdfDocument, index: int, view: View, words: Sequence[Word], tidy: Callable[[str], str]) -> Again:
    """The words, those marked ``disputed`` where pdfplumber finds other characters in their box.

    ``tidy`` gives a word in one spelling of quotes, dashes and ligatures, in which both engines are compared.
    The page is first written anew without its lines, which pdfplumber would parse at great cost and which say nothing here.
    Writing anew can move letters (it drops character spacing), so words in dispute are held against the page as it is.
    """
    found = _characters(document, index, view, light=True)
    again = _against(found, words, tidy)
    if any(word.disputed for word in again):
        found = _characters(document, index, view, light=False)
        again = _against(found, words, tidy)
    return Again(again, bool(found))


def _against(seen: Sequence[tuple[str, Box]], words: Sequence[Word], tidy: Callable[[str], str]) -> tuple[Word, ...]:
    cells: Cells = defaultdict(list)
    for text, box in seen:
        cells[int((box[0] + box[2]) / 2 // 30), int((box[1] + box[3]) / 2 // 30)].append((_bare(tidy(text)), box))
    letters = [_bare(tidy(word.text)) for word in words]
    odd = {i for i, word in enumerate(words) if not _same(word, letters[i], cells)}
    if odd:
        beside = _beside(words)
        odd = {i for i in odd if not _in_line(i, beside[i], words, letters, cells)}
    return tuple(replace(word, disputed=True) if i in odd else word for i, word in enumerate(words))


def _characters(document: pdfium.PdfDocument, index: int, view: View, *, light: bool) -> list[tuple[str, Box]]:
    single = pdfium.PdfDocument.new()
    single.import_pages(document, [index])
    only = single[0]
    if light:
        kept = 0
        for _ in range(c.FPDFPage_CountObjects(only.raw)):  # from the first on: the library looks for each from there
            item = c.FPDFPage_GetObject(only.raw, kept)
            if c.FPDFPageObj_GetType(item) in WORDLESS and c.FPDFPage_RemoveObject(only.raw, item):
                c.FPDFPageObj_Destroy(item)
            else:
                kept += 1
        only.gen_content()
    c.FPDFPage_SetRotation(only.raw, 0)
    only.close()
    data = io.BytesIO()
    single.save(data)
    single.close()
    out: list[tuple[str, Box]] = []
    drawn: dict[tuple[str, int, int], list[Box]] = defaultdict(list)
    for text, box in _parsed(data, view):
        a, b, near = int(box[0] // 8), int(box[1] // 8), 0.35 * min(max(box[2] - box[0], 1.0), max(box[3] - box[1], 1.0))
        same = (o for i in (a - 1, a, a + 1) for j in (b - 1, b, b + 1) for o in drawn.get((text, i, j), ()))
        if any(abs(o[0] - box[0]) < near and abs(o[1] - box[1]) < near for o in same):
            continue  # drawn twice for bold
        drawn[text, a, b].append(box)
        out.append((text, box))
    return out


def _parsed(data: io.BytesIO, view: View) -> list[tuple[str, Box]]:
    """The characters of the only page with their boxes; none where pdfplumber cannot read it, so that every word is disputed."""
    try:
        with pdfplumber.open(data) as written:
            parsed = written.pages[0]
            foot = parsed.page_obj.mediabox[1]  # pdfplumber counts up from the foot of the page, pdfium from zero
            found = [
                (char["text"], view.box(char["x0"], char["y0"] + foot, char["x1"], char["y1"] + foot)) for char in parsed.chars
            ]
    except (MemoryError, KeyboardInterrupt):
        raise
    except Exception:  # a broken file breaks it in many ways
        return []
    return [(text, box) for text, box in found if text.strip() and view.shows(box)]


def _same(word: Word, letters: str, cells: Cells) -> bool:
    """Whether the other engine has the word's letters in its box."""
    x0, y0, x1, y1 = word.box
    ours, theirs = Counter(letters), Counter("".join(text for text, _ in _held(cells, (x0 - 0.3, y0 - 0.8, x1 + 0.3, y1 + 0.8))))
    if ours == theirs:
        return True
    made = Counter({ch: n for ch, n in ours.items() if ch in STACKED})
    return ours - theirs <= made and not theirs - ours


def _beside(words: Sequence[Word]) -> list[tuple[int | None, int | None]]:
    """For each word the words before and after it on its line, where they are near."""
    at = {id(word): i for i, word in enumerate(words)}
    out: list[tuple[int | None, int | None]] = [(None, None)] * len(words)
    for line in lines(words):
        places: list[int | None] = [None, *(at[id(word)] for word in line), None]
        for k, word in enumerate(line):
            before, after = places[k], places[k + 2]
            near = [i if i is not None and _gap(word, words[i]) < REACH * word.size else None for i in (before, after)]
            out[at[id(word)]] = near[0], near[1]
    return out


def _gap(a: Word, b: Word) -> float:
    (a0, a1), (b0, b1) = along(a), along(b)
    return max(a0 - b1, b0 - a1)


def _in_line(i: int, beside: tuple[int | None, int | None], words: Sequence[Word], letters: Sequence[str], cells: Cells) -> bool:
    """Whether the word stands in the other engine's line between the same words: where it takes widths otherwise."""
    word, (before, after) = words[i], beside
    near = [k for k in (before, i, after) if k is not None]
    x0, y0, x1, y1 = union(words[k].box for k in near)
    reach, level = REACH * word.size, word.turn in (0, 180)
    line = _held(cells, (x0 - reach, y0 - 0.8, x1 + reach, y1 + 0.8) if level else (x0 - 0.8, y0 - reach, x1 + 0.8, y1 + reach))
    line.sort(key=lambda entry: entry[1][0 if level else 1], reverse=word.turn in (90, 180))
    ours, theirs = "".join(letters[k] for k in near), "".join(text for text, _ in line)
    if len(near) == 1 and len(ours) < 4:  # too short to be sure of, with nothing beside it
        return ours == theirs
    return ours in theirs or ours.translate(_UNSTACKED) in theirs.translate(_UNSTACKED)


def _held(cells: Cells, box: Box) -> list[tuple[str, Box]]:
    """Characters whose middle lies in the box."""
    x0, y0, x1, y1 = box
    return [
        (text, place)
        for a in range(int(x0 // 30), int(x1 // 30) + 1)
        for b in range(int(y0 // 30), int(y1 // 30) + 1)
        for text, place in cells.get((a, b), ())
        if x0 <= (place[0] + place[2]) / 2 <= x1 and y0 <= (place[1] + place[3]) / 2 <= y1
    ]


def _bare(text: str) -> str:
    return text.replace(" ", "").replace("'", "").replace('"', "")
