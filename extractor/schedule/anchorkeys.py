"""Tables of sill anchorage by key: a wall's row names the key (A), the table beside it tells bolts, spacing and sill."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import regex as re

from extractor.paper.phrases import Phrase
from extractor.record import Origin, State
from extractor.schedule import columns, notes
from extractor.schedule.columns import SPACING, Table
from extractor.schedule.find import notes_under
from extractor.schedule.layout import Block, Layout
from extractor.schedule.rows import Row, table_rows
from extractor.trade.titles import Title

KEY = re.compile(r"[A-Z]|\d{1,2}|[A-Z]{1,2}-?\d{1,2}")
OF_ANCHORS = {"anchors", "sill_anchors", "embedment", "washer", "sill"}


def fill(rows: Sequence[Row], laid_out: Iterable[tuple[Layout, Sequence[Block]]], known: set[str]) -> None:
    """Give rows whose anchor cell is nothing but a key what the table of that key says."""
    named = {key for row in rows for key in _keys(row)}
    if not named:
        return
    keys: dict[str, Row] = {}
    said: list[notes.Said] = []
    for layout, here in laid_out:
        for block, table in _tables(layout, here):
            told = {row.mark.value: row for row in table_rows(block, table).rows if row.mark.value}
            if named & set(told):
                keys |= {key: row for key, row in told.items() if key not in keys}
                said += notes.schedule_notes(block, known)
    for row in rows:
        for key in _keys(row):
            if key in keys:
                _take(row, keys[key], said)


def _keys(row: Row) -> list[str]:
    """The key that stands for the row's anchors: an anchor cell that says nothing else."""
    own = [v.as_printed.strip() for k, v in row.fields.items() if k.startswith("anchors.") and v.state is State.UNREADABLE]
    return [text for text in dict.fromkeys(own) if KEY.fullmatch(text)]


def _take(row: Row, told: Row, said: Sequence[notes.Said]) -> None:
    """The anchors of the key's row, and of the notes under its table, in place of the key."""
    for name in [k for k, v in row.fields.items() if k.startswith("anchors.") and v.state is State.UNREADABLE]:
        del row.fields[name]
    for name, value in told.fields.items():
        if name.startswith(("anchors.", "framing.sill")) and name not in row.fields:
            row.fields[name] = value.model_copy(update={"origin": Origin.LEGEND})
    notes.fill(row, said, (), (), set(), set())


def _tables(layout: Layout, here: Sequence[Block]) -> Iterator[tuple[Block, Table]]:
    """Ruled tables of the sheet with a column of keys and columns of anchorage alone."""
    for box, net in layout.nets:
        grid = layout.grid((box, net))
        table = columns.name(grid, "wall", layout.place) if grid is not None and grid.cols > 2 else None
        if grid is None or table is None:
            continue
        named = tuple(
            replace(c, kind="anchors") if c.kind is None and c.text and SPACING.fullmatch(c.text.text.strip()) else c
            for c in table.columns
        )
        kinds = {c.kind for c in named if c.kind and c.index != table.mark}
        if len(kinds & OF_ANCHORS) < 2 or kinds - OF_ANCHORS:
            continue
        first = next(c for c in grid.cells if c.words)
        head = Phrase(first.words, first.box, first.words[0].size)
        block = Block("wall", Title("wall", sure=False), head, layout.place, layout.sheet, grid, box=box)
        yield replace(block, notes=notes_under(layout, block, here)), replace(table, columns=named)
