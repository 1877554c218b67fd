"""Field types of the stash: each ball's weight, each ball's lot."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from yokefellow.project.counts import MASS, grams
from yokefellow.project.plain import text
from yokefellow.project.typed import RefusedError, Typed, fixed, typed_or_number
from yokefellow.units import LengthUnit, QuantityError, as_typed

__all__ = ["MOST_BALLS", "ball_weights", "lot_names", "weighed_balls"]

MOST_BALLS = 100
"""Balls of one yarn that may each have a weight and a lot."""

_T = TypeVar("_T")


def _each(given: object, read: Callable[[object], _T], what: str) -> tuple[_T, ...]:
    if not isinstance(given, (list, tuple)):
        raise RefusedError("value.list", f"{as_typed(given)} is not a list of {what}")
    if not 1 <= len(given) <= MOST_BALLS:
        raise RefusedError("value.list", f"the list of {what} has {len(given)} entries")
    return tuple(read(one) for one in given)


def _weights(given: object, unit: LengthUnit) -> tuple[float, ...]:
    return _each(given, lambda one: float(grams.read(one, unit)), "weights")


ball_weights = Typed(
    _weights,
    {
        "type": "array",
        "minItems": 1,
        "maxItems": MOST_BALLS,
        "items": {"anyOf": typed_or_number(MASS, "50 g", "1.75 oz")},
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
