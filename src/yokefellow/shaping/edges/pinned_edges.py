"""Pins of the edges that no rib divides, or to which no single round leads."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.project_file.models import Project
from yokefellow.project_file.pins import NOTHING
from yokefellow.shaping.edges.edges import Edge
from yokefellow.shaping.model import Shape

__all__ = ["refuse_edges"]


def refuse_edges(project: Project, shape: Shape) -> None:
    """End the stage when an edge that is pinned cannot be knitted, with all that is wrong.

    Raises:
        PlanError: at least one cannot.
    """
    if project.fixed == NOTHING:
        return
    found = tuple(_found(project, shape))
    if found:
        raise PlanError(found)


def _found(project: Project, shape: Shape) -> Iterator[Finding]:
    fixed, sleeve = project.fixed, shape.sleeve
    top = sleeve.around(shape.split.sleeve.got, sleeve.rounds.got)
    for name, count, edge, beside, where in (
        ("cast_on", fixed.cast_on, shape.neck.band, shape.neck.stitches.got, "the yoke begins"),
        ("hem", fixed.hem, shape.body.hem, shape.body.edge.got, "the body ends"),
        ("cuff", fixed.cuff, sleeve.cuff, top, "the sleeve ends"),
    ):
        if count is None:
            continue
        yield from _divides(name, count, edge)
        yield from _leap(name, count, beside, where)


def _divides(name: str, count: int, edge: Edge) -> Iterator[Finding]:
    repeat = edge.multiple
    over = count % repeat
    what, other = (
        (f"A {edge.rib} rib repeats", "rib")
        if edge.finish == "rib"
        else ("A picot goes", "turning")
    )
    if over:
        yield Finding(
            "fixed.rib",
            Severity.ERROR,
            f"fixed.{name}",
            f"{what} over {repeat} stitches, and {count} is no multiple of it.",
            f"Write {name} = {count - over} or {name} = {count - over + repeat}, or choose "
            f"another {other}.",
        )


def _leap(name: str, count: int, beside: int, where: str) -> Iterator[Finding]:
    """Refuse an edge of less than half of the stitches beside it, or more than twice as many."""
    # A little room, because front and back go to the hem each by itself.
    least, most = beside // 2 + 3, 2 * beside - 4
    if not least <= count <= most:
        yield Finding(
            "fixed.edge-leap",
            Severity.ERROR,
            f"fixed.{name}",
            f"One round has to go from one to the other, and {count} stitches are "
            f"{'too few' if count < least else 'too many'} where {where} with {beside}.",
            f"Write {name} between {least} and {most}.",
        )
