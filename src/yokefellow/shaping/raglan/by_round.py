"""A raglan whose increase rounds are pinned: which pieces grow in each of them.

A round adds two stitches to every piece that grows in it. So 8 stitches are
all four pieces, 6 the sleeves and back or front, 4 the sleeves or back and
front, and 2 back or front. Where a count leaves the choice open, it is made so
that every piece comes from its share of the neck to its count at the split,
and its own rounds lie evenly among those that are open. What is minimised, in
this order: rounds in which no piece grows that grows in all the others, or a
first round unlike the second; a front of the neck unlike its back; the squared
relative distance of N, B, S, U and of the back of the neck from what was wanted.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil
from typing import NamedTuple, TypeAlias

from yokefellow.project_file.pins import torso
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.model import RaglanPiece, Split
from yokefellow.shaping.pieces.taper import taper
from yokefellow.shaping.raglan.rates import most_times, rates, rates_of, rounds_of
from yokefellow.shaping.raglan.shares import (
    LEAST_BETWEEN,
    SHARE_WEIGHT,
    RaglanSolution,
    RaglanTask,
    least_piece,
    raglan_splits,
    shared_out,
)
from yokefellow.shaping.split import split_meeting
from yokefellow.shaping.yoke.rules import FIRST_INCREASE, Cost, Rule

__all__ = ["GAINS", "solve_by_round"]

GAINS = (8, 6, 4, 2)
"""Stitches that one round of a raglan can add."""

TORSO = (0.7, 1.3)
"""Shares of the front and back that were wanted within which others are tried (our choice)."""

APART = 3
"""Stitches by which front and back of a neck may differ where only the rounds are pinned (our
choice)."""


class _Times(NamedTuple):
    """How often each piece grows."""

    back: int
    front: int
    sleeve: int


class _Found(NamedTuple):
    """A way to meet the pins."""

    cost: Cost
    """Here a round in which a piece rests that grows in all others is a rule broken."""
    split: Split
    times: _Times
    gains: tuple[int, ...]
    """What each round adds; nothing where only the rounds are pinned."""


_Grown: TypeAlias = tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]
"""The places, from 0, of the rounds in which back, front and sleeves grow."""


def solve_by_round(task: RaglanTask) -> RaglanSolution | None:
    """Choose the pieces that grow in each pinned round, and what else is free; None if none can.

    Args:
        task: with the counts after the increase rounds, or the rounds, or both, among its pins,
            and what is pinned in place of what was measured (`on_the_pins`).
    """
    fixed = task.counts.fixed
    times = len(fixed.increases or fixed.increase_at)
    rounds = fixed.increase_at or _evenly(times, task.room)
    if not rounds or rounds[0] < FIRST_INCREASE or rounds[-1] > task.room:
        return None
    ways = _by_count(task) if fixed.increases else _by_place(task, times)
    best = min(ways, key=lambda way: way.cost, default=None)
    return None if best is None else _built(task, best, rounds)


def _evenly(times: int, room: int) -> tuple[int, ...]:
    return rounds_of(rates(times, room)) if times <= most_times(room) else ()


def _by_count(task: RaglanTask) -> Iterator[_Found]:
    """Give every way to meet the counts after the increase rounds."""
    after = task.counts.fixed.increases
    later = tuple(late - early for early, late in pairwise(after))
    if any(gain not in GAINS for gain in later):
        return
    splits = tuple(_splits_at(task, after[-1]))
    for first in GAINS:
        neck = after[0] - first
        if task.counts.fixed.neck in (None, neck):
            for cost, split in splits:
                yield from _ways(task, cost, split, (first, *later), neck)


def _splits_at(task: RaglanTask, yoke: int) -> Iterator[tuple[float, Split]]:
    """Give the best split for every width of front and back that comes to a yoke."""
    counts, fixed = task.counts, task.counts.fixed
    if yoke % task.repeat or any(pinned != yoke for pinned in task.pinned):
        return
    wanted = (counts.body, counts.sleeve, counts.underarm)
    between = counts.body - 2 * counts.underarm
    both = torso(fixed)
    first = int(TORSO[0] * between)
    # What the sleeves leave of the yoke: both are alike.
    tries = range(first + (first + yoke) % 2, int(TORSO[1] * between) + 2, 2)
    for width in tries if both is None else (both,):
        pins = (fixed.body, fixed.sleeve, fixed.underarm)
        for got in split_meeting(yoke, pins, wanted, width):
            body, sleeve, underarm = (
                Count(count, want, counts.stitches_per_cm)
                for count, want in zip(got, wanted, strict=True)
            )
            split = shared_out(task, Split(body, sleeve, underarm))
            if split is not None:
                yield _off(split), split


def _off(split: Split) -> float:
    counts = (split.body, split.sleeve, split.underarm)
    return sum(((count.got - count.wanted) / count.wanted) ** 2 for count in counts)


def _ways(
    task: RaglanTask, off: float, split: Split, gains: tuple[int, ...], neck: int
) -> Iterator[_Found]:
    """Give the numbers of rounds that lead from a neck to a split by these gains."""
    whole, three, two, one = (gains.count(gain) for gain in GAINS)
    often = range(whole + three, whole + three + two + 1)
    for sleeve in _sleeve_times(task, split, often, neck):
        alike = whole + two - (sleeve - whole - three)
        either = range(alike, alike + three + one + 1)
        for back in _back_times(task, split, either, neck - 2 * (split.held - 2 * sleeve)):
            times = _Times(back, 2 * alike + three + one - back, sleeve)
            cost = _cost(task, split, times)
            if cost is not None:
                odd = int(gains[0] != gains[:2][-1])
                yield _Found(Cost(odd, 0, cost[0], cost[1] + off), split, times, gains)


def _sleeve_times(task: RaglanTask, split: Split, often: range, neck: int) -> Iterable[int]:
    """Give how often the sleeves may grow: so that back and front begin as wide as is wanted."""
    fixed = task.counts.fixed
    if fixed.neck_sleeve is not None:
        return _only(split.held - fixed.neck_sleeve, often)
    if fixed.neck_back is not None or fixed.neck_front is not None:
        return often
    fewest = (split.held - neck / 2 + _least(task, body=True)) / 2
    most = (split.held - _least(task, body=False)) // 2
    within = range(max(often.start, ceil(fewest)), min(often.stop, most + 1))
    return _near((split.held - neck / 2 + task.back_neck) / 2, within)


def _back_times(task: RaglanTask, split: Split, often: range, body: int) -> Iterable[int]:
    """Give how often the back may grow: so that it begins about as wide as the front.

    Args:
        task: for its pins.
        split: where it ends.
        often: the numbers that the rounds leave.
        body: stitches of back and front together at the neck.
    """
    fixed = task.counts.fixed
    if fixed.neck_back is not None:
        return _only(split.back - fixed.neck_back, often)
    if fixed.neck_front is not None:
        return _only(split.back - body + fixed.neck_front, often)
    return _near((split.back - body / 2) / 2, often)


def _only(grown: int, often: range) -> Iterable[int]:
    """Give the number of rounds that add so many stitches, if it is one of these."""
    return [times for times in often if 2 * times == grown]


def _near(wanted: float, often: range) -> Iterable[int]:
    """Give the number nearest to what is wanted, and its neighbours."""
    if not often:
        return ()
    middle = min(max(nearest(wanted), often[0]), often[-1])
    return [times for times in (middle - 1, middle, middle + 1) if times in often]


def _starts(split: Split, times: _Times) -> _Times:
    ends = (split.back, split.front, split.held)
    return _Times(*(end - 2 * often for end, often in zip(ends, times, strict=True)))


def _cost(task: RaglanTask, split: Split, times: _Times) -> tuple[float, float] | None:
    """Say how far the shares of the neck are off; None where they cannot or may not be."""
    counts, fixed = task.counts, task.counts.fixed
    starts = _starts(split, times)
    pins = (fixed.neck_back, fixed.neck_front, fixed.neck_sleeve)
    if any(pin not in (None, start) for pin, start in zip(pins, starts, strict=True)):
        return None
    if min(starts.back, starts.front) < _least(task, body=True):
        return None
    if starts.sleeve < _least(task, body=False):
        return None
    neck = starts.back + starts.front + 2 * starts.sleeve
    return (
        float(max(0, abs(starts.front - starts.back) - 1)),
        ((neck - counts.neck) / counts.neck) ** 2
        + SHARE_WEIGHT * ((starts.back - task.back_neck) / task.back_neck) ** 2,
    )


def _least(task: RaglanTask, *, body: bool) -> int:
    """Give the fewest stitches a pinned piece may begin with: its share of two lines.

    A sleeve may begin with none; its lines then belong to back and front.
    """
    if task.takes_stitches:
        return least_piece(task.line_width, body=body)
    return 2 * task.line_width + LEAST_BETWEEN if body else 0


def _by_place(task: RaglanTask, times: int) -> Iterator[_Found]:
    """Give the ways in which something grows in each of so many rounds."""
    neck_multiple = task.counts.neck_multiple
    for adjusting, off, split in raglan_splits(task, wide=False):
        for each in _times_of(task, split, times):
            cost = _cost(task, split, each)
            if cost is None:
                continue
            neck = sum(_starts(split, each)) + _starts(split, each).sleeve
            uneven = (neck % neck_multiple > 0) + adjusting
            turns = times - max(each)
            yield _Found(Cost(turns, 0, cost[0] + uneven, cost[1] + off), split, each, ())


def _times_of(task: RaglanTask, split: Split, times: int) -> Iterator[_Times]:
    """Give numbers of rounds for each piece, so many together that no round is left over."""
    neck = task.counts.fixed.neck
    most = min(times, (split.held - _least(task, body=False)) // 2)
    for back in range(times + 1):
        for front in _fronts(task, split, times, back):
            body = split.back + split.front - 2 * (back + front)
            for sleeve in _sleeves(task, split, range(times - back, most + 1), body):
                if neck is None or body + 2 * (split.held - 2 * sleeve) == neck:
                    yield _Times(back, front, sleeve)


def _fronts(task: RaglanTask, split: Split, times: int, back: int) -> Iterable[int]:
    """Give how often the front may grow: so that it begins about as wide as the back.

    Where both are pinned, they may differ as they please.
    """
    fixed, often = task.counts.fixed, range(times + 1)
    if fixed.neck_front is not None and fixed.neck_back is not None:
        return _only(split.front - fixed.neck_front, often)
    more = split.front - split.back
    return [front for front in often if abs(more - 2 * (front - back)) <= APART]


def _sleeves(task: RaglanTask, split: Split, often: range, body: int) -> Iterable[int]:
    """Give how often the sleeves may grow beside a body with so many stitches at the neck."""
    pin = task.counts.fixed.neck_sleeve
    if pin is not None:
        return _only(split.held - pin, often)
    # A piece that grows in every round may as well be the sleeves.
    return (*_near((2 * split.held + body - task.counts.neck) / 4, often), *often[-1:])


def _built(task: RaglanTask, found: _Found, rounds: Sequence[int]) -> RaglanSolution:
    starts, times = _starts(found.split, found.times), found.times
    grown = _by_gains(times, found.gains) if found.gains else _by_turns(times, len(rounds))
    back, front, sleeve = (
        _piece(start, tuple(rounds[place] for place in places))
        for start, places in zip(starts, grown, strict=True)
    )
    counts = task.counts
    neck = Count(back.start + front.start + 2 * sleeve.start, counts.neck, counts.stitches_per_cm)
    there = sum(one.stitches_at(task.shoulder_round) for one in (back, front, sleeve, sleeve))
    broken = () if there >= counts.covering else (Rule.SHOULDER,)
    return RaglanSolution(neck, found.split, back, front, sleeve, broken)


def _piece(start: int, rounds: tuple[int, ...]) -> RaglanPiece:
    return RaglanPiece(start, rates_of(rounds), rounds)


def _some(places: Sequence[int], times: int) -> tuple[int, ...]:
    """Take so many of the places, evenly."""
    return tuple(places[at - 1] for at in taper(times, len(places)))


def _by_gains(times: _Times, gains: Sequence[int]) -> _Grown:
    """Share the rounds out among the pieces, each as often as it must grow."""
    whole, three, two, one = (
        tuple(at for at, gain in enumerate(gains) if gain == wanted) for wanted in GAINS
    )
    sleeve = {*whole, *three, *_some(two, times.sleeve - len(whole) - len(three))}
    alike = {*whole, *(at for at in two if at not in sleeve)}
    either = sorted((*three, *one))
    backs = set(_some(either, times.back - len(alike)))
    back, front = alike | backs, alike | (set(either) - backs)
    return tuple(sorted(back)), tuple(sorted(front)), tuple(sorted(sleeve))


def _by_turns(times: _Times, rounds: int) -> _Grown:
    """Give every piece its rounds evenly; where none grows in all, the back fills the gaps."""
    every = range(rounds)
    sleeve, front = _some(every, times.sleeve), _some(every, times.front)
    back = _some(every, times.back)
    if {*back, *front, *sleeve} != set(every):
        gaps = [at for at in every if at not in sleeve]
        back = tuple(sorted((*gaps, *_some(sleeve, times.back - len(gaps)))))
        front = back if times.front == times.back else front
    return back, front, sleeve
