"""The papers of a comparison: ``changes.pdf`` to print, ``changes.html`` for a screen, ``changes.xlsx``, ``changes.json``.

One file each, no network. They say what changed, which cards to collect and which walls to look at again.
"""

import base64
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from cards import output, page
from cards.changed import Compared, Plans, Side
from cards.compare import compare
from cards.findings import GOVERN, REPORT
from cards.load import at_hand
from cards.plainbook import Table, workbook
from cards.recall import Recall, Retag, corners, not_registered, recalls, retags
from cards.register import Issue
from extractor.record import Job, Record, Source

FORMAT = "nailcard.changes/1"
NOT_GIVEN = "NOT ON PLANS"
COLLECT = (
    "Destroy each card that comes in, or punch two holes through it. There is a box for each copy, up to twelve. A copy that is "
    "not ticked is still on site."
)
APART = (
    "The reissued sheets were read apart from the rest: notes on sheets that stay were not held against the new rows. Name the "
    "PDFs of both plan sets to read them together."
)
STATUSES = (
    ("changed", "CHANGED"),
    ("renumbered", "RENUMBERED?"),
    ("added", "ADDED"),
    ("withdrawn", "WITHDRAWN"),
    ("no change", "NO CHANGE"),
)

Pictures = Callable[[Iterable[Source]], Mapping[Source, bytes]]
"""Places of a plan set in, a PNG of each that can be shown out."""


class From(Record):
    """One page of a plan set with reissued sheets, and the file and page it was taken from."""

    page: int
    sheet: str
    how: str
    file: str
    file_page: int


class Changes(NamedTuple):
    """What a comparison found, and what to do about it."""

    found: Compared
    recall: tuple[Recall, ...]
    retag: tuple[Retag, ...]
    issued: tuple[Issue, ...] = ()
    taken: tuple[From, ...] = ()
    corners: str = ""

    @property
    def summary(self) -> str:
        """What changed, in one line.

        >>> changes.summary  # doctest: +SKIP
        '2 wall types changed (SW3, SW4), 1 added (SW8), 0 withdrawn, 4 without a change.'
        """
        told = {status: [row.mark for row in self.found.wall_types if row.status == status] for status, _ in STATUSES}
        words = {"changed": "changed", "renumbered": "perhaps renumbered", "added": "added", "withdrawn": "withdrawn",
                 "no change": "without a change"}  # fmt: skip
        parts = [f"{len(marks)} {words[status]}" + (f" ({', '.join(marks)})" if marks and status != "no change" else "")
                 for status, marks in told.items() if marks or status != "renumbered"]  # fmt: skip
        holds = [row.mark for row in self.found.held if row.status != "no change"]
        return f"Wall types: {', '.join(parts)}. Hold-downs that differ: {', '.join(holds) or 'none'}."

    @property
    def to_do(self) -> str:
        """Cards to collect at once and walls to look at, in one line."""
        now = [f"{one.mark} (card {one.number})" for one in self.recall if one.now]
        rest = len(self.recall) - len(now)
        return (f"Collect now: {', '.join(now) or 'no card'}. Change for the new card: {rest}. "
                f"Walls to look at again: {len(self.retag)}.")  # fmt: skip


def changes(old: Job, new: Job, *, issued: Sequence[Issue] = (), taken: Sequence[From] = ()) -> Changes:
    """What changed from ``old`` to ``new``; ``issued`` is the register of the old job, ``taken`` where reissued sheets went."""
    found = compare(old, new)
    first = [not_registered(old, issued), APART if any(one.how == "reissued" for one in taken) else ""]
    found = found.model_copy(update={"warnings": (*filter(None, first), *found.warnings)})
    return Changes(found, recalls(old, new, found, issued), retags(old, new, found), tuple(issued), tuple(taken),
                   corners(old, new))  # fmt: skip


def write(done: Changes, folder: Path, *, old: Pictures | None = None, new: Pictures | None = None,
          plans: Sequence[Path] = ()) -> tuple[tuple[Path, str], ...]:  # fmt: skip
    """Write the four files into ``folder``; gives each with what it holds."""
    shown = as_html(done, old=old, new=new)
    papers = (
        ("changes.pdf", page.pdf(shown), "what changed, cards to collect, walls to look at again: to print"),
        ("changes.html", shown.encode(), "the same for a screen"),
        ("changes.xlsx", as_workbook(done), "the same as tables: values, cards, walls"),
        ("changes.json", as_json(done).encode(), "the same for a script"),
    )
    output.folder(folder)
    for name, _, _ in papers:
        output.writable(folder / name, plans=plans)
    for name, data, _ in papers:
        output.write(folder / name, data, plans=plans)
    return tuple((folder / name, holds) for name, _, holds in papers)


def as_json(done: Changes) -> str:
    """The comparison as one JSON document, with who governs."""
    document = {
        "format": FORMAT,
        **done.found.model_dump(mode="json"),
        "corners": done.corners,
        "recall": [one.model_dump(mode="json") for one in done.recall],
        "retag": [one.model_dump(mode="json") for one in done.retag],
        "issued": [one.model_dump(mode="json") for one in done.issued],
        "taken": [one.model_dump(mode="json") for one in done.taken],
        "summary": done.summary,
        "governs": GOVERN,
        "report": " ".join(REPORT.split()),
    }
    return json.dumps(document, indent=1, ensure_ascii=False) + "\n"


def as_workbook(done: Changes) -> bytes:
    """The comparison as a workbook: a line a value, a card to collect, a wall to look at."""
    values: list[tuple[str, ...]] = [
        (row.kind, row.mark, row.status, value.label, _side(value.old), _place(value.old), _side(value.new),
         _place(value.new), "")
        for row in done.found.rows for value in row.values]  # fmt: skip
    values += [(row.kind, row.mark, row.status, "", "", "", "", "", row.says) for row in done.found.rows if not row.values]
    values += [("whole job", "", "changed", "", "", "", "", "", one) for one in done.found.notes]
    cards = [(f"{one.number} of {one.of}", one.mark, "now" if one.now else "with the new cards", one.why, one.copies, "", "")
             for one in done.recall]  # fmt: skip
    walls = [(one.sheet, one.was or "none", one.now or "none", one.place, one.length, one.why, "", "") for one in done.retag]
    return workbook("What changed", done.summary, [
        Table("Changes", (("row of", 12), ("mark", 10), ("what happened", 14), ("value", 34), ("old", 28), ("old place", 16),
                          ("new", 28), ("new place", 16), ("in words", 60)), values),
        Table("Cards to collect", (("card", 10), ("mark", 10), ("when", 18), ("why", 60), ("copies", 8), ("name", 20),
                                   ("date", 12)), cards),
        Table("Walls to look at", (("sheet", 10), ("was", 10), ("is", 10), ("place", 40), ("length", 10), ("why", 50),
                                   ("name", 20), ("date", 12)), walls),
    ])  # fmt: skip


def as_html(done: Changes, *, old: Pictures | None = None, new: Pictures | None = None) -> str:
    """The comparison as one page without any network; ``old`` and ``new`` give pictures of the places where values stand."""
    changed = [value for row in done.found.rows if row.status == "changed" for value in row.values]
    shots = {"old": _shots(old, (value.old for value in changed)), "new": _shots(new, (value.new for value in changed))}
    return page.html(
        "changes.html", css=(page.templates() / "changes.css").read_text(encoding="utf-8"), done=done, found=done.found,
        plans=(("Old", _plans(done.found.old)), ("New", _plans(done.found.new))), head=_head(done.found),
        groups=[(words, [row for row in done.found.wall_types if row.status == status]) for status, words in STATUSES],
        status=dict(STATUSES), side=_side, place=_place, shots=shots, collect=COLLECT, govern=GOVERN, report=REPORT,
        moved=list(_moved_lines(done.found)),
        by_note=[(row, value) for row in done.found.rows for value in row.values if value.by_note and row.status == "changed"],
        issued=[f"{one.named}, {one.copies} of each card, {_answers(one)}" for one in done.issued],
    )  # fmt: skip


def from_plans(files: Sequence[Path]) -> Pictures:
    """Pictures out of the PDFs of a plan set."""

    def give(sources: Iterable[Source]) -> dict[Source, bytes]:
        from extractor.pictures import pictures

        return {source: shot.png for source, shot in pictures(files, sources, margin=10).items()}

    return give


def from_taken(pages: Mapping[int, tuple[Path, int]]) -> Pictures:
    """Pictures of a set whose pages were taken from several files."""

    def give(sources: Iterable[Source]) -> dict[Source, bytes]:
        from extractor.pictures import pictures

        by_file: dict[Path, dict[Source, Source]] = {}
        for source in sources:
            if source.page in pages:
                path, number = pages[source.page]
                by_file.setdefault(path, {})[source.model_copy(update={"page": number})] = source
        return {asked[there]: shot.png for path, asked in by_file.items()
                for there, shot in pictures([path], asked, margin=10).items()}  # fmt: skip

    return give


def pictures_of(job: Job, paths: Sequence[Path]) -> Pictures | None:
    """Pictures of a job's places, where its PDFs are at hand."""
    files = at_hand(job, paths)
    return from_plans(files) if files else None


def _shots(give: Pictures | None, sides: Iterable[Side | None]) -> dict[Source, str]:
    sources = list(dict.fromkeys(side.source for side in sides if side and side.origin != "answer"))
    found = give(sources) if give and sources else {}
    return {source: f"data:image/png;base64,{base64.b64encode(png).decode()}" for source, png in found.items()}


def _plans(plans: Plans) -> str:
    pages = f"{plans.pages} page{'s' * (plans.pages != 1)}"
    return f"{plans.file}, file {plans.sha256[:8]}, {pages}. Schedule: {plans.schedule or 'none found'}"


def _head(found: Compared) -> str:
    return f"{found.new.file}, file {found.new.sha256[:8]}, against file {found.old.sha256[:8]}. {found.new.schedule}"


def _moved_lines(found: Compared) -> Iterator[tuple[str, str, str]]:
    """Mark, fields and what happened, a line for all values of a row to which the same happened."""
    for row in found.rows:
        by_why: dict[str, list[str]] = {}
        for value in row.moved:
            by_why.setdefault(value.why, []).append(value.label)
        for why, labels in by_why.items():
            yield row.mark, f"{len(labels)} values" if len(labels) > 3 else ", ".join(labels), why


def _side(side: Side | None) -> str:
    return side.text if side else NOT_GIVEN


def _place(side: Side | None) -> str:
    """Where a side's words stand, and through which note or answer they came."""
    if side is None:
        return ""
    where = side.source.sheet or f"page {side.source.page}"
    return where if side.origin == "schedule" else f"{side.origin}, {where}"


def _answers(issue: Issue) -> str:
    return f"with answers: {'; '.join(issue.answers)}" if issue.answers else "without answers"
