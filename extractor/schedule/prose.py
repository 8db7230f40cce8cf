"""Wall types told in words: in a paragraph, in lines under a title, in a box each."""

from collections.abc import Sequence
from dataclasses import replace

import regex as re

from extractor.paper.grid import Grid, inside
from extractor.paper.phrases import Paragraph, Phrase, phrase, phrases
from extractor.paper.words import Word, union
from extractor.schedule.layout import Block, Layout, begins, text_of
from extractor.trade.cells import read
from extractor.trade.headings import heading
from extractor.trade.marks import is_mark
from extractor.trade.text import plain

BULLETS = frozenset("•◦▪▫■□◆◇●○►▶▸‣-–*·")
NAMED_TYPE = re.compile(r"(?:(?:shear )?(?:wall|panel) )?(?:type|mark):? (?P<mark>\S+)", re.I)
TYPED = re.compile(r"(?:(?:(?:shear )?(?:wall|panel) )?(?:type|mark):? )?(?P<mark>\S+)", re.I)


def running(layout: Layout, base: Block) -> Block | None:
    """A wall type told in a paragraph: `SHEAR WALL TYPE 2: 7/16 OSB, ...`."""
    for paragraph in layout.paragraphs:
        if base.heading.words[0] in paragraph.words:
            return replace(base, text=(Phrase(paragraph.words, paragraph.box, paragraph.size),), box=paragraph.box)
    return replace(base, text=(base.heading,))


def listed(layout: Layout, base: Block) -> Block | None:
    """A wall type told in lines under its title, within the box drawn round them where there is one."""
    head = base.heading
    below: list[Phrase] = []
    around = min(
        (box for box, _ in layout.nets if inside(head.box, box)), key=lambda b: (b[2] - b[0]) * (b[3] - b[1]), default=None
    )
    left, right = (around[0], around[2]) if around else (head.box[0] - 30, head.box[2] + 160)
    foot = head.box[3]
    for p in sorted(
        (p for p in layout.sheet.phrases if p.turn == 0 and p.box[1] > head.box[1] + 0.5 * head.size), key=lambda p: p.box[1]
    ):
        if p.box[0] < left or p.box[0] > right or p.box[2] < left + 20:
            continue
        gap = 5.0 if around and not below else 2.2  # in a box the first line may stand well below the title
        if (around and p.box[1] > around[3]) or p.box[1] - foot > gap * p.size or any(p is t for t, _ in layout.titles):
            break
        below.append(p)
        foot = max(foot, p.box[3])
    return replace(base, text=tuple(below), box=around or union([head.box, *(p.box for p in below)])) if below else None


def told(layout: Layout, base: Block) -> list[Block]:
    """Wall types told in sentences under a title, each with its mark at the left or begun by it: `SW-A: 7/16 OSB, ...`."""
    out, foot = [], base.heading.box[3]
    for p in sorted(layout.paragraphs, key=lambda p: p.box[1]):
        if p.box[1] < base.heading.box[1] + 0.5 * base.heading.size or abs(p.box[0] - base.heading.box[0]) > 40 + 4 * p.size:
            continue
        if len(p.words) == 1:  # a mark at the left of its sentence
            continue
        if p.box[1] - foot > 5 * p.size:
            break
        mark = _at_left(p, layout)
        if mark is not None and _groups([Phrase(p.words, p.box, p.size)]) >= 2:
            said = base.title._replace(mark=text_of(mark), mark_span=None, body=None)
            out.append(
                replace(base, title=said, heading=mark, text=(Phrase(p.words, p.box, p.size),), box=union([mark.box, p.box]))
            )
            foot = p.box[3]
            continue
        begun = begins(Phrase(p.words, p.box, p.size), p.number)
        if begun is None or len({f.field.split(".")[0] for f in read(begun[1], "wall")}) < 2:
            if out:
                break
            foot = p.box[3]  # words for all types, before the first
            continue
        text = plain([w.text for w in p.words if not w.raised]).text
        start = len(text) - len(begun[1])
        said = base.title._replace(mark=begun[0], mark_span=(0, max(start, 1)), body=(start, len(text)))
        out.append(replace(base, title=said, heading=phrase(p.words[:1]), text=(Phrase(p.words, p.box, p.size),), box=p.box))
        foot = p.box[3]
    return out


def _at_left(paragraph: Paragraph, layout: Layout) -> Phrase | None:
    """The mark that stands alone at the left of a paragraph, level with a line of it or half-way down."""
    x0, y0, _, y1 = paragraph.box
    beside = [
        p
        for p in layout.sheet.phrases
        if p.turn == 0
        and p.words[0] not in paragraph.words
        and 0 < x0 - p.box[2] < 6 * paragraph.size
        and y0 - 2 < (p.box[1] + p.box[3]) / 2 < y1 + 2
    ]
    return beside[0] if len(beside) == 1 and is_mark(text_of(beside[0])) else None


def _groups(lines: Sequence[Phrase]) -> int:
    """How many of panel, fastener, edge and field nailing the lines speak of."""
    groups = {f.field.split(".")[0] for p in lines for f in read(text_of(p), "wall")}
    return len(groups & {"sheathing", "fastener", "edge", "field"})


def boxed(layout: Layout, base: Block) -> list[Block]:
    """Wall types told in lines in a box each, the mark alone or after TYPE at the top of the box, the boxes under one title."""
    out = []
    for box, _ in layout.nets:
        if box[1] < base.heading.box[1] or any(inside(t.box, box) for t, said in layout.titles if said.sure):
            continue
        held = [p for p in layout.sheet.phrases if p.turn == 0 and inside(p.box, box)]
        mark = TYPED.fullmatch(text_of(held[0])) if len(held) > 2 else None
        level = [p for p in held[1:] if p.box[1] < held[0].box[3] - 2]
        if mark is None or not is_mark(mark["mark"]) or any(re.search(r"\d", p.text) for p in level):
            continue
        lines = _lines([w for p in held[1:] if p not in level for w in p.words])
        if _groups(lines) < 2:
            continue
        said = base.title._replace(mark=mark["mark"], mark_span=mark.span("mark"), body=None)
        out.append(replace(base, title=said, heading=held[0], text=tuple(lines), box=box))
    return out


def headed(layout: Layout, base: Block) -> list[Block]:
    """Wall types told in lines of name and value under TYPE and the mark, side by side without frames, under one title."""
    below = [p for p in layout.sheet.phrases if p.turn == 0 and p.box[1] > base.heading.box[3] - 2]
    heads = [(p, m) for p in below if (m := NAMED_TYPE.fullmatch(text_of(p))) and is_mark(m["mark"])]
    out = []
    for head, m in heads if len(heads) > 1 else ():
        right = min((h.box[0] for h, _ in heads if h.box[0] > head.box[2]), default=layout.sheet.size[0]) - 6
        foot, words = head.box[3], list[Word]()
        for p in sorted(below, key=lambda p: p.box[1]):
            if p.box[1] <= head.box[1] + 2 or not head.box[0] - 6 < p.box[0] < right:
                continue
            titled = any(p.words[0] in t.words for t, _ in layout.titles)
            if p.box[1] - foot > 2.2 * p.size or any(p is h for h, _ in heads) or titled:
                break
            words += p.words
            foot = max(foot, p.box[3])
        lines = _lines(words)
        if _groups(lines) >= 2:
            said = base.title._replace(mark=m["mark"], mark_span=m.span("mark"), body=None)
            box = union([head.box, *(w.box for w in words)])
            out.append(replace(base, title=said, heading=head, text=tuple(lines), box=box))
    return out


def columned(base: Block, grid: Grid) -> list[Block]:
    """Wall types told in lines in a column each, side by side, each column begun by its mark; nothing where one is not."""
    out = []
    for col in range(grid.cols):
        cells = [c for row in range(grid.rows) if (c := grid.at(row, col)) is not None and c.words and c.cols == 1]
        head = phrase(cells[0].words[:1]) if cells else None
        rest = " ".join(w.text for w in cells[0].words[1:]) if cells else ""
        lines = [line for cell in cells[1:] for line in _lines(cell.words)]
        if head is None or not is_mark(text_of(head)) or re.search(r"\d", rest) or _groups(lines) < 2:
            return []
        said = base.title._replace(mark=text_of(head), mark_span=None, body=None)
        out.append(replace(base, title=said, heading=head, text=tuple(lines), box=union(c.box for c in cells)))
    return out


def _lines(words: Sequence[Word]) -> list[Phrase]:
    """The lines of a type without their bullets, in parts where a line tells several values."""
    kept = [w for w in words if w.text not in BULLETS]
    return [part for line in phrases(kept, wide=99.0) for part in _named_or_apart(line)] if kept else []


def _named_or_apart(line: Phrase) -> list[Phrase]:
    """The phrases of a line, each name of a value (it has no digit) joined with the value to its right."""
    parts: list[Phrase] = sorted(phrases(line.words), key=lambda p: p.box[0])
    out: list[Phrase] = []
    while parts:
        first = parts.pop(0)
        label = text_of(first)
        named = parts and not any(c.isdigit() for c in label) and heading(label, "wall")
        out.append(phrase([*first.words, *parts.pop(0).words]) if named else first)
    return out
