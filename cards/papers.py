"""What every paper of the foreman has in common: its head and foot, and values with the look of their state."""

from collections.abc import Iterable
from dataclasses import dataclass

from cards import page
from cards.face import mixed, schedule_sheets
from cards.findings import GOVERN, REPORT, numbered
from cards.paperwords import PaperWords
from cards.sheet import PAPERS
from cards.values import Shown, Value
from cards.words import LANGUAGES
from extractor.checks.hit import mark_key
from extractor.errors import UsageError
from extractor.record import Finding, Job, SheetRecord


@dataclass(frozen=True)
class Bit:
    """Words in one look: the state of a value, or plain."""

    text: str
    look: str = "plain"


def bits(values: Iterable[Value]) -> tuple[Bit, ...]:
    """Values as words on paper: each bad state in its frame, nothing left blank."""
    done: list[Bit] = []
    for i, value in enumerate(values):
        glue = value.glue.strip() if i else ""
        if glue in (",", ";") and value.text and done[-1].look in ("read", "tail"):
            done[-1] = Bit(done[-1].text + glue, done[-1].look)
        elif glue and value.text:
            done.append(Bit(glue))
        if value.text:
            look = value.shown.value if value.shown in (Shown.NONE, Shown.DEFERRED, Shown.ANSWERED) else "read"
            done.append(Bit(value.text, look))
        if value.tail:
            done.append(Bit(f"({value.tail})", "tail"))
        done += [Bit(warning, value.shown.value) for warning in value.warning]
    return tuple(done)


def spoken(language: str) -> PaperWords:
    """The words in that language; a UsageError lists the languages there are."""
    for one in LANGUAGES:
        if one == language:
            return PaperWords(one)
    raise UsageError(f"There is no language {language}.", where="--language", do=f"Use one of: {', '.join(LANGUAGES)}.")


def job_name(job: Job) -> str:
    """The plan set's file name without its ending."""
    name = job.plan_set.file
    return name[:-4] if name.lower().endswith(".pdf") else name


def cut(text: str, most: int = 90) -> str:
    """Text that is too long for its place, cut where everybody sees it."""
    return text if len(text) <= most else text[: most - 3].rstrip() + "..."


def sheet_name(sheet: SheetRecord, words: PaperWords) -> str:
    """Number, revision and date of a sheet: "S3.1 REV 2, 12 May 2026"."""
    revision = words.first("rev", revision=sheet.revision) if sheet.revision else words.first("no_rev")
    date = words.date(sheet.date) if sheet.date else words.first("no_date")
    return f"{sheet.number or words.first('page', n=sheet.page)} {revision}, {date}"


def drawn(job: Job, kind: str) -> dict[str, tuple[str, tuple[tuple[str, int], ...]]]:
    """Marks of a kind as they are drawn: by key, the mark as printed and how often it stands on each sheet."""
    found: dict[str, tuple[str, dict[str, int]]] = {}
    for mark in job.plan_marks:
        if mark.kind == kind:
            sheets = found.setdefault(mark_key(mark.mark), (mark.mark, {}))[1]
            name = mark.sheet or f"page {mark.page}"
            sheets[name] = sheets.get(name, 0) + len(mark.boxes)
    return {key: (mark, tuple(sheets.items())) for key, (mark, sheets) in found.items()}


def counts(sheets: Iterable[tuple[str, int]]) -> str:
    """How often a mark is drawn, sheet by sheet and never added up: "S2.1: 4, S2.2: 2"."""
    return ", ".join(f"{sheet}: {count}" for sheet, count in sheets)


def open_questions(job: Job) -> list[tuple[str, Finding]]:
    """The questions of a job with their numbers, lowest number first."""
    return sorted(((number, finding) for number, finding in numbered(job) if number), key=lambda row: int(row[0][2:]))


def paper_pdf(
    template: str, job: Job, words: PaperWords, title: str, paper: str, *, across: bool = False, **data: object
) -> bytes:
    """One paper as PDF, upright or ``across``: a template filled with its data, with the common head and foot."""
    if paper not in PAPERS:
        raise UsageError(f"There is no paper {paper}.", where="--paper", do=f"Use one of: {', '.join(PAPERS)}.")
    width, height = PAPERS[paper][:: -1 if across else 1]
    sheets = [sheet_name(sheet, words) for sheet in schedule_sheets(job)]
    before, between, after = words.first("sheet_page", n="|", of="|").split("|")
    head = {
        "title": title,
        "page_words": (before, between, after),
        "job": words.first("job", job=cut(job_name(job), 40)),
        "digest": words.first("file", digest=job.plan_set.sha256[:8]),
        "file": cut(job.plan_set.file, 50),
        "sheets": "; ".join(sheets[:6]) + (f"; +{len(sheets) - 6}" if len(sheets) > 6 else "") or words.first("no_sheet"),
        "mixed": words.lines("mixed") if mixed(job) else (),
        "govern": " ".join(words.lines("govern")),
        "report": f"{GOVERN} {REPORT}",
    }
    spoken_by = {"language": words.spoken[0], "both": words.both, "say": words.say, "lines": words.lines}
    text = page.html(template, width=width, height=height, **head, **spoken_by, **data)
    return page.pdf(text, "papers.css")
