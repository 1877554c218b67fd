"""What a circular yoke is asked for, what comes back, and the splits its counts permit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import product
from math import lcm

from yokefellow.project_file.pins import NOTHING, OF_THE_YOKE, Fixed, torso
from yokefellow.shaping.counts import Count, permitted
from yokefellow.shaping.meeting import LEAST_HELD, split_meeting
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.yoke_shapes import BandShape, IncreaseRound
from yokefellow.shaping.zones import Zones

__all__ = ["LEAST_HELD", "Solution", "YokeTask", "of_the_yoke", "splits_for"]


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
    rounds: int
    rounds_per_cm: float
    stitches_per_cm: float
    style: str
    """`regular`, `few` or `gentle`."""
    first_round: int
    """The earliest round that may increase."""
    places: tuple[Zones, ...] = ()
    """Where the colour bands may lie, the best first; nothing for a plain yoke."""
    fixed: Fixed = NOTHING
    """Counts that must be met exactly."""
    body_repeat: int = 1
    """The repeat of the bands on a straight body: preferred, within `BODY_GIVES` of its width."""

    @property
    def necks(self) -> tuple[int, ...]:
        """The counts the yoke may begin with."""
        if self.fixed.neck is not None:
            return (self.fixed.neck,)
        least = self.neck_multiple * 4
        return permitted(self.neck, multiple=self.neck_multiple, least=least)

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
    bands: tuple[BandShape, ...] = ()


WIDE_CM = (1.0, 0.6, 1.0)
"""How far body, sleeve and underarm may give way, in cm, when a band lies where the yoke is
full: then its repeat divides the yoke's own count (our choice)."""


def _choices(
    task: YokeTask, *, wide: bool
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    wanted = ((task.body, 8), (task.sleeve, 6), (task.underarm, 2))
    if not wide:
        body, sleeve, underarm = (permitted(w, multiple=2, least=least) for w, least in wanted)
        return body, sleeve, underarm
    body, sleeve, underarm = (
        tuple(
            count
            for count in range(least, round(w + off_cm * task.stitches_per_cm) + 2, 2)
            if abs(count - w) <= off_cm * task.stitches_per_cm + 1
        )
        for (w, least), off_cm in zip(wanted, WIDE_CM, strict=True)
    )
    return body, sleeve, underarm


BODY_GIVES = 0.015
"""How far a straight body may give way, so that the repeat of its bands divides it (our choice:
a centimetre and a half on a chest of a metre)."""


def _with_repeats(bodies: tuple[int, ...], task: YokeTask) -> tuple[int, ...]:
    """Add the even counts near the wanted body that its bands divide."""
    if task.body_repeat == 1:
        return bodies
    near = permitted(task.body, multiple=lcm(2, task.body_repeat))
    kept = (count for count in near if abs(count - task.body) <= BODY_GIVES * task.body)
    return tuple(dict.fromkeys((*bodies, *kept)))


def _splits(task: YokeTask, *, wide: bool) -> Iterable[tuple[int, int, int]]:
    """Give every body, sleeve and underarm to try; those that are pinned as they are."""
    choices, fixed = _choices(task, wide=wide), task.fixed
    pins = (fixed.body, fixed.sleeve, fixed.underarm)
    both = torso(fixed)
    if fixed.yoke is not None or both is not None:
        return split_meeting(fixed.yoke, pins, (task.body, task.sleeve, task.underarm), both)
    choices = (_with_repeats(choices[0], task), *choices[1:])
    body, sleeve, underarm = (
        free if pin is None else (pin,) for free, pin in zip(choices, pins, strict=True)
    )
    return product(body, sleeve, underarm)


def splits_for(task: YokeTask, *, wide: bool = False) -> Mapping[int, tuple[float, Split]]:
    """Give the best split, and its cost, for every yoke count the dimensions permit.

    Args:
        task: what is asked for.
        wide: let body, sleeve and underarm give way by `WIDE_CM`.
    """
    best: dict[int, tuple[float, Split]] = {}
    per_cm = task.stitches_per_cm
    for body, sleeve, underarm in _splits(task, wide=wide):
        split = Split(
            Count(body, task.body, per_cm),
            Count(sleeve, task.sleeve, per_cm),
            Count(underarm, task.underarm, per_cm),
        )
        if min(split.held, split.front) < LEAST_HELD:
            continue
        cost = _split_cost(split, task)
        if split.yoke not in best or cost < best[split.yoke][0]:
            best[split.yoke] = (cost, split)
    return best


def _split_cost(split: Split, task: YokeTask) -> float:
    adjusting = 1.0 if split.body.got % task.body_multiple else 0.0
    adjusting += 2.0 if split.body.got % task.body_repeat else 0.0
    return adjusting + sum(
        ((count.got - count.wanted) / count.wanted) ** 2
        for count in (split.body, split.sleeve, split.underarm)
    )
