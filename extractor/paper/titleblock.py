"""The title block of a sheet: number, title, revision and date, found by their labels and their place at the edge."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

import regex as re

from extractor.paper.phrases import Phrase
from extractor.record import Box

NUMBER = re.compile(r"(?:[A-Z]{1,3}[ -]?\d{1,3}(?:[.-]\d{1,3})?[A-Za-z]?|\d{1,3}(?:\.\d{1,2})?[A-Z]?)")
COUNTED = re.compile(r"\d{1,3} OF \d{1,3}", re.I)  # a set whose sheets have no other number
LABELS = {
    "number": re.compile(r"(?:SHEET|DWG\.?|DRAWING)(?: ?(?:NO\.?|NUMBER|#))?:?", re.I),
    "title": re.compile(r"(?:(?:SHEET|DRAWING|DWG\.?) ?(?:TITLE|NAME|CONTENTS?)|TITLE|CONTENTS):?", re.I),
    "revision": re.compile(r"(?:REV\.?|REVISIONS?)(?: ?(?:NO\.?|#))?:?", re.I),
    "date": re.compile(r"(?:(?:ISSUE |PLOT |SHEET )?DATE(?: OF ISSUE| ISSUED)?|ISSUED|DATED):?", re.I),
}
ANY_LABEL = re.compile(
    r"(?:FIRM|PROJECT|CLIENT|OWNER|JOB(?: NO\.?)?|DRAWN(?: BY)?|DRN\.?|CHECKED(?: BY)?|CHK\.?|CHKD\.?|SCALE|BY|NO\.?|DESCRIPTION"
    r"|APPROVED|STAMP|ADDRESS|ENGINEER|PHASE|DESIGNED|" + "|".join(p.pattern for p in LABELS.values()) + ")",
    re.I,
)
REVISION = re.compile(r"[△▲Δ]? ?([A-Z]|\d{1,2})")
INLINE = re.compile(r"REV(?:ISION)?\.?(?: ?NO\.?)?(?: ?: ?| )([A-Z]|\d{1,2})", re.I)
_MONTHS = {m: i + 1 for i, m in enumerate("JAN FEB MAR APR MAY JUN JUL AUG SEP OCT NOV DEC".split())}
_DATES = (
    re.compile(r"(?<!\d)(?P<y>20\d\d)[-./](?P<m>\d{1,2})[-./](?P<d>\d{1,2})(?!\d)"),
    re.compile(r"(?<!\d)(?P<m>\d{1,2})[-./](?P<d>\d{1,2})[-./](?P<y>20\d\d|\d\d)(?!\d)"),
    re.compile(r"(?<!\d)(?P<d>\d{1,2})(?:ST|ND|RD|TH)?[ -](?P<mon>[A-Z]{3})[A-Z]*\.?,?[ -](?P<y>20\d\d)", re.I),
    re.compile(r"\b(?P<mon>[A-Z]{3})[A-Z]*\.? (?P<d>\d{1,2})(?:ST|ND|RD|TH)?,? (?P<y>20\d\d)", re.I),
)


class TitleBlock(NamedTuple):
    """What the title block says; None where it was not found. The date is ISO."""

    number: str | None
    title: str | None
    revision: str | None
    date: str | None


class Places(NamedTuple):
    """Where on a sheet its number, title, revision and date stand: the free space round them, up to the next words.

    An office draws one title block on all sheets of a size; on the next sheet the same places hold the same things.
    """

    number: Box
    title: Box | None
    revision: Box | None
    date: Box | None


def places(found: Sequence[Phrase], size: tuple[float, float]) -> Places | None:
    """The places of the title block's values on a sheet with these phrases; None where it has no number or no title."""
    block = title_block(found, size)
    if block.number is None or block.title is None:
        return None
    edge = [p for p in found if p.box[0] > 0.76 * size[0] or p.box[1] > 0.84 * size[1] or p.box[3] < 0.12 * size[1]]
    number = _number(edge, size)
    if number is None:
        return None
    near = _around(found, edge, number, size)
    title = next((p for p in near if block.title.startswith(p.text) and p is not number), None)
    revision = next((p for p in near if block.revision and _revised(p.text) == block.revision), None)
    date_ = next((p for p in near if block.date and block.date in dates(p.text)), None)
    if title is None or (block.revision and not revision) or (block.date and not date_):
        return None
    return Places(
        _room(number, found, 0.3),
        _room(title, found, 1.4),
        _room(revision, found, 0.3) if revision else None,
        _room(date_, found, 0.3) if date_ else None,
    )


def _room(own: Phrase, found: Sequence[Phrase], lines: float) -> Box:
    """The space round a phrase: its line as wide as it is free, and ``lines`` type heights more below."""
    x0, y0, x1, y1 = own.box
    level = [p for p in found if p is not own and p.box[3] > y0 - 2 and p.box[1] < y1 + 2]
    left = max((p.box[2] for p in level if p.box[2] <= x0), default=x0 - 60)
    right = min((p.box[0] for p in level if p.box[0] >= x1), default=x1 + 200)
    foot = min((p.box[1] for p in found if p.box[1] >= y1 - 1 and p.box[0] < x1 and p.box[2] > x0), default=y1 + 4 * own.size)
    return max(left + 1, x0 - 60), y0 - 2, min(right - 1, x1 + 200), min(y1 + lines * own.size, foot - 1) if lines > 1 else y1 + 2


def from_places(number: str, title: str, revision: str, date: str) -> TitleBlock | None:
    """The title block from the text at its places; None where that is no number or no title, so the sheet has another block."""
    number, title = "".join(number.split()), " ".join(title.split())
    if (
        not NUMBER.fullmatch(number)
        or not number[0].isalpha()
        or not re.search(r"[A-Za-z]{3}", title)
        or len(title) > 70
        or ANY_LABEL.fullmatch(title)
        or any(dates(title))
    ):
        return None
    return TitleBlock(number, title, _revised(revision), next(iter(dates(date)), None))


def _revised(text: str) -> str | None:
    """The revision that a text names with its label, or that stands first in a row of its own; None for any other text."""
    mark = INLINE.fullmatch(text.strip()) or re.match(REVISION.pattern + r"(?!\S)", text.strip())
    return mark[1] if mark else None


def dates(text: str) -> Iterable[str]:
    """Dates in the text as ISO, month first where all are digits (US practice); one that no calendar has is left out."""
    for pattern in _DATES:
        for m in pattern.finditer(text):
            parts = m.groupdict()
            month = _MONTHS.get(parts["mon"][:3].upper()) if parts.get("mon") else int(parts["m"])
            year = int(parts["y"]) + (2000 if len(parts["y"]) == 2 else 0)
            try:
                yield date(year, month or 0, int(parts["d"])).isoformat()
            except ValueError:
                continue


def title_block(found: Sequence[Phrase], size: tuple[float, float]) -> TitleBlock:
    """Number, title, revision and date of the sheet whose phrases and size these are."""
    width, height = size
    edge = [p for p in found if p.box[0] > 0.76 * width or p.box[1] > 0.84 * height or p.box[3] < 0.12 * height]
    number = _number(edge, size)
    near = _around(found, edge, number, size)
    title = _title(near, number, size)
    named = number.text if number and COUNTED.fullmatch(number.text) else number.text.replace(" ", "") if number else None
    return TitleBlock(named, title, _revision(near), _date(near))


def _around(found: Sequence[Phrase], edge: Sequence[Phrase], number: Phrase | None, size: tuple[float, float]) -> list[Phrase]:
    """The phrases of the strip that holds the sheet number: the right edge, the foot or head of the sheet, or its rows."""
    if number is None:
        return list(edge)
    width, height = size
    x, y = (number.box[0] + number.box[2]) / 2, (number.box[1] + number.box[3]) / 2
    reach = max(40.0, 3 * number.size)
    strips = [[p for p in found if number.box[1] - reach < (p.box[1] + p.box[3]) / 2 < number.box[3] + reach]]
    if y < 0.12 * height:
        strips.append([p for p in edge if p.box[3] < 0.12 * height])
    else:
        if x > 0.76 * width:
            strips.append([p for p in edge if p.box[0] > 0.76 * width])
        if y > 0.84 * height:
            strips.append([p for p in edge if p.box[1] > 0.84 * height])
    return max(strips, key=_told)


def _told(strip: Sequence[Phrase]) -> int:
    """How many of number, title, revision and date the phrases of a strip name, by a label or in one phrase with it."""
    named = {key for p in strip for key, pattern in LABELS.items() if pattern.fullmatch(p.text)}
    named |= {"revision" for p in strip if INLINE.fullmatch(p.text)}
    return len(named | {"date" for p in strip if any(dates(p.text))})


def _labelled(found: Sequence[Phrase], key: str) -> list[Phrase]:
    return [p for p in found if LABELS[key].fullmatch(p.text)]


def _values(found: Sequence[Phrase], label: Phrase, reach: float = 75.0) -> list[Phrase]:
    """Phrases that may be a label's value: to its right on the line, or below it, nearest first."""
    out = []
    beside = [p.box[0] - 2 for p in found if p.turn == label.turn == 0 and ANY_LABEL.fullmatch(p.text) and _level(p, label)]
    end = min((x for x in beside if x > label.box[2]), default=label.box[2] + 62)
    for p in found:
        if p is label or ANY_LABEL.fullmatch(p.text):
            continue
        right = p.box[0] - label.box[2]
        level = _level(p, label)
        below = p.box[1] - label.box[3]
        overlap = min(p.box[2], end) - max(p.box[0], label.box[0] - 12)
        if level and 0 < right < 110:
            out.append((right * 0.5, p))
        elif -0.4 * p.size < below < reach and overlap > 0 and p.turn == label.turn:
            out.append((below + abs(p.box[0] - label.box[0]) * 0.05, p))
    return [p for _, p in sorted(out, key=lambda entry: entry[0])]


def _level(a: Phrase, b: Phrase) -> bool:
    return abs((a.box[1] + a.box[3]) - (b.box[1] + b.box[3])) / 2 < 0.6 * max(a.size, b.size)


def _number(edge: Sequence[Phrase], size: tuple[float, float]) -> Phrase | None:
    """The sheet number: shaped like one, at the edge, labelled or the largest of its kind towards the corner."""
    width, height = size
    values = [v for label in _labelled(edge, "number") for v in _values(edge, label, reach=110.0)[:3]]
    labelled = {id(v) for v in values if NUMBER.fullmatch(v.text.replace(" ", ""))}
    if labelled:
        edge = [p for p in edge if id(p) in labelled]
    elif counted := next((v for v in values if COUNTED.fullmatch(v.text)), None):
        return counted
    best, top = None, 0.0
    for p in edge:
        text = p.text.replace(" ", "")
        if not NUMBER.fullmatch(text) or len(p.words) > 2:
            continue
        lettered = text[0].isalpha()
        if not lettered and id(p) not in labelled:
            continue
        x, y = (p.box[0] + p.box[2]) / 2 / width, (p.box[1] + p.box[3]) / 2 / height
        score = p.size + (14 if id(p) in labelled else 0) + 8 * x * (1 if y > 0.5 else 0.6) + 6 * y
        if score > top:
            best, top = p, score
    return best


def _title(near: Sequence[Phrase], number: Phrase | None, size: tuple[float, float]) -> str | None:
    for label in _labelled(near, "title"):
        values = [
            v for v in _values(near, label) if v is not number and re.search(r"[A-Za-z]{3}", v.text) and not any(dates(v.text))
        ]
        if values:
            return " ".join(p.text for p in _block(values[0], near))
    if number is None:
        return None
    lettered = [
        p
        for p in near
        if p is not number
        and not ANY_LABEL.fullmatch(p.text)
        and re.search(r"[A-Za-z]{4}", p.text)
        and not re.search(r"\bSEE\b", p.text, re.I)
        and not any(dates(p.text))
    ]
    plan = [
        p
        for p in lettered
        if re.search(
            r"\b(?:PLANS?|NOTES?|SCHEDULES?|DETAILS?|SECTIONS?|ELEVATIONS?|FRAMING|FOUNDATION|FLOORS?|ROOFS?|LEVELS?|WALLS?|TABLES?|COVER|INDEX)\b",
            p.text,
            re.I,
        )
    ]
    if not plan:
        return None
    turned = 0.2 * size[1]
    nearest = min(
        plan,
        key=lambda p: (
            abs(p.box[1] - number.box[1]) + 0.4 * abs(p.box[0] - number.box[0]) + (turned if p.turn != number.turn else 0)
        ),
    )
    return " ".join(p.text for p in _block(nearest, near))


def _block(first: Phrase, near: Sequence[Phrase]) -> list[Phrase]:
    """The line and the lines of the same size right above and under it, from the top."""
    out = [first]
    words = [p for p in near if not ANY_LABEL.fullmatch(p.text) and re.search(r"[A-Za-z]{2}", p.text)]
    for p in sorted(words, key=lambda q: q.box[1]):
        if p not in out and _next_line(out[-1], p):
            out.append(p)
    for p in sorted(words, key=lambda q: -q.box[1]):
        if p not in out and _next_line(p, out[0]):
            out.insert(0, p)
    return out


def _next_line(upper: Phrase, lower: Phrase) -> bool:
    return (
        0 <= lower.box[1] - upper.box[1] < 1.6 * upper.size
        and lower.box[1] - upper.box[3] > -0.5 * upper.size
        and abs(lower.size - upper.size) < 0.6
        and min(lower.box[2], upper.box[2]) > max(lower.box[0], upper.box[0])
    )


def _revision(near: Sequence[Phrase]) -> str | None:
    for p in near:
        inline = INLINE.fullmatch(p.text)
        if inline:
            return str(inline[1])
    rows: list[tuple[str, str]] = []
    for label in _labelled(near, "revision"):
        for value in _values(near, label, reach=130.0):
            head = REVISION.fullmatch(value.words[0].text)
            if not head:
                continue
            line = " ".join(
                q.text
                for q in near
                if abs(q.box[3] - value.box[3]) < 0.6 * q.size and value.box[0] <= q.box[0] < value.box[0] + 260
            )
            if len(value.words) > 1 and not any(dates(line)):
                continue
            rows.append((next(iter(dates(line)), ""), str(head[1])))
            if not rows[-1][0]:
                return rows[-1][1]
    return max(rows, key=lambda row: row[0])[1] if rows else None


def _date(near: Sequence[Phrase]) -> str | None:
    """The labelled date, or the latest of those in the strip."""
    for label in _labelled(near, "date"):
        for value in _values(near, label)[:3]:
            for day in dates(value.text):
                return day
    return max((day for p in near for day in dates(p.text)), default=None)
