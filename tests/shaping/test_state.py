"""The rest of a yoke, planned from any state: from a round of its own plan it is the same rest."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.kept.keep import Kept, kept_sweaters
from tests.kept.telling import whole
from tests.often import often
from tests.shaping.parts import task, yoke
from tests.sweaters import project
from yokefellow.findings import PlanError
from yokefellow.plan import draft
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan.raglan_yoke import raglan_task
from yokefellow.shaping.raglan.search import raglan_state_at, solve_raglan
from yokefellow.shaping.yoke.constraints import YokeTask
from yokefellow.shaping.yoke.round_yoke import tasks_of, yoke_task
from yokefellow.shaping.yoke.search import Solution, solve, solve_rest, state_at

KEPT = [one for one in kept_sweaters() if "refused" not in one["told"]]

ELSEWHERE = {"pins-5", "pins-9"}
"""Where the search finds another rest that costs no more: for each count at the end it keeps the
easiest chain alone, and whether that breaks a rule depends on what is above."""


def of_a_style(style: str) -> list[Kept]:
    def is_one(kept: Kept) -> bool:
        yoke = kept["project"].get("garment", {}).get("yoke", {})
        is_measured = yoke.get("proportions", "measured") == "measured"
        return bool(is_measured and yoke.get("style", "circular") == style)

    return [one for one in KEPT if is_one(one)]


@pytest.mark.parametrize("kept", of_a_style("circular"), ids=lambda one: one["name"])
def test_the_rest_of_a_kept_round_yoke_is_the_same_from_every_round(kept: Kept) -> None:
    asked = project(whole(kept["project"]))
    drawn = draft(asked)
    asked_of = yoke_task(
        drawn.counted, drawn.finished, drawn.gauges, tasks_of(asked, drawn.gauges, drawn.charts)
    )
    planned = solve(asked_of)
    assert isinstance(planned, Solution)
    assert planned.increase_rounds == drawn.shaped.shape.yoke.increase_rounds
    for number in range(planned.zones.rounds + 1):
        there = state_at(planned, number)
        assert solve(asked_of, there) == planned
        # The search itself comes to it, though it does not know that it was planned so.
        if kept["name"] not in ELSEWHERE:
            assert solve_rest(asked_of, there) == planned


@pytest.mark.parametrize("kept", of_a_style("raglan"), ids=lambda one: one["name"])
def test_the_rest_of_a_kept_raglan_is_the_same_from_every_round(kept: Kept) -> None:
    asked = project(whole(kept["project"]))
    drawn = draft(asked)
    asked_of, zones = raglan_task(drawn.counted, drawn.finished, drawn.gauges, drawn.charts)
    planned = solve_raglan(asked_of)
    assert planned is not None
    assert planned.steps == drawn.shaped.shape.yoke.increase_rounds
    for number in range(zones.rounds + 1):
        there = raglan_state_at(planned, number, asked_of.counts.rounds_per_cm)
        assert solve_raglan(asked_of, there) == planned


@st.composite
def knitted(draw: st.DrawFn) -> tuple[YokeTask, Solution, int]:
    """A yoke, plain or with bands, and how many of its rounds are done."""
    bands = draw(st.sampled_from([(), (task(6, at_cm=8.0),), (task(4), task(8))]))
    asked = yoke(neck=draw(st.floats(80, 110)), body=draw(st.floats(180, 240)), bands=bands)
    planned = solve(asked)
    if not isinstance(planned, Solution):
        return knitted_plain()
    return asked, planned, draw(st.integers(1, planned.zones.rounds - 1))


def knitted_plain() -> tuple[YokeTask, Solution, int]:
    planned = solve(yoke())
    assert isinstance(planned, Solution)
    return yoke(), planned, 20


@often(150)
@given(knitted(), st.integers(-4, 4), st.floats(0.9, 1.1))
def test_from_another_count_or_gauge_what_is_done_stands_and_the_rest_can_be_knitted(
    case: tuple[YokeTask, Solution, int], off: int, drift: float
) -> None:
    asked, planned, number = case
    there = state_at(planned, number)
    if any(band.first <= number < band.last for band in planned.bands):
        return
    other = replace(there, stitches=there.stitches + off, depth_cm=there.depth_cm / drift)
    faster = replace(asked, rounds_per_cm=asked.rounds_per_cm * drift)
    found = solve(faster, other)
    if not isinstance(found, Solution):
        # With all increases done, or a band's repeat ahead, another count may lead nowhere.
        assert off or planned.bands
        return
    done = len(there.increases)
    assert found.increase_rounds[:done] == there.increases
    assert found.bands[: len(there.bands)] == there.bands
    now, last = other.stitches, max((step.number for step in there.increases), default=number - 3)
    bands = {band.first: band for band in found.bands[len(there.bands) :]}
    steps = {step.number: step for step in found.increase_rounds[done:]}
    for at in range(number + 1, found.zones.rounds + 1):
        if at in steps:
            assert steps[at].before == now
            # common practice, no source: three rounds apart
            assert at - last >= 3 or "apart" in found.broken
            now, last = steps[at].after, at
        if at in bands:
            assert bands[at].start.got == now
            now = bands[at].counts[-1]
    assert now == found.split.yoke
    assert min(steps, default=number + 1) > number
    # derived: the rest is as deep as what is left, to a round, at the gauge it is knitted at
    left_cm = asked.depth_cm - other.depth_cm
    plain = sum(band.rounds for band in asked.bands)
    if not plain and left_cm > 0:
        rounds = (found.zones.rounds - number) / faster.rounds_per_cm
        assert rounds == pytest.approx(left_cm, abs=1.01 / faster.rounds_per_cm)


def test_another_wish_changes_only_the_rest() -> None:
    planned = solve(yoke())
    assert isinstance(planned, Solution)
    there = state_at(planned, 20)
    found = solve(yoke(body=212.0), there)
    assert isinstance(found, Solution)
    # derived: four more for each two centimeters at two stitches, met exactly
    assert found.split.body.got == 212
    assert found.increase_rounds[: len(there.increases)] == there.increases
    assert found.increase_rounds[-1].after == found.split.yoke


def test_pins_still_to_come_are_met_and_those_that_are_past_stand() -> None:
    pins = Fixed(neck=96, increases=(120, 160, 216, 268))
    asked = yoke(fixed=pins)
    planned = solve(asked)
    assert isinstance(planned, Solution)
    there = state_at(planned, planned.increase_rounds[1].number)
    off = replace(there, stitches=there.stitches - 2)
    found = solve(asked, off)
    assert isinstance(found, Solution)
    assert [step.after for step in found.increase_rounds[2:]] == [216, 268]
    assert found.increase_rounds[2].before == 158  # derived: two fewer than 160


def test_a_bare_neck_is_the_state_in_which_nothing_is_done() -> None:
    planned = solve(yoke())
    assert isinstance(planned, Solution)
    bare = state_at(planned, 0)
    assert bare.is_bare_neck
    assert bare.neck == bare.stitches == planned.neck.got
    assert solve_rest(yoke(), bare) == planned


def test_a_raglan_goes_on_from_pieces_that_are_not_as_planned() -> None:
    for kept in of_a_style("raglan"):
        asked = project(whole(kept["project"]))
        try:
            drawn = draft(asked)
        except PlanError:
            continue
        asked_of, zones = raglan_task(drawn.counted, drawn.finished, drawn.gauges, drawn.charts)
        planned = solve_raglan(asked_of)
        assert planned is not None
        if asked_of.counts.fixed != Fixed():
            continue
        for number in range(4, zones.rounds - 4, 7):
            there = raglan_state_at(planned, number, asked_of.counts.rounds_per_cm)
            assert there.pieces is not None
            back, front, sleeve = there.pieces
            if not sleeve.rounds or len(sleeve.rounds) == len(planned.sleeve.rounds):
                continue
            # One increase round of the sleeves was forgotten.
            fewer = sleeve._replace(stitches=sleeve.stitches - 2, rounds=sleeve.rounds[:-1])
            off = replace(there, stitches=there.stitches - 4, pieces=(back, front, fewer))
            found = solve_raglan(asked_of, off)
            if found is None:
                continue
            assert found.sleeve.stitches_at(number) == fewer.stitches
            assert found.sleeve.stitches_at(zones.rounds) == found.split.held
            assert found.back.stitches_at(zones.rounds) == found.split.back
            assert found.front.stitches_at(zones.rounds) == found.split.front
