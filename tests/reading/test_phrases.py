"""Words to phrases and notes: what belongs together on a sheet, and the number that a note has."""

import pytest

from extractor.paper.phrases import Phrase, paragraphs, phrases
from extractor.paper.words import Word
from tests.reading.drawn import word


def said(text: str, x: float = 100, y: float = 100, size: float = 10) -> list[Word]:
    """The words of a line, a blank between them."""
    out = []
    for piece in text.split():
        out.append(word(piece, x, y, size))
        x += 5 * (len(piece) + 1) * size / 10
    return out


TOGETHER: list[tuple[str, list[Word], list[str], str]] = [
    ("one line", said("SHEAR WALL SCHEDULE"), ["SHEAR WALL SCHEDULE"], "a title"),
    ("columns", said("MARK") + said("NAIL", 180), ["MARK", "NAIL"], "headings side by side"),
    ("two lines", said("EDGE") + said("NAILING", y=112), ["EDGE", "NAILING"], "a heading on two lines"),
    ("label and value", said("SHEET", size=6) + said("S3.1", 125, size=24), ["SHEET", "S3.1"], "title blocks: sizes differ"),
    (
        "with a note",
        [*said("7/16"), word("2", 120, 96, 6, raised=True), *said("OSB", 130)],
        ["7/16 OSB"],
        "a footnote is no word",
    ),
    ("turned beside level", [*said("SW1"), word("EDGE", 110, 100, turn=90)], ["SW1", "EDGE"], "fixtures: headings-turned"),
]


@pytest.mark.parametrize(("way", "drawn", "texts", "source"), TOGETHER, ids=[row[0] for row in TOGETHER])
def test_words_close_on_a_line_are_a_phrase(way: str, drawn: list[Word], texts: list[str], source: str) -> None:
    assert sorted(phrase.text for phrase in phrases(drawn)) == sorted(texts), source


LONG = "ALL SHEAR WALL PANEL EDGES SHALL BE BLOCKED WITH 2X"
NOTES: list[tuple[str, list[Word], list[tuple[str | None, str]], str]] = [
    (
        "numbered",
        said(f"1. {LONG}") + said("2. NAILS ARE COMMON", y=112),
        [("1", LONG), ("2", "NAILS ARE COMMON")],
        "general notes",
    ),
    (
        "wrapped",
        said(f"1. {LONG}") + said("FRAMING.", 115, 112),
        [("1", f"{LONG} FRAMING.")],
        "the second line hangs under the words",
    ),
    ("hanging number", said("3.", 80) + said(LONG), [("3", LONG)], "numbers in a column of their own"),
    ("letters", said("(A) NAILS ARE COMMON"), [("A", "NAILS ARE COMMON")], "footnotes by letter"),
    ("glued", said("4.THE SILL IS 3X"), [("4", "4.THE SILL IS 3X")], "no blank after the number"),
    ("no number", said("DOUGLAS FIR-LARCH"), [(None, "DOUGLAS FIR-LARCH")], "a line by itself"),
    ("a gap", said("1. SEE PLAN") + said("SCALE", y=160), [("1", "SEE PLAN"), (None, "SCALE")], "a wide gap ends a note"),
    (
        "raised number",
        [word("1", 100, 96, 6, raised=True), *said("SEE NOTES", 106)],
        [("1", "SEE NOTES")],
        "footnotes below a table",
    ),
]


@pytest.mark.parametrize(("way", "drawn", "notes", "source"), NOTES, ids=[row[0] for row in NOTES])
def test_lines_are_put_together_as_notes_with_their_numbers(
    way: str, drawn: list[Word], notes: list[tuple[str | None, str]], source: str
) -> None:
    assert [(one.number, one.text) for one in paragraphs(phrases(drawn))] == notes, source


def test_a_line_that_begins_a_type_begins_a_paragraph() -> None:
    drawn = said("TYPE 1: 7/16 OSB") + said("TYPE 2: 15/32 OSB", y=112)

    def starts(line: Phrase) -> bool:
        return line.text.startswith("TYPE")

    assert [one.text for one in paragraphs(phrases(drawn), starts)] == ["TYPE 1: 7/16 OSB", "TYPE 2: 15/32 OSB"]
