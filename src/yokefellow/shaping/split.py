"""The split of the yoke into body and sleeves: met where it is pinned, shared front and back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TypeAlias

from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.model import Split
from yokefellow.shaping.refusals import NarrowFront
from yokefellow.shaping.yoke.rules import LEAST_HELD, ODD_SPLIT

__all__ = [
    "LEAST_BEHIND",
    "between_lines",
    "halved",
    "narrow_front",
    "portioned",
    "split_meeting",
]

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
    odd = sum(ODD_SPLIT for got, pin in zip(split, pins, strict=True) if pin is None and got % 2)
    return off + odd, split


LEAST_BEHIND = 1
"""Stitches of an underarm that stay on either side of its marker."""


def portioned(split: Split, *, front_more: float) -> Split:
    """Give the front so many stitches more of the round than the back.

    The underarms give them first: more of each belongs to the front, and the
    marker hangs farther back. What they cannot give, the front has more between
    the underarms and the back less.

    Args:
        split: with its counts.
        front_more: stitches wanted, front less back; below 0 the back has more.
    """
    more = nearest(abs(front_more) / 4, least=0)
    if not more:
        return split
    half = split.underarm.got // 2
    room = max(0, half - LEAST_BEHIND)
    moved = min(more, room)
    # A stitch more or less than asked is no reason to part front and back at the yoke.
    between = nearest(abs(front_more) / 2) - 2 * moved if moved < more else 0
    sign = 1 if front_more > 0 else -1
    front = split.body.got // 2 - split.underarm.got
    most = split.front + split.back - 2 * LEAST_BEHIND
    return replace(
        split,
        own_underarm_front=half + sign * moved,
        own_front=min(most, max(2 * LEAST_BEHIND, front + sign * between)),
    )


def between_lines(split: Split, *, front_more: float) -> Split:
    """Give the front of a raglan so many stitches more than the back, between its lines.

    A raglan's front may increase at a rate of its own (an asymmetric compound
    raglan), so that the width comes where the bust is, and the markers at the
    sides stay in the middle of the underarms.

    Args:
        split: with its counts.
        front_more: stitches wanted, front less back; below 0 the back has more.
    """
    moved = nearest(abs(front_more) / 2, least=0)
    if not moved:
        return split
    half = split.underarm.got // 2
    front = split.body.got // 2 - split.underarm.got
    most = split.front + split.back - 2 * LEAST_BEHIND
    front += moved if front_more > 0 else -moved
    return replace(
        split,
        own_underarm_front=half,
        own_front=min(most, max(2 * LEAST_BEHIND, front)),
    )


def halved(split: Split, fixed: Fixed) -> Split | None:
    """Give the split with the front and the back that are pinned; None where it has no such."""
    both, front = split.front + split.back, split.front
    if fixed.front is not None:
        front = fixed.front
    elif fixed.back is not None:
        front = both - fixed.back
    if fixed.front is not None and fixed.back not in (None, both - front):
        return None
    if front == split.front:
        return split
    fits = LEAST_HELD <= front <= both - LEAST_HELD
    return replace(split, own_front=front) if fits else None


def narrow_front(split: Split, fixed: Fixed) -> NarrowFront:
    """Say that the front, or the back, that is pinned leaves too little of a split."""
    pin, name = (fixed.front, "front") if fixed.front is not None else (fixed.back, "back")
    return NarrowFront(name, pin or 0, split.front + split.back)
