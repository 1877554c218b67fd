"""A neckband picked up along the edges of a front worked flat: how many stitches, and where.

One stitch in every stitch of a cast-on edge; along rows, as many as make the
edge's own length at the gauge, which is about three in every four rows
(common practice). Then the count goes to the nearest that the rib divides.
"""

from __future__ import annotations

from fractions import Fraction
from math import hypot
from typing import NamedTuple

from yokefellow.shaping.counts import Count, nearest

__all__ = ["EdgeLengths", "Mitre", "PickedUp", "picked_up"]

MOST_ROWS = 6
"""Rows in the rule by which a knitter picks up along an edge: 3 in every 4, 5 in every 6."""


class EdgeLengths(NamedTuple):
    """The edges of the neck: counts of stitches and rows."""

    back: int
    """Stitches cast on for the back,"""
    sleeve: int
    """for each sleeve,"""
    front: int
    """and for each front."""
    rows: int
    """Rows of each front's edge."""
    across: int
    """Stitches by which each front's edge leans in on its way."""
    centre: int
    """Stitches cast on at the centre front."""
    stitches_per_cm: float
    rows_per_cm: float

    @property
    def level(self) -> int:
        """The stitches cast on over the back, the sleeves and the fronts."""
        return self.back + 2 * (self.sleeve + self.front)

    @property
    def side_cm(self) -> float:
        """The length of each front's edge, in cm."""
        return hypot(self.rows / self.rows_per_cm, self.across / self.stitches_per_cm)

    @property
    def all_cm(self) -> float:
        """Once round the neck, in cm."""
        return 2 * self.side_cm + (self.level + self.centre) / self.stitches_per_cm


class Mitre(NamedTuple):
    """The corner of the band at the point of a V."""

    before: int
    """Stitches of the band from BOR to its centre stitch,"""
    after: int
    """and from there to BOR."""
    every: int
    """Rounds from one double decrease to the next: 1 or 2."""


class PickedUp(NamedTuple):
    """The stitches picked up for a neckband."""

    total: Count
    """All round, as the rib divides it."""
    side: int
    """Along the rows of each front's edge: both are picked up alike."""
    back: tuple[int, int]
    """Over the back of the neck, from BOR and to it; in all one more than was cast on there where
    the fronts would differ otherwise."""
    rule: Fraction
    """Stitches for rows along that edge, in small numbers."""
    mitre: Mitre | None = None
    """Of a V."""


def picked_up(edges: EdgeLengths, *, multiple: int, point: bool) -> PickedUp:
    """Count the stitches to pick up round a neck.

    Args:
        edges: of the neck.
        multiple: what the rib must divide.
        point: whether the fronts meet in a V's point.
    """
    wanted = edges.all_cm * edges.stitches_per_cm
    if point:
        # A V needs one stitch for its point even where none was cast on.
        wanted += max(0, 1 - edges.centre)
        total, mitre = _with_mitre(wanted, multiple, edges)
    else:
        total, mitre = nearest(wanted, multiple=multiple), None
    side, odd = divmod(total - edges.level - (1 if mitre else edges.centre), 2)
    back = edges.back + odd
    half = back // 2
    if mitre is not None:
        half = mitre.before - side - edges.front - edges.sleeve
    rule = Fraction(side, edges.rows).limit_denominator(MOST_ROWS)
    return PickedUp(
        Count(total, wanted, edges.stitches_per_cm), side, (half, back - half), rule, mitre
    )


def _with_mitre(wanted: float, multiple: int, edges: EdgeLengths) -> tuple[int, Mitre]:
    """Find the count at which the rib is the same on both sides of the point, and goes on at BOR.

    In a rib of 2 the point is a knit column with a purl on either side, so the
    round is a multiple of 4. In a rib of 4 it is one knit stitch between two
    purls, and the round three more than a multiple of 8.
    """
    if multiple == 4:
        total = nearest(wanted, multiple=8, remainder=3, least=11)
        before = (total - 3) // 2
    else:
        total = nearest(wanted, multiple=2 * multiple, least=8)
        before = total // 2
    return total, Mitre(before, total - 1 - before, _every(edges))


def _every(edges: EdgeLengths) -> int:
    """Give how often the band decreases at the point.

    Two bands that meet at the point lose the band's height over the tangent of
    half its angle each: in stitches for each round, one on either side of a
    double decrease (derived from the mitre of a corner).
    """
    lean = (edges.across + edges.centre / 2) / edges.stitches_per_cm
    deep = edges.rows / edges.rows_per_cm
    # Edges that do not lean at all lose the most, so nothing is divided by how far they do.
    return 1 if deep * edges.stitches_per_cm / edges.rows_per_cm >= 0.75 * lean else 2
