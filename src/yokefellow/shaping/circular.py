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

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise, product

from yokefellow.shaping.counts import Count, nearest, permitted
from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.shapes import IncreaseRound, Split

__all__ = [
    "LEAST_APART",
    "SHOULDER_AT",
    "Solution",
    "YokeTask",
    "profile",
    "solve",
]

LEAST_APART = 3
"""Rounds from one increase round to the next: closer ones read as a ridge (common practice)."""

SHOULDER_AT = 0.45
"""Share of the depth at the point of the shoulder (common practice)."""

FULL_AT = 0.70
"""Share of the depth at which the yoke is full; 60 to 80 % is good (common practice)."""

FULL_EARLIEST, FULL_LATEST = 0.60, 0.80

_TARGET_APART_CM = {"regular": 3.2, "gentle": 2.25}
"""How far apart increase rounds lie: `gentle` is every 2 to 2.5 cm."""

_CAP = 0.48
"""The profile asks for at most this share of increase in a round, a little under the
half that is allowed, so that the counts have room."""


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


def profile(*, neck: float, yoke: float, times: int) -> tuple[float, ...] | None:
    """Give the count wanted after each of `times` increase rounds.

    Equal steps, so that the circumference grows about in a straight line; a
    step that would add too large a share is cut and the rest shared out again.
    None when so few rounds cannot reach the yoke.
    """
    counts: list[float] = []
    now = neck
    for left in range(times, 0, -1):
        now += min((yoke - now) / left, _CAP * now)
        counts.append(now)
    return tuple(counts) if counts[-1] >= yoke - 1e-6 else None


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
        if split.held < 4 or split.front < 4:
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
    """Stitches a count inside the yoke may lie off the profile: 2.5 %, at least 2, at most 8."""
    return min(8, max(2, int(0.025 * count)))


def _paths(
    necks: tuple[int, ...], wanted: tuple[float, ...], yokes: Mapping[int, tuple[float, Split]]
) -> Mapping[int, _Path]:
    """Find, for every yoke count, the chain of counts that is simplest to knit.

    A shortest path through layers of counts, one layer an increase round.
    """
    layer: dict[int, _Path] = {neck: (0.0, 0.0, (neck,)) for neck in necks}
    for place, target in enumerate(wanted):
        if place == len(wanted) - 1:
            nexts: list[int] = sorted(yokes)
        else:
            off = _tolerance(target)
            nexts = list(range(round(target) - off, round(target) + off + 1))
        layer = _step(layer, nexts, target)
    return layer


def _step(layer: Mapping[int, _Path], nexts: list[int], target: float) -> dict[int, _Path]:
    best: dict[int, _Path] = {}
    for after in nexts:
        off = ((after - target) / target) ** 2
        for before, (hard, deviation, path) in layer.items():
            added = after - before
            if added < 1 or 2 * added > before:
                continue
            cost = (hard + _repeats(before, added), deviation + off)
            if after not in best or cost < best[after][:2]:
                best[after] = (*cost, (*path, after))
    return best


def _places(counts: tuple[int, ...], task: YokeTask) -> tuple[int, ...]:
    """Put every increase round where the staircase of counts lies evenly round the profile.

    The straight profile runs from the neck so that the last increase round
    falls at `FULL_AT`; each round stands where the line is half-way up its
    step. The round that first covers the shoulders is drawn up to the point of
    the shoulder if it lay below, and the earlier ones before it.
    """
    neck, yoke = counts[0], counts[-1]
    middles = [(before + after) / 2 for before, after in pairwise(counts)]
    per_stitch = FULL_AT * task.rounds / (middles[-1] - neck)
    places = [max(task.first_round, round(per_stitch * (mid - neck))) for mid in middles]
    limit = int(SHOULDER_AT * task.rounds)
    covering = [p for p, count in enumerate(counts[1:]) if count >= min(task.shoulder, yoke)]
    if places[covering[0]] > limit:
        places[covering[0]] = limit
    for later in range(len(places) - 1, 0, -1):
        places[later - 1] = min(places[later - 1], places[later] - LEAST_APART)
    for early in range(len(places)):
        least = places[early - 1] + LEAST_APART if early else task.first_round
        places[early] = max(places[early], least)
    return tuple(places)


def _broken(counts: tuple[int, ...], places: tuple[int, ...], task: YokeTask) -> tuple[str, ...]:
    limit = int(SHOULDER_AT * task.rounds)
    there = [count for place, count in zip(places, counts[1:], strict=True) if place <= limit]
    covered = (there[-1] if there else counts[0]) >= min(task.shoulder, counts[-1])
    apart = all(later - early >= LEAST_APART for early, later in pairwise(places))
    share = places[-1] / task.rounds
    slack = 0.5 / task.rounds
    full = FULL_EARLIEST - slack <= share <= FULL_LATEST + slack
    return tuple(
        name
        for name, kept in (("shoulder", covered), ("apart", apart), ("fullness", full))
        if not kept
    )


def solve(task: YokeTask) -> Solution | None:
    """Choose neck, split and increase rounds together; None when no yoke reaches.

    See the head of this file for what is minimised.
    """
    necks = permitted(task.neck, multiple=task.neck_multiple, least=task.neck_multiple * 4)
    splits = _splits(task)
    if not splits:
        return None
    yoke_wanted = (task.body - 2 * task.underarm) + 2 * (task.sleeve - task.underarm)
    best: tuple[tuple[float, ...], Solution] | None = None
    for times, away in _numbers_of_rounds(task):
        if best is not None and best[0][:2] <= (0, away):
            break
        wanted = profile(neck=task.neck, yoke=yoke_wanted, times=times)
        if wanted is None:
            continue
        found = _best_path(_paths(necks, wanted, splits), splits, task, away=away)
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
        places = _places(counts, task)
        broken = _broken(counts, places, task)
        cost = (
            float(len(broken)),
            hard - (len(counts) - 1) + adjusting + away,
            deviation + split_cost - adjusting + ((counts[0] - task.neck) / task.neck) ** 2,
        )
        if best is None or cost < best[0]:
            neck = Count(counts[0], task.neck, task.stitches_per_cm)
            steps = tuple(
                IncreaseRound(place, before, after)
                for place, (before, after) in zip(places, pairwise(counts), strict=True)
            )
            best = (cost, Solution(neck, split, steps, broken))
    return best
