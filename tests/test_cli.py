"""The command as a person meets it: exit codes, what it says, what it writes, and what it never overwrites."""

import csv
import io
import json
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

import pdfplumber
import pikepdf
import pytest

from cards import cli, load, output, progress
from extractor.errors import Exit, OutputError
from extractor.record import Job, Level

DEMO = Path(__file__).parents[1] / "fixtures" / "demo.pdf"


class Said(NamedTuple):
    """How a run ended and what it said."""

    code: int
    out: str
    err: str


Run = Callable[..., Said]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """A function that runs the command in this process."""

    def go(*words: object) -> Said:
        with pytest.raises(SystemExit) as ended:
            cli.main([str(word) for word in words])
        said = capsys.readouterr()
        return Said(int(ended.value.code or 0), said.out, said.err)

    return go


@pytest.fixture
def plans(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, job: Job) -> Path:
    """A plan file that stands for the sample job: the reader is tested elsewhere."""

    def read(paths: Sequence[Path], progress: Callable[[int, int, str], None] | None = None) -> Job:
        if progress:
            progress(1, 2, "S0.1")
            progress(2, 2, "S3.1")
        return job

    monkeypatch.setattr("extractor.read.read", read)
    monkeypatch.setattr("extractor.guard._inside", True)  # a fresh process would not know of the reader put in here
    monkeypatch.setattr("extractor.checks.check", lambda job: ())
    path = tmp_path / "kestrel-court.pdf"
    path.write_bytes(b"%PDF-1.7 stands for a plan set\n")
    return path


# --- broken plans -----------------------------------------------------------------------------------------------------

Writer = Callable[..., Path]
Breaker = Callable[[Path, Writer], None]


def empty(path: Path, text_pdf: Writer) -> None:
    path.write_bytes(b"")


def not_a_pdf(path: Path, text_pdf: Writer) -> None:
    path.write_text("Dear framer, the plans are attached.\n")


def cut_short(path: Path, text_pdf: Writer) -> None:
    whole = text_pdf("whole.pdf", *["SHEAR WALL SCHEDULE"] * 60).read_bytes()
    path.write_bytes(whole[: len(whole) // 3])


def no_pages(path: Path, text_pdf: Writer) -> None:
    pikepdf.new().save(path)


def locked(path: Path, text_pdf: Writer) -> None:
    text_pdf(path.name, "SHEAR WALL SCHEDULE", encryption=pikepdf.Encryption(owner="own", user="use"))


def no_text(path: Path, text_pdf: Writer) -> None:
    text_pdf(path.name)


def no_schedule(path: Path, text_pdf: Writer) -> None:
    text_pdf(path.name, "GENERAL NOTES", "1. ALL CONCRETE SHALL BE 2500 PSI.", "2. VERIFY ALL DIMENSIONS IN THE FIELD.")


BROKEN = [
    (empty, Exit.PLANS, "empty", "an upload that broke off at once"),
    (not_a_pdf, Exit.PLANS, "no PDF", "a letter saved under the plans' name"),
    (cut_short, Exit.PLANS, "cut short|damaged|broken|cannot be opened", "a download that broke off"),
    (no_pages, Exit.PLANS, "empty|no pages|damaged|broken", "an export of nothing"),
    (locked, Exit.PLANS, "password", "an office that locks its PDFs"),
    (no_text, Exit.PLANS, "no text|picture", "a scanned plan set"),
    (no_schedule, Exit.NO_SCHEDULE, "no shear wall schedule", "the architect's sheets alone"),
]


@pytest.mark.parametrize("command", ["read", "check"])
@pytest.mark.parametrize(("kind", "code", "words", "seen"), BROKEN, ids=[row[0].__name__ for row in BROKEN])
def test_broken_plans_give_one_clear_message(
    run: Run, tmp_path: Path, text_pdf: Writer, command: str, kind: Breaker, code: Exit, words: str, seen: str
) -> None:
    path, out = tmp_path / "plans.pdf", tmp_path / "result"
    kind(path, text_pdf)
    said = run(command, path, "--out", out)
    assert said.code == code
    assert any(word.lower() in said.err.lower() for word in words.split("|"))
    assert "plans.pdf" in said.err
    assert "\n  where: " in said.err
    assert "\n  do: " in said.err
    assert "Traceback" not in said.err
    assert said.out == ""
    assert not out.exists()


def test_plans_that_are_not_there(run: Run, tmp_path: Path) -> None:
    said = run("read", tmp_path / "plans.pdf")
    assert said.code == Exit.PLANS
    assert said.err.startswith("There is no such file or folder.\n  where: ")
    assert "plans.pdf" in said.err


def test_a_folder_without_a_pdf(run: Run, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("none")
    said = run("read", tmp_path)
    assert said.code == Exit.PLANS
    assert said.err.startswith("The folder holds no PDF.")


def test_the_installed_command_ends_the_same_way(tmp_path: Path) -> None:
    path = tmp_path / "plans.pdf"
    path.write_bytes(b"")
    nailcard = Path(sys.executable).with_name("nailcard")
    ended = subprocess.run([nailcard, "read", path], capture_output=True, text=True, check=False)
    assert ended.returncode == Exit.PLANS
    assert "Traceback" not in ended.stderr


# --- job records ------------------------------------------------------------------------------------------------------

BAD_RECORDS = [
    ("{", "This is not a job record.", "a file cut short"),
    ("[]", "This is not a job record.", "another program's JSON"),
    ('{"format": "nailcard.job/9"}', "This job record has format 'nailcard.job/9'. This version reads 'nailcard.job/1'.", "new"),
    ('{"format": "nailcard.job/1"}', "This job record is damaged at plan_set: Field required.", "edited by hand"),
]


@pytest.mark.parametrize(("text", "words", "seen"), BAD_RECORDS)
def test_a_bad_job_record_says_what_to_do(run: Run, tmp_path: Path, text: str, words: str, seen: str) -> None:
    path = tmp_path / "job.json"
    path.write_text(text)
    said = run("check", path)
    assert said.code == Exit.PLANS
    assert said.err.startswith(words)
    assert "nailcard read PLANS.pdf --out job.json" in said.err


def test_a_record_and_plans_do_not_mix(run: Run, plans: Path, tmp_path: Path, job: Job) -> None:
    record = tmp_path / "job.json"
    record.write_text(job.to_json())
    assert run("check", record, plans).code == Exit.USAGE


def test_a_record_reads_back_as_itself(run: Run, plans: Path, tmp_path: Path, job: Job) -> None:
    record = tmp_path / "job.json"
    assert run("read", plans, "--out", record).code == Exit.FINE
    assert Job.model_validate_json(run("read", record).out) == job


def test_findings_of_the_reader_and_of_the_checks_stand_once(monkeypatch: pytest.MonkeyPatch, job: Job) -> None:
    new = job.findings[0].model_copy(update={"code": "another-thing"})
    monkeypatch.setattr("extractor.checks.check", lambda job: (*job.findings[:2], new))
    assert load.with_findings(job).findings == (*job.findings, new)


# --- results ----------------------------------------------------------------------------------------------------------


def test_read_gives_the_record_on_stdout_and_progress_on_stderr(run: Run, plans: Path, job: Job) -> None:
    said = run("read", plans)
    assert Job.model_validate_json(said.out) == job
    assert said.err == "sheet 1 of 2  S0.1\nsheet 2 of 2  S3.1\n"


def test_read_schema_needs_no_plans(run: Run) -> None:
    said = run("read", "--schema")
    assert said.code == Exit.FINE
    assert json.loads(said.out)["properties"]["wall_types"]


@pytest.mark.parametrize(
    "words",
    [
        ("read",),
        ("check",),
        ("cards",),
        ("packet", "x.pdf"),
        ("nail", "x.pdf"),
        ("check", "x.pdf", "--format", "xml"),
        ("cards", "x.pdf", "--size", "9x9"),
    ],
    ids=" ".join,
)
def test_a_command_without_what_it_needs_is_a_usage_error(run: Run, words: tuple[str, ...]) -> None:
    said = run(*words)
    assert said.code == Exit.USAGE
    assert said.err
    assert "Traceback" not in said.err


@pytest.mark.parametrize("command", ["read", "check", "cards", "packet", "demo", "list-checks"])
def test_every_command_has_help_with_an_example(run: Run, command: str) -> None:
    said = run(command, "--help")
    assert said.code == Exit.FINE
    assert f"Example: nailcard {command}" in " ".join(said.out.split())


def test_check_says_the_worst_first_where_it_stands_and_who_governs(run: Run, plans: Path) -> None:
    said = run("check", plans)
    assert said.code == Exit.STOP_OPEN
    head, *rest = said.out.split("\n\n")
    assert head == "kestrel-court.pdf, digest c0ffee12, 9 pages: 2 wall types, 0 hold-downs."
    assert rest[0].splitlines() == [
        "STOP  Q-02  sheet S3.1, page 7  SW4 (field.spacing_in)",
        "      SW4 gives no field nailing. Ask the engineer.",
        "      common practice, no source",
    ]
    assert rest[1].startswith("ASK   Q-01  sheet S3.1, page 7\n")
    assert rest[2].startswith("NOTE  sheet S3.1, page 7  12-11 (edge.spacing_in)\n")
    assert rest[3].splitlines() == [
        "Looked through: pages 2-4, 7 of 9.",
        "Not read, no text on the sheet: page 9. Look at these yourself.",
        'Not read: "FOOTING SCHEDULE", sheet S3.1, page 7: not a wall or hold-down table',
        'Printed in a schedule and not used: "SIM.", sheet S3.1, page 7',
    ]
    assert rest[4] == "2 questions are open. 1 says STOP: 1 before nailing."
    assert rest[5] == "The approved plans and the engineer of record govern. The building official decides."
    assert "not an approval and not an inspection" in " ".join(said.out.split())


@pytest.mark.parametrize(
    ("level", "field", "words", "why"),
    [
        (Level.STOP, "anchors.spacing_in", "1 question is open. 1 says STOP: 1 before the pour.", "bolts are in the concrete"),
        (Level.STOP, "edge.spacing_in", "1 question is open. 1 says STOP: 1 before nailing.", "nothing in the concrete"),
        (Level.STOP, None, "1 question is open. 1 says STOP: 1 before the pour.", "a mark without a row: no bolts known"),
        (Level.ASK, "framing.blocked", "1 question is open. None says STOP.", "a question"),
        (Level.NOTE, None, "No question is open. That is not an approval.", "nothing to ask"),
    ],
)
def test_the_summary_says_what_a_stop_holds_up(job: Job, level: Level, field: str | None, words: str, why: str) -> None:
    from cards.findings import summary

    finding = job.findings[0].model_copy(update={"level": level, "field": field})
    assert summary(job.model_copy(update={"findings": (finding,)})) == words


def test_check_without_a_stop_ends_well(run: Run, plans: Path, tmp_path: Path, job: Job) -> None:
    record = tmp_path / "job.json"
    record.write_text(job.model_copy(update={"findings": job.findings[2:]}).to_json())
    said = run("check", record)
    assert said.code == Exit.FINE
    assert "passes" not in said.out


def test_check_as_json_holds_what_the_text_holds(run: Run, plans: Path) -> None:
    said = run("check", plans, "--format", "json")
    found = json.loads(said.out)
    assert said.code == Exit.STOP_OPEN
    assert found["format"] == "nailcard.findings/1"
    assert [(row["level"], row["question"]) for row in found["findings"]] == [("stop", "Q-02"), ("ask", "Q-01"), ("note", None)]
    assert found["open"] == {"stop": 1, "ask": 1, "note": 1}
    assert found["coverage"]["sheets_without_text"] == [9]
    assert "A card is void when a plan sheet is reissued." in found["report"]


def test_check_as_csv_has_nothing_a_spreadsheet_would_turn(run: Run, plans: Path) -> None:
    rows = list(csv.reader(io.StringIO(run("check", plans, "--format", "csv").out)))
    assert rows[0] == ["level", "question", "code", "sheet", "page", "wall type", "field", "message", "citation"]
    assert rows[1][3:6] == ["sheet S3.1", "page 7", "type SW4"]
    assert rows[3][5] == "type 12-11"  # a bare 12-11 becomes the eleventh of December
    assert rows[3][7] == "'=SUM(1) is printed beside it."
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]
    assert any("not an approval and not an inspection" in cell for row in rows for cell in row)


def test_words_from_a_pdf_cannot_steer_the_terminal(job: Job) -> None:
    from cards.findings import as_csv, as_text

    evil = job.findings[0].model_copy(update={"message": "\x1b[2JSW1\r\n\x07gone"})
    bad = job.model_copy(update={"findings": (evil,)})
    assert "\x1b" not in as_text(bad) + as_csv(bad)
    assert " [2JSW1" in as_text(bad)


def test_list_checks_gives_level_name_and_source(run: Run) -> None:
    said = run("list-checks")
    assert said.code == Exit.FINE
    assert "STOP  nail-size-disagrees\n" in said.out
    assert "      NDS-2018 Table L4\n" in said.out


# --- output -----------------------------------------------------------------------------------------------------------


def folder(tmp_path: Path, plans: Path) -> Path:
    return tmp_path


def below_a_file(tmp_path: Path, plans: Path) -> Path:
    return plans / "cards.pdf"


def below_nothing(tmp_path: Path, plans: Path) -> Path:
    return tmp_path / "no" / "such" / "cards.pdf"


def the_plans(tmp_path: Path, plans: Path) -> Path:
    return plans


def a_link_to_the_plans(tmp_path: Path, plans: Path) -> Path:
    (tmp_path / "cards.pdf").symlink_to(plans)
    return tmp_path / "cards.pdf"


UNWRITABLE = [
    (folder, "The output is a folder, not a file."),
    (below_a_file, "There is no such folder to write in."),
    (below_nothing, "There is no such folder to write in."),
    (the_plans, "This would overwrite the plans."),
    (a_link_to_the_plans, "This would overwrite the plans."),
]


@pytest.mark.parametrize("command", ["read", "check", "cards"])
@pytest.mark.parametrize(("out", "words"), UNWRITABLE, ids=[row[0].__name__ for row in UNWRITABLE])
def test_an_output_that_cannot_be(
    run: Run, plans: Path, tmp_path: Path, command: str, out: Callable[[Path, Path], Path], words: str
) -> None:
    before = plans.read_bytes()
    said = run(command, plans, "--out", out(tmp_path, plans))
    assert said.code == Exit.OUTPUT
    assert said.err.startswith(words + "\n  where: ")  # and no sheet was read for nothing
    assert plans.read_bytes() == before


def test_a_full_disk_leaves_the_old_file_as_it_was(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    path = tmp_path / "cards.pdf"
    path.write_bytes(b"old")

    def full(fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(OutputError, match="No space left on device"):
        output.write(path, b"new")
    assert path.read_bytes() == b"old"
    assert [file.name for file in tmp_path.iterdir()] == ["cards.pdf"]


def test_a_fault_of_ours_is_a_traceback_and_70(run: Run, plans: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("cards.findings.as_text", lambda job: 1 / 0)
    said = run("check", plans)
    assert said.code == Exit.BUG
    assert "ZeroDivisionError" in said.err
    assert "fault in nailcard" in said.err


# --- plan sets --------------------------------------------------------------------------------------------------------


def test_a_folder_is_one_plan_set_in_the_order_of_its_sheets(tmp_path: Path) -> None:
    for name in ("S10.pdf", "S2.PDF", "._S2.pdf", "notes.txt", "A1.pdf"):
        (tmp_path / name).write_bytes(b"%PDF-")
    (tmp_path / "old.pdf").mkdir()
    assert [file.name for file in load.plan_files([tmp_path, tmp_path / "A1.pdf"])] == ["A1.pdf", "S2.PDF", "S10.pdf"]


def test_a_person_sees_a_bar_and_a_pipe_sees_lines() -> None:
    class Terminal(io.StringIO):
        def isatty(self) -> bool:
            return True

    for stream in (Terminal(), io.StringIO()):
        with progress.sheets(stream) as sheet:
            sheet(1, 2, "[S3.1]")
        assert ("\x1b" in stream.getvalue()) == stream.isatty()
    assert stream.getvalue() == "sheet 1 of 2  [S3.1]\n"


# --- packet -----------------------------------------------------------------------------------------------------------


def test_the_packet_says_what_it_wrote_and_what_is_open(run: Run, plans: Path, tmp_path: Path) -> None:
    out = tmp_path / "packet"
    said = run("packet", plans, "--out", out)
    assert said.code == Exit.FINE
    papers = "summary questions before-the-pour cards cards-draft legend-card why-card checklist".split()
    written = {file.name for file in out.iterdir()}
    assert written >= {"findings.txt", "job.json", "questions.md", "questions.toml", *(f"{paper}.pdf" for paper in papers)}
    assert (out / "cards.pdf").read_bytes().startswith(b"%PDF-")
    lines = [" ".join(line.split()) for line in said.out.splitlines()]
    assert f"{out / 'cards.pdf'} pocket cards to compare, sign and issue: 12-11" in lines
    assert f"{out / 'cards-draft.pdf'} cards on HOLD, not for nailing: SW4" in lines
    assert "2 questions are open. 1 says STOP: 1 before nailing." in said.out


def test_a_card_of_an_earlier_run_does_not_stay_behind(run: Run, plans: Path, tmp_path: Path, job: Job) -> None:
    out, record = tmp_path / "packet", tmp_path / "job.json"
    run("packet", plans, "--out", out)
    answered = {"findings": job.findings[2:], "wall_types": job.wall_types[:1]}
    record.write_text(job.model_copy(update=answered).to_json())
    said = run("packet", record, "--out", out)
    assert not (out / "cards-draft.pdf").exists()
    assert f"Taken away, it was from an earlier run: {out / 'cards-draft.pdf'}" in said.out


def test_a_question_keeps_its_number_in_the_next_packet_and_in_a_check_of_its_record(
    run: Run, plans: Path, tmp_path: Path, job: Job
) -> None:
    out = tmp_path / "packet"
    run("packet", plans, "--out", out)
    first = json.loads(run("check", out / "job.json", "--format", "json").out)["findings"]
    last = max(((one["message"], one["question"]) for one in first if one["question"]), key=lambda one: one[1])
    left = tuple(one for one in job.findings if one.message == last[0])
    record = tmp_path / "job.json"
    record.write_text(job.model_copy(update={"findings": left}).to_json())
    run("packet", record, "--out", out)
    again = json.loads(run("check", out / "job.json", "--format", "json").out)["findings"]
    assert [(one["message"], one["question"]) for one in again] == [last]
    assert last[1] != "Q-01"


def test_the_packet_does_not_land_among_the_plans(run: Run, plans: Path, tmp_path: Path) -> None:
    said = run("packet", tmp_path, "--out", tmp_path)
    assert said.code == Exit.USAGE
    assert [file.name for file in tmp_path.iterdir()] == [plans.name]


def test_the_packet_never_overwrites_the_plans(run: Run, plans: Path, tmp_path: Path) -> None:
    mine = plans.rename(tmp_path / "cards.pdf")
    before = mine.read_bytes()
    assert run("packet", mine, "--out", tmp_path).code == Exit.OUTPUT
    assert mine.read_bytes() == before


def test_the_demo_shows_its_planted_defects(run: Run, tmp_path: Path) -> None:
    said = run("demo", "--out", tmp_path / "demo")
    assert said.code == Exit.FINE
    assert said.out.startswith("This plan set is invented.")
    findings = (tmp_path / "demo" / "findings.txt").read_text()
    assert "SW7" in findings  # a mark on a plan without a row
    assert findings.count("STOP  ") >= 3
    assert (tmp_path / "demo" / "cards.pdf").read_bytes().startswith(b"%PDF-")
    with pdfplumber.open(tmp_path / "demo" / "cards.pdf") as pdf:
        for page in pdf.pages:
            assert page.extract_text().count("INVENTED house") == 3, "above the cards and on each of the two cards"
