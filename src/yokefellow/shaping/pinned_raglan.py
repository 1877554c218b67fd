"""The raglan with pins: every pinned count is met exactly, or it is said why none can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from yokefellow.findings import Finding
from yokefellow.project.fixed import NOTHING, Fixed, without
from yokefellow.project.models import Project
from yokefellow.shaping.pinned import as_asked, on_the_pins
from yokefellow.shaping.pinned_front import front_too_wide
from yokefellow.shaping.pins_refused import pins_refused
from yokefellow.shaping.raglan import RaglanSolution, RaglanTask, solve_raglan
from yokefellow.shaping.raglan_by_round import solve_by_round
from yokefellow.shaping.zones import BandTask

__all__ = ["raglan_pins_refused", "solve_pinned_raglan"]


def solve_pinned_raglan(free: RaglanTask, fixed: Fixed) -> RaglanSolution | None:
    """Solve with these pins; what is pinned stands in the line in place of what was measured.

    Pins that the free raglan meets by itself change nothing.
    """
    by_itself = solve_raglan(free)
    if fixed == NOTHING or (by_itself is not None and _meets(by_itself, fixed)):
        return by_itself
    counts = on_the_pins(replace(free.counts, fixed=fixed))
    if counts is None:
        return None
    by_round = fixed.increases or fixed.increase_at
    found = (solve_by_round if by_round else solve_raglan)(replace(free, counts=counts))
    return None if found is None else as_asked(found, free.counts)


def _meets(found: RaglanSolution, fixed: Fixed) -> bool:
    split = found.split
    pairs: tuple[tuple[object, object], ...] = (
        (fixed.neck, found.neck.got),
        (fixed.yoke, split.yoke),
        (fixed.body, split.body.got),
        (fixed.sleeve, split.sleeve.got),
        (fixed.underarm, split.underarm.got),
        (fixed.neck_back, found.back.start),
        (fixed.neck_front, found.front.start),
        (fixed.neck_sleeve, found.sleeve.start),
        (fixed.front, split.front),
        (fixed.back, split.back),
        (fixed.increases or None, tuple(step.after for step in found.steps)),
        (fixed.increase_at or None, tuple(step.number for step in found.steps)),
    )
    return all(pin is None or pin == got for pin, got in pairs)


def raglan_pins_refused(
    free: RaglanTask, fixed: Fixed, bands: Sequence[BandTask], project: Project
) -> Finding:
    """Say that no raglan meets the pins, why, and which nearest ones it would meet.

    Args:
        free: the raglan without them.
        fixed: the pins.
        bands: below its increases.
        project: for its pins.
    """
    wide = _too_wide(free, fixed)
    if wide is not None:
        return wide
    why = " ".join(_why(fixed, room=free.room, has_bands=bool(bands)))
    return pins_refused(None, bands, partial(_with_pins, free), project, why)


def _with_pins(free: RaglanTask, fixed: Fixed, _: Sequence[BandTask]) -> RaglanSolution | None:
    return solve_pinned_raglan(free, fixed)


def _too_wide(free: RaglanTask, fixed: Fixed) -> Finding | None:
    """Tell of a front, or a back, that leaves nothing for the other half."""
    if (fixed.front is None) == (fixed.back is None):
        return None
    other = solve_pinned_raglan(free, without(without(fixed, "front"), "back"))
    return None if other is None else front_too_wide(other.split, fixed)


PINNED_WHY = (
    "In a raglan every piece grows by two stitches at a time, so the neck and the end of the yoke "
    "must differ by a multiple of four (or the front's neck by two stitches from the back's); each "
    "piece can only widen, at most in every round; and body, sleeves and underarms must add up to "
    "the yoke."
)

ROUNDS_WHY = (
    "A round that adds 8 stitches widens all four pieces, 6 the sleeves and back or front, 4 the "
    "sleeves or back and front, 2 back or front. Shared out so, the rounds must bring every piece "
    "from its share of the neck to its count at the underarm, by twos: front and back to B − 2U "
    "together, each sleeve to S − U."
)


def _why(fixed: Fixed, *, room: int, has_bands: bool) -> Iterator[str]:
    """Say what pins of a raglan must obey."""
    times, last = len(fixed.increases or fixed.increase_at), max(fixed.increase_at, default=0)
    yield ROUNDS_WHY if times else PINNED_WHY
    where = "above its colour bands" if has_bands else "of this yoke"
    if last > room:
        yield f"Round {last} would increase, and the last that can, {where}, is round {room}."
    elif times >= room:
        yield f"There are {times} increase rounds, and {room - 1} rounds {where} can increase."
