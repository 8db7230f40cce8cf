"""Wall lengths and heights: from ``walls.csv``, which the foreman fills in, or written beside the marks on the plans.

A length without a unit, a mark without a length and a word nobody understands are said, never taken for something.
"""

import csv
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards.findings import guarded
from cards.values import inch
from extractor import files
from extractor.checks.hit import mark_key
from extractor.errors import UsageError
from extractor.record import Job
from extractor.trade.inches import NUMBER, feet_and_inches, inches
from extractor.trade.text import plain_word

NAME = "walls.csv"
TEMPLATE = "walls-to-fill.csv"
COLUMNS = ("mark", "length", "height", "storey", "count", "openings", "plate pieces", "studs")
HELP = (
    'One line a wall segment. Height: foot of the sill to top of the plates. Write units: 12\'-6", 109-1/8"; studs 16".',
    "Storey: your own word. Count: how many such walls. Openings: 3'x4'; 2'-6\"x3'. Plate pieces of ONE wall: 8'; 4'.",
    f"Lines that start with # are not read. Save it as {NAME} in the packet's folder, or name it: nailcard order --walls {NAME}",
)
_LONGEST, _HIGHEST, _MOST = 3600.0, 480.0, 500
_INCHES = re.compile(rf'({NUMBER}) ?"')
_FEET = re.compile(r"(\d{1,3}(?:\.\d{1,4})?) ?'")


@dataclass(frozen=True)
class Wall:
    """A wall segment, or ``count`` of the same. What is not known is None; ``where`` says where it was found.

    Openings are width and height; ``pieces_in`` are the pieces of the bottom plate of one such wall.
    """

    mark: str
    where: str
    length_in: float | None = None
    height_in: float | None = None
    storey: str = ""
    count: int = 1
    openings: tuple[tuple[float, float], ...] = ()
    pieces_in: tuple[float, ...] = ()
    studs_in: float | None = None


def length(text: str) -> float | None:
    r"""Inches of a length written with its unit; None where it has none, or is not understood.

    >>> length("12'-6\""), length('109-1/8"'), length("12.5 ft"), length("12")
    (150.0, 109.125, 150.0, None)
    """
    text = re.sub(r" ?(?:feet|foot|ft)\.?[ -]*", "'", plain_word(text.strip()), flags=re.I)
    text = re.sub(r" ?(?:inch(?:es)?|in)\.?$", '"', text, flags=re.I)
    if m := _INCHES.fullmatch(text):
        return inches(m[1])
    if m := _FEET.fullmatch(text):
        return float(m[1]) * 12
    found = list(feet_and_inches(text))
    return found[0][0] if len(found) == 1 and found[0][1] == (0, len(text)) else None


def in_feet(value: float) -> str:
    """Inches as feet and inches.

    >>> print(in_feet(130.5), in_feet(144), in_feet(7))
    10'-10 1/2" 12'-0" 7"
    """
    feet, rest = divmod(value, 12)
    return f"{int(feet)}'-{inch(rest).replace('-', ' ')}" if feet else inch(rest)


def load(path: Path) -> tuple[Wall, ...]:
    """The walls in a filled-in ``walls.csv``; a UsageError names the line that is not understood."""
    try:
        data = files.read(path)
    except OSError as error:
        raise UsageError(f"The wall lengths cannot be read: {error.strerror}.", where=str(path), do="Check the name.") from error
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", "replace")  # how spreadsheets on some machines save CSV
    return read(text, str(path))


def read(text: str, where: str = NAME) -> tuple[Wall, ...]:
    """The walls in the text of a ``walls.csv``, separated by commas, semicolons or tabs."""
    lines = [(n, line) for n, line in enumerate(text.splitlines(), 1) if line.strip(' ,;\t"') and line.lstrip('" ')[:1] != "#"]
    if not lines:
        raise _bad("It holds no walls.", where)
    first = lines[0][1]
    comma = max(",;\t", key=first.count)
    rows = [(n, next(csv.reader([line], delimiter=comma), [])) for n, line in lines]
    names = [cell.strip().lower().lstrip("'") for cell in rows[0][1]]
    if not {"mark", "length", "height"} <= set(names):
        raise _bad(f"Its first line does not name the columns {', '.join(COLUMNS[:3])}.", where)
    if len(set(names) - {""}) < len([name for name in names if name]):
        raise _bad("A column is named twice.", where)
    unknown = [name for name in names if name and name not in COLUMNS]
    if unknown:
        raise _bad(f"There is no column {', '.join(unknown)}. Columns: {', '.join(COLUMNS)}.", where)
    if wide := next((n for n, cells in rows[1:] if len(cells) > len(names)), None):
        raise _bad("The line has more cells than columns. Put a cell that holds a comma into quotes.", f"{where} line {wide}")
    return tuple(_wall(dict(zip(names, (cell.strip() for cell in cells), strict=False)), where, n) for n, cells in rows[1:])


def _wall(cells: dict[str, str], file: str, line: int) -> Wall:
    where = f"{file} line {line}"
    mark = re.sub(r"^'?(?:type )?", "", cells.get("mark", ""), flags=re.I).strip()
    if not mark:
        raise _bad("The line has no mark.", where)
    height = _length(cells, "height", where, _HIGHEST)
    one = Wall(mark, f"{Path(file).name} line {line}",
               _length(cells, "length", where, _LONGEST), height, cells.get("storey", "").lstrip("'"), _count(cells, where),
               tuple(_openings(cells.get("openings", ""), where)), tuple(_pieces(cells.get("plate pieces", ""), where)),
               _length(cells, "studs", where, 48.0))  # fmt: skip
    if one.studs_in is not None and one.studs_in < 8:
        raise _bad(f"Studs at {inch(one.studs_in)} are too close to be right.", where)
    if one.pieces_in and one.length_in is not None and sum(one.pieces_in) < one.length_in - 0.5:
        raise _bad(f"The plate pieces make {in_feet(sum(one.pieces_in))}, the wall is {in_feet(one.length_in)} long.", where)
    for wide, high in one.openings:
        if (one.length_in and wide > one.length_in) or (height and high > height):
            raise _bad(f"An opening {in_feet(wide)} x {in_feet(high)} is larger than the wall.", where)
    return one


def _length(cells: dict[str, str], name: str, where: str, most: float) -> float | None:
    text = cells.get(name, "").lstrip("'")
    if not text:
        return None
    found = length(text)
    if found is None:
        raise _bad(f'The {name} “{text}” is not understood. Write its unit: 12\'-6", 150" or 12.5 ft.', where)
    if not 0 < found <= most:
        raise _bad(f"A {name} of {in_feet(found)} cannot be right.", where)
    return found


def _count(cells: dict[str, str], where: str) -> int:
    text = cells.get("count", "") or "1"
    if not re.fullmatch(r"\d{1,4}", text, re.ASCII) or not 1 <= int(text) <= _MOST:
        raise _bad(f"The count “{text}” is not a whole number from 1 to {_MOST}.", where)
    return int(text)


def _openings(text: str, where: str) -> Iterator[tuple[float, float]]:
    if text.strip().lower() in ("", "0", "none", "-", "'-"):
        return
    for part in re.split(r"[;|+]", text.lstrip("'")):
        sides = [length(side) for side in re.split(r" ?[x×X] ?", part.strip())]
        if len(sides) != 2 or sides[0] is None or sides[1] is None or min(sides[0], sides[1]) <= 0:
            raise _bad(f"The opening “{part.strip()}” is not understood. Write width x height: 3'x4'; 2'-6\"x3'.", where)
        yield sides[0], sides[1]


def _pieces(text: str, where: str) -> Iterator[float]:
    for part in re.split(r"[;|+]", text.lstrip("'")) if text.strip() else ():
        found = length(part)
        if not found or found > _LONGEST:
            raise _bad(f"The plate piece “{part.strip()}” is not understood. Write lengths: 8'; 4'.", where)
        yield found


def _bad(what: str, where: str) -> UsageError:
    return UsageError(what, where=where, do=f"Put that right and run it again. {HELP[0]}")


def from_marks(job: Job) -> tuple[Wall, ...]:
    """The walls as the plans draw them: one for each time a mark is drawn, with the length written beside it, if any."""
    return tuple(
        Wall(mark.mark, mark.sheet or f"page {mark.page}", written, None, mark.sheet or f"page {mark.page}")
        for mark in job.plan_marks
        if mark.kind == "wall"
        for written in (*mark.lengths_in, *[None] * (len(mark.boxes) - len(mark.lengths_in)))
    )


def template(job: Job) -> str:
    """A ``walls.csv`` to fill in: a line for each wall mark drawn, with its length where it is written; else for each type."""
    walls: Sequence[Wall] = from_marks(job) or [Wall(wall.mark.value or wall.mark.as_printed, "") for wall in job.wall_types]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for wall in walls:
        written = in_feet(wall.length_in) if wall.length_in else ""
        writer.writerow([guarded(f"type {wall.mark}"), written, "", guarded(wall.storey), "1", "", "", ""])
    plans = f"# {job.plan_set.file}, file {job.plan_set.sha256[:8]}. A wall may be drawn on two sheets: take out the second line."
    for line in (plans, *(f"# {line}" for line in HELP)):
        writer.writerow([line])
    return out.getvalue()


def same_mark(one: str, other: str) -> bool:
    """Whether two marks are one to a reader: SW-1 and sw1."""
    return mark_key(one) == mark_key(other)
