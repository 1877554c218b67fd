"""What the scale teaches: the declared errors, corrected by what was weighed.

The sources of error are independent unknowns of mean 0 and standard deviation
1; a reading is a known sum of them and the scale's own error. Given the
readings they are again normal, with the mean and variance of the conjugate
normal model (A. Gelman and others, *Bayesian Data Analysis*, 3rd edition, 2013,
sections 2.5 and 3.5, from memory). With one source and one reading it is the
mean of prior and evidence, each weighted by its precision.

A number and all that may be wrong with it, kept apart by where it comes from.

Each source of error (the label of a ball, a reading of the scale, the gauge) is
one unknown with mean 0 and standard deviation 1; a quantity holds how far each
moves it. What two quantities share then cancels or adds up as it should, which
a single plus-or-minus could not do. Errors are small, so everything is linear
in them (the usual propagation of errors; JCGM 100:2008, "Guide to the
expression of uncertainty in measurement", section 5, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul
from statistics import NormalDist
from types import MappingProxyType
from typing import NamedTuple, Protocol


class Source(NamedTuple):
    """Where an error comes from."""

    kind: str
    """`put-up`, `scale`, `stitches`, `rounds`, `model`, ..."""
    of: str
    """Of which yarn, swatch or section."""


FLAT = frozenset({"put-up", "scale"})
"""Kinds of error that are as likely anywhere between their limits, and never outside."""


class Uncertain(NamedTuple):
    """A quantity and how far one standard deviation of each source moves it."""

    mean: float
    by_source: Mapping[Source, float]

    @property
    def sd(self) -> float:
        """Its standard deviation, all sources together."""
        return math.sqrt(sum(by * by for by in self.by_source.values()))

    def times(self, factor: float) -> Uncertain:
        """Give a known multiple of it."""
        return total([(factor, self)])

    def varied(self, source: Source, relative: float) -> Uncertain:
        """Give the same with one more source of its own, relative to its mean."""
        moved = {**self.by_source, source: self.by_source.get(source, 0.0) + relative * self.mean}
        return Uncertain(self.mean, moved)


def certain(value: float) -> Uncertain:
    """Give a quantity that is known."""
    return Uncertain(value, MappingProxyType({}))


def total(terms: Iterable[tuple[float, Uncertain]]) -> Uncertain:
    """Add known multiples of quantities, source by source."""
    mean = 0.0
    by_source: dict[Source, float] = {}
    for factor, term in terms:
        mean += factor * term.mean
        for source, by in term.by_source.items():
            by_source[source] = by_source.get(source, 0.0) + factor * by
    return Uncertain(mean, by_source)


class Belief(NamedTuple):
    """What is believed of a quantity: a normal spread, and a flat one around it."""

    mean: float
    normal_sd: float
    flat: float = 0.0
    """Half the width of the largest flat error; the smaller ones count as normal."""

    @property
    def sd(self) -> float:
        """The standard deviation, both parts together."""
        return math.sqrt(self.normal_sd**2 + self.flat**2 / 3)

    def chance_above(self, value: float) -> float:
        """Give the probability that it is more than `value`."""
        return 1.0 - self._below(value - self.mean)

    def away(self, chance: float) -> float:
        """Give how far above the mean it stays with this probability, from 0.5 up.

        Newton's way from the mean outwards: the curve bends one way there, so
        that it never oversteps.
        """
        if self._is_normal:
            return self.sd * _quantile(chance)
        at, near = 0.0, 1e-9 * self.sd
        for _ in range(60):
            below, density = self._blurred(at)
            step = (chance - below) / max(density, 1e-300)
            at += step
            if abs(step) < near:
                break
        return at

    def between(self, sure: float) -> tuple[float, float]:
        """Give the range that holds it with this probability, as much out on either side."""
        away = self.away((1.0 + sure) / 2)
        return self.mean - away, self.mean + away

    def _below(self, away: float) -> float:
        """Give the probability of less than `away` from the mean."""
        if self._is_normal:
            return _phi(away / self.sd) if self.sd else float(away >= 0)
        return self._blurred(away)[0]

    @property
    def _is_normal(self) -> bool:
        """Tell whether the flat part is too small beside the normal one to matter."""
        return self.flat <= 1e-3 * max(self.normal_sd, _LEAST_SD)

    def _blurred(self, away: float) -> tuple[float, float]:
        """Give the probability of less than `away`, and its density there: a flat spread blurred.

        The integral of the normal distribution from one end of the flat spread to the other.
        """
        sd, width = max(self.normal_sd, _LEAST_SD), 2 * self.flat
        high, low = (away + self.flat) / sd, (away - self.flat) / sd
        to_high, to_low = _phi(high), _phi(low)
        under = high * to_high + _bell(high) - low * to_low - _bell(low)
        return min(1.0, max(0.0, sd * under / width)), (to_high - to_low) / width


_LEAST_SD = 1e-12
_ROOT_2 = math.sqrt(2)
_ROOT_2_PI = math.sqrt(2 * math.pi)


def _phi(at: float) -> float:
    return 0.5 * math.erfc(-at / _ROOT_2)


def _bell(at: float) -> float:
    return math.exp(-at * at / 2) / _ROOT_2_PI


@lru_cache(maxsize=64)
def _quantile(chance: float) -> float:
    """Give how many standard deviations above its mean a normal quantity stays with `chance`."""
    return NormalDist().inv_cdf(chance)


class Knowledge(Protocol):
    """What is known of the sources, and so of every quantity."""

    def of(self, quantity: Uncertain) -> Belief:
        """Give what is believed of a quantity."""
        ...


@dataclass(frozen=True, slots=True)
class _Prior:
    """Before anything was weighed: every source as it was declared."""

    def of(self, quantity: Uncertain) -> Belief:
        """Put the largest flat source apart; the rest, being many, is near enough normal."""
        flats = [by * by for source, by in quantity.by_source.items() if source.kind in FLAT]
        largest = max(flats, default=0.0)
        rest = sum(by * by for by in quantity.by_source.values()) - largest
        return Belief(quantity.mean, math.sqrt(max(rest, 0.0)), math.sqrt(3 * largest))


PRIOR: Knowledge = _Prior()
"""What is known before the first weighing."""


class Observation(NamedTuple):
    """A reading of a quantity."""

    quantity: Uncertain
    read: float
    sd: float
    """Of the reading itself; above 0."""


class _Learned(NamedTuple):
    """The sources as they are known after the readings."""

    seen: tuple[Observation, ...]
    root: tuple[tuple[float, ...], ...]
    """The lower triangle L with L·Lᵀ the covariance of the readings (Cholesky)."""
    surprise: tuple[float, ...]
    """L⁻¹ times how far each reading lies from what was expected."""

    def of(self, quantity: Uncertain) -> Belief:
        shared = [_shared(one.quantity, quantity) for one in self.seen]
        known = _solved(self.root, shared)
        mean = quantity.mean + _product(known, self.surprise)
        variance = _shared(quantity, quantity) - _product(known, known)
        return Belief(mean, math.sqrt(max(0.0, variance)))


def learned(seen: Sequence[Observation]) -> Knowledge:
    """Give what is known after some readings; without any, what was declared."""
    if not seen:
        return PRIOR
    covariance = [
        [
            _shared(one.quantity, other.quantity) + (one.sd**2 if at == to else 0.0)
            for to, other in enumerate(seen)
        ]
        for at, one in enumerate(seen)
    ]
    root = _root(covariance)
    surprise = _solved(root, [one.read - one.quantity.mean for one in seen])
    return _Learned(tuple(seen), root, surprise)


def _shared(one: Uncertain, other: Uncertain) -> float:
    """Give the covariance of two quantities."""
    return sum(by * other.by_source.get(source, 0.0) for source, by in one.by_source.items())


def _product(one: Sequence[float], other: Sequence[float]) -> float:
    """Add the products of two rows, as far as the shorter one goes."""
    return float(sum(map(mul, one, other)))


def _root(matrix: Sequence[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    rows: list[tuple[float, ...]] = []
    for at, wanted in enumerate(matrix):
        row: list[float] = []
        for to in range(at):
            left = _product(row, rows[to])
            row.append((wanted[to] - left) / rows[to][to])
        row.append(math.sqrt(wanted[at] - _product(row, row)))
        rows.append(tuple(row))
    return tuple(rows)


def _solved(root: Sequence[Sequence[float]], right: Sequence[float]) -> tuple[float, ...]:
    found: list[float] = []
    for at, row in enumerate(root):
        found.append((right[at] - _product(row, found)) / row[at])
    return tuple(found)
