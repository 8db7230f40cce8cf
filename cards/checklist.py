"""The list before cover: for each wall type fifteen things to look at, with that type's own values, and who looked.

A value that the plans leave open is asked for here too; a ticked list is no approval.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from cards.face import Face, faces
from cards.papers import Bit, bits, drawn, paper_pdf, sheet_name, spoken
from cards.paperwords import PaperWords
from cards.values import Value, asked
from extractor.checks.hit import mark_key
from extractor.record import Job, Reading, State

TRIGGER_IN = 4.0  # edge spacing at or under which a special inspection may be called for: IBC-2015 1705, from memory
BOXES = 30  # boxes drawn for the walls on one sheet; more than that is a number
_PANEL = ("sheathing.thickness_in", "sheathing.material", "sheathing.grade")
_NAILS = ("nail", "staple", "screw", "fastener")


@dataclass(frozen=True)
class Item:
    """One thing to look at: its number, its words in each language, and the type's values."""

    number: int
    words: tuple[str, ...]
    bits: tuple[Bit, ...] = ()


@dataclass(frozen=True)
class TypeList:
    """The list of one wall type. ``hold`` says that nobody may nail or cover it, ``open`` what else is open."""

    mark: str
    row: str
    walls: tuple[tuple[str, int, int], ...]
    hold: tuple[str, ...]
    open: tuple[str, ...]
    items: tuple[Item, ...]
    special: tuple[str, ...]


def type_lists(job: Job, words: PaperWords) -> tuple[TypeList, ...]:
    """A list for each wall type, in the schedule's order."""
    return tuple(_type_list(face, job, words) for face in faces(job, words.language))


def checklist_pdf(job: Job, *, paper: str = "letter", language: str = "en") -> bytes | None:
    """The lists as PDF, a page a type, and a last page for the inspection; None where no wall type was read."""
    words = spoken(language)
    lists = type_lists(job, words)
    if not lists:
        return None
    return paper_pdf("papers_checklist.html", job, words, words.say("check_title"), paper, lists=lists,
                     ready=[words.lines(f"ready_{i}") for i in range(1, 9)])  # fmt: skip


def may_need_special(face: Face) -> bool | None:
    """Whether the edge nailing is close enough that a special inspection may be called for; None where it is not known."""
    spacing = face.wall.edge.spacing_in
    every: tuple[Reading[float], ...] = (spacing, *spacing.also) if spacing else ()
    values = [one.value for one in every if one.value is not None and one.state is not State.UNREADABLE]
    if not values:
        return None
    return min(values) <= TRIGGER_IN


def _type_list(face: Face, job: Job, words: PaperWords) -> TypeList:
    walls = drawn(job, "wall").get(mark_key(face.mark), ("", ()))[1]
    numbers = tuple(question.number for question in face.questions)
    special = may_need_special(face)
    return TypeList(
        mark=face.named, row=face.row, walls=tuple((sheet, min(count, BOXES), count) for sheet, count in walls),
        hold=words.lines("check_hold", q=_list(face.reasons)) if face.hold else (),
        open=words.lines("check_open", q=_list(numbers)) if numbers and not face.hold else (),
        items=tuple(Item(i, *said) for i, said in enumerate(_items(face, words), 1)),
        special=words.lines("special_unknown") if special is None else words.lines("special") if special else (),
    )  # fmt: skip


def _list(names: Iterable[str]) -> object:
    """Question numbers in the words of one language; a field without a number by its name."""
    names = tuple(names)
    numbers = tuple(name for name in names if name.startswith("Q-"))
    others = [name for name in names if name not in numbers]
    return lambda words: ", ".join([*(part for part in [asked(numbers)(words).strip(" ()")] if part), *map(words.say, others)])


def _items(face: Face, words: PaperWords) -> Iterator[tuple[tuple[str, ...], tuple[Bit, ...]]]:
    """The fifteen lines and the one after, each with its words and values."""
    values = {
        1: (Bit(face.mark, "read"), *((Bit(sheet_name(face.sheet, words)),) if face.sheet else ())),
        2: bits(_of(face, "sheathing", _PANEL)),
        3: bits(_of(face, "sheathing", ("sheathing.faces",))),
        4: bits(value for key in _NAILS for value in _line(face, key)),
        5: _counted(face, "edge", words),
        6: _counted(face, "field", words),
        8: bits(_line(face, "block")),
        13: bits(_line(face, "joint")),
        14: (*bits(_line(face, "hold_down")), *_fasteners(face)),
        15: tuple(_sill(face, words)),
    }
    for i in range(1, 17):
        yield words.lines(f"check_{i}"), values.get(i, ())


def _line(face: Face, key: str) -> tuple[Value, ...]:
    line = face.line(key)
    return line.values if line else ()


def _of(face: Face, key: str, names: tuple[str, ...]) -> list[Value]:
    """Values of a line that stand for one of these fields; a box that asks for several stands under each."""
    return [value for value in _line(face, key) if set(value.fields) & set(names)]


def _counted(face: Face, key: str, words: PaperWords) -> tuple[Bit, ...]:
    """A spacing, and how many nails 2 ft of it hold, both ends counted."""
    name = f"{key}.spacing_in"
    reading = face.wall.edge.spacing_in if key == "edge" else face.wall.field.spacing_in
    count: tuple[Bit, ...] = ()
    if reading and reading.state is State.READ and reading.value and face.value(name):
        count = (Bit(words.first("count_edge", n=int(24 / reading.value + 1e-9) + 1)),)
    return (*bits(_line(face, key)), *count)


def _fasteners(face: Face) -> tuple[Bit, ...]:
    """Fasteners and anchor of each hold-down that the type names, behind its mark where there are several."""
    lines = [line for line in face.details if line.key == "hold_down" and line.values]
    return tuple(bit for line in lines for bit in (Bit("·" if len(lines) == 1 else f"· {line.label[0]}:"), *bits(line.values)))


def _sill(face: Face, words: PaperWords) -> Iterator[Bit]:
    """Sill and bolts, plate nails and top connection, each behind its name; what the row leaves out says so."""
    for key, label in (("sill", "sill_label"), ("bottom_plate", "plate_label"), ("top_plate", "top_label")):
        values = bits(_line(face, key))
        if values:
            yield from (Bit(f"{words.first(label)}:"), *values)
        elif key == "top_plate" or (key == "sill" and not face.line("bottom_plate")):
            yield from (Bit(f"{words.first(label)}:"), Bit(words.first("not_in_row"), "deferred"))
