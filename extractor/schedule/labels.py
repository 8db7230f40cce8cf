"""Names of values and the values after them: `EDGES: 6" O.C. FIELD: 12" O.C.`."""

from collections.abc import Sequence

import regex as re

from extractor.paper.words import Word
from extractor.schedule.columns import Kind
from extractor.schedule.reading import Place, Printed, printed
from extractor.trade.headings import Heading, heading


def labelled_parts(words: Sequence[Word], place: Place, table: Kind = "wall") -> list[tuple[Printed, Heading, Printed]]:
    """`EDGES: 6" O.C. FIELD: 12" O.C.` as names and values; nothing where a line does not begin with a name and its colon."""
    starts: list[tuple[int, int, Printed, Heading]] = []
    for i, word in enumerate(words):
        named = _label_before(words, i, starts[-1][1] if starts else 0, place, table) if word.text.endswith(":") else None
        if named:
            starts.append(named)
    if not starts or starts[0][0] != 0:
        return []
    ends = [*(start for start, _, _, _ in starts[1:]), len(words)]
    parts = [(label, said, printed(words[first:end], place)) for (_, first, label, said), end in zip(starts, ends, strict=True)]
    return [part for part in parts if part[2].words]


def _label_before(
    words: Sequence[Word], colon: int, least: int, place: Place, table: Kind
) -> tuple[int, int, Printed, Heading] | None:
    """Where the name of a value begins that ends at a colon, where its value begins, the name, and what it says.

    On a line of its own the name is all that stands before the colon; behind a value it is the words that are no value.
    """
    if colon - least > 4 and least == 0:
        return None
    best = None
    for start in range(colon, least - 1, -1):
        label = printed(words[start : colon + 1], place)
        said = heading(label.text.rstrip(": "), table)
        if said is None or (least and not all(re.fullmatch(r"[A-Za-z&/:-]+", w.text) for w in words[start : colon + 1])):
            if least:
                break
            continue
        best = (start, colon + 1, label, said)
    return best if best and (least or best[0] == 0) else None
