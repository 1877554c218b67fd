"""Why no yoke can be made, and what would help, as data: words are found where they are shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

from yokefellow.project_file.pins import Fixed
from yokefellow.shaping.bands import BandTask

__all__ = [
    "BandChange",
    "BandCount",
    "BandGrows",
    "BandOverEnd",
    "BandRepeats",
    "BandsInside",
    "BandsUnmet",
    "Crowded",
    "Deeper",
    "Impossible",
    "LeftOut",
    "LineWide",
    "Misfit",
    "Moved",
    "Narrow",
    "NarrowFront",
    "NeckWide",
    "NoChain",
    "NoWay",
    "Offer",
    "OtherRepeats",
    "OverLastRound",
    "PercentLineWide",
    "PercentUneven",
    "PieceName",
    "PinChanged",
    "PinReason",
    "PinRemoved",
    "PinnedLine",
    "PinsUnmet",
    "RaglanRefusal",
    "RaglanRules",
    "Range",
    "Refusal",
    "RefusedError",
    "RoundYokeRules",
    "Spread",
    "Steep",
    "TooFewRounds",
    "TooManyRounds",
    "Undivided",
    "Unpinned",
    "Unreached",
    "WideUnderarm",
    "YokeRounds",
]

Range: TypeAlias = tuple[int, int]
"""The fewest and the most."""


# What empties the search.


@dataclass(frozen=True, slots=True)
class Crowded:
    """A band for which there is no room."""

    name: str
    wanted: int
    """Rounds the band takes, and those spread beside it."""
    there: int
    """Rounds left for them."""
    deep_cm: float
    """All the bands together."""
    yoke_cm: float
    at_cm: float | None = None
    """Where it was asked to stand; None when it is spread."""
    is_over_end: bool = False
    """Whether it runs into the underarm, and not into a band above."""
    lacks_plain: bool = False
    """Whether it would stand right under a band, and slips stitches of the round above it."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """No count within tolerance fits a band's repeat."""

    band: BandTask
    wanted: float
    below: int
    """The nearest numbers of repeats on either side."""
    above: int
    within: Range
    """The fewest and the most repeats that can be reached there."""


@dataclass(frozen=True, slots=True)
class Narrow:
    """Too few plain rounds before a band for the increases wanted there."""

    name: str
    """The band they lead to; empty for the underarm."""
    wanted: int
    """Rounds of increase, at least three rounds apart."""
    there: int
    """Rounds there are."""
    before: float
    """Stitches they lead from."""
    after: float
    """Stitches they lead to."""


@dataclass(frozen=True, slots=True)
class Unreached:
    """A band that no count within reach fits; or the underarm."""

    band: BandTask | None
    """None where the yoke's own count cannot be reached after the last band."""
    above: Range
    """Stitches that can be there after what lies above."""
    below: Range
    """Stitches there from which what lies below can still be reached."""

    @property
    def repeats(self) -> Range:
        """The numbers of repeats that can be reached; none when the first is the larger."""
        if self.band is None:
            return (1, 0)
        low, high = max(self.above[0], self.below[0]), min(self.above[1], self.below[1])
        return -(-low // self.band.first_width), high // self.band.first_width


@dataclass(frozen=True, slots=True)
class NoChain:
    """No chain of counts leads from the neck through every band to a split."""


Impossible: TypeAlias = Crowded | Misfit | Narrow | Unreached | NoChain
"""The constraint that emptied the search."""


# What would help; every offer was tried before it was made.


class BandChange(NamedTuple):
    """Which band is changed."""

    name: str
    at: int
    """Its place among the bands, from 0."""
    of: int
    """How many bands there are."""


class OtherRepeats(NamedTuple):
    """Pin a band to another number of repeats."""

    band: BandChange
    repeats: int
    stitches: int
    off_cm: float
    """How much wider than the line of the yoke it is then."""


class Unpinned(NamedTuple):
    """Leave the repeats of a band, or of all that have a pin, to the program."""

    band: BandChange | None
    """None for every band."""
    repeats: int
    """The number that is pinned, of one band."""
    instead: tuple[int, ...]
    """Repeats that go round then."""


class Moved(NamedTuple):
    """Put a band at another depth."""

    band: BandChange
    at_cm: float
    by_cm: float
    """How much lower that is."""


class Spread(NamedTuple):
    """Spread the bands instead of placing them."""

    bands: int
    also_unpinned: bool
    """Whether their repeats must be left free, too."""


class LeftOut(NamedTuple):
    """Leave out a band."""

    band: BandChange


class Deeper(NamedTuple):
    """Make the yoke deeper."""

    depth_cm: float
    by_cm: float


class PinChanged(NamedTuple):
    """Pin another number."""

    name: str
    value: int | tuple[int, ...]


class PinRemoved(NamedTuple):
    """Take out a pin."""

    name: str


class YokeRounds(NamedTuple):
    """Pin the rounds of the yoke as well."""

    rounds: int


Offer: TypeAlias = (
    OtherRepeats
    | Unpinned
    | Moved
    | Spread
    | LeftOut
    | Deeper
    | PinChanged
    | PinRemoved
    | YokeRounds
)


# What is refused.


@dataclass(frozen=True, slots=True)
class WideUnderarm:
    """The underarms leave nothing of a sleeve, or of the front."""

    underarm_cm: float
    sleeve_cm: float
    half_body_cm: float
    widest_cm: float


@dataclass(frozen=True, slots=True)
class NoWay:
    """No increases lead from the neck to the end of a plain yoke."""

    neck_cm: float
    neck: float
    yoke_cm: float
    yoke: float
    depth_cm: float


@dataclass(frozen=True, slots=True)
class BandsUnmet:
    """The bands do not fit."""

    reason: Impossible
    bands: tuple[BandTask, ...]
    offers: tuple[Offer, ...]


@dataclass(frozen=True, slots=True)
class OverLastRound:
    """An increase round is pinned below the last that may increase."""

    number: int
    rounds: int
    """The last round that may increase."""
    has_bands: bool = False
    of_raglan: bool = False


@dataclass(frozen=True, slots=True)
class TooManyRounds:
    """More increase rounds are pinned than may increase."""

    times: int
    there: int
    has_bands: bool


@dataclass(frozen=True, slots=True)
class TooFewRounds:
    """Increase rounds of a raglan add 8 stitches at the most."""

    times: int
    neck: int
    most: int
    """Stitches they can lead to."""
    needed: int


@dataclass(frozen=True, slots=True)
class Undivided:
    """The repeats of bands divide none of the counts that are pinned."""

    bands: tuple[BandTask, ...]
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RoundYokeRules:
    """What pins of a round yoke must obey."""


@dataclass(frozen=True, slots=True)
class RaglanRules:
    """What pins of a raglan must obey."""

    has_rounds: bool
    """Whether the increase rounds are among them."""


PinReason: TypeAlias = (
    Impossible
    | OverLastRound
    | TooManyRounds
    | TooFewRounds
    | Undivided
    | RoundYokeRules
    | RaglanRules
)


@dataclass(frozen=True, slots=True)
class PinsUnmet:
    """No yoke meets the pins together."""

    fixed: Fixed
    bands: tuple[BandTask, ...]
    reason: PinReason
    offers: tuple[Offer, ...]


@dataclass(frozen=True, slots=True)
class NarrowFront:
    """A front, or a back, that is pinned leaves too few stitches for the other."""

    name: str
    """`front` or `back`."""
    pin: int
    both: int
    """Stitches of front and back together between the underarms."""


# What is refused of a raglan.

PieceName: TypeAlias = Literal["back", "sleeve"]


@dataclass(frozen=True, slots=True)
class LineWide:
    """The lines leave a piece too few stitches of the neck."""

    line_width: int
    neck_cm: float
    piece: PieceName
    start: float
    least: int
    narrower: int | None
    """The widest line with which the raglan can be made; None where none is narrow enough."""


@dataclass(frozen=True, slots=True)
class NeckWide:
    """A piece begins wider than it ends."""

    neck_cm: float
    piece: PieceName
    start_cm: float
    end_cm: float


@dataclass(frozen=True, slots=True)
class Steep:
    """A piece must increase more often than the yoke has rounds."""

    piece: PieceName
    start: float
    end: float
    depth_cm: float
    room: int
    most: int
    """Rounds that can increase."""
    deep_cm: float
    """A depth in which it reaches its count."""
    underarm_cm: float | None
    """An underarm with which it does; None where none helps."""


@dataclass(frozen=True, slots=True)
class BandGrows:
    """A chart widens, and a raglan's stitches come at its lines."""

    name: str


@dataclass(frozen=True, slots=True)
class BandOverEnd:
    """A band does not fit into the yoke where it is to stand."""

    name: str
    rounds: int
    """Of the band."""
    depth_cm: float
    there: int
    """Rounds of the whole yoke."""
    is_spread: bool


@dataclass(frozen=True, slots=True)
class BandCount:
    """No count of the end of the yoke is a whole number of the bands' repeats."""

    fewest: int
    most: int
    repeat: int
    """Of all the bands together."""
    widths: tuple[int, ...]
    """Repeats near it that would fit."""


@dataclass(frozen=True, slots=True)
class BandRepeats:
    """The repeats that were asked for do not go round."""

    name: str
    repeats: int
    stitches: int
    fewest: int
    """Stitches the yoke can have there;"""
    most: int
    low: int
    """and repeats that make such a count."""
    high: int


@dataclass(frozen=True, slots=True)
class BandsInside:
    """A band begins before the increases can have ended."""

    name: str
    first: int
    needed: int
    """Rounds the increases take at least."""
    is_spread: bool
    deeper_cm: float | None
    """A depth in which the bands lie below them; None where spreading them is enough."""
    at_cm: float | None
    """Where the first may stand; None where that leaves no room for the others."""


@dataclass(frozen=True, slots=True)
class PinnedLine:
    """Only the lines are in the way of the pins."""

    field: Literal["line_width", "line_increase"]
    line_width: int
    narrower: int | None
    """A width with which the pins can be met."""
    takes_stitches: bool
    """Whether the increase needs stitches to be worked in, too."""


@dataclass(frozen=True, slots=True)
class PercentLineWide:
    """By percentage the back begins too narrow for its two lines."""

    line_width: int
    start: int
    needed: int
    narrower: int


@dataclass(frozen=True, slots=True)
class PercentUneven:
    """By percentage the smaller of back and front begins too narrow for its two lines."""

    front: int
    back: int
    start: int
    needed: int


RaglanRefusal: TypeAlias = (
    LineWide
    | NeckWide
    | Steep
    | BandGrows
    | BandOverEnd
    | BandCount
    | BandRepeats
    | BandsInside
    | PinnedLine
    | PercentLineWide
    | PercentUneven
)


Refusal: TypeAlias = WideUnderarm | NoWay | BandsUnmet | PinsUnmet | NarrowFront | RaglanRefusal


class RefusedError(Exception):
    """No yoke can be made of what was asked for."""

    def __init__(self, refusal: Refusal) -> None:
        self.refusal = refusal
        super().__init__(str(refusal))
