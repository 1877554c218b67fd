"""Draws a chart: all squares of one colour as one path, whatever the number of squares."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from yokefellow.sheet.colourwork import ChartCell, ChartDrawing, ChartRowView, Fill, Mark
from yokefellow.sheet.tints import TINTS

__all__ = ["draw_chart"]

CELL = 20
"""Side of a square, in units of the picture."""
EDGE = 3
GAP = 6
DIGIT = 7.7
"""Width of a bold digit of the round numbers; the dash between two is narrower."""
ARROW = 12
CAPTION = 14
"""Height of the numbers of the stitches, below the chart."""

SIZES = (("s", 234), ("m", 345), ("l", 429))
"""Widths of the charts that have room beside their rounds; drawn to one scale."""
WIDE = 560
"""Width of a chart above its rounds, at least."""
BROAD = 720
"""Width above which a chart takes the whole width of the page."""

MOST_SHOWN = 12
"""Squares in a row up to which those of the neighbours are shown, at most four on a side."""
MOST_LETTERS = 60
"""Squares in a row of which letters can still be read on paper."""

# Strokes of the letters in a square, from its upper left corner, about 8 wide and 9 high.
_STROKES = {
    "A": "m6 14.5l4-9 4 9m-6.6-3h5.2",
    "B": "m7 14.5v-9h3.4q2.4 0 2.4 2.1t-2.4 2.1h-3.4m3.4 0q2.9 0 2.9 2.4t-2.9 2.4h-3.4",
    "C": "m13.6 12.4q-1 2.2-3.4 2.2-3.7 0-3.7-4.6t3.7-4.6q2.4 0 3.4 2.2",
    "D": "m6.8 14.5v-9h2.6q4.2 0 4.2 4.5t-4.2 4.5h-2.6",
    "E": "m13 14.5h-5.8v-9h5.8m-.9 4.4h-4.9",
    "F": "m7.4 14.5v-9h5.6m-.9 4.4h-4.7",
    "G": "m13.4 7.4q-1-2-3.2-2-3.8 0-3.8 4.6t3.8 4.6q3.2 0 3.4-4.1h-3",
    "H": "m6.6 14.5v-9m6.8 9v-9m0 4.4h-6.8",
    "J": "m7.4 12.2q.2 2.4 2.5 2.4 2.5 0 2.5-2.7v-6.4",
    "K": "m7 14.5v-9m6 0l-6 5.4m2.2-2l4 5.6",
}
_SMALL = 0.58
"""Of a letter that shares its square with a sign."""
_LETTER_UP = {"slip": (4.2, -0.1), "make": (7.4, 7.6), "purl": (0.6, 0.4)}
"""Where that letter's square begins."""
_SIGN = {"slip": "m2.4 4.6l7.6 13.4 7.6-13.4", "make": "m2.8 13.5v-9l3.4 5.4 3.4-5.4v9"}


def draw_chart(
    worked: Sequence[ChartRowView],
    *,
    lettered: bool = True,
    widest: str = "",
    as_it_hangs: bool = False,
) -> ChartDrawing:
    """Draw rows of a chart from the bottom up and from right to left, as they are worked.

    Args:
        worked: rows of the chart, or of a part of it, in the order of working.
        lettered: whether to write the letters of the colours; a chart of one colour needs none.
        widest: the longest round number of the whole chart, so that its parts line up.
        as_it_hangs: draw from the top down and from left to right instead.
    """
    rows = worked if as_it_hangs else _turned(worked)
    wide = len(rows[0].cells)
    beside = _beside(wide)
    hands = any(row.hand for row in rows)
    gutter = _gutter(rows, hands=hands, widest=widest)
    size, width = _size(gutter + (wide + 2 * beside) * CELL + EDGE)
    left = (gutter if as_it_hangs else EDGE) + beside * CELL
    # Away from the chart stand the arrow, the yarn in hand, the number of the round.
    hand, number = ARROW + GAP, ARROW + GAP + (CELL + GAP) * hands
    right = left + (wide + beside) * CELL
    high = len(rows) * CELL
    placed = tuple(_placed(rows, left))
    in_hand = (
        tuple(_in_hand(rows, gutter - hand - CELL if as_it_hangs else right + hand))
        if hands
        else ()
    )
    ghosts = tuple(_neighbours(rows, left, beside))
    shown = (*placed, *in_hand)
    written = shown if lettered and wide <= MOST_LETTERS else in_hand
    return ChartDrawing(
        view_box=f"0 0 {_n(width)} {high + 2 * EDGE + CAPTION}",
        size=size,
        fills=tuple(_fills(shown)),
        ghosts=tuple(_fills(ghosts)),
        empty=_squares(_empty(rows, left)),
        grid=_grid(left, wide, len(rows), beside),
        hands=_boxes(in_hand),
        outline=f"M{_n(left)} {EDGE}h{wide * CELL}v{high}h{-wide * CELL}z",
        letters="".join(_letter(x, y, cell) for x, y, cell in written),
        signs="".join(_sign(x, y, cell) for x, y, cell in placed),
        dots=_dots(placed),
        ghost_dots=_dots(ghosts),
        arrows="".join(
            _arrow(gutter - ARROW - 2, y) if as_it_hangs else _arrow_back(right + 2, y)
            for y in _tops(rows)
        ),
        numbers=tuple(_numbers(rows, gutter - number if as_it_hangs else right + number)),
        anchor="end" if as_it_hangs else "start",
        columns=tuple(_columns(worked, left, EDGE + high, as_it_hangs=as_it_hangs)),
    )


def _turned(worked: Sequence[ChartRowView]) -> tuple[ChartRowView, ...]:
    """Turn a chart half round, as the work lies on the needle."""
    return tuple(row._replace(cells=row.cells[::-1]) for row in reversed(worked))


def _columns(
    worked: Sequence[ChartRowView], left: float, bottom: int, *, as_it_hangs: bool
) -> Iterator[Mark]:
    """Number the first stitch that is worked, the last of the widest row, and every tenth."""
    cells = worked[0].cells
    wide = len(cells)
    first = next(column for column, cell in enumerate(cells) if cell is not None)
    every = (first, *range(9, wide, 10), wide - 1)
    for column in (first,) if None in cells else dict.fromkeys(every):
        away = column if as_it_hangs else wide - 1 - column
        text = "1" if column == first else f"{column + 1}"
        x = left + away * CELL + CELL / 2
        yield Mark(text, _n(x), _n(bottom), _n(bottom + CAPTION - 2))


def _n(value: float) -> str:
    return f"{value:.1f}".rstrip("0").rstrip(".")


def _beside(wide: int) -> int:
    """Tell how many squares of a neighbour help to see how the picture goes on."""
    return max(0, min(wide, 4, (MOST_SHOWN - wide) // 2))


def _gutter(rows: Sequence[ChartRowView], *, hands: bool, widest: str) -> float:
    numbers = max((widest, *(row.numbers for row in rows)), key=len)
    return EDGE + len(numbers) * DIGIT + GAP + (CELL + GAP) * hands + ARROW


def _size(natural: float) -> tuple[str, float]:
    for size, width in SIZES:
        if natural <= width:
            return size, width
    return ("xl" if natural <= BROAD else "xxl"), max(natural, WIDE)


def _tops(rows: Sequence[ChartRowView]) -> tuple[int, ...]:
    return tuple(EDGE + place * CELL for place in range(len(rows)))


_Placed = tuple[float, int, ChartCell]


def _placed(rows: Sequence[ChartRowView], left: float) -> Iterator[_Placed]:
    for y, row in zip(_tops(rows), rows, strict=True):
        for column, cell in enumerate(row.cells):
            if cell is not None:
                yield left + column * CELL, y, cell


def _in_hand(rows: Sequence[ChartRowView], left: float) -> Iterator[_Placed]:
    for y, row in zip(_tops(rows), rows, strict=True):
        yield left, y, ChartCell(row.hand, "", "knit")


def _neighbours(rows: Sequence[ChartRowView], left: float, beside: int) -> Iterator[_Placed]:
    wide = len(rows[0].cells)
    for y, row in zip(_tops(rows), rows, strict=True):
        for step in range(beside):
            for column, cell in ((-1 - step, row.cells[-1 - step]), (wide + step, row.cells[step])):
                if cell is not None:
                    yield left + column * CELL, y, cell


def _boxes(placed: Iterable[_Placed]) -> str:
    return "".join(f"M{_n(x)} {y}h{CELL}v{CELL}h-{CELL}z" for x, y, _ in placed)


def _empty(rows: Sequence[ChartRowView], left: float) -> Iterator[tuple[float, int]]:
    for y, row in zip(_tops(rows), rows, strict=True):
        yield from ((left + at * CELL, y) for at, cell in enumerate(row.cells) if cell is None)


def _fills(placed: Iterable[_Placed]) -> Iterator[Fill]:
    taken = tuple(placed)
    for letter in sorted({cell.letter for _, _, cell in taken}):
        yield Fill(
            letter,
            TINTS[letter],
            _squares((x, y) for x, y, cell in taken if cell.letter == letter),
        )


def _squares(places: Iterable[tuple[float, int]]) -> str:
    """Draw squares, those that touch in one row as one oblong."""
    drawn: list[str] = []
    for y, row in groupby(sorted(places, key=lambda place: (place[1], place[0])), lambda p: p[1]):
        start = end = -1.0
        for x, _ in row:
            if abs(x - end) > 0.01:
                drawn.append(_oblong(start, y, end))
                start = x
            end = x + CELL
        drawn.append(_oblong(start, y, end))
    return "".join(drawn)


def _oblong(start: float, y: int, end: float) -> str:
    wide = _n(end - start)
    return f"M{_n(start)} {y}h{wide}v{CELL}h-{wide}z" if end > start else ""


def _grid(left: float, wide: int, rows: int, beside: int) -> str:
    first, last = left - beside * CELL, left + (wide + beside) * CELL
    across = (f"M{_n(first)} {EDGE + r * CELL}H{_n(last)}" for r in range(rows + 1))
    columns = range(wide + 2 * beside + 1)
    down = (f"M{_n(first + c * CELL)} {EDGE}v{rows * CELL}" for c in columns)
    return "".join((*across, *down))


def _letter(x: float, y: float, cell: ChartCell) -> str:
    if cell.work not in _LETTER_UP:
        return f"M{_n(x)} {_n(y)}{_STROKES[cell.letter]}"
    right, down = _LETTER_UP[cell.work]
    return f"M{_n(x + right)} {_n(y + down)}{_small(_STROKES[cell.letter])}"


def _small(strokes: str) -> str:
    """Shrink a stroke, which is written in relative steps."""
    return re.sub(r"-?[0-9.]+", lambda step: _n(float(step[0]) * _SMALL), strokes)


def _sign(x: float, y: float, cell: ChartCell) -> str:
    return f"M{_n(x)} {_n(y)}{_SIGN[cell.work]}" if cell.work in _SIGN else ""


def _dots(placed: Iterable[_Placed]) -> str:
    return "".join(_dot(x, y) for x, y, cell in placed if cell.work == "purl")


def _dot(x: float, y: float) -> str:
    return f"M{_n(x + 7.4)} {_n(y + 10)}a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0-5.2 0z"


def _arrow(x: float, y: float) -> str:
    return f"M{_n(x)} {_n(y + 10)}h9m-4-3.6l4.4 3.6-4.4 3.6"


def _arrow_back(x: float, y: float) -> str:
    return f"M{_n(x + 10)} {_n(y + 10)}h-9m4-3.6l-4.4 3.6 4.4 3.6"


def _numbers(rows: Sequence[ChartRowView], x: float) -> Iterator[Mark]:
    for y, row in zip(_tops(rows), rows, strict=True):
        yield Mark(row.numbers, _n(x), _n(y), _n(y + 14))
