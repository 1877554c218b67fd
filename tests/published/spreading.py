"""Even spreading beside worked examples in print."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate
from typing import Any

from tests.published import published
from tests.published.check import Check, worded
from yokefellow.rows.model import flat_ops
from yokefellow.rows.steps import decrease_evenly
from yokefellow.shaping.spread_evenly import gaps

DATA = published("spreading")


def checks() -> Iterator[Check]:
    """In the round, flat, decreases, and where print has another convention."""
    for kind in ("round", "flat"):
        for one in DATA[kind]:
            found = gaps(one["stitches"], one.get("times") or one["groups"])
            yield Check(_what(one), _sizes(one), worded(found), "groups")
    for one in DATA["decrease"]:
        yield Check(_what(one), _sizes(one), worded(_eaten(one)), "groups")
    for one in DATA["other_convention"]:
        places = tuple(accumulate(gaps(one["stitches"], one["times"])))
        what = f"{_what(one)}: places"
        yield Check(what, tuple(one["places"]), places, "sts", one["within"], one["why"])


def _what(one: dict[str, Any]) -> str:
    return str(one["source"])


def _sizes(one: dict[str, Any]) -> str:
    return worded([int(size) for size, count in one["sizes"].items() for _ in range(count)])


def _eaten(one: dict[str, Any]) -> list[int]:
    """Groups of a decrease round: what is knitted plain and the two stitches of the decrease."""
    found, plain = [], 0
    for op in flat_ops(decrease_evenly(one["stitches"], one["times"])):
        if op.code == "k":
            plain += op.times
        else:
            found.append(plain + 2)
            plain = 0
    return found
