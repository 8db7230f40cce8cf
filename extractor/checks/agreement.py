"""Values of one schedule that cannot all be right: a nail and its size, edge and field nailing, rows out of order."""

from collections.abc import Iterator

from extractor.checks.construction import construction, over_the_table
from extractor.checks.hit import Hit, mark_of, value
from extractor.published.tables import Nail, nails_named
from extractor.record import Job, Level, Reading, WallType
from extractor.trade.inches import as_fraction

ROUNDED_IN = 0.002  # a diameter rounded to two places; neighbouring nails differ by 0.003 or more


def nail_size_disagrees(wall: WallType) -> Iterator[Hit]:
    """The printed size is not the one published for the nail that is named.

    Why: the wall's published strength goes with the nail's diameter and length; an 8d box nail is thinner than an 8d common.
    Fires: "8d common (0.113 x 2-3/8)". Silent: "8d common (0.131 x 2-1/2)", and nails that the table does not list. Milder
    where the published size is from memory, and where only the length differs and no kind of nail is named.
    Source: NDS-2018 Table L4 (8d common: 0.131 x 2-1/2 in; 10d common: 0.148 x 3 in).
    """
    penny, style = value(wall, "fastener.penny"), value(wall, "fastener.style")
    named, size = nails_named(penny, style), (value(wall, "fastener.diameter_in"), value(wall, "fastener.length_in"))
    if not named or size == (None, None) or any(_fits(nail, size) for nail in named):
        return
    thickness_fits = any(_fits(nail, (size[0], None)) for nail in named)
    found: Reading[float] | None = wall.fastener.length_in if thickness_fits else wall.fastener.diameter_in
    memory = all(nail.origin.status == "from memory" for nail in named)
    says = " x ".join(as_fraction(number) for number in size if number is not None)
    yield Hit(
        f"{mark_of(wall)}: nail and size disagree. {penny} {style or 'nails'} {'is' if style else 'are'} "
        f"{' or '.join(dict.fromkeys(_size(nail) for nail in named))} in; the plans say {says} in. "
        + ("The published size is from memory: the adopted code decides. " if memory else "")
        + "Ask the engineer which nail.",
        found.source if found else wall.mark.source,
        "fastener.length_in" if thickness_fits else "fastener.diameter_in",
        level=Level.ASK if memory or (style is None and thickness_fits) else None,
    )


def edge_nailing_looser_than_field(wall: WallType) -> Iterator[Hit]:
    """Edge nails are spaced wider than field nails.

    Why: panel edges carry the load and are nailed closer; two columns have probably changed places.
    Fires: edge 12 in, field 6 in. Silent: both the same, as on gypsum board.
    Source: common practice, no source.
    """
    edge, field = value(wall, "edge.spacing_in"), value(wall, "field.spacing_in")
    if edge and field and edge > field and wall.edge.spacing_in:
        yield Hit(
            f"{mark_of(wall)}: edge nailing at {as_fraction(edge)} in is looser than field nailing at {as_fraction(field)} in; "
            "the two values may have changed places and contradict each other. Ask the engineer.",
            wall.edge.spacing_in.source,
            "edge.spacing_in",
        )


def capacity_out_of_order(job: Job) -> Iterator[Hit]:
    """Of two rows with the same panel, nail and faces, the one with closer edge nailing has the lower capacity.

    Why: closer nailing makes a stronger wall; two rows have probably been crossed.
    Fires: 4 in edge with 490 plf beside 3 in edge with 380 plf. Silent: rows that differ in anything else, and a capacity that is
    over the published table already.
    Source: common practice, no source.
    """
    over = {id(wall) for wall, _ in over_the_table(job)}
    for tight, loose in _same_but_tighter(job, over):
        strong, weak = _capacities(tight), _capacities(loose)
        lower = next((basis for basis in strong if basis in weak and strong[basis] < weak[basis]), None)
        if lower and tight.capacity:
            yield Hit(
                f"{mark_of(tight)}: capacity {strong[lower]:g} plf with edge nailing at {_edge(tight)} in is less than "
                f"{mark_of(loose)} has with {_edge(loose)} in ({weak[lower]:g} plf); the rows contradict each other. Ask the "
                "engineer.",
                tight.capacity.source,
                "capacity",
                mark_of(tight),
            )


def anchor_spacing_out_of_order(job: Job) -> Iterator[Hit]:
    """Of two rows with the same panel, nail, faces and anchor, the one with closer edge nailing has its anchors further apart.

    Why: a stronger wall needs more anchors; two rows have probably been crossed.
    Fires: 3 in edge with anchors at 48 in beside 6 in edge with anchors at 32 in. Silent: rows that differ in the anchor.
    Source: common practice, no source.
    """
    for tight, loose in _same_but_tighter(job, set()):
        same = all(
            value(tight, field) == value(loose, field) for field in ("anchors.kind", "anchors.diameter_in", "framing.sill")
        )
        close, wide = value(loose, "anchors.spacing_in"), value(tight, "anchors.spacing_in")
        if same and close and wide and wide > close and tight.anchors.spacing_in:
            yield Hit(
                f"{mark_of(tight)}: sill anchors at {as_fraction(wide)} in are further apart than in {mark_of(loose)} "
                f"({as_fraction(close)} in), which has looser edge nailing; the rows contradict each other. Ask the engineer.",
                tight.anchors.spacing_in.source,
                "anchors.spacing_in",
                mark_of(tight),
            )


def _fits(nail: Nail, size: tuple[float | None, float | None]) -> bool:
    diameter, length = size
    return (diameter is None or abs(diameter - nail.diameter_in) <= ROUNDED_IN) and (
        length is None or abs(length - nail.length_in) < 1 / 64
    )


def _size(nail: Nail) -> str:
    return f"{nail.diameter_in:.3f} x {as_fraction(nail.length_in)}"


def _edge(wall: WallType) -> str:
    return as_fraction(value(wall, "edge.spacing_in"))


def _same_but_tighter(job: Job, leave_out: set[int]) -> Iterator[tuple[WallType, WallType]]:
    """Pairs of rows alike in panel, nail and faces, the closer edge nailing first; each row once, against its nearest."""
    alike: dict[tuple[object, ...], list[tuple[float, WallType]]] = {}
    for wall in job.wall_types:
        made = construction(wall)
        if made and id(wall) not in leave_out:
            built = (made._replace(edge_in=0), value(wall, "sheathing.material"))
            alike.setdefault(built, []).append((made.edge_in, wall))
    for rows in alike.values():
        for edge, wall in rows:
            looser = [row for row in rows if row[0] > edge]
            if looser:
                yield wall, min(looser, key=lambda row: row[0])[1]


def _capacities(wall: WallType) -> dict[tuple[object, object], float]:
    stated = value(wall, "capacity") or ()
    return {
        (one.load.value if one.load else None, one.method.value if one.method else None): one.plf.value
        for one in stated
        if one.plf.value
    }
