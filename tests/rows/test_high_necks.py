"""Necks that stand high, folded or not."""

from __future__ import annotations

import pytest

from tests.knitter import knit
from tests.notation.printed_rows import parts_of
from tests.sweaters import planned, sized
from yokefellow.rows.model import Feature
from yokefellow.sheet.text import render_text

# common practice, no source: how high a high neck stands
HIGH = {"women": ("M", 7.0), "men": ("L", 7.5), "children": ("8", 5.0), "babies": ("6", 3.5)}


@pytest.mark.parametrize("group", HIGH)
@pytest.mark.parametrize("cast_on", ["plain", "provisional"])
def test_a_high_neck_is_ribbed_to_its_height_and_twice_when_folded(
    group: str, cast_on: str
) -> None:
    size, high_cm = HIGH[group]
    for finish, times in (("high", 1), ("folded high", 2)):
        plan = planned(
            sized(group, size, garment__neck__finish=finish, garment__neck__cast_on=cast_on)
        )
        per_cm = plan.gauges.rib.rounds_per_cm
        (section,) = [one for one in plan.schedule.sections if one.key == "neckband"]
        rib = [row for row in section.rows if row.feature is Feature.EDGE]
        assert abs(len(rib) - times * high_cm * per_cm) <= 0.5 + 1e-9  # derived: half a round
        assert all(row.fabric == "rib" for row in rib)
        assert plan.shape.neck.worn_cm == pytest.approx(high_cm, abs=0.5 / per_cm)
        knit(parts_of(plan.schedule))


def test_a_height_of_her_own_is_kept() -> None:
    plan = planned(sized(garment__neck__finish="folded high", garment__neck__band="10 cm"))
    assert plan.shape.neck.worn_cm == pytest.approx(10, abs=0.2)  # derived: half a round and less


def test_a_high_neck_is_tried_on_early_and_says_how_it_is_folded() -> None:
    plan = planned(sized(garment__neck__finish="folded high"))
    (head,) = [check for check in plan.checks if check.title == "Over the head"]
    # common practice, no source: after 2.5 cm, of some 14
    assert head.number < 12
    words = " ".join(render_text(plan).split())
    assert "folded outwards in half when it is worn" in words
