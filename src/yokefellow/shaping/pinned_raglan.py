"""The raglan with pins: every pinned count is met exactly, or it is said why none can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING, Fixed, without
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.pinned import as_asked, on_the_pins
from yokefellow.shaping.pinned_front import front_too_wide
from yokefellow.shaping.pins_refused import pins_refused
from yokefellow.shaping.raglan import RaglanSolution, RaglanTask, solve_raglan
from yokefellow.shaping.raglan_by_round import GAINS, solve_by_round
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
    known = _too_wide(free, fixed) or _line(free, fixed)
    if known is not None:
        return known
    why = _why(free, fixed, has_bands=bool(bands))
    also = () if bands else tuple(_deeper(free, fixed))
    return pins_refused(None, bands, partial(_with_pins, free), project, why, also)


def _with_pins(free: RaglanTask, fixed: Fixed, _: Sequence[BandTask]) -> RaglanSolution | None:
    return solve_pinned_raglan(free, fixed)


def _deeper(free: RaglanTask, fixed: Fixed) -> Iterator[str]:
    """Tell of a deeper yoke, where only the last increase round lies below this one."""
    if not fixed.increase_at:
        return
    last = fixed.increase_at[-1]
    if last > free.room and solve_pinned_raglan(replace(free, room=last), fixed) is not None:
        yield f"yoke_rounds = {last} written beside them"


def _too_wide(free: RaglanTask, fixed: Fixed) -> Finding | None:
    """Tell of a front, or a back, that leaves nothing for the other half."""
    if (fixed.front is None) == (fixed.back is None):
        return None
    other = solve_pinned_raglan(free, without(without(fixed, "front"), "back"))
    return None if other is None else front_too_wide(other.split, fixed)


def _line(free: RaglanTask, fixed: Fixed) -> Finding | None:
    """Tell that only the lines are in the way: too wide, or their increases in need of stitches."""
    lifted = replace(free, takes_stitches=False)
    if free.takes_stitches and solve_pinned_raglan(lifted, fixed) is not None:
        remedy = 'Write line_increase = "lifted" or "yarn over".'
        return _narrow_neck("line_increase", "needs stitches to be worked in", remedy)
    for width in range(free.line_width - 1, 0, -1):
        if solve_pinned_raglan(replace(lifted, line_width=width), fixed) is not None:
            also = ' and line_increase = "lifted" or "yarn over"' if free.takes_stitches else ""
            remedy = f"Write line_width = {width}{also}."
            return _narrow_neck("line_width", f"takes {free.line_width} stitches", remedy)
    return None


def _narrow_neck(field: str, needs: str, remedy: str) -> Finding:
    return Finding(
        "raglan.pinned-line",
        Severity.ERROR,
        f"garment.yoke.{field}",
        "By these counts a piece of the raglan begins with very few stitches at the neck, or with "
        f"none, and a line as it was chosen {needs}.",
        f"{remedy} The counts can then be met.",
    )


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


def _why(free: RaglanTask, fixed: Fixed, *, has_bands: bool) -> str:
    """Say what pins of a raglan must obey."""
    times, last = len(fixed.increases or fixed.increase_at), max(fixed.increase_at, default=0)
    room = free.room
    where = "above the colour bands" if has_bands else "in this yoke"
    if last > room:
        return f"Round {last} would increase, and {where} round {room} is the last that can."
    if times >= room:
        return f"There are {times} increase rounds, and {where} {room - 1} rounds can increase."
    if fixed.neck is not None and fixed.increase_at and not fixed.increases:
        most, needed = fixed.neck + GAINS[0] * times, nearest(free.counts.yoke)
        return (
            f"A round of a raglan adds {GAINS[0]} stitches at the most, so {times} of them lead "
            f"from a neck of {fixed.neck} to {most} or fewer; about {needed} are needed before "
            "the split. And the neck, like every piece, grows by twos."
        )
    return ROUNDS_WHY if times else PINNED_WHY
