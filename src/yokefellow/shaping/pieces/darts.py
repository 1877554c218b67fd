"""Darts of short rows across the front or the back of the body.

Rows = the difference of the two lengths x the row gauge, rounded to even: each
pair of short rows adds two. The turns lie between the side marker and half an
inch outside the fullest point, no two above one another, and the stitches from
one to the next differ by at most one (common practice; worked examples: a
knitting weblog, jg.net, 2010, and Star Crossed Knits, both as quoted in the
tests).
"""

from __future__ import annotations

from itertools import accumulate
from typing import NamedTuple

from yokefellow.shaping.counts import nearest
from yokefellow.shaping.spread_evenly import gaps

__all__ = ["BEGIN_CM", "OUTSIDE_CM", "Dart", "dart", "dart_rows", "turns"]

LEAST_STEP = 2
"""Stitches between two turns at the least, so that their gaps do not meet."""

OUTSIDE_CM = 1.27
"""The innermost turns stay half an inch outside the fullest points (Star Crossed Knits)."""

BEGIN_CM = 2.5
"""The first short row lies about an inch below the underarm at the earliest (the same)."""


class Dart(NamedTuple):
    """Pairs of short rows over one half of the body, alike at both its sides."""

    half: str
    """`front` or `back`."""
    number: int
    """The round of the body that they carry out; the next one closes their gaps."""
    turns: tuple[int, ...]
    """Stitches from the side marker to the turn of each pair, at both sides; rising."""
    wanted_rows: int
    """The rows that the difference of the lengths asked for."""
    rows_per_cm: float

    @property
    def rows(self) -> int:
        """Rows added in the middle: two a pair."""
        return 2 * len(self.turns)

    @property
    def cm(self) -> float:
        """How much longer that half becomes, in cm."""
        return self.rows / self.rows_per_cm


def dart_rows(length_cm: float, *, rows_per_cm: float) -> int:
    """Give the rows of a dart: even, and none where less than two would do.

    >>> dart_rows(1.0, rows_per_cm=4.2), dart_rows(5.0, rows_per_cm=2.8)
    (4, 14)
    """
    return nearest(length_cm * rows_per_cm, multiple=2, least=0)


def turns(stitches: int, pairs: int) -> tuple[int, ...]:
    """Spread the turns of so many pairs over the stitches from the marker to the innermost.

    >>> turns(30, 7)
    (4, 8, 12, 17, 21, 25, 30)
    """
    return tuple(accumulate(gaps(stitches, pairs)))


def dart(
    half: str, *, number: int, stitches: int, length_cm: float, clear: float, rows_per_cm: float
) -> Dart | None:
    """Plan a dart; None where the lengths are alike to a row, or there is no room to turn.

    Args:
        half: `front` or `back`.
        number: the round of the body at which it is worked.
        stitches: of that half, from marker to marker.
        length_cm: by how much it must be longer.
        clear: stitches in the middle that every row crosses.
        rows_per_cm: of the plain fabric.
    """
    wanted = dart_rows(length_cm, rows_per_cm=rows_per_cm)
    room = (stitches - nearest(clear)) // 2
    pairs = min(wanted // 2, room // LEAST_STEP)
    if pairs < 1:
        return None
    return Dart(half, number, turns(room, pairs), wanted, rows_per_cm)
