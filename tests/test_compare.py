"""Two plan sets in, what changed out: each kind of change on drawn pairs, and the arithmetic of the lists."""

import io
import json
from functools import cache
from pathlib import Path
from typing import Any

import openpyxl
import pikepdf
import pytest

from cards import changes as papers
from cards import cli, load
from cards.changes import Changes, changes
from cards.compare import ABOUT_ALL, compare
from cards.register import add, issues
from extractor.errors import UsageError
from extractor.merge import merged
from extractor.record import Basis, Job, PlanMark
from extractor.reissue import reissued
from fixtures.changes import make
from tests.cards.making import answered, finding, from_note
from tests.cards.making import job as made_job
from tests.cards.making import read as said
from tests.cards.making import wall as made_wall

FOLDER = Path(make.__file__).parent
SHEET = "S3.1 rev 1, 17 Mar 2026"
SAME = f"No change since {SHEET}."


def contents(data: bytes) -> list[bytes]:
    """What the pages say, streams unpacked: equal however the machine's zlib packs them."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        return [page.Contents.read_bytes() for page in pdf.pages]


@cache
def plans(name: str) -> Job:
    return load.load([FOLDER / f"{name}.pdf"])


@cache
def against_first(name: str) -> Changes:
    return changes(plans("first-issue"), plans(name))


@pytest.mark.parametrize("name", make.ISSUES)
def test_the_pairs_in_the_folder_are_the_ones_the_script_draws(name: str) -> None:
    there, again = (FOLDER / f"{name}.pdf").read_bytes(), make.drawn(name)
    assert there == again or contents(there) == contents(again)
    assert f"`{name}`" in (FOLDER.parent / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "statuses"),
    [
        ("first-issue", {}),
        ("value-changed", {"SW3": "changed"}),
        ("moved-and-reworded", {}),
        ("added-and-withdrawn", {"SW1": "added", "SW6": "withdrawn"}),
        ("renumbered", {"W6": "renumbered", "W4": "renumbered", "W3": "renumbered", "W2": "renumbered"}),
        ("note-changed", dict.fromkeys(("SW6", "SW4", "SW3", "SW2"), "changed")),
        ("hold-down-changed", {"SW3": "changed", "SW2": "changed"}),
        ("marks-changed", {}),
        ("sheet-added", {}),
    ],
)
def test_each_type_is_said_to_have_changed_or_not(name: str, statuses: dict[str, str]) -> None:
    rows = against_first(name).found.wall_types
    assert {row.mark: row.status for row in rows if row.status != "no change"} == statuses
    assert all(row.says == SAME for row in rows if row.status == "no change"), "no change is said, never left out"


def values(name: str, mark: str) -> dict[str, tuple[str | None, str | None]]:
    row = next(row for row in against_first(name).found.rows if row.mark == mark)
    return {one.field: (one.old and one.old.text, one.new and one.new.text) for one in row.values}


@pytest.mark.parametrize(
    ("name", "mark", "expected"),
    [
        ("value-changed", "SW3", {"edge.spacing_in": ('3" o.c.', '2" o.c.'), "anchors.spacing_in": ('24" o.c.', '16" o.c.'),
                                  "capacity": ("450 plf seismic ASD", "585 plf seismic ASD")}),
        ("note-changed", "SW4", {"framing.blocked": ("all panel edges", "NOT BLOCKED (per plans)")}),
        ("hold-down-changed", "H2", {"post": ("4x6", "6x6"), "anchor.embedment_in": ('14"', '18"')}),
        ("hold-down-changed", "SW2", {}),
        ("value-changed", "SW2", {}),
    ],
)  # fmt: skip
def test_changed_values_stand_old_and_new(name: str, mark: str, expected: dict[str, tuple[str, str]]) -> None:
    assert values(name, mark) == expected


def test_both_places_of_a_changed_value_are_named() -> None:
    row = next(row for row in against_first("note-changed").found.wall_types if row.mark == "SW6")
    (one,) = row.values
    assert one.by_note
    assert one.old is not None
    assert one.new is not None
    assert (one.old.source.sheet, one.old.origin, one.new.source.sheet) == ("S1.0", "note", "S1.0")
    assert one.old.as_printed != one.new.as_printed


def test_a_value_that_moved_or_was_reworded_is_listed_apart() -> None:
    rows = against_first("moved-and-reworded").found.wall_types
    edge = next(one for one in rows[0].moved if one.field == "edge.spacing_in")
    assert edge.why.startswith('“6" O.C.” is now “6" ON CENTER”; elsewhere on sheet S3.1')
    assert all(not row.values for row in rows)


def test_renumbered_types_are_matched_by_content_and_said() -> None:
    row = against_first("renumbered").found.wall_types[0]
    assert (row.old_mark, row.new_mark) == ("SW6", "W6")
    assert "Matched by content, not by mark: look whether the office renumbered." in row.says


def test_rows_that_changed_places_are_a_hint_not_a_match() -> None:
    """SW1 and SW2 swapped: the marks decide, so both changed; the hint names the renumbering."""
    a, b = {"edge": made_wall().edge}, {"edge": type(made_wall().edge)(spacing_in=said(2.0))}
    old, new = made_job(made_wall("SW1", **a), made_wall("SW2", **b)), made_job(made_wall("SW1", **b), made_wall("SW2", **a))
    rows = compare(old, new).wall_types
    assert [row.status for row in rows] == ["changed", "changed"]
    assert rows[0].says == "SW1 now has the values that SW2 had before: look whether the office renumbered."


def test_a_hold_down_that_changed_calls_in_the_cards_that_print_it() -> None:
    done = against_first("hold-down-changed")
    assert {one.mark: one.why for one in done.recall if one.now} == {
        "SW3": "hold-down H2 changed", "SW2": "hold-down H2 changed"}  # fmt: skip


def test_counts_of_marks_by_sheet() -> None:
    counts = {(one.kind, one.mark, one.sheet): (one.old, one.new) for one in against_first("marks-changed").found.counts}
    assert counts[("wall", "SW4", "S2.1")] == (2, 1)
    assert counts[("wall", "SW2", "S2.1")] == (1, 2)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("value-changed", [("S3.1", "changed", "revision 1 is now 2; date 17 Mar 2026 is now 12 May 2026")]),
        ("sheet-added", [("S4.0", "added", "S4.0 rev 1, 17 Mar 2026, DETAILS")]),
        ("first-issue", []),
    ],
)
def test_sheets_added_or_with_another_revision(name: str, expected: list[tuple[str, str, str]]) -> None:
    assert [(one.sheet, one.status, one.what) for one in against_first(name).found.sheets] == expected


def test_what_notes_say_of_the_whole_job_is_compared() -> None:
    """Another code edition or seismic category touches every wall, and no row of the schedule shows it."""
    old = made_job(made_wall("SW1")).model_copy(update={"basis": Basis(codes=(said("IBC 2018"),), lumber=(said("DF-L"),))})
    later = old.basis.model_copy(update={"codes": (said("IBC 2021"),), "categories": (said("D"),)})
    new = old.model_copy(update={"basis": later})
    assert compare(old, new).notes == (
        "code edition: “IBC 2018” (sheet S3.1) is now “IBC 2021” (sheet S3.1)",
        "seismic design category: not found is now “D” (sheet S3.1)")  # fmt: skip
    assert "is now “IBC 2021”" in papers.as_html(changes(old, new))
    assert compare(old, old).notes == ()
    assert set(ABOUT_ALL) == set(Basis.model_fields)


def test_a_sheet_dropped_is_named() -> None:
    found = compare(plans("sheet-added"), plans("first-issue"))
    assert [(one.sheet, one.status) for one in found.sheets] == [("S4.0", "dropped")]


def test_findings_opened_and_closed() -> None:
    old = made_job(made_wall("SW1"), findings=(finding("edge.spacing_in", "SW1"),))
    new = made_job(made_wall("SW1"), findings=(finding("field.spacing_in", "SW1", "ask"),))
    found = compare(old, new)
    assert [(one.level, one.number) for one in found.opened] == [("ask", "Q-02")], "Q-01 stands on paper and is not given again"
    assert [(one.level, one.number) for one in found.closed] == [("stop", "Q-01")]
    assert compare(old, old).opened == ()


# --- cards and walls --------------------------------------------------------------------------------------------------


def test_the_recall_list_has_every_old_card_and_the_dangerous_ones_first() -> None:
    done = against_first("value-changed")
    assert [(one.number, one.of, one.mark, one.now) for one in done.recall] == [
        (3, 4, "SW3", True), (1, 4, "SW6", False), (2, 4, "SW4", False), (4, 4, "SW2", False)]  # fmt: skip
    assert done.recall[0].why == "changed: edge nailing spacing, sill anchor spacing, capacity"


def test_nothing_is_collected_when_nothing_came() -> None:
    done = against_first("first-issue")
    assert (done.recall, done.retag) == ((), ())
    assert done.found.warnings == ("Both are the same plan file: only answers can make a difference.",)


def test_old_and_new_cards_are_told_apart_by_their_corner_or_it_is_said_that_they_are_not() -> None:
    """Revision 1 has a circle, revision 2 a square; a file that changed under the same revision has the same shape."""
    assert against_first("value-changed").corners == "Old cards have a circle in the corner, new cards a square."
    same = against_first("moved-and-reworded").corners
    assert same.startswith("The shape in the corner does not tell old cards from new ones")
    assert all(plans(name).plan_set.sha256[:8] in same for name in ("first-issue", "moved-and-reworded"))


def test_a_register_that_does_not_know_the_old_plans_is_named_first(tmp_path: Path) -> None:
    """Cards on site were made from other plans than those compared: the list would call in the wrong ones."""
    add(plans("renumbered"), tmp_path)
    done = changes(plans("first-issue"), plans("value-changed"), issued=issues(tmp_path))
    assert done.found.warnings[0].startswith("No card was issued from the old plan file. Cards on site are of issue 1, ")
    assert not changes(plans("renumbered"), plans("value-changed"), issued=issues(tmp_path)).found.warnings


def test_each_copy_has_a_box_to_tick(tmp_path: Path) -> None:
    """Six crew members, six cards to collect; more than twelve copies are a number."""
    for copies, boxes in ((6, 6), (40, 12)):
        add(plans("first-issue"), tmp_path, copies=copies)
        done = changes(plans("first-issue"), plans("value-changed"), issued=issues(tmp_path))
        cards, walls = papers.as_html(done).split("Cards to collect</h1>")[1].split("Walls to look at again</h1>")
        assert (cards.count('class="tick"'), walls.count('class="tick"')) == (4 * boxes, 1)
        assert cards.count(f"<td>{copies}</td>") == 4


def test_an_answer_alone_calls_in_one_card() -> None:
    old = made_job(made_wall("SW1"), made_wall("SW2", field=type(made_wall().field)()),
                   findings=(finding("field.spacing_in", "SW2"),))  # fmt: skip
    new = made_job(made_wall("SW1"), made_wall("SW2", field=type(made_wall().field)(
        spacing_in=answered(12.0, "RFI 3, 12 May 2026 “12”"))))  # fmt: skip
    assert [(one.mark, one.why) for one in changes(old, new).recall] == [
        ("SW2", "changed: field nailing spacing; was on HOLD, can be issued now")]  # fmt: skip


def test_a_new_stop_calls_in_a_card_whose_values_are_the_same() -> None:
    old, new = made_job(made_wall("SW4")), made_job(made_wall("SW4"), findings=(finding("edge.spacing_in"),))
    assert "a question that says STOP came up: the new card is on HOLD" in changes(old, new).recall[0].why


def drawn(*marks: tuple[str, float, float], sheet: str = "S2.1") -> tuple[PlanMark, ...]:
    return tuple(PlanMark(mark=mark, kind="wall", page=2, sheet=sheet, boxes=((x, y, x + 20, y + 10),)) for mark, x, y in marks)


@pytest.mark.parametrize(
    ("before", "after", "expected", "why"),
    [
        ([("SW1", 100, 100)], [("SW1", 100, 100)], [], "nothing changed"),
        ([("SW1", 100, 100)], [("SW2", 104, 100)], [("SW1", "SW2")], "another mark at the same place"),
        ([("SW1", 100, 100), ("SW2", 500, 100)], [("SW2", 100, 100), ("SW1", 500, 100)], [("SW1", "SW2"), ("SW2", "SW1")],
         "two walls changed types, the counts are the same"),
        ([("SW1", 100, 100), ("SW1", 300, 100), ("SW2", 500, 100)], [("SW1", 190, 160), ("SW1", 390, 160), ("SW2", 590, 160)], [],
         "the whole plan was moved on its sheet"),
        ([("SW1", 100, 100)], [("SW1", 100, 100), ("SW1", 900, 700)], [(None, "SW1")], "a wall more"),
        ([("SW1", 100, 100), ("SW1", 900, 700)], [("SW1", 100, 100)], [("SW1", None)], "a wall less"),
    ],
)  # fmt: skip
def test_walls_to_look_at_again(before: Any, after: Any, expected: list[tuple[str | None, str | None]], why: str) -> None:
    walls = made_wall("SW1"), made_wall("SW2")
    done = changes(made_job(*walls, drawn=drawn(*before)), made_job(*walls, drawn=drawn(*after)))
    assert [(one.was, one.now) for one in done.retag] == expected, why


def test_each_wall_of_a_changed_type_is_listed_with_its_place() -> None:
    (one,) = against_first("value-changed").retag
    assert (one.sheet, one.was, one.now) == ("S2.1", "SW3", "SW3")
    assert one.why == "its type changed: edge nailing spacing, sill anchor spacing, capacity"
    assert one.place.endswith(" from the top")
    held = against_first("hold-down-changed").retag
    assert {one.why for one in held} == {"its type changed; hold-down H2 changed"}
    assert [one.why for one in against_first("marks-changed").retag] == ["the mark was SW4 and is SW2"]


# --- reissued sheets --------------------------------------------------------------------------------------------------


def test_a_reissued_schedule_takes_the_old_sheets_place_and_keeps_its_notes() -> None:
    job, taken = reissued([FOLDER / "first-issue.pdf"], [FOLDER / "reissued-schedule.pdf"])
    assert [(one.page, one.sheet, one.how, one.file.name, one.file_page) for one in taken] == [
        (1, "S1.0", "kept", "first-issue.pdf", 1), (2, "S2.1", "kept", "first-issue.pdf", 2),
        (3, "S3.1", "replaced", "reissued-schedule.pdf", 1)]  # fmt: skip
    found = compare(plans("first-issue"), job)
    assert {row.mark: row.status for row in found.wall_types if row.status != "no change"} == {"SW3": "changed"}
    blocked = job.wall_types[0].framing.blocked
    assert blocked is not None
    assert (blocked.value, blocked.source.sheet) == (True, "S1.0"), "the note on a sheet that stays still fills the new rows"
    assert job.plan_set.sha256 not in (plans("first-issue").plan_set.sha256, plans("reissued-schedule").plan_set.sha256)


def test_a_reissued_plan_needs_no_schedule_of_its_own() -> None:
    job, _ = reissued([FOLDER / "first-issue.pdf"], [FOLDER / "reissued-plan.pdf"])
    assert [(one.was, one.now) for one in changes(plans("first-issue"), job).retag] == [("SW4", "SW2")]


def test_records_are_merged_by_sheet() -> None:
    own = {"framing": type(made_wall().framing)(), "anchors": made_wall().anchors.model_copy(update={"embedment_in": None})}
    old = made_job(made_wall("SW1", **own), made_wall("SW2", **own))
    new = made_job(made_wall("SW1", edge=type(made_wall().edge)(spacing_in=said(2.0)), **own))
    job = merged(old, new)
    assert [wall.mark.value for wall in job.wall_types] == ["SW1"], "SW2 stood on the sheet that was replaced"
    assert job.wall_types[0].mark.source.page == 4 + old.plan_set.pages


def test_a_record_with_a_value_from_a_reissued_note_is_refused() -> None:
    note = made_wall("SW1", framing=type(made_wall().framing)(blocked=from_note(True)))
    old = made_job(note)
    old = old.model_copy(update={"sheets": (*old.sheets, old.sheets[0].model_copy(update={"page": 1, "number": "S-001"}))})
    new = made_job().model_copy(update={"sheets": (old.sheets[-1],)})
    with pytest.raises(UsageError, match=r"SW1 stays, and its framing\.blocked came from sheet S-001, which is reissued"):
        merged(old, new)


def test_a_record_whose_rows_take_values_from_notes_that_stay_is_refused() -> None:
    """S3.1 comes new, the notes on S1.0 stay: read apart, its rows would seem to have lost what the notes give them."""
    with pytest.raises(UsageError, match=r"SW6 is reissued, and its .* came from sheet S1\.0, which stays"):
        merged(plans("first-issue"), plans("reissued-schedule"))


def test_a_record_stands_for_the_plans_beside_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The packet's folder holds the plans: one value changed, and no value of the notes seems to be gone."""
    for name in ("first-issue", "reissued-schedule"):
        (tmp_path / f"{name}.pdf").write_bytes((FOLDER / f"{name}.pdf").read_bytes())
    (tmp_path / "job.json").write_text(plans("first-issue").to_json(), encoding="utf-8")
    words = ("compare", tmp_path / "job.json", tmp_path / "reissued-schedule.pdf", "--reissue", "--out", tmp_path / "changes")
    code, out, _ = run(capsys, *words)
    assert code == 0
    assert "1 changed (SW3), 0 added, 0 withdrawn, 3 without a change" in out
    (tmp_path / "first-issue.pdf").unlink()
    code, _, said_ = run(capsys, *words)
    assert code == 2
    assert "Name the PDFs of both plan sets" in said_


# --- papers and the command -------------------------------------------------------------------------------------------


def run(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as ended:
        cli.main([str(word) for word in words])
    heard = capsys.readouterr()
    return int(ended.value.code or 0), heard.out, heard.err


def test_the_command_writes_four_papers_and_says_what_to_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "compare", FOLDER / "first-issue.pdf", FOLDER / "value-changed.pdf", "--out", tmp_path / "c")
    assert code == 0
    assert sorted(path.name for path in (tmp_path / "c").iterdir()) == [
        "changes.html", "changes.json", "changes.pdf", "changes.xlsx"]  # fmt: skip
    assert "Wall types: 1 changed (SW3), 0 added, 0 withdrawn, 3 without a change. Hold-downs that differ: none." in out
    assert "Collect now: SW3 (card 3). Change for the new card: 3. Walls to look at again: 1." in out
    document = json.loads((tmp_path / "c" / "changes.json").read_text(encoding="utf-8"))
    assert document["format"] == "nailcard.changes/1"
    assert [row["mark"] for row in document["recall"] if row["now"]] == ["SW3"]


def test_a_reissue_leaves_the_record_to_make_the_next_packet_from(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first, sheet = FOLDER / "first-issue.pdf", FOLDER / "reissued-schedule.pdf"
    code, out, _ = run(capsys, "compare", first, sheet, "--reissue", "--out", tmp_path / "c")
    assert code == 0
    assert "make the next packet from it" in out
    job = load.load([tmp_path / "c" / "job.json"])
    assert job.plan_set.file == "first-issue.pdf with S3.1 of reissued-schedule.pdf"


def test_the_same_comparison_gives_the_same_bytes_and_the_register_is_on_the_paper(tmp_path: Path) -> None:
    issue = add(plans("first-issue"), tmp_path, copies=3)
    done = changes(plans("first-issue"), plans("value-changed"), issued=issues(tmp_path))
    shown = papers.as_html(done)
    assert shown == papers.as_html(done)
    assert f"issue 1, {issue.named.split(', ')[1]}" in shown
    assert {one.copies for one in done.recall} == {3}


def test_the_workbook_has_a_line_for_each_value_card_and_wall() -> None:
    data = papers.as_workbook(against_first("value-changed"))
    assert data == papers.as_workbook(against_first("value-changed"))
    book = openpyxl.load_workbook(io.BytesIO(data))
    rows = {name: [[cell.value for cell in row] for row in book[name].iter_rows(min_row=2)] for name in book.sheetnames}
    assert rows["Changes"][0][:8] == ["wall type", "SW3", "changed", "edge nailing spacing", '3" o.c.', "S3.1", '2" o.c.', "S3.1"]
    assert rows["Cards to collect"][0][:3] == ["3 of 4", "SW3", "now"]
    assert [row[:3] for row in rows["Walls to look at"]] == [["S2.1", "SW3", "SW3"]]


def test_hostile_names_are_text_in_the_html() -> None:
    bad = '<script>alert("x")</script>'
    old, new = made_job(made_wall(bad), file=f"{bad}.pdf"), made_job(made_wall(bad + "2"), file="=1+1.pdf")
    shown = papers.as_html(changes(old, new))
    assert "<script" not in shown
    assert "&lt;script&gt;" in shown
    assert "default-src 'none'" in shown
