"""Ease: how much larger than the body the sweater is."""

from __future__ import annotations

from types import MappingProxyType

_CHEST_EASE = MappingProxyType(
    {
        "very close": (-0.08, -10.16, -5.08),
        "close": (0.0, 0.0, 0.0),
        "classic": (0.08, 5.08, 10.16),
        "loose": (0.13, 10.16, 15.24),
        "oversized": (0.18, 15.24, 25.4),
    }
)
"""Share of the chest, and the least and most cm, of each fit.

The limits are the Craft Yarn Council's fit table (-4 to -2, 0, +2 to +4, +4 to
+6, +6 in and more), from memory; where in its range a body lies is a share of
the chest (common practice, no source).
"""

_ARM_EASE = MappingProxyType(
    {
        "very close": (0.0, 0.0, 0.0),
        "close": (0.09, 1.3, 3.0),
        "classic": (0.18, 2.5, 6.0),
        "loose": (0.27, 4.0, 9.0),
        "oversized": (0.36, 5.5, 12.0),
    }
)
"""The same for the upper arm (common practice, no source: no ease table for sleeves is known)."""


def ease_cm(chosen: str | float, body_cm: float, *, arm: bool = False) -> float:
    """Give the ease in cm: a length as it is, a named fit by its table.

    >>> round(ease_cm("classic", 96.5), 2)
    7.72
    """
    if not isinstance(chosen, str):
        return chosen
    share, least, most = (_ARM_EASE if arm else _CHEST_EASE)[chosen]
    return min(most, max(least, share * body_cm))


def ease_range_cm(chosen: str | float, *, arm: bool = False) -> tuple[float, float]:
    """Give the least and the most ease in cm that a chosen fit means; of a length, itself twice.

    >>> ease_range_cm("loose")
    (10.16, 15.24)
    """
    if not isinstance(chosen, str):
        return chosen, chosen
    _, least, most = (_ARM_EASE if arm else _CHEST_EASE)[chosen]
    return least, most


TIGHT_ARM = 0.085
"""Upper-arm ease below this share of the arm is tight: 2.5 cm on an adult arm of 29 cm
(common practice, no source)."""


def arm_grips_cm(chosen: str | float, arm_cm: float) -> float:
    """Give the ease in cm below which a sleeve grips the upper arm.

    A named fit says so itself, by the least it means; of a length that was
    written nothing is known but that, and a share of the arm decides.

    >>> arm_grips_cm("classic", 29), round(arm_grips_cm(1.0, 29), 2)
    (2.5, 2.47)
    """
    return ease_range_cm(chosen, arm=True)[0] if isinstance(chosen, str) else TIGHT_ARM * arm_cm
