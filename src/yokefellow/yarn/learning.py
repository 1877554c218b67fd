"""What the scale teaches: the declared errors, corrected by what was weighed.

The sources of error are independent unknowns of mean 0 and standard deviation
1; a reading is a known sum of them and the scale's own error. Given the
readings they are again normal, with the mean and variance of the conjugate
normal model (A. Gelman and others, *Bayesian Data Analysis*, 3rd edition, 2013,
sections 2.5 and 3.5, from memory). With one source and one reading it is the
mean of prior and evidence, each weighted by its precision.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import mul
from typing import NamedTuple

from yokefellow.yarn.uncertain import PRIOR, Belief, Knowledge, Uncertain

__all__ = ["Observation", "learned"]


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
