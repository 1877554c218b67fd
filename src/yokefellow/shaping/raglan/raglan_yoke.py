"""The raglan yoke of a project: solved by measure or by percentage, or refused with what helps."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, lcm

from yokefellow.charts.chart import Chart
from yokefellow.fit import Finished, RaglanFit
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING
from yokefellow.shaping.bands import Zones
from yokefellow.shaping.counts import Count, nearest
from yokefellow.shaping.model import (
    BandShape,
    ChosenYoke,
    RaglanLine,
    RaglanPiece,
    RaglanShape,
    Split,
)
from yokefellow.shaping.percentages import raglan_percentages
from yokefellow.shaping.raglan.bands import OverEnd, place_below, room_of
from yokefellow.shaping.raglan.explain import (
    Asked,
    bands_crowd,
    can_be_free,
    raglan_pins_refused,
    unreached,
)
from yokefellow.shaping.raglan.rates import Rate, rounds_of
from yokefellow.shaping.raglan.search import solve_raglan, with_pins
from yokefellow.shaping.raglan.shares import RaglanSolution, RaglanTask
from yokefellow.shaping.refusals import (
    BandGrows,
    BandOverEnd,
    PercentLineWide,
    PercentUneven,
    RefusedError,
)
from yokefellow.shaping.short_rows import raglan_short_rows
from yokefellow.shaping.split import between_lines
from yokefellow.shaping.yoke.round_yoke import tasks_of, wide_underarm, yoke_task
from yokefellow.shaping.yoke.rules import FIRST_INCREASE, LEAST_YOKE_ROUNDS, Rule
from yokefellow.shaping.yoke.state import State

__all__ = ["raglan_task", "raglan_yoke"]


def raglan_yoke(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
    state: State | None = None,
) -> ChosenYoke:
    """Choose every count of a raglan yoke.

    Args:
        project: the knitter's choices.
        finished: the dimensions wanted.
        gauges: of every fabric.
        charts: of its bands, in order.
        state: what is on the needle; None before the cast-on.

    Raises:
        RefusedError: no raglan leads from this neck to this body in this depth, or a band
            does not fit below its increases.
    """
    fit = _raglan_fit(finished)
    if project.garment.yoke.proportions == "measured":
        zones, found = _measured(project, finished, gauges, charts, state)
    else:
        zones, found = _by_percentage(project, finished, gauges, fit)
    plain, choices, yoke = gauges.plain, project.garment.yoke, found.split.yoke
    per_cm = plain.rounds_per_cm
    if zones.bands:
        # The gauge that bands and plain rounds have together.
        per_cm = zones.rounds / zones.depth_cm(zones.rounds)
    bands = tuple(
        BandShape(
            name=band.task.name,
            first=band.first,
            repeats=yoke // band.task.first_width,
            start=Count(
                yoke,
                yoke / plain.stitches_per_cm * band.task.stitches_per_cm,
                band.task.stitches_per_cm,
            ),
            counts=(yoke,) * band.task.rounds,
        )
        for band in zones.bands
    )
    shape = RaglanShape(
        rounds=Count(zones.rounds, finished.yoke.depth_cm * per_cm, per_cm),
        back=found.back,
        front=found.front,
        sleeve=found.sleeve,
        line=RaglanLine(choices.line_width, choices.line_increase),
        short_rows=raglan_short_rows(
            raise_cm=finished.neck.raise_cm,
            rows_per_cm=plain.rounds_per_cm,
            back=found.back.start,
            sleeve=found.sleeve.start,
            neck_stitches=found.neck.got,
        ),
        shoulder_round=_shoulder_round(zones, fit),
        shoulder_wanted=finished.yoke.shoulder_cm * plain.stitches_per_cm,
        stitches_per_cm=plain.stitches_per_cm,
        bands=bands,
    )
    return ChosenYoke(found.neck, shape, found.split, found.broken)


def _raglan_fit(finished: Finished) -> RaglanFit:
    if finished.yoke.raglan is None:
        raise ValueError("this garment is no raglan")
    return finished.yoke.raglan


def _shoulder_round(zones: Zones, fit: RaglanFit) -> int:
    return min(zones.rounds, zones.round_at(fit.shoulder_at_cm))


def raglan_task(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> tuple[RaglanTask, Zones]:
    """Give what a raglan is asked for, and where its bands lie.

    Raises:
        RefusedError: the underarms are too wide, or a band can have no place.
    """
    fit = _raglan_fit(finished)
    bands = tasks_of(project, gauges, charts)
    counts = yoke_task(project, finished, gauges)
    wide = wide_underarm(counts)
    if wide is not None:
        raise RefusedError(wide)
    for band in bands:
        if band.growing:
            raise RefusedError(BandGrows(band.name))
    zones = place_below(
        bands,
        depth_cm=counts.depth_cm,
        rounds_per_cm=counts.rounds_per_cm,
        least_rounds=LEAST_YOKE_ROUNDS,
    )
    if isinstance(zones, OverEnd):
        is_spread = all(band.at_cm is None for band in bands)
        over = zones.band
        raise RefusedError(
            BandOverEnd(over.name, over.rounds, counts.depth_cm, zones.rounds, is_spread)
        )
    task = RaglanTask(
        counts=counts,
        back_neck=fit.back_neck_cm * counts.stitches_per_cm,
        line_width=project.garment.yoke.line_width,
        rounds=zones.rounds,
        room=room_of(zones),
        shoulder_round=_shoulder_round(zones, fit),
        front_more=finished.yoke.front_more_cm * counts.stitches_per_cm,
        repeat=lcm(*(band.first_width for band in bands)),
        pinned=tuple(b.repeats * b.first_width for b in bands if b.repeats is not None),
        takes_stitches=project.garment.yoke.line_increase == "front and back",
    )
    return task, zones


def _measured(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
    state: State | None,
) -> tuple[Zones, RaglanSolution]:
    task, zones = raglan_task(project, finished, gauges, charts)
    found = solve_raglan(task, state)
    if found is not None:
        return zones, found
    bands = tuple(placed.task for placed in zones.bands)
    if task.counts.fixed is not NOTHING and can_be_free(task):
        raise RefusedError(raglan_pins_refused(task, bands))
    asked = Asked(with_pins(task, NOTHING), bands, zones, finished, project.sheet.units)
    raise RefusedError(bands_crowd(asked) if bands else unreached(asked))


def least_by_percentage(line_width: int) -> int:
    """Give the fewest stitches back or front may begin with when all is taken by percentage.

    Nothing is left of the sleeves there, so both lines beside a piece are its own; one stitch
    stands between its two increases.
    """
    return 2 * line_width + 1


def _by_percentage(
    project: Project, finished: Finished, gauges: Gauges, fit: RaglanFit
) -> tuple[Zones, RaglanSolution]:
    """Take every count, and the depth with them, from the body's stitches."""
    plain, width = gauges.plain, project.garment.yoke.line_width
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
    needed, each = least_by_percentage(width), counts.back_neck
    if each < needed:
        narrower = width - ceil((needed - each) / 2)
        raise RefusedError(PercentLineWide(width, each, needed, narrower))
    if min(back.start, front.start) < needed:
        start = max(0, each - abs(split.front - split.back) // 2)
        raise RefusedError(PercentUneven(split.front, split.back, start, needed))
    zones = Zones(2 * counts.times, (), plain.rounds_per_cm, FIRST_INCREASE)
    neck = Count(
        back.start + front.start + 2 * sleeve.start, finished.neck.opening_cm * per_cm, per_cm
    )
    pieces, at = (back, front, sleeve, sleeve), _shoulder_round(zones, fit)
    there = sum(piece.stitches_at(at) for piece in pieces)
    is_covered = there >= min(finished.yoke.shoulder_cm * per_cm, split.yoke)
    broken = () if is_covered else (Rule.SHOULDER,)
    return zones, RaglanSolution(neck, split, back, front, sleeve, broken)
