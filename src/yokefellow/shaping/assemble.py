"""From finished dimensions and gauge to the whole shape in integers."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import NO_CHARTS, PieceCharts
from yokefellow.fit import Finished
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.shaping.counts import Count
from yokefellow.shaping.edges.edges import edge_shape, edge_stitches
from yokefellow.shaping.edges.open_front import open_front
from yokefellow.shaping.edges.picked_up import PickedUp
from yokefellow.shaping.edges.pinned_edges import refuse_edges
from yokefellow.shaping.model import ChosenYoke, NeckShape, Shape
from yokefellow.shaping.pieces.below import body_below, sleeve_below
from yokefellow.shaping.raglan.raglan_yoke import raglan_yoke
from yokefellow.shaping.yoke.round_yoke import round_yoke
from yokefellow.shaping.yoke.rules import Rule
from yokefellow.shaping.yoke.state import State

__all__ = ["Shaped", "shape", "with_yoke", "yoke_of"]


@dataclass(frozen=True, slots=True)
class Shaped:
    """The shape, and the rules of the yoke that could not be kept."""

    shape: Shape
    broken: tuple[Rule, ...]


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
        RefusedError: no yoke leads from this neck to this body, or a band does not fit.
        PlanError: a piece below, an edge or an open front cannot be made.
    """
    chosen = yoke_of(project, finished, gauges, charts)
    front = open_front(project, finished, chosen.yoke)
    neck = _neck(project, finished, gauges, chosen.neck, front[1] if front else None)
    split, on_sleeve, on_body = chosen.split, below.sleeves, below.body
    sleeve = sleeve_below(project, gauges, split, finished.sleeve, charts=on_sleeve, is_pinned=True)
    body = body_below(project, gauges, split, finished.body, charts=on_body, is_pinned=True)
    made = Shape(neck, chosen.yoke, split, body, sleeve, front[0] if front else None)
    refuse_edges(project, made)
    return Shaped(made, chosen.broken)


YOKES: Mapping[str, Callable[..., ChosenYoke]] = MappingProxyType(
    {"circular": round_yoke, "raglan": raglan_yoke}
)
"""The yokes there are, by their style in the project file."""


def yoke_of(
    project: Project,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart] = (),
    state: State | None = None,
) -> ChosenYoke:
    """Choose every count from the neck to the split.

    Args:
        project: the knitter's choices.
        finished: the dimensions wanted.
        gauges: of every fabric.
        charts: of the bands of the yoke, in order.
        state: what is on the needle; None before the cast-on.

    Raises:
        RefusedError: no yoke leads from this neck to this body, or a band does not fit.
    """
    return YOKES[project.garment.yoke.style](project, finished, gauges, charts, state)


def with_yoke(
    shaped: Shaped, project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> Shaped:
    """Give a shape with the yoke this project would have, above the same pieces.

    Raises:
        RefusedError: it would have none.
    """
    chosen = yoke_of(project, finished, gauges, charts)
    neck = replace(shaped.shape.neck, stitches=chosen.neck)
    made = replace(shaped.shape, neck=neck, yoke=chosen.yoke, split=chosen.split)
    return Shaped(made, chosen.broken)


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
