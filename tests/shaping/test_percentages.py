"""The percentage system beside its published examples."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published import published
from tests.sweaters import IN, planned, sized
from yokefellow.shaping.percentages import RaglanPercentages, percentages, raglan_percentages

PUBLISHED = published("percentages")
WORKED = PUBLISHED["worked"]
BOOKS = ("percentage 1971", "percentage 1989")


@pytest.mark.parametrize("book", BOOKS)
def test_both_books_worked_example_read_top_down(book: str) -> None:
    # published: Zimmermann, Knitting Without Tears, 1971, and Knitting Around, 1989
    counts = percentages(WORKED["body"], book=book)
    assert counts.counts == tuple(reversed(WORKED["up"][book]))


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("row", PUBLISHED["shares"], ids=lambda row: f"K{row['body']}")
def test_shares_of_the_body(row: dict[str, Any], book: str) -> None:
    # published: Zimmermann 1971 at 200; derived at the other counts (tests/published)
    counts = percentages(row["body"], book=book)
    assert (counts.underarm, counts.sleeve) == (row["underarm"], row["sleeve"])
    assert (counts.counts[0], counts.counts[-1]) == (row["neck"], row["yoke"])
    assert (counts.neck, counts.cuff) == (row["neck"], row["cuff"])


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("rows_per_in", sorted(WORKED["rounds"]))
def test_a_whole_sweater_by_percentage_is_the_worked_one(book: str, rows_per_in: str) -> None:
    # published: Zimmermann 1971 and 1989: 40 in at 5 stitches to the inch
    per_cm = WORKED["stitches_per_in"] / IN
    plan = planned(
        sized(
            size=None,
            body={"chest": f"{WORKED['body_in']} in"},
            ease={"chest": 0},
            swatch__plain__washed={
                "stitches": [f"{per_cm * 20:.6f} over 20 cm"],
                "rounds": [f"{float(rows_per_in) / IN * 20:.6f} over 20 cm"],
            },
            garment__yoke={"proportions": book, "depth": "quarter of chest"},
        )
    )
    yoke, split = plan.shape.yoke, plan.shape.split
    assert (split.body.got, split.sleeve.got) == (WORKED["body"], WORKED["sleeve"])
    assert (split.underarm.got, split.yoke) == (WORKED["underarm"], WORKED["yoke"])
    counts = (yoke.increase_rounds[0].before, *(step.after for step in yoke.increase_rounds))
    assert counts == tuple(reversed(WORKED["up"][book]))
    rounds = yoke.rounds.got
    assert rounds == WORKED["rounds"][rows_per_in]
    near, middle, low = (step.number for step in yoke.increase_rounds)
    # Going up, the decreases lie at half and three quarters of the depth, and at the neck.
    assert low == pytest.approx((1 - WORKED["places_up"]["first"]) * rounds, abs=0.5)
    assert middle == pytest.approx((1 - WORKED["places_up"]["second"]) * rounds, abs=0.5)
    assert near == 2  # the first round closes the gaps of the short rows


@given(st.integers(10, 400).map(lambda half: 2 * half), st.sampled_from(BOOKS))
def test_any_body_by_percentage_keeps_the_count_equation(body: int, book: str) -> None:
    counts = percentages(body, book=book)
    yoke = body - 2 * counts.underarm + 2 * (counts.sleeve - counts.underarm)
    assert counts.counts[-1] == yoke
    assert all(before < after for before, after in pairwise(counts.counts))


@pytest.mark.parametrize("book", BOOKS)
def test_two_increase_rounds_never_fall_on_one_round_of_a_short_yoke(book: str) -> None:
    plan = planned(
        sized(
            "babies", "3", stitches_per_cm=0.7, garment__yoke={"proportions": book, "depth": "6 cm"}
        )
    )
    numbers = [step.number for step in plan.shape.yoke.increase_rounds]
    assert numbers == sorted(set(numbers))


def test_an_unknown_book_is_no_book() -> None:
    with pytest.raises(KeyError):
        percentages(200, book="percentage 1985")


def test_a_raglan_by_percentage_leaves_one_stitch_of_an_odd_sleeve() -> None:
    # published: Zimmermann, Knitting Without Tears, 1971: the shares, at 200 stitches
    # derived: 100 less 16 and 66 less 16; all 50 of the sleeve go, and as many of the back
    assert raglan_percentages(200) == RaglanPercentages(200, 66, 16, 84, 34, 50, 0)
    # derived: 50 less 8 and 33 less 8; 24 of the 25 go, and as many of the back
    assert raglan_percentages(100) == RaglanPercentages(100, 33, 8, 42, 18, 25, 1)


# derived: at 0.6 stitches a cm, 34 cm are 20.4 and 31 cm 18.6; twenty is the least
@pytest.mark.parametrize(("ease_cm", "wanted"), [(-2, 20.4), (-5, 18.6)])
def test_a_body_by_percentage_has_twenty_stitches(ease_cm: int, wanted: float) -> None:
    plan = planned(
        sized(
            "babies",
            None,
            stitches_per_cm=0.6,
            body={"chest": "36 cm"},
            ease={"chest": ease_cm},
            garment__yoke={"proportions": "percentage 1971"},
        )
    )
    body = plan.shape.split.body
    assert body.got == 20
    assert body.wanted == pytest.approx(wanted)
