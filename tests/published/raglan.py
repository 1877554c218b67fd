"""Raglan lines beside the percentage system's, and beside the arithmetic of two rates."""

from __future__ import annotations

from collections.abc import Iterator

from tests.published import published
from tests.published.check import Check
from tests.published.percentages import by_percentage
from yokefellow.shaping.model import RaglanShape
from yokefellow.shaping.raglan.rates import rates, rounds_of

DATA = published("raglan")
PIECES = ("back", "front", "sleeve")


def checks() -> Iterator[Check]:
    """A whole raglan by percentage, compound rates, and the depth."""
    yield from _system()
    for one in DATA["compound"]:
        found = rates(one["increases"], one["rounds"])
        yield Check(
            f"{one['what']}: every 2nd round, every 4th, and the last round",
            (one["fast"], one["slow"], one["rounds"]),
            (*(rate.times for rate in found), rounds_of(found)[-1]),
        )
    yield _depth()


def _raglan() -> RaglanShape:
    made = by_percentage(DATA["system"]["body"], "percentage 1971", "7", style="raglan")
    assert isinstance(made.shape.yoke, RaglanShape)
    return made.shape.yoke


def _system() -> Iterator[Check]:
    said, yoke = DATA["system"], _raglan()
    pieces = (yoke.back, yoke.front, yoke.sleeve)
    yield Check("K = 200: rounds of the yoke", (said["rounds"],), (yoke.rounds.got,), "rounds")
    yield Check("K = 200: neck", (said["neck"],), (yoke.start,), "sts")
    yield Check(
        "K = 200: back, front and a sleeve at the neck",
        tuple(said["start"][name] for name in PIECES),
        tuple(piece.start for piece in pieces),
        "sts",
    )
    yield Check(
        "K = 200: back, front and a sleeve at the underarm",
        tuple(said["end"][name] for name in PIECES),
        tuple(piece.stitches_at(yoke.rounds.got) for piece in pieces),
        "sts",
    )
    yield Check(
        "K = 200: increase rounds of back, front and a sleeve",
        (said["increases"],) * 3,
        tuple(len(piece.rounds) for piece in pieces),
        "rounds",
    )


def _depth() -> Check:
    said = DATA["depth"]
    last = rounds_of(rates(said["increases"], 2 * said["increases"]))[-1]
    return Check(
        "25 increase rounds at 7 rows to the inch: depth",
        (said["inches"],),
        (last / said["rows_per_in"],),
        "in",
        within=said["within"],
        why=said["why"],
    )
