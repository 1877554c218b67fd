"""Laws of the row model: counts follow from the stitches and from nothing else."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given

from tests.notation.steps import STEPS
from tests.often import often
from yokefellow.rows.model import (
    STITCHES,
    Op,
    Repeat,
    Row,
    RowKind,
    Schedule,
    Section,
    Step,
    flat_ops,
    made,
    net,
    stretches,
    taken,
    walk,
    worked,
)


# common practice, no source: what one of each takes from the left needle,
# makes on the right, and costs the yarn. Increases by lifting the bar take no
# stitch; a stitch slipped, held or turned before costs no loop.
@pytest.mark.parametrize(
    ("code", "takes", "makes", "loops"),
    [
        ("k", 1, 1, 1),
        ("p", 1, 1, 1),
        ("k tbl", 1, 1, 1),
        ("sl wyib", 1, 1, 0),
        ("sl wyif", 1, 1, 0),
        ("M1L", 0, 1, 1),
        ("M1R", 0, 1, 1),
        ("k2tog", 2, 1, 1),
        ("ssk", 2, 1, 1),
        ("p2tog", 2, 1, 1),
        ("M1LP", 0, 1, 1),
        ("M1RP", 0, 1, 1),
        ("pfb", 1, 2, 2),
        ("CDD", 3, 1, 1),
        ("DS", 1, 1, 0),
        ("k DS", 1, 1, 1),
        ("k wrap", 1, 1, 1),
        ("w&t", 0, 0, 0),
        ("turn", 0, 0, 0),
        ("CO", 0, 1, 1),
        ("BO", 1, 0, 1),
        ("sew", 1, 0, 1),
        ("yo", 0, 1, 1),
        ("hold", 1, 0, 0),
        ("PU", 0, 1, 1),
        ("pm", 0, 0, 0),
        ("sm", 0, 0, 0),
        ("rm", 0, 0, 0),
    ],
)
def test_what_each_stitch_takes_and_makes(code: str, takes: int, makes: int, loops: int) -> None:
    steps = (Op(code, 3),)
    # derived: three of it do three times that.
    assert (taken(steps), made(steps), worked(steps)) == (3 * takes, 3 * makes, 3 * loops)


def test_every_stitch_is_filed_under_its_own_code() -> None:
    assert all(code == stitch.code for code, stitch in STITCHES.items())


def test_a_repeat_counts_as_often_as_it_is_worked() -> None:
    # derived: 4 × (3 × 6 + 7) = 100 taken, 4 × (3 + 1) = 16 more made.
    steps = (Repeat((Repeat((Op("k", 6), Op("M1L")), 3), Op("k", 7), Op("M1L")), 4),)
    assert (taken(steps), made(steps), net(steps)) == (100, 116, 16)


@often(300)
@given(STEPS)
def test_writing_the_repeats_out_changes_no_count(steps: tuple[Step, ...]) -> None:
    written_out = tuple(flat_ops(steps))
    for count in (taken, made, worked):
        assert count(written_out) == count(steps)
    assert net(steps) == made(steps) - taken(steps)


# derived: three times over is three times as much
@often(200)
@given(STEPS, STEPS)
def test_counts_of_one_row_after_another_add_up(
    first: tuple[Step, ...], second: tuple[Step, ...]
) -> None:
    for count in (taken, made, worked, net):
        assert count(first + second) == count(first) + count(second)
        assert count((Repeat(first, 3),)) == 3 * count(first)


@often(200)
@given(STEPS)
def test_a_round_over_its_own_stitches_can_be_worked(steps: tuple[Step, ...]) -> None:
    before = taken(steps)
    section = Section("yoke", before, (Row(steps),))
    (row,) = walk(Schedule((section,)))
    assert (row.before, row.after) == (before, made(steps))
    for wrong in (before - 1, before + 1):
        with pytest.raises(ValueError, match="are on the needle"):
            list(walk(Schedule((Section("yoke", wrong, (Row(steps),)),))))


def test_a_section_begins_with_the_stitches_it_finds() -> None:
    cast_on, plain, off = Row((Op("CO", 8),)), Row((Op("k", 8),)), Row((Op("BO", 8),))
    aside = Row((Op("k", 4), Op("hold", 2), Op("CO", 1), Op("k", 2)))
    split, sleeve = Section("split", 8, (aside,)), Section("sleeve", 2, (), ("right", "left"))
    body = Section("body", 7, (Row((Op("BO", 7),)),))
    last = Section("neckband", 8, (off,))  # on stitches that waited at the neck
    yoke = Section("yoke", 0, (cast_on, plain))
    # derived: two of the yoke, one each of split, body and neckband
    for order in ((split, body, sleeve, last), (split, sleeve, body, last)):
        assert len(list(walk(Schedule((yoke, *order))))) == 5
    for start in (6, 8):
        wrong = Section("body", start, (Row((Op("BO", start),)),))
        with pytest.raises(ValueError, match=f"body begins with {start} stitches; 7 are left"):
            list(walk(Schedule((yoke, split, sleeve, wrong))))


def test_rows_are_numbered_in_their_section_and_in_the_sweater() -> None:
    plain = Row((Op("k", 4),))
    schedule = Schedule(
        (
            Section("neckband", 0, (Row((Op("CO", 4),)), plain)),
            Section("yoke", 4, (Row((Repeat((Op("k", 1), Op("M1L")), 4),)), Row((Op("k", 8),)))),
        )
    )
    walked = list(walk(schedule))
    assert [(row.number, row.place) for row in walked] == [(1, 1), (2, 2), (1, 3), (2, 4)]
    assert [row.after for row in walked] == [4, 4, 8, 8]  # derived: 4 cast on, doubled
    for row, following in pairwise(walked):
        if following.section is row.section:
            assert following.before == row.after


def test_like_rows_are_walked_together_and_yielded_one_by_one() -> None:
    cast_on, plain = Row((Op("CO", 4),)), Row((Op("k", 4),))
    section = Section("neckband", 0, (cast_on, plain, plain, plain))
    both = Schedule((section, Section("yoke", 4, (plain, plain))))
    found = [(one.number, one.place, one.times) for one in stretches(both)]
    assert found == [(1, 1, 1), (2, 2, 3), (1, 5, 2)]  # derived: counted along the rows
    walked = list(walk(both))
    assert [row.number for row in walked] == [1, 2, 3, 4, 1, 2]
    assert [row.place for row in walked] == [1, 2, 3, 4, 5, 6]
    assert [row.row for row in walked] == [cast_on, *[plain] * 5]


def test_like_rows_that_change_the_count_are_walked_one_by_one() -> None:
    off = Row((Op("BO", 3),), kind=RowKind.PART)
    schedule = Schedule((Section("hem", 10, (off, off, off)),))
    # derived: three fewer each time
    assert [(row.before, row.after) for row in walk(schedule)] == [(10, 7), (7, 4), (4, 1)]
    assert [one.times for one in stretches(schedule)] == [1, 1, 1]
    with pytest.raises(ValueError, match="hem row 4 takes 3 stitches; 1 are on the needle"):
        list(walk(Schedule((Section("hem", 10, (off,) * 4),))))


@pytest.mark.parametrize("kind", [RowKind.FLAT_RIGHT, RowKind.FLAT_WRONG])
def test_a_flat_row_uses_every_stitch(kind: RowKind) -> None:
    def walked(stitches: int) -> list[int]:
        row = Row((Op("p", stitches),), kind=kind)
        return [row.after for row in walk(Schedule((Section("front", 10, (row,)),)))]

    assert walked(10) == [10]  # derived: a purl stitch changes no count
    for wrong in (9, 11):
        with pytest.raises(ValueError, match="are on the needle"):
            walked(wrong)


SHORT = [RowKind.RIGHT_SIDE, RowKind.WRONG_SIDE, RowKind.PART]


@pytest.mark.parametrize("kind", SHORT)
def test_a_short_row_may_leave_stitches_but_not_invent_them(kind: RowKind) -> None:
    def walked(stitches: int) -> list[int]:
        row = Row((Op("k", stitches),), kind=kind)
        return [row.after for row in walk(Schedule((Section("back_neck", 10, (row,)),)))]

    assert walked(7) == [10]  # derived: a knit stitch changes no count
    with pytest.raises(ValueError, match="takes 11 stitches; 10 are on the needle"):
        walked(11)


def test_a_stitch_the_trade_does_not_know_is_refused() -> None:
    with pytest.raises(ValueError, match="unknown stitch 'k3tog'"):
        Op("k3tog")


@pytest.mark.parametrize("times", [0, -1])
def test_nothing_is_worked_less_than_once(times: int) -> None:
    with pytest.raises(ValueError, match="at least once"):
        Op("k", times)
    with pytest.raises(ValueError, match="at least once"):
        Repeat((Op("k"),), times)


def test_an_empty_repeat_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^a repeat holds at least one step$"):
        Repeat((), 2)
