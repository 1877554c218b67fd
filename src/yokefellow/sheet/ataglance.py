"""The sweater at a glance: measures, gauge, yarn, needles, savings and the counts behind them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.conductor import Plan
from yokefellow.gauge import Gauge
from yokefellow.savings import Saving
from yokefellow.sheet.charting import KIND_WORDS
from yokefellow.sheet.dimensions import body_cm, sleeve_cm
from yokefellow.sheet.figures import (
    balls,
    grams,
    in_a_swatch,
    number,
    swatch_width,
    title_case,
)
from yokefellow.sheet.pieces import (
    CountOf,
    Dimension,
    Glance,
    NeedleUse,
    SavingLine,
    YarnLine,
    YarnView,
)
from yokefellow.sheet.rounds import needle_words
from yokefellow.sheet.words import SECTION_TITLES
from yokefellow.units import LengthUnit
from yokefellow.wording import length, yarn_length
from yokefellow.yarn import Amount, YarnEstimate

__all__ = ["gauge_words", "glance"]


def glance(plan: Plan, measures: tuple[Dimension, ...]) -> Glance:
    """Give everything of the first page but the drawing."""
    split = plan.shape.split
    b, u, s, y = split.body.got, split.underarm.got, split.sleeve.got, split.yoke
    return Glance(
        dimensions=measures,
        any_filled=any(measure.filled for measure in measures),
        gauge=gauge_words(plan),
        yarns=tuple(_yarn(plan, estimate) for estimate in plan.yarns.values()),
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
        equation_in_numbers=f"{y} = ({b} − 2 × {u}) + 2 × ({s} − {u})",
    )


def gauge_words(plan: Plan) -> tuple[str, ...]:
    """Tell the gauge of every fabric with a swatch, washed and on the needles."""
    kinds = dict.fromkeys(chart.kind for chart in plan.charts)
    bands = ((kind, plan.gauges.bands[kind]) for kind in kinds if kind in plan.gauges.bands)
    return (
        *_gauge(plan, plan.gauges.plain, "stockinette"),
        *(words for kind, gauge in bands for words in _gauge(plan, gauge, KIND_WORDS[kind])),
    )


def _gauge(plan: Plan, gauge: Gauge, fabric: str) -> tuple[str, ...]:
    unit = plan.project.sheet.units
    over = swatch_width(unit)
    worn = (
        f"{in_a_swatch(gauge.stitches_per_cm, unit)} stitches and "
        f"{in_a_swatch(gauge.rounds_per_cm, unit)} rounds in {over}"
    )
    knitted = (
        f"{in_a_swatch(gauge.unwashed_stitches_per_cm, unit)} stitches and "
        f"{in_a_swatch(gauge.unwashed_rounds_per_cm, unit)} rounds in {over}"
    )
    if not gauge.is_washed:
        return (f"Unwashed: {knitted}, {fabric}.",)
    if worn == knitted:
        return (f"Washed: {worn}, {fabric}.",)
    return (f"Washed, as it is worn: {worn}, {fabric}.", f"On the needles: {knitted}.")


def _yarn(plan: Plan, estimate: YarnEstimate) -> YarnView:
    unit = plan.project.sheet.units
    stitches = f"{number(estimate.knitted.stitches)} stitches"
    strands = f" and strands behind {number(estimate.floats)}"
    return YarnView(
        code=estimate.code,
        name=_yarn_name(plan, estimate.code),
        lines=(
            _amount(
                "knitted",
                stitches + strands if estimate.floats else f"The {stitches}",
                estimate.knitted,
                unit,
            ),
            _amount("needed", "With swatch, ends and a tenth to spare", estimate.needed, unit),
            _amount("stash", "In your drawer", estimate.stash, unit),
        ),
        verdict_key=estimate.verdict,
        verdict=_verdict(estimate, unit),
    )


def _yarn_name(plan: Plan, code: str) -> str:
    yarn, unit = plan.project.yarn[code], plan.project.sheet.units
    words = [word for word in (yarn.name, yarn.colour, yarn.fibre) if word]
    ball = f"{grams(yarn.ball_weight)} = {yarn_length(yarn.ball_length, unit)} a ball"
    return f"{code}: " + ", ".join([*words, ball])


def _amount(key: str, what: str, amount: Amount, unit: LengthUnit) -> YarnLine:
    return YarnLine(
        key=key,
        what=what,
        length=yarn_length(amount.metres, unit),
        weight=grams(amount.grams),
        balls=balls(amount.balls),
        length_m=amount.metres,
        weight_g=amount.grams,
        ball_count=amount.balls,
    )


def _verdict(estimate: YarnEstimate, unit: LengthUnit) -> str:
    left_m = estimate.left_m
    if estimate.verdict == "enough":
        return (
            f"Enough. About {yarn_length(left_m, unit)} should be left, the spare tenth included."
        )
    if estimate.verdict == "close":
        left = yarn_length(left_m, unit)
        return f"Too close to call: only about {left} would be left, less than the spare tenth."
    return f"Not enough: about {yarn_length(-left_m, unit)} short, before anything to spare."


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
    shape = plan.shape
    if saving.what == "sleeves":
        return sleeve_cm(shape.sleeve), sleeve_cm(shape.plain_sleeve)
    return body_cm(shape.body), body_cm(shape.plain_body)
