"""Files that are broken or made to break programs: each ends in a job or in an error that names the file."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from extractor import limits, password
from extractor.errors import DamagedPlansError, LockedPlansError, NailcardError, NoScheduleError, OverLimitError, PlansError
from extractor.paper.plans import open_plans
from extractor.read import read
from extractor.record import State, readings
from tests.hostile import making

BOTH = ("SW1", "SW2")
WHOLE = {
    "sound": "a schedule of two types",
    "nested_arrays": "PDF arrays may nest; no depth is stated",
    "form_that_draws_itself": "a form that draws itself is left out",
    "count_of_pages_is_a_lie": "/Count is wrong, /Kids is right",
    "huge_page": "200 x 200 in, the largest page of PDF 1.7, annex C",
    "absurd_page": "a reader gives such a page the usual size",
    "page_without_size": "a reader gives such a page the usual size",
    "wrong_lengths": "/Length is wrong, endstream is right",
    "broken_xref": "the table of places is wrong and can be made anew",
    "no_xref": "the table of places is missing and can be made anew",
    "xref_points_nowhere": "startxref is wrong",
    "previous_in_a_ring": "/Prev leads back",
    "numbers_out_of_range": "numbers that no machine holds",
    "repetitive_note": "notes of thousands of words",
}
REFUSED = {
    "nested_forms": (NailcardError, "page", "forms two hundred deep are drawn by no reader"),
    "pages_in_a_ring": (DamagedPlansError, "A page is broken", "the tree of pages leads back to its root"),
    "page_that_is_none": (DamagedPlansError, "A page is broken", "a font stands where a page should"),
    "no_pages": (PlansError, "The PDF", "no page at all"),
    "no_catalog": (DamagedPlansError, "cannot be opened", "the root is a number"),
    "broken_font": (PlansError, "letters make no words", "a map of letters that maps to nothing"),
    "lone_surrogates": (NoScheduleError, "No shear wall schedule", "the words SHEAR WALL have no A in this map"),
}


def _plans(tmp_path: Path, data: bytes, name: str = "plans.pdf") -> Path:
    path = tmp_path / name
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("name", WHOLE, ids=lambda name: f"{name}: {WHOLE[name]}")
def test_what_a_reader_can_show_is_read(name: str, tmp_path: Path) -> None:
    job = read([_plans(tmp_path, making.SMALL[name]())])
    assert tuple(wall.mark.value for wall in job.wall_types) == BOTH
    assert [wall.edge.spacing_in.value for wall in job.wall_types if wall.edge.spacing_in] == [6.0, 4.0]


def test_a_word_that_runs_over_its_row_spoils_no_value(tmp_path: Path) -> None:
    """Twenty thousand letters over the cells of SW1: its values are right or not given, and SW2 is as it was."""
    first, second = read([_plans(tmp_path, making.one_long_word())]).wall_types
    assert second.edge.spacing_in
    assert second.edge.spacing_in.value == 4.0
    assert first.edge.spacing_in is None or first.edge.spacing_in.value in (None, 6.0)


@pytest.mark.parametrize("name", REFUSED, ids=lambda name: f"{name}: {REFUSED[name][2]}")
def test_what_cannot_be_read_is_refused_by_name(name: str, tmp_path: Path) -> None:
    error, words, _ = REFUSED[name]
    with pytest.raises(error, match=words) as raised:
        read([_plans(tmp_path, making.SMALL[name](), f"{name}.pdf")])
    assert f"{name}.pdf" in raised.value.where


def test_every_small_file_is_tried() -> None:
    assert {*WHOLE, *REFUSED, "one_long_word"} == set(making.SMALL)


@pytest.mark.parametrize(
    ("made", "what", "source"),
    [
        (lambda: making.characters(limits.LETTERS + 20_000), "letters", "limits.py"),
        (lambda: making.annotations(limits.LABELS + 1), "annotations", "limits.py"),
    ],
)
def test_a_sheet_beyond_the_limits_is_refused_with_its_page(
    made: Callable[[], bytes], what: str, source: str, tmp_path: Path
) -> None:
    with pytest.raises(OverLimitError, match=what) as raised:
        read([_plans(tmp_path, made())])
    assert raised.value.where.endswith("plans.pdf, page 1"), source


def test_more_lines_than_any_sheet_has_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "PATHS", 10_000)
    with pytest.raises(OverLimitError, match="drawn lines"):
        read([_plans(tmp_path, making.segments(10_001))])


def test_more_pages_than_any_set_has_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limits, "PAGES", 3)
    with pytest.raises(OverLimitError, match="4 pages; at most 3"):
        read([_plans(tmp_path, making.many_pages(4))])


@pytest.mark.parametrize("segments", [30_000, 200_000])
def test_lines_all_over_the_sheet_leave_the_schedule_as_it_is(segments: int, tmp_path: Path) -> None:
    job = read([_plans(tmp_path, making.segments(segments))])
    assert tuple(wall.mark.value for wall in job.wall_types) == BOTH


@pytest.mark.parametrize("name", ["nested states", "ten thousand pages", "letters in one place", "annotations"])
def test_heavy_files_that_hold_a_schedule_are_read(name: str, tmp_path: Path) -> None:
    job = read([_plans(tmp_path, making.HEAVY[name]())])
    assert tuple(wall.mark.value for wall in job.wall_types) == BOTH


@pytest.mark.parametrize("word", [b"ALL", b"OF", b"AND"])
def test_a_note_without_an_end_is_named_and_spoils_no_row(word: bytes, tmp_path: Path) -> None:
    job = read([_plans(tmp_path, making.endless_note(word, 40_000))])
    assert tuple(wall.mark.value for wall in job.wall_types) == BOTH
    (told,) = [one.message for one in job.findings if one.code == "table-not-read"]
    assert told.startswith("“SHEAR WALLS")
    assert "was seen and not read: a note with a sentence of more than 3,000 letters. Look at it by eye." in told


def test_a_net_of_rules_that_is_no_table_gives_no_value(tmp_path: Path) -> None:
    """A schedule drawn over with a thousand rules: its rows are read right or not at all."""
    try:
        job = read([_plans(tmp_path, making.HEAVY["a net of rules"]())])
    except NoScheduleError:
        return
    assert [wall.edge.spacing_in.value for wall in job.wall_types if wall.edge.spacing_in] in ([], [6.0, 4.0])


def _guarded(path: Path, memory_mb: int, seconds: int) -> "subprocess.CompletedProcess[str]":
    """The command on a file, in a process of its own, with lower limits."""
    script = (
        "import sys; from extractor import limits; from cards.cli import main\n"
        f"limits.MEMORY, limits.SECONDS = {memory_mb} << 20, {seconds}\n"
        "main(['read', sys.argv[1], '--out', sys.argv[1] + '.json'])"
    )
    return subprocess.run([sys.executable, "-c", script, str(path)], capture_output=True, text=True, timeout=120, check=False)


@pytest.mark.skipif(sys.platform != "linux", reason="limits on memory hold on Linux")
@pytest.mark.parametrize(
    ("name", "memory_mb", "seconds", "words"),
    [
        ("forms that double", 700, 60, "more than 700 MB of memory"),  # a thousand million objects
        ("bomb", 400, 60, "of memory"),  # four hundred million bytes
        ("half a million letters", 2000, 1, "takes longer than"),
    ],
)
def test_what_would_eat_the_machine_is_ended_and_said(
    name: str, memory_mb: int, seconds: int, words: str, tmp_path: Path
) -> None:
    said = _guarded(_plans(tmp_path, making.HEAVY[name](), "eater.pdf"), memory_mb, seconds)
    assert said.returncode == 3, said.stderr
    assert "Traceback" not in said.stderr
    assert "eater.pdf" in said.stderr
    assert words in said.stderr or "at most" in said.stderr
    assert not (tmp_path / "eater.pdf.json").exists()


def test_a_bomb_that_fits_is_read(tmp_path: Path) -> None:
    """Four hundred million blanks in 400 kB, a schedule behind them, within the usual limits."""
    path = _plans(tmp_path, making.bomb(100_000_000))
    said = _guarded(path, limits.MEMORY >> 20, limits.SECONDS)
    assert said.returncode == 0, said.stderr


LOCKS = [
    ("", "owner", None, True, "an empty user password opens in every reader"),
    ("plover", "owner", None, False, "a user password is asked for"),
    ("plover", "owner", "plover", True, "the user password"),
    ("plover", "owner", "owner", True, "the owner's password opens, too"),
    ("plover", "owner", "heron", False, "a wrong password"),
    ("møller", "owner", "møller", True, "letters outside ASCII"),
]


@pytest.mark.parametrize(("user", "owner", "given", "opens", "source"), LOCKS)
def test_locked_plans_open_with_their_password_alone(
    user: str, owner: str, given: str | None, opens: bool, source: str, tmp_path: Path
) -> None:
    path = _plans(tmp_path, making.encrypted(making.sound(), user, owner))
    if opens:
        assert tuple(wall.mark.value for wall in read([path], password=given).wall_types) == BOTH, source
        return
    with pytest.raises(LockedPlansError) as raised:
        read([path], password=given)
    assert raised.value.what == ("The password does not open the plans." if given else "The plans need a password."), source
    assert given is None or given not in str(raised.value)


def test_a_password_kept_for_the_run_is_used(tmp_path: Path) -> None:
    path = _plans(tmp_path, making.encrypted(making.sound(), "plover", "owner"))
    password.use("plover")
    try:
        with open_plans([path]) as plans:
            assert len(plans.sheets) == 1
    finally:
        password.use(None)


@pytest.mark.parametrize(("name", "shown"), [(b"new\nline.pdf", "new�line.pdf"), (b"plan\xff.pdf", "plan�.pdf"),
                                             ("a\u202egpj.pdf".encode(), "a�gpj.pdf")])  # fmt: skip
def test_names_that_a_terminal_would_obey_are_made_harmless(name: bytes, shown: str, tmp_path: Path) -> None:
    path = Path(os.fsdecode(os.fsencode(tmp_path) + b"/" + name))
    path.write_bytes(making.sound())
    job = read([path])
    assert job.plan_set.file == shown
    assert shown in job.to_json()


def test_letters_without_ink_are_no_letters(tmp_path: Path) -> None:
    """A sign that turns a line round, put between printed letters, changes no value."""
    one = b"1 begincodespacerange <00> <FF> endcodespacerange 1 beginbfchar <7E> <202E> endbfchar"
    to_unicode = making.stream(b"begincmap " + one + b" endcmap")
    drawn = making.table().replace(b'6" O.C.', b'6~" O.C.')
    job = read([_plans(tmp_path, making.one_sheet(drawn + making.block(), more={3: making.MAPPED, 7: to_unicode}))])
    assert not any("\u202e" in text for text in (job.to_json(), str(job.sheets)))


def test_a_sheet_that_breaks_the_second_reader_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No value of the sheet is taken; the finding does not say that the file has other letters, which nobody has seen."""
    drawn = making.table() + making.lines([b'" DITTO " -'], top=1480)

    def broken(*_: object, **__: object) -> None:
        raise RecursionError

    monkeypatch.setattr("extractor.paper.second.pdfplumber.open", broken)
    job = read([_plans(tmp_path, making.one_sheet(drawn + making.block()))])
    (told,) = [one.message for one in job.findings if one.code == "second-reading-disagrees"]
    assert told == ("Sheet S3.1: the file could not be read a second time. Values on this sheet are not taken. Read them by eye.")
    assert not [name for wall in job.wall_types for name, one in readings(wall) if name != "mark" and one.state is State.READ]
