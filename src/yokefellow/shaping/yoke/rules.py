"""The rules of the yoke, every number they hang on with its source, and what a yoke costs.

All yokes are weighed alike, by a `Cost` whose first number decides before the
second is looked at, and so on.
"""

from __future__ import annotations

from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

__all__ = ["Cost", "Rule", "tolerance"]

LEAST_APART = 3
"""Rounds from one increase round to the next: closer ones read as a ridge (common practice)."""

SHOULDER_AT = 0.45
"""Share of the depth at the point of the shoulder (common practice)."""

FULL_AT = 0.70
"""Share of the depth at which the yoke is full; 60 to 80 % is good (common practice)."""

FULL_EARLIEST, FULL_LATEST = 0.60, 0.80

BANDED_FULL_AT = 0.75
"""Where the line of a yoke with bands is full; its last increase round lies half a step before."""

STEEPEST = 0.48
"""Share of increase asked of a round at the most, a little under the half that is allowed, so
that the counts have room (our choice)."""

SLIGHT = 0.03
"""A round that adds a smaller share than this serves nothing: it is folded into a neighbor where
the counts allow (our choice)."""

SLIGHT_COSTS = 2.0
"""Repeats to read that a round adding so little is put on a level with (our choice)."""

APART_CM = MappingProxyType({"regular": 3.2, "gentle": 2.25, "few": 99.0})
"""How far apart increase rounds lie, in cm, by the style chosen: `gentle` is every 2 to 2.5 cm;
between bands, `few` is as few as reach (common practice)."""

FEW = ((4, 0.0), (3, 1.0), (5, 50.0), (6, 51.0))
"""How many increase rounds are `few`, and the repeats to read each number is put on a level with:
more than four only serve where four cannot reach (our choice)."""

TOLERANCE = 0.04
"""Share by which a count inside the yoke may lie off the line: its round moves by less than the
space between two, and the line stays where it is (our choice)."""

NARROWEST = 0.03
"""A band narrower than the line by more puckers the yoke (common practice), so wider is tried
first."""

GOOD_GAP = 3
"""Plain rounds before a band where there is room; fewer where there is not (common practice)."""

FIRST_INCREASE = 2
"""The earliest round that may increase: the first sets the markers and closes the gaps of the
short rows."""

LEAST_YOKE_ROUNDS = 8
"""Rounds of the shortest yoke (our choice)."""

LEAST_HELD = 4
"""Stitches of a sleeve, and of the front, that must stay between the underarms (our choice)."""

WIDE_CM = (1.0, 0.6, 1.0)
"""How far body, sleeve and underarm may give way, in cm, when a band lies where the yoke is
full: then its repeat divides the yoke's own count (our choice)."""

BODY_GIVES = 0.015
"""How far a straight body may give way, so that the repeat of its bands divides it (our choice:
a centimeter and a half on a chest of a meter)."""

ODD_SPLIT = 0.0004
"""What an odd count of the split is put on a level with where the yoke is pinned: two in a hundred
off what was wanted (our choice)."""


class Rule(StrEnum):
    """A rule of the yoke that may have to be broken."""

    SHOULDER = "shoulder"
    """The yoke goes round the shoulders at their point."""
    APART = "apart"
    """Increase rounds lie at least `LEAST_APART` rounds apart."""
    FULLNESS = "fullness"
    """The yoke is full between `FULL_EARLIEST` and `FULL_LATEST` of its depth."""
    STEEP = "steep"
    """A round adds at most one stitch to every two; only a pin can ask for more."""


class Cost(NamedTuple):
    """What a yoke costs: the least is chosen."""

    broken: int
    """Rules it breaks."""
    off_line: int
    """Bands that lie off its line: further than `TOLERANCE` outside, or `NARROWEST` inside it."""
    difficulty: float
    """What a knitter reads beyond one repeat for each increase round: the repeats of a round that
    does not come out in one (`spread_evenly.repeats_needed`), `SLIGHT_COSTS` for a round that adds
    next to nothing, one for a hem that needs an adjusting round, one for each increase round more
    or fewer than the style has; of a raglan, the rates."""
    deviation: float
    """The squared relative distance of every count from the one that is wanted."""


def tolerance(count: float) -> int:
    """Give the stitches by which a count inside the yoke may lie off the line: 3 to 10."""
    return min(10, max(3, int(TOLERANCE * count)))
