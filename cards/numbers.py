"""Question numbers that stay: a finding keeps its number from run to run, in a small file beside the papers.

An answered question leaves a gap. Its number is never given to another question, because the old one stands on paper.
"""

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from extractor import files
from extractor.checks.fields import step
from extractor.errors import UsageError
from extractor.record import Finding, Level

NAME = "questions.toml"
FORMAT = "nailcard.questions/1"

_LEVELS = (Level.STOP, Level.ASK, Level.NOTE)
_ASIDE = re.compile(r" ?\([^()]*\)|\b(?:once|\d+ times)\b")


class Entry(NamedTuple):
    """A number that was given, and the question it was given to; ``about`` is what its message says, without places."""

    number: int
    code: str
    wall_type: str
    field: str
    about: str

    @property
    def name(self) -> str:
        """The number as papers print it."""
        return f"Q-{self.number:02}"

    @property
    def key(self) -> tuple[str, str, str]:
        """What the question is about, whatever its words are today."""
        return self.code, self.wall_type, self.field


_in_use: ContextVar[tuple[Entry, ...]] = ContextVar("numbers of questions", default=())


def in_use() -> tuple[Entry, ...]:
    """The numbers given in earlier runs that hold here."""
    return _in_use.get()


def use(known: tuple[Entry, ...]) -> None:
    """From here on, questions keep the numbers in ``known``."""
    _in_use.set(known)


@contextmanager
def using(known: tuple[Entry, ...]) -> Iterator[None]:
    """Inside, questions keep the numbers in ``known``; outside, nothing has changed."""
    token = _in_use.set(known)
    try:
        yield
    finally:
        _in_use.reset(token)


def given(findings: Sequence[Finding]) -> tuple[Entry | None, ...]:
    """The number of each finding's question; None for a note.

    A question that had a number keeps it. New ones take the next free numbers: first what holds the pour, then the order,
    nailing, cover; a stop before an ask.
    """
    return _given(tuple(findings), in_use())


@lru_cache(maxsize=8)  # every card asks for the numbers of the whole job
def _given(findings: tuple[Finding, ...], before: tuple[Entry, ...]) -> tuple[Entry | None, ...]:
    known = list(before)
    free = max((entry.number for entry in known), default=0) + 1
    entries: list[Entry | None] = [None] * len(findings)
    for match in (_same_words, _same_thing):
        for place in _in_order(findings, entries):
            found = match(findings[place], known, findings) if known else None
            if found:
                entries[place] = found
                known.remove(found)
    for number, place in enumerate(_in_order(findings, entries), free):
        entries[place] = _entry(number, findings[place])
    return tuple(entries)


def closed(findings: Sequence[Finding]) -> tuple[Entry, ...]:
    """Numbers given earlier whose question is not found any more."""
    still = {entry.number for entry in given(findings) if entry}
    return tuple(entry for entry in in_use() if entry.number not in still)


def beside(path: Path) -> Path:
    """The file of numbers beside a plan set, a job record, or in a folder."""
    return (path if files.is_folder(path) else path.parent) / NAME


def load(path: Path) -> tuple[Entry, ...]:
    """The numbers in ``path``; none where there is no such file. A damaged file is an error: numbers on paper would move."""
    try:
        found = files.toml(path)
        entries = tuple(_checked(one) for one in found.get("question", []))
        if found.get("format") != FORMAT or len({entry.number for entry in entries}) < len(entries):
            raise ValueError
    except (FileNotFoundError, NotADirectoryError):
        return ()
    except (ValueError, KeyError, TypeError, OSError):
        raise UsageError(
            "The file of question numbers is damaged.",
            where=str(path),
            do="Put back the copy from the last packet. Without one, delete it and hand out every card and question anew.",
        ) from None
    return entries


def as_toml(findings: Sequence[Finding]) -> str:
    """Every number ever given, with its question, for the next run."""
    every = {entry.number: entry for entry in (*in_use(), *given(findings)) if entry}
    lines = ["# Numbers of the questions of this job. They stand on cards and papers: keep this file with them.",
             f'format = "{FORMAT}"']  # fmt: skip
    for number in sorted(every):
        entry = every[number]
        lines += ["", "[[question]]", f"number = {number}"]
        lines += [f"{name} = {_quoted(text)}" for name, text in entry._asdict().items() if name != "number" and text]
    return "\n".join(lines) + "\n"


def _in_order(findings: Sequence[Finding], entries: Sequence[Entry | None]) -> list[int]:
    """Places of the questions that have no number yet, by the step of the job they hold, then by level."""
    waiting = [i for i, one in enumerate(findings) if one.level is not Level.NOTE and entries[i] is None]
    return sorted(waiting, key=lambda i: (step(findings[i].field, findings[i].code), _LEVELS.index(findings[i].level)))


def _same_words(finding: Finding, known: Sequence[Entry], _: Sequence[Finding]) -> Entry | None:
    wanted = _entry(0, finding)[1:]
    return next((entry for entry in known if entry[1:] == wanted), None)


def _same_thing(finding: Finding, known: Sequence[Entry], findings: Sequence[Finding]) -> Entry | None:
    """The one question about this field of this type, where its words alone have changed."""
    key = _entry(0, finding).key
    alike = [entry for entry in known if entry.key == key]
    now = [one for one in findings if _entry(0, one).key == key]
    return alike[0] if finding.wall_type and len(alike) == len(now) == 1 else None


def _entry(number: int, finding: Finding) -> Entry:
    about = " ".join(_ASIDE.sub("", _plain(finding.message)).split())
    return Entry(number, finding.code, _plain(finding.wall_type or ""), _plain(finding.field or ""), about)


def _checked(found: dict[str, object]) -> Entry:
    number = found["number"]
    texts = [found.get(name, "") for name in ("code", "wall_type", "field", "about")]
    if not isinstance(number, int) or isinstance(number, bool) or number < 1 or not all(isinstance(text, str) for text in texts):
        raise ValueError
    return Entry(number, *map(str, texts))


def _plain(text: str) -> str:
    """Words without control characters, which a file of one line a value cannot hold."""
    return "".join(c if c.isprintable() else " " for c in text)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
