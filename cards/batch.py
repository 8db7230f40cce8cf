"""Every plan set below a folder: a packet each, one summary. One bad or hanging file stops nothing.

A PDF is a plan set by itself; the PDFs of a folder that holds a file ``set.toml`` are one set. Each set runs in a process of
its own, with limits, on this machine or on a Dask cluster. A set that was finished before, from the same bytes, is not done
again.
"""

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from contextlib import suppress
from pathlib import Path
from typing import Any, NamedTuple

from cards import register
from cards.load import plan_files
from cards.task import RESULT, Result, Task, as_json, finished, key_of
from extractor import files
from extractor.errors import Exit, MissingPlansError, UsageError

MARKER = "set.toml"
COMMAND = (sys.executable, "-P", "-m", "cards.task")
CONNECT_S = 20.0
SKIPPED = (register.NAME, RESULT, "changes.json")  # a folder with one of these holds papers, not plans

Done = Callable[[int, int, Result], None]
"""Called with sets done, sets in all, and the set that was just done."""

Command = tuple[str, ...]
"""What a task's process is started with, before the file of its task and its key."""


class Found(NamedTuple):
    """One plan set below the folder: its name, which is its path from there, and its PDFs."""

    name: str
    plans: tuple[Path, ...]


def plan_sets(folder: Path, out: Path) -> tuple[Found, ...]:
    """The plan sets below ``folder``, by name; ``out`` and folders of papers are left out, links to folders not followed."""
    if not files.is_folder(folder):
        raise MissingPlansError("There is no such folder.", where=str(folder), do="Name the folder that holds the plan sets.")
    if files.real(out) == files.real(folder):
        raise UsageError("The packets would lie among the plans.", where=str(out), do="Name another folder: --out packets")
    found = sorted(_walked(folder, files.real(out)), key=lambda one: one.name)
    if not found:
        raise MissingPlansError("No PDF lies below this folder.", where=str(folder), do="Name the folder of the plan sets.")
    return tuple(found)


def tasks(sets: Sequence[Found], out: Path, **how: object) -> tuple[Task, ...]:
    """A task for each plan set; its packet goes into a folder of the set's name below ``out``."""
    return tuple(Task.model_validate({"name": _shown(one.name), "plans": tuple(str(path.absolute()) for path in one.plans),
                                      "out": str(files.real(out) / one.name), **how}) for one in sets)  # fmt: skip


def here(every: Sequence[Task], jobs: int | None, done: Done, command: Command = COMMAND) -> tuple[Result, ...]:
    """Run the tasks on this machine, ``jobs`` at once (one a core where none is given); results in the order of the tasks."""
    results: dict[str, Result] = {}
    with ThreadPoolExecutor(jobs or os.cpu_count() or 1) as pool:
        futures = [pool.submit(one, task, command) for task in every]
        try:
            for future in as_completed(futures):
                result = future.result()
                results[result.name] = result
                done(len(results), len(every), result)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            _stop_all()
            raise
    return tuple(results[task.name] for task in every)


def on_cluster(every: Sequence[Task], address: str, done: Done, command: Command = COMMAND) -> tuple[Result, ...]:
    """The same on a Dask cluster whose workers see the same folders; a task of a lost worker runs again on another."""
    try:
        from distributed import Client
        from distributed import as_completed as completed
    except ImportError as error:
        says = "The part for clusters is not installed."
        raise UsageError(says, where="--cluster", do="pip install 'nailcard[cluster]'") from error
    results: dict[str, Result] = {}
    try:
        client: Any = Client(address, timeout=CONNECT_S)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        raise UsageError("The cluster does not answer.", where=address, do="Give its scheduler: tcp://HOST:8786") from error
    before = {task.name for task in every if files.is_file(Path(task.out) / RESULT)}
    with client:
        run_id = f"{os.getpid()}-{time.time_ns()}"
        futures = {client.submit(one, task, command, key=f"nailcard-{run_id}-{i}", pure=False): task
                   for i, task in enumerate(every)}  # fmt: skip
        for future in completed(list(futures)):  # type: ignore[no-untyped-call]
            task, lost = futures[future], future.exception()
            result = _failed(task, "", f"Its workers were lost again and again: {lost}") if lost else future.result()
            again = result.again and task.name in before  # a lost worker's finished set belongs to this run
            results[task.name] = result.model_copy(update={"again": again})
            done(len(results), len(every), results[task.name])
    return tuple(results[task.name] for task in every)


def one(task: Task, command: Command = COMMAND) -> Result:
    """One task in a process of its own, or the result it had where nothing has changed."""
    try:
        key = key_of(task)
    except OSError as error:
        what = _shown(Path(error.filename).name) if error.filename else "The plans"
        return _failed(task, "", f"{what} cannot be read. {error.strerror}.", Exit.PLANS)
    before = finished(task, key)
    if before:
        return before
    began = time.monotonic()
    try:
        result = _in_process(task, key, command)
    except OSError as error:
        return _failed(task, key, f"Its process could not be started: {error.strerror}.")
    return result if result.seconds else result.model_copy(update={"seconds": round(time.monotonic() - began, 1)})


_running: set[subprocess.Popen[bytes]] = set()


def _in_process(task: Task, key: str, command: Command) -> Result:
    with tempfile.TemporaryFile() as told, tempfile.TemporaryFile() as said, tempfile.TemporaryFile() as heard:
        told.write(as_json(task))
        told.flush()
        words = [*command, f"/dev/fd/{told.fileno()}", key]
        child = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=said, stderr=heard, start_new_session=True,
                                 pass_fds=(told.fileno(),))  # fmt: skip
        _running.add(child)
        try:
            code = child.wait(task.seconds)
        except subprocess.TimeoutExpired:
            return _failed(task, key, f"It took longer than {task.seconds:g} seconds and was stopped.")
        finally:
            _stop(child)
            _running.discard(child)
        said.seek(0)
        heard.seek(0)
        return _result(task, key, code, said.read(), heard.read())


def _result(task: Task, key: str, code: int, said: bytes, heard: bytes) -> Result:
    with suppress(ValueError):
        return Result.model_validate_json(said.decode(errors="replace").strip().rpartition("\n")[2])
    last = heard.decode(errors="replace").strip().rpartition("\n")[2][:300]
    if "MemoryError" in last or "Cannot allocate memory" in last:
        return _failed(task, key, f"It needs more memory than {task.memory_mb} MB.")
    if code < 0:
        return _failed(task, key, f"Its process was ended by the system ({signal.Signals(-code).name}); the limit is "
                                  f"{task.memory_mb} MB of memory.")  # fmt: skip
    return _failed(task, key, f"A fault in nailcard: {last or f'exit code {code}'}")


def _failed(task: Task, key: str, says: str, code: Exit = Exit.BUG) -> Result:
    return Result(name=task.name, key=key, code=code, says=says)


def _stop(child: subprocess.Popen[bytes]) -> None:
    """End a process that was started here, with whatever it has started."""
    with suppress(ProcessLookupError, PermissionError):
        if child.poll() is None:
            os.killpg(child.pid, signal.SIGKILL)
    if child.stdin:
        with suppress(OSError):
            child.stdin.close()
    child.wait()


def _stop_all() -> None:
    for child in tuple(_running):
        _stop(child)


def _walked(folder: Path, out: Path) -> Iterator[Found]:
    closed: list[OSError] = []
    for at, folders, names in os.walk(folder, onerror=closed.append):
        here_ = Path(at)
        folders[:] = [name for name in folders if not name.startswith(".") and files.real(here_ / name) != out]
        if any(name in names for name in SKIPPED):
            folders.clear()
            continue
        pdfs = [here_ / name for name in names if name.lower().endswith(".pdf") and not name.startswith(".")]
        if MARKER in names and pdfs:
            yield Found(_name(here_, folder) or files.real(folder).name, plan_files([here_]))
        else:
            yield from (Found(_name(path, folder), (path,)) for path in pdfs)
    for path in (Path(error.filename) for error in closed):  # its name in the summary says that nobody looked inside
        yield Found(_name(path, folder) or files.real(folder).name, (path,))


def _shown(name: str) -> str:
    """A name as text: bytes of a file's name that are no letters are told by their numbers, so that names stay apart."""
    return os.fsencode(name).decode(errors="backslashreplace")


def _name(path: Path, folder: Path) -> str:
    name = path.relative_to(folder).as_posix()
    return "" if name == "." else name
