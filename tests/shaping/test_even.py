"""Even spreading: worked examples in print, and its laws."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.published import published
from yokefellow.rows.model import flat_ops, made, taken
from yokefellow.rows.steps import decrease_evenly, increase_evenly
from yokefellow.shaping.spread_evenly import Word, gaps, repeats_needed, sizes, word

PUBLISHED = published("spreading")
ROUND, FLAT, DECREASE = PUBLISHED["round"], PUBLISHED["flat"], PUBLISHED["decrease"]


@st.composite
def spreadings(draw: st.DrawFn) -> tuple[int, int]:
    stitches = draw(st.integers(1, 700))
    return stitches, draw(st.integers(1, stitches))


def counted(example: dict[str, Any]) -> Counter[int]:
    return Counter({int(size): count for size, count in example["sizes"].items()})


def name(example: dict[str, Any]) -> str:
    return str(example["source"])


def written_out(stitches: int, times: int) -> tuple[int, ...]:
    written, rounds = word(stitches, times)
    return sizes(written) * rounds


@pytest.mark.parametrize("example", ROUND, ids=name)
def test_printed_examples_in_the_round(example: dict[str, Any]) -> None:
    # published: as each example of tests/published/spreading.toml says
    stitches, times = example["stitches"], example["times"]
    assert Counter(gaps(stitches, times)) == counted(example)
    assert Counter(written_out(stitches, times)) == counted(example)
    for midway in (False, True):
        steps = increase_evenly(stitches, times, midway=midway)
        assert (taken(steps), made(steps)) == (stitches, stitches + times)


@pytest.mark.parametrize("example", FLAT, ids=name)
def test_printed_examples_worked_flat_share_out_alike(example: dict[str, Any]) -> None:
    # published: as each example says; one group more than increases, so none on the edge
    assert Counter(gaps(example["stitches"], example["groups"])) == counted(example)


@pytest.mark.parametrize("example", DECREASE, ids=name)
def test_decreases_eat_two_stitches_of_their_group(example: dict[str, Any]) -> None:
    # derived: as each example says
    stitches, times = example["stitches"], example["times"]
    steps = decrease_evenly(stitches, times)
    assert (taken(steps), made(steps)) == (stitches, stitches - times)
    found: Counter[int] = Counter()
    plain = 0
    for op in flat_ops(steps):
        if op.code == "k":
            plain += op.times
        else:
            found[plain + 2] += 1
            plain = 0
    assert plain == 0
    assert found == counted(example)


@pytest.mark.parametrize("example", PUBLISHED["other_convention"], ids=name)
def test_where_print_disagrees_ours_spreads_the_remainder(example: dict[str, Any]) -> None:
    # published: as each example says, with the reason why ours is another
    printed = counted(example)
    covered = sum(size * count for size, count in printed.items())
    assert covered + example["left_over"] == example["stitches"]
    ours = Counter(gaps(example["stitches"], example["times"]))
    assert ours != printed
    assert max(ours) - min(ours) <= 1


@given(spreadings())
def test_groups_differ_by_at_most_one_and_use_every_stitch(case: tuple[int, int]) -> None:
    stitches, times = case
    for groups in (gaps(stitches, times), written_out(stitches, times)):
        assert len(groups) == times
        assert sum(groups) == stitches
        assert min(groups) >= 1
        assert max(groups) - min(groups) <= 1
        # derived: n stitches in m groups: n mod m of them are the longer ones
        assert stitches % times == (groups.count(stitches // times + 1))


@given(st.integers(1, 80).flatmap(lambda n: st.tuples(st.just(n), st.integers(1, n))))
def test_the_long_groups_are_spread_evenly_themselves(case: tuple[int, int]) -> None:
    """Any stretch of equally many groups, round the whole round, is equally long but for one."""
    stitches, times = case
    for groups in (gaps(stitches, times), written_out(stitches, times)):
        round_about = groups * 2
        for width in range(1, times):
            stretches = [sum(round_about[at : at + width]) for at in range(times)]
            assert max(stretches) - min(stretches) <= 1, (groups, width)


def groups_read(written: Word) -> int:
    return sum(1 if isinstance(part, int) else groups_read(part[0]) for part in written)


@given(spreadings())
def test_the_groups_a_knitter_reads_are_those_written(case: tuple[int, int]) -> None:
    stitches, times = case
    assert repeats_needed(stitches, times) == groups_read(word(stitches, times)[0])
    assert (repeats_needed(stitches, times) == 1) == (stitches % times == 0)


@given(spreadings(), st.booleans())
def test_an_increase_round_makes_what_it_says_and_starts_with_a_stitch(
    case: tuple[int, int], midway: bool
) -> None:
    stitches, times = case
    steps = increase_evenly(stitches, times, midway=midway)
    ops = [op.code for op in flat_ops(steps)]
    assert (taken(steps), made(steps)) == (stitches, stitches + times)
    assert ops.count("M1L") == times
    assert ops[0] == "k"
    assert ("M1L", "M1L") not in set(pairwise(ops))


@given(spreadings())
def test_midway_increases_lie_between_the_others(case: tuple[int, int]) -> None:
    """In a round of equal groups of two or more the two kinds never fall on one place."""
    stitches, times = case
    if stitches % times or stitches // times < 2:
        return
    places = []
    for midway in (False, True):
        at, found = 0, set()
        for op in flat_ops(increase_evenly(stitches, times, midway=midway)):
            at += op.times if op.code == "k" else 0
            if op.code == "M1L":
                found.add(at % stitches)
        places.append(found)
    assert not places[0] & places[1]


@given(st.integers(1, 700), st.integers(1, 400))
def test_decreases_that_do_not_fit_are_refused(stitches: int, times: int) -> None:
    if 2 * times > stitches:
        with pytest.raises(ValueError, match="do not hold"):
            decrease_evenly(stitches, times)
    else:
        assert made(decrease_evenly(stitches, times)) == stitches - times


@pytest.mark.parametrize("case", [(5, 6), (5, 0)])
def test_groups_that_do_not_fit_are_refused(case: tuple[int, int]) -> None:
    for spread in (gaps, word):
        with pytest.raises(ValueError, match="do not make"):
            spread(*case)
