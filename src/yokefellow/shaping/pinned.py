"""The yoke with pins: every pinned count is met exactly, and the rest is solved around them.

What is minimised is what the free yoke minimises (see `circular`); a pin is
never part of the bargain. A neck, a body, a sleeve or an underarm that is
pinned stands in the line of the yoke in place of the one that was measured.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TypeVar

from yokefellow.project_file.pins import torso
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.chain import Layer, climb
from yokefellow.shaping.circular import solve
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.even import repeats_needed
from yokefellow.shaping.line import broken_rules, places
from yokefellow.shaping.meeting import split_meeting
from yokefellow.shaping.pinned_bands import solve_banded_by_round
from yokefellow.shaping.raglan import RaglanSolution
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.taper import taper
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.yoke_shapes import IncreaseRound

__all__ = ["as_asked", "meets", "on_the_pins", "solve_pinned"]

STEEP = 0.48
"""Share of increase asked of a free round at the most, a little under the half that is allowed."""


def meets(task: YokeTask, found: Solution) -> bool:
    """Tell whether a solution has every pinned count as it is, by itself."""
    fixed, split = task.fixed, found.split
    pairs: tuple[tuple[object, object], ...] = (
        (fixed.neck, found.neck.got),
        (fixed.yoke, split.yoke),
        (fixed.body, split.body.got),
        (fixed.sleeve, split.sleeve.got),
        (fixed.underarm, split.underarm.got),
        (torso(fixed), split.front + split.back),
        (fixed.increases or None, tuple(step.after for step in found.increase_rounds)),
        (fixed.increase_at or None, tuple(step.number for step in found.increase_rounds)),
    )
    return all(pin is None or pin == got for pin, got in pairs)


def solve_pinned(task: YokeTask) -> Solution | Misfit | Narrow | Unreached | None:
    """Choose what is free around the pins of a task; None when nothing meets them all."""
    line = on_the_pins(task)
    if line is None:
        return None
    found: Solution | Misfit | Narrow | Unreached | None
    if not (line.fixed.increases or line.fixed.increase_at):
        found = solve(line)
    elif line.places:
        found = solve_banded_by_round(line)
    else:
        found = _by_round(line)
    return as_asked(found, task) if isinstance(found, Solution) else found


def on_the_pins(task: YokeTask) -> YokeTask | None:
    """Put the pins into the line of the yoke; None when no split meets them."""
    fixed = task.fixed
    if fixed.increases:
        fixed = fixed.model_copy(update={"yoke": fixed.increases[-1]})
    neck = task.neck if fixed.neck is None else float(fixed.neck)
    if fixed.increases and fixed.neck is None:
        neck = _neck_under(fixed.increases[0], neck, task.neck_multiple)
    body, sleeve, underarm = (
        wanted if pin is None else float(pin)
        for wanted, pin in (
            (task.body, fixed.body),
            (task.sleeve, fixed.sleeve),
            (task.underarm, fixed.underarm),
        )
    )
    both = torso(fixed)
    if fixed.yoke is not None or both is not None:
        pins = (fixed.body, fixed.sleeve, fixed.underarm)
        met = split_meeting(fixed.yoke, pins, (body, sleeve, underarm), both)
        if not met:
            return None
        body, sleeve, underarm = map(float, met[0])
    return replace(task, fixed=fixed, neck=neck, body=body, sleeve=sleeve, underarm=underarm)


_Found = TypeVar("_Found", Solution, RaglanSolution)


def _neck_under(first: int, wanted: float, multiple: int) -> float:
    """Let a free neck give way to the first round, which adds one stitch to two at the most."""
    least = -(-2 * first // (3 * multiple)) * multiple
    return min(max(wanted, float(least)), float(first - multiple))


def as_asked(found: _Found, task: YokeTask) -> _Found:
    """Set beside every count what was asked for, and not the pin it was solved with."""
    split = found.split
    return replace(
        found,
        neck=replace(found.neck, wanted=task.neck),
        split=replace(
            split,
            body=replace(split.body, wanted=task.body),
            sleeve=replace(split.sleeve, wanted=task.sleeve),
            underarm=replace(split.underarm, wanted=task.underarm),
        ),
    )


def _by_round(task: YokeTask) -> Solution | None:
    """Solve a plain yoke of which the counts or the places of the increase rounds are given."""
    splits = splits_for(task)
    found = [
        _built(task, counts, off, split)
        for counts, off, (_, split) in _chains(task, splits)
        if _has_room(task, len(counts) - 1)
    ]
    return min(found, key=lambda one: one[0])[1] if found else None


def _has_room(task: YokeTask, times: int) -> bool:
    at = task.fixed.increase_at
    return at[-1] <= task.rounds if at else times <= task.rounds - task.first_round + 1


def _chains(
    task: YokeTask, splits: Mapping[int, tuple[float, Split]]
) -> Iterator[tuple[tuple[int, ...], float, tuple[float, Split]]]:
    """Give the counts from the neck on, how far off the line they are, and their split."""
    given = task.fixed.increases
    if given:
        for neck in task.necks:
            if neck < given[0] <= 2 * neck and given[-1] in splits:
                yield (neck, *given), abs(neck - task.neck), splits[given[-1]]
        return
    for yoke, (_, off, counts) in climb(task.necks, _ladder(task, sorted(splits))).items():
        yield counts, off, splits[yoke]


def _ladder(task: YokeTask, yokes: Sequence[int]) -> tuple[Layer, ...]:
    """Give the layers of a yoke whose increase rounds stand where they were put.

    Half-way from one increase round to the next the count is the line's, which
    is straight from the neck to half a step below the last one.
    """
    at = task.fixed.increase_at
    ends = (*((early + late) / 2 for early, late in pairwise(at)),)
    full = at[-1] + (at[-1] - at[-2]) / 2 if len(at) > 1 else float(at[-1])
    layers: list[Layer] = []
    now = task.neck
    for end in ends:
        line = task.neck + (task.yoke - task.neck) * end / full
        now = min(max(line, now + 1), (1 + STEEP) * now)
        off = min(10, max(3, nearest(0.04 * now)))
        layers.append(Layer(now, range(round(now) - off, round(now) + off + 1)))
    return (*layers, Layer(task.yoke, yokes))


def _built(
    task: YokeTask, counts: tuple[int, ...], off: float, split: Split
) -> tuple[tuple[float, ...], Solution]:
    at = task.fixed.increase_at or _places(task, counts)
    broken = broken_rules(counts, at, shoulder=task.covering, rounds=task.rounds)
    if any(2 * (after - before) > before for before, after in pairwise(counts)):
        broken = (*broken, "steep")
    hard = sum(repeats_needed(before, after - before) for before, after in pairwise(counts))
    steps = tuple(
        IncreaseRound(place, before, after)
        for place, (before, after) in zip(at, pairwise(counts), strict=True)
    )
    neck = Count(counts[0], task.neck, task.stitches_per_cm)
    return (float(len(broken)), float(hard), off), Solution(neck, split, steps, broken)


def _places(task: YokeTask, counts: tuple[int, ...]) -> tuple[int, ...]:
    """Place the increase rounds as in a free yoke; closer where there are too many for that."""
    found = places(counts, shoulder=task.covering, rounds=task.rounds, first_round=task.first_round)
    if found[-1] <= task.rounds:
        return found
    ahead = task.first_round - 1
    return tuple(ahead + at for at in taper(len(found), task.rounds - ahead))
