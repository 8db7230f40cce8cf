"""The job packet: which papers go in, in the order of the job."""

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Literal, NamedTuple

from cards import findings, output
from cards.face import faces
from extractor.errors import UsageError
from extractor.record import Job

Issue = Literal["issue", "draft", "all"]


class Print(NamedTuple):
    """How cards are printed."""

    size: str = "3x5"
    layout: str = "fold"
    paper: str = "letter"
    language: str = "en"


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


def packet(job: Job, out_dir: Path, *, how: Print = USUAL, plans: Sequence[Path] = ()) -> Packet:
    """Write every paper of ``job`` into ``out_dir``; all are made before the first is written."""
    made = [(paper, out_dir / paper.name, paper.make(job, how)) for paper in PAPERS]
    output.folder(out_dir)
    for _, path, _ in made:
        output.writable(path, plans=plans)
    removed = [path for _, path, data in made if data is None and path.exists()]
    for path in removed:  # an old card is worse than no card
        path.unlink()
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
    if any(plan.is_dir() and out_dir.exists() and plan.samefile(out_dir) for plan in plans):
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


PAPERS = (
    Paper(
        "cards.pdf",
        _ready,
        lambda job: f"pocket cards to compare, sign and issue: {', '.join(_marks(job, hold=False))}",
        "cards.pdf. No card can be issued yet: every wall type is on HOLD.",
    ),
    Paper("cards-draft.pdf", _on_hold, lambda job: f"cards on HOLD, not for nailing: {', '.join(_marks(job, hold=True))}"),
    Paper("findings.txt", lambda job, how: findings.as_text(job).encode(), lambda job: "questions and notes, worst first"),
    Paper("job.json", lambda job, how: job.to_json().encode(), lambda job: "every value with the place it was read from"),
)
