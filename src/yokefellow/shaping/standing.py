"""Where the increase rounds of a yoke with colour bands stand, each in its own plain stretch."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

from yokefellow.shaping.banded import LINE_FULL_AT
from yokefellow.shaping.line import LEAST_APART, SHOULDER_AT
from yokefellow.shaping.zones import Zones

__all__ = ["broken_rules", "set_places"]


def broken_rules(
    at: Sequence[int],
    *,
    zones: Zones,
    per_cm: float,
    shoulder: float,
    stitches_at: Callable[[int], int],
) -> tuple[str, ...]:
    """Name the rules a banded yoke breaks: `shoulder`, `apart`; see the plain yoke's.

    Fullness is not asked: where the bands lie decides it.
    """
    point = int(SHOULDER_AT * zones.rounds)
    around_cm = stitches_at(point) / zones.stitches_per_cm(point, per_cm)
    # The last increase round need not be the end of it: a chart below may grow.
    covered = around_cm >= min(shoulder, stitches_at(zones.rounds)) / per_cm
    apart = all(late - early >= LEAST_APART for early, late in pairwise(at)) and all(
        abs(place - grown) >= LEAST_APART for place in at for grown in zones.growing
    )
    return tuple(n for n, kept in (("shoulder", covered), ("apart", apart)) if not kept)


def set_places(
    steps: Sequence[tuple[int, int]],
    gap_of: Sequence[int],
    *,
    zones: Zones,
    per_cm: float,
    shoulder: float,
) -> tuple[int, ...]:
    """Give the round of every increase round, inside its own plain stretch.

    Each stands where the line from the neck to the last is half-way up its
    step; the one that first covers the shoulders is drawn up to their point
    where its stretch allows; then all are moved apart.
    """
    gaps = zones.gaps
    depth_cm = zones.depth_cm(zones.rounds)
    neck_cm, yoke_cm = steps[0][0] / per_cm, steps[-1][1] / per_cm
    found: list[int] = []
    for (before, after), gap in zip(steps, gap_of, strict=True):
        half_cm = (before + after) / 2 / per_cm
        way = (half_cm - neck_cm) / max(1e-9, yoke_cm - neck_cm)
        wanted = zones.round_at(way * LINE_FULL_AT * depth_cm)
        found.append(min(max(wanted, gaps[gap][0]), gaps[gap][1]))
    limit = int(SHOULDER_AT * zones.rounds)
    covering = next((at for at, (_, c) in enumerate(steps) if c >= shoulder), None)
    if covering is not None and gaps[gap_of[covering]][0] <= limit:
        found[covering] = min(found[covering], limit)
    _apart(found, [gaps[gap] for gap in gap_of])
    return tuple(found)


def _apart(found: list[int], ranges: Sequence[tuple[int, int]]) -> None:
    """Move rounds at least three apart, each inside its own stretch."""
    for later in range(len(found) - 1, 0, -1):
        found[later - 1] = min(found[later - 1], found[later] - LEAST_APART)
    for early, (start, end) in enumerate(ranges):
        least = found[early - 1] + LEAST_APART if early else start
        found[early] = min(max(found[early], start, least), end)
    for later in range(len(found) - 1, 0, -1):
        found[later - 1] = min(
            found[later - 1], max(ranges[later - 1][0], found[later] - LEAST_APART)
        )
