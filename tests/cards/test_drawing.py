import math
import re
from itertools import pairwise

import pytest

from cards import drawing
from cards.backdrawings import nails_in_two_feet


@pytest.mark.parametrize("field", [6, 8, 12])
@pytest.mark.parametrize("edge", [2, 2.5, 3, 4, 5, 6])
def test_nails_of_a_panel_follow_the_count(edge, field):
    count = 2 * math.ceil(96 / edge) + 2 * math.ceil(48 / edge) + 2 * (math.ceil(96 / field) - 1)
    nails = drawing.panel_nails(edge, field)
    assert len(nails) == len(set(nails)) == count
    assert all(min(x, 48 - x) >= 0.375 and 0 < y < 96 for x, y in nails)


@pytest.mark.parametrize(("edge", "field"), [(2, 12), (4, 12), (6, 6)])
def test_no_two_neighbours_stand_further_apart_than_the_spacing(edge, field):
    nails = drawing.panel_nails(edge, field)
    left = sorted(y for x, y in nails if x == 0.375)
    stud = sorted(y for x, y in nails if x == 16)
    assert max(b - a for a, b in pairwise(left)) <= edge
    assert max(b - a for a, b in zip([0, *stud], [*stud, 96], strict=True)) <= field


@pytest.mark.parametrize(
    ("spacing", "count", "source"),
    [(6, 5, "24/6 spaces and one"), (4, 7, "24/4 and one"), (3, 9, "24/3 and one"), (2, 13, "24/2 and one"), (5, 5, "0 to 20")],
)
def test_nails_in_two_feet(spacing, count, source):
    assert nails_in_two_feet(spacing) == count


@pytest.mark.parametrize(
    ("edge", "steps", "source"),
    [(2, 1, "fits the card"), (4, 1, "fits the card"), (6, 2, "two threes"), (12, 3, "three fours")],
)
def test_a_gauge_longer_than_the_card_is_divided(edge, steps, source):
    assert drawing.gauge_steps(edge) == steps


@pytest.mark.parametrize(
    ("option", "members", "source"),
    [("2x", 1, "dressed lumber"), ("3x", 1, "dressed lumber"), ("4x", 1, "dressed lumber"), ("2-2x", 2, "two 2x stitched")],
)
def test_a_joint_has_the_members_that_the_plans_name(option, members, source):
    drawn = drawing.joint(60, 50, option, 15 / 32, (2.5, 0.131))
    assert len(re.findall(r'<rect [^>]*fill="none"', drawn)) == members
    other = drawing.joint(60, 50, "2x", 15 / 32, (2.5, 0.131))
    assert (drawn == other) is (option == "2x")


def test_a_joint_without_a_nail_size_shows_a_centre_line_and_no_nail():
    assert "stroke-dasharray" in drawing.joint(60, 50, "2x", 15 / 32, None)
    assert "stroke-dasharray" not in drawing.joint(60, 50, "2x", 15 / 32, (2.5, 0.131))
