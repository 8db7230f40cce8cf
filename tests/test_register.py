"""The register of issued cards: what it keeps, when an issue is new, and that a packet from changed plans says so."""

import datetime
import tomllib
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pdfplumber
import pytest

from cards import cli, issuing, kept, load, output, packet, register
from extractor.errors import OutputError, UsageError
from extractor.record import FieldNailing, Job
from tests.cards.making import answered, finding, job, wall

DAY = datetime.date(2026, 5, 12)


def other(plans: Job, digest: str) -> Job:
    return plans.model_copy(update={"plan_set": plans.plan_set.model_copy(update={"sha256": digest * 64})})


PLANS = job(wall("SW1"), wall("SW4", field=FieldNailing()), findings=(finding("field.spacing_in"),))


def test_an_issue_keeps_what_was_handed_out(tmp_path: Path) -> None:
    register.add(PLANS, tmp_path, copies=4, today=DAY)
    (row,) = tomllib.loads((tmp_path / "issued.toml").read_text(encoding="utf-8"))["issue"]
    assert row == {
        "number": 1, "date": DAY, "sha256": "c0ffee12" * 8, "file": "kestrel-lot-7.pdf", "sheets": "S3.1 rev 2, 12 May 2026",
        "copies": 4, "answers": [],
        "card": [{"mark": "SW1", "number": 1, "draft": False}, {"mark": "SW4", "number": 2, "draft": True}]}  # fmt: skip


def test_the_same_plans_again_are_the_same_issue(tmp_path: Path) -> None:
    register.add(PLANS, tmp_path, copies=4, today=DAY)
    first = (tmp_path / "issued.toml").read_bytes()
    register.add(PLANS, tmp_path, today=DAY + datetime.timedelta(9))
    assert (tmp_path / "issued.toml").read_bytes() == first


@pytest.mark.parametrize(
    ("changed", "what"),
    [
        (other(PLANS, "a"), "The plan file changed"),
        (job(wall("SW1"), wall("SW4", field=FieldNailing(spacing_in=answered(12.0, "RFI 3, 12 May 2026 “12”")))),
         "The answers changed"),
    ],
    ids=["another file", "an answer"],
)  # fmt: skip
def test_other_plans_or_another_answer_begin_the_next_issue_and_the_job_says_so(tmp_path: Path, changed: Job, what: str) -> None:
    register.add(PLANS, tmp_path, today=DAY)
    assert register.noticed(PLANS, register.issues(tmp_path)) == PLANS
    noted = register.noticed(changed, register.issues(tmp_path))
    note = next(one for one in noted.findings if one.code == register.CODE)
    assert note.message.startswith(f"{what} since cards were issued (issue 1, 12 May 2026, file c0ffee12). Collect every card")
    assert register.add(noted, tmp_path, today=DAY).number == 2
    again = register.noticed(noted, register.issues(tmp_path))
    assert again == noted, "the second run of the same packet says the same"


def test_an_answer_is_named_in_the_issue(tmp_path: Path) -> None:
    plans = job(wall("SW4", field=FieldNailing(spacing_in=answered(12.0, 'RFI 3, 12 May 2026 “12" o.c.”'))))
    assert register.add(plans, tmp_path, today=DAY).answers == ("RFI 3, 12 May 2026",)


def enter(folder: Path, digest: str) -> None:
    register.add(other(PLANS, digest), folder, today=DAY)


def test_two_runs_at_once_do_not_corrupt_it(tmp_path: Path) -> None:
    with ProcessPoolExecutor(2) as runs:
        list(runs.map(enter, [tmp_path] * 8, "12345678"))
    entries = register.issues(tmp_path)
    assert [one.number for one in entries] == list(range(1, 9))
    assert {one.sha256[0] for one in entries} == set("12345678")
    assert [path.name for path in tmp_path.iterdir()] == ["issued.toml"]


def test_a_damaged_register_stops_the_run(tmp_path: Path) -> None:
    (tmp_path / "issued.toml").write_text("[[issue]]\nnumber = 1\n")
    with pytest.raises(UsageError, match="This file is damaged"):
        register.issues(tmp_path)


def test_the_packet_enters_itself_and_warns_when_the_plans_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    few = ("summary.pdf", "findings.txt", "job.json")
    monkeypatch.setattr(packet, "PAPERS", tuple(paper for paper in packet.PAPERS if paper.name in few))
    plans, out = tmp_path / "job.json", tmp_path / "packet"
    heard = []
    for digest in "ab":
        plans.write_text(other(PLANS, digest).to_json(), encoding="utf-8")
        with pytest.raises(SystemExit):
            cli.main(["packet", str(plans), "--out", str(out), "--copies", "2"])
        heard.append(capsys.readouterr().out)
    assert "Entered in " in heard[0]
    assert "LOOK" not in heard[0]
    assert "LOOK: The plan file changed since cards were issued (issue 1, " in heard[1]
    assert "The plan file changed since cards were issued" in (out / "findings.txt").read_text(encoding="utf-8")
    with pdfplumber.open(out / "summary.pdf") as summary:
        assert len(summary.pages) == 1
        assert "The plan file changed since cards were issued" in " ".join(summary.pages[0].extract_text().split())
    assert [one.copies for one in register.issues(out)] == [2, 2]


def _takes_the_folder(folder: Path) -> bool:
    try:
        with kept.locked(folder, 0.2):
            return True
    except OutputError:
        return False


def test_papers_of_two_plan_files_never_lie_side_by_side(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While one packet is made and written, another run waits for its turn, and sees what was issued."""
    taken: list[bool] = []

    def paper(job: Job, how: packet.Print) -> bytes:
        with ProcessPoolExecutor(1) as run:
            taken.append(run.submit(_takes_the_folder, tmp_path).result())
        return job.plan_set.sha256.encode()

    monkeypatch.setattr(packet, "PAPERS", (packet.Paper("cards.pdf", paper, lambda job: "cards"),))
    done = issuing.issue(PLANS, tmp_path, packet.USUAL)
    assert taken == [False]
    assert _takes_the_folder(tmp_path)
    assert register.issues(tmp_path) == (done.issue,)


def test_a_card_is_entered_before_it_is_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A run that is cut off while it writes has handed out nothing that the register does not know of."""
    papers = ("cards.pdf", "checklist.pdf")
    monkeypatch.setattr(packet, "PAPERS", tuple(packet.Paper(name, lambda *_: b"%PDF-", lambda job: "") for name in papers))
    known: list[int] = []

    def cut_off(path: Path, data: bytes, **_: object) -> None:
        if path.name in papers:
            known.append(len(register.issues(tmp_path)))
            raise OutputError("The disk is full.", where=str(path), do="Make room.")
        write(path, data)

    write = output.write
    monkeypatch.setattr(output, "write", cut_off)
    with pytest.raises(OutputError):
        issuing.issue(PLANS, tmp_path, packet.USUAL)
    assert known == [1]


def test_the_record_of_what_was_issued_before_stays_to_compare_with(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Old, new, old again: the packet's record is of the plan file at hand, the other lies beside it, and the notice names it."""
    papers = tuple(paper for paper in packet.PAPERS if paper.name == "job.json")
    monkeypatch.setattr(packet, "PAPERS", papers)
    first, second = other(PLANS, "a"), other(PLANS, "b")
    for plans, beside in ((first, set()), (first, set()), (second, {"job-aaaaaaaa.json"}), (first, {"job-bbbbbbbb.json"})):
        done = issuing.issue(plans, tmp_path, packet.USUAL)
        assert {path.name for path in tmp_path.glob("job-*.json")} == beside
        assert load.record(tmp_path / "job.json").plan_set == plans.plan_set
        assert all(name in done.notices[0] for name in beside)
