"""The rows of a neckband picked up round a finished neck, with its corner at a V's point."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import cycle, islice

from yokefellow.schedule.edges import outer_fabric
from yokefellow.schedule.rows import Feature, Op, Repeat, Row, Step, flat_ops
from yokefellow.schedule.steps import rib, tidy
from yokefellow.shaping.edges import Edge
from yokefellow.shaping.picked_up import Mitre

__all__ = ["mitred_rows", "pick_up"]


def pick_up(stitches: int, *, fabric: str) -> Row:
    """Pick up the stitches of the band, from the centre back round to it."""
    return Row((Op("PU", stitches),), Feature.NECK_EDGE, fabric=fabric, why="the neckband")


def mitred_rows(mitre: Mitre, edge: Edge) -> tuple[Row, ...]:
    """Work a band that decreases at the point of a V, the same on both of its sides.

    The first round sets the stitches; from the second on every round, or every
    other one, takes the centre stitch together with its neighbours. In garter
    stitch that is done in the knitted rounds.
    """
    return tuple(_rounds(mitre, edge))


def _rounds(mitre: Mitre, edge: Edge) -> Iterator[Row]:
    before, after = mitre.before, mitre.after
    falls = [number for number in range(2, edge.all_rounds + 1) if _falls(mitre, edge, number)]
    fabric = outer_fabric(edge)
    for number in range(1, edge.all_rounds + 1):
        name = edge.rib if edge.finish == "rib" else _plain(edge, number)
        middle = rib_repeat(name)[0]
        why = f"{name} rib" if edge.finish == "rib" else "the neckband"
        if number in falls:
            before, after, middle = before - 1, after - 1, Op("CDD")
            why = f"decreases at the point, {falls.index(number) + 1} of {len(falls)}"
        left = _columns(mitre.before, name)[:before]
        right = _columns(mitre.after, name)[:after]
        steps = tidy((*_written(left), middle, *_written(right[::-1])))
        feature = Feature.ADJUST if number in falls else Feature.EDGE
        yield Row(steps, feature, fabric=fabric, why=why)


def _falls(mitre: Mitre, edge: Edge, number: int) -> bool:
    """Tell whether a round decreases at the point."""
    return number % (2 if edge.finish == "garter" else mitre.every) == 0


def _plain(edge: Edge, number: int) -> str:
    return "purl" if edge.finish == "garter" and number % 2 else "knit"


def rib_repeat(name: str) -> tuple[Op, ...]:
    """Give one repeat of a rib, a stitch at a time; or the one stitch of a plain round."""
    if name in ("knit", "purl"):
        return (Op(name[0]),)
    first, second, *_ = flat_ops(rib(4, name))
    return tuple(Op(op.code) for op in (first, second) for _ in range(op.times))


def _columns(stitches: int, name: str) -> list[Op]:
    """List the stitches between BOR and the point, as they stand from the back of the neck.

    The point is a knit column with a purl on either side.
    """
    repeat = rib_repeat(name)
    purls_first = [op for op in repeat if op.code == "p"] + [op for op in repeat if op.code != "p"]
    from_point = list(islice(cycle(purls_first), stitches))
    return from_point[::-1]


def _written(columns: Sequence[Op]) -> tuple[Step, ...]:
    """Write a run of rib with its repeats put together."""
    steps = list(tidy(columns))
    if len(steps) < 4:
        return tuple(steps)
    first = 0 if steps[0].times == steps[2].times else 1
    pair = tuple(steps[first : first + 2])
    times = 1
    while tuple(steps[first + 2 * times : first + 2 * times + 2]) == pair:
        times += 1
    if times == 1:
        return tuple(steps)
    rest = steps[first + 2 * times :]
    return (*steps[:first], Repeat(pair, times), *rest)
