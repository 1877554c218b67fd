"""Rounds that are pinned, as the lengths they make: what hangs on a length then follows them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from yokefellow.body.measurements import Figures
from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import PieceCharts
from yokefellow.fit import Finished, cuff_cm, hem_cm
from yokefellow.gauge import Gauge, Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING
from yokefellow.shaping.bands import band_task
from yokefellow.shaping.counts import nearest
from yokefellow.shaping.pieces.piece_bands import Banding, banding, piece_length, piece_rounds

__all__ = ["with_pinned_lengths"]

_TRIES = 20
"""The depth of a cuff hangs on the length of its sleeve, so the length is found by steps."""


def with_pinned_lengths(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
    below: PieceCharts,
) -> Project:
    """Give the project with yoke, body and sleeves as long as their pinned rounds make them.

    A cuff must suit the arm where the sleeve really ends, and a yoke is judged
    by the depth it really has. A pin that is met by itself changes nothing.

    Args:
        project: with its pins.
        figures: of the wearer.
        finished: the garment as it would be without them.
        gauges: of every fabric.
        charts: of the bands of the yoke.
        below: of those on the body and the sleeves.
    """
    if project.fixed == NOTHING:
        return project
    garment = project.garment
    changed = {
        "yoke": garment.yoke.model_copy(update=_depth(project, finished, gauges, charts)),
        "body": garment.body.model_copy(
            update=_body(project, figures, finished, gauges, below.body)
        ),
        "sleeves": garment.sleeves.model_copy(
            update=_sleeve(project, figures, finished, gauges, below.sleeves)
        ),
    }
    made = garment.model_copy(update=changed)
    return project if made == garment else project.model_copy(update={"garment": made})


def _depth(
    project: Project, finished: Finished, gauges: Gauges, charts: Sequence[Chart]
) -> dict[str, float]:
    pin, per_cm = project.fixed.yoke_rounds, gauges.plain.rounds_per_cm
    if pin is None:
        return {}
    bands = [band_task(chart, gauges, at="spread", repeats=None) for chart in charts]
    in_bands, deep_cm = sum(b.rounds for b in bands), sum(b.depth_cm for b in bands)
    plain = nearest(max(0.0, finished.yoke.depth_cm - deep_cm) * per_cm, least=0)
    if plain + in_bands == pin:
        return {}
    return {"depth": max(0, pin - in_bands) / per_cm + deep_cm}


def _body(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
) -> dict[str, float]:
    fit = finished.body
    return _length(
        project.fixed.body_rounds,
        lambda cm: hem_cm(project, figures, cm),
        length_cm=fit.length_cm,
        edge_cm=fit.hem_cm,
        bands=banding(charts, project.garment.body.bands, gauges),
        plain=gauges.plain,
    )


def _sleeve(
    project: Project,
    figures: Figures,
    finished: Finished,
    gauges: Gauges,
    charts: Sequence[Chart],
) -> dict[str, float]:
    fit = finished.sleeve
    return _length(
        project.fixed.sleeve_rounds,
        lambda cm: cuff_cm(project, figures, cm),
        length_cm=fit.length_cm,
        edge_cm=fit.cuff_cm,
        bands=banding(charts, project.garment.sleeves.bands, gauges),
        plain=gauges.plain,
    )


def _length(
    pin: int | None,
    edge_at: Callable[[float], float],
    *,
    length_cm: float,
    edge_cm: float,
    bands: Sequence[Banding],
    plain: Gauge,
) -> dict[str, float]:
    """Give the length of a piece with so many rounds above its edge, which may hang on it."""
    if pin is None or piece_rounds(length_cm - edge_cm, bands, plain=plain, least=3).got == pin:
        return {}
    above_cm = piece_length(pin, bands, plain=plain)
    for _ in range(_TRIES):
        length_cm = above_cm + edge_at(length_cm)
    return {"length": length_cm}
