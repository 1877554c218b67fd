"""Women filled in from a bust beside the misses standard."""

from __future__ import annotations

from collections.abc import Iterator

from tests.body.bodies import filled
from tests.published import published
from tests.published.check import Check
from tests.sweaters import IN

MISSES = published("misses")


def checks() -> Iterator[Check]:
    """Neck, head and shoulder girth at the busts of twelve sizes."""
    table = MISSES["misses"]
    bodies = [filled("women", chest=bust * IN)[0] for bust in table["chest"]]
    for name, bound in MISSES["bounds"].items():
        yield Check(
            f"{name.replace('_', ' ')} at busts of {table['chest'][0]:g} to {table['chest'][-1]:g}",
            tuple(table[name]),
            tuple(body.cm(name) / IN for body in bodies),
            "in",
            within=bound["within_cm"] / IN,
            why=bound["why"],
        )
