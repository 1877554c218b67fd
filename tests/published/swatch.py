"""A gauge misread beside what an article says it costs."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import EXACT, Check
from tests.sweaters import IN
from yokefellow.gauge import mean_per_cm
from yokefellow.project_file.fields import Reading


def checks() -> Iterator[Check]:
    """The width of 180 stitches at the gauge meant and at the gauge knitted."""
    for one in published("swatch")["width"]:
        width = one["stitches"] / mean_per_cm((Reading(one["per_in"], IN),)) / IN
        yield Check(
            f"{one['stitches']} stitches at {one['per_in']:g} to the inch",
            (one["inches"],),
            (width,),
            "in",
            within=one["within"] or EXACT,
            why=one.get("why", ""),
        )
