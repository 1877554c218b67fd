"""The picture a chart makes: what is to be seen when it has been knitted."""

from __future__ import annotations

from yokefellow.charts.chart import Chart

__all__ = ["picture"]


def picture(chart: Chart) -> tuple[tuple[str, ...], ...]:
    """Give the colours to be seen in each round of one repeat, a slipped stitch with its own.

    A line that is worked twice is seen twice.
    """
    return tuple(tuple(cell.colour for cell in row.cells) for row in chart.rows)
