"""A yoke with colour bands of which the counts or the places of the increase rounds are given.

Every way to share the increase rounds out among the plain stretches is tried
in which each band's repeat divides the count it meets.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice

from yokefellow.shaping.banded import Ladder
from yokefellow.shaping.chain import Layer, climb, through
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.reach import most_rounds
from yokefellow.shaping.solving import built, faults, line_of
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.zones import BandTask, Zones

__all__ = ["solve_banded_by_round"]

MOST_WAYS = 200
"""Ways to share out the increase rounds that are tried for one place of the bands."""


def solve_banded_by_round(task: YokeTask) -> Solution | None:
    """Give the yoke that breaks the fewest rules and has its bands nearest to the line."""
    splits = splits_for(task)
    if not splits:
        return None
    found: list[tuple[tuple[int, int, float], Solution]] = []
    for zones in task.places:
        line = line_of(task, task.necks, splits)
        wanted = tuple(line.at(band, zones) for band in zones.bands)
        for gap_of in islice(_ways(task, zones), MOST_WAYS):
            ladder = _ladder(task, zones, gap_of, wanted, sorted(splits))
            for yoke, path in climb(task.necks, ladder.layers, ladder.first).items():
                if yoke in splits:
                    one = _with_steep(built(task, zones, ladder, path, splits[yoke][1]))
                    found.append(((*faults(one), path[0] + path[1]), one))
    return min(found, key=lambda one: one[0])[1] if found else None


def _with_steep(found: Solution) -> Solution:
    steep = any(2 * step.increases > step.before for step in found.increase_rounds)
    return replace(found, broken=(*found.broken, "steep")) if steep else found


def _ways(task: YokeTask, zones: Zones) -> Iterator[tuple[int, ...]]:
    """Give the plain stretch of every increase round, in every way that can be."""
    at = task.fixed.increase_at
    if at:
        gap_of = tuple(_gap_at(number, zones) for number in at)
        if None not in gap_of:
            yield tuple(gap for gap in gap_of if gap is not None)
        return
    bands = tuple(placed.task for placed in zones.bands)
    room = [most_rounds(*gap) for gap in zones.gaps]
    for neck in task.necks:
        yield from _shared(task.fixed.increases, neck, bands, room, 0)


def _gap_at(number: int, zones: Zones) -> int | None:
    """Find the plain stretch of a round; None inside a band, or below the yoke."""
    above = sum(1 for band in zones.bands if band.last < number)
    inside = any(band.first <= number <= band.last for band in zones.bands)
    return None if inside or number > zones.rounds else above


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


def _ladder(
    task: YokeTask,
    zones: Zones,
    gap_of: tuple[int, ...],
    wanted: tuple[float, ...],
    yokes: Sequence[int],
) -> Ladder:
    bands = tuple(placed.task for placed in zones.bands)
    ends = (*gap_of[1:], len(bands))
    layers = tuple(
        Layer(count, counts, bands[gap:end], is_pinned=bool(task.fixed.increases))
        for (count, counts), gap, end in zip(
            _counts(task, gap_of, wanted, yokes), gap_of, ends, strict=True
        )
    )
    return Ladder(bands[: gap_of[0]], layers, gap_of, wanted)


def _counts(
    task: YokeTask, gap_of: tuple[int, ...], wanted: tuple[float, ...], yokes: Sequence[int]
) -> Iterator[tuple[float, Sequence[int]]]:
    """Give the count wanted after each increase round, and those to try."""
    given = task.fixed.increases
    if given:
        yield from ((float(count), (count,)) for count in given)
        return
    now = task.neck
    for place, gap in enumerate(gap_of):
        left = sum(1 for later in gap_of[place:] if later == gap)
        goal = wanted[gap] if gap < len(wanted) else task.yoke
        now += max(1.0, min((goal - now) / left, 0.5 * now))
        off = nearest(0.06 * now, least=4)
        is_last = place == len(gap_of) - 1
        yield (
            (task.yoke, yokes)
            if is_last and gap == len(wanted)
            else (now, range(round(now) - off, round(now) + off + 1))
        )
