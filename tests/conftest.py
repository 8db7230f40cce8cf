"""What several test files share: a small invented job, and plan sets too simple to need the drawing script."""

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from extractor.record import (
    Coverage,
    EdgeNailing,
    Fastener,
    FieldNailing,
    Finding,
    Job,
    Level,
    Origin,
    PlanSetRecord,
    Reading,
    Sheathing,
    SheetRecord,
    Source,
    State,
    UnreadBlock,
    UnusedWords,
    WallType,
)

PLACE = Source(page=7, sheet="S3.1", box=(412.5, 300.0, 455.1, 318.2))


def read_as(value: Any, as_printed: str) -> Reading[Any]:
    """A reading of the schedule row at one invented place."""
    return Reading(value=value, as_printed=as_printed, state=State.READ, origin=Origin.SCHEDULE, source=PLACE)


def wall(mark: str, *, field: bool = True) -> WallType:
    """An invented wall type, with or without field nailing."""
    return WallType(
        mark=read_as(mark, mark),
        sheathing=Sheathing(thickness_in=read_as(0.46875, '15/32"'), material=read_as("plywood", "PLYWD")),
        fastener=Fastener(
            kind=read_as("nail", "NAIL"),
            penny=read_as("8d", "8d"),
            style=read_as("common", "COM"),
            diameter_in=read_as(0.131, '0.131"'),
            length_in=read_as(2.5, '2-1/2"'),
        ),
        edge=EdgeNailing(spacing_in=read_as(4.0, '4" O.C.')),
        field=FieldNailing(spacing_in=read_as(12.0, '12" O.C.') if field else None),
    )


@pytest.fixture
def job() -> Job:
    """Two wall types, one of them without field nailing, with a finding of each level."""
    return Job(
        plan_set=PlanSetRecord(file="kestrel-court.pdf", sha256="c0ffee12" * 8, pages=9),
        sheets=(SheetRecord(page=7, number="S3.1", title="SHEAR WALL SCHEDULE", revision="1", date="2026-03-17"),),
        wall_types=(wall("12-11"), wall("SW4", field=False)),
        findings=(
            Finding(code="basis-missing", level=Level.ASK, message="No load is named. Ask the engineer which.", source=PLACE),
            Finding(
                code="field-spacing-missing",
                level=Level.STOP,
                wall_type="SW4",
                field="field.spacing_in",
                message="SW4 gives no field nailing. Ask the engineer.",
                source=PLACE,
                citation="common practice, no source",
            ),
            Finding(
                code="close-nailing",
                level=Level.NOTE,
                wall_type="12-11",
                field="edge.spacing_in",
                message="=SUM(1) is printed beside it.",
                source=PLACE,
            ),
        ),
        coverage=Coverage(
            pages_read=(2, 3, 4, 7),
            sheets_without_text=(9,),
            blocks_not_read=(UnreadBlock(title="FOOTING SCHEDULE", why="not a wall or hold-down table", source=PLACE),),
            words_not_used=(UnusedWords(as_printed="SIM.", source=PLACE),),
        ),
    )


@pytest.fixture
def text_pdf(tmp_path: Path) -> Callable[..., Path]:
    """A function that writes a one-sheet PDF with lines of Helvetica, or with none, and gives its path."""

    def write(name: str, *lines: str, **save: Any) -> Path:
        pdf = pikepdf.new()
        page = pdf.add_blank_page(page_size=(2592, 1728))
        font = pikepdf.Dictionary(Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type1, BaseFont=pikepdf.Name.Helvetica)
        page.Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=font))
        shown = "".join(f"BT /F1 12 Tf 100 {1600 - 20 * i} Td ({line}) Tj ET\n" for i, line in enumerate(lines))
        page.Contents = pdf.make_stream(shown.encode())
        out = io.BytesIO()
        pdf.save(out, deterministic_id="encryption" not in save, **save)
        path = tmp_path / name
        path.write_bytes(out.getvalue())
        return path

    return write
