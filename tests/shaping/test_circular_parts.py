"""What the search of a round yoke tries, and what it charges, each by itself."""

from __future__ import annotations

import pytest

from tests.shaping.parts import yoke
from yokefellow.shaping.circular import _best_path, _ladders, _numbers_of_rounds, _tolerance
from yokefellow.shaping.task import splits_for


def test_few_rounds_are_four_or_three_and_more_only_where_four_cannot_reach() -> None:
    task = yoke(style="few", rounds=60)
    # derived: the style's own number costs nothing, the next one repeat, one no longer few fifty
    assert _numbers_of_rounds(task) == ((4, 0.0), (3, 1.0), (5, 50.0), (6, 51.0))


def test_a_count_may_lie_a_twenty_fifth_off_but_at_most_ten() -> None:
    # derived: 4 %, at least 3, at most 10
    assert [_tolerance(count) for count in (50, 100, 250, 400)] == [3, 4, 10, 10]


def test_the_ladder_that_covers_the_shoulders_early_has_as_many_layers() -> None:
    task = yoke(neck=100.0, body=200.0, sleeve=70.0, underarm=10.0, shoulder=280.0, rounds=60)
    yokes = sorted(splits_for(task))
    plain, early = _ladders(task, yokes, 4)
    assert (len(plain), len(early)) == (4, 4)
    # derived: from the shoulders' count up, twice 10 more: 4 % of 280 are 11
    assert (early[-2].counts[0], early[-2].counts[-1]) == (280, 300)


def test_a_neck_off_its_own_count_costs_its_square() -> None:
    task = yoke(neck=100.0, rounds=60)
    splits = splits_for(task)
    top = min(splits, key=lambda count: splits[count][0])
    half = round((110 + top) / 2)
    found = _best_path({top: (2.0, 0.25, (110, half, top))}, splits, task, away=1.0)
    assert found is not None
    cost = splits[top][0]
    # derived: 110 for 100 is a tenth off, and its square a hundredth
    assert found[0][2] == pytest.approx(0.25 + cost % 1 + 0.01)
    assert found[0][1] == 2.0 - 2 + int(cost) + 1.0
