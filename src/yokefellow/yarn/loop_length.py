"""How long the yarn of one stitch is, from the gauge: Munden's geometry of plain knitting."""

from __future__ import annotations

from types import MappingProxyType
from typing import NamedTuple


class LoopState(NamedTuple):
    """Munden's constants of plain knitting in one state of relaxation."""

    courses: float
    """Kc: courses per cm times loop length in cm."""
    wales: float
    """Kw: wales per cm times loop length in cm."""
    density: float
    """Ks: stitches per cm² times the square of the loop length."""


LOOP_STATES = MappingProxyType(
    {
        "dry relaxed": LoopState(5.0, 3.8, 19.0),
        "wet relaxed": LoopState(5.3, 4.1, 21.6),
        "fully relaxed": LoopState(5.5, 4.2, 23.1),
    }
)
"""D. L. Munden, "The geometry and dimensional properties of plain-knit fabrics",
J. Textile Inst. 50 (1959), from memory; fully relaxed after Knapton and others, 1968."""

STATE = "wet relaxed"
"""A swatch washed and dried flat (our choice; the three states differ by 11 % in length)."""


def loop_length_cm(*, stitches_per_cm: float, rounds_per_cm: float, state: str = STATE) -> float:
    """Give the length of yarn in one stitch of plain knitting, in cm: √(Ks / (w·c)).

    Munden 1959; see `LOOP_STATES`.

    Raises:
        KeyError: an unknown state of relaxation.

    >>> round(loop_length_cm(stitches_per_cm=2.2, rounds_per_cm=3.0), 2)
    1.81
    """
    return float((LOOP_STATES[state].density / (stitches_per_cm * rounds_per_cm)) ** 0.5)
