"""A raglan's front worked flat, cut into the yoke that was solved with a level neck; or refused."""

from __future__ import annotations

from yokefellow.findings import Finding, PlanError, Severity
from yokefellow.fit import Finished
from yokefellow.fit.finished import FrontFit
from yokefellow.project_file.models import Project
from yokefellow.quantities import at_least, at_most, length
from yokefellow.shaping.edges.edges import edge_multiple
from yokefellow.shaping.edges.front_neck import BESIDE_LINE, FrontNeck, TooShallow, front_neck
from yokefellow.shaping.edges.picked_up import EdgeLengths, PickedUp, picked_up
from yokefellow.shaping.model import AnyYoke, RaglanShape

__all__ = ["OpenFront", "open_front"]

LEAST_BELOW = 4
"""Rounds between the join and the split, at the least (our choice)."""

OpenFront = tuple[FrontNeck, PickedUp]
"""The front, and the band round its neck."""


def open_front(project: Project, finished: Finished, yoke: AnyYoke) -> OpenFront | None:
    """Shape the front that was asked for, and its band; None for a level neck.

    Raises:
        PlanError: the front is too narrow to be parted, the V too shallow to
            meet, or the drop too deep for the yoke.
    """
    wanted = finished.neck.front
    if wanted is None or not isinstance(yoke, RaglanShape):
        return None
    per_cm = yoke.rounds.per_cm
    if yoke.front.start < 2 * (yoke.body_share + _beside(yoke)):
        raise PlanError([_narrow(yoke)])
    by_size = isinstance(project.garment.neck.drop, str)
    drop_rows = wanted.drop_cm * per_cm
    # A drop by size is never too deep for a short yoke of few rounds.
    found = _shaped(wanted, yoke, min(drop_rows, _most_rows(yoke)) if by_size else drop_rows)
    if isinstance(found, TooShallow) and by_size and found.rows <= _most_rows(yoke):
        # A drop by size is only a wish: the V is cut as deep as its edges need.
        found = _shaped(wanted, yoke, found.rows)
    if isinstance(found, TooShallow):
        raise PlanError([_shallow(project, wanted, yoke, found)])
    _refuse_deep(project, wanted, yoke, found)
    edges = EdgeLengths(
        back=yoke.back.start,
        sleeve=yoke.sleeve.start,
        front=found.edge,
        rows=found.rows.got,
        across=len(found.increases),
        centre=found.centre,
        stitches_per_cm=yoke.stitches_per_cm,
        rows_per_cm=per_cm,
    )
    multiple = edge_multiple(project.garment.neck)
    return found, picked_up(edges, multiple=multiple, point=found.style == "V")


def _shaped(wanted: FrontFit, yoke: RaglanShape, drop_rows: float) -> FrontNeck | TooShallow:
    return front_neck(
        wanted.style,
        front=yoke.front.start,
        share=yoke.body_share,
        drop_rows=drop_rows,
        rows_per_cm=yoke.rounds.per_cm,
        beside=_beside(yoke),
    )


def _most_rows(yoke: RaglanShape) -> int:
    """Give the rows after which the fronts may be joined at the latest; even, as they must be."""
    return (yoke.rounds.got - LEAST_BELOW) // 2 * 2


def _beside(yoke: RaglanShape) -> int:
    """An increase by front and back uses a stitch, so that one more must stand at the edge."""
    return BESIDE_LINE + (yoke.line.increase == "front and back")


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(f"neck.{code}", Severity.ERROR, field, message, remedy)


def _narrow(yoke: RaglanShape) -> Finding:
    least = 2 * (yoke.body_share + _beside(yoke))
    return _error(
        "front-narrow",
        "garment.neck.opening",
        f"The front of the neck has {yoke.front.start} stitches; parted in two it needs at least "
        f"{least}, an edge and a line on either side.",
        'Write a wider neck opening, a narrower line_width, or front = "level".',
    )


def _shallow(project: Project, wanted: FrontFit, yoke: RaglanShape, least: TooShallow) -> Finding:
    unit = project.sheet.units
    deep_cm = least.rows / yoke.rounds.per_cm
    drop = f"a drop of at least {at_least(deep_cm, unit)}, "
    return _error(
        "v-shallow",
        "garment.neck.drop",
        f"The edges of a V gain a stitch every second row at most; {yoke.front.start} stitches of "
        f"front close in {least.rows} rows, {length(deep_cm, unit)}, and the drop is "
        f"{length(wanted.drop_cm, unit)}.",
        f"Write {drop if least.rows <= _most_rows(yoke) else ''}a narrower neck opening, "
        'or front = "scooped".',
    )


def _refuse_deep(project: Project, wanted: FrontFit, yoke: RaglanShape, found: FrontNeck) -> None:
    """End the plan when the fronts would be joined below the yoke.

    Raises:
        PlanError: that is so.
    """
    unit, most = project.sheet.units, _most_rows(yoke)
    # A V whose edges need more rows than that is too wide for any drop.
    fits = found.style != "V" or 2 * len(found.increases) <= most
    if found.rows.got > most:
        raise PlanError(
            [
                _error(
                    "drop-deep",
                    "garment.neck.drop",
                    f"A front cut {length(wanted.drop_cm, unit)} deep is joined too late: the "
                    f"underarm lies {length(yoke.rounds.cm, unit)} below the back of the neck.",
                    f"Write a drop of at most {at_most(most / yoke.rounds.per_cm, unit)}."
                    if fits
                    else 'Write a narrower neck opening, or front = "scooped".',
                )
            ]
        )
