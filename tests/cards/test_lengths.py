"""What the foreman fills in: wall lengths and pack sizes. What is not understood is said, with its line."""

import pytest

from cards import lengths, packsizes
from cards.lengths import Wall
from extractor.errors import UsageError
from extractor.record import PlanMark
from tests.cards.making import job, wall

NAIL = '2-1/2" × 0.131" 8d common'


@pytest.mark.parametrize(
    ("written", "inches", "source"),
    [
        ("12'", 144, "feet"), ("12'-6\"", 150, "feet and inches"), ("12' 6\"", 150, "a space"),
        ("9'-1 1/8\"", 109.125, "a fraction"),
        ('109-1/8"', 109.125, "inches"), ("150 in", 150, "words"), ("12.5 ft", 150, "words"), ("12ft 6in", 150, "words"),
        ("12’-6”", 150, "curly marks from a spreadsheet"), ("12", None, "no unit: feet or inches?"), ("3/8", None, "no unit"),
        ("12'x4'", None, "two lengths"), ("about 12'", None, "words"),
    ],
)  # fmt: skip
def test_lengths_need_their_unit(written, inches, source):
    assert lengths.length(written) == inches


def test_a_filled_in_list_is_read():
    filled = "mark,length,height,storey,count,openings\ntype SW4,\"12'-6\"\"\",9',ground,2,3'x4'\n\n# a remark\n"
    assert lengths.read(filled) == (Wall("SW4", "walls.csv line 2", 150, 108, "ground", 2, ((36, 48),)),)
    assert lengths.read(filled.replace(",", ";"))[0].count == 2


@pytest.mark.parametrize(
    ("row", "says", "source"),
    [
        ("SW4,12,9',,,", "Write its unit", "feet or inches?"),
        ("SW4,-12',9',,,", "is not understood", "a sign"),
        ("SW4,12',9',,two,", "The count", "a word"),
        ("SW4,12',9',,0,", "The count", "no wall"),
        (",12',9',,,", "no mark", "no mark"),
        ("SW4,12',9',,1,3x4", "The opening", "no unit"),
        ("SW4,12',9',,1,13'x4'", "larger than the wall", "an opening wider than its wall"),
        ("SW4,999',9',,1,", "cannot be right", "two miles"),
        ("SW4,12',9',,1,,,", "more cells", "a comma too many"),
    ],
)
def test_a_line_that_is_not_understood_is_named_and_nothing_is_counted(row, says, source):
    with pytest.raises(UsageError, match=says) as caught:
        lengths.read(f"mark,length,height,storey,count,openings\n{row}\n", "walls.csv")
    assert "walls.csv line 2" in str(caught.value)


def test_a_spreadsheet_takes_no_mark_for_a_formula_or_a_date():
    marks = tuple(PlanMark(mark=mark, kind="wall", page=2, sheet="=1+1", boxes=((0, 0, 1, 1),)) for mark in ("=cmd()", "12-11"))
    written = lengths.template(job(wall("SW4"), drawn=marks))
    assert "type =cmd()" in written
    assert "'=1+1" in written
    assert [one.mark for one in lengths.read(written)] == ["=cmd()", "12-11"]


@pytest.mark.parametrize(
    ("toml", "says", "source"),
    [
        ("strip = 25", "format", "no format"),
        ('format = "nailcard.packs/1"\n[[nail]]\nname = "8d"\nstrip = 0', "strip is not a number", "no nails in a strip"),
        ('format = "nailcard.packs/1"\n[[nail]]\nstrip = 25', "no name", "whose strip?"),
        ('format = "nailcard.packs/1"\n[[nail]]\nname = "8d"\nbag = 25', "has no bag", "an unknown pack"),
        ("format = ", "not TOML", "cut short"),
    ],
)
def test_pack_sizes_that_are_not_understood_say_why(tmp_path, toml, says, source):
    path = tmp_path / "packs.toml"
    path.write_text(toml)
    with pytest.raises(UsageError, match=says):
        packsizes.load(path)


def test_the_template_of_pack_sizes_gives_nothing_and_holds_every_nail(tmp_path):
    path = tmp_path / "packs.toml"
    path.write_text(packsizes.template([NAIL, 'odd "name" \\ here']), encoding="utf-8")
    found = packsizes.load(path)
    assert not found.given
    assert set(found.nails) == {packsizes.key(NAIL), packsizes.key('odd "name" \\ here')}
