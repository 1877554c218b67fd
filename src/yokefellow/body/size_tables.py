"""The sizing tables, `sizing_tables/*.toml`: read once, checked, turned into cm.

How such a file is written stands at the head of `sizing_tables/women.toml`.
"""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Mapping
from functools import cache
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple

from yokefellow.body.measurements import MEASURES
from yokefellow.findings import Finding, Severity, YokefellowError
from yokefellow.package_data import package_folder
from yokefellow.project_file.models import BODY_LENGTHS
from yokefellow.quantities import CM_PER_INCH, LengthUnit


class Source(NamedTuple):
    """Where a row comes from."""

    short: str
    """In a few words, for a sentence."""
    full: str
    """Author, title, year; or that it is common practice."""


class Row(NamedTuple):
    """One measure for every size of a table, in cm."""

    name: str
    low_cm: tuple[float, ...]
    high_cm: tuple[float, ...]
    """The same as `low_cm` where the source gives one number."""
    middle_cm: tuple[float, ...]
    unit: LengthUnit
    """The unit in which the source gives it."""
    source: Source
    sure: str
    """How well the numbers are known, in words."""
    note: str
    by: str
    """The measure by which it is filled: `chest`, or another row that goes by the chest."""
    moves_with: str
    """The row with whose departure from the table it shifts; empty when with none."""
    spread_cm: tuple[float, ...]
    """One standard deviation among bodies alike in `by`, for each size; empty when unknown."""
    spread_source: str
    surveyed_cm: tuple[float, ...]
    """What a survey measured on bodies of each size; empty when unknown."""
    surveyed_source: str


class SizingTable(NamedTuple):
    """One group of bodies."""

    name: str
    """As written in `wearer.table`: the name of its file."""
    title: str
    size_word: str
    """What a size counts (`months`); empty when it is only a name."""
    sizes: tuple[str, ...]
    """From small to large."""
    rows: Mapping[str, Row]
    """Every name of `MEASURES`, and `neck_to_cuff`, which is shown and not used."""
    body_lengths: Mapping[str, float]
    """Named body lengths as cm below the waist; negative above it."""
    body_lengths_source: Source
    body_lengths_sure: str
    elbow_share: float
    """The elbow's place as a share of underarm to wrist."""
    elbow_source: Source
    elbow_sure: str

    def middle_cm(self, name: str, size: str) -> float:
        """Give the middle of one entry."""
        return self.rows[name].middle_cm[self.sizes.index(size)]

    def size_words(self, shown: str) -> str:
        """Name sizes in a sentence: `women M–L`, `babies 6–12 months`."""
        return " ".join(word for word in (self.name, shown, self.size_word) if word)


_SHOWN_ONLY = ("neck_to_cuff",)
"""Rows a table may have that no room asks for."""

_ROW_KEYS = (
    "unit",
    "by",
    "moves_with",
    "sizes",
    "source",
    "sure",
    "note",
    "spread_cm",
    "spread_source",
    "surveyed_cm",
    "surveyed_source",
)
_TABLE_KEYS = ("title", "size_word", "sizes", "sources", "body_lengths", "elbow", "measures")
_CM = MappingProxyType({"cm": 1.0, "in": CM_PER_INCH})


class TableError(YokefellowError):
    """A sizing table was edited wrongly."""


class _SlipError(Exception):
    """What is wrong in a file, before the file's name is known."""


def read_table(path: Path) -> SizingTable:
    """Read one sizing table.

    Raises:
        TableError: the file is no TOML, a row or a size is missing, unknown or no
            length, or a column does not grow where it must.
    """
    try:
        with path.open("rb") as file:
            return _table(path.stem, tomllib.load(file))
    except (_SlipError, tomllib.TOMLDecodeError, UnicodeDecodeError) as slip:
        finding = Finding(
            "sizing.table",
            Severity.ERROR,
            f"sizing_tables/{path.name}",
            f"{slip}.",
            "Put it right as the head of sizing_tables/women.toml describes.",
        )
        raise TableError([finding]) from slip


def _table(name: str, said: Mapping[str, Any]) -> SizingTable:
    _known(said, _TABLE_KEYS, "the file")
    sizes = _sizes(said.get("sizes"))
    sources = {
        key: Source(_text(given, "short", f"source {key}"), _text(given, "full", f"source {key}"))
        for key, given in _section(said, "sources", "the file").items()
    }
    rows = {
        key: _row(key, given, sizes, sources)
        for key, given in _section(said, "measures", "the file").items()
    }
    _check_rows(rows, sizes)
    lengths = _section(said, "body_lengths", "the file")
    elbow = _section(said, "elbow", "the file")
    return SizingTable(
        name=name,
        title=_text(said, "title", "the file"),
        size_word=_text_or_none(said, "size_word", "the file"),
        sizes=sizes,
        rows=MappingProxyType(rows),
        body_lengths=MappingProxyType(_body_lengths(lengths)),
        body_lengths_source=_source(lengths, sources, "body_lengths"),
        body_lengths_sure=_text(lengths, "sure", "body_lengths"),
        elbow_share=_share(elbow),
        elbow_source=_source(elbow, sources, "elbow"),
        elbow_sure=_text(elbow, "sure", "elbow"),
    )


def _row(name: str, said: Any, sizes: tuple[str, ...], sources: Mapping[str, Source]) -> Row:
    row = f"row {name}"
    if not isinstance(said, Mapping):
        raise _SlipError(f"{row} is no section [measures.{name}]")
    _known(said, _ROW_KEYS, row)
    factor = _unit(said, row)
    ends = [_ends(cell, f"{row}, size {size}") for size, cell in _cells(said, sizes, row)]
    low = tuple(end[0] * factor for end in ends)
    high = tuple(end[1] * factor for end in ends)
    return Row(
        name=name,
        low_cm=low,
        high_cm=high,
        middle_cm=tuple((a + b) / 2 for a, b in zip(low, high, strict=True)),
        unit=said["unit"],
        source=_source(said, sources, row),
        sure=_text(said, "sure", row),
        note=_text_or_none(said, "note", row),
        by=_text_or_none(said, "by", row) or "chest",
        moves_with=_text_or_none(said, "moves_with", row),
        spread_cm=_beside(said, "spread_cm", sizes, row),
        spread_source=_text(said, "spread_source", row) if "spread_cm" in said else "",
        surveyed_cm=_beside(said, "surveyed_cm", sizes, row),
        surveyed_source=_text(said, "surveyed_source", row) if "surveyed_cm" in said else "",
    )


def _check_rows(rows: Mapping[str, Row], sizes: tuple[str, ...]) -> None:
    for name in MEASURES:
        if name not in rows:
            raise _SlipError(f"row {name} is missing")
    for name, row in rows.items():
        if name not in MEASURES and name not in _SHOWN_ONLY:
            raise _SlipError(f"row {name} is none of {', '.join((*MEASURES, *_SHOWN_ONLY))}")
        for leader in filter(None, (row.by, row.moves_with)):
            if not _leads(rows, leader):
                raise _SlipError(
                    f"row {name} follows {leader!r}, which is no row that goes by the chest"
                )
        _check_grows(rows[row.by], sizes)


def _leads(rows: Mapping[str, Row], name: str) -> bool:
    """Tell whether other rows may follow this one: it must be filled before them."""
    return name in rows and rows[name].by == "chest" and not rows[name].moves_with


def _check_grows(row: Row, sizes: tuple[str, ...]) -> None:
    for size, (one, other) in zip(sizes[1:], pairwise(row.middle_cm), strict=True):
        if other <= one:
            raise _SlipError(f"row {row.name}, size {size}: not larger than the size before it")


def _sizes(said: Any) -> tuple[str, ...]:
    named = isinstance(said, list) and all(isinstance(size, str) and size for size in said)
    if not named or len(said) < 2 or len({size.casefold() for size in said}) < len(said):
        raise _SlipError("sizes is no list of at least two different names")
    return tuple(said)


def _cells(said: Mapping[str, Any], sizes: tuple[str, ...], row: str) -> list[tuple[str, Any]]:
    cells = _section(said, "sizes", row)
    for size in cells:
        if size not in sizes:
            raise _SlipError(f"{row}, size {size}: this table has no such size")
    for size in sizes:
        if size not in cells:
            raise _SlipError(f"{row}, size {size}: missing")
    return [(size, cells[size]) for size in sizes]


def _ends(cell: Any, where: str) -> tuple[float, float]:
    ends = cell if isinstance(cell, list) else [cell]
    numbers = [_positive(end, where) for end in ends]
    if len(numbers) not in {1, 2} or numbers[0] > numbers[-1]:
        raise _SlipError(f"{where}: {cell!r} is neither a number nor [low, high]")
    return numbers[0], numbers[-1]


def _beside(
    said: Mapping[str, Any], key: str, sizes: tuple[str, ...], row: str
) -> tuple[float, ...]:
    """Read a column of plain cm beside the row's own: one number, or one for every size."""
    given = said.get(key)
    if given is None:
        return ()
    if not isinstance(given, Mapping):
        return (_positive(given, f"{row}, {key}"),) * len(sizes)
    cells = _cells({"sizes": given}, sizes, f"{row}, {key}")
    return tuple(_positive(cell, f"{row}, {key}, size {size}") for size, cell in cells)


def _body_lengths(said: Mapping[str, Any]) -> dict[str, float]:
    factor = _unit(said, "body_lengths")
    below = _section(said, "below_waist", "body_lengths")
    if tuple(below) != BODY_LENGTHS:
        raise _SlipError(f"body_lengths, below_waist: not {', '.join(BODY_LENGTHS)} in this order")
    numbers = {name: _number(given, f"body_lengths, {name}") for name, given in below.items()}
    for one, other in pairwise(numbers):
        if numbers[other] <= numbers[one]:
            raise _SlipError(f"body_lengths, {other}: not longer than {one}")
    return {name: number * factor for name, number in numbers.items()}


def _share(said: Mapping[str, Any]) -> float:
    share = _number(said.get("share"), "elbow, share")
    if not 0 < share < 1:
        raise _SlipError(f"elbow, share: {share:g} is not between 0 and 1")
    return share


def _unit(said: Mapping[str, Any], where: str) -> float:
    unit = said.get("unit")
    if not isinstance(unit, str) or unit not in _CM:
        raise _SlipError(f"{where}: the unit is {unit!r}, not 'cm' or 'in'")
    return _CM[unit]


def _source(said: Mapping[str, Any], sources: Mapping[str, Source], where: str) -> Source:
    key = _text(said, "source", where)
    if key not in sources:
        raise _SlipError(f"{where}: the source {key!r} is not among [sources]")
    return sources[key]


def _section(said: Mapping[str, Any], key: str, where: str) -> Mapping[str, Any]:
    given = said.get(key)
    if not isinstance(given, Mapping):
        raise _SlipError(f"{where}: {key} is missing or no section")
    return given


def _text(said: Any, key: str, where: str) -> str:
    given = said.get(key) if isinstance(said, Mapping) else None
    if not isinstance(given, str) or not given.strip():
        raise _SlipError(f"{where}: {key} is missing or no text")
    return given


def _text_or_none(said: Mapping[str, Any], key: str, where: str) -> str:
    return _text(said, key, where) if key in said else ""


def _positive(given: Any, where: str) -> float:
    number = _number(given, where)
    if number <= 0:
        raise _SlipError(f"{where}: {given!r} is not above zero")
    return number


def _number(given: Any, where: str) -> float:
    number = isinstance(given, (int, float)) and not isinstance(given, bool)
    if not number or not math.isfinite(given):
        raise _SlipError(f"{where}: {given!r} is no number")
    return float(given)


def _known(said: Mapping[str, Any], allowed: tuple[str, ...], where: str) -> None:
    for key in said:
        if key not in allowed:
            raise _SlipError(f"{where}: {key} is none of {', '.join(allowed)}")


@cache
def sizing_table(name: str) -> SizingTable:
    """Read one sizing table, by the name of its group.

    Raises:
        TableError: as `tables`.
    """
    return read_table(package_folder("sizing_tables") / f"{name}.toml")


@cache
def tables() -> Mapping[str, SizingTable]:
    """Read every sizing table, the one with the smallest bodies first.

    Raises:
        TableError: a file was edited wrongly; it names the file, the row and the size.
    """
    read = [
        sizing_table(path.stem) for path in sorted(package_folder("sizing_tables").glob("*.toml"))
    ]
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
