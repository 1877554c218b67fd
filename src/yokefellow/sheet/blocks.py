"""Puts the items of a section together as they stand on the page: each band beside its chart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.sheet.chart_drawing import draw_chart
from yokefellow.sheet.colourwork import ChartPart, ChartView
from yokefellow.sheet.pieces import Block, Halt, Item, Line

__all__ = ["blocks"]

MOST_LINES = 30
"""Lines of print of a band that are kept on one page with their chart; a taller one is divided."""
WORDS_A_LINE = 34
"""Characters of a row's words that fit beside a chart (our own layout)."""


def blocks(items: Sequence[Item], charts: Sequence[ChartView], *, copies: int) -> tuple[Block, ...]:
    """Divide the items of a section into plain stretches and bands.

    Args:
        items: of one section, in order.
        charts: of the section's bands.
        copies: for how many copies each row has a box; 0 and 1 are the same.
    """
    columns = 3 + max(1, copies)
    made: list[Block] = []
    done = 0
    for chart in charts:
        start, end = _place(items, chart)
        if start > done:
            made.append(Block(tuple(items[done:start]), columns))
        made += _band(items[start:end], chart, columns + 1)
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


def _band(items: Sequence[Item], chart: ChartView, columns: int) -> Iterator[Block]:
    ahead = tuple(i for i in items if isinstance(i, Halt) and i.after == chart.first - 1)
    behind = tuple(i for i in items if isinstance(i, Halt) and i.after == chart.last)
    within = tuple(item for item in items if item not in (*ahead, *behind))
    parts = tuple(_parts(within, chart))
    for number, part in enumerate(parts, start=1):
        is_last = number == len(parts)
        yield Block(
            part,
            columns,
            _chart_part(part, chart, number, len(parts)),
            ahead if number == 1 else (),
            behind if is_last else (),
        )


def _chart_part(part: tuple[Item, ...], chart: ChartView, number: int, parts: int) -> ChartPart:
    lines = [item for item in part if isinstance(item, Line)]
    rows = tuple(row for row in chart.rows if lines[0].first <= row.first <= lines[-1].last)
    return ChartPart(
        chart,
        rows,
        draw_chart(rows, lettered=len(chart.colours) > 1, last_number=chart.last),
        f"chart-{chart.number}" + (f"-{number}" if number > 1 else ""),
        f"part {number} of {parts}" if parts > 1 else "",
        number == 1,
    )


def _parts(items: tuple[Item, ...], chart: ChartView) -> Iterator[tuple[Item, ...]]:
    """Divide a band that is too tall for a page, in equal parts, before a row of its chart."""
    starts = {row.first for row in chart.rows}
    whole = sum(map(_tall, items))
    parts = -(-whole // MOST_LINES)
    part: list[Item] = []
    tall, done = 0, 0
    for item in items:
        begins_row = isinstance(item, Line) and item.first in starts
        if part and begins_row and tall >= whole * (done + 1) / parts:
            yield tuple(part)
            part, done = [], done + 1
        part.append(item)
        tall += _tall(item)
    yield tuple(part)


def _tall(item: Item) -> int:
    """Tell about how many lines of print an item takes."""
    words = item.what if isinstance(item, Line) else item.text
    return 1 + len(words) // WORDS_A_LINE
