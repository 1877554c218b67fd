"""The sweater at a glance: measures, gauge, yarn, needles, savings and the counts behind them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.advice.needles import rib_needle_mm
from yokefellow.gauge import Gauge
from yokefellow.plan import Plan
from yokefellow.quantities import LengthUnit, length, yarn_length
from yokefellow.sheet.charting import KIND_WORDS
from yokefellow.sheet.dimensions import body_cm, sleeve_cm
from yokefellow.sheet.figures import (
    balls,
    grams,
    in_a_swatch,
    needle,
    number,
    swatch_width,
    title_case,
)
from yokefellow.sheet.needle_words import needle_words
from yokefellow.sheet.pieces import CountOf, Dimension, Glance, NeedleUse
from yokefellow.sheet.words import SECTION_TITLES
from yokefellow.sheet.yarn_pieces import SavingLine
from yokefellow.sheet.yarns import yarns
from yokefellow.what_if import Prospects
from yokefellow.words import words
from yokefellow.yarn.savings import Saving

__all__ = ["gauge_words", "glance"]


def glance(
    plan: Plan, measures: tuple[Dimension, ...], prospects: Prospects | None = None
) -> Glance:
    """Give everything of the first page but the drawing."""
    split = plan.shape.split
    b, u, s, y = split.body.got, split.underarm.got, split.sleeve.got, split.yoke
    return Glance(
        dimensions=measures,
        any_filled=any(measure.filled for measure in measures),
        gauge=gauge_words(plan),
        yarns=yarns(plan, prospects),
        needles=tuple(_needles(plan)),
        savings=tuple(_saving(plan, saving) for saving in plan.savings),
        counts=(
            CountOf("N", plan.shape.neck.stitches.got, "stitches where the yoke begins"),
            CountOf("Y", y, "stitches where the yoke ends"),
            CountOf("B", b, "stitches of the body below the underarm"),
            CountOf("S", s, "stitches at the top of each sleeve"),
            CountOf("U", u, "stitches cast on at each underarm"),
        ),
        equation="Y = (B − 2U) + 2(S − U)",
        equation_in_words=(
            "The stitches of the yoke become the body without its underarms, and two sleeves "
            "without theirs."
        ),
        equation_in_numbers=f"{y} = ({b} − 2 × {u}) + 2 × ({s} − {u})",
    )


def gauge_words(plan: Plan) -> tuple[str, ...]:
    """Tell the gauge of every fabric in a line each, with its needle; then that on the needles."""
    needles, gauges = plan.project.needles, plan.gauges
    fine_mm = rib_needle_mm(needles)
    kinds = dict.fromkeys(chart.kind for chart in plan.all_charts)
    fabrics = [(gauges.plain, "stockinette", needles.main)]
    if not gauges.rib_is_assumed:
        fabrics.append((gauges.rib, "rib", fine_mm))
    fabrics += [(gauges.bands[k], KIND_WORDS[k], needles.main) for k in kinds if k in gauges.bands]
    return tuple(
        line
        for gauge, fabric, needle_mm in fabrics
        for line in _gauge(plan, gauge, fabric, needle_mm)
    ) + tuple(_assumed_rib(plan, fine_mm))


def _gauge(plan: Plan, gauge: Gauge, fabric: str, needle_mm: float) -> Iterator[str]:
    said, unit = words("materials"), plan.project.sheet.units
    over, size = swatch_width(unit), needle(needle_mm, unit)
    worn = _in_a_swatch(gauge.stitches_per_cm, gauge.rounds_per_cm, unit)
    knitted = _in_a_swatch(gauge.unwashed_stitches_per_cm, gauge.unwashed_rounds_per_cm, unit)
    yield said.gauge(
        stitches=worn[0],
        rounds=worn[1],
        over=over,
        fabric=fabric,
        in_the_round=gauge.in_the_round,
        needle=size,
        blocked=gauge.is_washed,
    )
    if gauge.is_washed and worn != knitted:
        yield said.on_the_needles(stitches=knitted[0], rounds=knitted[1], over=over)


def _in_a_swatch(stitches: float, rounds: float, unit: LengthUnit) -> tuple[str, str]:
    return in_a_swatch(stitches, unit), in_a_swatch(rounds, unit)


def _assumed_rib(plan: Plan, needle_mm: float) -> Iterator[str]:
    """Tell what a rib without a swatch is taken to be, where the sweater has one."""
    shape, unit = plan.shape, plan.project.sheet.units
    edges = (shape.neck.band, shape.body.hem, shape.sleeve.cuff)
    if plan.gauges.rib_is_assumed and any(edge.finish == "rib" for edge in edges):
        rest = plan.gauges.edge("rib").rest_per_cm
        yield words("materials").assumed_rib(
            stitches=f"{round(float(in_a_swatch(rest, unit)))}",
            over=swatch_width(unit),
            needle=needle(needle_mm, unit),
        )


def _needles(plan: Plan) -> Iterator[NeedleUse]:
    for change in plan.needles:
        title = SECTION_TITLES[change.section]
        where = title if change.number == 1 else f"{title}, from row {change.number}"
        yield NeedleUse(where, needle_words(change, plan))


def _saving(plan: Plan, saving: Saving) -> SavingLine:
    unit, saved = plan.project.sheet.units, saving.saved
    costs = saved.stitches < 0
    sign = -1 if costs else 1
    chosen_cm, plain_cm = _lengths_cm(plan, saving)
    lengths = f"{length(chosen_cm, unit)} instead of {length(plain_cm, unit)}"
    shown = (
        f"{number(sign * saved.stitches)} stitches, {yarn_length(sign * saved.metres, unit)}, "
        f"{grams(sign * saved.grams)}, {balls(sign * saved.balls)}"
    )
    return SavingLine(
        key=saving.what,
        what=f"{title_case(saving.what)} {lengths}",
        saves="costs" if costs else "saves",
        amount=shown,
        stitches=saved.stitches,
        length_m=saved.metres,
        weight_g=saved.grams,
        ball_count=saved.balls,
    )


def _lengths_cm(plan: Plan, saving: Saving) -> tuple[float, float]:
    """Give the chosen and the unmodified length as knitted, in whole rounds."""
    shape, usual = plan.shape, plan.unmodified
    if saving.what == "sleeves":
        return sleeve_cm(shape.sleeve), sleeve_cm(usual.sleeve)
    return body_cm(shape.body), body_cm(usual.body)
