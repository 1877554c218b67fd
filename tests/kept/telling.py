"""What the room `shaping` decides about a sweater, as plain data that can be kept.

A knitter in the middle of a sweater prints her sheet again with a newer
version, and must find the same counts. `told` gives every count of a project,
or all that its refusal says. A record whose fields are all numbers is a list of
them in order; a field that is as it always is, is left out; so is the
unmodified piece that is the piece itself.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from tests.sweaters import Sections, project
from yokefellow.charts.chart import Chart
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.plan import draft
from yokefellow.shaping.model import Shape
from yokefellow.shaping.pieces.below import Unmodified, unmodified

Data: TypeAlias = Any
"""Lists, dictionaries with words for keys, words, numbers, yes, no, and nothing."""

DIGITS = 6
"""Significant digits of what was wanted: more than a tape measure, fewer than machines differ."""

_BALLS = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 30}
_BESIDE: Mapping[str, Any] = {
    "yarn": dict.fromkeys(("MC", "CC1", "CC2", "CC3", "CC4"), _BALLS),
    "needles": {"main": "3.5 mm"},
}
"""What a project file must say and no count hangs on."""


def whole(kept: Sections) -> Sections:
    """Give the project file of what is kept of it."""
    return {**_BESIDE, **kept}


def told(kept: Sections) -> Data:
    """Give every count of a sweater, or why there can be none."""
    try:
        asked = project(whole(kept))
        drawn = draft(asked)
    except PlanError as refused:
        return {"refused": [_finding(one) for one in refused.findings if _stops(one)]}
    shape, rules = drawn.shaped.shape, drawn.shaped.broken
    usual = unmodified(asked, drawn.finished, drawn.gauges, shape.split, drawn.piece_charts)
    broken = {"broken": list(rules)} if rules else {}
    return {**_shape(shape, usual), **broken}


def _stops(finding: Finding) -> bool:
    return finding.severity is Severity.ERROR


def _finding(finding: Finding) -> Data:
    return [finding.code, finding.field]


def _shape(shape: Shape, usual: Unmodified) -> dict[str, Data]:
    found = _fields(shape)
    plain = {"body": data(usual.body), "sleeve": data(usual.sleeve)}
    return found | {f"plain_{n}": piece for n, piece in plain.items() if piece != found[n]}


def data(value: object) -> Data:
    """Turn a record of the program into plain data."""
    if isinstance(value, Chart):
        return value.name
    if is_dataclass(value) or hasattr(value, "_fields"):
        numbers = [getattr(value, name) for name in _names(value)]
        is_plain = all(isinstance(one, int | float) for one in numbers)
        return data(numbers) if is_plain else _fields(value)
    if isinstance(value, tuple | list):
        return [data(one) for one in value]
    if isinstance(value, Fraction):
        return str(value)
    return float(f"{value:.{DIGITS}g}") if isinstance(value, float) else value


def _fields(record: Any) -> dict[str, Data]:
    usual = _usual(record)
    return {
        name: data(getattr(record, name))
        for name in _names(record)
        if name not in usual or getattr(record, name) != usual[name]
    }


def _names(record: Any) -> list[str]:
    """Name the fields of a record, a frozen dataclass or a named tuple."""
    return [field.name for field in fields(record)] if is_dataclass(record) else record._fields


def _usual(record: Any) -> dict[str, object]:
    """Give what each field is when it is not said."""
    if not is_dataclass(record):
        return dict(record._field_defaults)
    return {field.name: field.default for field in fields(record) if field.default is not MISSING}
