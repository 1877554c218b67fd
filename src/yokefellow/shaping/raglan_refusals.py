"""Why a raglan cannot be made, and what would help: one finding for the knitter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import NamedTuple

from yokefellow.findings import Finding, Severity
from yokefellow.fit import Finished, RaglanFit
from yokefellow.project_file.models import MOST_UNDERARM_CM
from yokefellow.quantities import LengthUnit, at_least, either, length, tape_above
from yokefellow.shaping.raglan import RaglanTask, least_piece, solve_raglan
from yokefellow.shaping.raglan_zones import OverEnd, place_below, room_if_spread
from yokefellow.shaping.rates import FIRST, most_times
from yokefellow.shaping.task import splits_for
from yokefellow.shaping.zones import BandTask, Zones

__all__ = ["Asked", "band_grows", "band_over_end", "bands_crowd", "unreached"]


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

    def show(self, stitches: float) -> str:
        """Word a width."""
        return length(stitches / self.task.counts.stitches_per_cm, self.unit)

    def deep(self, rounds: float) -> str:
        """Word a depth."""
        return length(rounds / self.task.counts.rounds_per_cm, self.unit)


class _Piece(NamedTuple):
    """A piece as it is wanted at both ends, in real numbers of stitches."""

    name: str
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
    top = asked.fit.sleeve_top_cm * counts.stitches_per_cm
    width = task.line_width
    return (
        _Piece(
            "back",
            task.back_neck,
            counts.body / 2 - counts.underarm,
            least_piece(width, body=True),
        ),
        _Piece("sleeve", top, counts.sleeve - counts.underarm, least_piece(width, body=False)),
    )


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(f"raglan.{code}", Severity.ERROR, field, message, remedy)


def unreached(asked: Asked) -> Finding:
    """Tell which piece cannot come from the neck to the underarm, and what would help.

    What is wanted may miss the limit by less than a stitch; then the piece that
    comes nearest to its limit is named.
    """
    return min(_faults(asked), key=lambda fault: fault[0])[1]


def _faults(asked: Asked) -> Iterator[tuple[float, Finding]]:
    """Give what may be wrong, the worst with the least figure."""
    most = most_times(asked.task.room)
    for piece in _pieces(asked):
        yield 2 * (piece.neck - piece.least), _line_wide(asked, piece)
        yield 2 * piece.times, _neck_wide(asked, piece)
        yield 2 * (most - piece.times), _steep(asked, piece, most)


def _line_wide(asked: Asked, piece: _Piece) -> Finding:
    narrower = _widest_line(asked)
    return _error(
        "line-wide",
        "garment.yoke.line_width",
        f"Four lines of {asked.task.line_width} leave too little of a neck of "
        f"{asked.show(asked.task.counts.neck)}: the {piece.name} begins with "
        f"{piece.neck:.0f} stitches there and needs {piece.least}.",
        f"Write line_width = {narrower}, or a wider neck opening."
        if narrower
        else "Write a wider neck opening.",
    )


def _widest_line(asked: Asked) -> int | None:
    """Find the widest line with which the raglan can be made."""
    narrower = range(asked.task.line_width - 1, 0, -1)
    tries = ((width, solve_raglan(replace(asked.task, line_width=width))) for width in narrower)
    return next((width for width, found in tries if found is not None), None)


def _neck_wide(asked: Asked, piece: _Piece) -> Finding:
    ease = "upper arm" if piece.name == "sleeve" else "chest"
    return _error(
        "neck-wide",
        "garment.neck.opening",
        f"In a neck of {asked.show(asked.task.counts.neck)} the {piece.name} begins "
        f"{asked.show(piece.neck)} wide, and at the underarm it is only "
        f"{asked.show(max(0.0, piece.end))}: a raglan can only widen.",
        f"Choose a smaller neck opening, a narrower underarm, or more ease at the {ease}.",
    )


def _steep(asked: Asked, piece: _Piece, most: int) -> Finding:
    """Name a depth, and an underarm where one helps, at which the piece reaches its count."""
    rounds = ceil(piece.times) + FIRST + asked.task.counts.rounds - asked.task.room
    underarm = asked.task.counts.underarm + max(0.0, 2 * (piece.times - most)) + 2
    return _error(
        "steep",
        "garment.yoke.depth",
        f"The {piece.name} grows from {piece.neck:.0f} stitches at the neck to {piece.end:.0f} at "
        f"the underarm, two in a round; a yoke of {asked.deep(asked.task.counts.rounds)} has "
        f"{asked.task.room} rounds, and {most} of them can increase.",
        f"Make the yoke at least {asked.deep(rounds)} deep{_or_underarm(asked, underarm)}; or "
        "choose a wider neck opening or less ease.",
    )


def _or_underarm(asked: Asked, stitches: float) -> str:
    """Offer a wider underarm, if the file may ask for it and a raglan can be made with it."""
    counts = asked.task.counts
    wide_cm = tape_above(stitches / counts.stitches_per_cm, asked.unit)
    wider = replace(counts, underarm=wide_cm * counts.stitches_per_cm)
    if wide_cm > MOST_UNDERARM_CM or solve_raglan(replace(asked.task, counts=wider)) is None:
        return ""
    return f", or the underarm {length(wide_cm, asked.unit)} wide"


def band_grows(band: BandTask) -> Finding:
    """Refuse a chart that widens: a raglan's stitches come at its lines."""
    return _error(
        "band-grows",
        "garment.yoke.bands",
        f"The chart {band.name!r} widens from row to row, and in a raglan all stitches are added "
        "at the lines, above the bands.",
        "Choose a chart that keeps its width, or the circular yoke.",
    )


def band_over_end(
    found: OverEnd, bands: Sequence[BandTask], depth_cm: float, unit: LengthUnit
) -> Finding:
    """Tell that a band does not fit into the yoke where it is to stand."""
    is_spread = all(band.at_cm is None for band in bands)
    way = "Take" if is_spread else 'Write at = "spread", take'
    return _error(
        "band-room",
        "garment.yoke.bands",
        f"{found.band.name!r} takes {found.band.rounds} rounds, and there is no room for them "
        f"where it is to stand in a yoke of {length(depth_cm, unit)} ({found.rounds} rounds).",
        f"{way} fewer bands, or choose a deeper yoke.",
    )


def bands_crowd(asked: Asked) -> Finding:
    """Tell why no raglan has its increases above these bands: no count, or no room."""
    free = replace(asked.task, repeat=1, pinned=())
    if solve_raglan(free) is not None:
        return _no_count(asked)
    without = replace(free, room=asked.zones.rounds)
    if solve_raglan(without) is None:
        return unreached(replace(asked, task=without))
    return _inside(asked)


def _no_count(asked: Asked) -> Finding:
    yokes = sorted(splits_for(asked.task.counts, wide=True))
    repeat = asked.task.repeat
    fitting = [yoke for yoke in yokes if yoke % repeat == 0]
    if fitting:
        return _pinned_repeats(asked, fitting)
    widths = [
        width
        for width in range(max(2, repeat - 4), repeat + 5)
        if width != repeat and any(yoke % width == 0 for yoke in yokes)
    ]
    fits = f" A repeat of {either(widths)} stitches would fit." if widths else ""
    return _error(
        "band-count",
        "garment.yoke.bands",
        f"Below a raglan's increases the yoke has from {yokes[0]} to {yokes[-1]} stitches, and "
        f"none of these counts is a whole number of the repeats asked for ({repeat} "
        "stitches fit all the bands together).",
        f"Choose a chart with another repeat, or more or less ease.{fits}",
    )


def _pinned_repeats(asked: Asked, fitting: Sequence[int]) -> Finding:
    """Tell that the repeats that were asked for do not go round, and which numbers would."""
    band, repeats = next((b, b.repeats) for b in asked.bands if b.repeats is not None)
    low, high = fitting[0] // band.first_width, fitting[-1] // band.first_width
    numbers = f"{low}" if low == high else f"from {low} to {high}"
    return _error(
        "band-repeats",
        "garment.yoke.bands",
        f"{repeats} repeats of {band.name!r} make {repeats * band.first_width} "
        f"stitches; below a raglan's increases the yoke can have from {fitting[0]} to "
        f"{fitting[-1]}.",
        f"Leave out repeats, or write {numbers}.",
    )


def _inside(asked: Asked) -> Finding:
    """Tell that a band begins before the increases can have ended."""
    first = asked.zones.bands[0]
    needed = ceil(max(piece.times for piece in _pieces(asked))) + FIRST
    return _error(
        "bands-inside",
        "garment.yoke.bands",
        f"{first.task.name!r} would begin in round {first.first} of the yoke, and the increases "
        f"of the raglan take at least {needed} rounds. A colour band can only lie below them: "
        "inside, the lines would cut its repeats.",
        _outside(asked, needed),
    )


def _outside(asked: Asked, needed: int) -> str:
    """Say how the bands come to lie below so many rounds: lower down, or in a deeper yoke."""
    depth_cm, per_cm = asked.finished.yoke.depth_cm, asked.task.counts.rounds_per_cm
    lacking = needed - room_if_spread(asked.zones)
    is_spread = all(band.at_cm is None for band in asked.bands)
    if lacking > 0 or is_spread:
        deeper_cm = depth_cm + max(1, lacking) / per_cm
        way = "Make" if is_spread else 'Write at = "spread" and make'
        return (
            f"{way} the yoke at least {at_least(deeper_cm, asked.unit)} deep, or take fewer "
            "rounds of colour."
        )
    at_cm = tape_above((needed + 1) / per_cm, asked.unit)
    first, *others = asked.bands
    there = place_below(
        [replace(first, at_cm=at_cm), *others],
        depth_cm=depth_cm,
        rounds_per_cm=per_cm,
        least_rounds=asked.zones.rounds,
    )
    also = "" if isinstance(there, OverEnd) else f", or at least {length(at_cm, asked.unit)}"
    return f'Write at = "spread"{also}.'
