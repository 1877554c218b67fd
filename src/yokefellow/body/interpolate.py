"""Where a body lies between the sizes of a table, and what a column says there."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

_EXACT = 1e-6
"""A share nearer than this to a size is that size, in words."""


class Place(NamedTuple):
    """Between two neighbouring sizes, or carried on beyond the first or last two."""

    lower: int
    """Index of the smaller of the two sizes; the larger is the next one."""
    share: float
    """0 at the smaller size, 1 at the larger; below 0 or above 1 beyond the ends."""
    beyond: bool
    """More than half a size outside the table."""

    def words(self, sizes: Sequence[str]) -> str:
        """Name the place: `M`, `M–L`, `beyond 5X`, `below XS`."""
        if self.beyond:
            return f"below {sizes[0]}" if self.share < 0 else f"beyond {sizes[-1]}"
        if self.share < _EXACT:
            return sizes[self.lower]
        if self.share > 1 - _EXACT:
            return sizes[self.lower + 1]
        return f"{sizes[self.lower]}–{sizes[self.lower + 1]}"


def place(middles: Sequence[float], at: float) -> Place:
    """Find `at` among the sizes' middle values.

    Args:
        middles: the middle value of each size, growing; at least two.
        at: the body's value of the same measure.

    >>> place((80.0, 90.0, 110.0), 95.0)
    Place(lower=1, share=0.25, beyond=False)
    """
    lower = min(max(bisect_right(middles, at) - 1, 0), len(middles) - 2)
    share = (at - middles[lower]) / (middles[lower + 1] - middles[lower])
    return Place(lower, share, beyond=not -0.5 <= share <= 1.5)


def value(column: Sequence[float], where: Place) -> float:
    """Read a column at a place, by a straight line; beyond the ends by the end's own slope.

    >>> value((10.0, 12.0, 20.0), Place(lower=1, share=0.25, beyond=False))
    14.0
    """
    return (1 - where.share) * column[where.lower] + where.share * column[where.lower + 1]


def value_within(column: Sequence[float], where: Place) -> float:
    """Read a column at a place, held at the end sizes' value beyond them."""
    held = min(max(where.share, 0.0), 1.0)
    return value(column, Place(where.lower, held, beyond=False))


def slope(column: Sequence[float], middles: Sequence[float], where: Place) -> float:
    """Give how much a column grows there for each unit of the measure it is read by."""
    run = middles[where.lower + 1] - middles[where.lower]
    return (column[where.lower + 1] - column[where.lower]) / run
