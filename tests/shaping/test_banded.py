"""The ladder of a yoke with bands: what is worked before, between and after its increase rounds."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import task, zones
from yokefellow.shaping.banded import (
    Ladder,
    LineTask,
    Misfit,
    Narrow,
    banded_ladder,
    line_cm,
)
from yokefellow.shaping.reach import Unreached

LINE = LineTask(
    necks=(96,),
    yokes=(266, 268, 270),
    neck=96.0,
    yoke=268.0,
    shoulder=0.0,
    per_cm=2.0,
    rounds_per_cm=3.0,
    style="regular",
)


@pytest.mark.parametrize(
    ("depth_cm", "shoulder_cm", "around_cm"),
    [
        # derived: straight from 48 cm at the neck to 134 cm at 15 of 20 cm
        (0.0, 0.0, 48.0),
        (7.5, 0.0, 91.0),
        (15.0, 0.0, 134.0),
        (18.0, 0.0, 134.0),
        # derived: bent so that 110 cm are reached at 9 cm; half-way there is 79, half-way on 122
        (4.5, 110.0, 79.0),
        (9.0, 110.0, 110.0),
        (12.0, 110.0, 122.0),
        # derived: 99.6 cm are there at 9 cm anyway
        (9.0, 90.0, 99.6),
        # derived: never wider than the yoke itself
        (9.0, 150.0, 134.0),
    ],
)
def test_the_line_of_a_banded_yoke(depth_cm: float, shoulder_cm: float, around_cm: float) -> None:
    found = line_cm(
        depth_cm, neck_cm=48.0, yoke_cm=134.0, shoulder_cm=shoulder_cm, full_depth_cm=20.0
    )
    assert found == pytest.approx(around_cm)


def test_a_band_right_below_the_neck_comes_before_every_increase_round() -> None:
    band = task(8)
    made = banded_ladder(LINE, zones((band, 2)))
    assert isinstance(made, Ladder)
    assert made.first == (band,)
    assert set(made.gap_of) == {1}
    assert all(layer.then == () for layer in made.layers)
    # derived: the middle of rounds 2 to 7 is 4.5 rounds, 1.333 and a half cm deep: 48 + 86 / 10
    (wanted,) = made.wanted
    assert wanted == pytest.approx(2 * (48 + 86 * 4 / 45))


def test_two_bands_without_a_round_between_share_their_layer() -> None:
    above, below = task(8, 2), task(4, 2, name="under")
    made = banded_ladder(LINE, zones((above, 38), (below, 40)))
    assert isinstance(made, Ladder)
    assert made.first == ()
    times = made.gap_of.count(0)
    assert made.layers[times - 1].then == (above, below)
    assert set(made.gap_of) == {0, 2}
    # derived: 38 rounds down the line has 96 + 172 * 38 / 45 stitches, 241.2; of the multiples of
    # eight, 240 and 248 lie from 3 % less to 4 % more
    assert list(made.layers[times - 1].counts) == [240, 248]


def test_a_band_out_of_reach_is_returned() -> None:
    # derived: 40 eights are 320 stitches, more than 270
    pinned = banded_ladder(LINE, zones((task(8, repeats=40), 20)))
    assert isinstance(pinned, Unreached)
    # derived: no round above the band, and one below, in 59 or 60: 178 at the least become 266;
    # 184 to 264 are multiples of eight
    band = task(8, 57)
    assert banded_ladder(LINE, zones((band, 2))) == Unreached(band, (96, 96), (184, 264))


def test_a_repeat_off_the_line_is_returned_with_its_neighbours() -> None:
    band = task(100)
    found = banded_ladder(LINE, zones((band, 20)))
    # derived: 22 rounds down the line has 96 + 172 * 22 / 45 = 180.1 stitches; both one and two
    # hundreds can be reached, and both are more than 4 % off
    assert isinstance(found, Misfit)
    assert found.wanted == pytest.approx(96 + 172 * 22 / 45)
    assert (found.band, found.below, found.above, found.within) == (band, 1, 2, (1, 2))


def test_too_few_rounds_for_what_the_line_wants_are_narrow() -> None:
    # derived: from 22 to 28 rounds down the line gains 22.9 stitches, and no round lies between
    found = banded_ladder(LINE, zones((task(8), 20), (task(4, name="under"), 26)))
    assert isinstance(found, Narrow)
    assert (found.name, found.wanted, found.there) == ("under", 1, 0)
    assert found.before == pytest.approx(96 + 172 * 22 / 45)
    assert found.after == pytest.approx(96 + 172 * 28 / 45)
    # derived: half again is more than is asked of a round, so there should be two, over 4 rounds
    steep = replace(LINE, yokes=(144,), yoke=144.0)
    found = banded_ladder(steep, zones((task(8, 57), 2)))
    assert found == Narrow("", 4, 2, before=96.0, after=144.0)


def test_one_more_round_is_tried_in_every_stretch_that_has_room() -> None:
    bands = zones((task(8), 20))
    usual, more = banded_ladder(LINE, bands), banded_ladder(LINE, bands, more=1)
    assert isinstance(usual, Ladder)
    assert isinstance(more, Ladder)
    for gap in (0, 1):
        assert more.gap_of.count(gap) == usual.gap_of.count(gap) + 1
    assert banded_ladder(LINE, bands, more=0) == usual


@pytest.mark.parametrize("repeats", [None, 22])
def test_every_round_may_be_left_plain(repeats: int | None) -> None:
    made = banded_ladder(LINE, zones((task(8, repeats=repeats), 20)), more=1)
    assert isinstance(made, Ladder)
    assert all(layer.may_rest is True for layer in made.layers)


def test_a_repeat_of_one_stitch_takes_every_count_within_four_per_cent() -> None:
    made = banded_ladder(LINE, zones((task(1), 20)))
    assert isinstance(made, Ladder)
    (layer,) = (one for one in made.layers if one.then)
    # derived: 180.13 stitches are wanted, 3 % less is 174.7 and 4 % more is 187.3
    assert list(layer.counts) == list(range(175, 188))


def test_less_than_a_thousandth_needs_no_increase_round() -> None:
    # derived: 150 fours are 600 stitches, where 599.7 were wanted at the neck right above them
    near = replace(LINE, neck=599.7, necks=(600,), yoke=700.0, yokes=(700,))
    band = task(4, repeats=150)
    made = banded_ladder(near, zones((band, 2)))
    assert isinstance(made, Ladder)
    assert made.first == (band,)


def test_a_band_wants_no_less_than_comes_to_it() -> None:
    # derived: 97 at the neck are 121.25 behind a repeat that grows from eight to ten; half as many
    # stitches in a cm as the plain fabric has make 90 of the 181 that lie round the second band
    loose = task(8, grown=10, stitches_per_cm=1.0)
    loose_too = task(10, name="under", stitches_per_cm=1.0)
    made = banded_ladder(
        replace(LINE, neck=97.0, necks=(96, 98)), zones((loose, 2), (loose_too, 20))
    )
    assert isinstance(made, Ladder)
    (layer,) = (one for one in made.layers if one.then)
    assert layer.wanted == 121.25
