"""Choosing the counts of a yoke with colour bands.

The same bargain as the plain yoke's (see `circular`), on a ladder whose layers
before each band hold only multiples of its repeat.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from yokefellow.shaping.banded import (
    NARROWEST,
    TOLERANCE,
    Ladder,
    LineTask,
    Misfit,
    Narrow,
    banded_ladder,
)
from yokefellow.shaping.chain import Path, climb, stations
from yokefellow.shaping.counts import Count
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.standing import broken_rules, set_places
from yokefellow.shaping.task import Solution, YokeTask, splits_for
from yokefellow.shaping.yoke_shapes import BandShape, IncreaseRound, stitches_at
from yokefellow.shaping.zones import PlacedBand, Zones

__all__ = ["built", "faults", "line_of", "solve_banded"]


MORE = (0, 1)
"""Increase rounds to try in each plain stretch beyond the usual number."""


def solve_banded(
    task: YokeTask, necks: Sequence[int]
) -> Solution | Misfit | Narrow | Unreached | None:
    """Choose neck, split, places, repeats and increase rounds together; None when none is found.

    The first places that break no rule and have every band on the line of the
    yoke are taken. When a band lies where the
    yoke is already full, its repeat must divide the yoke's count: only then
    body, sleeves and underarms may give way a little.
    """
    best: Solution | None = None
    for wide in (False, True):
        splits = splits_for(task, wide=wide)
        if not splits:
            return None
        refused: list[Misfit | Narrow | Unreached] = []
        for zones in task.places:
            found = _at(task, zones, necks, splits)
            if isinstance(found, Solution):
                if best is None or faults(found) < faults(best):
                    best = found
                if faults(best) == (0, 0):
                    return best
            elif found is not None:
                refused.append(found)
        if best is not None:
            return best
    return refused[0] if refused else None


def faults(solution: Solution) -> tuple[int, int]:
    """Count the rules a solution breaks, and its bands that lie off the line."""
    starts = [band.start for band in solution.bands]
    off = [
        start for start in starts if not 1 - NARROWEST <= start.got / start.wanted <= 1 + TOLERANCE
    ]
    return len(solution.broken), len(off)


def _at(
    task: YokeTask,
    zones: Zones,
    necks: Sequence[int],
    splits: Mapping[int, tuple[float, Split]],
) -> Solution | Misfit | Narrow | Unreached | None:
    """Solve a yoke whose bands stand at these places."""
    line = line_of(task, necks, splits)
    for more in MORE:
        ladder = banded_ladder(line, zones, more=more)
        if not isinstance(ladder, Ladder):
            return ladder
        best = _best(task, zones, ladder, necks, splits)
        if best is not None:
            return best
    return None


def line_of(
    task: YokeTask, necks: Sequence[int], splits: Mapping[int, tuple[float, Split]]
) -> LineTask:
    """Give the line of a yoke."""
    return LineTask(
        necks=necks,
        yokes=sorted(splits),
        neck=task.neck,
        yoke=task.yoke,
        shoulder=task.covering,
        per_cm=task.stitches_per_cm,
        rounds_per_cm=task.rounds_per_cm,
        style=task.style,
    )


def _best(
    task: YokeTask,
    zones: Zones,
    ladder: Ladder,
    necks: Sequence[int],
    splits: Mapping[int, tuple[float, Split]],
) -> Solution | None:
    best: tuple[tuple[float, ...], Solution] | None = None
    for yoke, path in climb(necks, ladder.layers, ladder.first).items():
        if yoke not in splits:
            continue
        split_cost, split = splits[yoke]
        solution = built(task, zones, ladder, path, split)
        adjusting = float(int(split_cost))
        cost = (
            float(len(solution.broken)),
            path[0] - len(solution.increase_rounds) + adjusting,
            path[1] + split_cost - adjusting,
        )
        if best is None or cost < best[0]:
            best = (cost, solution)
    return None if best is None else best[1]


def built(task: YokeTask, zones: Zones, ladder: Ladder, path: Path, split: Split) -> Solution:
    """Give the solution that a chain of counts makes, with its bands at their rounds."""
    counts = path[2]
    steps = stations(counts, ladder.layers, ladder.first)
    grown = [
        (step, gap) for step, gap in zip(steps, ladder.gap_of, strict=True) if step[0] != step[1]
    ]
    taken = [step for step, _ in grown]
    per_cm = task.stitches_per_cm
    at = task.fixed.increase_at or (
        set_places(
            taken,
            [gap for _, gap in grown],
            zones=zones,
            per_cm=per_cm,
            shoulder=task.covering,
        )
        if taken
        else ()
    )
    rounds = tuple(
        IncreaseRound(place, before, after)
        for place, (before, after) in zip(at, taken, strict=True)
    )
    bands = _bands(zones, ladder.wanted, counts[0], rounds)
    broken = broken_rules(
        at,
        zones=zones,
        per_cm=per_cm,
        shoulder=task.covering,
        stitches_at=lambda number: stitches_at(number, counts[0], rounds, bands),
    )
    return Solution(Count(counts[0], task.neck, per_cm), split, rounds, broken, bands)


def _bands(
    zones: Zones, wanted: Sequence[float], start: int, rounds: tuple[IncreaseRound, ...]
) -> tuple[BandShape, ...]:
    """Give each band the count the work has when it comes."""
    bands: list[BandShape] = []
    for placed, count in zip(zones.bands, wanted, strict=True):
        before = stitches_at(placed.first - 1, start, rounds, bands)
        bands.append(_band(placed, before, count))
    return tuple(bands)


def _band(placed: PlacedBand, before: int, wanted: float) -> BandShape:
    task = placed.task
    repeats = before // task.first_width
    return BandShape(
        name=task.name,
        first=placed.first,
        repeats=repeats,
        start=Count(before, wanted, task.stitches_per_cm),
        counts=tuple(repeats * width for width in task.widths),
    )
