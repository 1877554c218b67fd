"""The sizing tables: `sizing_tables/*.toml`, checked and read once.

How such a file is written stands at the head of `sizing_tables/women.toml`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from yokefellow.shelf import shelf
from yokefellow.sizing.reading import TableError, read_table
from yokefellow.sizing.table import Row, SizingTable, Source

__all__ = [
    "Row",
    "SizingTable",
    "Source",
    "TableError",
    "nearest_size",
    "size_meant",
    "size_named",
    "sizing_table",
    "tables",
]


@cache
def sizing_table(name: str) -> SizingTable:
    """Read one sizing table, by the name of its group.

    Raises:
        TableError: as `tables`.
    """
    return read_table(shelf("sizing_tables") / f"{name}.toml")


@cache
def tables() -> Mapping[str, SizingTable]:
    """Read every sizing table, the one with the smallest bodies first.

    Raises:
        TableError: a file was edited wrongly; it names the file, the row and the size.
    """
    read = [sizing_table(path.stem) for path in sorted(shelf("sizing_tables").glob("*.toml"))]
    read.sort(key=lambda table: table.rows["chest"].middle_cm[0])
    return MappingProxyType({table.name: table for table in read})


def size_named(table: SizingTable, given: str) -> str | None:
    """Find the size a knitter names, in any case, with or without the size word.

    >>> size_named(tables()["women"], "1x"), size_named(tables()["babies"], "6 Months")
    ('1X', '6')
    """
    wanted = given.strip().casefold()
    if table.size_word:
        wanted = wanted.removesuffix(table.size_word.casefold()).strip()
    return next((size for size in table.sizes if size.casefold() == wanted), None)


_SIZE_WORDS = MappingProxyType(
    {
        "extra small": "xs", "x-small": "xs", "xsmall": "xs", "small": "s",
        "medium": "m", "med": "m", "large": "l", "extra large": "xl", "x-large": "xl",
    }
)  # fmt: skip


def size_meant(table: SizingTable, given: str) -> str | None:
    """Guess the size behind a name the table has not: a word, or another way to count the X.

    >>> size_meant(tables()["women"], "Medium"), size_meant(tables()["women"], "XXL")
    ('M', '2X')
    """
    word = " ".join(given.casefold().split()).removeprefix("size ").removesuffix(" size")
    word = _SIZE_WORDS.get(word, word)
    many = re.fullmatch(r"([2-9])xl?|(x+)l|1x", word)
    if many:
        count = int(many[1]) if many[1] else len(many[2] or "x")
        ways = [f"{count}X", f"{count}XL", "XL" if count == 1 else ""]
    else:
        ways = [word, re.sub(r"^age | ?(years?( old)?|yrs?|months?|mos?|[ytm])$", "", word)]
    return next((size for way in ways if way and (size := size_named(table, way))), None)


def nearest_size(table: SizingTable, chest_cm: float) -> str:
    """Give the size whose middle chest is nearest; between two, the larger."""
    middles = table.rows["chest"].middle_cm
    gaps = [(abs(middle - chest_cm), -index) for index, middle in enumerate(middles)]
    return table.sizes[-min(gaps)[1]]
