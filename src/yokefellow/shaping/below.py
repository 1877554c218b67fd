"""The pieces below the underarm in integers, whatever length is asked of them."""

from __future__ import annotations

from dataclasses import replace

from yokefellow.fit import BodyFit, SleeveFit
from yokefellow.gauge import Gauges
from yokefellow.project.fixed import NOTHING
from yokefellow.project.models import Project
from yokefellow.shaping.body import body_shape
from yokefellow.shaping.percentages import CUFF
from yokefellow.shaping.shapes import BodyShape, SleeveShape, Split
from yokefellow.shaping.sleeve import sleeve_shape

__all__ = ["body_below", "sleeve_below"]


def sleeve_below(
    project: Project, gauges: Gauges, split: Split, fit: SleeveFit, *, is_pinned: bool = False
) -> SleeveShape:
    """Give a sleeve of this sweater, with the pins of its rounds and cuff where it is the one."""
    fixed = project.fixed if is_pinned else NOTHING
    if project.garment.yoke.proportions != "measured":
        # The percentage system's cuff is a fifth of the body, and never less.
        cuff_cm = CUFF * split.body.got / split.body.per_cm
        fit = replace(fit, edge_cm=max(fit.edge_cm, cuff_cm))
    return sleeve_shape(
        stitches=split.sleeve.got,
        fit=fit,
        gauges=gauges,
        choices=project.garment.sleeves,
        pinned_rounds=fixed.sleeve_rounds,
        pinned_edge=fixed.cuff,
    )


def body_below(
    project: Project, gauges: Gauges, split: Split, fit: BodyFit, *, is_pinned: bool = False
) -> BodyShape:
    """Give a body of this sweater, with the pins of its rounds and hem where it is the one."""
    fixed = project.fixed if is_pinned else NOTHING
    return body_shape(
        stitches=split.body.got,
        front=split.front_total,
        fit=fit,
        gauges=gauges,
        choices=project.garment.body,
        pinned_rounds=fixed.body_rounds,
        pinned_hem=fixed.hem,
    )
