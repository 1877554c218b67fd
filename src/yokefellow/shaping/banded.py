"""A yoke with colour bands: where its increase rounds may stand, and the counts to try there.

The line of the yoke is the plain yoke's, in cm: straight from the neck to
fullness, bent where the shoulders need it. Each band wants the count that
gives that circumference at its own gauge, and takes the multiple of its
repeat that lies within 4 %. Increase rounds stand only in the plain stretches
between, or in the rows of a chart that grows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log
from typing import NamedTuple

from yokefellow.shaping.chain import Layer
from yokefellow.shaping.line import FULL_LATEST, LEAST_APART, SHOULDER_AT
from yokefellow.shaping.reach import Range, Unreached, most_rounds, reach
from yokefellow.shaping.zones import BandTask, PlacedBand, Zones

__all__ = [
    "LINE_FULL_AT",
    "NARROWEST",
    "TOLERANCE",
    "Ladder",
    "LineTask",
    "Misfit",
    "Narrow",
    "banded_ladder",
    "line_cm",
]

TOLERANCE = 0.04
"""How far a band's count may lie off the line (our choice; it moves an increase round by less
than the space between two)."""

NARROWEST = 0.03
"""A band narrower than the line by more puckers the yoke (common practice), so wider is tried
first."""

LINE_FULL_AT = 0.75
"""Where the line itself is full; its last increase round lies half a step before."""

STEEP = 0.48
"""Share of increase asked of a round at the most, a little under the half that is allowed."""

_APART_CM = {"regular": 3.2, "gentle": 2.25, "few": 99.0}


class Ladder(NamedTuple):
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
    within: Range
    """The fewest and the most repeats that can be reached there."""


@dataclass(frozen=True, slots=True)
class Narrow:
    """Too few plain rounds before a band for the increases wanted there."""

    name: str
    """The band they lead to; empty for the underarm."""
    wanted: int
    """Rounds of increase, at least three rounds apart."""
    there: int
    """Rounds there are."""
    before: float
    """Stitches they lead from."""
    after: float
    """Stitches they lead to."""


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
class LineTask:
    """What the yoke is asked for, in stitches of the plain fabric."""

    necks: Sequence[int]
    """The counts it may begin with."""
    yokes: Sequence[int]
    """The counts it may end with."""
    neck: float
    """Wanted at the neck."""
    yoke: float
    """Wanted at the end."""
    shoulder: float
    """Round the shoulders; 0 where that does not bind."""
    per_cm: float
    rounds_per_cm: float
    style: str
    """`regular`, `few` or `gentle`."""

    def at(self, band: PlacedBand, zones: Zones) -> float:
        """Give the count wanted as a band begins: the line's circumference at its middle."""
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
        return around_cm * task.stitches_per_cm * grown


def banded_ladder(
    task: LineTask, zones: Zones, *, more: int = 0
) -> Ladder | Misfit | Narrow | Unreached:
    """Give the ladder of a yoke with bands, or what keeps it from being built.

    Args:
        task: what the yoke is asked for.
        zones: where the bands lie.
        more: increase rounds in each plain stretch beyond the usual number.
    """
    ranges = reach(task.necks, task.yokes, zones)
    if isinstance(ranges, Unreached):
        return ranges
    wanted = tuple(task.at(band, zones) for band in zones.bands)
    goals = (*_goals(task, zones, wanted, ranges), max(task.yoke, min(task.yokes)))
    now = task.neck
    first: tuple[BandTask, ...] = ()
    layers: list[Layer] = []
    gap_of: list[int] = []
    for gap, goal in enumerate(goals):
        band = zones.bands[gap].task if gap < len(zones.bands) else None
        times = _times(task, zones, gap, now=now, goal=goal, more=more)
        if isinstance(times, Narrow):
            return times
        then = (band,) if band else ()
        if times == 0 and layers:
            last = layers[-1]
            layers[-1] = Layer(last.wanted, last.counts, (*last.then, *then), last.may_rest)
        elif times == 0:
            first = (*first, *then)
        else:
            top = (
                _band_layer(band, goal, ranges[gap])
                if band
                else Layer(task.yoke, task.yokes, may_rest=True)
            )
            if isinstance(top, Misfit):
                return top
            layers += [*_between(now, goal, times), top]
            gap_of += [gap] * times
        now = max(now, goal) * (band.last_width / band.first_width if band else 1.0)
    return Ladder(first, tuple(layers), tuple(gap_of), wanted)


def _goals(
    task: LineTask, zones: Zones, wanted: Sequence[float], ranges: Sequence[Range]
) -> list[float]:
    """Give the count to aim at as each band begins.

    It is the line's where no pin and no growth of a chart forbids that: counts
    never fall, so a band leaves the ones after it as many as they begin with.
    """
    bands = [placed.task for placed in zones.bands]
    goals = [
        band.first_width * (band.repeats or min(max(want / band.first_width, least), most))
        for band, want, (least, most) in zip(bands, wanted, ranges, strict=True)
    ]
    ceiling: float = task.yoke
    for at in range(len(bands) - 1, -1, -1):
        if not bands[at].repeats:
            most = ceiling * bands[at].first_width / bands[at].last_width
            goals[at] = max(min(goals[at], most), ranges[at][0] * bands[at].first_width)
        ceiling = goals[at]
    now = task.neck
    for at, band in enumerate(bands):
        goals[at] = max(goals[at], now)
        now = goals[at] * band.last_width / band.first_width
    return goals


def _times(
    task: LineTask, zones: Zones, gap: int, *, now: float, goal: float, more: int
) -> int | Narrow:
    """Give how many increase rounds a plain stretch holds."""
    start, end = zones.gaps[gap]
    band = zones.bands[gap].task if gap < len(zones.bands) else None
    there = max(0, end - start + 1)
    most = most_rounds(start, end)
    needed: float = goal
    if band is None:
        needed = min(task.yokes)
    elif not band.repeats:
        needed = goal * (1 - TOLERANCE)
    # A pin has one count, so there is no need of a little room.
    steep = 0.5 if band and band.repeats else STEEP
    least = ceil(log(needed / now) / log(1 + steep) - 1e-9) if needed > now * 1.001 else 0
    if least > most:
        rounds = (least - 1) * LEAST_APART + 1
        return Narrow(band.name if band else "", rounds, there, before=now, after=goal)
    if band is None:
        early = min(end, max(start, floor(FULL_LATEST * zones.rounds)))
        most = max(least, most_rounds(start, early))
        there = early - start + 1
    usual = round(there / task.rounds_per_cm / _APART_CM[task.style])
    return min(most, max(least, usual, 1) + more)


def _between(now: float, goal: float, times: int) -> list[Layer]:
    """Give the layers of a stretch but its last: equal steps, each under the steepest."""
    layers: list[Layer] = []
    for left in range(times, 1, -1):
        now += min((goal - now) / left, STEEP * now)
        off = min(10, max(3, int(TOLERANCE * now)))
        layers.append(Layer(now, range(round(now) - off, round(now) + off + 1), may_rest=True))
    return layers


def _band_layer(band: BandTask, goal: float, within: Range) -> Layer | Misfit:
    """Give the layer before a band: the multiples of its repeat near the line."""
    width = band.first_width
    if band.repeats is not None:
        return Layer(goal, (band.repeats * width,), (band,), may_rest=True)
    high = min(within[1], floor(goal * (1 + TOLERANCE) / width))
    low = max(within[0], ceil(goal * (1 - NARROWEST) / width))
    if low > high:
        low = max(within[0], ceil(goal * (1 - TOLERANCE) / width))
    if low > high:
        below = floor(goal / width)
        return Misfit(band, goal, below, below + 1, within)
    return Layer(goal, range(low * width, high * width + 1, width), (band,), may_rest=True)
