"""Hold-downs told in lines beside their marks, without a table: RX2, then MODEL, post and screws, rod, pounds."""

from dataclasses import replace

from extractor.paper.words import union
from extractor.schedule.layout import Block, Layout, text_of
from extractor.trade.holddown import stacked_kind
from extractor.trade.marks import is_mark

DEEP = 14.0  # type heights: how far below the title the marks may begin
TALL = 12.0  # and how far below its mark the last line of one may stand


def beside_marks(layout: Layout, base: Block) -> list[Block]:
    """A block for each mark under the title that has three lines of a hold-down's values at its right; nothing for fewer."""
    head = base.heading
    foot = min((t.box[1] for t, _ in layout.titles if t is not head and t.box[1] > head.box[3]), default=layout.sheet.size[1])
    below = [p for p in layout.sheet.phrases if p.turn == 0 and head.box[3] - 2 < p.box[1] < foot]
    marks = [
        p
        for p in below
        if p.box[1] - head.box[3] < DEEP * head.size and is_mark(text_of(p)) and any(map(str.isdigit, text_of(p)))
    ]
    out = []
    for mark in marks:
        right = min((m.box[0] for m in marks if m.box[0] > mark.box[2] and abs(m.box[1] - mark.box[1]) < mark.size), default=1e9)
        lines = [p for p in below if p not in marks and mark.box[2] < p.box[0] < min(right, mark.box[2] + 8 * mark.size)]
        lines = [p for p in lines if mark.box[1] - 3 < p.box[1] < mark.box[1] + TALL * mark.size]
        if sum(any(stacked_kind(piece) for piece in text_of(p).split(", ")) for p in lines) < 3:
            continue
        said = base.title._replace(mark=text_of(mark), mark_span=None, body=None)
        box = union([mark.box, *(p.box for p in lines)])
        out.append(replace(base, title=said, heading=mark, grid=None, inner=(), text=tuple(lines), box=box))
    return out
