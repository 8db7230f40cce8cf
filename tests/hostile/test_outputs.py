"""Names from plan files are hostile text: no page, sheet of a workbook or terminal obeys them; links lead no output astray."""

import csv
import html.parser
import io
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pdfplumber
import pytest

from cards import cli
from tests.hostile import making

SCRIPT = "<script>alert(1)</script> SCHEDULES"
NAME = '=HYPERLINK("x")<img src=x onerror=alert(1)>&amp;.pdf'
Run = Callable[..., tuple[int, str, str]]


@pytest.fixture(scope="module")
def packet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The packet of a plan set whose file and sheet have names that a page would run."""
    folder = tmp_path_factory.mktemp("hostile")
    (folder / NAME).write_bytes(making.one_sheet(making.table() + making.block(title=SCRIPT.encode())))
    with pytest.raises(SystemExit) as ended:
        cli.main(["packet", str(folder / NAME), "--out", str(folder / "packet")])
    assert not ended.value.code
    return folder / "packet"


class _Tags(html.parser.HTMLParser):
    """The tags and event handlers of a page, and its words."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.handlers: list[str] = []
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.handlers += [f"{tag} {name}={value}" for name, value in attrs if name.startswith("on") or value == "x"]

    def handle_data(self, data: str) -> None:
        self.words += data


def test_pages_show_markup_and_do_not_run_it(packet: Path) -> None:
    pages = sorted(packet.glob("*.html"))
    assert pages
    for page in pages:
        text = page.read_text(encoding="utf-8")
        assert "<script>alert" not in text, page.name
        found = _Tags()
        found.feed(text)
        assert not found.handlers, page.name
        assert "onerror=alert(1)" in found.words, f"{page.name} does not show the file's name"


def test_printed_papers_show_the_name_as_it_is(packet: Path) -> None:
    with pdfplumber.open(packet / "summary.pdf") as paper:
        words = "".join(page.extract_text() for page in paper.pages)
    assert "<img" in words
    assert "&amp;" in words


def test_no_cell_of_the_workbook_is_a_formula(packet: Path) -> None:
    book = openpyxl.load_workbook(packet / "schedule.xlsx")
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert any(isinstance(cell.value, str) and "HYPERLINK" in cell.value for cell in cells)
    assert [cell.coordinate for cell in cells if cell.data_type == "f" or cell.hyperlink] == []


def test_no_cell_of_a_list_begins_as_a_formula(packet: Path, run: Run) -> None:
    _, out, _ = run("check", packet.parent / NAME, "--format", "csv")
    lists = [out, *(path.read_text(encoding="utf-8-sig") for path in packet.glob("*.csv"))]
    for text in lists:
        rows = list(csv.reader(io.StringIO(text)))
        assert len(rows) > 1
        assert [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r"))] == []


@pytest.mark.parametrize(
    ("name", "source"),
    [
        ("job.json", "a record of another job"),
        ("cards.pdf", "a letter that happens to have this name"),
        ("review.html", "a page"),
    ],
)
def test_a_link_in_the_folder_does_not_lead_the_packet_out_of_it(name: str, source: str, tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "precious.txt").write_text(source)
    (tmp_path / "packet").mkdir()
    (tmp_path / "packet" / name).symlink_to(tmp_path / "precious.txt")
    code, _, said = run("packet", tmp_path / "plans.pdf", "--out", tmp_path / "packet")
    assert (tmp_path / "precious.txt").read_text() == source
    assert code in (0, 5)
    assert code == 0 or "The output is a link that leads elsewhere." in said


def test_a_dangling_link_makes_no_file_elsewhere(tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "job.json").symlink_to(tmp_path / "nowhere.json")
    code, _, said = run("read", tmp_path / "plans.pdf", "--out", tmp_path / "out" / "job.json")
    assert code == 5
    assert "leads elsewhere" in said
    assert not (tmp_path / "nowhere.json").exists()


def test_files_of_others_in_the_folder_stay(tmp_path: Path, run: Run) -> None:
    (tmp_path / "plans.pdf").write_bytes(making.sound())
    (tmp_path / "packet").mkdir()
    (tmp_path / "packet" / "letter.txt").write_text("Dear engineer")
    code, _, _ = run("packet", tmp_path / "plans.pdf", "--out", tmp_path / "packet")
    assert code == 0
    assert (tmp_path / "packet" / "letter.txt").read_text() == "Dear engineer"


@pytest.fixture
def locked(tmp_path: Path) -> Path:
    """Plans that need the password "plover"."""
    path = tmp_path / "locked.pdf"
    path.write_bytes(making.encrypted(making.sound(), "plover", "owner"))
    return path


@pytest.mark.parametrize(
    ("words", "code"), [("plover", 0), ("plover\r\nfor the plans of May\n", 0), ("heron", 3), ("", 2), ("x" * 2000, 2)]
)
def test_a_password_comes_from_the_first_line_of_a_file(words: str, code: int, locked: Path, tmp_path: Path, run: Run) -> None:
    (tmp_path / "word.txt").write_text(words)
    got, out, said = run("read", locked, "--password-file", tmp_path / "word.txt")
    assert got == code, said
    assert not words or words.split()[0] not in out + said


def test_a_missing_password_file_is_said(locked: Path, tmp_path: Path, run: Run) -> None:
    code, _, said = run("check", locked, "--password-file", tmp_path / "none.txt")
    assert code == 2
    assert "none.txt" in said


def test_a_packet_of_locked_plans_has_its_pictures_and_not_its_password(locked: Path, tmp_path: Path, run: Run) -> None:
    (tmp_path / "word.txt").write_text("plover")
    code, out, said = run("packet", locked, "--password-file", tmp_path / "word.txt", "--out", tmp_path / "packet")
    assert code == 0, said
    assert "image/png" in (tmp_path / "packet" / "review.html").read_text(encoding="utf-8")
    assert "plover" not in out + said
    assert not [path.name for path in (tmp_path / "packet").iterdir() if b"plover" in path.read_bytes()]


def test_a_person_at_a_terminal_is_asked_once(locked: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []

    def ask(prompt: str) -> str:
        asked.append(prompt)
        return "plover"

    monkeypatch.setattr("getpass.getpass", ask)
    monkeypatch.setattr("sys.stdin", io.StringIO())
    monkeypatch.setattr("cards.cli._at_a_terminal", lambda: True)
    code, out, said = run("read", locked)
    assert code == 0, said
    assert len(asked) == 1
    assert "plover" not in out + said


def test_every_command_that_takes_plans_takes_a_password_file(locked: Path, tmp_path: Path, run: Run) -> None:
    (tmp_path / "word.txt").write_text("plover")
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "locked.pdf").write_bytes(locked.read_bytes())
    (tmp_path / "new.pdf").write_bytes(making.sound())
    for words in (["read"], ["check"], ["cards", "--out", tmp_path / "c.pdf"], ["packet", "--out", tmp_path / "p"],
                  ["order", "--out", tmp_path / "o"], ["answer"], ["compare", tmp_path / "new.pdf", "--out", tmp_path / "d"],
                  ["compare", tmp_path / "new.pdf", "--reissue", "--out", tmp_path / "r"]):  # fmt: skip
        code, out, said = run(words[0], locked, *words[1:], "--password-file", tmp_path / "word.txt")
        assert code == 0, f"{words[0]}: {said}"
        assert "plover" not in out + said
    code, out, said = run("batch", tmp_path / "jobs", "--out", tmp_path / "b", "--password-file", tmp_path / "word.txt")
    assert code == 0, said
    written = [path for path in tmp_path.rglob("*") if path.is_file() and path.name != "word.txt"]
    assert [path for path in written if b"plover" in path.read_bytes()] == []


def test_nobody_is_asked_where_there_is_no_terminal(locked: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("getpass.getpass", lambda prompt: pytest.fail("asked"))
    monkeypatch.setattr("cards.cli._at_a_terminal", lambda: False)
    code, _, said = run("read", locked)
    assert code == 3
    assert "--password-file" in said
