"""What a person named on the command line -> one job: PDFs, a folder of PDFs, or a job record read earlier."""

import json
import re
from collections.abc import Callable, Sequence
from functools import partial
from importlib import resources
from pathlib import Path

from pydantic import ValidationError

from extractor import files, limits
from extractor.errors import DamagedPlansError, MissingPlansError, UsageError
from extractor.guard import guarded
from extractor.record import FORMAT, Finding, Job

Progress = Callable[[int, int, str], None]

DEMO_NAME = "INVENTED house (demo).pdf"  # the job name on its cards and papers


def load(paths: Sequence[Path], progress: Progress | None = None) -> Job:
    """The job of one plan set or of one job record, with every finding that the checks give today."""
    if not any(_is_record(path) for path in paths):
        plans = plan_files(paths)
        where = ", ".join(map(str, plans))
        return with_findings(_named(Job.model_validate_json(guarded(partial(_read, plans), progress, where)), plans))
    if len(paths) > 1:
        raise UsageError(
            "A job record stands alone.",
            where=", ".join(str(path) for path in paths),
            do="Name one job record, or only the PDFs of one plan set.",
        )
    return with_findings(record(paths[0]))


def _read(plans: Sequence[Path], step: Progress) -> str:
    from extractor import read  # slow to import, and a job record needs none of it

    return read.read(plans, step).to_json()


def plan_files(paths: Sequence[Path]) -> tuple[Path, ...]:
    """The PDFs that ``paths`` name, in the order given; a folder gives its own PDFs, S2 before S10, each file once."""
    return tuple(dict.fromkeys(file for path in paths for file in (_folder(path) if files.is_folder(path) else (_file(path),))))


def record(path: Path) -> Job:
    """The job record in ``path``, as ``nailcard read`` wrote it."""
    try:
        text = files.read(_file(path), limits.RECORD).decode()
        found = json.loads(text).get("format")
    except (ValueError, AttributeError, RecursionError):
        raise _not_a_record("This is not a job record.", path) from None
    except OSError as error:
        raise MissingPlansError(
            f"The job record cannot be read: {error.strerror}.", where=str(path), do="Check that you may read it."
        ) from error
    if found != FORMAT:
        raise _not_a_record(f"This job record has format {found!r}. This version reads {FORMAT!r}.", path)
    try:
        return Job.model_validate_json(text)
    except ValidationError as error:
        first = error.errors()[0]
        place = ".".join(str(part) for part in first["loc"])
        raise _not_a_record(f"This job record is damaged at {place}: {first['msg']}.", path) from error


def with_findings(job: Job) -> Job:
    """``job`` with what the checks find in it; a job that has all of it already is given back unchanged."""
    from extractor.checks import check

    known = {_same(finding) for finding in job.findings}
    new = tuple(finding for finding in check(job) if _same(finding) not in known)
    return job.model_copy(update={"findings": job.findings + new}) if new else job


def at_hand(job: Job, paths: Sequence[Path]) -> tuple[Path, ...]:
    """The PDFs that ``job`` was read from, where they are: those named, or those beside the job record named.

    None of them where the digest is another one: a picture of other plans would prove nothing.
    """
    from extractor.pictures import digest  # draws, so it is slow to import

    found: tuple[Path, ...] = ()
    if any(_is_record(path) for path in paths):
        found = tuple(paths[0].parent / name for name in job.plan_set.file.split(" + ") if Path(name).name == name)
    elif paths:
        found = plan_files(paths)
    return found if found and all(map(files.is_file, found)) and digest(found) == job.plan_set.sha256 else ()


def demo_plans() -> Path:
    """The invented demonstration plan set: inside the installed package, or beside it in a clone."""
    installed = Path(str(resources.files("cards"))) / "demo.pdf"
    return installed if installed.exists() else Path(__file__).parents[1] / "fixtures" / "demo.pdf"


def _named(job: Job, plans: Sequence[Path]) -> Job:
    """``job``; the demonstration's goes by a name that says on every card and page what it is."""
    if len(plans) != 1 or files.real(plans[0]) != files.real(demo_plans()):
        return job
    return job.model_copy(update={"plan_set": job.plan_set.model_copy(update={"file": DEMO_NAME})})


def _is_record(path: Path) -> bool:
    return path.suffix.lower() == ".json"


def _same(finding: Finding) -> tuple[object, ...]:
    return finding.code, finding.wall_type, finding.field, finding.source


def _file(path: Path) -> Path:
    try:
        path.stat()
    except OSError as error:
        raise _missing(error, path) from error
    return path


def _folder(path: Path) -> list[Path]:
    try:
        plans = [
            file for file in path.iterdir() if file.suffix.lower() == ".pdf" and not files.is_folder(file) and file.name[0] != "."
        ]
    except OSError as error:
        raise _missing(error, path) from error
    if not plans:
        raise MissingPlansError("The folder holds no PDF.", where=str(path), do="Name the folder that holds the plan set.")
    return sorted(
        plans,
        key=lambda file: [
            (not part.isdigit(), int(part) if part.isdigit() else 0, part.lower()) for part in re.findall(r"\d+|\D+", file.name)
        ],
    )


def _missing(error: OSError, path: Path) -> MissingPlansError:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return MissingPlansError("There is no such file or folder.", where=str(path), do="Check the name and the folder.")
    return MissingPlansError(
        f"The plans cannot be opened: {error.strerror}.", where=str(path), do="Check that you may read them."
    )


def _not_a_record(what: str, path: Path) -> DamagedPlansError:
    return DamagedPlansError(what, where=str(path), do="Read the plans again: nailcard read PLANS.pdf --out job.json")
