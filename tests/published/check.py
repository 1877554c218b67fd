"""One number of the program beside one of the outside world, and what the two may differ by."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf
from typing import TypeAlias

__all__ = ["EXACT", "Check", "Value", "worded"]

EXACT = 1e-9
"""What floats lose on the way; anything more must be allowed and argued for."""

Entry: TypeAlias = "float | tuple[float, float]"
"""A number, or the two ends of a range."""
Value: TypeAlias = "tuple[Entry, ...] | str"


@dataclass(frozen=True, slots=True)
class Check:
    """A row of the page of checks."""

    what: str
    expected: Value
    """As the source has it; with `inside`, the least and the most."""
    computed: Value
    unit: str = ""
    within: float = EXACT
    """The largest deviation that is no fault."""
    why: str = ""
    """Why a deviation is allowed; a bound without a reason is refused."""
    inside: bool = False
    """Whether every computed number need only lie between the two that are expected."""

    @property
    def deviation(self) -> float:
        """The largest difference between what is expected and what is computed."""
        if isinstance(self.expected, str) or isinstance(self.computed, str):
            return 0.0 if self.expected == self.computed else inf
        expected, computed = flat(self.expected), flat(self.computed)
        if self.inside:
            least, most = self.ends
            return max(max(least - one, one - most, 0.0) for one in computed)
        if len(expected) != len(computed):
            return inf
        return max(abs(one - other) for one, other in zip(expected, computed, strict=True))

    @property
    def ends(self) -> tuple[float, float]:
        """The least and the most that is expected."""
        if isinstance(self.expected, str):
            raise TypeError("words have no least and no most")
        least, most = flat(self.expected)
        return least, most

    @property
    def holds(self) -> bool:
        return self.deviation <= self.within


def flat(entries: Iterable[Entry]) -> list[float]:
    """Give the numbers, the ends of a range one after the other."""
    return [
        float(number)
        for entry in entries
        for number in (entry if isinstance(entry, tuple) else (entry,))
    ]


def worded(sizes: Sequence[int]) -> str:
    """Word the sizes of groups: `7 × 14, 6 × 7`, the more frequent first."""
    counts = sorted(((sizes.count(size), size) for size in set(sizes)), reverse=True)
    return ", ".join(f"{size} × {count}" for count, size in counts)
