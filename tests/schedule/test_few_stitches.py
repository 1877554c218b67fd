"""The building blocks of rows on so few stitches that a reader can follow each one."""

from __future__ import annotations

import pytest

from tests.knitter import Line, Part, knit
from tests.notation.printed_rows import parts_of
from yokefellow.schedule.body import body_section, dart_loops
from yokefellow.schedule.neck import adjust, back_neck, closing_round, marks
from yokefellow.schedule.rows import (
    Feature,
    Op,
    Repeat,
    Row,
    RowKind,
    Schedule,
    Section,
    Step,
    flat_ops,
    made,
    runs,
    taken,
    walk,
    worked,
)
from yokefellow.schedule.steps import (
    decrease_evenly,
    increase_evenly,
    knit as knitted,
    rib,
    tidy,
    with_markers,
)
from yokefellow.shaping.counts import Count
from yokefellow.shaping.darts import Dart
from yokefellow.shaping.edges import Edge
from yokefellow.shaping.shapes import BodyShape
from yokefellow.shaping.short_rows import ShortRows


def count(got: int) -> Count:
    return Count(got, float(got), 2.0)


def ops(steps: tuple[Step, ...]) -> list[tuple[str, int]]:
    return [(op.code, op.times) for op in flat_ops(steps)]


def columns(*sections: Section, stitches: int) -> tuple[int, ...]:
    """The rows in each column of the last section, worked on stitches cast on for it."""
    begin = Section("cast_on", 0, (Row((Op("CO", stitches),), Feature.CAST_ON, RowKind.PART),))
    left = made(sections[-1].rows[-1].steps)
    end = Section("hem", left, (Row((Op("BO", left),), Feature.BIND_OFF, bind_off="plain"),))
    parts = parts_of(Schedule((begin, *sections, end)))
    return knit(parts).heights[sections[-1].key, ""]


TURNS = (7, 5, 2)
"""Of short rows about BOR, on 20 stitches."""


@pytest.mark.parametrize("wrapped", [False, True])
def test_every_pair_of_short_rows_raises_the_columns_within_its_turns(wrapped: bool) -> None:
    plan = ShortRows(TURNS, 6.0, 3.0)
    section = back_neck(plan, stitches=20, wrapped=wrapped)
    assert section is not None
    closing = closing_round(plan, stitches=20, wrapped=wrapped)
    heights = columns(Section("back_neck", 20, (*section.rows, closing)), stitches=20)
    for away in range(1, 11):
        # derived: a pair is two rows over every stitch within its turn; then one round
        rows = 2 * sum(turn >= away for turn in TURNS) + 1
        # derived: a German turn slips the last stitch it works, on its way back
        rows -= not wrapped and away in TURNS
        assert heights[away - 1] == heights[-away] == rows, away


def test_without_turns_there_are_no_short_rows() -> None:
    assert back_neck(ShortRows((), 0.0, 3.0), stitches=20, wrapped=False) is None


DART = (2, 5, 8)
"""Turns from the side markers, on a front of 22 and a back of 20 stitches."""


def a_body(*darts: Dart, rounds: int = 6) -> BodyShape:
    hem = Edge("garter", "1x1", count(3))
    return BodyShape(count(rounds), 22, (), count(42), 42, hem, darts=darts)


@pytest.mark.parametrize("half", ["front", "back"])
@pytest.mark.parametrize("wrapped", [False, True])
def test_every_pair_of_a_dart_lengthens_the_columns_between_its_turns(
    half: str, wrapped: bool
) -> None:
    body = a_body(Dart(half, 2, DART, 6, 3.0))
    section = body_section(body, stitches=42, wrapped=wrapped)
    assert [row.feature for row in section.rows] == [
        Feature.PLAIN,
        *[Feature.SHORT_ROW] * 7,  # derived: three pairs, and the row that goes on to BOR
        Feature.CLOSE_GAPS,
        *[Feature.PLAIN] * 3,  # derived: six rounds less one above, the dart's own and the next
    ]
    above = Section("yoke", 42, (Row((Op("k", 22), Op("pm"), Op("k", 20))),))
    heights = columns(above, section, stitches=42)
    front, back = heights[:22], heights[22:]
    grown, other = (front, back) if half == "front" else (back, front)
    assert set(other) == {6}  # derived: as many rows as rounds
    for place in range(len(grown)):
        beside = min(place + 1, len(grown) - place)
        rows = 6 + 2 * sum(turn < beside for turn in DART)  # derived: two rows a pair
        # derived: a German turn slips the last stitch it works, on its way back
        rows -= not wrapped and beside - 1 in DART
        assert grown[place] == rows, place
    plain = 6 * 42  # derived: six rounds of 42 stitches
    loops = sum(worked(row.steps) for row in section.rows)
    assert dart_loops(body, 42, wrapped=wrapped) == loops - plain
    assert dart_loops(a_body(), 42, wrapped=wrapped) == 0


@pytest.mark.parametrize("wrapped", [False, True])
def test_a_single_pair_is_a_dart(wrapped: bool) -> None:
    section = body_section(a_body(Dart("front", 1, (4,), 2, 3.0)), stitches=42, wrapped=wrapped)
    above = Section("yoke", 42, (Row((Op("k", 22), Op("pm"), Op("k", 20))),))
    heights = columns(above, section, stitches=42)
    # derived: 6 rounds and two rows over all but 4 stitches at either side
    slips = 0 if wrapped else 1
    assert heights[:22] == (*[6] * 4, 8 - slips, *[8] * 12, 8 - slips, *[6] * 4)


def test_neighbours_of_one_kind_and_one_yarn_are_joined() -> None:
    repeat = Repeat((Op("k"),), 2)
    steps = (Op("k", 3), Op("k", 4), Op("p"), Op("p", 2, "CC1"), Op("p", 3, "CC1"), repeat, repeat)
    # derived: 3 and 4 of one kind, then 2 and 3 of one yarn
    assert tidy(steps) == (Op("k", 7), Op("p"), Op("p", 5, "CC1"), repeat, repeat)
    assert tidy(()) == ()


def test_markers_are_hung_within_ops_and_repeats() -> None:
    steps = (Op("k", 4), Repeat((Op("k2tog"), Op("k", 2)), 5), Op("k", 3))
    marked = with_markers(steps, (0, 3, 10, 24, 24))
    assert taken(marked) == 27  # derived: 4 + 5 x 4 + 3
    places, done = [], 0
    for op in flat_ops(marked):
        if op.code == "pm":
            places += [done] * op.times
        done += taken((op,))
    assert places == [0, 3, 10, 24, 24]  # derived: as asked
    assert [op.code for op in flat_ops(marked)].count("k2tog") == 5  # derived: as before
    # The repetitions before and after the opened one stay together.
    assert [step.times for step in marked if isinstance(step, Repeat)] == [1, 3]
