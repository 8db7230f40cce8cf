"""Changes plan files at random and reads them: ``python -m tests.hostile.fuzzing SEED COUNT SECONDS`` prints what came of it.

Each input is read in a process of its own with limits, as the command does it. An input that ends in anything but a job or an
error for a person is a fault; its number and the seed make it again. Changes are made to the file as it lies there, and to a
copy whose streams are unpacked, so that they reach what is drawn.
"""

import io
import logging
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

import pikepdf

from extractor import limits
from extractor.errors import NailcardError, OverLimitError
from extractor.guard import guarded
from extractor.read import read

FIXTURES = Path(__file__).parents[2] / "fixtures"
NAMES = ["one-type", "letter-size", "rows-ruled", "footnotes-superscript", "annotations-free-text", "rotate-90", "unicode-marks"]
WORDS = [
    b"/Kids",
    b"/Length",
    b"/Contents",
    b"/Rotate",
    b"/MediaBox",
    b"/Font",
    b"/ToUnicode",
    b"Tj",
    b"Tm",
    b"re",
    b" l\n",
    b"BT",
    b"q\n",
]
VALUES = [
    b"-1",
    b"0",
    b"99999999999",
    b"1e38",
    b"null",
    b"(",
    b")",
    b"<",
    b">>",
    b"[",
    b"9 0 R",
    b"\x00",
    b"\xff\xfe",
    b"endstream",
]


def say(line: str) -> None:
    """A line on stdout."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def bases() -> list[bytes]:
    """The files that are changed: as they lie there, and unpacked."""
    out = []
    for name in NAMES:
        out.append((FIXTURES / f"{name}.pdf").read_bytes())
        unpacked = io.BytesIO()
        with pikepdf.open(FIXTURES / f"{name}.pdf") as pdf:
            pdf.save(unpacked, qdf=True, static_id=True)
        out.append(unpacked.getvalue())
    return out


def changed(data: bytes, draw: random.Random) -> bytes:
    """The file with one to eight changes."""
    out = bytearray(data)
    for _ in range(draw.randint(1, 8)):
        at = draw.randrange(len(out))
        length = min(draw.choice((1, 4, 40, 400)), len(out) - at)
        kind = draw.randrange(7)
        if kind == 0:
            out[at] = draw.randrange(256)
        elif kind == 1:
            del out[at : at + length]
        elif kind == 2:
            out[at:at] = out[at : at + length]
        elif kind == 3:
            out[at : at + length] = draw.randbytes(length)
        elif kind == 4:
            word = draw.choice(WORDS)
            place = out.find(word, at)
            if place >= 0:
                out[place : place + len(word)] = draw.choice(VALUES)
        elif kind == 5:
            digits = next((i for i in range(at, min(at + 200, len(out))) if out[i : i + 1].isdigit()), None)
            if digits is not None:
                out[digits : digits + 1] = draw.choice(VALUES[:5])
        else:
            out[at:at] = draw.choice(VALUES)
        if not out:
            return b"%PDF-"
    if draw.random() < 0.8 and b"%%EOF" not in out[-2048:]:
        out += b"\n%%EOF\n"
    return bytes(out)


def main(seed: int, count: int, seconds: float) -> int:
    """Read ``count`` changed files, or as many as fit in the time; how many of them ended in a fault."""
    limits.SECONDS, limits.MEMORY = 30, 2 << 30
    logging.getLogger("pdfminer").setLevel(logging.ERROR)
    read([FIXTURES / f"{NAMES[0]}.pdf"])  # loads all that reads, once for all processes
    every, came, faults, began = bases(), Counter[str](), 0, time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "changed.pdf"
        for number in range(count):
            if time.monotonic() - began > seconds:
                break
            draw = random.Random(f"{seed} {number}")
            path.write_bytes(changed(draw.choice(every), draw))
            try:
                guarded(lambda step: read([path], step).to_json(), None, path.name)
                came["read"] += 1
            except NailcardError as error:
                came[type(error).__name__] += 1
                if isinstance(error, OverLimitError):
                    say(f"input {number} of seed {seed}: {error.what}")
            except Exception as error:
                faults += 1
                say(f"FAULT in input {number} of seed {seed}: {error}")
    said = ", ".join(f"{times} {name}" for name, times in came.most_common())
    say(f"seed {seed}: {came.total() + faults} inputs tried: {said}; {faults} faults")
    return faults


if __name__ == "__main__":
    sys.exit(min(1, main(int(sys.argv[1]), int(sys.argv[2]), float(sys.argv[3]))))
