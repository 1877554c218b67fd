"""The body below the underarm: how many rounds, where the sides change, how the hem ends."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType

from yokefellow.fit import BodyFit
from yokefellow.gauge import Gauges
from yokefellow.shaping.counts import Count, nearest, rounds_for
from yokefellow.shaping.shapes import BodyShape
from yokefellow.shaping.taper import taper

__all__ = ["RIB_REPEAT", "body_shape"]

RIB_REPEAT = MappingProxyType({"1x1": 2, "2x2": 4, "twisted": 2})
"""Stitches in one repeat of each rib."""

CHANGE = 4
"""Stitches of one shaping round: a pair at each side."""

PLAIN_CM = 2.5
"""Plain rounds below the underarm, and on each side of the waist (common practice)."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of the body over which the count goes to another one."""

    first: int
    last: int
    to: int


def body_shape(*, stitches: int, fit: BodyFit, gauges: Gauges, rib: str) -> BodyShape:
    """Give the body's rounds and changes.

    Args:
        stitches: round the body right below the underarm.
        fit: the finished body.
        gauges: of the plain fabric and the rib.
        rib: the hem's rib.
    """
    plain = gauges.plain
    rounds = rounds_for(fit.length_cm - fit.hem_cm, per_cm=plain.rounds_per_cm, least=3)
    waist = _waist(stitches, fit, plain.stitches_per_cm)
    changes: tuple[tuple[int, int], ...] = ()
    now = fewest = stitches
    for stretch in _stretches(stitches, fit, rounds.got, gauges, waist):
        added = _changes(now, stretch)
        changes += added
        now += sum(change for _, change in added)
        fewest = min(fewest, now)
    wanted = fit.edge_cm * plain.stitches_per_cm
    hem = nearest(now * (1 - fit.gather), multiple=RIB_REPEAT[rib], least=8)
    return BodyShape(
        rounds=rounds,
        changes=changes,
        edge=Count(now, wanted, plain.stitches_per_cm),
        hem_stitches=hem,
        hem_rounds=rounds_for(fit.hem_cm, per_cm=gauges.rib.rounds_per_cm),
        rib=rib,
        waist=waist and replace(waist, got=fewest),
    )


def _waist(stitches: int, fit: BodyFit, per_cm: float) -> Count | None:
    """Give the stitches at the waist: pairs of two at each side, never more than the body."""
    if fit.shape != "waist":
        return None
    wanted = fit.waist_cm * per_cm
    got = nearest(wanted, multiple=CHANGE, remainder=stitches % CHANGE, least=CHANGE * 2)
    return Count(min(got, stitches), wanted, per_cm)


def _stretches(
    stitches: int, fit: BodyFit, rounds: int, gauges: Gauges, waist: Count | None
) -> tuple[_Stretch, ...]:
    per_cm = gauges.plain.rounds_per_cm
    margin = nearest(PLAIN_CM * per_cm, least=1)
    if fit.shape == "straight":
        return ()
    edge = nearest(
        fit.edge_cm * gauges.plain.stitches_per_cm,
        multiple=CHANGE,
        remainder=stitches % CHANGE,
        least=CHANGE * 2,
    )
    if waist is None:
        return (_Stretch(margin + 1, rounds - 1, max(edge, stitches)),)
    at = nearest(fit.waist_at_cm * per_cm)
    inward = _Stretch(margin + 1, min(at - margin // 2, rounds - 1), waist.got)
    outward = _Stretch(at + margin // 2, rounds - 1, max(edge, waist.got))
    return (inward, outward)


def _changes(now: int, stretch: _Stretch) -> tuple[tuple[int, int], ...]:
    """Spread the changes over the stretch, as many as it holds two rounds apart."""
    length = stretch.last - stretch.first + 1
    events = min(abs(stretch.to - now) // CHANGE, max(0, length // 2))
    sign = CHANGE if stretch.to > now else -CHANGE
    return tuple((stretch.first - 1 + place, sign) for place in taper(events, length) if events)
