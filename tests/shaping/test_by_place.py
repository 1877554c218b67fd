"""A raglan of which only the increase rounds are pinned: every share of them tried."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.shaping.test_exhaustive import Pieces, ends, raglans
from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.raglan import RaglanSolution, RaglanTask
from yokefellow.shaping.raglan_by_round import solve_by_round


@st.composite
def places(draw: st.DrawFn) -> RaglanTask:
    """A raglan of few stitches and few rounds, whose neck may be pinned, and shares of it."""
    task = draw(raglans())
    rounds = st.sets(st.integers(2, task.room), min_size=4, max_size=min(14, task.room - 1))
    pins: dict[str, object] = {"increase_at": tuple(sorted(draw(rounds)))}
    neck = task.counts.neck
    if draw(st.booleans()):
        pins["neck"] = round(neck)
        neck = float(round(neck))
    for name, most in (("neck_back", 24), ("neck_front", 24), ("neck_sleeve", 12)):
        if draw(st.sampled_from((False, False, False, True))):
            pins[name] = draw(st.integers(2, most))
    counts = replace(task.counts, neck=neck, fixed=Fixed().model_copy(update=pins))
    return replace(task, counts=counts, takes_stitches=draw(st.booleans()))


def times_of(task: RaglanTask) -> Iterator[tuple[Pieces, float, Pieces]]:
    """Every end, what its counts are off, and how often each piece grows, so that none rests."""
    most = len(task.counts.fixed.increase_at)
    by_yoke: dict[int, tuple[float, Pieces]] = {}
    for end, off in ends(task):
        total = end.back + end.front + 2 * end.sleeve
        by_yoke[total] = min(by_yoke.get(total, (99.0, end)), (off, end))
    for off, end in by_yoke.values():
        for grown in product(range(most + 1), repeat=3):
            if grown[0] + grown[2] >= most:
                yield end, off, Pieces(*grown)


def cost(task: RaglanTask, end: Pieces, off: float, grown: Pieces) -> tuple[float, ...] | None:
    """What a raglan costs whose pieces grow so often; None for one that cannot be or may not be."""
    start = Pieces(*(last - 2 * often for last, often in zip(end, grown, strict=True)))
    fixed, width = task.counts.fixed, task.line_width
    neck, apart = start.back + start.front + 2 * start.sleeve, abs(start.front - start.back)
    pins = (fixed.neck_back, fixed.neck_front, fixed.neck_sleeve, fixed.neck)
    if any(pin not in (None, got) for pin, got in zip(pins, (*start, neck), strict=True)):
        return None
    # derived: our choice in the program, front and back three stitches apart
    if apart > 3 and None in (fixed.neck_back, fixed.neck_front):
        return None
    # derived: two stitches stand between the lines; where they take stitches, a sleeve has the
    # smaller half of each, and else back and front have them whole
    least = (2 * width + 2, 0)
    if task.takes_stitches:
        least = (2 * (width - width // 2) + 2, 2 * (width // 2) + 2)
    if min(start.back, start.front) < least[0] or start.sleeve < least[1]:
        return None
    resting = len(fixed.increase_at) - max(grown)
    ribs = (neck % task.counts.neck_multiple > 0) + int(off)
    far = (neck / task.counts.neck - 1) ** 2 + 0.25 * (start.back / task.back_neck - 1) ** 2
    return float(resting), float(max(0, apart - 1) + ribs), off % 1 + far


def cost_of(task: RaglanTask, found: RaglanSolution) -> tuple[float, ...] | None:
    end = Pieces(found.split.back, found.split.front, found.split.held)
    grown = Pieces(*(len(one.rounds) for one in (found.back, found.front, found.sleeve)))
    off = min(off for one, off in ends(task) if one == end)
    return cost(task, end, off, grown)


@often(150)
@given(places())
def test_pinned_rounds_are_shared_out_in_the_best_way_there_is(task: RaglanTask) -> None:
    tried = [one for way in times_of(task) if (one := cost(task, *way)) is not None]
    found = solve_by_round(task)
    assert (found is None) == (not tried)
    if found is None:
        return
    assert cost_of(task, found) == pytest.approx(min(tried))
    assert tuple(step.number for step in found.steps) == task.counts.fixed.increase_at
    ends = (found.split.back, found.split.front, found.split.held)
    pieces = (found.back, found.front, found.sleeve)
    assert tuple(piece.stitches_at(task.room) for piece in pieces) == ends
