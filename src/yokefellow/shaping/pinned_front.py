"""The split shared between front and back as it is pinned."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.meeting import LEAST_HELD
from yokefellow.shaping.shapes import Split

__all__ = ["front_too_wide", "halved", "with_pinned_front"]


def _front(split: Split, fixed: Fixed) -> int:
    if fixed.front is not None:
        return fixed.front
    return split.front if fixed.back is None else split.front + split.back - fixed.back


def halved(split: Split, fixed: Fixed) -> Split | None:
    """Give the split with the front and the back that are pinned; None where it has no such."""
    both, front = split.front + split.back, _front(split, fixed)
    if fixed.front is not None and fixed.back not in (None, both - front):
        return None
    if front == split.front:
        return split
    fits = LEAST_HELD <= front <= both - LEAST_HELD
    return replace(split, own_front=front) if fits else None


def with_pinned_front(split: Split, fixed: Fixed) -> Split:
    """Give the split with the front, or the back, that is pinned.

    Raises:
        PlanError: the other half is left with fewer stitches than there must be.
    """
    found = halved(split, fixed)
    if found is None:
        raise PlanError([_narrow(split, fixed)])
    return found


def front_too_wide(split: Split, fixed: Fixed) -> Finding | None:
    """Say that the front, or the back, leaves too little of a split; None where it does not."""
    return None if halved(split, fixed) is not None else _narrow(split, fixed)


def _narrow(split: Split, fixed: Fixed) -> Finding:
    both = split.front + split.back
    pin, name = (fixed.front, "front") if fixed.front is not None else (fixed.back, "back")
    return Finding(
        "fixed.front-back",
        Severity.ERROR,
        f"fixed.{name}",
        f"Front and back have {both} stitches together between the underarms, and a "
        f"{name} of {pin} leaves fewer than {LEAST_HELD} for the other.",
        f"Write at most {both - LEAST_HELD}, or pin a larger body.",
    )
