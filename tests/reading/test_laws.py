"""What holds on any sheet: no value depends on how it is stored, no printed word is lost, one file gives one job."""

import unicodedata
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pdfplumber
import pytest

from extractor.paper.grid import inside
from extractor.paper.plans import Sheet, open_plans
from extractor.paper.words import Word
from extractor.read import read
from extractor.record import Box, Job, Reading, State, readings
from extractor.schedule import columns
from extractor.schedule.find import blocks
from extractor.schedule.layout import Layout
from tests.reading.comparing import FOLDER, differences, job, readable, truth, value
from tests.reading.variants import VARIANTS, changed, said_otherwise

STORED = ["rows-ruled", "no-rules", "marks-in-diamonds-with-lengths"]
NEAR = 0.05  # points


def _values(found: Job) -> list[tuple[object, ...]]:
    """Every reading without its place."""
    rows = [*found.wall_types, *found.hold_downs]
    return [(row.mark.value, field, value(row, field) if "[" not in field else None, one.as_printed, one.state)
            for row in rows for field, one in readings(row)]  # fmt: skip


def _boxes(found: Job) -> list[Box]:
    rows = [*found.wall_types, *found.hold_downs]
    return [one.source.box for row in rows for _, one in readings(row)] + [box for mark in found.plan_marks for box in mark.boxes]


@pytest.mark.parametrize("name", STORED)
@pytest.mark.parametrize("variant", VARIANTS)
def test_a_sheet_moved_turned_or_wrapped_gives_the_same_values_in_the_same_places(
    name: str, variant: str, tmp_path: Path
) -> None:
    again = read([changed(FOLDER / f"{name}.pdf", tmp_path / f"{name}.pdf", VARIANTS[variant])])
    assert _values(again) == _values(job(name))
    assert [f.code for f in again.findings] == [f.code for f in job(name).findings]
    apart = [(a, b) for a, b in zip(_boxes(again), _boxes(job(name)), strict=True)
             if any(abs(x - y) > NEAR for x, y in zip(a, b, strict=True))]  # fmt: skip
    assert not apart
    assert list(differences(again, truth(name))) == list(differences(job(name), truth(name)))


@pytest.mark.parametrize("name", readable())
def test_a_job_written_and_read_is_equal(name: str) -> None:
    assert Job.model_validate_json(job(name).to_json()) == job(name)


@pytest.mark.parametrize("name", ["rows-ruled", "one-character-at-a-time-shuffled", "two-schedules-by-storey"])
def test_the_same_file_gives_the_same_bytes(name: str) -> None:
    assert read([FOLDER / f"{name}.pdf"]).to_json() == job(name).to_json()


@cache
def _sheets(name: str) -> tuple[Sheet, ...]:
    return open_plans([FOLDER / f"{name}.pdf"]).sheets


def _letters(text: str) -> Counter[str]:
    """Letters in one spelling; a stacked fraction is drawn without its slash, so slashes do not count."""
    return Counter(ch for ch in unicodedata.normalize("NFKC", text) if not ch.isspace() and ch not in "/\u2044")


DRAWN = [name for name in readable() if all(sheet["text"] in ("drawn", "ocr") for sheet in truth(name)["sheets"])]


@pytest.mark.parametrize("name", DRAWN)
def test_no_printed_letter_is_lost(name: str) -> None:
    """What pdfplumber finds on a sheet is in our words, letter for letter."""
    with pdfplumber.open(FOLDER / f"{name}.pdf") as pdf:
        for sheet, page in zip(_sheets(name), pdf.pages, strict=True):
            theirs = _letters("".join(char["text"] for char in page.dedupe_chars(tolerance=0.6).chars))
            ours = _letters("".join(word.text for word in sheet.words))
            added = Counter(ch for ch in (ours - theirs).elements() if ch != "-" or "stacked" not in name)
            assert not theirs - ours, f"{name}.pdf, page {sheet.page}: lost {theirs - ours}"
            assert not added, f"{name}.pdf, page {sheet.page}: added {added}"


def _read_from(found: Job) -> Iterator[tuple[int, Box]]:
    """Every place that a value, a word left over or another reading came from."""

    def of(one: Reading[object]) -> Iterator[tuple[int, Box]]:
        yield one.source.page, one.source.box
        for other in one.also:
            yield from of(other)

    for row in (*found.wall_types, *found.hold_downs):
        for _, one in readings(row):
            yield from of(one)
    for word in found.coverage.words_not_used:
        yield word.source.page, word.source.box


@cache
def _rows(name: str) -> tuple[tuple[int, tuple[tuple[str, str, Word], ...]], ...]:
    """The words of the rows of each page of a fixture."""
    return tuple((sheet.page, tuple(_data_words(sheet))) for sheet in _sheets(name))


def _data_words(sheet: Sheet) -> Iterator[tuple[str, str, Word]]:
    """Words below the headings of each table that gives rows: the row's mark, the cell's text, the word."""
    for block in blocks(Layout(sheet)):
        if block.grid is None or block.kind == "nail-legend" or block.title.mark:
            continue
        table = columns.name(block.grid, "hold-down" if block.kind == "hold-down" else "wall", block.place)
        for cell in table.grid.cells if table else ():
            if table and cell.row >= table.first:
                mark = table.grid.at(cell.row, table.mark)
                yield from ((mark.text if mark else "", cell.text, word) for word in cell.words if not word.raised)


@pytest.mark.parametrize("name", readable())
def test_every_word_of_a_row_ends_somewhere(name: str) -> None:
    """A word in a schedule is a value, in other, or named as not used; or its row says the very same elsewhere."""
    places, said = list(_read_from(job(name))), _said(job(name))
    for number, row_words in _rows(name):
        here = [box for page, box in places if page == number]
        lost = [f"“{word.text}” in “{text}”" for mark, text, word in row_words
                if any(ch.isalnum() for ch in word.text)
                and not any(inside(word.box, box, 1.0) for box in here)
                and word.text not in said.get(mark, ())]  # fmt: skip
        assert not lost, f"{name}.pdf, page {number}: {', '.join(lost)}"


def _said(found: Job) -> dict[str, set[str]]:
    """The words that the readings of each row were read from."""
    out: dict[str, set[str]] = {}
    for row in (*found.wall_types, *found.hold_downs):
        words = out.setdefault(str(row.mark.value), set())
        words.update(word for _, one in readings(row) for each in (one, *one.also) for word in each.as_printed.split())
    return out


@pytest.mark.parametrize("name", readable())
def test_a_value_keeps_the_words_in_its_box(name: str) -> None:
    """The words that a reading is said to come from stand where it says."""
    wrong = []
    for row in (*job(name).wall_types, *job(name).hold_downs):
        for field, one in readings(row):
            sheet = _sheets(name)[one.source.page - 1]
            if one.as_printed == "(drawn, no text)":
                continue
            held = Counter(word.text for word in sheet.words if inside(word.box, one.source.box, 0.5))
            if Counter(one.as_printed.split()) - held:
                wrong.append(f"{row.mark.value}, {field}: “{one.as_printed}” is not at {one.source.box}")
    assert not wrong, "\n".join([f"{name}.pdf:", *wrong])


SAYS = {"seismic": "SEIS EARTHQ EQ E.Q.", "wind": "WIND", "ASD": "ASD ALLOW", "LRFD": "LRFD STRENGTH", "nominal": "NOMINAL"}


@pytest.mark.parametrize("name", readable())
def test_load_and_method_of_a_capacity_keep_the_words_that_say_them(name: str) -> None:
    wrong = []
    for wall in job(name).wall_types:
        for one in (wall.capacity.value if wall.capacity else None) or ():
            for part in (one.load, one.method):
                if part and part.value and not any(word in part.as_printed.upper() for word in SAYS[part.value].split()):
                    wrong.append(f"{wall.mark.value}: {part.value} is said to stand in “{part.as_printed}”")
    assert not wrong, "\n".join([f"{name}.pdf:", *wrong])


@pytest.mark.parametrize(
    ("shown", "said"),
    [
        (b'6" O.C.', b'2" O.C.'),  # a lone digit that also stands in the cells beside it
        (b'12" O.C.', b'6" O.C.'),
        (b"T4", b"T3"),
        (b"350", b"850"),
    ],
)
def test_letters_that_two_engines_read_otherwise_give_no_value(shown: bytes, said: bytes, tmp_path: Path) -> None:
    """The file says one thing to a program and shows another to the eye: nothing of it is taken, and a finding says so."""
    again = read([changed(FOLDER / "rows-ruled.pdf", tmp_path / "rows-ruled.pdf", said_otherwise(shown, said))])
    told = [one for one in again.findings if one.code == "second-reading-disagrees"]
    assert told
    assert said.decode().split()[0] in told[0].message
    first = said.decode().split()[0]
    taken = [(wall.mark.value, field) for wall in again.wall_types for field, one in readings(wall)
             if one.state is State.READ and first in one.as_printed.split()
             and told[0].source and inside(one.source.box, told[0].source.box, 1.0)]  # fmt: skip
    assert not taken


def test_the_laws_have_rows_to_hold_for() -> None:
    assert sum(any(words for _, words in _rows(name)) for name in readable()) > 30
