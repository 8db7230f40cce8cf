"""One plan set of a batch, in a process of its own: ``python -m cards.task`` with the file of its task and a key.

The process ends when the one that started it ends, and never takes more memory than it is allowed. What it did stands in
``result.json`` in the set's folder, written last: a folder without it holds nothing that is finished.
"""

import hashlib
import json
import os
import sys
import threading
import time
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path

from extractor import files, guard
from extractor.errors import Exit, NailcardError, OutputError
from extractor.record import Record

RESULT = "result.json"
FORMAT = "nailcard.batch/1"
EDITION = "1"  # goes up when a batch has to make every packet anew


class Task(Record):
    """One plan set: its name, its PDFs, the folder for its packet, how cards are printed, and its limits."""

    name: str
    plans: tuple[str, ...]
    out: str
    size: str = "3x5"
    layout: str = "fold"
    paper: str = "letter"
    language: str = "en"
    seconds: float = 300.0
    memory_mb: int = 2000
    password_file: str | None = None


class Result(Record):
    """What came of one plan set. ``code`` is an exit code, ``says`` what went wrong; ``key`` names what it was made from."""

    format: str = FORMAT
    name: str
    key: str
    code: int
    says: str = ""
    file: str = ""
    digest: str = ""
    types: int = 0
    hold_downs: int = 0
    on_hold: int = 0
    stops: int = 0
    asks: int = 0
    unreadable: int = 0
    seconds: float = 0.0
    again: bool = False


def as_json(task: Task) -> bytes:
    """The task for its process, in letters that hold any file's name."""
    return json.dumps(task.model_dump()).encode()


def from_file(path: Path) -> Task:
    """The task in a file."""
    return Task.model_validate(json.loads(path.read_bytes()))


def key_of(task: Task) -> str:
    """A digest of all that a packet is made from: the plans, the answers beside them, how cards are printed."""
    every = hashlib.sha256(f"{EDITION}|{task.size}|{task.layout}|{task.paper}|{task.language}".encode())
    beside = [folder / "answers.toml" for folder in dict.fromkeys([*(Path(name).parent for name in task.plans), Path(task.out)])]
    for path in (*(Path(name) for name in task.plans), *beside):
        every.update(f"|{path.name}|".encode("utf-8", "surrogatepass"))
        with suppress(FileNotFoundError), files.opened(path) as file:
            every.update(hashlib.file_digest(file, "sha256").digest())
    return every.hexdigest()


def finished(task: Task, key: str) -> Result | None:
    """The result of an earlier run of the same task, where its packet was written and nothing has changed since."""
    try:
        found = Result.model_validate_json(files.read(Path(task.out) / RESULT))
    except (OSError, ValueError):
        return None
    return found.model_copy(update={"again": True}) if (found.key, found.code, found.format) == (key, 0, FORMAT) else None


def run(task: Task, key: str) -> Result:
    """Read the plan set and write its packet, and what came of it into ``result.json``, last of all."""
    from cards import output
    from cards.issuing import set_aside
    from cards.packet import PAPERS
    from extractor import password

    if task.password_file:
        password.use(password.from_file(Path(task.password_file)))
    out = Path(task.out)
    if files.real(out) != out:
        raise OutputError("The set's folder is a link that leads elsewhere.", where=task.out, do="Take the link away.")
    output.folder(out)
    set_aside(out)
    stale = [RESULT, *(paper.name for paper in PAPERS if not paper.name.endswith((".toml", ".csv")))]
    for name in stale:  # an old card is worse than no card
        output.taken_away(out / name)
    result = _made(task, key, out)
    output.write(out / RESULT, (result.model_dump_json(indent=1) + "\n").encode())
    return result


def _made(task: Task, key: str, out: Path) -> Result:
    from cards.answers import beside
    from cards.issuing import issue
    from cards.load import load
    from cards.packet import Print
    from extractor.record import Level, State, readings

    paths = [Path(name) for name in task.plans]
    began = time.monotonic()
    job, _, heard = beside(load(paths), [*paths, out])
    done = issue(job, out, Print(task.size, task.layout, task.paper, task.language), plans=paths)
    rows = (*done.job.wall_types, *done.job.hold_downs)
    return Result(
        name=task.name, key=key, code=Exit.FINE, file=job.plan_set.file, digest=job.plan_set.sha256, types=len(job.wall_types),
        hold_downs=len(job.hold_downs), on_hold=sum(card.draft for card in done.issue.card),
        stops=sum(one.level is Level.STOP for one in job.findings), asks=sum(one.level is Level.ASK for one in job.findings),
        unreadable=sum(one.state is State.UNREADABLE for row in rows for _, one in readings(row)),
        says=" ".join([*done.notices, *(line.strip() for line in heard if not line.startswith("Answered: "))]),
        seconds=round(time.monotonic() - began, 1) or 0.1,
    )  # fmt: skip


def _said(error: NailcardError, task: Task) -> str:
    """What went wrong, in which file of the set and on which page, what to do."""
    where = error.where
    for folder in sorted({str(Path(name).parent) for name in task.plans}, key=len, reverse=True):
        where = where.replace(f"{folder}/", "")
    return f"{error.what} In {os.fsencode(where).decode(errors='backslashreplace')}. {error.do}"


def _limit(memory_mb: int) -> None:
    import resource

    limit = memory_mb * 1024 * 1024
    _, most = resource.getrlimit(resource.RLIMIT_AS)
    resource.setrlimit(resource.RLIMIT_AS, (limit if most == resource.RLIM_INFINITY else min(limit, most), most))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _end_with(parent: Iterable[bytes]) -> None:
    """Wait for the end of what the parent holds open, then end: nobody would read what is written after that."""
    for _ in parent:
        pass
    os._exit(Exit.BUG)


def main(argv: Sequence[str] | None = None) -> None:
    """Run one task: its file, then its key."""
    path, key = argv if argv is not None else sys.argv[1:]
    task = from_file(Path(path))
    _limit(task.memory_mb)
    guard.already()
    threading.Thread(target=_end_with, args=(sys.stdin.buffer,), daemon=True).start()
    try:
        result = run(task, key)
    except NailcardError as error:  # a result, not an end
        result = Result(name=task.name, key=key, code=error.exit_code, says=_said(error, task))
    except MemoryError:
        result = Result(name=task.name, key=key, code=Exit.BUG, says=f"It needs more memory than {task.memory_mb} MB.")
    sys.stdout.write(result.model_dump_json() + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    main()
