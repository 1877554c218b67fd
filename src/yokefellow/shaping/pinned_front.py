"""The split shared between front and back as it is pinned."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.project.fixed import Fixed
from yokefellow.shaping.meeting import LEAST_HELD
from yokefellow.shaping.shapes import Split

__all__ = ["with_pinned_front"]


def with_pinned_front(split: Split, fixed: Fixed) -> Split:
    """Give the split with the front, or the back, that is pinned.

    Raises:
        PlanError: the other half is left with fewer stitches than there must be.
    """
    both = split.front + split.back
    front = fixed.front
    if front is None:
        front = split.front if fixed.back is None else both - fixed.back
    if front == split.front:
        return split
    if not LEAST_HELD <= front <= both - LEAST_HELD:
        pin, name = (fixed.front, "front") if fixed.front is not None else (fixed.back, "back")
        raise PlanError(
            [
                Finding(
                    "fixed.front-back",
                    Severity.ERROR,
                    f"fixed.{name}",
                    f"Front and back have {both} stitches together between the underarms, and a "
                    f"{name} of {pin} leaves fewer than {LEAST_HELD} for the other.",
                    f"Write at most {both - LEAST_HELD}, or pin a larger body.",
                )
            ]
        )
    return replace(split, own_front=front)
