"""Reading a chart: rows of characters with a legend, one repeat wide, in knitting order.

How a line is written stands in `yokefellow.charts.text`. A row that is wider
than the one before carries the increases: the repeat grows by so many
stitches there, each made at the end of an equal share of the wider row.
"""

from __future__ import annotations

from yokefellow.charts.chart import Cell, Chart, ChartRow, Work
from yokefellow.charts.checks import stretched
from yokefellow.charts.rows import MAIN, Under, row_of
from yokefellow.charts.text import ChartText, lines_of, too_large, unreadable
from yokefellow.findings import Finding

__all__ = ["ChartText", "made_places", "read_chart"]


def read_chart(text: ChartText) -> tuple[Chart | None, tuple[Finding, ...]]:
    """Read a chart and derive how each stitch is worked.

    The first row lies on plain knitting in the main colour.

    Returns:
        The chart, or None when it cannot be worked, and why it cannot; every
        finding is an error. What is knittable but risky, and depends on the
        gauge, is told by `yokefellow.charts.checks.chart_findings`.
    """
    if refused := too_large(text):
        return None, (refused,)
    lines = tuple(lines_of(text))
    if found := unreadable(text, lines):
        return None, found
    rows: list[ChartRow] = []
    below: tuple[str, ...] = (MAIN,) * len(lines[0].marks)
    for line in lines:
        under = _under(below, len(line.marks))
        row = row_of(text, line, under, rows[-1].yarn if rows else MAIN)
        if isinstance(row, Finding):
            return None, (row,)
        rows += [row, *(_again(row) for _ in range(text.times - 1))]
        below = tuple(cell.colour for cell in row.cells)
    chart = Chart(text.name, text.kind, tuple(rows), text.times)
    slipped = tuple(stretched(chart, text))
    return (None if slipped else chart), slipped


def _again(row: ChartRow) -> ChartRow:
    """Work a line's later rounds: the same, with the new stitches already there."""
    cells = tuple(
        Cell(cell.colour, Work.KNIT) if cell.work is Work.MAKE else cell for cell in row.cells
    )
    return ChartRow(cells, row.yarn)


def made_places(before: int, after: int) -> frozenset[int]:
    """Give the columns, from 0, of the stitches a widening row makes.

    >>> sorted(made_places(4, 6))
    [2, 5]
    """
    grown = after - before
    return frozenset((place + 1) * after // grown - 1 for place in range(grown))


def _under(below: tuple[str, ...], width: int) -> Under:
    """Line the row below up with this one; a new stitch has nothing under it."""
    made = made_places(len(below), width)
    colours = iter(below)
    return tuple(None if column in made else next(colours) for column in range(width))
