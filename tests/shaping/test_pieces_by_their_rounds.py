"""What the parts of a body and of a round yoke come to, each by itself and by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.sweaters import planned, sized
from yokefellow.fit import BodyFit
from yokefellow.gauge import Gauges
from yokefellow.plan import Plan
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.pieces.below import body_below, sleeve_below
from yokefellow.shaping.pieces.body import _darts, _growing, _stretches, body_shape
from yokefellow.shaping.pieces.taper import taper


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(sized())


@pytest.fixture(scope="module")
def gauges(plan: Plan) -> Gauges:
    """Two stitches and three rounds to the cm."""
    plain = replace(plan.gauges.plain, stitches_per_cm=2.0, rounds_per_cm=3.0)
    return replace(plan.gauges, plain=plain)


def fitted(plan: Plan, *, bust: dict[str, float] | None = None, **changes: object) -> BodyFit:
    fit = plan.finished.body
    return replace(fit, bust=replace(fit.bust, **(bust or {})), **changes)  # type: ignore[arg-type]


def test_a_piece_has_the_rounds_that_are_pinned_whatever_its_length(plan: Plan) -> None:
    pins = Fixed(body_rounds=37, sleeve_rounds=23)
    project = plan.project.model_copy(update={"fixed": pins})
    finished, split = plan.finished, plan.shape.split
    body = body_below(project, plan.gauges, split, finished.body, is_pinned=True)
    sleeve = sleeve_below(project, plan.gauges, split, finished.sleeve, is_pinned=True)
    assert (body.rounds.got, sleeve.rounds.got) == (37, 23)  # derived: as they are pinned


def test_a_front_grows_in_every_second_round_where_it_has_no_more(
    plan: Plan, gauges: Gauges
) -> None:
    bust = {"grows_cm": 4.0, "at_cm": 1.0, "front_cm": 0.0}
    grown = _growing(80, fitted(plan, bust=bust), 60, gauges)
    # derived: 4 cm are eight stitches, four rounds two apart, from the third to the ninth
    assert [(change.number, change.front) for change in grown] == [(3, 2), (5, 2), (7, 2), (9, 2)]


def test_a_front_with_a_dart_has_grown_where_the_dart_begins(plan: Plan, gauges: Gauges) -> None:
    bust = {"grows_cm": 2.0, "at_cm": 10.0, "front_cm": 3.0}
    grown = _growing(80, fitted(plan, bust=bust), 60, gauges)
    assert grown[-1].number == 21  # derived: 10 cm less 3 cm, at three rounds a cm


def test_a_dart_comes_in_the_round_after_the_last_that_grows(plan: Plan, gauges: Gauges) -> None:
    bust = {"front_cm": 3.0, "back_cm": 0.0, "at_cm": 4.0, "points_cm": 10.0}
    (dart,) = _darts((90, 90), fitted(plan, bust=bust), 90, gauges, after=40)
    assert dart.number == 41  # derived: as asked


def test_a_waist_below_the_body_ends_before_its_last_round(plan: Plan, gauges: Gauges) -> None:
    fit = fitted(plan, shape="waist", waist_at_cm=100.0, hip_at_cm=120.0)
    inward, _ = _stretches((90, 90), fit, 50, gauges, (80, 80), busy=0)
    assert inward.last == 49  # derived: the last round is the hem's


def test_a_hip_above_the_waist_leaves_a_round_to_widen(plan: Plan, gauges: Gauges) -> None:
    fit = fitted(plan, shape="waist", waist_at_cm=10.0, hip_at_cm=1.0)
    _, outward = _stretches((90, 90), fit, 90, gauges, (80, 80), busy=0)
    # derived: the waist is in round 30, and the widening begins right below it
    assert (outward.first, outward.last) == (31, 32)


def test_the_sides_are_shaped_from_the_second_round_below_a_dart(
    plan: Plan, gauges: Gauges
) -> None:
    bust = {"grows_cm": 0.0, "front_cm": 3.0, "back_cm": 0.0, "at_cm": 12.0, "points_cm": 10.0}
    fit = fitted(plan, bust=bust, shape="a-line", length_cm=40.0, hem_cm=5.0, edge_cm=110.0)
    body = body_shape(stitches=180, fit=fit, gauges=gauges, choices=plan.project.garment.body)
    (dart,) = body.darts
    # derived: the round below a dart closes its gaps; the hem's own is the last
    first, last = dart.number + 2, body.rounds.got - 1
    numbers = [change.number for change in body.changes]
    spread = taper(len(numbers), last - first + 1)
    assert numbers == [first - 1 + place for place in spread]
    assert len(numbers) > 5
