"""A colour band of the body or the sleeves, at its rounds and with its chart."""

from __future__ import annotations

from dataclasses import dataclass

from yokefellow.charts.chart import Chart
from yokefellow.shaping.yoke_shapes import BandShape

__all__ = ["ChartedBand"]


@dataclass(frozen=True, slots=True)
class ChartedBand:
    """A colour band of the body or a sleeve, with its chart."""

    shape: BandShape
    """Its rounds are numbered in the piece."""
    chart: Chart
    around: int
    """Stitches of the piece there; where the band has others, a round goes there and one back."""
    goes_on: bool = False
    """Whether the piece goes on from the band's count, which its shaping was on the way to."""

    @property
    def jump(self) -> int:
        """Stitches by which the piece has more from the band on, whatever its shaping adds."""
        return self.shape.start.got - self.around if self.goes_on else 0
