"""Finds a place for every letter of the drawing, so that no ring covers another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import dist

__all__ = ["STEPS", "places"]

Spot = tuple[float, float]

STEPS = tuple(step / 40 for step in range(41))
"""Shares of a dimension line at which its letter may stand."""

MOST_TRIES = 20_000
"""Of one search; with ten letters a few dozen are usual."""


def places(lines: Sequence[tuple[Spot, Spot, float]], *, apart: float) -> tuple[Spot, ...]:
    """Place a letter on each line, as near as may be to where it is wanted.

    Args:
        lines: each with its start, its end, and the wanted share of the way; a
            line of no length has one place.
        apart: the least distance between two letters, in units of the picture.

    Returns:
        The places; where no such placing is found, with as much room as was.
    """
    wide = apart
    while wide > 1:
        found = _search([tuple(_choices(*line)) for line in lines], wide, [0])
        if found is not None:
            return found
        wide *= 0.9
    return tuple(_at(start, end, share) for start, end, share in lines)


def _at(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _choices(start: Spot, end: Spot, wanted: float) -> Iterator[Spot]:
    yield _at(start, end, wanted)
    if start != end:
        for share in sorted(STEPS, key=lambda share: abs(share - wanted)):
            yield _at(start, end, share)


def _search(
    choices: Sequence[tuple[Spot, ...]],
    apart: float,
    tries: list[int],
    taken: tuple[Spot, ...] = (),
) -> tuple[Spot, ...] | None:
    """Try the choices in turn, and go back where the next letter finds no room."""
    if len(taken) == len(choices):
        return taken
    for spot in choices[len(taken)]:
        tries[0] += 1
        if tries[0] > MOST_TRIES:
            return None
        if all(dist(spot, other) >= apart for other in taken):
            found = _search(choices, apart, tries, (*taken, spot))
            if found is not None:
                return found
    return None
