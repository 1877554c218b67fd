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

__all__ = ["moved"]


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
    own = at[-1] / printed if printed else FULL_LATEST
    latest = max(FULL_LATEST, own) * rounds
    scale = min(ratio, latest / at[-1])
    found = [at[0] if at[0] <= 2 else nearest(at[0] * scale, least=2)]
    for early, late in pairwise(at):
        least = found[-1] + min(LEAST_APART, late - early)
        found.append(max(least, nearest(late * scale)))
    return tuple(found)
