"""Plan sets of the fixtures, each read once for all the tests of a run."""

from functools import cache
from pathlib import Path

from extractor.read import read
from extractor.record import Job

FIXTURES = Path(__file__).parents[2] / "fixtures"
DEMO = FIXTURES / "demo.pdf"


@cache
def job_of(path: Path) -> Job:
    return read([path])
