"""A chart: one repeat of a band, row by row in knitting order.

The first row is the one worked first: in a top-down yoke the row nearest the
neck. The first character of a row is its first stitch. Knitting in the round
goes from right to left with the newest round on top; hang the top-down
sweater by its neck, which turns it half round, and it goes from left to right
and downwards. So the chart as written looks the way the sweater hangs.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class ChartKind(StrEnum):
    """How the picture is knitted."""

    MOSAIC = "mosaic"
    """Two colours, one in hand in each row; the other shows where stitches are slipped."""
    SLIP = "slip"
    """One colour in hand in each row; the slipped stitches are marked."""
    STRANDED = "stranded"
    """Up to two colours in hand in each row."""
    STRIPES = "stripes"
    """Whole rows of one colour."""
    PURL = "purl"
    """One colour; the picture is in purl stitches."""


class Work(StrEnum):
    """What is done with one stitch."""

    KNIT = "knit"
    PURL = "purl"
    SLIP = "slip"
    MAKE = "make"
    """A new stitch: an M1L."""


class Cell(NamedTuple):
    """One stitch of the picture."""

    colour: str
    """The colour it shows: `MC`, `CC1`, ... For a slipped stitch the colour it already has."""
    work: Work


class ChartRow(NamedTuple):
    """One row of one repeat."""

    cells: tuple[Cell, ...]
    yarn: str
    """The colour in hand; the first of two in a stranded row."""

    @property
    def width(self) -> int:
        """Stitches of the repeat after the row."""
        return len(self.cells)

    @property
    def made(self) -> int:
        """Stitches the row adds to each repeat."""
        return sum(cell.work is Work.MAKE for cell in self.cells)

    @property
    def colours(self) -> tuple[str, ...]:
        """The colours in hand, in the order in which they are first worked."""
        seen = dict.fromkeys(cell.colour for cell in self.cells if cell.work is not Work.SLIP)
        return tuple(seen)


class Chart(NamedTuple):
    """One repeat of a band."""

    name: str
    kind: ChartKind
    rows: tuple[ChartRow, ...]
    """One for every round: a mosaic row that is worked twice stands here twice."""
    times: int = 1
    """Rounds worked from each line as written."""

    @property
    def lines(self) -> tuple[ChartRow, ...]:
        """The first round of each line as written: what the knitter drew."""
        return self.rows[:: self.times]

    @property
    def first_width(self) -> int:
        """Stitches of the repeat before its first row."""
        return self.rows[0].width - self.rows[0].made

    @property
    def last_width(self) -> int:
        """Stitches of the repeat after its last row."""
        return self.rows[-1].width

    @property
    def colours(self) -> tuple[str, ...]:
        """Every colour in hand, in the order in which they are first worked."""
        return tuple(dict.fromkeys(colour for row in self.rows for colour in row.colours))


def picture(chart: Chart) -> tuple[tuple[str, ...], ...]:
    """Give the colours to be seen in each round of one repeat, a slipped stitch with its own.

    A line that is worked twice is seen twice.
    """
    return tuple(tuple(cell.colour for cell in row.cells) for row in chart.rows)
