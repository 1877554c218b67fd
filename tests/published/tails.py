"""The tail of the cast-on beside published rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tests.published import published
from tests.published.check import Check
from tests.sweaters import IN, planned, sized

PER_IN = 5


def checks() -> Iterator[Check]:
    """Each rule's own example, at a gauge of 5 stitches to the inch."""
    made = planned(sized(stitches_per_cm=PER_IN / IN))
    yarn = made.project.yarn["MC"]
    for rule in published("tails")["rule"]:
        reckoning = replace(made.reckoning, cast_on=rule["width"] * PER_IN)
        grams = {extra.what: extra.grams.mean for extra in reckoning.extras("MC", 300.0)}
        tail_m = grams["tail"] * yarn.ball_length / yarn.ball_weight
        yield Check(
            f"{rule['who']}: {rule['width']} in wide",
            (rule["tail"],),
            (100 * tail_m / IN,),
            "in",
            within=rule["within"],
            why=rule["why"],
        )
