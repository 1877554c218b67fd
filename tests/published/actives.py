"""Bodies filled in beside 507 that were measured."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.body.bodies import filled
from tests.published import published
from tests.published.check import Check
from tests.published.lines import between, on_line
from tests.sweaters import IN
from yokefellow.body.size_tables import tables

ACTIVES = published("actives")
MISSES = published("misses")["misses"]
ADULTS = ("women", "men")
MEASURES = ("upper_arm", "forearm", "wrist", "hip", "shoulder_girth")


def checks() -> Iterator[Check]:
    """By the chest, and by an arm that was measured."""
    for group in ADULTS:
        for name in MEASURES:
            yield _by_chest(group, name)
        for name in ("forearm", "wrist"):
            yield from _by_arm(group, name)


def chests(group: str) -> list[tuple[float, float]]:
    """Pair the chest of the data with the chest of the table, 5th to 95th percentile, cm.

    The data takes a woman's chest above the bust and the table takes it over the
    bust: the misses standard prints both for each size, and turns one into the other.
    """
    low, _, high = ACTIVES[group]["chest"]
    own = [low + (high - low) * step / 4 for step in range(5)]
    if group == "men":
        return [(chest, chest) for chest in own]
    return [
        (chest, between(MISSES["upper_chest"], MISSES["chest"], chest / IN) * IN) for chest in own
    ]


def _by_chest(group: str, name: str) -> Check:
    line, bound = ACTIVES[group][f"{name}_by_chest"], _bound(group, name)
    off = [
        (filled(group, chest=ours)[0].cm(name) - on_line(line, theirs)) / line[2]
        for theirs, ours in chests(group)
    ]
    return Check(
        f"{group}: {name.replace('_', ' ')} from the line by the chest",
        (0.0,) * len(off),
        tuple(off),
        "SD",
        within=bound["spreads"],
        why=bound["why"],
    )


def _bound(group: str, name: str) -> dict[str, Any]:
    bounds = ACTIVES["by_chest"]
    return {**bounds[name], **bounds.get(group, {}).get(name, {})}


def _by_arm(group: str, name: str) -> Iterator[Check]:
    """From a measured arm, beside a chest far from it: the arm decides and not the chest."""
    line, bound = ACTIVES[group][f"{name}_by_upper_arm"], ACTIVES["by_upper_arm"]
    arms = tables()[group].rows["upper_arm"].middle_cm
    measured = (arms[0], 0.5 * (arms[1] + arms[2]), arms[-1])
    bodies = [filled(group, chest=100.0, upper_arm=arm)[0] for arm in measured]
    yield Check(
        f"{group}: {name} of a measured upper arm",
        tuple(on_line(line, arm) for arm in measured),
        tuple(body.cm(name) for body in bodies),
        "cm",
        within=bound["within_cm"],
        why=bound["why"],
    )
    yield Check(
        f"{group}: how far the {name} may be from it",
        (line[2],),
        (bodies[0].by_name[name].spread_cm or 0.0,),
        "cm",
    )
