"""Ball after ball: in what order, in which row each begins, and where lots take turns."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.sweaters import edited, planned, sized
from yokefellow.project_file.models import Yarn
from yokefellow.yarn import balls_in_order, done, stash_use
from yokefellow.yarn.progress import Place, in_order

BALL = {"ball_weight": "50 g", "ball_length": "200 m"}


def yarn(**fields: object) -> Yarn:
    return Yarn.model_validate({**BALL, **fields})


def test_whole_balls_go_before_parts_and_the_larger_lot_first() -> None:
    balls = yarn(weights=[20, 50, 50, 49, 30], lots=["A", "B", "A", "A", "B"])
    order = balls_in_order(balls)
    # derived: 119 g of lot A, 80 g of lot B; nine tenths of a ball is whole
    assert [ball.number for ball in order] == [3, 4, 1, 2, 5]
    assert [ball.is_part for ball in order] == [False, False, True, False, True]


def test_a_decimal_is_a_part_ball() -> None:
    # derived: two balls and three fifths of one
    assert [ball.grams for ball in balls_in_order(yarn(balls=2.6))] == pytest.approx([50, 50, 30])
    assert yarn(weights=[50, 50, 30]).balls == pytest.approx(2.6)


def test_every_row_is_met_once_a_sleeve_with_its_cuff() -> None:
    plan = planned(sized())
    places = [run.place(at) for run in in_order(plan.schedule) for at in range(run.times)]
    assert len(places) == len(set(places))
    rows = sum(len(section.rows) * len(section.copies) for section in plan.schedule.sections)
    assert len(places) == rows
    met = list(dict.fromkeys((place.section, place.copy) for place in places))
    assert met[-4:] == [
        ("sleeve", "right"),
        ("cuff", "right"),
        ("sleeve", "left"),
        ("cuff", "left"),
    ]
    last = places[-1]
    whole = plan.reckoning.knitting("MC", done(plan.schedule, last)).mean
    assert whole == pytest.approx(plan.yarn.knitted.grams)
    with pytest.raises(ValueError, match="no row"):
        done(plan.schedule, Place("yoke", 999))


@often(25)
@given(st.lists(st.integers(8, 120), min_size=2, max_size=14), st.sampled_from((1, 2)))
def test_no_ball_knits_more_than_it_holds(weights: list[int], strands: int) -> None:
    """Between two joins lies no more than one ball, and never a row more than needed less."""
    sections = sized(yarn__MC={**BALL, "weights": weights, "strands": strands})
    plan = planned(sections)
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    order = {run.place(at): run for run in in_order(plan.schedule) for at in range(run.times)}
    places = list(order)
    starts = [places.index(start.place) for start in use.starts]
    assert starts == sorted(starts)
    assert starts[0] == 0
    ends = [*starts[1:], places.index(use.runs_out) if use.runs_out else len(places)]
    for start, end, begun in zip(starts, ends, use.starts, strict=True):
        knitted = sum(
            plan.reckoning.rates.grams("MC", {("MC", order[place].fabric): spends}).mean
            for place in places[start:end]
            if (spends := order[place].by_yarn.get("MC")) is not None
        )
        at = use.order.index(begun.ball)
        assert knitted <= sum(ball.grams for ball in use.order[at : at + strands]) + 1e-9
    short = sum(weights) < plan.yarn.knitted.grams
    assert not short or use.runs_out is not None


@pytest.mark.parametrize("grams", range(20, 40))
def test_no_ball_begins_inside_a_set_of_short_rows(grams: int) -> None:
    darted = sized(
        yarn__MC={**BALL, "weights": [grams] * 30},
        body__front_length="50 cm",
        body__back_length="42 cm",
    )
    plan = planned(darted)
    order = {run.place(at): run for run in in_order(plan.schedule) for at in range(run.times)}
    places = list(order)
    inside = {
        place
        for before, place in pairwise(places)
        if order[before].is_short and order[place].is_short
    }
    assert {place.section for place in inside} >= {"body"}
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    begun = {at for start in use.starts for at in (start.place, start.earliest, start.latest)}
    assert not begun & inside


def test_the_range_of_a_join_widens_down_the_sweater() -> None:
    plan = planned(sized(yarn__MC__balls=9))
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    places = [run.place(at) for run in in_order(plan.schedule) for at in range(run.times)]
    for start in use.starts:
        latest = len(places) if start.latest is None else places.index(start.latest)
        assert places.index(start.earliest) <= places.index(start.place) <= latest
    assert use.starts[0].earliest == use.starts[0].latest == use.starts[0].place
    assert use.alternations == ()


def test_lots_take_turns_around_their_change_and_within_one_piece() -> None:
    lots = {"weights": [50] * 7, "lots": ["A"] * 4 + ["B"] * 3}
    plan = planned(edited(sized(), yarn__MC={**BALL, **lots}))
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    (turns,) = use.alternations
    change = next(b for a, b in pairwise(use.starts) if a.ball.lot != b.ball.lot)
    assert turns.lots == ("A", "B")
    assert turns.rounds_each == 2
    assert turns.first.section == turns.last.section == change.place.section
    # common practice, no source: ten rounds before and after
    assert change.place.row - turns.first.row <= 10
    assert turns.last.row - change.place.row <= 9
    assert turns.first.row < change.place.row < turns.last.row
