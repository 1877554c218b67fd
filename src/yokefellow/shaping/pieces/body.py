"""The body below the underarm: how many rounds, where the sides change, how the hem ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple, TypeAlias

from yokefellow.fit import BodyFit, BustFit
from yokefellow.gauge import Gauges
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.edges.edges import Finishing, edge_gauge, edge_shape, edge_stitches
from yokefellow.shaping.model import BodyShape, SideChange
from yokefellow.shaping.pieces.darts import BEGIN_CM, OUTSIDE_CM, Dart, dart
from yokefellow.shaping.pieces.piece_bands import Banding, piece_rounds
from yokefellow.shaping.pieces.taper import taper

__all__ = ["body_shape"]

CHANGE = 2
"""Stitches that a shaping round changes of the front, and of the back: one at each side."""

PLAIN_CM = 2.5
"""Plain rounds below the underarm, and half of it above the waist (common practice)."""


class _Stretch(NamedTuple):
    """A stretch of the body over which front and back go to other counts."""

    first: int
    last: int
    front: int
    back: int


def body_shape(
    *,
    stitches: int,
    fit: BodyFit,
    gauges: Gauges,
    choices: Finishing,
    front: int | None = None,
    pinned_rounds: int | None = None,
    pinned_hem: int | None = None,
    bands: Sequence[Banding] = (),
) -> BodyShape:
    """Give the body's rounds and changes.

    Args:
        stitches: round the body right below the underarm.
        fit: the finished body.
        gauges: of every fabric.
        choices: how the hem is finished.
        front: of these stitches, those of the front; half when not given.
        pinned_rounds: above the hem, where they are given.
        pinned_hem: stitches of the hem, where they are given.
        bands: whose rounds it leaves room for; `banded_body` puts them in.
    """
    plain = gauges.plain
    rounds = piece_rounds(fit.length_cm - fit.hem_cm, bands, plain=plain, least=3)
    rounds = replace(rounds, got=pinned_rounds or rounds.got)
    halves = _halves(stitches, front)
    changes = _growing(halves[0], fit, rounds.got, gauges)
    now = _after(halves, changes)
    growing = changes[-1].number if changes else 0
    fullest = Count(sum(now), fit.chest_cm * plain.stitches_per_cm, plain.stitches_per_cm)
    darts = _darts(now, fit, rounds.got, gauges, after=growing)
    busy = max([0, *(change.number for change in changes), *(dart.number + 1 for dart in darts)])
    waist = _waist(now, fit, plain.stitches_per_cm)
    fewest = stitches
    for stretch in _stretches(now, fit, rounds.got, gauges, waist, busy=busy):
        added = _changes(now, stretch)
        changes += added
        now = _after(now, added)
        fewest = min(fewest, sum(now))
    wanted = fit.edge_cm * plain.stitches_per_cm
    edge = sum(now)
    hem_per_cm = edge_gauge(choices, gauges).counted_per_cm
    hem = pinned_hem or edge_stitches(choices, gauges, edge, gather=fit.gather, least=8)
    return BodyShape(
        rounds=rounds,
        front=halves[0],
        changes=changes,
        edge=Count(edge, wanted, plain.stitches_per_cm),
        hem_stitches=hem,
        hem=edge_shape(choices, gauges, depth_cm=fit.hem_cm, stitches=hem, passes_cm=fit.passes_cm),
        waist=Count(fewest, fit.waist_cm * plain.stitches_per_cm, plain.stitches_per_cm)
        if waist
        else None,
        darts=darts,
        fullest=fullest if growing else None,
        own_hem_per_cm=None if hem_per_cm == plain.stitches_per_cm else hem_per_cm,
    )


def _growing(front: int, fit: BodyFit, rounds: int, gauges: Gauges) -> tuple[SideChange, ...]:
    """Let the front grow at its sides before the fullest part: two stitches a round.

    Where there are too few rounds above it, two rounds apart, the last come a
    little below.
    """
    plain = gauges.plain
    events = nearest(fit.bust.grows_cm * plain.stitches_per_cm / CHANGE, least=0)
    bust = fit.bust
    by_cm = min(bust.at_cm, _begin_cm(bust)) if bust.front_cm else bust.at_cm
    last = max(nearest(by_cm * plain.rounds_per_cm, least=1), 1 + 2 * events)
    stretch = _Stretch(2, min(last, rounds - 2), front + CHANGE * events, 0)
    return tuple(
        SideChange(number, added, 0, for_bust=True)
        for number, added in _places(front, stretch.front, stretch).items()
    )


def _darts(
    halves: _Halves, fit: BodyFit, rounds: int, gauges: Gauges, *, after: int
) -> tuple[Dart, ...]:
    """Plan the darts, the front's first; a round apart at least, for each closes its gaps."""
    plain, bust = gauges.plain, fit.bust
    clear = (bust.points_cm + 2 * OUTSIDE_CM) * plain.stitches_per_cm
    found: list[Dart] = []
    for half, stitches, cm in zip(
        ("front", "back"), halves, (bust.front_cm, bust.back_cm), strict=True
    ):
        begin_cm = _begin_cm(bust) if half == "front" else BEGIN_CM
        first = max([after + 1, *(dart.number + 2 for dart in found)])
        number = max(first, min(nearest(begin_cm * plain.rounds_per_cm) + 1, rounds - 2))
        made = dart(
            half,
            number=number,
            stitches=stitches,
            length_cm=cm,
            clear=clear,
            rows_per_cm=plain.rounds_per_cm,
        )
        if made and number <= rounds - 2:
            found.append(made)
    return tuple(found)


def _begin_cm(bust: BustFit) -> float:
    """Give where the front's dart begins, so that it ends at the fullest part where it can."""
    return max(BEGIN_CM, bust.at_cm - bust.front_cm)


_Halves: TypeAlias = tuple[int, int]
"""Stitches of the front and of the back."""


def _halves(stitches: int, front: int | None) -> _Halves:
    front = stitches // 2 if front is None else front
    return front, stitches - front


def _after(now: _Halves, changes: tuple[SideChange, ...]) -> _Halves:
    return now[0] + sum(c.front for c in changes), now[1] + sum(c.back for c in changes)


def _half_of(wanted: float, half: int) -> int:
    """Give half of a wanted count, reached from `half` by one stitch at each side."""
    return nearest(wanted / 2, multiple=CHANGE, remainder=half % CHANGE, least=CHANGE * 2)


def _waist(halves: _Halves, fit: BodyFit, per_cm: float) -> _Halves | None:
    """Give the stitches at the waist, never more than the body: front and back are alike there."""
    if fit.shape != "waist":
        return None
    front, back = (min(half, _half_of(fit.waist_cm * per_cm, half)) for half in halves)
    return front, back


def _stretches(
    halves: _Halves,
    fit: BodyFit,
    rounds: int,
    gauges: Gauges,
    waist: _Halves | None,
    *,
    busy: int,
) -> tuple[_Stretch, ...]:
    """Give the stretches over which the sides are shaped, below the last round that is `busy`."""
    per_cm = gauges.plain.rounds_per_cm
    margin = nearest(PLAIN_CM * per_cm, least=1)
    start = max(margin, busy) + 1
    if fit.shape == "straight":
        return ()
    edge = fit.edge_cm * gauges.plain.stitches_per_cm
    least = halves if waist is None else waist
    front, back = (max(low, _half_of(edge, half)) for low, half in zip(least, halves, strict=True))
    if waist is None:
        return (_Stretch(start, rounds - 1, front, back),)
    at = nearest(fit.waist_at_cm * per_cm)
    inward = _Stretch(start, min(at - margin // 2, rounds - 1), *waist)
    # Widening begins right below the waist: the hips are near, and a short stretch would flare.
    below = max(at + 1, start)
    hip = max(below + 1, nearest(fit.hip_at_cm * per_cm))
    outward = _Stretch(below, min(hip, rounds - 1), front, back)
    return (inward, outward)


def _changes(now: _Halves, stretch: _Stretch) -> tuple[SideChange, ...]:
    """Spread the changes of front and back over the stretch, as many as it holds."""
    front = _places(now[0], stretch.front, stretch)
    back = _places(now[1], stretch.back, stretch)
    # The half that changes less does so together with the other: fewer kinds of round to read.
    if len(front) < len(back):
        front = _among(back, front)
    else:
        back = _among(front, back)
    return tuple(
        SideChange(number, front.get(number, 0), back.get(number, 0))
        for number in sorted({*front, *back})
    )


def _among(many: dict[int, int], few: dict[int, int]) -> dict[int, int]:
    """Move the fewer changes into rounds of the more, spread evenly among them."""
    rounds = list(many)
    at = (rounds[place - 1] for place in taper(len(few), len(many)))
    return dict(zip(at, few.values(), strict=True))


def _places(now: int, to: int, stretch: _Stretch) -> dict[int, int]:
    """Give the rounds in which one half changes, two rounds apart at the least, and how."""
    length = stretch.last - stretch.first + 1
    events = min(abs(to - now) // CHANGE, max(0, length // 2))
    sign = CHANGE if to > now else -CHANGE
    return {stretch.first - 1 + place: sign for place in taper(events, length)} if events else {}
