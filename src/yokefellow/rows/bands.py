"""The rows of a colour band: a chart row, repeated round the work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.rows.model import Feature, Op, Repeat, Row, Step
from yokefellow.rows.steps import tidy
from yokefellow.shaping import BandShape, ChartedBand

_CODES = MappingProxyType({Work.KNIT: "k", Work.PURL: "p", Work.SLIP: "sl wyib", Work.MAKE: "M1L"})


def band_rows(chart: Chart, *, repeats: int) -> tuple[Row, ...]:
    """Work a chart so many times round.

    Stranded rows name the colour of every stitch; in the others one colour is
    in hand for the whole row, and the row names it.
    """
    return tuple(
        Row(
            _round(row, repeats, named=chart.kind is ChartKind.STRANDED),
            Feature.BAND,
            fabric=chart.kind.value,
            yarn=row.yarn,
            why=f"{chart.name}, row {number} of {len(chart.rows)}",
        )
        for number, row in enumerate(chart.rows, start=1)
    )


def bands_by_round(bands: Iterable[BandShape], charts: Iterable[Chart]) -> Mapping[int, Row]:
    """Give the rows of every band by their round in the yoke."""
    return {
        band.first + offset: row
        for band, chart in zip(bands, charts, strict=True)
        for offset, row in enumerate(band_rows(chart, repeats=band.repeats))
    }


def _round(row: ChartRow, repeats: int, *, named: bool) -> tuple[Step, ...]:
    once = tidy(_op(cell, named=named) for cell in row.cells)
    if len(once) == 1 and isinstance(once[0], Op):
        only = once[0]
        return (Op(only.code, only.times * repeats, only.yarn),)
    return once if repeats == 1 else (Repeat(once, repeats),)


def _op(cell: Cell, *, named: bool) -> Op:
    return Op(_CODES[cell.work], 1, cell.colour if named else "")


def piece_rows(
    bands: Sequence[ChartedBand],
) -> tuple[Mapping[int, Row], Mapping[int, int], Mapping[int, int]]:
    """Give the rows of a piece's bands, by their rounds, and the rounds beside them.

    Returns:
        The rows; the rounds that go to a band's count, with it; and those that
        go back from it, with it. Neither where a band has the piece's count, nor
        back where the piece goes on from the band's.
    """
    rows = {
        band.shape.first + at: row
        for band in bands
        for at, row in enumerate(band_rows(band.chart, repeats=band.shape.repeats))
    }
    other = [band for band in bands if band.shape.start.got != band.around]
    return (
        rows,
        {band.shape.first - 1: band.shape.start.got for band in other},
        {band.shape.last + 1: band.shape.start.got for band in other if not band.goes_on},
    )
