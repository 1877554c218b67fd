"""Pins where the bands do not fit: the refusal says what is in the way, not that nothing leads."""

from __future__ import annotations

import pytest

from tests.sweaters import planned, sized
from yokefellow.findings import PlanError


def test_pins_beside_bands_without_room_are_refused_for_the_room() -> None:
    ball = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 9}
    yoke = {"depth": "12 cm", "bands": [{"chart": "stairs"}, {"chart": "stairs"}]}
    sweater = sized(
        garment__yoke=yoke, fixed={"body": 240}, yarn__CC1=ball, yarn__CC2=ball, yarn__CC3=ball
    )
    with pytest.raises(PlanError) as refused:
        planned(sweater)
    assert "deep together" in refused.value.findings[0].message
