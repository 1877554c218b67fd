"""Laws of a neckband picked up along the edges of the neck."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.picked_up import EdgeLengths, picked_up

EDGES = st.builds(
    EdgeLengths,
    back=st.integers(4, 80),
    sleeve=st.integers(4, 60),
    rows=st.integers(2, 60).map(lambda pairs: 2 * pairs),
    across=st.integers(1, 50),
    centre=st.integers(0, 80),
    stitches_per_cm=st.floats(1.2, 4),
    rows_per_cm=st.floats(1.5, 6),
)


@given(EDGES, st.sampled_from([1, 2, 4]))
def test_the_count_divides_the_rib_and_lies_next_to_the_edges(
    edges: EdgeLengths, multiple: int
) -> None:
    found = picked_up(edges, multiple=multiple, point=False)
    assert found.total.got % multiple == 0
    assert abs(found.total.got - edges.all_cm * edges.stitches_per_cm) <= multiple / 2 + 1e-9
    assert edges.level + edges.centre + found.left + found.right == found.total.got
    assert abs(found.left - found.right) <= 1  # derived: both fronts alike
    assert found.mitre is None


@given(EDGES, st.sampled_from([2, 4]))
def test_the_corner_of_a_v_has_the_same_rib_on_both_sides(
    edges: EdgeLengths, multiple: int
) -> None:
    found = picked_up(edges, multiple=multiple, point=True)
    assert found.mitre is not None
    before, after = found.mitre.before, found.mitre.after
    assert before + 1 + after == found.total.got
    assert edges.level + 1 + found.left + found.right == found.total.got
    assert abs(found.left - found.right) <= 3
    # derived: BOR lies a stitch or two beside the middle of the back, where the rib goes on
    assert abs(before - after) <= 2


# common practice, no source: 3 stitches for every 4 rows, at a gauge of 3 to 4
def test_straight_rows_at_three_to_four_give_three_in_every_four() -> None:
    edges = EdgeLengths(
        back=30, sleeve=15, rows=40, across=0, centre=20, stitches_per_cm=2.1, rows_per_cm=2.8
    )
    found = picked_up(edges, multiple=1, point=False)
    assert found.rule == Fraction(3, 4)
    assert (found.left, found.right) == (30, 30)  # derived: 40 × 3 / 4
    assert found.total.got == 60 + 20 + 2 * 30  # derived


@pytest.mark.parametrize(
    # derived: 1 cm of band loses deep/lean cm on either side; in stitches for each round
    # (16 / 7) × (2.2 / 3.0) = 1.7, and for a wide shallow V (6 / 12) × (2.2 / 3.0) = 0.37
    ("deep_cm", "lean_cm", "every"),
    [(16.0, 7.0, 1), (6.0, 12.0, 2)],
)
def test_a_steep_v_decreases_in_every_round(deep_cm: float, lean_cm: float, every: int) -> None:
    edges = EdgeLengths(
        back=30,
        sleeve=15,
        rows=round(deep_cm * 3.0),
        across=round(lean_cm * 2.2),
        centre=0,
        stitches_per_cm=2.2,
        rows_per_cm=3.0,
    )
    mitre = picked_up(edges, multiple=2, point=True).mitre
    assert mitre is not None
    assert mitre.every == every
