"""The legend card: marks, signs and abbreviations that this job's plans use, and what they mean."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest

from cards.abbreviations import unknown, used
from cards.findings import numbered
from cards.fit import LEADING, paragraph, width_pt
from cards.front import Words
from cards.leaflet import Side, inside, leaflet_pdf, title_and_foot
from cards.papers import drawn, spoken
from cards.paperwords import PaperWords
from cards.sheet import Size, size_named
from cards.values import asked
from extractor.checks.hit import mark_key, mark_of
from extractor.record import Job, Reading, Record, readings

COLUMNS, GAP = 2, 10.0
_SIZES = (11.0, 10.0, 9.0)  # the largest at which marks and abbreviations each take one side; else the last
LABEL = 0.3  # share of a column for the short form


@dataclass(frozen=True)
class Entry:
    """A mark or an abbreviation and its meaning."""

    short: str
    meaning: str


def entries(job: Job, words: PaperWords) -> tuple[tuple[Entry, ...], tuple[Entry, ...]]:
    """Everything the legend explains: marks of walls and hold-downs, and then signs and abbreviations."""
    marks = tuple((*_wall_marks(job, words), *_hold_downs(job, words)))
    return marks, tuple(_abbreviations(job, words)) or (Entry("-", words.say("legend_none")),)


def legend_pdf(job: Job, *, size: str = "3x5", layout: str = "fold", paper: str = "letter", language: str = "en") -> bytes:
    """The legend as cards: one, or as many as the job's marks and abbreviations need."""
    words, card = spoken(language), size_named(size)
    groups = [group for group in entries(job, words) if group]
    for type_size in _SIZES:
        sides = [side for group in groups for side in _sides(group, job, card, words, type_size)]
        if len(sides) == len(groups):
            break
    pairs = list(zip_longest(sides[::2], sides[1::2], fillvalue=()))
    made = []
    for n, pair in enumerate(pairs, 1):
        both = [_side(columns, job, card, words, back, n, len(pairs)) for columns, back in zip(pair, (False, True), strict=True)]
        made.append((both[0], both[1]))
    return leaflet_pdf(job, words, words.say("legend"), made, size=card, layout=layout, paper=paper)


def _wall_marks(job: Job, words: PaperWords) -> Iterator[Entry]:
    marks = [mark_of(wall) for wall in job.wall_types]
    if marks:
        yield Entry(", ".join(dict.fromkeys(marks)), words.say("legend_walls"))
    rows = {mark_key(mark) for mark in marks}
    for key, (mark, _) in drawn(job, "wall").items():
        if key not in rows:
            yield Entry(mark, words.say("legend_no_row", q=asked(_numbers(job, key))))


def _hold_downs(job: Job, words: PaperWords) -> Iterator[Entry]:
    """Marks of the hold-down table with their model; and those drawn without a row."""
    known: set[str] = set()
    for row in job.hold_downs:
        model = row.model.value if row.model and row.model.value and row.model.value != mark_of(row) else ""
        known |= {mark_key(mark_of(row)), mark_key(str(model))}
        yield Entry(mark_of(row), words.say("legend_hold_down", model=f" {model}" if model else ""))
    for key, (mark, _) in drawn(job, "hold-down").items():
        if key not in known:
            lines = words.say("no_table_row", q=asked(_numbers(job, key)))
            yield Entry(mark, f"{words.first('legend_hold_down', model='')}: {lines}")


def _numbers(job: Job, key: str) -> tuple[str, ...]:
    """Numbers of the questions about a mark."""
    return tuple(number for number, found in numbered(job) if number and found.wall_type and mark_key(found.wall_type) == key)


def _abbreviations(job: Job, words: PaperWords) -> Iterator[Entry]:
    texts = list(dict.fromkeys(_texts(job)))
    for short, (english, spanish) in used(texts):
        meanings = {"en": english, "es": spanish}
        yield Entry(short, " / ".join(dict.fromkeys(meanings[one] for one in words.spoken)))
    for short in unknown(texts):
        yield Entry(short, words.say("legend_unknown"))


def _texts(job: Job) -> Iterator[str]:
    """The printed words of every reading, notes and sides of a conflict included."""
    for row in (*job.wall_types, *job.hold_downs):
        for _, reading in readings(row):
            yield from _printed(reading)
    yield from (one.as_printed for one in job.coverage.words_not_used)


def _printed(reading: Reading[object]) -> Iterator[str]:
    yield reading.as_printed
    for other in reading.also:
        yield from _printed(other)
    for one in reading.value if isinstance(reading.value, tuple) else ():
        if isinstance(one, Record):
            yield from (inner.as_printed for _, inner in readings(one))


Placed = tuple[Words, ...]


def _sides(every: Sequence[Entry], job: Job, size: Size, words: PaperWords, type_size: float) -> Iterator[list[list[Placed]]]:
    """Entries in columns, side after side: each side is a list of columns of placed words, from the top of the column."""
    k, (width, _) = size.scale, inside(size)
    _, start, end = title_and_foot(job, size, "", "", words.say("legend_govern"))
    column = (width - GAP * k) / COLUMNS
    side: list[list[Placed]] = [[]]
    used_up = 0.0
    for entry in every:
        placed, height = _placed(entry, column, type_size * k)
        if side[-1] and used_up + height > end - start:
            if len(side) == COLUMNS:
                yield side
                side = []
            side.append([])
            used_up = 0.0
        side[-1].append(tuple(replace(one, top=one.top + used_up) for one in placed))
        used_up += height
    yield side


def _placed(entry: Entry, column: float, size: float) -> tuple[Placed, float]:
    """The short form and its meaning beside it, or below it where the short form is long; and their height."""
    label, apart = column * LABEL, size / 6
    if width_pt(entry.short, size, True) <= label - 2 * apart:
        meaning = paragraph(entry.meaning, column - label, size)
        both = (Words(0, 0, label, size, (entry.short,), True), Words(label, 0, column - label, size, meaning))
        return both, len(meaning) * size * LEADING + apart
    short = paragraph(entry.short, column, size, True)
    meaning = paragraph(entry.meaning, column - label, size)
    below = len(short) * size * LEADING
    both = (Words(0, 0, column, size, short, True), Words(label, below, column - label, size, meaning))
    return both, below + len(meaning) * size * LEADING + apart


def _side(columns: Sequence[list[Placed]], job: Job, size: Size, words: PaperWords, back: bool, n: int, of: int) -> Side:
    """One side with its title and foot; an empty back says whose back it is."""
    under = words.first("legend_back" if back else "legend_of", n=n, of=of)
    head, start, _ = title_and_foot(job, size, words.first("legend"), under, words.say("legend_govern"))
    k, (width, _) = size.scale, inside(size)
    step = (width - GAP * k) / COLUMNS + GAP * k
    placed = [replace(one, left=one.left + i * step, top=one.top + start)
              for i, column in enumerate(columns) for entry in column for one in entry]  # fmt: skip
    return Side((*head, *placed))
