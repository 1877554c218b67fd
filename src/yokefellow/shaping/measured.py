"""The yoke that is measured: solved, or refused with what would help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from yokefellow.charts.chart import Chart
from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING, Fixed
from yokefellow.quantities import LengthUnit, at_most, length
from yokefellow.shaping.banded import Misfit, Narrow
from yokefellow.shaping.circular import solve
from yokefellow.shaping.counts import rounds_for
from yokefellow.shaping.edges import edge_multiple
from yokefellow.shaping.meeting import LEAST_HELD
from yokefellow.shaping.misfits import misfit_finding
from yokefellow.shaping.offers import offers
from yokefellow.shaping.piece_bands import straight_repeat
from yokefellow.shaping.pinned import meets, solve_pinned
from yokefellow.shaping.pins_refused import pins_refused
from yokefellow.shaping.placing import Crowded, place_bands
from yokefellow.shaping.reach import Unreached
from yokefellow.shaping.task import Solution, YokeTask, of_the_yoke
from yokefellow.shaping.zones import BandTask, Zones, band_task

__all__ = ["LEAST_YOKE_ROUNDS", "measured", "plain_zones", "refuse_wide_underarms", "yoke_task"]

LEAST_YOKE_ROUNDS = 8

FIRST_INCREASE = 2
"""The earliest round that may increase: the first closes the gaps of the short rows."""

Refusal: TypeAlias = Crowded | Misfit | Narrow | Unreached | None


def measured(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
) -> tuple[Zones, Solution]:
    """Solve the yoke, its bands with it.

    Raises:
        PlanError: no yoke leads from this neck to this body, or a band does not fit.
    """
    bands = tuple(
        band_task(chart, gauges, at=band.at, repeats=band.repeats)
        for chart, band in zip(charts, project.garment.yoke.bands, strict=True)
    )
    desk = _Desk(project, finished, gauges)
    found = desk.solved(bands)
    if isinstance(found, tuple):
        return found
    if desk.fixed is not NOTHING:
        raise PlanError([_too_shallow(desk, bands) or desk.refused(bands, found)])
    refuse_wide_underarms(project, finished, gauges)
    if not bands:
        raise PlanError([_no_yoke(finished, gauges.plain.stitches_per_cm, project.sheet.units)])
    helping = offers(found, bands, desk.works, depth_cm=finished.yoke.depth_cm, project=project)
    raise PlanError([misfit_finding(found, bands, helping, project)])


def plain_zones(finished: Finished, gauges: Gauges) -> Zones:
    """Give the rounds of a yoke without bands."""
    per_cm = gauges.plain.rounds_per_cm
    rounds = rounds_for(finished.yoke.depth_cm, per_cm=per_cm, least=LEAST_YOKE_ROUNDS)
    return Zones(rounds.got, (), per_cm, FIRST_INCREASE)


def _places(
    bands: Sequence[BandTask], depth_cm: float, gauges: Gauges
) -> tuple[Zones, ...] | Crowded:
    return place_bands(
        bands,
        depth_cm=depth_cm,
        rounds_per_cm=gauges.plain.rounds_per_cm,
        first_round=FIRST_INCREASE,
        least_rounds=LEAST_YOKE_ROUNDS,
    )


@dataclass(frozen=True, slots=True)
class _Desk:
    """Everything that stays while one way after another is tried."""

    project: Project
    finished: Finished
    gauges: Gauges

    @property
    def fixed(self) -> Fixed:
        """The pins that the yoke must meet."""
        return of_the_yoke(self.project.fixed)

    def solved(
        self, bands: Sequence[BandTask], depth_cm: float | None = None
    ) -> tuple[Zones, Solution] | Refusal:
        """Solve with these bands, and in another depth of the yoke where one is given."""
        places = _places(bands, depth_cm or self.finished.yoke.depth_cm, self.gauges)
        if isinstance(places, Crowded):
            return places
        free = yoke_task(self.project, self.finished, self.gauges, rounds=places[0].rounds)
        task = replace(free, places=places) if bands else free
        found = solve(task)
        if self.fixed is not NOTHING:
            pinned = replace(task, fixed=self.fixed)
            if not (isinstance(found, Solution) and meets(pinned, found)):
                found = solve_pinned(pinned)
        return (places[0], found) if isinstance(found, Solution) else found

    def refused(
        self,
        bands: Sequence[BandTask],
        found: Refusal,
        *,
        why: str = "",
        also: Sequence[str] = (),
    ) -> Finding:
        """Say that no yoke meets the pins; `also` are lines that were tried and help."""
        return pins_refused(found, bands, self.with_pins, self.project, why, also)

    def works(self, bands: Sequence[BandTask], depth_cm: float | None = None) -> Solution | None:
        """Give the solution with these bands, where there is one."""
        found = self.solved(bands, depth_cm)
        return found[1] if isinstance(found, tuple) else None

    def with_pins(self, fixed: Fixed, bands: Sequence[BandTask]) -> Solution | None:
        """Give the solution with these pins, where there is one."""
        project = self.project.model_copy(update={"fixed": fixed})
        return replace(self, project=project).works(bands)


def _too_shallow(desk: _Desk, bands: Sequence[BandTask]) -> Finding | None:
    """Tell of an increase round below the end of the yoke, and whether a deeper yoke would do."""
    at, per_cm = desk.fixed.increase_at, desk.gauges.plain.rounds_per_cm
    places = _places(bands, desk.finished.yoke.depth_cm, desk.gauges)
    if not at or isinstance(places, Crowded) or at[-1] <= places[0].rounds:
        return None
    last = at[-1]
    plain = last - sum(band.rounds for band in bands)
    depth_cm = plain / per_cm + sum(band.depth_cm for band in bands)
    helps = desk.works(bands, depth_cm) is not None
    return desk.refused(
        bands,
        None,
        why=f"Round {last} would increase, and this yoke has {places[0].rounds} rounds.",
        also=(f"yoke_rounds = {last} written beside them",) if helps else (),
    )


def yoke_task(project: Project, finished: Finished, gauges: Gauges, *, rounds: int) -> YokeTask:
    """Give the counts that a yoke is asked for, before any band is placed."""
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
        rounds=rounds,
        rounds_per_cm=gauges.plain.rounds_per_cm,
        stitches_per_cm=per_cm,
        style=garment.yoke.increases,
        first_round=FIRST_INCREASE,
        body_repeat=straight_repeat(project, gauges),
    )


def refuse_wide_underarms(project: Project, finished: Finished, gauges: Gauges) -> None:
    """End the plan when the underarms leave nothing of a sleeve or of the front.

    Raises:
        PlanError: that is so.
    """
    per_cm = gauges.plain.stitches_per_cm
    half_cm = min(finished.sleeve.upper_arm_cm, finished.yoke.chest_cm / 2)
    if (half_cm - finished.yoke.underarm_cm) * per_cm < LEAST_HELD:
        raise PlanError([_no_room(finished, per_cm, project.sheet.units)])


def _no_room(finished: Finished, per_cm: float, unit: LengthUnit) -> Finding:
    sleeve_cm, half_cm = finished.sleeve.upper_arm_cm, finished.yoke.chest_cm / 2
    widest_cm = min(sleeve_cm, half_cm) - LEAST_HELD / per_cm
    return Finding(
        code="yoke.underarm-wide",
        severity=Severity.ERROR,
        field="garment.yoke.underarm",
        message=(
            f"An underarm of {length(finished.yoke.underarm_cm, unit)} leaves fewer than "
            f"{LEAST_HELD} stitches of a sleeve of {length(sleeve_cm, unit)}, or of half a body of "
            f"{length(half_cm, unit)}."
        ),
        remedy=f"Choose an underarm of at most {at_most(widest_cm, unit)}.",
    )


def _no_yoke(finished: Finished, per_cm: float, unit: LengthUnit) -> Finding:
    yoke_cm = finished.yoke.chest_cm + 2 * finished.sleeve.upper_arm_cm
    yoke_cm -= 4 * finished.yoke.underarm_cm
    return Finding(
        code="yoke.no-way",
        severity=Severity.ERROR,
        field="garment.neck.opening",
        message=(
            f"No even increases lead from a neck of {length(finished.neck.opening_cm, unit)} "
            f"({finished.neck.opening_cm * per_cm:.0f} stitches) to a yoke of "
            f"{length(yoke_cm, unit)} ({yoke_cm * per_cm:.0f} stitches) in "
            f"{length(finished.yoke.depth_cm, unit)} of depth."
        ),
        remedy="Choose a smaller neck opening, a narrower underarm, more ease or a deeper yoke.",
    )
