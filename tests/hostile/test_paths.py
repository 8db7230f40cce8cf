"""Links, pipes, devices and names that nobody can open, where plans or output should be: one plain message, nothing waits."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from cards import batch
from cards.load import load
from cards.task import as_json, from_file
from extractor import files, password
from extractor.errors import Exit, MissingPlansError
from tests.hostile import making

Run = Callable[..., tuple[int, str, str]]
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs links and pipes")


def _strange(folder: Path, kind: str, suffix: str) -> Path:
    """Something under a file's name that is no file."""
    path = folder / f"odd{suffix}"
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "device":
        path.symlink_to("/dev/zero")
    elif kind == "ring":
        path.symlink_to(path.name)
    elif kind == "nowhere":
        path.symlink_to(folder / "not" / "there")
    elif kind == "too long":
        return folder / ("x" * 300 + suffix)
    elif kind == "below a file":
        (folder / "letter").write_text("Dear framer")
        return folder / "letter" / path.name
    return path


KINDS = ["pipe", "device", "ring", "nowhere", "too long", "below a file"]
PLANS: list[tuple[str, Callable[[Path], list[object]]]] = [
    ("read", lambda path: ["read", path]),
    ("check", lambda path: ["check", path]),
    ("cards", lambda path: ["cards", path, "--out", path.parent / "c.pdf"]),
    ("packet", lambda path: ["packet", path, "--out", "packet"]),
    ("order", lambda path: ["order", path, "--out", "order"]),
    ("answer", lambda path: ["answer", path]),
    ("compare", lambda path: ["compare", path, path, "--out", "changes"]),
    ("reissue", lambda path: ["compare", path, path, "--reissue", "--out", "changes"]),
    ("batch", lambda path: ["batch", path, "--out", "packets"]),
]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("suffix", [".pdf", ".json"])
def test_what_is_no_file_is_no_plan_set(
    kind: str, suffix: str, tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    path = _strange(tmp_path, kind, suffix)
    for name, words in PLANS:
        code, out, said = run(*words(path))
        if name == "cards" and kind == "below a file":
            assert code == Exit.OUTPUT, said  # the cards would lie there, too
            continue
        assert code == Exit.PLANS, f"{name}: {said}"
        assert "Traceback" not in said
        assert "do:" in said, name
        assert not out


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("option", ["--walls", "--packs"])
def test_what_is_no_file_gives_no_lengths_and_no_packs(kind: str, option: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    path = _strange(tmp_path, kind, ".csv")
    code, _, said = run("order", tmp_path / "plans.pdf", option, path, "--out", tmp_path / "order")
    assert code == Exit.USAGE, said
    assert "cannot be read" in said


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_no_file_holds_no_password(kind: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    code, _, said = run("read", tmp_path / "plans.pdf", "--password-file", _strange(tmp_path, kind, ".txt"))
    assert code == Exit.USAGE, said
    assert "The password file " in said


def test_a_password_may_come_through_a_pipe(tmp_path: Path) -> None:
    """As from the shell's <(a keeper of passwords), which takes a moment."""
    with subprocess.Popen(["sh", "-c", "sleep 0.2; echo plo; sleep 0.1"], stdout=subprocess.PIPE) as keeper:
        assert keeper.stdout
        assert password.from_file(Path(f"/dev/fd/{keeper.stdout.fileno()}")) == "plo"


@pytest.mark.parametrize("kind", ["pipe", "device", "ring"])
@pytest.mark.parametrize("name", ["answers.toml", "questions.toml", "issued.toml"])
def test_what_is_no_file_beside_a_job_is_said_and_not_waited_for(kind: str, name: str, tmp_path: Path, run: Run) -> None:
    """Answers that nobody could read would be missing on the cards."""
    folder = tmp_path / "packet"
    folder.mkdir()
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    _strange(tmp_path, kind, ".toml").rename(folder / name)
    if kind == "ring":
        (folder / name).unlink()
        (folder / name).symlink_to(name)
    code, _, said = run("packet", tmp_path / "plans.pdf", "--out", folder)
    assert code == Exit.USAGE, said
    assert "damaged" in said
    assert not (folder / "cards.pdf").exists()


@pytest.mark.parametrize("text", ["[" * 100_000, '{"format":' * 50_000, '{"format": ' + "9" * 10_000 + "}", ""])
def test_a_record_that_nobody_wrote_is_refused(text: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "job.json").write_text(text)
    code, _, said = run("check", tmp_path / "job.json")
    assert code == Exit.PLANS
    assert said.startswith("This is not a job record.")


def test_a_kept_file_nested_too_deep_is_damaged(tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "answers.toml").write_text("answer = " + "[" * 5_000)
    code, _, said = run("check", tmp_path / "plans.pdf")
    assert code == Exit.USAGE
    assert "This file is damaged" in said


def test_a_set_that_lacks_a_sheet_is_not_read_without_it(tmp_path: Path) -> None:
    """S3.1 is a link to a disk that is not there: a packet made from the rest would say nothing of it."""
    (tmp_path / "S2.1.pdf").write_bytes(making.sound())
    (tmp_path / "S3.1.pdf").symlink_to(tmp_path / "disk" / "S3.1.pdf")
    with pytest.raises(MissingPlansError) as raised:
        load([tmp_path])
    assert raised.value.where.endswith("S3.1.pdf")


@pytest.mark.parametrize("kind", ["pipe", "device", "ring", "nowhere"])
def test_a_batch_names_what_is_no_file_and_goes_on(kind: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "jobs" / "set").mkdir(parents=True)
    (tmp_path / "jobs" / "set" / "set.toml").touch()
    for folder in (tmp_path / "jobs", tmp_path / "jobs" / "set"):
        (folder / "cut.pdf").write_bytes(b"%PDF-")
        _strange(folder, kind, ".pdf")
    code, out, said = run("batch", tmp_path / "jobs", "--out", tmp_path / "packets")
    assert code == Exit.PLANS
    assert "3 plan sets: 0 packets, 3 not done" in out
    lines = [line for line in said.splitlines() if "odd.pdf" in line]
    assert len(lines) == 2, said  # by itself, and as the sheet that its set lacks
    assert all("NOT READ" in line for line in lines)


def test_a_set_of_a_thousand_sheets_and_names_that_are_no_letters(tmp_path: Path) -> None:
    """A task is no word of a command line, which holds 128 kB and no broken letters."""
    folder = tmp_path / "jobs"
    folder.mkdir()
    (folder / "set.toml").touch()
    for number in range(1_000):
        (folder / os.fsdecode(b"S%d \xff %s.pdf" % (number, b"x" * 140))).write_bytes(b"%PDF-")
    (task,) = batch.tasks(batch.plan_sets(folder, tmp_path / "out"), tmp_path / "out")
    (tmp_path / "task.json").write_bytes(as_json(task))
    assert from_file(tmp_path / "task.json") == task
    result = batch.one(task)
    assert result.code == Exit.PLANS, result.says
    assert "In S0 \\xff xxx" in result.says


def test_two_names_that_are_no_letters_stay_apart(tmp_path: Path) -> None:
    for name in (b"\xfe.pdf", b"\xff.pdf"):
        (tmp_path / os.fsdecode(name)).write_bytes(b"%PDF-")
    names = [task.name for task in batch.tasks(batch.plan_sets(tmp_path, tmp_path / "out"), tmp_path / "out")]
    assert names == ["\\xfe.pdf", "\\xff.pdf"]


def test_a_link_in_the_folder_of_packets_leads_no_packet_out_of_it(tmp_path: Path, run: Run) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "precious").mkdir()
    (tmp_path / "packets").mkdir()
    (tmp_path / "jobs" / "a.pdf").write_bytes(making.sound())
    (tmp_path / "precious" / "job.json").write_text("another job's")
    (tmp_path / "packets" / "a.pdf").symlink_to(tmp_path / "precious")
    code, _, said = run("batch", tmp_path / "jobs", "--out", tmp_path / "packets")
    assert code == Exit.PLANS
    assert "NOT WRITTEN: The set's folder is a link that leads elsewhere." in said
    assert {path.name: path.read_text() for path in (tmp_path / "precious").iterdir()} == {"job.json": "another job's"}


@pytest.mark.parametrize("kind", ["pipe", "folder"])
def test_what_is_no_file_under_a_papers_name_is_left_alone(kind: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "packet" / "cards.pdf").mkdir(parents=True)
    if kind != "folder":
        (tmp_path / "packet" / "cards.pdf").rmdir()
        _strange(tmp_path / "packet", kind, ".pdf").rename(tmp_path / "packet" / "cards.pdf")
    code, _, said = run("packet", tmp_path / "plans.pdf", "--out", tmp_path / "packet")
    assert code == Exit.OUTPUT, said
    assert "cards.pdf" in said
    assert [path.name for path in (tmp_path / "packet").iterdir()] == ["cards.pdf"]


def test_a_file_that_may_not_be_changed_stays(tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "job.json").write_text("signed and put away")
    (tmp_path / "job.json").chmod(0o444)
    monkeypatch.setattr(os, "access", lambda path, mode: Path(path).name != "job.json")  # the machine's own user may all
    code, _, said = run("read", tmp_path / "plans.pdf", "--out", tmp_path / "job.json")
    assert code == Exit.OUTPUT
    assert "may not be changed" in said
    assert (tmp_path / "job.json").read_text() == "signed and put away"


def test_a_file_beside_the_plans_that_goes_on_for_ever_is_not_read_whole(tmp_path: Path) -> None:
    with (tmp_path / "answers.toml").open("wb") as file:
        file.truncate(1 << 40)
    with pytest.raises(OSError, match="larger than 16 MB"):
        files.read(tmp_path / "answers.toml")
