"""Which needle, and when to change it: a needle must be shorter than the work it holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from yokefellow.gauge import Gauges
from yokefellow.project.models import Needles
from yokefellow.schedule.rows import Feature, WorkedRow
from yokefellow.units import CM_PER_INCH, LengthUnit

__all__ = ["LENGTHS_CM", "NeedleChange", "needle_changes", "rib_needle_mm"]

LENGTHS_CM = {
    "cm": (40.0, 60.0, 80.0, 100.0, 120.0),
    "in": tuple(inches * CM_PER_INCH for inches in (16, 24, 32, 40, 47)),
}
"""Circular needles as they are sold, tip to tip (common practice)."""

SMALL = 0.0
"""Stands for work smaller than the shortest circular needle."""

RIGID_CM = 22.0
CROWDED = 3.0
"""Work more than this many times the free cable (the needle less its two rigid tips) is
crowded: a published rule of thumb gives 1.75 to 3 times, and 8 to 10 in for the tips
(a yarn company's article on needle lengths)."""

RIB_FINER_MM = 0.5
"""A rib is worked on a needle about this much finer (common practice)."""


@dataclass(frozen=True, slots=True)
class NeedleChange:
    """From this row on, work with this needle."""

    section: str
    number: int
    place: int
    mm: float
    length_cm: float
    """Tip to tip; 0 for double-pointed needles or a long loop."""


def rib_needle_mm(needles: Needles) -> float:
    """Give the needle for the ribs: the knitter's, or half a millimetre finer than the main."""
    if needles.rib is not None:
        return needles.rib
    return max(1.0, needles.main - RIB_FINER_MM)


def needle_changes(
    rows: tuple[WorkedRow, ...], gauges: Gauges, needles: Needles, unit: LengthUnit
) -> tuple[NeedleChange, ...]:
    """Give every row at which to take another needle.

    The first needle is the longest that is shorter than the work; a longer one
    is taken when the work is crowded on it, a shorter one when the work no
    longer goes round it.
    """
    return tuple(_changes(rows, gauges, needles, LENGTHS_CM[unit]))


def _changes(
    rows: tuple[WorkedRow, ...], gauges: Gauges, needles: Needles, lengths: tuple[float, ...]
) -> Iterator[NeedleChange]:
    now: tuple[float, float] | None = None
    for worked in rows:
        mm = rib_needle_mm(needles) if worked.row.fabric == "rib" else needles.main
        # On the needles the work is not washed yet.
        per_cm = gauges.of(worked.row.fabric).unwashed_stitches_per_cm
        round_cm = _fewest(worked) / per_cm
        length_cm = _length(round_cm, now[1] if now else None, lengths)
        if worked.row.feature is Feature.BIND_OFF:
            continue
        if now != (mm, length_cm):
            now = (mm, length_cm)
            yield NeedleChange(worked.section.key, worked.number, worked.place, mm, length_cm)


def _fewest(worked: WorkedRow) -> int:
    """Count the stitches on the needle when they are fewest: before the row or after it.

    Cast-on and pick-up begin with an empty needle, which then holds what they make.
    """
    begins = worked.row.feature in (Feature.CAST_ON, Feature.PICK_UP)
    return worked.after if begins else min(worked.before, worked.after)


def _length(round_cm: float, now_cm: float | None, lengths: tuple[float, ...]) -> float:
    fitting = [length for length in lengths if length < round_cm]
    longest = fitting[-1] if fitting else SMALL
    if now_cm is None or now_cm >= round_cm or now_cm == SMALL:
        return longest
    return longest if round_cm > CROWDED * (now_cm - RIGID_CM) else now_cm
