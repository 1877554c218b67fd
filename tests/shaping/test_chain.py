"""The ladder of counts, climbed by hand: which chains there are, and which is the simplest."""

from __future__ import annotations

import pytest

from tests.shaping.parts import task
from yokefellow.shaping.chain import Layer, climb, stations, through


def test_a_count_goes_through_the_bands_its_repeats_divide() -> None:
    # derived: 12 eights become 12 tens, which are 8 fifteens
    assert through(96, (task(8, grown=10), task(15))) == 120
    assert through(96, (task(8), task(15))) is None
    assert through(96, ()) == 96


def test_a_chain_begins_with_a_neck_that_the_first_band_divides() -> None:
    found = climb((96, 98, 100), [], first=(task(10),))
    # derived: 100 alone is ten tens
    assert found == {100: (0.0, 0.0, (100,))}
    grown = climb((96, 100), [Layer(150.0, (144, 150))], first=(task(8, grown=10),))
    # derived: 96 becomes 120, and 144 is [k5, inc] 24 times, 150 [k4, inc] 30 times
    assert grown == {
        144: (1.0, pytest.approx((6 / 150) ** 2), (96, 144)),
        150: (1.0, 0.0, (96, 150)),
    }


def test_the_simplest_instruction_goes_before_the_nearest_count() -> None:
    # derived: from 96 to 128 is every third, and from 100 to 128 is 25 threes and then fours
    found = climb((96, 100), [Layer(128.0, (128,))])
    assert found == {128: (1.0, 0.0, (96, 128))}
    # derived: both are simple: 100 by 25 in fours, 96 by 24 to 120; 125 is nearer to 124
    both = climb((96, 100), [Layer(124.0, (120, 125))])
    assert both[120] == (1.0, (-4 / 124) ** 2, (96, 120))
    assert both[125] == (1.0, (1 / 124) ** 2, (100, 125))


def test_at_most_half_is_added_and_a_pin_may_double() -> None:
    # derived: half of 100 more, and as many again
    assert climb((100,), [Layer(150.0, (150, 151))]).keys() == {150}
    assert climb((100,), [Layer(150.0, (200, 201), is_pinned=True)]).keys() == {200}


def test_a_round_may_rest_where_it_may() -> None:
    # derived: as many after it as before
    assert climb((100,), [Layer(100.0, (100,))]) == {}
    assert climb((100,), [Layer(100.0, (100,), may_rest=True)]) == {100: (0.0, 0.0, (100, 100))}
    assert climb((100,), [Layer(100.0, (99,), may_rest=True)]) == {}


def test_stations_say_what_each_round_leads_from_and_to() -> None:
    ladder = [Layer(120.0, (120,), (task(8, grown=10),)), Layer(200.0, (200,))]
    # derived: 15 eights become 15 tens
    assert stations((96, 120, 200), ladder) == ((96, 120), (150, 200))
    assert stations((80, 120, 200), ladder, (task(8, grown=10),)) == ((100, 120), (150, 200))


def test_a_chain_that_does_not_pass_its_bands_has_no_stations() -> None:
    with pytest.raises(ValueError, match="does not pass"):
        stations((100, 120), [Layer(120.0, (120,))], (task(8),))


def test_no_chain_is_told_that_needs_more_repeats_than_are_to_spare() -> None:
    # derived: 40 over 100 leave 20: two kinds of group, one repeat more than one
    ladder = [Layer(140.0, (140,))]
    assert climb((100,), ladder, spare=0) == {}
    assert climb((100,), ladder, spare=1) == {140: (2.0, 0.0, (100, 140))}
    # derived: from 140 to 210 is every second, which leaves the one to spare to the first
    two = [*ladder, Layer(210.0, (210,))]
    assert climb((100,), two, spare=0) == {}
    assert climb((100,), two, spare=1) == {210: (3.0, 0.0, (100, 140, 210))}
