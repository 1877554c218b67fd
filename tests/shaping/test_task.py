"""The splits that the wanted counts permit, and what each costs."""

from __future__ import annotations

import pytest

from tests.shaping.parts import task, yoke, zones
from yokefellow.project_file.pins import NOTHING, Fixed
from yokefellow.shaping.circular import solve
from yokefellow.shaping.task import YokeTask, of_the_yoke, splits_for


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


def test_pins_of_other_pieces_are_none_of_the_yoke() -> None:
    assert of_the_yoke(Fixed(cast_on=90, hem=180)) is NOTHING
    assert of_the_yoke(Fixed(cast_on=90, neck=96, increases=(120, 268))) == Fixed(
        neck=96, increases=(120, 268)
    )


def test_a_narrow_sleeve_keeps_six_stitches() -> None:
    # derived: two of them underarm, so 200 - 4 of the body and twice four
    ((count, (_, split)),) = splits_for(yoke(sleeve=3.0, underarm=2.0)).items()
    assert (count, split.sleeve.got) == (204, 6)


def test_a_count_may_give_way_by_as_much_as_is_allowed() -> None:
    # derived: a centimetre is two stitches, and one more makes the count even: 201 and three
    pins = Fixed(sleeve=66, underarm=16)
    asked = yoke(body=201.0, fixed=pins)
    found = {split.body.got for _, split in splits_for(asked, wide=True).values()}
    assert found == {198, 200, 202, 204}


def test_front_and_back_that_are_pinned_make_the_body() -> None:
    # derived: 90 and 82 and two underarms of 16; and twice 50 of the sleeves
    ((count, (_, split)),) = splits_for(yoke(fixed=Fixed(front=90, back=82))).items()
    assert (count, split.body.got, split.underarm.got) == (272, 204, 16)


def test_a_split_that_leaves_too_little_hides_no_other() -> None:
    # derived: 19 may be 18 or 20; of 18 an underarm of 16 leaves two, of 20 four
    assert list(splits_for(yoke(sleeve=19.0))) == [200 - 32 + 8]


def test_a_band_takes_a_body_just_as_far_off_as_it_may_be() -> None:
    # derived: twice 197 are 394, six of 400 off, which are 1.5 %
    assert bodies(yoke(body=400.0, body_repeat=197)) == {400: 2.0, 394: pytest.approx(0.015**2)}


def test_of_splits_that_cost_the_same_the_one_with_the_smaller_body_is_taken() -> None:
    # derived: 198 and twice 68 are 334, and so are 202 and twice 66; either is two stitches and
    # one off
    _, split = splits_for(yoke(sleeve=67.0), wide=True)[334 - 64]
    assert (split.body.got, split.sleeve.got, split.underarm.got) == (198, 68, 16)
