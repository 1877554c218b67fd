"""Reading a chart: rows of characters with a legend, one repeat wide, in knitting order.

A row is one line. The characters of the legend stand for colours; `v` marks a
stitch slipped with the yarn behind (plain slip-stitch charts only) and `-` a
purl (purl texture only). A line may begin with the yarn in hand and a colon,
`CC1: ..#.`; mosaic and stranded charts need none.

A row that is wider than the one before carries the increases: the repeat
grows by so many stitches there, each made at the end of an equal share of the
wider row.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.findings import Finding, Severity

__all__ = ["ChartText", "read_chart"]

SLIP_MARK, PURL_MARK = "v", "-"
MOST_ROWS, MOST_WIDTH = 200, 200
MAIN = "MC"


@dataclass(frozen=True, slots=True)
class ChartText:
    """A chart as written."""

    name: str
    kind: ChartKind
    legend: Mapping[str, str]
    """Character to colour."""
    lines: tuple[str, ...]
    times: int = 1
    """Rounds worked from each line: mosaic lines are usually worked twice."""


@dataclass(frozen=True, slots=True)
class _Line:
    number: int
    yarn: str
    marks: str


def read_chart(text: ChartText) -> tuple[Chart | None, tuple[Finding, ...]]:
    """Read a chart and derive how each stitch is worked.

    Returns:
        The chart, or None when it cannot be worked, and everything found.
    """
    lines = tuple(_lines(text))
    found = [*_sizes(text, lines), *_marks(text, lines)]
    if found:
        return None, tuple(found)
    rows: list[ChartRow] = []
    below: tuple[Cell, ...] = tuple(Cell(MAIN, Work.KNIT) for _ in lines[0].marks)
    for line in lines:
        row = _row(text, line, below, rows[-1].yarn if rows else MAIN)
        if isinstance(row, Finding):
            found.append(row)
            break
        rows += [row, *(_again(row) for _ in range(text.times - 1))]
        below = row.cells
    return (None if found else Chart(text.name, text.kind, tuple(rows))), tuple(found)


def _again(row: ChartRow) -> ChartRow:
    """Work a line's later rounds: the same, with the new stitches already there."""
    cells = tuple(
        Cell(cell.colour, Work.KNIT) if cell.work is Work.MAKE else cell for cell in row.cells
    )
    return ChartRow(cells, row.yarn)


def _lines(text: ChartText) -> Iterator[_Line]:
    for number, line in enumerate(text.lines, start=1):
        head, colon, tail = line.partition(":")
        if colon and head.strip() in set(text.legend.values()) | {MAIN}:
            yield _Line(number, head.strip(), tail.strip())
        else:
            yield _Line(number, "", line.strip())


def _finding(text: ChartText, code: str, message: str, remedy: str) -> Finding:
    return Finding(f"chart.{code}", Severity.ERROR, f"charts.{text.name}.rows", message, remedy)


def _sizes(text: ChartText, lines: tuple[_Line, ...]) -> Iterator[Finding]:
    if not lines or not all(line.marks for line in lines):
        yield _finding(text, "empty", "The chart has a row without stitches.", "Fill or drop it.")
        return
    if len(lines) > MOST_ROWS or max(len(line.marks) for line in lines) > MOST_WIDTH:
        yield _finding(
            text,
            "too-large",
            f"The chart is {max(len(line.marks) for line in lines)} stitches by {len(lines)} "
            f"rows; up to {MOST_WIDTH} by {MOST_ROWS} can be drawn.",
            "Give one repeat, and split a tall chart into bands.",
        )
        return
    for early, late in pairwise(lines):
        if len(late.marks) < len(early.marks):
            yield _finding(
                text,
                "narrows",
                f"Row {late.number} is {len(late.marks)} stitches wide and row {early.number} is "
                f"{len(early.marks)}: a repeat may widen toward the body, never narrow.",
                f"Give row {late.number} at least {len(early.marks)} stitches.",
            )
        grows = len(late.marks) - len(early.marks)
        if 2 * grows > len(early.marks):
            yield _finding(
                text,
                "grows-fast",
                f"Row {late.number} widens the repeat from {len(early.marks)} to "
                f"{len(late.marks)} stitches; at most one new stitch for every two is knittable.",
                "Widen it in two rows, some rounds apart.",
            )


def _marks(text: ChartText, lines: tuple[_Line, ...]) -> Iterator[Finding]:
    allowed = set(text.legend)
    allowed |= {SLIP_MARK} if text.kind is ChartKind.SLIP else set()
    allowed |= {PURL_MARK} if text.kind is ChartKind.PURL else set()
    for line in lines:
        for column, mark in enumerate(line.marks, start=1):
            if mark not in allowed:
                yield _finding(
                    text,
                    "unknown-mark",
                    f"Row {line.number}, column {column}: {mark!r} is not in the legend "
                    f"({', '.join(repr(known) for known in sorted(allowed))}).",
                    "Add it to the legend, or correct the row.",
                )


def _row(text: ChartText, line: _Line, below: tuple[Cell, ...], before: str) -> ChartRow | Finding:
    """Read one line over the row below it."""
    made = made_places(len(below), len(line.marks))
    under = _under(below, made, len(line.marks))
    match text.kind:
        case ChartKind.MOSAIC:
            return _mosaic(text, line, under, before)
        case ChartKind.SLIP:
            return _slip(text, line, under, before)
        case ChartKind.STRANDED:
            return _stranded(text, line, under)
        case ChartKind.STRIPES:
            return _stripe(text, line, under)
        case _:
            return _purl(text, line, under)


def made_places(before: int, after: int) -> frozenset[int]:
    """Give the columns, from 0, of the stitches a widening row makes.

    >>> sorted(made_places(4, 6))
    [2, 5]
    """
    grown = after - before
    return frozenset((place + 1) * after // grown - 1 for place in range(grown))


def _under(below: tuple[Cell, ...], made: frozenset[int], width: int) -> tuple[Cell | None, ...]:
    """Line the row below up with this one; a new stitch has nothing under it."""
    cells = iter(below)
    return tuple(None if column in made else next(cells) for column in range(width))


def _worked(colour: str, under: Cell | None, work: Work = Work.KNIT) -> Cell:
    return Cell(colour, Work.MAKE if under is None else work)


def _mosaic(
    text: ChartText, line: _Line, under: tuple[Cell | None, ...], before: str
) -> ChartRow | Finding:
    """Find the colour in hand: one that leaves every other stitch as it already is."""
    shown = tuple(text.legend[mark] for mark in line.marks)
    colours = list(dict.fromkeys((*text.legend.values(), MAIN)))
    other_first = sorted(colours, key=lambda colour: colour == before)
    tries = [line.yarn] if line.yarn else [c for c in other_first if c in shown]
    wrong: list[tuple[int, str, str]] = []
    for yarn in tries:
        clash = _clash(shown, under, yarn)
        if clash is None:
            cells = tuple(
                _worked(colour, below) if colour == yarn else Cell(colour, Work.SLIP)
                for colour, below in zip(shown, under, strict=True)
            )
            return ChartRow(cells, yarn)
        wrong.append((clash, shown[clash], yarn))
    column, colour, yarn = wrong[0]
    there = under[column]
    has = "a new stitch" if there is None else f"{there.colour} in the row before"
    return _finding(
        text,
        "not-mosaic",
        f"Row {line.number}, column {column + 1} shows {colour} while {yarn} is in hand, but the "
        f"stitch there is {has}: only one colour is worked in a row, and a stitch of the other "
        "must be slipped from the row before.",
        f"Show {yarn} there, or show {colour} in the row before; or make the chart stranded.",
    )


def _clash(shown: tuple[str, ...], under: tuple[Cell | None, ...], yarn: str) -> int | None:
    """Give the first column that cannot be slipped while `yarn` is in hand."""
    for column, (colour, below) in enumerate(zip(shown, under, strict=True)):
        if colour != yarn and (below is None or below.colour != colour):
            return column
    return None


def _slip(
    text: ChartText, line: _Line, under: tuple[Cell | None, ...], before: str
) -> ChartRow | Finding:
    worked = [text.legend[mark] for mark in line.marks if mark != SLIP_MARK]
    yarn = line.yarn or (worked[0] if worked else before)
    odd = next(
        (c for c, m in enumerate(line.marks) if m != SLIP_MARK and text.legend[m] != yarn), None
    )
    if not worked or odd is not None:
        column = 1 if odd is None else odd + 1
        return _finding(
            text,
            "slip-colours",
            f"Row {line.number}, column {column}: a slip-stitch row works one colour, {yarn}.",
            f"Use the mark of {yarn}, or {SLIP_MARK!r} for a slipped stitch.",
        )
    cells: list[Cell] = []
    for column, (mark, below) in enumerate(zip(line.marks, under, strict=True)):
        if mark != SLIP_MARK:
            cells.append(_worked(yarn, below))
        elif below is None:
            return _finding(
                text,
                "slip-made",
                f"Row {line.number}, column {column + 1}: the row widens here, and a stitch that "
                "is being made cannot be slipped.",
                "Slip another stitch, or widen in another row.",
            )
        else:
            cells.append(Cell(below.colour, Work.SLIP))
    return ChartRow(tuple(cells), yarn)


def _stranded(text: ChartText, line: _Line, under: tuple[Cell | None, ...]) -> ChartRow | Finding:
    shown = tuple(text.legend[mark] for mark in line.marks)
    in_hand = tuple(dict.fromkeys(shown))
    if len(in_hand) > TWO:
        return _finding(
            text,
            "three-colours",
            f"Row {line.number} shows {', '.join(in_hand)}; a stranded row carries two colours.",
            "Leave one colour out of the row.",
        )
    cells = tuple(_worked(c, below) for c, below in zip(shown, under, strict=True))
    return ChartRow(cells, in_hand[0])


TWO = 2


def _stripe(text: ChartText, line: _Line, under: tuple[Cell | None, ...]) -> ChartRow | Finding:
    shown = {text.legend[mark] for mark in line.marks}
    if len(shown) > 1:
        return _finding(
            text,
            "striped",
            f"Row {line.number} of a striped chart shows {', '.join(sorted(shown))}.",
            "Use one colour in a row, or make the chart stranded.",
        )
    yarn = shown.pop()
    return ChartRow(tuple(_worked(yarn, below) for below in under), yarn)


def _purl(text: ChartText, line: _Line, under: tuple[Cell | None, ...]) -> ChartRow | Finding:
    known = [text.legend[mark] for mark in line.marks if mark != PURL_MARK]
    yarn = line.yarn or (known[0] if known else MAIN)
    cells = tuple(
        _worked(yarn, below, Work.PURL if mark == PURL_MARK else Work.KNIT)
        for mark, below in zip(line.marks, under, strict=True)
    )
    return ChartRow(cells, yarn)
