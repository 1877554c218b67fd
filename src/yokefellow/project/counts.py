"""Field types of the swatch, the yarn and the needles."""

from __future__ import annotations

import math
import re

from yokefellow.project.needle_sizes import US_NEEDLES_MM, us_needle_mm, us_size
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
    CM_PER_INCH,
    LengthUnit,
    QuantityError,
    as_typed,
    in_the_other_unit,
    is_bare,
    parse_length_cm,
    parse_mass_g,
    parse_number,
    parse_quantity,
    parse_yarn_m,
)

__all__ = [
    "MASS",
    "MIN_SWATCH_CM",
    "grams",
    "metres",
    "needle_mm",
    "reading",
    "rounds_reading",
    "scale_step",
]

MIN_SWATCH_CM = 5.0
"""Below this a miscounted half stitch spoils the gauge (common practice, no source)."""

WIDEST_BARE_IN = 7.0
"""A swatch in inches is counted over 4 in, and seldom over more than 6; 10 is how one counts in cm
(common practice, no source). A bare width above this must say its unit."""

MASS = rf"{NUMBER}\s*(k?g|grams?|grammes?|oz\.?|ounces?|lbs?\.?|pounds?)?"
"""A weight; a fragment of a pattern."""
_YARN = rf"{NUMBER}\s*(m|met(re|er)s?|yds?\.?|yards?)?"


def _reading(given: object, unit: LengthUnit) -> Reading:
    if isinstance(given, Reading):
        return given
    count, over, width = words_of(given).partition(" over ")
    if not over:
        raise RefusedError(
            "value.reading",
            f"{as_typed(given)} is not a reading of the swatch",
            instead=_meant_reading(given, unit),
        )
    counted = _counted(given, count)
    over_cm = parse_length_cm(width, default=unit)
    other = in_the_other_unit(width, default=unit)
    if over_cm < MIN_SWATCH_CM:
        there = other is not None and parse_length_cm(other, default=unit) >= MIN_SWATCH_CM
        raise RefusedError(
            "value.swatch-narrow",
            f"{as_typed(given)} is counted over too little fabric to trust",
            instead=f'"{count} over {other}"' if there else None,
        )
    if unit == "in" and is_bare(width) and over_cm > WIDEST_BARE_IN * CM_PER_INCH:
        raise RefusedError(
            "value.no-unit",
            f"{as_typed(given)} may be counted over {width} cm or over {width} inches",
            instead=(f'"{count} over {other}"', f'"{count} over {width} in"'),
        )
    return Reading(counted, limits(given, over_cm, MIN_SWATCH_CM, 200))


_COUNT_AND_WIDTH = re.compile(
    r"(?P<count>[0-9]+(?:[.,][0-9]+)?) ?(?:st|sts|stitch|stitches|rnds?|rounds?|rows?)?"
    r"(?: ?(?:over|per|to|in|on|for|every|=|/) "
    r"?(?P<width>[0-9]+(?:[.,][0-9]+)? ?(?:cm|in|inch|inches|\"|″)?))?",
    re.ASCII,
)
"""A count, and perhaps its width, in other words than `22 over 4 in`."""


def _meant_reading(given: object, unit: LengthUnit) -> str | None:
    """Give what was typed in the words of a reading, or None where it is not clear."""
    bare = type(given) is int and 0 < given < 1_000
    read = _COUNT_AND_WIDTH.fullmatch(f"{given}" if bare else words_of(given))
    if read is None:
        return None
    width = re.sub(r" ?(?:\"|″)$", " in", read["width"] or ("4 in" if unit == "in" else "10 cm"))
    try:
        _reading(f"{read['count']} over {width}", unit)
    except QuantityError:
        return None
    return f'"{read["count"]} over {width}"'


def _counted(given: object, count: str) -> float:
    try:
        counted = parse_number(count)
    except QuantityError:
        counted = 0.0
    if counted == 0.0:
        raise RefusedError(
            "value.reading",
            f"{as_typed(count)}, in {as_typed(given)}, is not a bare number of stitches or rounds",
        )
    return counted


def _of_the_swatch(typical: int) -> Typed:
    return Typed(
        _reading,
        {
            "type": "string",
            "pattern": rf"^\s*{NUMBER} over {LENGTH}\s*$",
            "examples": [f"{typical} over 10 cm", f"{typical}.5 over 4 in"],
        },
        lambda unit: (
            "a count over a measured length, and at least "
            f"{in_unit(MIN_SWATCH_CM, unit, math.ceil)} of fabric"
        ),
        lambda unit: f'"{typical} over {"4 in" if unit == "in" else "10 cm"}"',
    )


reading = _of_the_swatch(26)
"""Reads `26 over 10 cm`, of stitches."""
rounds_reading = _of_the_swatch(37)
"""Reads `37 over 10 cm`, of rounds."""

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
    lambda unit: '"0.05 oz"' if unit == "in" else '"1 g"',
)
"""Reads how finely a scale weighs."""


def _metres(given: object, unit: LengthUnit) -> float:
    if unit == "in" and is_bare(given):
        number = _number_as_typed(given)
        raise RefusedError(
            "value.no-unit",
            f"{as_typed(given)} has no unit, and may be yards or metres",
            instead=(f'"{number} yd"', f'"{number} m"'),
        )
    return limits(given, quantity(given, parse_yarn_m), 1, 20_000)


metres = Typed(
    _metres,
    {"anyOf": typed_or_number(_YARN, "200 m", "219 yd")},
    lambda unit: (
        "a length of yarn from 1.1 yd to 21800 yd, in yd or m"
        if unit == "in"
        else "a length of yarn from 1 m to 20000 m, in m or yd"
    ),
    lambda unit: '"219 yd"' if unit == "in" else '"200 m"',
)
"""Reads a length of yarn; a bare number is metres, and is refused in a file in inches."""


def _number_as_typed(given: object) -> str:
    return given.strip() if isinstance(given, str) else as_typed(given)


def _needle(given: object, unit: LengthUnit) -> float:
    american = us_needle_mm(given) if isinstance(given, str) else None
    if american is not None:
        return american
    size = us_size(given) if unit == "in" and is_bare(given) else None
    if size is not None:
        raise RefusedError(
            "value.no-unit",
            f"{as_typed(given)} has no unit, and may be a US size or mm",
            instead=(f'"US {size}"', f'"{_number_as_typed(given)} mm"'),
        )
    mm = quantity(
        given, lambda typed: parse_quantity(typed, base="mm", allowed=("mm",), default="mm")
    )
    return limits(given, mm, 1, 25)


_US = r"(U\.?S\.?\s*#?|#)\s*[0-9]+([.,]5| ?½| ?1/2)?"

needle_mm = Typed(
    _needle,
    {
        "anyOf": [
            {
                "type": "string",
                "pattern": rf"^\s*({NUMBER}\s*(mm)?|{_US})\s*$",
                "examples": ["3.5 mm", "US 4"],
            },
            {"type": "number", "minimum": 1, "maximum": 25},
        ]
    },
    fixed(f"a needle from 1 mm to 25 mm, or a US size ({', '.join(US_NEEDLES_MM)})"),
    fixed('"3.5 mm"'),
)
"""Reads a needle size, in mm or a US size, in mm."""
