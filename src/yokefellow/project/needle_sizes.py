"""Needle sizes of the United States, in mm.

Source: Craft Yarn Council, *Standards & Guidelines*, table "Knitting Needle
Sizes", with the half sizes and the sizes under 0 as printed on needle gauges;
written down from memory of the table. The sizes at the ends of the ranges in
the Council's *Standard Yarn Weight System* (000, 1, 3, 5, 7, 9, 11, 17) agree
with it and are checked in the tests.
"""

from __future__ import annotations

import contextlib
import re
from types import MappingProxyType

from yokefellow.units import QuantityError, as_typed, parse_number

__all__ = ["US_NEEDLES_MM", "us_needle_mm", "us_size"]

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
"""From the size as printed on the needle to mm."""

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
