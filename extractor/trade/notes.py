"""What a note says about shear walls: its clauses, each with values, whom it is for, and whether it gives way to the row.

A note is read clause by clause: a limit (a wall type, a penny size, exterior walls) holds for its own clause only. A subject
before a colon (SHEAR WALL SW-2: ...) holds for all that follows, and so does a subject that is no shear wall.
"""

from collections.abc import Collection
from typing import NamedTuple

import regex as re

from extractor.record import State
from extractor.trade import notesubjects as subjects
from extractor.trade.holddown import hold_downs_in_words
from extractor.trade.nailwords import NailDefinition, nail_definition, nail_definitions
from extractor.trade.noteexcepts import Excepted, excepted, instead
from extractor.trade.notelengths import EdgeLimit, edge_limit
from extractor.trade.notemarks import whom
from extractor.trade.noteshares import Share, alternating, shares
from extractor.trade.notespans import number, parts, sentences
from extractor.trade.notevalues import found_in, penny_subject
from extractor.trade.text import Found, Span

__all__ = ["LONGEST", "Clause", "NailDefinition", "Note", "nail_definition", "nail_definitions", "note"]


class Clause(NamedTuple):
    """One statement of a note; spans are in the note's text.

    A clause that is ``conditional`` or about something ``elsewhere`` (a roof, a hold-down) has nothing found, nor has one longer
    than any sentence. One with ``one_place`` has what it says, for the card, but never fills a type. ``marks`` empty means all
    types; ``only_sign`` limits it to those whose mark carries that sign († INDICATES BOTH FACES).
    """

    span: Span
    found: tuple[Found, ...] = ()
    marks: tuple[str, ...] = ()
    only_penny: str | None = None
    only_scope: str | None = None
    only_edge: EdgeLimit | None = None
    only_sign: str | None = None
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


LONGEST = 3_000  # letters: the longest sentences on plans have some 600; nobody tells what one beyond that is about
_SIGN = re.compile(r"\s*(?P<sign>[*†‡§]{1,2}) ?(?:(?:indicates?|denotes?|means?|is|are)\b|[=:-])? ?(?=[A-Z\d])", re.I)
_HEAD = re.compile(r"[^.;:]{2,60}:(?=\s)")


def note(text: str, known: Collection[str] = ()) -> Note:
    """The note's number and what it says. ``text`` is in plain spelling; ``known`` are the scheduled marks, if there are any.

    >>> read = note('2. ANCHOR BOLT EMBEDMENT 7" MINIMUM.')
    >>> read.number, [(f.field, f.value) for f in read.found]
    ('2', [('anchors.kind', 'anchor bolt'), ('anchors.embedment_in', 7.0)])
    """
    first, _ = number(text)
    clauses: list[Clause] = []
    outer = own = Subject()
    for i, part in enumerate(parts(text)):
        read, end = _part(text, part.span, own if part.under else outer, known)
        clauses += read
        if i == 0 and not first:
            outer = own = end
        elif not part.under:
            own = end
    return Note(first, tuple(clauses))


class Subject(NamedTuple):
    """What the next clause goes on with: the words before a colon, and whether a condition has been opened."""

    head: str = ""
    doubtful: bool = False


def _part(text: str, span: Span, subject: Subject, known: Collection[str]) -> tuple[list[Clause], Subject]:
    """The clauses of one note among several, and the subject it leaves behind."""
    clauses: list[Clause] = []
    head, doubtful = subject
    for own in sentences(text, span):
        words = text[slice(*own)]
        if len(words) > LONGEST:
            clauses.append(Clause(own, about_walls=subjects.about_walls(words), conditional=True))
            doubtful = True
            continue
        if shared := shares(words, known):
            clauses += [_shared(share, own) for share in shared]
            continue
        if (told := excepted(words, known)) and (both := _with_exception(text, own, told, head, known)):
            clauses += both
            continue
        if signed := _SIGN.match(words):
            clause, _ = _clause(text, (own[0] + signed.end(), own[1]), head, known, clauses)
            clauses.append(clause._replace(only_sign=signed["sign"]))
            continue
        opened = _HEAD.match(words)
        if opened and (
            subjects.about_walls(opened[0])
            or subjects.elsewhere(opened[0])
            or subjects.conditional(opened[0])
            or _for_some(opened[0], known)
        ):
            head = opened[0]
        elif subjects.elsewhere(words) and not head:
            head = words if _no_wall_at_all(words) else ""
        clause, rest = _clause(text, own, head, known, clauses)
        if rest and clauses and not clause.marks and not (clauses[-1].marks or clauses[-1].only_scope or clauses[-1].only_penny):
            clauses[-1] = clauses[-1]._replace(found=(), conditional=True)  # it was for some walls only, nobody says which
        clauses.append(_left(clause) if doubtful else clause)
        doubtful = doubtful or clause.conditional or clause.only_edge is not None
    return clauses, Subject(head, doubtful)


def _shared(share: Share, span: Span) -> Clause:
    """The clause that gives some types their part of a sentence."""
    found = tuple(f._replace(span=(f.span[0] + span[0], f.span[1] + span[0])) for f in share.found)
    return Clause(span, found=found, marks=share.marks, about_walls=True)


def _with_exception(text: str, span: Span, told: Excepted, head: str, known: Collection[str]) -> list[Clause]:
    """The rule for all types but the excepted ones, and what the exception gives those; nothing where no rule stands before."""
    at = span[0]
    rule, _ = _clause(text, (at + told.rule[0], at + told.rule[1]), head, known, [])
    if not rule.found:
        return []
    where = (at + told.exception[0], at + told.exception[1])
    given = instead(rule.found, text[slice(*where)])
    moved = tuple(f._replace(span=(f.span[0] + where[0], f.span[1] + where[0])) for f in given)
    return [
        rule._replace(marks=told.rest),
        Clause(where, found=moved, marks=told.named, about_walls=rule.about_walls),
    ]


def _for_some(head: str, known: Collection[str]) -> bool:
    """Whether the words before a colon are for some types only."""
    named = whom(head, known, ())
    return bool(named.marks) or named.unclear


def _left(clause: Clause) -> Clause:
    """What a clause after a conditional one still says for all walls: its nails and studs may go on with the condition."""
    kept = tuple(f for f in clause.found if f.field.startswith(("capacity", "anchors")) or f.field == "framing.blocked")
    return clause._replace(found=kept)


def _no_wall_at_all(words: str) -> bool:
    """Whether a clause opens a subject that the next ones go on with: a roof or floor, and no shear wall."""
    return subjects.elsewhere(words) and not subjects.about_walls(words)


def _clause(text: str, span: Span, head: str, known: Collection[str], before: list[Clause]) -> tuple[Clause, bool]:
    """One clause read, under the subject that opened it; and whether it speaks of all other types."""
    printed = text[slice(*span)]
    told = dict.fromkeys(mark for clause in before for mark in clause.marks)
    opens = printed.startswith(head)
    named, words, rest, unclear = whom(printed, known, told)
    over = None if opens else whom(head, known, ())
    named = named or (over.marks if over else ())
    under = words if opens else f"{over.words if over else head} {words}"
    base = Clause(
        span,
        marks=named,
        only_scope=subjects.scope(under),
        yields=subjects.yields(words),
        about_walls=subjects.about_walls(f"{head} {printed}") or bool(named),
        one_place=subjects.one_place(under) or (not named and subjects.some_walls(under)),
        conditional=unclear
        or alternating(printed, known)
        or subjects.conditional(under)
        or (over is not None and over.unclear)
        or (not named and _explains(words)),
        elsewhere=_elsewhere(words, head),
        for_all_notes=subjects.speaks_of_notes(words),
    )
    if named and base.elsewhere and not base.conditional and not base.yields and subjects.of_hold_downs(under):
        return base._replace(elsewhere=False, found=_hold_downs(words, span[0], {*named, *known})), rest
    words = subjects.BUT_THE_SCHEDULE.sub(lambda m: " " * len(m[0]), words)
    limit = edge_limit(words) if not base.elsewhere else None
    if limit and not _conditional_but(words, under, limit):
        return _limited(base, words, limit), rest
    if base.elsewhere and not base.conditional and subjects.nails_of_walls_too(under):
        return base._replace(definitions=_definitions(words, span[0]), about_walls=True), rest
    if base.elsewhere or base.conditional:
        return base, rest
    read = _read(base, words, under)
    said = {f.field for clause in before if clause.marks for f in clause.found}
    if rest and told and not {f.field for f in read.found} <= said:
        return base._replace(conditional=True), rest  # other than the types that some other rule named
    return read, rest


def _conditional_but(words: str, under: str, limit: EdgeLimit) -> bool:
    """Whether more than the edge spacing limits the clause."""
    return subjects.conditional(_blanked(words, limit)) or subjects.conditional(under.replace(words, " "))


def _blanked(words: str, limit: EdgeLimit) -> str:
    """The words, as long as before, without those of the limit."""
    start, end = limit.span
    return words[:start] + " " * (end - start) + words[end:]


def _limited(base: Clause, words: str, limit: EdgeLimit) -> Clause:
    """What a clause says for one edge spacing only: staggered nails and the framing where panels meet."""
    found = [f for f in found_in(_blanked(words, limit)) if f.field in ("edge.staggered", "framing.panel_edge")]
    shifted = tuple(f._replace(span=(f.span[0] + base.span[0], f.span[1] + base.span[0])) for f in found)
    return base._replace(found=shifted, only_edge=limit, conditional=not shifted)


def _hold_downs(words: str, offset: int, walls: Collection[str]) -> tuple[Found, ...]:
    """The hold-downs that a clause gives to the types it names, or that it gives none; a wall's own mark is no hold-down."""
    read = hold_downs_in_words(words)
    if len(read) != 1 or read[0].state is State.UNREADABLE or set(read[0].value or ()) & set(walls):
        return ()
    return (read[0]._replace(span=(read[0].span[0] + offset, read[0].span[1] + offset)),)


def _read(base: Clause, words: str, under: str) -> Clause:
    """The clause with what it says."""
    shifted = tuple(f._replace(span=(f.span[0] + base.span[0], f.span[1] + base.span[0])) for f in _found(words, under))
    defined = _definitions(words, base.span[0])
    if len(defined) > 1:
        return base._replace(definitions=defined, found=tuple(f for f in shifted if not f.field.startswith("fastener.")))
    penny = penny_subject(words)
    if penny:
        about_penny = tuple(f for f in shifted if f.field not in ("fastener.penny", "fastener.kind"))
        return base._replace(only_penny=penny[0], found=about_penny, definitions=defined)
    return base._replace(found=shifted)


def _explains(words: str) -> bool:
    """Whether the clause tells what a sign means (2 MEANS BOTH FACES) and not what the walls are."""
    return re.search(r"(?i)\b(?:means?|denotes?|indicates?|stands? for)\b", words) is not None


def _elsewhere(words: str, head: str) -> bool:
    """Whether the clause, or the subject it goes on with, is about something else."""
    if subjects.elsewhere(words):
        return True
    return bool(head) and subjects.elsewhere(head) and not subjects.about_walls(words)


def _found(words: str, under: str) -> tuple[Found, ...]:
    """The clause's values; of a clause about decks as well, the nail's style only."""
    found = found_in(words)
    if re.match(r"(?i)\W*space(?:d|s)? (?:at|@) ", words) and re.match(r"(?i)[^:]*\b(?:bolts?|anchors?)\b[^:]*:", under):
        lead = "ANCHOR BOLTS "  # the subject that the words before the colon give
        spaced = (f for f in found_in(lead + words) if f.field == "anchors.spacing_in")
        found = (*found, *(f._replace(span=(f.span[0] - len(lead), f.span[1] - len(lead))) for f in spaced))
    return tuple(f for f in found if f.field == "fastener.style") if subjects.with_decks(under) else found


_PENNY = re.compile(r"\d ?d\b", re.I)


def _one_or_another(words: str) -> bool:
    """Whether the words leave a choice of nails: 8d or 10d. Each word is looked at once, however often the note repeats it."""
    if re.search(r"(?i)\bor\b \d", words):
        return True
    for part in re.split("[,;]", words):
        named = list(_PENNY.finditer(part))
        if named and re.search(r"(?i)\bor\b", part[named[0].end() : named[-1].start() + 1]):
            return True
    return False


def _definitions(words: str, offset: int) -> tuple[NailDefinition, ...]:
    """Nails defined in a clause; alternatives (8d COMMON OR 10d BOX) define none."""
    if _one_or_another(words):
        return ()
    return nail_definitions(words, offset)
