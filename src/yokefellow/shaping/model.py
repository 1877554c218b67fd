"""The shape of the sweater in stitches and rounds: what the files of this room give each other."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from yokefellow.charts.chart import Chart
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.edges.front_neck import FrontNeck
from yokefellow.shaping.edges.picked_up import PickedUp
from yokefellow.shaping.pieces.darts import Dart
from yokefellow.shaping.raglan.rates import Rate
from yokefellow.shaping.short_rows import ShortRows
from yokefellow.shaping.yoke.rules import Rule

__all__ = [
    "AnyYoke",
    "BandShape",
    "BodyShape",
    "ChartedBand",
    "ChosenYoke",
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


@dataclass(frozen=True, slots=True)
class ChartedBand:
    """A colour band of the body or a sleeve, with its chart."""

    shape: BandShape
    """Its rounds are numbered in the piece."""
    chart: Chart
    around: int
    """Stitches of the piece there; where the band has others, a round goes there and one back."""
    goes_on: bool = False
    """Whether the piece goes on from the band's count, which its shaping was on the way to."""

    @property
    def jump(self) -> int:
        """Stitches by which the piece has more from the band on, whatever its shaping adds."""
        return self.shape.start.got - self.around if self.goes_on else 0


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
    """Whether the band is worked when all else is done: the neck is cast on provisionally, or
    its stitches are picked up."""
    picked: PickedUp | None = None
    """How the band is picked up, round a neck whose front is worked flat."""
    folds: bool = False
    """Whether the band is worked twice as deep as it is worn, and folded outwards."""

    @property
    def worn_cm(self) -> float:
        """How high the band stands when it is worn."""
        return self.band.rounds.cm / (2 if self.folds else 1)

    @property
    def edge(self) -> Count:
        """Once round the neck, where the band stands."""
        return self.stitches if self.picked is None else self.picked.total

    @property
    def opening_cm(self) -> float:
        """Once round the narrowest of the neck: a band may be pinned to fewer stitches."""
        if self.picked is not None:
            return self.edge.cm
        return min(self.stitches.got, self.band_stitches) / self.stitches.per_cm

    @property
    def rounds(self) -> Count:
        """Rounds that make the depth of the band."""
        return self.band.rounds

    @property
    def rib(self) -> str:
        """The rib of a ribbed band."""
        return self.band.rib


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


class ChosenYoke(NamedTuple):
    """A whole yoke with the neck above it and the split below."""

    neck: Count
    yoke: AnyYoke
    split: Split
    broken: tuple[Rule, ...]
    """The rules of the yoke that could not be kept."""


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


def _jumped(bands: tuple[ChartedBand, ...], number: int) -> int:
    return sum(band.jump for band in bands if band.shape.first - 1 <= number)


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

    fullest: Count | None = None
    """Stitches round the fullest part, when the front grows for it."""
    bands: tuple[ChartedBand, ...] = ()
    """Its colour bands, from the underarm down."""
    own_hem_per_cm: float | None = None
    """Stitches per cm that the hem is counted by, where it is not the plain fabric's."""

    @property
    def hem_cm(self) -> float:
        """Once round the hem, as it is worn."""
        return self.hem_stitches / (self.own_hem_per_cm or self.edge.per_cm)

    def around(self, top: int, number: int) -> int:
        """Give the stitches after a round, `top` of them below the underarm.

        In a band with a count of its own, and where it goes back, those of the piece.
        """
        added = sum(change.added for change in self.changes if change.number <= number)
        return top + added + _jumped(self.bands, number)

    @property
    def growing(self) -> int:
        """The last round in which the front grows for the fullest part; 0 when it does not."""
        return max((change.number for change in self.changes if change.for_bust), default=0)

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
    bands: tuple[ChartedBand, ...] = ()
    """Its colour bands, from the underarm down."""
    own_per_cm: float | None = None
    """Stitches per cm of its plain fabric, where the cuff is not counted by it."""

    def around(self, top: int, number: int) -> int:
        """Give the stitches after a round; as `BodyShape.around`."""
        return top - 2 * sum(at <= number for at in self.decreases) + _jumped(self.bands, number)

    @property
    def per_cm(self) -> float:
        """Stitches per cm of its plain fabric."""
        return self.edge.per_cm if self.own_per_cm is None else self.own_per_cm

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
    front: FrontNeck | None = None
    """Of a front worked flat only: the first rounds of the yoke are then rows."""

    @property
    def flat_rows(self) -> int:
        """The rounds of the yoke that are worked flat, as rows of the section `front`."""
        return self.front.rows.got if self.front else 0

    def at(self, number: int) -> tuple[str, int]:
        """Give the section of a round of the yoke, and its row there, after a cast-on."""
        flat = self.flat_rows
        return ("yoke", number - flat) if number > flat else ("front", number + 1)
