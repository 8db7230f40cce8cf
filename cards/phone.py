"""The cards as one page for a phone: no network, big type, found by mark with a thumb in a glove.

It says what the cards say, in the same words. A mark that is drawn on the plans and has no row is found too, and says so.
"""

from dataclasses import dataclass, replace
from types import SimpleNamespace

from cards.backdrawings import clean, nails_in_two_feet
from cards.face import Face, Line, Question, faces
from cards.findings import numbered, summary
from cards.front import PATTERNS, job_name, plan_revision
from cards.screen import screen
from cards.traced import harmless, revisions
from cards.values import Value, asked, called, number_in
from cards.words import LANGUAGES, Language, Words
from extractor.errors import UsageError
from extractor.record import Job

BIG = ("nail", "staple", "screw", "fastener", "edge", "field")  # read at arm's length
MANY = 12  # marks up to which buttons alone are quicker than typing

# key: (English, Spanish)
SCREEN = {
    "find": ("Find your wall", "Busque su muro"),
    "type": ("Type the mark", "Escriba la marca"),
    "nothing": ("No such mark in these plans. Stop and ask.", "No hay esa marca en estos planos. Pare y pregunte."),
    "all": ("ALL MARKS", "TODAS"),
    "before": ("BACK", "ATRÁS"),
    "after": ("NEXT", "SIGUE"),
    "held": ("HOLD", "ALTO"),
    "no_row": ("NOT IN THE SCHEDULE - ASK", "NO ESTÁ EN LA TABLA - PREGUNTE"),
    "drawn": ("Drawn on {sheets}.", "Dibujado en {sheets}."),
    "questions": ("Open questions", "Preguntas abiertas"),
    "details": ("Hold-downs and bolts", "Anclajes y pernos"),
    "void": ("Newer sheet date than this? This page is void.", "¿Hay hoja con fecha más nueva? Esta página ya no vale."),
}


@dataclass(frozen=True)
class Run:
    """Words of one value: what they are worth, the value, where it comes from, and the words of a bad state."""

    glue: str
    look: str
    text: str
    tail: str
    warning: tuple[tuple[str, str], ...]  # words, and numbers that stay on one line


@dataclass(frozen=True)
class Row:
    """A line of the card."""

    label: str
    big: bool
    runs: tuple[Run, ...]
    count: str  # what to count at the wall


@dataclass(frozen=True)
class Screen:
    """One mark on the phone; ``band`` is the hold band's words, ``asked`` the numbers of the questions behind it."""

    key: str
    mark: str
    pattern: int
    band: str
    asked: str
    head: tuple[str, ...]
    rows: tuple[Row, ...]
    questions: tuple[str, ...]
    details: tuple[str, ...]
    lines: tuple[str, ...]
    button: str  # what its button says below the mark
    before: str = ""  # keys of the cards beside it
    after: str = ""


def phone(job: Job, language: str = "en") -> bytes:
    """The page of ``job`` in one language, or in English and Spanish."""
    spoken = _language(language)
    words = Words(spoken)
    digest = job.plan_set.sha256[:8]
    every = faces(job, spoken)
    shown = [_screen(one, job, n, len(every)) for n, one in enumerate(every, 1)]
    shown += _without_row(job, words, len(shown))
    keys = ["", *(card.key for card in shown), ""]
    shown = [replace(card, before=keys[n], after=keys[n + 2]) for n, card in enumerate(shown)]
    say = {key: _say(key, words) for key in SCREEN if key not in ("held", "no_row", "drawn")}
    return screen(
        "phone", running=f"{harmless(job_name(job))[:60]}, file {digest}, {revisions(job)[:90]}. {words.first('govern_short')}",
        language=words.spoken[0], name=harmless(job_name(job)), digest=words.first("file", digest=digest), summary=summary(job),
        say=SimpleNamespace(**say), cards=shown, many=len(shown) > MANY, govern=words.lines("govern"),
        safety=words.lines("safety"),
    )  # fmt: skip


def _language(name: str) -> Language:
    for language in LANGUAGES:
        if language == name:
            return language
    raise UsageError(f"There is no language {name}.", where="--language", do=f"Use one of: {', '.join(LANGUAGES)}.")


def _say(key: str, words: Words, **fill: object) -> str:
    return " / ".join(dict.fromkeys(_in(key, Words(one), fill) for one in words.spoken))


def _in(key: str, one: Words, fill: dict[str, object]) -> str:
    return SCREEN[key][one.language == "es"].format(**{name: v(one) if callable(v) else v for name, v in fill.items()})


def _screen(face: Face, job: Job, number: int, of: int) -> Screen:
    words = face.words
    reasons = tuple(reason for reason in face.reasons if reason.startswith("Q-"))
    head = (*filter(None, [face.scope]), plan_revision(face), face.row, words.say("card_of", n=number, of=of))
    return Screen(
        f"card-{number}", face.mark, (number - 1) % PATTERNS,
        words.say("hold") if face.hold else "", _numbers(reasons, words), head, tuple(_row(line, face) for line in face.lines),
        tuple(f"{number_in(one.number, words)} {_message(face, one)}" for one in face.questions),
        tuple(f"{' · '.join(line.label)}: {line.words}" for line in face.details if line.values), tuple(_lines(face)),
        SCREEN["held"][words.spoken[0] == "es"] if face.hold else "",
    )  # fmt: skip


def _numbers(questions: tuple[str, ...], words: Words) -> str:
    return asked(questions)(Words(words.spoken[0])).strip()


def _row(line: Line, face: Face) -> Row:
    runs = tuple(_run(value, first=not i) for i, value in enumerate(line.values))
    return Row(" · ".join(line.label), line.key in BIG, runs, _count(face) if line.key == "edge" else "")


def _run(value: Value, *, first: bool) -> Run:
    return Run("" if first else value.glue.strip(), value.shown.value, value.text, value.tail, tuple(map(_parted, value.warning)))


def _parted(warning: str) -> tuple[str, str]:
    """A warning's words, and the question numbers in brackets at its end."""
    words, bracket, numbers = warning.rpartition(" (")
    return (words, bracket.strip() + numbers) if words and numbers.startswith(("Q-", "P-")) else (warning, "")


def _count(face: Face) -> str:
    edge = clean(face, "edge.spacing_in")
    return face.words.say("count", n=nails_in_two_feet(edge)) if edge else ""


def _message(face: Face, question: Question) -> str:
    """A question's message; one about capacity is not for the crew."""
    finding = question.finding
    about_capacity = (finding.field or "").startswith("capacity") or "capacity" in finding.code
    return face.words.first("see_questions") if about_capacity else finding.message


def _lines(face: Face) -> list[str]:
    """What else the card's back says in words."""
    words = face.words
    lines: list[str] = []
    if face.not_given:
        lines.append(words.say("not_given", what=lambda one: called(face.not_given)(one).strip().lower()))
    if face.wall.other:
        lines.append(words.say("other", what="; ".join(reading.as_printed for reading in face.wall.other)))
    lines += words.lines("openings")
    if (clean(face, "edge.spacing_in") or 12) <= 4:
        lines += words.lines("special")
    return lines


def _without_row(job: Job, words: Words, before: int) -> list[Screen]:
    """Marks of walls that are drawn on the plans and have no row: nobody may nail them, and nobody may miss them."""
    known = {(wall.mark.value or wall.mark.as_printed).casefold() for wall in job.wall_types}
    sheets: dict[str, list[str]] = {}
    for drawn in job.plan_marks:
        if drawn.kind == "wall" and drawn.mark.casefold() not in known:
            sheets.setdefault(drawn.mark, []).append(drawn.sheet or words.first("page", n=drawn.page))
    return [
        Screen(f"card-{before + n}", mark, (before + n - 1) % PATTERNS,
               _say("no_row", words),
               _numbers(tuple(q for q, f in numbered(job) if q and f.wall_type == mark), words),
               (_say("drawn", words, sheets=", ".join(dict.fromkeys(where))),), (), (), (), (), "?")
        for n, (mark, where) in enumerate(sheets.items(), 1)
    ]  # fmt: skip
