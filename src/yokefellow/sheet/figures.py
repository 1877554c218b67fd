"""Numbers as the sheet words them: yarn, gauge, needles, shares. One way for every format."""

from __future__ import annotations

from yokefellow.project_file.measure_fields import US_NEEDLES_MM
from yokefellow.quantities import CM_PER_INCH, LengthUnit, length

__all__ = [
    "balls",
    "fine_length",
    "grams",
    "in_a_swatch",
    "less_than",
    "needle",
    "number",
    "percent",
    "percent_of",
    "signed_length",
    "swatch_width",
    "title_case",
]

SWATCH_INCHES = 4
SWATCH_CM = 10
"""Over how much a gauge is told: 4 in or 10 cm, as on every yarn band."""


def number(count: int) -> str:
    """Write a count with commas between the thousands.

    >>> number(68583), number(-120)
    ('68,583', '−120')
    """
    return f"{count:,}".replace("-", "−")


def plain(value: float, places: int) -> str:
    """Write a number without trailing zeros.

    >>> plain(26.50, 1), plain(-0.04, 1)
    ('26.5', '0')
    """
    written = f"{value:.{places}f}"
    if "." in written:
        written = written.rstrip("0").rstrip(".")
    return "0" if written == "-0" else written.replace("-", "−")


def grams(value_g: float) -> str:
    """Word a weight of yarn, in whole grams."""
    return f"{number(round(value_g))} g"


def balls(value: float) -> str:
    """Word a number of balls to a tenth.

    >>> balls(5.87), balls(1.0), balls(0.03)
    ('5.9 balls', '1 ball', 'under 0.1 ball')
    """
    shown = plain(value, 1)
    if shown == "0" and value > 0:
        return "under 0.1 ball"
    return f"{shown} ball" if shown == "1" else f"{shown} balls"


def percent(part: int, whole: int) -> str:
    """Word a share in whole per cent, rounded down: 100 % is said only when all is done.

    >>> percent(999, 1000), percent(5, 5)
    ('99 %', '100 %')
    """
    return f"{100 * part // whole} %"


def percent_of(share: float) -> str:
    """Word a probability to a tenth of a per cent; nothing is told as quite sure.

    >>> percent_of(0.8994), percent_of(0.9), percent_of(0.99999)
    ('89.9 %', '90 %', 'over 99.9 %')
    """
    if share > 0.9995:
        return "over 99.9 %"
    return f"{plain(100 * share, 1)} %"


def less_than(share: float, asked: float) -> str:
    """Word a probability that falls short of the one asked for.

    >>> less_than(0.895, 0.9), less_than(0.89996, 0.9)
    ('89.5 %', 'just under 90 %')
    """
    shown = percent_of(share)
    return f"just under {shown}" if shown == percent_of(asked) else shown


def swatch_width(unit: LengthUnit) -> str:
    """Name the width over which a gauge is told."""
    return f"{SWATCH_CM} cm" if unit == "cm" else f"{SWATCH_INCHES} in"


def in_a_swatch(per_cm: float, unit: LengthUnit) -> str:
    """Tell a gauge per cm as a count over 10 cm or 4 in, to a tenth.

    >>> in_a_swatch(2.6, "cm"), in_a_swatch(2.6, "in")
    ('26', '26.4')
    """
    width_cm = SWATCH_CM if unit == "cm" else SWATCH_INCHES * CM_PER_INCH
    return plain(per_cm * width_cm, 1)


def needle(mm: float, unit: LengthUnit) -> str:
    """Name a needle size: mm, with the US size beside it on a sheet in inches.

    >>> needle(3.25, "in"), needle(3.25, "cm")
    ('3.25 mm (US 3)', '3.25 mm')
    """
    named = [size for size, size_mm in US_NEEDLES_MM.items() if abs(size_mm - mm) < 0.01]
    metric = f"{plain(mm, 2)} mm"
    return f"{metric} (US {named[0]})" if named and unit == "in" else metric


def fine_length(cm: float, unit: LengthUnit) -> str:
    """Word a length to a hundredth, so that rounding to whole stitches shows.

    >>> fine_length(104.24, "cm"), fine_length(104.24, "in")
    ('104.24 cm', '41.04 in')
    """
    return f"{plain(cm, 2)} cm" if unit == "cm" else f"{plain(cm / CM_PER_INCH, 2)} in"


def signed_length(cm: float, unit: LengthUnit) -> str:
    """Word a difference: with its sign, plus included."""
    shown = length(cm, unit)
    return shown if shown.startswith(("−", "0 ")) else f"+{shown}"


def title_case(words: str) -> str:
    """Begin with a capital and leave the rest as it is."""
    return words[:1].upper() + words[1:]
