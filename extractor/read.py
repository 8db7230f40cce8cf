"""Plan set in, job out: open, find, name, read, fill, locate, check, each step one call."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import regex as re

from extractor.errors import GarbledPlansError, NoScheduleError, ScannedPlansError
from extractor.paper.plans import PlanSet, Progress, Sheet, open_plans
from extractor.record import Coverage, Finding, Job, PlanSetRecord, SheetRecord

MATTERS = re.compile(
    r"SHEAR-?WALL|SHEAR-?PANEL|WALLTYPE|SHEARPNL|5HEARWALL|H[OÒ]LD-?D|HOLDOWN|TIE-?DOWN|TIESCHED|PANELEDGE|EDGENAIL|NAILLEGEND|NAILSCHED|NAILS?KIND"
    r"|(?:FLOOR|STOREY|STORY)(?:STRAPS|TIES|STRAPTIES|STRAPSCHED)|ALLNAILS|COMMON(?:WIRE)?NAILS|NAILS(?:ARE|SHALLBE|TOBE)COMMON|(?:ANCHOR|SILL)BOLTS(?:SHALL|TOBE|ARE).{0,40}EMBED|EMBED(?:ALL)?(?:ANCHOR|SILL)BOLTS"
)


def read(paths: Sequence[Path], progress: Progress | None = None, password: str | None = None) -> Job:
    """The job record of the plan set: wall types, hold-downs, marks, findings, and what was not read.

    Raises a PlansError where the plans cannot be opened or have no text, NoScheduleError where no shear wall schedule is found.
    """
    with open_plans(paths, progress, password, _load_grammar) as plans:
        return _read(plans, progress)


def _load_grammar() -> None:
    """Import what reads schedules: hundreds of patterns, half a second, while a large set is still being looked through."""
    import extractor.checks
    import extractor.schedule.blocks
    import extractor.schedule.marks  # noqa: F401


def _read(plans: PlanSet, progress: Progress | None) -> Job:
    from extractor.schedule.basis import find as find_basis
    from extractor.schedule.blocks import read_blocks
    from extractor.schedule.marks import find as find_marks

    sheets = plans.sheets
    _refuse_pictures(plans)
    records = [_record(sheet) for sheet in sheets]
    found = read_blocks([s for s in sheets if _matters(s)], progress)
    if not found.walls:
        _refuse_garbled(plans)
        raise NoScheduleError(
            "No shear wall schedule was found."
            + (f" Seen and not read: {', '.join(b.title for b in found.not_read)}." if found.not_read else ""),
            where=_where(plans),
            do="Check that the sheet with the schedule is in the set; read it by eye if it is a picture.",
        )
    scheduled: dict[Any, Sequence[str]] = {
        "wall": [w.mark.value for w in found.walls if w.mark.value],
        "hold-down": found.hold_down_marks,
    }
    marks = find_marks(sheets, {r.page: r.title for r in records}, scheduled, found.boxes)
    job = Job(
        plan_set=PlanSetRecord(file=plans.name, sha256=plans.sha256, pages=len(sheets)),
        sheets=tuple(records),
        wall_types=found.walls,
        hold_downs=found.hold_downs,
        plan_marks=marks,
        coverage=Coverage(
            pages_read=tuple(s.page for s in sheets if s.kind != "none"),
            sheets_without_text=tuple(s.page for s in sheets if s.kind == "none"),
            blocks_not_read=tuple(found.not_read),
            words_not_used=tuple(found.unused),
        ),
        findings=tuple(found.findings),
        basis=find_basis(sheets),
    )
    return job.model_copy(update={"findings": _checked(job)})


def _checked(job: Job) -> tuple[Finding, ...]:
    from extractor.checks import check

    return check(job)


def _matters(sheet: Sheet) -> bool:
    return sheet.kind != "none" and not sheet.garbled and (sheet.scrambled or bool(MATTERS.search(sheet.compact)))


def _record(sheet: Sheet) -> SheetRecord:
    """The sheet's line in the index."""
    number, title, revision, date = sheet.block
    return SheetRecord(page=sheet.page, number=number, title=title, revision=revision, date=date, text=sheet.kind)


def _refuse_pictures(plans: PlanSet) -> None:
    if all(s.kind == "none" for s in plans.sheets):
        pages = f"page {plans.sheets[0].page}" if len(plans.sheets) == 1 else f"pages 1 to {len(plans.sheets)}"
        raise ScannedPlansError(
            "The sheets hold no text: they are pictures, or text drawn as lines.",
            where=f"{plans.name}, {pages}",
            do="Ask the engineer for the PDF plotted from the drawing program, or read the schedule by eye.",
        )


def _refuse_garbled(plans: PlanSet) -> None:
    """Say so where no schedule was found and sheets have text that cannot be made out."""
    odd = [str(s.page) for s in plans.sheets if s.garbled]
    if odd:
        raise GarbledPlansError(
            "The text of these sheets is not readable: its letters make no words (the PDF's font map is broken).",
            where=f"{plans.name}, page {', '.join(odd)}",
            do="Ask the engineer to plot the PDF again, or read the schedule by eye.",
        )


def _where(plans: PlanSet) -> str:
    silent = [str(s.page) for s in plans.sheets if s.kind == "none"]
    return f"{plans.name}, pages 1 to {len(plans.sheets)}" + (f"; no text on page {', '.join(silent)}" if silent else "")
