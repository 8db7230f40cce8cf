"""Work in a process of its own: what it tells comes back, and however it ends, the run goes on to say so."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from extractor import limits
from extractor.errors import OverLimitError
from extractor.pictures import pictures
from extractor.record import Source
from extractor.reissue import reissued
from tests.hostile import making

HERE = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}

SCRIPT = """
import os, signal, sys, time
from extractor import limits
from extractor.errors import EmptyPlansError, NailcardError
from extractor.guard import guarded

limits.SECONDS, limits.MEMORY = 1, 1 << 30

def empty(step):
    raise EmptyPlansError("The file is empty.", where="plans.pdf", do="Copy it again.")

def busy(step):
    while True:
        pass

def steps(step):
    step(1, 2, "S1.0")
    step(2, 2, "S2.0")
    return "both"

ways = dict(
    steps=steps, empty=empty, busy=busy, greedy=lambda step: str(len(bytearray(4 << 30))), crash=lambda step: os.abort(),
    killed=lambda step: os.kill(os.getpid(), signal.SIGKILL), fault=lambda step: str(1 / 0), large=lambda step: "x" * 5_000_000,
)
seen = []
try:
    said = guarded(ways[sys.argv[1]], lambda *one: seen.append(one), "plans.pdf")
    print("gave", len(said), seen)
except NailcardError as error:
    print(type(error).__name__, error)
except Exception as error:
    print("fault", "ZeroDivisionError" in str(error))
"""
WAYS = [
    ("steps", "gave 4 [(1, 2, 'S1.0'), (2, 2, 'S2.0')]", "progress is told as it happens"),
    ("large", "gave 5000000 []", "a job of sixty types is larger than a pipe"),
    (
        "empty",
        "EmptyPlansError The file is empty.\n  where: plans.pdf\n  do: Copy it again.",
        "errors for a person stay what they are",
    ),
    ("busy", "OverLimitError Reading these plans takes longer than", "a loop without end"),
    ("greedy", "OverLimitError Reading these plans takes more than 1,024 MB of memory", "a bomb"),
    ("crash", "OverLimitError Reading these plans takes more than", "pdfium ends itself where memory is short"),
    ("killed", "OverLimitError Reading these plans takes more than", "the system ends what takes too much"),
    ("fault", "fault True", "our own mistakes are no fault of the plans"),
]


@pytest.mark.skipif(sys.platform != "linux", reason="limits hold on Linux")
@pytest.mark.parametrize(("way", "words", "source"), WAYS)
def test_however_the_work_ends_the_run_says_so(way: str, words: str, source: str) -> None:
    done = subprocess.run([sys.executable, "-c", SCRIPT, way], capture_output=True, text=True, timeout=60, check=False)
    assert done.stdout.startswith(words), f"{source}: {done.stdout}{done.stderr}"


BESIDE_A_THREAD = """
import sys, threading, time
from functools import partial
from pathlib import Path
from cards.load import load
from extractor import limits, password
from extractor.errors import NailcardError
from extractor.guard import guarded
from tests.hostile import making
from tests.hostile.ways import WAYS

if __name__ == "__main__":
    limits.SECONDS, limits.MEMORY = 2, 1 << 30
    threading.Thread(target=time.sleep, args=(600,), daemon=True).start()
    seen = []
    try:
        if sys.argv[1] == "locked":
            path = Path(sys.argv[2]) / "locked.pdf"
            path.write_bytes(making.encrypted(making.sound(), "plover", "owner"))
            password.use("plover")
            print(*(wall.mark.value for wall in load([path]).wall_types))
        else:
            print("gave", guarded(partial(WAYS[sys.argv[1]], sys.argv[1]), lambda *one: seen.append(one), "plans.pdf"), seen)
    except NailcardError as error:
        print(type(error).__name__, error)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="limits hold on Linux")
@pytest.mark.parametrize(
    ("way", "words", "source"),
    [
        ("steps", "gave steps [(1, 2, 'S1.0'), (2, 2, 'S2.0')]", "a desk that serves pages beside its reading"),
        ("busy", "OverLimitError Reading these plans takes longer than", "a loop without end"),
        ("greedy", "OverLimitError Reading these plans takes more than 1,024 MB of memory", "a bomb"),
        ("locked", "SW1 SW2", "the password goes along, and not as an argument"),
    ],
)
def test_the_same_holds_beside_other_threads(way: str, words: str, source: str, tmp_path: Path) -> None:
    script = tmp_path / "beside.py"
    script.write_text(BESIDE_A_THREAD)
    command = [sys.executable, script, way, tmp_path]
    done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False, env=HERE)
    assert done.stdout.startswith(words), f"{source}: {done.stdout}{done.stderr}"


def _ended(pid: int) -> bool:
    try:
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] == "Z"
    except OSError:
        return True


def _started_by(pid: int) -> list[int]:
    every = (path.name for path in Path("/proc").iterdir() if path.name.isdigit())
    stats = ((int(name), Path(f"/proc/{name}/stat")) for name in every)
    found = [one for one, stat in stats if stat.exists() and int(stat.read_text().rpartition(")")[2].split()[1]) == pid]
    return [*found, *(other for one in found for other in _started_by(one))]


@pytest.mark.skipif(sys.platform != "linux", reason="looks into /proc")
def test_a_run_that_is_killed_leaves_nothing_running(tmp_path: Path) -> None:
    """A set of many pages is read by three processes; the first is killed, as a machine short of memory does."""
    (tmp_path / "plans.pdf").write_bytes(making.many_pages())
    words = [sys.executable, "-P", "-c", "from cards.cli import main; main()", "read", str(tmp_path / "plans.pdf")]
    run = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env=HERE)
    until, others = time.monotonic() + 20, []
    while len(others) < 2 and time.monotonic() < until:
        others = _started_by(run.pid)
        time.sleep(0.02)
    run.kill()
    run.wait()
    while not all(map(_ended, others)) and time.monotonic() < until:
        time.sleep(0.05)
    assert len(others) == 2
    assert [pid for pid in others if not _ended(pid)] == []


@pytest.mark.skipif(sys.platform != "linux", reason="limits hold on Linux")
def test_a_sheet_that_eats_the_machine_when_it_is_drawn_is_ended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Pictures of places are cut from the same files that nobody vouches for."""
    monkeypatch.setattr(limits, "MEMORY", 1 << 30)
    path = tmp_path / "eater.pdf"
    path.write_bytes(making.forms_that_double())
    with pytest.raises(OverLimitError, match="of memory") as raised:
        pictures([path], [Source(page=1, sheet="S3.1", box=(100.0, 100.0, 200.0, 200.0))])
    assert "eater.pdf" in raised.value.where


@pytest.mark.skipif(sys.platform != "linux", reason="limits hold on Linux")
def test_reissued_sheets_are_put_together_within_limits(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "MEMORY", 1 << 30)
    old, new = tmp_path / "old.pdf", tmp_path / "new.pdf"
    old.write_bytes(making.sound())
    new.write_bytes(making.forms_that_double())
    with pytest.raises(OverLimitError, match="of memory") as raised:
        reissued([old], [new])
    assert "new.pdf" in raised.value.where
