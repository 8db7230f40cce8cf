"""The engineer's written answers: what they may fill, what is refused, and that a card says who said it."""

import datetime
import json
import tomllib
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from cards import answers, cli, kept, packet
from cards.face import face
from extractor.answers import Answer, apply, key_of
from extractor.checks import check
from extractor.checks.hit import reading
from extractor.errors import Exit, UsageError
from extractor.record import Job, Level, Origin, State
from tests.checks.making import conflict, elsewhere, hold_down, job, unreadable, wall

DAY = datetime.date(2026, 5, 12)
RFI = "common practice: an answer counts when it is in writing and has a number"


def checked(*rows: Any, **more: Any) -> Job:
    """A job with its findings."""
    made = job(*rows, **more)
    return made.model_copy(update={"findings": check(made)})


def answer(plans: Job, finding: str, value: str, reference: str = "RFI 3") -> Answer:
    return Answer(finding=finding, value=value, reference=reference, date=DAY, by="kim", sha256=plans.plan_set.sha256,
                  file=plans.plan_set.file)  # fmt: skip


def write_job(folder: Path, plans: Job, name: str = "job.json") -> Path:
    path = folder / name
    path.write_text(plans.to_json(), encoding="utf-8")
    return path


SILENT = {"field.spacing_in": None}
NO_NAIL = {"fastener.style": None, "fastener.diameter_in": None, "fastener.length_in": None}


def test_an_answer_about_several_rows_fills_these_and_no_other() -> None:
    rows = [wall(f"A{n}", {"field.spacing_in": unreadable("I2")}) for n in range(3)]
    plans = checked(*rows, wall("B1", SILENT), wall("B2"))
    done = apply(plans, [answer(plans, "unreadable-value::field.spacing_in", '12" o.c.')])
    assert not done.refused
    filled = {one.mark.value: one.field.spacing_in for one in done.job.wall_types}
    assert [filled[f"A{n}"].value for n in range(3)] == [12.0] * 3
    assert filled["B1"] is None
    one = apply(plans, [answer(plans, "unreadable-value:A1:field.spacing_in", '6" o.c.')]).job
    assert [row.field.spacing_in.value for row in one.wall_types[:3]] == [None, 6.0, None]
    assert apply(plans, [answer(plans, "unreadable-value:B1:field.spacing_in", '6" o.c.')]).refused


@pytest.mark.parametrize(
    ("row", "code", "field", "words", "value", "source"),
    [
        (wall("SW4", SILENT), "missing-value", "field.spacing_in", '12" o.c.', 12.0, RFI),
        (wall("SW4", SILENT), "missing-value", "field.spacing_in", "12", 12.0, RFI),
        (wall("SW4", {"edge.spacing_in": unreadable("?")}), "unreadable-value", "edge.spacing_in", "4 in.", 4.0, RFI),
        (wall("SW4", {"edge.spacing_in": conflict(4.0, '4"', 6.0, '6"')}), "conflicting-value", "edge.spacing_in",
         '6" O.C.', 6.0, RFI),
        (wall("SW4", {"anchors.spacing_in": elsewhere("PER ENGINEER")}), "value-elsewhere", "anchors.spacing_in",
         '32" o.c.', 32.0, RFI),
        (wall("SW4", {"fastener.diameter_in": 0.113}), "nail-size-disagrees", "fastener.diameter_in", '0.131"', 0.131, RFI),
        (wall("SW4", {"hold_down.marks": unreadable("HD?")}), "unreadable-value", "hold_down.marks", "none", (), RFI),
        (wall("SW4", {"sheathing.faces": conflict(1, '1', 2, 'BOTH')}), "conflicting-value", "sheathing.faces",
         "both sides", 2, RFI),
    ],
)  # fmt: skip
def test_an_answer_gives_its_value_and_closes_the_question(
    row: Any, code: str, field: str, words: str, value: object, source: str
) -> None:
    plans = checked(row, wall("SW1"))
    key = f"{code}:SW4:{field}"
    assert key in [key_of(one) for one in plans.findings]
    done = apply(plans, [answer(plans, key, words)])
    assert done.refused == ()
    filled = reading(done.job.wall_types[0], field)
    assert filled is not None
    assert (filled.value, filled.origin) == (value, Origin.ANSWER)
    assert filled.as_printed == f"RFI 3, 12 May 2026 “{words}”"
    assert filled.source == next(one.source for one in plans.findings if key_of(one) == key)
    assert key not in [key_of(one) for one in done.job.findings]
    assert done.job.wall_types[1] == plans.wall_types[1]


@pytest.mark.parametrize(
    ("words", "says", "why"),
    [
        ("twelve or so", "not understood", "no number"),
        ('12" o.c. except at grid 3', "except at grid 3", "a value with a condition is not one value"),
        ("see detail 3/S5.1", "not understood", "sent elsewhere is no answer"),
        ("none", "not understood", "a wall without field nailing is no shear wall"),
        ('4" edge, 12" field', "more than|not understood", "two values for one question"),
        ("900", "not understood|out of range", "no spacing is 75 feet"),
        ("10d common", "not understood", "a nail for a spacing"),
    ],
)
def test_words_that_are_no_value_are_refused_and_change_nothing(words: str, says: str, why: str) -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    done = apply(plans, [answer(plans, "missing-value:SW4:field.spacing_in", words)])
    assert done.job == plans, why
    assert any(part in done.refused[0].why for part in says.split("|"))


def test_a_nail_is_answered_whole() -> None:
    plans = checked(wall("SW4", NO_NAIL), wall("SW1"))
    done = apply(plans, [answer(plans, "nail-not-fully-named:SW4:fastener.style", '8d common (0.131" x 2-1/2")')])
    nail = done.job.wall_types[0].fastener
    assert [one.value if one else None for one in (nail.style, nail.diameter_in, nail.length_in)] == ["common", 0.131, 2.5]


def test_an_answer_for_the_schedule_fills_each_silent_row_and_replaces_none() -> None:
    blank = {"framing.blocked": None}
    plans = checked(wall("SW1", blank), wall("SW2", blank))
    done = apply(plans, [answer(plans, "not-given-anywhere::framing.blocked", "blocked")])
    assert [one.framing.blocked.value for one in done.job.wall_types if one.framing.blocked] == [True, True]

    mixed = checked(wall("SW1", NO_NAIL), wall("SW2", NO_NAIL | {"fastener.penny": "10d"}))
    refused = apply(mixed, [answer(mixed, "nail-not-fully-named::fastener.style", "8d common")])
    assert refused.job == mixed, "a 10d row must not become 8d by an answer to all"
    assert "SW2 says “10d”" in refused.refused[0].why
    one = apply(mixed, [answer(mixed, "nail-not-fully-named:SW2:fastener.style", "10d common")])
    assert [w.fastener.style.value if w.fastener.style else None for w in one.job.wall_types] == [None, "common"]


def test_a_hold_down_is_answered_in_its_own_table() -> None:
    holds = (hold_down("HD1"), hold_down("HD2", {"anchor.embedment_in": None}), hold_down("HD3"))
    plans = checked(wall("SW1"), *holds)
    done = apply(plans, [answer(plans, "hold-down-value-missing:HD2:anchor.embedment_in", '14"')])
    found = [row.anchor.embedment_in.value for row in done.job.hold_downs if row.anchor.embedment_in]
    assert found == [12, 14.0, 12]


def test_a_rule_that_the_answer_does_not_meet_stays_as_a_note_that_quotes_it() -> None:
    plans = checked(wall("SW4", {"edge.spacing_in": 8}), wall("SW1"))
    key = next(key_of(one) for one in plans.findings if one.code == "edge-nailing-too-wide")
    done = apply(plans, [answer(plans, key, '8" o.c.')])
    note = next(one for one in done.job.findings if key_of(one) == key)
    assert note.level is Level.NOTE
    assert note.message.startswith('Answered in RFI 3, 12 May 2026: “8" o.c.”. The question was: ')


def test_words_answer_a_mark_without_a_row_and_never_two_rows_of_one_mark() -> None:
    plans = checked(wall("SW1"), wall("SW2", {"edge.spacing_in": 4}), wall("SW2"))
    stray = checked(wall("SW1")).model_copy(update={"plan_marks": job(wall("SW9")).plan_marks})
    stray = stray.model_copy(update={"findings": check(stray)})
    done = apply(stray, [answer(stray, "undefined-mark:SW9:", "SW9 is withdrawn")])
    assert next(one.level for one in done.job.findings if one.code == "undefined-mark") is Level.NOTE
    refused = apply(plans, [answer(plans, "duplicate-mark:SW2:", "the first row holds")])
    assert refused.job == plans
    assert "Words alone cannot settle this" in refused.refused[0].why


def test_the_card_prints_the_value_with_its_reference() -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    assert face(plans.wall_types[0], plans).hold
    done = apply(plans, [answer(plans, "missing-value:SW4:field.spacing_in", '12" o.c.')]).job
    line = face(done.wall_types[0], done).line("field")
    assert line is not None
    assert line.words == '12" o.c. (ANSWER: RFI 3, 12 May 2026)'
    assert not face(done.wall_types[0], done).hold


# --- the file beside the job ------------------------------------------------------------------------------------------


def test_an_answer_is_kept_beside_the_job_and_holds_from_then_on(tmp_path: Path) -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    path = write_job(tmp_path, plans)
    done = answers.enter(plans, path, "Q-01", '12" o.c.', "RFI 3", DAY, "kim")
    assert done.says[0] == 'SW4 field nailing spacing: 12" o.c. (RFI 3, 12 May 2026). The plans do not say.'
    (row,) = tomllib.loads((tmp_path / "answers.toml").read_text(encoding="utf-8"))["answer"]
    assert {name: row[name] for name in ("finding", "value", "reference", "date", "by", "sha256")} == {
        "finding": "missing-value:SW4:field.spacing_in", "value": '12" o.c.', "reference": "RFI 3", "date": DAY, "by": "kim",
        "sha256": plans.plan_set.sha256}  # fmt: skip
    again = answers.beside(plans, [path])
    assert again.job.wall_types[0].field.spacing_in == done.job.wall_types[0].field.spacing_in
    assert again.says == ("Answered: SW4 field nailing spacing (RFI 3, 12 May 2026).",)
    baked = answers.beside(again.job, [path])
    assert baked.job == again.job, "a record written with the answer in it stays as it is"


def test_what_does_not_fit_is_not_written(tmp_path: Path) -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    path = write_job(tmp_path, plans)
    with pytest.raises(UsageError, match="not understood"):
        answers.enter(plans, path, "Q-01", "about a foot", "RFI 3", DAY, "kim")
    with pytest.raises(UsageError, match="There is no question Q-77"):
        answers.enter(plans, path, "Q-77", '12"', "RFI 3", DAY, "kim")
    assert [one.name for one in tmp_path.iterdir()] == ["job.json"]


def test_a_second_answer_replaces_the_first_and_says_so(tmp_path: Path) -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    path = write_job(tmp_path, plans)
    answers.enter(plans, path, "Q-01", '12" o.c.', "RFI 3", DAY, "kim")
    done = answers.enter(plans, path, "missing-value:SW4:field.spacing_in", '6" o.c.', "RFI 9", DAY, "kim")
    assert 'Replaces the answer of RFI 3, 12 May 2026: “12" o.c.”.' in done.says
    assert len(answers.kept_in(tmp_path)) == 1
    spacing = done.job.wall_types[0].field.spacing_in
    assert spacing is not None
    assert spacing.value == 6.0


def test_a_new_plan_file_does_not_inherit_answers(tmp_path: Path) -> None:
    old = checked(wall("SW4", SILENT), wall("SW1"))
    path = write_job(tmp_path, old)
    answers.enter(old, path, "Q-01", '12" o.c.', "RFI 3", DAY, "kim")
    new = old.model_copy(update={"plan_set": old.plan_set.model_copy(update={"sha256": "f" * 64})})
    found = answers.beside(new, [path])
    assert found.job == new
    assert found.says[-1] == "  SW4 field nailing spacing (RFI 3, 12 May 2026), for plans.pdf, file 00000000."
    done = answers.confirm(new, path, None, "lee")
    spacing = done.job.wall_types[0].field.spacing_in
    assert spacing is not None
    assert (spacing.value, spacing.origin) == (12.0, Origin.ANSWER)
    assert [(one.sha256[0], one.by) for one in answers.kept_in(tmp_path)] == [("0", "kim"), ("f", "lee")]
    assert answers.beside(old, [path]).used[0].by == "kim", "the old file keeps its own"


def test_an_answer_that_the_new_plans_contradict_is_not_carried_over(tmp_path: Path) -> None:
    old = checked(wall("SW4", SILENT), wall("SW1"))
    path = write_job(tmp_path, old)
    answers.enter(old, path, "Q-01", '12" o.c.', "RFI 3", DAY, "kim")
    new = checked(wall("SW4", {"field.spacing_in": 6}), wall("SW1"))
    new = new.model_copy(update={"plan_set": new.plan_set.model_copy(update={"sha256": "f" * 64})})
    done = answers.confirm(new, path)
    assert done.job == new
    assert 'the plans now say “6” on sheet S3.1, page 3. The answer said “12" o.c.”.' in done.says[0]


@pytest.mark.parametrize(
    "text",
    ["not toml at all [", 'format = "nailcard.answers/2"\n', 'format = "nailcard.answers/1"\n[[answer]]\nvalue = "12"\n'],
    ids=["not TOML", "another format", "half an answer"],
)
def test_a_damaged_file_stops_the_run_instead_of_being_forgotten(tmp_path: Path, text: str) -> None:
    (tmp_path / "answers.toml").write_text(text)
    with pytest.raises(UsageError, match="This file is damaged"):
        answers.beside(checked(wall("SW1")), [tmp_path])


def test_two_folders_that_answer_one_question_differently(tmp_path: Path) -> None:
    plans = checked(wall("SW4", SILENT), wall("SW1"))
    for name, value in (("here", '12" o.c.'), ("there", '6" o.c.')):
        (tmp_path / name).mkdir()
        answers.enter(plans, write_job(tmp_path / name, plans), "Q-01", value, "RFI 3", DAY, "kim")
    with pytest.raises(UsageError, match="One question has two answers"):
        answers.beside(plans, [tmp_path / "here", tmp_path / "there"])


def test_two_people_entering_at_once_lose_nothing(tmp_path: Path) -> None:
    marks = [f"SW{n}" for n in range(1, 7)]
    plans = checked(*(wall(mark, SILENT) for mark in marks), wall("A1"), *(wall(f"B{n}") for n in range(9)))
    path = write_job(tmp_path, plans)

    def one(mark: str) -> None:
        answers.enter(plans, path, f"missing-value:{mark}:field.spacing_in", '12" o.c.', f"RFI {mark}", DAY, "kim")

    with ThreadPoolExecutor(6) as people:
        list(people.map(one, marks))
    assert sorted(row.reference for row in answers.kept_in(tmp_path)) == [f"RFI {mark}" for mark in marks]
    assert not list(tmp_path.glob(".nailcard*"))


def test_a_folder_that_another_run_holds_is_waited_for_and_then_named(tmp_path: Path) -> None:
    with kept.locked(tmp_path), pytest.raises(Exception, match="Another run is changing this folder"), \
            kept.locked(tmp_path, wait_s=0):  # fmt: skip
        pass


@pytest.mark.parametrize(
    ("text", "day"),
    [("2026-05-12", DAY), ("12 May 2026", DAY), ("May 12, 2026", DAY), ("12 may 2026", DAY), ("5/12/26", None), ("May", None)],
)
def test_a_date_is_one_day_or_refused(text: str, day: datetime.date | None) -> None:
    if day:
        assert answers.date_of(text) == day
    else:
        with pytest.raises(UsageError, match="could mean several days"):
            answers.date_of(text)


# --- the command ------------------------------------------------------------------------------------------------------


def run(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        cli.main([str(word) for word in words])
    said = capsys.readouterr()
    return int(ended.value.code or 0), said.out, said.err


def test_the_command_keeps_an_answer_and_every_reading_command_applies_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    few = ("findings.txt", "job.json")
    monkeypatch.setattr(packet, "PAPERS", tuple(paper for paper in packet.PAPERS if paper.name in few))
    path = write_job(tmp_path, checked(wall("SW4", SILENT), wall("SW1")))
    assert run(capsys, "check", path)[0] == Exit.STOP_OPEN
    code, out, _ = run(capsys, "answer", path, "Q-01", '12" o.c.', "--ref", "RFI 3", "--date", "2026-05-12", "--by", "kim")
    assert code == 0
    assert "Closed: SW4: the field nailing spacing is missing" in out
    assert "collect them and make the packet again" in out
    code, _, err = run(capsys, "check", path)
    assert (code, err) == (0, "Answered: SW4 field nailing spacing (RFI 3, 12 May 2026).\n")
    assert run(capsys, "answer", path)[1] == 'SW4 field nailing spacing (RFI 3, 12 May 2026), entered by kim: “12" o.c.”.\n'
    assert run(capsys, "packet", path, "--out", tmp_path / "packet")[0] == 0
    written = json.loads((tmp_path / "packet" / "job.json").read_text(encoding="utf-8"))
    assert written["wall_types"][0]["field"]["spacing_in"]["origin"] == "answer"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("Q-01", '12"'), "An answer has a question, a value and a reference"),
        (("Q-01",), "An answer has a question, a value and a reference"),
        (("Q-01", '12"', "--ref", "RFI 3", "--date", "5/12"), "could mean several days"),
        (("Q-01", '12"', "--ref", "x" * 70), "cannot be kept"),
    ],
)
def test_half_an_answer_is_a_usage_error(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], words: tuple[str, ...], says: str
) -> None:
    path = write_job(tmp_path, checked(wall("SW4", SILENT), wall("SW1")))
    code, _, err = run(capsys, "answer", path, *words)
    assert code == Exit.USAGE
    assert says in err
    assert not (tmp_path / "answers.toml").exists()


def test_names_from_a_plan_file_cannot_break_the_file(tmp_path: Path) -> None:
    mark = 'SW"4\n]]\t=x'
    plans = checked(wall(mark, SILENT), wall("SW1"))
    path = write_job(tmp_path, plans)
    writer: Callable[..., Any] = answers.enter
    writer(plans, path, "Q-01", '12" o.c.', 'RFI "3"', DAY, "kim\x7f")
    found = answers.beside(plans, [path])
    spacing = found.job.wall_types[0].field.spacing_in
    assert spacing is not None
    assert spacing.state is State.READ
