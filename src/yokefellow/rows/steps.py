"""Building blocks of rows: ribs, evenly spread increases and decreases."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from types import MappingProxyType

from yokefellow.rows.model import STITCHES, Op, Repeat, Row, Step, op, taken
from yokefellow.shaping import Word, word

_RIBS = MappingProxyType(
    {
        "1x1": (Op("k"), Op("p")),
        "2x2": (Op("k", 2), Op("p", 2)),
        "twisted": (Op("k tbl"), Op("p")),
    }
)


def knit(stitches: int) -> tuple[Step, ...]:
    """Knit so many stitches; nothing when there are none."""
    return (op("k", stitches),) if stitches > 0 else ()


def side_decreases(stitches: int) -> tuple[Step, ...]:
    """Take away a stitch at either end, from one marker to the next.

    Each leans the way in which its edge slants: after a marker to the left,
    before one to the right, on the body as on the sleeves.
    """
    return (op("k"), op("ssk"), *knit(stitches - 6), op("k2tog"), op("k"))


@lru_cache(maxsize=4096)
def plain_round(stitches: int) -> Row:
    """Knit a round of so many stitches: the same object each time, since most rounds are these."""
    return Row(knit(stitches))


def tidy(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Join neighbouring ops of one kind: k3, k4 becomes k7."""
    joined: list[Step] = []
    for step in steps:
        if (
            isinstance(step, Op)
            and joined
            and isinstance(last := joined[-1], Op)
            and step.code == last.code
            and step.yarn == last.yarn
        ):
            joined[-1] = op(step.code, last.times + step.times, step.yarn)
        else:
            joined.append(step)
    return tuple(joined)


def with_markers(steps: Iterable[Step], at: Iterable[int]) -> tuple[Step, ...]:
    """Hang a marker after so many stitches of a row, for each of the rising numbers `at`."""
    places, done, marked = list(at), 0, list[Step]()
    ahead = list(steps)
    while ahead:
        step = ahead.pop(0)
        while places and places[0] == done:
            marked.append(op("pm"))
            places.pop(0)
        if not places or done + taken((step,)) <= places[0]:
            marked.append(step)
            done += taken((step,))
        elif isinstance(step, Repeat):
            ahead[:0] = _opened(step, places[0] - done)
        else:
            ahead[:0] = _cut(step, places[0] - done)
    return tidy(marked)


def _opened(repeat: Repeat, stitches: int) -> list[Step]:
    """Write out the one repetition in which so many stitches end; keep those around it together."""
    before = stitches // taken(repeat.steps)
    after = repeat.times - before - 1
    return [*_again(repeat.steps, before), *repeat.steps, *_again(repeat.steps, after)]


def _again(steps: tuple[Step, ...], times: int) -> tuple[Step, ...]:
    return () if times == 0 else _times(steps, times)


def _cut(cut: Op, stitches: int) -> tuple[Op, Op]:
    """Part an op after so many of the stitches it takes."""
    first = stitches // STITCHES[cut.code].takes
    return op(cut.code, first, cut.yarn), op(cut.code, cut.times - first, cut.yarn)


def rib(stitches: int, name: str) -> tuple[Step, ...]:
    """Work a whole round of rib.

    Raises:
        ValueError: the rib does not divide the stitches.
    """
    repeat = _RIBS[name]
    width = sum(op.times for op in repeat)
    if stitches % width:
        raise ValueError(f"a rib of {width} stitches does not divide {stitches}")
    return (Repeat(repeat, stitches // width),)


def increase_evenly(stitches: int, times: int, *, midway: bool) -> tuple[Step, ...]:
    """Spread M1L increases evenly over the round.

    Each stands at the end of its group of stitches or, `midway` in a round of
    equal groups, in its middle: alternating the two from one increase round to
    the next keeps the increases from stacking into wedges. None stands at the
    beginning of the round.

    Args:
        stitches: in the round before.
        times: increases.
        midway: whether each stands in the middle of its group.

    Raises:
        ValueError: more increases than stitches.
    """
    in_middle = midway and stitches % times == 0

    def group(size: int) -> tuple[Step, ...]:
        ahead = (size + 1) // 2 if in_middle else size
        return (*knit(ahead), op("M1L"), *knit(size - ahead))

    return _spread(stitches, times, group)


def decrease_evenly(stitches: int, times: int) -> tuple[Step, ...]:
    """Spread k2tog decreases evenly over the round; each group holds the two it eats.

    Raises:
        ValueError: more decreases than pairs of stitches.
    """
    if 2 * times > stitches:
        raise ValueError(f"{stitches} stitches do not hold {times} decreases")
    return _spread(stitches, times, lambda size: (*knit(size - 2), op("k2tog")))


def change_evenly(before: int, after: int) -> tuple[Step, ...]:
    """Spread over a round what goes from one count to another one.

    Raises:
        ValueError: as `increase_evenly` and `decrease_evenly`.
    """
    if after < before:
        return decrease_evenly(before, before - after)
    return increase_evenly(before, after - before, midway=False)


def _spread(
    stitches: int, times: int, group: Callable[[int], tuple[Step, ...]]
) -> tuple[Step, ...]:
    written, rounds = word(stitches, times)
    return _times(_written(written, group), rounds)


def _written(written: Word, group: Callable[[int], tuple[Step, ...]]) -> tuple[Step, ...]:
    steps: list[Step] = []
    for part in written:
        steps += group(part) if isinstance(part, int) else _times(_written(part[0], group), part[1])
    return tidy(steps)


def _times(steps: tuple[Step, ...], times: int) -> tuple[Step, ...]:
    return steps if times == 1 else (Repeat(steps, times),)
