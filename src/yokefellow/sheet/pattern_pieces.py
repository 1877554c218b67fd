"""What the sheet says of a pattern that is followed, as frozen values."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["PatternView", "SizeLine"]


@dataclass(frozen=True, slots=True)
class SizeLine:
    """One size in the table."""

    size: str
    cells: tuple[str, ...]
    is_followed: bool
    is_best: bool


@dataclass(frozen=True, slots=True)
class PatternView:
    """Everything the sheet says of the pattern."""

    title: str
    intro: tuple[str, ...]
    heads: tuple[str, ...]
    lines: tuple[SizeLine, ...]
    told: tuple[str, ...]
    """What becomes of its rounds, from the neck down."""
