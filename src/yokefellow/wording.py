"""Lengths in sentences: `38 in`, `96.5 cm`, `38¼ in`. Text only; nothing is computed from it."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor

from yokefellow.units import CM_PER_INCH, LengthUnit

M_PER_YARD = 0.9144
"""Exact by definition (international yard and pound agreement, 1959)."""

__all__ = [
    "M_PER_YARD",
    "at_least",
    "at_most",
    "either",
    "gauge",
    "length",
    "tape_above",
    "yarn_length",
]

_QUARTERS = ("", "¼", "½", "¾")


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
    shown = f"{whole or ''}{_QUARTERS[part]}" or "0"
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
