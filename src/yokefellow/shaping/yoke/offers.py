"""What would help where no yoke can be made: each offer is a search that was tried and found one.

An offer is the same search with one constraint loosened: another number of
repeats, another place of a band, another pin, a deeper yoke.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import islice, pairwise
from math import lcm
from typing import TypeAlias

from yokefellow.project_file.pins import Fixed, pinned, without
from yokefellow.quantities import CM_PER_INCH, LengthUnit
from yokefellow.shaping.bands import BandTask
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.refusals import (
    BandChange,
    Deeper,
    LeftOut,
    Misfit,
    Moved,
    Offer,
    OtherRepeats,
    PinChanged,
    PinRemoved,
    Spread,
    Unpinned,
    Unreached,
)
from yokefellow.shaping.yoke.constraints import YokeTask
from yokefellow.shaping.yoke.search import Solution, can_be_solved, solve

__all__ = ["offered_bands", "offered_pins", "typed"]

MOST_OFFERS = 4

NEAR_REPEATS = 4
"""Other numbers of repeats to try on either side."""

WORTH = 0.12
"""A band further off the line of the yoke than this is not offered (our choice)."""

MOVES_CM = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0)
"""How far a band may be moved, the least first."""

DEEPER_CM = (1.0, 2.0, 3.0, 4.0, 5.0)

NEAR_PINS = 12
"""Stitches on either side of a pin within which another is looked for."""

SCALARS = (
    *("neck_back", "neck_front", "neck_sleeve", "neck", "yoke"),
    *("body", "sleeve", "underarm", "front", "back"),
)


def typed(cm: float, unit: LengthUnit) -> tuple[float, str]:
    """Give a depth as it can be typed, and the words."""
    if unit == "cm":
        shown = round(cm, 1)
        return shown, f"{shown:g} cm"
    quarters = round(4 * cm / CM_PER_INCH) / 4
    return quarters * CM_PER_INCH, f"{quarters:g} in"


# Bands that do not fit.


def offered_bands(task: YokeTask, refused: object, unit: LengthUnit) -> tuple[Offer, ...]:
    """Find changes with which a yoke with bands can be planned.

    Args:
        task: what was asked for.
        refused: why its bands do not fit as they are.
        unit: in which depths are typed.
    """
    found: list[Offer] = [
        *_other_repeats(task, refused),
        *islice(_unpinned(task), 1),
        *islice(_moved(task, unit), 1),
        *_spread(task),
        *islice(_left_out(task), 1),
    ]
    if len(found) < MOST_OFFERS:
        found += islice(_deeper(task, unit), 1)
    return tuple(found[:MOST_OFFERS])


def _with(task: YokeTask, bands: Sequence[BandTask]) -> Solution | None:
    found = solve(replace(task, bands=tuple(bands)))
    return found if isinstance(found, Solution) else None


def _can(task: YokeTask, bands: Sequence[BandTask]) -> bool:
    return can_be_solved(replace(task, bands=tuple(bands)))


def _changed(task: YokeTask, at: int, **changes: object) -> tuple[BandTask, ...]:
    """Give the bands with one of them changed."""
    band = replace(task.bands[at], **changes)  # type: ignore[arg-type]
    return (*task.bands[:at], band, *task.bands[at + 1 :])


def _band(task: YokeTask, at: int) -> BandChange:
    return BandChange(task.bands[at].name, at, len(task.bands))


def _other_repeats(task: YokeTask, refused: object) -> Iterator[Offer]:
    """Offer the nearest numbers of repeats on either side that can be planned."""
    if not isinstance(refused, Misfit | Unreached) or refused.band is None:
        return
    band = refused.band
    at = next(number for number, one in enumerate(task.bands) if one is band)
    least, most = refused.within if isinstance(refused, Misfit) else refused.repeats
    middle = refused.below if isinstance(refused, Misfit) else (band.repeats or least) - 1
    below, above = min(middle, most), max(middle + 1, least)
    for tries in (
        range(below, max(below - NEAR_REPEATS, least - 1), -1),
        range(above, min(above + NEAR_REPEATS, most + 1)),
    ):
        for repeats in tries:
            found = _with(task, _changed(task, at, repeats=repeats))
            start = found.bands[at].start if found else None
            if start and abs(start.got - start.wanted) <= WORTH * start.wanted:
                yield OtherRepeats(_band(task, at), repeats, start.got, start.residual_cm)
                break


def _unpinned(task: YokeTask) -> Iterator[Offer]:
    at_pins = [at for at, band in enumerate(task.bands) if band.repeats is not None]
    for at in at_pins:
        found = _with(task, _changed(task, at, repeats=None))
        if found is not None:
            pin = task.bands[at].repeats or 0
            yield Unpinned(_band(task, at), pin, (found.bands[at].repeats,))
    if len(at_pins) > 1:
        found = _with(task, [replace(band, repeats=None) for band in task.bands])
        if found is not None:
            yield Unpinned(None, 0, tuple(found.bands[at].repeats for at in at_pins))


def _moved(task: YokeTask, unit: LengthUnit) -> Iterator[Offer]:
    """Offer the least move of one band that stands at a depth."""
    placed = [(at, band.at_cm) for at, band in enumerate(task.bands) if band.at_cm is not None]
    for far_cm in MOVES_CM:
        for at, old_cm in placed:
            for way in (-1, 1):
                at_cm, _ = typed(old_cm + way * far_cm, unit)
                if at_cm > 0 and _can(task, _changed(task, at, at_cm=at_cm)):
                    yield Moved(_band(task, at), at_cm, at_cm - old_cm)


def _spread(task: YokeTask) -> Iterator[Offer]:
    if all(band.at_cm is None for band in task.bands):
        return
    spread = [replace(band, at_cm=None) for band in task.bands]
    free = [replace(band, repeats=None) for band in spread]
    if _can(task, spread):
        yield Spread(len(task.bands), also_unpinned=False)
    elif free != spread and _can(task, free):
        yield Spread(len(task.bands), also_unpinned=True)


def _left_out(task: YokeTask) -> Iterator[Offer]:
    for at in range(len(task.bands)) if len(task.bands) > 1 else ():
        if _can(task, (*task.bands[:at], *task.bands[at + 1 :])):
            yield LeftOut(_band(task, at))


def _deeper(task: YokeTask, unit: LengthUnit) -> Iterator[Offer]:
    for more_cm in DEEPER_CM:
        depth_cm, _ = typed(task.depth_cm + more_cm, unit)
        if can_be_solved(replace(task, depth_cm=depth_cm)):
            yield Deeper(depth_cm, depth_cm - task.depth_cm)


# Pins that cannot be met together.

Meets: TypeAlias = Callable[[Fixed], bool]
"""Tells whether a yoke can be planned with other pins."""


def offered_pins(fixed: Fixed, bands: Sequence[BandTask], meets: Meets) -> Iterator[Offer]:
    """Find the nearest pins that can be met, and those without which the others can."""
    yield from _nearest(fixed, meets)
    yield from islice(_divided(fixed, bands, meets), 1)
    for name in pinned(fixed):
        if meets(without(fixed, name)):
            yield PinRemoved(name)


def _nearest(fixed: Fixed, meets: Meets) -> Iterator[Offer]:
    """Find, for every count by itself, the nearest one with which the others can be met."""
    for name in SCALARS:
        pin = getattr(fixed, name)
        if pin is None:
            continue
        for off in (sign * by for by in range(1, NEAR_PINS + 1) for sign in (-1, 1)):
            if pin + off > 1 and meets(fixed.model_copy(update={name: pin + off})):
                yield PinChanged(name, pin + off)
                break


def _divided(fixed: Fixed, bands: Sequence[BandTask], meets: Meets) -> Iterator[Offer]:
    """Try the counts after the increase rounds at the nearest multiples of the repeats."""
    widths = {band.first_width for band in bands}
    for width in sorted({*widths, lcm(*widths)}, reverse=True) if fixed.increases else ():
        *inner, last = (nearest(count, multiple=width, least=8) for count in fixed.increases)
        for end in dict.fromkeys((fixed.increases[-1], last)):
            counts = (*inner, end)
            grows = all(late > early for early, late in pairwise(counts))
            changed = fixed.model_copy(update={"increases": counts})
            if grows and counts != fixed.increases and meets(changed):
                yield PinChanged("increases", counts)
