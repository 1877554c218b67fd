"""The shape of the sweater in stitches and rounds: what the shaping files give each other."""

from __future__ import annotations

from dataclasses import dataclass

from yokefellow.shaping.band_shapes import ChartedBand
from yokefellow.shaping.counts import Count
from yokefellow.shaping.darts import Dart
from yokefellow.shaping.edges import Edge
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.picked_up import PickedUp
from yokefellow.shaping.yoke_shapes import (
    AnyYoke,
    BandShape,
    IncreaseRound,
    RaglanLine,
    RaglanPiece,
    RaglanShape,
    YokeShape,
    stitches_at,
)

__all__ = [
    "AnyYoke",
    "BandShape",
    "BodyShape",
    "ChartedBand",
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
