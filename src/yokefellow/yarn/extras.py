"""What goes beside the stitches: ends, the tail of the cast-on, the swatch; and what there is."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project, Yarn
from yokefellow.yarn.count_stitches import MAIN, Counted, loop_cm
from yokefellow.yarn.evidence import PUT_UP, Rates, scale_sd
from yokefellow.yarn.uncertainty import Source, Uncertain, certain

END_M = 0.3
"""Yarn lost at each join: two ends long enough to weave in (common practice, no source)."""

ENDS_BESIDES = 3
"""Places with ends that no ball's length makes: the beginning, and where pieces part."""

TAIL_WIDTHS, TAIL_M = 3.0, 0.15
"""The tail of a long-tail cast-on: three times the edge and a hand to hold (common practice;
rules of thumb lie between three and four times). The other strand is counted as stitches."""

EXTRAS_SPREAD = 0.3
"""Ends and tails are cut by eye (common practice, no source)."""

LABEL_SPREAD = 0.01
"""A ball not weighed may weigh this much more or less than its band says, relative, all balls
alike (common practice, no source)."""

SWATCH_CM = 15.0
"""Side of a square swatch that was not weighed."""

SHARED_SWATCH = 0.25
"""What the other colours take of one such swatch (common practice, no source)."""

KNITTED_BACK = 0.9
"""Of an unravelled swatch; the rest is ends and breaks (common practice, no source)."""


class Edges(NamedTuple):
    """What the edges take beside their stitches."""

    cast_on: int
    """Stitches of the neck edge, cast on with a long tail; 0 when over waste yarn,"""
    fabric: str
    """and the fabric in which it is cast on."""
    bound: float
    """Stitch widths that the bind-offs take beyond one loop for a stitch."""


class Extra(NamedTuple):
    """Something that takes yarn and is no stitch of the sweater."""

    what: str
    """`ends`, `tail` or `swatch`."""
    grams: Uncertain
    """Below zero when it gives yarn back."""


def swatch_metres(gauges: Gauges) -> float:
    """Give the yarn in a square swatch by Munden alone, in m."""
    return _swatch_stitches(gauges) * loop_cm(gauges.plain) / 100


def _swatch_stitches(gauges: Gauges) -> float:
    return gauges.plain.stitches_per_cm * gauges.plain.rounds_per_cm * SWATCH_CM**2


def extras(
    project: Project, gauges: Gauges, rates: Rates, code: str, *, knitted_g: float, edges: Edges
) -> tuple[Extra, ...]:
    """List what one yarn gives besides its stitches.

    Args:
        project: says what becomes of the swatch.
        gauges: of every fabric.
        rates: what a stitch costs.
        code: the yarn.
        knitted_g: what its stitches weigh; every ball of it ends in a join.
        edges: what is cast on and bound off.
    """
    yarn = project.yarn[code]
    joins = knitted_g / (yarn.ball_weight * yarn.strands) + ENDS_BESIDES
    found = [Extra("ends", _cut(yarn, code, END_M * joins))]
    if code == MAIN:
        edge_m = edges.cast_on / gauges.of(edges.fabric).stitches_per_cm / 100
        bound_m = edges.bound / gauges.plain.stitches_per_cm / 100
        found.append(Extra("tail", _cut(yarn, code, TAIL_WIDTHS * edge_m + TAIL_M + bound_m)))
    return (*found, Extra("swatch", _swatch(project, gauges, rates, code)))


def _cut(yarn: Yarn, code: str, metres: float) -> Uncertain:
    """Weigh lengths cut by eye."""
    grams = yarn.strands * metres * yarn.ball_weight / yarn.ball_length
    sources = {
        Source("extras", code): EXTRAS_SPREAD * grams,
        Source("put-up", code): -PUT_UP / 3**0.5 * grams,
    }
    return Uncertain(grams, sources)


def _swatch(project: Project, gauges: Gauges, rates: Rates, code: str) -> Uncertain:
    """Give what the swatch takes of the stash, or gives back.

    Balls that were counted are the balls as bought, and the swatch came out of
    them; balls that were weighed now are what the swatch has left.
    """
    weighed = bool(project.yarn[code].weights)
    used = _used(project, gauges, rates, code)
    if project.weighing.swatch == "keep":
        return certain(0.0) if weighed else used
    return used.times(-KNITTED_BACK) if weighed else used.times(1 - KNITTED_BACK)


def _used(project: Project, gauges: Gauges, rates: Rates, code: str) -> Uncertain:
    on_the_scale = (project.swatch.plain, project.swatch.rib)
    if code == MAIN and project.swatch.plain.weighed is not None:
        return certain(sum(s.weighed.weight for s in on_the_scale if s and s.weighed))
    share = 1.0 if code == MAIN else SHARED_SWATCH
    counts = {(code, "plain"): Counted(round(share * _swatch_stitches(gauges)))}
    return rates.grams(code, counts)


def have(project: Project, code: str) -> Uncertain:
    """Give what there is of a yarn, in g: as weighed, or as the bands have it."""
    yarn = project.yarn[code]
    if not yarn.weights:
        grams = yarn.balls * yarn.ball_weight
        return Uncertain(grams, {Source("label", code): LABEL_SPREAD * grams})
    # Several readings together are normal enough; a single one is flat.
    several = len(yarn.weights)
    kind = "scale" if several == 1 else "scales"
    sd = scale_sd(project) * several**0.5
    return Uncertain(sum(yarn.weights), {Source(kind, f"balls of {code}"): sd})
