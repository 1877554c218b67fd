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
from itertools import pairwise
from math import ceil, inf

from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.chain import Layer, Path, climb
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.line import FULL_AT, LEAST_APART, broken_rules, places, profile
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.solving import solve_banded
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.yoke_shapes import IncreaseRound

__all__ = ["Solution", "YokeTask", "solve"]

_TARGET_APART_CM = {"regular": 3.2, "gentle": 2.25}
"""How far apart increase rounds lie: `gentle` is every 2 to 2.5 cm."""


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


def _tolerance(count: float) -> int:
    """Stitches a count inside the yoke may lie off the profile: 4 %, at least 3, at most 10.

    The increase rounds are placed by the counts they got, so a count off the
    profile moves its round and leaves the yoke's line where it was.
    """
    return min(10, max(3, int(0.04 * count)))


def _around(wanted: float) -> Layer:
    off = _tolerance(wanted)
    return Layer(wanted, range(round(wanted) - off, round(wanted) + off + 1))


def _ladders(task: YokeTask, yokes: Sequence[int], times: int) -> Iterator[tuple[Layer, ...]]:
    """Give the ladders of counts to try for so many increase rounds.

    Equal steps; and, where only the last of them would cover the shoulders,
    steps that cover them one round earlier, so that the yoke need not be full
    at the point of the shoulder already.
    """
    wanted = profile(neck=task.neck, yoke=task.yoke, times=times)
    if wanted is None:
        return
    top = Layer(task.yoke, yokes)
    yield (*(_around(count) for count in wanted[:-1]), top)
    if wanted[-2] < task.shoulder < task.yoke:
        least = ceil(task.shoulder)
        below = profile(neck=task.neck, yoke=least, times=times - 1)
        if below is not None:
            over = Layer(least, range(least, least + 2 * _tolerance(least) + 1))
            yield (*(_around(count) for count in below[:-1]), over, top)


def solve(task: YokeTask) -> Solution | Misfit | Narrow | Unreached | None:
    """Choose neck, split, bands and increase rounds together; None when no yoke reaches.

    See the head of this file for what is minimised. A band whose repeat fits
    no count, before which there are too few rounds, or that nothing reaches, is
    returned as it is.
    """
    necks = task.necks
    if task.places:
        return solve_banded(task, necks)
    splits = splits_for(task)
    if not splits:
        return None
    best: tuple[tuple[float, ...], Solution] | None = None
    for times, away in _numbers_of_rounds(task):
        if best is not None and best[0][:2] <= (0, away):
            break
        for ladder in _ladders(task, sorted(splits), times):
            # Nothing harder could still be better than a yoke that breaks no rule.
            spare = best[0][1] - away if best is not None and best[0][0] == 0 else inf
            found = _best_path(climb(necks, ladder, spare=spare), splits, task, away=away)
            if found is not None and (best is None or found[0] < best[0]):
                best = found
    return None if best is None else best[1]


def _best_path(
    paths: Mapping[int, Path],
    splits: Mapping[int, tuple[float, Split]],
    task: YokeTask,
    *,
    away: float,
) -> tuple[tuple[float, ...], Solution] | None:
    best: tuple[tuple[float, ...], Solution] | None = None
    for yoke, (hard, deviation, counts) in paths.items():
        split_cost, split = splits[yoke]
        adjusting = float(int(split_cost))
        unbroken = (
            0.0,
            hard - (len(counts) - 1) + adjusting + away,
            deviation + split_cost - adjusting + ((counts[0] - task.neck) / task.neck) ** 2,
        )
        if best is not None and unbroken >= best[0]:
            continue
        at = places(
            counts, shoulder=task.covering, rounds=task.rounds, first_round=task.first_round
        )
        broken = broken_rules(counts, at, shoulder=task.covering, rounds=task.rounds)
        cost = (float(len(broken)), *unbroken[1:])
        if best is None or cost < best[0]:
            neck = Count(counts[0], task.neck, task.stitches_per_cm)
            steps = tuple(
                IncreaseRound(place, before, after)
                for place, (before, after) in zip(at, pairwise(counts), strict=True)
            )
            best = (cost, Solution(neck, split, steps, broken))
    return best
