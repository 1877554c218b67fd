"""Field types of the project file: how a typed length, weight, reading or name is read.

Each is a piece of `Annotated` metadata that reads one field whole, so that a
wrong value gets one message and not one for every member of a union.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import core_schema

from yokefellow.units import (
    LengthUnit,
    QuantityError,
    parse_length_cm,
    parse_mass_g,
    parse_quantity,
    parse_yarn_m,
)

__all__ = [
    "MIN_SWATCH_CM",
    "ChosenLength",
    "LengthChange",
    "NamedLength",
    "Reading",
    "Typed",
    "between",
    "chosen",
    "ease",
    "grams",
    "metres",
    "named_or_between",
    "needle_mm",
    "reading",
]

MIN_SWATCH_CM = 5.0
"""Below this a miscounted half stitch spoils the gauge (common practice, no source)."""

Json: TypeAlias = dict[str, Any]
Read: TypeAlias = Callable[[object, LengthUnit], Any]


@dataclass(frozen=True, slots=True)
class Typed:
    """Metadata for `Annotated`: a reader of the whole field and its JSON Schema."""

    read: Read
    schema: Json

    def __get_pydantic_core_schema__(
        self, source: object, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Tell pydantic to read the field with `read`, in the file's own unit."""

        def validate(given: object, info: ValidationInfo) -> Any:
            return self.read(given, (info.context or {}).get("unit", "cm"))

        return core_schema.with_info_plain_validator_function(validate)

    def __get_pydantic_json_schema__(
        self, core: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> Json:
        """Give the field's JSON Schema."""
        return dict(self.schema)


@dataclass(frozen=True, slots=True)
class NamedLength:
    """A length by its name: `elbow`, `full`, `hip`."""

    name: str


@dataclass(frozen=True, slots=True)
class LengthChange:
    """A length as a change of the unmodified one, in cm: shorter is below zero."""

    by_cm: float


ChosenLength: TypeAlias = NamedLength | LengthChange | float
"""A named length, a change, or a plain length in cm."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One count on the swatch: so many stitches, or rounds, over so many cm."""

    count: float
    over_cm: float


def _quantity(given: object, reader: Callable[[str | float], float]) -> float:
    if isinstance(given, bool) or not isinstance(given, (str, int, float)):
        raise QuantityError(f"{given!r} is not a number with a unit")
    return reader(given)


def _limits(given: object, value: float, low: float, high: float, unit: str) -> float:
    if not low <= value <= high:
        raise ValueError(f"{given!r} is outside {low:g} {unit} to {high:g} {unit}")
    return value


def _length(given: object, unit: LengthUnit, low: float, high: float) -> float:
    value = _quantity(given, lambda typed: parse_length_cm(typed, default=unit))
    return _limits(given, value, low, high, "cm")


def _quantity_schema(*examples: str) -> Json:
    return {
        "anyOf": [
            {"type": "string", "pattern": r"^\s*[0-9].*$", "examples": list(examples)},
            {"type": "number", "exclusiveMinimum": 0},
        ]
    }


def between(low: float, high: float) -> Typed:
    """Read a length between two limits in cm."""
    return Typed(
        lambda given, unit: _length(given, unit, low, high),
        {
            **_quantity_schema("38 in", "96.5 cm"),
            "description": f"A length from {low:g} cm to {high:g} cm, in cm or in.",
        },
    )


def _words(given: object) -> str:
    return " ".join(given.lower().split()) if isinstance(given, str) else ""


def named_or_between(names: tuple[str, ...], low: float, high: float) -> Typed:
    """Read one of the names, or a length between two limits in cm."""

    def read(given: object, unit: LengthUnit) -> str | float:
        words = _words(given)
        if words in names:
            return words
        if words and not words[0].isdigit():
            raise ValueError(f"{given!r} is none of {_listed(names)} and no length")
        return _length(given, unit, low, high)

    schema = _quantity_schema("8 in", "20 cm")
    schema["anyOf"].insert(0, {"enum": list(names)})
    return Typed(read, schema)


def _listed(names: tuple[str, ...]) -> str:
    return ", ".join(repr(name) for name in names)


def chosen(names: tuple[str, ...], low: float, high: float) -> Typed:
    """Read a named length, `shorter by …`, `longer by …`, or a length between two limits."""

    def read(given: object, unit: LengthUnit) -> ChosenLength:
        if isinstance(given, (NamedLength, LengthChange)):
            return given
        words = _words(given)
        if words in names:
            return NamedLength(words)
        for start, sign in (("shorter by ", -1.0), ("longer by ", 1.0)):
            if words.startswith(start):
                return LengthChange(sign * parse_length_cm(words.removeprefix(start), default=unit))
        if words and not words[0].isdigit():
            raise ValueError(
                f"{given!r} is none of {_listed(names)}, and neither a length nor "
                "'shorter by …' nor 'longer by …'"
            )
        return _length(given, unit, low, high)

    schema: Json = {
        "anyOf": [
            {"enum": list(names)},
            {"type": "string", "pattern": r"^\s*((shorter|longer) by )?\s*[0-9].*$"},
            {"type": "number", "exclusiveMinimum": 0},
        ]
    }
    return Typed(read, schema)


def ease(names: tuple[str, ...], low: float, high: float) -> Typed:
    """Read a named fit, or a signed length between two limits in cm."""

    def read(given: object, unit: LengthUnit) -> str | float:
        words = _words(given)
        if words in names:
            return words
        sign, bare = _signed(given)
        if _is_zero(bare):
            return 0.0
        if isinstance(bare, str) and not bare[:1].isdigit():
            raise ValueError(f"{given!r} is none of {_listed(names)} and no length")
        value = sign * _quantity(bare, lambda typed: parse_length_cm(typed, default=unit))
        return _limits(given, value, low, high, "cm")

    schema: Json = {
        "anyOf": [
            {"enum": list(names)},
            {"type": "string", "pattern": r"^\s*[-+−]?\s*[0-9].*$"},
            {"type": "number"},
        ]
    }
    return Typed(read, schema)


def _signed(given: object) -> tuple[float, object]:
    if isinstance(given, str):
        text = given.strip()
        if text[:1] in ("-", "−"):
            return -1.0, text[1:].strip()
        return 1.0, text.removeprefix("+").strip()
    if isinstance(given, (int, float)) and not isinstance(given, bool) and given < 0:
        return -1.0, -given
    return 1.0, given


def _is_zero(bare: object) -> bool:
    if isinstance(bare, str):
        return bare in {"0", "0 cm", "0 in", "0cm", "0in"}
    return isinstance(bare, (int, float)) and not isinstance(bare, bool) and bare == 0


def _reading(given: object, unit: LengthUnit) -> Reading:
    if isinstance(given, Reading):
        return given
    if not isinstance(given, str) or given.count(" over ") != 1:
        raise ValueError(f"{given!r} is not a reading such as '26 over 10 cm'")
    count, _, over = given.partition(" over ")
    try:
        if count.strip()[-1:].isalpha():
            raise QuantityError(count)
        number = parse_quantity(count, base="m", allowed=("m",), default="m")
    except QuantityError:
        raise ValueError(f"{count!r} is not a bare number of stitches or rounds") from None
    over_cm = parse_length_cm(over, default=unit)
    if over_cm < MIN_SWATCH_CM:
        raise ValueError(f"{over.strip()!r} is less than {MIN_SWATCH_CM:g} cm of fabric")
    return Reading(number, over_cm)


reading = Typed(
    _reading,
    {
        "type": "string",
        "pattern": r"^\s*[0-9][0-9., /]* over [0-9].*$",
        "examples": ["26 over 10 cm", "22.5 over 4 in"],
    },
)
"""Reads `26 over 10 cm`."""

grams = Typed(
    lambda given, _: _limits(given, _quantity(given, parse_mass_g), 1, 5_000, "g"),
    _quantity_schema("50 g", "1.75 oz"),
)
"""Reads a weight of yarn."""

metres = Typed(
    lambda given, _: _limits(given, _quantity(given, parse_yarn_m), 1, 20_000, "m"),
    _quantity_schema("200 m", "219 yd"),
)
"""Reads a length of yarn."""

needle_mm = Typed(
    lambda given, _: _limits(
        given,
        _quantity(
            given, lambda typed: parse_quantity(typed, base="mm", allowed=("mm",), default="mm")
        ),
        1,
        25,
        "mm",
    ),
    _quantity_schema("3.5 mm"),
)
"""Reads a needle size in mm."""
