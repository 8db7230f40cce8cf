"""The legend card and the why card: what this job's plans use, in words that the plans' own legend may overrule."""

import pytest

from cards.abbreviations import KNOWN, unknown, used
from cards.legend import entries, legend_pdf
from cards.papers import spoken
from cards.why import why_pdf
from extractor.record import HoldDown, Job, PlanMark
from tests.cards.making import finding, full_wall, job, pages, read, spoiled, text, wall
from tests.cards.seeing import faults

EN = spoken("en")


@pytest.mark.parametrize(
    ("printed", "short", "meaning", "source"),
    [
        ('8d COM @ 6" E.N.', "E.N.", "edge nailing", "common practice"),
        ("10d AT 12 F.N.", "F.N.", "field nailing", "common practice"),
        ('5/8Ø A.B. @ 32"', "A.B.", "anchor bolt", "common practice"),
        ("5/8\" A.B.'S", "A.B.", "anchor bolt", "common practice"),
        ("5/8Ø A.B.", "DIA. or Ø", "diameter", "common practice"),
        ("15/32 W.S.P.", "W.S.P.", "wood structural panel", "common practice"),
        ("15/32 WSP", "W.S.P.", "wood structural panel", "common practice"),
        ('6" O.C.', "O.C.", "on center", "common practice"),
        ('6" O/C', "O.C.", "on center", "common practice"),
        ("BLK’D", "BLKD", "blocked", "common practice"),
        ("16d COMMON", "8d, 10d", "penny: a nail's size by name", "common practice"),
        ("STRUCT. I PLYWD.", "STR. I", "Structural 1 (panel grade)", "common practice"),
        ("STRUCT. I PLYWD.", "PLYWD", "plywood", "common practice"),
    ],
)
def test_an_abbreviation_is_found_and_explained(printed: str, short: str, meaning: str, source: str) -> None:
    assert {short: meaning}.items() <= {one: said for one, (said, _) in used([printed])}.items(), source


@pytest.mark.parametrize(
    ("printed", "short", "source"),
    [
        ("COMMON", "COM.", "a whole word is no abbreviation"),
        ("FEND", "E.N.", "letters inside a word"),
        ("PLATE", "PL", "letters inside a word"),
        ("KT-22", "8d, 10d", "a model"),
        ("EDGES", "E.S.", "letters inside a word"),
        ("TABLE", "A.B.", "letters inside a word"),
    ],
)
def test_a_word_is_not_taken_for_an_abbreviation(printed: str, short: str, source: str) -> None:
    assert short not in {one for one, _ in used([printed])}, source


def test_an_abbreviation_that_nobody_knows_sends_the_reader_to_the_plans() -> None:
    assert unknown(['Q.X.Z. AT EACH END, 6" O.C.']) == ["Q.X.Z."]
    marks, signs = entries(job(wall(other=(read("Q.X.Z. AT END"),))), EN)
    assert ("Q.X.Z.", "not in our list: see the plans' legend") in {(one.short, one.meaning) for one in signs}
    assert marks


def test_every_known_abbreviation_finds_itself() -> None:
    """But for signs that stand for two: the list prints them both."""
    for one in KNOWN:
        assert one.pattern.search(one.short.split(" or ")[0]), one.short


def legend(sets: Job) -> dict[str, str]:
    return {one.short: one.meaning for group in entries(sets, EN) for one in group}


def test_marks_of_this_job_are_explained() -> None:
    made = legend(job(wall("SW1"), wall("SW4")))
    assert made["SW1, SW4"] == "wall type: see its card"
    assert made["HD2"] == "hold-down KT-22"


def test_a_mark_without_a_row_asks() -> None:
    lone = (PlanMark(mark="SW7", kind="wall", page=2, sheet="S2.1", boxes=((0, 0, 1, 1),)),
            PlanMark(mark="HD9", kind="hold-down", page=2, sheet="S2.1", boxes=((0, 0, 1, 1),)))  # fmt: skip
    made = legend(job(wall("SW1"), drawn=lone, findings=(finding(None, "SW7", code="undefined-mark"),
                                                         finding(None, "HD9", code="undefined-hold-down"))))  # fmt: skip
    assert made["SW7"] == "WALL MARK, NOT IN SCHEDULE - ASK (Q-01)"
    assert made["HD9"] == "hold-down: NO ROW IN A HOLD-DOWN TABLE - ASK (Q-02)"


WORDY = read("W/ 2x P.T. SILL, 5/8Ø A.B., W.S.P., E.N., F.N., B.N., TYP. U.N.O., GALV. EA. SIM.")
MANY = job(
    *(wall(f"SW{n}", other=(WORDY,)) for n in range(60)),
    holds=tuple(HoldDown(mark=read(f"HD{n}"), model=read(f"KT-{n}")) for n in range(40)),
)


@pytest.mark.parametrize(
    ("sets", "language", "size"),
    [(job(full_wall()), "en", "3x5"), (job(full_wall()), "en+es", "3x5"), (MANY, "en+es", "3x5"), (MANY, "es", "4x6")],
    ids=["one type", "both languages", "sixty types", "a larger card"],
)
def test_nothing_overlaps_and_nothing_is_lost(sets: Job, language: str, size: str) -> None:
    made = legend_pdf(sets, size=size, language=language, layout="single")
    assert [faults(page) for page in pages(made)] == [[]] * len(list(pages(made)))
    printed = set(" ".join(text(page) for page in pages(made)).replace(",", " ").split())
    for group in entries(sets, spoken(language)):
        assert all(set(one.short.replace(",", " ").split()) <= printed for one in group)


@pytest.mark.parametrize(("size", "language"), [("3x5", "en"), ("3x5", "es"), ("3x5", "en+es"), ("4x6", "es")])
def test_why_card_fits(size: str, language: str) -> None:
    [page] = pages(why_pdf(job(wall()), size=size, language=language, layout="single"))
    assert faults(page) == []


def test_why_card_names_the_three_ways_and_the_parts_against_each() -> None:
    words = text(next(pages(why_pdf(job(wall())))))
    for said in ("RACKING", "SLIDING", "TIPPING", "panel + nails", "bolts + plate", "hold-down + post", "Stop and ask."):
        assert said in words


def test_every_page_says_whose_it_is_and_that_the_plans_govern() -> None:
    for made in (legend_pdf(spoiled()), why_pdf(spoiled())):
        for page in pages(made):
            for said in (
                "kestrel-lot-7",
                "c0ffee12",
                "S3.1 REV 2, 12 May 2026",
                "page 1 of 1",
                "Approved plans and the engineer govern",
            ):
                assert said in text(page)
    assert "The plans' own legend governs." in text(next(pages(legend_pdf(spoiled()))))


def test_same_job_same_bytes() -> None:
    assert legend_pdf(spoiled()) == legend_pdf(spoiled())
    assert why_pdf(spoiled()) == why_pdf(spoiled())
