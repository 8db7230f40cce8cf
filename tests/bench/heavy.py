"""Draws heavy plan sets: sheets of 36 x 24 in with tens of thousands of segments, and one sheet with schedules. All invented."""

import random
import zlib
from pathlib import Path

import pydyf

WIDTH, HEIGHT = 2592, 1728
NAMES = "BEAM POST HDR JOIST TYP. ALIGN SLAB FTG CONT. BLKG RIM TRUSS GIRDER LEDGER CLR. MIN. VERIFY SEE PLAN DTL".split()
EIGHT, TEN = "8d COMMON (0.131 x 2-1/2)", "10d COMMON (0.148 x 3)"
WALLS = [(f"SW{i}", *row) for i, row in enumerate(
    [("7/16", EIGHT, 6, 240), ("7/16", EIGHT, 4, 350), ("7/16", EIGHT, 3, 450), ("15/32", EIGHT, 6, 260),
     ("15/32", EIGHT, 4, 380), ("15/32", EIGHT, 3, 490), ("15/32", TEN, 4, 460), ("15/32", TEN, 6, 310)], start=1)]  # fmt: skip
HOLDS = [
    ("HD1", "KT-16", "(2) 2x6", '5/8"', '8"', "2510"),
    ("HD2", "KT-34", "4x6", '7/8"', '12"', "4620"),
    ("HD3", "KT-45", "4x6", '7/8"', '14"', "5900"),
    ("HD4", "KT-70", "6x6", '1"', '18"', "8100"),
]


def _text(x: float, y: float, words: str, size: float = 8) -> str:
    safe = words.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")
    return f"BT /F1 {size} Tf 1 0 0 1 {x:.1f} {y:.1f} Tm ({safe}) Tj ET"


def _table(x: float, y: float, widths: list[float], rows: list[list[str]], height: float = 18) -> list[str]:
    out = [f"{x} {y - i * height} m {x + sum(widths)} {y - i * height} l S" for i in range(len(rows) + 1)]
    edges = [x + sum(widths[:i]) for i in range(len(widths) + 1)]
    out += [f"{e} {y} m {e} {y - len(rows) * height} l S" for e in edges]
    out += [_text(edges[c] + 4, y - (r + 1) * height + 5, cell, 8) for r, row in enumerate(rows) for c, cell in enumerate(row)]
    return out


def _dense(draw: random.Random, segments: int, left: float = 60.0) -> list[str]:
    out, count = ["0.3 w"], 0
    while count < segments:
        x, y = draw.uniform(left, 2200), draw.uniform(80, 1600)
        if draw.random() < 0.6:
            path = [f"{x:.1f} {y:.1f} m"]
            for _ in range(6):
                x, y = x + draw.uniform(-30, 30), y + draw.uniform(-30, 30)
                path.append(f"{x:.1f} {y:.1f} l")
            out.append(" ".join(path) + " S")
            count += 6
        else:
            long = draw.uniform(5, 60)
            dx, dy = (long, 0.0) if draw.random() < 0.5 else (0.0, long)
            out.append(f"{x:.1f} {y:.1f} m {x + dx:.1f} {y + dy:.1f} l S")
            count += 1
    return out


def _frame(number: str, title: str) -> list[str]:
    return [
        "2 w 20 20 2552 1688 re S 2300 20 m 2300 1708 l S 0.5 w",
        _text(2310, 200, "DATE", 6), _text(2400, 200, "2026-02-02", 9), _text(2310, 160, "REV", 6), _text(2400, 160, "1", 9),
        _text(2310, 120, "SHEET TITLE", 6), _text(2310, 104, title, 10), _text(2310, 70, "SHEET", 6), _text(2400, 50, number, 30),
    ]  # fmt: skip


def heavy(path: Path, sheets: int = 100, *, segments: int = 40_000, beside: int = 0) -> None:
    """Write a plan set of ``sheets`` pages; the second last holds the schedules, with ``beside`` segments drawn beside them."""
    document = pydyf.PDF()
    font = pydyf.Dictionary({"Type": "/Font", "Subtype": "/Type1", "BaseFont": "/Helvetica", "Encoding": "/WinAnsiEncoding"})
    document.add_object(font)
    for page in range(sheets):
        draw = random.Random(page)
        schedule = page == max(sheets - 2, 0)
        number = f"S{page // 10 + 1}.{page % 10}"
        if schedule:
            body = [*_frame(number, "SCHEDULES"), _text(100, 1620, "SHEAR WALL SCHEDULE", 12)]
            head = [
                "MARK",
                "SHEATHING",
                "NAIL",
                "EDGE NAILING",
                "FIELD NAILING",
                "ANCHOR BOLTS",
                "HOLD-DOWN",
                "CAPACITY (ASD SEISMIC) PLF",
            ]
            rows = [
                [m, f'{t}" OSB, ONE SIDE', n, f'{e}" O.C.', '12" O.C.', '5/8" @ 32" O.C.', f"HD{i % 4 + 1}", str(p)]
                for i, (m, t, n, e, p) in enumerate(WALLS)
            ]
            body += _table(100, 1610, [50, 130, 170, 90, 90, 110, 80, 160], [head, *rows])
            body += [
                _text(100, 1400, "HOLD-DOWN SCHEDULE", 12),
                *_table(
                    100,
                    1390,
                    [50, 80, 80, 80, 90, 90],
                    [["MARK", "MODEL", "POST", "ANCHOR BOLT", "EMBEDMENT", "CAPACITY (LB)"], *map(list, HOLDS)],
                ),
            ]
            body += _dense(draw, beside, 1150.0) if beside else []
        else:
            title = "FRAMING PLAN" if page < sheets // 5 else "DETAILS"
            body = [*_frame(number, title), *_dense(draw, segments)]
            body += [
                _text(
                    draw.uniform(60, 2200),
                    draw.uniform(80, 1600),
                    f"{draw.choice(NAMES)} {draw.choice(NAMES)} {draw.randint(1, 99)}",
                    6,
                )
                for _ in range(500)
            ]
            if title == "FRAMING PLAN":
                body += [_text(draw.uniform(60, 2200), 1640 + draw.uniform(0, 30), draw.choice(WALLS)[0], 9) for _ in range(6)]
                body += [_text(draw.uniform(60, 2200), 40 + draw.uniform(0, 30), draw.choice(HOLDS)[0], 9) for _ in range(6)]
        stream = pydyf.Stream(["\n".join(body).encode()], compress=True)
        document.add_object(stream)
        document.add_page(pydyf.Dictionary({
            "Type": "/Page", "Parent": document.pages.reference, "MediaBox": pydyf.Array([0, 0, WIDTH, HEIGHT]),
            "Contents": stream.reference, "Resources": pydyf.Dictionary({"Font": pydyf.Dictionary({"F1": font.reference})}),
        }))  # fmt: skip
    with path.open("wb") as file:
        document.write(file)
    assert zlib.crc32(path.read_bytes())
