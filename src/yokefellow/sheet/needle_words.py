"""Needles in words."""

from __future__ import annotations

from yokefellow.advice.needles import NeedleChange
from yokefellow.plan import Plan
from yokefellow.quantities import length
from yokefellow.sheet.figures import needle
from yokefellow.sheet.lines import Note

__all__ = ["needle_note", "needle_words"]


def needle_words(change: NeedleChange, plan: Plan) -> str:
    """Name a needle: its size and, for a circular one, its length."""
    unit = plan.project.sheet.units
    size = needle(change.mm, unit)
    if not change.length_cm:
        return f"{size}, double-pointed, or a long circular needle worked as a loop"
    return f"{size}, circular, {length(change.length_cm, unit)} long"


def needle_note(plan: Plan, change: NeedleChange, *, place: int) -> Note:
    """Say which needle to take from a row on, the row given by its place in the schedule."""
    words = needle_words(change, plan)
    text = f"Begin with needle {words}." if place == 1 else f"From here on: needle {words}."
    return Note("needle", "Needle", change.number, text)
