"""How much of the chest is a full bust: what the round above it does not explain."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.body.interpolate import place, value, value_within
from yokefellow.body.measurements import Figures
from yokefellow.body.size_tables import sizing_table

FULL_CM = 2.5
"""A chest this much beyond the usual is a full bust: about the inch by which neighbouring
sizes overlap, and less than a sweater's ease takes up (common practice, no source)."""

_SLOPE, _BEFORE_CM = 0.184, 16.0
"""The straight line nearest to the twelve sizes of the standard; within 1/8 in of each."""


def usual_bust_cm(chest_cm: float) -> float:
    """Give how much the fullest round usually exceeds the one above it, close under the arms.

    ASTM D5585-11e1, women's misses: chest less upper chest is -5/8 in at a
    chest of 31 1/8 in (size 00) and 2 1/8 in at 46 in (size 20). Never below nothing here: a tape
    that finds the higher round larger has met the shoulder blades.
    """
    return max(0.0, _SLOPE * chest_cm - _BEFORE_CM)


def bust_cm(chest_cm: float, high_chest_cm: float | None) -> float:
    """Give how much of the chest is a full bust; nothing where it is a usual one.

    Args:
        chest_cm: round the fullest part.
        high_chest_cm: round the body above it; None when not measured.
    """
    if high_chest_cm is None:
        return 0.0
    beyond = chest_cm - high_chest_cm - usual_bust_cm(chest_cm)
    return beyond if beyond >= FULL_CM else 0.0


def frame_cm(chest_cm: float, high_chest_cm: float | None) -> float:
    """Give the chest that goes with the shoulders: without a full bust, the chest itself."""
    return chest_cm - bust_cm(chest_cm, high_chest_cm)


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
