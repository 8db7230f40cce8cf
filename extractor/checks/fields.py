"""The fields of a record in a framer's words, which of them a wall cannot be built without, and when each is needed."""

from enum import IntEnum

from extractor.record import WallType

WOOD = ("plywood", "osb", "wood structural panel")

NEEDED = (
    "sheathing.thickness_in",
    "fastener.kind",
    "fastener.penny",
    "fastener.style",
    "fastener.diameter_in",
    "fastener.length_in",
    "fastener.gauge",
    "edge.spacing_in",
    "field.spacing_in",
    "anchors.diameter_in",
    "anchors.spacing_in",
    "hold_down.marks",
)
"""A wall is not built while one of these is in doubt."""

LABELS = {
    "mark": "mark",
    "sheathing.thickness_in": "sheathing thickness",
    "sheathing.material": "kind of sheathing",
    "sheathing.grade": "panel grade",
    "sheathing.faces": "number of sheathed faces (one side or both)",
    "fastener.kind": "kind of fastener",
    "fastener.penny": "nail",
    "fastener.style": "kind of nail (common, box, sinker)",
    "fastener.diameter_in": "nail diameter",
    "fastener.length_in": "nail length",
    "fastener.gauge": "staple gauge",
    "edge.spacing_in": "edge nailing spacing",
    "edge.rows": "number of edge nailing rows",
    "edge.staggered": "stagger of the edge nails",
    "field.spacing_in": "field nailing spacing",
    "framing.panel_edge": "framing at panel edges (2x, 3x or doubled)",
    "framing.blocked": "blocking of panel edges",
    "framing.sill": "sill plate size",
    "anchors.kind": "kind of sill anchor",
    "anchors.diameter_in": "sill anchor diameter",
    "anchors.spacing_in": "sill anchor spacing",
    "anchors.embedment_in": "sill anchor embedment",
    "anchors.washer_in": "plate washer size",
    "bottom_plate.penny": "bottom plate nail",
    "bottom_plate.spacing_in": "bottom plate nailing spacing",
    "top_plate.connector": "connection at the top of the wall",
    "top_plate.spacing_in": "spacing of the connection at the top of the wall",
    "hold_down.marks": "hold-down",
    "capacity": "capacity",
    "model": "model",
    "post": "post",
    "fasteners": "fastening to the post",
    "capacity_lb": "capacity",
    "anchor.diameter_in": "anchor diameter",
    "anchor.embedment_in": "anchor embedment",
}
"""Dotted field names in a framer's words."""


class Step(IntEnum):
    """The step of the job that waits for an answer, in the order of the job."""

    POUR = 1
    ORDER = 2
    NAIL = 3
    INSPECT = 4


BEFORE = {Step.POUR: "the pour", Step.ORDER: "ordering", Step.NAIL: "nailing", Step.INSPECT: "inspection"}

_STEPS = {
    "hold_down": Step.POUR,
    "anchors": Step.POUR,
    "anchor": Step.POUR,
    "model": Step.POUR,
    "post": Step.POUR,
    "fasteners": Step.POUR,
    "capacity_lb": Step.POUR,
    "sheathing": Step.ORDER,
    "framing": Step.ORDER,
    "fastener": Step.ORDER,
    "edge": Step.NAIL,
    "field": Step.NAIL,
    "bottom_plate": Step.NAIL,
    "top_plate": Step.NAIL,
    "capacity": Step.INSPECT,
}


def step(field: str | None, code: str) -> Step:
    """The first step of the job that a finding can hold up; one about a whole row or mark holds the pour."""
    return _STEPS.get(field.split(".")[0], Step.NAIL) if field else Step.INSPECT if "inspection" in code else Step.POUR


def is_wood(wall: WallType) -> bool:
    """Whether the sheathing is a wood structural panel, or nothing says that it is another board."""
    return wall.sheathing.material is None or wall.sheathing.material.value in WOOD
