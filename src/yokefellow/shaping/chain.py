"""The chain of counts from neck to yoke that is simplest to knit.

A ladder has one layer for each increase round, with the counts that may stand
after it; a shortest path up the ladder is the chain. Bands that follow an
increase round are passed through: their repeat must divide the count, and a
chart that grows takes it along.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf
from typing import TypeAlias

from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.zones import BandTask

__all__ = ["Layer", "Path", "climb", "stations", "through"]


@dataclass(frozen=True, slots=True)
class Layer:
    """The counts to try after one increase round, and the one wanted there."""

    wanted: float
    counts: Sequence[int]
    then: tuple[BandTask, ...] = ()
    """The bands worked on that count before the next increase round."""
    may_rest: bool = False
    """Whether the round may be left plain."""
    is_pinned: bool = False
    """Whether its count is given: then up to one stitch may be added to each, and not to two."""


Path: TypeAlias = tuple[float, float, tuple[int, ...]]
"""How hard it is to knit, how far off the line, and the counts after each increase round."""


@lru_cache(maxsize=1 << 16)
def _repeats(stitches: int, times: int) -> int:
    return repeats_needed(stitches, times)


def through(count: int, bands: Iterable[BandTask]) -> int | None:
    """Take a count through bands: what it is after them; None when a repeat does not divide it."""
    for band in bands:
        repeats, over = divmod(count, band.first_width)
        if over or (band.repeats is not None and repeats != band.repeats):
            return None
        count = repeats * band.last_width
    return count


def climb(
    starts: Iterable[int], ladder: Sequence[Layer], first: tuple[BandTask, ...] = ()
) -> Mapping[int, Path]:
    """Find, for every count at the top, the simplest chain.

    Args:
        starts: the counts at the neck.
        ladder: one layer an increase round.
        first: bands worked before the first increase round.

    Returns:
        The chains by the count after the last layer's bands; each begins with its start.
    """
    ends: dict[int, Path] = {}
    for start in starts:
        after = through(start, first)
        if after is not None:
            ends[after] = (0.0, 0.0, (start,))
    for layer in ladder:
        ends = _step(ends, layer)
    return ends


def _step(ends: Mapping[int, Path], layer: Layer) -> dict[int, Path]:
    """Go one layer up: for every count there, the simplest way from a count below.

    At most half is added in a round, and never less than nothing. The ways from
    below are tried the simplest first, so that a count is done with as soon as
    the next one, with the least repeat there is, could no longer be simpler.
    """
    ways = sorted((hard, deviation, count, path) for count, (hard, deviation, path) in ends.items())
    repeat = 0 if layer.may_rest else 1
    best: dict[int, Path] = {}
    for count in layer.counts:
        after = through(count, layer.then) if layer.then else count
        if after is None:
            continue
        off = ((count - layer.wanted) / layer.wanted) ** 2
        least, nearest, whence = inf, inf, 0
        chosen: tuple[int, ...] = ()
        lowest = -(-count // 2) if layer.is_pinned else -(-2 * count // 3)
        highest = count - repeat
        for hard, deviation, before, path in ways:
            if hard + repeat > least:
                break
            if not lowest <= before <= highest:
                continue
            added = count - before
            if not added or before % added == 0:
                now = hard + (added > 0)
            elif hard + 2 > least:
                continue
            else:
                now = hard + _repeats(before, added)
            if now < least or (now == least and (deviation, before) < (nearest, whence)):
                least, nearest, whence, chosen = now, deviation, before, path
        if chosen:
            best[after] = (least, nearest + off, (*chosen, count))
    return best


def stations(
    path: tuple[int, ...], ladder: Sequence[Layer], first: tuple[BandTask, ...] = ()
) -> tuple[tuple[int, int], ...]:
    """Give the count before and after every increase round of a chain; equal where it rests.

    Raises:
        ValueError: a count of the chain is no multiple of a band's repeat.
    """
    before = through(path[0], first)
    steps: list[tuple[int, int]] = []
    for count, layer in zip(path[1:], ladder, strict=True):
        if before is None:
            raise ValueError("the chain does not pass its bands")
        steps.append((before, count))
        before = through(count, layer.then)
    return tuple(steps)
