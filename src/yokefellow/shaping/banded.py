"""A yoke with colour bands: where its increase rounds may stand, and the counts to try there.

The line of the yoke is the plain yoke's, in cm: straight from the neck to
fullness, bent where the shoulders need it. Each band wants the count that
gives that circumference at its own gauge, and takes the multiple of its
repeat that lies within 4 %. Increase rounds stand only in the plain stretches
between, or in the rows of a chart that grows.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor, log

from yokefellow.shaping.chain import Layer
from yokefellow.shaping.line import FULL_LATEST, LEAST_APART, SHOULDER_AT
from yokefellow.shaping.zones import BandTask, PlacedBand, Zones

__all__ = [
    "TOLERANCE",
    "Ladder",
    "Misfit",
    "Narrow",
    "banded_ladder",
    "broken_rules",
    "line_cm",
    "set_places",
]

TOLERANCE = 0.04
"""How far a band's count may lie off the line (our choice; it moves an increase round by less
than the space between two)."""

LINE_FULL_AT = 0.75
"""Where the line itself is full; its last increase round lies half a step before."""

STEEP = 0.48
"""Share of increase asked of a round at the most, a little under the half that is allowed."""

_APART_CM = {"regular": 3.2, "gentle": 2.25, "few": 99.0}


@dataclass(frozen=True, slots=True)
class Ladder:
    """The layers of a banded yoke, and the plain stretch in which each one's round stands."""

    first: tuple[BandTask, ...]
    """Bands worked before any increase round."""
    layers: tuple[Layer, ...]
    gap_of: tuple[int, ...]
    wanted: tuple[float, ...]
    """The count the line asks of each band as it begins."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """No count within tolerance fits a band's repeat."""

    band: BandTask
    wanted: float
    below: int
    """The nearest numbers of repeats on either side."""
    above: int


@dataclass(frozen=True, slots=True)
class Narrow:
    """Too few plain rounds before a band for the increases wanted there."""

    name: str
    """The band they lead to; empty for the underarm."""
    wanted: int
    """Rounds of increase, at least three rounds apart."""
    there: int
    """Rounds there are."""


def line_cm(
    depth_cm: float, *, neck_cm: float, yoke_cm: float, shoulder_cm: float, full_depth_cm: float
) -> float:
    """Give the circumference of the line at a depth, in cm.

    Args:
        depth_cm: below the neckband.
        neck_cm: at the neck.
        yoke_cm: at fullness.
        shoulder_cm: needed at the point of the shoulder; 0 where it does not bind.
        full_depth_cm: the depth of the whole yoke.
    """
    full_cm, point_cm = LINE_FULL_AT * full_depth_cm, SHOULDER_AT * full_depth_cm
    straight = neck_cm + (yoke_cm - neck_cm) * point_cm / full_cm
    at_point = max(straight, min(shoulder_cm, yoke_cm))
    if depth_cm <= point_cm:
        return neck_cm + (at_point - neck_cm) * depth_cm / point_cm
    way = min(1.0, (depth_cm - point_cm) / (full_cm - point_cm))
    return at_point + (yoke_cm - at_point) * way


@dataclass(frozen=True, slots=True)
class _Want:
    """What the yoke is asked for, shared by every stretch."""

    neck: float
    yoke: float
    shoulder: float
    per_cm: float
    rounds_per_cm: float
    style: str
    first_round: int
    zones: Zones

    def at(self, band: PlacedBand) -> float:
        """Give the count wanted as a band begins: the line's circumference at its middle."""
        zones = self.zones
        middle_cm = (zones.depth_cm(band.first - 1) + zones.depth_cm(band.last)) / 2
        around_cm = line_cm(
            middle_cm,
            neck_cm=self.neck / self.per_cm,
            yoke_cm=self.yoke / self.per_cm,
            shoulder_cm=self.shoulder / self.per_cm,
            full_depth_cm=zones.depth_cm(zones.rounds),
        )
        task = band.task
        grown = 2 * task.first_width / (task.first_width + task.last_width)
        most = self.yoke * task.first_width / task.last_width
        return min(around_cm * task.stitches_per_cm * grown, most)


def banded_ladder(
    *,
    neck: float,
    yoke: float,
    yokes: Sequence[int],
    shoulder: float,
    per_cm: float,
    rounds_per_cm: float,
    style: str,
    first_round: int,
    zones: Zones,
) -> Ladder | Misfit | Narrow:
    """Give the ladder of a yoke with bands, or what keeps it from being built.

    Args:
        neck: stitches wanted at the neck.
        yoke: stitches wanted at the end.
        yokes: the counts the split permits there.
        shoulder: stitches round the shoulders; 0 where that does not bind.
        per_cm: stitch gauge of the plain fabric.
        rounds_per_cm: its round gauge.
        style: `regular`, `few` or `gentle`.
        first_round: the earliest round that may increase.
        zones: where the bands lie.
    """
    want = _Want(neck, yoke, shoulder, per_cm, rounds_per_cm, style, first_round, zones)
    now = neck
    waiting: tuple[BandTask, ...] = ()
    first: tuple[BandTask, ...] = ()
    layers: list[Layer] = []
    gap_of: list[int] = []
    for gap, (start, end) in enumerate(zones.gaps(first_round)):
        band = zones.bands[gap] if gap < len(zones.bands) else None
        goal = max(now, want.at(band)) if band else max(now, yoke)
        times = _times(want, now, goal, start, end, band)
        if isinstance(times, Narrow):
            return times
        if times == 0:
            waiting = (band.task,) if band else ()
            if layers:
                last = layers[-1]
                layers[-1] = Layer(last.wanted, last.counts, (*last.then, *waiting), last.may_rest)
            else:
                first = (*first, *waiting)
        else:
            top = _band_layer(band.task, goal) if band else Layer(yoke, yokes, may_rest=True)
            if isinstance(top, Misfit):
                return top
            layers += [*_between(now, goal, times), top]
            gap_of += [gap] * times
        now = goal * (band.task.last_width / band.task.first_width) if band else goal
    wanted = tuple(want.at(band) for band in zones.bands)
    return Ladder(first, tuple(layers), tuple(gap_of), wanted)


def _times(
    want: _Want, now: float, goal: float, start: int, end: int, band: PlacedBand | None
) -> int | Narrow:
    """Give how many increase rounds a plain stretch holds."""
    if band is None:
        end = min(end, max(start, floor(FULL_LATEST * want.zones.rounds)))
    there = max(0, end - start + 1)
    most = (there - 1) // LEAST_APART + 1 if there else 0
    least = ceil(log(goal / now) / log(1 + STEEP)) if goal > now * 1.001 else 0
    if least > most:
        return Narrow(band.task.name if band else "", (least - 1) * LEAST_APART + 1, there)
    usual = round(there / want.rounds_per_cm / _APART_CM[want.style])
    return min(most, max(least, usual, 1))


def _between(now: float, goal: float, times: int) -> list[Layer]:
    """Give the layers of a stretch but its last: equal steps, each under the steepest."""
    layers: list[Layer] = []
    for left in range(times, 1, -1):
        now += min((goal - now) / left, STEEP * now)
        off = min(10, max(3, int(TOLERANCE * now)))
        layers.append(Layer(now, range(round(now) - off, round(now) + off + 1), may_rest=True))
    return layers


def _band_layer(band: BandTask, goal: float) -> Layer | Misfit:
    """Give the layer before a band: the multiples of its repeat near the line."""
    width = band.first_width
    if band.repeats is not None:
        return Layer(goal, (band.repeats * width,), (band,), may_rest=True)
    low, high = ceil(goal * (1 - TOLERANCE) / width), floor(goal * (1 + TOLERANCE) / width)
    if low > high:
        return Misfit(band, goal, high, low)
    return Layer(goal, range(low * width, high * width + 1, width), (band,), may_rest=True)


def broken_rules(
    steps: Sequence[tuple[int, int]],
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
    covered = around_cm >= min(shoulder, steps[-1][1] if steps else shoulder) / per_cm
    apart = all(late - early >= LEAST_APART for early, late in pairwise(at))
    return tuple(n for n, kept in (("shoulder", covered), ("apart", apart)) if not kept)


def set_places(
    steps: Sequence[tuple[int, int]],
    gap_of: Sequence[int],
    *,
    zones: Zones,
    per_cm: float,
    shoulder: float,
    first_round: int,
) -> tuple[int, ...]:
    """Give the round of every increase round, inside its own plain stretch.

    Each stands where the line from the neck to the last is half-way up its
    step; the one that first covers the shoulders is drawn up to their point
    where its stretch allows; then all are moved apart.
    """
    gaps = zones.gaps(first_round)
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
        found[later - 1] = min(found[later - 1], max(ranges[later - 1][0], found[later] - 3))
