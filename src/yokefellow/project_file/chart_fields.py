"""Field types of a chart: its rows, its marks, the yarns they stand for, its file."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from pathlib import PurePosixPath
from types import MappingProxyType

from yokefellow.findings import as_typed
from yokefellow.project_file.fields import Kind, RefusedError, Typed, fixed, in_its_place, is_hidden
from yokefellow.quantities import LengthUnit

MOST_ROWS, MOST_WIDTH = 200, 200
"""A yoke has fewer rounds than that, and a repeat that wide is no repeat."""

YARN_CODE = r"^(MC|CC[1-9])$"
"""The name of a yarn, as a pattern."""
CHART_NAME = r"^[A-Za-z0-9-]{1,40}$"
"""The name of a chart, as a pattern."""

ROUNDS_FROM_A_LINE = MappingProxyType({"mosaic": 2})
"""Rounds worked from each line of a chart when its file does not say; one in other kinds.

A mosaic line is worked twice: the second round works the stitches of the
first and slips the same ones (common practice).
"""

_LONGEST_ROW = MOST_WIDTH + 60
"""In letters: room for the yarn in front and some blanks between the marks."""
_FILE = re.compile(r"[^\\/:*?\"<>|]+(/[^\\/:*?\"<>|]+)*\.toml")
_MOST_MARKS = 30


def _table(given: object, what: str) -> dict[str, object]:
    if not isinstance(given, dict) or not given:
        raise RefusedError("value.colours", f"{as_typed(given)} is not {what}")
    if len(given) > _MOST_MARKS:
        raise RefusedError("value.colours", f"a table of {len(given)} is too long")
    return given


def _yarn(given: object) -> str:
    code = given.strip().upper() if isinstance(given, str) else ""
    if not re.fullmatch(YARN_CODE, code, re.ASCII):
        raise RefusedError("value.yarn-code", f"{as_typed(given)} is no name of a yarn")
    return code


def _is_mark(mark: str) -> bool:
    # What a printer puts on paper as one sign of its own; `:` ends the yarn in front of a row.
    # One that runs to the left would turn its row round.
    return (
        len(mark) == 1
        and mark != ":"
        and unicodedata.category(mark)[0] in "LNPS"
        and in_its_place(mark) == mark
    )


def _legend(given: object, _: LengthUnit) -> dict[str, str]:
    table = _table(given, "a table of marks and yarns")
    for mark in table:
        if not _is_mark(mark):
            raise RefusedError("value.mark", f"{as_typed(mark)} cannot be a mark of a chart")
    return {mark: _yarn(yarn) for mark, yarn in table.items()}


legend = Typed(
    _legend,
    {
        "type": "object",
        "minProperties": 1,
        "maxProperties": _MOST_MARKS,
        "propertyNames": {"pattern": r"^[^\s:]$"},
        "additionalProperties": {"type": "string", "pattern": YARN_CODE},
        "examples": [{".": "MC", "#": "CC1"}],
    },
    fixed("a table with one letter or sign for each yarn (not a colon), the yarns MC, CC1 to CC9"),
    fixed('{ "." = "MC", "#" = "CC1" }'),
)
"""Reads the marks of a chart: one character to one yarn."""


def _other_yarns(given: object, _: LengthUnit) -> dict[str, str]:
    table = _table(given, "a table of yarns")
    return {_yarn(chart): _yarn(yarn) for chart, yarn in table.items()}


other_yarns = Typed(
    _other_yarns,
    {
        "type": "object",
        "minProperties": 1,
        "propertyNames": {"pattern": YARN_CODE},
        "additionalProperties": {"type": "string", "pattern": YARN_CODE},
        "examples": [{"CC1": "CC2"}],
    },
    fixed("a table with the chart's yarn and the yarn to take for it, MC or CC1 to CC9"),
    fixed('{ CC1 = "CC2" }'),
)
"""Reads which yarns a chart is worked in, in place of its own."""


def _written(given: object) -> Iterator[str]:
    texts = [given] if isinstance(given, str) else given
    if not isinstance(texts, (list, tuple)):
        raise RefusedError("value.rows", f"{as_typed(given)} is not the rows of a chart")
    for text in texts:
        if not isinstance(text, str):
            raise RefusedError("value.rows", f"{as_typed(text)} is not a row of a chart")
        for line in text.splitlines():
            if any(is_hidden(letter) for letter in line):
                raise RefusedError("value.text-hidden", f"{as_typed(line)} cannot be printed")
            row = " ".join(line.split())
            if len(row) > _LONGEST_ROW:
                raise RefusedError("value.rows-long", f"the row {as_typed(row)} is too wide")
            if row:
                yield row


def _rows(given: object, _: LengthUnit) -> tuple[str, ...]:
    rows: list[str] = []
    for row in _written(given):
        if len(rows) == MOST_ROWS:
            raise RefusedError("value.rows-long", "the chart has too many rows")
        rows.append(row)
    if not rows:
        raise RefusedError("value.rows-empty", "the chart has no rows")
    return tuple(rows)


chart_rows = Typed(
    _rows,
    {
        "anyOf": [
            {"type": "string", "minLength": 1},
            {
                "type": "array",
                "minItems": 1,
                "maxItems": MOST_ROWS,
                "items": {"type": "string", "maxLength": _LONGEST_ROW},
            },
        ]
    },
    fixed(f"1 to {MOST_ROWS} rows of up to {MOST_WIDTH} marks: a text of several lines, or a list"),
    fixed('["#...", "....", "..#."]'),
)
"""Reads the rows of a chart, as one text or as a list; empty lines are dropped."""


def _chart_name(given: object, _: LengthUnit) -> str:
    if not isinstance(given, str) or not re.fullmatch(CHART_NAME, given.strip()):
        hyphened = "-".join(given.split()) if isinstance(given, str) else ""
        raise RefusedError(
            "value.chart-name",
            f"{as_typed(given)} is no name of a chart",
            instead=f'"{hyphened}"' if re.fullmatch(CHART_NAME, hyphened) else None,
        )
    return given.strip()


chart_name = Typed(
    _chart_name,
    {"type": "string", "pattern": CHART_NAME},
    fixed("a name of at most 40 letters, digits and hyphens"),
    fixed('"pebbles"'),
)
"""Reads the name of a chart."""


def _chart_file(given: object, _: LengthUnit) -> str:
    name = given.strip() if isinstance(given, str) else ""
    parts = PurePosixPath(name).parts
    plain = len(name) <= 120 and _FILE.fullmatch(name) and not any(map(is_hidden, name))
    if not plain or ".." in parts or name.startswith("~"):
        raise RefusedError("value.chart-file", f"{as_typed(given)} is no name of a chart's file")
    return name


chart_file = Typed(
    _chart_file,
    {"type": "string", "maxLength": 120, "pattern": r"^[^/\\~:][^\\:]*\.toml$"},
    fixed("a name ending in .toml, in the project file's own folder or in one inside it"),
    fixed('"pebbles.toml"'),
)
"""Reads the name of a chart's own file: relative, and never out of the folder."""


def whole(low: int, high: int, *, typical: int | tuple[int, ...]) -> Typed:
    """Read a whole number between two limits; `typical` is an example, or several for a list."""
    shown = (typical,) if isinstance(typical, int) else typical

    def read(given: object, _: LengthUnit) -> int:
        if isinstance(given, bool) or not isinstance(given, int):
            bare = given.strip() if isinstance(given, str) else ""
            raise RefusedError(
                "value.whole",
                f"{as_typed(given)} is not a whole number without quotes",
                instead=bare if re.fullmatch("[0-9]{1,6}", bare) else None,
            )
        if not low <= given <= high:
            side = "small" if given < low else "large"
            raise RefusedError("value.range", f"{as_typed(given)} is too {side}")
        return given

    return Typed(
        read,
        {"type": "integer", "minimum": low, "maximum": high},
        fixed(f"a whole number from {low} to {high}"),
        fixed(", ".join(map(str, shown))),
        Kind.COUNT,
        low=low,
        high=high,
    )
