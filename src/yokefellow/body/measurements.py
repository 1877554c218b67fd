"""The measurements of one body, complete, each with its origin.

The names are the project file's (`chest`, `upper_arm`, ...) and, beside them,
three figures of the garment that the tables give by size: `neck_opening`,
`yoke_depth` and `underarm_width`.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import NamedTuple

MEASURES = (
    "chest",
    "waist",
    "hip",
    "cross_back",
    "back_waist_length",
    "back_hip_length",
    "arm_length",
    "armhole_depth",
    "upper_arm",
    "elbow",
    "forearm",
    "wrist",
    "head",
    "neck",
    "shoulder_girth",
    "neck_opening",
    "yoke_depth",
    "underarm_width",
    "back_raise",
)
"""Every figure the later rooms may ask for, in the order they are shown."""

OWN_MEASURES = (
    "high_chest",
    "front_chest",
    "front_length",
    "back_length",
    "bust_height",
    "bust_points",
    "underarm_to_waist",
    "underarm_to_hip",
)
"""Figures that no table fills: they are there when the knitter measured them."""


class Origin(StrEnum):
    """Where a figure comes from."""

    MEASURED = "measured"
    """The knitter's own number."""
    FILLED = "filled"
    """Taken from a sizing table."""


class Measured(NamedTuple):
    """One figure in cm, and where it comes from."""

    name: str
    cm: float
    origin: Origin
    source: str = ""
    """For a filled figure: the table, the sizes between which it lies, and by which measure."""
    spread_cm: float | None = None
    """How much bodies alike in chest differ in it: one standard deviation, where known."""


class Figures(NamedTuple):
    """A complete body: every name of `MEASURES`, and of `OWN_MEASURES` what was measured."""

    group: str
    """The sizing table: `babies`, `children`, `women` or `men`."""
    nearest_size: str
    """The size of that table nearest in chest."""
    by_name: Mapping[str, Measured]

    def cm(self, name: str) -> float:
        """Give one figure in cm."""
        return self.by_name[name].cm

    def own_cm(self, name: str) -> float | None:
        """Give one figure in cm where the knitter measured it."""
        return self.by_name[name].cm if name in self.by_name and self.is_measured(name) else None

    def is_measured(self, name: str) -> bool:
        """Tell whether the figure is the knitter's own."""
        return self.by_name[name].origin is Origin.MEASURED
