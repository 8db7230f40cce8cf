"""One wall type told in words, a sentence, lines, or lines of name and value: becomes a record of readings as a row does."""

from collections.abc import Iterator
from itertools import pairwise

from extractor.paper.phrases import Phrase
from extractor.paper.quick import LEADERS
from extractor.record import State
from extractor.schedule.columns import Said
from extractor.schedule.labels import labelled_parts
from extractor.schedule.layout import Block
from extractor.schedule.reading import Place, Printed, printed, reading
from extractor.schedule.rows import Row, Rows, faces_of_title, stacked, take
from extractor.trade.cells import read
from extractor.trade.headings import Heading, heading
from extractor.trade.titles import Title


def listed(block: Block) -> Rows:
    """The one type of a block whose title carries its mark: a sentence, lines, or lines of heading and value."""
    title, place = block.title, block.place
    words = list(block.heading.words)
    out = Rows()
    if title.mark is None:
        return out
    head = printed(words, place)
    span = title.mark_span
    if block.text and block.text[0].words[: len(words)] == tuple(words):
        head = printed(block.text[0].words, place)
    mark = reading("mark", title.mark, head.within(span) if span else head.words, place)
    made = Row(block.kind, mark, place, title.scope, block.heading.words, scoped=block.heading.words if title.scope else ())
    if block.kind == "hold-down":
        stacked(made, printed([w for line in block.text for w in line.words], place))
        out.rows.append(made)
        return out
    for line in block.text:
        for text, kind, said in _lines(line, title, place):
            take(made, text, read(text.text, kind), said, title)
    faces_of_title(made, block)
    out.rows.append(made)
    return out


def _kind(said: Heading, value: Printed) -> str:
    """What the value is read as: of what its name says and may also stand for, what reads most of it."""
    kinds = (said.kind, *said.also)
    return max(kinds, key=lambda k: sum(f.state is State.READ for f in read(value.text, k)))


def _lines(line: Phrase, title: Title, place: Place) -> Iterator[tuple[Printed, str, Said | None]]:
    """A line of a block as (words, kind): the value after `EDGE NAILING:` or a wide gap, or the whole line as a wall's."""
    text = printed(line.words, place)
    if title.body:
        start = title.body[0]
        yield (
            printed([w for w, s in zip(text.words, text.plain.spans, strict=True) if s[0] >= start - 1 and s[1] > start], place),
            "wall",
            None,
        )
        return
    dots = [i for i, word in enumerate(text.words) if len(word.text) > 2 and set(word.text) <= LEADERS]
    if dots and dots[0] and (led := heading(printed(text.words[: dots[0]], place).text, "wall")):
        value = printed(text.words[dots[-1] + 1 :], place)
        yield value, _kind(led, value), Said(led, printed(text.words[: dots[0]], place))
        return
    parts = labelled_parts(text.words, place)
    if parts:
        yield from ((value, _kind(named, value), Said(named, label)) for label, named, value in parts)
        return
    gaps = [i + 1 for i, (a, b) in enumerate(pairwise(text.words)) if b.box[0] - a.box[2] > 1.5 * a.size]
    if len(gaps) == 1:  # the name of the value on the left, the value on the right
        label = printed(text.words[: gaps[0]], place)
        said = heading(label.text, "wall")
        if said:
            value = printed(text.words[gaps[0] :], place)
            yield value, _kind(said, value), Said(said, label)
            return
    yield text, "wall", None
