"""Field types of what is measured: lengths, ease, readings of a swatch, weights, needles."""

from __future__ import annotations

import contextlib
import math
import re
from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import TypeVar

from yokefellow.findings import as_typed
from yokefellow.project_file.fields import (
    LENGTH,
    NUMBER,
    ChosenLength,
    Json,
    Kind,
    LengthChange,
    NamedLength,
    Reading,
    RefusedError,
    Say,
    Typed,
    fixed,
    in_unit,
    limits,
    listed,
    nearest,
    quantity,
    text,
    typed_or_number,
    words_of,
)
from yokefellow.quantities import (
    CM_PER_INCH,
    LengthUnit,
    QuantityError,
    SpanError,
    in_the_other_unit,
    is_bare,
    parse_length_cm,
    parse_mass_g,
    parse_number,
    parse_quantity,
    parse_yarn_m,
    starts_with_number,
)


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


def _lengths(pattern: str, *examples: str, low: float, high: float) -> list[Json]:
    """Give the JSON Schema of a length between two limits in cm; a bare number may be inches."""
    least = low if low < 0 else low / CM_PER_INCH
    return typed_or_number(pattern, *examples, low=round(least, 2), high=high)


def between(low: float, high: float, *, typical: float) -> Typed:
    """Read a length between two limits in cm; `typical` is what an example shows."""
    return Typed(
        lambda given, unit: _length(given, unit, low, high),
        {"anyOf": _lengths(LENGTH, _example(typical)("cm")[1:-1], low=low, high=high)},
        _range(low, high),
        _example(typical),
        Kind.LENGTH,
        low=low,
        high=high,
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
        {
            "anyOf": [
                {"enum": list(names)},
                *_lengths(LENGTH, f"{typical:g} cm", low=low, high=high),
            ]
        },
        lambda unit: f"{listed(names)}, or {_range(low, high)(unit)}",
        _example(typical),
        Kind.LENGTH,
        names,
        low,
        high,
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
                *_lengths(
                    rf"((shorter|longer) by )?\s*{LENGTH}", "shorter by 5 cm", low=low, high=high
                ),
            ]
        },
        lambda unit: (
            f'{listed(names)}, {_range(low, high)(unit)}, or "shorter by …" or "longer by …" '
            "with a length"
        ),
        fixed(f'"{names[-1]}"'),
        Kind.LENGTH,
        names,
        low,
        high,
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
                *_lengths(rf"[-+−]?\s*{LENGTH}", "8 cm", "-2 in", low=low, high=high),
            ]
        },
        lambda unit: f"{listed(names)}, or {_range(low, high)(unit)}",
        fixed('"classic"'),
        Kind.LENGTH,
        names,
        low,
        high,
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


_ZERO = re.compile(r"\s*0+(?:[.,]0+)?\s*(?:cm|mm|in|inch|inches|[\"″”])?\.?\s*", re.ASCII | re.I)


def _is_zero(bare: object) -> bool:
    if isinstance(bare, str):
        return _ZERO.fullmatch(bare) is not None
    return isinstance(bare, (int, float)) and not isinstance(bare, bool) and bare == 0


US_NEEDLES_MM = MappingProxyType(
    {
        "000": 1.5,
        "00": 1.75,
        "0": 2.0,
        "1": 2.25,
        "1.5": 2.5,
        "2": 2.75,
        "2.5": 3.0,
        "3": 3.25,
        "4": 3.5,
        "5": 3.75,
        "6": 4.0,
        "7": 4.5,
        "8": 5.0,
        "9": 5.5,
        "10": 6.0,
        "10.5": 6.5,
        "11": 8.0,
        "13": 9.0,
        "15": 10.0,
        "17": 12.75,
        "19": 15.0,
        "35": 19.0,
        "50": 25.0,
    }
)
"""From the size of the United States, as printed on the needle, to mm.

Source: Craft Yarn Council, *Standards & Guidelines*, table "Knitting Needle
Sizes", with the half sizes and the sizes under 0 as printed on needle gauges;
written down from memory of the table. The sizes at the ends of the ranges in
the Council's *Standard Yarn Weight System* (000, 1, 3, 5, 7, 9, 11, 17) agree
with it and are checked in the tests.
"""

_US = re.compile(
    r"\s*(?:U\.?S\.?\s*#?|#)\s*(?P<size>[0-9]{1,6})(?P<half>\.5|,5|½| ?1/2| ½)?\s*",
    re.ASCII | re.IGNORECASE,
)


def us_needle_mm(given: str) -> float | None:
    """Read `US 4` in mm; None when the text does not name a US size.

    Raises:
        QuantityError: it names a US size that does not exist.

    >>> us_needle_mm("US 10 1/2")
    6.5
    """
    read = _US.fullmatch(given)
    if read is None:
        return None
    size = read["size"] + (".5" if read["half"] else "")
    if size not in US_NEEDLES_MM:
        raise QuantityError("value.needle-size", f"{as_typed(given)} is no US needle size")
    return US_NEEDLES_MM[size]


def us_size(given: object) -> str | None:
    """Give the US size that a bare number may be, as printed on the needle; None for no size.

    >>> us_size(3), us_size("10 1/2"), us_size(3.5)
    ('3', '10.5', None)
    """
    written = given.strip() if isinstance(given, str) else given
    if isinstance(written, (str, int, float)) and str(written) not in US_NEEDLES_MM:
        with contextlib.suppress(QuantityError):
            written = f"{parse_number(written):g}"
    return str(written) if str(written) in US_NEEDLES_MM else None


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


FEWEST_BARE = 12
"""A bare count below this is as likely the width as the count: over what is not guessed."""


def _meant_reading(given: object, unit: LengthUnit) -> str | None:
    """Give what was typed in the words of a reading, or None where it is not clear."""
    bare = type(given) is int and FEWEST_BARE <= given < 1_000
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
    except SpanError as both:
        over = f"{given}".partition("over")[2].strip()
        each = tuple(f'"{number[1:-1]} over {over}"' for number in both.meant)
        raise RefusedError(both.code, str(both), instead=(each[0], each[1])) from None
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
        Kind.GAUGE,
    )


reading = _of_the_swatch(26)
"""Reads `26 over 10 cm`, of stitches."""
rounds_reading = _of_the_swatch(37)
"""Reads `37 over 10 cm`, of rounds."""

grams = Typed(
    lambda given, _: limits(given, quantity(given, parse_mass_g), 1, 5_000),
    {"anyOf": typed_or_number(MASS, "50 g", "1.75 oz", low=1, high=5_000)},
    fixed("a weight from 1 g to 5000 g, in g, kg, oz or lb"),
    fixed('"50 g"'),
    Kind.WEIGHT,
    low=1,
    high=5_000,
)
"""Reads a weight of yarn."""

swatch_grams = replace(grams, example=lambda unit: '"0.4 oz"' if unit == "in" else '"12 g"')
"""Reads the weight of a swatch."""

scale_step = Typed(
    lambda given, _: limits(given, quantity(given, parse_mass_g), 0.001, 50),
    {"anyOf": typed_or_number(MASS, "1 g", "0.1 oz", low=0.001, high=50)},
    fixed("the step of a scale from 0.001 g to 50 g, in g or oz"),
    lambda unit: '"0.05 oz"' if unit == "in" else '"1 g"',
    Kind.WEIGHT,
    low=0.001,
    high=50,
)
"""Reads how finely a scale weighs."""


_OF_A_BAND = re.compile(
    rf"\s*(?P<length>{NUMBER}\s*(?:m|met(?:re|er)s?|yds?|yards?)?)\.?\s*(?:/|per|in|to|=)\s*"
    rf"{NUMBER}\s*(?:g|gr|grams?|oz|ounces?|balls?|skeins?)\.?\s*",
    re.IGNORECASE,
)


def length_of_band(given: object) -> str | None:
    """Give the length alone of what a ball band says, `251 yds/50g`; None of anything else.

    >>> length_of_band("251 yds/50g"), length_of_band("251 yds")
    ('251 yds', None)
    """
    read = _OF_A_BAND.fullmatch(given) if isinstance(given, str) else None
    return read["length"].strip() if read else None


def _metres(given: object, unit: LengthUnit) -> float:
    given = length_of_band(given) or given
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
    {"anyOf": typed_or_number(_YARN, "200 m", "219 yd", low=1, high=20_000)},
    lambda unit: (
        "a length of yarn from 1.1 yd to 21800 yd, in yd or m"
        if unit == "in"
        else "a length of yarn from 1 m to 20000 m, in m or yd"
    ),
    lambda unit: '"219 yd"' if unit == "in" else '"200 m"',
    Kind.YARN_LENGTH,
    low=1,
    high=20_000,
)
"""Reads a length of yarn; a bare number is metres, and is refused in a file in inches."""


unravelled_metres = replace(
    metres, example=lambda unit: '"3 1/2 yd"' if unit == "in" else '"3.2 m"'
)
"""Reads the length of yarn pulled out of a swatch."""


def _number_as_typed(given: object) -> str:
    return given.strip() if isinstance(given, str) else as_typed(given)


_BOTH_SIZES = re.compile(r"(?P<one>[^()=]+?)\s*(?:\(|=|\s/\s)\s*(?P<other>[^()=]+?)\s*\)?\s*")


def _needle(given: object, unit: LengthUnit) -> float:
    both = _BOTH_SIZES.fullmatch(given) if isinstance(given, str) else None
    if both is None:
        return _one_needle(given, unit)
    # "US 3 (3.25 mm)": both are read, and must be one needle.
    one, other = (_one_needle(size, unit) for size in (both["one"], both["other"]))
    if abs(one - other) > NEEDLES_APART_MM:
        raise RefusedError(
            "value.two-needles",
            f"{as_typed(given)} names two needles, {one:g} mm and {other:g} mm",
            instead=(f'"{one:g} mm"', f'"{other:g} mm"'),
        )
    return one if "mm" not in both["other"].lower() else other


NEEDLES_APART_MM = 0.13
"""Makers round one size to a quarter or to a tenth of a millimetre (common practice, no source)."""


def _one_needle(given: object, unit: LengthUnit) -> float:
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


_US_TYPED = r"(U\.?S\.?\s*#?|#)\s*[0-9]+([.,]5| ?½| ?1/2)?"

needle_mm = Typed(
    _needle,
    {
        "anyOf": [
            {
                "type": "string",
                "pattern": rf"^\s*({NUMBER}\s*(mm)?|{_US_TYPED})\s*$",
                "examples": ["3.5 mm", "US 4"],
            },
            {"type": "number", "minimum": 1, "maximum": 25},
        ]
    },
    fixed(f"a needle from 1 mm to 25 mm, or a US size ({', '.join(US_NEEDLES_MM)})"),
    fixed('"3.5 mm"'),
    Kind.NEEDLE,
    low=1,
    high=25,
)
"""Reads a needle size, in mm or a US size, in mm."""

MOST_BALLS = 100
"""Balls of one yarn that may each have a weight and a lot."""

_T = TypeVar("_T")


def _each(given: object, read: Callable[[object], _T], what: str) -> tuple[_T, ...]:
    if not isinstance(given, (list, tuple)):
        raise RefusedError("value.list", f"{as_typed(given)} is not a list of {what}")
    if not 1 <= len(given) <= MOST_BALLS:
        raise RefusedError("value.list", f"the list of {what} has {len(given)} entries")
    try:
        return tuple(read(one) for one in given)
    except QuantityError as refused:
        # What was meant by one of them is nothing to write for the whole list.
        raise QuantityError(refused.code, f"{refused}") from None


def _weights(given: object, unit: LengthUnit) -> tuple[float, ...]:
    return _each(given, lambda one: float(grams.read(one, unit)), "weights")


ball_weights = Typed(
    _weights,
    {
        "type": "array",
        "minItems": 1,
        "maxItems": MOST_BALLS,
        "items": {"anyOf": typed_or_number(MASS, "50 g", "1.75 oz", low=1, high=5_000)},
        "examples": [["50 g", "50 g", "23 g"]],
    },
    fixed(f"a list of 1 to {MOST_BALLS} weights, each from 1 g to 5000 g"),
    lambda unit: '["1.75 oz", "0.8 oz"]' if unit == "in" else '["50 g", "50 g", "23 g"]',
)
"""Reads the weight of each ball."""

_lot = text(20, example="A")


def _lots(given: object, unit: LengthUnit) -> tuple[str, ...]:
    return _each(given, lambda one: str(_lot.read(one, unit)), "lots")


lot_names = Typed(
    _lots,
    {
        "type": "array",
        "minItems": 1,
        "maxItems": MOST_BALLS,
        "items": {"type": "string", "maxLength": 20},
        "examples": [["A", "A", "B"]],
    },
    fixed(f"a list of 1 to {MOST_BALLS} names of lots, each of at most 20 letters"),
    fixed('["A", "A", "B"]'),
)
"""Reads the dye lot of each ball."""


def weighed_balls(weights: object, ball_weight: object) -> float:
    """Count the balls that the weights come to, by the weight of one.

    Both as typed. What a field will refuse counts as one ball here: the
    refusal ends the reading.
    """
    try:
        together_g = sum(_weights(weights, "cm"))
        return min(500.0, together_g / float(grams.read(ball_weight, "cm")))
    except QuantityError:
        return 1.0
