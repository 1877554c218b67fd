"""Where the colour bands lie in the yoke, in rounds, each zone at its own row gauge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from yokefellow.charts.chart import Chart
from yokefellow.gauge import Gauges
from yokefellow.shaping.counts import nearest

__all__ = ["BandTask", "Crowded", "PlacedBand", "Zones", "band_task", "place_bands"]

LEAST_GAP = 3
"""Plain rounds before a band at the least, so that an increase round fits among them."""

BANDS_UNTIL = 0.76
"""Share of the depth by which bands that are spread have ended, so that the yoke can still
reach its full count after the last (common practice)."""


@dataclass(frozen=True, slots=True)
class BandTask:
    """One band, as the yoke must carry it."""

    name: str
    rounds: int
    widths: tuple[int, ...]
    """Stitches of the repeat after each of its rounds."""
    first_width: int
    """Stitches of the repeat before its first round."""
    stitches_per_cm: float
    rounds_per_cm: float
    at_cm: float | None
    """Depth of its first round below the neckband; None to spread it."""
    repeats: int | None
    """How many repeats go round, where the knitter pinned it."""

    @property
    def last_width(self) -> int:
        """Stitches of the repeat after its last round."""
        return self.widths[-1]

    @property
    def depth_cm(self) -> float:
        """How deep the band is."""
        return self.rounds / self.rounds_per_cm


def band_task(chart: Chart, gauges: Gauges, *, at: str | float, repeats: int | None) -> BandTask:
    """Give what the yoke must know of a chart.

    Args:
        chart: one repeat.
        gauges: of every fabric.
        at: depth in cm below the neckband, or `spread`.
        repeats: how many go round, where it is pinned.
    """
    fabric = gauges.of(chart.kind)
    return BandTask(
        name=chart.name,
        rounds=len(chart.rows),
        widths=tuple(row.width for row in chart.rows),
        first_width=chart.first_width,
        stitches_per_cm=fabric.stitches_per_cm,
        rounds_per_cm=fabric.rounds_per_cm,
        at_cm=None if isinstance(at, str) else at,
        repeats=repeats,
    )


@dataclass(frozen=True, slots=True)
class PlacedBand:
    """A band at its rounds of the yoke."""

    task: BandTask
    first: int
    """Its first round in the yoke, from 1."""

    @property
    def last(self) -> int:
        """Its last round."""
        return self.first + self.task.rounds - 1


@dataclass(frozen=True, slots=True)
class Zones:
    """The rounds of the yoke, band by band and plain between."""

    rounds: int
    bands: tuple[PlacedBand, ...]
    plain_rounds_per_cm: float

    def depth_cm(self, number: int) -> float:
        """Give the depth at the end of a round."""
        in_bands = [
            (max(0, min(number, band.last) - band.first + 1), band.task.rounds_per_cm)
            for band in self.bands
        ]
        plain = number - sum(rounds for rounds, _ in in_bands)
        return plain / self.plain_rounds_per_cm + sum(
            rounds / per_cm for rounds, per_cm in in_bands
        )

    def round_at(self, depth_cm: float) -> int:
        """Give the round whose end lies nearest to a depth."""
        low, high = 0, self.rounds
        while low < high:
            middle = (low + high) // 2
            if self.depth_cm(middle) < depth_cm:
                low = middle + 1
            else:
                high = middle
        before = max(0, low - 1)
        nearer = depth_cm - self.depth_cm(before) < self.depth_cm(low) - depth_cm
        return before if nearer else low

    def stitches_per_cm(self, number: int, plain: float) -> float:
        """Give the stitch gauge of a round."""
        for band in self.bands:
            if band.first <= number <= band.last:
                return band.task.stitches_per_cm
        return plain

    def gaps(self, first_round: int) -> tuple[tuple[int, int], ...]:
        """Give the plain stretches before, between and after the bands: first and last round."""
        starts = (first_round, *(band.last + 1 for band in self.bands))
        ends = (*(band.first - 1 for band in self.bands), self.rounds)
        return tuple(zip(starts, ends, strict=True))


@dataclass(frozen=True, slots=True)
class Crowded:
    """The bands do not fit: so many rounds are wanted from here to there, and so many are there."""

    name: str
    wanted: int
    there: int


def place_bands(
    bands: Sequence[BandTask],
    *,
    depth_cm: float,
    rounds_per_cm: float,
    first_round: int,
    least_rounds: int,
) -> Zones | Crowded:
    """Put every band at its rounds.

    A band with a depth stands there; the others are spread so that the plain
    stretches before them are equally long. Where the depths of two bands
    leave too little between them, or the yoke ends before a band, it says so.

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
    firsts = _wanted(bands, rounds_per_cm, total, first_round)
    free = first_round
    placed: list[PlacedBand] = []
    for band, first in zip(bands, firsts, strict=True):
        if first - free < LEAST_GAP:
            return Crowded(band.name, LEAST_GAP, max(0, first - free))
        placed.append(PlacedBand(band, first))
        free = placed[-1].last + 1
    if free > total:
        return Crowded(bands[-1].name, free - 1, total)
    return Zones(total, tuple(placed), rounds_per_cm)


def _wanted(
    bands: Sequence[BandTask], rounds_per_cm: float, total: int, first_round: int
) -> list[int]:
    """Give the first round of every band."""
    firsts: list[int] = []
    above_rounds, above_cm = 0, 0.0
    for band in bands:
        if band.at_cm is None:
            firsts.append(0)
        else:
            plain = nearest(max(0.0, band.at_cm - above_cm) * rounds_per_cm, least=0)
            firsts.append(plain + above_rounds + 1)
        above_rounds += band.rounds
        above_cm += band.depth_cm
    at = 0
    while at < len(bands):
        if firsts[at]:
            at += 1
            continue
        end = next((j for j in range(at, len(bands)) if firsts[j]), len(bands))
        _spread(firsts, bands, at, end, total=total, first_round=first_round)
        at = end
    return firsts


def _spread(
    firsts: list[int],
    bands: Sequence[BandTask],
    at: int,
    end: int,
    *,
    total: int,
    first_round: int,
) -> None:
    """Spread the bands from `at` up to `end` between their neighbours."""
    start = firsts[at - 1] + bands[at - 1].rounds if at else first_round
    stop = firsts[end] if end < len(bands) else int(BANDS_UNTIL * total) + 1
    stretches = end - at + (1 if end < len(bands) else 0)
    plain = stop - start - sum(band.rounds for band in bands[at:end])
    place = start
    for step, number in enumerate(range(at, end)):
        place += plain * (step + 1) // stretches - plain * step // stretches
        firsts[number] = place
        place += bands[number].rounds
