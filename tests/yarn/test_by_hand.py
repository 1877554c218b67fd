"""The reckoning of yarn, worked out once more by hand, part by part."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from statistics import NormalDist
from typing import Any

import pytest

from tests.sweaters import Sections, edited, planned, sized
from yokefellow.plan import Plan
from yokefellow.project_file.models import Yarn
from yokefellow.rows.model import Feature, Op, Repeat, Row, RowKind, Schedule, Section
from yokefellow.yarn import (
    Cost,
    Part,
    Place,
    YarnEstimate,
    balls_in_order,
    done,
    less,
    of_grams,
    stash_use,
    verdict_words,
)
from yokefellow.yarn.amounts import Amount, span
from yokefellow.yarn.count_stitches import Counted, count_row, counted, part_of, spent
from yokefellow.yarn.progress import in_order
from yokefellow.yarn.uncertainty import (
    PRIOR,
    Belief,
    Observation,
    Source,
    Uncertain,
    certain,
    learned,
    total,
)

GAUGE = 2.2
BALL = {"ball_weight": "50 g", "ball_length": "200 m"}
YARN = Yarn(ball_weight="50 g", ball_length="200 m", balls=3)

# common practice, no source: the numbers of the trade that the reckoning documents
END_M, BESIDES, WIDTHS, HAND_M, BACK = 0.3, 3, 3.0, 0.15, 0.9
TENSION, CUT, PUT_UP, LABEL = 0.015, 0.3, 0.05, 0.01
LOOP_WIDTHS = 4.1  # published: Munden 1959, Kw wet relaxed (from memory)

BANDS = [{"chart": "beads"}, {"chart": "low-wall"}]


def coloured(**changes: object) -> Sections:
    base = sized(yarn__CC1={**BALL, "balls": 2}, garment__yoke__bands=BANDS)
    return edited(base, **changes)


def gram_of(metres: float) -> float:
    """What a length weighs at 200 m to the 50 g."""
    return metres / 4


# Amounts.


def test_grams_are_told_four_ways_and_taken_from_each_other() -> None:
    one, other = of_grams(900, 125.0, YARN), of_grams(300, 50.0, YARN)
    # derived: two and a half balls of 200 m; one ball
    assert one == Amount(900, 500.0, 125.0, 2.5)
    assert less(one, other) == Amount(600, 300.0, 75.0, 1.5)
    told = span(50.0, 100.0, 150.0, YARN, stitches=7)
    assert [each.grams for each in (told.low, told.mean, told.high)] == [50, 100, 150]
    assert {each.stitches for each in (told.low, told.mean, told.high)} == {7}  # derived: as given
    assert span(50.0, 100.0, 150.0, YARN).low.stitches == 0


# Counting.


def test_a_row_is_counted_yarn_by_yarn() -> None:
    slipped = Row((Repeat((Op("k", 3), Op("sl wyib")), 5),), yarn="CC1")
    # derived: 15 worked, and the yarn passes behind 5 slipped ones
    assert count_row(slipped) == {"CC1": Counted(15, 5, 5)}
    stranded = Row((Repeat((Op("k", 2, "MC"), Op("k", 1, "CC1")), 4),), yarn="MC")
    # derived: 8 and 4, each behind the other's
    assert count_row(stranded) == {"MC": Counted(8, 4, 0), "CC1": Counted(4, 8, 0)}
    other = Row((Op("k", 6, "CC1"),), yarn="MC")
    # derived: the yarn of the row hangs behind all six, unused
    assert count_row(other) == {"CC1": Counted(6, 0, 0)}
    both = Row((Op("k", 2, "MC"), Op("k", 3, "CC1"), Op("sl wyif", 4)), yarn="MC")
    # derived: 3 and 4 behind the one, 2 and 4 behind the other
    assert count_row(both) == {"MC": Counted(2, 7, 4), "CC1": Counted(3, 6, 0)}
    behind = Row((Op("sl wyib", 4), Repeat((Op("sl wyib"),), 3), Op("sl wyib", 2)))
    # derived: the yarn in hand passes behind 4, 3 and 2
    assert count_row(behind) == {"MC": Counted(0, 9, 9)}
    waits = Row((Op("sl wyib", 4, "CC1"), Op("k", 2, "MC"), Op("sl wyib", 1, "CC2")))
    # derived: stitches of other yarns are slipped, and the yarn in hand passes behind them
    assert count_row(waits) == {"MC": Counted(2, 5, 5)}
    still = Row((Op("sl wyib", 4, "CC1"),))
    assert count_row(still) == {"MC": Counted(0, 4, 4)}  # derived: as above
    again = Row((Op("k", 2, "CC1"), Op("k", 3), Op("k", 4, "CC1")))
    # derived: six and three, and each passes behind the other
    assert count_row(again) == {"MC": Counted(3, 6, 0), "CC1": Counted(6, 3, 0)}


def test_what_is_counted_adds_up() -> None:
    one, other = Counted(10, 5, 2), Counted(1, 2, 3)
    assert one.plus(other) == Counted(11, 7, 5)  # derived: sums
    assert one.plus(other, 4) == Counted(14, 13, 14)  # derived: and four times over


def a_section(*rows: Row, key: str = "hem", copies: tuple[str, ...] = ("",)) -> Section:
    return Section(key, 10, rows, copies)


def test_a_section_is_counted_in_all_its_copies() -> None:
    rib, plain = Row((Op("k", 10),), fabric="rib"), Row((Op("p", 10),))
    twice = a_section(rib, rib, plain, rib, copies=("right", "left"))
    # derived: 2 x 3 x 10 and 2 x 10
    assert counted(twice) == {("MC", "rib"): Counted(60), ("MC", "plain"): Counted(20)}
    slips = Row((Op("k", 7), Op("sl wyib", 3)), fabric="mosaic")
    # derived: 3 x 7 worked, and the yarn passes behind 3 x 3
    assert counted(a_section(slips, slips, rib, slips))["MC", "mosaic"] == Counted(21, 9, 9)


@pytest.mark.parametrize(("way", "widths"), [("plain", 3.0), ("yarn overs", 6.0)])
def test_a_bind_off_costs_what_it_is_wider_than_a_loop(way: str, widths: float) -> None:
    off = Row((Op("BO", 10),), Feature.BIND_OFF, bind_off=way)
    part = part_of(a_section(Row((Op("k", 10),)), off, copies=("right", "left")))
    found = part.tail / 20  # derived: 10 stitches, twice
    # common practice, no source: three widths, and six with yarn overs; a loop is the least
    assert found == pytest.approx(max(0, widths - LOOP_WIDTHS))
    assert part_of(a_section(off, Row((Op("k", 1),)))).tail == 0


def test_the_gauge_alone_gives_metres_in_every_fabric_of_a_section() -> None:
    gauges = planned(sized()).gauges
    rows = (Row((Op("k", 100),)), Row((Op("k", 100),), fabric="rib"))
    one = spent(a_section(rows[0]), gauges)["MC"]
    rib = spent(a_section(rows[1]), gauges)["MC"]
    both = spent(a_section(*rows), gauges)["MC"]
    assert (both.loops, both.floats) == (200, 0)
    assert both.metres == pytest.approx(one.metres + rib.metres)
    # derived: Munden 1959, the root of 21.6 over 2.2 by 2.97 stitches, times a hundred stitches
    assert one.metres == pytest.approx(math.sqrt(21.6 / (2.2 * 2.97)))


# The way of the hands.

PLAIN, PURL = Row((Op("k", 10),)), Row((Op("p", 10),), fabric="rib")
SMALL = Schedule(
    (
        Section("body", 10, (PLAIN, PLAIN, PURL)),
        Section("sleeve", 10, (PLAIN, PLAIN, PLAIN), ("right", "left")),
        Section("cuff", 10, (PURL,), ("right", "left")),
    )
)


def test_rows_are_met_as_they_are_knitted() -> None:
    runs = [(run.section, run.copy, run.first, run.times, run.fabric) for run in in_order(SMALL)]
    # derived: counted along the little schedule
    sleeve = [("sleeve", 1, 3, "plain"), ("cuff", 1, 1, "rib")]
    assert runs == [
        ("body", "", 1, 2, "plain"),
        ("body", "", 3, 1, "rib"),
        *((key, "right", *rest) for key, *rest in sleeve),
        *((key, "left", *rest) for key, *rest in sleeve),
    ]
    (first, *_) = in_order(SMALL)
    assert [first.place(at) for at in range(2)] == [Place("body", 1), Place("body", 2)]
    *_, right, _ = in_order(SMALL)
    assert right.place(2) == Place("sleeve", 3, "left")


@pytest.mark.parametrize(
    ("place", "loops"),
    [
        (Place("body", 1), {"body": (10, 0)}),
        (Place("body", 2), {"body": (20, 0)}),
        (Place("body", 3), {"body": (20, 10)}),
        (Place("sleeve", 2, "right"), {"body": (20, 10), "sleeve": (20, 0)}),
        (Place("sleeve", 1, "left"), {"body": (20, 10), "sleeve": (40, 0), "cuff": (0, 10)}),
        (Place("cuff", 1, "left"), {"body": (20, 10), "sleeve": (60, 0), "cuff": (0, 20)}),
    ],
)
def test_what_is_done_is_counted_up_to_its_row(
    place: Place, loops: Mapping[str, tuple[int, int]]
) -> None:
    # derived: ten stitches a row, plain and rib, counted along the little schedule
    found = {
        part.key: tuple(
            part.counts.get(("MC", fabric), Counted()).loops for fabric in ("plain", "rib")
        )
        for part in done(SMALL, place)
    }
    assert found == loops


@pytest.mark.parametrize(
    "place", [Place("body", 4), Place("body", 0), Place("body", 1, "left"), Place("hem", 1)]
)
def test_a_row_that_is_not_there_is_refused(place: Place) -> None:
    message = f"the sweater has no row {place.row} in {place.section} {place.copy}".strip()
    with pytest.raises(ValueError, match=f"^{message}$"):
        done(SMALL, place)


# What a stitch costs, and what may be wrong with that.

# common practice, no source: the errors as they are documented
MODEL, BORROWED, COUNTING, MEASURING = 0.07, 0.05, 0.01, 0.01
PUT_UP_SD = PUT_UP / math.sqrt(3)
"""Of a flat error."""

READINGS = {
    "stitches": ["25 over 10 cm", "26.5 over 10 cm"],
    "rounds": ["30 over 10 cm", "32 over 10 cm", "31.5 over 10 cm"],
}


def moves(quantity: Uncertain) -> dict[tuple[str, str], float]:
    """What each source moves, relative to the mean; what moves nothing left out."""
    found = {tuple(source): by / quantity.mean for source, by in quantity.by_source.items()}
    return {source: by for source, by in found.items() if abs(by) > 1e-12}  # type: ignore[misc]


def test_by_the_gauge_every_fabric_has_the_errors_of_its_own_swatch() -> None:
    plan = planned(sized(swatch__rib={"washed": READINGS}))
    for fabric, swatched, more in (
        ("plain", "plain", {}),
        ("rib", "rib", {("borrowed", "rib"): BORROWED}),
    ):
        gauge = plan.gauges.of(fabric)
        cost = plan.reckoning.rates.by["MC", fabric]
        assert cost.evidence == "gauge"
        shared = {("model", ""): MODEL, ("put-up", "MC"): -PUT_UP_SD, **more}
        spreads = {
            ("stitches", swatched): gauge.stitch_spread,
            ("rounds", swatched): gauge.round_spread,
        }
        # derived: a loop goes with the root of either gauge, a strand with the stitches alone
        loop = {source: -by / 2 for source, by in spreads.items()}
        strand = {("stitches", swatched): -gauge.stitch_spread}
        assert moves(cost.loop) == pytest.approx(shared | loop)
        assert moves(cost.floating) == pytest.approx(shared | strand)
        # derived: a strand is a stitch wide, at 200 m to the 50 g
        assert cost.floating.mean == pytest.approx(gram_of(0.01 / gauge.stitches_per_cm))


@pytest.mark.parametrize(
    ("state", "density"),
    [("dry relaxed", 19.0), ("wet relaxed", 21.6), ("fully relaxed", 23.1)],
)
def test_the_loop_is_that_of_the_state_in_which_it_was_measured(state: str, density: float) -> None:
    loop = planned(sized(weighing__relaxed=state)).reckoning.rates.by["MC", "plain"].loop
    # published: Munden 1959 (from memory); fully relaxed Knapton and others 1968
    loop_cm = math.sqrt(density / (GAUGE * 1.35 * GAUGE))
    assert loop.mean == pytest.approx(gram_of(loop_cm / 100))


@pytest.mark.parametrize("fabric", ["stranded", "mosaic"])
@pytest.mark.parametrize("evidence", ["weighed", "unravelled"])
def test_evidence_is_shared_out_among_the_yarns_and_takes_the_gauge_out(
    evidence: str, fabric: str
) -> None:
    found = {
        "weighed": {"weight": "20 g", "stitches": 60, "rounds": 60},
        "unravelled": {"length": "9 m", "stitches": 300},
    }[evidence]
    yoke, body = {"stranded": ("beads", "diamonds"), "mosaic": ("low-wall", "stairs")}[fabric]
    plan = planned(
        coloured(
            garment__yoke__bands=[{"chart": yoke}],
            garment__body__bands=[{"chart": body, "at": "hem"}],
            **{f"swatch__{fabric}": {"washed": READINGS, evidence: found}},
            yarn__CC1__strands=2,
        )
    )
    gauge, rates = plan.gauges.of(fabric), plan.reckoning.rates
    loop_m = math.sqrt(21.6 / (gauge.stitches_per_cm * gauge.rounds_per_cm)) / 100
    strand_m = 0.01 / gauge.stitches_per_cm
    costs = {"MC": 0.0, "CC1": 0.0}
    loops = places = 0.0
    for part in plan.reckoning.parts:
        for (code, found_in), spends in part.counts.items():
            if found_in == fabric:
                each = gram_of(2.0 if code == "CC1" else 1.0) if evidence == "weighed" else 1.0
                costs[code] += each * (spends.loops * loop_m + spends.floats * strand_m)
                loops += each * spends.loops * loop_m
                places += spends.loops + spends.slipped
    whole = sum(costs.values())
    # derived: 20 g in 60 times 60 stitches, or 9 m in 300; beside the mean of the model
    measured = 20 / 3600 if evidence == "weighed" else 9 / 300
    of_loops = loops / whole
    for code in ("MC", "CC1"):
        cost = rates.by[code, fabric]
        assert cost.evidence == evidence
        assert cost.ratio == pytest.approx(measured / (whole / places))
        own = (
            # derived: whole grams leave half a gram either way
            {("scale", fabric): 1 / math.sqrt(12) / 20, ("counting", fabric): COUNTING}
            if evidence == "weighed"
            else {("measuring", fabric): MEASURING}
        )
        put_up = {
            ("put-up", yarn): (PUT_UP_SD * share / whole if evidence == "weighed" else 0.0)
            - (PUT_UP_SD if yarn == code else 0.0)
            for yarn, share in costs.items()
        }
        # derived: a cost in the model goes with half of either gauge where it is a loop, and
        # with the stitches alone where it is a strand; a ratio goes the other way
        gauges = {
            ("stitches", fabric): (1 - of_loops / 2 - 0.5) * gauge.stitch_spread,
            ("rounds", fabric): (of_loops / 2 - 0.5) * gauge.round_spread,
        }
        wanted = {source: by for source, by in (own | put_up | gauges).items() if by}
        assert moves(cost.loop) == pytest.approx(wanted)


def test_grams_of_some_knitting_are_those_of_its_stitches_and_strands() -> None:
    rates = planned(coloured()).reckoning.rates
    counts = {
        ("MC", "plain"): Counted(1000, 30),
        ("MC", "rib"): Counted(500),
        ("CC1", "plain"): Counted(70, 10),
    }
    plain, rib = rates.by["MC", "plain"], rates.by["MC", "rib"]
    grams = 1000 * plain.loop.mean + 30 * plain.floating.mean + 500 * rib.loop.mean
    assert rates.grams("MC", counts).mean == pytest.approx(grams)
    told = rates.amount("MC", counts)
    assert told.stitches == 1500  # derived: 1000 and 500
    assert told.grams == pytest.approx(grams)
    assert told.metres == pytest.approx(4 * grams)  # derived: 4 m to the gram


def test_every_yarn_has_a_cost_in_the_plain_fabric() -> None:
    by = planned(coloured()).reckoning.rates.by
    assert by["CC1", "plain"].loop.mean == pytest.approx(by["MC", "plain"].loop.mean)
    assert by["CC1", "plain"].evidence == "gauge"


# What goes beside the stitches.


def extras_of(plan: Plan, code: str = "MC") -> dict[str, Uncertain]:
    knitted = plan.reckoning.knitting(code).mean
    return {extra.what: extra.grams for extra in plan.reckoning.extras(code, knitted)}


@pytest.mark.parametrize("strands", [1, 2])
def test_ends_and_tails_are_cut_by_eye(strands: int) -> None:
    gathered = {"garment__body__gather": 25, "ease__chest": "very close"}
    plan = planned(
        coloured(yarn__MC__strands=strands, swatch__rib={"washed": READINGS}, **gathered)
    )
    knitted = plan.reckoning.knitting("MC").mean
    joins = knitted / (50 * strands) + BESIDES
    bound = sum(part.tail for part in plan.reckoning.parts)
    assert bound > 0
    widths = WIDTHS * plan.shape.neck.band_stitches / plan.gauges.rib.stitches_per_cm
    tail_m = (widths + bound / GAUGE) / 100 + HAND_M
    found = extras_of(plan)
    for what, metres in (("ends", END_M * joins), ("tail", tail_m)):
        grams = strands * gram_of(metres)
        assert found[what].mean == pytest.approx(grams)
        assert found[what].by_source == pytest.approx(
            {
                Source("extras", "MC"): CUT * grams,
                # derived: flat, and the longer the yarn the less it weighs
                Source("put-up", "MC"): -PUT_UP / math.sqrt(3) * grams,
            }
        )
    assert set(found) == {"ends", "tail", "swatch"}
    assert set(extras_of(plan, "CC1")) == {"ends", "swatch"}


def test_a_cast_on_over_waste_yarn_has_no_long_tail() -> None:
    plan = planned(sized(garment__neck__cast_on="provisional"))
    bound = sum(part.tail for part in plan.reckoning.parts)
    # derived: the hand that holds it, and the bind-offs
    assert extras_of(plan)["tail"].mean == pytest.approx(gram_of(HAND_M + bound / GAUGE / 100))


def test_a_swatch_that_was_not_weighed_is_a_square_of_fifteen() -> None:
    plan = planned(coloured(weighing__swatch="keep"))
    rates = plan.reckoning.rates
    # common practice, no source: 15 cm square, a quarter of it for each other colour
    stitches = GAUGE * 1.35 * GAUGE * 15**2
    loop = rates.by["MC", "plain"].loop
    assert extras_of(plan)["swatch"].mean == pytest.approx(round(stitches) * loop.mean)
    other = rates.by["CC1", "plain"].loop
    assert extras_of(plan, "CC1")["swatch"].mean == pytest.approx(round(stitches / 4) * other.mean)
    undone = planned(coloured(weighing__swatch="unravel"))
    for code in ("MC", "CC1"):
        kept = extras_of(plan, code)["swatch"].mean
        assert extras_of(undone, code)["swatch"].mean == pytest.approx((1 - BACK) * kept)


def test_swatches_on_the_scale_weigh_what_they_weigh() -> None:
    weighed = {"weight": "12 g", "stitches": 50, "rounds": 60}
    both = edited(
        coloured(weighing__swatch="keep", swatch__plain__weighed=weighed),
        swatch__rib={
            "washed": {"stitches": ["26 over 10 cm"], "rounds": ["31 over 10 cm"]},
            "weighed": {"weight": "7 g", "stitches": 40, "rounds": 40},
        },
    )
    found = extras_of(planned(both))["swatch"]
    assert (found.mean, found.sd) == (19, 0)  # derived: 12 and 7
    # The other colours were in no swatch that was weighed.
    assert extras_of(planned(both), "CC1")["swatch"].sd > 0


def test_balls_are_as_sure_as_they_were_weighed() -> None:
    labelled = planned(sized(yarn__MC={**BALL, "balls": 6})).reckoning
    there = labelled.left("MC", Uncertain(0.0, {}))
    assert there.mean == 300  # derived: six balls
    assert there.by_source == {Source("label", "MC"): pytest.approx(LABEL * 300)}
    for weights, kind in (([120], "scale"), ([50, 50, 20, 47], "scales")):
        sections = sized(yarn__MC={**BALL, "weights": weights}, weighing__scale="2 g")
        weighed = planned(sections).reckoning.left("MC", Uncertain(0.0, {}))
        assert weighed.mean == sum(weights)
        # derived: a step of 2 g leaves 2 g over the root of 12, and readings add in squares
        sd = 2 / math.sqrt(12) * math.sqrt(len(weights))
        assert weighed.by_source == {Source(kind, "balls of MC"): pytest.approx(sd)}


# The reckoning.


def test_what_is_needed_and_left_are_sums_of_their_parts() -> None:
    plan = planned(coloured())
    reckoning = plan.reckoning
    assert reckoning.codes == ("MC", "CC1")
    assert list(reckoning.estimates()) == ["MC", "CC1"]
    for code in reckoning.codes:
        estimate = reckoning.estimate(code)
        knitting = reckoning.knitting(code)
        besides = sum(grams.mean for grams in extras_of(plan, code).values())
        need = reckoning.need(code)
        assert need.mean == pytest.approx(knitting.mean + besides)
        assert reckoning.left(code).mean == pytest.approx(estimate.stash.grams - need.mean)
        assert estimate.code == code
        assert estimate.knitted.grams == pytest.approx(knitting.mean)
        by_section = [use.amount for use in estimate.by_section]
        assert sum(each.grams for each in by_section) == pytest.approx(knitting.mean)
        assert sum(each.stitches for each in by_section) == estimate.knitted.stitches
        assert [use.key for use in estimate.by_section] == [p.key for p in reckoning.parts]
        floats = sum(
            spends.floats
            for part in reckoning.parts
            for (yarn, _), spends in part.counts.items()
            if yarn == code
        )
        assert estimate.floats == floats
        assert dict(estimate.extras).keys() == extras_of(plan, code).keys()
        assert {each.stitches for _, each in estimate.extras} == {0}
        assert estimate.extras_m == pytest.approx(4 * besides)  # derived: 4 m to the gram
        assert estimate.left_m == estimate.left.mean.metres
        told = (estimate.need, estimate.have, estimate.left)
        means = (need.mean, estimate.stash.grams, reckoning.left(code).mean)
        for each, mean in zip(told, means, strict=True):
            assert each.mean.grams == pytest.approx(mean)
            # derived: as far up as down
            assert each.high.grams - mean == pytest.approx(mean - each.low.grams)
        stitches = estimate.knitted.stitches
        assert [each.mean.stitches for each in told] == [stitches, 0, 0]
        assert (estimate.needed.stitches, estimate.stash.stitches) == (stitches, 0)


@pytest.mark.parametrize("sure", [60, 90, 98])
def test_the_ranges_hold_as_much_as_was_asked(sure: int) -> None:
    balls = planned(coloured(weighing__sure=sure)).yarn.needed.balls
    plan = planned(coloured(weighing__sure=sure, yarn__MC__balls=balls))
    reckoning = plan.reckoning
    estimate = reckoning.estimate("MC")
    assert estimate.sure == reckoning.sure == sure / 100
    left = reckoning.left("MC")
    for quantity, told in (
        (left, estimate.left),
        (reckoning.need("MC"), estimate.need),
        (reckoning.left("MC", Uncertain(0.0, {})), estimate.have),
    ):
        believed = PRIOR.of(quantity)
        outside = 1 - believed.chance_above(told.low.grams) + believed.chance_above(told.high.grams)
        assert outside == pytest.approx(1 - sure / 100, abs=1e-6)
    assert estimate.chance == PRIOR.of(left).chance_above(0.0)
    assert reckoning.chance("MC") == pytest.approx(estimate.chance)
    # derived: more knitting leaves less
    more = reckoning.chance("MC", knitting=reckoning.knitting("MC").times(1.3))
    assert more < estimate.chance


def test_every_section_has_a_tension_of_its_own() -> None:
    reckoning = planned(sized()).reckoning
    for part in reckoning.parts:
        grams = reckoning.rates.grams("MC", part.counts).mean
        moved = reckoning.knitting("MC").by_source[Source("tension", part.key)]
        assert moved == pytest.approx(TENSION * grams)
    first = reckoning.parts[0]
    assert set(reckoning.knitting("MC", [first]).by_source) & {
        Source("tension", part.key) for part in reckoning.parts
    } == {Source("tension", first.key)}


@pytest.mark.parametrize("balls", [{"balls": 9}, {"weights": [50] * 9}])
@pytest.mark.parametrize("sure", [75, 95])
def test_as_much_as_is_called_needed_is_just_enough(sure: int, balls: dict[str, object]) -> None:
    sections = sized(yarn__MC={**BALL, **balls}, weighing__sure=sure)
    needed = planned(sections).yarn.needed
    just = {"balls": needed.balls} if "balls" in balls else {"weights": [needed.grams / 9] * 9}
    chance = planned(edited(sections, yarn__MC={**BALL, **just})).yarn.chance
    # derived: what is asked for, to a hundredth of a per cent
    assert chance == pytest.approx(sure / 100, abs=1e-4)


def test_what_was_learned_is_heeded_in_every_figure() -> None:
    reckoning = planned(sized(yarn__MC={**BALL, "balls": 6})).reckoning
    there, need = reckoning.left("MC", Uncertain(0.0, {})), reckoning.need("MC")
    left = reckoning.left("MC")
    knowledge = learned([Observation(left, left.mean - 30, 2.0)])
    estimate = reckoning.estimate("MC", knowledge)
    assert reckoning.estimates(knowledge)["MC"] == estimate
    assert reckoning.estimates()["MC"] == reckoning.estimate("MC") != estimate
    for quantity, told in ((there, estimate.have), (need, estimate.need), (left, estimate.left)):
        assert told.mean.grams == pytest.approx(knowledge.of(quantity).mean)
    assert reckoning.chance("MC", knowledge=knowledge) == pytest.approx(estimate.chance)
    besides = sum(grams.grams for _, grams in estimate.extras)
    assert estimate.knitted.grams == pytest.approx(knowledge.of(need).mean - besides)
    # derived: with as much as is needed there would be enough, as sure as was asked
    scaled = there.times(estimate.needed.grams / there.mean)
    spread = knowledge.of(total([(1.0, scaled), (-1.0, need)]))
    needed = knowledge.of(need).mean + spread.away(0.9)
    assert estimate.needed.grams == pytest.approx(needed, rel=1e-6)


def test_another_part_takes_the_place_of_its_namesake() -> None:
    reckoning = planned(sized()).reckoning
    half = Part("body", {("MC", "plain"): Counted(1000)})
    changed = reckoning.with_parts([half])
    assert [part.key for part in changed.parts] == [part.key for part in reckoning.parts]
    assert [part for part in changed.parts if part.key == "body"] == [half]
    others = [part for part in reckoning.parts if part.key != "body"]
    assert [part for part in changed.parts if part.key != "body"] == others


def test_one_weighs_again_where_a_third_is_knitted_and_something_is_left() -> None:
    for sections in (sized(), coloured(), sized("babies", "6", garment__neck__cast_on="plain")):
        estimates = planned(sections).reckoning.estimates()
        for estimate in estimates.values():
            here = [use for use in estimate.by_section if use.amount.stitches]
            so_far, told = 0.0, ""
            for use in here:
                so_far += use.amount.grams
                if so_far >= sum(each.amount.grams for each in here) / 3:
                    told = use.key
                    break
            assert estimate.weigh_after == (told if len(here) > 1 else "")


def test_a_yarn_most_of_which_comes_last_is_weighed_before_it() -> None:
    reckoning = planned(sized()).reckoning
    counts = {"neckband": 10, "yoke": 20, "hem": 1000}
    parts = tuple(Part(key, {("MC", "plain"): Counted(n)}) for key, n in counts.items())
    assert replace(reckoning, parts=parts).estimate("MC").weigh_after == "yoke"
    alone = replace(reckoning, parts=parts[2:]).estimate("MC")
    assert alone.weigh_after == ""
    two = replace(reckoning, parts=parts[1:]).estimate("MC")
    assert two.weigh_after == "yoke"
    # derived: a fifth, then three fifths; a sixth twice, which is a third, before the last
    for loops, where in (((5, 10, 10), "body"), ((10, 11, 20, 19), "body"), ((3, 3, 4, 20), "hem")):
        few = tuple(
            Part(key, {("MC", "plain"): Counted(n)})
            for key, n in zip(("yoke", "body", "hem", "cuff"), loops, strict=False)
        )
        assert replace(reckoning, parts=few).estimate("MC").weigh_after == where
    # derived: exactly a third, of stitches that weigh a quarter of a gram each
    even = tuple(Part(key, {("MC", "plain"): Counted(8)}) for key in ("yoke", "body", "hem"))
    cost = Cost(certain(0.25), certain(0.0), 1.0, "gauge")
    rates = replace(reckoning.rates, by={("MC", "plain"): cost})
    assert replace(reckoning, parts=even, rates=rates).estimate("MC").weigh_after == "yoke"


def test_two_parts_of_one_section_are_knitted_by_one_hand() -> None:
    reckoning = planned(sized()).reckoning
    part = reckoning.parts[0]
    once, twice = reckoning.knitting("MC", (part,)), reckoning.knitting("MC", (part, part))
    tension = Source("tension", part.key)
    # derived: their errors go the same way, and add up
    assert once.by_source[tension] == pytest.approx(TENSION * once.mean)
    assert twice.by_source == pytest.approx({s: 2 * by for s, by in once.by_source.items()})
    assert twice.mean == pytest.approx(2 * once.mean)


# The verdict in words.


def told(**changes: object) -> YarnEstimate:
    estimate = planned(sized()).yarn
    return replace(estimate, **changes)  # type: ignore[arg-type]


def left(low_m: float, mean_m: float, high_m: float) -> object:
    return span(low_m / 4, mean_m / 4, high_m / 4, YARN)


def test_the_verdict_says_what_is_left_or_missing() -> None:
    enough = told(verdict="enough", stash=of_grams(0, 300, YARN), left=left(20, 120, 220))
    # derived: 120 m of 4 m to the gram
    assert verdict_words(enough, "cm") == "Enough: about 30 g of the 300 g left."
    bare = told(verdict="enough", stash=of_grams(0, 300, YARN), left=left(-90, -2, 80))
    assert verdict_words(bare, "cm") == "Enough: about 0 g of the 300 g left."
    short = told(verdict="short", code="CC1", left=left(-1500, -900, -300))
    assert verdict_words(short, "cm") == "Short by 300–1,500 m of CC1."
    assert verdict_words(short, "cm", colour="dark") == "Short by 300–1,500 m of the dark."
    # published: international yard and pound agreement, 1959: 0.9144 m
    assert verdict_words(short, "in") == "Short by 328 yd (300 m) to 1,640 yd (1,500 m) of CC1."
    barely = told(verdict="short", code="MC", left=left(-50, -20, 4))
    assert verdict_words(barely, "cm") == "Short by up to 50 m of MC."
    # derived: rounded to nothing or to a metre
    for high, words in ((-0.4, "up to 50 m"), (-0.6, "1–50 m")):
        nearly = told(verdict="short", code="MC", left=left(-50, -20, high))
        assert words in verdict_words(nearly, "cm")


@pytest.mark.parametrize(
    ("section", "when"),
    [
        ("yoke", "after the yoke"),
        ("sleeve", "before the cuffs"),
        ("cuff", "before the neckband"),
        ("", "halfway"),
    ],
)
def test_what_is_too_close_is_weighed_again(section: str, when: str) -> None:
    words = verdict_words(told(verdict="close", weigh_after=section), "cm")
    assert words == f"Too close to call: weigh again {when}."


def test_verdicts_change_where_it_is_as_sure_as_was_asked() -> None:
    verdicts = []
    for balls in [4 + n / 2 for n in range(12)]:
        estimate = planned(sized(yarn__MC={**BALL, "balls": balls}, weighing__sure=80)).yarn
        verdicts.append(estimate.verdict)
        # derived: four in five
        wanted = (
            "enough" if estimate.chance >= 0.8 else "short" if estimate.chance <= 0.2 else "close"
        )
        assert estimate.verdict == wanted
    assert list(dict.fromkeys(verdicts)) == ["short", "close", "enough"]


# Ball after ball.


def used(weights: list[float], *, lots: list[str] | None = None, **more: Any) -> Plan:
    yarn = {**BALL, "weights": weights} | ({"lots": lots} if lots else {})
    return planned(sized("babies", "12", yarn__MC=yarn, **more))


def rows_of(plan: Plan, code: str = "MC") -> list[tuple[Place, float]]:
    """Every row that takes of a yarn, with its grams."""
    found = []
    for run in in_order(plan.schedule):
        spends = run.by_yarn.get(code)
        for at in range(run.times):
            grams = (
                plan.reckoning.rates.grams(code, {(code, run.fabric): spends}).mean
                if spends
                else 0.0
            )
            if grams > 0:
                found.append((run.place(at), grams))
    return found


def joins_by_hand(
    rows: list[tuple[Place, float]], balls: list[float], *, ends: float, tail: float, swatch: float
) -> list[Place]:
    """A ball is joined at the first row that the one before could not finish."""
    room = [grams - ends for grams in balls]
    room[0] -= tail
    for at in reversed(range(len(room))):
        gone = min(balls[at] - (tail if at == 0 else 0), swatch)
        room[at] -= gone
        swatch -= gone
    found = [rows[0][0]]
    ball, left_g = 0, room[0]
    for place, grams in rows:
        while grams > left_g:
            ball += 1
            found.append(place)
            if ball == len(room):
                return found
            left_g = room[ball]
        left_g -= grams
    return found


@pytest.mark.parametrize("weights", [[50.0] * 5, [31.0, 50, 44, 12, 50, 50], [30.0, 20], [250.0]])
@pytest.mark.parametrize("swatch", ["keep", "unravel"])
def test_every_ball_is_joined_where_the_last_one_would_not_finish_the_row(
    weights: list[float], swatch: str
) -> None:
    plan = used(weights, weighing__swatch=swatch)
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    extras = extras_of(plan)
    joins = joins_by_hand(
        rows_of(plan),
        [ball.grams for ball in use.order],
        ends=2 * gram_of(END_M),
        tail=extras["tail"].mean,
        swatch=extras["swatch"].mean,
    )
    assert [start.place for start in use.starts] == joins[: len(weights)]
    assert [start.ball for start in use.starts] == list(use.order[: len(use.starts)])
    assert use.runs_out == (joins[len(weights)] if len(joins) > len(weights) else None)
    assert use.code == "MC"


def test_balls_are_told_by_their_lots_where_those_are_named() -> None:
    assert {ball.lot for ball in balls_in_order(YARN)} == {""}
    one_lot = YARN.model_copy(update={"weights": (50.0, 40.0), "lots": ("A",)})
    with pytest.raises(ValueError, match="argument 2"):
        balls_in_order(one_lot)


def test_a_ball_begins_where_it_is_knitted_and_not_where_a_marker_is_hung() -> None:
    plan = used([50.0] * 5)
    markers = Section("body", 10, (Row((Op("pm"),), kind=RowKind.PART), PLAIN, PLAIN))
    use = stash_use(plan.reckoning, Schedule((markers,)), "MC")
    assert [start.place for start in use.starts] == [Place("body", 2)]


def test_the_yarn_runs_out_in_the_row_for_which_the_last_ball_is_too_small() -> None:
    thick = {"ball_weight": "50 g", "ball_length": "20 m", "weights": [150, 1]}
    plan = planned(sized(yarn__MC=thick))
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    assert use.runs_out == use.starts[-1].place


def test_a_yarn_without_a_stitch_has_an_estimate_too() -> None:
    reckoning = replace(planned(sized()).reckoning, parts=())
    estimate = reckoning.estimate("MC")
    assert (estimate.knitted.stitches, estimate.floats, estimate.weigh_after) == (0, 0, "")


def test_the_range_of_each_join_is_that_of_the_knitting() -> None:
    plan = used([50.0] * 5)
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    knitting = plan.reckoning.knitting("MC")
    low, high = PRIOR.of(knitting).between(0.9)  # common practice, no source: nine in ten
    places = [place for place, _ in rows_of(plan)]
    by_hand = [
        joins_by_hand(
            [(place, grams * knits / knitting.mean) for place, grams in rows_of(plan)],
            [50.0] * 5,
            ends=2 * gram_of(END_M),
            tail=extras_of(plan)["tail"].mean,
            swatch=extras_of(plan)["swatch"].mean,
        )
        for knits in (high, low)
    ]
    for at, start in enumerate(use.starts):
        assert start.earliest == by_hand[0][at]
        assert start.latest == (by_hand[1][at] if at < len(by_hand[1]) else None)
    assert any(start.earliest != start.latest for start in use.starts)
    assert places


def test_a_ball_too_small_for_a_row_is_left_in_it() -> None:
    yarn = {**BALL, "weights": [150, 1, 1, 120], "lots": ["A", "A", "A", "B"]}
    plan = planned(sized("women", "L", yarn__MC=yarn))
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    assert [ball.grams for ball in use.order] == [150, 1, 1, 120]  # derived: the larger lot
    small, smaller, last = use.starts[1:]
    assert small.place == smaller.place == last.place


@pytest.mark.parametrize("weights", [[12.0, 11], [30.0, 29], [55.0, 40], [25.0, 24, 23]])
def test_lots_take_turns_only_where_the_piece_goes_on(weights: list[float]) -> None:
    plan = used(weights, lots=["A"] * (len(weights) - 1) + ["B"])
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    places = [place for place, _ in rows_of(plan)]
    change = use.starts[-1].place
    assert use.starts[-1].ball.lot == "B"
    (turns,) = use.alternations
    at = places.index(change)
    # common practice, no source: ten rounds on either side
    around = places[max(0, at - 10) : at + 10]
    piece = [p for p in around if (p.section, p.copy) == (change.section, change.copy)]
    assert (turns.first, turns.last) == (piece[0], piece[-1])
    assert turns.lots == ("A", "B")


def joined_as_by_hand(plan: Plan, code: str = "MC") -> bool:
    """Whether every ball, or every bundle of them, begins where a knitter would join it."""
    yarn = plan.project.yarn[code]
    use = stash_use(plan.reckoning, plan.schedule, code)
    extras = extras_of(plan, code)
    first = range(0, len(use.order), yarn.strands)
    bundles = [sum(ball.grams for ball in use.order[at : at + yarn.strands]) for at in first]
    joins = joins_by_hand(
        rows_of(plan, code),
        bundles,
        ends=2 * gram_of(END_M) * yarn.strands,
        tail=extras["tail"].mean if "tail" in extras else 0.0,
        swatch=extras["swatch"].mean,
    )
    out = joins[len(bundles)] if len(joins) > len(bundles) else None
    places = [start.place for start in use.starts]
    return (places, use.runs_out) == (joins[: len(bundles)], out)


THICK = {"ball_weight": "50 g", "ball_length": "50 m"}
SCRAPS = {**BALL, "weights": [150, 1, 1, 120], "lots": ["A", "A", "A", "B"]}


@pytest.mark.parametrize(
    "sections",
    [
        sized("babies", "12", yarn__MC={**BALL, "balls": 5}, weighing__swatch="keep"),
        sized("babies", "12", yarn__MC={**BALL, "balls": 1.2}, weighing__swatch="keep"),
        sized("babies", "12", yarn__MC={**BALL, "weights": [50] * 10, "strands": 2}),
        sized("women", "L", yarn__MC=SCRAPS),
        sized("women", "L", yarn__MC={**SCRAPS, **THICK}),
    ],
)
def test_bundles_scraps_and_the_swatch_are_joined_as_by_hand(sections: Sections) -> None:
    assert joined_as_by_hand(planned(sections))


def test_small_balls_of_a_colour_are_joined_as_by_hand() -> None:
    plan = planned(coloured(yarn__CC1={**BALL, "weights": [3] * 6}))
    assert len(stash_use(plan.reckoning, plan.schedule, "CC1").starts) > 1
    assert joined_as_by_hand(plan, "CC1")


@pytest.mark.parametrize("rows_left", [3, 6])
def test_lots_take_turns_to_the_very_end(rows_left: int) -> None:
    plan = used([500.0])
    extras = extras_of(plan)
    before = sum(grams for _, grams in rows_of(plan)[:-rows_left])
    enough = before + extras["tail"].mean + 2 * gram_of(END_M) + 1e-6
    two = used([enough, 40.0], lots=["A", "B"])
    (turns,) = stash_use(two.reckoning, two.schedule, "MC").alternations
    places = [place for place, _ in rows_of(two)]
    assert turns.last == places[-1]


def test_lots_take_turns_from_the_very_beginning() -> None:
    plan = used([3.0, 2.5], lots=["A", "B"], garment__neck__band="2.5 cm")
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    (turns,) = use.alternations
    places = [place for place, _ in rows_of(plan)]
    assert places.index(use.starts[1].place) < 10  # common practice, no source: ten rounds
    assert turns.first == places[0]


def test_a_strand_of_each_is_taken_from_two_balls_at_once() -> None:
    plan = planned(sized("babies", "12", yarn__MC={**BALL, "weights": [50] * 10, "strands": 2}))
    use = stash_use(plan.reckoning, plan.schedule, "MC")
    assert [start.ball for start in use.starts] == list(use.order[::2])[: len(use.starts)]


def test_a_yarn_that_is_not_knitted_is_not_reckoned() -> None:
    plan = planned(sized(yarn__CC1={**BALL, "balls": 2}))
    assert plan.reckoning.codes == ("MC",)


def test_a_colour_is_joined_where_its_first_row_is() -> None:
    plan = planned(coloured())
    use = stash_use(plan.reckoning, plan.schedule, "CC1")
    assert [start.place for start in use.starts] == [rows_of(plan, "CC1")[0][0]]
    assert use.starts[0].place.section == "yoke"
    assert plan.rows[0].section.key != "yoke"


def test_a_facing_costs_what_the_plain_fabric_does() -> None:
    weighed = {"weight": "12 g", "stitches": 50, "rounds": 60}
    plan = planned(sized(garment__body__finish="folded", swatch__plain__weighed=weighed))
    by = plan.reckoning.rates.by
    assert by["MC", "facing"].ratio == by["MC", "plain"].ratio
    assert by["MC", "facing"].evidence == "weighed"
    assert "borrowed" not in {source.kind for source in by["MC", "facing"].loop.by_source}


# Errors.


def test_two_different_readings_are_weighed_together() -> None:
    a, b = Source("model", "a"), Source("model", "b")
    one, two = Uncertain(10, {a: 2.0, b: 1.0}), Uncertain(20, {a: 1.0, b: 3.0})
    asked = Uncertain(5, {a: 1.0, b: -1.0})
    knowledge = learned([Observation(one, 11.0, 0.5), Observation(two, 17.0, 1.5)])
    # derived: the covariance of the readings is [[5.25, 5], [5, 12.25]], its inverse by hand;
    # what is asked shares 2 - 1 and 1 - 3 with them
    det = 5.25 * 12.25 - 25
    weights = ((1 * 12.25 + 2 * 5) / det, (-1 * 5 - 2 * 5.25) / det)
    mean = 5 + weights[0] * 1.0 + weights[1] * -3.0
    variance = 2 - (weights[0] * 1 + weights[1] * -2)
    assert knowledge.of(asked).mean == pytest.approx(mean)
    assert knowledge.of(asked).sd == pytest.approx(math.sqrt(variance))


def test_three_different_readings_are_learned_in_any_order() -> None:
    sources = [Source("model", name) for name in "abc"]
    readings = [
        Observation(Uncertain(10, dict(zip(sources, by, strict=True))), read, sd)
        for by, read, sd in (
            ((1.0, 0.5, 0.0), 11.0, 0.3),
            ((0.2, 1.0, 0.7), 9.5, 0.4),
            ((0.5, 0.1, 1.0), 10.4, 0.2),
        )
    ]
    asked = Uncertain(3, dict(zip(sources, (0.4, -0.3, 0.9), strict=True)))
    one = learned(readings).of(asked)
    other = learned(readings[::-1]).of(asked)
    assert (one.mean, one.sd) == pytest.approx((other.mean, other.sd))
    third = learned([readings[1], readings[2], readings[0]]).of(asked)
    assert (one.mean, one.sd) == pytest.approx((third.mean, third.sd))


def test_a_source_that_is_given_twice_adds_up() -> None:
    a, b = Source("model", "a"), Source("tension", "yoke")
    moved = Uncertain(10, {a: 2.0}).varied(b, 0.1).varied(b, 0.2)
    assert moved.by_source == pytest.approx({a: 2.0, b: 3.0})  # derived: 1 and 2 of 10
    assert moved.mean == 10  # derived: only its spread changes
    assert Uncertain(10, {a: 3.0, b: 4.0}).sd == 5  # derived: 3, 4, 5


def test_nothing_uncertain_is_above_or_below() -> None:
    known = Belief(7, 0.0)
    assert (known.chance_above(6.9), known.chance_above(7), known.chance_above(7.1)) == (1, 0, 0)
    assert known.between(0.9) == (7, 7)  # derived: known
    assert Belief(7, 3.0, 0.0).sd == 3  # derived: the normal part alone
    assert Belief(7, 0.0, 3.0).sd == pytest.approx(math.sqrt(3))
    assert Belief(7, 2.0, 3.0).sd == pytest.approx(math.sqrt(4 + 3))


def test_what_is_no_number_ends_all_the_same() -> None:
    assert math.isnan(Belief(0, 1.0).away(math.nan))
    assert math.isnan(Belief(0, 1.0, 2.0).away(math.nan))


@pytest.mark.parametrize("sd", [1e-6, 1.0, 1e6])
def test_a_range_is_as_sharp_for_small_things_as_for_large(sd: float) -> None:
    # derived: the standard library's normal distribution
    assert Belief(0, sd).away(0.9) / sd == pytest.approx(NormalDist().inv_cdf(0.9), rel=1e-8)


@pytest.mark.parametrize("sd", [1e-6, 1.0, 1e6])
def test_a_blurred_range_is_as_sharp_for_small_things_as_for_large(sd: float) -> None:
    # derived: the same spread in other units
    usual = Belief(0, 1.0, 2.0).away(0.9)
    assert Belief(0, sd, 2 * sd).away(0.9) / sd == pytest.approx(usual, rel=1e-8)


@pytest.mark.parametrize("away", [-1.5, 0.2, 0.9, 2.0])
def test_a_blurred_flat_spread_is_the_mean_of_normal_ones(away: float) -> None:
    # derived: the normal distribution at the middles of 4,000 slices of the flat one
    slices = ((2 * n + 1) / 4000 - 1 for n in range(4000))
    below = sum(NormalDist(at, 1).cdf(away) for at in slices) / 4000
    assert Belief(0, 1, 1).chance_above(away) == pytest.approx(1 - below, abs=1e-6)
