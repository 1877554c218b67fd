"""The formats of the sheet. A new one is one new file and one line here."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType

from yokefellow.conductor import Plan
from yokefellow.sheet.glance import render_glance
from yokefellow.sheet.html import render_html
from yokefellow.sheet.json import render_json
from yokefellow.sheet.pdf import render_pdf
from yokefellow.sheet.text import render_text

__all__ = ["FORMATS"]

FORMATS: MappingProxyType[str, Callable[[Plan], str | bytes]] = MappingProxyType(
    {
        "html": render_html,
        "pdf": render_pdf,
        "text": render_text,
        "json": render_json,
        "glance": render_glance,
    }
)
"""Each format by its name, with what makes it from a plan."""
