"""What has to stand in the concrete: hold-down anchors and sill bolts by type, with the marks counted on each sheet.

Nothing is added up and nothing is picked: a value that the plans do not give is asked for, with its question's number.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from cards.face import Face, faces
from cards.findings import pages
from cards.papers import Bit, bits, counts, drawn, open_questions, paper_pdf, spoken
from cards.paperwords import PaperWords
from cards.values import Asking, asked, missing, worded
from cards.words import Words
from extractor.checks.fields import Step, step
from extractor.checks.hit import mark_key, mark_of
from extractor.record import Finding, HoldDown, Job, Level, Reading, Source, WallType

_COUNT = re.compile(r"^\(?\d{1,2}\)\s*")  # "(2) HD4" is drawn where two stand
Cells = tuple[tuple[Bit, ...], ...]


@dataclass(frozen=True)
class Row:
    """One type: its mark, where it is drawn, and its cells in the order of the table."""

    mark: str
    where: tuple[str, ...]
    cells: Cells


@dataclass(frozen=True)
class Open:
    """A question that holds the pour."""

    number: str
    level: str
    message: str


@dataclass(frozen=True)
class Pour:
    """The three tables of the paper, and what is open."""

    questions: tuple[Open, ...]
    hold_downs: tuple[Row, ...]
    sills: tuple[Row, ...]
    on_framing: tuple[Row, ...]


def before_pour(job: Job, words: PaperWords) -> Pour:
    """What to look at before the pour."""
    held = [(number, finding) for number, finding in open_questions(job) if step(finding.field, finding.code) is Step.POUR]
    held.sort(key=lambda row: row[1].level is not Level.STOP)
    sills, on_framing = _sills(job, words)
    return Pour(
        questions=tuple(Open(words.say("question", n=int(n[2:])), words.say(f"open_{f.level}"), f.message) for n, f in held),
        hold_downs=tuple(_hold_downs(job, words)), sills=sills, on_framing=on_framing,
    )  # fmt: skip


def before_pour_pdf(job: Job, *, paper: str = "letter", language: str = "en") -> bytes:
    """The paper as PDF."""
    words = spoken(language)
    unread = job.coverage.sheets_without_text
    numbers = tuple(number for number, finding in open_questions(job) if finding.field == "hold_down.marks")
    return paper_pdf(
        "papers_pour.html", job, words, words.say("pour_title"), paper, across=True, pour=before_pour(job, words),
        not_counted=words.lines("not_counted", pages=pages(unread)) if unread else (),
        no_hold_downs=words.lines("no_hold_downs", q=asked(numbers)),
        looks=[words.lines(f"pour_{i}") for i in range(1, 8)],
    )  # fmt: skip


def _hold_downs(job: Job, words: PaperWords) -> Iterator[Row]:
    """Rows of the table, then what is drawn or named and has no row in it."""
    on_plans, named = _on_plans(job), _named(job)
    seen: set[str] = set()
    for row in job.hold_downs:
        keys = {mark_key(mark_of(row))} | ({mark_key(str(row.model.value))} if row.model and row.model.value else set())
        seen |= keys
        yield Row(mark_of(row), tuple(_where(keys, on_plans, named, words)), tuple(_cells(row, job, words)))
    for key in dict.fromkeys([*on_plans, *named]):
        if key not in seen:
            mark = on_plans[key][0] if key in on_plans else named[key][0]
            text = words.lines("no_table_row", q=asked(_numbers(mark, None, job)))
            yield Row(mark, tuple(_where({key}, on_plans, named, words)), (tuple(Bit(line, "missing") for line in text),))


def _on_plans(job: Job) -> dict[str, tuple[str, list[str]]]:
    """Hold-down marks as drawn, by key: the mark, and "S2.1: 4" for each way it is written."""
    found: dict[str, tuple[str, list[str]]] = {}
    for mark, sheets in drawn(job, "hold-down").values():
        plain = _COUNT.sub("", mark)
        text = counts(sheets) if plain == mark else f"“{mark}” {counts(sheets)}"
        found.setdefault(mark_key(plain), (plain, []))[1].append(text)
    return found


def _named(job: Job) -> dict[str, tuple[str, list[str]]]:
    """Hold-downs that rows of the schedule name, by key: the mark and the wall types."""
    found: dict[str, tuple[str, list[str]]] = {}
    for wall in job.wall_types:
        for mark in (wall.hold_down.marks.value or ()) if wall.hold_down.marks else ():
            plain = _COUNT.sub("", mark)
            found.setdefault(mark_key(plain), (plain, []))[1].append(mark_of(wall))
    return found


def _where(
    keys: Iterable[str], on_plans: dict[str, tuple[str, list[str]]], named: dict[str, tuple[str, list[str]]], words: Words
) -> Iterator[str]:
    """Where a hold-down is drawn, sheet by sheet; and the rows that name it."""
    texts = [text for key in sorted(keys) if key in on_plans for text in on_plans[key][1]]
    rows = list(dict.fromkeys(wall for key in sorted(keys) if key in named for wall in named[key][1]))
    yield "; ".join(texts) or words.say("none_drawn")
    if rows:
        yield words.say("named_by", marks=", ".join(rows))


def _cells(row: HoldDown, job: Job, words: PaperWords) -> Iterator[tuple[Bit, ...]]:
    """Model, anchor, embedment, post and fasteners of one row."""
    mark = mark_of(row)
    for name, reading, printed in (
        ("model", row.model, "hold_down.model"),
        ("anchor.diameter_in", row.anchor.diameter_in, "sheathing.thickness_in"),
        ("anchor.embedment_in", row.anchor.embedment_in, "sheathing.thickness_in"),
        ("post", row.post, "hold_down.model"),
        ("fasteners", row.fasteners, "hold_down.model"),
    ):
        yield _cell(reading, printed, _numbers(mark, name, job), words)


def _cell(reading: Reading[Any] | None, printed: str, numbers: tuple[str, ...], words: PaperWords) -> tuple[Bit, ...]:
    """A value in inches or as printed; where the plans give none, a box that asks."""
    ask = Asking(words, _place, lambda _: numbers)
    return bits([worded(printed, reading, ask) if reading else missing((printed,), ask, what="")])


def _place(source: Source) -> Any:
    return lambda words: source.sheet or words.first("page", n=source.page)


def _numbers(mark: str, name: str | None, job: Job) -> tuple[str, ...]:
    """Numbers of the questions about a hold-down's value; else of those about the whole hold-down."""
    about = [(number, finding) for number, finding in open_questions(job) if _about(finding, mark, job)]
    own = tuple(number for number, finding in about if name and finding.field == name)
    return own or tuple(number for number, finding in about if finding.field is None or "table-not-found" in finding.code)


def _about(finding: Finding, mark: str, job: Job) -> bool:
    """Whether a finding is about this hold-down; a wall type of the same mark has its own findings."""
    if finding.wall_type is not None:
        return mark_key(finding.wall_type) == mark_key(mark) and not any(mark_of(wall) == mark for wall in job.wall_types)
    before = r"hold-down " if len(mark) == 1 else r"(?<![\w-])"
    named = re.search(rf"{before}{re.escape(mark)}(?![\w-])", finding.message, re.I)
    return bool(named) and "hold-down" in finding.message.lower()


def _sills(job: Job, words: PaperWords) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """Wall types with sill bolts or without a word about them; and those that stand on framing."""
    walls = drawn(job, "wall")
    bolted, framed = [], []
    for face in faces(job, words.language):
        where = (counts(walls[mark_key(face.mark)][1]) if mark_key(face.mark) in walls else words.say("none_drawn"),)
        if face.line("sill") is None and face.line("bottom_plate"):
            framed.append(Row(face.named, where, (bits(_values(face, "bottom_plate")),)))
        else:
            bolted.append(Row(face.named, where, tuple(_sill_cells(face, words))))
    rows = {mark_key(mark_of(wall)) for wall in job.wall_types}
    for key, (mark, sheets) in walls.items():
        if key not in rows:
            numbers = tuple(n for n, f in open_questions(job) if f.wall_type and mark_key(f.wall_type) == key)
            text = words.lines("no_wall_row", q=asked(numbers))
            bolted.append(Row(mark, (counts(sheets),), (tuple(Bit(line, "missing") for line in text),)))
    return tuple(bolted), tuple(framed)


def _values(face: Face, key: str) -> Iterable[Any]:
    line = face.line(key)
    return line.values if line else ()


def _sill_cells(face: Face, words: PaperWords) -> Iterator[tuple[Bit, ...]]:
    """Bolt, spacing, embedment, washer and sill plate of one type."""
    wall = face.wall
    kind = [worded("anchors.kind", wall.anchors.kind, _asking(face, words))] if wall.anchors.kind else []
    size = _cell(wall.anchors.diameter_in, "anchors.diameter_in", _about_field(face, "anchors.diameter_in"), words)
    yield (*size, *bits(kind)) if _differs(wall) else size
    for name, reading in (("anchors.spacing_in", wall.anchors.spacing_in), ("anchors.embedment_in", wall.anchors.embedment_in),
                          ("anchors.washer_in", wall.anchors.washer_in), ("framing.sill", wall.framing.sill)):  # fmt: skip
        printed = "sheathing.thickness_in" if name == "anchors.embedment_in" else name
        yield _cell(reading, printed, _about_field(face, name), words)


def _differs(wall: WallType) -> bool:
    """Whether the kind says more than the size: "none" in both is said once."""
    size, kind = wall.anchors.diameter_in, wall.anchors.kind
    return kind is not None and (size is None or kind.as_printed != size.as_printed or kind.state is not size.state)


def _asking(face: Face, words: PaperWords) -> Asking:
    return Asking(words, _place, lambda name: _about_field(face, name))


def _about_field(face: Face, name: str) -> tuple[str, ...]:
    """Numbers of the questions about one field of a wall type; else those about its anchors, or about the whole row."""
    asks = [(question.number, question.finding.field) for question in face.questions]
    own = tuple(number for number, field in asks if field == name)
    return own or tuple(number for number, field in asks if field and field.split(".")[0] == name.split(".")[0] == "anchors")
