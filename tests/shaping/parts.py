"""Small parts by hand for the tests of this folder: gauges, bands, charts, edges."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.gauge import Gauge
from yokefellow.shaping.bands import BandTask, PlacedBand, Zones
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.yoke.constraints import YokeTask


def gauge(stitches_per_cm: float = 2.0, rounds_per_cm: float = 3.0) -> Gauge:
    """The gauge of a washed swatch, knitted in the round."""
    return Gauge(
        stitches_per_cm,
        rounds_per_cm,
        stitches_per_cm,
        rounds_per_cm,
        stitch_spread=0.02,
        round_spread=0.02,
        is_washed=True,
        in_the_round=True,
        readings=2,
    )


def task(
    width: int = 8,
    rounds: int = 6,
    *,
    name: str = "dots",
    at_cm: float | None = None,
    repeats: int | None = None,
    stitches_per_cm: float = 2.0,
    rounds_per_cm: float = 3.0,
    grown: int | None = None,
) -> BandTask:
    """A band whose last round widens its repeat to `grown`, where that is given."""
    widths = (*(width for _ in range(rounds - 1)), grown or width)
    return BandTask(
        name,
        rounds,
        widths,
        width,
        stitches_per_cm,
        rounds_per_cm,
        at_cm=at_cm,
        repeats=repeats,
    )


def chart(width: int = 8, rounds: int = 6, name: str = "dots") -> Chart:
    """Stripes of one colour."""
    cell = Cell("CC1", Work.KNIT)
    return Chart(
        name, ChartKind.STRIPES, tuple(ChartRow((cell,) * width, "CC1") for _ in range(rounds))
    )


def rib(rounds: int = 12, per_cm: float = 3.0) -> Edge:
    """A plain rib, one by one."""
    return Edge("rib", "1x1", Count(rounds, float(rounds), per_cm))


def yoke(**changes: object) -> YokeTask:
    """A yoke from 96 stitches to 268 in 20 cm: 200 round the body, 66 a sleeve, 16 an underarm."""
    asked = YokeTask(
        neck=96.0,
        neck_multiple=2,
        body=200.0,
        body_multiple=2,
        sleeve=66.0,
        underarm=16.0,
        shoulder=220.0,
        depth_cm=20.0,
        rounds_per_cm=3.0,
        stitches_per_cm=2.0,
        style="regular",
        first_round=2,
    )
    if isinstance(rounds := changes.pop("rounds", None), int):
        changes["depth_cm"] = rounds / asked.rounds_per_cm
    return replace(asked, **changes)  # type: ignore[arg-type]


def zones(*bands: tuple[BandTask, int], rounds: int = 60) -> Zones:
    """The rounds of a yoke, each band with the round it begins in."""
    return Zones(rounds, tuple(PlacedBand(band, first) for band, first in bands), 3.0, 2)
