"""Spreading shaping rounds over a length: sleeve taper, body shaping."""

from __future__ import annotations

from yokefellow.shaping.even import gaps

__all__ = ["taper"]


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
