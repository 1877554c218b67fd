"""A body or a sleeve with its colour bands put in."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from functools import partial

from yokefellow.gauge import Gauge
from yokefellow.shaping.model import BodyShape, SleeveShape
from yokefellow.shaping.pieces.piece_bands import (
    AROUND,
    MOVED,
    Banding,
    best_repeats,
    fit_bands,
    placed,
    ways_around,
)

__all__ = ["banded_body", "banded_sleeve"]

FIRST_SLEEVE_ROUND = 3
"""After the pick-up round and the one that closes the corners."""


def banded_body(
    shape: BodyShape, bands: Sequence[Banding], *, stitches: int, plain: Gauge
) -> BodyShape:
    """Put the bands into a body whose rounds count theirs.

    Args:
        shape: the body.
        bands: from the underarm down.
        stitches: right below the underarm.
        plain: gauge between the bands.

    Raises:
        MisplacedError: a band finds no room.
        UnrepeatedError: a repeat fits no count near the body's own.
    """
    if not bands:
        return shape
    rounds = shape.rounds.got
    busy = [number for dart in shape.darts for number in (dart.number, dart.number + 1)]
    firsts = placed(bands, rounds=rounds, plain=plain, earliest=1 + AROUND, busy=busy)

    def around(before: int) -> int:
        return stitches + sum(change.added for change in shape.changes[:before])

    places, counts = _around_all(
        [change.number for change in shape.changes],
        bands,
        firsts,
        earliest=1,
        latest=rounds - 1,
        around=around,
        plain=plain,
        busy=busy,
    )
    changes = tuple(
        replace(change, number=place) for change, place in zip(shape.changes, places, strict=False)
    )
    lost = sum(change.added for change in shape.changes[len(places) :])
    fewest = min(around(done) for done in range(len(places) + 1))
    return replace(
        shape,
        changes=changes,
        edge=replace(shape.edge, got=shape.edge.got - lost),
        waist=replace(shape.waist, got=fewest) if shape.waist else None,
        bands=fit_bands(bands, firsts, counts, plain=plain),
    )


def banded_sleeve(
    shape: SleeveShape, bands: Sequence[Banding], *, stitches: int, plain: Gauge
) -> SleeveShape:
    """Put the bands into a sleeve whose rounds count theirs; as `banded_body`."""
    if not bands:
        return shape
    rounds = shape.rounds.got
    firsts = placed(bands, rounds=rounds, plain=plain, earliest=FIRST_SLEEVE_ROUND + AROUND)
    places, counts = _around_all(
        shape.decreases,
        bands,
        firsts,
        earliest=FIRST_SLEEVE_ROUND,
        latest=rounds - 1,
        around=lambda before: stitches - 2 * before,
        plain=plain,
    )
    return replace(shape, decreases=places, bands=fit_bands(bands, firsts, counts, plain=plain))


def _around_all(
    places: Sequence[int],
    bands: Sequence[Banding],
    firsts: Sequence[int],
    *,
    earliest: int,
    latest: int,
    around: Callable[[int], int],
    plain: Gauge,
    busy: Collection[int] = (),
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Put the shaping rounds outside every band.

    Returns:
        Their places, the last ones left out where there is no room for them;
        and the stitches of the piece at each band.
    """
    head: tuple[int, ...] = ()
    tail = tuple(places)
    counts: list[int] = []
    for band, first in zip(bands, firsts, strict=True):
        last = first + band.task.rounds - 1
        before, tail = _best_way(
            tail,
            band,
            first=first - AROUND,
            last=last + AROUND,
            earliest=earliest,
            latest=latest,
            around=partial(_further, around, len(head)),
            plain=plain,
            busy=busy,
        )
        head, tail = (*head, *tail[:before]), tail[before:]
        counts.append(around(len(head)))
        earliest = last + AROUND + 1
    return (*head, *tail), tuple(counts)


def _further(around: Callable[[int], int], done: int, more: int) -> int:
    """Give the stitches after so many more shaping rounds."""
    return around(done + more)


def _best_way(
    places: tuple[int, ...],
    band: Banding,
    *,
    first: int,
    last: int,
    earliest: int,
    latest: int,
    around: Callable[[int], int],
    plain: Gauge,
    busy: Collection[int],
) -> tuple[int, tuple[int, ...]]:
    """Give how many lie before the band and where all lie: the repeat's own count if it can be.

    Where no way leads to a count that serves, one or two of the last are left
    out: the round that goes to the edge makes up for them.
    """
    found: list[tuple[int, int, tuple[int, ...]]] = []
    for left_out in range(len(places) + 1):
        kept = places[: len(places) - left_out]
        ways = ways_around(
            kept, first=first, last=last, earliest=earliest, latest=latest, busy=busy
        )
        found += [(_adjusts(band, around(n), plain), n, way) for n, way in ways.items()]
        if any(cost < FAILS for cost, _, _ in found):
            break
        if found and left_out >= MOVED:
            break
    _, before, way = min(found, key=lambda one: one[0])
    return before, way


FAILS = 2
"""What it costs when no repeat serves."""


def _adjusts(band: Banding, count: int, plain: Gauge) -> int:
    """Tell what a band costs where the piece has so many stitches: 0 nothing, 1 rounds, 2 it fails.

    The ways come with the most natural first, and the first of equals is taken.
    """
    task = band.task
    wanted = count * task.stitches_per_cm / plain.stitches_per_cm
    repeats = best_repeats(count, wanted, task.first_width)
    if repeats is None:
        return FAILS
    return int(repeats * task.first_width != count)
