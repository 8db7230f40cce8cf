"""Files written whole or not at all, and never over the plans."""

import os
import secrets
from collections.abc import Sequence
from pathlib import Path

from extractor import files
from extractor.errors import OutputError


def write(path: Path, data: bytes, *, plans: Sequence[Path] = ()) -> None:
    """Write ``data`` to ``path``: the whole file appears at once, or the old one stays as it was."""
    target = writable(path, plans=plans)
    draft = target.with_name(f".nailcard-{os.getpid()}-{secrets.token_hex(4)}")
    try:
        _write_through(draft, data)
        if target.exists():
            draft.chmod(target.stat().st_mode & 0o777)
        draft.replace(target)
    except OSError as error:
        raise _cannot(path, error) from error
    finally:
        draft.unlink(missing_ok=True)


def writable(path: Path, *, plans: Sequence[Path] = ()) -> Path:
    """The file that ``path`` leads to; an OutputError where it could not be written, before any long work is done."""
    try:
        target = files.real(path)
        if path.is_symlink() and target.parent != files.real(path.parent):
            raise OutputError(
                "The output is a link that leads elsewhere.",
                where=f"{path} to {target}",
                do="Take the link away, or name its file.",
            )
        if target.is_dir():
            raise OutputError("The output is a folder, not a file.", where=str(path), do="Name a file in that folder.")
        if target.exists() and not target.is_file():
            raise OutputError("The output is not a file.", where=str(path), do="Name a file.")
        if any(target.exists() and plan.exists() and target.samefile(plan) for plan in plans):
            raise OutputError("This would overwrite the plans.", where=str(path), do="Give the output another name.")
        _folder_takes_files(target.parent, path)
        if target.exists() and not os.access(target, os.W_OK):
            raise OutputError("The file is there and may not be changed.", where=str(path), do="Name another one, or let it go.")
    except OSError as error:
        raise _cannot(path, error) from error
    return target


def taken_away(path: Path) -> bool:
    """Whether there was such a file and it is gone now; an OutputError where it is there and stays. Of a link, the link goes."""
    try:
        path.unlink()
    except FileNotFoundError:
        return False
    except OSError as error:
        raise OutputError(f"An old file cannot be taken away: {error.strerror}.", where=str(path), do="Take it away.") from error
    return True


def folder(path: Path) -> None:
    """Make the folder ``path`` where there is none; an OutputError where it cannot hold files."""
    try:
        path.mkdir(parents=True, exist_ok=True)
        _folder_takes_files(path, path)
    except FileExistsError:
        raise OutputError("The output is a file, not a folder.", where=str(path), do="Name another folder.") from None
    except OSError as error:
        raise _cannot(path, error) from error


def _folder_takes_files(parent: Path, path: Path) -> None:
    if not parent.is_dir():
        raise OutputError("There is no such folder to write in.", where=str(path), do="Make the folder, or name another one.")
    if not os.access(parent, os.W_OK | os.X_OK):
        raise OutputError("The folder cannot be written in.", where=str(path), do="Name a folder where you may write.")


def _write_through(draft: Path, data: bytes) -> None:
    with draft.open("xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _cannot(path: Path, error: OSError) -> OutputError:
    return OutputError(
        f"The output cannot be written: {error.strerror or error}.", where=str(path), do="Name another folder, or make room."
    )
