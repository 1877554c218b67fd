"""How often a raglan piece increases: so many times over so many rounds, in plain words' numbers.

A piece that needs more increase rounds than fit at one rate takes two that
stand side by side: every round and every 2nd, every 2nd and every 4th, every
4th and every 6th. All but the first kind keep to the even rounds, so that
every piece increases in the same rounds or rests in them, and a plain round
lies between (common practice: "every other round"). The faster rate comes
first: so a yoke slopes as shoulders do, and hangs straighter below them. Only a
front that must be wider than its back, or a back wider than its front, has the
faster one last: it needs the width below.
"""

from __future__ import annotations

from itertools import groupby, pairwise
from typing import NamedTuple

from yokefellow.shaping.spread_evenly import gaps
from yokefellow.shaping.yoke.rules import FIRST_INCREASE

__all__ = ["Rate", "most_times", "rates", "rates_of", "rounds_of", "times_by"]

SPARE = 2
"""Rounds a single rate may end before the last round, rather than take a second rate for them."""


class Rate(NamedTuple):
    """Every so many rounds, so many times."""

    every: int
    times: int


def most_times(rounds: int) -> int:
    """Give how often a piece can increase at all: in every round from the second on."""
    return max(0, rounds - FIRST_INCREASE + 1)


def rates(times: int, rounds: int, *, late: bool = False) -> tuple[Rate, ...]:
    """Spread `times` increase rounds over `rounds`, the last of them at the end.

    Args:
        times: increase rounds of the piece.
        rounds: rounds of the yoke in which it may increase, counted from its first.
        late: whether the faster of two rates comes last, for a piece that must be wide below
            and not above, such as a front over a full bust.

    Returns:
        One rate or two; nothing for a piece that never increases.

    Raises:
        ValueError: more increase rounds than rounds.

    >>> rates(24, 56)
    (Rate(every=2, times=20), Rate(every=4, times=4))
    >>> rates(30, 40)
    (Rate(every=1, times=21), Rate(every=2, times=9))
    """
    if times > most_times(rounds):
        raise ValueError(f"{times} increase rounds do not fit into {rounds} rounds")
    if times == 0:
        return ()
    if times > rounds // 2 and late:
        return Rate(2, rounds - times), Rate(1, 2 * times - rounds)
    if times > rounds // 2:
        fast = 2 * times - rounds + 1
        return (Rate(1, fast), Rate(2, times - fast)) if fast < times else (Rate(1, fast),)
    every = 2 * (rounds // 2 // times)
    if rounds - every * times <= SPARE:
        return (Rate(every, times),)
    intervals = sorted((2 * half for half in gaps(rounds // 2, times)), reverse=late)
    return tuple(Rate(every, sum(1 for _ in same)) for every, same in groupby(intervals))


def rounds_of(spread: tuple[Rate, ...]) -> tuple[int, ...]:
    """Give the rounds in which a piece increases, rising.

    >>> rounds_of((Rate(2, 3), Rate(4, 2)))
    (2, 4, 6, 10, 14)
    """
    at = FIRST_INCREASE - 1 if spread and spread[0].every == 1 else 0
    found: list[int] = []
    for rate in spread:
        last = at + rate.every * rate.times
        found.extend(range(at + rate.every, last + 1, rate.every))
        at = last
    return tuple(found)


def times_by(spread: tuple[Rate, ...], number: int) -> int:
    """Count the rounds of `rounds_of` up to a round, itself included.

    >>> times_by((Rate(2, 3), Rate(4, 2)), 10)
    4
    """
    left = number - (FIRST_INCREASE - 1 if spread and spread[0].every == 1 else 0)
    found = 0
    for rate in spread:
        found += max(0, min(rate.times, left // rate.every))
        left -= rate.every * rate.times
    return found


MOST_RATES = 3
"""Rates that can be said in one sentence (our choice)."""


def rates_of(rounds: tuple[int, ...]) -> tuple[Rate, ...]:
    """Give the rates that say these rounds; nothing where it would take too many.

    >>> rates_of((2, 4, 6, 10, 14))
    (Rate(every=2, times=3), Rate(every=4, times=2))
    >>> rates_of((3, 12, 22, 38))
    ()
    """
    spreads = (_apart((start, *rounds)) for start in (0, FIRST_INCREASE - 1))
    said = [spread for spread in spreads if rounds_of(spread) == rounds]
    shortest = min(said, key=len, default=())
    return shortest if len(shortest) <= MOST_RATES else ()


def _apart(rounds: tuple[int, ...]) -> tuple[Rate, ...]:
    """Put equal distances together."""
    distances = (late - early for early, late in pairwise(rounds))
    return tuple(Rate(every, sum(1 for _ in same)) for every, same in groupby(distances))
