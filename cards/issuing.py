"""A packet with everything kept beside the job: earlier issues are looked at first, and this one is entered in the register."""

from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from cards import kept, load, output, register
from cards.packet import Packet, Print, packet
from extractor import files, limits
from extractor.errors import NailcardError
from extractor.record import Job

WAIT_S = 180.0  # for another run that is writing its packet into the same folder


class Issued(NamedTuple):
    """The job as its papers have it, what was written, its entry in the register, and what to say about earlier issues."""

    job: Job
    packet: Packet
    issue: register.Issue
    notices: tuple[str, ...]


def issue(job: Job, out: Path, how: Print, *, plans: Sequence[Path] = (), copies: int | None = None) -> Issued:
    """Write the packet of ``job`` into the folder ``out``, which is there, and enter it in the folder's register.

    No other run writes there meanwhile: papers of two plan files would lie side by side. The entry comes before the papers: a
    card that no register knows of would not be collected.
    """
    with kept.locked(out, WAIT_S):
        set_aside(out, job.plan_set.sha256)
        noted = register.noticed(job, register.issues(out))
        entries: list[register.Issue] = []
        written = packet(noted, out, how=how, plans=plans,
                         enter=lambda: entries.append(register.add_held(noted, out, copies=copies)))  # fmt: skip
        output.taken_away(out / register.earlier_record(job.plan_set.sha256))  # it is job.json again
    (entry,) = entries
    return Issued(noted, written, entry, tuple(one.message for one in noted.findings if one.code == register.CODE))


def set_aside(folder: Path, sha256: str | None = None) -> None:
    """Keep the record of an earlier plan file, so that what was issued from it can still be compared; no record, nothing kept."""
    path = folder / "job.json"
    old = sha256
    with suppress(NailcardError):
        old = load.record(path).plan_set.sha256
    if old and old != sha256:
        output.write(folder / register.earlier_record(old), files.read(path, limits.RECORD))
