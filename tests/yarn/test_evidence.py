"""What a stitch costs: by the scale, by a length unravelled, by the gauge; every way of put-up."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest

from tests.sweaters import Sections, edited, planned, sized, swatch
from yokefellow.plan import Plan
from yokefellow.yarn import loop_length_cm
from yokefellow.yarn.evidence import BORROWED_SPREAD, COUNTING_SPREAD, MEASURING_SPREAD, PUT_UP

GAUGE = 2.2
ROUNDS = 1.35 * GAUGE
LOOP_CM = loop_length_cm(stitches_per_cm=GAUGE, rounds_per_cm=ROUNDS)
BALL = {"ball_weight": "50 g", "ball_length": "200 m", "balls": 30}

WEIGHED = {"weight": "12 g", "stitches": 50, "rounds": 60}
UNRAVELLED = {"length": "4 m", "stitches": 200}


def with_swatch(**evidence: object) -> Sections:
    given = {f"swatch__plain__{name}": told for name, told in evidence.items()}
    return edited(sized(stitches_per_cm=GAUGE), **given)


def loop(plan: Plan, fabric: str = "plain", code: str = "MC") -> Any:
    return plan.reckoning.rates.by[code, fabric]


def relative(uncertain: Any) -> float:
    return float(uncertain.sd / uncertain.mean)


def test_a_weighed_swatch_gives_grams_in_a_stitch_whatever_the_band_and_the_gauge_say() -> None:
    plain = loop(planned(with_swatch(weighed=WEIGHED)))
    # derived: 12 g in 50 times 60 stitches
    assert plain.loop.mean == pytest.approx(12 / 3000)
    assert plain.evidence == "weighed"
    other_band = edited(with_swatch(weighed=WEIGHED), yarn__MC__ball_length="260 m")
    assert loop(planned(other_band)).loop.mean == pytest.approx(plain.loop.mean)
    # derived: whole grams leave half a gram either way, flat; and the counting
    scale = 1 / math.sqrt(12) / 12
    assert relative(plain.loop) == pytest.approx(math.hypot(scale, COUNTING_SPREAD))
    finer = edited(with_swatch(weighed=WEIGHED), weighing__scale="0.1 g")
    assert relative(loop(planned(finer)).loop) < relative(plain.loop)


def test_an_unravelled_length_gives_metres_in_a_stitch_and_leaves_the_put_up_open() -> None:
    plain = loop(planned(with_swatch(unravelled=UNRAVELLED)))
    # derived: 4 m out of 200 stitches, at 4 m to the gram
    assert plain.loop.mean == pytest.approx(4 / 200 / 4)
    assert plain.evidence == "unravelled"
    # common practice, no source: a band is true to a twentieth, flat
    assert relative(plain.loop) == pytest.approx(
        math.hypot(MEASURING_SPREAD, PUT_UP / math.sqrt(3))
    )


def test_the_gauge_gives_mundens_loop_and_the_widest_range() -> None:
    plain = loop(planned(with_swatch()))
    # derived: Munden's loop at 4 m to the gram
    assert plain.loop.mean == pytest.approx(LOOP_CM / 100 / 4)
    assert plain.evidence == "gauge"
    assert plain.floating.mean == pytest.approx(0.01 / GAUGE / 4)
    spread = planned(with_swatch()).gauges.plain
    # derived: half of each gauge's spread; common practice, no source: 7 % and a twentieth, flat
    wanted = math.hypot(
        0.07, PUT_UP / math.sqrt(3), spread.stitch_spread / 2, spread.round_spread / 2
    )
    assert relative(plain.loop) == pytest.approx(wanted)


def test_the_best_evidence_goes_first() -> None:
    both = planned(with_swatch(weighed=WEIGHED, unravelled=UNRAVELLED))
    assert both.yarn.evidence == "weighed"
    spans = [
        planned(with_swatch(**evidence)).yarn.need
        for evidence in ({"weighed": WEIGHED}, {"unravelled": UNRAVELLED}, {})
    ]
    widths = [(span.high.grams - span.low.grams) / span.mean.grams for span in spans]
    assert widths == sorted(widths)


def test_a_fabric_without_evidence_borrows_the_plain_ratio() -> None:
    sections = edited(
        with_swatch(weighed=WEIGHED), swatch__rib={"washed": swatch(2.6, rounds_per_cm=3.1)}
    )
    plan = planned(sections)
    plain, rib = loop(plan), loop(plan, "rib")
    assert rib.ratio == plain.ratio
    assert rib.evidence == "borrowed"
    munden = loop_length_cm(stitches_per_cm=2.6, rounds_per_cm=3.1)
    assert rib.loop.mean == pytest.approx(plain.loop.mean * munden / LOOP_CM)
    assert relative(rib.loop) > math.hypot(relative(plain.loop), BORROWED_SPREAD)
    own = edited(sections, swatch__rib__weighed={"weight": "9 g", "stitches": 40, "rounds": 50})
    # derived: 9 g in 40 times 50 stitches
    assert loop(planned(own), "rib").loop.mean == pytest.approx(9 / 2000)


BANDS = [{"chart": "beads"}]


def test_a_weighed_stranded_swatch_counts_its_strands_too() -> None:
    """What is weighed is shared out between loops and the strands behind as the model has them."""
    sections = edited(
        sized(stitches_per_cm=2.8),
        yarn__CC1=BALL,
        garment__yoke__bands=BANDS,
        swatch__stranded={
            "washed": swatch(2.8),
            "weighed": {"weight": "20 g", "stitches": 60, "rounds": 60},
        },
    )
    plan = planned(sections)
    counts = {
        code: spends
        for part in plan.reckoning.parts
        for (code, fabric), spends in part.counts.items()
        if fabric == "stranded"
    }
    stitches = sum(spends.loops for spends in counts.values())
    grams = sum(
        spends.loops * loop(plan, "stranded", code).loop.mean
        + spends.floats * loop(plan, "stranded", code).floating.mean
        for code, spends in counts.items()
    )
    assert counts["CC1"].floats == counts["MC"].loops > 0
    # derived: the band weighs what as many stitches of the swatch weigh
    assert grams / stitches == pytest.approx(20 / 3600)


def test_held_double_the_metres_count_twice() -> None:
    single, double = planned(sized()), planned(sized(yarn__MC__strands=2))
    assert double.yarn.knitted.stitches == single.yarn.knitted.stitches
    # derived: two strands
    assert double.yarn.knitted.metres == pytest.approx(2 * single.yarn.knitted.metres)
    assert double.yarn.knitted.balls == pytest.approx(2 * single.yarn.knitted.balls)
    weighed = with_swatch(weighed=WEIGHED)
    # A swatch on the scale holds both strands already.
    one, two = planned(weighed), planned(edited(weighed, yarn__MC__strands=2))
    assert one.yarn.knitted.grams == pytest.approx(two.yarn.knitted.grams)


def test_handspun_by_a_measured_piece() -> None:
    spun = sized(
        yarn__MC={"ball_weight": "10 g", "ball_length": "34 m", "weights": ["212 g", "95 g"]}
    )
    yarn = planned(spun).yarn
    # derived: 3.4 m to the gram
    assert yarn.stash.grams == pytest.approx(307)
    assert yarn.stash.metres == pytest.approx(307 * 3.4)
    assert yarn.knitted.metres / yarn.knitted.grams == pytest.approx(3.4)


def test_yards_and_ounces_only() -> None:
    """The whole file without a metric unit: grams and metres agree with the same file in metric."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    inches = edited(
        sized(unit="in"),
        yarn__MC={"ball_weight": "1.75 oz", "ball_length": "219 yd", "balls": 30},
        weighing__scale="0.05 oz",
        swatch__plain__weighed={"weight": "0.4 oz", "stitches": 50, "rounds": 60},
    )
    ounce, yard = (registry.Quantity(1, unit) for unit in ("oz", "yd"))
    grams, metres = float(ounce.to("g").magnitude), float(yard.to("m").magnitude)
    metric = edited(
        sized(),
        yarn__MC={
            "ball_weight": f"{1.75 * grams:.6f} g",
            "ball_length": f"{219 * metres:.6f} m",
            "balls": 30,
        },
        weighing__scale=f"{0.05 * grams:.6f} g",
        swatch__plain__weighed={
            "weight": f"{0.4 * grams:.6f} g", "stitches": 50, "rounds": 60
        },
    )  # fmt: skip
    one, two = planned(inches).yarn, planned(metric).yarn
    # derived: the metric file is typed to a millionth
    assert one.need.high.grams == pytest.approx(two.need.high.grams, rel=1e-5)
    assert one.left.low.metres == pytest.approx(two.left.low.metres, rel=1e-5)


def test_grams_and_put_up_agree_with_pint() -> None:
    """Every amount is the same quantity told four ways."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    yarn = planned(with_swatch(unravelled=UNRAVELLED)).yarn
    put_up = registry.Quantity(50, "g") / registry.Quantity(200, "m")
    for told in (yarn.knitted, yarn.needed, yarn.stash, yarn.need.low, yarn.left.high):
        grams = (registry.Quantity(told.metres, "m") * put_up).to("g")
        assert float(grams.magnitude) == pytest.approx(told.grams)
        ounces = registry.Quantity(told.grams, "g").to("oz")
        # derived: 50 g a ball
        assert float(ounces.to("g").magnitude) / 50 == pytest.approx(told.balls)


def test_a_swatch_is_paid_for_once() -> None:
    """Kept it costs, unravelled it does not; out of balls weighed since, it is already gone."""
    base = with_swatch(weighed=WEIGHED)
    balls = {"ball_weight": "50 g", "ball_length": "200 m"}

    def swatch_g(sections: Sections, what: str) -> float:
        plan = planned(edited(sections, weighing__swatch=what))
        return dict(plan.yarn.extras)["swatch"].grams

    counted = edited(base, yarn__MC={**balls, "balls": 6})
    weighed = edited(base, yarn__MC={**balls, "weights": [50] * 6})
    # common practice, no source: a tenth of an unravelled swatch is lost
    assert swatch_g(counted, "keep") == pytest.approx(12)
    assert swatch_g(counted, "unravel") == pytest.approx(1.2)
    assert swatch_g(weighed, "keep") == 0
    assert swatch_g(weighed, "unravel") == pytest.approx(-10.8)


def test_evidence_that_no_knitting_gives_is_told() -> None:
    ten_times = planned(with_swatch(weighed={**WEIGHED, "weight": "120 g"}))
    codes = [finding.code for finding in ten_times.findings]
    assert "yarn.evidence-odd" in codes
    for sound in ({"weighed": WEIGHED}, {"unravelled": UNRAVELLED}, {}):
        codes = [finding.code for finding in planned(with_swatch(**sound)).findings]
        assert "yarn.evidence-odd" not in codes
