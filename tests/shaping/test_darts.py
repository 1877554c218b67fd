"""Darts of short rows, against the worked examples of handbooks."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.pieces.darts import Dart, dart, dart_rows, turns


def test_rows_are_the_difference_times_the_gauge_and_even() -> None:
    # published: jg.net, a knitting weblog on short rows, 2010: 3 stitches and 4.2 rows to the
    # cm; 2.5 cm over the bust less 1.5 cm at the sides is 1 cm, worked as 4 rows
    assert dart_rows(2.5 - 1.5, rows_per_cm=4.2) == 4
    # the same: 6 rows at the sides, and so 10 over the bust
    assert 6 + dart_rows(1.0, rows_per_cm=4.2) == 10
    # derived: 5 cm at 2.8 rows to the cm is 14 rows, 7 pairs
    assert dart_rows(5.0, rows_per_cm=2.8) == 14
    # derived: less than a row asks for nothing
    assert dart_rows(0.3, rows_per_cm=2.8) == 0


def test_turns_are_spread_over_the_stitches_to_the_innermost() -> None:
    # derived: 30 stitches and 7 turns: 5 gaps of 4 and 2 of 5
    at = turns(30, 7)
    gaps = sorted(far - near for near, far in pairwise((0, *at)))
    assert gaps == [4, 4, 4, 4, 4, 5, 5]
    assert at[-1] == 30


def made(stitches: int, length_cm: float, clear: float, rows_per_cm: float) -> Dart | None:
    return dart(
        "front",
        number=9,
        stitches=stitches,
        length_cm=length_cm,
        clear=clear,
        rows_per_cm=rows_per_cm,
    )


def test_the_innermost_turn_stays_outside_what_every_row_crosses() -> None:
    found = made(124, 5.0, 64.0, 2.8)
    assert found is not None
    # derived: (124 - 64) / 2 = 30 stitches at each side
    assert found.turns == turns(30, 7)
    assert (found.rows, found.wanted_rows) == (14, 14)
    assert found.cm == pytest.approx(5.0)


def test_no_two_rows_less_no_dart() -> None:
    assert made(124, 0.2, 64.0, 2.8) is None
    assert made(64, 5.0, 64.0, 2.8) is None


def test_more_rows_than_find_room_are_not_worked_and_not_hidden() -> None:
    found = made(84, 12.0, 64.0, 2.8)
    assert found is not None
    # derived: 10 stitches hold 5 turns two apart; 12 cm asked for 34 rows (33.6)
    assert (found.rows, found.wanted_rows) == (10, 34)


@given(
    st.integers(20, 400),
    st.floats(0.5, 20),
    st.floats(4, 120),
    st.floats(1, 6),
)
def test_turns_never_lie_above_one_another(
    stitches: int, length_cm: float, clear: float, rows_per_cm: float
) -> None:
    found = made(stitches, length_cm, clear, rows_per_cm)
    if found is None:
        return
    gaps = [far - near for near, far in pairwise((0, *found.turns))]
    assert min(gaps) >= 2  # common practice, no source: two stitches apart at the least
    assert max(gaps) - min(gaps) <= 1
    assert stitches - 2 * found.turns[-1] >= clear - 1
    assert found.rows <= found.wanted_rows
