"""Counts that are given and not chosen: the table [fixed] of the project file, a frozen model."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, TypeAlias

from pydantic import Field

from yokefellow.project_file.chart_fields import whole
from yokefellow.project_file.fields import Model

MOST_STITCHES, MOST_ROUNDS = 2_000, 1_000
"""More than the largest sweater in the finest yarn has."""

MOST_INCREASES = 200
"""Increase rounds of one yoke, at the most: a raglan may have one in every round."""

LEAST_HELD = 4
"""Stitches of a sleeve, and of the front, that must stay between the underarms."""

IncreaseCounts: TypeAlias = Annotated[
    tuple[Annotated[int, whole(8, MOST_STITCHES, typical=(135, 180, 228, 266, 304))], ...],
    Field(max_length=MOST_INCREASES),
]
IncreaseNumbers: TypeAlias = Annotated[
    tuple[Annotated[int, whole(1, MOST_ROUNDS, typical=(4, 13, 24, 35, 46))], ...],
    Field(max_length=MOST_INCREASES),
]


class Fixed(Model):
    """Counts that must come out exactly, if you have any.

    The rest is chosen around them, and the sheet says what each of them costs.
    """

    neck: Annotated[int | None, whole(8, MOST_STITCHES, typical=100)] = None
    """Stitches where the yoke begins."""
    neck_back: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the back where the yoke begins, with its share of two lines."""
    neck_front: Annotated[int | None, whole(2, 400, typical=34)] = None
    """Of a raglan: stitches of the front where the yoke begins, with its share of two lines."""
    neck_sleeve: Annotated[int | None, whole(0, 400, typical=16)] = None
    """Of a raglan: stitches of each sleeve where the yoke begins, with its share of two lines."""
    cast_on: Annotated[int | None, whole(8, MOST_STITCHES, typical=100)] = None
    """Stitches cast on for the neckband."""
    increases: IncreaseCounts = ()
    """Stitches after each increase round of the yoke, in order."""
    increase_at: IncreaseNumbers = ()
    """The rounds of the yoke that increase, in order; the first round after the neckband is 1."""
    yoke_rounds: Annotated[int | None, whole(8, MOST_ROUNDS, typical=65)] = None
    """Rounds of the yoke at the front, from the neckband to the split."""
    yoke: Annotated[int | None, whole(8, MOST_STITCHES, typical=304)] = None
    """Stitches at the end of the yoke, before the split."""
    body: Annotated[int | None, whole(8, MOST_STITCHES, typical=224)] = None
    """Stitches of the body right below the underarm, the underarms with it."""
    sleeve: Annotated[int | None, whole(8, MOST_STITCHES, typical=72)] = None
    """Stitches round the top of each sleeve, the underarm with them."""
    underarm: Annotated[int | None, whole(2, 400, typical=16)] = None
    """Stitches cast on at each underarm."""
    front: Annotated[int | None, whole(8, MOST_STITCHES, typical=96)] = None
    """Stitches of the front at the split, between the underarms."""
    back: Annotated[int | None, whole(8, MOST_STITCHES, typical=96)] = None
    """Stitches of the back at the split, between the underarms."""
    hem: Annotated[int | None, whole(8, MOST_STITCHES, typical=224)] = None
    """Stitches of the hem."""
    cuff: Annotated[int | None, whole(8, MOST_STITCHES, typical=44)] = None
    """Stitches of each cuff."""
    body_rounds: Annotated[int | None, whole(3, MOST_ROUNDS, typical=106)] = None
    """Rounds of the body from the underarm to the hem."""
    sleeve_rounds: Annotated[int | None, whole(3, MOST_ROUNDS, typical=113)] = None
    """Rounds of each sleeve from the underarm to the cuff, the one that picks up included."""


NOTHING = Fixed()
"""No pin at all."""

OF_THE_YOKE = (
    *("neck_back", "neck_front", "neck_sleeve"),
    *("neck", "increases", "increase_at", "yoke"),
    *("body", "sleeve", "underarm", "front", "back"),
)
"""Counts that are chosen together: a pin on one moves the others."""


OF_A_RAGLAN = ("neck_back", "neck_front", "neck_sleeve")
"""Counts that only a raglan has."""


def torso(fixed: Fixed) -> int | None:
    """Give the stitches of front and back between the underarms, where both are pinned."""
    return None if fixed.front is None or fixed.back is None else fixed.front + fixed.back


def without(fixed: Fixed, name: str) -> Fixed:
    """Take one pin out."""
    return fixed.model_copy(update={name: Fixed.model_fields[name].default})


def pinned(fixed: Fixed) -> Iterator[str]:
    """Give the names of the counts that are given, in the order of knitting."""
    for name in Fixed.model_fields:
        if getattr(fixed, name) not in (None, ()):
            yield name
