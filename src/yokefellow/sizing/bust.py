"""How much of the chest is a full bust: what the round above it does not explain."""

from __future__ import annotations

__all__ = ["FULL_CM", "bust_cm", "frame_cm", "usual_bust_cm"]

FULL_CM = 2.5
"""A chest this much beyond the usual is a full bust: about the inch by which neighbouring
sizes overlap, and less than a sweater's ease takes up (common practice, no source)."""

_SLOPE, _BEFORE_CM = 0.184, 16.0
"""The straight line nearest to the twelve sizes of the standard; within 1/8 in of each."""


def usual_bust_cm(chest_cm: float) -> float:
    """Give how much the fullest round usually exceeds the one above it, close under the arms.

    ASTM D5585-11e1, women's misses: chest less upper chest is -5/8 in at a
    chest of 31 1/8 in (size 00) and 2 1/8 in at 46 in (size 20). Never below nothing here: a tape
    that finds the higher round larger has met the shoulder blades.
    """
    return max(0.0, _SLOPE * chest_cm - _BEFORE_CM)


def bust_cm(chest_cm: float, high_chest_cm: float | None) -> float:
    """Give how much of the chest is a full bust; nothing where it is a usual one.

    Args:
        chest_cm: round the fullest part.
        high_chest_cm: round the body above it; None when not measured.
    """
    if high_chest_cm is None:
        return 0.0
    beyond = chest_cm - high_chest_cm - usual_bust_cm(chest_cm)
    return beyond if beyond >= FULL_CM else 0.0


def frame_cm(chest_cm: float, high_chest_cm: float | None) -> float:
    """Give the chest that goes with the shoulders: without a full bust, the chest itself."""
    return chest_cm - bust_cm(chest_cm, high_chest_cm)
