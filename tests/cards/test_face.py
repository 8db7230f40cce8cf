import pytest

from cards.face import face, faces
from cards.values import Shown
from extractor.record import (
    Anchors,
    Capacity,
    EdgeNailing,
    Fastener,
    FieldNailing,
    Framing,
    HoldDown,
    PlanMark,
    Sheathing,
    State,
    WallHoldDowns,
)
from tests.cards.making import HOLD_DOWN, answered, conflict, finding, from_note, job, nail, read, silent, wall

RANKED = "common practice, no source: never a blank, never two states alike"


@pytest.mark.parametrize(
    ("reading", "shown", "words", "source"),
    [
        (read(4.0), Shown.READ, '4" o.c.', RANKED),
        (from_note(4.0), Shown.NOTE, '4" o.c. (note, S-001)', RANKED),
        (answered(4.0, "RFI 3, 12 May"), Shown.ANSWERED, '4" o.c. (ANSWER: RFI 3, 12 May)', RANKED),
        (None, Shown.MISSING, "EDGE SPACING NOT ON PLANS - ASK (Q-01)", RANKED),
        (silent(State.UNREADABLE, '4?"'), Shown.UNREADABLE, "CAN'T READ - SEE S3.1 row 1 (Q-01)", RANKED),
        (conflict(4.0, 6.0), Shown.CONFLICT, '4" (S3.1) | 6" (note, S-001) CONFLICT - ASK (Q-01)', RANKED),
        (silent(State.NONE, "-"), Shown.NONE, "NONE (per plans)", RANKED),
        (silent(State.DEFERRED, "SEE 5/S4"), Shown.DEFERRED, "SEE: “SEE 5/S4”", RANKED),
    ],
)
def test_each_state_says_what_it_is(reading, shown, words, source):
    asked = () if shown in (Shown.READ, Shown.NOTE, Shown.ANSWERED) else (finding("edge.spacing_in"),)
    one = wall(edge=EdgeNailing(spacing_in=reading))
    value = face(one, job(one, findings=asked)).value("edge.spacing_in")
    assert (value.shown, value.words.removeprefix("EDGE SPACING ")) == (shown, words.removeprefix("EDGE SPACING "))
    assert value.readings == ((reading,) if reading else ())


@pytest.mark.parametrize(
    ("fastener", "line", "source"),
    [
        (nail(), '2-1/2" × 0.131"   8d common', "NDS-2018 Table L4, 8d common as printed"),
        (nail(length_in=None, diameter_in=None), "8d common SIZE NOT ON PLANS - ASK", "penny size alone is not a nail"),
        (nail(length_in=None, diameter_in=None, style=None), "8d KIND, SIZE NOT ON PLANS - ASK", "penny alone is no nail"),
        (nail(length_in=None), '0.131" thick   8d common LENGTH NOT ON PLANS - ASK', "never filled from a table"),
        (nail(diameter_in=None), '2-1/2" long   8d common DIAMETER NOT ON PLANS - ASK', "never filled from a table"),
        (Fastener(kind=read("staple"), gauge=read(16), length_in=read(1.5)), '16 ga × 1-1/2"', "IBC-2009 staples by gauge"),
        (Fastener(), "NOT ON PLANS - ASK", "never a blank"),
    ],
)
def test_nail_as_the_plans_give_it_and_no_more(fastener, line, source):
    one = wall(fastener=fastener)
    assert face(one, job(one)).lines[0].words == line


@pytest.mark.parametrize(
    ("parts", "key", "line", "source"),
    [
        ({}, "sheathing", '15/32" OSB, rated sheathing, ONE side', "fractions as fractions"),
        ({"sheathing": Sheathing(thickness_in=read(7 / 16), material=read("plywood"), faces=read(2))}, "sheathing",
         '7/16" plywood, BOTH sides', "both sides is never left to a guess"),
        ({"sheathing": Sheathing(thickness_in=read(7 / 16))}, "sheathing", '7/16" PANEL KIND, SIDES NOT ON PLANS - ASK',
         "no side is assumed"),
        ({"framing": Framing(blocked=read(False), panel_edge=read("3x or 2-2x"))}, "block", "NOT BLOCKED (per plans)", "said so"),
        ({"framing": Framing(panel_edge=read("3x or 2-2x"))}, "joint", "3x or two 2x stitched", "SDPWS-2008 4.3.7.1 names both"),
        ({"framing": Framing(panel_edge=read("3x"))}, "block", "NOT ON PLANS - ASK", "never a blank"),
        ({}, "hold_down", "HD2, KT-22, post (2) 2x6", "mark, then model and post of the hold-down table"),
        ({"hold_down": WallHoldDowns(marks=read(("HD2", "HD9")))}, "hold_down",
         "HD2, HD9; HD2 KT-22, post (2) 2x6 HD9 NOT IN HOLD-DOWN TABLE - ASK", "a mark without a row is asked about"),
        ({"hold_down": WallHoldDowns()}, "hold_down", "NOT ON PLANS - ASK", "never a blank"),
        ({}, "sill", '2x plate, 5/8" anchor bolts @ 32" o.c., 3" × 3" × 0.229" washer', "plate washer, IBC-2006 2305.3.11"),
        ({"anchors": Anchors()}, "sill", "2x plate BOLT SIZE, BOLT SPACING NOT ON PLANS - ASK", "never a blank"),
    ],
)  # fmt: skip
def test_lines(parts, key, line, source):
    one = wall(**parts)
    assert face(one, job(one)).line(key).words == line


def test_hold_downs_that_only_the_plans_mark_are_looked_up_there():
    one = wall(hold_down=WallHoldDowns())
    drawn = (PlanMark(mark="HD-A", kind="hold-down", page=2, sheet="S2.0", boxes=((0, 0, 9, 9),)),)
    line = face(one, job(one, drawn=drawn)).line("hold_down")
    assert line.words == "SEE PLANS: HD-A drawn on S2.0"
    assert not line.bad


def test_a_hold_down_row_without_a_post_asks_for_it():
    one = wall()
    row = HoldDown(mark=read("HD2"), model=read("KT-22"))
    asked = (finding("post", "HD2", "ask"),)
    assert face(one, job(one, holds=(row,), findings=asked)).line("hold_down").words.endswith("POST NOT ON PLANS - ASK (Q-01)")


SW9 = "SW9 is drawn on sheet S2.0 and is not in the schedule. Ask the engineer."
HD9 = "Hold-down HD2 is drawn on sheet S2.0 and is not in the hold-down schedule. Ask the engineer."


@pytest.mark.parametrize(
    ("findings", "reasons", "source"),
    [
        ((), (), "nothing open"),
        ((finding("edge.spacing_in"),), ("Q-01",), "stop of this wall"),
        ((finding("framing.panel_edge"),), ("Q-01",), "a stop says don't build it yet, whatever its field"),
        ((finding("framing.blocked", level="ask"),), (), "an ask does not hold"),
        ((finding("x", level="note"), finding("edge.spacing_in")), ("Q-01",), "notes are not numbered"),
        ((finding("edge.spacing_in", "SW5"),), (), "another wall's"),
        ((finding(None, None, code="schedule-twice", message="Two schedules differ."),), ("Q-01",), "schedule-wide stop"),
        ((finding("edge.rows", None),), ("Q-01",), "schedule-wide stop on a field this wall lacks"),
        ((finding("edge.spacing_in", None),), (), "schedule-wide stop on a field this wall has"),
        ((finding(None, "SW9", code="undefined-mark", message=SW9),), (), "a mark that is not this wall's"),
        ((finding(None, None, code="undefined-mark", message=SW9),), (), "a mark that is not this wall's"),
        ((finding(None, "HD2", code="undefined-hold-down", message=HD9),), ("Q-01",), "this wall's hold-down"),
        ((finding("post", None, code="hold-down-value", message="HD2 has no post."),), ("Q-01",), "this wall's hold-down"),
    ],
)
def test_what_holds_a_card(findings, reasons, source):
    one = wall()
    made = face(one, job(one, wall("SW5"), findings=findings))
    assert (made.hold, made.reasons) == (bool(reasons), reasons)


@pytest.mark.parametrize(
    ("parts", "holds", "source"),
    [
        ({"edge": EdgeNailing()}, True, "no edge spacing"),
        ({"field": FieldNailing()}, True, "no field spacing"),
        ({"fastener": Fastener()}, True, "no nail"),
        ({"sheathing": Sheathing(material=read("osb"), faces=read(1))}, True, "no thickness"),
        ({"hold_down": WallHoldDowns(marks=conflict(("HD2",), ("HD4",)))}, True, "two hold-downs"),
        ({"fastener": nail(diameter_in=silent(State.UNREADABLE, "0.1?"))}, True, "shank not readable"),
        ({"fastener": nail(length_in=None, diameter_in=None)}, False, "asked, and left to the level of the finding"),
        ({"framing": Framing()}, False, "asked"),
    ],
)
def test_a_bad_value_in_a_main_line_holds_the_card_even_without_a_finding(parts, holds, source):
    one = wall(**parts)
    assert face(one, job(one)).hold is holds


@pytest.mark.parametrize(
    ("mark", "message", "touched", "source"),
    [
        ("A", "A hold-down is missing on sheet S2.0.", False, "the article is not the mark"),
        ("A", "Type A is drawn twice.", True, "named"),
        ("SW1", "SW12 is drawn once.", False, "a longer mark"),
        ("SW1", "SW1 is drawn once.", True, "named"),
    ],
)
def test_a_finding_that_names_a_mark_touches_that_mark_only(mark, message, touched, source):
    one = wall(mark)
    made = face(one, job(one, findings=(finding(None, None, "ask", "unused-mark", message),)))
    assert bool(made.questions) is touched


def test_what_the_plans_leave_open_and_the_front_does_not_ask_stands_on_the_back():
    one = wall(sheathing=Sheathing(thickness_in=read(15 / 32), material=read("osb"), faces=read(1)))
    assert face(one, job(one)).not_given == ("sheathing.grade", "bottom_plate.penny", "top_plate.connector")


def test_the_back_has_the_hold_downs_fasteners_and_anchor():
    one = wall()
    words = [f"{line.label[0]}: {line.words}" for line in face(one, job(one)).details]
    assert words == ['HD2: fasteners (16) 1/4 x 3 SCREWS, anchor 5/8", embed 12"', 'SILL: embed 7" (note, S-001)']


def test_capacity_stays_off_the_face():
    one = wall().model_copy(update={"capacity": read((Capacity(plf=read(380.0)),))})
    made = face(one, job(one))
    assert "380" not in " ".join(line.words for line in (*made.lines, *made.details))
    assert HOLD_DOWN.capacity_lb.as_printed not in " ".join(line.words for line in made.details)


@pytest.mark.parametrize(
    ("language", "words", "source"),
    [
        ("en", "SIDES NOT ON PLANS - ASK (Q-01)", "words list"),
        ("es", "CARAS NO ESTÁ EN LOS PLANOS - PREGUNTE (P-01)", "words list, accents set"),
        ("en+es", "SIDES NOT ON PLANS - ASK (Q-01) / CARAS NO ESTÁ EN LOS PLANOS - PREGUNTE (P-01)", "English first"),
    ],
)
def test_languages(language, words, source):
    one = wall(sheathing=Sheathing(thickness_in=read(15 / 32), material=read("osb")))
    made = face(one, job(one, findings=(finding("sheathing.faces", level="ask"),)), language)
    assert made.value("sheathing.faces").words == words


def test_faces_come_in_the_schedules_order():
    assert [one.mark for one in faces(job(wall("SW2"), wall("SW1"), wall("A")))] == ["SW2", "SW1", "A"]
