"""The shipped motifs as charts: drawn on a page, and in letters for the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from yokefellow.charts.chart import Chart
from yokefellow.charts.library import motifs
from yokefellow.charts.read import MAIN, read_chart
from yokefellow.charts.text import ChartText
from yokefellow.sheet.chart_drawing import draw_chart
from yokefellow.sheet.charting import KIND_WORDS, chart_rows, chart_signs
from yokefellow.sheet.colourwork import ChartCell, ChartDrawing, ChartRowView, Colour, Sign
from yokefellow.sheet.tints import TINTS
from yokefellow.words import words

__all__ = ["MotifView", "motif_views"]

SHOWN = 24
"""Stitches beside each other in letters, at least: enough to see how a picture goes on."""


class MotifView(NamedTuple):
    """One motif, with its chart."""

    name: str
    """As a band names it in the project file."""
    title: str
    about: str
    counted: str
    """`mosaic, 4 sts and 6 rounds, 2 yarns`."""
    colours: tuple[Colour, ...]
    signs: tuple[Sign, ...]
    drawing: ChartDrawing
    letters: tuple[str, ...]
    """Several repeats, from the top row down: a letter for each stitch."""


def motif_views() -> tuple[MotifView, ...]:
    """Give every shipped motif, in the order of their names."""
    read = ((text, read_chart(text)[0]) for text in motifs().values())
    return tuple(_motif(text, chart) for text, chart in read if chart is not None)


def _motif(text: ChartText, chart: Chart) -> MotifView:
    # The main color is A, also where a chart begins with another.
    codes = sorted(chart.colours, key=lambda code: (code != MAIN, code))
    known = {code: Colour(code, letter, "") for code, letter in zip(codes, TINTS, strict=False)}
    rows = tuple(chart_rows(known, chart))
    return MotifView(
        text.name,
        text.title or text.name,
        text.about,
        words("motifs").counted(
            kind=KIND_WORDS[chart.kind],
            first=chart.first_width,
            last=chart.last_width,
            rounds=len(chart.rows),
            yarns=len(known),
        ),
        tuple(known.values()),
        chart_signs(chart),
        draw_chart(rows, lettered=len(known) > 1),
        tuple(_letters(rows)),
    )


def _letters(rows: tuple[ChartRowView, ...]) -> Iterator[str]:
    repeats = -(-SHOWN // len(rows[0].cells))
    for row in reversed(rows):
        yield repeats * "".join(map(_letter, row.cells[::-1]))


def _letter(cell: ChartCell | None) -> str:
    if cell is None:
        return " "
    return "-" if cell.work == "purl" else cell.letter
