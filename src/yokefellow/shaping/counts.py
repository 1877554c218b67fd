"""The one place that turns a real number of stitches or rounds into an integer.

Whatever is rounded keeps what was wanted beside what was got.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

__all__ = ["Count", "nearest", "permitted", "rounds_for"]

HALF = 0.5
"""Half a stitch or half a round: what a finished dimension may lose to simplicity."""


@dataclass(frozen=True, slots=True)
class Count:
    """A number of stitches or rounds, and the length that was wanted."""

    got: int
    wanted: float
    """The real number that was asked for."""
    per_cm: float

    @property
    def cm(self) -> float:
        """The length it makes, in cm."""
        return self.got / self.per_cm

    @property
    def wanted_cm(self) -> float:
        """The length that was asked for, in cm."""
        return self.wanted / self.per_cm

    @property
    def residual_cm(self) -> float:
        """How much longer it is than was asked for, in cm."""
        return (self.got - self.wanted) / self.per_cm


def permitted(
    wanted: float, *, multiple: int, remainder: int = 0, least: int = 1
) -> tuple[int, ...]:
    """List the counts that divisibility permits and that lie nearest to the wanted one.

    The nearest permitted count, and every other that is at most half a stitch
    further away; so a dimension is never more than half a stitch worse than
    what divisibility allows at best.

    Args:
        wanted: the real count.
        multiple: the repeat it must divide by,
        remainder: leaving this over.
        least: the smallest count that makes sense.

    >>> permitted(107.3, multiple=2)
    (108,)
    >>> permitted(107.0, multiple=2)
    (106, 108)
    """
    below = floor((wanted - remainder) / multiple) * multiple + remainder
    around = [count for count in (below, below + multiple) if count >= least]
    while not around:
        below += multiple
        around = [below] if below >= least else []
    best = min(abs(count - wanted) for count in around)
    return tuple(count for count in around if abs(count - wanted) <= best + HALF)


def nearest(wanted: float, *, multiple: int = 1, remainder: int = 0, least: int = 1) -> int:
    """Give the permitted count nearest to the wanted one; the larger of two equally near.

    >>> nearest(19.84), nearest(52.8), nearest(33.5)
    (20, 53, 34)
    """
    below = floor((wanted - remainder) / multiple) * multiple + remainder
    if below < least:
        return remainder + ceil((least - remainder) / multiple) * multiple
    above = below + multiple
    return below if round(wanted - below, 9) < round(above - wanted, 9) else above


def rounds_for(length_cm: float, *, per_cm: float, least: int = 1, odd: bool = False) -> Count:
    """Give the rounds that make a length; only an odd number where it must be `odd`."""
    wanted = length_cm * per_cm
    multiple, remainder = (2, 1) if odd else (1, 0)
    got = nearest(wanted, multiple=multiple, remainder=remainder, least=least)
    return Count(got, wanted, per_cm)
