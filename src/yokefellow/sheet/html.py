"""The sheet as one self-contained page: it asks nothing of any network."""

from __future__ import annotations

from yokefellow.conductor import Plan
from yokefellow.sheet.pages import page
from yokefellow.sheet.view import view

__all__ = ["render_html"]


def render_html(plan: Plan) -> str:
    """Give the page for a browser; it also prints well from there."""
    return page(view(plan), medium="screen")
