"""The yoke from above: each ring's dashes, laid along it, are the stitches of its round."""

from __future__ import annotations

import math
import re
from itertools import groupby

import pytest

from tests.sheet.plans import banded, meadow, tall
from yokefellow.charts.chart import picture
from yokefellow.plan import Plan
from yokefellow.sheet.colourwork import Above, ChartView, Ring
from yokefellow.sheet.from_above import HALF, OUTER, from_above
from yokefellow.sheet.html import render_html
from yokefellow.sheet.tints import colours
from yokefellow.sheet.view import view

MOST_BYTES = 60_000
"""Our own limit for the drawing."""


@pytest.fixture(params=["banded", "meadow", "tall"])
def plan(request: pytest.FixtureRequest) -> Plan:
    return {"banded": banded, "meadow": meadow, "tall": tall}[request.param]()


def drawn(plan: Plan) -> Above:
    above = from_above(plan)
    assert above is not None
    return above


def radius(ring: Ring) -> float:
    match = re.match(rf"M{HALF} ([0-9.]+)c", ring.d)
    assert match
    return HALF - float(match[1])


def laid(rings: list[Ring], stitches: int) -> list[str]:
    """Walk along a ring from the centre back, and say what is seen at each stitch's middle."""
    around = 2 * math.pi * radius(rings[0])
    seen = []
    for stitch in range(stitches):
        at = around * (stitch + 0.5) / stitches
        top = [ring.letter for ring in rings if _covers(ring, at)]
        seen.append(top[-1])
    return seen


def _covers(ring: Ring, at: float) -> bool:
    if not ring.dashes:
        return True
    lengths = [float(length) for length in ring.dashes.split()]
    # published: W3C, Scalable Vector Graphics 2, section 13.5.6, stroke-dasharray and -dashoffset
    at = (at + float(ring.offset or 0)) % sum(lengths)
    for place, length in enumerate(lengths):
        if at < length:
            return place % 2 == 0
        at -= length
    return False


def rings_of(above: Above) -> list[list[Ring]]:
    """The rings by their place: those of one row lie on one another."""
    return [list(same) for _, same in groupby(above.rings, key=lambda ring: ring.d)]


def rows_of(plan: Plan) -> list[tuple[ChartView, tuple[str, ...]]]:
    """The rows of every band, in turn; those that look alike and lie together once."""
    letters = {code: colour.letter for code, colour in colours(plan).items()}
    found = []
    for view_of, chart in zip(view(plan).charts, plan.charts, strict=True):
        purls = [tuple(cell.work == "purl" for cell in row.cells) for row in chart.rows]
        shown = [
            tuple("purl" if purl else letters[code] for code, purl in zip(row, felt, strict=True))
            for row, felt in zip(picture(chart), purls, strict=True)
        ]
        found += [(view_of, row) for row, _ in groupby(shown)]
    return found


def test_every_repeat_is_drawn_stitch_by_stitch(plan: Plan) -> None:
    for rings, (chart, row) in zip(rings_of(drawn(plan)), rows_of(plan), strict=True):
        assert laid(rings, chart.repeats * len(row)) == list(row) * chart.repeats


def test_the_round_goes_against_the_clock_from_the_centre_back(plan: Plan) -> None:
    for ring in drawn(plan).rings:
        # derived: from the top of the picture, the first curve ends at the left, a tenth of a
        # unit of the drawing being less than a line's width
        first = re.match(r"M(\S+) (\S+)c(\S+) (\S+) (\S+) (\S+) (\S+) (\S+?)c", ring.d)
        assert first
        assert float(first[7]) == pytest.approx(-radius(ring), abs=0.1)
        assert float(first[8]) == pytest.approx(radius(ring), abs=0.1)


def test_neck_and_underarm_are_to_scale(plan: Plan) -> None:
    neck, underarm = (
        HALF - float(re.match(r"M[0-9]+ ([0-9.]+)", edge)[1])  # type: ignore[index]
        for edge in drawn(plan).edges
    )
    # derived: circumferences are as their stitches; drawn to a thousandth
    wanted = plan.shape.neck.stitches.got / plan.shape.split.yoke
    assert underarm == OUTER
    assert neck / underarm == pytest.approx(wanted, abs=0.001)


def test_rings_lie_in_order_between_neck_and_underarm(plan: Plan) -> None:
    places = [radius(rings[0]) for rings in rings_of(drawn(plan))]
    assert places == sorted(places)
    assert max(places) < OUTER


def test_the_list_counts_the_repeats(plan: Plan) -> None:
    html = render_html(plan)
    for band, shape in zip(drawn(plan).bands, plan.shape.yoke.bands, strict=True):
        assert band.counted.startswith(f"{shape.repeats} repeats of ")
        assert f"<strong>{band.name}</strong>: {band.counted}" in html
    marks = [mark.text for mark in drawn(plan).marks]
    assert marks == [band.number for band in drawn(plan).bands]


def test_it_is_light(plan: Plan) -> None:
    html = render_html(plan)
    start = html.index('<figure class="above">')
    # our own limit, derived from nothing but what a page should weigh
    assert html.index("</figure>", start) - start <= MOST_BYTES
