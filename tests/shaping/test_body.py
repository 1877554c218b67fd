"""The body below the underarm by hand: its rounds, its sides, its darts."""

from __future__ import annotations

from dataclasses import replace

from tests.sweaters import project, sized, swatch
from yokefellow.fit import BodyFit, BustFit
from yokefellow.gauge import Gauges, gauges
from yokefellow.shaping.counts import Count
from yokefellow.shaping.model import BodyShape, SideChange
from yokefellow.shaping.pieces.body import body_shape
from yokefellow.shaping.pieces.darts import Dart

SWEATER = project(sized(swatch__plain__washed=swatch(2.0, rounds_per_cm=3.0)))
GAUGES: Gauges = gauges(SWEATER)

LEVEL = BustFit(grows_cm=0.0, at_cm=10.0, points_cm=18.0, front_cm=0.0, back_cm=0.0)

STRAIGHT = BodyFit(
    chest_cm=100.0,
    shape="straight",
    length_cm=40.0,
    hem_cm=6.0,
    waist_cm=100.0,
    waist_at_cm=18.0,
    edge_cm=100.0,
    gather=0.0,
    hip_at_cm=38.0,
    bust=LEVEL,
)


def body(fit: BodyFit, *, front: int | None = None, hem: int | None = None) -> BodyShape:
    """A body of 200 stitches at 2 stitches and 3 rounds to the cm."""
    return body_shape(
        stitches=200,
        fit=fit,
        gauges=GAUGES,
        choices=SWEATER.garment.body,
        front=front,
        pinned_hem=hem,
    )


def test_a_straight_body_is_a_tube() -> None:
    made = body(STRAIGHT)
    # derived: 34 cm above the hem at 3 rounds a cm
    assert made.rounds == Count(102, 102.0, 3.0)
    assert (made.front, made.changes, made.darts, made.waist) == (100, (), (), None)
    assert made.edge == Count(200, 200.0, 2.0)
    assert (made.hem_stitches, made.fullest) == (200, None)
    # derived: a tenth less, of an even rib
    assert body(replace(STRAIGHT, gather=0.1)).hem_stitches == 180
    assert body(STRAIGHT, hem=190).hem_stitches == 190


def test_the_half_that_changes_less_does_so_together_with_the_other() -> None:
    flared = replace(STRAIGHT, shape="a-line", edge_cm=110.0)
    made = body(flared, front=104)
    # derived: 110 stitches each; the back gains 14 in 7 rounds, the front 6 in 3. The 93 rounds
    # from 9 to 101 hold 7 at distances of 14 and 13; of these the 3rd, 5th and 7th are the front's
    both = (49, 75, 101)
    numbers = (22, 36, 49, 62, 75, 88, 101)
    assert made.changes == tuple(
        SideChange(number, 2 if number in both else 0, 2) for number in numbers
    )
    assert made.edge == Count(220, 220.0, 2.0)
    mirrored = body(flared, front=96)
    assert mirrored.changes == tuple(
        SideChange(number, 2, 2 if number in both else 0) for number in numbers
    )


def test_a_dart_ends_at_the_fullest_part() -> None:
    bust = replace(LEVEL, front_cm=4.0)
    made = body(replace(STRAIGHT, bust=bust))
    # derived: it begins 4 cm above 10 cm, after 18 rounds, and is 12 rows, 6 pairs; the middle
    # 18 and 2.54 cm are 41 stitches, which leave 29 at either side
    assert made.darts == (Dart("front", 19, (4, 9, 14, 19, 24, 29), 12, 3.0),)
    # derived: never less than 2.5 cm below the underarm, 7.5 rounds
    early = body(replace(STRAIGHT, bust=replace(bust, at_cm=5.0)))
    assert [dart.number for dart in early.darts] == [9]


def test_the_backs_dart_comes_two_rounds_after_the_fronts() -> None:
    bust = replace(LEVEL, front_cm=4.0, back_cm=2.0)
    made = body(replace(STRAIGHT, bust=bust))
    # derived: by itself it would begin in round 9; 6 rows are 3 pairs
    assert [(dart.half, dart.number, dart.turns) for dart in made.darts] == [
        ("front", 19, (4, 9, 14, 19, 24, 29)),
        ("back", 21, (9, 19, 29)),
    ]


def test_a_body_too_short_for_both_darts_has_the_fronts() -> None:
    bust = replace(LEVEL, front_cm=4.0, back_cm=2.0)
    short = replace(STRAIGHT, length_cm=12.0, bust=bust)
    made = body(short)
    # derived: 18 rounds, of which the last two are kept; the front's dart is drawn up to 16
    assert made.rounds.got == 18
    assert [(dart.half, dart.number) for dart in made.darts] == [("front", 16)]


def test_the_sides_are_shaped_below_the_dart() -> None:
    bust = replace(LEVEL, at_cm=20.0, front_cm=4.0)
    made = body(replace(STRAIGHT, shape="a-line", edge_cm=104.0, bust=bust))
    # derived: the dart is in round 49 and its gaps close in 50; 4 stitches of each half are two
    # rounds, at the middle and the end of 51 to 101
    assert [dart.number for dart in made.darts] == [49]
    assert [change.number for change in made.changes] == [76, 101]


def test_a_waist_goes_in_and_out_again() -> None:
    shaped = replace(STRAIGHT, shape="waist", waist_cm=92.0, edge_cm=104.0)
    made = body(shaped)
    # derived: 92 stitches of each half at the waist, four changes of two; 104 at the edge, six.
    # 7.5 rounds are 8 of margin: in from round 9 to 54 - 4, out from 55 to 101, the last round
    assert made.waist == Count(184, 184.0, 2.0)
    assert made.edge == Count(208, 208.0, 2.0)
    inward = [change.number for change in made.changes if change.added < 0]
    outward = [change.number for change in made.changes if change.added > 0]
    # derived: 42 rounds in distances of 11, 11, 10 and 10; 47 in five of 8 and one of 7
    assert inward == [19, 30, 40, 50]
    assert outward == [62, 70, 78, 86, 94, 101]
    assert {change.added for change in made.changes} == {-4, 4}


def test_a_waist_wider_than_the_body_is_none() -> None:
    made = body(replace(STRAIGHT, shape="waist", waist_cm=110.0))
    assert made.waist == Count(200, 220.0, 2.0)  # derived: never more than the body
    assert made.changes == ()


def test_one_round_stays_plain_however_few_make_the_margin() -> None:
    flat = gauges(project(sized(swatch__plain__washed=swatch(2.0, rounds_per_cm=0.5))))
    made = body_shape(
        stitches=200,
        fit=replace(STRAIGHT, shape="a-line", edge_cm=110.0),
        gauges=flat,
        choices=SWEATER.garment.body,
    )
    # derived: 2.5 cm are 1.25 rounds, one; each half gains 10 stitches in 5 of the 15 rounds from
    # 2 to 16
    assert [change.number for change in made.changes] == [4, 7, 10, 13, 16]
