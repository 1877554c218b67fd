"""Tapers: worked examples in print, and the law of the intervals."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published import published
from yokefellow.shaping.taper import taper

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
