"""One page: what is open first, what was read, and what was not."""

import pytest

from cards.completeness import told
from cards.summary import exceptions, facts, headline, summary_pdf, unread
from extractor.record import (
    Basis,
    Capacity,
    Coverage,
    Fastener,
    FieldNailing,
    Finding,
    Job,
    PlanMark,
    SheetRecord,
    Source,
    State,
    UnreadBlock,
    UnusedWords,
    WallHoldDowns,
)
from tests.cards.making import HOLD_DOWN, PLACE, conflict, finding, job, pages, read, silent, spoiled, text, wall
from tests.cards.seeing import faults

POUR, ORDER, NAIL = finding("anchors.spacing_in"), finding("fastener.penny"), finding("edge.spacing_in")


def drawn(mark: str, kind: str = "wall", sheet: str = "S2.1", count: int = 1) -> PlanMark:
    return PlanMark(mark=mark, kind=kind, page=2, sheet=sheet, boxes=((0, 0, 1, 1),) * count)  # type: ignore[arg-type]


def answers(sets: Job) -> dict[str, tuple[str, str]]:
    return {one.what: (one.answer, one.why) for one in told(sets)}


@pytest.mark.parametrize(
    ("findings", "line", "source"),
    [
        ((), "No open question. That is not an approval.", "common practice: silence is not a yes"),
        ((POUR,), "1 open question, 1 stops the pour.", "the foreman's question in five seconds"),
        (
            (POUR, ORDER, NAIL),
            "3 open questions, 1 stops the pour, 1 the order, 1 nailing.",
            "the foreman's question in five seconds",
        ),
        ((NAIL, NAIL, finding("post", level="ask")), "3 open questions, 2 stop nailing.", "asks are counted, stops are named"),
        ((finding("post", level="ask"),), "1 open question, none says STOP.", "asks are counted, stops are named"),
    ],
)
def test_what_is_open_in_one_breath(findings: tuple[Finding, ...], line: str, source: str) -> None:
    assert headline(job(wall(), findings=findings)) == line, source


def test_exceptions_come_worst_first_and_then_by_the_step_they_hold() -> None:
    rows = exceptions(job(wall(), findings=(finding("post", level="ask"), NAIL, finding("capacity", level="note"), POUR)))
    assert [(row.level, row.before) for row in rows] == [
        ("STOP", "the pour"),
        ("STOP", "nailing"),
        ("ASK", "the pour"),
        ("NOTE", ""),
    ]


def test_a_type_with_a_question_or_a_gap_is_not_complete() -> None:
    sets = job(wall("SW1"), wall("SW2", field=FieldNailing()), wall("SW3"), findings=(finding("edge.rows", "SW3", "ask"),))
    assert (
        "3 found (SW1; SW2; SW3); 1 complete without a question; 1 with questions; 1 on HOLD" in dict(facts(sets))["Wall types"]
    )


def test_marks_are_matched_with_rows() -> None:
    sets = job(wall("SW1"), drawn=(drawn("SW1", count=3), drawn("SW7"), drawn("SW1", sheet="S2.2")))
    assert dict(facts(sets))["Wall marks drawn"] == "2 different, 1 with a row (S2.1: 4, S2.2: 1)"
    assert dict(facts(sets))["Hold-down marks drawn"] == "none found"


def test_schedule_sheets_of_two_revisions_carry_a_warning() -> None:
    plain = job(wall("SW1"))
    late = wall("SW2").model_copy(
        update={"mark": read("SW2").model_copy(update={"source": Source(page=5, sheet="S3.2", box=PLACE.box)})}
    )
    two = plain.model_copy(update={
        "wall_types": (wall("SW1"), late),
        "sheets": (*plain.sheets, SheetRecord(page=5, number="S3.2", revision="1", date="2026-03-01")),
    })  # fmt: skip
    warning = "do not have the same revision and date"
    assert warning in text(next(pages(summary_pdf(two))))
    assert warning not in text(next(pages(summary_pdf(plain))))


def test_what_was_not_read_is_said() -> None:
    seen = Coverage(
        pages_read=(1, 2, 4), sheets_without_text=(4,), words_not_used=(UnusedWords(as_printed="SEE ARCH", source=PLACE),),
        blocks_not_read=(UnreadBlock(title="STRAP SCHEDULE", why="no rows were found", source=PLACE),),
    )  # fmt: skip
    lines = " ".join(unread(job(wall()).model_copy(update={"coverage": seen})))
    for words in ("Looked through: pages 1-2, 4 of 9.", "Not looked through: pages 3, 5-9.", "nothing read: page 4",
                  "“STRAP SCHEDULE”, S3.1: no rows were found", "1. “SEE ARCH”"):  # fmt: skip
        assert words in lines


ONE, BLANK = wall("SW1"), wall("SW2", field=FieldNailing())
DOUBTED = wall("SW1", field=FieldNailing(spacing_in=conflict(6.0, 12.0)))
UNREAD = wall("SW1", field=FieldNailing(spacing_in=silent(State.UNREADABLE, "1?")))
HOLDS_NONE = wall("SW1", hold_down=WallHoldDowns(marks=silent(State.NONE, "-")))
STAPLED = wall("SW1", fastener=Fastener(kind=read("staple"), gauge=read(16), length_in=read(1.5)))


@pytest.mark.parametrize(
    ("sets", "what", "answer", "source"),
    [
        (job(ONE, drawn=(drawn("SW1"),)), "Every wall mark has a row", ("YES", ""), "marks and rows both ways"),
        (job(ONE, drawn=(drawn("SW-1"),)), "Every wall mark has a row", ("YES", ""), "SW-1 and SW1 are one to a reader"),
        (job(ONE, drawn=(drawn("SW7"),)), "Every wall mark has a row", ("NO", "no row: SW7"), "marks and rows both ways"),
        (job(ONE), "Every wall mark has a row", ("NOT FOUND", ""), "no mark found is not a yes"),
        (job(ONE, drawn=(drawn("SW7"),)), "Every row is drawn", ("NO", "not drawn: SW1"), "marks and rows both ways"),
        (job(ONE), "Every hold-down has a row", ("YES", ""), "HD2 is named and has a row"),
        (job(ONE, holds=()), "Every hold-down has a row", ("NO", "no row: HD2"), "HD2 is named and has none"),
        (job(ONE, BLANK), "Edge and field nailing", ("NO", "not for: SW2"), "both are needed"),
        (job(DOUBTED), "Edge and field nailing", ("NO", "not for: SW1"), "two values are no value"),
        (job(UNREAD), "Edge and field nailing", ("NO", "not for: SW1"), "what cannot be read is not told"),
        (job(HOLDS_NONE), "Hold-downs", ("YES", ""), "none is an answer"),
        (job(STAPLED), "Nail length and diameter", ("YES", ""), "a staple is named by gauge and length"),
        (job(ONE), "Sill nailing on upper floors", ("NOT FOUND", ""), "not found is not none"),
        (job(ONE, holds=(HOLD_DOWN,)), "Hold-down anchor and embedment", ("YES", ""), "in the table"),
        (
            job(wall("SW1", capacity=read((Capacity(plf=read(380.0)),)))),
            "Basis of capacities",
            ("NO", "load or method open: SW1"),
            "380, 532 and 760 can be one wall",
        ),
        (job(ONE), "Code edition", ("NOT FOUND", ""), "no note names a code with its year"),
        (
            job(ONE).model_copy(update={"basis": Basis(codes=(read("IBC-2018"),))}),
            "Code edition",
            ("YES", "IBC-2018"),
            "a note names the code with its year",
        ),
        (job(ONE), "Perforated or force-transfer walls named", ("LOOK YOURSELF", ""), "not looked for is never a yes"),
    ],
)
def test_what_the_plans_tell(sets: Job, what: str, answer: tuple[str, str], source: str) -> None:
    assert answers(sets)[what] == answer, source


def test_the_page_is_one_page_however_much_is_open() -> None:
    long = "SW1: " + "the plans conflict about a value that has a long name and stands in many places, " * 6
    many = tuple(wall(f"SW-{n}A") for n in range(60))
    sets = job(
        *many,
        findings=tuple(finding("edge.spacing_in", f"SW-{n}A", message=long) for n in range(60)),
        drawn=tuple(drawn(f"X{n}", sheet=f"S{n}.1") for n in range(40)),
        file="a-file-name-without-an-end-" * 8 + ".pdf",
    )
    seen = Coverage(
        pages_read=tuple(range(1, 9, 2)),
        blocks_not_read=(UnreadBlock(title=long, why=long, source=PLACE),) * 9,
        words_not_used=(UnusedWords(as_printed=long, source=PLACE),) * 90,
    )
    [page] = pages(summary_pdf(sets.model_copy(update={"coverage": seen})))
    words = text(page)
    assert faults(page) == []
    assert "60 open questions, 60 stop nailing." in words
    assert "STOP more: see findings.txt and the questions." in words


def test_three_numbers_and_who_governs() -> None:
    words = text(next(pages(summary_pdf(spoiled()))))
    for said in ("4 2 0 STOP ASK NOTE", "Job kestrel-lot-7", "file c0ffee12", "page 1 of 1", "not an approval",
                 "The approved plans and the engineer of record govern."):  # fmt: skip
        assert said in words


def test_same_job_same_bytes() -> None:
    assert summary_pdf(spoiled()) == summary_pdf(spoiled())
