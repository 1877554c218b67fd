"""Which needle, and when to change it: a needle must be shorter than the work it holds."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence, Set
from functools import cache
from itertools import combinations, groupby, takewhile
from math import inf
from typing import NamedTuple

from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Needles
from yokefellow.quantities import CM_PER_INCH, LengthUnit
from yokefellow.rows.model import Feature, Stretch

LENGTHS_CM = {
    "cm": (40.0, 60.0, 80.0, 100.0, 120.0, 150.0),
    "in": tuple(inches * CM_PER_INCH for inches in (16, 24, 32, 40, 47, 60)),
}
"""Circular needles as they are sold, tip to tip (common practice)."""

SMALL = 0.0
"""Stands for work smaller than the shortest circular needle."""

RIGID_CM = 22.0
CROWDED = 2.9
"""Work more than this many times the free cable (the needle less its two rigid tips) is
crowded: a published rule of thumb gives 1.75 to 3 times, and 8 to 10 in for the tips
(a yarn company's article on needle lengths)."""

RIB_FINER_MM = 0.5
"""A rib is worked on a needle about this much finer (common practice)."""

FINER = frozenset({"rib", "garter", "facing"})
"""The fabrics of the edges that are worked on it."""


class NeedleChange(NamedTuple):
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


class _Held(NamedTuple):
    """Rows on the needle, and the needles that hold them."""

    row: Stretch
    mm: float
    choice: frozenset[float]
    """Lengths tip to tip, in cm."""


def needle_changes(
    rows: tuple[Stretch, ...], gauges: Gauges, needles: Needles, unit: LengthUnit
) -> tuple[NeedleChange, ...]:
    """Give every row at which to take another needle.

    Of all the choices of circular needles that hold the work at every row,
    the one with the fewest lengths is taken, and each needle is kept as long
    as it serves. Where none is short enough, the work goes on double-pointed
    needles or a long loop; where none is long enough, on the longest.
    """
    lengths = LENGTHS_CM[unit]
    held = _one_for_each_edge(tuple(_held(rows, gauges, needles, lengths)))
    different = {one.choice for one in held}
    owned = _fewest_lengths(different, (SMALL, *lengths))
    kept = {choice: choice & owned for choice in different}
    return tuple(_changes(held, [kept[one.choice] for one in held]))


EDGES = ("neckband", "hem", "cuff")
"""Sections too short to change the needle in."""


def _one_for_each_edge(held: tuple[_Held, ...]) -> tuple[_Held, ...]:
    """Let an edge have one needle from end to end: one that holds its fewest stitches."""
    found: list[_Held] = []
    for section, several in groupby(held, key=lambda one: one.row.section):
        rows = tuple(several)
        if section.key in EDGES:
            common = frozenset.intersection(*(one.choice for one in rows))
            fewest = min(rows, key=lambda one: _fewest(one.row)).choice
            rows = tuple(one._replace(choice=common or fewest) for one in rows)
        found.extend(rows)
    return tuple(found)


def _held(
    rows: tuple[Stretch, ...], gauges: Gauges, needles: Needles, lengths: tuple[float, ...]
) -> Iterator[_Held]:
    """Yield which needles hold the work, neither stretched nor crowded; a bind-off needs none."""
    fine_mm = rib_needle_mm(needles)
    roomy_cm = [CROWDED * (length - RIGID_CM) for length in lengths]
    for worked in rows:
        row = worked.row
        if row.feature is Feature.BIND_OFF:
            continue
        # On the needles the work is not washed yet.
        per_cm = gauges.of(row.fabric).unwashed_stitches_per_cm
        # Work that lies open need not go round the needle: any needle is short enough.
        least_cm = inf if row.kind.is_flat else _fewest(worked) / per_cm
        crowded = bisect_left(roomy_cm, max(worked.before, worked.after) / per_cm)
        choice = _serving(lengths, crowded, bisect_left(lengths, least_cm))
        yield _Held(worked, fine_mm if row.fabric in FINER else needles.main, choice)


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
    different: Set[frozenset[float]], lengths: tuple[float, ...]
) -> frozenset[float]:
    """Find the smallest set of needles that holds every row; of equal ones, the shorter."""
    for size in range(1, len(lengths) + 1):
        for chosen in combinations(lengths, size):
            owned = frozenset(chosen)
            if all(choice & owned for choice in different):
                return owned
    return frozenset(lengths)


def _changes(held: Sequence[_Held], choices: Sequence[frozenset[float]]) -> Iterator[NeedleChange]:
    now: tuple[float, float] | None = None
    for at, (one, choice) in enumerate(zip(held, choices, strict=True)):
        length_cm = now[1] if now and now[1] in choice else _lasts(choice, choices[at:])
        if now != (one.mm, length_cm):
            now = (one.mm, length_cm)
            worked = one.row
            yield NeedleChange(worked.section.key, worked.number, worked.place, *now)


def _lasts(choice: frozenset[float], ahead: Sequence[frozenset[float]]) -> float:
    """Of the needles that serve now, give the one that serves longest from here."""

    def holds(length: float) -> int:
        served = takewhile(lambda other: length in other, ahead)
        return sum(1 for _ in served)

    return max(sorted(choice), key=holds)


_BEGINNINGS = (Feature.CAST_ON, Feature.PROVISIONAL, Feature.PICK_UP, Feature.NECK_EDGE)


def _fewest(worked: Stretch) -> int:
    """Count the stitches on the needle when they are fewest: before the row or after it.

    Cast-on and pick-up begin with an empty needle, which then holds what they make.
    """
    begins = worked.row.feature in _BEGINNINGS
    return worked.after if begins else min(worked.before, worked.after)
