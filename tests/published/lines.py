"""Published straight lines and columns, read at a point by code of its own."""

from __future__ import annotations

__all__ = ["between", "on_line"]


def between(points: list[float], values: list[float], at: float) -> float:
    """Read a column at a point between two of its own; beyond them the last line goes on."""
    low = max([i for i in range(len(points) - 1) if points[i] <= at], default=0)
    share = (at - points[low]) / (points[low + 1] - points[low])
    return values[low] + share * (values[low + 1] - values[low])


def on_line(line: list[float], at: float) -> float:
    """Give the height of a line `[at zero, slope, ...]`."""
    return line[0] + line[1] * at
