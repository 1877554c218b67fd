"""What the notation prints, worked by a knitter who never saw the row model."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.knitter import Knitted, Line, knit
from tests.knitter.small_sweaters import GERMAN, WRAPPED, sweater
from tests.notation.printed_rows import parts_of
from tests.often import often
from yokefellow.notation.phrase import read_phrase
from yokefellow.notation.read import read
from yokefellow.rows.model import (
    Feature,
    Op,
    Repeat,
    Row,
    RowKind,
    Schedule,
    Section,
    Step,
    made,
    net,
    taken,
    worked,
)


@pytest.mark.parametrize("short_rows", [GERMAN, WRAPPED], ids=["german", "wrapped"])
def test_both_readers_count_alike(short_rows: tuple[Line, ...]) -> None:
    loops = 0
    for part in sweater(short_rows):
        before = part.start
        for line in part.lines:
            steps = read_phrase(line.what, before)
            assert taken(steps) <= before
            assert before + net(steps) == line.count, line
            loops += worked(steps) * (line.last - line.first + 1) * max(1, len(part.copies))
            before = line.count
    assert knit(sweater(short_rows)).loops == loops


def _tube(*rows: Row) -> Knitted:
    """Cast on for the first row, work them all, bind off."""
    first, last = taken(rows[0].steps), made(rows[-1].steps)
    start = Row((Op("CO", first),), Feature.CAST_ON)
    end = Row((Op("BO", last),), Feature.BIND_OFF)
    return knit(parts_of(Schedule((Section("tube", 0, (start, *rows, end)),))))


COUNTS = st.integers(min_value=1, max_value=9)
PLAIN = st.builds(Op, code=st.sampled_from(["k", "p", "k tbl", "sl wyib"]), times=COUNTS)
EATEN = st.builds(Op, code=st.sampled_from(["k2tog", "ssk", "p2tog"]), times=COUNTS)
# A lifted increase needs a stitch of the row before on either side.
GROWN = st.builds(
    lambda before, code, after, mark: (Op("k", before, mark), Op(code), Op("p", after)),
    *(COUNTS, st.sampled_from(["M1L", "M1R"]), COUNTS, st.sampled_from(["", "MC", "CC1"])),
)


def _again(blocks: st.SearchStrategy[tuple[Step, ...]]) -> st.SearchStrategy[tuple[Step, ...]]:
    several = st.lists(blocks, min_size=1, max_size=3).map(lambda some: sum(some, ()))
    return st.builds(lambda steps, times: (Repeat(steps, times),), several, st.integers(1, 4))


BLOCKS = st.recursive(
    st.one_of(PLAIN.map(lambda op: (op,)), EATEN.map(lambda op: (op,)), GROWN),
    _again,
    max_leaves=6,
)
ROUNDS = st.lists(BLOCKS, min_size=1, max_size=4).map(lambda blocks: Row(sum(blocks, ())))


@often(300)
@given(ROUNDS)
def test_any_round_is_knitted_as_the_row_model_counts_it(row: Row) -> None:
    before, after = taken(row.steps), made(row.steps)
    knitted = _tube(row)
    assert knitted.counts["tube", ""] == (before, after, 0)
    assert knitted.loops == before + worked(row.steps) + after


@pytest.mark.parametrize(
    "text",
    [
        # derived: the counts follow from the text.
        "[k8, M1L] 6 times",
        "[k6, k2tog] 6 times",
        "*[k6, M1L] 3 times, k7, M1L; rep from * 3 more times",
        "*[k3, M1L, k3] 3 times, k3, M1L, k4; rep from * 3 more times",
        "k1, ssk, k114, k2tog, k1, k1, ssk, k114, k2tog, k1",
        "[k9, k2tog] 12 times",
        "k7, k2tog, k60, ssk, k7",
    ],
)
def test_shaping_rounds_are_knitted_as_the_row_model_counts_them(text: str) -> None:
    steps = read(text)
    assert _tube(Row(steps)).counts["tube", ""] == (taken(steps), made(steps), 0)


def _german(turns: tuple[int, ...]) -> tuple[Row, ...]:
    """Pairs of German short rows round BOR, each turning nearer to it than the pair before."""
    rows = []
    reach = 0
    for turn in turns:
        first = (Op("DS"), Op("k", reach + turn - 1)) if reach else (Op("k", turn),)
        back = (Op("DS"), Op("p", 2 * turn - 1), Op("turn"))
        rows.append(Row((*first, Op("turn")), Feature.SHORT_ROW, RowKind.RIGHT_SIDE))
        rows.append(Row(back, Feature.SHORT_ROW, RowKind.WRONG_SIDE))
        reach = turn
    home = (Op("DS"), Op("k", reach - 1))
    return (*rows, Row(home, Feature.SHORT_ROW, RowKind.PART))


def test_german_short_rows_at_the_back_of_the_neck() -> None:
    # derived: 108 sts, turns 38, 34, 30 and 14 sts from BOR on both sides;
    # going round, a double stitch lies at each of them.
    turns = (38, 34, 30, 14)
    near = [after - before - 1 for before, after in pairwise((0, *reversed(turns)))]
    out: tuple[Step, ...] = tuple(step for gap in near for step in (Op("k", gap), Op("k DS")))
    back: tuple[Step, ...] = tuple(
        step for gap in reversed(near) for step in (Op("k DS"), Op("k", gap))
    )
    closing = Row((*out, Op("k", 108 - 2 * 38), *back), Feature.CLOSE_GAPS)
    rows = (
        Row((Op("CO", 108),), Feature.CAST_ON),
        *_german(turns),
        closing,
        Row((Op("BO", 108),), Feature.BIND_OFF),
    )
    parts = parts_of(Schedule((Section("back_neck", 0, rows),)))
    texts = [line.what for line in parts[0].lines]
    assert texts[1:4] == ["k38, turn", "DS, p75, turn", "DS, k71, turn"]
    assert texts[9] == "DS, k13 to BOR"
    assert knit(parts).rows == 12  # derived: cast-on, 8 short rows, home, closing, bind-off
