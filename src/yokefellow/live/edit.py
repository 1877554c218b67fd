"""Changing one field in the text of a project file, with every remark kept.

A line that is there is changed in its place; a remark `# key = ...` under its table is woken; a
table that stands behind a `#` is opened. What cannot be done line by line is done by tomlkit. The
text is read back, and refused unless exactly the fields that were to change have changed.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any, TypeAlias

import tomlkit
from tomlkit.items import Table

Changes: TypeAlias = Mapping[str, str | None]
"""By the dotted field, what is to stand there as TOML; None takes the field out."""

Tables: TypeAlias = dict[str, Any]


class EditError(ValueError):
    """The text cannot be changed so without changing something else."""


def edited(text: str, changes: Changes) -> str:
    """Change fields in the text of a project file.

    Raises:
        EditError: a field stands inside something that cannot be changed alone.
    """
    for field, value in changes.items():
        text = _edited(text, field, value)
    return text


def _edited(text: str, field: str, value: str | None) -> str:
    try:
        wanted = _changed(tomllib.loads(text), field, value)
    except tomllib.TOMLDecodeError as problem:
        raise EditError(str(problem)) from None
    for attempt in (_by_line, _by_library):
        try:
            new = attempt(text, field, value)
            if _plain(tomllib.loads(new)) == _plain(wanted):
                return new
        except (tomllib.TOMLDecodeError, EditError, KeyError, TypeError, AttributeError):
            continue
    raise EditError(f"{field} cannot be changed alone")


def _changed(tables: Tables, field: str, value: str | None) -> Tables:
    """Give the tables as they must be afterwards."""
    *path, key = field.split(".")
    here = tables
    for step in path:
        here = here.setdefault(step, {})
        if not isinstance(here, dict):
            raise EditError(f"{field} stands in a list")
    if value is None:
        here.pop(key, None)
    else:
        here[key] = tomllib.loads(f"value = {value}")["value"]
    return tables


def _plain(tables: Any) -> Any:
    """Leave out tables that hold nothing: whether their heading stands there changes nothing."""
    if not isinstance(tables, dict):
        return tables
    inner = {name: _plain(one) for name, one in tables.items()}
    return {name: one for name, one in inner.items() if one != {}}


_HEADER = re.compile(r"\s*(?P<off>#\s*)?(?P<list>\[)?\[(?P<name>[A-Za-z0-9_. -]+)\]\]?\s*(?:#.*)?$")
_FILL_IN = "# FILL IN"


def _by_line(text: str, field: str, value: str | None) -> str:
    table, _, key = field.rpartition(".")
    lines = text.split("\n")
    first, last = _extent(lines, table)
    if first is None:
        if value is None:
            return text
        first, last = _opened(lines, table)
    place = _line_of(lines, key, first, last)
    if value is None:
        if place is not None and not lines[place].lstrip().startswith("#"):
            lines[place] = f"# {lines[place]}"
        return "\n".join(lines)
    if place is None:
        lines.insert(first, f"{key} = {value}")
        return "\n".join(lines)
    remark = _remark_behind(lines[place]) if not lines[place].lstrip().startswith("#") else ""
    lines[place] = f"{key} = {value}{remark}"
    if place > 0 and lines[place - 1].startswith(_FILL_IN):
        del lines[place - 1]
    return "\n".join(lines)


def _extent(lines: list[str], table: str) -> tuple[int | None, int]:
    """Give the first line below a table's heading, and the one after its last."""
    headers = list(_headers(lines))
    if not table:
        return 0, next((at for at, _, awake, _ in headers if awake), len(lines))
    for number, (at, name, awake, is_list) in enumerate(headers):
        if name == table and awake and not is_list:
            end = next((other for other, _, _, _ in headers[number + 1 :]), len(lines))
            return at + 1, end
    return None, 0


def _headers(lines: list[str]) -> Iterator[tuple[int, str, bool, bool]]:
    """Give line, name, whether it is awake, and whether it begins one of a list."""
    for at, line in enumerate(lines):
        read = _HEADER.match(line)
        if read:
            yield at, read["name"].strip(), not read["off"], bool(read["list"])


def _opened(lines: list[str], table: str) -> tuple[int, int]:
    """Begin a table: where its heading stands behind a #, or at the end."""
    for at, name, awake, is_list in _headers(lines):
        if name == table and not awake and not is_list:
            lines[at] = f"[{table}]"
            return _opened_extent(lines, table)
    if lines and lines[-1] == "":
        lines.pop()
    lines += ["", f"[{table}]", ""]
    return _opened_extent(lines, table)


def _opened_extent(lines: list[str], table: str) -> tuple[int, int]:
    first, last = _extent(lines, table)
    if first is None:
        raise EditError(f"[{table}] cannot be opened")
    return first, last


def _line_of(lines: list[str], key: str, first: int, last: int) -> int | None:
    """Find the line of a key, else the remark that shows it."""
    awake = re.compile(rf"\s*{re.escape(key)}\s*=")
    asleep = re.compile(rf"#\s*{re.escape(key)}\s*=")
    for looks in (awake, asleep):
        for at in range(first, last):
            if looks.match(lines[at]):
                return at
    return None


def _remark_behind(line: str) -> str:
    """Give what stands behind a value as a remark, with the blanks before it."""
    bare = re.sub(r"\"(?:[^\"\\]|\\.)*\"|'[^']*'", lambda quoted: "_" * len(quoted[0]), line)
    at = bare.find("#")
    if at < 0:
        return ""
    start = len(bare[:at].rstrip())
    return line[start:]


def _by_library(text: str, field: str, value: str | None) -> str:
    document = tomlkit.parse(text)
    *path, key = field.split(".")
    here: Any = document
    for step in path:
        if step not in here:
            here[step] = tomlkit.table()
        here = here[step]
    if value is None:
        if isinstance(here, (Table, dict)):
            here.pop(key, None)
    else:
        here[key] = tomlkit.parse(f"value = {value}")["value"]
    return tomlkit.dumps(document)
