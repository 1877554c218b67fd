"""What would help where the bands do not fit: every offer is tried before it is made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import TypeAlias

from yokefellow.project_file.models import Project
from yokefellow.quantities import CM_PER_INCH, LengthUnit, length
from yokefellow.shaping.banded import Misfit
from yokefellow.shaping.counts import Count
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.task import Solution
from yokefellow.shaping.zones import BandTask

__all__ = ["offers", "typed"]

MOST_OFFERS = 4

NEAR = 4
"""Other numbers of repeats to try on either side."""

WORTH = 0.12
"""A band further off the line of the yoke than this is not offered (our choice)."""

MOVES_CM = (0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0)
"""How far a band may be moved, the least first."""

DEEPER_CM = (1.0, 2.0, 3.0, 4.0, 5.0)

Works: TypeAlias = Callable[[Sequence[BandTask], float | None], Solution | None]


def offers(
    refused: object,
    bands: Sequence[BandTask],
    works: Works,
    *,
    depth_cm: float,
    project: Project,
) -> tuple[str, ...]:
    """Find changes with which the yoke can be planned, and say what each costs.

    Args:
        refused: why the bands do not fit as they are.
        bands: as asked for, in knitting order.
        works: plans a yoke with other bands, or in another depth.
        depth_cm: of the yoke.
        project: for its units.
    """
    unit = project.sheet.units
    found = [
        *_other_repeats(refused, bands, works, unit),
        *islice(_unpinned(bands, works), 1),
        *islice(_moved(bands, works, unit), 1),
        *_spread(bands, works),
        *islice(_left_out(bands, works), 1),
    ]
    if len(found) < MOST_OFFERS:
        found += islice(_deeper(bands, works, depth_cm, unit), 1)
    return tuple(found[:MOST_OFFERS])


def _called(bands: Sequence[BandTask], at: int) -> str:
    return f"{bands[at].name!r}" if len(bands) == 1 else f"band {at + 1} ({bands[at].name!r})"


def _with(bands: Sequence[BandTask], at: int, band: BandTask) -> tuple[BandTask, ...]:
    return (*bands[:at], band, *bands[at + 1 :])


def _other_repeats(
    refused: object, bands: Sequence[BandTask], works: Works, unit: LengthUnit
) -> Iterator[str]:
    """Offer the nearest numbers of repeats on either side that can be planned."""
    if not isinstance(refused, Misfit | Unreached) or refused.band is None:
        return
    band = refused.band
    at = next(number for number, one in enumerate(bands) if one is band)
    least, most = refused.within if isinstance(refused, Misfit) else refused.repeats
    middle = refused.below if isinstance(refused, Misfit) else (band.repeats or least) - 1
    below, above = min(middle, most), max(middle + 1, least)
    for tries in (
        range(below, max(below - NEAR, least - 1), -1),
        range(above, min(above + NEAR, most + 1)),
    ):
        for repeats in tries:
            solution = works(_with(bands, at, replace(band, repeats=repeats)), None)
            if solution is not None and _is_near(solution.bands[at].start):
                yield _repeats_offer(bands, at, solution, repeats, unit)
                break


def _is_near(start: Count) -> bool:
    """Tell whether a count is worth offering."""
    return abs(start.got - start.wanted) <= WORTH * start.wanted


def _repeats_offer(
    bands: Sequence[BandTask], at: int, solution: Solution, repeats: int, unit: LengthUnit
) -> str:
    start = solution.bands[at].start
    off_cm = start.residual_cm
    more = "more" if off_cm > 0 else "less"
    return (
        f"write repeats = {repeats} for {_called(bands, at)} "
        f"({start.got} stitches, {length(abs(off_cm), unit)} {more} round than the yoke's line)"
    )


def _unpinned(bands: Sequence[BandTask], works: Works) -> Iterator[str]:
    pinned = [at for at, band in enumerate(bands) if band.repeats is not None]
    for at in pinned:
        solution = works(_with(bands, at, replace(bands[at], repeats=None)), None)
        if solution is not None:
            yield (
                f"take out repeats = {bands[at].repeats} of {_called(bands, at)} "
                f"({solution.bands[at].repeats} go round then)"
            )
    if len(pinned) > 1:
        solution = works([replace(band, repeats=None) for band in bands], None)
        if solution is not None:
            told = ", ".join(str(solution.bands[at].repeats) for at in pinned)
            yield f"take out repeats = in every band ({told} go round then)"


def _moved(bands: Sequence[BandTask], works: Works, unit: LengthUnit) -> Iterator[str]:
    """Offer the least move of one band that stands at a depth."""
    fixed = [(at, band.at_cm) for at, band in enumerate(bands) if band.at_cm is not None]
    for far_cm in MOVES_CM:
        for at, old_cm in fixed:
            for way in (-1, 1):
                at_cm, told = typed(old_cm + way * far_cm, unit)
                if at_cm <= 0:
                    continue
                if works(_with(bands, at, replace(bands[at], at_cm=at_cm)), None) is not None:
                    by = length(abs(at_cm - old_cm), unit)
                    yield (
                        f'write at = "{told}" for {_called(bands, at)} '
                        f"({by} {'lower' if way > 0 else 'higher'})"
                    )


def typed(cm: float, unit: LengthUnit) -> tuple[float, str]:
    """Give a depth as it can be typed, and the words."""
    if unit == "cm":
        shown = round(cm, 1)
        return shown, f"{shown:g} cm"
    quarters = round(4 * cm / CM_PER_INCH) / 4
    return quarters * CM_PER_INCH, f"{quarters:g} in"


def _spread(bands: Sequence[BandTask], works: Works) -> Iterator[str]:
    if all(band.at_cm is None for band in bands):
        return
    which = "it" if len(bands) == 1 else "every band"
    if works([replace(band, at_cm=None) for band in bands], None) is not None:
        yield f'write at = "spread" for {which}'
    elif any(band.repeats for band in bands):
        free = [replace(band, at_cm=None, repeats=None) for band in bands]
        if works(free, None) is not None:
            yield f'write at = "spread" for {which}, and take out every repeats ='


def _left_out(bands: Sequence[BandTask], works: Works) -> Iterator[str]:
    if len(bands) < 2:
        return
    for at in range(len(bands)):
        if works((*bands[:at], *bands[at + 1 :]), None) is not None:
            yield f"leave out {_called(bands, at)}"


def _deeper(
    bands: Sequence[BandTask], works: Works, depth_cm: float, unit: LengthUnit
) -> Iterator[str]:
    for more_cm in DEEPER_CM:
        new_cm, told = typed(depth_cm + more_cm, unit)
        if works(bands, new_cm) is not None:
            by = length(new_cm - depth_cm, unit)
            yield f'write garment.yoke.depth = "{told}" ({by} deeper)'
