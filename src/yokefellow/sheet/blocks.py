"""Puts the items of a section together as they stand on the page: each band beside its chart."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from types import MappingProxyType

from yokefellow.sheet.chart_drawing import draw_chart
from yokefellow.sheet.colourwork import ChartPart, ChartView
from yokefellow.sheet.lines import Block, Halt, Item, Line

__all__ = ["blocks"]

MOST_MM = 190.0
"""Height of a band that is kept on one page with its chart; a taller one is divided."""
LARGE = 1.3
"""How much wider and higher large print is than the usual."""
ROW_MM, LINE_MM = 2.2, 4.3
"""Of a row of the table, and of each line of words in it, as the style sheet sets them."""
FEW = 2
"""Boxes that fit into a narrow column."""
IN_A_LINE = MappingProxyType({"s": 36, "m": 28, "l": 20, "xl": 62, "xxl": 62})
"""Characters that fit into a line beside a chart of each size."""


def blocks(
    items: Sequence[Item], charts: Sequence[ChartView], *, copies: int, large: bool
) -> tuple[Block, ...]:
    """Divide the items of a section into plain stretches and bands.

    Args:
        items: of one section, in order.
        charts: of the section's bands.
        copies: for how many copies each row has a box; 0 and 1 are the same.
        large: in large print.
    """
    columns = 3 + max(1, copies)
    made: list[Block] = []
    done = 0
    for chart in charts:
        start, end = _place(items, chart)
        if start > done:
            made.append(Block(tuple(items[done:start]), columns))
        made += _band(items[start:end], chart, columns + 1, large=large)
        done = end
    if done < len(items):
        made.append(Block(tuple(items[done:]), columns))
    return tuple(made)


def _place(items: Sequence[Item], chart: ChartView) -> tuple[int, int]:
    """Give the items of a band: from what to know before it to what to look at after it."""
    named = f"Band {chart.number}:"
    start = next(
        place
        for place, item in enumerate(items)
        if (isinstance(item, Halt) and item.title.startswith(named))
        or (isinstance(item, Line) and item.first == chart.first)
    )
    end = start
    for place, item in enumerate(items[start:], start=start):
        after = isinstance(item, Halt) and item.after == chart.last
        if after and isinstance(item, Halt) and item.title.startswith("Band "):
            break
        if after or (isinstance(item, Line) and item.first <= chart.last):
            end = place + 1
    return start, end


def _band(items: Sequence[Item], chart: ChartView, columns: int, *, large: bool) -> Iterator[Block]:
    ahead = tuple(i for i in items if isinstance(i, Halt) and i.after == chart.first - 1)
    behind = tuple(i for i in items if isinstance(i, Halt) and i.after == chart.last)
    within = tuple(item for item in items if item not in (*ahead, *behind))
    wide = IN_A_LINE[draw_chart(chart.rows).size] / (LARGE if large else 1)
    parts = tuple(_parts(within, chart, wide, MOST_MM / (LARGE if large else 1)))
    for number, part in enumerate(parts, start=1):
        is_last = number == len(parts)
        yield Block(
            part,
            columns,
            _chart_part(part, chart, number, len(parts)),
            ahead if number == 1 else (),
            behind if is_last else (),
            _look(part),
        )


def _look(part: tuple[Item, ...]) -> str:
    """Tell which columns of the table are narrow."""
    lines = [item for item in part if isinstance(item, Line)]
    boxes = max(len(run.boxes) for line in lines for tick in line.ticks for run in tick.runs)
    words = "few" if boxes <= FEW else "more"
    return words if any(line.yarn for line in lines) else f"{words} lettered"


def _chart_part(part: tuple[Item, ...], chart: ChartView, number: int, parts: int) -> ChartPart:
    lines = [item for item in part if isinstance(item, Line)]
    rows = tuple(row for row in chart.rows if lines[0].first <= row.first <= lines[-1].last)
    return ChartPart(
        chart,
        rows,
        draw_chart(
            rows,
            lettered=len(chart.colours) > 1,
            widest=max((row.numbers for row in chart.rows), key=len),
            as_it_hangs=chart.as_it_hangs,
        ),
        f"chart-{chart.number}" + (f"-{number}" if number > 1 else ""),
        f"part {number} of {parts}" if parts > 1 else "",
        number == 1,
    )


def _parts(
    items: tuple[Item, ...], chart: ChartView, wide: float, most_mm: float
) -> Iterator[tuple[Item, ...]]:
    """Divide a band that is too tall for a page, in equal parts, before a row of its chart."""
    starts = {row.first for row in chart.rows}
    whole = sum(_tall_mm(item, wide) for item in items)
    parts = math.ceil(whole / most_mm)
    part: list[Item] = []
    tall, done = 0.0, 0
    for item in items:
        begins_row = isinstance(item, Line) and item.first in starts
        if part and begins_row and tall >= whole * (done + 1) / parts:
            yield tuple(part)
            part, done = [], done + 1
        part.append(item)
        tall += _tall_mm(item, wide)
    yield tuple(part)


def _tall_mm(item: Item, wide: float) -> float:
    """Tell about how high an item is, in the usual print."""
    words = item.what if isinstance(item, Line) else item.text
    # The name of the yarn in hand stands below its code.
    least = 2 if isinstance(item, Line) and any(hand.shade for hand in item.hands) else 1
    return ROW_MM + LINE_MM * max(least, math.ceil(len(words) / wide))
