"""The rows of an edge: a neckband, a hem or a cuff, in whatever finish."""

from __future__ import annotations

from yokefellow.rows.model import Feature, Op, Repeat, Row, Section, Step
from yokefellow.rows.steps import rib
from yokefellow.shaping import Edge

_OUTER = {"rib": "rib", "garter": "garter", "rolled": "plain", "folded": "facing"}
"""The fabric at the very edge of the knitting, where it is cast on or bound off."""


def outer_fabric(edge: Edge) -> str:
    """Name the fabric in which an edge is cast on or bound off."""
    return _OUTER[edge.finish]


def edge_rows(stitches: int, edge: Edge, *, from_top: bool) -> tuple[Row, ...]:
    """Work the rounds of an edge, without its cast-on and its bind-off.

    Args:
        stitches: on the needle.
        edge: its shape.
        from_top: whether the edge is cast on and the sweater grows out of it.
    """
    if edge.finish == "rib":
        row = Row(rib(stitches, edge.rib), Feature.EDGE, fabric="rib", why=f"{edge.rib} rib")
        return (row,) * edge.rounds.got
    if edge.finish == "garter":
        return _garter(stitches, edge.rounds.got)
    if edge.finish == "rolled":
        return (_plain(stitches, "plain", "the edge that rolls"),) * edge.all_rounds
    return _folded(stitches, edge, from_top=from_top)


def edge_section(
    key: str, edge: Edge, *, stitches: int, copies: tuple[str, ...] = ("",)
) -> Section:
    """Work an edge at the end of a piece and bind it off, or sew it down."""
    rows = edge_rows(stitches, edge, from_top=False)
    return Section(key, stitches, (*rows, ending(edge, stitches)), copies)


def ending(edge: Edge, stitches: int) -> Row:
    """Bind off an edge, or sew it down."""
    code = "sew" if edge.finish == "folded" else "BO"
    return Row(
        (Op(code, stitches),),
        Feature.BIND_OFF,
        fabric=outer_fabric(edge),
        why="the edge",
        bind_off=edge.bind_off,
    )


def _plain(stitches: int, fabric: str, why: str) -> Row:
    return Row((Op("k", stitches),), Feature.EDGE, fabric=fabric, why=why)


def _garter(stitches: int, rounds: int) -> tuple[Row, ...]:
    """Purl and knit in turn: every two rounds make a ridge."""
    purl = Row((Op("p", stitches),), Feature.EDGE, fabric="garter", why="garter stitch")
    knit = _plain(stitches, "garter", "garter stitch")
    return tuple(knit if number % 2 else purl for number in range(rounds))


def _folded(stitches: int, edge: Edge, *, from_top: bool) -> tuple[Row, ...]:
    outside = (_plain(stitches, "plain", "the outside of the fold"),) * edge.rounds.got
    inside = (_plain(stitches, "facing", "the facing"),) * edge.hidden
    turn = Row(_turning(stitches, edge.turning), Feature.EDGE, fabric="facing", why="the fold")
    return (*inside, turn, *outside) if from_top else (*outside, turn, *inside)


def _turning(stitches: int, turning: str) -> tuple[Step, ...]:
    if turning == "purl":
        return (Op("p", stitches),)
    return (Repeat((Op("k2tog"), Op("yo")), stitches // 2),)
