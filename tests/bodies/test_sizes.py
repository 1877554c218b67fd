"""Every size of every table, at every gauge, in every fit, with either yoke."""

from __future__ import annotations

import pytest

from tests.bodies.checked import check
from tests.sweaters import GAUGES, YOKES, every_size, planned, sized
from yokefellow.project_file.models import FIT_NAMES


@pytest.mark.parametrize("style", YOKES)
@pytest.mark.parametrize("fit", FIT_NAMES)
@pytest.mark.parametrize("per_cm", GAUGES)
def test_every_size_gets_its_sweater(per_cm: float, fit: str, style: str) -> None:
    sizes = 0
    for group, size in every_size():
        sizes += 1
        made = planned(
            sized(
                group,
                size,
                stitches_per_cm=per_cm,
                ease__chest=fit,
                ease__upper_arm=fit,
                garment__yoke__style=style,
            )
        )
        try:
            check(made)
        except AssertionError as fault:
            raise AssertionError(f"{group} {size}") from fault
    # published: Craft Yarn Council, Standard Body Measurements: 9 women's, 5 men's, 8 children's
    # and 5 babies' sizes (from memory of the standard)
    assert sizes == 9 + 5 + 8 + 5
