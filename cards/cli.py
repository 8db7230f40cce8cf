"""The command ``nailcard``; alone prints, exits and catches.

Nothing heavy is imported before a command needs it, so that ``nailcard --help`` answers at once.
"""

import logging
import sys
import traceback
from collections.abc import Callable, Sequence
from contextvars import copy_context
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, TypeVar

import typer

from extractor.errors import Exit, LockedPlansError, NailcardError, OutputError, UsageError

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from cards.packet import Packet, Print
    from cards.task import Result
    from extractor.record import Job

T = TypeVar("T")
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

Plans = Annotated[list[Path], typer.Argument(metavar="PLANS", readable=False, help="PDFs or a folder of PDFs: one plan set.")]
PlansOrJob = Annotated[
    list[Path],
    typer.Argument(metavar="PLANS", readable=False, help="PDFs or a folder of PDFs: one plan set; or a job.json read earlier."),
]


def _password(path: Path | None) -> None:
    """Keep the password that stands in the file named, for this run."""
    if path is not None:
        from extractor import password

        password.use(password.from_file(path))


OutFolder = Annotated[Path, typer.Option(readable=False, help="The folder to write in; made where there is none.")]
PasswordFile = Annotated[
    Path | None,
    typer.Option(help="A file that holds the password of locked plans.", callback=_password, expose_value=False, metavar="FILE"),
]
Size = Annotated[
    str, typer.Option(help="3x5, 4x6, 5x8, id-1, half-letter (a wall tag), 4.5x3 or 120x80mm; id-1/2mm for a pouch border.")
]
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
        copy_context().run(app, args=argv, prog_name="nailcard")  # what a run keeps in mind ends with it
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
        typer.Argument(
            metavar="PLANS", readable=False, help="PDFs or a folder of PDFs: one plan set; or a job.json read earlier."
        ),
    ] = None,
    out: Annotated[Path | None, typer.Option(readable=False, help="Write the record here instead of to the screen.")] = None,
    schema: Annotated[bool, typer.Option("--schema", help="Print the JSON schema of the record and read nothing.")] = False,
    password_file: PasswordFile = None,
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
    _give(_read(plans).to_json(), out, plans)


@app.command()
def check(
    plans: PlansOrJob,
    form: Annotated[Literal["text", "json", "csv"], typer.Option("--format", help="What the findings come as.")] = "text",
    out: Annotated[Path | None, typer.Option(readable=False, help="Write the findings here instead of to the screen.")] = None,
    password_file: PasswordFile = None,
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
    out: Annotated[Path, typer.Option(readable=False, help="The PDF to write.")] = Path("cards.pdf"),
    size: Size = "3x5",
    paper: PaperSize = "letter",
    language: Language = "en",
    layout: Layout = "fold",
    password_file: PasswordFile = None,
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
    out: OutFolder,
    size: Size = "3x5",
    paper: PaperSize = "letter",
    language: Language = "en",
    layout: Layout = "fold",
    copies: Annotated[int | None, typer.Option(min=1, max=10_000, help="Copies of each card, for the register.")] = None,
    password_file: PasswordFile = None,
) -> None:
    """Every paper of the job in one folder.

    Says which papers were written and which questions are open.

    Example: nailcard packet plans.pdf --out packet
    """
    from cards.packet import Print
    from cards.sheet import size_named

    size_named(size)
    _packet(plans, out, Print(size, layout, paper, language), copies)


@app.command()
def order(
    plans: PlansOrJob,
    out: OutFolder,
    walls: Annotated[Path | None, typer.Option(help="Wall lengths and heights, a filled-in walls-to-fill.csv.")] = None,
    packs: Annotated[Path | None, typer.Option(help="Your own pack sizes, a filled-in packs-to-fill.toml.")] = None,
    paper: PaperSize = "letter",
    password_file: PasswordFile = None,
) -> None:
    """Panels, nails, blocks, bolts and hold-downs to order.

    Without wall lengths it writes walls-to-fill.csv for you to fill in. For ordering only.

    Example: nailcard order packet/job.json --walls walls.csv --out packet
    """
    from cards import lengths, output, packsizes
    from cards import order as orders
    from cards.packet import apart
    from extractor import files

    apart(out, plans)
    output.folder(out)
    job = _load(plans)
    given = orders.given(job, out, walls, packs)
    made = {name: orders.to_fill(job, name, out, given) for name in (lengths.TEMPLATE, packsizes.TEMPLATE)}
    made["order.pdf"] = orders.order_pdf(job, given.walls, given.packs, paper=paper)
    for name, data in made.items():
        if data is not None and not any(files.real(out / name) == files.real(one) for one in given.files):
            output.write(out / name, data, plans=[*plans, *given.files])
    lines = [str(out / name) for name, data in made.items() if data is not None]
    lines += [] if given.countable else ["Nothing could be counted: fill in lengths and heights."]
    _say("\n".join([*lines, orders.CAUTION]) + "\n")


@app.command()
def compare(
    old: Annotated[
        Path,
        typer.Argument(metavar="OLD", readable=False, help="The plans that cards were made from: a PDF, a folder, a job.json."),
    ],
    new: Annotated[Path, typer.Argument(metavar="NEW", readable=False, help="The plans that came: a PDF, a folder, a job.json.")],
    out: OutFolder,
    reissue: Annotated[bool, typer.Option("--reissue", help="NEW holds a few sheets that take the place of OLD's.")] = False,
    password_file: PasswordFile = None,
) -> None:
    """What changed between two plan sets.

    Says which cards to collect and which walls to look at again.

    Example: nailcard compare packet/job.json new-plans.pdf --out changes
    """
    from cards import changes, findings, numbers, output, register
    from cards.packet import apart

    apart(out, [old, new])
    output.folder(out)
    before = _load([old])
    job = before if reissue else _load([new])
    with numbers.using(numbers.load(numbers.beside(old))):
        issued = register.issues(numbers.beside(old).parent)
        if reissue:
            from cards.reissue import reissued

            now = _unlocked(lambda: reissued(before, [old], [new], _sheets))
            done = changes.changes(before, now.job, issued=issued, taken=now.taken)
            shots, record = now.pictures, out / "job.json"
            output.write(record, now.job.to_json().encode(), plans=[old, new])
        else:
            done = changes.changes(before, job, issued=issued)
            shots, record = changes.pictures_of(job, [new]), None
        written = changes.write(done, out, old=changes.pictures_of(before, [old]), new=shots, plans=[old, new])
    lines = [f"{path}  {holds}" for path, holds in written]
    lines += [f"{record}  the plans as they are now: make the next packet from it"] if record else []
    lines += ["", done.summary, done.to_do, *(f"LOOK: {one}" for one in done.found.warnings), findings.GOVERN]
    _say("\n".join(lines) + "\n")


@app.command()
def answer(
    job: Annotated[
        Path, typer.Argument(metavar="JOB", readable=False, help="The job.json, or the plans, that the answer is for.")
    ],
    finding: Annotated[str | None, typer.Argument(metavar="FINDING", help="A question, Q-03, or code:type:field.")] = None,
    value: Annotated[str | None, typer.Argument(metavar="VALUE", help="The value, as a schedule would print it.")] = None,
    ref: Annotated[str | None, typer.Option(help="What the answer is called in writing: 'RFI 3'.")] = None,
    date: Annotated[str | None, typer.Option(help="The day of the answer, 2026-05-12; today where none is given.")] = None,
    by: Annotated[str | None, typer.Option(help="Who enters it; your user name where none is given.")] = None,
    confirm: Annotated[bool, typer.Option("--confirm", help="Carry answers to an earlier plan file over to this one.")] = False,
    password_file: PasswordFile = None,
) -> None:
    """The engineer's written answer to a question, kept beside the job.

    The card prints the value with its reference. Alone, JOB lists the answers.

    Example: nailcard answer packet/job.json Q-03 '12" o.c.' --ref "RFI 3" --date 2026-05-12
    """
    import datetime

    from cards import answers, findings, numbers

    if (value is None) != (ref is None) or (value and (confirm or not finding)) or (finding and not value and not confirm):
        raise UsageError("An answer has a question, a value and a reference.", where="nailcard answer",
                         do="nailcard answer job.json Q-03 '12\" o.c.' --ref 'RFI 3', or --confirm.")  # fmt: skip
    day = answers.date_of(date) if date else datetime.date.today()
    read_job = _read([job])
    with numbers.using(numbers.load(numbers.beside(job))):
        if finding and value and ref:
            done = answers.enter(read_job, job, finding, value, ref, day, by)
        elif confirm:
            done = answers.confirm(read_job, job, finding, by)
        else:
            _say("\n".join(answers.listing(read_job, job)) + "\n")
            return
        _say("\n".join([*done.says, str(done.path), findings.summary(done.job), answers.AGAIN]) + "\n")


@app.command()
def batch(
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", readable=False, help="Every PDF below it is a plan set; see README for set.toml.")
    ],
    out: Annotated[
        Path, typer.Option(readable=False, help="The folder for the packets and the summary; made where there is none.")
    ],
    size: Size = "3x5",
    paper: PaperSize = "letter",
    language: Language = "en",
    layout: Layout = "fold",
    jobs: Annotated[int | None, typer.Option(min=1, help="Plan sets at once; one a core where none is given.")] = None,
    seconds: Annotated[float, typer.Option(min=1, help="The longest one plan set may take.")] = 300,
    memory: Annotated[int, typer.Option(min=300, help="The most memory one plan set may take, in MB.")] = 2000,
    cluster: Annotated[str | None, typer.Option(metavar="ADDRESS", help="Run on this Dask cluster: tcp://HOST:8786.")] = None,
    password_file: Annotated[
        Path | None, typer.Option(metavar="FILE", help="A file that holds the password of locked plans.")
    ] = None,
) -> None:
    """Every plan set below a folder, a packet each.

    One bad or hanging file stops nothing. Run it again to go on: what is finished is not done again.

    Example: nailcard batch jobs --out packets
    """
    from cards import batch as batches
    from cards import batchsummary, output
    from cards.sheet import size_named

    size_named(size)
    found = batches.plan_sets(folder, out)
    output.folder(out)
    every = batches.tasks(found, out, size=size, layout=layout, paper=paper, language=language, seconds=seconds, memory_mb=memory,
                          password_file=str(password_file.absolute()) if password_file else None)  # fmt: skip

    def told(done: int, total: int, result: "Result") -> None:
        print(f"{done} of {total}  {batchsummary.line(result)}", file=sys.stderr)

    results = batches.on_cluster(every, cluster, told) if cluster else batches.here(every, jobs, told)
    written = batchsummary.write(results, out)
    _say("\n".join([*(str(path) for path in written), "", batchsummary.headline(results)]) + "\n")
    if any(result.code for result in results):
        raise typer.Exit(Exit.PLANS)


@app.command()
def demo(
    out: OutFolder = Path("nailcard-demo"),
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


def _packet(plans: Sequence[Path], out: Path, how: "Print", copies: int | None = None) -> None:
    from cards import findings, output, register
    from cards.issuing import issue
    from cards.packet import apart

    apart(out, plans)
    output.folder(out)
    done = issue(_load(plans, out), out, how, plans=plans, copies=copies)
    lines = [f"Entered in {out / register.NAME}: {done.issue.named}.", *(f"LOOK: {one}" for one in done.notices), ""]
    _say(_packet_lines(done.packet) + "\n".join(["", *lines, findings.summary(done.job), findings.GOVERN]) + "\n")


def _packet_lines(done: "Packet") -> str:
    """What was written, what was left out, what was taken away: a line each."""
    width = max((len(str(path)) for path, _ in done.written), default=0)
    lines = [f"{path!s:{width}}  {holds}" for path, holds in done.written]
    lines += [f"Left out: {why}" for why in done.left_out]
    lines += [f"Taken away, it was from an earlier run: {path}" for path in done.removed]
    return "\n".join(lines) + "\n"


def _load(plans: Sequence[Path], *beside: Path) -> "Job":
    """The job of the plans named with the answers kept beside them; progress and what the answers do on stderr."""
    from cards import numbers
    from cards.answers import beside as with_answers

    if known := numbers.load(numbers.beside(plans[0])):
        numbers.use(known)
    found = with_answers(_read(plans), [*plans, *beside])
    for line in found.says:
        print(line, file=sys.stderr)
    return found.job


def _read(plans: Sequence[Path]) -> "Job":
    """The job of the plans named as the plans give it, with progress on stderr."""
    from cards.load import load

    def once() -> "Job":
        with _sheets() as progress:
            return load(plans, progress)

    return _unlocked(once)


def _unlocked(work: Callable[[], T]) -> T:
    """What ``work`` gives; where it meets locked plans and a person gives a password, once more with that."""
    try:
        return work()
    except LockedPlansError as error:
        if not _asked_for_password(error):
            raise
    return work()


def _asked_for_password(error: LockedPlansError) -> bool:
    """Whether a person at a terminal gave a password, which is then used; one that stands in a file is not asked for."""
    import getpass

    from extractor import password

    if password.in_use() or not _at_a_terminal():
        return False
    given = getpass.getpass(f"{error.what} Password (not shown): ")
    password.use(given)
    return bool(given)


def _at_a_terminal() -> bool:
    return sys.stdin.isatty() and sys.stderr.isatty()


def _sheets() -> "AbstractContextManager[Callable[[int, int, str], None]]":
    """Progress by sheet on stderr."""
    from cards.progress import sheets

    return sheets(sys.stderr)


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
