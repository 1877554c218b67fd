"""From the readings on the swatch to stitches and rounds per cm, with their spread.

The garment is counted at the gauge it will be worn at, the washed one, and
measured on the needles at the unwashed one; both are kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import NamedTuple

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


class EdgeGauge(NamedTuple):
    """How wide the stitches of an edge lie: at rest, as they are counted, and stretched."""

    rest_per_cm: float
    """Stitches per cm of the edge washed, dried and left alone."""
    counted_per_cm: float
    """Stitches per cm of the width that is wanted: a rib is worn a little stretched."""
    spread: float
    """Relative uncertainty of the width at rest."""
    stretches: float
    """Its width stretched as far as it goes, beside its width at rest."""
    is_assumed: bool
    """Whether its width at rest is a ratio to the plain fabric, for want of a swatch."""

    def rest_cm(self, stitches: int) -> float:
        """Give the width of some stitches at rest."""
        return stitches / self.rest_per_cm

    def stretched_cm(self, stitches: int) -> float:
        """Give the width of some stitches stretched as far as they go."""
        return self.stretches * self.rest_cm(stitches)


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

    def edge(self, finish: str) -> EdgeGauge:
        """Give how wide an edge lies: a rib or garter by its swatch, else by its usual ratio.

        The stitches stay those of the plain fabric beside the edge while the
        edge then lies within what suits it; a swatch that says otherwise moves
        them, so that the edge has its usual width at rest.

        Args:
            finish: `rib`, `garter`, `rolled` or `folded`; the last two are plain fabric.
        """
        usual = _AT_REST[finish]
        per_cm = self.plain.stitches_per_cm
        if finish not in ("rib", "garter") or finish in self.assumed:
            spread = self.plain.stitch_spread + usual.spread
            rest_per_cm = per_cm / usual.ratio
            return EdgeGauge(rest_per_cm, per_cm, spread, usual.stretches, is_assumed=True)
        own = self.of(finish)
        suits = usual.least <= per_cm / own.stitches_per_cm <= usual.most
        counted = per_cm if suits else usual.ratio * own.stitches_per_cm
        return EdgeGauge(
            own.stitches_per_cm, counted, own.stitch_spread, usual.stretches, is_assumed=False
        )

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


class _AtRest(NamedTuple):
    """The width of an edge at rest beside as many plain stitches."""

    ratio: float
    spread: float
    least: float
    """Narrower than this, it wants more stitches than the plain fabric beside it;"""
    most: float
    """and wider than this, fewer."""
    stretches: float


RIB_AT_REST = 0.85
"""Width of a rib at rest beside as many plain stitches, on a needle half a millimetre finer
(common practice, no source)."""

RIB_SPREAD = 0.10
"""How far that may be off, relative (common practice, no source)."""

_AT_REST = MappingProxyType(
    {
        "rib": _AtRest(RIB_AT_REST, spread=RIB_SPREAD, least=0.75, most=1.05, stretches=2.0),
        "garter": _AtRest(1.0, spread=0.05, least=0.90, most=1.10, stretches=1.45),
        "folded": _AtRest(1.0, spread=0.0, least=1.0, most=1.0, stretches=1.5),
        "rolled": _AtRest(1.0, spread=0.0, least=1.0, most=1.0, stretches=1.45),
    }
)
"""How far each may be off, and how far it stretches (common practice, no source: 1x1 and 2x2
ribs, yarns and hands differ by more than a table could say)."""

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
