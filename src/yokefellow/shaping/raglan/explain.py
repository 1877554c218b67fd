"""Which constraint leaves no raglan, and what would help; each offer was tried."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import NamedTuple

from yokefellow.fit import Finished, RaglanFit
from yokefellow.project_file.models import MOST_UNDERARM_CM
from yokefellow.project_file.pins import NOTHING, Fixed, without
from yokefellow.quantities import LengthUnit, tape_above
from yokefellow.shaping.bands import BandTask, Zones
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.raglan.bands import OverEnd, place_below, room_if_spread
from yokefellow.shaping.raglan.by_round import GAINS
from yokefellow.shaping.raglan.rates import most_times
from yokefellow.shaping.raglan.search import solve_raglan, with_pins
from yokefellow.shaping.raglan.shares import RaglanTask, least_piece
from yokefellow.shaping.refusals import (
    BandCount,
    BandRepeats,
    BandsInside,
    LineWide,
    NarrowFront,
    NeckWide,
    Offer,
    OverLastRound,
    PieceName,
    PinnedLine,
    PinReason,
    PinsUnmet,
    RaglanRefusal,
    RaglanRules,
    Steep,
    TooFewRounds,
    TooManyRounds,
    YokeRounds,
)
from yokefellow.shaping.split import halved, narrow_front
from yokefellow.shaping.yoke.constraints import of_the_yoke, splits_for
from yokefellow.shaping.yoke.offers import offered_pins
from yokefellow.shaping.yoke.rules import FIRST_INCREASE

__all__ = ["Asked", "bands_crowd", "raglan_pins_refused", "unreached"]


@dataclass(frozen=True, slots=True)
class Asked:
    """Everything that was asked of a raglan that cannot be made."""

    task: RaglanTask
    bands: Sequence[BandTask]
    zones: Zones
    finished: Finished
    unit: LengthUnit

    @property
    def fit(self) -> RaglanFit:
        """How the neck is shared out."""
        if self.finished.yoke.raglan is None:
            raise ValueError("this garment is no raglan")
        return self.finished.yoke.raglan

    def cm(self, stitches: float) -> float:
        """Give a width."""
        return stitches / self.task.counts.stitches_per_cm

    def deep_cm(self, rounds: float) -> float:
        """Give a depth."""
        return rounds / self.task.counts.rounds_per_cm


class _Piece(NamedTuple):
    """A piece as it is wanted at both ends, in real numbers of stitches."""

    name: PieceName
    neck: float
    end: float
    least: int
    """With which it may begin."""

    @property
    def times(self) -> float:
        """How often it would increase."""
        return (self.end - self.neck) / 2


def _pieces(asked: Asked) -> tuple[_Piece, _Piece]:
    task, counts = asked.task, asked.task.counts
    top, width = asked.fit.sleeve_top_cm * counts.stitches_per_cm, task.line_width
    back_end, held = counts.body / 2 - counts.underarm, counts.sleeve - counts.underarm
    return (
        _Piece("back", task.back_neck, back_end, least_piece(width, body=True)),
        _Piece("sleeve", top, held, least_piece(width, body=False)),
    )


def unreached(asked: Asked) -> LineWide | NeckWide | Steep:
    """Tell which piece cannot come from the neck to the underarm, and what would help.

    What is wanted may miss the limit by less than a stitch; then the piece that
    comes nearest to its limit is named.
    """
    return min(_faults(asked), key=lambda fault: fault[0])[1]


def _faults(asked: Asked) -> Iterator[tuple[float, LineWide | NeckWide | Steep]]:
    """Give what may be wrong, the worst with the least figure."""
    task, neck_cm = asked.task, asked.cm(asked.task.counts.neck)
    most = most_times(task.room)
    for piece in _pieces(asked):
        narrower = range(task.line_width - 1, 0, -1)
        widest = next((w for w in narrower if solve_raglan(replace(task, line_width=w))), None)
        wide = LineWide(task.line_width, neck_cm, piece.name, piece.neck, piece.least, widest)
        yield 2 * (piece.neck - piece.least), wide
        end_cm = asked.cm(max(0.0, piece.end))
        yield 2 * piece.times, NeckWide(neck_cm, piece.name, asked.cm(piece.neck), end_cm)
        yield 2 * (most - piece.times), _steep(asked, piece, most)


def _steep(asked: Asked, piece: _Piece, most: int) -> Steep:
    """Name a depth, and an underarm where one helps, at which the piece reaches its count."""
    task, counts = asked.task, asked.task.counts
    rounds = ceil(piece.times) + FIRST_INCREASE + task.rounds - task.room
    wider = counts.underarm + max(0.0, 2 * (piece.times - most)) + 2
    wide_cm = tape_above(wider / counts.stitches_per_cm, asked.unit)
    tried = replace(task, counts=replace(counts, underarm=wide_cm * counts.stitches_per_cm))
    helps = wide_cm <= MOST_UNDERARM_CM and solve_raglan(tried) is not None
    return Steep(
        piece.name,
        piece.neck,
        piece.end,
        asked.deep_cm(task.rounds),
        task.room,
        most,
        asked.deep_cm(rounds),
        wide_cm if helps else None,
    )


def bands_crowd(asked: Asked) -> RaglanRefusal:
    """Tell why no raglan has its increases above these bands: no count, or no room."""
    free = replace(asked.task, repeat=1, pinned=())
    if solve_raglan(free) is not None:
        return _no_count(asked)
    without_bands = replace(free, room=asked.zones.rounds)
    if solve_raglan(without_bands) is None:
        return unreached(replace(asked, task=without_bands))
    return _inside(asked)


def _no_count(asked: Asked) -> BandCount | BandRepeats:
    yokes = sorted(splits_for(asked.task.counts, wide=True))
    repeat = asked.task.repeat
    fitting = [yoke for yoke in yokes if yoke % repeat == 0]
    if fitting:
        band, pin = next((b, b.repeats) for b in asked.bands if b.repeats is not None)
        width = band.first_width
        low, high = fitting[0] // width, fitting[-1] // width
        return BandRepeats(band.name, pin, pin * width, fitting[0], fitting[-1], low, high)
    near = range(max(2, repeat - 4), repeat + 5)
    widths = (w for w in near if w != repeat and any(yoke % w == 0 for yoke in yokes))
    return BandCount(yokes[0], yokes[-1], repeat, tuple(widths))


def _inside(asked: Asked) -> BandsInside:
    """Tell how the bands come to lie below the increases: lower down, or in a deeper yoke."""
    depth_cm, per_cm = asked.finished.yoke.depth_cm, asked.task.counts.rounds_per_cm
    needed = ceil(max(piece.times for piece in _pieces(asked))) + FIRST_INCREASE
    first = asked.zones.bands[0]
    lacking = needed - room_if_spread(asked.zones)
    is_spread = all(band.at_cm is None for band in asked.bands)
    if lacking > 0 or is_spread:
        deeper_cm = depth_cm + max(1, lacking) / per_cm
        return BandsInside(first.task.name, first.first, needed, is_spread, deeper_cm, None)
    at_cm = tape_above((needed + 1) / per_cm, asked.unit)
    there = place_below(
        [replace(asked.bands[0], at_cm=at_cm), *asked.bands[1:]],
        depth_cm=depth_cm,
        rounds_per_cm=per_cm,
        least_rounds=asked.zones.rounds,
    )
    may_stand = None if isinstance(there, OverEnd) else at_cm
    return BandsInside(first.task.name, first.first, needed, is_spread, None, may_stand)


# Pins that cannot be met together.


def raglan_pins_refused(
    task: RaglanTask, bands: tuple[BandTask, ...]
) -> PinsUnmet | NarrowFront | PinnedLine:
    """Say that no raglan meets the pins, why, and which nearest ones it would meet.

    Args:
        task: with its pins.
        bands: below its increases.
    """
    fixed = task.counts.fixed
    known = _too_wide(task, fixed) or _line(task)
    if known is not None:
        return known
    last = max(fixed.increase_at, default=0)
    deeper: tuple[Offer, ...] = ()
    if last > task.room and not bands and solve_raglan(replace(task, room=last)) is not None:
        deeper = (YokeRounds(last),)

    def meets(others: Fixed) -> bool:
        return solve_raglan(with_pins(task, of_the_yoke(others))) is not None

    offers = (*deeper, *offered_pins(fixed, bands, meets))
    return PinsUnmet(fixed, bands, _why(task, has_bands=bool(bands)), offers)


def _too_wide(task: RaglanTask, fixed: Fixed) -> NarrowFront | None:
    """Tell of a front, or a back, that leaves nothing for the other half."""
    if (fixed.front is None) == (fixed.back is None):
        return None
    other = solve_raglan(with_pins(task, without(without(fixed, "front"), "back")))
    if other is None or halved(other.split, fixed) is not None:
        return None
    return narrow_front(other.split, fixed)


def _line(task: RaglanTask) -> PinnedLine | None:
    """Tell that only the lines are in the way: too wide, or their increases in need of stitches."""
    lifted, width = replace(task, takes_stitches=False), task.line_width
    if task.takes_stitches and solve_raglan(lifted) is not None:
        return PinnedLine("line_increase", width, None, takes_stitches=True)
    for narrower in range(width - 1, 0, -1):
        if solve_raglan(replace(lifted, line_width=narrower)) is not None:
            return PinnedLine("line_width", width, narrower, takes_stitches=task.takes_stitches)
    return None


def _why(task: RaglanTask, *, has_bands: bool) -> PinReason:
    """Say what pins of a raglan must obey."""
    fixed, room = task.counts.fixed, task.room
    times, last = len(fixed.increases or fixed.increase_at), max(fixed.increase_at, default=0)
    if last > room:
        return OverLastRound(last, room, has_bands=has_bands, of_raglan=True)
    if times >= room:
        return TooManyRounds(times, room - 1, has_bands)
    if fixed.neck is not None and fixed.increase_at and not fixed.increases:
        most = fixed.neck + GAINS[0] * times
        return TooFewRounds(times, fixed.neck, most, nearest(task.counts.yoke))
    return RaglanRules(has_rounds=times > 0)


def can_be_free(task: RaglanTask) -> bool:
    """Tell whether there is a raglan without the pins."""
    return solve_raglan(with_pins(task, NOTHING)) is not None
