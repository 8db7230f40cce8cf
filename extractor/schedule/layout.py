"""One sheet laid out: its titles, its networks of rules and their grids, its paragraphs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import regex as re

from extractor.paper.grid import Grid, components, extent, inside, ruled
from extractor.paper.page import Outline
from extractor.paper.phrases import Paragraph, Phrase, paragraphs, phrase
from extractor.paper.plans import Sheet
from extractor.paper.rules import Rule, rules
from extractor.paper.turned import TurnedSheet
from extractor.record import Box
from extractor.schedule.reading import Place
from extractor.trade.headings import heading
from extractor.trade.marks import is_mark
from extractor.trade.text import plain, plain_word
from extractor.trade.titles import Title, title

SMALL = (40.0, 25.0)  # points: wider or higher is no sign round a mark


@dataclass(frozen=True)
class Block:
    """A titled part of a sheet. ``grid`` is None for running text and for a table that could not be laid out."""

    kind: str
    title: Title
    heading: Phrase
    place: Place
    sheet: Sheet
    grid: Grid | None = None
    text: tuple[Phrase, ...] = ()
    notes: tuple[Paragraph, ...] = ()
    inner: tuple[Paragraph, ...] = ()  # notes in the table's own full-width rows
    box: Box = (0.0, 0.0, 0.0, 0.0)
    over: Phrase | None = None  # the title over blocks of one type each


@dataclass
class Layout:
    """What is laid out on one sheet, worked out once: titles, networks of rules, paragraphs."""

    sheet: Sheet
    place: Place = field(init=False)

    def __post_init__(self) -> None:
        """Take the place from the sheet."""
        sheet = self.sheet
        self.place = Place(sheet.page, sheet.number)
        if isinstance(sheet, TurnedSheet):
            self.place = Place(sheet.page, sheet.number, sheet.turn, sheet.sheet.size)

    @cached_property
    def titles(self) -> list[tuple[Phrase, Title]]:
        """Phrases that are titles, two-line titles joined."""
        out, used = [], set()
        found = sorted((p for p in self.sheet.phrases if p.turn == 0), key=lambda p: (round(p.box[3] / 2), p.box[0]))
        for i, first in enumerate(found):
            if i in used:
                continue
            said = title(text_of(first))
            for j in (*range(i + 1, min(i + 30, len(found))), *range(max(0, i - 6), i)):
                second = found[j]
                if second.box[1] - first.box[3] > 0.9 * first.size:
                    continue
                level = abs(second.box[3] - first.box[3]) < 0.3 * first.size and 0 < second.box[0] - first.box[2] < 3 * first.size
                under = (
                    -0.3 * first.size < second.box[1] - first.box[3]
                    and abs(second.box[0] + second.box[2] - first.box[0] - first.box[2]) < 6 * first.size
                )
                below = under or (second.box[1] > first.box[1] and abs(second.box[0] - first.box[0]) < first.size)
                aside = (
                    (below or level) and said is not None and said.sure and re.fullmatch(r"\(.*\)", text_of(second)) is not None
                )
                if not (level or under or aside) or (abs(second.size - first.size) > 0.1 * first.size and not aside):
                    continue
                joined = phrase((*first.words, *second.words))
                both = title(text_of(joined))
                fits = said is None or (said.kind == both.kind and (aside or (not said.sure and level))) if both else False
                if both and (both.sure or level) and fits:
                    first, said = joined, both
                    used.add(j)
                    break
            if said and said.mark and not said.body and not any(len(w.text.strip(".")) > 3 for w in first.words):
                continue  # S.W. 1 alone is a mark on a plan
            if said and said.kind == "wall" and not said.sure and not said.mark and _over_notes(first, found):
                said = Title("notes", scope=said.scope, about="wall")
            if said and not self._names_sheet(first) and (said.sure or not self._among_headings(first, found)):
                out.append((first, said))
        return out

    def _names_sheet(self, one: Phrase) -> bool:
        """Whether the phrase is the sheet's own title, in its title block."""
        width, height = self.sheet.size
        at_edge = one.box[0] > 0.76 * width or one.box[1] > 0.84 * height
        return at_edge and bool(self.sheet.block.title) and one.text.casefold() in (self.sheet.block.title or "").casefold()

    def _among_headings(self, one: Phrase, found: Sequence[Phrase]) -> bool:
        """Whether the phrase stands in a line of column headings (NAILS, between EDGE and FIELD)."""
        level = [
            p
            for p in found
            if p.words[0] not in one.words
            and abs(p.box[3] - one.box[3]) < 0.5 * one.size
            and abs(p.box[0] - one.box[0]) < 60 * one.size
        ]
        return sum(heading(text_of(p)) is not None for p in level) >= 2

    @cached_property
    def _drawn(self) -> tuple[list[Rule], list[Box]]:
        """Rules on the sheet, and the boxes of its small paths; a path itself is not kept, since sheets hold up to a million."""
        width, height = self.sheet.size
        small: list[Box] = []

        def seen() -> Iterator[Outline]:
            for one in self.sheet.outlines((0.0, 0.0, width, height)):
                if one.box[2] - one.box[0] < SMALL[0] and one.box[3] - one.box[1] < SMALL[1]:
                    small.append(one.box)
                yield one

        return rules(seen()), small

    @property
    def rules(self) -> list[Rule]:
        """Level and upright rules on the sheet."""
        return self._drawn[0]

    @cached_property
    def nets(self) -> list[tuple[Box, list[Rule]]]:
        """Networks of rules that could draw a table, with their boxes; the sheet's frame is none."""
        width, height = self.sheet.size
        out = []
        for group in components(self.rules):
            box = extent(group)
            if box[2] - box[0] > 30 and box[3] - box[1] > 10 and (box[2] - box[0]) * (box[3] - box[1]) < 0.55 * width * height:
                out.append((box, group))
        return out

    @cached_property
    def paragraphs(self) -> list[Paragraph]:
        """Level text of the sheet as paragraphs."""
        heads = {id(p) for p, said in self.titles if said.mark and said.body}
        heads |= {
            id(p)
            for p in self.sheet.phrases
            if len(p.words) > 4 and (p.words[0].text.endswith(":") or p.words[1].text in (":", "-")) and begins(p)
        }
        return paragraphs(self.sheet.phrases, lambda p: id(p) in heads)

    @cached_property
    def _grids(self) -> dict[int, Grid | None]:
        return {}

    def grid(self, net: tuple[Box, list[Rule]]) -> Grid | None:
        """The grid of a network, made once."""
        key = id(net[1])
        if key not in self._grids:
            near = [w for w in self.sheet.words if inside(w.box, net[0], 2.0)]
            self._grids[key] = self._with_drawings(ruled(net[1], near), net[0]) if near else None
        return self._grids[key]

    def _with_drawings(self, grid: Grid | None, box: Box) -> Grid | None:
        """The grid with its wordless cells marked in which something small is drawn: text plotted as lines, a symbol."""
        if grid is None or all(c.words for c in grid.cells):
            return grid
        small = [one for one in self._drawn[1] if inside(one, box)]
        cells = tuple(c if c.words else replace(c, drawn=any(_within(o, c.box) for o in small)) for c in grid.cells)
        return Grid(cells, grid.box, grid.rows, grid.cols, grid.ruled)


def _over_notes(head: Phrase, found: Sequence[Phrase]) -> bool:
    """Whether the line under a heading begins with a number and goes on as a sentence."""
    below = [
        p
        for p in found
        if -0.3 * head.size < p.box[1] - head.box[3] < 2.2 * head.size and -10 < p.box[0] - head.box[0] < 40 and p is not head
    ]
    if not below:
        return False
    first = min(below, key=lambda p: (round(p.box[3] / 3), p.box[0]))
    line = [p for p in below if abs(p.box[3] - first.box[3]) < 0.4 * first.size]
    text = " ".join(p.text for p in sorted(line, key=lambda p: p.box[0]))
    return re.match(r"\(?1[.)]? ?[A-Za-z]", text) is not None and len(text.split()) > 4


def _within(box: Box, outer: Box) -> bool:
    return outer[0] + 2 < box[0] and box[2] < outer[2] - 2 and outer[1] + 1.5 < box[1] and box[3] < outer[3] - 1.5


def text_of(part: Phrase) -> str:
    """The phrase in plain spelling, footnote markers left out."""
    return " ".join(filter(None, (plain_word(w.text) for w in part.words if not w.raised)))


def begins(line: Phrase, number: str | None = None) -> tuple[str, str] | None:
    """The mark that begins a sentence about a type, and the rest of the sentence; None for other sentences."""
    text = plain([w.text for w in line.words if not w.raised]).text
    if number is not None and is_mark(number):
        return number, text
    m = re.match(r"(?:TYPE |WALL )?(?P<mark>[A-Z0-9][A-Z0-9.'*-]{0,6}?) ?(?::|-(?= )|=|\.(?= )) ?(?P<rest>.{20,})", text, re.S)
    return (m["mark"], m["rest"]) if m and is_mark(m["mark"]) else None
