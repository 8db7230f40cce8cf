"""What was seen and not read: silence about it would be the worst error."""

from collections.abc import Iterator

import regex as re

from extractor.checks.hit import Hit, listed
from extractor.record import Job, Level, SheetRecord, State, UnusedWords
from extractor.trade.cells import read
from extractor.trade.text import plain

NOT_UNDERSTOOD = ("no column of marks", "fewer than")
SPACED = re.compile(r"(?<![/\d])\d{1,2} ?(?:\"|in\b)")
LONGEST = 120  # characters of a row shown in a finding


def sheet_without_text(job: Job) -> Iterator[Hit]:
    """Sheets that are pictures: nothing on them was read.

    Why: a schedule, a note or a mark may stand on one of them.
    Fires: a scanned sheet among drawn ones. Silent: a set in which every sheet has text. Once for the set.
    Source: common practice, no source.
    """
    blank = [sheet for sheet in job.sheets if sheet.text == "none"]
    pages = sorted({sheet.page for sheet in blank} | set(job.coverage.sheets_without_text))
    if pages:
        names = {sheet.page: _name(sheet) for sheet in job.sheets}
        yield Hit(
            f"No text on {listed([names.get(page, f'page {page}') for page in pages])}: a picture, nothing on it was read. Look "
            "there by eye for schedules, notes and marks.",
        )


def sheet_read_from_a_scan(job: Job) -> Iterator[Hit]:
    """Sheets whose text was put there by a scanner's software.

    Why: such text swaps digits that look alike, and a wrong digit looks right.
    Fires: a scan with a hidden text layer. Silent: drawn text. Once for the set.
    Source: common practice, no source.
    """
    scans = [sheet for sheet in job.sheets if sheet.text == "ocr"]
    if scans:
        yield Hit(
            f"The text of {listed([_name(sheet) for sheet in scans])} comes from a scan. Compare every value with the picture of "
            "the sheet.",
        )


def mixed_revisions(job: Job) -> Iterator[Hit]:
    """Sheets that carry rows, notes or marks differ in revision or date, or some of them give none.

    Why: a reissued sheet beside an old one makes a wall of two designs; a card must not mix them without a word.
    Fires: S3.1 with revision 2, S2.1 with revision 1. Silent: a set with one revision and date. Once for the set.
    Source: common practice, no source.
    """
    used = {wall.mark.source.page for wall in job.wall_types} | {row.mark.source.page for row in job.hold_downs}
    used |= {mark.page for mark in job.plan_marks}
    sheets = [sheet for sheet in job.sheets if sheet.page in used]
    issues: dict[tuple[str | None, str | None], list[str]] = {}
    for sheet in sheets:
        issues.setdefault((sheet.revision, sheet.date), []).append(_name(sheet))
    if any(len({told for told in part if told}) > 1 for part in zip(*issues, strict=True)):
        told = "; ".join(f"{listed(names)}: {_issue(*issue)}" for issue, names in issues.items())
        yield Hit(f"Sheets of different issues: {told}. Look whether they belong together.")
    silent = [name for issue, names in issues.items() if issue == (None, None) for name in names]
    if silent:
        yield Hit(f"No revision and no date was read on {listed(silent)}. Look which issue it is.")


def table_not_read(job: Job) -> Iterator[Hit]:
    """A table was seen and not read.

    Why: it may hold walls or hold-downs.
    Fires: a schedule whose columns could not be told apart. Silent: tables that are no shear wall or hold-down schedule. Only
    a note: a title over several tables that were read, and tables of something else.
    Source: common practice, no source.
    """
    for block in job.coverage.blocks_not_read:
        seen = f"“{block.title}” was seen and not read: {block.why}. Look at it by eye."
        yield Hit(seen, block.source, level=None if block.why.startswith(NOT_UNDERSTOOD) else Level.NOTE)


def row_without_mark(job: Job) -> Iterator[Hit]:
    """A row of a schedule gives panel and nailing, and no mark that can be read: its wall type is missing here.

    Why: a type that nobody reads has no card, and its walls are built from memory.
    Fires: a row whose mark is drawn and not written. Silent: spare rows, bands of words, second lines of a row.
    Source: common practice, no source.
    """
    for words in job.coverage.words_not_used:
        if _whole_row(words):
            shown = words.as_printed if len(words.as_printed) <= LONGEST else words.as_printed[:LONGEST] + "…"
            yield Hit(
                f"A row of the schedule has no mark that can be read: “{shown}”. It is in no list and on no card. Ask the "
                "engineer which walls it is for.",
                words.source,
            )


def _whole_row(words: UnusedWords) -> bool:
    """Whether words that ended nowhere give a panel, a fastener and how it is spaced."""
    text = plain(words.as_printed.split()).text
    told = {f.field.partition(".")[0] for f in read(text, "wall") if f.state is State.READ}
    return told >= {"sheathing", "fastener"} and SPACED.search(text) is not None


def words_not_used(job: Job) -> Iterator[Hit]:
    """Words inside a schedule that ended in no value.

    Why: a word that nobody used may be the one that matters.
    Fires: words between two columns. Silent: a schedule whose words all ended in a field or in the row's remarks, and
    whole rows, which have a finding of their own. Once.
    Source: common practice, no source.
    """
    words = [one for one in job.coverage.words_not_used if not _whole_row(one)]
    if words:
        shown = ", ".join(f"“{one.as_printed}”" for one in words[:5]) + (" and more" if len(words) > 5 else "")
        yield Hit(
            f"{len(words)} printed {'word' if len(words) == 1 else 'words'} of the schedule ended in no value: {shown}.",
            words[0].source,
        )


def _issue(revision: str | None, date: str | None) -> str:
    return f"{f'revision {revision}' if revision else 'no revision read'}, {f'date {date}' if date else 'no date read'}"


def _name(sheet: SheetRecord) -> str:
    return f"sheet {sheet.number} (page {sheet.page})" if sheet.number else f"page {sheet.page}"
