"""Short rows beside worked arithmetic."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import Check, worded
from yokefellow.shaping.short_rows import short_rows
from yokefellow.shaping.spread_evenly import gaps

DATA = published("short_rows")
NECK = 160
"""Stitches enough that every pair finds room."""


def checks() -> Iterator[Check]:
    """Rows of a raise, and the spacing of turns."""
    for one in DATA["raise"]:
        found = short_rows(
            raise_cm=one["cm"], rows_per_cm=one["rows_per_cm"], neck_stitches=NECK
        ).rows
        yield Check(str(one["what"]), tuple(one["rows"]), (found,), "rows", inside=True)
    turns = DATA["turns"]
    printed = [int(size) for size, count in turns["sizes"].items() for _ in range(count)]
    yield Check(
        "7 turns over 30 stitches",
        worded(printed),
        worded(gaps(turns["stitches"], turns["turns"])),
        "sts",
    )
