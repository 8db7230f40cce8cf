"""Stands for ``python -m cards.task`` in tests: two papers instead of all, and plan sets that behave badly by their name."""

import os
import signal
import sys
import time
from pathlib import Path

from cards import packet, task

packet.PAPERS = tuple(paper for paper in packet.PAPERS if paper.name in ("findings.txt", "job.json"))
spec = task.from_file(Path(sys.argv[1]))
name = spec.name
with (Path(spec.out).parent.parent / "ran.log").open("a", encoding="utf-8") as log:
    log.write(name + "\n")
if "hang" in name:
    time.sleep(600)
if "crash" in name:
    os.kill(os.getpid(), signal.SIGSEGV)
if "slow" in name:
    time.sleep(1)
if "greedy" in name:
    task.run = lambda *_: bytearray(4_000_000_000)  # type: ignore[assignment,return-value]
task.main()
