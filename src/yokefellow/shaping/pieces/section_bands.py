"""Every colour band of the sweater at the rows of its section, numbered from the neck down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from yokefellow.charts.chart import Chart
from yokefellow.shaping.model import (
    AnyYoke,
    BandShape,
    BodyShape,
    ChartedBand,
    IncreaseRound,
    Shape,
)

__all__ = ["SectionBand", "all_increase_rounds", "section_bands"]


@dataclass(frozen=True, slots=True)
class SectionBand:
    """One band, and where the schedule has it."""

    number: int
    """Of all the bands of the sweater, from 1: yoke, body, sleeves."""
    section: str
    """`yoke`, `body` or `sleeve`."""
    field: str
    """Where it stands in the project file."""
    shape: BandShape
    """Its rounds are numbered as the rows of the section."""
    chart: Chart


def all_increase_rounds(yoke: AnyYoke) -> tuple[IncreaseRound, ...]:
    """Give every round in which a yoke increases, those inside its charts among them."""
    inside = (
        IncreaseRound(number, before, after)
        for band in yoke.bands
        for number, (before, after) in enumerate(
            pairwise((band.start.got, *band.counts)), start=band.first
        )
        if after > before
    )
    return tuple(sorted((*yoke.increase_rounds, *inside)))


def section_bands(shape: Shape, charts: Sequence[Chart]) -> tuple[SectionBand, ...]:
    """List every band: of the yoke with these charts, of body and sleeves with their own."""
    pieces = (
        *_of_yoke(shape, charts),
        *_of_piece("body", "body", _in_rows(shape.body)),
        *_of_piece("sleeve", "sleeves", shape.sleeve.bands),
    )
    return tuple(replace(band, number=number) for number, band in enumerate(pieces, start=1))


def _of_yoke(shape: Shape, charts: Sequence[Chart]) -> Iterator[SectionBand]:
    for place, (band, chart) in enumerate(zip(shape.yoke.bands, charts, strict=True), start=1):
        yield SectionBand(0, "yoke", f"garment.yoke.bands[{place}]", band, chart)


def _of_piece(section: str, table: str, bands: Sequence[ChartedBand]) -> Iterator[SectionBand]:
    for place, band in enumerate(bands, start=1):
        field = f"garment.{table}.bands[{place}]"
        yield SectionBand(0, section, field, band.shape, band.chart)


def _in_rows(body: BodyShape) -> tuple[ChartedBand, ...]:
    """Number the rounds of the body's bands as its rows: short rows above them count, too."""
    return tuple(
        replace(band, shape=replace(band.shape, first=body.row(band.shape.first)))
        for band in body.bands
    )
