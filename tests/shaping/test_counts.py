"""Turning real numbers into integers: the law of what is permitted."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.counts import Count, nearest, permitted, rounds_for

wanted_counts = st.floats(-20, 900, allow_nan=False)
multiples = st.integers(1, 12)


def allowed(multiple: int, remainder: int, least: int) -> list[int]:
    """Every count that divides, counted up one by one."""
    return [count for count in range(least, 1000) if count % multiple == remainder % multiple]


@given(wanted_counts, multiples, st.integers(0, 11), st.integers(1, 30))
def test_permitted_are_the_nearest_and_those_half_a_stitch_further(
    wanted: float, multiple: int, remainder: int, least: int
) -> None:
    remainder %= multiple
    got = permitted(wanted, multiple=multiple, remainder=remainder, least=least)
    all_counts = allowed(multiple, remainder, least)
    best = min(abs(count - wanted) for count in all_counts)
    # derived: half a stitch, and a hair for the arithmetic
    assert set(got) <= {count for count in all_counts if abs(count - wanted) <= best + 0.5 + 1e-9}
    assert set(got) >= {count for count in all_counts if abs(count - wanted) <= best + 0.5 - 1e-9}


@given(wanted_counts, multiples, st.integers(0, 11), st.integers(1, 30))
def test_nearest_is_the_nearest(wanted: float, multiple: int, remainder: int, least: int) -> None:
    remainder %= multiple
    got = nearest(wanted, multiple=multiple, remainder=remainder, least=least)
    best = min(abs(count - wanted) for count in allowed(multiple, remainder, least))
    assert abs(got - wanted) == pytest.approx(best, abs=1e-8)


def test_of_two_equally_near_the_larger_is_taken() -> None:
    # derived: half-way between
    assert nearest(33.5) == 34
    assert nearest(35.0, multiple=2) == 36
    assert nearest(0.1 + 0.2 + 2.2) == 3  # binary 2.5000000000000004 and its like


@given(st.floats(0.1, 120), st.floats(0.6, 8), st.integers(1, 8))
def test_rounds_make_the_length_to_half_a_round(
    length_cm: float, per_cm: float, least: int
) -> None:
    rounds = rounds_for(length_cm, per_cm=per_cm, least=least)
    assert rounds.got >= least
    # derived: half a round
    assert rounds.got == least or abs(rounds.got - length_cm * per_cm) <= 0.5 + 1e-9
    assert rounds.wanted_cm == pytest.approx(length_cm)
    assert rounds.residual_cm == pytest.approx(rounds.cm - length_cm)


def test_a_count_keeps_what_was_wanted_beside_what_was_got() -> None:
    # derived: 108 and 107.3 stitches at 2 in a cm
    count = Count(108, 107.3, 2.0)
    assert (count.cm, count.wanted_cm) == (54.0, 53.65)
    assert count.residual_cm == pytest.approx(0.35)
