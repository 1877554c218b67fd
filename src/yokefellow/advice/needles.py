"""Which needle, and when to change it: a needle must be shorter than the work it holds."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, takewhile
from math import inf
from typing import NamedTuple

from yokefellow.gauge import Gauges
from yokefellow.project.models import Needles
from yokefellow.schedule.rows import Feature, Row, WorkedRow
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

FINER = frozenset({"rib", "garter", "facing"})
"""The fabrics of the edges that are worked on it."""


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


class _Hold(NamedTuple):
    """A row from which the needle holds this much work, in cm round."""

    row: WorkedRow
    mm: float
    least_cm: float
    """When the work is smallest: the needle must be shorter."""
    most_cm: float


def needle_changes(
    rows: tuple[WorkedRow, ...], gauges: Gauges, needles: Needles, unit: LengthUnit
) -> tuple[NeedleChange, ...]:
    """Give every row at which to take another needle.

    Of all the choices of circular needles that hold the work at every row,
    the one with the fewest lengths is taken, and each needle is kept as long
    as it serves. Where none is short enough, the work goes on double-pointed
    needles or a long loop; where none is long enough, on the longest.
    """
    holds = tuple(_holds(rows, gauges, needles))
    lengths = LENGTHS_CM[unit]
    roomy_cm = [CROWDED * (length - RIGID_CM) for length in lengths]
    needed = [
        _serving(lengths, bisect_left(roomy_cm, hold.most_cm), bisect_left(lengths, hold.least_cm))
        for hold in holds
    ]
    owned = _fewest_lengths(needed, (SMALL, *lengths))
    kept = {choice: choice & owned for choice in set(needed)}
    return tuple(_changes(holds, [kept[choice] for choice in needed]))


def _holds(rows: tuple[WorkedRow, ...], gauges: Gauges, needles: Needles) -> Iterator[_Hold]:
    """Yield what the needle holds wherever that changes: rows between are held alike."""
    rib_mm = rib_needle_mm(needles)
    last: Row | None = None
    live = 0
    for worked in rows:
        _, _, _, row, before, after = worked
        if row is last and before == live:
            continue
        if row.feature is Feature.BIND_OFF:
            continue
        last, live = row, after
        # On the needles the work is not washed yet.
        per_cm = gauges.of(row.fabric).unwashed_stitches_per_cm
        mm = rib_mm if row.fabric in FINER else needles.main
        # Work that lies open need not go round the needle: any needle is short enough.
        least_cm = inf if row.kind.is_flat else _fewest(worked) / per_cm
        yield _Hold(worked, mm, least_cm, max(before, after) / per_cm)


@cache
def _serving(lengths: tuple[float, ...], crowded: int, shorter: int) -> frozenset[float]:
    """Give the needles that hold some work, neither stretched nor crowded.

    Where there are none, the longest that is shorter than the work, crowded or
    not; or double-pointed ones.

    Args:
        lengths: of the needles, rising.
        crowded: how many of them are too short for so much work.
        shorter: how many of them are shorter than the work.
    """
    return frozenset(lengths[crowded:shorter] or (lengths[shorter - 1] if shorter else SMALL,))


def _fewest_lengths(
    needed: Sequence[frozenset[float]], lengths: tuple[float, ...]
) -> frozenset[float]:
    """Find the smallest set of needles that holds every row; of equal ones, the shorter."""
    different = set(needed)
    for size in range(1, len(lengths) + 1):
        for chosen in combinations(lengths, size):
            owned = frozenset(chosen)
            if all(choice & owned for choice in different):
                return owned
    return frozenset(lengths)


def _changes(holds: Sequence[_Hold], choices: Sequence[frozenset[float]]) -> Iterator[NeedleChange]:
    now: tuple[float, float] | None = None
    for at, (hold, choice) in enumerate(zip(holds, choices, strict=True)):
        length_cm = now[1] if now and now[1] in choice else _lasts(choice, choices[at:])
        if now != (hold.mm, length_cm):
            now = (hold.mm, length_cm)
            worked = hold.row
            yield NeedleChange(worked.section.key, worked.number, worked.place, *now)


def _lasts(choice: frozenset[float], ahead: Sequence[frozenset[float]]) -> float:
    """Of the needles that serve now, give the one that serves longest from here."""

    def holds(length: float) -> int:
        served = takewhile(lambda other: length in other, ahead)
        return sum(1 for _ in served)

    return max(sorted(choice), key=holds)


_BEGINNINGS = (Feature.CAST_ON, Feature.PROVISIONAL, Feature.PICK_UP, Feature.NECK_EDGE)


def _fewest(worked: WorkedRow) -> int:
    """Count the stitches on the needle when they are fewest: before the row or after it.

    Cast-on and pick-up begin with an empty needle, which then holds what they make.
    """
    begins = worked.row.feature in _BEGINNINGS
    return worked.after if begins else min(worked.before, worked.after)
