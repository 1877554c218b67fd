"""A raglan whose increases begin late, as its rounds may be pinned: plain till then."""

from __future__ import annotations

from yokefellow.schedule.raglan import raglan_section
from yokefellow.schedule.rows import Feature, made, taken
from yokefellow.shaping.counts import Count
from yokefellow.shaping.shapes import RaglanLine, RaglanPiece, RaglanShape
from yokefellow.shaping.short_rows import ShortRows


def test_rounds_before_the_first_increase_are_plain_at_the_neck_s_count() -> None:
    back, sleeve = RaglanPiece(30, (), (4,)), RaglanPiece(10, (), (4,))
    yoke = RaglanShape(
        rounds=Count(5, 5.0, 3.0),
        back=back,
        front=back,
        sleeve=sleeve,
        line=RaglanLine(2, "lifted"),
        short_rows=ShortRows((), 0.0, 3.0),
        shoulder_round=3,
        shoulder_wanted=80.0,
        stitches_per_cm=2.0,
    )
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
