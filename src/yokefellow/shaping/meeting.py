"""The split that meets a yoke count which is pinned, with the least given up elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeAlias

__all__ = ["LEAST_HELD", "split_meeting"]

LEAST_HELD = 4
"""Stitches of a sleeve, and of the front, that must stay between the underarms."""

ODD = 0.0004
"""What an odd count is put on a level with: two in a hundred off what was wanted (our choice)."""

LEAST_UNDERARM = 2
"""A body and a sleeve have more, by what must stay between the underarms."""

Counts: TypeAlias = tuple[int, int, int]
"""Body, sleeve and underarm."""
Pins: TypeAlias = tuple[int | None, int | None, int | None]
"""The same, None where one is free."""
Wanted: TypeAlias = tuple[float, float, float]
"""The same, as asked for."""


def split_meeting(
    yoke: int | None, pins: Pins, wanted: Wanted, torso: int | None = None
) -> tuple[Counts, ...]:
    """Give the body, sleeve and underarm that come to a yoke or a torso; none where none do.

    Of all that meet Y = (B - 2U) + 2(S - U), those with the least squared
    relative distance from what was wanted; an odd count weighs a little more.

    Args:
        yoke: Y, exactly; None where it is free.
        pins: of body, sleeve and underarm; None where it is free.
        wanted: the real counts asked for.
        torso: front and back between the underarms, B - 2U, exactly; None where it is free.

    >>> split_meeting(268, (200, None, 16), (200.0, 65.0, 16.0))
    ((200, 66, 16),)
    """
    found = _meeting(yoke, pins, wanted, torso)
    best = min(found, key=lambda one: _cost(one, pins, wanted), default=None)
    return () if best is None else (best,)


def _meeting(yoke: int | None, pins: Pins, wanted: Wanted, torso: int | None) -> Iterator[Counts]:
    for underarm in _around(pins[2], wanted[2]):
        around = None if torso is None else torso + 2 * underarm
        if around is not None and pins[0] not in (None, around):
            continue
        for body in _around(pins[0] or around, wanted[0]):
            for sleeve in _sleeves(yoke, body, underarm, pins, wanted):
                if min(sleeve - underarm, body // 2 - underarm) >= LEAST_HELD:
                    yield body, sleeve, underarm


def _sleeves(
    yoke: int | None, body: int, underarm: int, pins: Pins, wanted: Wanted
) -> Iterable[int]:
    """Give the sleeves that the other counts leave."""
    if yoke is None:
        return _around(pins[1], wanted[1])
    sleeve, over = divmod(yoke - body + 4 * underarm, 2)
    return () if over or pins[1] not in (None, sleeve) else (sleeve,)


def _around(pin: int | None, wanted: float) -> Iterable[int]:
    """Give the counts to try: half of what was wanted to half as much again."""
    if pin is not None:
        return (pin,)
    return range(max(LEAST_UNDERARM, int(wanted * 0.5)), int(wanted * 1.5) + 3)


def _cost(split: Counts, pins: Pins, wanted: Wanted) -> tuple[float, Counts]:
    off = sum(((got - want) / want) ** 2 for got, want in zip(split, wanted, strict=True))
    odd = sum(ODD for got, pin in zip(split, pins, strict=True) if pin is None and got % 2)
    return off + odd, split
