"""Yoke depths beside those on printed schematics."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import EXACT, Check
from tests.sweaters import IN
from yokefellow.body.size_tables import tables

YOKES = published("printed_yokes")
COUNCIL = published("council")
CLASSIC_IN = sum(COUNCIL["fit"]["classic"]) / 2


def checks() -> Iterator[Check]:
    """The depth at the back of every adult size, less what grows with the chest."""
    printed = YOKES["depth"]
    for group in ("women", "men"):
        bound = YOKES["bounds"][group]
        yield Check(
            f"{group}: depth at the back less 0.07 of the finished chest",
            (printed["least_in"], printed["most_in"]),
            tuple(_rest(group)),
            "in",
            within=max(EXACT, bound["deeper_cm"] / IN),
            why=bound["why"],
            inside=True,
        )


def _rest(group: str) -> Iterator[float]:
    rows = tables()[group].rows
    for chest, depth, raised in zip(
        rows["chest"].middle_cm,
        rows["yoke_depth"].middle_cm,
        rows["back_raise"].middle_cm,
        strict=True,
    ):
        finished = chest / IN + CLASSIC_IN
        yield (depth + raised) / IN - YOKES["depth"]["per_chest"] * finished
