"""Tables back into TOML, with a header for each, as a knitter writes them."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

__all__ = ["as_toml", "as_value"]

Tables = Mapping[str, Any]


def as_toml(tables: Tables, *, under: str = "") -> str:
    """Write the plain values first, then each table under its header."""
    plain = {key: value for key, value in tables.items() if not _is_headed(value)}
    lines = [f"{_key(key)} = {as_value(value)}" for key, value in plain.items()]
    lines += [line for key, value in tables.items() if key not in plain for line in
              _headed(f"{under}{_key(key)}", value)]  # fmt: skip
    return "\n".join(lines)


def _is_headed(value: object) -> bool:
    if isinstance(value, list):
        return bool(value) and all(isinstance(item, dict) for item in value)
    return isinstance(value, dict)


def _headed(name: str, value: Any) -> Iterator[str]:
    for table in value if isinstance(value, list) else [value]:
        yield f"\n[[{name}]]" if isinstance(value, list) else f"\n[{name}]"
        yield as_toml(table, under=f"{name}.")


def _key(name: str) -> str:
    is_bare = name.isascii() and name.replace("-", "").replace("_", "").isalnum()
    return name if is_bare else _quoted(name)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def as_value(value: Any) -> str:
    """Write a value on as few lines as the longest that a file may have allows."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_key(k)} = {as_value(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ",\n".join(map(as_value, value)) + "]"
    if isinstance(value, bool | str):
        return _quoted(value) if isinstance(value, str) else str(value).lower()
    return str(value)
