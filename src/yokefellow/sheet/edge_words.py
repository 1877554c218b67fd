"""The edges in words: how each finish is worked, and how each bind-off is done.

The ways are common practice of the trade; the sentences stand in `words/en/edges.j2`.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from yokefellow.gauge import Gauge
from yokefellow.plan import Plan
from yokefellow.quantities import M_PER_YARD, LengthUnit, length, yarn_length
from yokefellow.shaping.bindoffs import BIND_OFFS
from yokefellow.shaping.edges import ROLL_SHOWS_CM, ROLL_TAKES_CM, Edge
from yokefellow.words import words

__all__ = ["band_words", "bind_off_name", "edge_words", "sew_neckband"]


def bind_off_name(bind_off: str) -> str:
    """Name a bind-off in a few words, beside its row; empty for a plain one."""
    return words("edges").beside(bind_off=bind_off) if bind_off else ""


def edge_words(plan: Plan, name: str, edge: Edge, stitches: int) -> tuple[str, ...]:
    """Say how the edge at the end of a piece is worked and ended, in paragraphs.

    Args:
        plan: the plan.
        name: the edge inside a sentence: `the hem`.
        edge: its shape.
        stitches: on the needle.
    """
    return (_worked(plan, name, edge, stitches), _ended(plan, edge, stitches))


def _worked(plan: Plan, name: str, edge: Edge, stitches: int) -> str:
    said, unit = words("edges"), plan.project.sheet.units
    match edge.finish:
        case "garter":
            return said.garter(name=name, stitches=stitches)
        case "rolled":
            return said.rolled(
                name=name,
                stitches=stitches,
                takes=length(ROLL_TAKES_CM, unit),
                shows=length(ROLL_SHOWS_CM, unit),
                rounds=edge.all_rounds,
                hidden=edge.hidden,
            )
        case "folded":
            return said.folded(
                name=name,
                stitches=stitches,
                rounds=edge.rounds.got,
                picot=edge.turning == "picot",
                hidden=edge.hidden,
            )
        case _:
            return said.rib(name=name, stitches=stitches, rib=edge.rib)


def _ended(plan: Plan, edge: Edge, stitches: int) -> str:
    said, unit = words("edges"), plan.project.sheet.units
    tail = _long(_tail_cm(edge, stitches, plan.gauges.plain), unit)
    if edge.finish == "folded":
        return said.sew_live(tail=tail)
    fastened = said.fasten_off(tail=length(HAND_CM, unit))
    match edge.bind_off:
        case "larger needle":
            return f"{said.larger_needle()} {fastened}"
        case "through the back":
            return f"{said.through_the_back()} {fastened}"
        case "yarn overs":
            return f"{said.yarn_overs()} {fastened}"
        case "sewn":
            return said.sewn(tail=tail)
        case _:
            return fastened


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
    band, unit, said = plan.shape.neck.band, plan.project.sheet.units, words("edges")
    if band.finish == "garter":
        yield said.neckband_garter()
    elif band.finish == "rolled":
        yield said.neckband_rolled(
            takes=length(ROLL_TAKES_CM, unit),
            shows=length(ROLL_SHOWS_CM, unit),
            rounds=band.all_rounds,
            hidden=band.hidden,
        )
    elif band.finish == "folded":
        yield said.neckband_folded(
            hidden=band.hidden, picot=band.turning == "picot", rounds=band.rounds.got
        )


def sew_neckband(plan: Plan, *, head: str) -> str:
    """Say how the cast-on edge of a folded neckband is sewn down."""
    neck = plan.shape.neck
    wide_cm = neck.band_stitches / plan.gauges.plain.stitches_per_cm
    tail_cm = BIND_OFFS["sewn down"].widths * wide_cm + HAND_CM
    tail = _long(tail_cm, plan.project.sheet.units)
    return words("edges").sew_neckband(tail=tail, head=head)
