"""Words as printed -> one line of plain text that keeps the way back to the words; and what the grammar finds in it."""

import unicodedata
from collections.abc import Sequence
from typing import Any, NamedTuple

import regex as re

from extractor.record import State

Span = tuple[int, int]


class Found(NamedTuple):
    """A value the grammar found: the dotted field of the record it belongs to, the value, its span in the plain text."""

    field: str
    value: Any
    span: Span
    state: State = State.READ


class Plain(NamedTuple):
    """Plain text and, for each word that went in, the span it has there."""

    text: str
    spans: tuple[Span, ...]

    def words_in(self, span: Span) -> list[int]:
        """Indexes of the words that ``span`` touches."""
        return [i for i, (start, end) in enumerate(self.spans) if start < span[1] and end > span[0]]


_TWIN = re.compile(r"(?<=\S)\s?\(\d[\d.,x ]* ?(?:mm|cm|m|kN(?:/m)?|N/mm|kg)\)", re.I)


def without_twins(text: Plain) -> Plain:
    """The text without metric twins in brackets, as in `6" (152 mm)`; the words of a twin have an empty span where it stood."""
    cuts: list[Span] = [m.span() for m in _TWIN.finditer(text.text)]
    out, end = "", 0
    for start, stop in cuts:
        out, end = out + text.text[end:start], stop
    if not cuts:
        return text

    def moved(place: int) -> int:
        return place - sum(min(place, stop) - start for start, stop in cuts if start < place)

    return Plain(out + text.text[end:], tuple((moved(a), moved(b)) for a, b in text.spans))


_SAME = str.maketrans(
    {c: '"' for c in "″“”„‟〃＂˝"}
    | {c: "'" for c in "′‘’‛`´ʹʼ"}
    | {c: "-" for c in "‐‑‒–—−﹣－\u00ad"}
    | {c: " " for c in "\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t\r\n"}
    | {c: None for c in "\u200b\u200c\u200d\u2060\ufeff"}
    | {"×": "x", "✕": "x", "⨯": "x", "⁄": "/", "∕": "/", "ø": "Ø", "⌀": "Ø", "∅": "Ø", "φ": "Ø", "Φ": "Ø", "…": "..."}
)


_ONE_WORD = re.compile(r"\b(shear)-?(walls?|panels?)\b", re.I)  # SHEARWALL is written both ways


def plain_word(word: str) -> str:
    """One word with its quotes, dashes, spaces, fractions and ligatures in one spelling; idempotent.

    >>> plain_word("1½″"), plain_word("15⁄32''")
    ('1-1/2"', '15/32"')
    """
    if word.isascii():
        return str(_ONE_WORD.sub(r"\1 \2", " ".join(word.translate(_SAME).replace("''", '"').split())))
    out = ""
    for c in word:
        form = unicodedata.normalize("NFKC", c) if c not in "″′‴´" else c
        if unicodedata.decomposition(c).startswith("<super>") and form.isdigit():
            form = f"({form})"  # 260¹ is 260 with a footnote, not 2601
        if unicodedata.category(c) == "No" and "⁄" in form and out[-1:].isdigit():
            form = "-" + form  # 1½ is 1-1/2, not 11/2
        out += form
    return str(_ONE_WORD.sub(r"\1 \2", " ".join(out.translate(_SAME).replace("''", '"').split())))


def plain(words: Sequence[str]) -> Plain:
    """The words joined by single spaces in plain spelling, each with its span; an empty word has an empty span."""
    text, spans = "", []
    for word in words:
        tidy = plain_word(word)
        start = len(text) + bool(text and tidy)
        text = f"{text} {tidy}" if text and tidy else text + tidy
        spans.append((min(start, len(text)), len(text)))
    return Plain(text, tuple(spans))
