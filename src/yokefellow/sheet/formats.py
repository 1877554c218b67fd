"""The formats of the sheet. A new one is one new file and one line here."""

from __future__ import annotations

from types import MappingProxyType
from typing import Protocol

from yokefellow.plan import Plan
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.pdf import render_pdf
from yokefellow.sheet.text import render_text
from yokefellow.what_if import Prospects

__all__ = ["FORMATS", "Renderer"]


class Renderer(Protocol):
    """Makes one format of the sheet."""

    def __call__(self, plan: Plan, prospects: Prospects | None = None, /) -> str | bytes:
        """Render a plan; with prospects, what other lengths would take, too."""


FORMATS: MappingProxyType[str, Renderer] = MappingProxyType(
    {
        "html": render_html,
        "pdf": render_pdf,
        "text": render_text,
        "json": render_json,
        "glance": render_glance,
    }
)
"""Each format by its name, with what makes it from a plan."""
