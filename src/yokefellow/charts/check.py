"""What a chart asks of the yarn: floats to carry, stitches to stretch."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.charts.text import ChartText, refusal
from yokefellow.findings import Finding, Severity
from yokefellow.quantities import LengthUnit, show_length
from yokefellow.words import found

MOST_FLOAT = 5
"""Stitches a strand may pass behind before it is caught (common practice; sources give 5 to 7)."""

MOST_FLOAT_CM = 2.5
"""The same as a length (common practice; handbooks say one inch)."""

MOST_SLIPPED = 3
"""Neighbouring stitches slipped in one row, which carry the strand behind (common practice)."""

MOST_STRETCH = 4
"""Rounds one stitch may be stretched over by slipping it (common practice, no source)."""


def chart_findings(
    chart: Chart, *, stitches_per_cm: float, field: str, unit: LengthUnit
) -> tuple[Finding, ...]:
    """Give everything knittable but risky in a chart, with row and column as drawn.

    Args:
        chart: one repeat.
        stitches_per_cm: of the band's fabric.
        field: where the chart stands in the project file.
        unit: of the sheet, for the length of a float.
    """
    return (*_long_floats(chart, stitches_per_cm, field, unit), *_long_slips(chart, field))


def floats(row: ChartRow, colour: str) -> tuple[tuple[int, int], ...]:
    """Give the stretches of a row, worked round and round, that a colour passes behind.

    Returns:
        (first column from 0, stitches) of each; empty when the colour is not worked at all.
    """
    return _stretches(
        [cell.work is Work.SLIP or cell.colour != colour for cell in row.cells],
    )


def _stretches(marked: list[bool]) -> tuple[tuple[int, int], ...]:
    """Find runs of marked columns on a ring; none when all or no columns are marked."""
    if all(marked) or not any(marked):
        return ()
    start = marked.index(False)
    ring = [(start + step) % len(marked) for step in range(len(marked))]
    stretches: list[tuple[int, int]] = []
    for is_marked, columns in groupby(ring, key=lambda column: marked[column]):
        run = list(columns)
        if is_marked:
            stretches.append((run[0], len(run)))
    return tuple(stretches)


def _long_floats(chart: Chart, per_cm: float, field: str, unit: LengthUnit) -> Iterator[Finding]:
    if chart.kind is not ChartKind.STRANDED:
        return
    for number, row in enumerate(chart.lines, start=1):
        for colour in row.colours:
            for column, length in floats(row, colour):
                if length > MOST_FLOAT or length / per_cm > MOST_FLOAT_CM:
                    yield found(
                        "chart.long-float",
                        Severity.CAUTION,
                        field,
                        row=number,
                        color=colour,
                        stitches=length,
                        column=column + 1,
                        width=show_length(length / per_cm, unit=unit),
                        most_stitches=MOST_FLOAT,
                        most_width=show_length(MOST_FLOAT_CM, unit=unit),
                    )


def _long_slips(chart: Chart, field: str) -> Iterator[Finding]:
    for number, row in enumerate(chart.lines, start=1):
        for column, length in _stretches([cell.work is Work.SLIP for cell in row.cells]):
            if length > MOST_SLIPPED:
                yield found(
                    "chart.long-slip",
                    Severity.CAUTION,
                    field,
                    row=number,
                    stitches=length,
                    column=column + 1,
                    most=MOST_SLIPPED,
                )


def stretched(chart: Chart, text: ChartText) -> Iterator[Finding]:
    """Follow every stitch down the chart and tell those slipped for too many rounds.

    Every finding is an error: the stitch would tear or pull a hole.
    """
    carried: list[int] = [0] * chart.first_width
    for number, row in enumerate(chart.rows):
        carried = _carried(carried, row.cells)
        for column, rounds in enumerate(carried, start=1):
            if rounds == MOST_STRETCH + 1:
                yield refusal(
                    text,
                    "stretched",
                    row=number // chart.times + 1,
                    column=column,
                    most=MOST_STRETCH,
                )


def _carried(below: list[int], cells: tuple[Cell, ...]) -> list[int]:
    """Count for each stitch the rounds for which it has been slipped."""
    under = iter(below)
    return [
        0 if cell.work is Work.MAKE else (next(under) + 1) * (cell.work is Work.SLIP)
        for cell in cells
    ]
