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
