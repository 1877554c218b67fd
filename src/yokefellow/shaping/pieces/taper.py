"""Spreading shaping rounds over a length: sleeve taper, body shaping."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from yokefellow.shaping.spread_evenly import gaps

__all__ = ["bent_taper", "taper"]


def taper(events: int, rounds: int) -> tuple[int, ...]:
    """Give the round of each of `events` shaping rounds, the last at the end of `rounds`.

    Intervals differ by at most one, the longer ones first, so that the
    instruction reads "every 8th round 5 times, then every 7th round 4 times".

    Args:
        events: how many shaping rounds.
        rounds: the rounds they are spread over.

    Returns:
        Round numbers from 1, increasing.

    Raises:
        ValueError: more shaping rounds than rounds.

    >>> taper(3, 10)
    (4, 7, 10)
    """
    if events == 0:
        return ()
    places: list[int] = []
    for interval in sorted(gaps(rounds, events), reverse=True):
        places.append((places[-1] if places else 0) + interval)
    return tuple(places)


def bent_taper(events: int, rounds: int, bends: Sequence[tuple[int, int]] = ()) -> tuple[int, ...]:
    """Spread shaping rounds as `taper` does, but so that not too many have come too soon.

    Where an even taper would run inside the arm, it goes to the most that is
    allowed there, and on from there at another rate. What the rounds after the
    last bend do not hold two apart is left out.

    Args:
        events: how many shaping rounds are wanted.
        rounds: the rounds they are spread over.
        bends: a round, and how many shaping rounds may have been worked by it at the most.

    >>> bent_taper(3, 12), bent_taper(3, 12, [(8, 1)])
    ((4, 8, 12), (8, 10, 12))
    """
    allowed = [(at, min(events, max(0, most))) for at, most in bends]
    places: list[int] = []
    for (start, _), (end, by_then) in pairwise(_stations((0, 0), (rounds, events), allowed)):
        there = min(by_then - len(places), (end - start) // 2)
        places += [start + place for place in taper(max(0, there), end - start)]
    return tuple(places)


def _stations(
    start: tuple[int, int], end: tuple[int, int], bends: Sequence[tuple[int, int]]
) -> Iterator[tuple[int, int]]:
    """Give where a line from start to end must be bent to stay below every bend."""
    (begin, few), (last, many) = start, end
    over = [
        (few + (many - few) * (at - begin) / (last - begin) - most, at, most)
        for at, most in bends
        if begin < at < last
    ]
    worst, at, most = max(over, default=(0.0, 0, 0))
    if worst <= 0:
        yield from (start, end)
        return
    bend = (at, max(few, most))
    yield from list(_stations(start, bend, bends))[:-1]
    yield from _stations(bend, end, bends)
