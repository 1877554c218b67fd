"""Where a raglan is counted, piece by piece, and measured."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

from yokefellow.advice.check import Check
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.shapes import IncreaseRound, RaglanShape, Shape

__all__ = ["has_plain_rounds", "piece_counts", "raglan_counts", "worth_counting"]

EVERY = 5
"""Increase rounds between two counts, where nothing changes (our choice)."""


def piece_counts(yoke: RaglanShape, number: int) -> str:
    """Word the count of each piece after a round, in the order in which the round meets them."""
    back, sleeve, front = (
        piece.stitches_at(number) for piece in (yoke.back, yoke.sleeve, yoke.front)
    )
    return f"back {back}, sleeve {sleeve}, front {front}, sleeve {sleeve}"


def worth_counting(yoke: RaglanShape) -> tuple[int, ...]:
    """Give the increase rounds to count after: the first, the last, every fifth, every change.

    A change is where other pieces begin to increase by turns, or where the
    rounds between two increase rounds become more or fewer; where they always
    do, it is none.
    """
    steps = yoke.increase_rounds
    if not steps:
        return ()
    changes = _last_of_runs(steps) if _is_regular(yoke) else ()
    chosen = {steps[0].number, steps[-1].number, *changes}
    since, found = 0, list[int]()
    for step in steps:
        since += 1
        if step.number in chosen or since >= EVERY:
            found.append(step.number)
            since = 0
    return tuple(found)


def _is_regular(yoke: RaglanShape) -> bool:
    """Tell whether rates say the rounds of every piece; rounds that are pinned may be any."""
    return all(piece.rates or not piece.rounds for piece in (yoke.back, yoke.front, yoke.sleeve))


def _last_of_runs(steps: tuple[IncreaseRound, ...]) -> Iterator[int]:
    """Give the last round of every run of increase rounds that lie equally far apart."""
    apart = [(later.number - early.number, later.number) for early, later in pairwise(steps)]
    for _, run in groupby(apart, key=lambda one: one[0]):
        yield list(run)[-1][1]


def has_plain_rounds(yoke: RaglanShape) -> bool:
    """Tell whether plain rounds lie between the last increase rounds, to be left out at need."""
    last_two = yoke.increase_rounds[-2:]
    return len(last_two) > 1 and last_two[1].number - last_two[0].number > 1


def _open_counts(yoke: RaglanShape, front: FrontNeck, number: int) -> str:
    """Word the counts while the fronts are open, from the left front to the right one."""
    each = front.each(number, grown=yoke.front.stitches_at(number) - yoke.front.start)
    back, sleeve = yoke.back.stitches_at(number), yoke.sleeve.stitches_at(number)
    return (
        f"{back + 2 * (sleeve + each)} stitches: front {each}, sleeve {sleeve}, back {back}, "
        f"sleeve {sleeve}, front {each}."
    )


def raglan_counts(yoke: RaglanShape, shape: Shape) -> Iterator[Check]:
    """Count the work, and each piece between its markers, after rounds worth counting."""
    for place, number in enumerate(worth_counting(yoke)):
        is_open = shape.front is not None and number < shape.flat_rows
        around = "" if is_open else "; the back lies on both sides of BOR"
        mend = (
            f" Count from marker to marker{around}. A piece with one too few: find the line where "
            "an increase is missing, and make it there now."
            if place == 0
            else ""
        )
        said = (
            _open_counts(yoke, shape.front, number)
            if is_open and shape.front
            else f"{yoke.stitches_at(number)} stitches: {piece_counts(yoke, number)}."
        )
        yield Check(*shape.at(number), "count", "Count", f"{said}{mend}")
