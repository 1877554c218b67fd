"""Tapers beside worked examples in print."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tests.published import published
from tests.published.check import Check, worded
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.pieces.taper import taper

DATA = published("taper")


def checks() -> Iterator[Check]:
    """The intervals, and the even counts they begin and end on."""
    for one in DATA["example"]:
        printed = [int(size) for size, count in one["intervals"].items() for _ in range(count)]
        places = (0, *taper(one["pairs"], one["rounds"]))
        found = [after - before for before, after in pairwise(places)]
        yield Check(str(one["source"]), worded(printed), worded(found), "rounds")
    for one in DATA["even"]:
        found_count = nearest(one["wanted"], multiple=2)
        yield Check(f"{one['source']}: kept even", (one["got"],), (found_count,), "sts")
