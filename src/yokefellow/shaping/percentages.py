"""The percentage system: every count a share of the body's stitches, K.

Zimmermann, *Knitting Without Tears* (1971) and *Knitting Around* (1989), both
as retold by others and worked at K = 200; the books themselves not re-read.
They knit upward and decrease; here the same counts are met in the other order.
"""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple

from yokefellow.shaping.counts import nearest

__all__ = ["Percentages", "RaglanPercentages", "percentages", "raglan_percentages"]

SLEEVE, UNDERARM, NECK, CUFF = 0.33, 0.08, 0.40, 0.20
"""Upper sleeve, each underarm, neck and cuff, as shares of K."""

_GROUPS = MappingProxyType({"percentage 1971": (3, 3), "percentage 1989": (4, 3)})
"""Going up, the stitches of one decrease group in the lower rounds: 3 is [k1, k2tog],
4 is [k2, k2tog]. The last round goes to the neck count whatever it takes."""

PLACES = (0.0, 0.25, 0.5)
"""Shares of the depth at which the rounds lie, read top-down from the neck."""


class Percentages(NamedTuple):
    """The counts of one body by percentage."""

    body: int
    sleeve: int
    underarm: int
    neck: int
    cuff: int
    counts: tuple[int, ...]
    """Read top-down: the neck, then the count after each increase round."""


def percentages(body: int, *, book: str) -> Percentages:
    """Give the counts for K body stitches.

    Each share is rounded to the nearest stitch. Going up, a round of [k1,
    k2tog] takes one stitch from every whole group of three and leaves the
    rest, hence 179 → 120 and not 119.

    Args:
        body: K, the stitches round the body.
        book: `percentage 1971` or `percentage 1989`.

    Raises:
        KeyError: an unknown book.

    >>> percentages(200, book="percentage 1971").counts
    (80, 120, 179, 268)
    >>> percentages(200, book="percentage 1989").counts
    (80, 134, 201, 268)
    """
    sleeve, underarm, neck, cuff = (
        nearest(share * body) for share in (SLEEVE, UNDERARM, NECK, CUFF)
    )
    counts = [body - 2 * underarm + 2 * (sleeve - underarm)]
    for group in _GROUPS[book]:
        counts.append(counts[-1] - counts[-1] // group)
    return Percentages(body, sleeve, underarm, neck, cuff, (neck, *reversed(counts)))


class RaglanPercentages(NamedTuple):
    """The counts of one raglan by percentage."""

    body: int
    sleeve: int
    underarm: int
    back: int
    """Of the back, and of the front, at the split;"""
    back_neck: int
    """and at the neck."""
    held: int
    """Of each sleeve at the split;"""
    sleeve_top: int
    """and at the neck: none, or one where the held stitches are odd."""

    @property
    def times(self) -> int:
        """Increase rounds, every 2nd round: until the sleeves are whole."""
        return (self.held - self.sleeve_top) // 2


def raglan_percentages(body: int) -> RaglanPercentages:
    """Give the counts of a raglan for K body stitches.

    The same shares as the round yoke's. Read going up, two stitches at every
    line are decreased away in every 2nd round until nothing is left of the
    sleeves; what is left of back and front is the neck.

    Args:
        body: K, the stitches round the body; even.

    >>> counts = raglan_percentages(200)
    >>> counts.back, counts.held, counts.back_neck, counts.sleeve_top, counts.times
    (84, 50, 34, 0, 25)
    """
    sleeve, underarm = nearest(SLEEVE * body), nearest(UNDERARM * body)
    back, held = body // 2 - underarm, sleeve - underarm
    top = held % 2
    return RaglanPercentages(body, sleeve, underarm, back, back - (held - top), held, top)
