"""The splits that the wanted counts permit, and what each costs."""

from __future__ import annotations

import pytest

from tests.shaping.parts import task, yoke, zones
from yokefellow.shaping.circular import solve
from yokefellow.shaping.task import YokeTask, splits_for


def bodies(asked: YokeTask) -> dict[int, float]:
    """What each count of the body costs."""
    return {split.body.got: cost for cost, split in splits_for(asked).values()}


def test_counts_that_are_as_wanted_need_no_choice() -> None:
    ((count, (cost, split)),) = splits_for(yoke()).items()
    # derived: 200 - 2 * 16 + 2 * (66 - 16)
    assert (count, cost) == (268, 0.0)
    assert (split.body.got, split.sleeve.got, split.underarm.got) == (200, 66, 16)
    assert (split.body.per_cm, split.held, split.front) == (2.0, 50, 84)


def test_a_hem_that_needs_an_adjusting_round_costs_one() -> None:
    # derived: 202 is no multiple of four; 201 lies between 200 and 202, a stitch from either
    assert bodies(yoke(body=202.0, body_multiple=4)) == {202: 1.0}
    assert bodies(yoke(body=201.0, body_multiple=4)) == {
        200: pytest.approx((1 / 201) ** 2),
        202: pytest.approx(1 + (1 / 201) ** 2),
    }


def test_a_straight_body_may_give_way_to_its_bands() -> None:
    # derived: 198 is six times 33, 1 % off; where 200 stays a round goes there and one back
    assert bodies(yoke(body_repeat=33)) == {200: 2.0, 198: pytest.approx(0.01**2)}
    # derived: 192 and 216 are the nearest multiples of 24, more than 1.5 % off
    assert bodies(yoke(body_repeat=24)) == {200: 2.0}
    assert bodies(yoke(body_repeat=8)) == {200: 0.0}
    # derived: a band of three divides 201, but a body is even; 198 and 204 are
    assert bodies(yoke(body=201.0, body_repeat=3)) == {
        200: pytest.approx(2 + (1 / 201) ** 2),
        202: pytest.approx(2 + (1 / 201) ** 2),
        198: pytest.approx((3 / 201) ** 2),
        204: pytest.approx((3 / 201) ** 2),
    }


def test_all_three_give_way_a_little_to_a_band_where_the_yoke_is_full() -> None:
    found = splits_for(yoke(), wide=True)
    # derived: the body 198 to 202, the sleeve 64 to 68, the underarm 14 to 18; so from
    # 198 + 128 - 72 to 202 + 136 - 56
    assert sorted(found) == list(range(254, 283, 2))
    assert found[268][0] == 0.0
    cost, split = found[282]
    assert (split.body.got, split.sleeve.got, split.underarm.got) == (202, 68, 14)
    # derived: each by two stitches
    assert cost == pytest.approx((2 / 200) ** 2 + (2 / 66) ** 2 + (2 / 16) ** 2)


def test_four_stitches_of_each_sleeve_and_of_the_front_stay() -> None:
    # derived: 66 - 62 of the sleeve
    assert list(splits_for(yoke(underarm=62.0))) == [200 - 124 + 8]
    assert splits_for(yoke(underarm=64.0)) == {}
    # derived: 100 - 96 of the front, 24 of the sleeve
    assert list(splits_for(yoke(sleeve=120.0, underarm=96.0))) == [8 + 48]
    assert splits_for(yoke(sleeve=120.0, underarm=98.0)) == {}


def test_underarms_that_leave_nothing_leave_no_yoke() -> None:
    assert solve(yoke(underarm=64.0)) is None
    banded = yoke(underarm=70.0, places=(zones((task(), 20)),))
    assert solve(banded) is None
