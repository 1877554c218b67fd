"""Yarn for whole pullovers beside printed ranges."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from tests.published import published
from tests.published.check import Check
from tests.sweaters import IN, planned, sized

YARDAGE = published("yardage")
YARD_M = published("units")["exact"]["1 yd"]["is"]
USUAL = (("women", "M"), ("men", "L"))


def checks() -> Iterator[Check]:
    """Two usual sizes in every class, and the two that lie farthest outside."""
    for of in YARDAGE["class"]:
        for size in USUAL:
            yield _check(size, of, within=0.0, why="")
    for one in YARDAGE["outside"]:
        (of,) = (c for c in YARDAGE["class"] if c["stitches_per_in"] == one["stitches_per_in"])
        yield _check(tuple(one["size"]), of, within=one["within"], why=one["why"])


def _check(size: tuple[str, ...], of: dict[str, Any], *, within: float, why: str) -> Check:
    low, high = of["stitches_per_in"]
    made = planned(sized(size[0], size[1], stitches_per_cm=(low + high) / 2 / IN))
    least, most = of["yards"]
    return Check(
        f"{size[0]}, {size[1]}, {low:g} to {high:g} stitches to the inch",
        (least, most),
        (round(made.yarn.needed.metres / YARD_M, -1),),
        "yd",
        within=within * most,
        why=why,
        inside=True,
    )
