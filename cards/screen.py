"""Pages for a screen in one file: style, script, typeface and pictures inside, nothing from any network.

A policy in the page names its own style and script by their hash, so that no words from a plan can ever run as either.
"""

import base64
import hashlib
from functools import cache

from cards import page
from cards.fit import font_file


def screen(name: str, /, *, running: str, **data: object) -> bytes:
    """The page ``name``.html filled with plain data, with ``name``.css and ``name``.js inside it.

    ``running`` stands on every sheet of paper that the page is printed on.
    """
    style = f"{_faces()}\n{_paper(running)}\n{_file(f'{name}.css')}"
    script = _file(f"{name}.js")
    policy = (f"default-src 'none'; img-src data:; font-src data:; style-src '{_hash(style)}'; script-src '{_hash(script)}'; "
              "base-uri 'none'; form-action 'none'")  # fmt: skip
    return page.html(f"{name}.html", style=style, script=script, policy=policy, **data).encode()


def png(data: bytes) -> str:
    """A picture as an address that a page can hold in itself."""
    return "data:image/png;base64," + base64.b64encode(data).decode()


def css_string(text: str) -> str:
    r"""Text as a string in a style sheet; whatever could end it is written by its number.

    >>> css_string('a"b')
    '"a\\22 b"'
    """
    return '"' + "".join(c if (c.isalnum() and c.isascii()) or c in " .,-" else f"\\{ord(c):x} " for c in text) + '"'


@cache
def _faces() -> str:
    """The card's typeface, in which 1 l I and 0 O differ."""
    return "\n".join(
        f"@font-face{{font-family:Card;font-weight:{700 if bold else 400};"
        f"src:url(data:font/ttf;base64,{base64.b64encode(font_file(bold).read_bytes()).decode()})}}"
        for bold in (False, True)
    )


def _paper(running: str) -> str:
    """The margins of a printed sheet: what it is a sheet of, and page n of N."""
    font = "font:8pt Card,sans-serif"
    look = f"{font};white-space:nowrap;width:1in;text-align:right"
    count = f'@top-right{{{look};content:"page " counter(page) " of " counter(pages)}}'
    return f"@page{{margin:0.75in 0.5in;@top-left{{{font};content:{css_string(running)}}}{count}}}"


def _file(name: str) -> str:
    return (page.templates() / name).read_text(encoding="utf-8").strip()


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
