"""The three edges beside the body: how wide each lies at rest, and how far it stretches."""

from __future__ import annotations

from typing import NamedTuple

from yokefellow.body.measurements import Figures
from yokefellow.fit import HEAD_STRETCH, BodyFit, Finished
from yokefellow.fit.lengths import arm_cm
from yokefellow.fit.trunk import trunk_cm
from yokefellow.gauge import RIB_AT_REST, EdgeGauge, Gauges
from yokefellow.shaping import Shape
from yokefellow.shaping.edges.bindoffs import BIND_OFFS
from yokefellow.shaping.edges.edges import Edge

__all__ = ["WORN_STRETCH", "EdgeWidth", "EdgeWidths", "edge_widths"]

WORN_STRETCH = 1.35
"""A rib is worn without straining at up to so much of its width at rest (common practice, no
source)."""


class EdgeWidth(NamedTuple):
    """One edge, in cm."""

    edge: Edge
    gauge: EdgeGauge
    stitches: int
    body_cm: float
    """Round the body where the edge lies."""
    least_cm: float
    """The least at rest that suits."""
    passes_cm: float
    """What the edge is pulled over."""

    @property
    def rest_cm(self) -> float:
        """Its width at rest."""
        return self.gauge.rest_cm(self.stitches)

    @property
    def stretched_cm(self) -> float:
        """As far as its fabric stretches, or its bind-off where that stretches less."""
        return self.most_stretch * self.rest_cm

    @property
    def most_stretch(self) -> float:
        """How far it stretches beside its width at rest."""
        at_worn = self.gauge.rest_per_cm / self.gauge.counted_per_cm
        way = self.edge.bind_off
        # An edge that is cast on gives as far as a long-tail cast-on does.
        edge = BIND_OFFS[way].stretch if way in BIND_OFFS else HEAD_STRETCH
        return min(self.gauge.stretches, edge * at_worn)

    @property
    def grips(self) -> bool:
        """Tell whether a ribbed edge lies narrower at rest than suits, half a repeat aside."""
        slack_cm = self.edge.multiple / 2 / self.gauge.rest_per_cm
        return self.edge.finish == "rib" and self.rest_cm < self.least_cm - slack_cm


class EdgeWidths(NamedTuple):
    """The edges of a sweater."""

    neck: EdgeWidth
    hem: EdgeWidth
    cuff: EdgeWidth


def edge_widths(figures: Figures, finished: Finished, gauges: Gauges, shape: Shape) -> EdgeWidths:
    """Give the width of every edge.

    A neckband and a cuff at rest suit when they are no narrower than the body,
    or than a rib usually is where less ease than that was chosen; a hem is
    worn stretched, within `WORN_STRETCH`.
    """
    neck, sleeve = shape.neck, shape.sleeve
    return EdgeWidths(
        _width(
            neck.band,
            gauges,
            neck.band_stitches,
            body_cm=figures.cm("neck"),
            asked_cm=neck.edge.wanted_cm,
            passes_cm=finished.neck.passes_cm,
        ),
        _hem(figures, finished.body, gauges, shape),
        _width(
            sleeve.cuff,
            gauges,
            sleeve.edge.got,
            body_cm=arm_cm(figures, finished.sleeve.share),
            asked_cm=finished.sleeve.edge_cm,
            passes_cm=finished.sleeve.passes_cm,
        ),
    )


def _width(
    edge: Edge,
    gauges: Gauges,
    stitches: int,
    *,
    body_cm: float,
    asked_cm: float,
    passes_cm: float,
) -> EdgeWidth:
    gauge = gauges.edge(edge.finish)
    least_cm = min(body_cm, RIB_AT_REST * asked_cm)
    return EdgeWidth(edge, gauge, stitches, body_cm, least_cm, passes_cm)


def _hem(figures: Figures, fit: BodyFit, gauges: Gauges, shape: Shape) -> EdgeWidth:
    body = shape.body
    body_cm = trunk_cm(figures, fit, body.rounds.cm + body.hem_rounds.cm / 2)
    # A body that was chosen tight has a hem no wider.
    least_cm = min(body_cm, fit.edge_cm) / WORN_STRETCH
    gauge = gauges.edge(body.hem.finish)
    return EdgeWidth(body.hem, gauge, body.hem_stitches, body_cm, least_cm, fit.passes_cm)
