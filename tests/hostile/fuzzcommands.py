"""Changes plans, records and what is kept beside them at random, and gives them to every command.

``python -m tests.hostile.fuzzcommands SEED COUNT SECONDS`` prints what came of it. Each input is one file of a sound job changed;
the command has to end with one of the exit codes that README lists, and none of them is 70. A fault is printed with the number
that makes it again. Records and kept files are changed as bytes, and as what they hold: a value gone, twice, or another one.
"""

import io
import json
import random
import shutil
import signal
import sys
import tempfile
import time
import tomllib
from collections import Counter
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from types import FrameType
from typing import Any

import tomli_w

from cards import cli
from extractor import limits
from tests.hostile.fuzzing import FIXTURES, changed, say

PLANS = FIXTURES / "changes" / "note-changed.pdf"  # the engineer has three questions to answer
NEW = FIXTURES / "changes" / "first-issue.pdf"
ENDS = {0, 1, 2, 3, 4, 5}
LONGEST_S = 60
ODD: list[Any] = [None, True, 0, -1, 10**400, 1e308, float("inf"), "", " ", "\u0000", "\u202e<b>&", "=1+1", "x" * 5_000, "1/0",
                  "‘", [], {}, [[[]]], "9" * 400, "2026-13-45", "SW1", "../../etc", "ß\ud800"]  # fmt: skip
Command = Callable[[Path], list[object]]

ON_RECORDS: list[tuple[int, Command]] = [
    (6, lambda at: ["check", at / "job.json"]),
    (3, lambda at: ["check", at / "job.json", "--format", "csv", "--out", at / "f.csv"]),
    (3, lambda at: ["answer", at / "job.json"]),
    (3, lambda at: ["answer", at / "job.json", "--confirm"]),
    (3, lambda at: ["answer", at / "job.json", "Q-03", "blocked", "--ref", "RFI 7"]),
    (2, lambda at: ["order", at / "job.json", "--out", at / "order"]),
    (2, lambda at: ["order", at / "job.json", "--out", at / "order", "--walls", at / "walls.csv", "--packs", at / "packs.toml"]),
    (2, lambda at: ["compare", at / "job.json", at / "other.json", "--out", at / "changes"]),
    (1, lambda at: ["compare", at / "other.json", at / "job.json", "--reissue", "--out", at / "changes"]),
    (1, lambda at: ["cards", at / "job.json", "--out", at / "c.pdf"]),
    (1, lambda at: ["packet", at / "job.json", "--out", at]),
]
ON_PLANS: list[tuple[int, Command]] = [
    (3, lambda at: ["check", at / "plans.pdf", "--format", "json"]),
    (1, lambda at: ["cards", at / "plans.pdf", "--out", at / "c.pdf"]),
    (1, lambda at: ["packet", at / "plans.pdf", "--out", at / "out"]),
    (2, lambda at: ["order", at / "plans.pdf", "--out", at / "order"]),
    (2, lambda at: ["answer", at / "plans.pdf"]),
    (2, lambda at: ["compare", at / "job.json", at / "plans.pdf", "--out", at / "changes"]),
    (2, lambda at: ["compare", at / "plans.pdf", at / "plans.pdf", "--reissue", "--out", at / "changes"]),
]
KEPT = ["answers.toml", "questions.toml", "issued.toml", "walls.csv", "packs.toml"]


def run(words: list[object]) -> tuple[int, str]:
    """The exit code of a command and what it said on stderr."""
    heard = io.StringIO()
    try:
        with redirect_stdout(io.StringIO()), redirect_stderr(heard):
            cli.main([str(word) for word in words])
    except SystemExit as ended:
        return int(ended.code or 0), heard.getvalue()
    raise AssertionError("the command came back")


def sound(folder: Path) -> None:
    """A job with answers, numbers, the register, wall lengths and pack sizes beside it; and one to compare with."""
    shutil.copy(PLANS, folder / "plans.pdf")
    assert run(["packet", folder / "plans.pdf", "--out", folder])[0] == 0
    for question in ("Q-01", "Q-02"):
        assert run(["answer", folder / "job.json", question, "blocked", "--ref", "RFI 3"])[0] == 0
    (folder / "walls-to-fill.csv").rename(folder / "walls.csv")
    (folder / "packs-to-fill.toml").rename(folder / "packs.toml")
    assert run(["read", NEW, "--out", folder / "other.json"])[0] == 0
    for paper in (*folder.glob("*.pdf"), *folder.glob("*.html"), *folder.glob("*.xlsx")):
        if paper.name != "plans.pdf":
            paper.unlink()


def tree_changed(tree: Any, draw: random.Random) -> Any:
    """What a file holds with one to four of its values gone, twice, or another one."""
    for _ in range(draw.randint(1, 4)):
        places = list(_places(tree))
        if not places:
            break
        holder, key = draw.choice(places)
        kind = draw.randrange(5)
        if kind == 0:
            del holder[key]
        elif kind == 1 and isinstance(holder, list):
            holder.insert(key, holder[key])
        elif kind == 2:
            other, where = draw.choice(places)
            if _reachable(other, where):
                holder[key] = json.loads(json.dumps(other[where]))
        else:
            holder[key] = draw.choice(ODD)
    return tree


def _reachable(holder: Any, key: Any) -> bool:
    try:
        holder[key]
    except (KeyError, IndexError):
        return False
    return True


def _places(tree: Any) -> Any:
    every = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, value in list(every):
        yield tree, key
        yield from _places(value)


def file_changed(path: Path, draw: random.Random) -> None:
    """The file with changes in its bytes, or in what it holds."""
    data = path.read_bytes()
    if draw.random() < 0.7 and path.suffix in (".json", ".toml"):
        try:
            tree = json.loads(data) if path.suffix == ".json" else tomllib.loads(data.decode())
            tree = tree_changed(json.loads(json.dumps(tree, default=str)), draw)
            text = json.dumps(tree) if path.suffix == ".json" else tomli_w.dumps(tree)
            path.write_bytes(text.encode(errors="surrogatepass"))
            return
        except (TypeError, ValueError, OverflowError):  # TOML holds no null, and no number without an end
            pass
    path.write_bytes(changed(data, draw).removesuffix(b"\n%%EOF\n") if path.suffix != ".pdf" else changed(data, draw))


def one(at: Path, draw: random.Random) -> list[object]:
    """Change one file of the job in ``at``; the command to give it to."""
    kind = draw.choice(["record", "record", "kept", "kept", "plans"])
    if kind == "plans":
        file_changed(at / "plans.pdf", draw)
        commands = ON_PLANS
    else:
        file_changed(at / ("job.json" if kind == "record" else draw.choice(KEPT)), draw)
        commands = ON_RECORDS
    return draw.choices([make for _, make in commands], [weight for weight, _ in commands])[0](at)


def _too_long(_: int, __: FrameType | None) -> None:
    raise RuntimeError(f"longer than {LONGEST_S} seconds")


def main(seed: int, count: int, seconds: float) -> int:
    """Try ``count`` inputs, or as many as fit in the time; how many of them ended in a fault."""
    limits.SECONDS, limits.MEMORY = 30, 2 << 30
    signal.signal(signal.SIGALRM, _too_long)
    came, faults, began = Counter[str](), 0, time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "sound").mkdir()
        sound(Path(folder) / "sound")
        for number in range(count):
            if time.monotonic() - began > seconds:
                break
            draw, at = random.Random(f"{seed} {number}"), Path(folder) / "job"
            shutil.rmtree(at, ignore_errors=True)
            shutil.copytree(Path(folder) / "sound", at)
            words = one(at, draw)
            signal.alarm(LONGEST_S)
            code, heard = run(words)
            signal.alarm(0)
            came[f"{words[0]} {code}"] += 1
            if code not in ENDS or "Traceback" in heard:
                faults += 1
                say(f"FAULT in input {number} of seed {seed}: {' '.join(map(str, words))}: {heard[-1500:]}")
    said = ", ".join(f"{name} {times}x" for name, times in sorted(came.items()))
    say(f"seed {seed}: {came.total()} inputs tried (command, exit code, times): {said}; {faults} faults")
    return faults


if __name__ == "__main__":
    sys.exit(min(1, main(int(sys.argv[1]), int(sys.argv[2]), float(sys.argv[3]))))
