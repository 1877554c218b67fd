"""The most work a needle is given beside the published rule."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import Check
from tests.sweaters import IN, planned, sized
from yokefellow.advice.needles import CROWDED, RIGID_CM
from yokefellow.plan import Plan

RULE = published("needle_lengths")["rule"]


def checks() -> Iterator[Check]:
    """For each needle, the most work; and in a whole sweater, never a needle over its work."""
    few, many = RULE["tips"]
    for needle in RULE["needles"]:
        yield Check(
            f"the most work on a needle of {needle} in",
            (RULE["most"] * (needle - many), RULE["most"] * (needle - few)),
            (CROWDED * (needle * IN - RIGID_CM) / IN,),
            "in",
            inside=True,
        )
    ratios = list(_needle_over_work(planned(sized("women", "L", stitches_per_cm=2.4))))
    yield Check(
        "women, L: needle over the work it holds, least and most of all rows",
        (0.0, 1.0),
        (min(ratios), max(ratios)),
        inside=True,
    )


def _needle_over_work(made: Plan) -> Iterator[float]:
    at = {change.place: change.length_cm for change in made.needles}
    length = 0.0
    for row in made.rows:
        length = at.get(row.place, length)
        if row.before and row.after:
            per_cm = made.gauges.of(row.row.fabric).unwashed_stitches_per_cm
            yield length / (min(row.before, row.after) / per_cm)
