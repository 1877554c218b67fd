"""The line of the yoke: profile and places."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.line import broken_rules, places, profile


@given(st.floats(20, 300), st.floats(1.05, 4), st.integers(1, 12))
def test_the_profile_climbs_to_the_yoke_in_allowed_steps(
    neck: float, ratio: float, times: int
) -> None:
    found = profile(neck=neck, yoke=ratio * neck, times=times)
    if found is None:
        # derived: steps of at most 48 % cannot multiply to the ratio
        assert 1.48**times < ratio
        return
    assert len(found) == times
    assert found[-1] == pytest.approx(ratio * neck)
    assert all(
        0 < after - before <= 0.48 * before + 1e-6 for before, after in pairwise((neck, *found))
    )


counts = st.lists(st.integers(2, 60), min_size=2, max_size=9).map(
    lambda steps: tuple(60 + sum(steps[:at]) for at in range(len(steps) + 1))
)


@given(counts, st.integers(40, 120), st.floats(0, 1))
def test_places_are_apart_and_cover_the_shoulders_in_time(
    chain: tuple[int, ...], rounds: int, share: float
) -> None:
    shoulder = chain[0] + share * (chain[-1] - chain[0])
    at = places(chain, shoulder=shoulder, rounds=rounds, first_round=2)
    assert len(at) == len(chain) - 1
    assert at[0] >= 2
    assert all(later - early >= 3 for early, later in pairwise(at))
    broken = broken_rules(chain, at, shoulder=shoulder, rounds=rounds)
    assert "apart" not in broken
    # derived: up to the covering round there are at most as many steps, each three rounds
    needed = next(place for place, count in enumerate(chain[1:]) if count >= shoulder)
    if 2 + 3 * needed <= int(0.45 * rounds):
        assert "shoulder" not in broken


def test_equal_steps_on_a_straight_line_stand_at_equal_distances() -> None:
    # derived: middles at 10, 30, 50, 70 over the neck; fullness at 0.7 of 100 rounds is the last
    assert places((100, 120, 140, 160, 180), shoulder=0, rounds=100, first_round=2) == (
        10,
        30,
        50,
        70,
    )


def test_the_rules_are_named_when_broken() -> None:
    chain = (100, 140, 180)
    # derived: covered only at 60 of 100; two rounds apart; full at 30 of 100
    assert broken_rules(chain, (20, 60), shoulder=150, rounds=100) == ("shoulder",)
    assert broken_rules(chain, (60, 62), shoulder=0, rounds=100) == ("apart",)
    assert broken_rules(chain, (20, 30), shoulder=150, rounds=100) == ("fullness",)
    assert broken_rules(chain, (20, 85), shoulder=0, rounds=100) == ("fullness",)
