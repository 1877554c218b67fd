"""The fit report as frozen values, ready-made strings for every format."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["FitDrawing", "FitRow", "FitView"]


class FitRow(NamedTuple):
    """One height: body, sweater, ease, and how that lies beside the chosen fit."""

    key: str
    place: str
    body: str
    filled: bool
    """Whether a number of the body there comes from a sizing table."""
    garment: str
    ease: str
    chosen: str
    """The ease that the chosen fit means there."""
    verdict: str
    """`as chosen`, `tighter`, `looser` or `hangs free`."""
    verdict_key: str
    """`inside`, `tight`, `loose` or `free`."""
    body_cm: float
    garment_cm: float
    ease_cm: float
    least_cm: float
    most_cm: float | None
    at_cm: float


class FitDrawing(NamedTuple):
    """Body and sweater over each other: every coordinate a ready-made string."""

    view_box: str
    body: str
    """The path of the body,"""
    garment: str
    """and the paths of the sweater."""
    title: str
    description: str
    rule: str
    """How both are drawn."""


class FitView(NamedTuple):
    """The whole report."""

    rows: tuple[FitRow, ...]
    summary: tuple[str, ...]
    heights: str
    """How far below the underarm the heights of the body lie."""
    any_filled: bool
    drawing: FitDrawing
