"""Short rows at the back of the neck, so that it does not ride up at the throat."""

from __future__ import annotations

from dataclasses import dataclass

from yokefellow.shaping.counts import nearest
from yokefellow.shaping.even import gaps

__all__ = ["ShortRows", "short_rows"]

FARTHEST = 0.35
"""Share of the neck stitches from the centre back to the first turn, in front of
the shoulder: about a third of the round stays low at the throat (common practice)."""

NEAREST = 0.13
"""The same to the last turn, within the back of the neck (common practice)."""

LEAST_STEP = 2
"""Stitches between two turns at the least, so that their gaps do not meet."""


@dataclass(frozen=True, slots=True)
class ShortRows:
    """Pairs of short rows centred on BOR, each turning nearer to it than the pair before."""

    turns: tuple[int, ...]
    """Stitches from BOR to the turn of each pair, on both sides; falling."""
    wanted_rows: float
    """The rows the raise asked for."""
    rows_per_cm: float

    @property
    def rows(self) -> int:
        """Rows added at the centre back: two a pair."""
        return 2 * len(self.turns)

    @property
    def raise_cm(self) -> float:
        """How much higher the back becomes, in cm."""
        return self.rows / self.rows_per_cm


def short_rows(*, raise_cm: float, rows_per_cm: float, neck_stitches: int) -> ShortRows:
    """Plan the pairs of short rows that raise the back of the neck.

    Pairs = half the rows of the raise, rounded (each pair adds two rows), and
    no more than fit between the first turn and the last at least two stitches
    apart.
    """
    wanted_rows = raise_cm * rows_per_cm
    pairs = nearest(wanted_rows / 2, least=0)
    far = nearest(FARTHEST * neck_stitches, least=2)
    near = nearest(NEAREST * neck_stitches, least=2)
    pairs = min(pairs, 1 + (far - near) // LEAST_STEP)
    turns: list[int] = [far] if pairs else []
    for step in gaps(far - near, pairs - 1) if pairs > 1 else ():
        turns.append(turns[-1] - step)
    return ShortRows(tuple(turns), wanted_rows, rows_per_cm)
