"""How the stitches of the split are shared between front and back."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.shaping.counts import nearest
from yokefellow.shaping.shapes import Split

__all__ = ["LEAST_BEHIND", "between_lines", "portioned"]

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
