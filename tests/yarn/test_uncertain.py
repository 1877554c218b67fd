"""Errors kept apart by source: sums, the blurred flat spread, and learning from readings."""

from __future__ import annotations

import math
from random import Random
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.yarn.uncertainty import (
    PRIOR,
    Belief,
    Observation,
    Source,
    Uncertain,
    certain,
    learned,
    total,
)

A, B, FLAT = Source("model", "a"), Source("model", "b"), Source("put-up", "MC")


def test_what_two_quantities_share_adds_up_or_cancels() -> None:
    one, two = Uncertain(10, {A: 3.0, B: 1.0}), Uncertain(5, {A: 3.0})
    # derived: 3 + 3 and 1; 3 - 3 and 1
    assert total([(1, one), (1, two)]).sd == pytest.approx(math.hypot(6, 1))
    assert total([(1, one), (-1, two)]).sd == pytest.approx(1)
    assert total([(1, one), (-1, two)]).mean == 5


@pytest.mark.parametrize("sure", [0.5, 0.8, 0.9, 0.95, 0.99])
def test_without_a_flat_part_the_range_is_the_normal_one(sure: float) -> None:
    low, high = Belief(100, 7).between(sure)
    # derived: the standard library's normal distribution
    wanted = NormalDist(100, 7)
    assert (low, high) == pytest.approx(
        (wanted.inv_cdf((1 - sure) / 2), wanted.inv_cdf((1 + sure) / 2))
    )
    assert Belief(100, 7).chance_above(93) == pytest.approx(1 - wanted.cdf(93))


def test_a_flat_spread_ends_at_its_limits() -> None:
    # derived: nine tenths of what is equally likely from 95 to 105
    assert Belief(100, 0, 5).between(0.9) == pytest.approx((95.5, 104.5), abs=1e-4)
    assert Belief(100, 0, 5).chance_above(105.01) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("normal", "flat"), [(1.0, 1.0), (1.0, 4.0), (0.2, 5.0)])
def test_a_blurred_flat_spread_holds_as_many_draws_as_it_says(normal: float, flat: float) -> None:
    dice = Random(4)
    draws = [dice.uniform(-flat, flat) + dice.gauss(0, normal) for _ in range(20_000)]
    for sure in (0.5, 0.9, 0.98):
        low, high = Belief(0, normal, flat).between(sure)
        held = sum(low < draw < high for draw in draws) / len(draws)
        # derived: three standard errors of 20,000 draws
        assert held == pytest.approx(sure, abs=3 * math.sqrt(sure * (1 - sure) / 20_000))


@given(st.floats(0.01, 5), st.floats(0, 5), st.floats(0.5, 0.99))
def test_the_range_and_the_chance_are_inverse(normal: float, flat: float, chance: float) -> None:
    belief = Belief(0, normal, flat)
    assert belief.chance_above(-belief.away(chance)) == pytest.approx(chance, abs=1e-6)


def test_the_largest_flat_source_is_told_apart() -> None:
    believed = PRIOR.of(Uncertain(1, {FLAT: 2.0, Source("scale", "x"): 1.0, A: 1.0}))
    # derived: a flat spread of standard deviation 2 is the root of 3 times as far each way
    assert believed.flat == pytest.approx(2 * math.sqrt(3))
    assert believed.normal_sd == pytest.approx(math.sqrt(2))
    assert PRIOR.of(certain(7)).away(0.95) == 0


def test_one_source_and_one_reading_weigh_by_their_precision() -> None:
    # published: Gelman and others, Bayesian Data Analysis, 3rd edition, 2013, equation 2.10
    # (from memory): precisions add, the mean is weighted by them
    prior_sd, reading_sd = 4.0, 2.0
    quantity = Uncertain(100, {A: prior_sd})
    after = learned([Observation(quantity, 110, reading_sd)]).of(quantity)
    one, two = 1 / prior_sd**2, 1 / reading_sd**2
    assert after.mean == pytest.approx((one * 100 + two * 110) / (one + two))
    assert after.sd == pytest.approx(math.sqrt(1 / (one + two)))


def test_several_readings_count_as_their_mean() -> None:
    # published: the same, equation 2.12 (from memory): n readings have n times the precision
    quantity = Uncertain(100, {A: 4.0})
    reads = (108.0, 113.0, 109.0)
    after = learned([Observation(quantity, read, 2.0) for read in reads]).of(quantity)
    one, two = 1 / 16, 3 / 4
    assert after.mean == pytest.approx((one * 100 + two * sum(reads) / 3) / (one + two))
    assert after.sd == pytest.approx(math.sqrt(1 / (one + two)))


def test_what_is_learned_of_one_thing_is_known_of_what_shares_its_source() -> None:
    read, other = Uncertain(10, {A: 1.0, B: 1.0}), Uncertain(50, {A: 5.0})
    knowledge = learned([Observation(read, 12.0, 1e-9)])
    # derived: half of the surprise of 2 is laid to each of two equal sources
    assert knowledge.of(other).mean == pytest.approx(50 + 5 * 1.0)
    assert knowledge.of(other).sd == pytest.approx(5 * math.sqrt(0.5))
    assert knowledge.of(read).mean == pytest.approx(12)
    apart = Uncertain(50, {Source("model", "c"): 5.0})
    assert knowledge.of(apart) == Belief(50, 5.0)


def test_no_reading_teaches_nothing() -> None:
    assert learned([]) is PRIOR
