"""Short rows at the back of the neck."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.short_rows import raglan_short_rows, short_rows


# derived: pairs are half the rows of the raise, each pair adds two; 2.5 cm at 2.8 rows in a cm is
# 7 rows, 3 or 4 pairs; 3.2 cm is 9 rows, 4 pairs; none is none
@pytest.mark.parametrize(
    ("raise_cm", "rows_per_cm", "pairs"),
    [(2.5, 2.8, {3, 4}), (3.2, 2.8, {4}), (0, 2.8, {0}), (0.2, 2.8, {0})],
)
def test_rows_of_a_raise(raise_cm: float, rows_per_cm: float, pairs: set[int]) -> None:
    plan = short_rows(raise_cm=raise_cm, rows_per_cm=rows_per_cm, neck_stitches=100)
    assert len(plan.turns) in pairs
    assert plan.rows == 2 * len(plan.turns)


@given(st.floats(0, 12), st.floats(0.8, 6), st.integers(8, 240))
def test_turns_come_nearer_to_the_centre_and_stay_apart(
    raise_cm: float, rows_per_cm: float, neck: int
) -> None:
    plan = short_rows(raise_cm=raise_cm, rows_per_cm=rows_per_cm, neck_stitches=neck)
    steps = [before - after for before, after in pairwise(plan.turns)]
    assert all(step >= 2 for step in steps)
    assert not steps or max(steps) - min(steps) <= 1
    # Even a wrapped turn leaves a stitch at the centre front unworked by both sides.
    assert all(turn >= 2 and 2 * (turn + 1) <= neck for turn in plan.turns)
    wanted = raise_cm * rows_per_cm
    # derived: a pair is two rows, so one row off at most, or as many as fit
    fits = plan.turns and plan.turns[0] - plan.turns[-1] < 2 * len(plan.turns)
    assert abs(plan.rows - wanted) <= 1 + 1e-9 or fits


def test_no_turn_lies_nearer_to_the_centre_than_two_stitches() -> None:
    # derived: 1.4 stitches would be wanted for the first turn, 0.5 for the last
    assert short_rows(raise_cm=5.0, rows_per_cm=3.0, neck_stitches=4).turns == (2,)
    # derived: from the line, 4 and 4 stitches away, by twos; 1.3 would be wanted for the last
    found = raglan_short_rows(raise_cm=5.0, rows_per_cm=3.0, back=8, sleeve=4, neck_stitches=10)
    assert found.turns == (8, 6, 4, 2)
