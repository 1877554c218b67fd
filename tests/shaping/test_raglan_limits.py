"""What decides between two raglans, at the very limit: shares, pins, rates, bands, percentages."""

from __future__ import annotations

from tests.raglan.raglans import raglan, refused, yoke_of
from tests.shaping.parts import task, yoke
from tests.shaping.test_raglan_by_hand import asked, starts
from tests.sweaters import edited, planned
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan.bands import OverEnd, place_below
from yokefellow.shaping.raglan.search import solve_raglan
from yokefellow.shaping.raglan.shares import least_piece


def test_a_line_of_an_odd_width_gives_back_and_front_its_middle_stitch() -> None:
    # derived: of two lines of three, two and two stitches are the back's, one and one a sleeve's
    assert (least_piece(3, body=True), least_piece(3, body=False)) == (6, 4)
    assert starts(solve_raglan(asked(Fixed(neck_back=4, neck_front=4), line_width=3))) is None
    assert starts(solve_raglan(asked(Fixed(neck_back=6, neck_front=6), line_width=3))) is not None


def test_a_back_without_a_stitch_to_spare() -> None:
    # derived: lines of two leave a back of four its two stitches; 96 less 8 are two sleeves of 44
    assert starts(solve_raglan(asked(back_neck=4.0))) == (4, 4, 44)
    # derived: of 98 one half takes two more, and 4 cannot take two less
    assert starts(solve_raglan(asked(Fixed(neck=98), back_neck=4.0))) == (4, 6, 44)


def test_the_smallest_neck_there_is() -> None:
    # derived: lines without a stitch leave two in each of the four pieces, and five are too few
    tiny = asked(counts=yoke(neck=5.0, shoulder=0.0), back_neck=2.0, line_width=0)
    assert starts(solve_raglan(tiny)) == (2, 2, 2)


def test_body_and_sleeves_give_way_for_a_band_of_two_stitches() -> None:
    # derived: 84 and 50 less 96 / 2 are 86 stitches, and 21 rounds of two pieces make 84
    assert solve_raglan(asked(room=22)) is None
    found = solve_raglan(asked(room=22, repeat=2))
    assert found is not None
    assert abs(found.split.body.got - 200) <= 3  # derived: a centimetre, and one to be even
    assert max(len(found.back.rounds), len(found.sleeve.rounds)) <= 21


def test_a_front_that_ends_a_stitch_wider_begins_so() -> None:
    # derived: 26 times by twos, as the back from 32 to 84, so that the rates are read once
    pins = {"back": 84, "neck_back": 32, "neck_sleeve": 16}
    assert starts(solve_raglan(asked(Fixed(front=85, **pins)))) == (32, 33, 16)
    assert starts(solve_raglan(asked(Fixed(front=83, **pins)))) == (32, 31, 16)


def test_back_and_front_that_take_the_whole_neck_leave_no_sleeves() -> None:
    # derived: 96 less twice 48; a sleeve of one has no room for two halves of a line
    assert solve_raglan(asked(Fixed(neck_back=48, neck_front=48), line_width=1)) is None
    # derived: twice 46 leave two for each sleeve, just its room
    fewer = Fixed(neck_back=46, neck_front=46)
    assert starts(solve_raglan(asked(fewer, line_width=1))) == (46, 46, 2)


def test_an_odd_neck_parts_no_even_yoke() -> None:
    # derived: every piece grows by twos, so that 268 stitches come from an even number
    assert solve_raglan(asked(Fixed(neck=99))) is None


def test_a_sleeve_that_need_not_grow() -> None:
    found = solve_raglan(asked(Fixed(neck_back=32, neck_front=32, neck_sleeve=50)))
    assert found is not None
    assert found.sleeve.rounds == ()  # derived: 50 at the neck and at the split


def test_a_neck_that_its_rib_divides_is_worth_a_stitch_and_a_half() -> None:
    # derived: 96 is 32 threes and 2.2 off; 100 is 33 threes and one, 1.8 off; 17 times or 16, in
    # two rates either way
    fixed = Fixed(neck_back=32, neck_front=32)
    counts = yoke(shoulder=0.0, neck=98.2, neck_multiple=3, fixed=fixed)
    assert starts(solve_raglan(asked(counts=counts))) == (32, 32, 16)


def test_an_increase_in_every_round_is_worth_a_stitch() -> None:
    # derived: 44 would grow three times in four rounds, 46 twice, in every 2nd; 257.8 is 1.8 and
    # 2.2 off
    fixed = Fixed(neck_back=84, neck_front=84)
    found = solve_raglan(asked(counts=yoke(shoulder=0.0, neck=257.8, fixed=fixed), room=4))
    assert starts(found) == (84, 84, 46)


def test_a_front_two_stitches_off_its_back_is_worth_a_rate() -> None:
    # derived: in 54 rounds 26 times from 34 to 86 as from 32 to 84 is read once, and 27 times from
    # 32 is one rate more; so the neck of 96 decides
    pins = Fixed(front=86, back=84, neck_back=32, neck_sleeve=16)
    assert starts(solve_raglan(asked(pins, room=54))) == (32, 32, 16)


def test_a_front_one_stitch_off_its_back_costs_nothing() -> None:
    # derived: 34 is one off the front's 33, and 38, which fits the neck of 103, five
    pins = Fixed(front=85, back=84, neck_front=33, neck_sleeve=16)
    counts = yoke(shoulder=0.0, neck=103.0, fixed=pins)
    assert starts(solve_raglan(asked(counts=counts, back_neck=38.0))) == (34, 33, 16)


def test_an_adjusting_round_is_worth_a_rate_and_no_stitches() -> None:
    # derived: 202 is fifty fours and two, and 28 times from 29 to 85 are one rate in 58 rounds; 27
    # from 30 to 84 are two, and 200 is fifty fours; so the neck of 87 decides, 3 off and not 5
    pins = Fixed(neck_sleeve=16)
    counts = yoke(body=201.0, body_multiple=4, sleeve=68.0, neck=87.0, shoulder=0.0, fixed=pins)
    found = solve_raglan(asked(counts=counts, room=58, back_neck=33.0))
    assert starts(found) == (29, 29, 16)


def test_a_band_begins_in_the_third_round_and_ends_in_the_last() -> None:
    # derived: two rounds are kept free at the neck, and three are a centimetre
    for depth, first in ((2 / 3, 3), (18.0, 55)):
        band = task(8, at_cm=depth)
        found = place_below([band], depth_cm=20.0, rounds_per_cm=3.0, least_rounds=8)
        assert not isinstance(found, OverEnd)
        assert [one.first for one in found.bands] == [first]
    for depth in (1 / 3, 55 / 3):
        band = task(8, at_cm=depth)
        found = place_below([band], depth_cm=20.0, rounds_per_cm=3.0, least_rounds=8)
        assert isinstance(found, OverEnd)


def test_an_increase_by_front_and_back_needs_a_sleeve_to_be_worked_in() -> None:
    # derived: 27 rounds of all four pieces lead from 42, 42 and twice 2 to 96, 96 and twice 56
    whole = {"body": 224, "sleeve": 72, "underarm": 16, "neck": 88}
    pinned = raglan(fixed={**whole, "increases": list(range(96, 305, 8))})
    assert yoke_of(planned(pinned)).sleeve.start == 2
    found = refused(edited(pinned, garment__yoke__line_increase="front and back"))
    assert (found.code, found.field) == ("raglan.pinned-line", "garment.yoke.line_increase")


BY_SHARE = {"garment__yoke__proportions": "percentage 1971", "stitches_per_cm": 0.8}


def test_a_raglan_by_percentage_has_forty_stitches_at_the_least() -> None:
    small = planned(raglan("babies", "3", **BY_SHARE))
    split = small.shape.split
    # derived: 33 % of 40 are 13.2 and 8 % are 3.2; 45.72 cm would be 37 stitches
    assert (split.body.got, split.sleeve.got, split.underarm.got) == (40, 13, 3)


def test_a_back_by_percentage_may_be_two_lines_and_a_stitch() -> None:
    # derived: 20 less 3 end the back, 10 of them in five rounds; 7 are twice three and one
    wide = raglan("babies", "3", garment__yoke__line_width=3, **BY_SHARE)
    back = yoke_of(planned(wide)).back
    assert (back.start, len(back.rounds)) == (7, 5)


def test_shoulders_that_take_every_stitch_of_the_yoke_are_covered() -> None:
    # derived: 268 are there in the last round, and none fewer would do
    whole = solve_raglan(asked(counts=yoke(shoulder=268.0), shoulder_round=60))
    assert whole is not None
    assert whole.broken == ()
