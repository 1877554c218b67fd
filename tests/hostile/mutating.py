"""Changes a file by its structure: values, fields and tables, guided by the JSON Schema.

Where a change of single bytes nearly always ends in a file that is no TOML, a
change of its tables ends in another sweater, or in a refusal further in.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from random import Random
from typing import Any, TypeAlias

from tests.hostile.tables import as_toml
from tests.hostile.words import WORDS

__all__ = ["Slot", "mixed", "mutated", "slots"]

Schema: TypeAlias = Mapping[str, Any]

ODD: tuple[Any, ...] = (
    "", "0", "-1", "1/3", "38½", "1,5", "1.000", "99 m", "7 g", "4 mm", "US 4", "30 over 4 in",
    "1 over 10 cm", "spread", 0, -1, 1, 1e9, 0.001, float("nan"), float("inf"), True, False, [], {},
    [[]], [{}], "2025-03-01", 10**15,
)  # fmt: skip
NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


@dataclass(frozen=True)
class Slot:
    """A place in the tables where something stands, and what the schema says of it."""

    holder: Any
    """The table or the list."""
    key: Any
    schema: Schema

    @property
    def value(self) -> Any:
        return self.holder[self.key]


def slots(tables: Any, schema: Schema, root: Schema) -> Iterator[Slot]:
    """Find every place, each table before what stands in it."""
    schema = _resolved(schema, root)
    pairs = list(enumerate(tables)) if isinstance(tables, list) else list(tables.items())
    for key, value in pairs:
        inner = _inside(schema, key, root)
        yield Slot(tables, key, inner)
        if isinstance(value, dict | list):
            yield from slots(value, inner, root)


def _resolved(schema: Schema, root: Schema) -> Schema:
    while "$ref" in schema:
        schema = root["$defs"][schema["$ref"].rsplit("/", 1)[1]]
    return schema


def _inside(schema: Schema, key: object, root: Schema) -> Schema:
    """Say what the schema knows of a key; nothing where it knows none."""
    for branch in (schema, *(_resolved(one, root) for one in schema.get("anyOf", ()))):
        found = branch.get("items") if isinstance(key, int) else _of_name(branch, str(key))
        if isinstance(found, dict):
            return _resolved(found, root)
    return {}


def _of_name(schema: Schema, name: str) -> object:
    if name in schema.get("properties", {}):
        return schema["properties"][name]
    named = [inner for how, inner in schema.get("patternProperties", {}).items()
             if re.search(how, name)]  # fmt: skip
    return named[0] if named else schema.get("additionalProperties")


def likely(schema: Schema, dice: Random, root: Schema) -> Any:
    """Make a value that the schema allows, often at one of its ends."""
    schema = _resolved(schema, root)
    if "anyOf" in schema and "properties" not in schema:
        return likely(dice.choice(schema["anyOf"]), dice, root)
    if "properties" in schema or "patternProperties" in schema:
        return _table(schema, dice, root)
    if "items" in schema:
        return [likely(schema["items"], dice, root) for _ in range(dice.choice((1, 1, 2, 3, 9)))]
    if known := [*schema.get("enum", ()), *schema.get("examples", ())]:
        return moved(dice.choice(known), dice)
    return _plain(schema, dice)


def _plain(schema: Schema, dice: Random) -> Any:
    kind = schema.get("type")
    if kind in ("integer", "number"):
        low = schema.get("minimum", schema.get("exclusiveMinimum", 0))
        high = schema.get("maximum", low + 120)
        number = dice.choice((low, high, dice.uniform(low, high), low + dice.randrange(60)))
        return int(number) if kind == "integer" else round(number, 2)
    if kind == "boolean":
        return dice.random() < 0.5
    return dice.choice([*WORDS.values(), "plain words"])[: schema.get("maxLength", 80)]


def _table(schema: Schema, dice: Random, root: Schema) -> dict[str, Any]:
    needed = schema.get("required", [])
    names = [name for name in schema.get("properties", ())
             if name in needed or dice.random() < 0.3]  # fmt: skip
    return {name: likely(schema["properties"][name], dice, root) for name in names}


def moved(value: Any, dice: Random) -> Any:
    """Move a number, or one number of a text, up or down by a little or a lot."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        return value
    if not isinstance(value, str):
        number = value * dice.choice((0.5, 0.9, 1, 1.1, 2)) + dice.choice((-1, 0, 0, 1))
        return int(number) if isinstance(value, int) and abs(number) < 1e15 else number
    found = list(NUMBER.finditer(value))
    if not found or dice.random() < 0.3:
        return value
    at = dice.choice(found)
    number = round(float(at[0]) * dice.choice((0.5, 0.8, 0.95, 1.05, 1.2, 2)), dice.randrange(3))
    return f"{value[: at.start()]}{number:g}{value[at.end() :]}"


Change: TypeAlias = Callable[[dict[str, Any], Schema, Random], None]


def _set_likely(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    slot = dice.choice(list(slots(tables, root, root)))
    slot.holder[slot.key] = likely(slot.schema, dice, root) if slot.schema else dice.choice(ODD)


def _move(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    leaves = [s for s in slots(tables, root, root) if not isinstance(s.value, dict | list)]
    slot = dice.choice(leaves or list(slots(tables, root, root)))
    slot.holder[slot.key] = _rows(slot.value, dice) if "\n" in str(slot.value) else moved(
        slot.value, dice)  # fmt: skip


def _set_odd(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    slot = dice.choice(list(slots(tables, root, root)))
    slot.holder[slot.key] = deepcopy(dice.choice([*ODD, *WORDS.values()]))


def _take_out(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    slot = dice.choice(list(slots(tables, root, root)))
    del slot.holder[slot.key]


def _add(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    """Add a field that some table may have and has not."""
    places = [
        (tables, root),
        *((s.value, s.schema) for s in slots(tables, root, root) if isinstance(s.value, dict)),
    ]
    missing = [
        (table, name, inner)
        for table, schema in places
        for name, inner in schema.get("properties", {}).items()
        if name not in table
    ]
    if missing:
        table, name, inner = dice.choice(missing)
        table[name] = likely(inner, dice, root)


def _again(tables: dict[str, Any], root: Schema, dice: Random) -> None:
    """Double something of a list, turn the list round, or give a table another name."""
    slot = dice.choice(list(slots(tables, root, root)))
    if isinstance(slot.holder, list):
        slot.holder.insert(dice.randrange(len(slot.holder) + 1), deepcopy(slot.value))
    elif isinstance(slot.value, list):
        slot.value.reverse()
    elif isinstance(slot.value, dict):
        slot.holder[dice.choice(("CC1", "CC2", "CC3", "dots", "pebbles"))] = deepcopy(slot.value)


def _rows(text: str, dice: Random) -> str:
    """Change a drawn chart: a mark, a row, a column."""
    rows = text.splitlines() or [""]
    at = dice.randrange(len(rows))
    how = dice.randrange(5)
    marks = sorted(set(text) - {"\n"} | set(".#v-"))
    if how == 0 and rows[at]:
        column = dice.randrange(len(rows[at]))
        rows[at] = rows[at][:column] + dice.choice(marks) + rows[at][column + 1 :]
    elif how == 1:
        rows.insert(at, dice.choice(rows))
    elif how == 2:
        del rows[at]
    elif how == 3:
        column = dice.randrange(len(rows[at]) + 1)
        wider = rows if dice.random() < 0.5 else rows[at:]
        rows[len(rows) - len(wider) :] = [row[:column] + dice.choice(marks) + row[column:]
                                          for row in wider]  # fmt: skip
    else:
        rows[at] = dice.choice(("MC: ", "CC1: ", "CC2: ", rows[at])) + rows[at]
    return "\n".join(rows) + "\n"


CHANGES: tuple[Change, ...] = (
    _set_likely, _set_likely, _move, _move, _move, _add, _add, _take_out, _again, _set_odd,
)  # fmt: skip


def mutated(file: bytes, root: Schema, dice: Random) -> bytes | None:
    """Change the tables of a file once or a few times; None where it has none to change."""
    tables = _tables(file)
    if not tables:
        return None
    for _ in range(dice.choice((1, 1, 1, 2, 4))):
        if tables:
            dice.choice(CHANGES)(tables, root, dice)
    return as_toml(tables).encode("utf-8", "replace")


def mixed(file: bytes, other: bytes, dice: Random) -> bytes | None:
    """Put tables of one file in the place of those of another; None where there are none."""
    tables, others = _tables(file), _tables(other)
    if not tables or not others:
        return None
    name = dice.choice(list(others))
    if isinstance(tables.get(name), dict) and isinstance(others[name], dict):
        inner = dice.choice(list(others[name]) or [None])
        tables[name] |= {} if inner is None else {inner: others[name][inner]}
    else:
        tables[name] = others[name]
    return as_toml(tables).encode("utf-8", "replace")


def _tables(file: bytes) -> dict[str, Any] | None:
    try:
        return tomllib.loads(file.decode())
    except (ValueError, RecursionError):
        return None
