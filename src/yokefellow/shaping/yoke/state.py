"""What is on the needle: every plan is a plan of the rest, and at the cast-on the rest is all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

from yokefellow.shaping.model import BandShape, IncreaseRound

__all__ = ["BorPlace", "Grown", "State"]

BorPlace: TypeAlias = Literal["center back", "front edge"]
"""Where BOR lies in a yoke: at the edge only while a front is worked flat."""


class Grown(NamedTuple):
    """A piece of a raglan as it is on the needle."""

    start: int
    """Stitches it had before the first round of the yoke."""
    stitches: int
    """Stitches it has."""
    rounds: tuple[int, ...] = ()
    """The rounds in which it has increased."""


@dataclass(frozen=True, slots=True)
class State:
    """What is on the needle, and what has led to it."""

    stitches: int
    rounds: int = 0
    """Rounds of the yoke that are done."""
    depth_cm: float = 0.0
    """How deep they are at the front."""
    increases: tuple[IncreaseRound, ...] = ()
    """The increase rounds that are done, as they were worked."""
    bands: tuple[BandShape, ...] = ()
    """The color bands that are done, and one that is begun."""
    bor: BorPlace = "center back"
    pieces: tuple[Grown, Grown, Grown] | None = None
    """Back, front and each sleeve of a raglan; None in a round yoke."""

    @property
    def neck(self) -> int:
        """Stitches before the first round of the yoke."""
        if self.bands and (not self.increases or self.bands[0].first < self.increases[0].number):
            return self.bands[0].start.got
        return self.increases[0].before if self.increases else self.stitches

    @property
    def is_bare_neck(self) -> bool:
        """Whether nothing is done but the neck."""
        return self.rounds == 0

    @property
    def last_increase(self) -> int:
        """The round in which it last grew, itself or in a chart; 0 when it never has."""
        own = max((step.number for step in self.increases), default=0)
        return max((own, *(band.last_growth for band in self.bands)))
