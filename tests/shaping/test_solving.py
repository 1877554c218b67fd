"""A yoke with bands, its counts chosen together with theirs."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import task, yoke, zones
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.banded import Ladder
from yokefellow.shaping.chain import Layer
from yokefellow.shaping.circular import solve
from yokefellow.shaping.solving import built, faults
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.yoke_shapes import IncreaseRound
from yokefellow.shaping.zones import Zones


def solved(asked: YokeTask) -> Solution:
    found = solve(asked)
    assert isinstance(found, Solution)
    return found


def test_a_growing_band_at_the_end_of_the_yoke_leaves_an_even_count() -> None:
    asked = yoke(places=(zones((task(4, grown=5), 55)),))
    found = solved(asked)
    (band,) = found.bands
    # derived: fives of 254 to 282, of which a body and two sleeves that are even take the even
    assert found.split.yoke in (260, 270, 280)
    assert band.repeats * 5 == found.split.yoke == band.counts[-1]
    assert band.start.got == band.repeats * 4


def test_of_places_as_good_the_first_is_taken() -> None:
    higher, lower = zones((task(8), 20)), zones((task(8), 24))
    # derived: nothing covers 134 cm of shoulders at 27 of 60 rounds, for the line is straight
    alone = [solved(yoke(shoulder=268.0, places=(place,))) for place in (higher, lower)]
    assert [faults(one)[0] for one in alone] == [1, 1]
    best = min(alone, key=faults)
    for places in ((higher, lower), (lower, higher)):
        both = solved(yoke(shoulder=268.0, places=places))
        assert faults(both) == faults(best)
    assert solved(yoke(shoulder=268.0, places=(higher, higher))) == alone[0]


WIDE_SHOULDERS = yoke(
    neck=101.0,
    neck_multiple=4,
    body=149.1,
    sleeve=44.1,
    underarm=4.9,
    shoulder=152.4,
    rounds=32,
    style="few",
)
OFF_THE_LINE = yoke(
    neck=100.9, body=156.0, sleeve=53.2, underarm=8.0, shoulder=103.5, rounds=42, style="gentle"
)


@pytest.mark.parametrize(
    ("asked", "faulty", "kept"),
    [
        # Below the first place the shoulders are not covered.
        (
            WIDE_SHOULDERS,
            zones((task(4, 8, grown=6), 14), rounds=32),
            zones((task(4, 8, grown=6), 2), rounds=32),
        ),
        # At the first place the band lies off the line.
        (
            OFF_THE_LINE,
            zones((task(4, 8, grown=5), 28), rounds=42),
            zones((task(4, 8, grown=5), 14), rounds=42),
        ),
    ],
)
def test_a_later_place_without_a_fault_is_taken(
    asked: YokeTask, faulty: Zones, kept: Zones
) -> None:
    alone = solved(replace(asked, places=(kept,)))
    assert sum(faults(solved(replace(asked, places=(faulty,))))) == 1
    assert faults(alone) == (0, 0)
    assert solved(replace(asked, places=(faulty, kept))) == alone


def test_a_band_right_below_the_neck_grows_before_the_first_increase() -> None:
    found = solved(
        yoke(
            neck=81.0,
            neck_multiple=4,
            body=145.4,
            sleeve=53.3,
            underarm=5.1,
            shoulder=124.2,
            rounds=29,
            style="few",
            places=(zones((task(10, 12, grown=11), 2), rounds=29),),
        )
    )
    (band,) = found.bands
    # derived: 80 are eight tens, which become eight elevens, and half again is 132
    assert (found.neck.got, band.start.got) == (80, 80)
    first = found.increase_rounds[0]
    assert (first.before, first.after) == (88, 132)


def test_a_chart_may_grow_as_far_as_the_yoke_does() -> None:
    found = solved(
        yoke(
            neck=100.7,
            body=143.1,
            sleeve=42.1,
            underarm=10.7,
            shoulder=202.8,
            rounds=21,
            style="gentle",
            places=(zones((task(1, 5, grown=2), 3), rounds=21),),
        )
    )
    # derived: a hundred ones become a hundred twos: 144, 44 and 8 are (144 - 16) + 2 (44 - 8)
    assert (found.neck.got, found.increase_rounds, found.split.yoke) == (100, (), 200)
    assert found.bands[0].counts == (100, 100, 100, 100, 200)


def test_a_band_has_the_count_of_the_round_above_it() -> None:
    found = solved(
        yoke(
            neck=80.5,
            neck_multiple=4,
            body=138.2,
            body_multiple=4,
            sleeve=39.0,
            underarm=8.9,
            shoulder=133.8,
            rounds=27,
            style="gentle",
            places=(zones((task(8, 1, stitches_per_cm=2.2), 23), rounds=27),),
        )
    )
    (band,) = found.bands
    # derived: a band of one round, and an increase round right below it
    above, below = found.increase_rounds[-2:]
    assert above.number < band.first == below.number - 1
    assert band.start.got == above.after < below.after


def test_one_round_more_is_tried_where_the_usual_number_reaches_no_count() -> None:
    found = solved(
        yoke(
            neck=72.9,
            body=100.9,
            body_multiple=4,
            sleeve=35.9,
            underarm=6.7,
            shoulder=145.5,
            rounds=48,
            style="few",
            places=(zones((task(8, 4, grown=10), 2), (task(2, 1, name="under"), 20), rounds=48),),
        )
    )
    # derived: 72 become 90, and one round makes 135 of those at the most; 19.5 rounds down the line
    # has 72.9 + 72.6 * 19.5 / 21.6 = 138.4 stitches, 3 % less is 134.3: 136 is the least even count
    under = found.bands[1]
    assert under.start.wanted == pytest.approx(72.9 + 72.6 * 19.5 / 21.6)
    assert under.start.got >= 136
    assert [step.number < under.first for step in found.increase_rounds].count(True) == 2


def test_of_bodies_as_near_the_hems_own_is_taken() -> None:
    found = solved(
        yoke(
            neck=72.0,
            body=103.0,
            body_multiple=4,
            sleeve=33.9,
            underarm=9.9,
            shoulder=161.6,
            rounds=33,
            style="gentle",
            places=(zones((task(2, 10, stitches_per_cm=2.2), 23), rounds=33),),
        )
    )
    # derived: 102 and 104 are as near to 103, and 104 are fours
    assert found.split.body.got == 104


def test_an_adjusting_round_weighs_as_much_as_a_second_repeat() -> None:
    found = solved(
        yoke(
            neck=72.5,
            body=119.2,
            body_multiple=4,
            sleeve=33.9,
            underarm=4.6,
            shoulder=98.4,
            rounds=20,
            style="gentle",
            places=(zones((task(16, 8, stitches_per_cm=2.2), 10), rounds=20),),
        )
    )
    # derived: from 160 to 170 is every sixteenth, and its body of 118 has no fours; to 172, whose
    # body of 120 has, takes two repeats; 168.6 are wanted
    assert (found.bands[0].start.got, found.split.yoke, found.split.body.got) == (160, 170, 118)


def test_fewer_rounds_are_no_simpler_than_more_that_are_exact() -> None:
    found = solved(
        yoke(
            neck=61.0,
            neck_multiple=4,
            body=101.0,
            sleeve=31.8,
            underarm=5.4,
            shoulder=61.8,
            rounds=54,
            style="few",
            places=(zones((task(5, 12, grown=7, stitches_per_cm=2.2), 20), rounds=54),),
        )
    )
    # derived: the band brings 100 to 140, which are a yoke already; 2 more divide it, and 141.8
    # are wanted
    assert found.bands[0].counts[-1] == 140
    assert found.split.yoke == 142


def test_shoulders_are_covered_by_what_is_there_when_no_round_has_come() -> None:
    asked = yoke(fixed=Fixed(increase_at=(40,)))
    bare = zones()
    ladder = Ladder((), (Layer(268.0, (268,)),), (0,), ())
    _, split = splits_for(asked)[268]
    found = built(asked, bare, ladder, (1.0, 0.0, (200, 268)), split)
    # derived: 200 stitches lie round the shoulders, which 220 cover, at 27 of 60 rounds
    assert found.increase_rounds == (IncreaseRound(40, 200, 268),)
    assert found.broken == ("shoulder",)
