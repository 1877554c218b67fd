"""Fills the templates of the sheet: one page for the screen and for paper."""

from __future__ import annotations

import sys
from base64 import b64encode
from contextlib import suppress
from functools import cache
from hashlib import sha256
from importlib.util import cache_from_source
from pathlib import Path
from typing import Literal

from jinja2 import BytecodeCache, Environment, FileSystemLoader, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup

from yokefellow.files import FileError, replace
from yokefellow.package_data import package_folder
from yokefellow.sheet.motifs import motif_views
from yokefellow.sheet.pieces import Sheet
from yokefellow.sheet.tints import TINTS
from yokefellow.words import words

__all__ = ["Medium", "motif_page", "page"]

Medium = Literal["screen", "paper"]


class _Beside(BytecodeCache):
    """Keeps the compiled templates beside this module's own bytecode: a tenth of a second a run.

    It is written as Python writes that: not where bytecode is not wanted, and
    where the folder may not be written to, or is full, the run goes on without.
    """

    @staticmethod
    def _file(bucket: Bucket) -> Path:
        compiled = Path(cache_from_source(__file__))
        return compiled.with_name(f"{compiled.stem}.{bucket.key}.pyc")

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill the bucket, where the template was compiled before."""
        with suppress(OSError), self._file(bucket).open("rb") as file:
            bucket.load_bytecode(file)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep the compiled template."""
        if not sys.dont_write_bytecode:
            with suppress(FileError):
                replace(self._file(bucket), bucket.bytecode_to_string())


@cache
def _templates() -> Environment:
    return Environment(
        loader=FileSystemLoader(package_folder("templates")),
        bytecode_cache=_Beside(),
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
    script = Markup(_as_it_is("sheet.js"))  # noqa: S704
    return templates.get_template("sheet/page.html.j2").render(
        sheet=sheet, medium=medium, style=style, script=script, policy=_policy(style, script)
    )


def motif_page() -> str:
    """Give the shipped motifs as a page of charts, with its style inside."""
    templates = _templates()
    drawn = templates.get_template("sheet/sheet.css.j2").render(paper="A4", tints=TINTS, title="")
    style = Markup(drawn + _as_it_is("screen.css"))  # noqa: S704 -- our own files
    return templates.get_template("sheet/motifs.html.j2").render(
        motifs=motif_views(), style=style, policy=_policy(style, ""), said=words("motifs")
    )


def _style(templates: Environment, sheet: Sheet, medium: Medium) -> str:
    style = templates.get_template("sheet/sheet.css.j2").render(
        paper=sheet.paper, tints=TINTS, title=_in_style(sheet.title)
    )
    if medium == "paper":
        return style
    return style + _as_it_is("screen.css")


def _as_it_is(name: str) -> str:
    """Give a file of the sheet in which nothing is filled in."""
    return (package_folder("templates") / "sheet" / name).read_text("utf-8")


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
