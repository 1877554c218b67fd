"""What is typed beside the definitions of 1959, and beside pint used by itself."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

import pint

from tests.published import published
from tests.published.check import Check
from yokefellow.quantities import parse_quantity, show_length

UNITS = published("units")
EVERY = ("cm", "mm", "m", "in", "yd", "g", "kg", "oz", "lb")
BASES = {"centimeter": "cm", "meter": "m", "gram": "g"}


def checks() -> Iterator[Check]:
    """Definitions, quantities as typed, and a hundred lengths there and back."""
    for text, exact in UNITS["exact"].items():
        yield Check(
            f"{text}, exactly", (exact["is"],), (_typed(text, exact["base"]),), exact["base"], 0.0
        )
    registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)
    for one in UNITS["typed"]:
        number, unit, base = one["pint"]
        theirs = registry.Quantity(Decimal(number), unit).to(base).magnitude
        ours = _typed(one["text"], BASES[base])
        yield Check(f'"{one["text"]}"', (float(theirs),), (ours,), BASES[base], 0.0)
    eighths = [Decimal(n) / 8 for n in range(8, 808, 8)]
    theirs_cm = tuple(
        float(registry.Quantity(n, "inch").to("centimeter").magnitude) for n in eighths
    )
    yield Check(
        "1 to 100 in, every inch: the largest difference",
        (0.0,),
        (max(abs(_typed(f"{n} in", "cm") - cm) for n, cm in zip(eighths, theirs_cm, strict=True)),),
        "cm",
        0.0,
    )
    yield Check(
        "96.52 cm shown in inches",
        f"{float(registry.Quantity(Decimal('96.52'), 'centimeter').to('inch').magnitude):g} in",
        show_length(96.52, unit="in"),
    )


def _typed(text: str, base: str) -> float:
    return parse_quantity(text, base=base, allowed=EVERY, default=base)
