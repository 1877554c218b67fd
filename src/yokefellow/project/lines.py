"""Where in a project file a key stands: a simple scan, silent where it is not sure."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from typing import TypeAlias

__all__ = ["Lines", "find_line", "key_lines"]

Lines: TypeAlias = dict[tuple[str | int, ...], int]
"""The line of each place in a file, counted from 1."""

_HEADER = re.compile(r"\s*\[([^\[\]\"']+)\]\s*(?:#.*)?$")
_ITEM = re.compile(r"\s*\[\[([^\[\]\"']+)\]\]\s*(?:#.*)?$")
_KEY = re.compile(r"\s*([A-Za-z0-9_-]+(?:\s*\.\s*[A-Za-z0-9_-]+)*)\s*=(.*)$")
_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'')


def key_lines(text: str) -> Lines:
    """Give the line of each table header and each plain key, counted from 1.

    Quoted keys, keys inside an inline table, and whatever stands within a text
    of several lines are not looked for.
    """
    found: Lines = {}
    items: Counter[tuple[str, ...]] = Counter()
    table: tuple[str | int, ...] = ()
    until = ""
    depth = 0
    for line_number, line in enumerate(text.splitlines(), start=1):
        if until:
            until = "" if until in line else until
            continue
        key = _KEY.match(line) if depth == 0 else None
        header = (_HEADER.match(line) or _ITEM.match(line)) if depth == 0 else None
        if header:
            table = _parts(header[1])
            if header.re is _ITEM:
                items[table] += 1
                table = (*table, items[table] - 1)
            found.setdefault(table, line_number)
            continue
        if key:
            found.setdefault((*table, *_parts(key[1])), line_number)
        bare = _QUOTED.sub("", (key[2] if key else line).replace('"""', "\0").replace("'''", "\1"))
        until = '"""' if bare.count("\0") % 2 else "'''" if bare.count("\1") % 2 else ""
        bare = bare.partition("#")[0]
        depth = max(0, depth + sum(map(bare.count, "[{")) - sum(map(bare.count, "]}")))
    return found


def _parts(dotted: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in dotted.split("."))


def find_line(lines: Lines, place: Sequence[str | int]) -> int | None:
    """Give the line of the key at `place`, or of the list it is an item of; None when not seen."""
    if tuple(place) in lines:
        return lines[tuple(place)]
    keys = tuple(part for part in place if isinstance(part, str))
    return lines.get(keys)
