"""Adults filled in from a chest beside an army's."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from math import inf

from tests.body.bodies import filled
from tests.published import published
from tests.published.check import Check
from tests.published.lines import on_line
from tests.sweaters import IN, project, sized
from yokefellow.body.fill_in import fill
from yokefellow.body.measurements import Figures
from yokefellow.body.size_tables import tables
from yokefellow.fit import fit

ARMY = published("army")
ADULTS = ("women", "men")
STRETCH = 1.35
"""Common practice, no source: how far a ribbed edge stretches."""


def checks() -> Iterator[Check]:
    """Means in bins of the chest, lines by the chest, the elbow, the armpit and the hand."""
    for group in ADULTS:
        yield from _means(group)
        yield _flexed(group)
        yield from _lines(group)
        yield Check(
            f"{group}: elbow as a share of underarm to wrist",
            (ARMY[group]["elbow_share"],),
            (tables()[group].elbow_share,),
        )
        yield _armpit(group)
        yield _hand(group)


@cache
def _bodies(group: str) -> tuple[Figures, ...]:
    return tuple(filled(group, chest=chest * IN)[0] for chest in ARMY[group]["chest_in"])


def _means(group: str) -> Iterator[Check]:
    """In standard deviations, as each bin has its own."""
    survey = ARMY[group]
    for name, bound in ARMY["bounds"].items():
        off = [
            (body.cm(name) - mean) / sd
            for body, mean, sd in zip(
                _bodies(group), survey[name], survey[f"{name}_sd"], strict=True
            )
        ]
        yield Check(
            f"{group}: {name.replace('_', ' ')} in bins of the chest, from the mean",
            (0.0,) * len(off),
            tuple(off),
            "SD",
            within=bound["spreads"],
            why=bound["why"],
        )


def _flexed(group: str) -> Check:
    survey = ARMY[group]
    off = [
        (body.cm("upper_arm") - mean) / sd
        for body, mean, sd in zip(
            _bodies(group), survey["biceps_flexed"], survey["biceps_flexed_sd"], strict=True
        )
    ]
    bound = ARMY["flexed"]
    return Check(
        f"{group}: upper arm in bins of the chest, from the mean of flexed ones",
        (bound["least_sd"], bound["most_sd"]),
        (min(off), max(off)),
        "SD",
        why=bound["why"],
        inside=True,
    )


def _lines(group: str) -> Iterator[Check]:
    """The survey's regression beside ours, in its own residual standard deviations."""
    chests = [chest * IN for chest in ARMY[group]["chest_in"]]
    for name, line in ARMY[group]["by_chest"].items():
        bound = ARMY["by_chest"][name] | ARMY["by_chest"].get(group, {}).get(name, {})
        off = [
            (body.cm(name) - on_line(line, cm)) / line[2]
            for body, cm in zip(_bodies(group), chests, strict=True)
        ]
        yield Check(
            f"{group}: {name.replace('_', ' ')} from the line by the chest",
            (0.0,) * len(off),
            tuple(off),
            "SD",
            within=bound["spreads"],
            why=bound["why"],
        )


def _armpit(group: str) -> Check:
    survey = ARMY[group]
    past = [
        (body.cm("yoke_depth") + body.cm("back_raise") - mean) / sd
        for body, mean, sd in zip(
            _bodies(group), survey["depth_to_armpit"], survey["depth_to_armpit_sd"], strict=True
        )
    ]
    return Check(
        f"{group}: a yoke at the back reaches past the mean armpit by",
        (2.0, inf),
        (min(past), max(past)),
        "SD",
        inside=True,
    )


def _hand(group: str) -> Check:
    """The cuff of a full sleeve, stretched, of every size."""
    edges = []
    for size in tables()[group].sizes:
        sections = project(sized(group, size, garment__sleeves__length="full"))
        edges.append(STRETCH * fit(sections, fill(sections)[0]).sleeve.edge_cm)
    return Check(
        f"{group}: a full sleeve's edge, stretched, passes all but the largest hands",
        (ARMY[group]["hand"]["large"], inf),
        (min(edges), max(edges)),
        "cm",
        inside=True,
    )
