"""Work on files that nobody vouches for, done in a process of its own with limits on memory and time.

A PDF can make the library that opens it take all memory, run for ever or crash; then the process ends, and the run says so.
The process is forked where nothing else runs beside the caller, which costs nothing; beside other threads a fresh one is
started, so work has to be a function of a module with what it takes, put together by ``functools.partial``.
"""

import logging
import multiprocessing
import os
import signal
import sys
import threading
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any, NamedTuple, TypeVar

from extractor import errors, limits, password

T = TypeVar("T")
Progress = Callable[[int, int, str], None]

_inside = False


class _Terms(NamedTuple):
    """What the process gets along: its limits, and the password that plans are opened with. Sent, never an argument."""

    memory: int
    seconds: int
    parent: int
    password: str | None


def guarded(work: Callable[[Progress], T], progress: Progress | None, where: str) -> T:
    """What ``work`` gives, done in a process of its own; ``progress`` is called here with what the work tells.

    A NailcardError of the work is raised here. Work that is ended for its memory or time, or that crashes, is an OverLimitError.
    In a process that is guarded already the work is done as it is.
    """
    if _inside:
        return work(progress or _silent)
    terms = _Terms(limits.MEMORY, limits.SECONDS, os.getpid(), password.in_use())
    context: Any = multiprocessing.get_context("fork" if can_fork() else "spawn")
    ours, theirs = multiprocessing.Pipe(duplex=False)
    child = context.Process(target=_work, args=(work, theirs, terms))
    child.start()
    theirs.close()
    try:
        given: T = _followed(ours, progress or _silent)
        return given
    except EOFError:
        child.join()
        raise _ended(child.exitcode, where) from None
    finally:
        ours.close()
        if child.is_alive():
            child.kill()
        child.join()


def can_fork() -> bool:
    """Whether a copy of this process would be sound: other threads would not be in it, and what they hold would stay held."""
    return "fork" in multiprocessing.get_all_start_methods() and threading.active_count() == 1


def already() -> None:
    """From now on this process is one that somebody else has given limits: work in it needs no other."""
    global _inside
    _inside = True


def end_with(parent: int) -> None:
    """End this process when ``parent``, which started it, ends in whatever way. Linux alone knows how."""
    if sys.platform != "linux":
        return
    import ctypes

    set_death_signal = 1  # PR_SET_PDEATHSIG in linux/prctl.h
    ctypes.CDLL(None).prctl(set_death_signal, signal.SIGKILL, 0, 0, 0)
    if os.getppid() != parent:  # it ended before it could be asked
        os._exit(1)


def _followed(told: Connection, progress: Progress) -> Any:
    while True:
        kind, what = told.recv()
        if kind == "done":
            return what
        if kind == "error":
            name, said, where, do = what
            raise getattr(errors, name)(said, where=where, do=do)
        if kind == "fault":
            raise RuntimeError(what)
        progress(*what)


def _work(work: Callable[[Progress], object], told: Connection, terms: _Terms) -> None:
    """The life of the process: limits, work, one last word."""
    end_with(terms.parent)
    _limit(terms)
    already()
    password.use(terms.password)
    logging.getLogger("pdfminer").setLevel(logging.ERROR)

    def progress(done: int, total: int, what: str) -> None:
        told.send(("step", (done, total, what)))

    try:
        told.send(("done", work(progress)))
    except errors.NailcardError as error:
        told.send(("error", (type(error).__name__, error.what, error.where, error.do)))
    except MemoryError:
        os._exit(signal.SIGKILL)
    except (KeyboardInterrupt, BrokenPipeError):
        os._exit(1)
    except Exception:
        told.send(("fault", traceback.format_exc()))


def _limit(terms: _Terms) -> None:
    import resource

    wanted = ((resource.RLIMIT_AS, terms.memory), (resource.RLIMIT_CPU, terms.seconds), (resource.RLIMIT_CORE, 0))
    for kind, most in wanted:
        hard = resource.getrlimit(kind)[1]
        least = most if hard == resource.RLIM_INFINITY else min(most, hard)
        try:
            resource.setrlimit(kind, (least, hard))
        except (OSError, ValueError):
            continue  # a system that knows no such limit


def _ended(code: int | None, where: str) -> errors.OverLimitError:
    if code == -signal.SIGXCPU:
        what = f"Reading these plans takes longer than {limits.SECONDS / 60:g} minutes."
    elif code in (-signal.SIGKILL, signal.SIGKILL):
        what = f"Reading these plans takes more than {limits.MEMORY >> 20:,} MB of memory."
    else:
        what = f"Reading these plans takes more than {limits.MEMORY >> 20:,} MB of memory, or breaks the program that opens PDFs."
    return errors.OverLimitError(what, where=where, do="Ask for a new PDF, or read the sheets that matter alone.")


def _silent(done: int, total: int, what: str) -> None:
    pass
