"""What was seen and not read: silence about it would be the worst error."""

from collections.abc import Iterator

from extractor.checks.hit import Hit, listed
from extractor.record import Job, SheetRecord


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
    Fires: a schedule whose columns could not be told apart. Silent: tables that are no shear wall or hold-down schedule.
    Source: common practice, no source.
    """
    for block in job.coverage.blocks_not_read:
        yield Hit(f"“{block.title}” was seen and not read: {block.why}. Look at it by eye.", block.source)


def words_not_used(job: Job) -> Iterator[Hit]:
    """Words inside a schedule that ended in no value.

    Why: a word that nobody used may be the one that matters.
    Fires: words between two columns. Silent: a schedule whose words all ended in a field or in the row's remarks. Once.
    Source: common practice, no source.
    """
    words = job.coverage.words_not_used
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
