"""The order sheet: panels, nails, blocks, bolts, hold-downs and posts, worked out wall by wall. For ordering only.

A worked-out number stands in a box of its own that says "calc"; what the plans say stands in bold, as on every paper.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from cards import lengths, packsizes
from cards import quantities as q
from cards.counting import Line, Order, Worked, nail_names, order
from cards.lengths import Wall, in_feet
from cards.packsizes import Packs
from cards.papers import paper_pdf, spoken
from extractor import files
from extractor.record import Job

ONLY = "FOR ORDERING ONLY"
CAUTION = "For ordering only. The approved plans and the engineer of record govern. The building official decides."
NARROW = "Higher than 3-1/2 times its length, the published limit for a blocked shear wall (SDPWS-2015 Table 4.3.4)"
Get = Callable[[Line], Worked]
_UNITS = (("strip", "strips"), ("coil", "coils"), ("box", "boxes"))
NOTES = (
    "Panels stand upright, 4 ft wide. A part of a panel counts as a whole one; openings are not taken off.",
    "Nails a panel: 2 ceil(H / edge) + 2 ceil(W / edge) for each edge row, ceil(H / field) - 1 for each stud between the edges. "
    "Round an opening: all four sides at edge spacing.",
    "Not counted: edge rows into hold-down posts and boundary members beyond the panel edges, plate nailing, connections "
    "at the top, straps.",
    "Blocks: bays times clear bay, behind each horizontal joint. Blocks at other places stand on the plans.",
    "Sill bolts of a plate piece: at least 2, ceil((L - 24) / spacing) + 1, ends at 12 in. “min” means that the pieces are not "
    "given: each piece adds bolts.",
    "Hold-downs and posts are ordered by the marks on the plans. Two a segment is there to compare with and never replaces them.",
    "Panel lengths 8, 9, 10 ft and cut to plate height 97-1/8, 109-1/8, 121-1/8 in: ask the yard what it has.",
)


@dataclass(frozen=True)
class Total:
    """One thing to order, with what it is made up from; ``say`` is what has to be known with it."""

    part: str
    what: str
    number: float | None
    unit: str
    how: str
    say: str = ""

    @property
    def printed(self) -> str:
        """The number as it is printed."""
        return "" if self.number is None else f"{self.number:,.10g}"


@dataclass(frozen=True)
class Uncounted:
    """What of which walls is in no total, and why."""

    mark: str
    where: str
    what: str
    why: str


@dataclass(frozen=True)
class Given:
    """What the foreman gives: wall lengths and pack sizes, and the file of each, where there is one."""

    walls: tuple[Wall, ...]
    packs: Packs
    walls_file: Path | None = None
    packs_file: Path | None = None

    @property
    def countable(self) -> bool:
        """Whether anything can be counted: a wall has a length and a height."""
        return any(wall.length_in and wall.height_in for wall in self.walls)

    @property
    def files(self) -> tuple[Path, ...]:
        """The files that the foreman filled in."""
        return tuple(path for path in (self.walls_file, self.packs_file) if path)


def given(job: Job, folder: Path, walls: Path | None = None, packs: Path | None = None) -> Given:
    """What the foreman filled in: the files named, or those in ``folder``, the templates too where something is filled in.

    Without any, the walls are those that the plans draw, with the lengths written beside their marks.
    """
    drawn = lengths.from_marks(job)
    written = any(wall.length_in for wall in drawn)

    def filled(path: Path) -> bool:
        return any(wall.height_in or (wall.length_in and not written) for wall in lengths.load(path))

    walls = walls or _filled(folder, lengths.NAME, lengths.TEMPLATE, filled)
    packs = packs or _filled(folder, packsizes.NAME, packsizes.TEMPLATE, lambda path: packsizes.load(path).given)
    return Given(lengths.load(walls) if walls else drawn, packsizes.load(packs) if packs else Packs(), walls, packs)


def _filled(folder: Path, name: str, template: str, filled: Callable[[Path], bool]) -> Path | None:
    path, draft = folder / name, folder / template
    return path if files.is_file(path) else draft if files.is_file(draft) and filled(draft) else None


def to_fill(job: Job, name: str, folder: Path, have: Given) -> bytes | None:
    """A template to fill in, of wall lengths or of pack sizes; None where a file gives them already.

    A template that somebody filled in stays as it is.
    """
    of_walls, path = name == lengths.TEMPLATE, folder / name
    if have.walls_file if of_walls else have.packs_file:
        return files.read(path) if files.is_file(path) else None
    if of_walls:
        return b"\xef\xbb\xbf" + lengths.template(job).encode()  # so that spreadsheets read it as UTF-8
    return packsizes.template(nail_names(job)).encode()


def rows(job: Job, walls: Sequence[Wall], packs: Packs | None = None) -> list[tuple[str | float | None, ...]]:
    """The order as lines of a workbook: what is in no total first, then totals, hold-downs, and each wall.

    Each line is a part, what, the number worked out, its unit, how it was worked out, and what to say before ordering.
    """
    made, packs = order(job, walls), packs or Packs()
    done: list[tuple[str | float | None, ...]]
    done = [("NOT COUNTED", f"{one.mark}, {one.where}: {one.what}", None, "", "", one.why) for one in uncounted(made)]
    done += [(one.part, one.what, one.number, one.unit, one.how, one.say) for one in totals(made, packs)]
    for held in made.hold_downs:
        words = ", ".join(f"{name} {text}" for name, text in held.words)
        done.append(("hold-downs, as drawn", f"{held.mark}: {held.drawn}; {words}", None, "", "", ""))
        two = held.expected
        done.append(("two a segment, to compare", held.mark, two.number, "", two.how, two.why or held.differs))
    for line in made.lines:
        mark, where = f"wall {line.wall.mark}", line.wall.where
        if "narrow" in line.remarks:
            done.append((mark, f"{where}: {NARROW}", None, "", _shape_of(line.wall), "Ask the engineer before ordering."))
        done += [(mark, f"{where}: {name}", one.number, "", one.how, one.why) for name, one in _parts(line)]
    return done


def order_pdf(job: Job, walls: Sequence[Wall], packs: Packs | None = None, *, paper: str = "letter") -> bytes:
    """The sheet as PDF."""
    made, packs = order(job, walls), packs or Packs()
    return paper_pdf(
        "order.html", job, spoken("en"), f"Order sheet - {ONLY}", paper, across=True, order=made, only=ONLY, notes=NOTES,
        totals=_by_part(totals(made, packs)), uncounted=uncounted(made), allowance=f"{packs.allowance:g}", feet=in_feet,
        sides=list(dict.fromkeys(line.wall.mark for line in made.lines if "sides" in line.remarks and line.panels.done)),
        studs=any("studs" in line.remarks and line.panels.done for line in made.lines), number=_number,
        narrow=[_shape_of(line.wall) for line in made.lines if "narrow" in line.remarks],
        too_narrow=NARROW,
        no_packs=[name for name in nail_names(job) if not packs.of(name)],
    )  # fmt: skip


def _shape_of(wall: Wall) -> str:
    """A wall by mark and place with its height over its length."""
    return f"{wall.mark}, {wall.where}: {in_feet(wall.height_in or 0)} high, {in_feet(wall.length_in or 0)} long"


def _number(one: Worked) -> str:
    return f"{one.number:,.10g}{' min' * (one.least and bool(one.number))}" if one.number is not None else ""


def _parts(line: Line) -> tuple[tuple[str, Worked], ...]:
    return (("panels", line.panels), ("nails", line.nails), ("blocks", line.blocks), ("sill bolts", line.bolts))


def uncounted(made: Order) -> tuple[Uncounted, ...]:
    """What is in no total, mark by mark; walls with the same reason stand together."""
    found: dict[tuple[str, str], tuple[list[str], list[str]]] = {}
    for line in made.lines:
        for name, one in _parts(line):
            if not one.done:
                where, what = found.setdefault((line.wall.mark, one.why), ([], []))
                where += [line.wall.where] * (line.wall.where not in where)
                what += [name] * (name not in what)
    return tuple(Uncounted(mark, _listed(where), ", ".join(what), why) for (mark, why), (where, what) in found.items())


def _listed(where: Sequence[str]) -> str:
    return ", ".join(where[:4]) + (f" and {len(where) - 4} more" if len(where) > 4 else "")


def totals(made: Order, packs: Packs) -> tuple[Total, ...]:
    """What to order, thing by thing: panels, nails with packs, blocks, bolts, washers."""
    return (*_panels(made.lines), *_nails(made.lines, packs), *_blocks(made.lines), *_bolts(made.lines))


def _by_part(every: Iterable[Total]) -> dict[str, list[Total]]:
    found: dict[str, list[Total]] = {}
    for one in every:
        found.setdefault(one.part, []).append(one)
    return found


def _grouped(lines: Iterable[Line], part: Get, key: Callable[[Line], str]) -> Iterator[tuple[str, list[Line], float, str]]:
    """By what it is of: lines whose number was worked out and is not nothing, their sum, and what it is the sum of."""
    found: dict[str, list[Line]] = {}
    for line in lines:
        if part(line).number:
            found.setdefault(key(line), []).append(line)
    for name, some in found.items():
        marks: dict[str, float] = {}
        for line in some:
            marks[line.wall.mark] = marks.get(line.wall.mark, 0) + (part(line).number or 0)
        yield name, some, sum(marks.values()), " + ".join(f"{mark} {number:,.10g}" for mark, number in marks.items())


def _one_side(lines: Iterable[Line]) -> str:
    """What to settle where the plans do not say how many sides are sheathed."""
    marks = list(dict.fromkeys(line.wall.mark for line in lines if line.each_side))
    return f"{', '.join(marks)}: counted for ONE side, the plans do not say how many. Ask." if marks else ""


def _panels(lines: Iterable[Line]) -> Iterator[Total]:
    def what(line: Line) -> str:
        return f"{line.panels.name}, 4 ft x {in_feet(line.panel_in)}"

    for name, some, count, how in _grouped(lines, lambda line: line.panels, what):
        yield Total("panels", name, count, "sheets", how, _one_side(some))


def _nails(lines: Iterable[Line], packs: Packs) -> Iterator[Total]:
    for name, some, total, how in _grouped(lines, lambda line: line.nails, lambda line: line.nails.name):
        count = int(total)
        yield Total("nails", name, count, "nails", how, _one_side(some))
        bought = q.with_allowance(count, packs.allowance)
        if bought != count:
            yield Total("nails", name, bought, "nails", f"{count:,} + {packs.allowance:g} %")
        sizes = packs.of(name)
        for size, unit in _UNITS:
            if size in sizes:
                yield Total("nails", name, q.packs(bought, int(sizes[size])), unit, f"{bought:,} / {sizes[size]:,.10g}")
        if "per_pound" in sizes:
            yield Total("nails", name, q.pounds(bought, sizes["per_pound"]), "lb", f"{bought:,} / {sizes['per_pound']:g}")


def _blocks(lines: Iterable[Line]) -> Iterator[Total]:
    for _, some, count, how in _grouped(lines, lambda line: line.blocks, lambda line: ""):
        inches = sum(line.block_in for line in some)
        yield Total("blocks", f"{in_feet(inches)} in all, width as the framing", count, "pieces", how)


def _bolts(lines: Sequence[Line]) -> Iterator[Total]:
    for name, some, count, how in _grouped(lines, lambda line: line.bolts, lambda line: line.bolts.name):
        yield Total("sill bolts", name, count, "bolts", how, _least(some))
    for name, some, count, how in _grouped(lines, lambda line: line.bolts, lambda line: line.washer):
        if name:
            yield Total("washers", f"{name} plate washer", count, "washers", how, f"one a bolt. {_least(some)}".strip())
        else:
            marks = ", ".join(dict.fromkeys(line.wall.mark for line in some))
            yield Total("washers", f"for {marks}", None, "", "", "Size not on the plans or not settled. Ask.")


def _least(lines: Iterable[Line]) -> str:
    marks = list(dict.fromkeys(line.wall.mark for line in lines if line.bolts.least))
    return f"Minimum: plate pieces of {', '.join(marks)} are not given." if marks else ""
