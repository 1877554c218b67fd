"""Tapers: worked examples in print, and the law of the intervals."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published import published
from yokefellow.shaping.pieces.taper import bent_taper, taper

EXAMPLES = published("taper")["example"]


def intervals(places: tuple[int, ...]) -> list[int]:
    return [after - before for before, after in pairwise((0, *places))]


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: str(example["source"]))
def test_printed_tapers(example: dict[str, Any]) -> None:
    # published: as each example of tests/published/taper.toml says
    wanted = Counter({int(size): count for size, count in example["intervals"].items()})
    assert sum(size * count for size, count in wanted.items()) == example["rounds"]
    found = intervals(taper(example["pairs"], example["rounds"]))
    assert Counter(found) == wanted
    assert found == sorted(found, reverse=True)


@given(st.integers(0, 400).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_intervals_differ_by_at_most_one_and_end_with_the_stretch(case: tuple[int, int]) -> None:
    events, rounds = case
    places = taper(events, rounds)
    assert len(places) == events
    if events:
        found = intervals(places)
        assert places[-1] == rounds
        assert min(found) >= 1
        assert max(found) - min(found) <= 1
        assert found == sorted(found, reverse=True)


def test_more_shaping_rounds_than_rounds_are_refused() -> None:
    with pytest.raises(ValueError, match="do not make"):
        taper(4, 3)


BENT = st.integers(4, 300).flatmap(
    lambda rounds: st.tuples(
        st.integers(0, rounds // 2),
        st.just(rounds),
        st.lists(st.tuples(st.integers(1, rounds), st.integers(0, rounds // 2)), max_size=3),
    )
)


@given(BENT)
def test_a_bent_taper_never_has_more_behind_it_than_a_bend_allows(
    case: tuple[int, int, list[tuple[int, int]]],
) -> None:
    events, rounds, bends = case
    places = bent_taper(events, rounds, bends)
    assert list(places) == sorted(set(places))
    assert all(0 < place <= rounds for place in places)
    assert len(places) <= events
    for at, most in bends:
        assert at == rounds or sum(place <= at for place in places) <= most
    if not bends:
        assert places == taper(events, rounds)


@given(BENT)
def test_a_bent_taper_leaves_out_only_what_would_lie_closer_than_two_rounds(
    case: tuple[int, int, list[tuple[int, int]]],
) -> None:
    events, rounds, bends = case
    places = bent_taper(events, rounds, bends)
    if len(places) < events:
        full = [at for at, _ in bends if sum(place > at for place in places) == (rounds - at) // 2]
        assert full


def test_a_bend_in_the_first_or_the_last_round() -> None:
    # derived: none in the first, so three in the eleven after it, 4, 4 and 3 apart
    assert bent_taper(3, 12, [(1, 0)]) == (5, 9, 12)
    # The last round is where all are wanted, whatever is allowed there.
    assert bent_taper(3, 12, [(12, 1)]) == (4, 8, 12)
