"""Words to phrases (words on one line without a wide gap) and phrases to paragraphs (numbered notes, wrapped lines)."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import regex as re

from extractor.paper.words import Word, union
from extractor.record import Box

WIDE = 1.0  # of the type size: a wider gap ends a phrase
HANGING = re.compile(r"\(?(?:\d{1,3}|[A-Za-z])[.):]|\d{1,2}")


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words on one line, left to right, no wide gap between them."""

    words: tuple[Word, ...]
    box: Box
    size: float
    turn: int = 0

    @property
    def text(self) -> str:
        """The words joined by spaces, footnote markers left out."""
        return " ".join(word.text for word in self.words if not word.raised)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Lines of text that belong together, with the number printed before them if there is one."""

    number: str | None
    words: tuple[Word, ...]
    box: Box
    size: float

    @property
    def text(self) -> str:
        """The words joined by spaces, without the number and without footnote markers."""
        return " ".join(word.text for word in self.words if not word.raised)


def phrase(words: Sequence[Word]) -> Phrase:
    """The words, already in reading order, as one phrase."""
    return Phrase(tuple(words), union(w.box for w in words), max(w.size for w in words), words[0].turn)


def phrases(words: Iterable[Word], *, wide: float = WIDE) -> list[Phrase]:
    """Level and turned words as phrases, top to bottom, then left to right."""
    out: list[Phrase] = []
    for line in lines(words):
        group, end = [line[0]], along(line[0])[1]
        for word in line[1:]:
            size = max(word.size, group[-1].size)
            if along(word)[0] - end > wide * size or not 0.6 < word.size / _solid(group).size < 1.7:
                if word.raised and along(word)[0] - along(group[-1])[1] < 0.3 * size:
                    group.append(word)
                    end = max(end, along(word)[1])
                    continue
                out.append(phrase(group))
                group, end = [], along(word)[1]
            group.append(word)
            end = max(end, along(word)[1])
        out.append(phrase(group))
    return sorted(out, key=lambda p: (p.box[1], p.box[0]))


def _solid(group: Sequence[Word]) -> Word:
    return next((w for w in reversed(group) if not w.raised), group[-1])


def along(word: Word) -> tuple[float, float]:
    """Start and end of the word in its reading direction."""
    x0, y0, x1, y1 = word.box
    return {90: (-y1, -y0), 180: (-x1, -x0), 270: (y0, y1)}.get(word.turn, (x0, x1))


def _across(word: Word) -> tuple[float, float]:
    x0, y0, x1, y1 = word.box
    return {90: (x0, x1), 180: (-y1, -y0), 270: (-x1, -x0)}.get(word.turn, (y0, y1))


def lines(words: Iterable[Word]) -> list[list[Word]]:
    """Words of one direction whose middles lie on one line, in reading order; raised words go with the line they hang on."""
    out: list[list[Word]] = []
    words = list(words)
    for turn in sorted({w.turn for w in words}):
        rows: list[_Row] = []
        same = sorted((w for w in words if w.turn == turn), key=lambda w: (w.raised, sum(_across(w)), along(w)))
        for word in same:
            middle = sum(_across(word)) / 2
            row = _hung_on(word, middle, rows) if word.raised else _level_with(word, middle, rows[-6:])
            if row is not None:
                row.add(word, middle)
            else:
                rows.append(_Row([word], middle, word.size))
        out += [sorted(row.words, key=along) for row in rows]
    return out


def _level_with(word: Word, middle: float, rows: Sequence["_Row"]) -> "_Row | None":
    """The last of the rows that the word is level with."""
    return next((r for r in reversed(rows) if abs(r.level - middle) <= 0.32 * min(word.size, r.largest)), None)


def _hung_on(word: Word, middle: float, rows: Sequence["_Row"]) -> "_Row | None":
    """The row nearest to a raised word, which lies a little above it."""
    near = [r for r in rows if abs(r.level - middle) <= 0.55 * word.size]
    return min(near, key=lambda r: abs(r.level - middle), default=None)


@dataclass(slots=True)
class _Row:
    """Words on one line so far, the sum of their middles and the largest type among them."""

    words: list[Word]
    total: float
    largest: float

    @property
    def level(self) -> float:
        return self.total / len(self.words)

    def add(self, word: Word, middle: float) -> None:
        self.words.append(word)
        self.total += middle
        self.largest = max(self.largest, word.size)


def paragraphs(found: Iterable[Phrase], starts: Callable[[Phrase], bool] = lambda _: False) -> list[Paragraph]:
    """Phrases as paragraphs: a number or a line that ``starts`` one begins it; lines below at the same place go on with it."""
    level = _with_numbers(sorted((p for p in found if p.turn == 0), key=lambda p: (p.box[1], p.box[0])))
    out: list[tuple[str | None, list[Phrase], float]] = []
    for number, part in level:
        x = part.box[0]
        for entry in reversed(out):
            first, last = entry[1][0], entry[1][-1]
            gap = part.box[1] - last.box[3]
            if (
                number is None
                and not starts(part)
                and abs(part.size - first.size) < 0.15 * part.size
                and -0.6 * part.size < gap < 0.75 * part.size
                and abs(x - entry[2]) < 1.2 * part.size
                and not _ended(last, part, first)
            ):
                entry[1].append(part)
                break
        else:
            out.append((number, [part], x))
            continue
    return [
        Paragraph(n, tuple(w for p in parts for w in p.words), union(p.box for p in parts), parts[0].size) for n, parts, _ in out
    ]


def _ended(last: Phrase, part: Phrase, first: Phrase) -> bool:
    """Whether the paragraph stopped before ``part``: its last line is much shorter than the line that would follow."""
    return (
        last.text.rstrip().endswith((".", ":"))
        and last.box[2] < first.box[2] - 0.25 * (first.box[2] - first.box[0])
        and len(first.text) > 30
    )


def _with_numbers(level: list[Phrase]) -> list[tuple[str | None, Phrase]]:
    """Each phrase with the number that stands before it, in it or hanging to its left."""
    hung: dict[int, str] = {}
    alone: set[int] = set()
    for i, part in enumerate(level):
        head = part.words[0].text
        if len(part.words) > 1 or not HANGING.fullmatch(head):
            continue
        for j in range(max(0, i - 6), min(len(level), i + 8)):
            other = level[j]
            if (
                j != i
                and j not in hung
                and abs(other.box[3] - part.box[3]) < 0.4 * part.size
                and 0 < other.box[0] - part.box[2] < 4 * part.size
            ):
                hung[j] = head.strip("().:")
                alone.add(i)
                break
    out: list[tuple[str | None, Phrase]] = []
    for i, part in enumerate(level):
        if i in alone:
            continue
        head = part.words[0].text
        glued = re.match(r"(\d{1,3})\.(?=[A-Z]{2})", head)  # "1.THE"
        if i in hung:
            out.append((hung[i], part))
        elif len(part.words) > 1 and (re.fullmatch(r"\(?(?:\d{1,3}|[A-Z])[.):]", head) or part.words[0].raised):
            out.append((head.strip("().:"), phrase(part.words[1:])))
        else:
            out.append((glued[1] if glued else None, part))
    return out
