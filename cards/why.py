"""The why card: what each part of a shear wall does, in a few words and three line drawings. Common practice, no source."""

from dataclasses import replace

from cards import drawing
from cards.fit import LEADING, paragraph
from cards.front import Words
from cards.leaflet import Drawing, Side, inside, leaflet_pdf, title_and_foot
from cards.papers import spoken
from cards.paperwords import PaperWords
from cards.sheet import Size, size_named
from extractor.record import Job

_PARTS = ("racking", "sliding", "tipping")
_CAPTIONS = ("why_racks", "why_slides", "why_tips")
_SIZES = (11.0, 10.0, 9.0, 8.0)  # the largest that fits


def why_pdf(job: Job, *, size: str = "3x5", layout: str = "fold", paper: str = "letter", language: str = "en") -> bytes:
    """The card as PDF."""
    words, card = spoken(language), size_named(size)
    made = [(_front(job, card, PaperWords(words.spoken[0])), _back(job, card, PaperWords(words.spoken[-1]), words))]
    return leaflet_pdf(job, words, words.say("why_card"), made, size=card, layout=layout, paper=paper)


def _front(job: Job, size: Size, words: PaperWords) -> Side:
    """The three ways a wall fails, each with the parts that stop it."""
    k, (width, _) = size.scale, inside(size)
    head, top, end = title_and_foot(job, size, words.say("why"), words.say("why_head"), words.say("why_weakest"))
    return Side((*head, *_fitted(width, top, end, words, k)))


def _fitted(width: float, top: float, end: float, words: PaperWords, k: float) -> list[Words]:
    """The three texts between two heights, in the largest type that fits."""
    for size in _SIZES:
        said, used = _said(width, words, size * k)
        if top + used <= end:
            break
    return [replace(one, top=one.top + top) for one in said]


def _said(width: float, words: PaperWords, size: float) -> tuple[list[Words], float]:
    made, top = [], 0.0
    for part in _PARTS:
        for text, bold in ((words.say(f"why_{part}"), True), (words.say(f"why_{part}_is"), False)):
            lines = paragraph(text, width, size, bold)
            made.append(Words(0, top, width, size, lines, bold))
            top += len(lines) * size * LEADING
        top += size * 0.3
    return made, top


def _back(job: Job, size: Size, second: PaperWords, words: PaperWords) -> Side:
    """A drawing of each; where two languages are printed the second tells it here too."""
    k, (width, _) = size.scale, inside(size)
    head, top, end = title_and_foot(job, size, second.say("why"), second.say("why_head"), words.say("why_weakest"))
    if words.both:
        return Side((*head, *_fitted(width, top, end, second, k)))
    gap = 10 * k
    wide = (width - 2 * gap) / 3
    drawings, captions = [], []
    for i, (part, key) in enumerate(zip(_PARTS, _CAPTIONS, strict=True)):
        lines = paragraph(words.say(key), wide, 8.5 * k, True)
        height = end - top - 2 * 8.5 * k * LEADING - 4 * k
        drawings.append(Drawing(i * (wide + gap), top, wall_drawing(part, wide, height)))
        captions.append(Words(i * (wide + gap), top + height + 3 * k, wide, 8.5 * k, lines, True, "center"))
    return Side((*head, *captions), tuple(drawings))


def wall_drawing(part: str, width: float, height: float) -> str:
    """A wall from the front, pushed at its top from the left: out of square, along the floor, or over one end."""
    base, top, left, right = height - 14, 18.0, width * 0.24, width * 0.80
    lean = width * 0.12
    still = [(left, base), (left, top), (right, top), (right, base), (left, base)]
    moved = {
        "racking": [(left, base), (left + lean, top), (right + lean, top), (right, base), (left, base)],
        "sliding": [(x + lean, y) for x, y in still],
        "tipping": _turned(still, (right, base), 0.11),
    }[part]
    shapes = [drawing.line([(2, base + 1), (width - 2, base + 1)], 1.5), drawing.line(still, 0.75, dashed=True),
              drawing.line(moved, 1.75), *_arrow(4, left - 4, top + 4)]  # fmt: skip
    if part == "racking":
        side = [(left + lean * i / 10, base + (top - base) * i / 10) for i in range(1, 10)]
        shapes.append(drawing.dots([(x + 4, y) for x, y in side] + [(x + right - left - 4, y) for x, y in side], 2.2))
    if part == "sliding":
        bolts = [left + lean + (right - left) * t for t in (0.15, 0.5, 0.85)]
        shapes += [drawing.line([(x, base - 6), (x, base + 12)], 2.0) for x in bolts]
        shapes += [drawing.line([(x - 4, base - 5), (x + 4, base - 5)], 2.0) for x in bolts]
    if part == "tipping":
        x, y = moved[0]
        shapes += [drawing.line([(x + 5, y - 24), (x + 5, base + 12)], 2.0), drawing.box(x + 1.5, y - 24, 7, 14, 1.5)]
    return drawing.svg(width, height, *shapes)


def _arrow(start: float, end: float, y: float) -> list[str]:
    head = [(end, y), (end - 6, y - 3.5), (end - 6, y + 3.5)]
    return [drawing.line([(start, y), (end - 4, y)], 2.0), drawing.line(head, 1.0, filled=True)]


def _turned(points: list[tuple[float, float]], about: tuple[float, float], slope: float) -> list[tuple[float, float]]:
    """Points turned a little clockwise about one of them."""
    x0, y0 = about
    return [(x0 + (x - x0) - (y - y0) * slope, y0 + (y - y0) + (x - x0) * slope) for x, y in points]
