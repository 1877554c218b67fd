"""Spreading increases or decreases evenly round the work.

Handbooks agree that the leftover stitches are themselves spread, so that gaps
differ by at most one; leaflets leave a ragged end. Ours is the handbooks' way.
"""

from __future__ import annotations

from math import gcd
from typing import TypeAlias

__all__ = ["Word", "gaps", "repeats_needed", "sizes", "word"]


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


Word: TypeAlias = "tuple[int | tuple[Word, int], ...]"
"""Group sizes in knitting order; a pair is a word worked so many times over."""


def word(stitches: int, times: int) -> tuple[Word, int]:
    """Spread as `gaps` does, written as shortly as a knitter can read it.

    The rarer groups are shared out among the commoner ones, then the two kinds
    of cluster this makes are shared out among each other, and so on: Euclid's
    algorithm on the two numbers of groups. The result is as even as `gaps`
    (one of its rotations), and a few nested repeats long instead of a list.

    Returns:
        One repeat, and how many times it goes round.

    Raises:
        ValueError: no group, or more groups than stitches.

    >>> word(120, 24)
    ((5,), 24)
    >>> word(100, 16)
    ((((6,), 3), 7), 4)
    """
    if not 1 <= times <= stitches:
        raise ValueError(f"{stitches} stitches do not make {times} groups")
    rounds = gcd(stitches, times)
    size, long = divmod(stitches // rounds, times // rounds)
    if long == 0:
        return (size,), rounds
    common: tuple[Word, int] = ((size,), times // rounds - long)
    rare: tuple[Word, int] = ((size + 1,), long)
    while True:
        if common[1] < rare[1]:
            common, rare = rare, common
        each, over = divmod(common[1], rare[1])
        if over == 0:
            return (*_again(common[0], each), *rare[0]), rounds
        common, rare = (
            ((*_again(common[0], each), *rare[0]), rare[1] - over),
            ((*_again(common[0], each + 1), *rare[0]), over),
        )


def _again(once: Word, times: int) -> Word:
    return once if times == 1 else ((once, times),)


def sizes(written: Word) -> tuple[int, ...]:
    """Write a word out: every group size in knitting order.

    >>> sizes((((6,), 3), 7))
    (6, 6, 6, 7)
    """
    out: list[int] = []
    for part in written:
        out += [part] if isinstance(part, int) else sizes(part[0]) * part[1]
    return tuple(out)


def repeats_needed(stitches: int, times: int) -> int:
    """Count the groups a knitter reads in the instruction that spreads `times` over `stitches`.

    1 when it divides exactly, 2 when one long group follows a run of short
    ones (or the reverse), more for a longer one. A first-time knitter works a
    round of 1 without counting, so the engine prefers it.

    >>> repeats_needed(120, 24), repeats_needed(100, 16), repeats_needed(103, 16)
    (1, 2, 8)
    """
    over = stitches % times
    if over == 0:
        return 1
    # The lengths that `word` comes to, by the same steps and without its words:
    # the search for a yoke's counts asks for thousands of them.
    groups = 2
    common, rare = max(over, times - over), min(over, times - over)
    while left := common % rare:
        groups *= 2  # each kind of cluster now holds one of each kind before
        common, rare = max(left, rare - left), min(left, rare - left)
    return groups
