"""The round yoke of a project: solved by measure or by percentage, or refused with what helps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from yokefellow.charts.chart import Chart
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING, Fixed
from yokefellow.quantities import LengthUnit
from yokefellow.shaping.bands import BandTask, band_task
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.edges.edges import edge_multiple
from yokefellow.shaping.model import ChosenYoke, YokeShape
from yokefellow.shaping.percentages import PLACES, percentages
from yokefellow.shaping.pieces.piece_bands import straight_repeat
from yokefellow.shaping.refusals import (
    BandsUnmet,
    Crowded,
    Impossible,
    NarrowFront,
    NoWay,
    Offer,
    OverLastRound,
    PinReason,
    PinsUnmet,
    Refusal,
    RefusedError,
    RoundYokeRules,
    Undivided,
    WideUnderarm,
    YokeRounds,
)
from yokefellow.shaping.short_rows import short_rows
from yokefellow.shaping.split import halved, narrow_front, portioned
from yokefellow.shaping.yoke.constraints import YokeTask, of_the_yoke
from yokefellow.shaping.yoke.offers import offered_bands, offered_pins
from yokefellow.shaping.yoke.rules import LEAST_HELD, SHOULDER_AT, Rule
from yokefellow.shaping.yoke.search import Solution, can_be_solved, places_of, solve, solve_pinned
from yokefellow.shaping.yoke.state import State

__all__ = ["round_yoke", "tasks_of", "wide_underarm", "yoke_task"]


def round_yoke(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
    state: State | None = None,
) -> ChosenYoke:
    """Choose every count of a round yoke.

    Args:
        project: the knitter's choices.
        finished: the dimensions wanted.
        gauges: of every fabric.
        charts: of its bands, in order.
        state: what is on the needle; None before the cast-on.

    Raises:
        RefusedError: no yoke leads from this neck to this body, or a band does not fit.
    """
    task = yoke_task(project, finished, gauges, tasks_of(project, gauges, charts))
    if project.garment.yoke.proportions == "measured":
        found = solve(task, state)
        if not isinstance(found, Solution):
            raise RefusedError(_refused(task, found, project.sheet.units))
    else:
        found = _by_percentage(task, project, finished)
    zones, per_cm = found.zones, gauges.plain.rounds_per_cm
    if zones.bands:
        # The gauge that bands and plain rounds have together.
        per_cm = zones.rounds / zones.depth_cm(zones.rounds)
    shape = YokeShape(
        rounds=Count(zones.rounds, finished.yoke.depth_cm * per_cm, per_cm),
        increase_rounds=found.increase_rounds,
        short_rows=short_rows(
            raise_cm=finished.neck.raise_cm,
            rows_per_cm=gauges.plain.rounds_per_cm,
            neck_stitches=found.neck.got,
        ),
        shoulder_round=int(SHOULDER_AT * zones.rounds),
        shoulder_wanted=task.shoulder,
        start=found.neck.got,
        bands=found.bands,
    )
    more = finished.yoke.front_more_cm * gauges.plain.stitches_per_cm
    split = portioned(found.split, front_more=more)
    shared = halved(split, project.fixed) or narrow_front(split, project.fixed)
    if isinstance(shared, NarrowFront):
        raise RefusedError(shared)
    return ChosenYoke(found.neck, shape, shared, found.broken)


def tasks_of(project: Project, gauges: Gauges, charts: Sequence[Chart]) -> tuple[BandTask, ...]:
    """Give the bands of the yoke as it must carry them."""
    return tuple(
        band_task(chart, gauges, at=band.at, repeats=band.repeats)
        for chart, band in zip(charts, project.garment.yoke.bands, strict=True)
    )


def yoke_task(
    project: Project, finished: Finished, gauges: Gauges, bands: tuple[BandTask, ...] = ()
) -> YokeTask:
    """Give what a yoke is asked for."""
    per_cm = gauges.plain.stitches_per_cm
    garment = project.garment
    return YokeTask(
        neck=finished.neck.opening_cm * per_cm,
        neck_multiple=edge_multiple(garment.neck),
        body=finished.yoke.chest_cm * per_cm,
        body_multiple=edge_multiple(garment.body),
        sleeve=finished.sleeve.upper_arm_cm * per_cm,
        underarm=finished.yoke.underarm_cm * per_cm,
        shoulder=finished.yoke.shoulder_cm * per_cm,
        depth_cm=finished.yoke.depth_cm,
        rounds_per_cm=gauges.plain.rounds_per_cm,
        stitches_per_cm=per_cm,
        style=garment.yoke.increases,
        bands=bands,
        fixed=of_the_yoke(project.fixed),
        body_repeat=straight_repeat(project, gauges),
    )


def _by_percentage(task: YokeTask, project: Project, finished: Finished) -> Solution:
    """Take every count from the body's, as pins, and give each round its share of the depth.

    The places are the book's, so only the shoulders are a rule here.
    """
    wanted = finished.body.chest_cm * task.stitches_per_cm
    counts = percentages(
        project.fixed.body or nearest(wanted, multiple=2, least=20),
        book=project.garment.yoke.proportions,
    )
    zones = places_of(task)
    if isinstance(zones, Crowded):
        raise TypeError("a yoke by percentage has no bands")
    first = 2 if finished.neck.raise_cm > 0 else 1
    # One after another even in a yoke so short that two places fall on one round.
    at = tuple(
        max(first + number, nearest(place * zones[0].rounds, least=1))
        for number, place in enumerate(PLACES)
    )
    pins = Fixed.model_construct(
        neck=counts.neck,
        increases=counts.counts[1:],
        increase_at=at,
        body=counts.body,
        sleeve=counts.sleeve,
        underarm=counts.underarm,
    )
    shoulder = min(task.shoulder, counts.counts[-1])
    asked = replace(task, body=wanted, shoulder=shoulder, first_round=1, fixed=pins)
    found = solve_pinned(asked)
    if not isinstance(found, Solution):
        raise TypeError("the counts by percentage do not lead to their own split")
    return replace(found, broken=tuple(rule for rule in found.broken if rule is Rule.SHOULDER))


def wide_underarm(task: YokeTask) -> WideUnderarm | None:
    """Tell that the underarms leave nothing of a sleeve or of the front; None where they do."""
    per_cm, narrower = task.stitches_per_cm, min(task.sleeve, task.body / 2)
    if narrower - task.underarm >= LEAST_HELD:
        return None
    return WideUnderarm(
        task.underarm / per_cm,
        task.sleeve / per_cm,
        task.body / 2 / per_cm,
        (narrower - LEAST_HELD) / per_cm,
    )


def _refused(task: YokeTask, reason: Impossible, unit: LengthUnit) -> Refusal:
    """Say from the constraint that emptied the search why there is no yoke, and what helps."""
    if task.fixed != NOTHING:
        return _pins_unmet(task, reason)
    wide = wide_underarm(task)
    if wide is not None:
        return wide
    if task.bands:
        offers = offered_bands(task, reason, unit)
        return BandsUnmet(reason, task.bands, offers)
    per_cm = task.stitches_per_cm
    return NoWay(task.neck / per_cm, task.neck, task.yoke / per_cm, task.yoke, task.depth_cm)


def _pins_unmet(task: YokeTask, impossible: Impossible) -> PinsUnmet:
    fixed, bands = task.fixed, task.bands
    reason: PinReason = impossible if bands else RoundYokeRules()
    first: tuple[Offer, ...] = ()
    counts = (*((fixed.neck,) if fixed.neck else ()), *fixed.increases)
    odd = tuple(band for band in bands if all(count % band.first_width for count in counts))
    places = places_of(task)
    last = max(fixed.increase_at, default=0)
    if not isinstance(places, Crowded) and last > places[0].rounds:
        reason = OverLastRound(last, places[0].rounds)
        plain = last - sum(band.rounds for band in bands)
        deep_cm = plain / task.rounds_per_cm + sum(band.depth_cm for band in bands)
        if can_be_solved(replace(task, depth_cm=deep_cm)):
            first = (YokeRounds(last),)
    elif fixed.increases and odd:
        reason = Undivided(odd, counts)

    def meets(others: Fixed) -> bool:
        return can_be_solved(replace(task, fixed=of_the_yoke(others)))

    return PinsUnmet(fixed, bands, reason, (*first, *offered_pins(fixed, bands, meets)))
