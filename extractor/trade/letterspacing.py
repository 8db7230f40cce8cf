"""Words drawn letter by letter: S H E A R  W A L L S is two words."""

from collections.abc import Collection

import regex as re


def close_up(text: str, words: Collection[str]) -> str:
    """The text with letter-spaced words closed up; unchanged where it is not drawn letter by letter.

    Two spaces or more part words. Where only single spaces are left, the run is parted into ``words`` if that can be done
    without a rest, and stays one word otherwise.

    >>> close_up("S H E A R W A L L S", ("SHEAR", "WALLS")), close_up("SW 1", ())
    ('SHEAR WALLS', 'SW 1')
    """
    tokens = text.split()
    single = sum(len(token) == 1 for token in tokens)
    if single < 4 or single < 0.7 * len(tokens):
        return text
    runs = ["".join(run.split()) for run in re.split(r"\s{2,}", text.strip())]
    return " ".join(" ".join(_parted(run, words) or [run]) for run in runs)


def _parted(run: str, words: Collection[str]) -> list[str] | None:
    """``run`` parted into known words and signs, the fewest possible; None where a rest stays."""
    best: list[list[str] | None] = [[]] + [None] * len(run)
    known = {word.upper() for word in words}
    for end in range(1, len(run) + 1):
        for start in range(max(0, end - 16), end):
            head, piece = best[start], run[start:end]
            if (
                head is not None
                and (piece.upper() in known or not piece.isalnum())
                and (best[end] is None or len(head) + 1 < len(best[end] or []))
            ):
                best[end] = [*head, piece]
    return best[-1]
