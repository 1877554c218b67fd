"""What bodies alike in chest usually measure, and how much they differ."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.sizing.bust import frame_cm
from yokefellow.sizing.figures import Figures
from yokefellow.sizing.place import place, value, value_within
from yokefellow.sizing.tables import sizing_table

__all__ = ["MISMATCH_SD", "Usual", "departure_cm", "usual"]

MISMATCH_SD = 1.5
"""A measure this many standard deviations from the usual is a mismatch: about one body in
fifteen on either side (our choice)."""


class Usual(NamedTuple):
    """A measure of bodies with one chest, in cm."""

    cm: float
    spread_cm: float
    """One standard deviation, among bodies alike in chest."""


def usual(figures: Figures, name: str) -> Usual | None:
    """Give what bodies with this chest measure; None where their spread is not known.

    From the body's own sizing table, by what a survey measured where the table
    itself is known to be off. The spreads are the residual standard deviations
    of ANSUR II (Gordon et al., 2014) and, for arms, NHANES 2017 to March 2020;
    each stands in its table with its source. A full bust is left out of the
    chest: shoulders and arms go by the round above it.
    """
    row = sizing_table(figures.group).rows[name]
    if not row.spread_cm:
        return None
    chest = frame_cm(figures.cm("chest"), figures.own_cm("high_chest"))
    where = place(sizing_table(figures.group).rows["chest"].middle_cm, chest)
    column = row.surveyed_cm if row.surveyed_cm and not where.beyond else row.middle_cm
    return Usual(value(column, where), value_within(row.spread_cm, where))


def departure_cm(figures: Figures, name: str) -> float:
    """Give how far the knitter's own measure lies from the usual, where that is a mismatch.

    0 for a measure that was filled in, and for one within `MISMATCH_SD`.
    """
    own, known = figures.own_cm(name), usual(figures, name)
    if own is None or known is None:
        return 0.0
    apart = own - known.cm
    return apart if abs(apart) >= MISMATCH_SD * known.spread_cm else 0.0
