"""Even spacing, straight lines and means beside numpy's."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from tests.published import published
from tests.published.check import Check, worded
from tests.sweaters import project, sized
from yokefellow.body.fill_in import fill
from yokefellow.body.size_tables import tables
from yokefellow.fit.ease import ease_cm
from yokefellow.fit.lengths import arm_cm
from yokefellow.gauge import mean_per_cm
from yokefellow.project_file.fields import Reading
from yokefellow.shaping.pieces.taper import taper
from yokefellow.shaping.spread_evenly import gaps

DATA = published("arrays")


def checks() -> Iterator[Check]:
    """Groups, their places, intervals, the arm's line, a weighted mean, eases."""
    for stitches, times in DATA["spread"]["cases"]:
        theirs = np.diff(np.round(np.linspace(0, stitches, times + 1))).astype(int).tolist()
        found = gaps(stitches, times)
        what = f"{stitches} stitches in {times} groups"
        yield Check(f"{what}: `diff(round(linspace))`", worded(theirs), worded(found))
        yield _line(stitches, times)
    for rounds, times in DATA["taper"]["cases"]:
        theirs = np.diff(np.floor(np.linspace(0, rounds, times + 1))).astype(int).tolist()
        intervals = [b - a for a, b in pairwise((0, *taper(times, rounds)))]
        what = f"{times} shaping rounds over {rounds}: `diff(floor(linspace))`"
        yield Check(what, worded(theirs), worded(intervals))
    yield from _arm()
    yield _mean()
    yield from _eases()


def _line(stitches: int, times: int) -> Check:
    """How far the places lie from the ideal line, beside the best that whole numbers can do."""
    places = np.cumsum(gaps(stitches, times))
    ideal = np.linspace(0, stitches, times + 1)[1:]
    # A constant shift goes round the round and is no unevenness.
    off = places - ideal
    return Check(
        f"{stitches} stitches in {times} groups: spread about Bresenham's line",
        (float(np.ptp(_bresenham(stitches, times) - ideal)),),
        (float(np.ptp(off)),),
        "sts",
    )


def _bresenham(stitches: int, times: int) -> np.ndarray:
    """Walk the line with whole numbers alone, as a plotter does."""
    places, error = [], 0
    for at in range(1, stitches + 1):
        error += times
        if error >= stitches:
            error -= stitches
            places.append(at)
    return np.array(places)


def _arm() -> Iterator[Check]:
    shares = np.linspace(0, 1, 101)
    for group, size in (("women", "M"), ("men", "L"), ("children", "8")):
        body = fill(project(sized(group, size)))[0]
        elbow = tables()[group].elbow_share
        girths = [body.cm(name) for name in ("upper_arm", "upper_arm", "elbow", "forearm", "wrist")]
        theirs = np.interp(shares, [0, 0.2, elbow, elbow + 0.125, 1], girths)
        ours = np.array([arm_cm(body, float(share)) for share in shares])
        what = f"{group}, {size}: girth at a hundred places of the arm, largest difference"
        yield Check(what, (0.0,), (float(np.abs(theirs - ours).max()),), "cm")


def _mean() -> Check:
    taken = DATA["readings"]
    per_cm = np.array(taken["counts"]) / np.array(taken["over_cm"])
    theirs = float(np.average(per_cm, weights=taken["over_cm"]))
    readings = [Reading(*pair) for pair in zip(taken["counts"], taken["over_cm"], strict=True)]
    return Check("three readings of a swatch: mean", (theirs,), (mean_per_cm(readings),), "per cm")


def _eases() -> Iterator[Check]:
    chests = np.arange(40.0, 170.0, 2.5)
    for name, share, least, most in (("classic", 0.08, 5.08, 10.16), ("loose", 0.13, 10.16, 15.24)):
        theirs = np.clip(share * chests, least, most)
        ours = np.array([ease_cm(name, float(chest)) for chest in chests])
        what = f'ease "{name}" at {len(chests)} chests: largest difference from `clip`'
        yield Check(what, (0.0,), (float(np.abs(theirs - ours).max()),), "cm")
