"""What a stitch costs, by the best evidence there is, and how sure that is.

A swatch on the scale before a length unravelled, and that before the gauge.
Every fabric's cost is Munden's times a ratio; what was weighed or unravelled
gives the ratio, and a fabric without evidence of its own borrows the plain one's.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project, Swatch, Yarn
from yokefellow.yarn.amounts import Amount, of_grams
from yokefellow.yarn.count_stitches import NOTHING, Counted, Counts, Part, loop_cm
from yokefellow.yarn.uncertainty import Source, Uncertain, total

MODEL_SPREAD = 0.07
"""How far hand knitting may lie from Munden's machine knitting, one standard deviation,
relative; common practice, no source: his three states of relaxation span 11 %."""

BORROWED_SPREAD = 0.05
"""The same for a rib or a pattern that borrows the plain fabric's ratio (common practice)."""

COUNTING_SPREAD = 0.01
"""Stitches of a weighed swatch miscounted, its edges uneven, its ends (common practice)."""

MEASURING_SPREAD = 0.01
"""A length of unravelled yarn, more or less stretched (common practice, no source)."""

PUT_UP = 0.05
"""Metres in a gram may differ by this share from the band, as likely anywhere between
(common practice, no source)."""

_PUT_UP_SD = PUT_UP / 3**0.5
_LIKE_PLAIN = frozenset({"plain", "stripes", "facing"})

Relative = Mapping[Source, float]
"""How far one standard deviation of each source moves something, relative to it."""


class Cost(NamedTuple):
    """What one yarn costs in one fabric, in g, all its strands."""

    loop: Uncertain
    """One stitch."""
    floating: Uncertain
    """One stitch width of strand behind the work."""
    ratio: float
    """What it costs beside what Munden's geometry has."""
    evidence: str
    """`weighed`, `unravelled`, `borrowed` or `gauge`."""


@dataclass(frozen=True, slots=True)
class Rates:
    """What every yarn costs in every fabric."""

    by: Mapping[tuple[str, str], Cost]
    yarns: Mapping[str, Yarn]

    def grams(self, code: str, counts: Counts) -> Uncertain:
        """Give what some knitting costs of one yarn, in g."""
        return total(
            pair
            for (yarn, fabric), spends in counts.items()
            if yarn == code
            for pair in (
                (spends.loops, self.by[code, fabric].loop),
                (spends.floats, self.by[code, fabric].floating),
            )
        )

    def mean_g(self, code: str, counts: Counts) -> float:
        """Give what some knitting costs of one yarn, in g, without its spread."""
        grams = 0.0
        for at, spends in counts.items():
            if at[0] == code:
                cost = self.by[at]
                grams += spends.loops * cost.loop.mean + spends.floats * cost.floating.mean
        return grams

    def amount(self, code: str, counts: Counts) -> Amount:
        """Tell what some knitting costs of one yarn, four ways, without its spread."""
        loops = sum(spends.loops for (yarn, _), spends in counts.items() if yarn == code)
        return of_grams(loops, self.mean_g(code, counts), self.yarns[code])


class _Ratio(NamedTuple):
    value: float
    off_by: Relative
    evidence: str


class _Mean(NamedTuple):
    """What one stitch of a fabric costs on average by the model, in all its yarns."""

    cost: float
    loops_share: float
    """Of the cost; the rest is strands."""
    by_yarn: Mapping[str, float]
    """Each yarn's share of the cost."""


class _Desk(NamedTuple):
    project: Project
    gauges: Gauges
    by_fabric: Mapping[str, Mapping[str, Counted]]

    def loop_m(self, fabric: str) -> float:
        return loop_cm(self.gauges.of(fabric), self.project.weighing.relaxed) / 100

    def width_m(self, fabric: str) -> float:
        return 0.01 / self.gauges.of(fabric).stitches_per_cm

    def gauge_moves(self, fabric: str, *, stitches: float, rounds: float) -> Relative:
        """Say how the errors of the fabric's own gauge, or the one that stands in, move it."""
        of = self.gauges.swatched_as(fabric)
        gauge = self.gauges.of(fabric)
        return {
            Source("stitches", of): stitches * gauge.stitch_spread,
            Source("rounds", of): rounds * gauge.round_spread,
        }

    def mean(self, fabric: str, *, in_grams: bool) -> _Mean:
        """Give the mean cost of one stitch, slipped ones counted as stitches too."""
        loops_cost = all_cost = 0.0
        places = 0
        by_yarn: dict[str, float] = {}
        for code, spends in self.by_fabric[fabric].items():
            yarn = self.project.yarn[code]
            each = yarn.strands * yarn.ball_weight / yarn.ball_length if in_grams else 1.0
            loops = each * spends.loops * self.loop_m(fabric)
            cost = loops + each * spends.floats * self.width_m(fabric)
            loops_cost, all_cost = loops_cost + loops, all_cost + cost
            by_yarn[code] = cost
            places += spends.loops + spends.slipped
        shares = {code: cost / all_cost for code, cost in by_yarn.items()}
        return _Mean(all_cost / places, loops_cost / all_cost, shares)


def rates(project: Project, gauges: Gauges, parts: Iterable[Part]) -> Rates:
    """Find what every yarn costs in every fabric it is knitted in, and in the plain one."""
    by_fabric: dict[str, dict[str, Counted]] = {}
    for part in parts:
        for (code, fabric), spends in part.counts.items():
            here = by_fabric.setdefault(fabric, {})
            here[code] = here.get(code, NOTHING).plus(spends)
    desk = _Desk(project, gauges, by_fabric)
    plain = _own_ratio(desk, "plain") or _Ratio(1.0, {Source("model", ""): MODEL_SPREAD}, "gauge")
    worked = [(code, fabric) for fabric, by_yarn in by_fabric.items() for code in by_yarn]
    found: dict[tuple[str, str], Cost] = {}
    for code, fabric in (*worked, *((code, "plain") for code, _ in worked)):
        ratio = _own_ratio(desk, fabric) or _borrowed(plain, fabric)
        found[code, fabric] = _cost(desk, code, fabric, ratio)
    return Rates(MappingProxyType(found), project.yarn)


def _own_ratio(desk: _Desk, fabric: str) -> _Ratio | None:
    """Compare a fabric's own swatch with the model; None where it was not weighed or pulled out."""
    swatch: Swatch | None = getattr(desk.project.swatch, fabric, None)
    if swatch is None or not desk.by_fabric.get(fabric):
        return None
    if swatch.weighed is not None:
        each = swatch.weighed.weight / (swatch.weighed.stitches * swatch.weighed.rounds)
        mean = desk.mean(fabric, in_grams=True)
        scale = scale_sd(desk.project) / swatch.weighed.weight
        own: Relative = {
            Source("scale", fabric): scale,
            Source("counting", fabric): COUNTING_SPREAD,
            # A yarn longer than its band says costs less in the model, so the ratio is more.
            **{Source("put-up", y): share * _PUT_UP_SD for y, share in mean.by_yarn.items()},
        }
        evidence = "weighed"
    elif swatch.unravelled is not None:
        each = swatch.unravelled.length / swatch.unravelled.stitches
        mean = desk.mean(fabric, in_grams=False)
        own = {Source("measuring", fabric): MEASURING_SPREAD}
        evidence = "unravelled"
    else:
        return None
    moves = desk.gauge_moves(fabric, stitches=1 - mean.loops_share / 2, rounds=mean.loops_share / 2)
    return _Ratio(each / mean.cost, _added(own, moves), evidence)


def _borrowed(plain: _Ratio, fabric: str) -> _Ratio:
    if fabric in _LIKE_PLAIN:
        return plain
    evidence = plain.evidence if plain.evidence == "gauge" else "borrowed"
    own = {Source("borrowed", fabric): BORROWED_SPREAD}
    return _Ratio(plain.value, _added(plain.off_by, own), evidence)


def _cost(desk: _Desk, code: str, fabric: str, ratio: _Ratio) -> Cost:
    yarn = desk.project.yarn[code]
    grams = ratio.value * yarn.strands * yarn.ball_weight / yarn.ball_length
    put_up = {Source("put-up", code): -_PUT_UP_SD}
    loop = desk.gauge_moves(fabric, stitches=-0.5, rounds=-0.5)
    width = desk.gauge_moves(fabric, stitches=-1.0, rounds=0.0)
    return Cost(
        loop=_uncertain(grams * desk.loop_m(fabric), _added(ratio.off_by, put_up, loop)),
        floating=_uncertain(grams * desk.width_m(fabric), _added(ratio.off_by, put_up, width)),
        ratio=ratio.value,
        evidence=ratio.evidence,
    )


def _uncertain(mean: float, moves: Relative) -> Uncertain:
    return Uncertain(mean, {source: mean * by for source, by in moves.items()})


def _added(*several: Relative) -> Relative:
    found: dict[Source, float] = {}
    for moves in several:
        for source, by in moves.items():
            found[source] = found.get(source, 0.0) + by
    return found


def scale_sd(project: Project) -> float:
    """Give the standard deviation of one reading of the kitchen scale, in g.

    It shows the nearest step: an error as likely anywhere within half a step.
    """
    return project.weighing.scale / 12**0.5
