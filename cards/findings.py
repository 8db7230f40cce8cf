"""Findings as text for a person, as JSON for a script, as CSV for a spreadsheet."""

import csv
import io
import json
from collections import Counter
from collections.abc import Iterator, Sequence

from cards import numbers
from extractor.checks.fields import BEFORE, step
from extractor.record import Coverage, Finding, Job, Level, Source

FORMAT = "nailcard.findings/1"
GOVERN = "The approved plans and the engineer of record govern. The building official decides."
REPORT = """\
This report repeats what could be read from the named file, as numbered. It is not design, not an engineer's review, not an
approval and not an inspection. Values shown as missing, unreadable or in conflict must be answered in writing by the engineer
of record.
Quantities are estimates for ordering. The adopted code, the building official, hardware makers' current instructions and the
contract may ask for more. A qualified person must compare each card with the approved plans and sign before issue. A card is
void when a plan sheet is reissued."""
UNUSED_SHOWN = 20  # words that ended in no value, shown one a line; the rest is counted

_LEVELS = (Level.STOP, Level.ASK, Level.NOTE)


def numbered(job: Job) -> list[tuple[str | None, Finding]]:
    """Findings, worst first, each with the number of its question as every paper prints it: "Q-01"; a note has none.

    A question keeps the number that an earlier run gave it.
    """
    rows = list(zip(numbers.given(job.findings), job.findings, strict=True))
    rows.sort(key=lambda row: (_LEVELS.index(row[1].level), row[0].number if row[0] else 0))
    return [(entry.name if entry else None, finding) for entry, finding in rows]


def stops(job: Job) -> bool:
    """Whether a finding says STOP."""
    return any(finding.level is Level.STOP for finding in job.findings)


def summary(job: Job) -> str:
    """What is open, in one line.

    >>> summary(job)  # doctest: +SKIP
    '5 questions are open. 2 say STOP: 1 before the pour, 1 before nailing.'
    """
    held = Counter(step(finding.field, finding.code) for finding in job.findings if finding.level is Level.STOP)
    asked = sum(finding.level is Level.ASK for finding in job.findings)
    total = held.total() + asked
    if not total:
        return "No question is open. That is not an approval."
    opened = f"{total} question{'s are' if total > 1 else ' is'} open."
    if not held:
        return f"{opened} None says STOP."
    steps = ", ".join(f"{held[one]} before {BEFORE[one]}" for one in sorted(held))
    return f"{opened} {held.total()} say{'s' * (held.total() == 1)} STOP: {steps}."


def as_text(job: Job) -> str:
    """Findings worst first, what was not read, what is open, and who governs."""
    parts = [[_head(job)], *(_finding_lines(number, finding) for number, finding in numbered(job))]
    parts += [_coverage_lines(job), [summary(job)], [GOVERN], REPORT.splitlines()]
    return "\n\n".join("\n".join(_visible(line) for line in part) for part in parts if part) + "\n"


def as_json(job: Job) -> str:
    """Findings worst first with their question numbers, coverage, and who governs."""
    rows = [{"question": number, **finding.model_dump(mode="json")} for number, finding in numbered(job)]
    document = {
        "format": FORMAT,
        "plan_set": job.plan_set.model_dump(mode="json"),
        "open": {level: sum(finding.level is level for finding in job.findings) for level in _LEVELS},
        "findings": rows,
        "coverage": job.coverage.model_dump(mode="json"),
        "governs": GOVERN,
        "report": " ".join(REPORT.split()),
    }
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def as_csv(job: Job) -> str:
    """A line a finding, and no cell that a spreadsheet could take for a date, a number or a formula.

    A mark comes as "type 12-11" and a sheet as "sheet 3-1": a bare 12-11 would be turned into a day of the year.
    """
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(("level", "question", "code", "sheet", "page", "wall type", "field", "message", "citation"))
    for number, finding in numbered(job):
        place, mark = finding.source, finding.wall_type
        cells = (finding.level, number, finding.code, f"sheet {place.sheet}" if place and place.sheet else "",
                 f"page {place.page}" if place else "", f"type {mark}" if mark else "", finding.field, finding.message,
                 finding.citation)  # fmt: skip
        writer.writerow([guarded(cell or "") for cell in cells])
    for line in (_head(job), *_coverage_lines(job), summary(job), GOVERN, " ".join(REPORT.split())):
        writer.writerow(("report", "", "", "", "", "", "", guarded(line), ""))
    return out.getvalue()


def guarded(cell: str) -> str:
    """A cell that no spreadsheet runs as a formula: one that starts with = + - or @ gets an apostrophe before it."""
    cell = _visible(cell)
    return "'" + cell if cell.lstrip().startswith(("=", "+", "-", "@")) else cell


def _head(job: Job) -> str:
    plans, walls, holds = job.plan_set, len(job.wall_types), len(job.hold_downs)
    return (f"{plans.file}, digest {plans.sha256[:8]}, {_count(plans.pages, 'page')}: "
            f"{_count(walls, 'wall type')}, {_count(holds, 'hold-down')}.")  # fmt: skip


def _finding_lines(number: str | None, finding: Finding) -> list[str]:
    field = f"({finding.field})" if finding.field else ""
    subject = f"{finding.wall_type or ''} {field}".strip()
    head = "  ".join(part for part in (f"{finding.level.upper():4}", number, _place(finding.source), subject) if part)
    return [head, f"      {finding.message}", *([f"      {finding.citation}"] if finding.citation else [])]


def _place(source: Source | None) -> str | None:
    if source is None:
        return None
    return f"sheet {source.sheet}, page {source.page}" if source.sheet else f"page {source.page}"


def _coverage_lines(job: Job) -> list[str]:
    seen = job.coverage
    lines = [f"Looked through: {pages(seen.pages_read)} of {job.plan_set.pages}."] if seen.pages_read else []
    if seen.sheets_without_text:
        lines.append(f"Not read, no text on the sheet: {pages(seen.sheets_without_text)}. Look at these yourself.")
    lines += [f'Not read: "{block.title}", {_place(block.source)}: {block.why}' for block in seen.blocks_not_read]
    return lines + list(_unused(seen))


def _unused(seen: Coverage) -> Iterator[str]:
    """Words inside a schedule that ended in no value."""
    words = seen.words_not_used
    yield from (f'Printed in a schedule and not used: "{w.as_printed}", {_place(w.source)}' for w in words[:UNUSED_SHOWN])
    if len(words) > UNUSED_SHOWN:
        yield f"Printed in a schedule and not used: {len(words) - UNUSED_SHOWN} more. All of them are in the job record."


def pages(numbers: Sequence[int]) -> str:
    """Page numbers as a reader writes them: "pages 1-4, 7"."""
    runs: list[list[int]] = []
    for page in sorted(numbers):
        if runs and page == runs[-1][-1] + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    return f"page{'s' * (len(numbers) > 1)} " + ", ".join(f"{run[0]}-{run[-1]}" if len(run) > 1 else f"{run[0]}" for run in runs)


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}{'s' * (number != 1)}"


def _visible(line: str) -> str:
    """One line without control characters, which words from a PDF may hold and a terminal would obey."""
    return "".join(c if c.isprintable() else " " for c in line)
