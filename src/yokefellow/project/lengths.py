"""Field types of a length: plain, named, changed, or an ease with its sign."""

from __future__ import annotations

import math
import re

from yokefellow.project.typed import (
    LENGTH,
    ChosenLength,
    LengthChange,
    NamedLength,
    RefusedError,
    Say,
    Typed,
    fixed,
    in_unit,
    limits,
    listed,
    nearest,
    quantity,
    typed_or_number,
    words_of,
)
from yokefellow.units import (
    CM_PER_INCH,
    LengthUnit,
    as_typed,
    in_the_other_unit,
    parse_length_cm,
    starts_with_number,
)

__all__ = ["between", "chosen", "ease", "named_or_between"]


def _length(given: object, unit: LengthUnit, low: float, high: float) -> float:
    value = quantity(given, lambda typed: parse_length_cm(typed, default=unit))
    if low <= value <= high:
        return value
    # The slip of a knitter with a tape that has two sides.
    other = in_the_other_unit(given, default=unit)
    if other is not None and low <= parse_length_cm(other, default=unit) <= high:
        size = "small" if value < low else "large"
        raise RefusedError("value.range", f"{as_typed(given)} is too {size}", instead=f'"{other}"')
    return limits(given, value, low, high)


def _range(low: float, high: float) -> Say:
    return lambda unit: (
        f"a length from {in_unit(low, unit, math.ceil)} to {in_unit(high, unit, math.floor)}"
    )


def _example(cm: float) -> Say:
    def say(unit: LengthUnit) -> str:
        if unit == "in":
            return f'"{max(round(cm / CM_PER_INCH * 2) / 2, 0.5):g} in"'
        return f'"{cm:g} cm"'

    return say


def between(low: float, high: float, *, typical: float) -> Typed:
    """Read a length between two limits in cm; `typical` is what an example shows."""
    return Typed(
        lambda given, unit: _length(given, unit, low, high),
        {"anyOf": typed_or_number(LENGTH, _example(typical)("cm")[1:-1])},
        _range(low, high),
        _example(typical),
    )


def _name_or_length(given: object, words: str, names: tuple[str, ...]) -> None:
    meant = nearest(words, names) if words[:3] in {"3/4", "¾", "3 q", "3-q"} else None
    if words and (meant or not starts_with_number(words)):
        raise RefusedError(
            "value.choice",
            f"{as_typed(given)} is no name known here and no length",
            instead=nearest(words, names),
        )


def named_or_between(names: tuple[str, ...], low: float, high: float, *, typical: float) -> Typed:
    """Read one of the names, or a length between two limits in cm."""

    def read(given: object, unit: LengthUnit) -> str | float:
        words = words_of(given)
        if words in names:
            return words
        _name_or_length(given, words, names)
        return _length(given, unit, low, high)

    return Typed(
        read,
        {"anyOf": [{"enum": list(names)}, *typed_or_number(LENGTH, f"{typical:g} cm")]},
        lambda unit: f"{listed(names)}, or {_range(low, high)(unit)}",
        _example(typical),
    )


def _change_without_by(given: object, words: str) -> None:
    """Refuse `shorter 4 in`, `4 in shorter` and `-4 in`, and say how it is written."""
    read = re.fullmatch(r"(?P<way>shorter|longer) (?P<by>.+)", words) or re.fullmatch(
        r"(?P<by>.+) (?P<way>shorter|longer)", words
    )
    read = read or re.fullmatch(r"(?P<way>[-−]) ?(?P<by>.+)", words)
    if read is None or not starts_with_number(read["by"]):
        return
    way = "shorter" if read["way"] in "-−" else read["way"]
    raise RefusedError(
        "value.choice",
        f"{as_typed(given)} is no name known here and no length",
        instead=f'"{way} by {as_typed(read["by"])[1:-1]}"',
    )


def chosen(names: tuple[str, ...], low: float, high: float) -> Typed:
    """Read a named length, `shorter by …`, `longer by …`, or a length between two limits."""

    def read(given: object, unit: LengthUnit) -> ChosenLength:
        if isinstance(given, (NamedLength, LengthChange)):
            return given
        words = words_of(given)
        if words in names:
            return NamedLength(words)
        for start, sign in (("shorter by ", -1.0), ("longer by ", 1.0)):
            if words.startswith(start):
                by = words.removeprefix(start)
                return LengthChange(sign * _length(by, unit, 0.1, high))
        _change_without_by(given, words)
        _name_or_length(given, words, names)
        return _length(given, unit, low, high)

    return Typed(
        read,
        {
            "anyOf": [
                {"enum": list(names)},
                *typed_or_number(rf"((shorter|longer) by )?\s*{LENGTH}", "shorter by 5 cm"),
            ]
        },
        lambda unit: (
            f'{listed(names)}, {_range(low, high)(unit)}, or "shorter by …" or "longer by …" '
            "with a length"
        ),
        fixed(f'"{names[-1]}"'),
    )


def ease(names: tuple[str, ...], low: float, high: float) -> Typed:
    """Read a named fit, or a signed length between two limits in cm."""

    def read(given: object, unit: LengthUnit) -> str | float:
        words = words_of(given)
        if words in names:
            return words
        sign, bare = _signed(given)
        if _is_zero(bare):
            return 0.0
        _name_or_length(given, words_of(bare), names)
        value = sign * quantity(bare, lambda typed: parse_length_cm(typed, default=unit))
        return limits(given, value, low, high)

    return Typed(
        read,
        {
            "anyOf": [
                {"enum": list(names)},
                *typed_or_number(rf"[-+−]?\s*{LENGTH}", "8 cm", "-2 in", signed=True),
            ]
        },
        lambda unit: f"{listed(names)}, or {_range(low, high)(unit)}",
        fixed('"classic"'),
    )


def _signed(given: object) -> tuple[float, object]:
    if isinstance(given, str):
        typed = given.strip()
        if typed[:1] in ("-", "−"):
            return -1.0, typed[1:].strip()
        return 1.0, typed.removeprefix("+").strip()
    if isinstance(given, (int, float)) and not isinstance(given, bool) and given < 0:
        return -1.0, -given
    return 1.0, given


def _is_zero(bare: object) -> bool:
    if isinstance(bare, str):
        return bare.replace(" ", "").lower() in {"0", "0cm", "0in", '0"'}
    return isinstance(bare, (int, float)) and not isinstance(bare, bool) and bare == 0
