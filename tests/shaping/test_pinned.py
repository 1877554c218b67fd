"""A yoke around its pins, without the rest of the sweater; and what is said where none is."""

from __future__ import annotations

from tests.shaping.parts import yoke
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import Split
from yokefellow.shaping.pieces.taper import taper
from yokefellow.shaping.split import halved, split_meeting
from yokefellow.shaping.spread_evenly import repeats_needed
from yokefellow.shaping.yoke.constraints import YokeTask
from yokefellow.shaping.yoke.search import Solution, solve


def solved(asked: YokeTask) -> Solution:
    found = solve(asked)
    assert isinstance(found, Solution)
    return found


def test_pins_that_no_split_meets_have_no_yoke() -> None:
    pins = {"body": 200, "underarm": 16}
    # derived: Y = 168 + 2 S - 32, so an odd yoke would take half a stitch
    assert not isinstance(solve(yoke(fixed=Fixed(yoke=269, **pins))), Solution)
    assert solved(yoke(fixed=Fixed(yoke=268, **pins))).split.sleeve.got == 66
    assert solved(yoke(fixed=Fixed(yoke=270, **pins))).split.sleeve.got == 67


def test_what_was_asked_for_stands_beside_the_pin() -> None:
    found = solved(yoke(fixed=Fixed(neck=100, body=204)))
    # derived: the pins, and what was measured
    assert found.neck == Count(100, 96.0, 2.0)
    assert found.split.body == Count(204, 200.0, 2.0)
    assert found.split.sleeve == Count(66, 66.0, 2.0)


def test_a_round_adds_no_more_than_a_stitch_to_each() -> None:
    # derived: 130 is twice 65, and more than twice 64
    found = solved(yoke(fixed=Fixed(neck=65, increases=(130, 260))))
    assert (found.neck.got, found.split.yoke) == (65, 260)
    assert [(step.before, step.after) for step in found.increase_rounds] == [(65, 130), (130, 260)]
    assert "steep" in found.broken
    assert not isinstance(solve(yoke(fixed=Fixed(neck=64, increases=(130, 260)))), Solution)
    # A round that adds nothing is none.
    assert not isinstance(solve(yoke(fixed=Fixed(neck=130, increases=(130, 268)))), Solution)


def test_more_increase_rounds_than_fit_three_apart_stand_closer() -> None:
    counts = tuple(96 + 172 * at // 30 for at in range(1, 31))
    found = solved(yoke(fixed=Fixed(neck=96, increases=counts)))
    # derived: 59 rounds from the second on, shared among 30: twos and a last one
    assert [step.number for step in found.increase_rounds] == [*range(3, 60, 2), 60]
    assert [step.after for step in found.increase_rounds] == list(counts)
    assert "apart" in found.broken
    # derived: rounds 2 to 60 are 59
    for times, fits in ((59, True), (60, False)):
        counts = tuple(96 + 172 * at // times for at in range(1, times + 1))
        found_or_none = solve(yoke(fixed=Fixed(neck=96, increases=counts)))
        assert isinstance(found_or_none, Solution) is fits
    assert taper(59, 59) == tuple(range(1, 60))


def split(body: int = 200) -> Split:
    return Split(Count(body, 200.0, 2.0), Count(66, 66.0, 2.0), Count(16, 16.0, 2.0))


def test_front_and_back_are_pinned_within_what_there_is() -> None:
    whole = split()
    assert halved(whole, Fixed()) is whole
    assert halved(whole, Fixed(front=84)) is whole
    narrow = halved(whole, Fixed(back=100))
    assert narrow is not None
    assert (narrow.front, narrow.back) == (68, 100)  # derived: 168 between the underarms
    both = halved(whole, Fixed(front=90, back=78))
    assert both is not None
    assert (both.front, both.back) == (90, 78)  # derived: the pins
    # derived: 90 and 90 are 180
    assert halved(whole, Fixed(front=90, back=90)) is None
    # derived: four stitches stay
    for front, fits in ((164, True), (165, False)):
        found = halved(whole, Fixed(front=front))
        assert (found is not None) is fits
    least = halved(whole, Fixed(back=164))
    assert least is not None
    assert least.front == 4  # derived: the rest


def test_a_free_neck_gives_way_to_the_first_pinned_count() -> None:
    # derived: 150 is half again of 100, and so of no neck of 96; multiples of two
    assert solved(yoke(fixed=Fixed(increases=(150, 268)))).neck == Count(100, 96.0, 2.0)
    assert solved(yoke(fixed=Fixed(increases=(140, 268)))).neck.got == 96
    # derived: and it stays below the first count
    assert solved(yoke(fixed=Fixed(increases=(90, 130, 190, 268)))).neck.got == 88


def test_pinned_rounds_take_the_counts_of_the_line() -> None:
    found = solved(yoke(fixed=Fixed(increase_at=(10, 20, 30), neck=100)))
    assert [step.number for step in found.increase_rounds] == [10, 20, 30]
    # derived: the line is straight from 100 in round 0 to 268 in round 35, half a step below the
    # last; half-way between the rounds, at 15 and 25, it has 172 and 220. But a round adds less
    # than half, so the first comes to 148 at the most, and each may lie some stitches off
    first, second, last = (step.after for step in found.increase_rounds)
    assert abs(first - 148) <= 6
    assert abs(second - 219) <= 9
    assert last == found.split.yoke == 268
    alone = solved(yoke(fixed=Fixed(increase_at=(20,)), neck=200.0))
    assert [(step.number, step.after) for step in alone.increase_rounds] == [(20, 268)]


def test_front_and_back_that_are_pinned_ask_for_a_body() -> None:
    wanted = (200.0, 66.0, 16.0)
    # derived: 90 and 82 between two underarms of 16 are 204
    assert split_meeting(None, (None, 66, 16), wanted, 172) == ((204, 66, 16),)
    assert split_meeting(None, (204, 66, 16), wanted, 172) == ((204, 66, 16),)
    assert split_meeting(None, (200, 66, 16), wanted, 172) == ()
    # derived: 200 - 172 are underarms of 14
    assert split_meeting(None, (200, 66, None), wanted, 172) == ((200, 66, 14),)
    assert solved(yoke(fixed=Fixed(front=90, back=82))).split.body.got == 204


def test_rounds_that_just_fit_stay_three_apart() -> None:
    counts = tuple(96 + 172 * at // 20 for at in range(1, 21))
    found = solved(yoke(first_round=3, fixed=Fixed(neck=96, increases=counts)))
    # derived: twenty rounds from the third on end in the 60th, the last there is
    assert [step.number for step in found.increase_rounds] == list(range(3, 61, 3))
    assert "apart" not in found.broken


def test_rounds_that_are_pinned_may_fill_the_yoke() -> None:
    # derived: half as many again in each of four rounds are five times 100
    found = solved(yoke(neck=100.0, rounds=4, fixed=Fixed(increase_at=(1, 2, 3, 4))))
    assert [step.number for step in found.increase_rounds] == [1, 2, 3, 4]
    assert found.split.yoke == 268


def test_the_neck_nearest_to_what_was_wanted_has_the_pinned_counts() -> None:
    # derived: 97.2 lies 0.8 from 98 and 1.2 from 96; to 110 both add with one word more
    found = solved(yoke(neck=97.2, shoulder=0.0, fixed=Fixed(increases=(110, 130, 190, 268))))
    assert repeats_needed(96, 14) == repeats_needed(98, 12) == 2
    assert found.neck == Count(98, 97.2, 2.0)
