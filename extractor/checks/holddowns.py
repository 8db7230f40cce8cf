"""The hold-down table: rows that leave open what other rows give."""

from collections.abc import Iterator

from extractor.checks.fields import LABELS
from extractor.checks.hit import Hit, hold_down_name, listed, mark_of, reading
from extractor.record import HoldDown, Job

GROUPS = (("model",), ("post",), ("anchor.diameter_in", "anchor.embedment_in"), ("fasteners",), ("capacity_lb",))
FIELDS = tuple(field for group in GROUPS for field in group)


def hold_down_value_missing(job: Job) -> Iterator[Hit]:
    """A hold-down's row leaves open what the other hold-downs' rows give.

    Why: anchors are cast before anybody frames; the wrong rod or embedment is found after the pour.
    Fires: three hold-downs with an embedment and one without; one finding for rows with the same blanks. Silent: what fewer than
    half of the other rows give.
    Source: common practice, no source.
    """
    for group in GROUPS:
        blanks: dict[tuple[str, ...], list[HoldDown]] = {}
        for row in job.hold_downs:
            lacking = tuple(field for field in group if _alone_without(row, field, job))
            if lacking:
                blanks.setdefault(lacking, []).append(row)
        yield from (_missing(rows, fields, job) for fields, rows in blanks.items())


def _alone_without(row: HoldDown, field: str, job: Job) -> bool:
    given = [reading(other, field) is not None for other in job.hold_downs if other is not row]
    return reading(row, field) is None and any(given) and 2 * sum(given) >= len(given)


def _missing(rows: list[HoldDown], fields: tuple[str, ...], job: Job) -> Hit:
    """One finding about the blanks of one row, or of several rows with the same blanks."""
    marks = [mark_of(row) for row in rows]
    several, what = len(rows) > 1, listed([LABELS[field] for field in fields])
    strap = " A strap from storey to storey has no anchor." if fields[0].startswith("anchor.") and len(fields) > 1 else ""
    return Hit(
        f"Hold-down{'s' * several} {listed(marks)}: the {what} {'are' if len(fields) > 1 else 'is'} missing in "
        f"{'these rows' if several else 'this row'} of the hold-down table; other rows give "
        f"{'them' if len(fields) > 1 else 'it'}.{strap} Ask the engineer before the pour.",
        rows[0].mark.source,
        fields[0],
        None if several else hold_down_name(job, marks[0]),
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
