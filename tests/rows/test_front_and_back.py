"""Front and back of different widths: the split, the markers, the shaping at the sides."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.knitter import knit_page
from tests.sweaters import planned, sized
from yokefellow.plan import Plan
from yokefellow.rows.build import compile_schedule
from yokefellow.rows.model import Feature, flat_ops, made, net, taken
from yokefellow.rows.round_yoke import split_section
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import Split
from yokefellow.shaping.pieces.below import body_below
from yokefellow.sheet.html import render_html


def a_split(*, front: int | None = None, underarm_front: int | None = None) -> Split:
    # derived: B 200, S 66, U 16 of the percentage system's own example
    body, sleeve, underarm = (Count(count, float(count), 2.0) for count in (200, 66, 16))
    return Split(body, sleeve, underarm, own_front=front, own_underarm_front=underarm_front)


def test_without_a_word_front_and_back_are_halves() -> None:
    split = a_split()
    # published: Zimmermann, Knitting Around, 1989 (retold): 200 - 2 x 16 + 2 x (66 - 16) = 268
    assert split.yoke == 268
    assert (split.front, split.back) == (84, 84)  # derived: (200 - 32) / 2
    assert (split.underarm_front, split.underarm_back) == (8, 8)
    assert (split.front_total, split.back_total) == (100, 100)


def test_the_front_may_have_more_of_the_underarm_and_of_the_yoke() -> None:
    split = a_split(front=88, underarm_front=12)
    # derived: 88 + 2 x 12 = 112; 200 - 32 - 88 = 80; 80 + 2 x 4 = 88; the yoke is the same
    assert (split.front_total, split.back, split.back_total, split.yoke) == (112, 80, 88, 268)


@pytest.mark.parametrize("of_the_front", [0, 16])
def test_an_underarm_may_belong_to_one_side_alone(of_the_front: int) -> None:
    split = a_split(underarm_front=of_the_front)
    part, move = split_section(split, marked=False).rows
    ops = list(flat_ops(part.steps))
    assert [op.times for op in ops if op.code == "CO"] == [16, 16]  # derived: U of that example
    # derived: the marker is hung behind it on the one side, and before it on the other
    after_hold = [[op.code for op in ops[at + 1 : at + 3]] for at in (1, 5)]
    first = ["pm", "CO"] if of_the_front else ["CO", "pm"]
    assert after_hold == [first, first[::-1]]
    assert made(part.steps) == 200  # derived: B of that example
    # derived: half of the back, 84 between the underarms, and its part of the underarm
    assert taken(move.steps) == 42 + 16 - of_the_front


def lopsided(plan: Plan) -> Plan:
    """The same sweater with a wider front, every later count compiled anew."""
    had = plan.shape.split
    split = replace(had, own_front=had.front + 4, own_underarm_front=had.underarm.got // 2 + 2)
    body = body_below(plan.project, plan.gauges, split, plan.finished.body)
    shape = replace(plan.shape, split=split, body=body)
    schedule = compile_schedule(shape, plan.charts, wrapped=False, sleeves_first=False)
    return replace(plan, shape=shape, schedule=schedule)


@pytest.mark.parametrize("shape", ["straight", "a-line", "waist"])
def test_a_wider_front_is_knitted_and_both_sides_are_alike(shape: str) -> None:
    plan = lopsided(planned(sized("women", "L", garment__body__shape=shape)))
    split = plan.shape.split
    (row, move) = [row.row for row in plan.rows if row.section.key == "split"]
    cast_on = [op.times for op in flat_ops(row.steps) if op.code == "CO"]
    assert cast_on == cast_on[::-1]  # derived: the right side mirrors the left
    assert cast_on[1] == split.underarm_front > cast_on[0]
    assert taken(move.steps) == split.back // 2 + split.underarm_back
    knitted = knit_page(render_html(plan))
    assert knitted.underarms == (split.underarm.got,) * 2
    sides = [row.row for row in plan.rows if row.row.feature is Feature.SHAPE]
    assert any(row.steps for row in sides) or shape == "straight"


def test_at_a_shaped_waist_front_and_back_are_alike_again() -> None:
    plan = lopsided(planned(sized("women", "L", garment__body__shape="waist")))
    front, back = plan.shape.split.front_total, plan.shape.split.back_total
    assert front - back == 8 + 8  # derived: 4 more between, 4 fewer behind, and 2 twice a side
    fronts, backs = [front], [back]
    for change in plan.shape.body.changes:
        front, back = front + change.front, back + change.back
        fronts.append(front)
        backs.append(back)
    assert abs(min(fronts) - min(backs)) <= 2  # derived: a pair at the sides is two stitches
    assert plan.shape.body.waist is not None
    body = [row for row in plan.rows if row.section.key == "body"]
    last = plan.shape.body.changes[-1].number
    assert body[last - 1].after == front + back
    assert sum(net(row.row.steps) for row in body[:last]) == front + back - body[0].before
