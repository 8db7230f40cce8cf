"""A packet with everything kept beside the job: earlier issues are looked at first, and this one is entered in the register."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from cards import kept, register
from cards.packet import Packet, Print, packet
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
        noted = register.noticed(job, register.issues(out))
        entries: list[register.Issue] = []
        written = packet(noted, out, how=how, plans=plans,
                         enter=lambda: entries.append(register.add_held(noted, out, copies=copies)))  # fmt: skip
    (entry,) = entries
    return Issued(noted, written, entry, tuple(one.message for one in noted.findings if one.code == register.CODE))
