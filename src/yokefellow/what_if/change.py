"""A project with something chosen otherwise; no file is touched."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Any

from pydantic import BaseModel

from yokefellow.findings import Finding, ProjectError, Severity, as_typed
from yokefellow.plan import Plan
from yokefellow.project_file.field_errors import typed_at
from yokefellow.project_file.fields import LengthChange, Typed, remedy
from yokefellow.project_file.models import Project, Yarn
from yokefellow.project_file.pins import without
from yokefellow.quantities import CM_PER_INCH, LengthUnit, QuantityError

SHORT_NAMES = MappingProxyType(
    {
        "sleeves": "garment.sleeves.length",
        "body": "garment.body.length",
        "neck": "garment.neck.opening",
        "hem": "garment.body.hem",
        "cuff": "garment.sleeves.cuff",
        "shape": "garment.body.shape",
        "order": "garment.work_order",
        "sure": "weighing.sure",
    }
)
"""Short names of the choices that are tried most."""


def change(project: Project, /, **choices: object) -> Project:
    """Give the project with some fields chosen otherwise.

    Args:
        project: stays as it is.
        choices: by field as it is dotted in a finding (`garment.sleeves.length`)
            or by one of `SHORT_NAMES`; the value as it would stand in the file,
            or as text of it.

    Raises:
        ProjectError: a field that there is not, or a value it does not take; holds all.
    """
    found: list[Finding] = []
    for name, given in choices.items():
        field = SHORT_NAMES.get(name, name)
        typed = typed_at(tuple(field.split(".")))
        value = typed and _value(typed, given, project.unit, field)
        if isinstance(value, Finding):
            found.append(value)
            continue
        changed = typed and _put(project, field.split("."), value)
        if not isinstance(changed, Project):
            found.append(_unknown(name))
            continue
        project = _freed(changed, field)
    if found:
        raise ProjectError(found)
    return project


def from_own_lengths(made: Plan, choices: Mapping[str, str]) -> dict[str, str]:
    """Give the choices with `longer by` and `shorter by` as lengths, from those of a sweater.

    In a file they are changes of the usual length; of a sweater that is
    there, the knitter means that sweater.

    Args:
        made: the sweater.
        choices: by field, as they would stand in the file.
    """
    shape = made.shape
    own_cm = {
        "garment.body.length": shape.body.rounds.cm + shape.body.hem_rounds.cm,
        "garment.sleeves.length": shape.sleeve.rounds.cm + shape.sleeve.cuff_rounds.cm,
    }
    return {
        name: _from(made.project, field, given, own_cm[field])
        if (field := SHORT_NAMES.get(name, name)) in own_cm
        else given
        for name, given in choices.items()
    }


def _from(project: Project, field: str, given: str, own_cm: float) -> str:
    typed = typed_at(tuple(field.split(".")))
    value = typed and _value(typed, given, project.unit, field)
    if not isinstance(value, LengthChange):
        return given
    wanted_cm = own_cm + value.by_cm
    return f"{wanted_cm / CM_PER_INCH:.2f} in" if project.unit == "in" else f"{wanted_cm:.1f} cm"


_PINS = MappingProxyType(
    {
        "garment.sleeves.length": ("sleeve_rounds", "cuff"),
        "garment.body.length": ("body_rounds",),
        "garment.yoke.depth": ("yoke_rounds",),
        "garment.neck.opening": ("neck", "cast_on"),
    }
)
"""Pinned counts that hold for the choice in the file, and not for another one."""


def _freed(project: Project, field: str) -> Project:
    """Take out the pins that would keep another choice from showing."""
    fixed = project.fixed
    for name in _PINS.get(field, ()):
        fixed = without(fixed, name)
    return project if fixed == project.fixed else project.model_copy(update={"fixed": fixed})


def freed(project: Project, choices: Iterable[str]) -> tuple[str, ...]:
    """Name the pins that do not hold for other choices: they must go from the file, too.

    Args:
        project: with its pins.
        choices: the fields that are chosen otherwise.
    """
    names = (name for field in choices for name in _PINS.get(field, ()))
    return tuple(name for name in names if getattr(project.fixed, name) is not None)


def _value(typed: Typed, given: object, unit: LengthUnit, field: str) -> Any:
    """Read the value as its field does; text may also be a number or a list as in the file."""
    try:
        return typed.read(given, unit)
    except QuantityError as refused:
        code, said = refused.code, str(refused)
        instead = remedy(refused, typed, unit, lambda shown: f"{field} = {shown}")
    if isinstance(given, str):
        try:
            return typed.read(tomllib.loads(f"value = {given}")["value"], unit)
        except (QuantityError, tomllib.TOMLDecodeError, RecursionError):
            pass  # what was said of the text is what there is to say
    return Finding(
        code,
        Severity.ERROR,
        field,
        f"{said}; allowed is {typed.allowed(unit)}.",
        instead,
    )


def _unknown(name: str) -> Finding:
    return Finding(
        "field.unknown",
        Severity.ERROR,
        as_typed(name)[1:-1],
        f"There is no field {as_typed(name)} to choose otherwise.",
        f"Name a field of the project file, such as {SHORT_NAMES['sleeves']}, or one of "
        f"{', '.join(SHORT_NAMES)}.",
    )


def _put(here: Any, way: Sequence[str], value: object) -> Any:
    """Give a copy with the value in its place; None when the way leads nowhere."""
    key, *rest = way
    if isinstance(here, BaseModel):
        if key not in type(here).model_fields:
            return None
        if not rest:
            return here.model_copy(update=_beside(here, key, value))
        inner = _put(getattr(here, key), rest, value)
        return inner and here.model_copy(update={key: inner})
    if isinstance(here, Mapping) and key in here and rest:
        inner = _put(here[key], rest, value)
        return inner and {**here, key: inner}
    return None


def _beside(here: BaseModel, key: str, value: Any) -> dict[str, Any]:
    """Change what another field of the same table says of the same thing, too."""
    if isinstance(here, Yarn) and key == "balls":
        return {key: value, "weights": (), "lots": ()}
    if isinstance(here, Yarn) and key == "weights":
        return {key: value, "balls": sum(value) / here.ball_weight, "lots": ()}
    return {key: value}
