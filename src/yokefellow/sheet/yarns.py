"""Each yarn at a glance: what the sweater takes, what there is, what stays over, how sure."""

from __future__ import annotations

from collections.abc import Iterator
from types import MappingProxyType

from yokefellow.plan import Plan
from yokefellow.quantities import M_PER_YARD, LengthUnit, in_hundred, yarn_length
from yokefellow.sheet.figures import balls, grams, number, percent_of, plain, title_case
from yokefellow.sheet.yarn_pieces import YarnLine, YarnView
from yokefellow.what_if import Prospects
from yokefellow.words import words
from yokefellow.yarn import Amount, Knowledge, Span, YarnEstimate, verdict_words
from yokefellow.yarn.uncertainty import PRIOR

__all__ = ["between", "estimates", "knowledge", "metres_between", "yarns"]

_EVIDENCE = MappingProxyType(
    {
        "weighed": "It rests on the swatch you weighed.",
        "unravelled": "It rests on the yarn you unravelled from the swatch.",
        "gauge": "It rests on the gauge alone: a swatch weighed would make the range narrower.",
    }
)


def knowledge(prospects: Prospects | None) -> Knowledge:
    """Give what weighings have taught, if any."""
    ahead = prospects and prospects.forecast
    return ahead.knowledge if ahead else PRIOR


def estimates(plan: Plan, prospects: Prospects | None) -> tuple[YarnEstimate, ...]:
    """Give every yarn's estimate, after the weighings if there are any."""
    ahead = prospects and prospects.forecast
    return tuple((ahead.yarns if ahead else plan.yarns).values())


def yarns(plan: Plan, prospects: Prospects | None) -> tuple[YarnView, ...]:
    """Tell every yarn, the main one first."""
    weighed = {
        check.entry.yarn
        for check in (prospects.forecast.checkpoints if prospects and prospects.forecast else ())
        if check.is_used
    }
    return tuple(
        _yarn(plan, estimate, is_weighed=estimate.code in weighed)
        for estimate in estimates(plan, prospects)
    )


def _yarn(plan: Plan, estimate: YarnEstimate, *, is_weighed: bool) -> YarnView:
    unit, yarn = plan.project.sheet.units, plan.project.yarn[estimate.code]
    return YarnView(
        code=estimate.code,
        name=_name(plan, estimate.code),
        lines=tuple(_lines(estimate, unit)),
        verdict_key=estimate.verdict,
        verdict=verdict_words(estimate, unit, colour=yarn.colour),
        evidence=_evidence(estimate, is_weighed=is_weighed),
        evidence_key=estimate.evidence,
        chance=estimate.chance,
        sure=estimate.sure,
    )


def _name(plan: Plan, code: str) -> str:
    yarn, unit = plan.project.yarn[code], plan.project.sheet.units
    known = [word for word in (yarn.name, yarn.colour, yarn.fibre) if word]
    ball = f"{grams(yarn.ball_weight)} = {yarn_length(yarn.ball_length, unit)} a ball"
    said = ", ".join([*known, ball])
    return f"{code}: {said}" if len(plan.yarns) > 1 else title_case(said)


def _lines(estimate: YarnEstimate, unit: LengthUnit) -> Iterator[YarnLine]:
    stitches = f"{number(estimate.knitted.stitches)} stitches"
    strands = f", strands behind {number(estimate.floats)}" if estimate.floats else ""
    yield _amount("knitted", f"{stitches}{strands}", estimate.knitted, unit)
    besides = "In all, with ends and swatch"
    yield _range("need", besides, estimate.need, unit)
    yield _amount("needed", f"To be {percent_of(estimate.sure)} sure", estimate.needed, unit)
    yield _amount("stash", "In your drawer", estimate.stash, unit)
    yield _left(estimate.left, unit)


def _left(left: Span, unit: LengthUnit) -> YarnLine:
    """Word what is left over; where all of the range is missing, what it is short by."""
    if left.high.grams >= 0:
        return _range("left", "Left over", left, unit)
    line = _range(
        "left", "Short by", Span(_missing(left.high), left.mean, _missing(left.low)), unit
    )
    return line._replace(least_g=left.low.grams, most_g=left.high.grams)


def _missing(amount: Amount) -> Amount:
    return amount._replace(metres=-amount.metres, grams=-amount.grams, balls=-amount.balls)


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


def _range(key: str, what: str, span: Span, unit: LengthUnit) -> YarnLine:
    return YarnLine(
        key=key,
        what=what,
        length=metres_between(span.low.metres, span.high.metres, unit),
        weight=f"{between(span.low.grams, span.high.grams)} g",
        balls=f"{_tenths_between(span.low.balls, span.high.balls)} balls",
        length_m=span.mean.metres,
        weight_g=span.mean.grams,
        ball_count=span.mean.balls,
        least_g=span.low.grams,
        most_g=span.high.grams,
    )


def between(low: float, high: float) -> str:
    """Word a range of whole numbers; one below zero is told in words.

    >>> between(1071.2, 1379.4), between(-5.2, 30), between(8, 8.2)
    ('1,071–1,379', '−5 to 30', '8')
    """
    return _joined(number(round(low)), number(round(high)))


def _tenths_between(low: float, high: float) -> str:
    return _joined(plain(low, 1), plain(high, 1))


def _joined(low: str, high: str) -> str:
    if low == high:
        return low
    return f"{low} to {high}" if "−" in low else f"{low}–{high}"


def metres_between(low: float, high: float, unit: LengthUnit) -> str:
    """Word a range of yarn lengths, given in m; in inches it is told in yards alone."""
    if unit == "cm":
        return f"{between(low, high)} m"
    return f"{between(low / M_PER_YARD, high / M_PER_YARD)} yd"


def _evidence(estimate: YarnEstimate, *, is_weighed: bool) -> str:
    rests = "It rests on your weighings." if is_weighed else _EVIDENCE[estimate.evidence]
    said = words("yarn").ranges(
        sure=_in_ten(estimate.sure),
        grams=grams(estimate.need.mean.grams),
        in_hundred=in_hundred(estimate.chance),
    )
    return f"{said} {rests}"


def _in_ten(sure: float) -> str:
    tenths = 10 * sure
    worded = {5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine"}
    if abs(tenths - round(tenths)) < 1e-9 and round(tenths) in worded:
        return f"{worded[round(tenths)]} times in ten"
    return f"{100 * sure:.0f} times in a hundred"
