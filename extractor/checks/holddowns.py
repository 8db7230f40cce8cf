"""The hold-down table: rows that leave open what other rows give."""

from collections.abc import Iterator

from extractor.checks.fields import LABELS
from extractor.checks.hit import Hit, hold_down_name, listed, mark_of, reading
from extractor.record import Job

FIELDS = ("model", "post", "anchor.diameter_in", "anchor.embedment_in", "fasteners", "capacity_lb")


def hold_down_value_missing(job: Job) -> Iterator[Hit]:
    """A hold-down's row leaves open what the other hold-downs' rows give.

    Why: anchors are cast before anybody frames; the wrong rod or embedment is found after the pour.
    Fires: three hold-downs with an embedment and one without. Silent: what fewer than half of the other rows give.
    Source: common practice, no source.
    """
    for hold_down in job.hold_downs:
        others = [other for other in job.hold_downs if other is not hold_down]
        for field in FIELDS:
            given = [reading(other, field) is not None for other in others]
            if reading(hold_down, field) is None and any(given) and 2 * sum(given) >= len(given):
                yield Hit(
                    f"Hold-down {mark_of(hold_down)}: the {LABELS[field]} is missing in this row of the hold-down table; other "
                    "rows give it. Ask the engineer before the pour.",
                    hold_down.mark.source,
                    field,
                    hold_down_name(job, mark_of(hold_down)),
                )


def hold_down_value_not_given(job: Job) -> Iterator[Hit]:
    """The hold-down table gives a value for no hold-down at all.

    Why: post, anchor and embedment are needed for the concrete; they may stand in a detail.
    Fires: a table without embedments. Silent: a value that one row gives.
    Source: common practice, no source.
    """
    lacking = [field for field in FIELDS if job.hold_downs and all(reading(row, field) is None for row in job.hold_downs)]
    for field in lacking:
        marks = listed([mark_of(row) for row in job.hold_downs])
        yield Hit(
            f"The {LABELS[field]} was not found in the hold-down table ({marks}).",
            job.hold_downs[0].mark.source,
            field,
        )
