"""Sizing tables in columns, as wide as the terminal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from yokefellow.body.nearest_size import Departure, SizeMatch
from yokefellow.body.size_tables import Row, SizingTable
from yokefellow.cli.terminal import width, wrapped
from yokefellow.quantities import LengthUnit, length

_GAP = 2


def table_list(tables: Iterable[SizingTable]) -> str:
    """List the tables with their sizes."""
    return "\n".join(
        wrapped(
            f"{', '.join(table.sizes)} {table.size_word}".rstrip(),
            first=f"{table.name:<10}",
            rest=" " * 10,
        )
        for table in tables
    )


def one_table(table: SizingTable, unit: LengthUnit) -> str:
    """Show every measure of a table, a few sizes at a time, then where the numbers come from."""
    lines = [[_spaced(name), *_entries(row, unit)] for name, row in table.rows.items()]
    blocks = _blocks([["", *table.sizes], *lines])
    sizes = f"; sizes in {table.size_word}" if table.size_word else ""
    title = wrapped(f"{table.title}, in {'inches' if unit == 'in' else 'cm'}{sizes}.")
    return "\n\n".join([title, *blocks, "\n".join(_sources(table))])


def nearest_size(match: SizeMatch, table: SizingTable, chest_cm: float, unit: LengthUnit) -> str:
    """Name the nearest size and set the body's own measures beside it."""
    head = wrapped(
        f"Nearest by a chest of {length(chest_cm, unit)}: {table.size_words(match.size)}."
    )
    if not match.departures:
        return f"{head}\nNo measure of this body was taken; the table gives them all."
    lines = [_departure_line(departure, unit) for departure in match.departures]
    return "\n\n".join([head, *_blocks([["", "body", "size", "departs"], *lines])])


def _departure_line(departure: Departure, unit: LengthUnit) -> list[str]:
    apart = length(abs(departure.departure_cm), unit)
    word = "larger" if departure.departure_cm > 0 else "smaller"
    return [
        _spaced(departure.name),
        length(departure.body_cm, unit),
        _span(departure.low_cm, departure.high_cm, unit),
        "" if apart.startswith("0 ") else f"{apart} {word}",
    ]


def _entries(row: Row, unit: LengthUnit) -> Iterator[str]:
    for low, high in zip(row.low_cm, row.high_cm, strict=True):
        yield _span(low, high, unit).removesuffix(f" {unit}")


def _span(low_cm: float, high_cm: float, unit: LengthUnit) -> str:
    low, high = length(low_cm, unit), length(high_cm, unit)
    return high if low == high else f"{low.removesuffix(f' {unit}')}–{high}"


def columns(lines: Sequence[Sequence[str]]) -> list[str]:
    """Set lines in columns; where they are too wide, a part of the columns below the other."""
    return "\n\n".join(_blocks(lines)).splitlines()


def _blocks(lines: Sequence[Sequence[str]]) -> Iterator[str]:
    """Set lines in columns; where they are too wide, the first column stands before each part."""
    wide = [max(map(len, column)) + _GAP for column in zip(*lines, strict=True)]
    start = 1
    while start < len(wide):
        end = start + 1
        while end < len(wide) and wide[0] + sum(wide[start : end + 1]) <= width():
            end += 1
        yield "\n".join(_line(line, wide, (0, *range(start, end))) for line in lines)
        start = end


def _line(line: Sequence[str], wide: Sequence[int], columns: Sequence[int]) -> str:
    first, *others = columns
    cells = [line[first].ljust(wide[first]), *(line[at].rjust(wide[at]) for at in others)]
    return "".join(cells).rstrip()


def _sources(table: SizingTable) -> Iterator[str]:
    """Name each source once, with the measures it gives."""
    by_source: dict[str, list[str]] = {}
    for name, row in table.rows.items():
        by_source.setdefault(row.source.full, []).append(_spaced(name))
    for source, names in by_source.items():
        yield wrapped(f"{', '.join(names)}: {source}.", rest="  ")


def _spaced(name: str) -> str:
    return name.replace("_", " ")
