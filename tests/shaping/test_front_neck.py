"""Laws of a front neck worked flat: it ends as wide as a level one, at its own depth."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.front_neck import FrontNeck, TooShallow, front_neck

FRONTS = st.integers(8, 160)
SHARES = st.integers(0, 2)
DROPS = st.floats(2, 120)


def made(style: str, front: int, share: int, rows: float) -> FrontNeck | TooShallow:
    word: Literal["V", "scooped"] = "V" if style == "V" else "scooped"
    return front_neck(word, front=front, share=share, drop_rows=rows, rows_per_cm=3.0)


@given(st.sampled_from(["scooped", "V"]), FRONTS, SHARES, DROPS)
def test_the_front_ends_as_wide_as_a_level_one(
    style: str, front: int, share: int, rows: float
) -> None:
    neck = made(style, front, share, rows)
    if isinstance(neck, TooShallow):
        return
    assert neck.stitches == front
    assert neck.rows.got % 2 == 0
    assert all(row % 2 == 0 for row in neck.increases)  # derived: on right-side rows alone
    assert all(a < b for a, b in pairwise(neck.increases))
    assert not neck.increases or 2 <= neck.increases[0] <= neck.increases[-1] <= neck.rows.got
    assert neck.edge == share + 2  # common practice, no source: an edge stitch and one more


@given(FRONTS, SHARES, DROPS)
def test_the_edges_of_a_v_meet_at_its_drop_and_lean_evenly(
    front: int, share: int, rows: float
) -> None:
    neck = made("V", front, share, rows)
    if isinstance(neck, TooShallow):
        # Just as many rows as it names are enough, and two fewer are not.
        deeper = made("V", front, share, neck.rows)
        assert isinstance(deeper, FrontNeck)
        assert len(deeper.increases) * 2 == neck.rows
        assert isinstance(made("V", front, share, neck.rows - 2), TooShallow)
        return
    assert neck.centre == front % 2
    if neck.increases:
        assert neck.increases[-1] == neck.rows.got
        gaps = [b - a for a, b in pairwise((0, *neck.increases))]
        assert max(gaps) - min(gaps) <= 2  # derived: as even as whole pairs of rows allow


@given(FRONTS, SHARES, DROPS)
def test_a_scooped_front_grows_faster_the_deeper_it_is(front: int, share: int, rows: float) -> None:
    neck = made("scooped", front, share, rows)
    assert isinstance(neck, FrontNeck)
    assert neck.increases == () or neck.increases[-1] < neck.rows.got
    assert neck.centre >= 0
    gaps = [b - a for a, b in pairwise((0, *neck.increases))]
    # An ellipse never straightens again; rounding to pairs of rows may add one pair.
    assert all(later <= early + 2 for early, later in pairwise(gaps))


def test_a_crew_front_of_a_womans_size() -> None:
    # derived: 34 stitches, a line share of 1: 3 at each edge, 14 to the middle; 20 rows.
    # An ellipse: stitch j lies outside it from row 20·√(1 − (1 − (j − ½)/14)²) on:
    # 5.3, 9.0, 11.4, 13.2, 14.7, 15.9, 16.9 → rows 6, 10, 12, 14, 16, 18; the rest is cast on.
    neck = made("scooped", 34, 1, 19.8)
    assert isinstance(neck, FrontNeck)
    assert (neck.edge, neck.rows.got) == (3, 20)
    assert neck.increases == (6, 10, 12, 14, 16, 18)
    assert neck.centre == 34 - 2 * (3 + 6)


def test_a_front_too_narrow_to_part_is_refused() -> None:
    with pytest.raises(ValueError, match="cannot be parted"):
        made("V", 5, 1, 20)


def test_each_front_grows_by_its_edge_and_by_half_of_the_raglan() -> None:
    neck = FrontNeck("V", Count(10, 10.0, 3.0), edge=3, increases=(4, 6, 10), centre=1)
    # derived: 3 stitches and what the edge gained until then, and 6 of the 12 of the raglan
    assert [neck.each(number, grown=0) for number in (1, 3, 4, 9, 10)] == [3, 3, 4, 5, 6]
    assert neck.each(10, grown=12) == 12
    assert neck.stitches == 13
