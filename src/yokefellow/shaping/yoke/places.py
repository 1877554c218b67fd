"""At which rounds of the yoke the colour bands may stand: the places to try, the best first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate

from yokefellow.shaping.bands import BandTask, PlacedBand, Zones
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.refusals import Crowded
from yokefellow.shaping.yoke.rules import GOOD_GAP

__all__ = ["place_bands"]

BANDS_UNTIL = (0.76, 0.70, 0.82, 0.64, 0.88, 0.58, 0.94, 1.0)
"""Share of the depth by which bands that are spread have ended, the best first: after the last
the yoke must still reach its full count (common practice)."""

FIRST_SHARES = (1, 2)
"""How much longer the plain stretch before the first band is than the others: where the neck is
narrow the increases before it need the rounds."""


def place_bands(
    bands: Sequence[BandTask],
    *,
    depth_cm: float,
    rounds_per_cm: float,
    first_round: int,
    least_rounds: int,
) -> tuple[Zones, ...] | Crowded:
    """Put every band at its rounds, in every way worth trying.

    A band with a depth stands there; the others are spread so that the plain
    stretches before them are equally long, and end earlier or later from one
    try to the next. Tries with a good gap before each band come first.

    Args:
        bands: in knitting order.
        depth_cm: of the whole yoke at the front.
        rounds_per_cm: of the plain fabric.
        first_round: the earliest round that may increase.
        least_rounds: the fewest rounds of a yoke.
    """
    in_bands_cm = sum(band.depth_cm for band in bands)
    plain = nearest(max(0.0, depth_cm - in_bands_cm) * rounds_per_cm, least=0)
    total = max(least_rounds, plain + sum(band.rounds for band in bands))
    fixed = _fixed(bands, rounds_per_cm)
    tries: dict[tuple[int, ...], None] = {}
    for until in BANDS_UNTIL:
        for share in FIRST_SHARES:
            firsts = _placed(bands, fixed, int(until * total) + 1, first_round, share)
            tries[tuple(firsts)] = None
    fitting = [firsts for firsts in tries if _fits(bands, firsts, first_round, total)]
    if not fitting:
        return _crowded(bands, fixed, first_round=first_round, total=total, depth_cm=depth_cm)
    fitting.sort(key=lambda firsts: _tight(bands, firsts, first_round))
    return tuple(
        Zones(
            total,
            tuple(PlacedBand(band, first) for band, first in zip(bands, firsts, strict=True)),
            rounds_per_cm,
            first_round,
        )
        for firsts in fitting
    )


def _before(bands: Sequence[BandTask]) -> list[tuple[int, float]]:
    """Give the rounds and the depth of the bands above each band, and above the end."""
    rounds = accumulate((band.rounds for band in bands), initial=0)
    return list(zip(rounds, accumulate((b.depth_cm for b in bands), initial=0.0), strict=True))


def _fixed(bands: Sequence[BandTask], rounds_per_cm: float) -> list[int]:
    """Give the first round of every band that has a depth; 0 for the others."""
    return [
        above_rounds + nearest(max(0.0, band.at_cm - above_cm) * rounds_per_cm, least=0) + 1
        if band.at_cm is not None
        else 0
        for band, (above_rounds, above_cm) in zip(bands, _before(bands)[:-1], strict=True)
    ]


def _groups(fixed: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Give the runs of bands to be spread: the first, and the one after the last."""
    at = 0
    while at < len(fixed):
        end = next((j for j in range(at, len(fixed)) if fixed[j]), len(fixed))
        if end > at:
            yield at, end
        at = end + 1


def _placed(
    bands: Sequence[BandTask], fixed: Sequence[int], until: int, first_round: int, share: int
) -> list[int]:
    """Spread the bands between those that are fixed, until a round."""
    firsts = list(fixed)
    for at, end in _groups(fixed):
        start = firsts[at - 1] + bands[at - 1].rounds if at else first_round
        stop = firsts[end] if end < len(bands) else until
        extra = share - 1 if at == 0 else 0
        stretches = end - at + (1 if end < len(bands) else 0) + extra
        plain = stop - start - sum(band.rounds for band in bands[at:end])
        before = start
        for step, number in enumerate(range(at, end), start=1 + extra):
            firsts[number] = before + plain * step // stretches
            before += bands[number].rounds
    return firsts


def _gaps(bands: Sequence[BandTask], firsts: Sequence[int], first_round: int) -> Iterator[int]:
    free = first_round
    for band, first in zip(bands, firsts, strict=True):
        yield first - free
        free = first + band.rounds


def _fits(bands: Sequence[BandTask], firsts: Sequence[int], first_round: int, total: int) -> bool:
    ends_inside = firsts[-1] + bands[-1].rounds - 1 <= total if firsts else True
    gaps = list(_gaps(bands, firsts, first_round))
    least = _plain_needed(bands)
    return ends_inside and all(gap >= room for gap, room in zip(gaps, least, strict=True))


def _plain_needed(bands: Sequence[BandTask]) -> list[int]:
    """Give the plain rounds that must lie between each band and the one above it."""
    return [int(band.needs_plain and at > 0) for at, band in enumerate(bands)]


def _tight(bands: Sequence[BandTask], firsts: Sequence[int], first_round: int) -> int:
    """Count the rounds that are lacking before the bands to a good gap."""
    return sum(max(0, GOOD_GAP - gap) for gap in _gaps(bands, firsts, first_round))


def _crowded(
    bands: Sequence[BandTask],
    fixed: Sequence[int],
    *,
    first_round: int,
    total: int,
    depth_cm: float,
) -> Crowded:
    """Find the first band for which there is no room."""
    deep_cm = sum(band.depth_cm for band in bands)
    free, waiting = first_round, 0
    for band, first, plain in zip(bands, fixed, _plain_needed(bands), strict=True):
        if not first:
            waiting += band.rounds
            continue
        there = first - free
        if there < waiting + plain:
            return Crowded(
                band.name,
                waiting,
                there,
                deep_cm,
                depth_cm,
                band.at_cm,
                lacks_plain=there >= waiting,
            )
        free, waiting = first + band.rounds, 0
        if free - 1 > total:
            there = max(0, total - first + 1)
            return Crowded(
                band.name, band.rounds, there, deep_cm, depth_cm, band.at_cm, is_over_end=True
            )
    return Crowded(bands[-1].name, waiting, max(0, total - free + 1), deep_cm, depth_cm)
