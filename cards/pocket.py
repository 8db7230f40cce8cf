"""A job -> its pocket cards as one PDF: a card for each wall type, front and back, laid out on sheets with check bars."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Literal, get_args

from cards import page
from cards.back import Back, back
from cards.drawing import bar, stripes
from cards.face import Face, faces, mixed
from cards.fit import paragraph, width_pt
from cards.front import Front, Words, front, job_name, one_line, plan_revision
from cards.rows import STYLES
from cards.sheet import SheetPlan, Size, on_paper, plans, size_named
from cards.words import LANGUAGES, Language
from cards.words import Words as Spoken
from extractor.errors import UsageError
from extractor.record import Job

Issue = Literal["issue", "draft", "all"]


@dataclass(frozen=True)
class Card:
    """Both sides of one card; a tag has no back."""

    front: Front
    back: Back | None


def cards_pdf(
    job: Job, *, size: str = "3x5", layout: str = "fold", paper: str = "letter", language: str = "en", issue: str = "all"
) -> bytes:
    """The cards of ``job``: those ready to ``issue``, the ``draft`` ones that are on hold, or ``all``.

    A card keeps its number among all wall types, so a card on hold leaves a gap. The same job gives the same bytes.
    """
    spoken = _language(language)
    if issue not in get_args(Issue):
        raise UsageError(f"There is no issue {issue}.", where="issue", do=f"Use one of: {', '.join(get_args(Issue))}.")
    card_size = on_paper(size_named(size), paper)
    every = faces(job, spoken)
    chosen = [(n, one) for n, one in enumerate(every, 1) if issue == "all" or one.hold == (issue == "draft")]
    sheets = plans(len(chosen), card_size, paper, layout)
    words, tag, band = Spoken(spoken), card_size.kind == "tag", STYLES[card_size.kind].band * card_size.scale
    places = [words.say("sheet_page", n=n, of=len(sheets)) for n, sheet in enumerate(sheets, 1) for _ in range(2)] if tag else []
    made = [_card(one, job, card_size, n, len(every), place) for (n, one), place in
            zip(chosen, places or [""] * len(chosen), strict=False)]  # fmt: skip
    heads = [() if tag and made else _head(job, every, sheet, words, n, len(sheets), layout) for n, sheet in enumerate(sheets, 1)]
    text = page.html(
        "cards.html", title=job_name(job), language=words.spoken[0], width=sheets[0].width, height=sheets[0].height,
        cards=made, sheets=list(zip(sheets, heads, strict=True)), size=card_size, empty=None if made else words.say("no_cards"),
        bars=() if tag and made else ((words.say("bar_in"), bar(4.0)), (words.say("bar_mm"), bar(100 / 25.4))),
        bar_warning=words.say("bar_warning"),
        hatch=lambda run: stripes(7, run.inner, 3.5), band_height=band,
        stripes=stripes((card_size.width - 2 * card_size.margin) * 72, band),
    )  # fmt: skip
    with _uncollected():
        return page.pdf(text, "cards.css")


@contextmanager
def _uncollected() -> Iterator[None]:
    """Inside, nothing is searched for garbage: laying out makes millions of objects that all stay, and each search sees them all.

    Without it the time for many cards grows faster than their number.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _language(name: str) -> Language:
    for language in LANGUAGES:
        if language == name:
            return language
    raise UsageError(f"There is no language {name}.", where="--language", do=f"Use one of: {', '.join(LANGUAGES)}.")


def _card(one: Face, job: Job, size: Size, number: int, of: int, place: str) -> Card:
    behind = None if size.kind == "tag" else back(one, job, size, number, of)
    return Card(front(one, job, size, number, of, place), behind)


def _head(
    job: Job, every: tuple[Face, ...], sheet: SheetPlan, words: Spoken, number: int, of: int, layout: str
) -> tuple[Words, ...]:
    """The strip at the top of a page: job, file and digest, the schedule's sheets with revision and date, page, what to do."""
    left, width = 36.0, sheet.width * 72 - 72
    revisions = dict.fromkeys(f"{one.sheet.number or ''} {plan_revision(one)}".strip() for one in every if one.sheet)
    first = f"{job_name(job)} · {words.first('file', digest=job.plan_set.sha256[:8])}"
    place = words.say("sheet_page", n=number, of=of)
    warned = mixed(job)
    second = "; ".join(revisions) or job.plan_set.file
    second = words.say("mixed", sheets=second) if warned else second
    side = width_pt(place, 10, True) + 10
    spanish = words.first("bilingual") if "es" in words.spoken else ""
    noted = width_pt(spanish, 8) + 10 * bool(spanish)
    how = words.say(f"sheet_{layout}")
    lines = paragraph(how, width, 8)
    return (
        replace(one_line(first, width - side, 11, 8, True), left=left, top=16.5),
        Words(left, 16.5, width, 10, (place,), True, "right"),
        replace(one_line(second, width - noted, 8.5, 7, warned), left=left, top=29),
        Words(left, 29, width, 8, (spanish,), False, "right"),
        Words(left, 39, width, 8 if len(lines) == 1 else 7.5, lines if len(lines) == 1 else paragraph(how, width, 7.5)),
    )
