"""The engineer's written answers, kept in ``answers.toml`` beside the job: entered, carried over to new plans, applied.

An answer belongs to one plan file, by digest. A file with another digest does not inherit it: it is listed, and a person
confirms it or does not.
"""

import datetime
import getpass
import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError

from cards import kept, numbers, output
from cards.findings import numbered
from cards.traced import label_of, mark_of, place, understood
from cards.values import inch
from extractor import files
from extractor.answers import Answer, Filled, answered, apply, fill, finding_named, key_of, reference_of
from extractor.errors import UsageError
from extractor.record import Finding, HoldDown, Job, State, WallType, readings

NAME = "answers.toml"
FORMAT = "nailcard.answers/1"
_NOTE = "The engineer's written answers to questions about these plans. Each belongs to one plan file, by its digest."
AGAIN = "Cards printed before this are out of date: collect them and make the packet again."
_QUESTION = re.compile(r"[QP]-?(\d+)", re.I)


class Beside(NamedTuple):
    """The job with the answers kept beside it, the answers that are in it, and what to say about them, a line each."""

    job: Job
    used: tuple[Answer, ...]
    says: tuple[str, ...]


class Entered(NamedTuple):
    """What an answer did: the job with it, the file it stands in, and what to say, a line each."""

    job: Job
    path: Path
    says: tuple[str, ...]


def folders(paths: Iterable[Path]) -> tuple[Path, ...]:
    """The folders in which answers to a plan set or a job record are kept, each once."""
    return tuple(dict.fromkeys(files.real(path if files.is_folder(path) else path.parent) for path in paths))


def kept_in(folder: Path) -> tuple[Answer, ...]:
    """The answers in a folder's file, in the order entered; a UsageError where the file is damaged."""
    path = folder / NAME
    try:
        return tuple(Answer.model_validate(one) for one in kept.read(path, FORMAT).get("answer", ()))
    except (ValidationError, TypeError) as error:
        raise kept.damaged(path, _first(error)) from error


def beside(job: Job, paths: Sequence[Path]) -> Beside:
    """The job with every answer that is kept beside ``paths`` for its plan file, and what is to be said about them."""
    found = [answer for folder in folders(paths) for answer in kept_in(folder)]
    own = [answer for answer in dict.fromkeys(found) if answer.sha256 == job.plan_set.sha256]
    _agreeing(own)
    done = apply(job, own)
    says = [f"Answered: {_about(one)}." for one in done.used]
    says += [f"NOT APPLIED, {one.answer.named}: {one.why}" for one in done.refused]
    known = {one.as_printed for one in own}
    says += [f"{mark} {label_of(field)} holds an answer that is not in {NAME}: {reference_of(reading.as_printed)}."
             for mark, field, reading in answered(job) if reading.as_printed not in known]  # fmt: skip
    others = to_confirm(job, found)
    if others:
        says.append("Answers to another plan file are NOT applied. Confirm each that still holds: nailcard answer JOB --confirm")
        says += [f"  {_about(one)}, for {one.file}, file {one.sha256[:8]}." for one in others]
    return Beside(done.job, done.used, tuple(says))


def to_confirm(job: Job, answers: Iterable[Answer]) -> tuple[Answer, ...]:
    """Answers to other plan files that nobody has confirmed for this one, the last one entered for each finding."""
    every = list(answers)
    here = {one.finding for one in every if one.sha256 == job.plan_set.sha256}
    last = {one.finding: one for one in every if one.sha256 != job.plan_set.sha256 and one.finding not in here}
    return tuple(last.values())


def enter(job: Job, path: Path, finding: str, value: str, reference: str, date: datetime.date, by: str | None = None) -> Entered:
    """Keep the engineer's answer to a finding of ``job`` beside ``path``; nothing is written where it does not fit.

    ``job`` is the job without the answers that are kept, as it was read. ``finding`` is a question's number or code:type:field.
    """
    folder = folders([path])[0]
    with kept.locked(folder):
        before = kept_in(folder)
        now = beside(job, [path])
        asked = named(job, now.job, finding)
        answer = _made(job, asked, value, reference, date, by)
        rest = [one for one in before if (one.sha256, one.finding) != (answer.sha256, answer.finding)]
        ground = apply(job, [one for one in rest if one.sha256 == answer.sha256]).job
        _, filled = fill(ground, answer)
        _write(folder, [*rest, answer], job)
        after = beside(job, [path])
    replaced = [one for one in before if one not in rest]
    says = [*_filled_lines(filled, answer), *(f"Replaces the answer of {one.named}: “{one.value}”." for one in replaced)]
    return Entered(after.job, folder / NAME, (*says, *_changes(now.job, after.job)))


def confirm(job: Job, path: Path, finding: str | None = None, by: str | None = None) -> Entered:
    """Carry answers to other plan files over to this one: all that still fit, or the one to ``finding``."""
    folder = folders([path])[0]
    says: list[str] = []
    with kept.locked(folder):
        before = list(kept_in(folder))
        now = beside(job, [path])
        wanted = finding and (_key(now.job, finding) or finding.strip())
        carried = []
        for old in to_confirm(job, before):
            if wanted not in (None, old.finding):
                continue
            new = old.model_copy(update={"sha256": job.plan_set.sha256, "file": job.plan_set.file, "by": _who(by)})
            try:
                _, filled = fill(now.job, new)
            except UsageError as error:
                says.append(f"Not carried over, {_about(old)}: {_no_longer(now.job, old) or error.what}")
                continue
            carried.append(new)
            says += [f"Carried over from file {old.sha256[:8]}:", *_filled_lines(filled, new)]
        if carried:
            _write(folder, [*before, *carried], job)
        after = beside(job, [path])
    says = says or ["No answer is waiting to be confirmed."]
    return Entered(after.job, folder / NAME, (*says, *_changes(now.job, after.job)))


def listing(job: Job, path: Path) -> tuple[str, ...]:
    """Every answer kept beside ``path``: those in force for this plan file, those to confirm."""
    found = beside(job, [path])
    lines = [f"{_about(one)}, entered by {one.by}: “{one.value}”." for one in found.used]
    lines += [line for line in found.says if not line.startswith("Answered: ")]
    return tuple(lines or ["No answer is kept beside these plans."])


def named(job: Job, now: Job, finding: str) -> Finding:
    """The finding of a question's number, open or answered, or of code:type:field. UsageError where there is none.

    ``job`` is the job as it was read, ``now`` the same with its answers, as people see it.
    """
    key = _key(now, finding) or finding.strip()
    field, mark = key.rpartition(":")[2], key.partition(":")[2].rpartition(":")[0]
    try:
        return finding_named(job, key)
    except UsageError:
        if any((mark, field) == (row, name) for row, name, _ in answered(job)):
            raise UsageError("This record was written with an answer to this question in it.", where=key,
                             do="Name the plans instead of the record.") from None  # fmt: skip
    return finding_named(now, key)


def _key(now: Job, finding: str) -> str | None:
    """The lasting name of the finding with a question's number; None where ``finding`` is no number."""
    number = _QUESTION.fullmatch(finding.strip())
    if number is None:
        return None
    name = f"Q-{int(number[1]):02}"
    key = next((key_of(one) for other, one in numbered(now) if other == name), None)
    closed = (f"{one.code}:{one.wall_type}:{one.field}" for one in numbers.closed(now.findings) if one.name == name)
    if key := key or next(closed, None):
        return key
    raise UsageError(f"There is no question {name}.", where=now.plan_set.file, do="Run nailcard check to see the questions.")


def date_of(text: str) -> datetime.date:
    """A date as ISO or in words: 2026-05-12, 12 May 2026, May 12 2026. 5/12/26 could be two days, so it is refused."""
    tidy = " ".join(text.replace(",", " ").replace(".", " ").split())
    for form in ("%Y-%m-%d", "%d %b %Y", "%d %B %Y", "%b %d %Y", "%B %d %Y"):
        try:
            return datetime.datetime.strptime(tidy, form).date()
        except ValueError:
            continue
    raise UsageError(f"The date {text!r} could mean several days, or none.", where="--date", do="Write it as 2026-05-12.")


def _made(job: Job, asked: Finding, value: str, reference: str, date: datetime.date, by: str | None) -> Answer:
    try:
        return Answer(finding=key_of(asked), value=kept.plain(value), reference=kept.plain(reference), date=date, by=_who(by),
                      sha256=job.plan_set.sha256, file=kept.plain(job.plan_set.file),
                      question=kept.plain(asked.message))  # fmt: skip
    except ValidationError as error:
        raise UsageError(f"The answer cannot be kept: {_first(error)}.", where=key_of(asked),
                         do="Give the value and a short reference: --ref 'RFI 3'.") from error  # fmt: skip


def _who(by: str | None) -> str:
    try:
        return kept.plain(by or getpass.getuser()) or "not said"
    except (OSError, KeyError):
        return "not said"


def _write(folder: Path, answers: Sequence[Answer], job: Job) -> None:
    """The file of answers; and the numbers of the questions, so that an answered one leaves a gap."""
    if not files.is_file(folder / numbers.NAME):
        output.write(folder / numbers.NAME, numbers.as_toml(job.findings).encode())
    kept.write(folder / NAME, FORMAT, _NOTE, {"answer": [one.model_dump() for one in answers]})


def _agreeing(answers: Sequence[Answer]) -> None:
    """Two folders must not answer one question differently."""
    last: dict[str, Answer] = {}
    for one in answers:
        other = last.setdefault(one.finding, one)
        if other.value != one.value:
            raise UsageError(f"One question has two answers: “{other.value}” ({other.named}) and “{one.value}” ({one.named}).",
                             where=one.finding, do=f"Take the wrong one out of its {NAME}.")  # fmt: skip


def _about(answer: Answer) -> str:
    """What an answer is about: "SW4 field nailing spacing (RFI 3, 12 May 2026)"."""
    code, _, rest = answer.finding.partition(":")
    mark, _, field = rest.rpartition(":")
    what = " ".join(part for part in (mark or "every type", label_of(field) if field else code) if part)
    return f"{what} ({answer.named})"


def _filled_lines(filled: Sequence[Filled], answer: Answer) -> list[str]:
    if not filled:
        return [f"{_about(answer)}: kept in words: “{answer.value}”."]
    return [f"{mark_of(one.row)} {label_of(one.field)}: {shown(one.field, one.new.value)} ({answer.named}). {_plans_say(one)}"
            for one in filled]  # fmt: skip


def _plans_say(one: Filled) -> str:
    return f"The plans say “{one.old.as_printed}”." if one.old else "The plans do not say."


def shown(field: str, value: object) -> str:
    """A value as a tape reads it; "none" for nothing."""
    if value in (None, ()):
        return "none"
    if field == "capacity" and isinstance(value, tuple):
        return "; ".join(" ".join([f"{one.plf.value:g} plf", *(part.value for part in (one.load, one.method) if part)])
                         for one in value)  # fmt: skip
    if isinstance(value, float) and field.endswith("_in") and "." not in field:
        return inch(value)
    return understood(field, value)


def _no_longer(job: Job, old: Answer) -> str | None:
    """What the plans say now about what was answered, where they no longer ask."""
    mark, _, field = old.finding.partition(":")[2].rpartition(":")
    rows: tuple[WallType | HoldDown, ...] = (*job.wall_types, *job.hold_downs)
    for row in rows:
        if mark_of(row) == mark:
            reading = dict(readings(row)).get(field)
            if reading and reading.state in (State.READ, State.NONE):
                return f"the plans now say “{reading.as_printed}” on {place(reading.source)}. The answer said “{old.value}”."
    return None


def _changes(before: Job, after: Job) -> Iterable[str]:
    """Findings that an answer closed, and those it brought up."""
    was, now = {_same(one): one for one in _open(before)}, {_same(one): one for one in _open(after)}
    yield from (f"Closed: {one.message}" for same, one in was.items() if same not in now)
    yield from (f"NEW {one.level.upper()}: {one.message}" for same, one in now.items() if same not in was)


def _open(job: Job) -> Iterable[Finding]:
    return (one for one in job.findings if one.level != "note")


def _same(finding: Finding) -> tuple[object, ...]:
    return finding.code, finding.wall_type, finding.field, finding.message


def _first(error: Exception) -> str:
    if isinstance(error, ValidationError):
        first = error.errors()[0]
        return f"{'.'.join(str(part) for part in first['loc'])}: {first['msg']}"
    return str(error)
