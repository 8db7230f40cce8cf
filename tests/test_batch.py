"""Many plan sets: which there are, what one bad file does to the others, going on after an interruption, and a lost worker."""

import os
import shutil
import signal
import sys
import time
import warnings
from collections import Counter
from pathlib import Path

import openpyxl
import pytest

from cards import batch, batchsummary, cli
from cards.task import Result, as_json, finished, key_of
from extractor.errors import Exit, MissingPlansError, UsageError

FIXTURES = Path(__file__).parents[1] / "fixtures"
PLANS = FIXTURES / "changes" / "first-issue.pdf"
CHILD = (sys.executable, "-P", str(Path(__file__).parent / "batch" / "child.py"))


def folder_of(tmp_path: Path, *names: str) -> Path:
    """A folder with a small plan set under each name."""
    for name in names:
        path = tmp_path / "jobs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(PLANS, path)
    return tmp_path / "jobs"


def run(folder: Path, out: Path, jobs: int = 2, **how: object) -> dict[str, Result]:
    every = batch.tasks(batch.plan_sets(folder, out), out, **{"seconds": 60, "memory_mb": 2000, **how})
    return {one.name: one for one in batch.here(every, jobs, lambda *_: None, CHILD)}


def ran(tmp_path: Path) -> Counter[str]:
    return Counter((tmp_path / "ran.log").read_text(encoding="utf-8").split("\n")[:-1])


def test_which_plan_sets_there_are(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, "a.pdf", "north/b.PDF", "north/c.pdf", "split/1.pdf", "split/10.pdf", "split/2.pdf",
                       ".hidden/d.pdf", "packet/cards.pdf", "changes/changes.pdf", "out/a.pdf/cards.pdf")  # fmt: skip
    (folder / "split" / "set.toml").touch()
    (folder / "packet" / "issued.toml").touch()
    (folder / "changes" / "changes.json").touch()
    (folder / "loop").symlink_to(folder)
    found = batch.plan_sets(folder, folder / "out")
    assert [(one.name, [path.name for path in one.plans]) for one in found] == [
        ("a.pdf", ["a.pdf"]), ("north/b.PDF", ["b.PDF"]), ("north/c.pdf", ["c.pdf"]),
        ("split", ["1.pdf", "2.pdf", "10.pdf"])]  # fmt: skip


def test_what_cannot_be_looked_into_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A link to a disk that is not there, and a folder that may not be opened, are lines of the summary."""
    folder = folder_of(tmp_path, "a.pdf", "shut/b.pdf")
    (folder / "away.pdf").symlink_to(tmp_path / "disk" / "away.pdf")
    scandir = os.scandir

    def denied(path: object) -> object:
        if str(path).endswith("shut"):
            raise PermissionError(13, "Permission denied", str(path))
        return scandir(path)  # type: ignore[call-overload]

    monkeypatch.setattr(os, "scandir", denied)
    found = run(folder, tmp_path / "out")
    assert {name: one.code for name, one in found.items()} == {"a.pdf": Exit.FINE, "away.pdf": Exit.PLANS, "shut": Exit.PLANS}
    assert found["away.pdf"].says.startswith("There is no such file")


@pytest.mark.parametrize(("make", "error"), [((), MissingPlansError), (("a.pdf",), UsageError)])
def test_no_folder_no_plans_or_packets_among_the_plans(tmp_path: Path, make: tuple[str, ...], error: type[Exception]) -> None:
    folder = folder_of(tmp_path, *make)
    with pytest.raises(error):
        batch.plan_sets(folder, folder if make else tmp_path / "out")


def test_one_bad_or_hanging_file_stops_nothing(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, "good.pdf", "hang.pdf", "crash.pdf", "greedy.pdf")
    (folder / "letter.pdf").write_text("Dear framer, the plans are attached.\n")
    shutil.copy(FIXTURES / "no-schedule.pdf", folder)
    found = run(folder, tmp_path / "out", jobs=3, seconds=12)
    assert {name: (one.code, one.types) for name, one in found.items()} == {
        "crash.pdf": (Exit.BUG, 0), "good.pdf": (Exit.FINE, 4), "greedy.pdf": (Exit.BUG, 0), "hang.pdf": (Exit.BUG, 0),
        "letter.pdf": (Exit.PLANS, 0), "no-schedule.pdf": (Exit.NO_SCHEDULE, 0)}  # fmt: skip
    assert found["hang.pdf"].says == "It took longer than 12 seconds and was stopped."
    assert found["greedy.pdf"].says == "It needs more memory than 2000 MB."
    assert "ended by the system (SIGSEGV)" in found["crash.pdf"].says
    assert found["letter.pdf"].says.startswith("This is no PDF.")
    assert (tmp_path / "out" / "good.pdf" / "job.json").exists()


def test_going_on_does_only_what_is_not_finished_or_has_changed(tmp_path: Path) -> None:
    folder, out = folder_of(tmp_path, "a.pdf", "b.pdf"), tmp_path / "out"
    (folder / "letter.pdf").write_text("Dear framer\n")
    first = run(folder, out)
    again = run(folder, out)
    assert [again[name].again for name in ("a.pdf", "b.pdf", "letter.pdf")] == [True, True, False]
    assert (again["a.pdf"].types, again["a.pdf"].seconds) == (4, first["a.pdf"].seconds)
    shutil.copy(FIXTURES / "changes" / "value-changed.pdf", folder / "b.pdf")
    third = run(folder, out)
    assert [third[name].again for name in ("a.pdf", "b.pdf")] == [True, False]
    assert third["b.pdf"].says.startswith("The plan file changed since cards were issued (issue 1, ")
    assert ran(tmp_path) == {"a.pdf": 1, "b.pdf": 2, "letter.pdf": 3}


def test_an_interrupted_set_leaves_no_old_papers_that_look_finished(tmp_path: Path) -> None:
    folder, out = folder_of(tmp_path, "a.pdf"), tmp_path / "out"
    run(folder, out)
    (folder / "a.pdf").write_text("now it is broken")
    assert run(folder, out)["a.pdf"].code == Exit.PLANS
    assert not (out / "a.pdf" / "job.json").exists()
    assert not (out / "a.pdf" / "result.json").exists()


def test_another_answer_makes_the_packet_again(tmp_path: Path) -> None:
    folder, out = folder_of(tmp_path, "a.pdf"), tmp_path / "out"
    run(folder, out)
    (task,) = batch.tasks(batch.plan_sets(folder, out), out)
    assert finished(task, key_of(task)) is not None
    (folder / "answers.toml").write_text('format = "nailcard.answers/1"\n')
    assert finished(task, key_of(task)) is None


def test_a_child_ends_with_its_parent(tmp_path: Path) -> None:
    """What started the task is gone: nobody would read the result, and a second one may be at work."""
    import subprocess

    (task,) = batch.tasks(batch.plan_sets(folder_of(tmp_path, "slow.pdf"), tmp_path / "out"), tmp_path / "out")
    (tmp_path / "task.json").write_bytes(as_json(task))
    child = subprocess.Popen([*CHILD, str(tmp_path / "task.json"), "key"], stdin=subprocess.PIPE, stdout=subprocess.DEVNULL)
    assert child.stdin is not None
    child.stdin.close()
    assert child.wait(30) == Exit.BUG
    assert not (tmp_path / "out" / "slow.pdf" / "job.json").exists()


# --- the summary ------------------------------------------------------------------------------------------------------

RESULTS = (
    Result(name="a.pdf", key="k", code=0, digest="c0ffee12" * 8, types=4, stops=2, asks=1, unreadable=3, seconds=1.5),
    Result(name="=HYPERLINK(1).pdf", key="k", code=3, says="This is no PDF.\x1b[31m <b>"),
    Result(name="b.pdf", key="k", code=0, types=6, stops=1, seconds=2, again=True),
)


def test_the_summary_adds_up() -> None:
    done, left = "3 plan sets: 2 packets (1 finished before), 1 not done.", "3 values could not be read."
    assert batchsummary.headline(RESULTS) == f"{done} 3 STOP and 1 ASK are open. {left}"


def test_the_summary_is_safe_to_open(tmp_path: Path) -> None:
    text_file, html_file, book_file = batchsummary.write(RESULTS, tmp_path)
    assert "\x1b" not in text_file.read_text(encoding="utf-8")
    page = html_file.read_text(encoding="utf-8")
    assert "&lt;b&gt;" in page
    assert "default-src 'none'" in page
    sheet = openpyxl.load_workbook(book_file)["Plan sets"]
    rows = [[cell.value for cell in row] for row in sheet.iter_rows()]
    assert rows[1][0] == "'=HYPERLINK(1).pdf"
    assert rows[1][1] == "NOT READ"
    assert rows[1][2:8] == [None] * 6, "a set that was not read has no count, not a nought"
    assert rows[2][2] == 4
    assert all(cell.data_type != "f" for row in sheet.iter_rows() for cell in row)
    assert batchsummary.as_workbook(RESULTS) == batchsummary.as_workbook(RESULTS)


def test_the_command(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch, "COMMAND", CHILD)
    monkeypatch.setattr(batch.here, "__defaults__", (CHILD,))
    folder = folder_of(tmp_path, "a.pdf")
    (folder / "bad.pdf").write_text("no")
    with pytest.raises(SystemExit) as ended:
        cli.main(["batch", str(folder), "--out", str(tmp_path / "out"), "--jobs", "1"])
    said = capsys.readouterr()
    assert ended.value.code == Exit.PLANS
    assert "2 plan sets: 1 packet, 1 not done." in said.out
    assert "1 of 2  " in said.err
    assert "bad.pdf  NOT READ: This is no PDF." in said.err


# --- a cluster --------------------------------------------------------------------------------------------------------


@pytest.mark.filterwarnings("default")
def test_a_worker_killed_in_the_middle_loses_nothing_and_doubles_nothing(tmp_path: Path) -> None:
    distributed = pytest.importorskip("distributed")
    names = [f"slow-{n}.pdf" for n in range(5)]
    folder, out = folder_of(tmp_path, *names), tmp_path / "out"
    every = batch.tasks(batch.plan_sets(folder, out), out, seconds=60)
    heard: list[str] = []
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with distributed.LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None) as cluster:
            workers = [worker.process.process.pid for worker in cluster.workers.values()]

            def told(done: int, total: int, result: Result) -> None:
                heard.append(result.name)
                if done == 1:
                    time.sleep(0.5)  # the next task has begun
                    os.kill(workers[0], signal.SIGKILL)

            results = batch.on_cluster(every, cluster.scheduler_address, told, CHILD)
    assert [one.name for one in results] == names
    assert sorted(heard) == names
    assert {(one.code, one.types) for one in results} == {(Exit.FINE, 4)}
    assert batchsummary.headline(results).startswith("5 plan sets: 5 packets, 0 not done.")
    assert all((out / name / "result.json").exists() for name in names)


def test_a_cluster_that_does_not_answer_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed")
    monkeypatch.setattr(batch, "CONNECT_S", 0.5)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with pytest.raises(UsageError, match="The cluster does not answer"):
            batch.on_cluster((), "tcp://127.0.0.1:9", lambda *_: None)
