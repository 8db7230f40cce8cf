"""The engineer's written answers to findings: read by the same grammar as the plans, and put into the job as such.

An answer gives its value the origin ``answer``; the checks then run again. Where a check still fires on the question that was
answered, its finding stays as a note that quotes the answer. Nothing is applied halfway: an answer that does not fit is given
back with the reason.
"""

import datetime
from collections.abc import Iterable, Sequence
from typing import Annotated, Any, NamedTuple

from pydantic import Field, ValidationError

from extractor.checks import check
from extractor.checks.fields import LABELS
from extractor.checks.hit import mark_of, rows_named
from extractor.errors import UsageError
from extractor.record import Capacity, Finding, HoldDown, Job, Level, Origin, Reading, Record, Source, State, WallType, readings
from extractor.schedule.reading import LEAVES, get, with_fields
from extractor.trade import cells
from extractor.trade.spans import leftovers
from extractor.trade.text import Found, plain

Words = Annotated[str, Field(min_length=1, max_length=400)]

_KINDS = {
    "sheathing.faces": ("faces",),
    "sheathing": ("sheathing",),
    "fastener.diameter_in": ("nail_diameter", "fastener"),
    "fastener.length_in": ("nail_length", "fastener"),
    "fastener": ("fastener",),
    "edge": ("edge",),
    "field": ("field",),
    "framing.panel_edge": ("panel_edge",),
    "framing.blocked": ("blocking",),
    "framing.sill": ("sill",),
    "anchors.embedment_in": ("embedment", "anchors"),
    "anchors.washer_in": ("washer",),
    "anchors": ("anchors",),
    "bottom_plate": ("bottom_plate",),
    "top_plate": ("top_plate",),
    "hold_down": ("hold_down",),
    "capacity": ("capacity",),
    "model": ("hd_model",),
    "post": ("hd_post",),
    "fasteners": ("hd_fasteners",),
    "capacity_lb": ("hd_capacity",),
    "anchor.diameter_in": ("hd_anchor",),
    "anchor.embedment_in": ("hd_embedment",),
}
"""Columns of the grammar that read a field's answer, by field or by its group; the first that understands it counts."""

_IN_WORDS = ("undefined-mark",)
"""Stops without a field that words may answer: no card is printed for a mark that has no row."""


_NEVER_NONE = ("sheathing", "fastener", "edge", "field", "capacity")
"""Groups of fields for which "none" is no answer: a wall without them is no shear wall."""


class Answer(Record):
    """One written answer: which finding of which plan file, the engineer's words, reference, date, who entered it."""

    finding: Words
    value: Words
    reference: Annotated[str, Field(min_length=1, max_length=60, pattern=r"^[^“”]*$")]
    date: datetime.date
    by: Words
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    file: str
    question: str = ""

    @property
    def named(self) -> str:
        """Its reference and date as a card prints them: "RFI 3, 12 May 2026"."""
        return f"{self.reference}, {self.date.day} {self.date:%b} {self.date.year}"

    @property
    def as_printed(self) -> str:
        """Reference, date and the words of the answer; `reference_of` gives the first two back."""
        return f"{self.named} “{self.value}”"


class Filled(NamedTuple):
    """One value that an answer gave: of which row, which field, what stood there, and what stands there now."""

    row: WallType | HoldDown
    field: str
    old: Reading[Any] | None
    new: Reading[Any]


class Refused(NamedTuple):
    """An answer that was not applied, and why."""

    answer: Answer
    why: str


class Applied(NamedTuple):
    """The job with its answers, and the answers that do not fit it."""

    job: Job
    used: tuple[Answer, ...]
    refused: tuple[Refused, ...]


def reference_of(as_printed: str) -> str:
    """Reference and date out of the words of an answered reading.

    >>> reference_of('RFI 3, 12 May 2026 “12" o.c.”')
    'RFI 3, 12 May 2026'
    """
    return as_printed.partition(" “")[0]


def key_of(finding: Finding) -> str:
    """The name of a finding that holds from run to run: code, mark and field: "missing-value:SW4:field.spacing_in"."""
    return f"{finding.code}:{finding.wall_type or ''}:{finding.field or ''}"


def finding_named(job: Job, key: str) -> Finding:
    """The finding that ``key`` names; one about the whole schedule may be answered for one wall type by naming its mark.

    Raises a UsageError where no finding, or more than one, has the name.
    """
    code, _, rest = key.partition(":")
    mark, _, field = rest.rpartition(":")
    found = [one for one in job.findings if key_of(one) == f"{code}:{mark}:{field}"]
    if not found and any(mark_of(wall) == mark for wall in job.wall_types):
        whole = [one for one in job.findings if key_of(one) == f"{code}::{field}"]
        found = [one.model_copy(update={"wall_type": mark}) for one in whole if mark in map(mark_of, _asked(job.wall_types, one))]
    if len(found) == 1:
        return found[0]
    says = "No finding has this name." if not found else f"{len(found)} findings have this name: one answer cannot stand for all."
    raise UsageError(says, where=key, do="Run nailcard check and name the question, Q-03, or code:type:field.")


def answered(job: Job) -> tuple[tuple[str, str, Reading[Any]], ...]:
    """Mark, field and reading of each value in the job that came from an answer."""
    rows: tuple[WallType | HoldDown, ...] = (*job.wall_types, *job.hold_downs)
    return tuple((mark_of(row), field, one) for row in rows for field, one in readings(row) if one.origin is Origin.ANSWER)


def held(job: Job, answer: Answer) -> bool:
    """Whether a record that was written with the answer in it has it already."""
    field = answer.finding.rpartition(":")[2]
    return any(name == field and one.as_printed == answer.as_printed for _, name, one in answered(job))


def fill(job: Job, answer: Answer) -> tuple[Job, tuple[Filled, ...]]:
    """The job with the answer's values in it, and what was filled; checks are not run. UsageError where it does not fit."""
    found = finding_named(job, answer.finding)
    if found.field is None:
        _words_will_do(found, answer)
        return job, ()
    if found.field not in {**LEAVES["wall"], **LEAVES["hold-down"]}:
        raise UsageError("This question is about no single value.", where=answer.finding, do="Ask for a reissued sheet.")
    rows = _rows(job, found, answer)
    values = _values(found.field, answer)
    filled = []
    for row in rows:
        source = found.source or row.mark.source
        made = {name: _reading(row, name, parts, answer, source) for name, parts in values.items()}
        filled += [Filled(row, name, get(row, name), new) for name, new in made.items()]
        job = _with_row(job, row, with_fields(row, made))
    _only_silent(found, filled, answer)
    return job, tuple(filled)


def apply(job: Job, answers: Sequence[Answer]) -> Applied:
    """The job with all answers that fit it, and its findings as the checks see it then."""
    used, refused, out = [], [], job
    for answer in answers:
        if held(out, answer):
            used.append(answer)
            continue
        try:
            out, _ = fill(out, answer)
        except UsageError as error:
            refused.append(Refused(answer, error.what))
        else:
            used.append(answer)
    if used:
        out = out.model_copy(update={"findings": tuple(_answered(check(out), used))})
    return Applied(out, tuple(used), tuple(refused))


def _answered(findings: Iterable[Finding], answers: Sequence[Answer]) -> Iterable[Finding]:
    """Findings in which a question that was answered is a note that quotes the answer."""
    by_key = {answer.finding: answer for answer in answers}
    for finding in findings:
        answer = by_key.get(key_of(finding))
        if answer is None:
            yield finding
            continue
        said = f"Answered in {answer.named}: “{answer.value}”."
        message = finding.message if finding.message.startswith("Answered in ") else f"{said} The question was: {finding.message}"
        yield finding.model_copy(update={"level": Level.NOTE, "message": message})


def _words_will_do(found: Finding, answer: Answer) -> None:
    if found.level is Level.STOP and found.code not in _IN_WORDS:
        raise UsageError(
            "Words alone cannot settle this question: it is about whole rows, not about one value.",
            where=answer.finding,
            do="Ask the engineer for a reissued sheet, and run nailcard compare when it comes.",
        )


def _rows(job: Job, found: Finding, answer: Answer) -> list[WallType] | list[HoldDown]:
    """The rows that an answer fills: the one that the finding names, or all that are silent where it names none."""
    if found.field in LEAVES["wall"]:
        walls = [wall for wall in job.wall_types if found.wall_type in (None, mark_of(wall))]
        walls = walls if found.wall_type else [wall for wall in _asked(walls, found) if _open(wall, found.field)]
        return _one_or_all(walls, found, answer)
    holds = [row for row in job.hold_downs if found.wall_type in (None, mark_of(row))]
    if found.wall_type is None:
        at = [row for row in holds if found.source and found.source in (row.mark.source, _source(row, found.field or ""))]
        alone = len(at) == 1 and any(mark_of(wall) == mark_of(at[0]) for wall in job.wall_types)
        holds = at if alone else [row for row in _asked(holds, found) if _open(row, found.field or "")]
    return _one_or_all(holds, found, answer)


def _asked(rows: Sequence[Any], found: Finding) -> Sequence[Any]:
    """The rows that a finding for several names; all of them where it is about the whole table."""
    named = rows_named(found.message, [mark_of(row) for row in rows])
    return [row for row in rows if mark_of(row) in named] if named else rows


def _one_or_all(rows: list[Any], found: Finding, answer: Answer) -> list[Any]:
    if not rows:
        raise UsageError("No row of the job can take this answer.", where=answer.finding, do="Ask for a reissued sheet.")
    if found.wall_type is not None and len(rows) > 1:
        raise UsageError(f"{found.wall_type} stands in {len(rows)} rows: it is not clear which one the answer is for.",
                         where=answer.finding, do="Ask for a reissued sheet.")  # fmt: skip
    return rows


def _open(row: Record, field: str) -> bool:
    """Whether a row has no value in a field, or one from an answer."""
    found = get(row, field)
    return found is None or found.state not in (State.READ, State.NONE) or found.origin is Origin.ANSWER


def _source(row: Record, field: str) -> Source | None:
    found = get(row, field) if field in LEAVES["hold-down"] else None
    return found.source if found else None


def _only_silent(found: Finding, filled: Iterable[Filled], answer: Answer) -> None:
    """An answer for the whole schedule never replaces what one of its rows says."""
    for one in filled if found.wall_type is None else ():
        if one.old and one.old.state in (State.READ, State.NONE) and one.old.origin is not Origin.ANSWER \
                and one.old.value != one.new.value:  # fmt: skip
            raise UsageError(
                f"The answer is for every wall type, and {mark_of(one.row)} says “{one.old.as_printed}” for the "
                f"{LABELS.get(one.field, one.field)}.",
                where=answer.finding,
                do=f"Enter the answer type by type: {found.code}:{mark_of(one.row)}:{found.field}",
            )


def _values(field: str, answer: Answer) -> dict[str, list[Found]]:
    """Each value of the answer by field; UsageError where its words do not give the field, or give more than one understands."""
    text = plain([answer.value]).text
    kinds = _KINDS.get(field) or _KINDS.get(field.split(".")[0]) or ()
    tries = [cells.read(text, kind) for kind in kinds]
    good = (State.READ,) if field.split(".")[0] in _NEVER_NONE else (State.READ, State.NONE)
    found = next((one for one in tries if any(f.field == field and f.state in good for f in one)), None)
    label = LABELS.get(field, field)
    if found is None:
        raise UsageError(f"“{answer.value}” is not understood as the {label}.", where=answer.finding,
                         do="Give the value as a schedule would print it: "
                         f"{_EXAMPLES.get(field, 'one value').rstrip('.')}.")  # fmt: skip
    group = field.split(".")[0]
    others = sorted({f.field for f in found if f.field.split(".")[0] != group})
    bad = [f for f in found if f.state not in good]
    odd = [text[slice(*span)] for span in leftovers(text, [f.span for f in found])] + [text[slice(*f.span)] for f in bad]
    if odd or others:
        what = f"“{' '.join(odd)}”" if odd else " and ".join(LABELS.get(name, name) for name in others)
        raise UsageError(f"The answer says more than the {label}: {what}. A value with a condition is not one value.",
                         where=answer.finding, do="Enter the value alone; for a condition ask for a reissued sheet.")  # fmt: skip
    by_field: dict[str, list[Found]] = {}
    for one in found:
        by_field.setdefault(one.field, []).append(one)
    return by_field


def _reading(row: Record, field: str, parts: list[Found], answer: Answer, source: Source) -> Reading[Any]:
    kind = LEAVES["wall" if isinstance(row, WallType) else "hold-down"][field]
    said: dict[str, Any] = {"as_printed": answer.as_printed, "origin": Origin.ANSWER, "source": source}
    value = tuple(_capacity(part.value, said) for part in parts) if field == "capacity" and parts[0].value else parts[0].value
    try:
        reading: Reading[Any] = kind(value=value, state=parts[0].state, **said)
    except ValidationError as error:
        raise UsageError(f"“{answer.value}” is out of range for the {LABELS.get(field, field)}.", where=answer.finding,
                         do="Check the answer.") from error  # fmt: skip
    return reading


def _capacity(parts: tuple[float, str | None, str | None], said: dict[str, Any]) -> Capacity:
    named = zip(("plf", "load", "method"), parts, strict=True)
    return Capacity.model_validate({name: {"value": part, "state": State.READ, **said} for name, part in named if part})


def _with_row(job: Job, old: WallType | HoldDown, new: WallType | HoldDown) -> Job:
    name = "wall_types" if isinstance(old, WallType) else "hold_downs"
    return job.model_copy(update={name: tuple(new if row is old else row for row in getattr(job, name))})


_EXAMPLES = {
    "sheathing.thickness_in": '15/32"',
    "sheathing.faces": "one side",
    "fastener.penny": '8d common (0.131" x 2-1/2")',
    "fastener.style": '8d common (0.131" x 2-1/2")',
    "fastener.diameter_in": '0.131"',
    "fastener.length_in": '2-1/2"',
    "edge.spacing_in": '4" o.c.',
    "field.spacing_in": '12" o.c.',
    "framing.panel_edge": "3x",
    "framing.blocked": "blocked",
    "framing.sill": "2x",
    "anchors.diameter_in": '5/8"',
    "anchors.spacing_in": '32" o.c.',
    "anchors.embedment_in": '7"',
    "anchors.washer_in": '3" x 3" x 0.229"',
    "bottom_plate.spacing_in": '16d @ 6" o.c.',
    "hold_down.marks": "a mark of the hold-down table, or none",
    "capacity": "380 plf seismic ASD",
    "post": "4x6",
    "anchor.diameter_in": '7/8"',
    "anchor.embedment_in": '14"',
}
