"""From finished dimensions and gauge to the whole shape in integers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeAlias

from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import NO_CHARTS, PieceCharts
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.shaping.below import body_below, sleeve_below
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.edges import edge_shape, edge_stitches
from yokefellow.shaping.line import SHOULDER_AT
from yokefellow.shaping.measured import measured, plain_zones
from yokefellow.shaping.measured_raglan import raglan_yoke
from yokefellow.shaping.open_front import open_front
from yokefellow.shaping.percentages import PLACES, percentages
from yokefellow.shaping.picked_up import PickedUp
from yokefellow.shaping.pinned_edges import refuse_edges
from yokefellow.shaping.pinned_front import with_pinned_front
from yokefellow.shaping.portion import portioned
from yokefellow.shaping.shapes import NeckShape, Shape, Split
from yokefellow.shaping.short_rows import ShortRows, short_rows
from yokefellow.shaping.task import Solution
from yokefellow.shaping.yoke_shapes import AnyYoke, IncreaseRound, YokeShape
from yokefellow.shaping.zones import Zones

__all__ = ["Shaped", "shape"]


@dataclass(frozen=True, slots=True)
class Shaped:
    """The shape, and the rules of the yoke that could not be kept."""

    shape: Shape
    broken: tuple[str, ...]


def shape(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart] = (),
    below: PieceCharts = NO_CHARTS,
) -> Shaped:
    """Choose every count of the sweater.

    Args:
        project: the knitter's choices.
        finished: the dimensions wanted.
        gauges: of every fabric.
        charts: of the bands in `project.garment.yoke.bands`, in their order.
        below: of the bands on the body and the sleeves.

    Raises:
        PlanError: no yoke leads from this neck to this body, or a band does not fit.
    """
    start, yoke, split, broken = (
        _raglan(project, finished, gauges, charts)
        if project.garment.yoke.style == "raglan"
        else _circular(project, finished, gauges, charts)
    )
    front = open_front(project, finished, yoke)
    neck = _neck(project, finished, gauges, start, front[1] if front else None)
    made = _below(project, finished, gauges, neck, yoke, split, below)
    made = replace(made, front=front[0] if front else None)
    refuse_edges(project, made)
    return Shaped(made, broken)


def _neck(
    project: Project, finished: Finished, gauges: Gauges, start: Count, picked: PickedUp | None
) -> NeckShape:
    choices = project.garment.neck
    is_last = picked is not None or choices.cast_on == "provisional"
    usual = picked.total.got if picked else edge_stitches(choices, gauges, start.got)
    edge = picked.total.got if picked else start.got
    return NeckShape(
        start,
        project.fixed.cast_on or usual,
        edge_shape(
            choices,
            gauges,
            depth_cm=finished.neck.band_cm * (2 if finished.neck.folds else 1),
            stitches=edge if is_last else 0,
            passes_cm=finished.neck.passes_cm,
        ),
        is_last=is_last,
        picked=picked,
        folds=finished.neck.folds,
    )


_Chosen: TypeAlias = tuple[Count, AnyYoke, Split, tuple[str, ...]]
"""The neck, the yoke, the split, and the rules of the yoke that could not be kept."""


def _raglan(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> _Chosen:
    found = raglan_yoke(project, finished, gauges, charts)
    return found.neck, found.shape, found.split, found.broken


def _circular(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> _Chosen:
    zones, solution = (
        measured(project, finished, gauges, charts)
        if project.garment.yoke.proportions == "measured"
        else _by_percentage(project, finished, gauges)
    )
    yoke = YokeShape(
        rounds=_rounds(finished, zones),
        increase_rounds=solution.increase_rounds,
        short_rows=_short_rows(finished, gauges, solution.neck.got),
        shoulder_round=int(SHOULDER_AT * zones.rounds),
        shoulder_wanted=finished.yoke.shoulder_cm * gauges.plain.stitches_per_cm,
        start=solution.neck.got,
        bands=solution.bands,
    )
    more = finished.yoke.front_more_cm * gauges.plain.stitches_per_cm
    split = portioned(solution.split, front_more=more)
    split = with_pinned_front(split, project.fixed)
    return solution.neck, yoke, split, solution.broken


def _rounds(finished: Finished, zones: Zones) -> Count:
    """Give the rounds of the yoke, at the gauge its bands and plain rounds have together."""
    per_cm = zones.plain_rounds_per_cm
    if zones.bands:
        per_cm = zones.rounds / zones.depth_cm(zones.rounds)
    return Count(zones.rounds, finished.yoke.depth_cm * per_cm, per_cm)


def _below(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    neck: NeckShape,
    yoke: AnyYoke,
    split: Split,
    charts: PieceCharts,
) -> Shape:
    """Add body and sleeves."""
    chosen = finished.sleeve
    sleeve = sleeve_below(project, gauges, split, chosen, charts=charts.sleeves, is_pinned=True)
    body = body_below(project, gauges, split, finished.body, charts=charts.body, is_pinned=True)
    return Shape(neck, yoke, split, body, sleeve)


def _short_rows(finished: Finished, gauges: Gauges, neck: int) -> ShortRows:
    return short_rows(
        raise_cm=finished.neck.raise_cm,
        rows_per_cm=gauges.plain.rounds_per_cm,
        neck_stitches=neck,
    )


def _by_percentage(project: Project, finished: Finished, gauges: Gauges) -> tuple[Zones, Solution]:
    zones = plain_zones(finished, gauges)
    rounds = zones.rounds
    per_cm = gauges.plain.stitches_per_cm
    wanted = finished.body.chest_cm * per_cm
    counts = percentages(
        project.fixed.body or nearest(wanted, multiple=2, least=20),
        book=project.garment.yoke.proportions,
    )
    first = 2 if finished.neck.raise_cm > 0 else 1
    steps = tuple(
        # One after another even in a yoke so short that two places fall on one round.
        IncreaseRound(max(first + at, nearest(place * rounds, least=1)), before, after)
        for at, (place, (before, after)) in enumerate(
            zip(PLACES, pairwise(counts.counts), strict=True)
        )
    )
    split = Split(
        Count(counts.body, wanted, per_cm),
        Count(counts.sleeve, finished.sleeve.upper_arm_cm * per_cm, per_cm),
        Count(counts.underarm, finished.yoke.underarm_cm * per_cm, per_cm),
    )
    neck = Count(counts.neck, finished.neck.opening_cm * per_cm, per_cm)
    limit = int(SHOULDER_AT * rounds)
    there = [step.after for step in steps if step.number <= limit][-1]
    covered = there >= min(finished.yoke.shoulder_cm * per_cm, split.yoke)
    return zones, Solution(neck, split, steps, () if covered else ("shoulder",))
