"""The bind-offs: how far each lets its edge stretch, and what it takes of the yarn.

All the numbers are common practice, without a source: hands differ more than
bind-offs do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import MappingProxyType
from typing import NamedTuple

__all__ = ["BIND_OFFS", "BindOff", "bind_off_for"]


class BindOff(NamedTuple):
    """One way to bind off."""

    key: str
    stretch: float
    """Round the edge when stretched, beside its own width at rest."""
    widths: float
    """Yarn it takes, in widths of the edge."""
    in_pattern: bool = True
    """Whether each stitch is worked as the fabric asks, knit or purl."""


BIND_OFFS = MappingProxyType(
    {
        way.key: way
        for way in (
            BindOff("plain", stretch=1.15, widths=3.0),
            BindOff("larger needle", stretch=1.3, widths=3.5),
            BindOff("through the back", stretch=1.4, widths=4.0, in_pattern=False),
            BindOff("sewn", stretch=1.5, widths=3.5, in_pattern=False),
            BindOff("sewn down", stretch=1.5, widths=3.5, in_pattern=False),
            BindOff("yarn overs", stretch=1.8, widths=6.0),
        )
    }
)
"""Every bind-off by its name, from the tightest to the stretchiest: common practice, no source."""

_USUAL = ("larger needle", "through the back", "sewn", "yarn overs")
_RIBBED = ("through the back", "sewn", "yarn overs")
_ROLLED = ("larger needle", "yarn overs")
_BY_FINISH: MappingProxyType[str, tuple[str, ...]] = MappingProxyType(
    {"rib": _RIBBED, "garter": _USUAL, "rolled": _ROLLED, "folded": ("sewn down",)}
)
"""What suits each finish: a rib wants an edge that goes with it, a roll none that stiffens it."""


def bind_off_for(finish: str, *, edge_cm: float, passes_cm: float) -> BindOff:
    """Give the simplest bind-off that lets an edge stretch far enough.

    Args:
        finish: of the edge.
        edge_cm: round the edge at rest.
        passes_cm: round what it must go over.

    Returns:
        The first that suits the finish and stretches enough; the stretchiest
        of them where none does.

    >>> bind_off_for("rib", edge_cm=18, passes_cm=21).key
    'through the back'
    """
    ways = [BIND_OFFS[key] for key in _BY_FINISH[finish]]
    return next(_enough(ways, edge_cm=edge_cm, passes_cm=passes_cm), ways[-1])


def _enough(ways: Iterable[BindOff], *, edge_cm: float, passes_cm: float) -> Iterator[BindOff]:
    return (way for way in ways if way.stretch * edge_cm >= passes_cm)
