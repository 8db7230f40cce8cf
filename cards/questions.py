"""Questions to the engineer, one issue each: what the plans say and where, what is missing, and room for the answer."""

import base64
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from cards.asking import BEFORE, LATE, WHY, asks
from cards.face import Face, faces, mixed, schedule_sheets
from cards.findings import GOVERN, REPORT, summary
from cards.numbers import closed
from cards.papers import counts, drawn, job_name, open_questions, paper_pdf, sheet_name
from cards.paperwords import PaperWords
from cards.traced import Row, label_of, mark_of, place, understood
from extractor.checks.fields import step
from extractor.checks.hit import listed, mark_key, rows_named
from extractor.record import Finding, Job, Origin, PlanMark, Reading, Source, State, WallType, readings

Pictures = Callable[[Iterable[Source]], dict[Source, bytes]]
"""Places of the plans -> a picture of each as PNG; a place without one is left out."""

BESIDE = 72.0  # points shown beside a narrow row, where the names of values stand
NARROW = 300.0
ROWS_SHOWN = 3  # rows quoted in a question about many
CARDS_NAMED = 6  # cards named with their numbers; of more, the types and their count
TITLE = "Questions to the engineer"
_ORIGINS = {Origin.SCHEDULE: "schedule", Origin.NOTE: "note", Origin.LEGEND: "legend", Origin.ANSWER: "answer"}
_ASK_WHOM = re.compile(r",? and ask the engineer[^.]*(?=\.)|(?: |^)Ask the engineer[^.]*\.|(?: |^)Ask which[^.]*\.")
_MARKDOWN = re.compile(r"([\\`*_\[\]<>|~&])|^(?=[#+=-]|\d+[.)])")


@dataclass(frozen=True)
class Question:
    """One question, ready to print. ``pictures`` are the places to show; ``cards`` name the cards that wait."""

    number: str
    level: str
    subject: str
    where: str
    before: str
    why: str
    says: tuple[str, ...]
    lacks: str
    asks: str
    choices: tuple[tuple[str, str], ...]
    late: str
    cards: str
    pictures: tuple[Source, ...]


def questions(job: Job) -> tuple[Question, ...]:
    """Every open question of a job: what holds the pour first, then order, nailing, cover; within these by number."""
    every = faces(job)
    rows = sorted(open_questions(job), key=lambda row: (step(row[1].field, row[1].code), int(row[0][2:])))
    return tuple(_question(number, finding, job, every) for number, finding in rows)


def questions_pdf(job: Job, *, paper: str = "letter", pictures: Pictures | None = None) -> bytes | None:
    """The questions as PDF, with pictures of the plans where they are at hand; None where nothing is open."""
    every = questions(job)
    if not every:
        return None
    made = pictures(place for one in every for place in one.pictures) if pictures else {}
    shown = [(one, [(_data(made[place]), place.box[2] - place.box[0]) for place in one.pictures if place in made])
             for one in every]  # fmt: skip
    return paper_pdf("papers_questions.html", job, PaperWords("en"), TITLE, paper, questions=shown, summary=summary(job),
                     closed=_closed(job))  # fmt: skip


def questions_text(job: Job) -> str | None:
    """The questions as Markdown, to paste into a letter; None where nothing is open."""
    every = questions(job)
    if not every:
        return None
    words = PaperWords("en")
    parts = [f"# {TITLE}", _md(f"Job {job_name(job)}"), _md(f"File {job.plan_set.file}, digest {job.plan_set.sha256[:8]}")]
    parts += [_md(sheet_name(sheet, words)) for sheet in schedule_sheets(job)]
    parts += [f"**{_md(line)}**" for line in words.lines("mixed") if mixed(job)]
    parts += [_md(summary(job)), *("\n\n".join(_blocks(one)) for one in every)]
    parts += [_md(line) for line in (_closed(job), GOVERN, " ".join(REPORT.split())) if line]
    return "\n\n".join(parts) + "\n"


def _blocks(one: Question) -> Iterator[str]:
    yield f"## {one.number} {one.level}: {_md(one.subject)}"
    yield f"Needed before {one.before.lower()}: {_md(one.why)}. Needed by (date):"
    yield f"Sheet: {_md(one.where)}"
    yield "Plans say:\n" + "\n".join(f"- {_md(said)}" for said in one.says)
    yield f"Missing or in conflict: {_md(one.lacks)}"
    yield f"**{_md(one.asks)}**" + "".join(f"\n- [ ] {letter}: {_md(text)}" for letter, text in one.choices)
    yield f"If late: {_md(one.late)} Cards affected: {_md(one.cards)}"
    yield "Answer:\n\nAnswered by, date:\n\nChanges plans? Y / N. Reissue sheet? Y / N"


def _question(number: str, finding: Finding, job: Job, every: tuple[Face, ...]) -> Question:
    group = _group(finding, job)
    row = None if group else _row(finding, job)
    shown = row or next(iter(group), None)
    found = dict(readings(shown)).get(finding.field or "") if shown else None
    choices = tuple(_choices(finding.field or "", found)) if found and found.state is State.CONFLICT else ()
    held, late = step(finding.field, finding.code), [face for face in every if number in {q.number for q in face.questions}]
    who = _who(finding, row) if not group else _named(group)
    return Question(
        number=number, level=finding.level.upper(), subject=_subject(finding, row, who if group else None),
        where=place(finding.source) or "the whole set", before=BEFORE[held], why=WHY[held],
        says=tuple(_says(finding, job, row, found, group)), lacks=_lacks(finding.message), asks=asks(finding, who, len(choices)),
        choices=choices, late=LATE[held], cards=_cards(late, every), pictures=tuple(_pictures(finding, shown, found)),
    )  # fmt: skip


def _row(finding: Finding, job: Job) -> Row | None:
    """The row that a finding is about; of two with one mark, the one that holds its place."""
    every: tuple[Row, ...] = (*job.wall_types, *job.hold_downs)
    named = [row for row in every if finding.wall_type is not None and mark_of(row) == finding.wall_type]
    if finding.wall_type is None and finding.source:
        named = [row for row in job.hold_downs if row.mark.source == finding.source]
    here = [row for row in named if any(reading.source == finding.source for _, reading in readings(row))]
    return next(iter(here or named), None)


def _group(finding: Finding, job: Job) -> tuple[Row, ...]:
    """The rows that a question about several rows names."""
    if finding.wall_type is not None or finding.field is None:
        return ()
    every: tuple[Row, ...] = job.hold_downs if finding.message.startswith("Hold-downs ") else job.wall_types
    named = rows_named(finding.message, [mark_of(row) for row in every])
    return tuple(row for row in every if mark_of(row) in named)


def _who(finding: Finding, row: Row | None) -> str:
    if row is None:
        return finding.wall_type or "these walls"
    return f"type {mark_of(row)}" if isinstance(row, WallType) else f"hold-down {mark_of(row)}"


def _named(group: tuple[Row, ...]) -> str:
    what = "type" if isinstance(group[0], WallType) else "hold-down"
    return f"{what}s {listed([mark_of(row) for row in group])}" if len(group) <= CARDS_NAMED else f"these {len(group)} {what}s"


def _subject(finding: Finding, row: Row | None, several: str | None = None) -> str:
    who = several or (finding.wall_type if row is None else _who(finding, row))
    label = label_of(finding.field) if finding.field else finding.code.replace("-", " ")
    return f"{who}: {label}" if who else label


def _lacks(message: str) -> str:
    """A finding's message without the words that send the crew to the engineer: this is the letter to him."""
    said = " ".join(_ASK_WHOM.sub("", message).split())
    return said or message


def _says(finding: Finding, job: Job, row: Row | None, found: Reading[Any] | None, group: tuple[Row, ...] = ()) -> Iterator[str]:
    """What stands on the plans, in quotes, each with its place."""
    if found:
        yield from (f"“{one.as_printed}” - {_ORIGINS[one.origin]}, {place(one.source)}" for one in (found, *found.also))
    rows = list(_rows(finding, job, row)) if row else list(group)
    for one in rows[:ROWS_SHOWN]:
        yield f"Row {mark_of(one)}, {place(one.mark.source)}: {' | '.join(f'“{words}”' for words in _words(one))}"
    if len(rows) > ROWS_SHOWN:
        yield f"Other rows: {', '.join(mark_of(one) for one in rows[ROWS_SHOWN:])}."
    marks = _drawn_as(finding, job)
    if marks:
        yield marks
    if not (found or rows or marks):
        yield f"Nothing that answers it was found. Looked at {place(finding.source) or 'the whole set'}."


def _rows(finding: Finding, job: Job, row: Row) -> Iterator[Row]:
    """The row that a question is about; where two rows have one mark, both."""
    twice = finding.code.startswith("duplicate-")
    every: tuple[Row, ...] = (*job.wall_types, *job.hold_downs)
    yield from (one for one in every if one is row or (twice and mark_key(mark_of(one)) == mark_key(mark_of(row))))


def _words(row: Row) -> list[str]:
    """The words of a row from left to right, each once."""
    own = _own(row)
    across = sorted({(reading.source.box[0], reading.source.box[1], reading.as_printed) for reading in own})
    return list(dict.fromkeys(words for _, _, words in across))


def _own(row: Row) -> list[Reading[Any]]:
    """Readings of a row that stand in it and not in a note."""
    return [one for _, one in readings(row) if one.origin is Origin.SCHEDULE and one.source.page == row.mark.source.page]


def _drawn_as(finding: Finding, job: Job) -> str | None:
    """Where a mark is drawn that a question is about, sheet by sheet."""
    if not finding.code.startswith(("undefined-", "unused-")) or not finding.source:
        return None
    kind = "hold-down" if "hold-down" in finding.code else "wall"
    for mark, sheets in drawn(job, kind).values():
        if any(_stands(one, mark, finding.source) for one in job.plan_marks):
            return f"“{mark}” drawn on {counts(sheets)}"
    return None


def _stands(drawn_mark: PlanMark, mark: str, source: Source) -> bool:
    return drawn_mark.mark == mark and drawn_mark.page == source.page and source.box in drawn_mark.boxes


def _choices(name: str, found: Reading[Any]) -> Iterator[tuple[str, str]]:
    """The values that the plans give, lettered; the order says nothing about which is right."""
    for i, one in enumerate((found, *found.also)):
        value = understood(name, one.value) if one.value is not None else f"“{one.as_printed}”"
        yield chr(ord("A") + i), f"{value} ({_ORIGINS[one.origin]}, {place(one.source)})"


def _cards(late: list[Face], every: tuple[Face, ...]) -> str:
    if not late:
        return "none"
    if len(late) > CARDS_NAMED:
        return f"{', '.join(face.mark for face in late)} ({len(late)} of {len(every)} cards)"
    return ", ".join(f"{face.mark} (card {every.index(face) + 1} of {len(every)})" for face in late)


def _pictures(finding: Finding, row: Row | None, found: Reading[Any] | None) -> Iterator[Source]:
    """The row, then the other places that a conflict has; without a row the finding's own place."""
    if row:
        boxes = [reading.source.box for reading in _own(row)] or [row.mark.source.box]
        union = (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))
        beside = BESIDE if union[2] - union[0] < NARROW else 12
        yield _wider(Source(page=row.mark.source.page, sheet=row.mark.source.sheet, box=union), beside, 4)
        yield from (_wider(one.source, 120, 9) for one in (found.also if found else ()))
    elif finding.source:
        yield _wider(finding.source, 90, 40)


def _wider(source: Source, across: float, down: float) -> Source:
    """A place with what stands round it, in points."""
    x0, y0, x1, y1 = source.box
    return source.model_copy(update={"box": (x0 - across, y0 - down, x1 + across, y1 + down)})


def _closed(job: Job) -> str:
    """Numbers that stand on earlier papers and whose question is not found any more."""
    gone = [f"{entry.name} ({entry.wall_type or entry.code.replace('-', ' ')})" for entry in closed(job.findings)]
    return f"Asked earlier and not found in this reading: {', '.join(gone)}. Look that each was answered." if gone else ""


def _data(png: bytes) -> str:
    return "data:image/png;base64," + base64.b64encode(png).decode()


def _md(text: str) -> str:
    """Words from a plan file as plain text in Markdown: on one line, and no sign in them means anything."""
    line = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return _MARKDOWN.sub(lambda m: "\\" + (m[1] or ""), line)
