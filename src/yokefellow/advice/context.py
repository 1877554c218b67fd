"""A pause in the knitting."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Literal, NamedTuple, TypeAlias

from yokefellow.body.measurements import Figures
from yokefellow.charts.chart import Chart
from yokefellow.findings import Finding, Severity
from yokefellow.fit import SHORT_OF_HIPS_CM, Finished
from yokefellow.gauge import Gauge, Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import CM_PER_INCH, length
from yokefellow.shaping import BandShape, ChartedBand, Shape

CheckKind: TypeAlias = Literal["count", "measure", "try on", "look"]


class Check(NamedTuple):
    """After this row, look at this."""

    section: str
    number: int
    """After this row of the section; 0 is before its first."""
    kind: CheckKind
    title: str
    text: str


@dataclass(frozen=True, slots=True)
class Desk:
    """The whole plan so far."""

    project: Project
    figures: Figures
    finished: Finished
    gauges: Gauges
    shape: Shape
    charts: Sequence[Chart]

    @property
    def show(self) -> Callable[[float], str]:
        """Give the wording of a length."""
        return partial(length, unit=self.project.sheet.units)

    @property
    def plain(self) -> Gauge:
        """Give the gauge of the plain fabric."""
        return self.gauges.plain

    @property
    def in_inches(self) -> bool:
        """Tell whether the sheet is in inches."""
        return self.project.sheet.units == "in"

    @property
    def knows_unwashed(self) -> bool:
        """Tell whether the unwashed swatch was counted, and not only the washed one."""
        return self.project.swatch.plain.unwashed is not None

    @property
    def neck_edge(self) -> str:
        """Word the place from which the yoke is measured."""
        if self.shape.front is not None:
            return "From the cast-on edge at the back of the neck"
        return f"From below the {'cast-on edge' if self.shape.neck.is_last else 'neckband'}"

    @property
    def side(self) -> str:
        """Word the side on which the yoke is measured: a front worked flat begins lower."""
        return "front" if self.shape.front is None else "back"

    @property
    def tape(self) -> tuple[float, str]:
        """Give the length over which gauge is told, in cm and in words."""
        return (4 * CM_PER_INCH, "4 in") if self.in_inches else (10.0, "10 cm")

    def gauge_at(self, number: int) -> Gauge:
        """Give the gauge of a round of the yoke."""
        for band, chart in zip(self.shape.yoke.bands, self.charts, strict=True):
            if band.first <= number <= band.last:
                return self.gauges.of(chart.kind)
        return self.plain

    def width(self, stitches: int, gauge: Gauge) -> str:
        """Word how far round some stitches go, on the needles and after washing."""
        return self._told(
            stitches / gauge.unwashed_stitches_per_cm, stitches / gauge.stitches_per_cm
        )

    def depth(self, rounds: int, bands: Sequence[ChartedBand] = ()) -> str:
        """Word the depth of the first rounds of a piece, on the needles and after washing."""
        placed = [(band.shape, band.chart) for band in bands]
        return self._told(
            self._deep_cm(rounds, placed, lambda gauge: gauge.unwashed_rounds_per_cm),
            self._deep_cm(rounds, placed, lambda gauge: gauge.rounds_per_cm),
        )

    def yoke_depth(self, rounds: int) -> str:
        """Word the depth of the first rounds of the yoke, on the needles and after washing."""
        return self._told(
            self._yoke_cm(rounds, lambda gauge: gauge.unwashed_rounds_per_cm),
            self._yoke_cm(rounds, lambda gauge: gauge.rounds_per_cm),
        )

    def yoke_on_needles(self, rounds: int) -> str:
        """Word the depth of the first rounds of the yoke as the tape meets it."""
        return self.show(self._yoke_cm(rounds, lambda gauge: gauge.unwashed_rounds_per_cm))

    def _yoke_cm(self, rounds: int, per_cm: Callable[[Gauge], float]) -> float:
        """Give a depth of the yoke, its bands at their own gauge."""
        return self._deep_cm(rounds, zip(self.shape.yoke.bands, self.charts, strict=True), per_cm)

    def _deep_cm(
        self,
        rounds: int,
        bands: Iterable[tuple[BandShape, Chart]],
        per_cm: Callable[[Gauge], float],
    ) -> float:
        plain, deep_cm = rounds, 0.0
        for band, chart in bands:
            inside = max(0, min(rounds, band.last) - band.first + 1)
            plain -= inside
            deep_cm += inside / per_cm(self.gauges.of(chart.kind))
        return deep_cm + plain / per_cm(self.plain)

    def _told(self, needles_cm: float, washed_cm: float) -> str:
        needles, washed = self.show(needles_cm), self.show(washed_cm)
        if not (self.plain.is_washed and self.knows_unwashed) or needles == washed:
            return washed
        return f"{needles} on the needles ({washed} once washed)"


def reaches_hips(finished: Finished) -> bool:
    """Tell whether the hem lies on the hips."""
    return finished.body.length_cm >= finished.plain_body.length_cm - SHORT_OF_HIPS_CM


def caution(code: str, field: str, message: str, remedy: str) -> Finding:
    """Make one."""
    return Finding(code, Severity.CAUTION, field, message, remedy)
