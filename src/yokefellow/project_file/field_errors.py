"""From what pydantic refuses to findings in the knitter's words."""

from __future__ import annotations

import contextlib
import difflib
import re
import typing
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Any, NamedTuple, TypeAlias

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from yokefellow.findings import Finding, Mend, Severity, as_typed
from yokefellow.project_file.fields import Typed
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
from yokefellow.words import found

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
        more = len(errors) - _MOST
        findings.append(found("file.many-errors", Severity.ERROR, "", more=more))
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
        found("toml.heading-remarked", Severity.ERROR, table, table=table, line=line)
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
    cause, typed = error.get("ctx", {}).get("error"), typed_at(place)
    if isinstance(cause, QuantityError) and typed is not None:
        told = _refused(cause, typed, error["input"], place, unit)
    elif error["type"] == "extra_forbidden":
        told = _unknown(place, error["input"])
    elif error["type"] == "missing":
        told = _missing(place, typed, unit)
    else:
        told = _wrong_shape(error, place, unit)
    code, sentence, mends, values = told
    values = {**values, "line": find_line(lines, place)}
    field = dotted(place)
    return found(code, Severity.ERROR, field, mends=mends, sentence=sentence, **values)


class _Told(NamedTuple):
    """What one error is told with."""

    code: str
    sentence: str
    mends: tuple[Mend, ...]
    values: dict[str, Any]


def _refused(
    cause: QuantityError, typed: Typed, given: object, place: Place, unit: LengthUnit
) -> _Told:
    """Tell a value that its field cannot read, and what was perhaps meant."""
    values: dict[str, Any] = {"problem": f"{cause}", "allowed": typed.allowed(unit)}
    if tuple(place[:2]) == ("pattern", "sizes") and isinstance(given, list) and given:
        own = f"{place[-1]} = {as_typed(given[0])}"
        return _Told(cause.code, "value_of_each_size", (), {**values, "own": own})
    meant: tuple[str, ...] = getattr(cause, "meant", ())
    mends = (Mend(dotted(place), meant[0]),) if len(meant) == 1 else ()
    values["meant"] = [_assignment(place, value) for value in meant]
    values["example"] = _assignment(place, typed.example(unit))
    return _Told(cause.code, "value", mends, values)


def _assignment(place: Place, example: str) -> str:
    if isinstance(place[-1], int):
        return f"{place[-2]} = [{example}]"
    return f"{place[-1]} = {example}"


def _table(place: Place) -> str:
    """Write the line that begins the table at `place`."""
    if isinstance(place[-1], int):
        return f"[[{dotted(place[:-1])}]]"
    return f"[{dotted(place)}]"


def _missing(place: Place, typed: Typed | None, unit: LengthUnit) -> _Told:
    example = table = ""
    if typed is not None:
        example = _assignment(place, typed.example(unit))
    elif place[-1] in {"stitches", "rounds"}:
        example = _list_example(place, unit)
    elif place[-1] in {"swatch", "plain"}:
        table = "swatch.plain.washed"
    elif place[-1] != "sizes":
        table = "yarn.MC" if place[-1] == "yarn" else dotted(place)
    under = _table(place[:-1]) if len(place) > 1 else ""
    values = {"under": under, "example": example, "table": table}
    return _Told("field.missing", "", (), values)


def _unknown(place: Place, given: object) -> _Told:
    values: dict[str, Any] = {"given": as_typed(given), "near": "", "table": "", "name": ""}
    key = str(place[-1])
    here = _names_at(place[:-1])
    meant = _MEANT.get(_plain(key), ())
    values["known"] = here
    values["near"] = next((n for n in meant if n in here), None) or _nearest(key, here) or ""
    if not values["near"]:
        values |= _elsewhere(_plain(key), meant, f"{dotted(place[:-1])}.")
    return _Told("field.unknown", "", (), values)


def _elsewhere(key: str, meant: Sequence[str], within: str) -> dict[str, str]:
    """Find the table that a field belongs under, and what it is called there."""
    for table, names in _tables():
        if table.removeprefix("[").startswith(within) and key in names:
            return {"table": f"[{table}]"}
    if key in Project.model_fields:
        return {"table": "top"}
    for name in (key, *meant):
        for table, names in _tables():
            if name in map(_plain, names):
                return {"table": f"[{table}]", "name": "" if name == key else name}
    return {}


def _plain(key: str) -> str:
    return key.lower().replace("-", "_").replace(" ", "_")


def _nearest(key: str, names: Sequence[str]) -> str | None:
    by_plain = {_plain(name): name for name in names}
    near = difflib.get_close_matches(_plain(key)[:60], by_plain, n=1, cutoff=0.6)
    return by_plain[near[0]] if near else None


def _wrong_shape(error: Mapping[str, Any], place: Place, unit: LengthUnit) -> _Told:
    """Say that a table, a list or a yarn's name is not what belongs there."""
    given, kind, last = as_typed(error["input"]), error["type"], str(place[-1])
    if kind == "string_pattern_mismatch":
        code = "charts.name" if place[0] == "charts" else "yarn.name"
        return _Told(code, "", (), {"name": as_typed(place[-2])})
    if kind in {"too_short", "too_long"}:
        most = {"bands": MOST_BANDS, "increases": MOST_INCREASES, "increase_at": MOST_INCREASES}
        values = {
            "list": last,
            "is_empty": kind == "too_short",
            "most": {**most, "sizes": MOST_SIZES}.get(last, MOST_READINGS),
            "example": "" if last in {*most, "sizes"} else _list_example(place, unit),
        }
        return _Told("field.list-length", "", (), values)
    if kind == "tuple_type" and last in {"bands", "sizes"}:
        values = {"given": given, "list": last, "table": dotted(place)}
        return _Told("field.not-a-list", "not_a_list_of_tables", (), values)
    if kind == "tuple_type":
        return _not_a_list(error["input"], place, unit)
    return _Told("field.not-a-table", "", (), {"given": given, "heading": _table(place)})


MOST_READINGS = 20
"""Of one swatch, as its model has it."""

_COUNTS = re.compile(r"\s*[0-9]{1,4}(?:[\s,;]+[0-9]{1,4}){1,29}\s*")


def _not_a_list(given: object, place: Place, unit: LengthUnit) -> _Told:
    """Set brackets round what would be right within them, or show what would be."""
    typed, text = typed_at((*place, 0)), str(given)
    is_counts = place[-1] in {"increases", "increase_at"}
    values = {"given": as_typed(given), "is_counts": is_counts, "brackets": "", "meant": ""}
    values["example"] = _list_example(place, unit)
    mend = None
    if is_counts and _COUNTS.fullmatch(text):
        mend = f"[{', '.join(re.findall('[0-9]+', text))}]"
        values["brackets"] = f"{place[-1]} = {mend}"
    elif typed is not None:
        with contextlib.suppress(QuantityError):  # what it is not is said already
            typed.read(given, unit)
            mend = f"[{as_typed(given)}]"
            values["meant"] = f"{place[-1]} = {mend}"
    return _Told("field.not-a-list", "", (Mend(dotted(place), mend),) if mend else (), values)


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
