"""From the readings on the swatch to stitches and rounds per cm, with their spread.

The garment is counted at the gauge it will be worn at, the washed one, and
measured on the needles at the unwashed one; both are kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from yokefellow.project_file.fields import Reading
from yokefellow.project_file.models import Project, Swatch, SwatchState

READING_ERROR = 0.25
"""A reading is good to a quarter of a stitch at best (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rounds per cm of one fabric."""

    stitches_per_cm: float
    """Of the fabric as it is worn: washed."""
    rounds_per_cm: float
    unwashed_stitches_per_cm: float
    """Of the fabric as it comes off the needle."""
    unwashed_rounds_per_cm: float
    stitch_spread: float
    """Relative uncertainty of the stitches: 0.02 is two in a hundred."""
    round_spread: float
    is_washed: bool
    """False when no washed reading was given and the unwashed one stands in."""
    in_the_round: bool
    readings: int


@dataclass(frozen=True, slots=True)
class Gauges:
    """The gauge of every fabric in the sweater."""

    plain: Gauge
    rib: Gauge
    bands: Mapping[str, Gauge]
    """Of the colour bands, by the kind of chart."""
    assumed: frozenset[str]
    """Fabrics without a swatch of their own: the plain fabric's gauge stands in."""
    garter: Gauge
    """Of garter stitch: its own, or the plain fabric's with rounds so much lower."""

    @property
    def rib_is_assumed(self) -> bool:
        """Tell whether there was no swatch of the rib."""
        return "rib" in self.assumed

    def of(self, fabric: str) -> Gauge:
        """Give the gauge of a fabric by name."""
        if fabric == "rib":
            return self.rib
        return self.garter if fabric == "garter" else self.bands.get(fabric, self.plain)

    def swatched_as(self, fabric: str) -> str:
        """Name the swatch that a fabric is counted by: its own, or the plain one."""
        has_own = fabric in SWATCHED and fabric not in self.assumed
        return fabric if has_own else "plain"


def mean_per_cm(readings: Iterable[Reading]) -> float:
    """Average the readings, each weighted by the fabric it covers, in stitches per cm."""
    taken = tuple(readings)
    return sum(reading.count for reading in taken) / sum(reading.over_cm for reading in taken)


def spread(readings: Iterable[Reading]) -> float:
    """Tell how uncertain the mean of the readings is, relative to it.

    Half the range of the readings, or what a quarter of a stitch misread in
    every one comes to, whichever is larger (common practice, no source).
    """
    taken = tuple(readings)
    each = [reading.count / reading.over_cm for reading in taken]
    over_cm = sum(reading.over_cm for reading in taken) / len(taken)
    misread = READING_ERROR / over_cm / len(taken) ** 0.5
    return float(max((max(each) - min(each)) / 2, misread) / mean_per_cm(taken))


def gauge(swatch: Swatch) -> Gauge:
    """Give the gauge of one swatch; the state that was not read is taken to equal the other.

    Raises:
        ValueError: the swatch has no reading at all.
    """
    worn = swatch.washed or swatch.unwashed
    knitted = swatch.unwashed or swatch.washed
    if worn is None or knitted is None:
        raise ValueError("a swatch without readings has no gauge")
    return Gauge(
        stitches_per_cm=mean_per_cm(worn.stitches),
        rounds_per_cm=mean_per_cm(worn.rounds),
        unwashed_stitches_per_cm=mean_per_cm(knitted.stitches),
        unwashed_rounds_per_cm=mean_per_cm(knitted.rounds),
        stitch_spread=spread(worn.stitches),
        round_spread=spread(worn.rounds),
        is_washed=swatch.washed is not None,
        in_the_round=swatch.worked == "round",
        readings=_readings(worn),
    )


def _readings(state: SwatchState) -> int:
    return len(state.stitches) + len(state.rounds)


BAND_FABRICS = ("mosaic", "slip", "stranded", "stripes", "purl")
"""The kinds of chart, each a fabric of its own."""


SWATCHED = ("rib", "garter", *BAND_FABRICS)
"""Every fabric that may have a swatch of its own, beside the plain one."""

GARTER_ROUNDS = 1.4
"""Rounds of garter stitch to one of plain knitting in the same height: its ridges pack
(common practice, no source; as many ridges as stitches in a square)."""

GARTER_SPREAD = 0.06
"""How far that may be off, relative (common practice, no source)."""


def gauges(project: Project) -> Gauges:
    """Give the gauge of every fabric of the project."""
    swatches = project.swatch
    plain = gauge(swatches.plain)
    given = {
        fabric: gauge(swatch)
        for fabric in SWATCHED
        if (swatch := getattr(swatches, fabric, None)) is not None
    }
    return Gauges(
        plain,
        given.get("rib", plain),
        MappingProxyType({f: g for f, g in given.items() if f in BAND_FABRICS}),
        assumed=frozenset(SWATCHED).difference(given),
        garter=given.get("garter") or _garter_like(plain),
    )


def _garter_like(plain: Gauge) -> Gauge:
    """Take garter stitch to be as wide as plain knitting, and its rounds to be lower."""
    return replace(
        plain,
        rounds_per_cm=GARTER_ROUNDS * plain.rounds_per_cm,
        unwashed_rounds_per_cm=GARTER_ROUNDS * plain.unwashed_rounds_per_cm,
        round_spread=plain.round_spread + GARTER_SPREAD,
    )
