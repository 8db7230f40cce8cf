"""The review page: findings first, then each value beside the place on the sheet it was read from, with a box to tick.

One file, no network. A person steps through with the keyboard, compares, ticks, prints and signs.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from types import SimpleNamespace

from cards.face import face
from cards.findings import GOVERN, REPORT, numbered, summary
from cards.screen import screen
from cards.shots import Shot, Shots, row_mark
from cards.traced import (
    Row,
    Traced,
    harmless,
    kind_of,
    label_of,
    mark_of,
    not_found,
    place,
    questions_about,
    revisions,
    sheet_line,
    traced,
    unread,
)
from extractor.checks.fields import BEFORE, step
from extractor.record import Job, Level, WallType

SAYS = {
    "title": "Compare every value with the plans",
    "file": "file {digest}",
    "pages": "{pages} pages",
    "no_pictures": "No pictures: the plans were not at hand when this page was written. Compare with the sheets themselves.",
    "ways": "Progress and places",
    "compared": "compared",
    "of": "of {n} compared",
    "keys": (("J", "or"), ("↓", "next,"), ("K", "or"), ("↑", "back,"), ("Space", "ticks,"), ("N", "next one open.")),
    "show": "Show",
    "show_ways": (("all", "all"), ("open", "not compared"), ("doubt", "in doubt")),
    "to_findings": "Findings",
    "to_unread": "Not read",
    "to_sign": "Sign",
    "findings": "Findings, worst first",
    "no_finding": "No finding. That is not an approval.",
    "hold": "HOLD",
    "printed": "printed:",
    "no_picture": "No picture: see",
    "open": "Not found on the plans for",
    "look": "Look whether the row, a note or a detail gives one of these after all.",
    "open_compared": "what was not found",
    "marks": "Marks on the plans",
    "marks_heads": ("mark", "kind", "sheet", "drawn", "row found"),
    "no_marks": "No mark was found on the plans.",
    "unread": "Seen and not read",
    "all_read": "Every sheet was looked through, and no table or word of a schedule was left over.",
    "sign": "Compared with the approved plans",
    "sign_lines": (("Compared by", "Date"), ("Checked by", "Date")),
    "sign_holds": "A sign-off holds for this file only.",
    "kept": "Ticks stay in this browser, for this file. Print the page to keep them.",
    "not_kept": "This browser keeps no ticks. Print the page to keep them.",
    "clear": "Clear all ticks",
    "clear_ask": "Clear all ticks?",
}


@dataclass(frozen=True)
class Item:
    """A value with its picture; ``origin`` says where it comes from and where that stands."""

    value: Traced
    where: str
    origin: str
    shot: Shot | None


@dataclass(frozen=True)
class Open:
    """A finding: its level and number, where it stands and what it holds up, and its picture."""

    level: str
    head: str
    message: str
    foot: str
    shot: Shot | None


@dataclass(frozen=True)
class Group:
    """A wall type or hold-down with its values, and what the plans leave open for it."""

    key: str
    mark: str
    kind: str
    place: str
    hold: bool
    items: tuple[Item, ...]
    open: tuple[tuple[str, str], ...]  # the field's name, numbers of questions about it


def review(job: Job, plans: Sequence[Path] = ()) -> bytes:
    """The review page of ``job``; ``plans`` are the PDFs it was read from, and without them it shows no pictures."""
    rows = traced(job)
    shots = Shots(plans, job, rows)
    digest = job.plan_set.sha256
    groups = tuple(_group(job, row, values, shots, n) for n, (row, values) in enumerate(rows, 1))
    total = sum(len(group.items) + bool(group.open) for group in groups)
    fill = {"n": total, "pages": job.plan_set.pages, "digest": digest[:8]}
    say = {key: words.format(**fill) if isinstance(words, str) else words for key, words in SAYS.items()}
    return screen(
        "review", running=f"{harmless(job.plan_set.file)[:50]}, file {digest[:8]}, {revisions(job)[:90]}. {GOVERN}",
        say=SimpleNamespace(**say), file=harmless(job.plan_set.file), digest=digest, summary=summary(job), govern=GOVERN,
        report=" ".join(REPORT.split()), groups=groups, pictured=bool(plans), total=total,
        findings=tuple(_findings(job, shots)), sheets=tuple(_sheets(job)), marks=tuple(_marks(job)), unread=tuple(unread(job)),
    )  # fmt: skip


def _group(job: Job, row: Row, values: Sequence[Traced], shots: Shots, number: int) -> Group:
    still_open = tuple((label_of(name), ", ".join(questions_about(job, row, name))) for name in not_found(row))
    hold = isinstance(row, WallType) and face(row, job).hold
    items = tuple(_item(row, value, shots) for value in values)
    return Group(f"row-{number}", mark_of(row), kind_of(row), place(row.mark.source), hold, items, still_open)


def _item(row: Row, value: Traced, shots: Shots) -> Item:
    source = value.reading.source
    box = f", box {shots.numbers[source.page, source.box]} of sheets.pdf" if shots.at_hand else ""
    return Item(value, place(source), f"from {value.origin}, {place(source)}{box}",
                shots.of(source, row_mark(row, value), _says(value)))  # fmt: skip


def _says(value: Traced) -> str:
    where = place(value.reading.source)
    return f"{where[:1].upper()}{where[1:]}, at the words {value.reading.as_printed}"


def _findings(job: Job, shots: Shots) -> Iterator[Open]:
    for number, finding in numbered(job):
        where = place(finding.source)
        held = f"Needed before {BEFORE[step(finding.field, finding.code)]}" if finding.level is Level.STOP else ""
        shot = shots.of(finding.source, shots.mark(finding), where) if finding.source else None
        head = " ".join(part for part in (number, finding.wall_type) if part)
        foot = " · ".join(part for part in (held, where, finding.citation) if part)
        yield Open(finding.level.upper(), head, finding.message, foot, shot)


def _sheets(job: Job) -> Iterator[tuple[str, str]]:
    """Sheets that values were read from, with title, revision and date."""
    held = {value.reading.source.page for _, values in traced(job) for value in values}
    yield from ((sheet.number or f"page {sheet.page}", sheet_line(sheet)) for sheet in job.sheets if sheet.page in held)


def _marks(job: Job) -> Iterator[tuple[str, str, str, int, str]]:
    known = {"wall": {mark_of(row).casefold() for row in job.wall_types},
             "hold-down": {mark_of(row).casefold() for row in job.hold_downs}}  # fmt: skip
    for mark in job.plan_marks:
        found = "yes" if mark.mark.casefold() in known[mark.kind] else "NO ROW"
        yield mark.mark, mark.kind, mark.sheet or f"page {mark.page}", len(mark.boxes), found
