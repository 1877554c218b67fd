"""The rows of darts, worked stitch by stitch from the printed sheet."""

from __future__ import annotations

import pytest

from tests.knitter import knit_page
from tests.sweaters import planned, sized
from yokefellow.plan import Plan
from yokefellow.rows.model import Feature, RowKind
from yokefellow.sheet.html import render_html
from yokefellow.what_if.pieces import body_of
from yokefellow.yarn.count_stitches import parts_of

LONG_FRONT = {"front_length": "48 cm", "back_length": "43 cm"}
ROUND_BACK = {"front_length": "40 cm", "back_length": "48 cm"}


def a_sweater(body: dict[str, str], turned: str, **changes: object) -> Plan:
    sections = sized(
        "women", "L", body=body, garment__neck__short_rows=turned, stitches_per_cm=2.2, **changes
    )
    return planned(sections)


@pytest.mark.parametrize("turned", ["german", "wrapped"])
@pytest.mark.parametrize(("half", "body"), [("front", LONG_FRONT), ("back", ROUND_BACK)])
@pytest.mark.parametrize("raised", ["by size", "none"])
def test_one_half_grows_by_just_those_rows_and_the_other_by_none(
    turned: str, half: str, body: dict[str, str], raised: str
) -> None:
    plan = a_sweater(body, turned, garment__neck__back_raise=raised)
    (dart,) = plan.shape.body.darts
    assert dart.half == half
    heights = knit_page(render_html(plan)).heights["body", ""]
    front, back = plan.shape.body.front, len(heights) - plan.shape.body.front
    middles = {"front": heights[front // 2], "back": heights[front + back // 2]}
    # The first and the last column of either half, beside the markers.
    sides = {heights[at] for at in (0, front - 1, front, front + back - 1)}
    assert sides == {plan.shape.body.rounds.got}
    other = "back" if half == "front" else "front"
    assert middles[half] - plan.shape.body.rounds.got == dart.rows
    assert middles[other] == plan.shape.body.rounds.got


@pytest.mark.parametrize("turned", ["german", "wrapped"])
def test_both_sides_of_a_dart_are_alike(turned: str) -> None:
    plan = a_sweater(LONG_FRONT, turned)
    heights = knit_page(render_html(plan)).heights["body", ""]
    front = heights[: plan.shape.body.front]
    slips = {"german": 1, "wrapped": 0}[turned]  # derived: a doubled stitch is slipped once
    assert all(
        abs(left - right) <= slips for left, right in zip(front, reversed(front), strict=True)
    )


def test_the_next_round_closes_the_gaps() -> None:
    plan = a_sweater(LONG_FRONT, "german")
    (dart,) = plan.shape.body.darts
    body = [row.row.feature for row in plan.rows if row.section.key == "body"]
    last = plan.shape.body.row(dart.number)
    assert body[last - dart.rows - 1 : last] == [Feature.SHORT_ROW] * (dart.rows + 1)
    assert body[last] is Feature.CLOSE_GAPS
    assert body.count(Feature.SHORT_ROW) == dart.rows + 1


def test_rows_and_rounds_are_told_apart() -> None:
    body = a_sweater(LONG_FRONT, "german").shape.body
    (dart,) = body.darts
    for number in range(1, body.rounds.got + 1):
        assert body.round_of(body.row(number)) == number
    within = body.row(dart.number) - 1
    assert body.round_of(within) == dart.number - 1


def test_a_dart_lies_an_inch_below_the_armhole_and_ends_at_the_fullest_part() -> None:
    low = {**LONG_FRONT, "bust_height": "32 cm", "armhole_depth": "19 cm"}
    (dart,) = a_sweater(low, "german").shape.body.darts
    # derived: 13 cm below the underarm less 5 cm of dart is 8 cm, at 2.97 rounds to the cm 24
    assert dart.number == 25
    (dart,) = a_sweater(LONG_FRONT, "german").shape.body.darts
    # common practice, no source: an inch below the armhole at the earliest: 2.5 x 2.97 = 7.4
    assert dart.number == 8


def test_the_sides_are_not_shaped_in_the_rows_of_a_dart() -> None:
    plan = a_sweater(LONG_FRONT, "german", garment__body__shape="waist")
    numbers = {change.number for change in plan.shape.body.changes}
    (dart,) = plan.shape.body.darts
    assert not numbers & {dart.number, dart.number + 1}


@pytest.mark.parametrize("turned", ["german", "wrapped"])
@pytest.mark.parametrize("body", [LONG_FRONT, ROUND_BACK])
def test_a_supposed_length_costs_what_its_rows_cost(turned: str, body: dict[str, str]) -> None:
    plan = a_sweater(body, turned, garment__body__shape="waist")
    supposed = body_of(plan, plan.project.garment.body.length)
    (knitted,) = [part for part in parts_of(plan.schedule) if part.key == "body"]
    assert supposed.parts[0].counts == knitted.counts


@pytest.mark.parametrize("at", ["1 cm", "3 cm", "6 cm", "12 cm"])
@pytest.mark.parametrize("shape", ["straight", "waist"])
def test_a_band_and_the_shaping_it_moves_leave_a_dart_alone(at: str, shape: str) -> None:
    ball = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 20}
    plan = a_sweater(
        {**LONG_FRONT, "chest": "112 cm", "high_chest": "97 cm"},
        "german",
        yarn={"MC": ball, "CC1": ball},
        garment__body__shape=shape,
        garment__body__bands=[{"chart": "diamonds", "at": at}],
    )
    body = plan.shape.body
    (dart,) = body.darts
    closed = {dart.number, dart.number + 1}
    assert not closed & {change.number for change in body.changes}
    (band,) = body.bands
    assert not closed & set(range(band.shape.first, band.shape.last + 1))
    short = [row for row in plan.rows if row.section.key == "body" and row.row.kind in SHORT]
    assert len(short) == dart.rows
    knitted = knit_page(render_html(plan))
    # derived: from marker to marker, as the rows above it have left the front
    assert max(knitted.heights["body", ""]) == body.rounds.got + dart.rows


SHORT = (RowKind.RIGHT_SIDE, RowKind.WRONG_SIDE)
