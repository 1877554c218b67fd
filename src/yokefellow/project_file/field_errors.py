"""From what pydantic refuses to findings in the knitter's words."""

from __future__ import annotations

import difflib
import re
import typing
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any, TypeAlias

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.project_file.fields import Typed, remedy
from yokefellow.project_file.models import MOST_BANDS, Project
from yokefellow.project_file.pattern import MOST_SIZES
from yokefellow.project_file.pins import MOST_INCREASES
from yokefellow.project_file.toml_mistakes import (
    Lines,
    find_line,
    key_lines,
    remarked_headings,
)
from yokefellow.quantities import LengthUnit, QuantityError

Place: TypeAlias = Sequence[str | int]

_NAMES = MappingProxyType({"yarn": "MC", "charts": "NAME"})
"""A name to show for the tables that a knitter names herself."""

_MEANT: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "bust": ("chest",),
        "breast": ("chest",),
        "hips": ("hip",),
        "waistline": ("waist",),
        "arm": ("upper_arm",),
        "bicep": ("upper_arm",),
        "biceps": ("upper_arm",),
        "sleeve": ("arm_length", "length", "sleeves"),
        "sleeve_length": ("arm_length", "length"),
        "body_length": ("length", "back_hip_length"),
        "head_circumference": ("head",),
        "shoulders": ("shoulder_girth",),
        "weight": ("ball_weight",),
        "yardage": ("ball_length",),
        "metres": ("ball_length",),
        "yards": ("ball_length",),
        "skeins": ("balls",),
        "needle": ("main",),
        "size": ("main",),
        "rows": ("rounds",),
        "sts": ("stitches",),
        "fit": ("chest",),
    }
)
"""Other names of the trade, and the fields they may mean, the likeliest first."""

_MOST = 40
"""More findings than this help nobody; the rest is counted."""


def refusals(problem: ValidationError, *, text: str, unit: LengthUnit) -> tuple[Finding, ...]:
    """Give a finding for each error pydantic found, in the order of the file's tables.

    Args:
        problem: what pydantic raised for the whole project.
        text: the file, for the lines at which its fields stand.
        unit: the file's own unit, for limits and examples.
    """
    lines = key_lines(text)
    findings, errors = _headings_left_out(_causes(problem), text)
    findings += [_finding(error, lines, unit) for error in errors[:_MOST]]
    if len(errors) > _MOST:
        more = f"{len(errors) - _MOST} more errors are not shown."
        findings.append(
            Finding("file.many-errors", Severity.ERROR, "", more, "Put these right first.")
        )
    return tuple(findings)


def _causes(problem: ValidationError) -> list[ErrorDetails]:
    """Leave out the list that is too short only because what stands in it was refused."""
    errors = problem.errors(include_url=False)
    above = {
        error["loc"][:at]
        for error in errors
        for at, part in enumerate(error["loc"])
        if isinstance(part, int)
    }
    return [e for e in errors if not (e["type"] == "too_short" and e["loc"] in above)]


def _headings_left_out(
    errors: Sequence[ErrorDetails], text: str
) -> tuple[list[Finding], list[ErrorDetails]]:
    """Find fields that stand under the wrong table because their own begins with a `#`."""
    remarked = remarked_headings(text)
    lines = key_lines(text)
    opened: dict[str, int] = {}
    left = []
    for error in errors:
        table = _table_of(error["loc"]) if error["type"] == "extra_forbidden" else None
        line = find_line(lines, error["loc"])
        if table in remarked and line is not None and remarked[table] < line:
            opened[table] = remarked[table]
        else:
            left.append(error)
    roots = {table.partition(".")[0] for table in opened}
    left = [e for e in left if not (e["type"] == "missing" and e["loc"][0] in roots)]
    findings = [
        Finding(
            "toml.heading-remarked",
            Severity.ERROR,
            table,
            f"[{table}] stands behind a # in line {line}, and the fields below it are read as "
            "another table's.",
            f"Take away the # before [{table}].",
        )
        for table, line in opened.items()
    ]
    return findings, left


def _table_of(place: Place) -> str | None:
    """Name the table a field of this name belongs to, when it is not known where it stands."""
    key = _plain(str(place[-1]))
    return next((table for table, names in _tables() if key in names), None)


def dotted(place: Place) -> str:
    """Write a place as the knitter reads it: `swatch.plain.washed.stitches[2]`, counted from 1."""
    written = ""
    for part in place:
        if isinstance(part, int):
            written += f"[{part + 1}]"
        elif part != "[key]":
            shown = as_typed(part)[1:-1]
            written += f".{shown}" if written else shown
    return written


def _finding(error: Mapping[str, Any], lines: Lines, unit: LengthUnit) -> Finding:
    place: Place = error["loc"]
    code, said, remedy = _said(error, place, unit)
    line = find_line(lines, place)
    stands = f" (line {line})" if line is not None else ""
    return Finding(code, Severity.ERROR, dotted(place), f"{said}{stands}.", remedy)


def _said(error: Mapping[str, Any], place: Place, unit: LengthUnit) -> tuple[str, str, str]:
    """Give code, what is so, and remedy of one error."""
    cause = error.get("ctx", {}).get("error")
    typed = typed_at(place)
    if isinstance(cause, QuantityError) and typed is not None:
        said = f"{cause}; allowed is {typed.allowed(unit)}"
        given = error["input"]
        if tuple(place[:2]) == ("pattern", "sizes") and isinstance(given, list) and given:
            own = f"{place[-1]} = {as_typed(given[0])}"
            return cause.code, said, f"{_EACH_SIZE}, and give each its own: {own}."
        return cause.code, said, remedy(cause, typed, unit, lambda value: _assignment(place, value))
    if error["type"] == "extra_forbidden":
        return _unknown(place, error["input"])
    if error["type"] == "missing":
        return _missing(place, typed, unit)
    return _wrong_shape(error, place, unit)


def _assignment(place: Place, example: str) -> str:
    if isinstance(place[-1], int):
        return f"{place[-2]} = [{example}]"
    return f"{place[-1]} = {example}"


def _table(place: Place) -> str:
    """Write the line that begins the table at `place`."""
    if isinstance(place[-1], int):
        return f"[[{dotted(place[:-1])}]]"
    return f"[{dotted(place)}]"


_EACH_SIZE = "Begin each size with [[pattern.sizes]] on a line"


def _missing(place: Place, typed: Typed | None, unit: LengthUnit) -> tuple[str, str, str]:
    where = f" under {_table(place[:-1])}" if len(place) > 1 else ""
    said = "This is missing, and no sweater can be planned without it"
    if typed is not None:
        return "field.missing", said, f"Type{where}: {_assignment(place, typed.example(unit))}."
    if place[-1] in {"stitches", "rounds"}:
        return "field.missing", said, f"Type{where}: {_list_example(place, unit)}."
    if place[-1] == "sizes":
        how = f"{_EACH_SIZE}; yokefellow begin FILE --pattern writes a file that shows how."
        return "field.missing", said, how
    table = "yarn.MC" if place[-1] == "yarn" else dotted(place)
    if place[-1] in {"swatch", "plain"}:
        table = "swatch.plain.washed"
    return "field.missing", said, f"Add the table [{table}] with its lines; a fresh file shows it."


def _unknown(place: Place, given: object) -> tuple[str, str, str]:
    said = f"This name is not known here; its value is {as_typed(given)}"
    key = str(place[-1])
    here = _names_at(place[:-1])
    meant = _MEANT.get(_plain(key), ())
    near = next((name for name in meant if name in here), None) or _nearest(key, here)
    if near:
        return "field.unknown", said, f"Did you mean {near}?"
    within = f"{dotted(place[:-1])}."
    for table, names in _tables():
        if table.removeprefix("[").startswith(within) and _plain(key) in names:
            return "field.unknown", said, f"It belongs under [{table}]."
    if _plain(key) in Project.model_fields:
        return "field.unknown", said, "It belongs at the top of the file, before the first table."
    for name in (_plain(key), *meant):
        for table, names in _tables():
            if name in map(_plain, names):
                there = f"It belongs under [{table}]"
                called = "" if name == _plain(key) else f", where it is called {name}"
                return "field.unknown", said, f"{there}{called}."
    listed = ", ".join(here)
    return "field.unknown", said, f"Known here: {listed}." if here else "Take the line out."


def _plain(key: str) -> str:
    return key.lower().replace("-", "_").replace(" ", "_")


def _nearest(key: str, names: Sequence[str]) -> str | None:
    by_plain = {_plain(name): name for name in names}
    near = difflib.get_close_matches(_plain(key)[:60], by_plain, n=1, cutoff=0.6)
    return by_plain[near[0]] if near else None


def _wrong_shape(error: Mapping[str, Any], place: Place, unit: LengthUnit) -> tuple[str, str, str]:
    """Say that a table, a list or a yarn's name is not what belongs there."""
    given, kind = error["input"], error["type"]
    if kind == "string_pattern_mismatch":
        return _wrong_name(place)
    if kind in {"too_short", "too_long"}:
        wrong = "holds nothing" if kind == "too_short" else "is too long"
        if place[-1] == "bands":
            said = f"The list {wrong}; allowed are up to {MOST_BANDS} bands"
            return "field.list-length", said, "Take out bands, or join charts into one."
        if place[-1] in {"increases", "increase_at"}:
            said = f"The list {wrong}; allowed are up to {MOST_INCREASES} increase rounds"
            return "field.list-length", said, "Look at the list again."
        if place[-1] == "sizes":
            said = f"The list {wrong}; allowed are 1 to {MOST_SIZES} sizes"
            return "field.list-length", said, f"{_EACH_SIZE}."
        said = f"The list {wrong}; allowed is 1 to 20 readings"
        return "field.list-length", said, f"Type, for example: {_list_example(place, unit)}."
    if kind == "tuple_type" and place[-1] == "bands":
        said = f"{as_typed(given)} stands where a list of bands belongs"
        return "field.not-a-list", said, f"Begin each band with [[{dotted(place)}]] on a line."
    if kind == "tuple_type" and place[-1] == "sizes":
        said = f"{as_typed(given)} stands where a list of sizes belongs"
        return "field.not-a-list", said, f"{_EACH_SIZE}."
    if kind == "tuple_type":
        what = "counts" if place[-1] in {"increases", "increase_at"} else "readings"
        said = f"{as_typed(given)} is not a list; allowed is a list of {what} in [ ]"
        return "field.not-a-list", said, _as_list(given, place, unit)
    said = f"{as_typed(given)} stands where a table belongs"
    return "field.not-a-table", said, f"Write {_table(place)} on a line, and its fields below."


def _wrong_name(place: Place) -> tuple[str, str, str]:
    """Say that a table of yarns or charts has a name that none may have."""
    name = as_typed(place[-2])
    if place[0] == "charts":
        return (
            "charts.name",
            f"{name} is no name of a chart; allowed are at most 40 letters, digits and hyphens",
            "Call it, for example, [charts.pebbles], and name it so in its band.",
        )
    return (
        "yarn.name",
        f"{name} is no name of a yarn; allowed is MC, or CC1 to CC9",
        "Call the main colour [yarn.MC] and the others [yarn.CC1], [yarn.CC2] and so on.",
    )


_COUNTS = re.compile(r"\s*[0-9]{1,4}(?:[\s,;]+[0-9]{1,4}){1,29}\s*")


def _as_list(given: object, place: Place, unit: LengthUnit) -> str:
    """Set brackets round what would be right within them, or show what would be."""
    typed, text = typed_at((*place, 0)), str(given)
    if place[-1] in {"increases", "increase_at"} and _COUNTS.fullmatch(text):
        return f"Put brackets round them: {place[-1]} = [{', '.join(re.findall('[0-9]+', text))}]."
    try:
        if typed is not None:
            typed.read(given, unit)
            return f"Did you mean {place[-1]} = [{as_typed(given)}]?"
    except QuantityError:
        pass  # what it is not is said already
    return f"Type, for example: {_list_example(place, unit)}."


def _list_example(place: Place, unit: LengthUnit) -> str:
    typed = typed_at((*place, 0))
    example = typed.example(unit) if typed is not None else "…"
    return f"{place[-1]} = [{example}]"


def typed_at(place: Place) -> Typed | None:
    """Give the reader of the field at `place`; None where no single field stands."""
    here: Any = Project
    for part in place:
        here = _below(here, part)
    return here if isinstance(here, Typed) else None


def _below(here: Any, part: str | int) -> Any:
    """Step from a model, a list or a dict of models to what stands under `part`."""
    if isinstance(here, type) and issubclass(here, BaseModel):
        field = here.model_fields.get(str(part))
        if field is None:
            return None
        for typed in field.metadata:
            if isinstance(typed, Typed):
                return typed
        return _kind(field.annotation)
    return _inner(here)


def _kind(annotation: Any) -> Any:
    """Leave out the `None` of an optional model."""
    if typing.get_origin(annotation) in {tuple, dict}:
        return annotation
    kinds = [kind for kind in typing.get_args(annotation) if kind is not type(None)]
    return kinds[0] if kinds else annotation


def _inner(annotation: Any) -> Any:
    """Give what a list or a dict holds."""
    arguments = typing.get_args(annotation)
    if typing.get_origin(annotation) is dict:
        return arguments[1]
    if typing.get_origin(annotation) is tuple:
        inside = arguments[0]
        if isinstance(inside, type) and issubclass(inside, BaseModel):
            return inside
        return next((x for x in typing.get_args(inside) if isinstance(x, Typed)), None)
    return None


def _names_at(place: Place) -> tuple[str, ...]:
    here: Any = Project
    for part in place:
        here = _below(here, part)
    is_model = isinstance(here, type) and issubclass(here, BaseModel)
    return tuple(here.model_fields) if is_model else ()


def _tables() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Go through every table of the file: its name as written, and its fields."""
    waiting: list[tuple[str, type[BaseModel]]] = [("", Project)]
    while waiting:
        table, model = waiting.pop(0)
        if table:
            yield table, tuple(model.model_fields)
        for name, field in model.model_fields.items():
            kind = _kind(field.annotation)
            below = f"{table}.{name}" if table else name
            if name in _NAMES:
                kind, below = typing.get_args(kind)[1], f"{below}.{_NAMES[name]}"
            elif typing.get_origin(kind) is tuple:
                kind, below = typing.get_args(kind)[0], f"[{below}]"
            if isinstance(kind, type) and issubclass(kind, BaseModel):
                waiting.append((below, kind))
