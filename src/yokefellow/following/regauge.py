"""The rounds of a pattern's yoke at another row gauge.

Its increase rounds stay as deep below the neckband as the pattern has them.
Where that would leave less plain work before the split than a yoke needs, all
of them move up together, in proportion. What the yoke is then longer or
shorter is made up in the plain stretches, the last of them before the split.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from yokefellow.shaping.counts import nearest
from yokefellow.shaping.line import FULL_LATEST, LEAST_APART
from yokefellow.shaping.rates import FIRST

__all__ = ["moved", "moved_along"]


def moved(at: Sequence[int], *, ratio: float, printed: int | None, rounds: int) -> tuple[int, ...]:
    """Give the increase rounds of a yoke at the knitter's row gauge.

    Args:
        at: the pattern's increase rounds, in order.
        ratio: the knitter's rounds to the pattern's, over the same depth.
        printed: rounds of the pattern's yoke, where they are known.
        rounds: of the yoke as it will be knitted.

    >>> moved((2, 18, 35), ratio=1.0, printed=70, rounds=70)
    (2, 18, 35)
    >>> moved((2, 18, 35), ratio=1.2, printed=70, rounds=80)
    (2, 22, 42)
    """
    if not at:
        return ()
    scale = _scale(at, ratio=ratio, printed=printed, rounds=rounds, usual=FULL_LATEST)
    found = [at[0] if at[0] <= 2 else nearest(at[0] * scale, least=2)]
    for early, late in pairwise(at):
        least = found[-1] + min(LEAST_APART, late - early)
        found.append(max(least, nearest(late * scale)))
    return tuple(found)


def _scale(
    at: Sequence[int], *, ratio: float, printed: int | None, rounds: int, usual: float
) -> float:
    """Give the ratio, or less where the last increase would come too late."""
    own = at[-1] / printed if printed else usual
    latest = max(usual, own) * rounds
    return min(ratio, latest / at[-1])


def moved_along(
    at: Sequence[int], *, ratio: float, printed: int | None, rounds: int
) -> tuple[int, ...]:
    """Give the same of a raglan, which may increase in every round but the first, to the last.

    Args:
        at: the pattern's increase rounds, in order.
        ratio: the knitter's rounds to the pattern's, over the same depth.
        printed: rounds of the pattern's yoke, where they are known.
        rounds: of the yoke as it will be knitted; more than there are increase rounds.

    >>> moved_along((2, 4, 6, 8, 10), ratio=1.2, printed=10, rounds=12)
    (2, 5, 7, 10, 12)
    >>> moved_along((2, 4, 6, 8, 10), ratio=1.0, printed=10, rounds=8)
    (2, 3, 5, 6, 8)
    """
    if not at:
        return ()
    usual = 1.0 if printed is None else at[-1] / printed
    scale = _scale(at, ratio=ratio, printed=printed, rounds=rounds, usual=usual)
    found: list[int] = []
    for left, number in enumerate(at, start=1 - len(at)):
        least = found[-1] + 1 if found else FIRST
        found.append(min(rounds + left, max(least, nearest(number * scale))))
    return tuple(found)
