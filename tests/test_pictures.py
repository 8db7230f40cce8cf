"""Pictures cut from plans: each shows the words it is said to show, whichever way the sheet is turned or cropped."""

import io
from functools import cache
from pathlib import Path

import pdfplumber
import pikepdf
import pypdfium2 as pdfium
import pytest
from PIL import Image, ImageChops, ImageStat

from extractor import password
from extractor.pictures import SCALE, Picture, digest, picture, pictures
from extractor.read import read
from extractor.record import Job, Reading, Source, readings

FIXTURES = Path(__file__).parents[1] / "fixtures"


@cache
def job_of(path: Path) -> Job:
    return read([path])


def in_rows(job: Job) -> list[Reading[object]]:
    """Each reading of a row that is more than one sign long."""
    found = [reading for wall in job.wall_types for _, reading in readings(wall)]
    return [reading for reading in found if len(reading.as_printed) > 1]


def image(shown: Picture) -> Image.Image:
    return Image.open(io.BytesIO(shown.png)).convert("L")


@cache
def characters(path: Path) -> dict[int, list[tuple[float, float, str]]]:
    """Middle and text of each character by page, as pdfplumber finds them, which has no part in the cutting."""
    with pdfplumber.open(path) as plans:
        return {page.page_number: [((c["x0"] + c["x1"]) / 2, (c["top"] + c["bottom"]) / 2, c["text"]) for c in page.chars]
                for page in plans.pages}  # fmt: skip


def words_at(path: Path, shown: Picture) -> str:
    """The letters that stand where the picture says it was cut, in any order."""
    x0, y0, x1, y1 = shown.box
    found = (text for x, y, text in characters(path)[shown.page] if x0 <= x <= x1 and y0 <= y <= y1)
    return "".join(sorted("".join(found)))


def whole_sheet(path: Path, number: int) -> Image.Image:
    with pdfium.PdfDocument(path) as plans:
        return plans[number - 1].render(scale=SCALE, grayscale=True).to_pil().convert("L")


def difference(a: Image.Image, b: Image.Image) -> float:
    """Mean difference of two pictures, in parts of black to white."""
    return float(ImageStat.Stat(ImageChops.difference(a, b)).mean[0]) / 255


TURNS = [
    ("demo.pdf", "demo plan set, drawn upright"),
    ("rotate-90.pdf", "plan set turned by /Rotate 90"),
    ("rotate-270.pdf", "plan set turned by /Rotate 270"),
    ("annotations-only.pdf", "plan set whose words stand in annotations"),
]


@pytest.mark.parametrize(("name", "source"), TURNS[:3])
def test_a_picture_shows_the_words_of_its_value(name: str, source: str) -> None:
    path = FIXTURES / name
    wanted = in_rows(job_of(path))
    shown = pictures([path], (reading.source for reading in wanted), margin=0.0)
    assert len(wanted) > 10
    for reading in wanted:
        letters = sorted("".join(reading.as_printed.split()))
        assert letters == sorted("".join(words_at(path, shown[reading.source]).split())), f"{reading.as_printed}: {source}"


@pytest.mark.parametrize(("name", "source"), TURNS)
def test_a_picture_is_that_part_of_the_sheet(name: str, source: str) -> None:
    path = FIXTURES / name
    place = job_of(path).wall_types[0].mark.source
    shown = picture([path], place, margin=20.0)
    assert shown is not None
    sheet = whole_sheet(path, place.page).crop([round(edge * SCALE) for edge in shown.box])
    assert difference(image(shown), sheet) < 0.02, source
    assert ImageStat.Stat(image(shown)).extrema[0][0] < 60, f"no ink: {source}"


def test_sheets_turned_either_way_give_the_same_pictures() -> None:
    one, other = (job_of(FIXTURES / name) for name in ("rotate-90.pdf", "rotate-270.pdf"))
    for a, b in zip(in_rows(one)[::5], in_rows(other)[::5], strict=True):
        left, right = picture([FIXTURES / "rotate-90.pdf"], a.source), picture([FIXTURES / "rotate-270.pdf"], b.source)
        assert left is not None
        assert right is not None
        assert difference(image(left), image(right).resize(left.size)) < 0.02, a.as_printed


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_a_crop_box_and_a_turn_move_no_picture(tmp_path: Path, turn: int) -> None:
    plain, path = FIXTURES / "one-type.pdf", tmp_path / "cropped.pdf"
    mark = job_of(plain).wall_types[0].mark.source
    with pikepdf.open(plain) as plans:
        page = plans.pages[mark.page - 1]
        left, bottom, right, top = (float(edge) for edge in page.mediabox)
        page.obj.CropBox = pikepdf.Array([left + 13, bottom + 29, right - 7, top - 17])
        page.obj.Rotate = turn
        plans.save(path)
    x0, y0, x1, y1 = mark.box[0] - 13, mark.box[1] - 17, mark.box[2] - 13, mark.box[3] - 17
    wide, high = right - left - 20, top - bottom - 46
    seen = {0: (x0, y0, x1, y1), 90: (high - y1, x0, high - y0, x1), 180: (wide - x1, high - y1, wide - x0, high - y0),
            270: (y0, wide - x1, y1, wide - x0)}[turn]  # fmt: skip
    before, after = picture([plain], mark), picture([path], mark.model_copy(update={"box": seen}))
    assert before is not None
    assert after is not None
    upright = image(after).rotate(turn, expand=True)
    assert upright.size[0] == pytest.approx(before.size[0], abs=2)
    assert difference(image(before), upright.resize(before.size)) < 0.08


def test_pages_count_through_several_files() -> None:
    files = [FIXTURES / "one-type.pdf", FIXTURES / "demo.pdf"]
    both, alone = job_of(files[0]), read(files)
    assert digest(files) == alone.plan_set.sha256
    assert digest(files[:1]) == both.plan_set.sha256
    place = job_of(files[1]).wall_types[0].mark.source
    moved = place.model_copy(update={"page": place.page + both.plan_set.pages})
    shown, same = picture(files, moved), picture(files[1:], place)
    assert shown is not None
    assert same is not None
    assert shown.png == same.png


@pytest.mark.parametrize(
    ("place", "why"),
    [
        (Source(page=99, sheet=None, box=(10, 10, 20, 20)), "the set has no such page"),
        (Source(page=1, sheet=None, box=(9000, 10, 9020, 20)), "beside the sheet"),
        (Source(page=1, sheet=None, box=(10, 10, 10, 10)), "a box without size"),
    ],
)
def test_a_place_that_is_nowhere_has_no_picture(place: Source, why: str) -> None:
    assert picture([FIXTURES / "demo.pdf"], place, margin=0.0) is None, why


def test_locked_plans_are_cut_with_the_password_of_the_run(tmp_path: Path) -> None:
    path = tmp_path / "locked.pdf"
    with pikepdf.open(FIXTURES / "one-type.pdf") as plans:
        plans.save(path, encryption=pikepdf.Encryption(user="plover", owner="plover"))
    mark = job_of(FIXTURES / "one-type.pdf").wall_types[0].mark.source
    password.use("plover")
    try:
        shown = picture([path], mark)
    finally:
        password.use(None)
    same = picture([FIXTURES / "one-type.pdf"], mark)
    assert shown is not None
    assert same is not None
    assert shown.png == same.png
