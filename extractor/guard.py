"""Work on files that nobody vouches for, done in a process of its own with limits on memory and time.

A PDF can make the library that opens it take all memory, run for ever or crash; then the process ends, and the run says so.
"""

import multiprocessing
import os
import signal
import threading
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection

from extractor import errors, limits

Progress = Callable[[int, int, str], None]
Work = Callable[[Progress], str]


def guarded(work: Work, progress: Progress | None, where: str) -> str:
    """What ``work`` gives, done in a process of its own; ``progress`` is called here with what the work tells.

    A NailcardError of the work is raised here. Work that is ended for its memory or time, or that crashes, is an OverLimitError.
    Where no process can be forked safely, on other systems or beside other threads, the work is done here without limits.
    """
    if "fork" not in multiprocessing.get_all_start_methods() or threading.active_count() > 1:
        return work(progress or _silent)
    ours, theirs = multiprocessing.Pipe(duplex=False)
    child = multiprocessing.get_context("fork").Process(target=_work, args=(work, theirs))
    child.start()
    theirs.close()
    try:
        return _followed(ours, progress or _silent)
    except EOFError:
        child.join()
        raise _ended(child.exitcode, where) from None
    finally:
        ours.close()
        if child.is_alive():
            child.kill()
        child.join()


def _followed(told: Connection, progress: Progress) -> str:
    while True:
        kind, what = told.recv()
        if kind == "done":
            return str(what)
        if kind == "error":
            name, said, where, do = what
            raise getattr(errors, name)(said, where=where, do=do)
        if kind == "fault":
            raise RuntimeError(what)
        progress(*what)


def _work(work: Work, told: Connection) -> None:
    """The life of the process: limits, work, one last word."""
    _limit()

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


def _limit() -> None:
    import resource

    for kind, most in ((resource.RLIMIT_AS, limits.MEMORY), (resource.RLIMIT_CPU, limits.SECONDS), (resource.RLIMIT_CORE, 0)):
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
