"""What reading and printing cost, as ratios in one run: ``python -m tests.bench.bench [--quick]``.

Every case runs in a process of its own, some more than once, and the least time counts. Seconds depend on the machine, ratios
hardly. Nothing here is a test: a loaded machine would make it fail.
"""

import argparse
import json
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from tests.bench.heavy import heavy

SIXTY = Path(__file__).parents[2] / "fixtures" / "sixty-types.pdf"
NAILCARD = (sys.executable, "-c", "from cards.cli import main; main()")
BARE = """
import sys, pypdfium2
document = pypdfium2.PdfDocument(sys.argv[1])
for index in range(len(document)):
    page = document[index]
    text = page.get_textpage()
    text.get_text_range()
    text.close()
    page.close()
"""
PLUMBER = """
import sys, pdfplumber
with pdfplumber.open(sys.argv[1]) as pdf:
    for page in pdf.pages[:int(sys.argv[2])]:
        page.extract_words()
        page.close()
"""


class Cost(NamedTuple):
    """Seconds on the clock, seconds of processor time of all processes, and the largest process in MB."""

    wall: float
    cpu: float
    mb: float


def cost(*words: object, times: int = 3) -> Cost:
    """The least that a command costs; it has to succeed."""
    return Cost(*(min(values) for values in zip(*(_once([str(word) for word in words]) for _ in range(times)), strict=True)))


def _once(words: Sequence[str]) -> Cost:
    """One run, watched by a process that does nothing else, so that the figures are the run's own."""
    watch = (
        "import json, resource, subprocess, sys, time\n"
        "began = time.perf_counter()\n"
        "code = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode\n"
        "used = resource.getrusage(resource.RUSAGE_CHILDREN)\n"
        "print(json.dumps([code, time.perf_counter() - began, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024]))\n"
    )
    said = subprocess.run([sys.executable, "-c", watch, *words], capture_output=True, text=True, check=True)
    code, *figures = json.loads(said.stdout)
    assert code == 0, f"exit code {code}: {' '.join(words)}"
    return Cost(*figures)


def line(what: str, figure: str, aim: str = "") -> None:
    """One line of the report."""
    sys.stdout.write(f"{what:<78} {figure:>12}   {aim}\n")
    sys.stdout.flush()


def reading(folder: Path, sheets: int, segments: int) -> None:
    """The whole set against a bare pass over its text, and against pdfplumber on three of its pages."""
    plans = folder / "heavy.pdf"
    heavy(plans, sheets, segments=segments)
    bare = cost(sys.executable, "-c", BARE, plans)
    read = cost(*NAILCARD, "read", plans, "--out", folder / "heavy.json")
    line(f"{sheets} sheets, {plans.stat().st_size / 1e6:.0f} MB: bare text pass of pypdfium2, one process", f"{bare.wall:.2f} s")
    line("read / bare, on the clock", f"{read.wall / bare.wall:.2f}", f"below 1 with {os.cpu_count()} cores")
    line("read / bare, processor time", f"{read.cpu / bare.cpu:.2f}", "at most 1.5")
    pages = min(3, sheets)
    plumber = cost(sys.executable, "-c", PLUMBER, plans, pages, times=1)
    line(
        "pdfplumber's words of every page / read (from 3 pages)",
        f"{plumber.wall / pages * sheets / read.wall:.0f}",
        "at least 100",
    )
    packet = cost(*NAILCARD, "packet", plans, "--out", folder / "packet", times=1)
    line("packet with 8 cards / bare, on the clock", f"{packet.wall / bare.wall:.2f}", "at most 3 with 12 cards")
    line("peak memory of a process: read, packet", f"{read.mb:.0f}, {packet.mb:.0f} MB", "at most 200 (read)")


def growing(folder: Path, counts: Sequence[int]) -> None:
    """Memory and time from few sheets to many."""
    found = []
    for sheets in counts:
        plans = folder / f"{sheets}.pdf"
        heavy(plans, sheets, segments=4_000)
        found.append(cost(*NAILCARD, "read", plans, "--out", folder / "grown.json", times=2))
        line(f"{sheets} sheets of 4,000 segments: peak memory of a process", f"{found[-1].mb:.0f} MB", "flat, at most 200")
    each = [one.cpu / count for one, count in zip(found, counts, strict=True)]
    line(f"processor time a sheet, {counts[-1]} sheets / {counts[0]} sheets", f"{each[-1] / each[0]:.2f}", "at most 1.1: linear")


def beside(folder: Path) -> None:
    """A schedule sheet that is itself heavy."""
    costs = []
    for segments in (0, 100_000):
        plans = folder / f"beside-{segments}.pdf"
        heavy(plans, 2, segments=100, beside=segments)
        costs.append(cost(*NAILCARD, "read", plans, "--out", folder / "beside.json"))
    bare = cost(sys.executable, "-c", BARE, plans)
    line(
        "100,000 segments beside the schedule: more than without them",
        f"{costs[1].wall - costs[0].wall:.2f} s",
        "at most a second",
    )
    line("the same / bare text pass over that sheet", f"{(costs[1].wall - costs[0].wall) / bare.wall:.0f}")


def printing(folder: Path) -> None:
    """Sixty cards against twelve, from job records."""
    sixty = folder / "sixty.json"
    cost(*NAILCARD, "read", SIXTY, "--out", sixty, times=1)
    record = json.loads(sixty.read_text(encoding="utf-8"))
    kept = {row["mark"]["value"] for row in record["wall_types"][:12]}
    record["wall_types"] = record["wall_types"][:12]
    record["findings"] = [one for one in record["findings"] if one["wall_type"] in kept or one["wall_type"] is None]
    record["plan_marks"] = [one for one in record["plan_marks"] if one["mark"] in kept]
    twelve = folder / "twelve.json"
    twelve.write_text(json.dumps(record), encoding="utf-8")
    costs = {name: cost(*NAILCARD, "cards", name, "--out", folder / "cards.pdf", times=2) for name in (twelve, sixty)}
    line("60 cards / 12 cards, processor time", f"{costs[sixty].cpu / costs[twelve].cpu:.2f}", "at most 5: linear")
    line("one more card", f"{(costs[sixty].cpu - costs[twelve].cpu) / 48 * 1000:.0f} ms")
    start = cost(*NAILCARD, "--help")
    line("nailcard --help, processor time", f"{start.cpu:.3f} s", "at most 0.15")
    line("the same / python -c pass", f"{start.cpu / cost(sys.executable, '-c', 'pass').cpu:.1f}")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    parser.add_argument("--quick", action="store_true", help="a fifth of the sheets: a first look")
    quick = parser.parse_args().quick
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        reading(folder, 20 if quick else 100, 40_000)
        growing(folder, (20, 80) if quick else (100, 400))
        beside(folder)
        printing(folder)
    line("all of this", f"{time.monotonic() - began:.0f} s")


if __name__ == "__main__":
    main()
