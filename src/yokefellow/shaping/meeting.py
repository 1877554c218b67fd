"""The split that meets a yoke count which is pinned, with the least given up elsewhere."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

__all__ = ["LEAST_HELD", "split_meeting"]

LEAST_HELD = 4
"""Stitches of a sleeve, and of the front, that must stay between the underarms."""

ODD = 0.0004
"""What an odd count is put on a level with: two in a hundred off what was wanted (our choice)."""

_LEASTS = (8, 6, 2)


def split_meeting(
    yoke: int, pins: tuple[int | None, int | None, int | None], wanted: tuple[float, float, float]
) -> tuple[tuple[int, int, int], ...]:
    """Give the body, sleeve and underarm that come to so many yoke stitches; none where none do.

    Of all that meet Y = (B - 2U) + 2(S - U), those with the least squared
    relative distance from what was wanted; an odd count weighs a little more.

    Args:
        yoke: Y, exactly.
        pins: of body, sleeve and underarm; None where it is free.
        wanted: the real counts asked for.

    >>> split_meeting(268, (200, None, 16), (200.0, 65.0, 16.0))
    ((200, 66, 16),)
    """
    best = min(_meeting(yoke, pins, wanted), key=lambda one: _cost(one, pins, wanted), default=None)
    return () if best is None else (best,)


def _meeting(
    yoke: int, pins: tuple[int | None, int | None, int | None], wanted: tuple[float, float, float]
) -> Iterator[tuple[int, int, int]]:
    for body in _around(pins[0], wanted[0], _LEASTS[0]):
        for underarm in _around(pins[2], wanted[2], _LEASTS[2]):
            sleeve, over = divmod(yoke - body + 4 * underarm, 2)
            if over or (pins[1] is not None and sleeve != pins[1]):
                continue
            if min(sleeve - underarm, body // 2 - underarm) >= LEAST_HELD:
                yield body, sleeve, underarm


def _around(pin: int | None, wanted: float, least: int) -> Iterable[int]:
    """Give the counts to try: half of what was wanted to half as much again."""
    if pin is not None:
        return (pin,)
    return range(max(least, int(wanted * 0.5)), int(wanted * 1.5) + 3)


def _cost(
    split: tuple[int, int, int],
    pins: tuple[int | None, int | None, int | None],
    wanted: tuple[float, float, float],
) -> tuple[float, tuple[int, int, int]]:
    off = sum(((got - want) / want) ** 2 for got, want in zip(split, wanted, strict=True))
    odd = sum(ODD for got, pin in zip(split, pins, strict=True) if pin is None and got % 2)
    return off + odd, split
