"""Fills the templates of the sheet: one page for the screen and for paper."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256
from typing import Literal

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from yokefellow.sheet.pieces import Sheet
from yokefellow.sheet.tints import TINTS
from yokefellow.shelf import shelf

__all__ = ["Medium", "page"]

Medium = Literal["screen", "paper"]


@cache
def _templates() -> Environment:
    return Environment(
        loader=FileSystemLoader(shelf("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def page(sheet: Sheet, *, medium: Medium) -> str:
    """Give the whole page as HTML, with its style and script inside.

    Args:
        sheet: what it says.
        medium: `screen` has real check boxes, a script and a content security
            policy; `paper` has glyph boxes and neither.
    """
    templates = _templates()
    # Our own files, trusted; in them stand the paper, one of two words, and the escaped title.
    style = Markup(_style(templates, sheet, medium))  # noqa: S704
    script = Markup(templates.get_template("sheet/sheet.js").render())  # noqa: S704
    return templates.get_template("sheet/page.html.j2").render(
        sheet=sheet, medium=medium, style=style, script=script, policy=_policy(style, script)
    )


def _style(templates: Environment, sheet: Sheet, medium: Medium) -> str:
    style = templates.get_template("sheet/sheet.css.j2").render(
        paper=sheet.paper, tints=TINTS, title=_in_style(sheet.title)
    )
    if medium == "paper":
        return style
    return style + templates.get_template("sheet/screen.css").render()


def _in_style(words: str) -> str:
    """Write words for a string of a style sheet, where nothing in them can mean anything."""
    return "".join(
        letter if letter.isascii() and letter.isalnum() else f"\\{ord(letter):x} "
        for letter in words
    )


def _policy(style: str, script: str) -> str:
    """Allow the page its own style and script, and nothing else from anywhere."""
    return (
        f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
