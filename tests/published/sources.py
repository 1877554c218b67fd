"""Every source, in the order of the page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from tests.published import (
    actives,
    army,
    arrays,
    council,
    drawing,
    loops,
    misses,
    nation,
    needle_lengths,
    percentages,
    printed_yokes,
    published,
    raglan,
    short_rows,
    spreading,
    swatch,
    tails,
    taper,
    units,
    yardage,
)
from tests.published.check import Check

__all__ = ["SOURCES", "Source", "checks"]

_CHECKS: Mapping[str, Callable[[], Iterator[Check]]] = MappingProxyType(
    {
        "council": council.checks,
        "misses": misses.checks,
        "army": army.checks,
        "nation": nation.checks,
        "actives": actives.checks,
        "printed_yokes": printed_yokes.checks,
        "percentages": percentages.checks,
        "raglan": raglan.checks,
        "spreading": spreading.checks,
        "taper": taper.checks,
        "short_rows": short_rows.checks,
        "needle_lengths": needle_lengths.checks,
        "swatch": swatch.checks,
        "loops": loops.checks,
        "yardage": yardage.checks,
        "tails": tails.checks,
        "units": units.checks,
        "arrays": arrays.checks,
        "drawing": drawing.checks,
    }
)


@dataclass(frozen=True, slots=True)
class Source:
    """Where numbers come from: a file of data, and a file that computes beside it."""

    name: str
    title: str
    citation: str
    how: str
    """How the numbers were had: read, second-hand, from memory, derived."""


def _source(name: str) -> Source:
    about = {key: " ".join(words.split()) for key, words in published(name)["about"].items()}
    return Source(name, **about)


SOURCES = tuple(map(_source, _CHECKS))


@cache
def checks(name: str) -> tuple[Check, ...]:
    """Compute everything that is checked against one source."""
    return tuple(_CHECKS[name]())
