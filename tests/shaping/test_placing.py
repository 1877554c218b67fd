"""Where the bands of a yoke are put, counted round by round, and which has no room."""

from __future__ import annotations

from dataclasses import replace

from tests.shaping.parts import task
from yokefellow.shaping.placing import Crowded, place_bands
from yokefellow.shaping.zones import BandTask, Zones


def places(*bands: BandTask, depth_cm: float = 20.0) -> tuple[Zones, ...] | Crowded:
    """Put bands into a yoke of three rounds in a cm, the second of which may increase."""
    return place_bands(bands, depth_cm=depth_cm, rounds_per_cm=3.0, first_round=2, least_rounds=8)


def firsts(found: tuple[Zones, ...] | Crowded) -> list[tuple[int, ...]]:
    """Give the first round of every band, try by try."""
    assert not isinstance(found, Crowded)
    return [tuple(band.first for band in zones.bands) for zones in found]


def test_a_gap_of_three_rounds_goes_before_a_smaller_one() -> None:
    # derived: 4 cm are 12 rounds, six of them the band's; by 0.76, 0.70, 0.82, 0.64, 0.88, 0.58,
    # 0.94 and 1 of 12 it has ended with round 9, 8, 9, 7, 10, 6, 11 or 12, and so begins in 4,
    # 3, 4, 2, 5, 1, 6 or 7: never in 1; from 5 on there are three plain rounds, from 2 on
    assert firsts(places(task(), depth_cm=4.0)) == [(5,), (6,), (7,), (4,), (3,), (2,)]


def test_the_longer_first_stretch_is_the_one_below_the_neck() -> None:
    # derived: one at 4 cm begins in round 13 and has ended with round 18; by the shares of 60 the
    # other has ended with round 45, 42, 49, 38, 52, 34, 56 or 60
    found = places(task(at_cm=4.0), task())
    assert firsts(found) == [(13, last - 5) for last in (45, 42, 49, 38, 52, 34, 56, 60)]
    # derived: from round 19 to 42 there are 24, of which 18 are plain: half of them on either side
    assert firsts(places(task(at_cm=4.0), task(), task(at_cm=14.0))) == [(13, 28, 43)]


def test_a_band_without_a_plain_round_above_it_may_follow_another() -> None:
    above, below = task(at_cm=1.0), task(at_cm=3.0)
    # derived: 1 cm is three rounds, and 2 cm of band are six
    assert firsts(places(above, below)) == [(4, 10)]
    assert firsts(places(replace(above, needs_plain=True), below)) == [(4, 10)]
    # derived: the band below is to begin where the one above ends, and needs a round between
    told = places(above, replace(below, needs_plain=True))
    assert isinstance(told, Crowded)
    assert (told.wanted, told.there, told.lacks_plain) == (0, 0, True)
    # derived: a third of a cm lower is a round lower
    apart = replace(below, needs_plain=True, at_cm=10 / 3)
    assert firsts(places(above, apart)) == [(4, 11)]


def test_a_band_that_begins_inside_another_is_told() -> None:
    # derived: the first begins in round 2 and has ended with round 7, where the second begins
    found = places(task(name="high", at_cm=1 / 3), task(name="low", at_cm=1.0))
    assert found == Crowded("low", 0, -1, deep_cm=4.0, yoke_cm=20.0, at_cm=1.0)


def test_bands_that_fill_the_rounds_above_another_are_not_blamed_for_it() -> None:
    # derived: the one that is spread takes rounds 2 to 7, all that there are above round 8
    spread, high = task(name="spread"), task(name="high", at_cm=7 / 3)
    assert firsts(places(spread, high)) == [(2, 8)]
    # derived: that one ends with round 13, where the third begins
    found = places(spread, high, task(name="low", at_cm=4.0))
    assert found == Crowded("low", 0, -1, deep_cm=6.0, yoke_cm=20.0, at_cm=4.0)


def test_a_band_may_end_with_the_last_round_and_no_later() -> None:
    # derived: 18 cm are 54 rounds, and rounds 55 to 60 the last
    assert firsts(places(task(at_cm=18.0))) == [(55,)]
    # derived: a round lower, five of its six are left
    low = 55 / 3
    over = Crowded("dots", 6, 5, 2.0, 20.0, at_cm=low, is_over_end=True)
    assert places(task(at_cm=low)) == over


def test_after_a_band_that_ends_with_the_last_round_there_is_room_for_none() -> None:
    # derived: six rounds to be spread, and none of the 60 left; four cm of bands
    found = places(task(name="last", at_cm=18.0), task(name="more"))
    assert found == Crowded("more", 6, 0, deep_cm=4.0, yoke_cm=20.0)


def test_a_band_deeper_than_the_yoke_is_told_with_its_rounds() -> None:
    # derived: 2 cm are 6 rounds, and a yoke has no fewer than the band's nine; the first of them
    # may not be taken
    found = places(task(rounds=9), depth_cm=2.0)
    assert found == Crowded("dots", 9, 8, deep_cm=3.0, yoke_cm=2.0)
