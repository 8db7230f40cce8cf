"""Rows that belong together and disagree: both faces against one face, hold-downs with one model and two sets of data."""

from collections.abc import Iterator

from extractor.checks.construction import construction, stated_basis
from extractor.checks.fields import LABELS
from extractor.checks.hit import Hit, hold_down_name, mark_of, printed, reading, value
from extractor.record import HoldDown, Job, WallType


def both_faces_with_the_capacity_of_one(job: Job) -> Iterator[Hit]:
    """A row for both faces has the same capacity as the row with the same panel and nailing on one face.

    Why: a wall sheathed on both faces is designed for more; the number of faces or the capacity is wrong, and a crew that
    sheathes one face builds half the wall.
    Fires: SW3 on one face with 490 plf, SW3D on both faces with 490 plf. Silent: 980 plf for both faces; rows that differ in the
    nailing.
    Source: common practice, no source.
    """
    built = [(wall, made) for wall in job.wall_types if (made := construction(wall))]
    single = {made._replace(faces=2, sure=True): wall for wall, made in built if made.faces == 1}
    for wall, made in built:
        other = single.get(made._replace(sure=True)) if made.faces == 2 else None
        if other is None or wall.capacity is None:
            continue
        same = sorted(_stated(wall) & _stated(other), key=str)
        if same:
            yield Hit(
                f"{mark_of(wall)} is sheathed on both faces and has the capacity of {mark_of(other)} with the same nailing on "
                f"one face ({same[0][0]:g} plf); the rows contradict each other. Ask the engineer which is right, the faces "
                "or the capacity.",
                wall.capacity.source,
                "capacity",
                mark_of(wall),
            )


def one_hold_down_model_two_sets_of_data(job: Job) -> Iterator[Hit]:
    """Two rows of the hold-down table name one model on one post with one fastening, and differ in capacity or anchor.

    Why: one of the rows was copied and not finished; the wrong anchor is found after the pour.
    Fires: HD2 and HD5 both KT-22 on a 4x4, with 3,075 and 4,565 lb. Silent: the same model on another post or with another
    fastening.
    Source: common practice, no source.
    """
    seen: dict[tuple[object, ...], HoldDown] = {}
    for row in job.hold_downs:
        model = value(row, "model")
        alike = (model, value(row, "post"), value(row, "fasteners"))
        first = seen.setdefault(alike, row) if model else row
        for field in ("capacity_lb", "anchor.diameter_in"):
            one, two = reading(first, field), reading(row, field)
            if one and two and None not in (value(first, field), value(row, field)) and one.value != two.value:
                yield Hit(
                    f"Hold-down {mark_of(first)} and hold-down {mark_of(row)} are one model ({model}) with the same post and "
                    f"fastening and contradict each other: {LABELS[field]} {printed(one)} and {printed(two)}. Ask the engineer "
                    "before the pour.",
                    two.source,
                    field,
                    hold_down_name(job, mark_of(row)),
                )


def _stated(wall: WallType) -> set[tuple[object, ...]]:
    return {(one.plf.value, *stated_basis(one)) for one in value(wall, "capacity") or ()}
