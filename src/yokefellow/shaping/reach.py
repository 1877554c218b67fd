"""Which counts a colour band can have at all, between the neck above and the body below.

An increase round adds half of its stitches at the most, and a stretch of plain
rounds holds only so many of them: that bounds every band from both sides.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from yokefellow.shaping.line import LEAST_APART
from yokefellow.shaping.zones import BandTask, Zones

__all__ = ["Range", "Unreached", "most_rounds", "reach"]

Range: TypeAlias = tuple[int, int]
"""The fewest and the most."""


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
        return _repeats((low, high), self.band.first_width)


def most_rounds(start: int, end: int) -> int:
    """Give how many increase rounds a stretch holds, three rounds apart."""
    return (end - start) // LEAST_APART + 1 if end >= start else 0


def _up(stitches: int, times: int) -> int:
    """Add as much as so many increase rounds can."""
    for _ in range(times):
        stitches += stitches // 2
    return stitches


def _down(stitches: int, times: int) -> int:
    """Give the fewest stitches from which so many increase rounds reach a count."""
    for _ in range(times):
        stitches = -(-2 * stitches // 3)
    return stitches


def _repeats(stitches: Range, width: int, pinned: int | None = None) -> Range:
    """Give the numbers of repeats between two counts; none when the first is the larger."""
    least, most = -(-stitches[0] // width), stitches[1] // width
    return (least, most) if pinned is None else (max(least, pinned), min(most, pinned))


def reach(
    necks: Sequence[int], yokes: Sequence[int], zones: Zones
) -> tuple[Range, ...] | Unreached:
    """Give the fewest and the most repeats of every band; or the first that can have none.

    Args:
        necks: the counts the yoke may begin with.
        yokes: the counts it may end with.
        zones: where the bands lie.
    """
    bands = [placed.task for placed in zones.bands]
    rounds = [most_rounds(*gap) for gap in zones.gaps]
    above, last = _from_above((min(necks), max(necks)), bands, rounds)
    below = _from_below((min(yokes), max(yokes)), bands, rounds)
    found = [
        _repeats((max(up[0], down[0]), min(up[1], down[1])), band.first_width, band.repeats)
        for band, up, down in zip(bands, above, below, strict=True)
    ]
    # A pin is the first to be blamed: what stands beside it only follows.
    for at in sorted(range(len(bands)), key=lambda at: bands[at].repeats is None):
        if found[at][0] > found[at][1]:
            return Unreached(bands[at], above[at], below[at])
    if last[0] > max(yokes) or last[1] < min(yokes):
        return Unreached(None, last, (min(yokes), max(yokes)))
    return tuple(found)


def _kept(stitches: Range, width: int, pinned: int | None) -> Range:
    """Give the repeats to go on with; one that cannot be reached is left aside."""
    least, most = _repeats(stitches, width)
    if pinned is not None and least <= pinned <= most:
        return pinned, pinned
    return least, max(least, most)


def _from_above(
    stitches: Range, bands: Sequence[BandTask], rounds: Sequence[int]
) -> tuple[list[Range], Range]:
    """Give the counts that can be there as each band begins, and at the end."""
    low, high = stitches
    found: list[Range] = []
    for band, times in zip(bands, rounds, strict=False):
        high = _up(high, times)
        found.append((low, high))
        least, most = _kept((low, high), band.first_width, band.repeats)
        low, high = least * band.last_width, most * band.last_width
    return found, (low, _up(high, rounds[-1]))


def _from_below(stitches: Range, bands: Sequence[BandTask], rounds: Sequence[int]) -> list[Range]:
    """Give the counts as each band begins from which the end can be reached."""
    low, high = stitches
    found: list[Range] = []
    for band, times in zip(reversed(bands), reversed(rounds), strict=False):
        low = _down(low, times)
        least, most = -(-low // band.last_width), max(1, high // band.last_width)
        low, high = least * band.first_width, most * band.first_width
        found.append((low, high))
        least, most = _kept((low, high), band.first_width, band.repeats)
        low, high = least * band.first_width, most * band.first_width
    return found[::-1]
