"""One sizing table from its file: read, checked, turned into cm."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path
from types import MappingProxyType
from typing import Any

from yokefellow.findings import Finding, Severity, YokefellowError
from yokefellow.project.models import BODY_LENGTHS
from yokefellow.sizing.figures import MEASURES
from yokefellow.sizing.table import Row, SizingTable, Source
from yokefellow.units import CM_PER_INCH

__all__ = ["TableError", "read_table"]

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
