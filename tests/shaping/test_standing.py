"""Where the increase rounds of a banded yoke stand, by hand: 60 rounds of 3 to the cm."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.shaping.parts import task, yoke, zones
from yokefellow.shaping.circular import solve
from yokefellow.shaping.standing import broken_rules, set_places
from yokefellow.shaping.task import Solution
from yokefellow.shaping.zones import Zones

STEPS = ((96, 144), (144, 200), (200, 268))


def places(gap_of: tuple[int, ...], where: Zones, *, shoulder: float = 0.0) -> tuple[int, ...]:
    return set_places(STEPS, gap_of, zones=where, per_cm=2.0, shoulder=shoulder)


def test_each_stands_where_the_line_is_half_way_up_its_step() -> None:
    # derived: from 48 cm round to 134 cm at 15 cm of depth; 60 cm round are there at 2.09 cm,
    # 86 cm at 6.63 cm and 117 cm at 12.03 cm
    assert places((0, 0, 0), zones()) == (6, 20, 36)
    assert places((0, 1, 1), zones((task(8), 10))) == (6, 20, 36)


def test_each_stays_in_its_own_stretch_three_rounds_from_the_next() -> None:
    # derived: the first stretch ends in 9, the second begins in 16
    assert places((0, 0, 1), zones((task(8), 10))) == (6, 9, 36)
    assert places((0, 0, 0), zones((task(8), 10))) == (3, 6, 9)
    assert places((1, 1, 1), zones((task(8), 10))) == (16, 20, 36)
    assert places((1, 1, 1), zones((task(8), 22))) == (28, 31, 36)


def test_where_there_is_no_room_for_three_rounds_the_last_have_it() -> None:
    steps = (*STEPS, (268, 300))
    found = set_places(steps, (0, 0, 0, 0), zones=zones((task(8), 10)), per_cm=2.0, shoulder=0.0)
    # derived: the stretch is 2 to 9, and four rounds three apart would need ten
    assert found == (2, 3, 6, 9)


@pytest.mark.parametrize(
    ("shoulder", "at"),
    [
        # derived: the point of the shoulders is in 27; 200 stitches are there by then anyway
        (200.0, (6, 20, 36)),
        (200.5, (6, 20, 27)),
        (268.0, (6, 20, 27)),
        (268.5, (6, 20, 36)),
    ],
)
def test_the_one_that_covers_the_shoulders_is_drawn_up(
    shoulder: float, at: tuple[int, ...]
) -> None:
    assert places((0, 0, 0), zones(), shoulder=shoulder) == at


def test_none_is_drawn_up_out_of_its_stretch() -> None:
    # derived: what lies below the band begins in 30, below the point of the shoulders
    assert places((0, 0, 1), zones((task(8), 24)), shoulder=268.0) == (6, 20, 36)


def rules(
    at: tuple[int, ...], where: Zones, *, shoulder: float = 0.0, there: int = 180, end: int = 268
) -> tuple[str, ...]:
    """The rules that are broken with so many stitches from round 27 on and at the end."""
    return broken_rules(
        at,
        zones=where,
        per_cm=2.0,
        shoulder=shoulder,
        stitches_at=lambda number: {27: there, 60: end}[number],
    )


def test_the_shoulders_are_covered_at_their_point() -> None:
    assert rules((6, 20), zones(), shoulder=180.0) == ()
    assert rules((6, 20), zones(), shoulder=181.0) == ("shoulder",)
    # What is full by then is all there will be.
    assert rules((6, 20), zones(), shoulder=220.0, there=200, end=200) == ()


def test_a_band_at_the_point_covers_them_at_its_own_gauge() -> None:
    tight = zones((task(8, stitches_per_cm=2.4), 25))
    # derived: 216 stitches are 90 cm at 2.4 to the cm, and 180 are 90 cm of the plain fabric
    assert rules((6, 20), tight, shoulder=180.0, there=216) == ()
    assert rules((6, 20), tight, shoulder=181.0, there=216) == ("shoulder",)


def test_a_chart_that_grows_below_the_shoulders_does_not_cover_them() -> None:
    late = zones((task(4, 31, grown=5), 30))
    assert rules((6, 20), late, shoulder=220.0, there=180, end=270) == ("shoulder",)
    found = solve(yoke(shoulder=240.0, places=(late,)))
    assert isinstance(found, Solution)
    # derived: fours become fives in round 60, so no more than 224 stitches are there above it
    assert found.increase_rounds[-1].after <= 224
    assert "shoulder" in found.broken


def test_increase_rounds_are_three_apart_from_each_other_and_from_a_growing_row() -> None:
    assert rules((6, 9), zones()) == ()
    assert rules((6, 8), zones()) == ("apart",)
    growing = zones((task(8, grown=12), 40))
    # derived: the chart grows in its last round, 45
    assert rules((6, 42), growing) == ()
    assert rules((6, 43), growing) == ("apart",)
    assert rules((6, 48), growing) == ()
    assert rules((6, 47), growing) == ("apart",)
    assert rules((6, 8), growing, shoulder=200.0) == ("shoulder", "apart")
    assert rules((), zones(), there=96, end=96) == ()


def test_a_step_of_half_a_centimetre_stands_half_way_too() -> None:
    # derived: half-way up lies 7.5 cm down, between rounds 22 and 23, and the later is taken
    one = set_places(((100, 101),), (0,), zones=zones(), per_cm=2.0, shoulder=0.0)
    assert one == (23,)


@st.composite
def crowded(draw: st.DrawFn) -> tuple[Zones, tuple[int, ...], tuple[tuple[int, int], ...]]:
    """Bands with short stretches between them, and increase rounds in these."""
    bands, first = [], 2
    for _ in range(draw(st.integers(0, 3))):
        first += draw(st.integers(1, 9))
        deep = draw(st.integers(1, 6))
        bands.append((task(8, deep), first))
        first += deep
    where = zones(*bands, rounds=first + draw(st.integers(0, 12)))
    stretches = range(len(where.gaps))
    gap_of = sorted(draw(st.lists(st.sampled_from(stretches), min_size=1, max_size=5)))
    gap_of = [gap for gap in gap_of if where.gaps[gap][0] <= where.gaps[gap][1]] or [0]
    counts = [96 + 20 * at + draw(st.integers(0, 12)) for at in range(len(gap_of) + 1)]
    return where, tuple(gap_of), tuple(pairwise(counts))


@often(300)
@given(crowded(), st.floats(0, 200))
def test_they_are_three_apart_wherever_their_stretches_hold_them_so(
    case: tuple[Zones, tuple[int, ...], tuple[tuple[int, int], ...]], shoulder: float
) -> None:
    where, gap_of, steps = case
    found = set_places(steps, gap_of, zones=where, per_cm=2.0, shoulder=shoulder)
    stretches = [where.gaps[gap] for gap in gap_of]
    assert all(first <= at <= last for at, (first, last) in zip(found, stretches, strict=True))
    soonest: list[int] = []
    for first, _ in stretches:
        soonest.append(max(first, soonest[-1] + 3) if soonest else first)
    if all(at <= last for at, (_, last) in zip(soonest, stretches, strict=True)):
        # common practice, no source: three rounds from one increase round to the next
        assert all(late - early >= 3 for early, late in pairwise(found))


def test_three_without_room_to_be_three_apart_stand_as_far_as_they_can_from_the_last() -> None:
    # derived: rounds 16 to 21 lie between the bands; the last two are three apart
    where = zones((task(8), 10), (task(8, name="under"), 22))
    assert set_places(STEPS, (1, 1, 1), zones=where, per_cm=2.0, shoulder=0.0) == (16, 18, 21)


def test_the_first_goes_up_where_the_second_is_near() -> None:
    # derived: half-way up lie 2.62 and 5.36 rounds down, rounds 3 and 5
    steps = ((96, 116), (116, 117), (117, 268))
    assert set_places(steps, (0, 0, 0), zones=zones(), per_cm=2.0, shoulder=0.0)[:2] == (2, 5)
