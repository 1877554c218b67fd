"""A yoke with bands, its counts chosen together with theirs."""

from __future__ import annotations

from tests.shaping.parts import task, yoke, zones
from yokefellow.shaping.circular import solve
from yokefellow.shaping.solving import faults
from yokefellow.shaping.task import Solution, YokeTask


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
