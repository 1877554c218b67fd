"""Five thousand bodies, both yokes, and every so many of them knitted stitch by stitch."""

from __future__ import annotations

import os

import pytest

from tests.bodies.checked import check, knit_rows
from tests.bodies.drawn import body, portion
from tests.often import portions
from tests.sweaters import YOKES, Sections, planned
from yokefellow.findings import PlanError, Severity
from yokefellow.plan import Plan

BODIES = 5000
PORTIONS = 20
KNIT_EVERY = int(os.environ.get("YOKEFELLOW_KNIT_EVERY", "10"))
"""Knitting costs twenty times what planning does: one body in so many, both yokes, is knitted
row by row. `.ci/run` sets it to 3; at 1 every one of the ten thousand sweaters is knitted."""

REFUSED_AT_MOST = 0.03
"""Share that may be refused, with a reason: raglans that no even rate reaches."""


def made(sections: Sections) -> Plan | None:
    """The plan; or None where it is refused with a reason to act on."""
    try:
        return planned(sections)
    except PlanError as refused:
        reasons = refused.findings
    errors = [one for one in reasons if one.severity is Severity.ERROR]
    assert errors, sections["title"]
    for one in errors:
        assert one.field, one.code
        assert one.message.endswith((".", '"')), one.message
        # derived: no remedy that helps is shorter than "Choose a longer body."
        assert len(one.remedy) > 20, one.remedy
    return None


@pytest.mark.parametrize("number", portions(PORTIONS))
def test_bodies_get_sweaters_whose_counts_add_up(number: int) -> None:
    each = BODIES // PORTIONS
    plans: list[Plan] = []
    asked = 0
    for sections in portion(number * each, each, styles=YOKES):
        asked += 1
        plan = made(sections)
        if plan is None:
            continue
        plans.append(plan)
        try:
            check(plan)
            if (asked // len(YOKES)) % KNIT_EVERY == 0:
                knitted = knit_rows(plan)
                assert knitted.loops == plan.yarn.knitted.stitches
        except Exception as fault:
            raise AssertionError(sections["title"]) from fault
    # derived: every body was asked for in both yokes
    assert asked == each * len(YOKES)
    assert len(plans) >= (1 - REFUSED_AT_MOST) * asked


def test_the_bodies_are_of_every_kind() -> None:
    drawn = [body(seed) for seed in range(400)]
    assert {group for group, _ in drawn} == {"women", "men", "children", "babies"}
    chests = [measures["chest"] for _, measures in drawn]
    # derived: from a baby to a chest of 150 cm
    assert min(chests) < 50
    assert max(chests) > 140
    fronts = [
        measures["front_length"] - measures["back_length"]
        for _, measures in drawn
        if "front_length" in measures
    ]
    # derived: darts over the front, over the back, and none
    assert min(fronts) < -2 < 2 < max(fronts)
