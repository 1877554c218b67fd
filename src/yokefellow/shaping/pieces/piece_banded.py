"""A body or a sleeve with its colour bands put in."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from functools import partial
from typing import NamedTuple

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

    def step(place: int) -> int:
        change = shape.changes[place]
        return 0 if change.for_bust else change.added

    places, counts, onward = _around_all(
        [change.number for change in shape.changes],
        bands,
        firsts,
        earliest=1,
        latest=rounds - 1,
        piece=_Piece(around, step, plain),
        busy=busy,
    )
    made = replace(
        shape,
        changes=tuple(
            replace(change, number=place)
            for change, place in zip(shape.changes, places, strict=False)
            if place is not None
        ),
        bands=fit_bands(bands, firsts, counts, plain=plain, onward=onward),
    )
    after = [made.around(stitches, number) for number in range(rounds + 1)]
    return replace(
        made,
        edge=replace(shape.edge, got=after[-1]),
        waist=replace(shape.waist, got=min(after)) if shape.waist else None,
    )


def banded_sleeve(
    shape: SleeveShape, bands: Sequence[Banding], *, stitches: int, plain: Gauge
) -> SleeveShape:
    """Put the bands into a sleeve whose rounds count theirs; as `banded_body`."""
    if not bands:
        return shape
    rounds = shape.rounds.got
    firsts = placed(bands, rounds=rounds, plain=plain, earliest=FIRST_SLEEVE_ROUND + AROUND)
    places, counts, onward = _around_all(
        shape.decreases,
        bands,
        firsts,
        earliest=FIRST_SLEEVE_ROUND,
        latest=rounds - 1,
        piece=_Piece(lambda before: stitches - 2 * before, lambda _: -2, plain),
    )
    return replace(
        shape,
        decreases=tuple(place for place in places if place is not None),
        bands=fit_bands(bands, firsts, counts, plain=plain, onward=onward),
    )


class _Piece(NamedTuple):
    """What the bands must know of a piece."""

    around: Callable[[int], int]
    """Its stitches after so many shaping rounds."""
    step: Callable[[int], int]
    """What the shaping round at a place adds; 0 where no other round may do so in its stead."""
    plain: Gauge


def _around_all(
    places: Sequence[int],
    bands: Sequence[Banding],
    firsts: Sequence[int],
    *,
    earliest: int,
    latest: int,
    piece: _Piece,
    busy: Collection[int] = (),
) -> tuple[tuple[int | None, ...], tuple[int, ...], frozenset[int]]:
    """Put the shaping rounds outside every band.

    Returns:
        Their places, the last ones left out where there is no room for them, and
        None where the round that goes to a band's count does the work of one; the
        stitches of the piece at each band; and the bands from whose count it goes on.
    """
    head: tuple[int | None, ...] = ()
    tail = tuple(places)
    counts: list[int] = []
    onward: set[int] = set()
    beside = 0
    for place, (band, first) in enumerate(zip(bands, firsts, strict=True)):
        last = first + band.task.rounds - 1
        here = _Piece(
            partial(_further, piece.around, len(head), beside),
            partial(_further, piece.step, len(head), 0),
            piece.plain,
        )
        before, tail = _best_way(
            tail,
            band,
            first=first - AROUND,
            last=last + AROUND,
            earliest=earliest,
            latest=latest,
            piece=here,
            busy=busy,
        )
        counts.append(here.around(before))
        fit = _fit(band, before, len(tail), here)
        if fit.goes_on:
            onward.add(place)
        beside += fit.beside
        done = before + fit.done
        head = (*head, *tail[:before], *(None for _ in range(fit.done)))
        tail = tail[done:]
        earliest = last + AROUND + 1
    return (*head, *tail), tuple(counts), frozenset(onward)


def _further(of: Callable[[int], int], done: int, beside: int, more: int) -> int:
    """Ask after so many more shaping rounds."""
    return of(done + more) + beside


def _best_way(
    places: tuple[int, ...],
    band: Banding,
    *,
    first: int,
    last: int,
    earliest: int,
    latest: int,
    piece: _Piece,
    busy: Collection[int],
) -> tuple[int, tuple[int, ...]]:
    """Give how many lie before the band and where all lie: the repeat's own count if it can be.

    Where no way leads to a count that serves, or only one that the band would
    leave again, one or two of the last are left out: the round that goes to the
    edge makes up for them.
    """
    found: list[tuple[int, int, tuple[int, ...]]] = []
    for left_out in range(len(places) + 1):
        kept = places[: len(places) - left_out]
        ways = ways_around(
            kept, first=first, last=last, earliest=earliest, latest=latest, busy=busy
        )
        found += [(_fit(band, n, len(kept), piece).cost, n, way) for n, way in ways.items()]
        if any(cost < THERE_AND_BACK for cost, _, _ in found):
            break
        if any(cost < FAILS for cost, _, _ in found) and left_out >= MOVED:
            break
        if found and left_out >= MOVED:
            break
    _, before, way = min(found, key=lambda one: one[0])
    return before, way


THERE_AND_BACK = 2
"""What it costs when a round must go to the band's count and one back."""

FAILS = 3
"""What it costs when no repeat serves."""


class _Fit(NamedTuple):
    """How a band's count lies to that of the piece."""

    cost: int
    """0 where it is the same, 1 where the shaping is on its way there, 2 where a round must go
    there and one back, 3 where it fails. The ways come with the most natural first, and the
    first of equals is taken."""
    goes_on: bool = False
    done: int = 0
    """Shaping rounds whose work the round that goes to it does."""
    beside: int = 0
    """Stitches that it adds beyond those, and that the piece has from there on."""


def _fit(band: Banding, before: int, kept: int, piece: _Piece) -> _Fit:
    """Tell how a band lies where so many of the shaping rounds that are kept come before it."""
    task = band.task
    count = piece.around(before)
    wanted = count * task.stitches_per_cm / piece.plain.stitches_per_cm
    repeats = best_repeats(count, wanted, task.first_width)
    if repeats is None:
        return _Fit(FAILS)
    over = repeats * task.first_width - count
    if over == 0:
        return _Fit(0)
    done = 0
    for step in map(piece.step, range(before, min(kept, before + MOVED))):
        if step * over <= 0:
            break
        if abs(step) > abs(over):
            return _Fit(1, goes_on=True, done=done, beside=over)
        over, done = over - step, done + 1
        if over == 0:
            return _Fit(1, goes_on=True, done=done)
    return _Fit(THERE_AND_BACK)
