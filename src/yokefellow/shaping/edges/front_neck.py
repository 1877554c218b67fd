"""A front neck worked flat: how deep, and where its edges gain their stitches.

The fronts begin with a few stitches each beside the lines of a raglan. Their
neck edges gain one stitch at a time, on right-side rows, until the front is as
wide as it would have been with a level neck: a V by its edges alone, evenly; a
scooped front along a quarter of an ellipse, whose level part is cast on at
once when the work is joined. So nothing of the raglan below changes.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal, NamedTuple

from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.pieces.taper import taper

__all__ = ["BESIDE_LINE", "FrontNeck", "TooShallow", "front_neck"]

FrontStyle = Literal["scooped", "V"]

BESIDE_LINE = 2
"""Stitches of each front beside its share of the line, as it is cast on: the edge stitch and one
before which the first increase stands (common practice)."""

EACH = 2
"""Rows from one right-side row to the next."""

LEAST_ROWS = 4


class FrontNeck(NamedTuple):
    """The front of the neck, in rows and stitches."""

    style: FrontStyle
    rows: Count
    """Rows worked flat, from the cast-on to the row that joins; even, so that the last of them
    has the right side facing."""
    edge: int
    """Stitches of each front at the cast-on, its share of the line with them."""
    increases: tuple[int, ...]
    """Rows in which either neck edge gains a stitch, rising."""
    centre: int
    """Stitches cast on between the fronts where they are joined; at a V none, or its centre."""

    @property
    def stitches(self) -> int:
        """Give the width of the front at the level of the join, the raglan's growth left out."""
        return 2 * (self.edge + len(self.increases)) + self.centre

    def each(self, number: int, *, grown: int) -> int:
        """Give the stitches of each front after a row.

        Args:
            number: the row, the first after the cast-on being 1.
            grown: stitches by which the raglan has widened the whole front until then.
        """
        return self.edge + grown // 2 + sum(row <= number for row in self.increases)


class TooShallow(NamedTuple):
    """A V whose edges cannot meet within its rows."""

    rows: int
    """It would take at the least."""


def front_neck(
    style: FrontStyle,
    *,
    front: int,
    share: int,
    drop_rows: float,
    rows_per_cm: float,
    beside: int = BESIDE_LINE,
) -> FrontNeck | TooShallow:
    """Shape the front of a neck.

    Args:
        style: scooped or V.
        front: stitches of the front as it would begin with a level neck.
        share: of each of its two lines.
        drop_rows: how deep, in rows; rounded to the nearest even number.
        rows_per_cm: of the plain fabric, flat.
        beside: stitches of each front beside its share of the line, as it is cast on.

    Raises:
        ValueError: the front is too narrow to be parted in two.
    """
    edge = share + beside
    if front < 2 * edge:
        raise ValueError(f"a front of {front} stitches cannot be parted in two of {edge}")
    rows = Count(nearest(drop_rows, multiple=EACH, least=LEAST_ROWS), drop_rows, rows_per_cm)
    if style == "V":
        centre = front % 2
        each = (front - centre) // 2 - edge
        if each > rows.got // EACH:
            return TooShallow(EACH * each)
        increases = tuple(EACH * place for place in taper(each, rows.got // EACH))
    else:
        increases = _scooped(front / 2 - edge, rows.got)
        centre = front - 2 * (edge + len(increases))
    return FrontNeck(style, rows, edge, increases, centre)


def _scooped(wide: float, rows: int) -> tuple[int, ...]:
    """Follow a quarter of an ellipse: the rows in which one stitch more lies outside it.

    Where it runs so level that a row would have to gain several stitches, the
    rest is left for the centre.

    Args:
        wide: stitches from the edge at the cast-on to the middle of the front.
        rows: from the cast-on to the middle of the front.
    """
    found: list[int] = []
    for stitch in range(int(wide)):
        across = (stitch + 0.5) / wide
        deep = rows * sqrt(1 - (1 - across) ** 2)
        row = EACH * nearest(deep / EACH)
        row = max(row, found[-1] + EACH if found else EACH)
        if row >= rows:
            break
        found.append(row)
    return tuple(found)
