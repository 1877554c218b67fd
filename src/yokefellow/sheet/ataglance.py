"""The sweater at a glance: measures, gauge, yarn, needles, savings and the counts behind them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from yokefellow.conductor import MAIN, Plan
from yokefellow.savings import Saving
from yokefellow.sheet.figures import (
    balls,
    grams,
    in_a_swatch,
    metres,
    number,
    signed_length,
    swatch_width,
    title_case,
)
from yokefellow.sheet.pieces import CountOf, Dimension, Glance, NeedleUse, SavingLine, YarnLine
from yokefellow.sheet.rounds import needle_words
from yokefellow.sheet.words import SECTION_TITLES
from yokefellow.shaping.shapes import BodyShape, SleeveShape
from yokefellow.wording import length
from yokefellow.yarn import Amount

__all__ = ["dimensions", "gauge_words", "glance"]

LETTERS = "abcdefghijkl"
"""Small letters, so that none is taken for a count (N, Y, B, S, U)."""


def glance(plan: Plan, measures: tuple[Dimension, ...]) -> Glance:
    """Give everything of the first page but the drawing."""
    split = plan.shape.split
    b, u, s, y = split.body.got, split.underarm.got, split.sleeve.got, split.yoke
    return Glance(
        dimensions=measures,
        any_filled=any(measure.filled for measure in measures),
        gauge=gauge_words(plan),
        yarn_name=_yarn_name(plan),
        yarn=tuple(_yarn(plan)),
        verdict_key=plan.yarn.verdict,
        verdict=_verdict(plan),
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


def dimensions(plan: Plan) -> tuple[Dimension, ...]:
    """Give the measures of the finished sweater beside the body's, lettered in order."""
    measures = _dimensions(plan)
    return tuple(
        replace(measure, letter=letter) for letter, measure in zip(LETTERS, measures, strict=False)
    )


def _dimensions(plan: Plan) -> Iterator[Dimension]:
    shape, finished = plan.shape, plan.finished
    split, body, sleeve = shape.split, shape.body, shape.sleeve
    short = shape.yoke.short_rows
    yield _round(plan, "neck", "Neck edge", "neck", shape.neck.stitches.cm, shape.neck.stitches.got)
    if short.rows:
        yield _tall(plan, "back_raise", "Back neck raised by", None, short.raise_cm, short.rows)
    yield _tall(
        plan, "yoke_depth", "Yoke depth", "armhole_depth", shape.yoke.rounds.cm,
        shape.yoke.rounds.got,
    )  # fmt: skip
    yield _round(
        plan, "chest", "Chest", "chest", split.body.cm, split.body.got, finished.ease_chest_cm
    )
    if body.waist is not None:
        yield _round(plan, "waist", "Waist", "waist", body.waist.cm, body.waist.got)
    yield _round(plan, "edge", "Above the hem", None, body.edge.cm, body.edge.got)
    yield _tall(
        plan, "body_length", "Body, underarm to edge", None,
        _body_cm(body), body.rounds.got + body.hem_rounds.got,
    )  # fmt: skip
    yield _round(
        plan, "upper_arm", "Upper arm", "upper_arm", split.sleeve.cm, split.sleeve.got,
        finished.ease_arm_cm,
    )  # fmt: skip
    yield _tall(
        plan, "sleeve_length", "Sleeve, underarm to edge", "arm_length",
        _sleeve_cm(sleeve), sleeve.rounds.got + sleeve.cuff_rounds.got,
    )  # fmt: skip
    yield _round(plan, "cuff", "Sleeve edge", None, sleeve.edge.cm, sleeve.edge.got)


def _round(
    plan: Plan,
    key: str,
    place: str,
    measure: str | None,
    cm: float,
    stitches: int,
    ease_cm: float | None = None,
) -> Dimension:
    counted = f"{stitches} sts"
    return _dimension(plan, key, f"{place}, all round", measure, cm, stitches, counted, ease_cm)


def _tall(
    plan: Plan, key: str, place: str, measure: str | None, cm: float, rounds: int
) -> Dimension:
    counted = f"{rounds} {'rows' if key == 'back_raise' else 'rnds'}"
    return _dimension(plan, key, place, measure, cm, rounds, counted, None)


def _dimension(
    plan: Plan,
    key: str,
    place: str,
    measure: str | None,
    cm: float,
    count: int,
    counted: str,
    ease_cm: float | None,
) -> Dimension:
    unit = plan.project.sheet.units
    body_cm = None if measure is None else plan.figures.cm(measure)
    return Dimension(
        key=key,
        letter="",
        place=place,
        body="" if body_cm is None else length(body_cm, unit),
        filled=measure is not None and not plan.figures.is_measured(measure),
        ease="" if ease_cm is None else signed_length(ease_cm, unit),
        finished=length(cm, unit),
        counted=counted,
        body_cm=body_cm,
        ease_cm=ease_cm,
        finished_cm=cm,
        count=count,
    )


def gauge_words(plan: Plan) -> tuple[str, ...]:
    """Tell the gauge, washed and on the needles."""
    unit, plain = plan.project.sheet.units, plan.gauges.plain
    over = swatch_width(unit)
    worn = (
        f"{in_a_swatch(plain.stitches_per_cm, unit)} stitches and "
        f"{in_a_swatch(plain.rounds_per_cm, unit)} rounds in {over}"
    )
    knitted = (
        f"{in_a_swatch(plain.unwashed_stitches_per_cm, unit)} stitches and "
        f"{in_a_swatch(plain.unwashed_rounds_per_cm, unit)} rounds in {over}"
    )
    if not plain.is_washed:
        return (f"Unwashed: {knitted}, stockinette.",)
    if worn == knitted:
        return (f"Washed: {worn}, stockinette.",)
    return (f"Washed, as it is worn: {worn}, stockinette.", f"On the needles: {knitted}.")


def _yarn_name(plan: Plan) -> str:
    yarn, unit = plan.project.yarn[MAIN], plan.project.sheet.units
    words = [word for word in (yarn.name, yarn.colour, yarn.fibre) if word]
    ball = f"{grams(yarn.ball_weight)} = {metres(yarn.ball_length, unit)} a ball"
    return f"{MAIN}: " + ", ".join([*words, ball])


def _yarn(plan: Plan) -> Iterator[YarnLine]:
    yarn, unit = plan.yarn, plan.project.sheet.units
    yield _amount("knitted", f"The {number(yarn.knitted.stitches)} stitches", yarn.knitted, unit)
    yield _amount("needed", "With swatch, ends and a tenth to spare", yarn.needed, unit)
    yield _amount("stash", "In your drawer", yarn.stash, unit)


def _amount(key: str, what: str, amount: Amount, unit: str) -> YarnLine:
    return YarnLine(
        key=key,
        what=what,
        length=metres(amount.metres, "in" if unit == "in" else "cm"),
        weight=grams(amount.grams),
        balls=balls(amount.balls),
        length_m=amount.metres,
        weight_g=amount.grams,
        ball_count=amount.balls,
    )


def _verdict(plan: Plan) -> str:
    yarn, unit = plan.yarn, plan.project.sheet.units
    if yarn.verdict == "enough":
        left = metres(yarn.left_m, unit)
        return f"Enough. About {left} should be left, the spare tenth included."
    if yarn.verdict == "close":
        left = metres(yarn.left_m, unit)
        return f"Too close to call: only about {left} would be left, less than the spare tenth."
    return f"Not enough: about {metres(-yarn.left_m, unit)} short, before anything to spare."


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
        f"{number(sign * saved.stitches)} stitches, {metres(sign * saved.metres, unit)}, "
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
        return _sleeve_cm(shape.sleeve), _sleeve_cm(shape.plain_sleeve)
    return _body_cm(shape.body), _body_cm(shape.plain_body)


def _sleeve_cm(sleeve: SleeveShape) -> float:
    return sleeve.rounds.cm + sleeve.cuff_rounds.cm


def _body_cm(body: BodyShape) -> float:
    return body.rounds.cm + body.hem_rounds.cm
