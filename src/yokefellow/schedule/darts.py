"""The rows of a dart: short rows across the front or the back, and the round that closes them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from yokefellow.schedule.neck import marks
from yokefellow.schedule.rows import Feature, Op, Row, RowKind, Step
from yokefellow.schedule.steps import knit, tidy
from yokefellow.shaping.darts import Dart

__all__ = ["closing_row", "dart_rows"]


def dart_rows(dart: Dart, *, front: int, back: int, wrapped: bool) -> Iterator[Row]:
    """Work one round of the body as short rows over one half of it, from BOR to BOR.

    Every pair turns nearer to the middle than the one before; the last row
    goes on round to BOR and closes the gaps it meets on the way.

    Args:
        dart: its turns.
        front: stitches of the front, from BOR to the marker at the other side.
        back: stitches of the back.
        wrapped: whether the turns are wrapped, or German.
    """
    ahead, half, behind = (0, front, back) if dart.half == "front" else (front, back, 0)
    why = f"lengthens the {dart.half}"
    # The first row comes from BOR, as if from a turn so far before the near marker.
    inner = -ahead
    for place, turn in enumerate(dart.turns):
        steps = _out(half - turn - inner, wrapped=wrapped, first=place == 0)
        yield Row(steps, *_KINDS[0], why=why)
        yield Row(_home(half - 2 * turn, wrapped=wrapped), *_KINDS[1], why=why)
        inner = turn
    steps = _onward(dart.turns, half=half, behind=behind, wrapped=wrapped)
    yield Row(steps, Feature.SHORT_ROW, RowKind.PART, why=why)


_KINDS = ((Feature.SHORT_ROW, RowKind.RIGHT_SIDE), (Feature.SHORT_ROW, RowKind.WRONG_SIDE))


def _out(stitches: int, *, wrapped: bool, first: bool) -> tuple[Step, ...]:
    """Knit to the far turn; after a German turn the first stitch is doubled."""
    if wrapped:
        return (*knit(stitches), Op("w&t"))
    return (*_after_turn(stitches, first=first), Op("turn"))


def _after_turn(stitches: int, *, first: bool) -> tuple[Step, ...]:
    return knit(stitches) if first else (Op("DS"), *knit(stitches - 1))


def _home(stitches: int, *, wrapped: bool) -> tuple[Step, ...]:
    """Purl back to the near turn."""
    if wrapped:
        return (Op("p", stitches), Op("w&t"))
    return (Op("DS"), Op("p", stitches - 1), Op("turn"))


def _onward(turns: Sequence[int], *, half: int, behind: int, wrapped: bool) -> tuple[Step, ...]:
    """Knit from the last turn to BOR, closing the gap of every far turn."""
    code, marked = _marked(turns, wrapped=wrapped)
    # A marked stitch lies so many stitches from the marker, itself counted.
    start = _after_turn(half - turns[-1] - marked[-1], first=wrapped)
    groups = [(Op(code), *knit(far - near - 1)) for near, far in pairwise(marked)][::-1]
    return tidy((*start, *marks(groups), Op(code), *knit(marked[0] - 1 + behind)))


def closing_row(dart: Dart, *, front: int, back: int, wrapped: bool) -> Row:
    """Knit a whole round, closing the gap of every near turn."""
    code, marked = _marked(dart.turns, wrapped=wrapped)
    ahead = 0 if dart.half == "front" else front
    groups = [(*knit(far - near - 1), Op(code)) for near, far in pairwise(marked)]
    steps = tidy(
        (
            *knit(ahead + marked[0] - 1),
            Op(code),
            *marks(groups),
            *knit(front + back - ahead - marked[-1]),
        )
    )
    return Row(steps, Feature.CLOSE_GAPS, why="closes the gaps of the short rows")


def _marked(turns: Sequence[int], *, wrapped: bool) -> tuple[str, list[int]]:
    """Give how a gap is closed, and which stitches from the side marker bear its mark.

    A German turn leaves it on the last stitch worked, a wrapped one on the
    stitch after it.
    """
    if wrapped:
        return "k wrap", list(turns)
    return "k DS", [turn + 1 for turn in turns]
