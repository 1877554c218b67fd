"""Where a yoke reaches its full count: with its last increase round, or a chart's last growth."""

from __future__ import annotations

from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import BandShape, IncreaseRound, YokeShape
from yokefellow.shaping.short_rows import ShortRows


def band(*counts: int) -> BandShape:
    return BandShape("leaves", 10, 10, Count(100, 100.0, 2.0), counts)


def yoke(*bands: BandShape) -> YokeShape:
    return YokeShape(
        rounds=Count(30, 30.0, 3.0),
        increase_rounds=(IncreaseRound(5, 80, 100),),
        short_rows=ShortRows((), 0.0, 3.0),
        shoulder_round=15,
        shoulder_wanted=100.0,
        start=80,
        bands=bands,
    )


def test_a_band_grows_last_in_the_last_round_that_adds_stitches() -> None:
    # derived: rounds 10, 11, 12 and 13; the third is the last that has more than the one before
    assert band(100, 110, 120, 120).last_growth == 12
    assert band(110, 110).last_growth == 10  # derived: more than the 100 it begins with
    assert band(100, 100).last_growth == 0
    assert band(100, 90).last_growth == 0


def test_a_yoke_is_full_with_its_own_last_increase_or_with_a_chart_s() -> None:
    assert yoke().last_increase == 5
    assert yoke(band(100, 100)).last_increase == 5  # derived: this band adds nothing
    assert yoke(band(100, 110)).last_increase == 11
