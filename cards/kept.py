"""What is kept beside a job as TOML: read whole, changed by one run at a time, written whole or not at all."""

import fcntl
import os
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from cards import output
from extractor import files
from extractor.errors import OutputError, UsageError

WAIT_S = 20.0


def read(path: Path, form: str) -> dict[str, Any]:
    """What ``path`` holds; nothing where there is no such file. A damaged file is an error: what it kept would be forgotten."""
    try:
        found = files.toml(path)
    except (FileNotFoundError, NotADirectoryError):
        return {}
    except OSError as error:
        raise damaged(path, error.strerror or str(error)) from error
    except ValueError as error:
        raise damaged(path, str(error)) from error
    if found.get("format") != form:
        raise damaged(path, f"its format is {found.get('format')!r}, not {form!r}")
    return found


def write(path: Path, form: str, note: str, table: Mapping[str, Any]) -> None:
    """Write ``table`` with its format and a line of comment for whoever opens the file."""
    import tomli_w

    lines = "".join(f"# {line}\n" for line in note.splitlines())
    output.write(path, (lines + tomli_w.dumps({"format": form, **table})).encode())


def plain(text: str) -> str:
    """Text without control characters and broken signs, which a line of a file cannot hold."""
    return "".join(c if c.isprintable() else " " for c in text).strip()


def damaged(path: Path, why: str) -> UsageError:
    """The error for a kept file that cannot be understood."""
    return UsageError(f"This file is damaged: {kept_line(why)}.", where=str(path), do="Mend it, or put back the last good copy.")


def kept_line(text: str) -> str:
    """The first line of a message, without its full stop."""
    return next(iter(text.strip().splitlines()), "").rstrip(".")


@contextmanager
def locked(folder: Path, wait_s: float = WAIT_S) -> Iterator[None]:
    """Inside, no other run changes what is kept in ``folder``. The lock is the system's and ends with the process."""
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    except OSError as error:
        says = f"The folder cannot be opened: {error.strerror}."
        raise OutputError(says, where=str(folder), do="Name another folder.") from error
    try:
        _take(handle, folder, wait_s)
        yield
    finally:
        os.close(handle)


def _take(handle: int, folder: Path, wait_s: float) -> None:
    until = time.monotonic() + wait_s
    while True:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            if time.monotonic() > until:
                raise OutputError("Another run is changing this folder.", where=str(folder), do="Wait for it to end.") from None
            time.sleep(0.05)
        else:
            return
