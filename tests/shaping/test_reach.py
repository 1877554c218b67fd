"""Which counts a band can have at all: half again in a round, rounds three apart."""

from __future__ import annotations

import pytest

from tests.shaping.parts import task, zones
from yokefellow.shaping.reach import Unreached, reach


def test_a_band_can_have_what_both_sides_leave() -> None:
    # derived: rounds 2 to 4 hold one increase round, 11 to 12 another: from 100 one round makes
    # 150 at the most, and 80 are the fewest that one more brings to 120
    assert reach((100,), (120, 200), zones((task(8), 5), rounds=12)) == ((13, 18),)
    # derived: of a band that is pinned nothing else
    assert reach((100,), (120, 200), zones((task(8, repeats=15), 5), rounds=12)) == ((15, 15),)


def test_a_band_at_the_neck_has_the_necks_count() -> None:
    # derived: no round above it; 96 is 12 eights
    assert reach((96, 100), (120, 150), zones((task(8), 2), rounds=12)) == ((12, 12),)


def test_a_growing_chart_carries_its_count_along() -> None:
    # derived: 12 eights become 12 tens, which a round brings to 180; 100 are 12 eights and a half
    growing = zones((task(8, grown=10), 5), rounds=13)
    assert reach((96,), (120, 180), growing) == ((12, 18),)
    # derived: 300 need 200 before the last round, 20 tens, which are 160 of eight; above there
    # are 144 at the most, and 30 tens are 240 of eight
    (band,) = (placed.task for placed in growing.bands)
    assert reach((96,), (300,), growing) == Unreached(band, (96, 144), (160, 240))


def test_a_pin_is_blamed_before_what_stands_beside_it() -> None:
    pinned = task(8, name="pinned", repeats=40)
    free = task(50, name="free")
    found = reach((96,), (200,), zones((free, 5), (pinned, 14), rounds=24))
    assert isinstance(found, Unreached)
    assert found.band is pinned
    # derived: no thousand lies between 96 and 144, nor 320 there
    never = task(1000, name="never")
    for bands in ((never, pinned), (pinned, never)):
        found = reach((96,), (200,), zones((bands[0], 5), (bands[1], 14), rounds=24))
        assert isinstance(found, Unreached)
        assert found.band is pinned


def test_what_a_band_can_have_bounds_the_next_one() -> None:
    def between(yokes: tuple[int, int], above: int | None, below: int | None) -> object:
        one, two = task(8, repeats=above), task(8, repeats=below)
        return reach((96,), yokes, zones((one, 5), (two, 14), rounds=24))

    # derived: one round before each band: 96 to 144, and 144 to 216; from 96
    # to 400 after them bounds neither
    assert between((96, 400), None, None) == ((12, 18), (12, 27))
    # derived: a pin leaves the band below it what a round makes of it: 96 to 144, 144 to 216
    assert between((96, 400), 12, None) == ((12, 12), (12, 18))
    assert between((96, 400), 18, None) == ((18, 18), (18, 27))
    # derived: and the band above it what a round makes it of: 72 to 96, 101 to 152
    assert between((96, 400), None, 12) == ((12, 12), (12, 12))
    assert between((96, 400), None, 19) == ((13, 18), (19, 19))
    # derived: 400 are at the least 267 before the last round, 178 before the last but one: 184 in
    # eights, which are 123 and so 128 in eights before the first of the three
    assert between((400, 400), None, None) == ((16, 18), (23, 27))


def test_a_band_wider_than_the_yoke_is_told_with_one_repeat() -> None:
    # derived: a round after the band makes 150 of 100; one of its hundreds is all that 150 hold
    wide = task(100)
    found = reach((200,), (150,), zones((wide, 5), rounds=12))
    assert found == Unreached(wide, (200, 300), (100, 100))


def test_a_yoke_may_begin_too_wide_or_end_out_of_reach() -> None:
    # derived: 100 at the neck are more than 60; one round in three makes 150 at the most
    found = reach((100, 104), (40, 60), zones(rounds=4))
    assert found == Unreached(None, (100, 156), (40, 60))
    assert reach((100, 104), (157, 190), zones(rounds=4)) == Unreached(None, (100, 156), (157, 190))
    assert reach((100, 104), (156, 190), zones(rounds=4)) == ()
    assert reach((100, 104), (90, 100), zones(rounds=4)) == ()
    # No repeats are told of a yoke's own end.
    assert Unreached(None, (100, 156), (40, 60)).repeats == (1, 0)


@pytest.mark.parametrize(
    ("above", "below", "repeats"),
    [
        # derived: whole eights within both
        ((96, 240), (60, 200), (12, 25)),
        ((97, 240), (60, 199), (13, 24)),
        ((60, 200), (96, 240), (12, 25)),
        # derived: none from 97 to 103
        ((97, 103), (60, 200), (13, 12)),
    ],
)
def test_repeats_are_whole(
    above: tuple[int, int], below: tuple[int, int], repeats: tuple[int, int]
) -> None:
    assert Unreached(task(8), above, below).repeats == repeats
