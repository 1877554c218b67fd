"""Reading a chart: rows of characters with a legend, one repeat wide, in knitting order.

How a line is written stands in `yokefellow.charts.text`. A row that is wider
than the one before carries the increases: the repeat grows by so many
stitches there, each made at the end of an equal share of the wider row.
"""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.charts.check import stretched
from yokefellow.charts.text import (
    PURL_MARK,
    SLIP_MARK,
    ChartText,
    Line,
    lines_of,
    refusal,
    too_large,
    unreadable,
)
from yokefellow.findings import Finding

MAIN = "MC"
MOST_IN_HAND = 2
"""Colours carried in a stranded round."""

Under: TypeAlias = tuple[str | None, ...]
"""The colours of the row below, column by column; None under a stitch that is being made."""


class _Place(NamedTuple):
    """A mark of the line, and what it lies on."""

    column: int
    """Counted from 1, as the knitter does."""
    mark: str
    below: str | None
    """The colour of the stitch there; None where the stitch is being made."""


def row_of(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    """Work out one line of a chart.

    Args:
        text: the chart; its lines are readable.
        line: the line.
        under: the row below it.
        before: the yarn in hand in the row below.

    Raises:
        ValueError: the row below is not lined up with the line.
    """
    pairs = zip(line.marks, under, strict=True)
    places = tuple(_Place(column, *pair) for column, pair in enumerate(pairs, start=1))
    return _KINDS[text.kind](text, line, places, before)


def _worked(colour: str, place: _Place, work: Work = Work.KNIT) -> Cell:
    return Cell(colour, Work.MAKE if place.below is None else work)


def _mosaic(text: ChartText, line: Line, places: _Places, before: str) -> ChartRow | Finding:
    """Find the colour in hand: one that leaves every other stitch as it already is."""
    shown = dict.fromkeys(text.legend[place.mark] for place in places)
    # Where either would do, the colours take turns.
    colours = sorted(shown, key=lambda colour: colour == before)
    tried = [line.yarn] if line.yarn else colours
    wrong = {yarn: _clashes(text, places, yarn) for yarn in tried}
    yarn = min(wrong, key=lambda colour: len(wrong[colour]))
    if wrong[yarn]:
        return _not_mosaic(text, line, wrong[yarn][0], yarn)
    return ChartRow(
        tuple(_of_mosaic(text.legend[place.mark], place, yarn) for place in places), yarn
    )


def _of_mosaic(colour: str, place: _Place, yarn: str) -> Cell:
    return _worked(colour, place) if colour == yarn else Cell(colour, Work.SLIP)


def _clashes(text: ChartText, places: _Places, yarn: str) -> list[_Place]:
    """Give the places that would have to be slipped with `yarn` in hand and cannot be."""
    return [
        place
        for place in places
        if text.legend[place.mark] != yarn and place.below != text.legend[place.mark]
    ]


def _not_mosaic(text: ChartText, line: Line, place: _Place, yarn: str) -> Finding:
    return refusal(
        text,
        "not-mosaic",
        row=line.number,
        column=place.column,
        color=text.legend[place.mark],
        yarn=yarn,
        below=place.below,
    )


def _two_colours(text: ChartText, line: Line, places: _Places, yarn: str) -> Finding | None:
    """Refuse places that show another colour than the one in hand."""
    for place in places:
        if (shown := text.legend[place.mark]) != yarn:
            return refusal(
                text,
                "two-colours",
                row=line.number,
                column=place.column,
                color=shown,
                yarn=yarn,
                kind=text.kind.value,
            )
    return None


def _slip(text: ChartText, line: Line, places: _Places, _: str) -> ChartRow | Finding:
    worked = tuple(place for place in places if place.mark != SLIP_MARK)
    if not worked:
        return refusal(text, "nothing-worked", row=line.number)
    yarn = line.yarn or text.legend[worked[0].mark]
    if refused := _two_colours(text, line, worked, yarn):
        return refused
    cells: list[Cell] = []
    for place in places:
        if place.mark != SLIP_MARK:
            cells.append(_worked(yarn, place))
        elif place.below is None:
            return refusal(text, "slip-made", row=line.number, column=place.column)
        else:
            cells.append(Cell(place.below, Work.SLIP))
    return ChartRow(tuple(cells), yarn)


def _stranded(text: ChartText, line: Line, places: _Places, _: str) -> ChartRow | Finding:
    shown = tuple(text.legend[place.mark] for place in places)
    in_hand = tuple(dict.fromkeys(shown))
    if len(in_hand) > MOST_IN_HAND:
        third = shown.index(in_hand[MOST_IN_HAND]) + 1
        return refusal(text, "three-colours", row=line.number, colors=in_hand, column=third)
    cells = tuple(_worked(text.legend[place.mark], place) for place in places)
    return ChartRow(cells, line.yarn or in_hand[0])


def _stripe(text: ChartText, line: Line, places: _Places, _: str) -> ChartRow | Finding:
    yarn = line.yarn or text.legend[line.marks[0]]
    if refused := _two_colours(text, line, places, yarn):
        return refused
    return ChartRow(tuple(_worked(yarn, place) for place in places), yarn)


def _purl(text: ChartText, line: Line, places: _Places, before: str) -> ChartRow | Finding:
    knitted = tuple(place for place in places if place.mark != PURL_MARK)
    yarn = line.yarn or _of_purl(text, knitted, before)
    if refused := _two_colours(text, line, knitted, yarn):
        return refused
    for place in places:
        if place.mark == PURL_MARK and place.below is None:
            return refusal(text, "purl-made", row=line.number, column=place.column)
    cells = (
        _worked(yarn, place, Work.PURL if place.mark == PURL_MARK else Work.KNIT)
        for place in places
    )
    return ChartRow(tuple(cells), yarn)


def _of_purl(text: ChartText, knitted: _Places, before: str) -> str:
    """Take the yarn that shows; where all is purled, the only one there is, or the last in hand."""
    if knitted:
        return text.legend[knitted[0].mark]
    only = set(text.legend.values())
    return only.pop() if len(only) == 1 else before


_Places: TypeAlias = tuple[_Place, ...]

_Read: TypeAlias = Callable[[ChartText, Line, _Places, str], ChartRow | Finding]

_KINDS: MappingProxyType[ChartKind, _Read] = MappingProxyType(
    {
        ChartKind.MOSAIC: _mosaic,
        ChartKind.SLIP: _slip,
        ChartKind.STRANDED: _stranded,
        ChartKind.STRIPES: _stripe,
        ChartKind.PURL: _purl,
    }
)


def read_chart(text: ChartText) -> tuple[Chart | None, tuple[Finding, ...]]:
    """Read a chart and derive how each stitch is worked.

    The first row lies on plain knitting in the main colour.

    Returns:
        The chart, or None when it cannot be worked, and why it cannot; every
        finding is an error. What is knittable but risky, and depends on the
        gauge, is told by `yokefellow.charts.check.chart_findings`.
    """
    if refused := too_large(text):
        return None, (refused,)
    lines = tuple(lines_of(text))
    if findings := unreadable(text, lines):
        return None, findings
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
