"""An amount of yarn, told in stitches, metres, grams and balls."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.project_file.models import Yarn


class Amount(NamedTuple):
    """An amount of yarn, told four ways."""

    stitches: int
    metres: float
    grams: float
    balls: float


class Span(NamedTuple):
    """An amount between two others: what it is by the best guess, and what it may be."""

    low: Amount
    mean: Amount
    high: Amount


def amount(stitches: int, metres: float, yarn: Yarn) -> Amount:
    """Tell metres of a yarn in grams and balls too, by its band."""
    balls = metres / yarn.ball_length
    return Amount(stitches, metres, balls * yarn.ball_weight, balls)


def of_grams(stitches: int, grams: float, yarn: Yarn) -> Amount:
    """Tell grams of a yarn in metres and balls too, by its band."""
    balls = grams / yarn.ball_weight
    return Amount(stitches, balls * yarn.ball_length, grams, balls)


def span(low_g: float, mean_g: float, high_g: float, yarn: Yarn, *, stitches: int = 0) -> Span:
    """Tell a range of grams four ways."""
    return Span(*(of_grams(stitches, grams, yarn) for grams in (low_g, mean_g, high_g)))


def less(one: Amount, other: Amount) -> Amount:
    """Give what one amount is more than another; below zero when it is less."""
    return Amount(
        one.stitches - other.stitches,
        one.metres - other.metres,
        one.grams - other.grams,
        one.balls - other.balls,
    )
