"""The shape of the sweater in stitches and rounds: what the shaping files give each other."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from yokefellow.shaping.counts import Count
from yokefellow.shaping.darts import Dart
from yokefellow.shaping.edges import Edge
from yokefellow.shaping.rates import Rate
from yokefellow.shaping.short_rows import ShortRows

__all__ = [
    "AnyYoke",
    "BandShape",
    "BodyShape",
    "IncreaseRound",
    "NeckShape",
    "RaglanLine",
    "RaglanPiece",
    "RaglanShape",
    "Shape",
    "SideChange",
    "SleeveShape",
    "Split",
    "YokeShape",
    "stitches_at",
]


@dataclass(frozen=True, slots=True)
class NeckShape:
    """The neckband."""

    stitches: Count
    """N, where the yoke begins."""
    band_stitches: int
    """Cast on for the band: N, or the nearest count its rib divides."""
    band: Edge
    """How the band is worked."""
    is_last: bool = False
    """Whether the neck is cast on provisionally, and the band worked when all else is done."""

    @property
    def rounds(self) -> Count:
        """Rounds that make the depth of the band."""
        return self.band.rounds

    @property
    def rib(self) -> str:
        """The rib of a ribbed band."""
        return self.band.rib


@dataclass(frozen=True, slots=True)
class IncreaseRound:
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


@dataclass(frozen=True, slots=True)
class RaglanPiece:
    """One piece of a raglan yoke between two lines: back, front or a sleeve.

    Its count holds its share of the stitches of the two lines beside it.
    """

    start: int
    """Stitches before the first round of the yoke."""
    rates: tuple[Rate, ...]
    """How often it increases, the faster rate first."""
    rounds: tuple[int, ...]
    """The rounds in which it increases by two, one at either end."""

    def stitches_at(self, number: int) -> int:
        """Give its stitches after a round."""
        return self.start + 2 * bisect_right(self.rounds, number)


@dataclass(frozen=True, slots=True)
class RaglanLine:
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

        A sleeve that begins with fewer stitches leaves the rest of the line to the body.
        """
        return min(self.line.width // 2, self.sleeve.start // 2)

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
        pieces = (self.back, self.front, self.sleeve)
        numbers = sorted({number for piece in pieces for number in piece.rounds})
        return tuple(
            IncreaseRound(number, self.stitches_at(number - 1), self.stitches_at(number))
            for number in numbers
        )

    @property
    def last_increase(self) -> int:
        """The round in which the yoke reaches its full count."""
        return max((step.number for step in self.increase_rounds), default=0)


AnyYoke: TypeAlias = YokeShape | RaglanShape


@dataclass(frozen=True, slots=True)
class Split:
    """Where the yoke becomes a body and two sleeves.

    Front and back share the body evenly unless `own_front` or
    `own_underarm_front` say otherwise; both sides are always alike.
    """

    body: Count
    sleeve: Count
    underarm: Count
    """Cast on at each side."""
    own_front: int | None = None
    """Stitches of the front between the underarms, where it is not half of them."""
    own_underarm_front: int | None = None
    """Stitches of each underarm that belong to the front, where it is not half of them."""

    @property
    def yoke(self) -> int:
        """Stitches at the end of the yoke: Y = (B - 2U) + 2(S - U)."""
        return (self.body.got - 2 * self.underarm.got) + 2 * self.held

    @property
    def held(self) -> int:
        """Stitches of each sleeve on waste yarn."""
        return self.sleeve.got - self.underarm.got

    @property
    def front(self) -> int:
        """Stitches of the front between the underarms."""
        if self.own_front is not None:
            return self.own_front
        return self.body.got // 2 - self.underarm.got

    @property
    def back(self) -> int:
        """Stitches of the back between the underarms."""
        return self.body.got - 2 * self.underarm.got - self.front

    @property
    def underarm_front(self) -> int:
        """Stitches of each underarm in front of its marker, on the front's side."""
        if self.own_underarm_front is not None:
            return self.own_underarm_front
        return self.underarm.got // 2

    @property
    def underarm_back(self) -> int:
        """Stitches of each underarm behind its marker, on the back's side."""
        return self.underarm.got - self.underarm_front

    @property
    def front_total(self) -> int:
        """Stitches of the front from marker to marker, its share of the underarms with it."""
        if self.own_front is None and self.own_underarm_front is None:
            # An odd underarm then has its odd stitch before the marker at either side.
            return self.body.got // 2
        return self.front + 2 * self.underarm_front

    @property
    def back_total(self) -> int:
        """Stitches of the back from marker to marker, its share of the underarms with it."""
        return self.body.got - self.front_total


@dataclass(frozen=True, slots=True)
class SideChange:
    """One round of the body that changes the count at the sides."""

    number: int
    """Its round in the body, from 1."""
    front: int
    """Stitches it adds to the front, half at each side: 2, -2 or none."""
    back: int
    """The same of the back."""
    for_bust: bool = False
    """Whether it makes room for the fullest part, above the shaping of the sides."""

    @property
    def added(self) -> int:
        """Stitches it adds to the whole round."""
        return self.front + self.back


@dataclass(frozen=True, slots=True)
class BodyShape:
    """The body below the underarm."""

    rounds: Count
    """In the plain fabric, above the hem."""
    front: int
    """Stitches of the front in its first round, from marker to marker."""
    changes: tuple[SideChange, ...]
    """In order; no two in one round."""
    edge: Count
    """Stitches just above the hem."""
    hem_stitches: int
    hem: Edge
    """How the hem is worked."""
    waist: Count | None = None
    """The fewest stitches, at the waist, when it is shaped."""
    darts: tuple[Dart, ...] = ()
    """Short rows over the front, over the back, or both, in order."""

    growing: int = 0
    """The last round in which the front grows for the fullest part; 0 when it does not."""
    fullest: Count | None = None
    """Stitches round the fullest part, when the front grows for it."""

    def row(self, number: int) -> int:
        """Give the row of the section with which a round is done: short rows count as rows."""
        return number + sum(dart.rows for dart in self.darts if dart.number <= number)

    def round_of(self, row: int) -> int:
        """Give the last round that is done after a row of the section."""
        done = row
        for dart in self.darts:
            if row >= self.row(dart.number):
                done -= dart.rows
            elif row >= self.row(dart.number) - dart.rows:
                return dart.number - 1
        return done

    @property
    def hem_rounds(self) -> Count:
        """Rounds that make the depth of the hem."""
        return self.hem.rounds

    @property
    def rib(self) -> str:
        """The rib of a ribbed hem."""
        return self.hem.rib


@dataclass(frozen=True, slots=True)
class SleeveShape:
    """One sleeve below the underarm."""

    rounds: Count
    """In the plain fabric, the pick-up round included."""
    decreases: tuple[int, ...]
    """Rounds with a pair of decreases, in order."""
    edge: Count
    """Stitches of the cuff."""
    cuff: Edge
    """How the cuff is worked."""

    @property
    def cuff_rounds(self) -> Count:
        """Rounds that make the depth of the cuff."""
        return self.cuff.rounds

    @property
    def rib(self) -> str:
        """The rib of a ribbed cuff."""
        return self.cuff.rib


@dataclass(frozen=True, slots=True)
class Shape:
    """The whole sweater in integers."""

    neck: NeckShape
    yoke: AnyYoke
    split: Split
    body: BodyShape
    sleeve: SleeveShape
    plain_body: BodyShape
    """The unmodified body, for comparing."""
    plain_sleeve: SleeveShape
    """The unmodified sleeve, for comparing."""
