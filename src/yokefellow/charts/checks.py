"""What is knittable but risky in a chart: long floats, stitches slipped too long."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.findings import Finding, Severity

__all__ = [
    "MOST_FLOAT",
    "MOST_FLOAT_CM",
    "MOST_SLIPPED",
    "MOST_STRETCH",
    "chart_findings",
    "floats",
]

MOST_FLOAT = 5
"""Stitches a strand may pass behind before it is caught (common practice; sources give 5 to 7)."""

MOST_FLOAT_CM = 2.5
"""The same as a length (common practice; handbooks say one inch)."""

MOST_SLIPPED = 3
"""Neighbouring stitches slipped in one row, which carry the strand behind (common practice)."""

MOST_STRETCH = 4
"""Rounds one stitch may be stretched over by slipping it (common practice, no source)."""


def chart_findings(chart: Chart, *, stitches_per_cm: float, field: str) -> tuple[Finding, ...]:
    """Give everything risky in a chart, with row and column.

    Args:
        chart: one repeat.
        stitches_per_cm: of the band's fabric.
        field: where the chart stands in the project file.
    """
    return (
        *_long_floats(chart, stitches_per_cm, field),
        *_long_slips(chart, field),
        *_stretched(chart, field),
    )


def floats(row: ChartRow, colour: str) -> tuple[tuple[int, int], ...]:
    """Give the stretches of a row, worked round and round, that a colour passes behind.

    Returns:
        (first column from 0, stitches) of each; empty when the colour is not worked at all.
    """
    behind = [cell.work is Work.SLIP or cell.colour != colour for cell in row.cells]
    return _stretches(behind)


def _stretches(marked: list[bool]) -> tuple[tuple[int, int], ...]:
    """Find runs of marked columns on a ring; none when all or no columns are marked."""
    if all(marked) or not any(marked):
        return ()
    start = marked.index(False)
    ring = [(start + step) % len(marked) for step in range(len(marked))]
    found: list[tuple[int, int]] = []
    for is_marked, columns in groupby(ring, key=lambda column: marked[column]):
        run = list(columns)
        if is_marked:
            found.append((run[0], len(run)))
    return tuple(found)


def _caution(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(f"chart.{code}", Severity.CAUTION, field, message, remedy)


def _long_floats(chart: Chart, per_cm: float, field: str) -> Iterator[Finding]:
    if chart.kind is not ChartKind.STRANDED:
        return
    for number, row in enumerate(chart.rows, start=1):
        for colour in row.colours:
            for column, length in floats(row, colour):
                if length > MOST_FLOAT or length / per_cm > MOST_FLOAT_CM:
                    yield _caution(
                        "long-float",
                        field,
                        f"Row {number}: {colour} passes behind {length} stitches from column "
                        f"{column + 1} ({length / per_cm:.1f} cm); over {MOST_FLOAT} stitches or "
                        f"{MOST_FLOAT_CM:g} cm a finger catches in it.",
                        "Catch the strand behind the middle stitch, or break up the stretch.",
                    )


def _long_slips(chart: Chart, field: str) -> Iterator[Finding]:
    for number, row in enumerate(chart.rows, start=1):
        for column, length in _stretches([cell.work is Work.SLIP for cell in row.cells]):
            if length > MOST_SLIPPED:
                yield _caution(
                    "long-slip",
                    field,
                    f"Row {number}: {length} stitches are slipped side by side from column "
                    f"{column + 1}; the strand behind more than {MOST_SLIPPED} draws them in.",
                    "Break up the stretch with a worked stitch.",
                )


def _stretched(chart: Chart, field: str) -> Iterator[Finding]:
    """Follow every stitch down the chart and count how long it is carried."""
    carried: list[int] = [0] * chart.first_width
    for number, row in enumerate(chart.rows, start=1):
        carried = _carried(carried, row.cells)
        for column, rounds in enumerate(carried, start=1):
            if rounds == MOST_STRETCH + 1:
                yield Finding(
                    "chart.stretched",
                    Severity.ERROR,
                    field,
                    f"Row {number}, column {column}: this stitch has been slipped for {rounds} "
                    f"rounds; it stretches over {MOST_STRETCH} at the most.",
                    "Work it in between, or work each line of the chart fewer times.",
                )


def _carried(below: list[int], cells: tuple[Cell, ...]) -> list[int]:
    under = iter(below)
    return [
        0 if cell.work is Work.MAKE else (next(under) + 1) * (cell.work is Work.SLIP)
        for cell in cells
    ]
