"""Rates: a piece reaches its count, in plain numbers, and its increase rounds lie evenly."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.raglan.rates import SPARE, Rate, most_times, rates, rounds_of
from yokefellow.shaping.yoke.rules import FIRST_INCREASE
from yokefellow.sheet.raglan import rate_words


def test_a_compound_raglan_worked_by_hand() -> None:
    # derived: 56 rounds; 20 × 2 + 4 × 4 = 56 with 24 increases, 8 × 2 + 10 × 4 = 56 with 18
    assert rates(24, 56) == (Rate(2, 20), Rate(4, 4))
    assert rates(18, 56) == (Rate(2, 8), Rate(4, 10))
    assert rounds_of(rates(24, 56))[-1] == rounds_of(rates(18, 56))[-1] == 56


def test_every_other_round_is_the_common_rate() -> None:
    # common practice, no source: eight increases in every 2nd round
    assert rates(28, 56) == (Rate(2, 28),)
    assert rounds_of(rates(28, 56)) == tuple(range(2, 57, 2))


NEEDS = st.integers(8, 160).flatmap(
    lambda rounds: st.tuples(st.integers(0, most_times(rounds)), st.just(rounds), st.booleans())
)


@given(NEEDS)
def test_every_need_is_met_within_its_rounds(need: tuple[int, int, bool]) -> None:
    times, rounds, late = need
    spread = rates(times, rounds, late=late)
    at = rounds_of(spread)
    assert len(at) == sum(rate.times for rate in spread) == times
    assert list(at) == sorted(set(at))
    assert all(rate.times > 0 for rate in spread)
    if at:
        assert at[0] >= FIRST_INCREASE
        assert rounds - SPARE <= at[-1] <= rounds


@given(NEEDS)
def test_two_rates_at_most_and_they_stand_side_by_side(need: tuple[int, int, bool]) -> None:
    times, rounds, late = need
    spread = rates(times, rounds, late=late)
    assert len(spread) <= 2  # derived: more could not be kept in mind
    if len(spread) == 2:
        fast, slow = sorted(rate.every for rate in spread)
        assert (fast, slow) == (1, 2) or (fast % 2 == 0 and slow == fast + 2)
        assert (spread[0].every > spread[1].every) is late
    steps = {later - early for early, later in pairwise(rounds_of(spread))}
    assert len(steps) <= 2
    assert steps <= {rate.every for rate in spread}


@given(NEEDS)
def test_slow_pieces_increase_in_the_even_rounds(need: tuple[int, int, bool]) -> None:
    times, rounds, late = need
    if times <= rounds // 2:
        assert all(number % 2 == 0 for number in rounds_of(rates(times, rounds, late=late)))


@pytest.mark.parametrize("rounds", [8, 9, 40, 41])
def test_more_than_every_round_is_refused(rounds: int) -> None:
    assert len(rounds_of(rates(most_times(rounds), rounds))) == rounds - 1  # derived: from the 2nd
    with pytest.raises(ValueError, match="do not fit"):
        rates(most_times(rounds) + 1, rounds)


def test_rates_in_words() -> None:
    # snapshot
    assert rate_words((Rate(2, 14), Rate(4, 5))) == (
        "every 2nd round 14 times, then every 4th round 5 times"
    )
    assert rate_words((Rate(1, 3), Rate(2, 1))) == "every round 3 times, then every 2nd round once"
    assert rate_words((Rate(22, 2),)) == "every 22nd round 2 times"
    assert rate_words((Rate(12, 1),)) == "every 12th round once"
