"""One way of saying a row, out of the many that mean the same.

The written form cannot tell `k2, k3` from `k5`, nor should it: the knitter
does the same. `canonical` picks the one the writer writes.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from yokefellow.notation.grammar import UNMARKED
from yokefellow.schedule.rows import Op, Repeat, Step

__all__ = ["canonical"]


def canonical(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Say the same row in its canonical form.

    In it neighbouring stitches of one kind and yarn are one step; every
    repeat is worked at least twice and holds at least two steps; markers,
    turns and held stitches carry no yarn mark. All other yarn marks are kept,
    and the stitches come in the same order.

    Example:
        >>> canonical((Op("k", 2), Op("k", 3), Repeat((Op("k", 4),), 3)))
        (Op(code='k', times=17, yarn=''),)
    """
    said: list[Step] = []
    for step in steps:
        for plain in _simplest(step):
            _say(said, plain)
    return tuple(said)


def _simplest(step: Step) -> tuple[Step, ...]:
    if isinstance(step, Op):
        return (replace(step, yarn="") if step.code in UNMARKED else step,)
    inner = canonical(step.steps)
    if step.times == 1:
        return inner
    if len(inner) == 1:
        # A repeat of one thing is that thing more often: 3 times k4 is k12.
        return (replace(inner[0], times=inner[0].times * step.times),)
    return (Repeat(inner, step.times),)


def _say(said: list[Step], step: Step) -> None:
    last = said[-1] if said else None
    if (
        isinstance(step, Op)
        and isinstance(last, Op)
        and (step.code, step.yarn) == (last.code, last.yarn)
    ):
        said[-1] = replace(last, times=last.times + step.times)
    else:
        said.append(step)
