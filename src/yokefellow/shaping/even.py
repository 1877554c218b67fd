"""Spreading increases or decreases evenly round the work.

Handbooks agree that the leftover stitches are themselves spread, so that gaps
differ by at most one; leaflets leave a ragged end. Ours is the handbooks' way.
"""

from __future__ import annotations

from itertools import groupby
from math import gcd

__all__ = ["gaps", "period", "repeats_needed", "runs"]


def gaps(stitches: int, times: int) -> tuple[int, ...]:
    """Share `stitches` out among `times` groups so that sizes differ by at most one.

    The long and the short groups are themselves spread evenly: any stretch of
    equally many groups holds the same number of long ones, give or take one.

    Args:
        stitches: stitches to share out.
        times: number of groups.

    Returns:
        The group sizes in knitting order, short ones first where there is a choice.

    Raises:
        ValueError: no group, or more groups than stitches.

    >>> gaps(25, 4)
    (6, 6, 6, 7)
    """
    if not 1 <= times <= stitches:
        raise ValueError(f"{stitches} stitches do not make {times} groups")
    return tuple(
        (place + 1) * stitches // times - place * stitches // times for place in range(times)
    )


def period(stitches: int, times: int) -> tuple[tuple[int, ...], int]:
    """Give the groups of one repeat, and how many times that repeat goes round.

    >>> period(100, 16)
    ((6, 6, 6, 7), 4)
    >>> period(120, 24)
    ((5,), 24)
    """
    rounds = gcd(stitches, times)
    return gaps(stitches // rounds, times // rounds), rounds


def runs(sizes: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Gather neighbouring groups of one size: (size, how many) in order.

    >>> runs((6, 6, 6, 7))
    ((6, 3), (7, 1))
    """
    return tuple((size, len(tuple(same))) for size, same in groupby(sizes))


def repeats_needed(stitches: int, times: int) -> int:
    """Count the different brackets a knitter reads to spread `times` over `stitches`.

    1 when it divides exactly, 2 when one long group follows a run of short
    ones (or the reverse), more for a longer list. A first-time knitter works a
    round of 1 without counting, so the engine prefers it.

    >>> repeats_needed(120, 24), repeats_needed(100, 16), repeats_needed(103, 16)
    (1, 2, 14)
    """
    over = stitches % times
    if over == 0:
        return 1
    common = gcd(over, times)
    return 2 * min(over // common, times // common - over // common)
