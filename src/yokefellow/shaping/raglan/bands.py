"""Where color bands lie in a raglan: below all its increases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from yokefellow.shaping.bands import BandTask, PlacedBand, Zones
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.yoke.rules import FIRST_INCREASE, GOOD_GAP

__all__ = ["OverEnd", "place_below", "room_if_spread", "room_of"]

BELOW = 2
"""Plain rounds between the last band and the underarm, where it is not placed by its depth, so
that the underarms are picked up from plain knitting (our choice)."""


class OverEnd(NamedTuple):
    """A band that runs into the next one, into the underarm, or out at the neck."""

    band: BandTask
    rounds: int
    """Of the whole yoke."""


def place_below(
    bands: Sequence[BandTask], *, depth_cm: float, rounds_per_cm: float, least_rounds: int
) -> Zones | OverEnd:
    """Put every band at its rounds: at its depth, or as low as those below it allow.

    Args:
        bands: in knitting order.
        depth_cm: of the whole yoke at the front.
        rounds_per_cm: of the plain fabric.
        least_rounds: the fewest rounds of a yoke.
    """
    in_bands_cm = sum(band.depth_cm for band in bands)
    plain = nearest(max(0.0, depth_cm - in_bands_cm) * rounds_per_cm, least=0)
    total = max(least_rounds, plain + sum(band.rounds for band in bands))
    firsts = tuple(_firsts(bands, total=total, rounds_per_cm=rounds_per_cm))
    free = FIRST_INCREASE + 1
    for band, first in zip(bands, firsts, strict=True):
        if first < free:
            return OverEnd(band, total)
        free = first + band.rounds
    if free - 1 > total:
        return OverEnd(bands[-1], total)
    placed = tuple(PlacedBand(band, first) for band, first in zip(bands, firsts, strict=True))
    return Zones(total, placed, rounds_per_cm, FIRST_INCREASE)


def _firsts(bands: Sequence[BandTask], *, total: int, rounds_per_cm: float) -> Iterator[int]:
    """Give the first round of each band."""
    above = [sum(band.rounds for band in bands[:at]) for at in range(len(bands))]
    above_cm = [sum(band.depth_cm for band in bands[:at]) for at in range(len(bands))]
    for at, band in enumerate(bands):
        if band.at_cm is not None:
            yield above[at] + nearest((band.at_cm - above_cm[at]) * rounds_per_cm, least=0) + 1
            continue
        below = sum(other.rounds for other in bands[at:]) + GOOD_GAP * (len(bands) - at - 1)
        yield total - BELOW - below + 1


def room_of(zones: Zones) -> int:
    """Give the rounds that may increase: all, or those above the first band and a plain one."""
    return zones.bands[0].first - 2 if zones.bands else zones.rounds


def room_if_spread(zones: Zones) -> int:
    """Give the rounds that may increase above bands as low as they can lie; below 0 if none may.

    Args:
        zones: with a band at the least, wherever it stands.
    """
    low = [replace(placed.task, at_cm=None) for placed in zones.bands]
    first = next(_firsts(low, total=zones.rounds, rounds_per_cm=zones.plain_rounds_per_cm))
    return first - 2
