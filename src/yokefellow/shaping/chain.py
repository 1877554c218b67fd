"""The chain of counts from neck to yoke that is simplest to knit.

A ladder has one layer for each increase round, with the counts that may stand
after it; a shortest path up the ladder is the chain. Bands that follow an
increase round are passed through: their repeat must divide the count, and a
chart that grows takes it along.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from math import inf
from typing import NamedTuple, TypeAlias

from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.zones import BandTask

__all__ = ["Layer", "Path", "climb", "stations", "through"]


class Layer(NamedTuple):
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
def _repeats(over: int, times: int) -> int:
    """Give `repeats_needed` for any count that leaves so many over."""
    return repeats_needed(over, times)


def through(count: int, bands: Iterable[BandTask]) -> int | None:
    """Take a count through bands: what it is after them; None when a repeat does not divide it."""
    for band in bands:
        repeats, over = divmod(count, band.first_width)
        if over or (band.repeats is not None and repeats != band.repeats):
            return None
        count = repeats * band.last_width
    return count


def climb(
    starts: Iterable[int],
    ladder: Sequence[Layer],
    first: tuple[BandTask, ...] = (),
    *,
    spare: float = inf,
) -> Mapping[int, Path]:
    """Find, for every count at the top, the simplest chain.

    Args:
        starts: the counts at the neck.
        ladder: one layer an increase round.
        first: bands worked before the first increase round.
        spare: repeats to read that a chain may need beyond one for each layer; harder ones
            are not looked for.

    Returns:
        The chains by the count after the last layer's bands; each begins with its start.
    """
    ends: dict[int, Path] = {}
    for start in starts:
        after = through(start, first)
        if after is not None:
            ends[after] = (0.0, 0.0, (start,))
    for height, layer in enumerate(ladder, start=1):
        ends = _step(ends, layer, height + spare)
    return ends


def _step(ends: Mapping[int, Path], layer: Layer, hardest: float) -> dict[int, Path]:
    """Go one layer up: for every count there, the simplest way from a count below."""
    ways = sorted((hard, deviation, count) for count, (hard, deviation, _) in ends.items())
    best: dict[int, Path] = {}
    for count in layer.counts:
        after = through(count, layer.then) if layer.then else count
        if after is None:
            continue
        hard, deviation, before = _simplest(count, ends, ways, layer, hardest)
        if before:
            off = ((count - layer.wanted) / layer.wanted) ** 2
            best[after] = (hard, deviation + off, (*ends[before][2], count))
    return best


_Way: TypeAlias = tuple[float, float, int]
"""How hard a count is to come to, how far off the line its way is, and the count before it."""


def _simplest(
    count: int, ends: Mapping[int, Path], ways: Sequence[_Way], layer: Layer, hardest: float
) -> _Way:
    """Find the simplest way to a count; from 0 where there is none, or only harder ones.

    At most half is added in a round, and never less than nothing. First come the
    counts that share the added stitches out exactly, which are those that lie a
    divisor of the count below it; the others only as long as the next one, with
    two repeats to read, could still be simpler.
    """
    most = count // 2 if layer.is_pinned else count // 3
    least, nearest, whence = hardest, inf, 0
    for added in _divisors(count):
        if added <= most and count - added in ends:
            hard, deviation, _ = ends[count - added]
            if (hard + 1, deviation, count - added) < (least, nearest, whence):
                least, nearest, whence = hard + 1, deviation, count - added
    if layer.may_rest and count in ends:
        least, nearest, whence = min((least, nearest, whence), (*ends[count][:2], count))
    for hard, deviation, before in ways:
        if hard + 2 > least:
            break
        added = count - before
        if 0 < added <= most and (over := before % added):
            now = hard + _repeats(over, added)
            if now < least or (now == least and (deviation, before) < (nearest, whence)):
                least, nearest, whence = now, deviation, before
    return least, nearest, whence


@lru_cache(maxsize=1 << 12)
def _divisors(count: int) -> tuple[int, ...]:
    return tuple(added for added in range(1, count // 2 + 1) if count % added == 0)


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
