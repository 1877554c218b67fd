"""Why the pins of a yoke cannot all be met, and the nearest ones that can; each was tried."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import lcm
from typing import TypeAlias

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import Fixed, pinned, without
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.misfits import misfit_message
from yokefellow.shaping.placing import Crowded
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.task import of_the_yoke
from yokefellow.shaping.zones import BandTask

__all__ = ["pins_refused"]

NEAR = 12
"""Stitches on either side of a pin within which another is looked for."""

SCALARS = (
    "neck_back",
    "neck_front",
    "neck_sleeve",
    "neck",
    "yoke",
    "body",
    "sleeve",
    "underarm",
    "front",
    "back",
)

Tries: TypeAlias = Callable[[Fixed, Sequence[BandTask]], object | None]
"""Plans the yoke with other pins; gives nothing where that fails."""


def pins_refused(
    refused: Crowded | Misfit | Narrow | Unreached | None,
    bands: Sequence[BandTask],
    tries: Tries,
    project: Project,
    why: str = "",
    also: Sequence[str] = (),
) -> Finding:
    """Say that no yoke meets the pins.

    Args:
        refused: what was met where bands do not fit; None where nothing reaches.
        bands: as asked for.
        tries: plans the yoke with other pins.
        project: for its pins and units.
        why: what the pins must obey, where it is not what a circular yoke's must.
        also: what else was tried and works.
    """
    fixed = of_the_yoke(project.fixed)
    names = ", ".join(f"{name} = {_shown(getattr(fixed, name))}" for name in pinned(fixed))
    if not why:
        why = _WHY
        if bands:
            why = _undivided(fixed, bands) or misfit_message(refused, bands, project)
    helping = [
        *also,
        *_nearest(fixed, bands, tries),
        *_divided(fixed, bands, tries),
        *_without(fixed, bands, tries),
    ]
    remedy = (
        f"{'Each of these' if len(helping) > 1 else 'This'} was tried and works: "
        f"{'; '.join(helping)}."
        if helping
        else "No pin within a few stitches of one of these helps: take two or more of them out."
    )
    return Finding(
        "fixed.bands" if bands else "fixed.no-way",
        Severity.ERROR,
        "fixed",
        f"No yoke meets these pins together: {names}. {why}",
        remedy,
    )


_WHY = (
    "Between the neck and the underarm a round that is not pinned adds at most one stitch to "
    "every two, rounds of increase lie three rounds apart, and body, sleeves and underarms must "
    "add up to the yoke."
)


LONG = 12
"""Numbers of a list that are shown one by one (our choice)."""


def _shown(pin: object) -> str:
    if not isinstance(pin, tuple):
        return str(pin)
    if len(pin) <= LONG:
        return str(list(pin))
    return f"[{', '.join(map(str, pin[:4]))}, … {pin[-1]}]"


def _nearest(fixed: Fixed, bands: Sequence[BandTask], tries: Tries) -> Iterator[str]:
    """Find, for every count by itself, the nearest one with which the others can be met."""
    for name in SCALARS:
        pin = getattr(fixed, name)
        if pin is None:
            continue
        for off in (sign * by for by in range(1, NEAR + 1) for sign in (-1, 1)):
            if pin + off > 1 and tries(fixed.model_copy(update={name: pin + off}), bands):
                yield f"{name} = {pin + off}"
                break


def _undivided(fixed: Fixed, bands: Sequence[BandTask]) -> str:
    """Name the bands whose repeat divides none of the counts that are pinned."""
    if not fixed.increases:
        return ""
    counts = (*((fixed.neck,) if fixed.neck else ()), *fixed.increases)
    odd = [band for band in bands if all(count % band.first_width for count in counts)]
    return " ".join(
        f"The repeat of {band.name!r} is {band.first_width} stitches, which divides none of "
        f"{', '.join(map(str, counts))}."
        for band in odd
    )


def _divided(fixed: Fixed, bands: Sequence[BandTask], tries: Tries) -> Iterator[str]:
    """Try the counts after the increase rounds at the nearest multiples of the repeats."""
    widths = {band.first_width for band in bands}
    for width in sorted({*widths, lcm(*widths)}, reverse=True) if fixed.increases else ():
        *inner, last = (nearest(count, multiple=width, least=8) for count in fixed.increases)
        for end in dict.fromkeys((fixed.increases[-1], last)):
            counts = (*inner, end)
            grows = all(late > early for early, late in pairwise(counts))
            changed = fixed.model_copy(update={"increases": counts})
            if grows and counts != fixed.increases and tries(changed, bands):
                yield f"increases = {list(counts)}"
                return


def _without(fixed: Fixed, bands: Sequence[BandTask], tries: Tries) -> Iterator[str]:
    """Find the pins without which the others can be met."""
    for name in pinned(fixed):
        if tries(without(fixed, name), bands):
            yield f"the line with {name} taken out"
