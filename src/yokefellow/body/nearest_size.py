"""The size nearest to a body, and where the body departs from it."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.body.fill_in import GARMENT_FIGURES
from yokefellow.body.measurements import Figures
from yokefellow.body.size_tables import Row, sizing_table


class Departure(NamedTuple):
    """One measure of the body beside the size's, in cm."""

    name: str
    body_cm: float
    low_cm: float
    high_cm: float
    """The size's own range; the same as `low_cm` where the table gives one number."""
    departure_cm: float
    """How far the body lies outside that range: above zero larger, below zero smaller."""


class SizeMatch(NamedTuple):
    """The nearest size by the chest."""

    group: str
    size: str
    departures: tuple[Departure, ...]
    """One for every measure the knitter took, in the order they are shown."""


def nearest(figures: Figures) -> SizeMatch:
    """Set the knitter's own measures beside the nearest size's. Filled ones are left out."""
    table = sizing_table(figures.group)
    size = figures.nearest_size
    at = table.sizes.index(size)
    return SizeMatch(
        group=figures.group,
        size=size,
        departures=tuple(
            _departure(table.rows[name], at, figures.cm(name))
            for name in figures.by_name
            if figures.is_measured(name) and name not in GARMENT_FIGURES
        ),
    )


def _departure(row: Row, at: int, body_cm: float) -> Departure:
    low, high = row.low_cm[at], row.high_cm[at]
    outside_cm = max(body_cm - high, 0.0) - max(low - body_cm, 0.0)
    return Departure(row.name, body_cm, low, high, outside_cm)
