"""What the sheet says of a pattern that is followed, as frozen values."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["PatternView", "SizeLine"]


class SizeLine(NamedTuple):
    """One size in the table."""

    size: str
    cells: tuple[str, ...]
    is_followed: bool
    is_best: bool


class PatternView(NamedTuple):
    """Everything the sheet says of the pattern."""

    title: str
    intro: tuple[str, ...]
    heads: tuple[str, ...]
    lines: tuple[SizeLine, ...]
    told: tuple[str, ...]
    """What becomes of its rounds, from the neck down."""
