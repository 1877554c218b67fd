"""What a knitter types, in and out: `38 in`, `96,5 cm`, `1 1/2 in`, `38½`, `50 g`, `437 yd`.

Inside the program a length is a float in cm, a mass in g, a length of yarn in
m, and the name says so. This module alone knows pint, and never shows it a
person's text: pint's own parser hangs on `9**9**9 in`, reads `1,5 cm` as 15 cm
and lets `nan` through. The text is read by an anchored pattern against a list
of allowed units, and pint only supplies the conversion factor.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable
from fractions import Fraction
from functools import cache
from math import ceil, floor
from types import MappingProxyType
from typing import Literal

from yokefellow.findings import as_typed

LengthUnit = Literal["cm", "in"]

CM_PER_INCH = 2.54
"""Exact by definition (international yard and pound agreement, 1959)."""

_UNITS = """
metre = [length] = m
gram = [mass] = g
cm = 0.01 m
mm = 0.001 m
inch = 0.0254 m = in
ft = 0.3048 m
yd = 0.9144 m
kg = 1000 g
lb = 453.59237 g
oz = lb / 16
"""
# The units a knitter meets, in pint's own definition language, exact by the
# agreement of 1959. Loading only these takes 5 ms where pint's full list of
# some thousand units takes 105 ms (measured with pint 0.25 on Python 3.11).

_SPELLINGS = MappingProxyType(
    {
        spelling: unit
        for unit, spellings in {
            "cm": "cm centimetre centimetres centimeter centimeters",
            "mm": "mm millimetre millimetres millimeter millimeters",
            "m": "m metre metres meter meters",
            "in": "in ins inch inches \" ″ ” ''",
            "ft": "ft foot feet",
            "yd": "yd yds yard yards",
            "g": "g gram grams gramme grammes",
            "kg": "kg kilo kilos kilogram kilograms",
            "oz": "oz ounce ounces",
            "lb": "lb lbs pound pounds",
        }.items()
        for spelling in spellings.split()
    }
)

_FRACTIONS = str.maketrans(
    {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "⁄": "/"}
    | {"⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "\u00a0": " "}
)

_QUANTITY = re.compile(
    r"""\s*
    (?: (?P<whole>[0-9]{1,6}) (?:\s+|-) (?=[0-9]{1,3}/) )?   # the 1 of 1 1/2 and 1-1/2
    (?: (?P<over>[0-9]{1,3}) / (?P<under>[0-9]{1,3})         # 1/2
      | (?P<decimal>[0-9]{1,7}(?:[.,][0-9]{1,6})?
                   |[.,][0-9]{1,6}) )                        # 38, 38.5, 38,5 or .5
    \s* (?: (?P<unit>[A-Za-z]{1,12}|["″”]|'') \.? )? \s*""",
    re.VERBOSE | re.ASCII,
)
_AMOUNT = r"(?:[0-9]{1,6}(?:[.,][0-9]{1,6})?(?:[ -][0-9]/[0-9])?)"
_SPAN = re.compile(
    rf"""\s*(?P<low>{_AMOUNT})\s*(?P<unit>[A-Za-z]{{1,12}}|["″”])?\s*
    (?:-|–|—|\bto\b|\bor\b)\s*
    (?P<high>{_AMOUNT})\s*(?P<unit_behind>[A-Za-z]{{1,12}}|["″”])?\.?\s*""",
    re.VERBOSE | re.ASCII,
)
"""Two numbers where one is wanted: `43-44`, `38 to 39 in`."""
_THOUSANDS = re.compile(r"\s*[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9])", re.ASCII)
_NUMBER_FIRST = re.compile(r"\s*[0-9.,½¼¾⅓⅔⅛⅜⅝⅞]")

_LARGEST = 9_999_999


class QuantityError(ValueError):
    """The text is not a quantity of the wanted kind; `code` names the rule it breaks."""

    def __init__(self, code: str, message: str) -> None:
        self.code = code
        super().__init__(message)


class SpanError(QuantityError):
    """Two numbers were given where one is wanted; `meant` holds both, as they stand in a file."""

    def __init__(self, given: object, low: str, high: str) -> None:
        self.meant = (f'"{low}"', f'"{high}"')
        super().__init__("value.span", f"{as_typed(given)} is a range, and one number is wanted")


def starts_with_number(text: str) -> bool:
    """Tell whether the text begins like a quantity and not like a name."""
    return _NUMBER_FIRST.match(text) is not None


_EXACT = MappingProxyType(
    {
        ("in", "cm"): Fraction(str(CM_PER_INCH)),
        ("mm", "cm"): Fraction(1, 10),
        ("yd", "m"): Fraction(9144, 10000),
    }
)
"""The lengths nearly every file has: asking pint for them would take a tenth of a run."""


@cache
def _factor(unit: str, base: str) -> Fraction:
    """Give how many `base` make one `unit`, exactly: what stands above, or what pint says."""
    if (unit, base) in _EXACT:
        return _EXACT[unit, base]
    # Imported here: most files never pay for it.
    import decimal

    import pint

    registry: pint.UnitRegistry[decimal.Decimal] = pint.UnitRegistry(
        _UNITS.strip().splitlines(), non_int_type=decimal.Decimal
    )
    return Fraction(registry.Quantity(decimal.Decimal(1), unit).to(base).magnitude)


def parse_quantity(
    given: str | float, *, base: str, allowed: tuple[str, ...], default: str
) -> float:
    """Read a quantity and give it in `base`.

    Decimal point and decimal comma are both read, and fractions (`1 1/2`,
    `1-1/2`, `1½`); a separator of thousands is refused.

    Args:
        given: what was typed; a bare number is in `default`.
        base: the unit of the result.
        allowed: the units that may be typed.
        default: the unit of a bare number.

    Raises:
        QuantityError: not a number and a unit, an unknown unit, or not above zero.

    >>> parse_quantity("1 1/2 in", base="cm", allowed=("cm", "in"), default="cm")
    3.81
    """
    number, unit = _split(given)
    unit = default if unit is None else unit
    if _SPELLINGS.get(unit.lower()) not in allowed:
        raise QuantityError(
            "value.unit", f"{as_typed(given)} is in {as_typed(unit)}, not in {_or(allowed)}"
        )
    if number <= 0:
        raise QuantityError("value.not-positive", f"{as_typed(given)} is not above zero")
    unit = _SPELLINGS[unit.lower()]
    # Exact until the last step: 38.3 in is the float nearest to 97.282 cm.
    return float(number if unit == base else number * _factor(unit, base))


def _or(words: tuple[str, ...]) -> str:
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last


def _split(given: object) -> tuple[Fraction, str | None]:
    """Split what was typed into a number and the unit's spelling."""
    if isinstance(given, (int, float)) and not isinstance(given, bool):
        return _bare(given), None
    text = given.translate(_FRACTIONS) if isinstance(given, str) else ""
    if _THOUSANDS.match(text):
        raise QuantityError(
            "value.thousands",
            f"{as_typed(given)} may mean thousands or a decimal comma, and is refused",
        )
    read = _QUANTITY.fullmatch(text)
    if read is None:
        both = _SPAN.fullmatch(text)
        if both is not None:
            unit = both["unit_behind"] or both["unit"] or ""
            unit = f" {unit}" if unit else ""
            raise SpanError(given, f"{both['low']}{unit}", f"{both['high']}{unit}")
        if re.match(r"\s*[-−]\s*[0-9.]", text):
            raise QuantityError("value.not-positive", f"{as_typed(given)} is not above zero")
        raise QuantityError("value.unreadable", f"{as_typed(given)} is not a number with a unit")
    return _number(read, given), read["unit"]


def _bare(given: float) -> Fraction:
    if abs(given) > _LARGEST or not math.isfinite(given):
        raise QuantityError("value.unreadable", f"{as_typed(given)} is too large, or no number")
    return Fraction(repr(given))


def _number(read: re.Match[str], given: object) -> Fraction:
    if read["decimal"] is not None:
        return Fraction(read["decimal"].replace(",", "."))
    over, under = int(read["over"]), int(read["under"])
    if under == 0 or (read["whole"] is not None and over >= under):
        raise QuantityError("value.unreadable", f"{as_typed(given)} holds no proper fraction")
    return int(read["whole"] or 0) + Fraction(over, under)


def parse_number(given: str | float) -> float:
    """Read a number that has no unit: `5.5`, `5,5`, `5 1/2`; zero is one.

    Raises:
        QuantityError: not a number, text below zero, or with a unit behind it.
    """
    number, unit = _split(given)
    if unit is not None:
        raise QuantityError("value.number", f"{as_typed(given)} is not a bare number")
    return float(number)


def is_bare(given: object) -> bool:
    """Tell whether what was typed is a number without a unit."""
    try:
        return _split(given)[1] is None
    except QuantityError:
        return False


def length_unit(typed: object) -> LengthUnit | None:
    """Read the name of the unit of a tape measure; None when it is no such name.

    >>> length_unit("Inches")
    'in'
    """
    unit = _SPELLINGS.get(typed.strip().lower()) if isinstance(typed, str) else None
    return "in" if unit == "in" else "cm" if unit == "cm" else None


def in_the_other_unit(given: object, *, default: LengthUnit) -> str | None:
    """Give the number that was typed with inches for cm, or cm for inches; None with another unit.

    >>> in_the_other_unit("41 cm", default="in"), in_the_other_unit(96, default="in")
    ('41 in', '96 cm')
    """
    if not isinstance(given, (str, int, float)) or isinstance(given, bool):
        return None
    text = given.translate(_FRACTIONS) if isinstance(given, str) else f"{given:.10g}"
    read = _QUANTITY.fullmatch(text)
    unit = length_unit(read["unit"] or default) if read else None
    if read is None or unit is None:
        return None
    number = " ".join((text[: read.start("unit")] if read["unit"] else text).split())
    return f"{number} {'cm' if unit == 'in' else 'in'}"


def parse_length_cm(given: str | float, *, default: LengthUnit) -> float:
    """Read a length on the body or the fabric, in cm.

    Raises:
        QuantityError: not a length in cm, in or mm above zero.

    >>> parse_length_cm("38 in", default="cm")
    96.52
    """
    return parse_quantity(given, base="cm", allowed=("cm", "in", "mm"), default=default)


def parse_mass_g(given: str | float) -> float:
    """Read a weight of yarn, in g; a bare number is grams.

    Raises:
        QuantityError: not a weight in g, oz, kg or lb above zero.
    """
    return parse_quantity(given, base="g", allowed=("g", "oz", "kg", "lb"), default="g")


def parse_yarn_m(given: str | float) -> float:
    """Read a length of yarn, in m; a bare number is metres.

    Raises:
        QuantityError: not a length in m or yd above zero.
    """
    return parse_quantity(given, base="m", allowed=("m", "yd"), default="m")


def show_length(cm: float, *, unit: LengthUnit, places: int = 1) -> str:
    """Write a length for reading, in cm or inches, without trailing zeros.

    >>> show_length(96.52, unit="in")
    '38 in'
    """
    number = cm / CM_PER_INCH if unit == "in" else cm
    written = f"{number:.{places}f}"
    if "." in written:
        written = written.rstrip("0").rstrip(".")
    return f"{'0' if written == '-0' else written} {unit}"


_QUARTERS = ("", "1/4", "1/2", "3/4")


def show_tape(cm: float, *, unit: LengthUnit) -> str:
    """Write a length as a tape measure is divided, and as it is typed: quarter inches, half cm.

    >>> show_tape(23.7, unit="in"), show_tape(23.7, unit="cm")
    ('9 1/4 in', '23.5 cm')
    """
    if unit == "cm":
        return f"{round(cm * 2) / 2:g} cm"
    whole, part = divmod(round(abs(cm) / CM_PER_INCH * 4), 4)
    number = " ".join(filter(None, (str(whole or ""), _QUARTERS[part]))) or "0"
    return f"{'-' if cm < 0 and number != '0' else ''}{number} in"


M_PER_YARD = 0.9144
"""Exact by definition (international yard and pound agreement, 1959)."""

_QUARTER_SIGNS = ("", "¼", "½", "¾")


def length(cm: float, unit: LengthUnit) -> str:
    """Word a length for a sentence.

    Args:
        cm: the length in cm; below zero it takes a minus sign.
        unit: `cm` is shown to the nearest tenth, `in` to the nearest quarter,
            as a tape measure is divided.

    >>> length(96.52, "cm"), length(96.52, "in"), length(97.2, "in")
    ('96.5 cm', '38 in', '38¼ in')
    """
    if unit == "cm":
        return f"{_signed(round(cm, 1), f'{abs(round(cm, 1)):g}')} cm"
    quarters = round(cm / CM_PER_INCH * 4)
    whole, part = divmod(abs(quarters), 4)
    shown = f"{whole or ''}{_QUARTER_SIGNS[part]}" or "0"
    return f"{_signed(quarters, shown)} in"


def either(ways: Iterable[object]) -> str:
    """Word what to choose from.

    >>> either([7]), either([15, 17]), either([1, 2, 5])
    ('7', '15 or 17', '1, 2 or 5')
    """
    *most, last = map(str, ways)
    return f"{', '.join(most)} or {last}" if most else last


def at_most(cm: float, unit: LengthUnit) -> str:
    """Word an upper limit, rounded down as a tape is divided: what is written so keeps it.

    >>> at_most(32.2, "cm"), at_most(32.2, "in")
    ('32 cm', '12½ in')
    """
    step = _step_cm(unit)
    return length(floor(cm / step) * step, unit)


def at_least(cm: float, unit: LengthUnit) -> str:
    """Word a lower limit, rounded up as a tape is divided: what is written so keeps it.

    >>> at_least(32.2, "cm"), at_least(32.2, "in")
    ('32.5 cm', '12¾ in')
    """
    return length(tape_above(cm, unit), unit)


def tape_above(cm: float, unit: LengthUnit) -> float:
    """Give the next mark of a tape, in cm: every half of one, or every quarter of an inch."""
    step = _step_cm(unit)
    return ceil(cm / step) * step


def _step_cm(unit: LengthUnit) -> float:
    return 0.5 if unit == "cm" else CM_PER_INCH / 4


def _signed(value: float, shown: str) -> str:
    return f"−{shown}" if value < 0 else shown


def yarn_length(metres: float, unit: LengthUnit) -> str:
    """Word a length of yarn: metres, or yards with metres beside them where the tape is in inches.

    >>> yarn_length(1176.3, "cm"), yarn_length(100.0, "in")
    ('1,176 m', '109 yd (100 m)')
    """
    shown = f"{round(metres):,} m"
    worded = shown if unit == "cm" else f"{round(metres / M_PER_YARD):,} yd ({shown})"
    return worded.replace("-", "−")


def gauge(per_cm: float, unit: LengthUnit) -> str:
    """Word a stitch gauge over the usual width of a swatch.

    >>> gauge(2.65, "cm"), gauge(2.65, "in")
    ('26.5 stitches in 10 cm', '26.9 stitches in 4 in')
    """
    if unit == "cm":
        return f"{10 * per_cm:.1f} stitches in 10 cm"
    return f"{4 * CM_PER_INCH * per_cm:.1f} stitches in 4 in"


def in_hundred(chance: float) -> int:
    """Give a chance as so many in a hundred, never as certain.

    >>> in_hundred(0.984), in_hundred(0.9999), in_hundred(0.0)
    (98, 99, 1)
    """
    return min(99, max(1, round(100 * chance)))
