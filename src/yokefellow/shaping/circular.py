"""The circular yoke by measurement: every count chosen together.

What is minimised, in this order:

1. broken rules: shoulders not covered at the point of the shoulder, increase
   rounds closer than 3 rounds, fullness reached before 60 % or after 80 % of
   the depth. Adding more than half the stitches in one round is never allowed.
2. how hard the increase rounds are to knit: for each round the number of
   different repeats its instruction needs (one that divides exactly, two, or
   a longer list; `even.repeats_needed`), summed, over what one each would be;
   and one more where the hem needs an adjusting round.
3. deviation: the squared relative distance of every count from the one wanted.

The finished dimensions do not take part in the bargain: N, B, S and U are
only ever drawn from `counts.permitted`, within half a stitch of the best that
divisibility allows. The counts between N and Y are free within a small
tolerance of the profile, and that freedom buys the simple instructions.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product
from math import ceil

from yokefellow.shaping.counts import Count, nearest, permitted
from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.line import FULL_AT, LEAST_APART, broken_rules, places, profile
from yokefellow.shaping.shapes import IncreaseRound, Split

__all__ = ["LEAST_HELD", "Solution", "YokeTask", "solve"]

LEAST_HELD = 4
"""Stitches of a sleeve, and of the front, that must stay between the underarms."""

_TARGET_APART_CM = {"regular": 3.2, "gentle": 2.25}
"""How far apart increase rounds lie: `gentle` is every 2 to 2.5 cm."""


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
    rounds: int
    rounds_per_cm: float
    stitches_per_cm: float
    style: str
    """`regular`, `few` or `gentle`."""
    first_round: int
    """The earliest round that may increase."""

    @property
    def yoke(self) -> float:
        """Stitches wanted at the end of the yoke: Y = (B - 2U) + 2(S - U)."""
        return (self.body - 2 * self.underarm) + 2 * (self.sleeve - self.underarm)

    @property
    def covering(self) -> float:
        """Stitches that must be there at the point of the shoulder; 0 where none could be."""
        return self.shoulder if self.shoulder <= self.yoke else 0.0


@dataclass(frozen=True, slots=True)
class Solution:
    """The chosen counts, and the rules they had to break."""

    neck: Count
    split: Split
    increase_rounds: tuple[IncreaseRound, ...]
    broken: tuple[str, ...]
    """`shoulder`, `apart`, `fullness`."""


@lru_cache(maxsize=1 << 16)
def _repeats(stitches: int, times: int) -> int:
    return repeats_needed(stitches, times)


def _splits(task: YokeTask) -> Mapping[int, tuple[float, Split]]:
    """Give the best split for every yoke count the permitted dimensions allow."""
    best: dict[int, tuple[float, Split]] = {}
    for body, sleeve, underarm in product(
        permitted(task.body, multiple=2, least=8),
        permitted(task.sleeve, multiple=2, least=6),
        permitted(task.underarm, multiple=2, least=2),
    ):
        split = Split(
            Count(body, task.body, task.stitches_per_cm),
            Count(sleeve, task.sleeve, task.stitches_per_cm),
            Count(underarm, task.underarm, task.stitches_per_cm),
        )
        if min(split.held, split.front) < LEAST_HELD:
            continue
        cost = _split_cost(split, task)
        if split.yoke not in best or cost < best[split.yoke][0]:
            best[split.yoke] = (cost, split)
    return best


def _split_cost(split: Split, task: YokeTask) -> float:
    adjusting = 1.0 if split.body.got % task.body_multiple else 0.0
    return adjusting + sum(
        ((count.got - count.wanted) / count.wanted) ** 2
        for count in (split.body, split.sleeve, split.underarm)
    )


def _numbers_of_rounds(task: YokeTask) -> tuple[tuple[int, float], ...]:
    """List how many increase rounds to try, and what each costs; the style's own first.

    A step away from the style's own number counts as one more repeat to read;
    more than four are no longer `few`, and only serve when four cannot reach.
    """
    full = FULL_AT * task.rounds
    most = max(1, int((full - task.first_round) // LEAST_APART) + 1)
    if task.style == "few":
        tries = ((4, 0.0), (3, 1.0), (5, 50.0), (6, 51.0))
    else:
        # The line from the neck to fullness is half a step longer than the last increase.
        apart_cm = _TARGET_APART_CM[task.style]
        usual = min(most, nearest(full / task.rounds_per_cm / apart_cm + 0.5, least=3))
        tries = ((usual, 0.0), (usual + 1, 1.0), (usual - 1, 1.0), (usual + 2, 2.0))
    return tuple(one for one in tries if 2 <= one[0] <= most) or ((most, 0.0),)


_Path = tuple[float, float, tuple[int, ...]]


def _tolerance(count: float) -> int:
    """Stitches a count inside the yoke may lie off the profile: 4 %, at least 3, at most 10.

    The increase rounds are placed by the counts they got, so a count off the
    profile moves its round and leaves the yoke's line where it was.
    """
    return min(10, max(3, int(0.04 * count)))


@dataclass(frozen=True, slots=True)
class _Layer:
    """The counts to try after one increase round, and the one wanted there."""

    wanted: float
    counts: Sequence[int]


def _around(wanted: float) -> _Layer:
    off = _tolerance(wanted)
    return _Layer(wanted, range(round(wanted) - off, round(wanted) + off + 1))


def _ladders(task: YokeTask, yokes: Sequence[int], times: int) -> Iterator[tuple[_Layer, ...]]:
    """Give the ladders of counts to try for so many increase rounds.

    Equal steps; and, where only the last of them would cover the shoulders,
    steps that cover them one round earlier, so that the yoke need not be full
    at the point of the shoulder already.
    """
    wanted = profile(neck=task.neck, yoke=task.yoke, times=times)
    if wanted is None:
        return
    top = _Layer(task.yoke, yokes)
    yield (*(_around(count) for count in wanted[:-1]), top)
    if wanted[-2] < task.shoulder < task.yoke:
        least = ceil(task.shoulder)
        below = profile(neck=task.neck, yoke=least, times=times - 1)
        if below is not None:
            over = _Layer(least, range(least, least + 2 * _tolerance(least) + 1))
            yield (*(_around(count) for count in below[:-1]), over, top)


def _paths(necks: tuple[int, ...], ladder: tuple[_Layer, ...]) -> Mapping[int, _Path]:
    """Find, for every yoke count, the chain of counts that is simplest to knit.

    A shortest path up the ladder, one layer an increase round.
    """
    ends: dict[int, _Path] = {neck: (0.0, 0.0, (neck,)) for neck in necks}
    for layer in ladder:
        ends = _step(ends, layer)
    return ends


def _step(ends: Mapping[int, _Path], layer: _Layer) -> dict[int, _Path]:
    best: dict[int, _Path] = {}
    for after in layer.counts:
        off = ((after - layer.wanted) / layer.wanted) ** 2
        for before, (hard, deviation, path) in ends.items():
            added = after - before
            if added < 1 or 2 * added > before:
                continue
            cost = (hard + _repeats(before, added), deviation + off)
            if after not in best or cost < best[after][:2]:
                best[after] = (*cost, (*path, after))
    return best


def solve(task: YokeTask) -> Solution | None:
    """Choose neck, split and increase rounds together; None when no yoke reaches.

    See the head of this file for what is minimised.
    """
    necks = permitted(task.neck, multiple=task.neck_multiple, least=task.neck_multiple * 4)
    splits = _splits(task)
    if not splits:
        return None
    best: tuple[tuple[float, ...], Solution] | None = None
    for times, away in _numbers_of_rounds(task):
        if best is not None and best[0][:2] <= (0, away):
            break
        for ladder in _ladders(task, sorted(splits), times):
            found = _best_path(_paths(necks, ladder), splits, task, away=away)
            if found is not None and (best is None or found[0] < best[0]):
                best = found
    return None if best is None else best[1]


def _best_path(
    paths: Mapping[int, _Path],
    splits: Mapping[int, tuple[float, Split]],
    task: YokeTask,
    *,
    away: float,
) -> tuple[tuple[float, ...], Solution] | None:
    best: tuple[tuple[float, ...], Solution] | None = None
    for yoke, (hard, deviation, counts) in paths.items():
        split_cost, split = splits[yoke]
        adjusting = float(int(split_cost))
        at = places(
            counts, shoulder=task.covering, rounds=task.rounds, first_round=task.first_round
        )
        broken = broken_rules(counts, at, shoulder=task.covering, rounds=task.rounds)
        cost = (
            float(len(broken)),
            hard - (len(counts) - 1) + adjusting + away,
            deviation + split_cost - adjusting + ((counts[0] - task.neck) / task.neck) ** 2,
        )
        if best is None or cost < best[0]:
            neck = Count(counts[0], task.neck, task.stitches_per_cm)
            steps = tuple(
                IncreaseRound(place, before, after)
                for place, (before, after) in zip(at, pairwise(counts), strict=True)
            )
            best = (cost, Solution(neck, split, steps, broken))
    return best
