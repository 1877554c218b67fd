"""The sweater at a glance: measures, gauge, yarn, needles, savings and the counts behind them."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.gauge import Gauge
from yokefellow.plan import Plan
from yokefellow.quantities import length, yarn_length
from yokefellow.sheet.charting import KIND_WORDS
from yokefellow.sheet.dimensions import body_cm, sleeve_cm
from yokefellow.sheet.figures import balls, grams, in_a_swatch, number, swatch_width, title_case
from yokefellow.sheet.needle_words import needle_words
from yokefellow.sheet.pieces import CountOf, Dimension, Glance, NeedleUse
from yokefellow.sheet.words import SECTION_TITLES
from yokefellow.sheet.yarn_pieces import SavingLine
from yokefellow.sheet.yarns import yarns
from yokefellow.what_if import Prospects
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
    """Tell the gauge of every fabric with a swatch, washed and on the needles."""
    kinds = dict.fromkeys(chart.kind for chart in plan.all_charts)
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
