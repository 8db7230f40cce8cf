"""Plans and what is kept beside them changed at random, any words in a schedule: a job or an error for a person, nothing else.

The seed is fixed so that a run can be repeated; NAILCARD_FUZZ_SEED and NAILCARD_FUZZ_COUNT try others.
"""

import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from extractor.errors import NailcardError
from extractor.read import read
from extractor.record import Job, State, readings
from tests.hostile import making

SEED = os.environ.get("NAILCARD_FUZZ_SEED", "20260317")
COUNT = int(os.environ.get("NAILCARD_FUZZ_COUNT", "100"))


@pytest.mark.skipif(sys.platform == "win32", reason="needs fork")
@pytest.mark.parametrize(
    ("script", "count", "least"),
    [("fuzzing", COUNT, 40), ("fuzzcommands", COUNT // 2, 20)],
    ids=["plans are read", "plans, records and kept files, for every command"],
)
def test_changed_files_give_a_result_or_an_error_for_a_person(
    script: str, count: int, least: int, capsys: pytest.CaptureFixture[str]
) -> None:
    words = [sys.executable, "-m", f"tests.hostile.{script}", SEED, str(count), "40"]
    said = subprocess.run(words, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    with capsys.disabled():
        sys.stdout.write("\n" + said.stdout)
    assert said.returncode == 0, said.stdout + said.stderr[-2000:]
    tried = re.search(r"(\d+) inputs tried", said.stdout)
    assert tried
    assert int(tried[1]) >= min(count, least), "the machine is so slow that too few inputs were tried"


TRADE = st.sampled_from(
    ['6" O.C.', "8d", "15/32", "@", "(2)", "STAGG.", "OR", "-", "N/A", "3x", "5/8", "SEE", "'", '"', "½", "7/162", "0"]
)
CELL = st.lists(TRADE | st.text(st.characters(codec="latin-1", exclude_categories=["Cc"]), max_size=8), max_size=6).map(" ".join)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
@given(edge=CELL, nail=CELL, mark=CELL)
def test_any_words_in_a_row_give_a_job_or_an_error_for_a_person(edge: str, nail: str, mark: str) -> None:
    drawn = making.table()
    for old, new in ((b'6" O.C.', edge), (b"8d COMMON", nail), (b"SW1", mark)):
        cell = new.encode("latin-1").replace(b"\\", b"\\\\").replace(b"(", b"\\(").replace(b")", b"\\)")
        drawn = drawn.replace(b"(" + old + b")", b"(" + cell + b")", 1)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "any.pdf"
        path.write_bytes(making.one_sheet(drawn + making.block()))
        try:
            job = read([path])
        except NailcardError:
            return
    assert Job.model_validate_json(job.to_json()) == job
    for wall in job.wall_types:
        for field, one in readings(wall):
            assert one.as_printed.strip()
            assert one.state is not State.READ or one.value is not None, field
