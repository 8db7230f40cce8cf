"""The password that locked plans are opened with: kept for one run, never an argument on the command line, never printed."""

import os
import select
from contextvars import ContextVar
from pathlib import Path

from extractor.errors import UsageError

_kept: ContextVar[str | None] = ContextVar("password", default=None)
LONGEST = 1024  # bytes: a longer file is no password file


def use(password: str | None) -> None:
    """Open locked plans with this password from now on, in this context."""
    _kept.set(password)


def in_use() -> str | None:
    """The password of this run; None where none was given."""
    return _kept.get()


def _words(path: Path) -> bytes:
    """The first bytes of the file; of a pipe, what its writer gives, and nothing where nobody writes."""
    said = b""
    with open(path, "rb", buffering=0, opener=lambda name, flags: os.open(name, flags | getattr(os, "O_NONBLOCK", 0))) as file:
        while len(said) <= LONGEST:
            more = file.read(LONGEST + 1 - len(said))
            if more is None:  # its writer has nothing yet
                select.select([file], [], [])
            elif not more:
                break
            else:
                said += more
    return said


def from_file(path: Path) -> str:
    """The password that stands in a file: its first line, as UTF-8."""
    try:
        words = _words(path)
        password = words.decode("utf-8-sig").splitlines()[0] if words.strip() else ""
    except (OSError, UnicodeDecodeError) as error:
        raise UsageError("The password file cannot be read.", where=str(path), do="Name a text file of one line.") from error
    if not password or len(words) > LONGEST:
        raise UsageError(
            "The password file holds no password.", where=str(path), do="Write the password alone on its first line."
        )
    return password
