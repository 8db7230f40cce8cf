"""What a note says about shear walls: its clauses, each with values, whom it is for, and whether it gives way to the row.

A note is read clause by clause: a limit (a wall type, a penny size, exterior walls) holds for its own clause only. A subject
before a colon (SHEAR WALL SW-2: ...) holds for all that follows, and so does a subject that is no shear wall.
"""

from collections.abc import Collection, Iterator
from typing import NamedTuple

import regex as re

from extractor.trade import notesubjects as subjects
from extractor.trade.nailwords import NailDefinition, nail_definition, nail_definitions
from extractor.trade.notevalues import found_in, penny_subject
from extractor.trade.text import Found, Span

__all__ = ["Clause", "NailDefinition", "Note", "nail_definition", "nail_definitions", "note"]


class Clause(NamedTuple):
    """One statement of a note; spans are in the note's text.

    A clause that is ``conditional`` or about something ``elsewhere`` (a roof, a hold-down) has nothing found. One with
    ``one_place`` has what it says, for the card, but never fills a type. ``marks`` empty means all types.
    """

    span: Span
    found: tuple[Found, ...] = ()
    marks: tuple[str, ...] = ()
    only_penny: str | None = None
    only_scope: str | None = None
    yields: bool = False
    about_walls: bool = False
    one_place: bool = False
    conditional: bool = False
    elsewhere: bool = False
    for_all_notes: bool = False  # THESE NOTES ARE TYPICAL UNLESS NOTED OTHERWISE: with yields, all notes give way
    definitions: tuple[NailDefinition, ...] = ()


class Note(NamedTuple):
    """A note: its number as printed, and its clauses. The properties speak of all clauses together.

    Fill from ``clauses``: a limit in one clause doesn't hold for another.
    """

    number: str | None
    clauses: tuple[Clause, ...]

    @property
    def found(self) -> tuple[Found, ...]:
        """Everything found in any clause."""
        return tuple(f for clause in self.clauses for f in clause.found)

    @property
    def definitions(self) -> tuple[NailDefinition, ...]:
        """The nails that the note defines."""
        return tuple(d for clause in self.clauses for d in clause.definitions)

    @property
    def marks(self) -> tuple[str, ...]:
        """All wall types named in any clause."""
        return tuple(dict.fromkeys(mark for clause in self.clauses for mark in clause.marks))

    @property
    def only_penny(self) -> str | None:
        """The first penny size that a clause is limited to."""
        return next((c.only_penny for c in self.clauses if c.only_penny), None)

    @property
    def only_scope(self) -> str | None:
        """The first scope that a clause is limited to."""
        return next((c.only_scope for c in self.clauses if c.only_scope), None)

    @property
    def yields(self) -> bool:
        """Whether any clause gives way to the row."""
        return any(c.yields for c in self.clauses)

    @property
    def about_walls(self) -> bool:
        """Whether any clause speaks of shear walls by name."""
        return any(c.about_walls for c in self.clauses)

    @property
    def one_place(self) -> bool:
        """Whether any clause is a rule for one place."""
        return any(c.one_place for c in self.clauses)

    @property
    def conditional(self) -> bool:
        """Whether any clause holds only under a condition."""
        return any(c.conditional for c in self.clauses)


_COUNTED = r"(?:rows?|sides?|faces?|in\b|inch|ft\b|feet|ply|plies|layers?|ga\b|bolts?|nails?|studs?|pieces?|per\b|x\b|hours?)"
_NUMBER = re.compile(
    r"\s*(?:notes? ?)?[(\[]?(?:(?P<number>\d{1,3})(?:[.):\],](?!\d)| ?- "
    rf"|\s+(?=[A-Z][A-Za-z]+ )(?!{_COUNTED}))|(?P<letter>[A-Za-z])(?:[.)](?=\s)|\)))\s*"
    r"|\s*notes?(?: ?(?P<after>\d{1,2}))?: ?|\s*(?P<star>\*+)\s*",
    re.I,
)
_SHORT = (
    r"(?:o\.?c|in|ft|embed|bd|min|max|dia|a\.?b|no|typ|nom|req'?d|eq|w/o|ext|int|pl|plywd|shtg|blkg|galv"
    r"|com|struct|str|u\.?n\.?o|e\.?n|f\.?n|b\.?n|approx|conc|fdn|fnd|ga|hd|p\.?t|dbl|stagg?|horiz|vert|gyp"
    r"|bd|i\.?e|e\.?g)"
)
_STRONG = (
    r"(?:provide|use|block|nails|see|where|sheath|stagger|install|values|capacities|plate washers"
    r"|all (?:nails|panel edges|edges|bolts|anchor|plate|walls|panels|shear)"
    r"|edge spacings?|shear walls?|wall type|hold-?downs?|no hold|allowable|add|do not|exterior walls|interior walls)"
)
_STARTS = (
    rf"(?:{_STRONG}|nail|embed|anchor bolts|sill bolts|each|panels|sheathing|fasteners|field nailing|edge nailing|blocking|3x)"
)
_CAN_END = re.compile(r"(?i)(?:o\.?c|\bin|u\.?n\.?o|typ|req'?d|conc|embed)$")
_BREAK = re.compile(rf"(?<=[a-z\d)\"'])\.(?=\s|$)|;|(?<=[a-z\d)\"'.]) - (?={_STARTS}\b)", re.I)
_AFTER_SHORT = re.compile(rf"(?:^|[^a-z]){_SHORT}$", re.I)
_HEAD = re.compile(r"[^.;:]{2,60}:(?=\s)")


def note(text: str, known: Collection[str] = ()) -> Note:
    """The note's number and what it says. ``text`` is in plain spelling; ``known`` are the scheduled marks, if there are any.

    >>> read = note('2. ANCHOR BOLT EMBEDMENT 7" MINIMUM.')
    >>> read.number, [(f.field, f.value) for f in read.found]
    ('2', [('anchors.kind', 'anchor bolt'), ('anchors.embedment_in', 7.0)])
    """
    m = _NUMBER.match(text)
    start = m.end() if m else 0
    number = next((g for g in m.groups() if g), None) if m else None
    clauses: list[Clause] = []
    head, doubtful = "", False
    for span in _spans(text, start):
        words = text[slice(*span)]
        opened = _HEAD.match(words)
        if opened and (
            subjects.about_walls(opened[0])
            or subjects.elsewhere(opened[0])
            or subjects.conditional(opened[0])
            or any(subjects.marks(opened[0], known))
        ):
            head = opened[0]
        elif subjects.elsewhere(words) and not head:
            head = words if _no_wall_at_all(words) else ""
        clause = _clause(text, span, head, known)
        clauses.append(_left(clause) if doubtful else clause)
        doubtful = doubtful or clause.conditional
    return Note(number, tuple(clauses))


def _left(clause: Clause) -> Clause:
    """What a clause after a conditional one still says for all walls: its nails and studs may go on with the condition."""
    kept = tuple(f for f in clause.found if f.field.startswith(("capacity", "anchors")) or f.field == "framing.blocked")
    return clause._replace(found=kept)


def _no_wall_at_all(words: str) -> bool:
    """Whether a clause opens a subject that the next ones go on with: a roof or floor, and no shear wall."""
    return subjects.elsewhere(words) and not subjects.about_walls(words)


def _clause(text: str, span: Span, head: str, known: Collection[str]) -> Clause:
    """One clause read, under the subject that opened it."""
    words = text[slice(*span)]
    under = words if words.startswith(head) else f"{head} {words}"
    named = tuple(dict.fromkeys(mark for group, _ in subjects.marks(under, known) for mark in group))
    base = Clause(
        span,
        marks=named,
        only_scope=subjects.scope(under),
        yields=subjects.yields(words),
        about_walls=subjects.about_walls(under) or bool(named),
        one_place=subjects.one_place(under) or (not named and subjects.some_walls(under)),
        conditional=subjects.conditional(words) or subjects.conditional(head),
        elsewhere=_elsewhere(words, head),
        for_all_notes=subjects.speaks_of_notes(words),
    )
    if base.elsewhere or base.conditional:
        return base
    shifted = tuple(f._replace(span=(f.span[0] + span[0], f.span[1] + span[0])) for f in _found(words, under))
    defined = _definitions(words, span[0])
    if len(defined) > 1:
        return base._replace(definitions=defined, found=tuple(f for f in shifted if not f.field.startswith("fastener.")))
    penny = penny_subject(words)
    if penny:
        about_penny = tuple(f for f in shifted if f.field not in ("fastener.penny", "fastener.kind"))
        return base._replace(only_penny=penny[0], found=about_penny, definitions=defined)
    return base._replace(found=shifted)


def _elsewhere(words: str, head: str) -> bool:
    """Whether the clause, or the subject it goes on with, is about something else."""
    if subjects.elsewhere(words):
        return True
    return bool(head) and subjects.elsewhere(head) and not subjects.about_walls(words)


def _found(words: str, under: str) -> tuple[Found, ...]:
    """The clause's values; of a clause about decks as well, the nail's style only."""
    found = found_in(words)
    return tuple(f for f in found if f.field == "fastener.style") if subjects.with_decks(under) else found


def _definitions(words: str, offset: int) -> tuple[NailDefinition, ...]:
    """Nails defined in a clause; alternatives (8d COMMON OR 10d BOX) define none."""
    if re.search(r"(?i)\d ?d\b[^,;]*\bor\b[^,;]*\d ?d\b|\bor\b \d", words):
        return ()
    return nail_definitions(words, offset)


def _spans(text: str, start: int) -> Iterator[Span]:
    """The clauses' spans: parted at sentence ends and semicolons, not at the point of an abbreviation."""
    at = start
    for m in _BREAK.finditer(text, start):
        if m.start() < at:
            continue
        if m[0] == "." and _AFTER_SHORT.search(text[at : m.start()]):
            goes_on = not (_CAN_END.search(text[at : m.start()]) and re.match(rf"\s+{_STRONG}\b", text[m.end() :], re.I))
            if goes_on or subjects.conditional(text[at : m.start()]):
                continue
        yield from _trimmed(text, at, m.end() if m[0] == "." else m.start())
        at = m.end()
    yield from _trimmed(text, at, len(text))


def _trimmed(text: str, start: int, end: int) -> Iterator[Span]:
    """The span without the space round it, if anything is left."""
    words = text[start:end]
    if words.strip().strip(" .;,-"):
        yield start + len(words) - len(words.lstrip()), end - (len(words) - len(words.rstrip()))
