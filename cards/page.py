"""Templates -> HTML -> PDF; alone knows jinja2 and weasyprint. The same HTML gives the same bytes."""

import hashlib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from cards.fit import font_file

if TYPE_CHECKING:
    from jinja2 import Environment


def templates() -> Path:
    """The folder of templates: inside the installed package, else beside it in a source checkout."""
    here = Path(__file__).resolve().parent
    return here / "templates" if (here / "templates").is_dir() else here.parent / "templates"


def html(template: str, **data: object) -> str:
    """A template of the templates folder filled with plain data; an unknown name in it is an error, never a blank."""
    return _environment().get_template(template).render(**data)


def pdf(text: str, *styles: str) -> bytes:
    """HTML as PDF bytes, set in the card's typeface, with the named style sheets of the templates folder."""
    from weasyprint import CSS, HTML
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    faces = "".join(f"@font-face{{font-family:Card;font-weight:{weight};src:url('{font_file(weight == 700).as_uri()}')}}"
                    for weight in (400, 700))  # fmt: skip
    sheets = [CSS(string=faces, font_config=fonts), *(CSS(filename=templates() / name, font_config=fonts) for name in styles)]
    identifier = hashlib.sha256(text.encode()).hexdigest()[:32].encode()
    made = HTML(string=text).write_pdf(stylesheets=sheets, font_config=fonts, pdf_identifier=identifier)
    return bytes(made)


@cache
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    return Environment(loader=FileSystemLoader(templates()), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
                       lstrip_blocks=True)  # fmt: skip
