"""Rounds and depths of a yoke with bands, and which charts need a plain round above them."""

from __future__ import annotations

import pytest

from tests.shaping.parts import gauge, task, zones
from yokefellow.charts.chart import Cell, Chart, ChartKind, ChartRow, Work
from yokefellow.gauge import Gauges
from yokefellow.shaping.bands import Zones, band_task

MARKS = {"k": Work.KNIT, "s": Work.SLIP, "m": Work.MAKE, "p": Work.PURL}


def needs_plain(*rows: str) -> bool:
    """Whether a chart of these rows slips stitches of the round below it."""
    drawn = tuple(ChartRow(tuple(Cell("MC", MARKS[mark]) for mark in row), "MC") for row in rows)
    asked = Chart("drawn", ChartKind.SLIP, drawn)
    one = gauge()
    fabrics = Gauges(one, one, {asked.kind: one}, frozenset(), one)
    return band_task(asked, fabrics, at="spread", repeats=None).needs_plain


@pytest.mark.parametrize(
    ("rows", "needs"),
    [
        (("ks",), True),
        (("ss",), True),
        (("kk", "ss"), False),
        (("kp", "sk", "ss"), False),  # what was worked once stays worked
        (("kk", "ks", "sk"), False),
        (("kkm", "kks"), False),  # what was made lies in the row below
        (("kmk", "sss", "kkk"), False),
        (("kmk", "kss", "sks"), False),
        (("smk", "kkk"), True),
    ],
)
def test_a_stitch_slipped_before_it_was_worked_is_the_round_belows(
    rows: tuple[str, ...], needs: bool
) -> None:
    assert needs_plain(*rows) is needs


def test_the_round_nearest_to_a_depth_and_the_lower_of_two() -> None:
    plain = Zones(20, (), 2.0, 2)
    # derived: half a centimetre a round; a quarter lies between none and the first
    depths = {0.0: 0, 0.1: 0, 0.25: 1, 0.3: 1, 0.75: 2, 9.8: 20, 10.0: 20, 12.0: 20}
    assert {depth: plain.round_at(depth) for depth in depths} == depths


def test_a_band_has_its_own_gauge_from_its_first_round_to_its_last() -> None:
    found = zones((task(8, 3, stitches_per_cm=2.5), 10))
    # derived: rounds 10 to 12
    assert [found.stitches_per_cm(number, 2.0) for number in (9, 10, 12, 13)] == [
        2.0,
        2.5,
        2.5,
        2.0,
    ]
