"""The raglan yoke of a project: solved, by measure or by percentage, or refused."""

from __future__ import annotations

from collections.abc import Sequence
from math import lcm
from typing import NamedTuple

from yokefellow.charts.chart import Chart
from yokefellow.findings import PlanError
from yokefellow.fit import Finished, RaglanFit
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.measured import LEAST_YOKE_ROUNDS, refuse_wide_underarms, yoke_task
from yokefellow.shaping.percentages import raglan_percentages
from yokefellow.shaping.pinned_raglan import raglan_pins_refused, solve_pinned_raglan
from yokefellow.shaping.portion import between_lines
from yokefellow.shaping.raglan import RaglanSolution, RaglanTask
from yokefellow.shaping.raglan_by_percentage import least_by_percentage, narrow_by_percentage
from yokefellow.shaping.raglan_refusals import (
    Asked,
    band_grows,
    band_over_end,
    bands_crowd,
    unreached,
)
from yokefellow.shaping.raglan_zones import OverEnd, place_below, room_of
from yokefellow.shaping.rates import FIRST, Rate, rounds_of
from yokefellow.shaping.shapes import Split
from yokefellow.shaping.short_rows import ShortRows, raglan_short_rows
from yokefellow.shaping.task import of_the_yoke
from yokefellow.shaping.yoke_shapes import BandShape, RaglanLine, RaglanPiece, RaglanShape
from yokefellow.shaping.zones import BandTask, Zones, band_task

__all__ = ["RaglanYoke", "raglan_yoke"]


class RaglanYoke(NamedTuple):
    """A whole raglan yoke with the neck above it and the split below."""

    neck: Count
    shape: RaglanShape
    split: Split
    broken: tuple[str, ...]


def raglan_yoke(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> RaglanYoke:
    """Choose every count of a raglan yoke.

    Raises:
        PlanError: no raglan leads from this neck to this body in this depth, or a band
            does not fit below its increases.
    """
    by_share = project.garment.yoke.proportions != "measured"
    zones, solution = (
        _by_percentage(project, finished, gauges)
        if by_share
        else _measured(project, finished, gauges, charts)
    )
    return RaglanYoke(
        solution.neck,
        _shape(project, finished, gauges, zones, solution),
        solution.split,
        solution.broken,
    )


def _raglan_fit(finished: Finished) -> RaglanFit:
    if finished.yoke.raglan is None:
        raise ValueError("this garment is no raglan")
    return finished.yoke.raglan


def _measured(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> tuple[Zones, RaglanSolution]:
    refuse_wide_underarms(project, finished, gauges)
    bands = tuple(
        band_task(chart, gauges, at=band.at, repeats=band.repeats)
        for chart, band in zip(charts, project.garment.yoke.bands, strict=True)
    )
    unit = project.sheet.units
    for band in bands:
        if band.growing:
            raise PlanError([band_grows(band)])
    zones = place_below(
        bands,
        depth_cm=finished.yoke.depth_cm,
        rounds_per_cm=gauges.plain.rounds_per_cm,
        least_rounds=LEAST_YOKE_ROUNDS,
    )
    if isinstance(zones, OverEnd):
        raise PlanError([band_over_end(zones, bands, finished.yoke.depth_cm, unit)])
    free = _task(project, finished, gauges, zones)
    fixed = of_the_yoke(project.fixed)
    solution = solve_pinned_raglan(free, fixed)
    if solution is not None:
        return zones, solution
    if fixed is not NOTHING and solve_pinned_raglan(free, NOTHING) is not None:
        raise PlanError([raglan_pins_refused(free, fixed, bands, project)])
    asked = Asked(free, bands, zones, finished, unit)
    raise PlanError([bands_crowd(asked) if bands else unreached(asked)])


def _task(project: Project, finished: Finished, gauges: Gauges, zones: Zones) -> RaglanTask:
    fit, plain = _raglan_fit(finished), gauges.plain
    tasks = [placed.task for placed in zones.bands]
    return RaglanTask(
        counts=yoke_task(project, finished, gauges, rounds=zones.rounds),
        back_neck=fit.back_neck_cm * plain.stitches_per_cm,
        line_width=project.garment.yoke.line_width,
        room=room_of(zones),
        shoulder_round=min(zones.rounds, zones.round_at(fit.shoulder_at_cm)),
        front_more=finished.yoke.front_more_cm * plain.stitches_per_cm,
        repeat=lcm(*(task.first_width for task in tasks)),
        pinned=tuple(t.repeats * t.first_width for t in tasks if t.repeats is not None),
        takes_stitches=project.garment.yoke.line_increase == "front and back",
    )


def _by_percentage(
    project: Project, finished: Finished, gauges: Gauges
) -> tuple[Zones, RaglanSolution]:
    """Take every count, and the depth with them, from the body's stitches.

    Raises:
        PlanError: back or front has no room at the neck for its two lines.
    """
    plain = gauges.plain
    per_cm = plain.stitches_per_cm
    wanted = finished.body.chest_cm * per_cm
    counts = raglan_percentages(project.fixed.body or nearest(wanted, multiple=2, least=40))
    split = between_lines(
        Split(
            Count(counts.body, wanted, per_cm),
            Count(counts.sleeve, finished.sleeve.upper_arm_cm * per_cm, per_cm),
            Count(counts.underarm, finished.yoke.underarm_cm * per_cm, per_cm),
        ),
        front_more=finished.yoke.front_more_cm * per_cm,
    )
    spread = (Rate(2, counts.times),)
    back, front, sleeve = (
        RaglanPiece(end - 2 * counts.times, spread, rounds_of(spread))
        for end in (split.back, split.front, split.held)
    )
    needed = least_by_percentage(project.garment.yoke.line_width)
    if min(back.start, front.start) < needed:
        raise PlanError([narrow_by_percentage(project, counts.back_neck, split, needed)])
    zones = Zones(2 * counts.times, (), plain.rounds_per_cm, FIRST)
    start = back.start + front.start + 2 * sleeve.start
    neck = Count(start, finished.neck.opening_cm * per_cm, per_cm)
    at = min(zones.rounds, zones.round_at(_raglan_fit(finished).shoulder_at_cm))
    pieces = (back, front, sleeve, sleeve)
    there = sum(piece.stitches_at(at) for piece in pieces)
    covered = there >= min(finished.yoke.shoulder_cm * per_cm, split.yoke)
    broken = () if covered else ("shoulder",)
    return zones, RaglanSolution(neck, split, back, front, sleeve, broken)


def _shape(
    project: Project, finished: Finished, gauges: Gauges, zones: Zones, solution: RaglanSolution
) -> RaglanShape:
    fit, plain, choices = _raglan_fit(finished), gauges.plain, project.garment.yoke
    per_cm = plain.rounds_per_cm
    if zones.bands:
        per_cm = zones.rounds / zones.depth_cm(zones.rounds)
    return RaglanShape(
        rounds=Count(zones.rounds, finished.yoke.depth_cm * per_cm, per_cm),
        back=solution.back,
        front=solution.front,
        sleeve=solution.sleeve,
        line=RaglanLine(choices.line_width, choices.line_increase),
        short_rows=_short_rows(finished, gauges, solution),
        shoulder_round=min(zones.rounds, zones.round_at(fit.shoulder_at_cm)),
        shoulder_wanted=finished.yoke.shoulder_cm * plain.stitches_per_cm,
        stitches_per_cm=plain.stitches_per_cm,
        bands=tuple(_bands(zones, solution.split, plain.stitches_per_cm)),
    )


def _short_rows(finished: Finished, gauges: Gauges, solution: RaglanSolution) -> ShortRows:
    return raglan_short_rows(
        raise_cm=finished.neck.raise_cm,
        rows_per_cm=gauges.plain.rounds_per_cm,
        back=solution.back.start,
        sleeve=solution.sleeve.start,
        neck_stitches=solution.neck.got,
    )


def _bands(zones: Zones, split: Split, per_cm: float) -> Sequence[BandShape]:
    return [_band(placed.task, placed.first, split.yoke, per_cm) for placed in zones.bands]


def _band(task: BandTask, first: int, yoke: int, per_cm: float) -> BandShape:
    """Give a band its count: the whole yoke's, which has grown above it."""
    return BandShape(
        name=task.name,
        first=first,
        repeats=yoke // task.first_width,
        start=Count(yoke, yoke / per_cm * task.stitches_per_cm, task.stitches_per_cm),
        counts=(yoke,) * task.rounds,
    )
