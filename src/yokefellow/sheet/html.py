"""The sheet as one self-contained page: it asks nothing of any network."""

from __future__ import annotations

from yokefellow.plan import Plan
from yokefellow.sheet.pages import page
from yokefellow.sheet.view import view
from yokefellow.what_if import Prospects

__all__ = ["render_html"]


def render_html(plan: Plan, prospects: Prospects | None = None) -> str:
    """Give the page for a browser; it also prints well from there.

    Args:
        plan: what it shows.
        prospects: with them it tells what other lengths would take.
    """
    return page(view(plan, prospects), medium="screen")
