"""A sleeve below the underarm: picked up, tapered, and ended in a cuff that suits the arm there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import ceil, floor

from yokefellow.fit import SleeveFit
from yokefellow.gauge import Gauge, Gauges
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.edges.edges import Finishing, edge_gauge, edge_multiple, edge_shape
from yokefellow.shaping.model import SleeveShape
from yokefellow.shaping.pieces.piece_bands import Banding, piece_rounds
from yokefellow.shaping.pieces.taper import bent_taper

__all__ = ["sleeve_shape"]

BEFORE_CM = 2.5
"""Plain rounds below the underarm before the first decrease (common practice)."""

AFTER_CM = 1.0
"""Plain rounds between the last decrease and the cuff (common practice)."""

MOST_AT_ONCE = 1 / 3
"""Share of the stitches that the adjusting round may decrease: [k1, k2tog] (common practice).
A sleeve too short to narrow any further keeps a wider cuff."""

LEAST_EDGE = 6
"""Fewer stitches make no edge to put a hand through."""

OPENING_ROUNDS = 2
"""The pick-up round and the one that closes the corners."""


def sleeve_shape(
    *,
    stitches: int,
    fit: SleeveFit,
    gauges: Gauges,
    choices: Finishing,
    pinned_rounds: int | None = None,
    pinned_edge: int | None = None,
    bands: Sequence[Banding] = (),
) -> SleeveShape:
    """Give the sleeve's rounds, the rounds that decrease, and its cuff.

    The decreases are pairs at the underarm line, spread evenly between a
    little below the underarm and a little above the cuff; or later, where the
    sleeve would otherwise lie inside the elbow or the forearm. What pairs cannot do
    (a short sleeve, a rib that does not fit) an adjusting round before the
    cuff does.

    Args:
        stitches: S, round the sleeve right below the underarm.
        fit: the finished sleeve.
        gauges: of every fabric.
        choices: how the cuff is finished.
        pinned_rounds: above the cuff, where they are given.
        pinned_edge: stitches of the cuff, where they are given.
        bands: whose rounds it leaves room for; `banded_sleeve` puts them in.
    """
    plain = gauges.plain
    rounds = piece_rounds(fit.length_cm - fit.cuff_cm, bands, plain=plain, least=OPENING_ROUNDS + 1)
    rounds = replace(rounds, got=pinned_rounds or rounds.got)
    per_cm = edge_gauge(choices, gauges).counted_per_cm
    wanted = fit.edge_cm * per_cm
    repeat = edge_multiple(choices)
    edge = _edge(wanted, repeat, stitches)
    if edge > stitches:
        # Never wider than its own top, which the percentage system may make narrow.
        edge = stitches - stitches % repeat
    first = OPENING_ROUNDS + nearest(_share(BEFORE_CM, fit) * plain.rounds_per_cm, least=0)
    last = rounds.got - nearest(_share(AFTER_CM, fit) * plain.rounds_per_cm, least=1)
    room = max(0, last - first)
    edge = pinned_edge or edge
    wished = min(max(0, stitches - edge) // 2, room // 2)
    places = bent_taper(wished, room, _bends(stitches, fit, plain, after=first))
    left = stitches - 2 * len(places)
    narrowest = left - floor(left * MOST_AT_ONCE)
    if edge < narrowest and not pinned_edge:
        edge += repeat * ceil((narrowest - edge) / repeat)
    return SleeveShape(
        rounds=rounds,
        decreases=tuple(first + place for place in places),
        edge=Count(edge, wanted, per_cm),
        cuff=edge_shape(
            choices, gauges, depth_cm=fit.cuff_cm, stitches=edge, passes_cm=fit.passes_cm
        ),
        own_per_cm=None if per_cm == plain.stitches_per_cm else plain.stitches_per_cm,
    )


def _edge(wanted: float, repeat: int, stitches: int) -> int:
    """Give the count of the cuff: one that pairs of decreases reach, where no repeat forbids it."""
    least = max(LEAST_EDGE, repeat * 3)
    if repeat == 1:
        return nearest(wanted, multiple=2, remainder=stitches % 2, least=least)
    return nearest(wanted, multiple=repeat, least=least)


def _bends(stitches: int, fit: SleeveFit, plain: Gauge, *, after: int) -> list[tuple[int, int]]:
    """Give the most pairs that may be gone where the arm is wide, at rounds after `after`."""
    return [
        (
            nearest(at_cm * plain.rounds_per_cm) - after,
            floor((stitches - around_cm * plain.stitches_per_cm) / 2),
        )
        for at_cm, around_cm in fit.arm_at_cm
    ]


def _share(margin_cm: float, fit: SleeveFit) -> float:
    """Cut the margin on a sleeve too short to give it whole."""
    return min(margin_cm, 0.15 * fit.length_cm)
