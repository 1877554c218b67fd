"""What a modification saves: the difference of two whole sweaters."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.often import often
from tests.sweaters import edited, planned, sized, written
from yokefellow.findings import PlanError
from yokefellow.plan import Plan

PLAIN = {"sleeves": "full", "body": "hip"}


def difference(whole: Plan, chosen: Plan) -> tuple[float, ...]:
    one, two = whole.yarn.knitted, chosen.yarn.knitted
    return (
        one.stitches - two.stitches,
        one.metres - two.metres,
        one.grams - two.grams,
        one.balls - two.balls,
    )


@often(80)
@given(st.integers(0, 10**6))
def test_savings_are_the_difference_of_two_whole_plans(seed: int) -> None:
    sections = written(seed)
    try:
        chosen = planned(sections)
        whole = {
            piece: planned(edited(sections, **{f"garment__{piece}__length": name}))
            for piece, name in PLAIN.items()
        }
    except PlanError:
        return
    told = {saving.what: saving for saving in chosen.savings}
    for piece in PLAIN:
        made, plain = (getattr(chosen.finished, name) for name in (fitted(piece), plain_of(piece)))
        # common practice, no source: half a cm is no modification
        assert (piece in told) == (abs(made.length_cm - plain.length_cm) >= 0.5)
        if piece in told:
            saving = told[piece]
            amount = saving.saved
            found = (amount.stitches, amount.metres, amount.grams, amount.balls)
            assert found == pytest.approx(difference(whole[piece], chosen))
            assert (saving.from_cm, saving.to_cm) == (plain.length_cm, made.length_cm)


def fitted(piece: str) -> str:
    return {"sleeves": "sleeve", "body": "body"}[piece]


def plain_of(piece: str) -> str:
    return f"plain_{fitted(piece)}"


def test_an_unmodified_sweater_saves_nothing() -> None:
    assert planned(sized()).savings == ()


@pytest.mark.parametrize(
    ("changes", "sign"),
    [
        ({"garment__sleeves__length": "elbow"}, 1),
        ({"garment__body__length": "shorter by 5 cm"}, 1),
        ({"garment__body__length": "tunic"}, -1),
        ({"garment__sleeves__length": "longer by 3 cm"}, -1),
    ],
)
def test_shorter_saves_and_longer_costs(changes: dict[str, Any], sign: int) -> None:
    (saving,) = planned(sized(**changes)).savings
    assert sign * saving.saved.stitches > 0
    assert sign * saving.saved.metres > 0
    assert sign * saving.saved.grams > 0
    assert sign * saving.saved.balls > 0
