"""Pins of a raglan worked out by hand: its increase rounds, its halves, what its lines let it."""

from __future__ import annotations

import pytest

from tests.raglan.raglans import raglan
from tests.shaping.parts import yoke
from tests.shaping.test_raglan_by_hand import EIGHTS, asked, starts, times
from tests.sweaters import project
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.pinned_raglan import raglan_pins_refused, solve_pinned_raglan
from yokefellow.shaping.raglan import solve_raglan
from yokefellow.shaping.raglan_by_round import solve_by_round

WHOLE = {"body": 200, "sleeve": 66, "underarm": 16}


def test_what_a_raglan_has_by_itself_changes_nothing_when_it_is_pinned() -> None:
    free = solve_raglan(asked())
    assert free is not None
    after, at = ([getattr(step, name) for step in free.steps] for name in ("after", "number"))
    assert solve_pinned_raglan(asked(), Fixed(increases=after)) == free
    assert solve_pinned_raglan(asked(), Fixed(increase_at=at)) == free


def test_as_many_rounds_as_there_are_may_be_pinned_by_their_counts() -> None:
    pins = Fixed(increases=EIGHTS, **WHOLE)
    # derived: 22 rounds from the second on are the 2nd to the 23rd
    found = solve_by_round(asked(pins, room=23))
    assert found is not None
    assert [step.number for step in found.steps] == list(range(2, 24))
    assert solve_by_round(asked(pins, room=22)) is None


def test_front_and_back_that_are_both_pinned_are_met_far_from_what_was_wanted() -> None:
    # derived: 220 of 268 leave 24 for each sleeve, and 44 stitches are more than that
    few = (*range(220, 269, 8),)
    found = solve_by_round(asked(Fixed(increases=few, front=110, back=110)))
    assert found is not None
    assert (found.split.front, found.split.back, found.split.held) == (110, 110, 24)
    # derived: seven rounds of 14 stitches
    assert starts(found) == (96, 96, 10)


@pytest.mark.parametrize(("sleeve", "is_met"), [(91, True), (92, False), (41, True), (40, False)])
def test_free_halves_lie_near_what_was_wanted(sleeve: int, is_met: bool) -> None:
    # derived: 268 less twice 75 are 118, twice 76 116, twice 25 218, twice 24 220; of the 168
    # wanted seven tenths are 117.6, and thirteen tenths 218.4 (our choice in the program)
    few = (*range(220, 269, 8),)
    found = solve_by_round(asked(Fixed(increases=few, sleeve=sleeve, underarm=16)))
    assert (found is not None) is is_met


def test_pinned_shares_of_back_and_front_differ_as_they_please() -> None:
    pins = {"increase_at": tuple(range(4, 60, 2)), "neck_back": 40, "neck_front": 30}
    found = solve_by_round(asked(Fixed(**pins)))
    assert found is not None
    # derived: (84 - 40) / 2 and (84 - 30) / 2
    assert times(found)[:2] == (22, 27)
    assert (starts(found) or ())[:2] == (40, 30)


def test_a_neck_to_which_whole_rounds_lead_back_is_met() -> None:
    # derived: 84, 84 and 50 less two in each of ten rounds are 64, 64 and 30: 188, four times 47
    ten = Fixed(increase_at=tuple(range(10, 30, 2)), **WHOLE)
    found = solve_by_round(asked(ten, counts=yoke(neck=188.0, shoulder=0.0, fixed=ten)))
    assert starts(found) == (64, 64, 30)


@pytest.mark.parametrize(("shoulder", "broken"), [(236.0, ()), (236.5, ("shoulder",))])
def test_shoulders_are_covered_by_as_many_stitches_as_they_ask_for(
    shoulder: float, broken: tuple[str, ...]
) -> None:
    fixed = Fixed(increases=EIGHTS, increase_at=tuple(range(6, 50, 2)), **WHOLE)
    task = asked(fixed, counts=yoke(shoulder=shoulder, fixed=fixed))
    found = solve_by_round(task)
    assert found is not None
    # derived: the 18th of the rounds is the 40th of the yoke: 92 and 18 times eight
    assert found.steps[17][:2] == (40, 228)
    assert found.steps[17].after == 236
    assert found.broken == broken


def test_the_widest_line_that_the_pins_let_be_is_named() -> None:
    made = project(raglan())
    pins = Fixed(neck_back=6, neck_front=6)
    # derived: of four stitches each half has two, and 2 * 2 + 2 are six; of five three, and eight
    found = raglan_pins_refused(asked(line_width=6), pins, (), made)
    assert (found.code, found.field) == ("raglan.pinned-line", "garment.yoke.line_width")
    assert found.remedy == "Write line_width = 4. The counts can then be met."


def test_a_line_whose_increases_need_stitches_is_told_of_them() -> None:
    neck = Fixed(neck=68, increases=tuple(68 + 8 * at for at in range(1, 26)), **WHOLE)
    found = raglan_pins_refused(asked(takes_stitches=True), neck, (), project(raglan()))
    assert found.message == (
        "By these counts a piece of the raglan begins with very few stitches at the neck, or with "
        "none, and a line as it was chosen needs stitches to be worked in."
    )


def test_two_stitches_between_front_and_back_weigh_as_much_as_a_rib_that_does_not_divide() -> None:
    ten = Fixed(increase_at=tuple(range(10, 30, 2)), body=200, sleeve=65, underarm=16)
    line = yoke(neck=188.0, neck_multiple=4, sleeve=65.0, shoulder=0.0, fixed=ten)
    # derived: 64, 64 and twice 29 are 186, which fours do not divide; with 66 of the front it is
    # the 188 that are wanted
    found = solve_by_round(asked(ten, counts=line, back_neck=64.0))
    assert starts(found) == (64, 66, 29)


def test_a_rib_is_as_uneven_by_one_stitch_as_by_three() -> None:
    ten = Fixed(increase_at=tuple(range(10, 30, 2)), body=201, sleeve=66, underarm=16)
    line = yoke(neck=191.0, neck_multiple=4, body=201.0, shoulder=0.0, fixed=ten)
    # derived: 64 or 66 beside 65 and twice 30 are 189 or 191, and fours leave one or three
    found = solve_by_round(asked(ten, counts=line, back_neck=65.0))
    assert starts(found) == (65, 66, 30)


def test_an_adjusting_round_of_the_hem_weighs_once() -> None:
    ten = Fixed(increase_at=tuple(range(10, 30, 2)), neck=190, sleeve=66, underarm=16)
    line = yoke(neck=190.0, neck_multiple=4, body=201.0, body_multiple=4, shoulder=0.0, fixed=ten)
    # derived: 200 round the body leave 64 and 66 at the neck; 202, which fours do not divide,
    # leave 65 twice, as is wanted of the back, and 30 for each sleeve
    found = solve_by_round(asked(ten, counts=line, back_neck=65.0))
    assert starts(found) == (65, 65, 30)


@pytest.mark.parametrize(("takes", "sleeve"), [(True, 4), (False, 0)])
def test_sleeves_grow_no_oftener_than_leaves_them_their_stitches(takes: bool, sleeve: int) -> None:
    # derived: 84 and 50 less two in each of 29 rounds, of which the sleeves rest in four, or in six
    # where their increases take stitches, so that they begin with two and two between
    at = Fixed(increase_at=tuple(range(2, 60, 2)), **WHOLE)
    line = yoke(neck=40.0, shoulder=0.0, fixed=at)
    found = solve_by_round(asked(at, counts=line, back_neck=26.0, takes_stitches=takes))
    assert starts(found) == (26, 26, sleeve)


def test_a_front_may_begin_three_stitches_wider_where_a_piece_then_grows_in_every_round() -> None:
    # derived: 85 less two in each of ten rounds are 65, and a sleeve that grows once leaves no
    # other piece to grow in all of them
    pins = {"body": 201, "sleeve": 66, "underarm": 16, "neck_front": 68, "neck_sleeve": 48}
    ten = Fixed(increase_at=tuple(range(10, 30, 2)), **pins)
    line = yoke(body=201.0, shoulder=0.0, fixed=ten)
    assert starts(solve_by_round(asked(ten, counts=line))) == (65, 68, 48)


def test_sleeves_rest_as_often_as_the_neck_asks_for() -> None:
    # derived: 84 less 58 are 26, twice; of 92 stitches that leaves 20 for each sleeve
    at = Fixed(increase_at=tuple(range(2, 60, 2)), **WHOLE)
    line = yoke(neck=92.0, shoulder=0.0, fixed=at)
    assert starts(solve_by_round(asked(at, counts=line, back_neck=26.0))) == (26, 26, 20)
