"""What a yoke is asked for, and which counts may stand at which of its rounds.

The constraints of a yoke come as ladders: a layer for each increase round, with
the counts that may stand after it, the plain stretch in which it lies, and the
bands that are worked on that count. A plain yoke has one stretch, a band parts
one into two; a pin leaves a layer one count, or its round one place.

The line of the yoke, from the neck to fullness, gives the count that is wanted
after each round. Each band wants the count that gives the line's circumference
at the band's own gauge, and takes the multiple of its repeat that lies near it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain, islice, pairwise, product
from math import ceil, floor, lcm, log
from typing import NamedTuple, TypeAlias

from yokefellow.project_file.pins import NOTHING, OF_THE_YOKE, Fixed, torso
from yokefellow.shaping.bands import BandTask, PlacedBand, Zones
from yokefellow.shaping.counts import Count, nearest, permitted
from yokefellow.shaping.model import Split
from yokefellow.shaping.refusals import Misfit, Narrow, Range, Unreached
from yokefellow.shaping.split import split_meeting
from yokefellow.shaping.yoke.rules import (
    APART_CM,
    BANDED_FULL_AT,
    BODY_GIVES,
    FEW,
    FIRST_INCREASE,
    FULL_AT,
    FULL_LATEST,
    LEAST_APART,
    LEAST_HELD,
    NARROWEST,
    SHOULDER_AT,
    STEEPEST,
    TOLERANCE,
    WIDE_CM,
    tolerance,
)

__all__ = [
    "Ladder",
    "Layer",
    "PricedSplit",
    "YokeTask",
    "counts_reached",
    "ladders",
    "of_the_yoke",
    "splits_for",
    "through",
]


def of_the_yoke(fixed: Fixed) -> Fixed:
    """Give the pins that are chosen together with the yoke; `NOTHING` itself where none is."""
    if fixed == NOTHING:
        return NOTHING
    kept = fixed.model_dump(include=set(OF_THE_YOKE), exclude_defaults=True)
    return Fixed.model_construct(**kept) if kept else NOTHING


@dataclass(frozen=True, slots=True)
class YokeTask:
    """What the yoke is asked for, in real numbers of stitches."""

    neck: float
    neck_multiple: int
    """The neckband's rib repeat."""
    body: float
    body_multiple: int
    """The hem's rib repeat: preferred, not required, of the body."""
    sleeve: float
    underarm: float
    shoulder: float
    depth_cm: float
    """Of the whole yoke, at the front."""
    rounds_per_cm: float
    stitches_per_cm: float
    style: str
    """`regular`, `few` or `gentle`."""
    first_round: int = FIRST_INCREASE
    """The earliest round that may increase."""
    bands: tuple[BandTask, ...] = ()
    """The color bands, in knitting order."""
    fixed: Fixed = NOTHING
    """Counts that must be met exactly."""
    body_repeat: int = 1
    """The repeat of the bands on a straight body: preferred, within `BODY_GIVES` of its width."""
    worked_rounds: int = 0
    """Rounds of the yoke that are worked and no longer chosen: the neck is what they came to;"""
    worked_cm: float = 0.0
    """and how deep they are."""

    @property
    def necks(self) -> tuple[int, ...]:
        """The counts the yoke may begin with."""
        if self.fixed.neck is not None:
            return (self.fixed.neck,)
        return permitted(self.neck, multiple=self.neck_multiple, least=self.neck_multiple * 4)

    @property
    def yoke(self) -> float:
        """Stitches wanted at the end of the yoke: Y = (B - 2U) + 2(S - U)."""
        return (self.body - 2 * self.underarm) + 2 * (self.sleeve - self.underarm)

    @property
    def covering(self) -> float:
        """Stitches that must be there at the point of the shoulder; 0 where none could be."""
        return self.shoulder if self.shoulder <= self.yoke else 0.0


PricedSplit: TypeAlias = tuple[int, float, Split]
"""The adjusting rounds that a split needs below, how far off it is, and the split."""


def splits_for(task: YokeTask, *, wide: bool = False) -> dict[int, PricedSplit]:
    """Give the best split for every yoke count the dimensions permit.

    The finished dimensions do not take part in the bargain: they are within
    half a stitch of the best that divisibility allows.

    Args:
        task: what is asked for.
        wide: let body, sleeve and underarm give way by `WIDE_CM`.
    """
    best: dict[int, PricedSplit] = {}
    for body, sleeve, underarm in _splits(task, wide=wide):
        wanted = ((body, task.body), (sleeve, task.sleeve), (underarm, task.underarm))
        counted = [Count(got, want, task.stitches_per_cm) for got, want in wanted]
        split = Split(counted[0], counted[1], counted[2])
        if min(split.held, split.front) < LEAST_HELD:
            continue
        adjusting = (body % task.body_multiple > 0) + 2 * (body % task.body_repeat > 0)
        off = sum(((got - want) / want) ** 2 for got, want in wanted)
        if split.yoke not in best or (adjusting, off) < best[split.yoke][:2]:
            best[split.yoke] = (adjusting, off, split)
    return best


def _splits(task: YokeTask, *, wide: bool) -> Iterable[tuple[int, int, int]]:
    """Give every body, sleeve and underarm to try; those that are pinned as they are."""
    fixed, per_cm = task.fixed, task.stitches_per_cm
    pins = (fixed.body, fixed.sleeve, fixed.underarm)
    both = torso(fixed)
    if fixed.yoke is not None or both is not None:
        return split_meeting(fixed.yoke, pins, (task.body, task.sleeve, task.underarm), both)
    wanted = ((task.body, 8), (task.sleeve, 6), (task.underarm, 2))
    if wide:
        body, sleeve, underarm = (
            tuple(
                count
                for count in range(least, round(want + off_cm * per_cm) + 2, 2)
                if abs(count - want) <= off_cm * per_cm + 1
            )
            for (want, least), off_cm in zip(wanted, WIDE_CM, strict=True)
        )
    else:
        body, sleeve, underarm = (permitted(w, multiple=2, least=least) for w, least in wanted)
    if task.body_repeat > 1:
        near = permitted(task.body, multiple=lcm(2, task.body_repeat))
        kept = (count for count in near if abs(count - task.body) <= BODY_GIVES * task.body)
        body = tuple(dict.fromkeys((*body, *kept)))
    choices = zip((body, sleeve, underarm), pins, strict=True)
    body, sleeve, underarm = (free if pin is None else (pin,) for free, pin in choices)
    return product(body, sleeve, underarm)


class Layer(NamedTuple):
    """The counts to try after one increase round, and the one wanted there."""

    wanted: float
    counts: Sequence[int]
    gap: int = 0
    """The plain stretch in which the round lies."""
    then: tuple[BandTask, ...] = ()
    """The bands worked on that count before the next increase round."""
    may_rest: bool = False
    """Whether the round may be left plain."""
    is_pinned: bool = False
    """Whether its count is given: then up to one stitch may be added to each, and not to two."""


class Ladder(NamedTuple):
    """The layers of a yoke."""

    layers: tuple[Layer, ...]
    first: tuple[BandTask, ...] = ()
    """Bands worked before any increase round."""
    wanted: tuple[float, ...] = ()
    """The count the line asks of each band as it begins."""
    away: float = 0.0
    """What its number of increase rounds is put on a level with, in repeats to read."""
    is_last_resort: bool = False
    """Whether it is only for a yoke of which nothing else has come."""


def through(count: int, bands: Iterable[BandTask]) -> int | None:
    """Take a count through bands: what it is after them; None when a repeat does not divide it."""
    for band in bands:
        repeats, over = divmod(count, band.first_width)
        if over or (band.repeats is not None and repeats != band.repeats):
            return None
        count = repeats * band.last_width
    return count


def ladders(
    task: YokeTask, zones: Zones, yokes: Sequence[int]
) -> Iterable[Ladder] | Misfit | Narrow | Unreached:
    """Give the ladders of a yoke, the best first; or what keeps one from being built.

    Args:
        task: what the yoke is asked for.
        zones: where its bands lie, and its plain stretches.
        yokes: the counts it may end with, rising.
    """
    if task.fixed.increases or task.fixed.increase_at:
        return islice(_pinned_ladders(task, zones, yokes), MOST_WAYS)
    if not zones.bands:
        return _plain_ladders(task, zones, yokes)
    ranges = counts_reached(task.necks, yokes, zones)
    if isinstance(ranges, Unreached):
        return ranges
    first = _banded_ladder(task, zones, yokes, ranges, more=0)
    if not isinstance(first, Ladder):
        return first
    more = (_banded_ladder(task, zones, yokes, ranges, more=more) for more in (1,))
    return chain((first,), (ladder for ladder in more if isinstance(ladder, Ladder)))


def _around(wanted: float, gap: int = 0, *, may_rest: bool = False) -> Layer:
    off = tolerance(wanted)
    counts = range(round(wanted) - off, round(wanted) + off + 1)
    return Layer(wanted, counts, gap, may_rest=may_rest)


# A yoke without bands.


def profile(*, neck: float, yoke: float, times: int) -> tuple[float, ...] | None:
    """Give the count wanted after each of `times` increase rounds.

    Equal steps; a step that would add too large a share is cut and the rest
    shared out again. None when so few rounds cannot reach the yoke.
    """
    counts: list[float] = []
    now = neck
    for left in range(times, 0, -1):
        now += min((yoke - now) / left, STEEPEST * now)
        counts.append(now)
    return tuple(counts) if counts and counts[-1] >= yoke - 1e-6 else None


def _numbers_of_rounds(task: YokeTask, zones: Zones) -> tuple[tuple[int, float], ...]:
    """List how many increase rounds to try, and what each costs; the style's own first."""
    full, least = zones.share(FULL_AT), 1 if task.worked_rounds else 2
    most = max(1, int((full - zones.first_round) // LEAST_APART) + 1)
    tries = FEW
    if task.style != "few":
        # The line from the neck to fullness is half a step longer than the last increase.
        apart = (full - task.worked_rounds) / task.rounds_per_cm / APART_CM[task.style] + 0.5
        usual = min(most, nearest(apart, least=1 if task.worked_rounds else 3))
        tries = ((usual, 0.0), (usual + 1, 1.0), (usual - 1, 1.0), (usual + 2, 2.0))
    return tuple(one for one in tries if least <= one[0] <= most) or ((most, 0.0),)


def _plain_ladders(task: YokeTask, zones: Zones, yokes: Sequence[int]) -> Iterator[Ladder]:
    """Give the ladders of every number of increase rounds worth trying.

    Equal steps; and, where only the last of them would cover the shoulders,
    steps that cover them one round earlier, so that the yoke need not be full
    at the point of the shoulder already.
    """
    if task.worked_rounds and task.neck in yokes:
        yield Ladder(())
    for times, away in _numbers_of_rounds(task, zones):
        wanted = profile(neck=task.neck, yoke=task.yoke, times=times)
        if wanted is None:
            continue
        top = Layer(task.yoke, yokes)
        yield Ladder((*map(_around, wanted[:-1]), top), away=away)
        if times > 1 and wanted[-2] < task.shoulder < task.yoke:
            least = ceil(task.shoulder)
            below = profile(neck=task.neck, yoke=least, times=times - 1)
            if below is not None:
                over = Layer(least, range(least, least + 2 * tolerance(least) + 1))
                yield Ladder((*map(_around, below[:-1]), over, top), away=away)


# A yoke with bands.


def line_cm(depth_cm: float, task: YokeTask, zones: Zones) -> float:
    """Give the circumference of the line of a yoke with bands at a depth, in cm.

    It is straight from the neck to fullness, and bends at the point of the
    shoulder where it would lie inside the shoulders there.
    """
    begin_cm, end_cm = zones.worked_cm, zones.depth_cm(zones.rounds)
    full_cm, point_cm = BANDED_FULL_AT * end_cm, SHOULDER_AT * end_cm
    at_begin, at_full = task.neck / task.stitches_per_cm, task.yoke / task.stitches_per_cm
    if full_cm <= begin_cm:
        return at_full
    if point_cm > begin_cm:
        straight = at_begin + (at_full - at_begin) * (point_cm - begin_cm) / (full_cm - begin_cm)
        at_point = max(straight, min(task.covering / task.stitches_per_cm, at_full))
        if depth_cm <= point_cm:
            way = (depth_cm - begin_cm) / (point_cm - begin_cm)
            return at_begin + (at_point - at_begin) * way
        begin_cm, at_begin = point_cm, at_point
    way = min(1.0, (depth_cm - begin_cm) / (full_cm - begin_cm))
    return at_begin + (at_full - at_begin) * way


def wanted_of(band: PlacedBand, task: YokeTask, zones: Zones) -> float:
    """Give the count wanted as a band begins: the line's circumference at its middle."""
    middle_cm = (zones.depth_cm(band.first - 1) + zones.depth_cm(band.last)) / 2
    grown = 2 * band.task.first_width / (band.task.first_width + band.task.last_width)
    return line_cm(middle_cm, task, zones) * band.task.stitches_per_cm * grown


def _banded_ladder(
    task: YokeTask, zones: Zones, yokes: Sequence[int], ranges: tuple[Range, ...], *, more: int
) -> Ladder | Misfit | Narrow:
    """Give the ladder of a yoke with bands, or what keeps it from being built.

    Args:
        task: what the yoke is asked for.
        zones: where the bands lie.
        yokes: the counts it may end with.
        ranges: the fewest and the most repeats each band can have.
        more: increase rounds in each plain stretch beyond the usual number.
    """
    wanted = tuple(wanted_of(band, task, zones) for band in zones.bands)
    goals = (*_goals(task, zones, wanted, ranges), max(task.yoke, min(yokes)))
    now = task.neck
    first: tuple[BandTask, ...] = ()
    layers: list[Layer] = []
    for gap, goal in enumerate(goals):
        band = zones.bands[gap].task if gap < len(zones.bands) else None
        times = _times(task, zones, yokes, gap, now=now, goal=goal)
        if isinstance(times, Narrow):
            return times
        then = (band,) if band else ()
        if times == 0 and layers:
            layers[-1] = layers[-1]._replace(then=(*layers[-1].then, *then))
        elif times == 0:
            first = (*first, *then)
        else:
            times = min(most_rounds(*zones.gaps[gap]), times + more) if more else times
            top = Layer(task.yoke, yokes, gap, may_rest=True)
            if band:
                counts = _counts_before(band, goal, ranges[gap])
                if isinstance(counts, Misfit):
                    return counts
                top = Layer(goal, counts, gap, then, may_rest=True)
            for left in range(times, 1, -1):
                now += min((goal - now) / left, STEEPEST * now)
                layers.append(_around(now, gap, may_rest=True))
            layers.append(top)
        now = max(now, goal) * (band.last_width / band.first_width if band else 1.0)
    return Ladder(tuple(layers), first, wanted, is_last_resort=more > 0)


def _goals(
    task: YokeTask, zones: Zones, wanted: Sequence[float], ranges: Sequence[Range]
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
    task: YokeTask, zones: Zones, yokes: Sequence[int], gap: int, *, now: float, goal: float
) -> int | Narrow:
    """Give how many increase rounds a plain stretch usually holds."""
    start, end = zones.gaps[gap]
    band = zones.bands[gap].task if gap < len(zones.bands) else None
    there, most, needed = max(0, end - start + 1), most_rounds(start, end), goal
    if band is None:
        needed = min(yokes)
    elif not band.repeats:
        needed = goal * (1 - TOLERANCE)
    # A pin has one count, so there is no need of a little room.
    steep = 0.5 if band and band.repeats else STEEPEST
    least = ceil(log(needed / now) / log(1 + steep) - 1e-9) if needed > now * 1.001 else 0
    if least > most:
        rounds = (least - 1) * LEAST_APART + 1
        return Narrow(band.name if band else "", rounds, there, before=now, after=goal)
    if band is None:
        early = min(end, max(start, floor(zones.share(FULL_LATEST))))
        most = max(least, most_rounds(start, early))
        there = early - start + 1
    usual = round(there / task.rounds_per_cm / APART_CM[task.style])
    return min(most, max(least, usual, 1))


def _counts_before(band: BandTask, goal: float, within: Range) -> Sequence[int] | Misfit:
    """Give the counts a band may begin with: the multiples of its repeat near the line."""
    width = band.first_width
    if band.repeats is not None:
        return (band.repeats * width,)
    high = min(within[1], floor(goal * (1 + TOLERANCE) / width))
    low = max(within[0], ceil(goal * (1 - NARROWEST) / width))
    if low > high:
        low = max(within[0], ceil(goal * (1 - TOLERANCE) / width))
    if low > high:
        below = floor(goal / width)
        return Misfit(band, goal, below, below + 1, within)
    return range(low * width, high * width + 1, width)


# Which counts a band can have at all, between the neck above and the body below: an increase
# round adds half of its stitches at the most, and a stretch holds only so many of them.


def most_rounds(start: int, end: int) -> int:
    """Give how many increase rounds a stretch holds, three rounds apart."""
    return (end - start) // LEAST_APART + 1 if end >= start else 0


def counts_reached(
    necks: Sequence[int], yokes: Sequence[int], zones: Zones
) -> tuple[Range, ...] | Unreached:
    """Give the fewest and the most repeats of every band; or the first that can have none.

    Args:
        necks: the counts the yoke may begin with.
        yokes: the counts it may end with.
        zones: where the bands lie.
    """
    bands = [placed.task for placed in zones.bands]
    rounds = [most_rounds(*gap) for gap in zones.gaps]
    above: list[Range] = []
    low, high = min(necks), max(necks)
    for band, times in zip(bands, rounds, strict=False):
        for _ in range(times):
            high += high // 2
        above.append((low, high))
        least, most = _kept((low, high), band)
        low, high = least * band.last_width, most * band.last_width
    for _ in range(rounds[-1]):
        high += high // 2
    last = (low, high)
    below: list[Range] = []
    low, high = min(yokes), max(yokes)
    for band, times in zip(reversed(bands), reversed(rounds), strict=False):
        for _ in range(times):
            low = -(-2 * low // 3)
        least, most = -(-low // band.last_width), max(1, high // band.last_width)
        low, high = least * band.first_width, most * band.first_width
        below.insert(0, (low, high))
        least, most = _kept((low, high), band)
        low, high = least * band.first_width, most * band.first_width
    found: list[Range] = []
    for band, up, down in zip(bands, above, below, strict=True):
        least = -(-max(up[0], down[0]) // band.first_width)
        most = min(up[1], down[1]) // band.first_width
        if band.repeats is not None:
            least, most = max(least, band.repeats), min(most, band.repeats)
        found.append((least, most))
    # A pin is the first to be blamed: what stands beside it only follows.
    for at in sorted(range(len(bands)), key=lambda at: bands[at].repeats is None):
        if found[at][0] > found[at][1]:
            return Unreached(bands[at], above[at], below[at])
    if last[0] > max(yokes) or last[1] < min(yokes):
        return Unreached(None, last, (min(yokes), max(yokes)))
    return tuple(found)


def _kept(stitches: Range, band: BandTask) -> Range:
    """Give the repeats to go on with; a pin that cannot be reached is left aside."""
    least, most = -(-stitches[0] // band.first_width), stitches[1] // band.first_width
    if band.repeats is not None and least <= band.repeats <= most:
        return band.repeats, band.repeats
    return least, max(least, most)


# A yoke of which the counts or the places of the increase rounds are given.

MOST_WAYS = 200
"""Ways to share out the increase rounds that are tried for one place of the bands."""


def _pinned_ladders(task: YokeTask, zones: Zones, yokes: Sequence[int]) -> Iterator[Ladder]:
    """Give a ladder for every way to share the increase rounds out among the plain stretches."""
    fixed, bands = task.fixed, tuple(placed.task for placed in zones.bands)
    wanted = tuple(wanted_of(band, task, zones) for band in zones.bands)
    for gaps in _ways(task, zones):
        counts: Iterable[tuple[float, Sequence[int]]]
        counts = ((float(count), (count,)) for count in fixed.increases)
        if not fixed.increases:
            counts = _pinned_line(task, gaps, wanted, yokes)
        ends = (*gaps[1:], len(bands))
        layers = tuple(
            Layer(count, tries, gap, bands[gap:end], is_pinned=bool(fixed.increases))
            for (count, tries), gap, end in zip(counts, gaps, ends, strict=True)
        )
        yield Ladder(layers, bands[: gaps[0] if gaps else None], wanted)


def _ways(task: YokeTask, zones: Zones) -> Iterator[tuple[int, ...]]:
    """Give the plain stretch of every increase round, in every way that can be."""
    at, fixed = task.fixed.increase_at, task.fixed
    if at:
        inside = {n for band in zones.bands for n in range(band.first, band.last + 1)}
        if at[-1] <= zones.rounds and not inside.intersection(at):
            yield tuple(sum(band.last < number for band in zones.bands) for number in at)
        return
    bands = tuple(placed.task for placed in zones.bands)
    room = [most_rounds(*gap) for gap in zones.gaps]
    if not bands:
        # Closer than they should be where there are too many for that: the rule is then broken.
        room = [zones.rounds - zones.first_round + 1]
    for neck in task.necks:
        yield from _shared(fixed.increases, neck, bands, room, 0)


def _shared(
    counts: Sequence[int], now: int, bands: Sequence[BandTask], room: Sequence[int], gap: int
) -> Iterator[tuple[int, ...]]:
    """Share increase rounds out from a stretch on, so that every band divides what it meets."""
    if gap == len(bands):
        if len(counts) <= room[0]:
            yield (gap,) * len(counts)
        return
    for here in range(min(len(counts), room[0]), -1, -1):
        before = counts[here - 1] if here else now
        after = through(before, bands[gap : gap + 1])
        if after is not None:
            for rest in _shared(counts[here:], after, bands, room[1:], gap + 1):
                yield (*(gap,) * here, *rest)


def _pinned_line(
    task: YokeTask, gaps: tuple[int, ...], wanted: Sequence[float], yokes: Sequence[int]
) -> Iterator[tuple[float, Sequence[int]]]:
    """Give the count wanted after each increase round that has its place, and those to try.

    Without bands the count half-way from one increase round to the next is the
    line's, which is straight from the neck to half a step below the last one;
    between bands it goes to each band's in equal steps.
    """
    at, above = task.fixed.increase_at, task.worked_rounds
    full = at[-1] + (at[-1] - at[-2]) / 2 if len(at) > 1 else float(at[-1])
    ends = [(early + late) / 2 for early, late in pairwise(at)]
    now = task.neck
    for place, gap in enumerate(gaps):
        if place == len(gaps) - 1 and gap == len(wanted):
            yield task.yoke, yokes
            return
        if wanted:
            left = sum(1 for later in gaps[place:] if later == gap)
            goal = wanted[gap] if gap < len(wanted) else task.yoke
            now += max(1.0, min((goal - now) / left, 0.5 * now))
            off = nearest(0.06 * now, least=4)
        else:
            line = task.neck + (task.yoke - task.neck) * (ends[place] - above) / (full - above)
            now = min(max(line, now + 1), (1 + STEEPEST) * now)
            off = tolerance(now)
        yield now, range(round(now) - off, round(now) + off + 1)


def on_the_pins(task: YokeTask) -> YokeTask | None:
    """Put the pins into the line of the yoke; None when no split meets them.

    A neck, a body, a sleeve or an underarm that is pinned stands in the line in
    place of the one that was measured.
    """
    fixed = task.fixed
    if fixed.increases:
        fixed = fixed.model_copy(update={"yoke": fixed.increases[-1]})
    neck = task.neck if fixed.neck is None else float(fixed.neck)
    if fixed.increases and fixed.neck is None:
        # A free neck gives way to the first round, which adds one stitch to two at the most.
        first, multiple = fixed.increases[0], task.neck_multiple
        least = -(-2 * first // (3 * multiple)) * multiple
        neck = min(max(neck, float(least)), float(first - multiple))
    pins = (fixed.body, fixed.sleeve, fixed.underarm)
    free = (task.body, task.sleeve, task.underarm)
    body, sleeve, underarm = (
        wanted if pin is None else float(pin) for wanted, pin in zip(free, pins, strict=True)
    )
    both = torso(fixed)
    if fixed.yoke is not None or both is not None:
        met = split_meeting(fixed.yoke, pins, (body, sleeve, underarm), both)
        if not met:
            return None
        body, sleeve, underarm = map(float, met[0])
    return replace(task, fixed=fixed, neck=neck, body=body, sleeve=sleeve, underarm=underarm)
