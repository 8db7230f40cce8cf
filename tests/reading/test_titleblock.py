"""Title blocks: number, title, revision and date, wherever an office puts them."""

import pytest

from extractor.paper.phrases import phrases
from extractor.paper.titleblock import TitleBlock, dates, from_places, title_block
from extractor.paper.words import Word
from tests.reading.test_phrases import said

SIZE = (2592.0, 1728.0)  # 36 x 24 in

DAYS = [
    ("2026-03-16", ["2026-03-16"], "ISO 8601"),
    ("03/16/2026", ["2026-03-16"], "US practice, month first"),
    ("3-16-26", ["2026-03-16"], "US practice, short year"),
    ("MARCH 16, 2026", ["2026-03-16"], "written out"),
    ("16 MAR 2026", ["2026-03-16"], "day first, month in letters"),
    ("MAR. 1ST, 2026", ["2026-03-01"], "ordinal"),
    ("02/30/2026", [], "no calendar has it"),
    ("13/13/2026", [], "no month 13"),
    ("16/03/2026", [], "day first in digits is not guessed"),
    ("SCALE 1/4 = 1'-0", [], "a scale is no date"),
    ("7/16/32", ["2032-07-16"], "reads as a date; a cell of panels never comes here"),
]


@pytest.mark.parametrize(("text", "days", "source"), DAYS)
def test_dates_are_read_as_a_us_office_writes_them(text: str, days: list[str], source: str) -> None:
    assert list(dates(text)) == days, source


def _right() -> list[Word]:
    return [*said("SHEET TITLE", 2310, 1600, 6), *said("SCHEDULES", 2310, 1620), *said("DATE", 2310, 1640, 6),
            *said("2026-02-02", 2310, 1652), *said("REV", 2400, 1640, 6), *said("2", 2400, 1652), *said("SHEET", 2310, 1670, 6),
            *said("S3.1", 2400, 1700, 30)]  # fmt: skip


def _foot() -> list[Word]:
    return [*said("REV.", 1313, 1586, 9), *said("B", 1350, 1640, 14), *said("DATE", 1524, 1586, 9),
            *said("03/16/2026", 1540, 1640),
            *said("SHEET TITLE", 1734, 1586, 9), *said("FRAMING PLAN", 1760, 1636, 14), *said("SHEET NO.", 2240, 1586, 9),
            *said("S2.0", 2345, 1660, 40)]  # fmt: skip


BLOCKS: list[tuple[str, list[Word], TitleBlock, str]] = [
    ("right edge", _right(), TitleBlock("S3.1", "SCHEDULES", "2", "2026-02-02"), "most offices"),
    ("along the foot", _foot(), TitleBlock("S2.0", "FRAMING PLAN", "B", "2026-03-16"), "fixtures: block-per-type"),
    ("no revision", [w for w in _right() if w.text not in ("REV", "2")],
     TitleBlock("S3.1", "SCHEDULES", None, "2026-02-02"), "first issue"),
    ("only a plan", said("SW1", 500, 500), TitleBlock(None, None, None, None), "a sheet without a title block"),
]  # fmt: skip


@pytest.mark.parametrize(("way", "drawn", "block", "source"), BLOCKS, ids=[row[0] for row in BLOCKS])
def test_the_block_says_what_a_reader_sees(way: str, drawn: list[Word], block: TitleBlock, source: str) -> None:
    assert title_block(phrases(drawn), SIZE) == block, source


PLACES = [
    (("S2.1", "FLOOR PLAN", "1", "2026-02-02"), TitleBlock("S2.1", "FLOOR PLAN", "1", "2026-02-02"), "the next sheet of a set"),
    (("S 2.1", "FLOOR\r\nPLAN", "", ""), TitleBlock("S2.1", "FLOOR PLAN", None, None), "blanks and line ends"),
    (("12'-0\"", "FLOOR PLAN", "", ""), None, "a dimension is no number: the sheet has another block"),
    (("S2.1", "DATE", "", ""), None, "a label is no title"),
    (("S2.1", "2026-02-02", "", ""), None, "a date is no title"),
]


@pytest.mark.parametrize(("texts", "block", "source"), PLACES)
def test_places_learnt_on_one_sheet_are_believed_only_where_they_fit(
    texts: tuple[str, str, str, str], block: TitleBlock | None, source: str
) -> None:
    assert from_places(*texts) == block, source
