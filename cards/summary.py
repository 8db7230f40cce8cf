"""One page on one job: what was read, what is open, what was not read. Exceptions first."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from cards.asking import BEFORE
from cards.completeness import complete, told
from cards.face import faces, schedule_sheets
from cards.findings import numbered, pages
from cards.numbers import closed
from cards.papers import counts, cut, drawn, paper_pdf, sheet_name
from cards.paperwords import PaperWords
from cards.register import CODE as ISSUED_BEFORE
from extractor.checks.fields import Step, step
from extractor.checks.hit import mark_key, mark_of
from extractor.record import Finding, Job, Level, Source

ROWS, SHEETS, MARKS, WORDS, BLOCKS, LONG = 8, 8, 14, 3, 2, 150  # what one page has room for; the rest is counted

_HOLDS = {Step.POUR: "the pour", Step.ORDER: "the order", Step.NAIL: "nailing", Step.INSPECT: "cover"}


@dataclass(frozen=True)
class Open:
    """A finding as one line: its question's number, level, place, the step it holds, and what it says."""

    number: str
    level: str
    where: str
    before: str
    message: str


def headline(job: Job) -> str:
    """What is open in one breath: "3 open questions, 1 stops the pour, 1 nailing"."""
    open_ones = [finding for finding in job.findings if finding.level is not Level.NOTE]
    held = Counter(step(finding.field, finding.code) for finding in open_ones if finding.level is Level.STOP)
    if not open_ones:
        return "No open question. That is not an approval."
    parts = [f"{len(open_ones)} open question{'s' * (len(open_ones) != 1)}"]
    for i, one in enumerate(sorted(held)):
        parts.append(f"{held[one]} {'' if i else 'stop' + 's' * (held[one] == 1) + ' '}{_HOLDS[one]}")
    return ", ".join(parts) + ("." if held else ", none says STOP.")


def exceptions(job: Job) -> list[Open]:
    """Findings worst first, and within a level by the step of the job that they hold."""
    rows = sorted(numbered(job), key=lambda row: (_level(row[1]), step(row[1].field, row[1].code)))
    return [Open(number or "", finding.level.upper(), _where(finding.source), _before(finding), _short(finding.message))
            for number, finding in rows]  # fmt: skip


def _before(finding: Finding) -> str:
    return "" if finding.level is Level.NOTE else BEFORE[step(finding.field, finding.code)].lower()


def summary_pdf(job: Job, *, paper: str = "letter") -> bytes:
    """The page as PDF."""
    every = exceptions(job)
    levels = Counter(finding.level for finding in job.findings)
    gone = ", ".join(entry.name for entry in closed(job.findings)[:12])
    return paper_pdf(
        "papers_summary.html", job, PaperWords("en"), "Summary", paper, headline=headline(job),
        three=[(level.upper(), levels[level]) for level in Level], rows=every[:ROWS],
        more=Counter(row.level for row in every[ROWS:]), facts=list(facts(job)), told=told(job), unread=list(unread(job)),
        gone=gone,
    )  # fmt: skip


def facts(job: Job) -> Iterator[tuple[str, str]]:
    """What was read, a line a thing."""
    yield from (("Issued before", one.message) for one in job.findings if one.code == ISSUED_BEFORE)
    every = faces(job)
    ready = [face for face in every if not face.questions and complete(face.wall)]
    asked, hold = [face.mark for face in every if face.questions], [face.mark for face in every if face.hold]
    yield "File", f"{cut(job.plan_set.file)}, {job.plan_set.pages} pages, sha256 {job.plan_set.sha256[:8]}..."
    words = PaperWords("en")
    sheets = [sheet_name(sheet, words) for sheet in schedule_sheets(job)]
    yield "Schedule sheets", _some(sheets, SHEETS) or "none found"
    yield "Wall types", (f"{len(every)} found ({_some([face.mark for face in every], MARKS)}); {len(ready)} complete without a "
                         f"question; {len(asked)} with questions; {len(hold)} on HOLD") if every else "none found"  # fmt: skip
    yield "Hold-downs", _some([mark_of(row) for row in job.hold_downs], MARKS) or "no table found"
    for kind, rows in (("wall", [mark_of(wall) for wall in job.wall_types]),
                       ("hold-down", [mark_of(row) for row in job.hold_downs])):  # fmt: skip
        yield f"{kind.capitalize()} marks drawn", _matched(job, kind, rows)


def unread(job: Job) -> Iterator[str]:
    """What was seen and not read; a page of the set that was not looked through is named too."""
    seen = job.coverage
    yield f"Looked through: {pages(seen.pages_read)} of {job.plan_set.pages}." if seen.pages_read else "No page count was kept."
    missed = sorted(set(range(1, job.plan_set.pages + 1)) - set(seen.pages_read)) if seen.pages_read else []
    if missed:
        yield f"Not looked through: {cut(pages(missed))}."
    if seen.sheets_without_text:
        yield f"No text on the sheet, nothing read: {cut(pages(seen.sheets_without_text))}. Look at these yourself."
    for block in seen.blocks_not_read[:BLOCKS]:
        yield f"Table seen and not read: “{cut(block.title, 40)}”, {_where(block.source)}: {cut(block.why, 60)}"
    if len(seen.blocks_not_read) > BLOCKS:
        yield f"{len(seen.blocks_not_read) - BLOCKS} more tables seen and not read: see findings."
    words = seen.words_not_used
    if words:
        said = ", ".join(f"“{cut(one.as_printed, 30)}”" for one in words[:WORDS])
        yield f"Words in a schedule that ended in no value: {len(words)}. {said}{' ...' if len(words) > WORDS else ''}"
    else:
        yield "Every word inside the schedules ended in a value or is kept with its row."


def _matched(job: Job, kind: str, rows: list[str]) -> str:
    """How many marks are drawn, on which sheets, and how many of them have a row."""
    marks = drawn(job, kind)
    if not marks:
        return "none found"
    keys = {mark_key(row) for row in rows}
    sheets: dict[str, int] = {}
    for _, places in marks.values():
        for sheet, count in places:
            sheets[sheet] = sheets.get(sheet, 0) + count
    have = sum(key in keys for key in marks)
    return f"{len(marks)} different, {have} with a row ({cut(counts(sheets.items()), 110)})"


def _level(finding: Finding) -> int:
    return list(Level).index(finding.level)


def _where(source: Source | None) -> str:
    return "" if source is None else source.sheet or f"page {source.page}"


def _some(texts: list[str], most: int) -> str:
    return "; ".join([cut(text, 60) for text in texts[:most]]) + (f"; and {len(texts) - most} more" if len(texts) > most else "")


def _short(message: str) -> str:
    return cut(" ".join(message.split()), LONG)
