"""Files that a person named or that lie beside plans: ordinary files alone, and no larger than they may be.

A pipe waits for ever, a device such as /dev/zero never ends; a link may lead to either, or in a ring.
"""

import errno
import io
import os
import stat
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from extractor import limits


@contextmanager
def opened(path: Path) -> Iterator[io.BufferedReader]:
    """The file, open to be read; an OSError where it cannot be opened or is no ordinary file."""

    def without_waiting(name: str, flags: int) -> int:
        return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))

    with open(path, "rb", opener=without_waiting) as file:  # Path.open takes no opener
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(errno.EINVAL, "It is no ordinary file", str(path))
        yield file


def read(path: Path, most: int = limits.KEPT) -> bytes:
    """What the file holds; an OSError where it is no ordinary file, cannot be read, or holds more than ``most`` bytes."""
    with opened(path) as file:
        data = file.read(most + 1)
    if len(data) > most:
        raise OSError(errno.EFBIG, f"It is larger than {most >> 20} MB", str(path))
    return data


def toml(path: Path) -> dict[str, Any]:
    """What a TOML file holds; an OSError as `read` has it, a ValueError where it is no TOML that anybody would write."""
    try:
        return tomllib.loads(read(path).decode("utf-8-sig"))
    except RecursionError:
        raise ValueError("It is nested too deep") from None


def is_file(path: Path) -> bool:
    """Whether an ordinary file is there; where nobody may look, or a name is too long, there is none."""
    try:
        return path.is_file()
    except OSError:
        return False


def is_folder(path: Path) -> bool:
    """Whether a folder is there, likewise."""
    try:
        return path.is_dir()
    except OSError:
        return False


def real(path: Path) -> Path:
    """Where the path leads when every link in it is followed; a link that leads in a ring leads to itself."""
    return Path(os.path.realpath(path))
