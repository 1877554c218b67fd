"""How each line of a chart is worked over the row below it, one way for each kind of chart."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import TypeAlias

from yokefellow.charts.chart import Cell, ChartKind, ChartRow, Work
from yokefellow.charts.text import PURL_MARK, SLIP_MARK, ChartText, Line, refusal
from yokefellow.findings import Finding

__all__ = ["MAIN", "Under", "row_of"]

MAIN = "MC"
MOST_IN_HAND = 2
"""Colours carried in a stranded round."""

Under: TypeAlias = tuple[Cell | None, ...]
"""The row below, column by column; None under a stitch that is being made."""


def row_of(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    """Work out one line of a chart.

    Args:
        text: the chart; its lines are readable.
        line: the line.
        under: the row below it.
        before: the yarn in hand in the row below.
    """
    return _KINDS[text.kind](text, line, under, before)


def _worked(colour: str, under: Cell | None, work: Work = Work.KNIT) -> Cell:
    return Cell(colour, Work.MAKE if under is None else work)


def _shown(text: ChartText, line: Line) -> tuple[str, ...]:
    return tuple(text.legend[mark] for mark in line.marks)


def _mosaic(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    """Find the colour in hand: one that leaves every other stitch as it already is."""
    shown = _shown(text, line)
    # Where either would do, the colours take turns.
    colours = sorted(dict.fromkeys(shown), key=lambda colour: colour == before)
    wrong = {yarn: _clashes(shown, under, yarn) for yarn in ([line.yarn] if line.yarn else colours)}
    yarn = min(wrong, key=lambda colour: len(wrong[colour]))
    if wrong[yarn]:
        return _not_mosaic(text, line, under, yarn, wrong[yarn][0])
    cells = (
        _worked(colour, below) if colour == yarn else Cell(colour, Work.SLIP)
        for colour, below in zip(shown, under, strict=True)
    )
    return ChartRow(tuple(cells), yarn)


def _clashes(shown: tuple[str, ...], under: Under, yarn: str) -> list[int]:
    """Give the columns that would have to be slipped with `yarn` in hand and cannot be."""
    return [
        column
        for column, (colour, below) in enumerate(zip(shown, under, strict=True))
        if colour != yarn and (below is None or below.colour != colour)
    ]


def _not_mosaic(text: ChartText, line: Line, under: Under, yarn: str, column: int) -> Finding:
    colour = text.legend[line.marks[column]]
    there = under[column]
    has = "a new stitch" if there is None else f"{there.colour} in the row before"
    return refusal(
        text,
        "not-mosaic",
        f"Row {line.number}, column {column + 1} shows {colour} while {yarn} is in hand, but the "
        f"stitch there is {has}: only one colour is worked in a row, and a stitch of the other "
        "must be slipped from the row before.",
        f"Show {yarn} there, or show {colour} in the row before; or make the chart stranded.",
    )


def _one_colour(text: ChartText, line: Line, special: str, before: str) -> str | Finding:
    """Give the one colour of a row whose other marks are all `special`."""
    shown = {mark: text.legend[mark] for mark in line.marks if mark != special}
    only = tuple(dict.fromkeys(text.legend.values()))
    yarn = line.yarn or next(iter(shown.values()), only[0] if len(only) == 1 else before)
    for column, mark in enumerate(line.marks, start=1):
        if mark != special and shown[mark] != yarn:
            return refusal(
                text,
                "two-colours",
                f"Row {line.number}, column {column} shows {shown[mark]} while {yarn} is in hand; "
                f"a row of a {text.kind.value} chart has one colour.",
                f"Use the mark of {yarn}, or give {shown[mark]} a row of its own.",
            )
    return yarn


def _slip(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    yarn = _one_colour(text, line, SLIP_MARK, before)
    if isinstance(yarn, Finding):
        return yarn
    if set(line.marks) == {SLIP_MARK}:
        return refusal(
            text,
            "nothing-worked",
            f"Row {line.number} slips every stitch, so nothing is knitted in it.",
            "Show the yarn in hand where a stitch is worked, or take the row out.",
        )
    cells: list[Cell] = []
    for column, (mark, below) in enumerate(zip(line.marks, under, strict=True), start=1):
        if mark != SLIP_MARK:
            cells.append(_worked(yarn, below))
        elif below is None:
            return refusal(
                text,
                "slip-made",
                f"Row {line.number}, column {column}: the row widens here, and a stitch that "
                "is being made cannot be slipped.",
                "Slip another stitch, or widen in another row.",
            )
        else:
            cells.append(Cell(below.colour, Work.SLIP))
    return ChartRow(tuple(cells), yarn)


def _stranded(text: ChartText, line: Line, under: Under, _: str) -> ChartRow | Finding:
    shown = _shown(text, line)
    in_hand = tuple(dict.fromkeys(shown))
    if len(in_hand) > MOST_IN_HAND:
        third = shown.index(in_hand[MOST_IN_HAND]) + 1
        return refusal(
            text,
            "three-colours",
            f"Row {line.number} shows {', '.join(in_hand)}, the third from column {third}; "
            "a stranded row carries two colours.",
            "Leave one colour out of the row.",
        )
    cells = tuple(_worked(colour, below) for colour, below in zip(shown, under, strict=True))
    return ChartRow(cells, line.yarn or in_hand[0])


def _stripe(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    yarn = _one_colour(text, line, "", before)
    if isinstance(yarn, Finding):
        return yarn
    return ChartRow(tuple(_worked(yarn, below) for below in under), yarn)


def _purl(text: ChartText, line: Line, under: Under, before: str) -> ChartRow | Finding:
    yarn = _one_colour(text, line, PURL_MARK, before)
    if isinstance(yarn, Finding):
        return yarn
    for column, (mark, below) in enumerate(zip(line.marks, under, strict=True), start=1):
        if mark == PURL_MARK and below is None:
            return refusal(
                text,
                "purl-made",
                f"Row {line.number}, column {column}: the row widens here, and the stitch that "
                "is being made is a knit stitch.",
                "Purl another stitch, or widen in another row.",
            )
    cells = tuple(
        _worked(yarn, below, Work.PURL if mark == PURL_MARK else Work.KNIT)
        for mark, below in zip(line.marks, under, strict=True)
    )
    return ChartRow(cells, yarn)


_Read: TypeAlias = Callable[[ChartText, Line, Under, str], ChartRow | Finding]

_KINDS: MappingProxyType[ChartKind, _Read] = MappingProxyType(
    {
        ChartKind.MOSAIC: _mosaic,
        ChartKind.SLIP: _slip,
        ChartKind.STRANDED: _stranded,
        ChartKind.STRIPES: _stripe,
        ChartKind.PURL: _purl,
    }
)
