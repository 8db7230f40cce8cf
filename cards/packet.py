"""The job packet: which papers go in, in the order of the job."""

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Literal, NamedTuple

from cards import findings, numbers, output
from cards.face import faces
from cards.load import at_hand
from extractor import files
from extractor.errors import UsageError
from extractor.record import Job, Source

Issue = Literal["issue", "draft", "all"]


class Print(NamedTuple):
    """How cards are printed; ``plans`` are the PDFs that the job was read from, where they are at hand.

    ``folder`` is the packet's, where the foreman's own files lie: wall lengths and pack sizes.
    """

    size: str = "3x5"
    layout: str = "fold"
    paper: str = "letter"
    language: str = "en"
    plans: tuple[Path, ...] = ()
    folder: Path = Path()


USUAL = Print()


class Paper(NamedTuple):
    """One file of the packet.

    ``make`` gives its bytes, or None where this job has nothing to put on it; ``holds`` says what it holds of a job, and
    ``absent`` why it was left out.
    """

    name: str
    make: Callable[[Job, Print], bytes | None]
    holds: Callable[[Job], str]
    absent: str = ""


class Packet(NamedTuple):
    """What a run wrote, what it left out and why, and what it took away because an earlier run had left it."""

    written: tuple[tuple[Path, str], ...]
    left_out: tuple[str, ...]
    removed: tuple[Path, ...]


def packet(job: Job, out_dir: Path, *, how: Print = USUAL, plans: Sequence[Path] = (),
           enter: Callable[[], object] = lambda: None) -> Packet:  # fmt: skip
    """Write every paper of ``job`` into ``out_dir``; all are made, then ``enter`` is called, then they are written."""
    how = how._replace(plans=at_hand(job, plans), folder=out_dir)
    with numbers.using(numbers.load(out_dir / numbers.NAME) or numbers.in_use()):
        made = [(paper, out_dir / paper.name, paper.make(job, how)) for paper in PAPERS]
    output.folder(out_dir)
    for _, path, _ in made:
        output.writable(path, plans=plans)
    enter()
    removed = [path for _, path, data in made if data is None and output.taken_away(path)]  # an old card is worse than no card
    for _, path, data in made:
        if data is not None:
            output.write(path, data, plans=plans)
    return Packet(
        written=tuple((path, paper.holds(job)) for paper, path, data in made if data is not None),
        left_out=tuple(paper.absent for paper, _, data in made if data is None and paper.absent),
        removed=tuple(removed),
    )


def apart(out_dir: Path, plans: Sequence[Path]) -> None:
    """Raise a UsageError where the packet would land among the plans, and the next run would read it as plans."""
    if any(files.is_folder(plan) and files.real(plan) == files.real(out_dir) for plan in plans):
        raise UsageError(
            "The packet would lie among the plans and be read as plans the next time.",
            where=str(out_dir),
            do="Name another folder: --out packet",
        )


def card_bytes(job: Job, how: Print, issue: Issue = "all") -> bytes:
    """The cards of ``job`` as a PDF: those ready to issue, those on hold, or all."""
    from cards.pocket import cards_pdf  # laying out pages is slow to import

    return cards_pdf(job, size=how.size, layout=how.layout, paper=how.paper, language=how.language, issue=issue)


def _marks(job: Job, *, hold: bool) -> list[str]:
    """Marks of the wall types whose cards are on hold, or of those whose cards are ready."""
    return [face.mark for face in faces(job) if face.hold is hold]


def _ready(job: Job, how: Print) -> bytes | None:
    return card_bytes(job, how, "issue") if _marks(job, hold=False) else None


def _on_hold(job: Job, how: Print) -> bytes | None:
    return card_bytes(job, how, "draft") if _marks(job, hold=True) else None


def _questions(job: Job, how: Print) -> bytes | None:
    from cards.questions import questions_pdf

    def cut(places: Iterable[Source]) -> dict[Source, bytes]:
        from extractor.pictures import pictures

        return {place: one.png for place, one in pictures(how.plans, places).items()}

    return questions_pdf(job, paper=how.paper, pictures=cut if how.plans else None)


def _questions_text(job: Job, how: Print) -> bytes | None:
    from cards.questions import questions_text

    text = questions_text(job)
    return text.encode() if text else None


def _summary(job: Job, how: Print) -> bytes:
    from cards.summary import summary_pdf

    return summary_pdf(job, paper=how.paper)


def _before_pour(job: Job, how: Print) -> bytes:
    from cards.before_pour import before_pour_pdf

    return before_pour_pdf(job, paper=how.paper, language=how.language)


def _checklist(job: Job, how: Print) -> bytes | None:
    from cards.checklist import checklist_pdf

    return checklist_pdf(job, paper=how.paper, language=how.language)


def _legend(job: Job, how: Print) -> bytes:
    from cards.legend import legend_pdf
    from cards.sheet import handy

    return legend_pdf(job, size=handy(how.size), layout=how.layout, paper=how.paper, language=how.language)


def _why(job: Job, how: Print) -> bytes:
    from cards.sheet import handy
    from cards.why import why_pdf

    return why_pdf(job, size=handy(how.size), layout=how.layout, paper=how.paper, language=how.language)


def _workbook(job: Job, how: Print) -> bytes:
    from cards.order import given, rows
    from cards.workbook import workbook

    made = given(job, how.folder)
    return workbook(job, how.plans, rows(job, made.walls, made.packs) if made.countable else ())


def _order(job: Job, how: Print) -> bytes | None:
    from cards.order import given, order_pdf

    made = given(job, how.folder)
    return order_pdf(job, made.walls, made.packs, paper=how.paper) if made.countable else None


def _to_fill(name: str) -> Callable[[Job, Print], bytes | None]:
    def make(job: Job, how: Print) -> bytes | None:
        from cards.order import given, to_fill

        return to_fill(job, name, how.folder, given(job, how.folder))

    return make


def _review(job: Job, how: Print) -> bytes:
    from cards.review import review

    return review(job, how.plans)


def _phone(job: Job, how: Print) -> bytes:
    from cards.phone import phone

    return phone(job, how.language)


def _boxed_sheets(job: Job, how: Print) -> bytes | None:
    if not how.plans:
        return None
    from cards.highlight import sheets_pdf

    return sheets_pdf(job, how.plans, how.paper)


PAPERS = (
    Paper("summary.pdf", _summary, lambda job: "one page: what was read, what is open, what was not read"),
    Paper(
        "questions.pdf",
        _questions,
        lambda job: "questions to the engineer, one issue each, with room for the answer",
        "questions.pdf. No question is open. That is not an approval.",
    ),
    Paper("questions.md", _questions_text, lambda job: "the same questions as text, for a letter"),
    Paper("before-the-pour.pdf", _before_pour, lambda job: "hold-down anchors and sill bolts by type, to tick"),
    Paper(
        "cards.pdf",
        _ready,
        lambda job: f"pocket cards to compare, sign and issue: {', '.join(_marks(job, hold=False))}",
        "cards.pdf. No card can be issued yet: every wall type is on HOLD.",
    ),
    Paper("cards-draft.pdf", _on_hold, lambda job: f"cards on HOLD, not for nailing: {', '.join(_marks(job, hold=True))}"),
    Paper(
        "order.pdf",
        _order,
        lambda job: "panels, nails, blocks, bolts and hold-downs to order, with the working. For ordering only",
        "order.pdf. No wall has a length and a height: fill in walls-to-fill.csv and make the packet again.",
    ),
    Paper("walls-to-fill.csv", _to_fill("walls-to-fill.csv"), lambda job: "wall lengths and heights, for you to fill in"),
    Paper("packs-to-fill.toml", _to_fill("packs-to-fill.toml"), lambda job: "your own pack sizes of nails, for you to fill in"),
    Paper("legend-card.pdf", _legend, lambda job: "marks, signs and abbreviations of this job"),
    Paper("why-card.pdf", _why, lambda job: "what each part of a shear wall does"),
    Paper("checklist.pdf", _checklist, lambda job: "the list before cover, a page a wall type"),
    Paper("findings.txt", lambda job, how: findings.as_text(job).encode(), lambda job: "questions and notes, worst first"),
    Paper("schedule.xlsx", _workbook, lambda job: "a line for every value, type, mark and hold-down, and what was not read"),
    Paper("review.html", _review, lambda job: "each value beside the place it was read from, to compare and tick"),
    Paper(
        "sheets.pdf",
        _boxed_sheets,
        lambda job: "the sheets that values were read from, each value boxed and numbered",
        "sheets.pdf. The plans that the job was read from are not at hand; review.html and schedule.xlsx have no pictures.",
    ),
    Paper("phone.html", _phone, lambda job: "the cards for a phone, found by mark, without a network"),
    Paper(numbers.NAME, lambda job, how: numbers.as_toml(job.findings).encode(), lambda job: "numbers of the questions: keep it"),
    Paper("job.json", lambda job, how: job.to_json().encode(), lambda job: "every value with the place it was read from"),
)
