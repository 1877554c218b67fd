"""What a knitter types, in and out: `38 in`, `96,5 cm`, `1 1/2 in`, `50 g`, `437 yd`.

Inside the program a length is a float in cm, a mass in g, a length of yarn in
m, and the name says so. This module alone knows pint, and never shows it a
person's text: the text is read by an anchored pattern against a list of
allowed units, and pint only supplies the conversion factor.
"""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Literal

__all__ = [
    "CM_PER_INCH",
    "LengthUnit",
    "QuantityError",
    "parse_length_cm",
    "parse_mass_g",
    "parse_quantity",
    "parse_yarn_m",
]

LengthUnit = Literal["cm", "in"]

CM_PER_INCH = 2.54
"""Exact by definition (international yard and pound agreement, 1959)."""

_SPELLINGS = {
    "cm": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "mm": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "m": "m",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "in": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "yd": "yd",
    "yds": "yd",
    "yard": "yd",
    "yards": "yd",
    "ft": "ft",
    "foot": "ft",
    "feet": "ft",
    "g": "g",
    "gram": "g",
    "grams": "g",
    "gramme": "g",
    "grammes": "g",
    "kg": "kg",
    "oz": "oz",
    "ounce": "oz",
    "ounces": "oz",
    "lb": "lb",
    "pound": "lb",
    "pounds": "lb",
}

_QUANTITY = re.compile(
    r"""\s*
    (?: (?P<whole>[0-9]{1,6}) \s+ (?=[0-9]{1,3}/) )?    # the 1 of 1 1/2
    (?: (?P<over>[0-9]{1,3}) / (?P<under>[0-9]{1,3})    # 1/2
      | (?P<decimal>[0-9]{1,7}(?:[.,][0-9]{1,6})?) )    # 38, 38.5 or 38,5
    \s* (?P<unit>[A-Za-z]{1,12}|["″])? \s*""",
    re.VERBOSE | re.ASCII,
)


class QuantityError(ValueError):
    """The text is not a quantity of the wanted kind."""


@cache
def _factor(unit: str, base: str) -> float:
    """Ask pint how many `base` make one `unit`."""
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    return float(registry.Quantity(1, unit).to(base).magnitude)


def parse_quantity(
    given: str | float, *, base: str, allowed: tuple[str, ...], default: str
) -> float:
    """Read a quantity and give it in `base`.

    Args:
        given: what was typed; a bare number is in `default`.
        base: the unit of the result.
        allowed: the units that may be typed.
        default: the unit of a bare number.

    Raises:
        QuantityError: not a number and a unit, an unknown unit, or not above zero.

    >>> round(parse_quantity("1 1/2 in", base="cm", allowed=("cm", "in"), default="cm"), 4)
    3.81
    """
    text = repr(given) if isinstance(given, (int, float)) else given
    read = _QUANTITY.fullmatch(text) if not isinstance(given, bool) else None
    if read is None:
        raise QuantityError(f"{given!r} is not a number with a unit")
    unit = _SPELLINGS.get((read["unit"] or default).lower())
    if unit not in allowed:
        raise QuantityError(f"{given!r} is in {read['unit']!r}, not in {' or '.join(allowed)}")
    number = _number(read)
    if not math.isfinite(number) or number <= 0:
        raise QuantityError(f"{given!r} is not above zero")
    return number if unit == base else number * _factor(unit, base)


def _number(read: re.Match[str]) -> float:
    if read["decimal"] is not None:
        return float(read["decimal"].replace(",", "."))
    if int(read["under"]) == 0:
        raise QuantityError(f"{read[0]!r} divides by zero")
    return int(read["whole"] or 0) + int(read["over"]) / int(read["under"])


def parse_length_cm(given: str | float, *, default: LengthUnit) -> float:
    """Read a length on the body or the fabric, in cm.

    >>> parse_length_cm("38 in", default="cm")
    96.52
    """
    return parse_quantity(given, base="cm", allowed=("cm", "in", "mm"), default=default)


def parse_mass_g(given: str | float) -> float:
    """Read a weight of yarn, in g; a bare number is grams."""
    return parse_quantity(given, base="g", allowed=("g", "oz", "kg", "lb"), default="g")


def parse_yarn_m(given: str | float) -> float:
    """Read a length of yarn, in m; a bare number is metres."""
    return parse_quantity(given, base="m", allowed=("m", "yd"), default="m")
