"""Bodies at the ends of what there is: each is planned and knitted, or refused with a reason."""

from __future__ import annotations

from itertools import product

import pytest

from tests.bodies.checked import check, knit_rows
from tests.bodies.test_many import made
from tests.sweaters import YOKES, sized

EXTREMES: dict[str, tuple[str, dict[str, float]]] = {
    "smallest": ("babies", {"chest": 46, "upper_arm": 14}),
    "small child": ("children", {"chest": 50, "arm_length": 18, "upper_arm": 15}),
    "largest": ("women", {"chest": 170, "upper_arm": 60, "hip": 175, "waist": 165}),
    "large man": ("men", {"chest": 170, "upper_arm": 58, "waist": 180, "hip": 165}),
    "fullest arm": ("women", {"chest": 120, "upper_arm": 60, "forearm": 40}),
    "full arm, narrow chest": ("women", {"chest": 80, "upper_arm": 38}),
    "very long arms": ("men", {"chest": 95, "arm_length": 65, "wrist": 16}),
    "very short arms": ("women", {"chest": 130, "arm_length": 28}),
    "full bust": ("women", {"chest": 140, "high_chest": 105, "waist": 90, "hip": 110}),
    "long front": ("women", {"chest": 125, "front_length": 60, "back_length": 42}),
    "rounded back": ("men", {"chest": 100, "front_length": 38, "back_length": 55}),
    "wide front": ("men", {"chest": 130, "front_chest": 80, "waist": 150, "hip": 120}),
    "wide back": ("men", {"chest": 120, "front_chest": 50}),
    "broad shoulders": ("men", {"chest": 90, "shoulder_girth": 140}),
    "narrow shoulders": ("women", {"chest": 120, "shoulder_girth": 95}),
    "long torso": ("men", {"chest": 90, "back_waist_length": 62}),
    "short torso": ("women", {"chest": 120, "back_waist_length": 34}),
    "high waist": ("women", {"chest": 100, "underarm_to_waist": 8, "underarm_to_hip": 22}),
    "low hip": ("women", {"chest": 100, "underarm_to_waist": 26, "underarm_to_hip": 55}),
    "points far apart": ("women", {"chest": 130, "front_length": 55, "back_length": 42}),
}


@pytest.mark.parametrize("name", EXTREMES)
@pytest.mark.parametrize("style", YOKES)
def test_an_extreme_body_gets_its_sweater(name: str, style: str) -> None:
    group, body = EXTREMES[name]
    knitted = 0
    gauges = (1.2, 2.4, 4.0)
    for stitches, shape in zip(gauges, ("straight", "waist", "a-line"), strict=True):
        sections = sized(
            group,
            None,
            stitches_per_cm=stitches,
            body={part: f"{cm} cm" for part, cm in body.items()},
            garment={"yoke": {"style": style}, "body": {"shape": shape}},
        )
        plan = made(sections)
        if plan is None:
            continue
        check(plan)
        assert knit_rows(plan).loops == plan.yarn.knitted.stitches
        knitted += 1
    # snapshot: none of these is refused at any of the three gauges
    assert knitted == len(gauges)


@pytest.mark.parametrize("chest", [46, 60, 80, 110, 140, 170])
def test_any_chest_with_any_arm_and_sleeve_is_planned_or_refused_with_a_reason(chest: int) -> None:
    arms = [share * chest for share in (0.25, 0.35, 0.5)]
    group = "women" if chest > 75 else "children"
    planned = 0
    asked = list(product(arms, (22, 45, 70), ("cap", "elbow", "full"), YOKES))
    for arm, long, sleeve, style in asked:
        sections = sized(
            group,
            None,
            body={
                "chest": f"{chest} cm",
                "upper_arm": f"{min(arm, 60):.0f} cm",
                "arm_length": f"{long} cm",
            },
            garment={"yoke": {"style": style}, "sleeves": {"length": sleeve}},
        )
        plan = made(sections)
        if plan is not None:
            check(plan)
            planned += 1
    # snapshot: at this gauge all of them are planned
    assert planned == len(asked)
