"""Progress by sheet: a bar for a person who is looking, a plain line a sheet for a pipe."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO


@contextmanager
def sheets(stream: TextIO) -> Iterator[Callable[[int, int, str], None]]:
    """A function to call with sheets done, sheets in all, and what was just read; it writes to ``stream``."""
    if not stream.isatty():

        def line(done: int, total: int, what: str) -> None:
            stream.write(f"sheet {done} of {total}  {what}".rstrip() + "\n")
            stream.flush()

        yield line
        return

    from rich.console import Console  # slow to import, and a pipe needs none of it
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

    columns = (TextColumn("reading sheet"), MofNCompleteColumn(), BarColumn(), TextColumn("{task.description}", markup=False))
    with Progress(*columns, console=Console(file=stream), transient=True, auto_refresh=False) as bar:
        task = bar.add_task("", total=None)

        def move(done: int, total: int, what: str) -> None:
            bar.update(task, completed=done, total=total, description=what, refresh=True)

        yield move
