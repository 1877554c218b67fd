"""From readings to gauge: weights, spread, and what stands in for what."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sweaters import edited, project, sized, swatch
from yokefellow.gauge import gauge, gauges, mean_per_cm, spread
from yokefellow.project_file.fields import Reading
from yokefellow.project_file.models import Swatch

readings = st.lists(
    st.builds(Reading, count=st.floats(5, 80), over_cm=st.floats(5, 30)), min_size=1, max_size=8
)


def test_half_a_stitch_in_ten_cm_is_about_two_cm_of_chest() -> None:
    # derived: half a stitch of 26 is 1.92 cm in 100
    uncertain = spread((Reading(25.5, 10), Reading(26.5, 10)))
    assert 100 * uncertain == pytest.approx(1.92, abs=0.01)


def test_a_reading_over_more_fabric_weighs_more() -> None:
    # derived: 22 in 10 cm and 66 in 20 cm are 88 in 30 cm
    assert mean_per_cm((Reading(22, 10), Reading(66, 20))) == pytest.approx(88 / 30)


@given(readings)
def test_the_mean_lies_among_the_readings(taken: list[Reading]) -> None:
    each = [reading.count / reading.over_cm for reading in taken]
    assert min(each) - 1e-9 <= mean_per_cm(taken) <= max(each) + 1e-9


@given(readings)
def test_the_spread_is_at_least_half_the_range_and_never_nothing(taken: list[Reading]) -> None:
    each = [reading.count / reading.over_cm for reading in taken]
    assert 0 < spread(taken) < inf
    # derived: half the range, relative to the mean
    assert spread(taken) >= (max(each) - min(each)) / 2 / mean_per_cm(taken) - 1e-9


def test_alike_readings_are_the_surer_the_more_there_are() -> None:
    one, four = (spread((Reading(22, 10),) * times) for times in (1, 4))
    assert four == pytest.approx(one / 2)  # derived: the error of a mean falls with the root


def test_worn_is_washed_and_on_the_needles_is_unwashed() -> None:
    both = edited(
        sized(), swatch__plain={"washed": swatch(2.0), "unwashed": swatch(2.2), "worked": "flat"}
    )
    plain = gauges(project(both)).plain
    # derived: as written
    assert plain.stitches_per_cm == pytest.approx(2.0)
    assert plain.unwashed_stitches_per_cm == pytest.approx(2.2)
    assert plain.is_washed
    assert not plain.in_the_round
    assert plain.readings == 2


@pytest.mark.parametrize("state", ["washed", "unwashed"])
def test_one_state_stands_in_for_the_other(state: str) -> None:
    only = gauges(project(edited(sized(), swatch__plain={state: swatch(2.5)}))).plain
    assert only.stitches_per_cm == only.unwashed_stitches_per_cm == pytest.approx(2.5)  # derived
    assert only.rounds_per_cm == only.unwashed_rounds_per_cm
    assert only.is_washed == (state == "washed")
    assert only.in_the_round


def test_without_a_swatch_of_the_rib_the_plain_one_stands_in() -> None:
    assumed = gauges(project(sized()))
    assert assumed.rib_is_assumed
    assert assumed.of("rib") == assumed.of("plain")
    own = gauges(project(edited(sized(), swatch__rib={"washed": swatch(3.0)})))
    assert not own.rib_is_assumed
    assert own.of("rib").stitches_per_cm == pytest.approx(3.0)  # derived: as written
    assert own.of("plain") == assumed.plain


def test_a_swatch_without_readings_has_no_gauge() -> None:
    with pytest.raises(ValueError, match="without readings"):
        gauge(Swatch())
