"""Work in a process of its own: what it tells comes back, and however it ends, the run goes on to say so."""

import subprocess
import sys

import pytest

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
