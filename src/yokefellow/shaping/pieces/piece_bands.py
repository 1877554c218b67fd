"""Colour bands on the body and the sleeves: where they lie, and the counts they need.

Below the underarm a piece is a tube, so a band needs only a count that its
repeat divides. The shaping rounds are moved out of the band, up or down, and
so many of them before it that the count comes out by itself where it can.
Else a round before the band goes to the nearest count. Where the shaping was
on its way there, the piece goes on from it; elsewhere a round after the band
goes back.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import lcm

from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import resolve_pieces
from yokefellow.gauge import Gauge, Gauges
from yokefellow.project_file.models import PieceBand, Project
from yokefellow.shaping.bands import BandTask, band_task
from yokefellow.shaping.counts import Count, nearest, rounds_for
from yokefellow.shaping.model import BandShape, ChartedBand

__all__ = [
    "AROUND",
    "MOVED",
    "Banding",
    "MisplacedError",
    "UnrepeatedError",
    "banding",
    "best_repeats",
    "fit_bands",
    "nearest_repeats",
    "piece_length",
    "piece_rounds",
    "placed",
    "straight_repeat",
    "ways_around",
]

WIDER, NARROWER = 0.08, 0.03
"""How far a band may be wider or narrower than the piece there. Wider is seen less than narrower,
which puckers (3 %: common practice; 8 %: our choice, a centimetre and a half on a sleeve)."""

AROUND = 1
"""Rounds kept clear on either side of a band: for going to its count and back."""

APART = 2
"""Shaping rounds are at least so many rounds apart."""

MOVED = 2
"""So many shaping rounds more or fewer may lie before a band for the sake of its repeat."""


class MisplacedError(Exception):
    """A band that finds no room in its piece: it needs so many rounds, and has so many."""

    def __init__(self, place: int, *, needs: int, has: int) -> None:
        super().__init__(f"band {place + 1} needs {needs} rounds and has {has}")
        self.place = place
        self.needs = needs
        self.has = has


class UnrepeatedError(Exception):
    """A band whose repeat no count near the wanted one allows."""

    def __init__(self, place: int, *, wanted: float, width: int) -> None:
        super().__init__(f"band {place + 1} repeats over {width} stitches, near {wanted:.1f}")
        self.place = place
        self.wanted = wanted
        self.width = width


@dataclass(frozen=True, slots=True)
class Banding:
    """One band that a piece must carry."""

    chart: Chart
    task: BandTask
    """`at_cm` is the depth below the underarm; None stands just above the edge."""


def banding(
    charts: Sequence[Chart], bands: Sequence[PieceBand], gauges: Gauges
) -> tuple[Banding, ...]:
    """Give the bands of a piece, from the underarm down."""
    return tuple(
        Banding(chart, band_task(chart, gauges, at=band.at, repeats=None))
        for chart, band in zip(charts, bands, strict=True)
    )


def piece_rounds(length_cm: float, bands: Sequence[Banding], *, plain: Gauge, least: int) -> Count:
    """Give the rounds that make a length, those of the bands at their own gauge."""
    if not bands:
        return rounds_for(length_cm, per_cm=plain.rounds_per_cm, least=least)
    inside = sum(band.task.rounds for band in bands)
    deep_cm = sum(band.task.depth_cm for band in bands)
    over = rounds_for(max(0.0, length_cm - deep_cm), per_cm=plain.rounds_per_cm, least=least)
    got = over.got + inside
    per_cm = got / (over.cm + deep_cm)
    return Count(got, length_cm * per_cm, per_cm)


def piece_length(rounds: int, bands: Sequence[Banding], *, plain: Gauge) -> float:
    """Give the length in cm that rounds make, those of the bands at their own gauge."""
    inside = sum(band.task.rounds for band in bands)
    deep_cm = sum(band.task.depth_cm for band in bands)
    return max(0, rounds - inside) / plain.rounds_per_cm + deep_cm


def placed(
    bands: Sequence[Banding],
    *,
    rounds: int,
    plain: Gauge,
    earliest: int,
    busy: Iterable[int] = (),
) -> tuple[int, ...]:
    """Give the first round of each band.

    Args:
        bands: of the piece, in order.
        rounds: of the piece; the last of them goes to the count of the edge.
        plain: gauge between them.
        earliest: round of the piece that may be the first of a band.
        busy: rounds that are no plain ones and cannot be moved.

    Raises:
        MisplacedError: a band finds no room.
    """
    firsts: list[int] = []
    inside, deep_cm = 0, 0.0
    taken = frozenset(busy)
    for place, band in enumerate(bands):
        task = band.task
        after = firsts[-1] + bands[place - 1].task.rounds + 2 * AROUND if firsts else earliest
        latest = rounds - task.rounds
        wanted = latest
        if task.at_cm is not None:
            plain_cm = max(0.0, task.at_cm - deep_cm)
            wanted = 1 + inside + nearest(plain_cm * plain.rounds_per_cm, least=0)
        first = _free(max(wanted, after), task.rounds, taken)
        if first > latest:
            raise MisplacedError(place, needs=task.rounds, has=max(0, rounds - first))
        firsts.append(first)
        inside, deep_cm = inside + task.rounds, deep_cm + task.depth_cm
    return tuple(firsts)


def _free(first: int, rounds: int, taken: frozenset[int]) -> int:
    """Go down until a band and the rounds around it meet no dart."""
    while taken.intersection(range(first - AROUND, first + rounds + AROUND)):
        first += 1
    return first


def ways_around(
    places: Sequence[int],
    *,
    first: int,
    last: int,
    earliest: int,
    latest: int,
    busy: Collection[int] = (),
) -> Mapping[int, tuple[int, ...]]:
    """Give the ways to put shaping rounds outside a band: by how many lie before it.

    Those that move lie as near to their old places as may be, two rounds apart.

    Args:
        places: rounds of the shaping, in order.
        first: round that must be clear,
        last: and the last such round.
        earliest: round in which shaping may stand,
        latest: and the last such round.
        busy: rounds that are short rows or close their gaps.
    """
    natural = sum(place < (first + last) / 2 for place in places)
    found: dict[int, tuple[int, ...]] = {}
    for before in sorted(range(len(places) + 1), key=lambda n: (abs(n - natural), n)):
        if abs(before - natural) > MOVED + sum(first <= place <= last for place in places):
            break
        above = _upward(places[:before], first - 1, busy)
        below = _downward(places[before:], last + 1, busy)
        ends = (*above, *below)
        if not ends or (min(ends) >= earliest and max(ends) <= latest):
            found[before] = (*above, *below)
    return found


def _upward(places: Sequence[int], limit: int, busy: Collection[int]) -> tuple[int, ...]:
    moved: list[int] = []
    for place in reversed(places):
        limit = min(place, limit)
        while limit in busy:
            limit -= 1
        moved.append(limit)
        limit = moved[-1] - APART
    return tuple(reversed(moved))


def _downward(places: Sequence[int], least: int, busy: Collection[int]) -> tuple[int, ...]:
    moved: list[int] = []
    for place in places:
        least = max(place, least)
        while least in busy:
            least += 1
        moved.append(least)
        least = moved[-1] + APART
    return tuple(moved)


def nearest_repeats(wanted: float, width: int) -> int | None:
    """Give how many repeats go round best, the wider of two as near; None where none is near.

    >>> nearest_repeats(44.0, 8), nearest_repeats(44.0, 24)
    (None, None)
    >>> nearest_repeats(196.0, 8)
    25
    """
    below = int(wanted // width)
    near = [n for n in (below, below + 1) if is_near(n * width, wanted)]
    return min(near, key=lambda n: (abs(n * width - wanted), -n), default=None)


def is_near(count: float, wanted: float) -> bool:
    """Tell whether a band of so many stitches lies well where so many are wanted."""
    return -NARROWER <= count / wanted - 1 <= WIDER


def fit_bands(
    bands: Sequence[Banding],
    firsts: Sequence[int],
    counts: Sequence[int],
    *,
    plain: Gauge,
    onward: Collection[int] = (),
) -> tuple[ChartedBand, ...]:
    """Give each band its count.

    Args:
        bands: of the piece.
        firsts: round in which each begins.
        counts: stitches of the piece as each begins.
        plain: gauge of the piece.
        onward: bands from whose count the piece goes on, by their places.

    Raises:
        UnrepeatedError: no count near the piece's own is a multiple of a repeat.
    """
    fitted = _fitted(bands, firsts, counts, plain)
    return tuple(replace(band, goes_on=at in onward) for at, band in enumerate(fitted))


def _fitted(
    bands: Sequence[Banding], firsts: Sequence[int], counts: Sequence[int], plain: Gauge
) -> Iterator[ChartedBand]:
    for place, (band, first, count) in enumerate(zip(bands, firsts, counts, strict=True)):
        task = band.task
        wanted = count * task.stitches_per_cm / plain.stitches_per_cm
        repeats = best_repeats(count, wanted, task.first_width)
        if repeats is None:
            raise UnrepeatedError(place, wanted=wanted, width=task.first_width)
        yield ChartedBand(
            BandShape(
                name=task.name,
                first=first,
                repeats=repeats,
                start=Count(repeats * task.first_width, wanted, task.stitches_per_cm),
                counts=tuple(repeats * width for width in task.widths),
            ),
            band.chart,
            count,
        )


def best_repeats(count: int, wanted: float, width: int) -> int | None:
    """Give the repeats of a band; those of the piece's own count where it lies near enough."""
    if count % width == 0 and is_near(count, wanted):
        return count // width
    return nearest_repeats(wanted, width)


def straight_repeat(project: Project, gauges: Gauges) -> int:
    """Give the repeat that a straight body's count should divide by; 1 where it need not.

    Only where a band of the body's own count would be neither too wide nor too
    narrow at the band's gauge.
    """
    choices = project.garment.body
    if choices.shape != "straight" or not choices.bands:
        return 1
    charts = resolve_pieces(project)[0].body
    ratios = [gauges.of(c.kind).stitches_per_cm / gauges.plain.stitches_per_cm for c in charts]
    if not all(is_near(1.0, ratio) for ratio in ratios):
        return 1
    return lcm(*(chart.first_width for chart in charts))
