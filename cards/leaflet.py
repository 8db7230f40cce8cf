"""Handy cards that hold words and drawings of no single wall type: both sides, laid out on sheets like the pocket cards."""

from collections.abc import Sequence
from dataclasses import dataclass

from cards import page
from cards.face import schedule_sheets
from cards.fit import LEADING, paragraph, width_pt
from cards.front import Words
from cards.papers import job_name, sheet_name
from cards.paperwords import PaperWords
from cards.sheet import SheetPlan, Size, plans
from extractor.record import Job

TITLE, FOOT = 17.0, 8.0
HEAD = 26.0  # points from the top of a side to its first entry


@dataclass(frozen=True)
class Drawing:
    """A line drawing at a place."""

    left: float
    top: float
    svg: str


@dataclass(frozen=True)
class Side:
    """One side of a card, inside its margins."""

    words: tuple[Words, ...]
    drawings: tuple[Drawing, ...] = ()


def inside(size: Size) -> tuple[float, float]:
    """Width and height of a side in points, inside its margins."""
    return (size.width - 2 * size.margin) * 72, (size.height - 2 * size.margin) * 72


def title_and_foot(job: Job, size: Size, title: str, under: str, foot: str) -> tuple[tuple[Words, ...], float, float]:
    """Words for the top and the bottom of a side, and where the room between them begins and ends."""
    k, (width, height) = size.scale, inside(size)
    left = (size.hole - size.margin) * 72 + 4 * k
    right = f"{job_name(job)} · {job.plan_set.sha256[:8]}"
    room = width - left - width_pt(title, TITLE * k, True) - 8 * k
    lines = paragraph(foot, width, FOOT * k)
    top = height - len(lines) * FOOT * k * LEADING
    return (
        Words(left, 0, width - left, TITLE * k, (title,), True),
        Words(width - room, 0, room, FOOT * k, paragraph(right, room, FOOT * k)[:1], False, "right"),
        Words(width - room, FOOT * k * LEADING, room, FOOT * k, paragraph(under, room, FOOT * k)[:1], True, "right"),
        Words(0, top, width, FOOT * k, lines),
    ), max(HEAD * k, left - 2), top - 2 * k  # fmt: skip


def leaflet_pdf(
    job: Job, words: PaperWords, title: str, cards: Sequence[tuple[Side, Side]], *, size: Size, layout: str, paper: str
) -> bytes:
    """Cards as PDF, front and back, with cut and fold lines."""
    sheets = plans(len(cards), size, paper, layout)
    heads = [_head(job, words, title, sheet, n, len(sheets), layout) for n, sheet in enumerate(sheets, 1)]
    text = page.html(
        "papers_cards.html", title=f"{title} - {job_name(job)}", language=words.spoken[0], width=sheets[0].width,
        height=sheets[0].height, cards=cards, sheets=list(zip(sheets, heads, strict=True)), size=size,
    )  # fmt: skip
    return page.pdf(text, "cards.css")


def _head(job: Job, words: PaperWords, title: str, sheet: SheetPlan, number: int, of: int, layout: str) -> tuple[Words, ...]:
    """The strips at the top and the bottom of a page: job, digest, sheets and dates, page, what to do, who governs."""
    left, width = 36.0, sheet.width * 72 - 72
    first = f"{title} · {job_name(job)} · {words.first('file', digest=job.plan_set.sha256[:8])}"
    sheets = "; ".join(sheet_name(one, words) for one in schedule_sheets(job)) or words.first("no_sheet")
    govern = paragraph(" ".join(words.lines("govern")), width, 8)
    return (
        Words(left, 18, width - 80, 11, paragraph(first, width - 80, 11, True)[:1], True),
        Words(left, 18, width, 10, (words.first("sheet_page", n=number, of=of),), True, "right"),
        Words(left, 32, width, 8.5, paragraph(sheets, width, 8.5)[:1]),
        Words(left, 43, width, 8, paragraph(words.first(f"sheet_{layout}"), width, 8)),
        Words(left, sheet.height * 72 - 30, width, 8, govern),
    )
