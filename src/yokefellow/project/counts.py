"""Field types of the swatch, the yarn and the needles."""

from __future__ import annotations

import math

from yokefellow.project.needle_sizes import US_NEEDLES_MM, us_needle_mm
from yokefellow.project.typed import (
    LENGTH,
    NUMBER,
    Reading,
    RefusedError,
    Typed,
    fixed,
    in_unit,
    limits,
    quantity,
    typed_or_number,
    words_of,
)
from yokefellow.units import (
    LengthUnit,
    QuantityError,
    as_typed,
    parse_length_cm,
    parse_mass_g,
    parse_quantity,
    parse_yarn_m,
)

__all__ = ["MASS", "MIN_SWATCH_CM", "grams", "metres", "needle_mm", "reading", "scale_step"]

MIN_SWATCH_CM = 5.0
"""Below this a miscounted half stitch spoils the gauge (common practice, no source)."""

MASS = rf"{NUMBER}\s*(k?g|grams?|grammes?|oz\.?|ounces?|lbs?\.?|pounds?)?"
"""A weight; a fragment of a pattern."""
_YARN = rf"{NUMBER}\s*(m|met(re|er)s?|yds?\.?|yards?)?"


def _reading(given: object, unit: LengthUnit) -> Reading:
    if isinstance(given, Reading):
        return given
    count, over, width = words_of(given).partition(" over ")
    if not over:
        raise RefusedError("value.reading", f"{as_typed(given)} is not a reading of the swatch")
    try:
        counted = parse_quantity(count, base="m", allowed=("m",), default="m")
        if count[-1:].isalpha():
            raise RefusedError("value.reading", "")
    except QuantityError:
        raise RefusedError(
            "value.reading",
            f"in {as_typed(given)}, {as_typed(count)} is not a bare number of stitches or rounds",
        ) from None
    over_cm = parse_length_cm(width, default=unit)
    if over_cm < MIN_SWATCH_CM:
        raise RefusedError(
            "value.swatch-narrow",
            f"{as_typed(given)} is counted over too little fabric to trust",
        )
    return Reading(counted, limits(given, over_cm, MIN_SWATCH_CM, 200))


reading = Typed(
    _reading,
    {
        "type": "string",
        "pattern": rf"^\s*{NUMBER} over {LENGTH}\s*$",
        "examples": ["26 over 10 cm", "22.5 over 4 in"],
    },
    lambda unit: (
        "a count over a measured length, and at least "
        f"{in_unit(MIN_SWATCH_CM, unit, math.ceil)} of fabric"
    ),
    lambda unit: '"26 over 4 in"' if unit == "in" else '"26 over 10 cm"',
)
"""Reads `26 over 10 cm`."""

grams = Typed(
    lambda given, _: limits(given, quantity(given, parse_mass_g), 1, 5_000),
    {"anyOf": typed_or_number(MASS, "50 g", "1.75 oz")},
    fixed("a weight from 1 g to 5000 g, in g, kg, oz or lb"),
    fixed('"50 g"'),
)
"""Reads a weight of yarn."""

scale_step = Typed(
    lambda given, _: limits(given, quantity(given, parse_mass_g), 0.001, 50),
    {"anyOf": typed_or_number(MASS, "1 g", "0.1 oz")},
    fixed("the step of a scale from 0.001 g to 50 g, in g or oz"),
    fixed('"1 g"'),
)
"""Reads how finely a scale weighs."""

metres = Typed(
    lambda given, _: limits(given, quantity(given, parse_yarn_m), 1, 20_000),
    {"anyOf": typed_or_number(_YARN, "200 m", "219 yd")},
    fixed("a length of yarn from 1 m to 20000 m, in m or yd"),
    fixed('"200 m"'),
)
"""Reads a length of yarn."""


def _needle(given: object, _: LengthUnit) -> float:
    american = us_needle_mm(given) if isinstance(given, str) else None
    if american is not None:
        return american
    mm = quantity(
        given, lambda typed: parse_quantity(typed, base="mm", allowed=("mm",), default="mm")
    )
    return limits(given, mm, 1, 25)


needle_mm = Typed(
    _needle,
    {
        "anyOf": [
            {
                "type": "string",
                "pattern": rf"^\s*({NUMBER}\s*(mm)?|U\.?S\.?\s*[0-9]+([.,]5| ?½| ?1/2)?)\s*$",
                "examples": ["3.5 mm", "US 4"],
            },
            {"type": "number", "minimum": 1, "maximum": 25},
        ]
    },
    fixed(f"a needle from 1 mm to 25 mm, or a US size ({', '.join(US_NEEDLES_MM)})"),
    fixed('"3.5 mm"'),
)
"""Reads a needle size, in mm or a US size, in mm."""
