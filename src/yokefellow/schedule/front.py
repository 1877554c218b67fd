"""The rows of a raglan whose fronts are worked flat, down to the row that joins them.

A right-side row runs from the left front's edge over the left sleeve, the
back and the right sleeve to the right front's edge, as the rounds below do; a
wrong-side row runs back. The first row back hangs the markers, so that the
increase rounds of the raglan, which are even, all have the right side facing.
"""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType

from yokefellow.schedule.raglan import (
    INCREASES,
    Piece,
    beginning,
    end,
    end_of,
    piece_words,
    whole,
)
from yokefellow.schedule.rows import Feature, Op, Row, RowKind, Section, Step, taken
from yokefellow.schedule.steps import knit, tidy
from yokefellow.shaping.front_neck import FrontNeck
from yokefellow.shaping.shapes import RaglanShape

__all__ = ["front_section"]

_WRONG_SIDE = MappingProxyType(
    {"k": "p", "M1L": "M1P", "M1R": "M1P", "kfb": "pfb", "yo": "yo", "sm": "sm", "CO": "CO"}
)
"""What is worked on the way back, so that the right side shows the same."""


def front_section(yoke: RaglanShape, neck: FrontNeck) -> Section:
    """Cast on the back, the sleeves and the edges of the front, and work flat to the join."""
    stitches = yoke.back.start + 2 * yoke.sleeve.start + 2 * neck.edge
    cast_on = Row((Op("CO", stitches),), Feature.CAST_ON, RowKind.FLAT_RIGHT, why="the neck edge")
    rows = (cast_on, _first(yoke, neck), *_rows(yoke, neck), _to_back(yoke, neck))
    return Section("front", 0, rows)


def _first(yoke: RaglanShape, neck: FrontNeck) -> Row:
    """Purl back and hang a marker in each line."""
    steps: list[Step] = []
    sleeve = yoke.sleeve.start
    for stitches in (neck.edge, sleeve, yoke.back.start, sleeve):
        steps += [Op("p", stitches), Op("pm")]
    why = "hangs a marker in each line"
    return Row((*steps, Op("p", neck.edge)), Feature.MARK, RowKind.FLAT_WRONG, why=why)


def _rows(yoke: RaglanShape, neck: FrontNeck) -> Iterator[Row]:
    growing = tuple(step.number for step in yoke.increase_rounds)
    for number in range(2, neck.rows.got + 1):
        steps = _row(yoke, neck, number)
        if number == neck.rows.got:
            across = (Op("CO", neck.centre),) if neck.centre else ()
            grown = _why(yoke, neck, number, growing)
            why = f"{grown}; joins the fronts" if grown else "joins the fronts"
            yield Row((*steps, *across), Feature.JOIN, RowKind.FLAT_RIGHT, why=why)
        elif number % 2:
            back = tidy(Op(_WRONG_SIDE[op.code], op.times) for op in reversed(steps))
            yield _flat(back, RowKind.FLAT_WRONG, _why(yoke, neck, number, growing))
        else:
            yield _flat(steps, RowKind.FLAT_RIGHT, _why(yoke, neck, number, growing))


def _flat(steps: tuple[Step, ...], kind: RowKind, why: str) -> Row:
    if why:
        return Row(steps, Feature.INCREASE, kind, why=why)
    return Row((Op("p" if kind is RowKind.FLAT_WRONG else "k", taken(steps)),), kind=kind)


def _why(yoke: RaglanShape, neck: FrontNeck, number: int, growing: tuple[int, ...]) -> str:
    """Say which pieces gain stitches in a row, and how far the neck's edges are."""
    lines = (
        f"increase row {growing.index(number) + 1} of {len(growing)}: {piece_words(yoke, number)}"
        if number in growing
        else ""
    )
    edges = (
        f"both neck edges, {neck.increases.index(number) + 1} of {len(neck.increases)}"
        if number in neck.increases
        else ""
    )
    return "; ".join(filter(None, (lines, edges)))


def _row(yoke: RaglanShape, neck: FrontNeck, number: int) -> tuple[Op, ...]:
    """Work a row with the right side facing, from the left front's edge to the right one's."""
    back, sleeve = (
        Piece(piece.stitches_at(number - 1), share, number in piece.rounds)
        for piece, share in ((yoke.back, yoke.body_share), (yoke.sleeve, yoke.sleeve_share))
    )
    half = Piece(_each_front(yoke, neck, number - 1), yoke.body_share, number in yoke.front.rounds)
    grows = number in neck.increases
    line, marker = INCREASES[yoke.line.increase], (Op("sm"),)
    plain = half.stitches - end_of(half, line) - grows
    arm = whole(sleeve, line)
    steps = (
        *((Op("k"), Op("M1L")) if grows else ()),
        *knit(plain),
        *end(half, line),
        *(*marker, *arm, *marker),
        *whole(back, line),
        *(*marker, *arm, *marker),
        *beginning(half, line),
        *knit(plain),
        *((Op("M1R"), Op("k")) if grows else ()),
    )
    return tuple(step for step in tidy(steps) if isinstance(step, Op))


def _each_front(yoke: RaglanShape, neck: FrontNeck, number: int) -> int:
    """Give the stitches of each front after a row."""
    return neck.each(number, grown=yoke.front.stitches_at(number) - yoke.front.start)


def _to_back(yoke: RaglanShape, neck: FrontNeck) -> Row:
    """Go on, round now, over the left front and sleeve to the centre back: BOR from there."""
    last = neck.rows.got
    back = yoke.back.stitches_at(last)
    stitches = _each_front(yoke, neck, last) + yoke.sleeve.stitches_at(last) + back - back // 2
    why = "BOR goes to the centre back"
    return Row(knit(stitches), Feature.JOIN, RowKind.PART, why=why)
