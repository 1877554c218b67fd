"""What the choices of a neck say about each other, and about the yoke."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.models import Project
from yokefellow.quantities import CM_PER_INCH, show_length
from yokefellow.words import found

DEEPEST_V_BAND_CM = 6.0
"""A deeper band has no room for its corner at the point of a V (common practice)."""


def neck_choice_findings(project: Project) -> Iterator[Finding]:
    """Check a front worked flat against what it needs, and name what it does not heed."""
    neck, fixed = project.garment.neck, project.fixed
    if neck.front == "level":
        if not isinstance(neck.drop, str):
            yield found(
                "neck.no-drop",
                Severity.NOTE,
                "garment.neck.drop",
                mends=(Mend("garment.neck.drop", None),),
                drop=show_length(neck.drop, unit=project.unit),
            )
        return
    yield from _needs_a_raglan(project)
    if neck.cast_on == "provisional":
        mend = Mend("garment.neck.cast_on", '"plain"')
        yield found(
            "neck.front-provisional", Severity.ERROR, mend.field, mends=(mend,), front=neck.front
        )
    if neck.front == "V":
        yield from _v_band(project)
    if project.garment.yoke.bands:
        mend = Mend("garment.neck.front", '"level"')
        yield found("neck.front-bands", Severity.ERROR, mend.field, mends=(mend,), front=neck.front)
    if fixed.cast_on is not None:
        yield found(
            "neck.front-pinned",
            Severity.ERROR,
            "fixed.cast_on",
            mends=(Mend("fixed.cast_on", None),),
            front=neck.front,
            cast_on=fixed.cast_on,
        )
    if not isinstance(neck.back_raise, str):
        mend = Mend("garment.neck.back_raise", None)
        yield found(
            "neck.raise-in-depth", Severity.NOTE, mend.field, mends=(mend,), front=neck.front
        )


def _needs_a_raglan(project: Project) -> Iterator[Finding]:
    front, yoke = project.garment.neck.front, project.garment.yoke
    if yoke.style != "raglan":
        yield found(
            "neck.front-circular",
            Severity.ERROR,
            "garment.neck.front",
            mends=(Mend("garment.yoke.style", '"raglan"'),),
            front=front,
        )
    elif yoke.proportions != "measured":
        yield found(
            "neck.front-percentage",
            Severity.ERROR,
            "garment.neck.front",
            mends=(Mend("garment.yoke.proportions", '"measured"'),),
            front=front,
            proportions=yoke.proportions,
        )


def _v_band(project: Project) -> Iterator[Finding]:
    neck = project.garment.neck
    if neck.finish in ("folded", "high", "folded high"):
        mend = Mend("garment.neck.finish", '"rib"')
        yield found("neck.v-folded", Severity.ERROR, mend.field, mends=(mend,), finish=neck.finish)
    if not isinstance(neck.band, str) and neck.band > DEEPEST_V_BAND_CM:
        inches = f"{DEEPEST_V_BAND_CM / CM_PER_INCH // 0.25 * 0.25:g} in"
        deepest = inches if project.unit == "in" else f"{DEEPEST_V_BAND_CM:g} cm"
        yield found(
            "neck.v-band",
            Severity.ERROR,
            "garment.neck.band",
            mends=(Mend("garment.neck.band", f'"{deepest}"'),),
            band=show_length(neck.band, unit=project.unit),
            most=deepest,
        )
