"""What the shapes say of themselves: halves, rows and rounds, edges."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.shaping.parts import rib
from tests.sweaters import planned, sized
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.edges.picked_up import EdgeLengths, picked_up
from yokefellow.shaping.model import (
    BandShape,
    BodyShape,
    IncreaseRound,
    NeckShape,
    SideChange,
    SleeveShape,
    Split,
    YokeShape,
)
from yokefellow.shaping.pieces.darts import Dart
from yokefellow.shaping.short_rows import ShortRows


def count(got: int, per_cm: float = 2.0) -> Count:
    return Count(got, float(got), per_cm)


def neck(**changes: object) -> NeckShape:
    return replace(NeckShape(count(96), 96, rib(12)), **changes)  # type: ignore[arg-type]


def test_a_folded_band_stands_half_as_high_as_it_is_worked() -> None:
    # derived: 12 rounds at 3 a cm are 4 cm
    assert neck().worn_cm == 4.0
    assert neck(folds=True).worn_cm == 2.0


def test_the_opening_is_the_narrower_of_neck_and_band() -> None:
    # derived: stitches over two a cm
    assert neck().opening_cm == 48.0
    assert neck(band_stitches=90).opening_cm == 45.0
    assert neck(band_stitches=100).opening_cm == 48.0
    assert neck().edge == count(96)


def test_a_band_that_is_picked_up_has_an_edge_of_its_own() -> None:
    edges = EdgeLengths(
        back=34,
        sleeve=16,
        front=0,
        rows=20,
        across=6,
        centre=16,
        stitches_per_cm=2.0,
        rows_per_cm=3.0,
    )
    picked = picked_up(edges, multiple=2, point=False)
    found = neck(picked=picked, band_stitches=80)
    assert found.edge == picked.total
    # derived: each side runs over 20 rows and 6 stitches, 6.667 cm and 3 cm, 7.311 cm along;
    # with 34 + 32 + 16 stitches that is 41 cm and 14.62 cm, 111 stitches, 112 for the rib
    assert found.edge.got == 112
    assert found.opening_cm == 56.0
    assert picked.total.wanted == pytest.approx(111.2, abs=0.05)


def test_a_neck_has_the_rounds_and_the_rib_of_its_band() -> None:
    assert neck().rounds == Count(12, 12.0, 3.0)  # derived: of the edge
    assert neck().rib == "1x1"


def test_an_odd_body_has_its_odd_stitch_at_the_back() -> None:
    odd = Split(count(201), count(66), count(15))
    # derived: 100 and 101 from marker to marker; 7 of 15 underarm stitches lie in front
    assert (odd.front_total, odd.back_total) == (100, 101)
    assert (odd.front, odd.back) == (85, 86)
    assert (odd.underarm_front, odd.underarm_back) == (7, 8)
    # derived: 171 between the underarms and 51 of each sleeve
    assert (odd.held, odd.yoke) == (51, 273)


def test_a_front_of_its_own_takes_its_share_of_the_underarms_with_it() -> None:
    own = Split(count(200), count(66), count(16), own_front=90, own_underarm_front=10)
    # derived: 90 + 2 * 10, the rest is the back's
    assert (own.front_total, own.back_total) == (110, 90)
    assert (own.front, own.back) == (90, 78)
    wide = Split(count(200), count(66), count(16), own_front=90)
    assert (wide.front_total, wide.back_total) == (106, 94)  # derived: 90 + 2 * 8
    deep = Split(count(200), count(66), count(16), own_underarm_front=10)
    assert (deep.front_total, deep.back_total) == (104, 96)  # derived: 84 + 2 * 10


def body(*darts: Dart, changes: tuple[SideChange, ...] = ()) -> BodyShape:
    return BodyShape(count(40, 3.0), 48, changes, count(96), 96, rib(15), darts=darts)


def test_short_rows_come_between_the_rounds() -> None:
    shape = body(Dart("front", 8, (3, 6, 9), 6, 3.0), Dart("back", 12, (4,), 2, 3.0))
    # derived: six rows come with round 8, two more with round 12
    assert [shape.row(number) for number in (1, 7, 8, 11, 12, 40)] == [1, 7, 14, 17, 20, 48]
    # derived: rows 8 to 13 lie across the front while round 7 is the last that is done; row 14
    # ends round 8; rows 18 and 19 lie across the back after round 11
    done = [shape.round_of(row) for row in (1, 7, 8, 13, 14, 17, 18, 19, 20, 48)]
    assert done == [1, 7, 7, 7, 8, 11, 11, 11, 12, 40]
    plain = body()
    assert [plain.row(9), plain.round_of(9)] == [9, 9]  # derived: no short rows


def test_the_front_grows_until_its_last_increase_for_the_bust() -> None:
    changes = (
        SideChange(4, 2, 0, for_bust=True),
        SideChange(6, 2, 0, for_bust=True),
        SideChange(20, -2, -2),
    )
    assert body(changes=changes).growing == 6  # derived: the later of two
    assert body(changes=changes[2:]).growing == 0
    # derived: two of the front, two less of either
    assert [change.added for change in changes] == [2, 2, -4]


def test_edges_speak_for_their_pieces() -> None:
    shape = body()
    assert shape.hem_rounds == Count(15, 15.0, 3.0)  # derived: of the hem
    assert shape.rib == "1x1"
    cuff = Edge("rib", "2x2", Count(9, 9.0, 3.0))
    sleeve = SleeveShape(count(40, 3.0), (), count(44), cuff)
    assert sleeve.cuff_rounds == Count(9, 9.0, 3.0)  # derived: of the cuff
    assert sleeve.rib == "2x2"


def test_rounds_of_a_yoke_are_found_in_their_section() -> None:
    level = planned(sized(garment__yoke__style="raglan")).shape
    assert (level.flat_rows, level.at(5)) == (0, ("yoke", 5))  # derived: no front rows
    open_front = planned(sized(garment__yoke__style="raglan", garment__neck__front="scooped")).shape
    assert open_front.front is not None
    flat = open_front.front.rows.got
    assert open_front.flat_rows == flat
    # derived: the cast-on is row 1 of the front, so round 1 is row 2
    assert open_front.at(1) == ("front", 2)
    assert open_front.at(flat) == ("front", flat + 1)
    assert open_front.at(flat + 1) == ("yoke", 1)


def test_a_yoke_grows_in_the_rounds_of_its_chart() -> None:
    band = BandShape("dots", 10, 12, count(96), (108, 108, 120))
    made = YokeShape(
        rounds=count(60, 3.0),
        increase_rounds=(IncreaseRound(20, 120, 160),),
        short_rows=ShortRows((), 0.0, 3.0),
        shoulder_round=27,
        shoulder_wanted=200.0,
        start=96,
        bands=(band,),
    )
    # derived: a stitch more in each repeat in its first round, and in its last
    assert [made.stitches_at(number) for number in (9, 10, 11, 12, 19, 20)] == [
        96, 108, 108, 120, 120, 160,
    ]  # fmt: skip
