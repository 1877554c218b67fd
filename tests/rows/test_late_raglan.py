"""A raglan by hand: increases that begin late, the words of a round, where BOR moves."""

from __future__ import annotations

import pytest

from yokefellow.rows.model import Feature, Op, made, op, taken
from yokefellow.rows.raglan import front_section, piece_words, raglan_section
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.front_neck import FrontNeck
from yokefellow.shaping.model import RaglanLine, RaglanPiece, RaglanShape
from yokefellow.shaping.short_rows import ShortRows


def raglan(back: RaglanPiece, front: RaglanPiece, sleeve: RaglanPiece) -> RaglanShape:
    return RaglanShape(
        rounds=Count(5, 5.0, 3.0),
        back=back,
        front=front,
        sleeve=sleeve,
        line=RaglanLine(2, "lifted"),
        short_rows=ShortRows((), 0.0, 3.0),
        shoulder_round=3,
        shoulder_wanted=80.0,
        stitches_per_cm=2.0,
    )


def test_rounds_before_the_first_increase_are_plain_at_the_neck_s_count() -> None:
    back, sleeve = RaglanPiece(30, (), (4,)), RaglanPiece(10, (), (4,))
    yoke = raglan(back, back, sleeve)
    rows = raglan_section(yoke, wrapped=False).rows
    # derived: 30 + 10 + 30 + 10 = 80, and 8 more in the fourth round
    assert [(taken(row.steps), made(row.steps)) for row in rows] == [
        (80, 80),
        (80, 80),
        (80, 80),
        (80, 88),
        (88, 88),
    ]
    assert [row.feature for row in rows] == [
        Feature.MARK,
        Feature.PLAIN,
        Feature.PLAIN,
        Feature.INCREASE,
        Feature.PLAIN,
    ]


# derived: the words of the round itself, from rounds that were chosen so that each can be seen
@pytest.mark.parametrize(
    ("number", "words"),
    [
        (2, "all pieces"),
        (3, "back and front"),
        (4, "back and sleeves"),
        (5, "front and sleeves"),
        (6, "back"),
        (7, "front"),
        (8, "sleeves"),
    ],
)
def test_the_pieces_that_grow_in_a_round_are_named(number: int, words: str) -> None:
    back, front = RaglanPiece(30, (), (2, 3, 4, 6)), RaglanPiece(30, (), (2, 3, 5, 7))
    sleeve = RaglanPiece(10, (), (2, 4, 5, 8))
    assert piece_words(raglan(back, front, sleeve), number) == words


def test_bor_moves_over_one_front_a_sleeve_and_half_the_back() -> None:
    back, sleeve = RaglanPiece(31, (), ()), RaglanPiece(10, (), ())
    neck = FrontNeck("scooped", Count(4, 4.0, 3.0), edge=6, increases=(2,), centre=17)
    op.cache_clear()  # which would give 33 stitches for 33.0, too
    row = front_section(raglan(back, back, sleeve), neck).rows[-1]
    # derived: 6 and 1 at the neck's edge, 10 of the sleeve, and 31 less 15 of the back
    assert row.steps == (Op("k", 33),)
    (knit,) = row.steps
    assert isinstance(knit.times, int)
