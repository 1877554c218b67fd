"""What the choices of a raglan say about each other."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.checks.pins import raglan_count_findings
from yokefellow.project_file.models import Project
from yokefellow.words import found


def raglan_findings(project: Project) -> Iterator[Finding]:
    """Check the line, and name the choices that the other kind of yoke asks for."""
    if project.garment.yoke.style == "raglan":
        yield from _line(project)
        yield from raglan_count_findings(project.fixed, "fixed")
        yield from _unheeded_increases(project)
    else:
        yield from _unheeded_line(project)


def _line(project: Project) -> Iterator[Finding]:
    yoke, field = project.garment.yoke, "garment.yoke."
    if yoke.line_width == 0 and yoke.line_increase != "front and back":
        yield found(
            "raglan.line-none",
            Severity.ERROR,
            field + "line_width",
            mends=(Mend(field + "line_width", "1"),),
            increase=yoke.line_increase,
        )
    if yoke.line_increase == "front and back" and yoke.proportions != "measured":
        yield found(
            "raglan.front-and-back",
            Severity.ERROR,
            field + "line_increase",
            mends=(Mend(field + "line_increase", '"lifted"'),),
            proportions=yoke.proportions,
        )


def _unheeded_increases(project: Project) -> Iterator[Finding]:
    given, field = project.garment.yoke.increases, "garment.yoke.increases"
    if given != "regular":
        mend = Mend(field, None)
        yield found("raglan.increases", Severity.NOTE, field, mends=(mend,), given=given)


def _unheeded_line(project: Project) -> Iterator[Finding]:
    yoke = project.garment.yoke
    if (yoke.line_width, yoke.line_increase) != (2, "lifted"):
        mend = Mend("garment.yoke.style", '"raglan"')
        yield found("yoke.no-lines", Severity.NOTE, mend.field, mends=(mend,))
