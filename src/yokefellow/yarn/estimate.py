"""Whether the yarn lasts: what the sweater needs, what there is, what is left, and how sure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import reduce
from types import MappingProxyType
from typing import NamedTuple

from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.quantities import LengthUnit, yarn_length
from yokefellow.rows.model import Feature, Schedule, made
from yokefellow.yarn.amounts import Amount, Span, of_grams, span
from yokefellow.yarn.count_stitches import MAIN, NOTHING, Counted, Part, parts_of
from yokefellow.yarn.evidence import Rates, rates
from yokefellow.yarn.extras import Edges, Extra, extras, have
from yokefellow.yarn.uncertainty import PRIOR, Knowledge, Source, Uncertain, total

TENSION_SPREAD = 0.015
"""How far the hand may differ from one section to another, one standard deviation, relative
(common practice, no source)."""


class YarnUse(NamedTuple):
    """What one section of the sweater costs, all its copies together."""

    key: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class YarnEstimate:
    """What the sweater costs of one yarn, and what is in the drawer."""

    code: str
    """`MC`, `CC1`, ..."""
    by_section: tuple[YarnUse, ...]
    """Every section in knitting order; nothing where the yarn is not worked."""
    knitted: Amount
    """All its stitches, and the strands behind the others; the best guess."""
    floats: int
    """Stitches it passes behind."""
    extras: tuple[tuple[str, Amount], ...]
    """`ends`, `tail`, `swatch`; below zero where it gives yarn back."""
    need: Span
    """Knitted and extras: the range that holds it, as sure as was asked."""
    needed: Amount
    """What there must be for the verdict `enough`."""
    stash: Amount
    have: Span
    left: Span
    """What stays over; below zero when short."""
    chance: float
    """The probability that it suffices."""
    sure: float
    """How sure a verdict must be, and how much the ranges hold: 0.9 is nine in ten."""
    verdict: str
    """`enough` or `short` when that is as sure as was asked, `close` between."""
    evidence: str
    """What the plain fabric's cost rests on: `weighed`, `unravelled` or `gauge`."""
    ratio: float
    """What a plain stitch costs beside what its gauge lets expect; 1 by the gauge alone."""
    weigh_after: str
    """The section after which a weighing tells most; empty when it has only one."""

    @property
    def extras_m(self) -> float:
        """Ends, tail and swatch, in m."""
        return sum(part.metres for _, part in self.extras)

    @property
    def left_m(self) -> float:
        """What stays over by the best guess, in m; below zero when short."""
        return self.left.mean.metres


@dataclass(frozen=True, slots=True)
class Reckoning:
    """Everything the yarn is reckoned from; a part can be put in another's place."""

    project: Project
    gauges: Gauges
    rates: Rates
    parts: tuple[Part, ...]
    cast_on: int
    """Stitches of the neck edge,"""
    cast_on_in: str
    """and the fabric in which it is cast on."""

    @property
    def codes(self) -> tuple[str, ...]:
        """The yarns the sweater uses, the main one first."""
        used = sorted({code for part in self.parts for code, _ in part.counts})
        return tuple(dict.fromkeys((MAIN, *used)))

    @property
    def sure(self) -> float:
        """How sure a verdict must be, from 0.5 to 0.99."""
        return self.project.weighing.sure / 100

    def with_parts(self, parts: Iterable[Part]) -> Reckoning:
        """Put parts in the places of those with the same keys."""
        new = {part.key: part for part in parts}
        return replace(self, parts=tuple(new.get(part.key, part) for part in self.parts))

    def knitting(self, code: str, parts: Iterable[Part] | None = None) -> Uncertain:
        """Give what stitches cost of one yarn, in g: of some parts, or of all."""
        counts: dict[tuple[str, str], Counted] = {}
        tension: dict[Source, float] = {}
        for part in self.parts if parts is None else parts:
            for at, spends in part.counts.items():
                if at[0] == code:
                    counts[at] = counts[at].plus(spends) if at in counts else spends
            if grams := self.rates.mean_g(code, part.counts):
                source = Source("tension", part.key)
                tension[source] = tension.get(source, 0.0) + TENSION_SPREAD * grams
        together = self.rates.grams(code, counts)
        return Uncertain(together.mean, {**together.by_source, **tension})

    def extras(self, code: str, knitted_g: float) -> tuple[Extra, ...]:
        """List what one yarn gives besides its stitches."""
        return extras(
            self.project,
            self.gauges,
            self.rates,
            code,
            knitted_g=knitted_g,
            edges=Edges(self.cast_on, self.cast_on_in, sum(part.tail for part in self.parts)),
        )

    def need(self, code: str, knitting: Uncertain | None = None) -> Uncertain:
        """Give what the sweater takes of one yarn, in g."""
        stitches = self.knitting(code) if knitting is None else knitting
        besides = self.extras(code, stitches.mean)
        return total([(1.0, stitches), *((1.0, extra.grams) for extra in besides)])

    def left(self, code: str, need: Uncertain | None = None) -> Uncertain:
        """Give what stays over of one yarn, in g."""
        taken = self.need(code) if need is None else need
        return total([(1.0, have(self.project, code)), (-1.0, taken)])

    def chance(
        self, code: str, *, knitting: Uncertain | None = None, knowledge: Knowledge = PRIOR
    ) -> float:
        """Give the probability that a yarn suffices."""
        return knowledge.of(self.left(code, self.need(code, knitting))).chance_above(0.0)

    def _needed(self, code: str, need: Uncertain, knowledge: Knowledge) -> float:
        """Give the grams that would be just enough; what a label leaves open grows with them."""
        there, mean = have(self.project, code), knowledge.of(need).mean
        labelled = not self.project.yarn[code].weights
        enough = mean
        for _ in range(3):  # each time a hundredth of the way that was left
            scaled = there.times(enough / there.mean) if labelled else there
            enough = mean + knowledge.of(total([(1.0, scaled), (-1.0, need)])).away(self.sure)
        return enough

    def estimates(self, knowledge: Knowledge = PRIOR) -> Mapping[str, YarnEstimate]:
        """Estimate every yarn the sweater uses, the main one first."""
        return MappingProxyType({code: self.estimate(code, knowledge) for code in self.codes})

    def estimate(self, code: str, knowledge: Knowledge = PRIOR) -> YarnEstimate:
        """Estimate one yarn."""
        yarn, sure = self.project.yarn[code], self.sure
        uses = tuple(YarnUse(part.key, self.rates.amount(code, part.counts)) for part in self.parts)
        counts = _together(self.parts, code)
        stitches = self.knitting(code)
        besides = self.extras(code, stitches.mean)
        need = total([(1.0, stitches), *((1.0, extra.grams) for extra in besides)])
        there = have(self.project, code)
        needs, has = knowledge.of(need), knowledge.of(there)
        left = knowledge.of(total([(1.0, there), (-1.0, need)]))
        chance = left.chance_above(0.0)
        return YarnEstimate(
            code=code,
            by_section=uses,
            knitted=of_grams(counts.loops, needs.mean - _mean(besides), yarn),
            floats=counts.floats,
            extras=tuple((e.what, of_grams(0, e.grams.mean, yarn)) for e in besides),
            need=_span(needs.mean, needs.away((1 + sure) / 2), counts.loops, self, code),
            needed=of_grams(counts.loops, self._needed(code, need, knowledge), yarn),
            stash=of_grams(0, has.mean, yarn),
            have=_span(has.mean, has.away((1 + sure) / 2), 0, self, code),
            left=_span(left.mean, left.away((1 + sure) / 2), 0, self, code),
            chance=chance,
            sure=sure,
            verdict="enough" if chance >= sure else "short" if chance <= 1 - sure else "close",
            evidence=self.rates.by[code, "plain"].evidence,
            ratio=self.rates.by[code, "plain"].ratio,
            weigh_after=_weigh_after(uses),
        )


def _mean(besides: Iterable[Extra]) -> float:
    return sum(extra.grams.mean for extra in besides)


def _span(mean_g: float, away_g: float, stitches: int, reckoning: Reckoning, code: str) -> Span:
    yarn = reckoning.project.yarn[code]
    return span(mean_g - away_g, mean_g, mean_g + away_g, yarn, stitches=stitches)


def _together(parts: Iterable[Part], code: str) -> Counted:
    here = (spends for part in parts for (yarn, _), spends in part.counts.items() if yarn == code)
    return reduce(lambda one, other: one.plus(other), here, NOTHING)


TELLING = 1 / 3
"""A weighing after this share of the yarn tells enough and leaves enough to change (our choice)."""


def _weigh_after(uses: Iterable[YarnUse]) -> str:
    here = [use for use in uses if use.amount.stitches]
    in_all = sum(use.amount.grams for use in here)
    so_far = 0.0
    for use in here[:-2]:
        so_far += use.amount.grams
        if so_far >= TELLING * in_all:
            return use.key
    return here[-2].key if len(here) > 1 else ""


def reckon(project: Project, gauges: Gauges, schedule: Schedule) -> Reckoning:
    """Count a schedule, and find what its stitches cost."""
    parts = parts_of(schedule)
    first = schedule.sections[0]
    return Reckoning(
        project=project,
        gauges=gauges,
        rates=rates(project, gauges, parts),
        parts=parts,
        cast_on=made(first.rows[0].steps) if first.rows[0].feature is Feature.CAST_ON else 0,
        cast_on_in=first.rows[0].fabric,
    )


_AFTER = {
    "neckband": "after the neckband",
    "cast_on": "after the cast-on",
    "front": "where the front is joined",
    "back_neck": "after the short rows of the neck",
    "yoke": "after the yoke",
    "split": "after the yoke",
    "body": "before the hem",
    "hem": "after the body",
    "sleeve": "before the cuffs",
    "cuff": "before the neckband",
}


def verdict_words(estimate: YarnEstimate, unit: LengthUnit, *, colour: str = "") -> str:
    """Say whether a yarn lasts.

    Args:
        estimate: of the yarn.
        unit: `in` tells yards with the metres beside them.
        colour: what to call it, such as `dark`; its code when empty.
    """
    left = estimate.left
    if estimate.verdict == "enough":
        there = f"{estimate.stash.grams:.0f} g"
        return f"Enough: about {max(0.0, left.mean.grams):.0f} g of the {there} left."
    if estimate.verdict == "close":
        when = _AFTER.get(estimate.weigh_after, "halfway")
        return f"Too close to call: weigh again {when}."
    of = f"the {colour}" if colour else estimate.code
    least, most = -left.high.metres, -left.low.metres
    if round(least) <= 0:
        return f"Short by up to {yarn_length(most, unit)} of {of}."
    if unit == "cm":
        return f"Short by {least:,.0f}–{most:,.0f} m of {of}."
    return f"Short by {yarn_length(least, unit)} to {yarn_length(most, unit)} of {of}."
