"""Ball after ball: in which row each begins, and where the lots are alternated."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise
from math import ceil
from typing import NamedTuple

from yokefellow.project_file.models import Yarn
from yokefellow.rows.model import Schedule
from yokefellow.yarn.estimate import Reckoning
from yokefellow.yarn.extras import END_M
from yokefellow.yarn.progress import Place, in_order
from yokefellow.yarn.uncertainty import PRIOR, Knowledge

ALTERNATE_ROUNDS = 10
"""Rounds before and after a change of lot in which the two take turns (common practice)."""

TURN_ROUNDS = 2
"""Rounds from each of two lots in turn (common practice)."""


class Ball(NamedTuple):
    """One ball of the stash."""

    number: int
    """Its place in the project file's list, from 1."""
    grams: float
    lot: str
    """Empty when the lots were not named."""
    is_part: bool
    """Clearly less than the band says of a whole one."""


class BallStart(NamedTuple):
    """Where a new ball is joined: at the beginning of a row that the old one would not finish."""

    ball: Ball
    place: Place
    earliest: Place
    latest: Place | None
    """None when the ball before may last to the end."""


class Alternation(NamedTuple):
    """Where two lots take turns, so that no line shows between them."""

    lots: tuple[str, str]
    first: Place
    last: Place
    rounds_each: int = TURN_ROUNDS


class StashUse(NamedTuple):
    """One yarn's balls in the order of their use."""

    code: str
    order: tuple[Ball, ...]
    starts: tuple[BallStart, ...]
    """Of the balls that are needed by the best guess, in order."""
    alternations: tuple[Alternation, ...]
    runs_out: Place | None
    """The row that the last ball would not finish by the best guess."""


def balls_in_order(yarn: Yarn) -> tuple[Ball, ...]:
    """Put the balls in the order of their use.

    The lot with most yarn first, so that yoke and body are of one lot; in a
    lot the whole balls before the parts. So the fewest joins lie where they
    are seen, and what a part ball leaves over, it leaves at the end (our choice).
    """
    weights = yarn.weights or tuple(_by_number(yarn))
    lots = yarn.lots or ("",) * len(weights)
    found = [
        Ball(number, grams, lot, grams < PART * yarn.ball_weight)
        for number, (grams, lot) in enumerate(zip(weights, lots, strict=True), start=1)
    ]
    by_lot: dict[str, float] = {}
    for ball in found:
        by_lot[ball.lot] = by_lot.get(ball.lot, 0.0) + ball.grams
    return tuple(
        sorted(found, key=lambda b: (-by_lot[b.lot], b.lot, b.is_part, -b.grams, b.number))
    )


PART = 0.9
"""A ball below this share of its band's weight is a part ball (common practice, no source)."""


def _by_number(yarn: Yarn) -> Iterator[float]:
    for at in range(ceil(yarn.balls)):
        yield yarn.ball_weight * min(1.0, yarn.balls - at)


def stash_use(
    reckoning: Reckoning, schedule: Schedule, code: str, knowledge: Knowledge = PRIOR
) -> StashUse:
    """Find where each ball begins, by the best guess and at either end of the range."""
    yarn = reckoning.project.yarn[code]
    order = balls_in_order(yarn)
    bundles = [order[at : at + yarn.strands] for at in range(0, len(order), yarn.strands)]
    stitches = reckoning.knitting(code)
    believed = knowledge.of(stitches)
    away = believed.away((1 + reckoning.sure) / 2)
    besides = {extra.what: extra.grams.mean for extra in reckoning.extras(code, stitches.mean)}
    by_row = tuple(_grams_by_row(reckoning, schedule, code))
    room = [sum(ball.grams for ball in bundle) for bundle in bundles]
    room[0] -= besides.get("tail", 0.0)
    room = _without(room, besides["swatch"])
    rows = tuple(_sets_at_once(by_row, most=min(room)))
    ends = 2 * END_M * yarn.strands * yarn.ball_weight / yarn.ball_length
    usual, more, fewer = (
        _joins(rows, room, ends, factor=knits / stitches.mean if stitches.mean else 1.0)
        for knits in (believed.mean, believed.mean + away, believed.mean - away)
    )
    starts = tuple(
        BallStart(
            ball=bundles[at][0],
            place=place,
            earliest=more[at],  # who knits more needs every ball as early, or earlier
            latest=fewer[at] if at < len(fewer) else None,
        )
        for at, place in enumerate(usual[: len(bundles)])
    )
    return StashUse(
        code,
        order,
        starts,
        tuple(_alternations([place for place, _, _ in by_row], starts)),
        runs_out=usual[len(bundles)] if len(usual) > len(bundles) else None,
    )


def _without(room: Sequence[float], swatch_g: float) -> list[float]:
    """Take the swatch out of the balls that are used last: it came out of some ball."""
    left = list(room)
    for at in reversed(range(len(left))):
        taken = min(left[at], swatch_g)
        left[at] -= taken
        swatch_g -= taken
    return left


def _grams_by_row(
    reckoning: Reckoning, schedule: Schedule, code: str
) -> Iterator[tuple[Place, float, bool]]:
    """Give what each row takes, and whether it is a short row."""
    for run in in_order(schedule):
        spends = run.by_yarn.get(code)
        if spends is not None:
            grams = reckoning.rates.grams(code, {(code, run.fabric): spends}).mean
            yield from ((run.place(at), grams, run.is_short) for at in range(run.times))


def _sets_at_once(
    rows: Iterable[tuple[Place, float, bool]], *, most: float
) -> Iterator[tuple[Place, float]]:
    """Count a set of short rows to its first row: no ball begins inside it.

    A set that takes more than the smallest ball is left as it is.
    """
    for is_short, together in groupby(rows, key=lambda row: row[2]):
        group = [(place, grams) for place, grams, _ in together]
        whole = sum(grams for _, grams in group)
        if is_short and whole <= most:
            first, *others = group
            yield first[0], whole
            yield from ((place, 0.0) for place, _ in others)
        else:
            yield from group


def _joins(
    rows: Sequence[tuple[Place, float]], room: Sequence[float], ends: float, *, factor: float
) -> list[Place]:
    """Give the row in which each ball begins, and the row at which the last one is at its end."""
    found: list[Place] = []
    left = 0.0
    for place, grams in rows:
        # A ball too small for a single row is joined and left in that row.
        while factor * grams > left:
            found.append(place)
            if len(found) > len(room):
                return found
            left = room[len(found) - 1] - ends
        left -= factor * grams
    return found


def _alternations(places: Sequence[Place], starts: Sequence[BallStart]) -> Iterator[Alternation]:
    for before, after in pairwise(starts):
        if before.ball.lot == after.ball.lot:
            continue
        at = places.index(after.place)
        piece = [
            number
            for number in range(at - ALTERNATE_ROUNDS, at + ALTERNATE_ROUNDS)
            if 0 <= number < len(places)
            and (places[number].section, places[number].copy)
            == (after.place.section, after.place.copy)
        ]
        yield Alternation((before.ball.lot, after.ball.lot), places[piece[0]], places[piece[-1]])
