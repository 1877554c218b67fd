"""The pieces below the underarm in integers, whatever length is asked of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple, TypeVar

from yokefellow.charts.chart import Chart
from yokefellow.charts.resolve import PieceCharts
from yokefellow.findings import PlanError
from yokefellow.fit import BodyFit, Finished, SleeveFit
from yokefellow.gauge import Gauges
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING
from yokefellow.shaping.model import BodyShape, SleeveShape, Split
from yokefellow.shaping.percentages import CUFF
from yokefellow.shaping.pieces.body import body_shape
from yokefellow.shaping.pieces.piece_banded import banded_body, banded_sleeve
from yokefellow.shaping.pieces.piece_bands import Banding
from yokefellow.shaping.pieces.piece_offers import Piece, or_refused
from yokefellow.shaping.pieces.sleeve import sleeve_shape

__all__ = ["Unmodified", "body_below", "sleeve_below", "unmodified"]


def sleeve_below(
    project: Project,
    gauges: Gauges,
    split: Split,
    fit: SleeveFit,
    *,
    charts: Sequence[Chart] = (),
    is_pinned: bool = False,
) -> SleeveShape:
    """Give a sleeve of this sweater, with the pins of its rounds and cuff where it is the one.

    Its bands stand in it where their charts are given.

    Raises:
        PlanError: a band finds no room, or no count for its repeat.
    """
    fixed = project.fixed if is_pinned else NOTHING
    if project.garment.yoke.proportions != "measured":
        # The percentage system's cuff is a fifth of the body, and never less.
        cuff_cm = CUFF * split.body.got / split.body.per_cm
        fit = replace(fit, edge_cm=max(fit.edge_cm, cuff_cm))
    stitches = split.sleeve.got

    def made(bands: Sequence[Banding]) -> SleeveShape:
        bare = sleeve_shape(
            stitches=stitches,
            fit=fit,
            gauges=gauges,
            choices=project.garment.sleeves,
            pinned_rounds=fixed.sleeve_rounds,
            pinned_edge=fixed.cuff,
            bands=bands,
        )
        return banded_sleeve(bare, bands, stitches=stitches, plain=gauges.plain)

    return or_refused(made, Piece("sleeves", project, gauges, charts))


def body_below(
    project: Project,
    gauges: Gauges,
    split: Split,
    fit: BodyFit,
    *,
    charts: Sequence[Chart] = (),
    is_pinned: bool = False,
) -> BodyShape:
    """Give a body of this sweater, with the pins of its rounds and hem where it is the one.

    Its bands stand in it where their charts are given.

    Raises:
        PlanError: a band finds no room, or no count for its repeat.
    """
    fixed = project.fixed if is_pinned else NOTHING
    stitches = split.body.got

    def made(bands: Sequence[Banding]) -> BodyShape:
        bare = body_shape(
            stitches=stitches,
            front=split.front_total,
            fit=fit,
            gauges=gauges,
            choices=project.garment.body,
            pinned_rounds=fixed.body_rounds,
            pinned_hem=fixed.hem,
            bands=bands,
        )
        return banded_body(bare, bands, stitches=stitches, plain=gauges.plain)

    return or_refused(made, Piece("body", project, gauges, charts))


class Unmodified(NamedTuple):
    """The pieces of this sweater in their usual lengths, for comparing."""

    body: BodyShape
    sleeve: SleeveShape


def unmodified(
    project: Project, finished: Finished, gauges: Gauges, split: Split, charts: PieceCharts
) -> Unmodified:
    """Give the body and a sleeve as they would be unmodified."""

    def body(here: Sequence[Chart]) -> BodyShape:
        return body_below(project, gauges, split, finished.plain_body, charts=here)

    def sleeve(here: Sequence[Chart]) -> SleeveShape:
        return sleeve_below(project, gauges, split, finished.plain_sleeve, charts=here)

    return Unmodified(_where_they_fit(body, charts.body), _where_they_fit(sleeve, charts.sleeves))


_Piece = TypeVar("_Piece")


def _where_they_fit(made: Callable[[Sequence[Chart]], _Piece], charts: Sequence[Chart]) -> _Piece:
    """Make a piece with its bands where they fit into that length, too."""
    try:
        return made(charts)
    except PlanError:
        return made(())
