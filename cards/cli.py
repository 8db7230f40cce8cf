"""The command ``nailcard``; alone prints, exits and catches.

Nothing heavy is imported before a command needs it, so that ``nailcard --help`` answers at once.
"""

import logging
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from extractor.errors import Exit, NailcardError, OutputError, UsageError

if TYPE_CHECKING:
    from cards.packet import Packet, Print
    from extractor.record import Job

app = typer.Typer(
    name="nailcard",
    help="Reads shear wall schedules out of plan sets, checks them, and prints pocket cards for framers.\n\n"
    "The approved plans and the engineer of record govern.",
    epilog="Exit codes: 0 fine, 1 a STOP is open (check), 2 usage, 3 plans, 4 no schedule, 5 output, 70 a fault in nailcard.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

Plans = Annotated[list[Path], typer.Argument(metavar="PLANS", help="PDFs or a folder of PDFs: one plan set.")]
PlansOrJob = Annotated[
    list[Path], typer.Argument(metavar="PLANS", help="PDFs or a folder of PDFs: one plan set; or a job.json read earlier.")
]
Size = Annotated[str, typer.Option(help="Card size: 3x5, 4x6 or 5x8 in inches, or id-1.")]
Layout = Annotated[Literal["fold", "duplex", "single"], typer.Option(help="How front and back are printed.")]
PaperSize = Annotated[Literal["letter", "a4"], typer.Option(help="The paper in the printer.")]
Language = Annotated[Literal["en", "es", "en+es"], typer.Option(help="English, Spanish or both.")]


def main(argv: Sequence[str] | None = None) -> None:
    """Run the command with ``argv``, or with the words of the command line; always ends in SystemExit."""
    logging.getLogger("pdfminer").setLevel(logging.ERROR)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")  # a sign the terminal lacks must not stop a report
    try:
        app(args=argv, prog_name="nailcard")
    except NailcardError as error:
        print(error, file=sys.stderr)
        sys.exit(error.exit_code)
    except Exception:
        traceback.print_exc()
        print("This is a fault in nailcard, not in your plans. Nothing it wrote in this run should be used.", file=sys.stderr)
        sys.exit(Exit.BUG)


@app.command()
def read(
    plans: Annotated[
        list[Path] | None,
        typer.Argument(metavar="PLANS", help="PDFs or a folder of PDFs: one plan set; or a job.json read earlier."),
    ] = None,
    out: Annotated[Path | None, typer.Option(help="Write the record here instead of to the screen.")] = None,
    schema: Annotated[bool, typer.Option("--schema", help="Print the JSON schema of the record and read nothing.")] = False,
) -> None:
    """Plan set in, job record out.

    Every value comes with the words it was read from and the place where they stand.

    Example: nailcard read plans.pdf --out job.json
    """
    if schema:
        import json

        from extractor.record import Job

        _give(json.dumps(Job.model_json_schema(), indent=1) + "\n", out, plans or [])
        return
    if not plans:
        raise UsageError("No plans were named.", where="nailcard read", do="Name a PDF or a folder: nailcard read plans.pdf")
    _ready_to_write(out, plans)
    _give(_load(plans).to_json(), out, plans)


@app.command()
def check(
    plans: PlansOrJob,
    form: Annotated[Literal["text", "json", "csv"], typer.Option("--format", help="What the findings come as.")] = "text",
    out: Annotated[Path | None, typer.Option(help="Write the findings here instead of to the screen.")] = None,
) -> None:
    """What is missing, unclear or contradictory.

    Worst first. The exit code is 1 when a STOP is open.

    Example: nailcard check plans.pdf --format csv --out findings.csv
    """
    from cards import findings

    _ready_to_write(out, plans)
    job = _load(plans)
    say = {"text": findings.as_text, "json": findings.as_json, "csv": findings.as_csv}[form]
    _give(say(job), out, plans)
    if findings.stops(job):
        raise typer.Exit(Exit.STOP_OPEN)


@app.command()
def cards(
    plans: PlansOrJob,
    out: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("cards.pdf"),
    size: Size = "3x5",
    paper: PaperSize = "letter",
    language: Language = "en",
    layout: Layout = "fold",
) -> None:
    """Pocket cards, one a wall type.

    The card of a type with an open STOP says HOLD.

    Example: nailcard cards plans.pdf --out cards.pdf --paper a4
    """
    from cards import findings, output
    from cards.packet import Print, card_bytes
    from cards.sheet import size_named

    size_named(size)
    _ready_to_write(out, plans)
    job = _load(plans)
    output.write(out, card_bytes(job, Print(size, layout, paper, language)), plans=plans)
    _say(f"{out}\n{findings.summary(job)}\n{findings.GOVERN}\n")


@app.command()
def packet(
    plans: PlansOrJob,
    out: Annotated[Path, typer.Option(help="The folder to write in; made where there is none.")],
    size: Size = "3x5",
    paper: PaperSize = "letter",
    language: Language = "en",
    layout: Layout = "fold",
) -> None:
    """Every paper of the job in one folder.

    Says which papers were written and which questions are open.

    Example: nailcard packet plans.pdf --out packet
    """
    from cards.packet import Print
    from cards.sheet import size_named

    size_named(size)
    _packet(plans, out, Print(size, layout, paper, language))


@app.command()
def demo(
    out: Annotated[Path, typer.Option(help="The folder to write in; made where there is none.")] = Path("nailcard-demo"),
) -> None:
    """The packet of an invented plan set that comes along.

    Defects are planted in it, to show what a finding looks like.

    Example: nailcard demo --out demo
    """
    from cards.load import demo_plans
    from cards.packet import USUAL

    _say("This plan set is invented. Its names, numbers and models belong to no real house. Not for construction.\n\n")
    _packet([demo_plans()], out, USUAL)


@app.command(name="list-checks")
def list_checks() -> None:
    """Every check and the source of its rule.

    Example: nailcard list-checks
    """
    from extractor.checks import list_checks as every_check

    for code, level, citation, says in every_check():
        _say(f"{level.upper():4}  {code}\n      {says}\n      {citation}\n")


def _packet(plans: Sequence[Path], out: Path, how: "Print") -> None:
    from cards import findings, output
    from cards.packet import apart
    from cards.packet import packet as write_packet

    apart(out, plans)
    output.folder(out)
    job = _load(plans)
    _say(_packet_lines(write_packet(job, out, how=how, plans=plans)) + f"\n{findings.summary(job)}\n{findings.GOVERN}\n")


def _packet_lines(done: "Packet") -> str:
    """What was written, what was left out, what was taken away: a line each."""
    width = max((len(str(path)) for path, _ in done.written), default=0)
    lines = [f"{path!s:{width}}  {holds}" for path, holds in done.written]
    lines += [f"Left out: {why}" for why in done.left_out]
    lines += [f"Taken away, it was from an earlier run: {path}" for path in done.removed]
    return "\n".join(lines) + "\n"


def _load(plans: Sequence[Path]) -> "Job":
    """The job of the plans named, with progress on stderr."""
    from cards.load import load
    from cards.progress import sheets

    with sheets(sys.stderr) as progress:
        return load(plans, progress)


def _ready_to_write(out: Path | None, plans: Sequence[Path]) -> None:
    """Refuse an output that cannot be written before any long work is done."""
    if out is not None:
        from cards.output import writable

        writable(out, plans=plans)


def _give(text: str, out: Path | None, plans: Sequence[Path]) -> None:
    """Text to a file, or to stdout where no file is named."""
    if out is None:
        _say(text)
        return
    from cards.output import write

    write(out, text.encode(), plans=plans)


def _say(text: str) -> None:
    """Text to stdout; a full disk behind it is an OutputError, a reader that left is not."""
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(f"The result cannot be written: {error.strerror}.", where="stdout", do="Make room.") from error
