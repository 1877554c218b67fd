"""Laws between the tables' own rows and what surveys say; the numbers are in tests/published."""

from __future__ import annotations

import pytest

from yokefellow.body.size_tables import tables


def test_a_filled_arm_never_lies_far_from_the_surveyed_one() -> None:
    # common practice, no source: one and a half standard deviations, one person in eight
    for group in ("women", "men"):
        row = tables()[group].rows["upper_arm"]
        for cm, mean, sd in zip(row.middle_cm, row.surveyed_cm, row.spread_cm, strict=True):
            assert abs(mean - cm) < 1.5 * sd


@pytest.mark.parametrize(
    ("group", "over_neck_cm"), [("babies", 6), ("children", 7), ("women", 8), ("men", 8)]
)
def test_the_neck_opening_follows_its_stated_rule(group: str, over_neck_cm: float) -> None:
    # common practice, no source: neck and so much, or head over 1.35, whichever is larger
    rows = tables()[group].rows
    for opening, neck, head in zip(
        rows["neck_opening"].middle_cm, rows["neck"].middle_cm, rows["head"].middle_cm, strict=True
    ):
        assert opening == pytest.approx(max(neck + over_neck_cm, head / 1.35), abs=0.11)
