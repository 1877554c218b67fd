"""The shape of the yoke in stitches and rounds, round or raglan."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from yokefellow.shaping.counts import Count
from yokefellow.shaping.raglan.rates import Rate
from yokefellow.shaping.short_rows import ShortRows

__all__ = [
    "AnyYoke",
    "BandShape",
    "IncreaseRound",
    "RaglanLine",
    "RaglanPiece",
    "RaglanShape",
    "YokeShape",
    "raglan_steps",
    "stitches_at",
]


class IncreaseRound(NamedTuple):
    """One increase round of the yoke."""

    number: int
    """Its round in the yoke, from 1."""
    before: int
    after: int

    @property
    def increases(self) -> int:
        """Stitches it adds."""
        return self.after - self.before


@dataclass(frozen=True, slots=True)
class BandShape:
    """One colour band of the yoke."""

    name: str
    first: int
    """Its first round in the yoke, from 1."""
    repeats: int
    """How often the chart goes round."""
    start: Count
    """Stitches as it begins, at the band's own gauge."""
    counts: tuple[int, ...]
    """Stitches after each of its rounds."""

    @property
    def last(self) -> int:
        """Its last round."""
        return self.first + len(self.counts) - 1

    @property
    def last_growth(self) -> int:
        """Its last round that adds stitches; 0 when none does."""
        steps = enumerate(pairwise((self.start.got, *self.counts)), start=self.first)
        return max((number for number, (old, new) in steps if new > old), default=0)


@dataclass(frozen=True, slots=True)
class YokeShape:
    """The yoke between neckband and underarm."""

    rounds: Count
    """At the front."""
    increase_rounds: tuple[IncreaseRound, ...]
    short_rows: ShortRows
    shoulder_round: int
    """The round at the point of the shoulder."""
    shoulder_wanted: float
    """Stitches it takes to go round the shoulders."""
    start: int
    """Stitches before its first round."""
    bands: tuple[BandShape, ...] = ()

    def stitches_at(self, number: int) -> int:
        """Give the stitches on the needle after a round."""
        return stitches_at(number, self.start, self.increase_rounds, self.bands)

    @property
    def last_increase(self) -> int:
        """The round in which the yoke reaches its full count: its own, or one of a chart's."""
        own = (step.number for step in self.increase_rounds)
        return max((*own, *(band.last_growth for band in self.bands)), default=0)


def stitches_at(
    number: int,
    start: int,
    increase_rounds: Iterable[IncreaseRound],
    bands: Iterable[BandShape] = (),
) -> int:
    """Give the stitches after a round of a yoke that begins with `start`."""
    done = [(r.number, r.after) for r in increase_rounds if r.number <= number]
    for band in bands:
        rounds = min(number, band.last) - band.first + 1
        if rounds > 0:
            done.append((min(number, band.last), band.counts[rounds - 1]))
    return max(done)[1] if done else start


class RaglanPiece(NamedTuple):
    """One piece of a raglan yoke between two lines: back, front or a sleeve.

    Its count holds its share of the stitches of the two lines beside it.
    """

    start: int
    """Stitches before the first round of the yoke."""
    rates: tuple[Rate, ...]
    """How often it increases, the faster rate first; nothing where no rate says its rounds."""
    rounds: tuple[int, ...]
    """The rounds in which it increases by two, one at either end."""

    def stitches_at(self, number: int) -> int:
        """Give its stitches after a round."""
        return self.start + 2 * bisect_right(self.rounds, number)


@lru_cache(maxsize=64)
def raglan_steps(
    back: RaglanPiece, front: RaglanPiece, sleeve: RaglanPiece
) -> tuple[IncreaseRound, ...]:
    """Give every round in which a piece of a raglan increases, with the count of the whole yoke."""
    pieces = (back, front, sleeve, sleeve)
    numbers = sorted({number for piece in pieces for number in piece.rounds})
    counts = [sum(piece.stitches_at(number) for piece in pieces) for number in (0, *numbers)]
    return tuple(
        IncreaseRound(number, before, after)
        for number, (before, after) in zip(numbers, pairwise(counts), strict=True)
    )


class RaglanLine(NamedTuple):
    """The stitches that run down between body and sleeve, and how the work grows beside them."""

    width: int
    increase: str
    """`lifted`, `yarn over` or `front and back`."""


@dataclass(frozen=True, slots=True)
class RaglanShape:
    """A raglan yoke between neckband and underarm: four pieces, and a line between each two."""

    rounds: Count
    """At the front."""
    back: RaglanPiece
    front: RaglanPiece
    sleeve: RaglanPiece
    """Each of the two."""
    line: RaglanLine
    short_rows: ShortRows
    shoulder_round: int
    """The round that passes where the shoulders are fullest."""
    shoulder_wanted: float
    """Stitches it takes to go round the shoulders."""
    stitches_per_cm: float
    bands: tuple[BandShape, ...] = ()
    """Below the last increase."""

    @property
    def start(self) -> int:
        """Stitches before its first round."""
        return self.stitches_at(0)

    @property
    def sleeve_share(self) -> int:
        """Stitches of each line that belong to the sleeve: half, or the smaller half.

        A sleeve that begins with fewer stitches leaves the rest of the line to the body, so that
        one stitch of it stands between its two increases.
        """
        return max(0, min(self.line.width // 2, (self.sleeve.start - 1) // 2))

    @property
    def body_share(self) -> int:
        """Stitches of each line that belong to the back or the front."""
        return self.line.width - self.sleeve_share

    @property
    def sleeve_top_cm(self) -> float:
        """How wide each sleeve is at the neck; half of it lies before the shoulder."""
        return self.sleeve.start / self.stitches_per_cm

    @property
    def armhole_cm(self) -> float:
        """From the top of the shoulder straight down to the underarm.

        Half of the sleeve's top is depth of the neck, and counts toward the
        armhole (common practice).
        """
        return self.rounds.cm + self.sleeve_top_cm / 2

    def stitches_at(self, number: int) -> int:
        """Give the stitches on the needle after a round."""
        body = self.back.stitches_at(number) + self.front.stitches_at(number)
        return body + 2 * self.sleeve.stitches_at(number)

    @property
    def increase_rounds(self) -> tuple[IncreaseRound, ...]:
        """Every round in which any piece increases."""
        return raglan_steps(self.back, self.front, self.sleeve)

    @property
    def last_increase(self) -> int:
        """The round in which the yoke reaches its full count."""
        return max((step.number for step in self.increase_rounds), default=0)


AnyYoke: TypeAlias = YokeShape | RaglanShape
