"""A sleeve by hand: 66 stitches at the top, 2 stitches and 3 rounds to the cm."""

from __future__ import annotations

from dataclasses import replace

from tests.sweaters import project, sized, swatch
from yokefellow.fit import SleeveFit
from yokefellow.gauge import gauges
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import edge_shape
from yokefellow.shaping.model import SleeveShape
from yokefellow.shaping.pieces.sleeve import sleeve_shape

SWEATER = project(sized(swatch__plain__washed=swatch(2.0, rounds_per_cm=3.0)))

FULL = SleeveFit(
    name="full",
    upper_arm_cm=33.0,
    length_cm=45.0,
    share=1.0,
    arm_cm=16.0,
    edge_cm=20.0,
    cuff_cm=5.0,
)


def sleeve(fit: SleeveFit, *, stitches: int = 66, rib: str = "1x1", **pins: int) -> SleeveShape:
    return sleeve_shape(
        stitches=stitches,
        fit=fit,
        gauges=gauges(SWEATER),
        choices=SWEATER.garment.sleeves.model_copy(update={"rib": rib}),
        pinned_rounds=pins.get("rounds"),
        pinned_edge=pins.get("edge"),
    )


def test_a_full_sleeve_narrows_evenly_to_its_cuff() -> None:
    made = sleeve(FULL)
    # derived: 40 cm above the cuff; 26 stitches are 13 pairs in the rounds from 11 to 117, which
    # are 107: three distances of 9 and ten of 8
    assert made.rounds == Count(120, 120.0, 3.0)
    assert made.edge == Count(40, 40.0, 2.0)
    assert len(made.decreases) == 13
    assert made.decreases[:4] == (19, 28, 37, 45)
    assert made.decreases[-1] == 117


def test_a_pinned_cuff_and_pinned_rounds_are_met() -> None:
    made = sleeve(FULL, rounds=100, edge=46)
    # derived: 66 less 46 are ten pairs, the last three rounds above the cuff
    assert (made.rounds.got, made.edge.got, len(made.decreases)) == (100, 46, 10)
    assert made.decreases[-1] == 97


def test_a_sleeve_too_short_to_narrow_keeps_a_wider_cuff() -> None:
    made = sleeve(replace(FULL, length_cm=6.0, cuff_cm=3.0))
    # derived: 9 rounds, of which 0.9 cm, 3 rounds, at either end and two that open it leave one;
    # two thirds of 66 are 44, and of 65 no whole stitches less than 44
    assert made.rounds.got == 9
    assert made.decreases == ()
    assert made.edge.got == 44
    assert sleeve(replace(FULL, length_cm=6.0, cuff_cm=3.0), stitches=65).edge.got == 44
    assert sleeve(replace(FULL, length_cm=6.0, cuff_cm=3.0), stitches=67).edge.got == 46
    assert sleeve(replace(FULL, length_cm=6.0, cuff_cm=3.0), edge=36).edge.got == 36


def test_a_cuff_is_never_wider_than_the_top_of_its_sleeve() -> None:
    made = sleeve(replace(FULL, edge_cm=40.0), stitches=65)
    # derived: 80 would be wanted; 65 less one, for a rib of two
    assert made.edge == Count(64, 80.0, 2.0)
    assert made.decreases == ()


def test_a_sleeve_stays_outside_the_arm_where_it_is_wide() -> None:
    made = sleeve(replace(FULL, arm_at_cm=((20.0, 30.0),)))
    # derived: 30 cm are 60 stitches, so no more than three pairs by round 60
    assert sum(number <= 60 for number in made.decreases) == 3
    assert len(made.decreases) == 13


def test_what_an_edge_hides() -> None:
    rolled = project(sized(garment__body__finish="rolled")).garment.body
    folded = project(sized(garment__body__finish="folded")).garment.body
    gauge = gauges(SWEATER)
    # derived: 3 cm roll up to 1 cm, so 2 cm more are worked, 6 rounds
    edge = edge_shape(rolled, gauge, depth_cm=1.0)
    assert (edge.rounds.got, edge.hidden, edge.all_rounds) == (3, 6, 9)
    # derived: a facing is a round shorter, and one more turns the edge
    edge = edge_shape(folded, gauge, depth_cm=4.0)
    assert (edge.rounds.got, edge.hidden, edge.all_rounds) == (12, 11, 24)


def test_a_sleeve_has_a_round_beside_the_two_that_open_it() -> None:
    # derived: a millimetre is less than a round
    assert sleeve(replace(FULL, length_cm=5.1)).rounds.got == 3


def test_a_cuff_has_six_stitches_and_three_repeats() -> None:
    thin = replace(FULL, edge_cm=1.0)
    # derived: 2 stitches would be wanted; three repeats of two are six, and of four twelve
    assert sleeve(thin).edge == Count(6, 2.0, 2.0)
    assert sleeve(thin, rib="2x2").edge.got == 12


def test_a_very_short_sleeve_narrows_right_below_its_opening() -> None:
    short = replace(FULL, length_cm=1.0, cuff_cm=0.5)
    # derived: 0.15 cm at either end are no round above and one below; three pairs in the 17 rounds
    # from 3 to 19 lie 6, 6 and 5 apart
    assert sleeve(short, rounds=20, edge=60).decreases == (8, 14, 19)


def test_a_cuff_of_any_count_is_one_that_pairs_of_decreases_reach() -> None:
    garter = SWEATER.garment.sleeves.model_copy(update={"finish": "garter"})
    for stitches in (65, 66, 67):
        made = sleeve_shape(stitches=stitches, fit=FULL, gauges=gauges(SWEATER), choices=garter)
        # derived: a lone decrease before the cuff would serve nothing; half a pair off at the most
        assert made.edge.got == stitches - 2 * len(made.decreases)
        assert abs(made.edge.got - made.edge.wanted) <= 1
