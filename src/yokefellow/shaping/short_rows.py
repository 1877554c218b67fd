"""Short rows at the back of the neck, so that it does not ride up at the throat."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.shaping.counts import nearest
from yokefellow.shaping.spread_evenly import gaps

__all__ = ["ShortRows", "raglan_short_rows", "short_rows"]

FARTHEST = 0.35
"""Share of the neck stitches from the centre back to the first turn, in front of
the shoulder: about a third of the round stays low at the throat (common practice)."""

NEAREST = 0.13
"""The same to the last turn, within the back of the neck (common practice)."""

LEAST_STEP = 2
"""Stitches between two turns at the least, so that their gaps do not meet."""


class ShortRows(NamedTuple):
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
    return _between(
        nearest(FARTHEST * neck_stitches, least=2),
        nearest(NEAREST * neck_stitches, least=2),
        raise_cm=raise_cm,
        rows_per_cm=rows_per_cm,
    )


def raglan_short_rows(
    *, raise_cm: float, rows_per_cm: float, back: int, sleeve: int, neck_stitches: int
) -> ShortRows:
    """Plan the pairs for a raglan, whose front line tells where the front begins.

    The first turn lies at the line between sleeve and front, so that the whole
    front stays low; the last within the back. A sleeve that begins with too few
    stitches for the turns leaves them where a round yoke has them.

    Args:
        raise_cm: how much higher the back shall be.
        rows_per_cm: of the plain fabric.
        back: stitches of the back at the neck.
        sleeve: stitches of each sleeve there.
        neck_stitches: all of the neck.
    """
    plain = short_rows(raise_cm=raise_cm, rows_per_cm=rows_per_cm, neck_stitches=neck_stitches)
    at_line = _between(
        back // 2 + sleeve,
        min(nearest(NEAREST * neck_stitches, least=2), max(2, back // 2 - 1)),
        raise_cm=raise_cm,
        rows_per_cm=rows_per_cm,
    )
    return at_line if at_line.rows >= plain.rows else plain


def _between(far: int, near: int, *, raise_cm: float, rows_per_cm: float) -> ShortRows:
    """Spread as many pairs as the raise asks for between the first turn and the last."""
    wanted_rows = raise_cm * rows_per_cm
    pairs = nearest(wanted_rows / 2, least=0)
    pairs = min(pairs, 1 + (far - near) // LEAST_STEP)
    turns: list[int] = [far] if pairs else []
    for step in gaps(far - near, pairs - 1) if pairs > 1 else ():
        turns.append(turns[-1] - step)
    return ShortRows(tuple(turns), wanted_rows, rows_per_cm)
