"""Letters and tints of the yarns: each chart can be read by its letters alone.

The tints are not the colours of the yarns. They differ in lightness as far as
letters in dark ink allow, so that a copy in black and white and eyes that do
not tell red from green see the same picture.
"""

from __future__ import annotations

from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.sheet.colourwork import Colour

__all__ = ["INK", "NO_STITCH", "PURL_TINT", "TINTS", "colours"]

INK = "#1d1f21"
NO_STITCH = "#8b8e8d"
PURL_TINT = "#d3d8d6"
"""Of purls in the yoke seen from above, where no dot has room."""

TINTS = MappingProxyType(
    {
        "A": "#ffffff",
        "B": "#86a5a1",
        "C": "#dfc98f",
        "D": "#b79fc9",
        "E": "#c3d9ae",
        "F": "#e0a98f",
        "G": "#a9c6e0",
        "H": "#8796ad",
        "J": "#e9e6a0",
        "K": "#c8c8c8",
    }
)
"""By letter; I is left out, which reads as a one. As many as a project has yarns."""


def colours(plan: Plan) -> MappingProxyType[str, Colour]:
    """Give each yarn of the sweater its letter, the main one A."""
    return MappingProxyType(
        {
            code: Colour(code, letter, _shade(plan, code))
            for code, letter in zip(plan.yarns, TINTS, strict=False)
        }
    )


def _shade(plan: Plan, code: str) -> str:
    yarn = plan.project.yarn[code]
    return yarn.colour or yarn.name
