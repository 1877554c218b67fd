"""A raglan whose counts are pinned round by round: every way to share the rounds out tried."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import accumulate, pairwise, product
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.shaping.parts import yoke
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan.by_round import solve_by_round
from yokefellow.shaping.raglan.rates import Rate, rates_of
from yokefellow.shaping.raglan.shares import RaglanSolution, RaglanTask

GAINS = (8, 6, 4, 2)
"""Stitches that one round of a raglan can add, two to each piece that grows."""


class Given(NamedTuple):
    """The counts of somebody's raglan: its increase rounds, and where its pieces end."""

    after: tuple[int, ...]
    body: int
    """At the end, between the underarms: of the back, and of the front."""
    held: int
    """At the end, of each sleeve."""


@st.composite
def counts(draw: st.DrawFn) -> Given:
    """Gains by dice, shared out so that back and front end alike."""
    gains = draw(st.lists(st.sampled_from((8, 8, 8, 6, 4, 4, 2)), min_size=2, max_size=14))
    whole, three, two, one = (gains.count(gain) for gain in GAINS)
    sleeves = whole + three + draw(st.integers(0, two))
    both = 2 * (whole + two - (sleeves - whole - three)) + three + one
    neck = draw(st.integers(18, 34))
    sleeve = draw(st.integers(4, 12))
    # Front and back end alike, so together they begin with an even number of stitches.
    body = 2 * (neck // 2) + both
    held = sleeve + 2 * sleeves
    start = 2 * body - 2 * both + 2 * sleeve
    return Given(tuple(accumulate(gains, initial=start))[1:], body, held)


UNDERARM = 8


def asked(case: Given, **pins: object) -> RaglanTask:
    """That raglan, of which the body and the sleeves are pinned, too."""
    body, sleeve = 2 * (case.body + UNDERARM), case.held + UNDERARM
    fixed = Fixed().model_copy(
        update={
            "increases": case.after,
            "yoke": case.after[-1],
            "body": body,
            "sleeve": sleeve,
            "underarm": UNDERARM,
            **pins,
        }
    )
    return RaglanTask(
        counts=yoke(
            neck=70.0,
            body=float(body),
            sleeve=float(sleeve),
            underarm=float(UNDERARM),
            shoulder=0.0,
            fixed=fixed,
        ),
        back_neck=24.0,
        line_width=2,
        rounds=60,
        room=40,
        shoulder_round=18,
    )


def ways(
    case: Given, *, back_neck: float = 24.0, least: tuple[int, int] = (6, 0)
) -> list[tuple[float, ...]]:
    """What every way costs to share the rounds out among the pieces.

    Args:
        case: its counts.
        back_neck: stitches wanted across the back of the neck.
        least: stitches that back and front, and a sleeve, must begin with. derived: back and
            front hold two lines of two, and two stitches between.
    """
    found: list[tuple[float, ...]] = []
    later = [late - early for early, late in pairwise(case.after)]
    for first in GAINS:
        gains, neck = [first, *later], case.after[0] - first
        whole, three, two, one = (gains.count(gain) for gain in GAINS)
        for sleeves in range(two + 1):
            for backs in range(three + one + 1):
                alike = whole + two - sleeves
                back = case.body - 2 * (alike + backs)
                front = case.body - 2 * (alike + three + one - backs)
                sleeve = case.held - 2 * (whole + three + sleeves)
                if min(back, front) < least[0] or sleeve < least[1]:
                    continue
                assert back + front + 2 * sleeve == neck
                off = (neck / 70 - 1) ** 2 + 0.25 * (back / back_neck - 1) ** 2
                odd = float(gains[0] != gains[1])
                found.append((odd, float(max(0, abs(front - back) - 1)), off))
    return found


def cost(found: RaglanSolution, *, back_neck: float = 24.0) -> tuple[float, ...]:
    gains = [step.after - step.before for step in found.steps]
    off = (found.neck.got / 70 - 1) ** 2 + 0.25 * (found.back.start / back_neck - 1) ** 2
    apart = abs(found.front.start - found.back.start)
    return (float(gains[0] != gains[1]), float(max(0, apart - 1)), off)


def has(found: RaglanSolution, case: Given) -> None:
    """Whether the pieces grow as the rounds say and come to their ends."""
    assert tuple(step.after for step in found.steps) == case.after
    pieces = (found.back, found.front, found.sleeve)
    assert [piece.stitches_at(40) for piece in pieces] == [case.body, case.body, case.held]
    for piece in pieces:
        assert piece.rates == rates_of(piece.rounds)
    for step in found.steps:
        body = [step.number in piece.rounds for piece in (found.back, found.front)]
        of_sleeves = 4 if step.number in found.sleeve.rounds else 0
        assert 2 * sum(body) + of_sleeves == step.after - step.before


@often(200)
@given(counts())
def test_rounds_are_shared_out_in_the_best_way_there_is(case: Given) -> None:
    found, tried = solve_by_round(asked(case)), ways(case)
    assert (found is None) == (not tried)
    if found is None:
        return
    has(found, case)
    assert cost(found) == pytest.approx(min(tried))
    assert found.neck.wanted == 70.0  # derived: as asked
    assert found.broken == ()


@often(200)
@given(counts(), st.floats(2, 60), st.integers(0, 6), st.booleans())
def test_back_and_sleeves_begin_as_near_to_what_is_wanted_as_their_lines_let_them(
    case: Given, back_neck: float, width: int, takes: bool
) -> None:
    task = replace(asked(case), back_neck=back_neck, line_width=width, takes_stitches=takes)
    # derived: two stitches stand between the lines; where they take stitches, a sleeve has the
    # smaller half of each, and else back and front have them whole
    least = (2 * (width - width // 2) + 2, 2 * (width // 2) + 2) if takes else (2 * width + 2, 0)
    found, tried = solve_by_round(task), ways(case, back_neck=back_neck, least=least)
    assert (found is None) == (not tried)
    if found is not None:
        has(found, case)
        assert cost(found, back_neck=back_neck) == pytest.approx(min(tried))


@often(60)
@given(counts(), st.data())
def test_shares_of_the_neck_that_are_pinned_are_met(case: Given, data: st.DataObject) -> None:
    """Each way there is comes back when the shares of its neck are pinned, one of them or all."""
    free = solve_by_round(asked(case))
    if free is None:
        return
    shares = {"neck_back": free.back.start, "neck_front": free.front.start}
    shares["neck_sleeve"] = free.sleeve.start
    names = data.draw(st.sets(st.sampled_from(sorted(shares)), min_size=1))
    pins = {name: shares[name] for name in names}
    found = solve_by_round(asked(case, **pins))
    assert found is not None
    has(found, case)
    starts = {"neck_back": found.back.start, "neck_front": found.front.start}
    starts["neck_sleeve"] = found.sleeve.start
    assert {name: starts[name] for name in pins} == pins
    assert cost(found) == pytest.approx(cost(free))
    # A share that is a stitch off cannot be met, for pieces grow by twos.
    for name in pins:
        odd = {**pins, name: pins[name] + 1}
        assert solve_by_round(asked(case, **odd)) is None
    neck = solve_by_round(asked(case, neck=free.neck.got))
    assert neck is not None
    assert neck.steps[0].before == free.neck.got
    assert solve_by_round(asked(case, neck=free.neck.got + 1)) is None


@often(60)
@given(counts(), st.integers(0, 3))
def test_increases_worked_in_a_stitch_need_it_between_the_lines(case: Given, width: int) -> None:
    task = replace(asked(case), takes_stitches=True, line_width=width)
    found = solve_by_round(task)
    # derived: two stitches stand between the lines, of which a sleeve has the smaller half
    share = width // 2
    fewest = (2 * (width - share) + 2, 2 * (width - share) + 2, 2 * share + 2)
    if found is None:
        assert all(
            min(back, front) < fewest[0] or sleeve < fewest[2]
            for back, front, sleeve in beginnings(case)
        )
        return
    has(found, case)
    pieces = (found.back, found.front, found.sleeve)
    assert all(piece.start >= least for piece, least in zip(pieces, fewest, strict=True))


@often(60)
@given(counts(), st.data())
def test_rounds_that_are_pinned_too_are_the_rounds(case: Given, data: st.DataObject) -> None:
    times = len(case.after)
    at = sorted(data.draw(st.sets(st.integers(2, 40), min_size=times, max_size=times)))
    free = solve_by_round(asked(case))
    found = solve_by_round(asked(case, increase_at=tuple(at)))
    assert (found is None) == (free is None)
    if found is None or free is None:
        return
    has(found, case)
    assert [step.number for step in found.steps] == at
    assert cost(found) == pytest.approx(cost(free))
    # derived: the first round hangs the markers, and the 41st has no room
    for wrong in ((1, *at[1:]), (*at[:-1], 41)):
        assert solve_by_round(asked(case, increase_at=wrong)) is None


@often(60)
@given(counts(), st.floats(60, 200))
def test_the_shoulders_are_covered_by_then_or_it_is_said(case: Given, shoulder: float) -> None:
    task = asked(case)
    found = solve_by_round(replace(task, counts=replace(task.counts, shoulder=shoulder)))
    if found is None:
        return
    counted = [step.after for step in found.steps if step.number <= task.shoulder_round]
    there = (counted or [found.neck.got])[-1]
    fits = shoulder > task.counts.yoke or there >= shoulder
    assert found.broken == (() if fits else ("shoulder",))


def beginnings(case: Given) -> Iterator[tuple[int, int, int]]:
    """Stitches of back, front and sleeve at the neck in every way to share the rounds out."""
    later = [late - early for early, late in pairwise(case.after)]
    for first in GAINS:
        whole, three, two, one = ([first, *later].count(gain) for gain in GAINS)
        for sleeves, backs in product(range(two + 1), range(three + one + 1)):
            alike = whole + two - sleeves
            yield (
                case.body - 2 * (alike + backs),
                case.body - 2 * (alike + three + one - backs),
                case.held - 2 * (whole + three + sleeves),
            )


@st.composite
def places(draw: st.DrawFn) -> RaglanTask:
    """A raglan of which the rounds are pinned, and the counts at its end."""
    at = sorted(draw(st.sets(st.integers(2, 40), min_size=2, max_size=16)))
    body, held = draw(st.integers(20, 50)), draw(st.integers(8, 40))
    base = asked(Given((2 * body + 2 * held,), body, held), increases=(), increase_at=tuple(at))
    counts = replace(
        base.counts,
        neck=draw(st.floats(40, 80)),
        neck_multiple=draw(st.sampled_from((1, 2, 4))),
    )
    return replace(base, counts=counts, back_neck=draw(st.floats(10, 30)))


@often(200)
@given(places())
def test_something_grows_in_every_pinned_round_and_all_come_to_their_ends(task: RaglanTask) -> None:
    fixed, counts = task.counts.fixed, task.counts
    assert fixed.body is not None
    assert fixed.sleeve is not None
    body, held = fixed.body // 2 - UNDERARM, fixed.sleeve - UNDERARM
    found = solve_by_round(task)
    if found is None:
        return
    pieces = (found.back, found.front, found.sleeve)
    assert [piece.stitches_at(40) for piece in pieces] == [body, body, held]
    assert tuple(step.number for step in found.steps) == fixed.increase_at
    # derived: two lines of two and two stitches between; a sleeve may begin with none
    assert min(found.back.start, found.front.start) >= 6
    assert found.sleeve.start >= 0
    # derived: back and front of the neck differ by a round at the most, two stitches
    assert abs(found.back.start - found.front.start) <= 2
    assert found.neck.got == found.back.start + found.front.start + 2 * found.sleeve.start
    assert found.neck.wanted == counts.neck


def test_a_whole_raglan_by_its_rounds_is_the_free_one() -> None:
    # derived: 24, 24 and 12 stitches at the neck, as wanted, and eight in each of ten rounds
    at = tuple(range(4, 24, 2))
    base = asked(Given((152,), 44, 32), increases=(), increase_at=at)
    task = replace(base, counts=replace(base.counts, neck=72.0))
    found = solve_by_round(task)
    assert found is not None
    assert (found.back.start, found.front.start, found.sleeve.start) == (24, 24, 12)
    assert [step.after for step in found.steps] == list(range(80, 153, 8))
    assert {piece.rates for piece in (found.back, found.front, found.sleeve)} == {
        (Rate(4, 1), Rate(2, 9))
    }
    # derived: where the sleeve must begin with 20 it grows in six rounds, and the back in all
    fixed = task.counts.fixed.model_copy(update={"neck_sleeve": 20})
    wide = solve_by_round(replace(task, counts=replace(task.counts, fixed=fixed)))
    assert wide is not None
    assert (wide.back.start, wide.front.start, wide.sleeve.start) == (24, 24, 20)
    assert len(wide.sleeve.rounds) == 6
    # derived: 19 is no even number from 32
    fixed = task.counts.fixed.model_copy(update={"neck_sleeve": 19})
    assert solve_by_round(replace(task, counts=replace(task.counts, fixed=fixed))) is None


FOURS = Given(tuple(range(84, 161, 4)), 40, 40)
"""Twenty rounds of four stitches, from 80: back and front, or the sleeves, grow in each."""


@pytest.mark.parametrize(
    ("back_neck", "width", "takes", "starts"),
    [
        # derived: two lines of six and two between; 40 less 14 are 13 rounds, and the sleeves' 7
        (2.0, 6, False, (14, 14, 26)),
        # derived: halves of six, and two between, are 8
        (2.0, 6, True, (8, 8, 32)),
        (60.0, 6, True, (32, 32, 8)),
        # derived: of a line of five, back and front have three and a sleeve two
        (2.0, 5, True, (8, 8, 32)),
        (60.0, 5, True, (34, 34, 6)),
        (60.0, 6, False, (40, 40, 0)),
        (24.0, 6, False, (24, 24, 16)),
    ],
)
def test_a_neck_beyond_reach_is_met_as_nearly_as_the_lines_let_it(
    back_neck: float, width: int, takes: bool, starts: tuple[int, int, int]
) -> None:
    task = replace(asked(FOURS), back_neck=back_neck, line_width=width, takes_stitches=takes)
    found = solve_by_round(task)
    assert found is not None
    assert (found.back.start, found.front.start, found.sleeve.start) == starts
    has(found, FOURS)


def test_halves_that_differ_by_two_leave_the_smaller_its_room() -> None:
    # derived: after twenty rounds of four and one of two, 41, 41 and 40; odd halves that begin
    # with 28 have 13 and 15, and lines of six need 14, so the next are 15 and 17
    case = Given((*range(84, 161, 4), 162), 41, 40)
    found = solve_by_round(replace(asked(case), back_neck=2.0, line_width=6))
    assert found is not None
    assert (found.back.start, found.front.start, found.sleeve.start) == (15, 17, 24)
