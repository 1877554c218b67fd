"""The chart of each band in words and squares, its rounds numbered as its section's."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby
from types import MappingProxyType

from yokefellow.advice.cautions.bands import CARRY_ROUNDS
from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.charts.read import MAIN
from yokefellow.plan import Plan
from yokefellow.shaping import BandShape, SectionBand, section_bands
from yokefellow.sheet.colourwork import ChartCell, ChartRowView, ChartView, Colour, Sign
from yokefellow.sheet.tints import colours
from yokefellow.words import words

__all__ = ["KIND_WORDS", "chart_rows", "chart_signs", "charts", "in_columns", "joins"]

KIND_WORDS = MappingProxyType(
    {
        ChartKind.MOSAIC: "mosaic",
        ChartKind.SLIP: "slip stitch",
        ChartKind.STRANDED: "stranded",
        ChartKind.STRIPES: "stripes",
        ChartKind.PURL: "purl texture",
    }
)

_ONE_IN_HAND = (ChartKind.MOSAIC, ChartKind.SLIP)
"""Kinds in which the colour in hand cannot be seen from the picture."""

_SIGNS = MappingProxyType(
    {
        Work.KNIT: Sign("knit", " ", "knit"),
        Work.PURL: Sign("purl", "-", "purl"),
        Work.SLIP: Sign("slip", "v", "slip purlwise, yarn behind"),
        Work.MAKE: Sign("make", "+", "make a stitch (M1L)"),
    }
)
"""A blank, a dot, a V and an M in the drawing: after the Craft Yarn Council's chart symbols
(from memory)."""

_DONE = MappingProxyType(
    {Work.KNIT: "", Work.PURL: " purled", Work.SLIP: " slipped", Work.MAKE: " made"}
)


def charts(plan: Plan) -> tuple[ChartView, ...]:
    """Give the chart of every band: yoke, body, sleeves."""
    known, hangs = colours(plan), plan.project.sheet.chart_direction == "as it hangs"
    bands = section_bands(plan.shape, plan.charts)
    return tuple(_chart(known, band, as_it_hangs=hangs) for band in bands)


def joins(plan: Plan) -> Mapping[tuple[str, int], str]:
    """Say at which rows of which section a yarn is joined: new, or after it was cut."""
    said: dict[tuple[str, int], str] = {}
    for section, bands in groupby(
        section_bands(plan.shape, plan.charts), key=lambda band: band.section
    ):
        for number, joined in _joins(tuple(bands)).items():
            said[section, number] = joined
    return MappingProxyType(said)


def _joins(bands: Iterable[SectionBand]) -> Mapping[int, str]:
    used: dict[str, int] = {}
    said: dict[int, str] = {}
    for band in bands:
        for code in band.chart.colours:
            cut = code not in used or band.shape.first - used[code] - 1 > CARRY_ROUNDS
            if cut and code != MAIN:
                row = next(n for n, row in enumerate(band.chart.rows) if code in row.colours)
                number = band.shape.first + row
                said[number] = f"{said[number]} and {code}" if number in said else f"join {code}"
            used[code] = band.shape.last
    return said


def _chart(known: Mapping[str, Colour], placed: SectionBand, *, as_it_hangs: bool) -> ChartView:
    number, band, chart = placed.number, placed.shape, placed.chart
    used = tuple(dict.fromkeys(cell.colour for row in chart.rows for cell in row.cells))
    rows = tuple(chart_rows(known, chart, first=band.first, as_it_hangs=as_it_hangs))
    kind = KIND_WORDS[chart.kind]
    counted = _counted(band, chart)
    wide = f"{chart.last_width} stitch{'es' if chart.last_width > 1 else ''}"
    return ChartView(
        number=number,
        section=placed.section,
        name=chart.name,
        kind=kind,
        first=band.first,
        last=band.last,
        repeats=band.repeats,
        first_width=chart.first_width,
        last_width=chart.last_width,
        times=chart.times,
        colours=tuple(colour for code, colour in known.items() if code in used),
        rows=rows,
        signs=chart_signs(chart),
        title=f"Chart of band {number}, {chart.name}: {kind}, {wide} and {len(chart.rows)} rounds",
        counted=counted,
        as_it_hangs=as_it_hangs,
        reading=_reading(chart, as_it_hangs=as_it_hangs),
        description=f"{counted}. " + " ".join(f"{_rounds(row)}: {row.words}." for row in rows),
    )


def _counted(band: BandShape, chart: Chart) -> str:
    grows = chart.last_width > chart.first_width
    growing = f", growing to {chart.last_width}" if grows else ""
    return f"{band.repeats} repeats of {chart.first_width}{growing}"


def _rounds(row: ChartRowView) -> str:
    return f"{'Rounds' if row.last > row.first else 'Round'} {row.numbers}"


def _reading(chart: Chart, *, as_it_hangs: bool) -> str:
    return words("charts").reading(
        hangs=as_it_hangs, times=chart.times, in_hand=chart.kind in _ONE_IN_HAND
    )


def chart_signs(chart: Chart) -> tuple[Sign, ...]:
    """Give the signs a chart uses."""
    # The first round of a line that widens makes a stitch; its later rounds knit it.
    works = {cell.work for row in chart.lines for cell in row.cells}
    return tuple(sign for work, sign in _SIGNS.items() if work in works)


def chart_rows(
    known: Mapping[str, Colour], chart: Chart, *, first: int = 1, as_it_hangs: bool = False
) -> Iterator[ChartRowView]:
    """Give the rows of a chart in the order of working.

    Args:
        known: the letter of each yarn.
        chart: one repeat.
        first: number of its first round in the section.
        as_it_hangs: write the characters of a row from left to right.
    """
    wide = zip(chart.lines, in_columns(chart.lines), strict=True)
    for place, (row, cells) in enumerate(wide):
        begins = first + place * chart.times
        last = begins + chart.times - 1
        shown = tuple(None if cell is None else _cell(known, cell) for cell in cells)
        hand = known[row.yarn].letter if chart.kind in _ONE_IN_HAND else ""
        yield ChartRowView(
            first=begins,
            last=last,
            numbers=f"{begins}–{last}" if last > begins else f"{begins}",
            hand=hand,
            cells=shown,
            words=(f"with {hand} in hand, " if hand else "") + _words(known, row.cells),
            text="".join(_characters(known, cells if as_it_hangs else cells[::-1])),
        )


def _cell(known: Mapping[str, Colour], cell: Cell) -> ChartCell:
    return ChartCell(known[cell.colour].letter, cell.colour, cell.work.value)


def _words(known: Mapping[str, Colour], cells: Iterable[Cell]) -> str:
    runs = ((cell, sum(1 for _ in run)) for cell, run in groupby(cells))
    return ", ".join(f"{n} {known[cell.colour].letter}{_DONE[cell.work]}" for cell, n in runs)


def _characters(known: Mapping[str, Colour], cells: Iterable[Cell | None]) -> Iterator[str]:
    for cell in cells:
        yield "  " if cell is None else known[cell.colour].letter + _SIGNS[cell.work].sign


def in_columns(lines: tuple[ChartRow, ...]) -> tuple[tuple[Cell | None, ...], ...]:
    """Put each row of a growing chart into the columns of its last row.

    A column stays empty (None) in the rows worked before its stitch is made,
    so that every stitch stands right below the one it grows from.
    """
    columns = tuple(range(lines[-1].width))
    placed: list[tuple[Cell | None, ...]] = []
    for row in reversed(lines):
        at = dict(zip(columns, row.cells, strict=True))
        placed.append(tuple(at.get(column) for column in range(lines[-1].width)))
        columns = tuple(column for column in columns if at[column].work is not Work.MAKE)
    return tuple(reversed(placed))
