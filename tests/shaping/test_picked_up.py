"""Laws of a neckband picked up along the edges of the neck."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from yokefellow.shaping.edges.picked_up import EdgeLengths, picked_up

EDGES = st.builds(
    EdgeLengths,
    back=st.integers(4, 80),
    sleeve=st.integers(4, 60),
    front=st.integers(0, 8),
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
    assert sum(found.back) + 2 * (edges.sleeve + edges.front + found.side) + edges.centre == (
        found.total.got
    )
    assert sum(found.back) - edges.back in (0, 1)
    assert found.mitre is None


@given(EDGES, st.sampled_from([2, 4]))
def test_the_corner_of_a_v_has_the_same_rib_on_both_sides(
    edges: EdgeLengths, multiple: int
) -> None:
    found = picked_up(edges, multiple=multiple, point=True)
    assert found.mitre is not None
    before, after = found.mitre.before, found.mitre.after
    assert before + 1 + after == found.total.got
    # derived: both fronts alike, from BOR to the point and from the point to BOR
    one_side = edges.sleeve + edges.front + found.side
    assert (found.back[0] + one_side, one_side + found.back[1]) == (before, after)
    assert sum(found.back) - edges.back in (0, 1)
    # derived: BOR lies a stitch or two beside the middle of the back, where the rib goes on
    assert abs(before - after) <= 2


# common practice, no source: 3 stitches for every 4 rows, at a gauge of 3 to 4
def test_straight_rows_at_three_to_four_give_three_in_every_four() -> None:
    edges = EdgeLengths(
        back=30,
        sleeve=15,
        front=0,
        rows=40,
        across=0,
        centre=20,
        stitches_per_cm=2.1,
        rows_per_cm=2.8,
    )
    found = picked_up(edges, multiple=1, point=False)
    assert found.rule == Fraction(3, 4)
    assert found.side == 30  # derived: 40 × 3 / 4
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
        front=0,
        rows=round(deep_cm * 3.0),
        across=round(lean_cm * 2.2),
        centre=0,
        stitches_per_cm=2.2,
        rows_per_cm=3.0,
    )
    mitre = picked_up(edges, multiple=2, point=True).mitre
    assert mitre is not None
    assert mitre.every == every


def test_the_corner_has_a_round_of_rib_however_small_the_neck() -> None:
    edges = EdgeLengths(
        back=1, sleeve=1, front=0, rows=2, across=0, centre=0, stitches_per_cm=2.0, rows_per_cm=6.0
    )
    # derived: 3 stitches, two sides of a third of a centimetre each and the point are 5.33; the
    # first multiples of 4 and of 8 that leave room for both sides of it are 8, and 8 and 3
    assert picked_up(edges, multiple=2, point=True).total.got == 8
    assert picked_up(edges, multiple=4, point=True).total.got == 11


# derived: at 2 stitches and 3 rows a cm, two ninths of the rows against three eighths of the
# stitches across, and of half a one at the centre: 4 and 3.9375, 3.556 and 3.5625
@pytest.mark.parametrize(("rows", "across", "every"), [(18, 10, 1), (16, 9, 2)])
def test_a_stitch_at_the_centre_makes_the_v_flatter(rows: int, across: int, every: int) -> None:
    edges = EdgeLengths(
        back=30,
        sleeve=15,
        front=0,
        rows=rows,
        across=across,
        centre=1,
        stitches_per_cm=2.0,
        rows_per_cm=3.0,
    )
    mitre = picked_up(edges, multiple=2, point=True).mitre
    assert mitre is not None
    assert mitre.every == every


def test_a_band_that_loses_a_stitch_in_three_quarters_decreases_in_every_round() -> None:
    edges = EdgeLengths(
        back=30,
        sleeve=15,
        front=0,
        rows=18,
        across=24,
        centre=0,
        stitches_per_cm=2.0,
        rows_per_cm=2.0,
    )
    # derived: 9 cm deep and 12 cm across
    mitre = picked_up(edges, multiple=2, point=True).mitre
    assert mitre is not None
    assert mitre.every == 1


def test_what_is_cast_on_at_the_fronts_is_counted_and_not_spread_over_their_rows() -> None:
    edges = EdgeLengths(
        back=30, sleeve=15, front=3, rows=40, across=0, centre=20,
        stitches_per_cm=2.1, rows_per_cm=2.8,
    )  # fmt: skip
    found = picked_up(edges, multiple=1, point=False)
    # derived: three across each front's cast-on, then 40 × 3 / 4 down its edge
    assert found.total.got == 60 + 20 + 2 * (3 + 30)
    assert found.side == 30
