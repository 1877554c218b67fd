"""The edges at neck, hem and cuff: what their finish asks of the stitches and the rounds."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol

from yokefellow.gauge import EdgeGauge, Gauge, Gauges
from yokefellow.shaping.counts import Count, nearest, rounds_for
from yokefellow.shaping.edges.bindoffs import bind_off_for

__all__ = [
    "RIB_REPEAT",
    "ROLL_SHOWS_CM",
    "ROLL_TAKES_CM",
    "Edge",
    "edge_gauge",
    "edge_multiple",
    "edge_shape",
    "edge_stitches",
]

RIB_REPEAT = MappingProxyType({"1x1": 2, "2x2": 4, "twisted": 2})
"""Stitches in one repeat of each rib."""

PICOT = 2
"""Stitches of one picot: two worked together, and a yarn over in their place."""

ROLL_TAKES_CM = 3.0
"""Plain knitting that rolls up at a free edge,"""
ROLL_SHOWS_CM = 1.0
"""and the height of the roll it makes (both common practice, no source; a stiff or a much
washed yarn rolls less)."""

FACING_LESS = 1
"""Rounds by which a facing is shorter than what it lies behind, so that it never looks out
(common practice)."""


class Finishing(Protocol):
    """How an edge is to be finished, as the project file has it for each of the three."""

    @property
    def finish(self) -> str: ...

    @property
    def turning(self) -> str: ...

    @property
    def rib(self) -> str: ...


@dataclass(frozen=True, slots=True)
class Edge:
    """How an edge is worked."""

    finish: str
    """`rib`, `garter`, `rolled` or `folded`."""
    rib: str
    """The rib of a ribbed one."""
    rounds: Count
    """That make its depth, as it is worn."""
    hidden: int = 0
    """Further rounds: what a rolled edge rolls up, or the facing inside a folded one."""
    turning: str = ""
    """The round along which a folded edge turns, one more: `purl` or `picot`."""
    bind_off: str = "plain"
    """How it is bound off, by its name in `bindoffs`."""

    @property
    def all_rounds(self) -> int:
        """All its rounds, cast-on and bind-off not counted."""
        return self.rounds.got + self.hidden + (1 if self.turning else 0)

    @property
    def multiple(self) -> int:
        """The number by which its stitches divide."""
        return _multiple(self.finish, self.rib, self.turning)


def edge_gauge(choices: Finishing, gauges: Gauges) -> EdgeGauge:
    """Give how wide the stitches of an edge lie."""
    return gauges.edge(_worked_as(choices.finish))


MOST_MORE, MOST_FEWER = 1.5, 2 / 3
"""An edge has at most half as many stitches again as the fabric beside it, and a third fewer, so
that one round always leads from one to the other."""


def edge_stitches(
    choices: Finishing, gauges: Gauges, beside: int, *, gather: float = 0.0, least: int = 1
) -> int:
    """Give the stitches of an edge at the end of a plain fabric.

    Args:
        choices: its finish.
        gauges: of every fabric.
        beside: stitches of the plain fabric.
        gather: share of them that the edge leaves out.
        least: stitches of the smallest edge.
    """
    drawn_in = edge_gauge(choices, gauges).counted_per_cm / gauges.plain.stitches_per_cm
    wanted = beside * (1 - gather) * min(MOST_MORE, max(MOST_FEWER, drawn_in))
    return nearest(wanted, multiple=edge_multiple(choices), least=least)


def edge_multiple(choices: Finishing) -> int:
    """Give the number by which the stitches of an edge must divide."""
    return _multiple(_worked_as(choices.finish), choices.rib, choices.turning)


def _worked_as(finish: str) -> str:
    """A high neck is a rib, folded or not."""
    return "rib" if finish in ("high", "folded high") else finish


def _multiple(finish: str, rib: str, turning: str) -> int:
    if finish == "rib":
        return RIB_REPEAT[rib]
    return PICOT if (finish, turning) == ("folded", "picot") else 1


def edge_shape(
    choices: Finishing,
    gauges: Gauges,
    *,
    depth_cm: float,
    stitches: int = 0,
    passes_cm: float = 0.0,
) -> Edge:
    """Give the rounds of an edge, and its bind-off.

    Garter stitch has an odd number of rounds: it begins and ends with purls,
    so that a ridge lies at either side and the bind-off sits on the last one.

    Args:
        choices: its finish.
        gauges: of every fabric.
        depth_cm: as it is worn: of a rolled edge with its roll, of a folded one once folded.
        stitches: where it is bound off; 0 for an edge that is cast on.
        passes_cm: round what it must stretch over.
    """
    finish = _worked_as(choices.finish)
    gauge = _gauge(finish, gauges)
    rounds = rounds_for(depth_cm, per_cm=gauge.rounds_per_cm, odd=finish == "garter")
    way = ""
    if stitches:
        edge_cm = stitches / gauges.plain.stitches_per_cm
        way = bind_off_for(finish, edge_cm=edge_cm, passes_cm=passes_cm).key
    return Edge(
        finish=finish,
        rib=choices.rib,
        rounds=rounds,
        hidden=_hidden(finish, rounds.got, gauge),
        turning=choices.turning if finish == "folded" else "",
        bind_off=way,
    )


def _gauge(finish: str, gauges: Gauges) -> Gauge:
    return gauges.of({"rib": "rib", "garter": "garter"}.get(finish, "plain"))


def _hidden(finish: str, rounds: int, gauge: Gauge) -> int:
    if finish == "rolled":
        return nearest((ROLL_TAKES_CM - ROLL_SHOWS_CM) * gauge.rounds_per_cm)
    return max(1, rounds - FACING_LESS) if finish == "folded" else 0
