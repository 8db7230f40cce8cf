"""A nail against its size, edge against field nailing, rows against each other."""

import pytest

from extractor.record import Level
from tests.checks.making import found, job, wall

L4 = "NDS-2018 Table L4"


def nail(penny: str | None, style: str | None, diameter: float | None, length: float | None) -> dict[str, object]:
    return {
        "fastener.penny": penny,
        "fastener.style": style,
        "fastener.diameter_in": diameter,
        "fastener.length_in": length,
    }


@pytest.mark.parametrize(
    ("changes", "level", "field", "says", "source"),
    [
        (
            nail("8d", "common", 0.113, 2.375),
            Level.STOP,
            "fastener.diameter_in",
            "8d common is 0.131 x 2-1/2 in; the plans say 0.113 x 2-3/8 in.",
            f"{L4}; the common gun nail error",
        ),
        (nail("8d", "common", 0.113, None), Level.STOP, "fastener.diameter_in", "the plans say 0.113 in.", L4),
        (nail("8d", "common", 0.131, 2.375), Level.STOP, "fastener.length_in", "the plans say 0.131 x 2-3/8 in.", L4),
        (nail("10d", "common", 0.131, 3), Level.STOP, "fastener.diameter_in", "10d common is 0.148 x 3 in", L4),
        (nail("10d", "box", 0.148, 3), Level.STOP, "fastener.diameter_in", "10d box is 0.128 x 3", L4),
        (nail("8d", None, 0.148, 3), Level.STOP, "fastener.diameter_in", "8d nails are 0.131 x 2-1/2", L4),
        (
            nail("10d", None, 0.148, 2.125),
            Level.ASK,
            "fastener.length_in",
            "the plans say 0.148 x 2-1/8 in.",
            "a short nail, no name",
        ),
        (
            nail("8d", "sinker", 0.131, 2.5),
            Level.ASK,
            "fastener.diameter_in",
            "from memory: the adopted code decides",
            "from memory",
        ),
    ],
)
def test_a_nail_that_is_not_its_name(changes: dict[str, object], level: Level, field: str, says: str, source: str) -> None:
    (finding,) = found("nail-size-disagrees", job(wall("B", changes)))
    assert (finding.level, finding.wall_type, finding.field) == (level, "B", field)
    assert says in finding.message
    assert finding.message.endswith("Ask the engineer which nail.")
    assert finding.citation == L4


@pytest.mark.parametrize(
    ("changes", "source"),
    [
        (nail("8d", "common", 0.131, 2.5), L4),
        (nail("10d", "common", 0.148, 3), L4),
        (nail("16d", "common", 0.162, 3.5), L4),
        (nail("10d", "box", 0.128, 3), L4),
        (nail("8d", "cooler", 0.113, 2.375), "ASTM F1667 cooler nails"),
        (nail("8d", "common or galvanized box", 0.113, 2.5), "IBC-2009 Table 2306.3 prints both"),
        (nail("8d", "common", 0.13, None), "0.131 rounded to two places"),
        (nail("8d", None, 0.113, 2.5), "8d box, L4"),
        (nail("8d", "common", None, None), "no size printed"),
        (nail("8d", "ring shank", 0.12, 2.5), "a nail the tables do not list"),
        (nail(None, None, 0.131, 3), "no name printed"),
    ],
)
def test_a_nail_that_may_be_its_name(changes: dict[str, object], source: str) -> None:
    assert found("nail-size-disagrees", job(wall("B", changes))) == []


@pytest.mark.parametrize(
    ("edge", "field", "fires", "source"),
    [
        (12, 6, True, "columns changed places"),
        (6, 12, False, "usual"),
        (7, 7, False, "gypsum board: both alike"),
        (4, None, False, "nothing to compare"),
    ],
)
def test_edge_looser_than_field(edge: float, field: float | None, fires: bool, source: str) -> None:
    findings = found("edge-nailing-looser-than-field", job(wall("SW1", {"edge.spacing_in": edge, "field.spacing_in": field})))
    assert [(f.level, f.field) for f in findings] == ([(Level.STOP, "edge.spacing_in")] if fires else [])


def row(mark: str, edge: float, plf: float, anchors: float = 48, **more: object) -> object:
    return wall(
        mark,
        {
            "edge.spacing_in": edge,
            "capacity": ((plf, "seismic", "ASD"),),
            "anchors.spacing_in": anchors,
            "framing.panel_edge": "3x",
            **more,
        },
    )


@pytest.mark.parametrize(
    ("tight", "loose", "marks", "source"),
    [
        (row("SW3", 3, 240), row("SW1", 6, 260), ["SW3"], "rows crossed"),
        (row("SW3", 3, 490), row("SW1", 6, 260), [], "SDPWS-2008 Table 4.3A / 2.0"),
        (row("SW3", 3, 260), row("SW1", 6, 260), [], "as strong is not weaker"),
        (row("SW3", 3, 240, **{"sheathing.faces": 2}), row("SW1", 6, 260), [], "another construction"),
        (row("SW3", 3, 240), row("SW1", 6, 990), [], "SW1 is over the table: its own finding, one cause"),
    ],
)
def test_capacities_out_of_order(tight: object, loose: object, marks: list[str], source: str) -> None:
    assert [f.wall_type for f in found("capacity-out-of-order", job(tight, loose))] == marks


@pytest.mark.parametrize(
    ("tight", "loose", "marks", "source"),
    [
        (row("SW3", 3, 490, 48), row("SW1", 6, 260, 32), ["SW3"], "rows crossed"),
        (row("SW3", 3, 490, 24), row("SW1", 6, 260, 48), [], "stronger wall, closer bolts"),
        (row("SW3", 3, 490, 48, **{"anchors.diameter_in": 3 / 4}), row("SW1", 6, 260, 32), [], "another bolt"),
    ],
)
def test_anchors_out_of_order(tight: object, loose: object, marks: list[str], source: str) -> None:
    assert [f.wall_type for f in found("anchor-spacing-out-of-order", job(tight, loose))] == marks


def test_two_storeys_with_the_same_marks_are_one_finding() -> None:
    bolted = {"bottom_plate.penny": None, "bottom_plate.spacing_in": None}
    nailed = {"anchors.kind": None, "anchors.diameter_in": None, "anchors.spacing_in": None}
    rows = [wall("1", bolted), wall("2", bolted), wall("1", nailed), wall("2", nailed)]
    (finding,) = found("duplicate-mark", job(*rows))
    assert (finding.level, finding.wall_type, finding.field) == (Level.STOP, None, None)
    assert finding.message.startswith("Two storeys use the same marks for different walls: type 1 and type 2 stand twice")
    assert [f.wall_type for f in found("duplicate-mark", job(wall("1", bolted), wall("1", nailed)))] == ["1"]
