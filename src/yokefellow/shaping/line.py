"""The line of the yoke: how its count grows with depth, and where the increase rounds lie on it.

The line is straight from the neck to fullness at `FULL_AT`. Where it would lie
inside the shoulders at their point, it bends: from the neck to the shoulders
by `SHOULDER_AT`, and from there to fullness.
"""

from __future__ import annotations

from itertools import pairwise

__all__ = [
    "FULL_AT",
    "FULL_EARLIEST",
    "FULL_LATEST",
    "LEAST_APART",
    "SHOULDER_AT",
    "broken_rules",
    "places",
    "profile",
]

LEAST_APART = 3
"""Rounds from one increase round to the next: closer ones read as a ridge (common practice)."""

SHOULDER_AT = 0.45
"""Share of the depth at the point of the shoulder (common practice)."""

FULL_AT = 0.70
"""Share of the depth at which the yoke is full; 60 to 80 % is good (common practice)."""

FULL_EARLIEST, FULL_LATEST = 0.60, 0.80

_CAP = 0.48
"""The profile asks for at most this share of increase in a round, a little under the
half that is allowed, so that the counts have room."""


def profile(*, neck: float, yoke: float, times: int) -> tuple[float, ...] | None:
    """Give the count wanted after each of `times` increase rounds.

    Equal steps; a step that would add too large a share is cut and the rest
    shared out again. None when so few rounds cannot reach the yoke.
    """
    counts: list[float] = []
    now = neck
    for left in range(times, 0, -1):
        now += min((yoke - now) / left, _CAP * now)
        counts.append(now)
    return tuple(counts) if counts and counts[-1] >= yoke - 1e-6 else None


def _depth(count: float, line: tuple[tuple[float, float], ...]) -> float:
    """Give the round at which the line reaches a count, which is no more than that of its end."""
    (count_above, above), (count_below, below) = next(
        piece for piece in pairwise(line) if count <= piece[1][0]
    )
    return above + (below - above) * (count - count_above) / (count_below - count_above)


def places(
    counts: tuple[int, ...], *, shoulder: float, rounds: int, first_round: int
) -> tuple[int, ...]:
    """Give the round of every increase round.

    Each stands where the line is half-way up its step, so that the staircase
    of counts lies evenly round the line. The round that first covers the
    shoulders is drawn up to their point if it lay below, and then all are
    moved apart.

    Args:
        counts: the neck, then the count after each increase round.
        shoulder: stitches that go round the shoulders; 0 where that does not bind.
        rounds: of the whole yoke.
        first_round: the earliest round that may increase.
    """
    middles = [(before + after) / 2 for before, after in pairwise(counts)]
    line: tuple[tuple[float, float], ...] = (
        (counts[0], 0.0),
        (middles[-1], FULL_AT * rounds),
    )
    straight = counts[0] + (middles[-1] - counts[0]) * SHOULDER_AT / FULL_AT
    if straight < shoulder < middles[-1]:
        line = (line[0], (shoulder, SHOULDER_AT * rounds), line[1])
    found = [max(first_round, round(_depth(middle, line))) for middle in middles]
    limit = int(SHOULDER_AT * rounds)
    least = min(shoulder, counts[-1])
    covering = next(at for at, count in enumerate(counts[1:]) if count >= least)
    if shoulder:
        found[covering] = min(found[covering], limit)
    for later in range(len(found) - 1, 0, -1):
        found[later - 1] = min(found[later - 1], found[later] - LEAST_APART)
    for early in range(len(found)):
        least = found[early - 1] + LEAST_APART if early else first_round
        found[early] = max(found[early], least)
    return tuple(found)


def broken_rules(
    counts: tuple[int, ...], at: tuple[int, ...], *, shoulder: float, rounds: int
) -> tuple[str, ...]:
    """Name the rules that increase rounds `at` these places break: `shoulder`, `apart`, `fullness`.

    Fullness may be half a round off, which no whole number of rounds can help.
    """
    limit = int(SHOULDER_AT * rounds)
    there = [count for place, count in zip(at, counts[1:], strict=True) if place <= limit]
    covered = (there[-1] if there else counts[0]) >= min(shoulder, counts[-1])
    apart = all(later - early >= LEAST_APART for early, later in pairwise(at))
    full = FULL_EARLIEST * rounds - 0.5 <= at[-1] <= FULL_LATEST * rounds + 0.5
    return tuple(
        name
        for name, kept in (("shoulder", covered), ("apart", apart), ("fullness", full))
        if not kept
    )
