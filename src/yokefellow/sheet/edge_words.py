"""The edges in words: how each finish is worked, and how each bind-off is done.

The ways are common practice of the trade; the words are ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from types import MappingProxyType

from yokefellow.gauge import Gauge
from yokefellow.plan import Plan
from yokefellow.quantities import M_PER_YARD, LengthUnit, length, yarn_length
from yokefellow.shaping import BIND_OFFS, ROLL_SHOWS_CM, ROLL_TAKES_CM, Edge

__all__ = ["BIND_OFF_NAMES", "band_words", "edge_words", "sew_neckband"]

BIND_OFF_NAMES = MappingProxyType(
    {
        "plain": "",
        "larger needle": "with a larger needle",
        "through the back": "two together through the back",
        "sewn": "sewn",
        "sewn down": "",
        "yarn overs": "with yarn overs",
    }
)
"""Each bind-off in a few words, beside its row."""

_HOW = MappingProxyType(
    {
        "larger needle": "Bind off with a needle one or two sizes larger in the right hand: knit "
        "2, *lift the first of them over the second and off, knit 1; repeat from * to the end. "
        "The larger loops let the edge give.",
        "through the back": "Bind off by twos, so that the edge gives: *knit 2 together through "
        "the back loops, put the new stitch back on the left needle; repeat from * to the end. "
        "Do not pull the yarn tight.",
        "sewn": "Bind off with a blunt needle, so that the edge gives. Cut the yarn {tail} long. "
        "*Go through the first 2 stitches from right to left, draw the yarn through, go back "
        "through the first from left to right and slip it off; repeat from * to the end.",
        "yarn overs": "Bind off with yarn overs, so that the edge stretches far: work the first "
        "stitch; *yarn over, work the next stitch in the rib, then lift the yarn over and the "
        "stitch before it over that stitch and off; repeat from * to the end. It takes twice the "
        "yarn of a plain one.",
    }
)


def edge_words(plan: Plan, name: str, edge: Edge, stitches: int) -> tuple[str, ...]:
    """Say how the edge at the end of a piece is worked and ended, in paragraphs.

    Args:
        plan: the plan.
        name: the edge at the beginning of a sentence: `The hem`.
        edge: its shape.
        stitches: on the needle.
    """
    return (_worked(plan, name, edge, stitches), _ended(plan, edge, stitches))


def _worked(plan: Plan, name: str, edge: Edge, stitches: int) -> str:
    unit = plan.project.sheet.units
    match edge.finish:
        case "garter":
            return (
                f"{name} is in garter stitch on {stitches} stitches: a round purled, a round "
                "knitted, in turn. It begins and ends with a purled round; the bind-off then "
                "lies on the last ridge."
            )
        case "rolled":
            return (
                f"{name} is knitted plain on {stitches} stitches and left to roll outwards. About "
                f"{length(ROLL_TAKES_CM, unit)} of it roll up into a roll of "
                f"{length(ROLL_SHOWS_CM, unit)}: its {edge.all_rounds} rounds are "
                f"{edge.hidden} more than what will show, and the length stays as asked."
            )
        case "folded":
            return (
                f"{name} is double, on {stitches} stitches: {edge.rounds.got} rounds for the "
                f"outside, {_fold(edge)}, then {_rounds(edge.hidden)} on the finer needle for "
                "the facing, which is folded inside."
            )
        case _:
            return f"{name} is ribbed on {stitches} stitches."


def _rounds(number: int) -> str:
    return "1 round" if number == 1 else f"{number} rounds"


def _fold(edge: Edge) -> str:
    if edge.turning == "picot":
        return "one round of picots (k2tog, yo) along which it folds into small points"
    return "one purled round along which it folds"


def _ended(plan: Plan, edge: Edge, stitches: int) -> str:
    tail = _long(_tail_cm(edge, stitches, plan.gauges.plain), plan.project.sheet.units)
    if edge.finish == "folded":
        return (
            f"Do not bind off. Cut the yarn {tail} long (or take shorter ends, one after the "
            "other), thread it, and turn the facing inside. "
            "Sew each live stitch to the back of the stitch that it meets, in the first round of "
            "the edge: loosely, for the fold must stretch as the knitting does."
        )
    how = _HOW.get(edge.bind_off, "").format(tail=tail)
    if edge.bind_off == "sewn":
        return how
    return f"{how} Cut the yarn at a hand's length and draw it through the last stitch."


def _long(cm: float, unit: LengthUnit) -> str:
    """Word the length of an end of yarn: a long one as yarn is measured, never too short."""
    if cm < LONG_CM:
        return length(cm, unit)
    whole = M_PER_YARD if unit == "in" else 1.0
    return yarn_length(ceil(cm / 100 / whole) * whole, unit)


LONG_CM = 120.0
"""A longer end is told in yards or metres."""

HAND_CM = 15.0
"""An end to hold and to weave in (common practice)."""


def _tail_cm(edge: Edge, stitches: int, gauge: Gauge) -> float:
    widths = BIND_OFFS[edge.bind_off].widths
    return widths * stitches / gauge.stitches_per_cm + HAND_CM


def band_words(plan: Plan) -> Iterator[str]:
    """Say how the neckband is worked, where it is not ribbed."""
    band, unit = plan.shape.neck.band, plan.project.sheet.units
    if band.finish == "garter":
        yield (
            "The neckband is in garter stitch: a round purled, a round knitted, in turn. It begins "
            "and ends with a purled round."
        )
    elif band.finish == "rolled":
        yield (
            f"The neckband is knitted plain and left to roll outwards. About "
            f"{length(ROLL_TAKES_CM, unit)} of it roll up into a roll of "
            f"{length(ROLL_SHOWS_CM, unit)}: its {band.all_rounds} rounds are "
            f"{band.hidden} more than what will show."
        )
    elif band.finish == "folded":
        yield (
            f"The neckband is double. First comes the facing, {_rounds(band.hidden)} on the finer "
            f"needle; then {_fold(band)}; then {_rounds(band.rounds.got)} for the outside. When "
            "the sweater is done, the facing is folded inside and its edge sewn down: the "
            "finishing says how."
        )


def sew_neckband(plan: Plan, *, head: str) -> str:
    """Say how the cast-on edge of a folded neckband is sewn down."""
    neck = plan.shape.neck
    wide_cm = neck.band_stitches / plan.gauges.plain.stitches_per_cm
    tail_cm = BIND_OFFS["sewn down"].widths * wide_cm + HAND_CM
    return (
        "Turn the sweater inside out and fold the facing of the neckband inside. With an end of "
        f"yarn {_long(tail_cm, plan.project.sheet.units)} long and a blunt needle, catch the "
        "loops of the cast-on edge, one by one, to the backs of the stitches straight below, in "
        "the last round of the band. Sew loosely: when you have gone a quarter of the way, and "
        f"again at the end, pull the neck. It must still open to {head}."
    )
