"""Where the colour bands lie in the yoke, in rounds, each zone at its own row gauge."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise
from typing import NamedTuple

from yokefellow.charts.chart import Chart, Work
from yokefellow.gauge import Gauges
from yokefellow.shaping.yoke.rules import LEAST_APART

__all__ = ["BandTask", "PlacedBand", "Zones", "band_task"]


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
    needs_plain: bool = False
    """Whether it slips stitches of the round below it, which must be plain ones then."""

    @property
    def last_width(self) -> int:
        """Stitches of the repeat after its last round."""
        return self.widths[-1]

    @property
    def depth_cm(self) -> float:
        """How deep the band is."""
        return self.rounds / self.rounds_per_cm

    @property
    def growing(self) -> tuple[int, ...]:
        """Its rounds that widen the repeat, from 0."""
        widths = (self.first_width, *self.widths)
        return tuple(at for at, (old, new) in enumerate(pairwise(widths)) if new > old)


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
        needs_plain=_slips_the_round_below(chart),
    )


def _slips_the_round_below(chart: Chart) -> bool:
    """Tell whether a stitch is slipped before it was worked once in the chart."""
    worked = [False] * chart.first_width
    for row in chart.rows:
        below = iter(worked)
        worked = []
        for cell in row.cells:
            was = True if cell.work is Work.MAKE else next(below)
            if cell.work is Work.SLIP and not was:
                return True
            worked.append(was or cell.work is not Work.SLIP)
    return False


class PlacedBand(NamedTuple):
    """A band at its rounds of the yoke."""

    task: BandTask
    first: int
    """Its first round in the yoke, from 1."""

    @property
    def last(self) -> int:
        """Its last round."""
        return self.first + self.task.rounds - 1


@dataclass(frozen=True)
class Zones:
    """The rounds of the yoke, band by band and plain between."""

    rounds: int
    bands: tuple[PlacedBand, ...]
    plain_rounds_per_cm: float
    first_round: int
    """The earliest round that may increase."""
    worked_rounds: int = 0
    """Rounds that were worked before these were placed, whatever their gauge;"""
    worked_cm: float = 0.0
    """and how deep they are."""

    @cached_property
    def depths_cm(self) -> tuple[float, ...]:
        """The depth at the end of every round, from none on."""
        each = [1 / self.plain_rounds_per_cm] * self.rounds
        worked = self.worked_rounds
        each[:worked] = [self.worked_cm / max(1, worked)] * worked
        for band in self.bands:
            each[band.first - 1 : band.last] = [1 / band.task.rounds_per_cm] * band.task.rounds
        return tuple(accumulate(each, initial=0.0))

    def share(self, of_depth: float) -> float:
        """Give the rounds down to a share of the depth; 0 where what is worked is deeper."""
        if not self.worked_rounds:
            return of_depth * self.rounds
        below_cm = of_depth * self.depths_cm[-1] - self.worked_cm
        return max(0.0, self.worked_rounds + below_cm * self.plain_rounds_per_cm)

    def depth_cm(self, number: int) -> float:
        """Give the depth at the end of a round."""
        return self.depths_cm[number]

    def round_at(self, depth_cm: float) -> int:
        """Give the round whose end lies nearest to a depth."""
        depths = self.depths_cm
        low = min(bisect_left(depths, depth_cm), self.rounds)
        before = max(0, low - 1)
        return before if depth_cm - depths[before] < depths[low] - depth_cm else low

    def stitches_per_cm(self, number: int, plain: float) -> float:
        """Give the stitch gauge of a round."""
        for band in self.bands:
            if band.first <= number <= band.last:
                return band.task.stitches_per_cm
        return plain

    @cached_property
    def gaps(self) -> tuple[tuple[int, int], ...]:
        """The plain stretches before, between and after the bands: first and last round.

        Where there is room, a stretch keeps its distance from the rounds in
        which a chart itself grows.
        """
        starts = (self.first_round, *(band.last + 1 for band in self.bands))
        ends = (*(band.first - 1 for band in self.bands), self.rounds)
        grown = [[band.first + at for at in band.task.growing] for band in self.bands]
        found: list[tuple[int, int]] = []
        for start, end, above, below in zip(starts, ends, [[], *grown], [*grown, []], strict=True):
            late = max([start, *(at + LEAST_APART for at in above)])
            early = min([end, *(at - LEAST_APART for at in below)])
            late = late if late <= end else start
            found.append((late, early if early >= late else end))
        return tuple(found)

    @cached_property
    def growing(self) -> tuple[int, ...]:
        """The rounds of the yoke in which a chart grows."""
        return tuple(band.first + at for band in self.bands for at in band.task.growing)
