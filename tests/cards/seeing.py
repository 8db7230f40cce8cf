"""What a reader would stumble over on a printed page."""

from typing import Any


def faults(page: Any) -> list[str]:
    """Words that lie on each other or outside the paper, for a page opened with pdfplumber."""
    words = page.extract_words(keep_blank_chars=True, x_tolerance=1)
    out = [word["text"] for word in words if word["x0"] < 8 or word["x1"] > page.width - 8 or word["bottom"] > page.height - 8]
    for i, one in enumerate(words):
        for other in words[i + 1 :]:
            across = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            down = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            if across > 1.5 and down > 3.0:
                out.append(f"{one['text']} on {other['text']}")
    return out
