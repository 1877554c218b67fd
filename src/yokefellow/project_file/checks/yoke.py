"""What the choices of a raglan say about each other."""

from __future__ import annotations

from collections.abc import Iterator

from yokefellow.findings import Finding, Severity
from yokefellow.project_file.checks.pins import raglan_count_findings
from yokefellow.project_file.models import Project


def raglan_findings(project: Project) -> Iterator[Finding]:
    """Check the line, and name the choices that the other kind of yoke asks for."""
    if project.garment.yoke.style == "raglan":
        yield from _line(project)
        yield from raglan_count_findings(project.fixed, "fixed")
        yield from _unheeded_increases(project)
    else:
        yield from _unheeded_line(project)


def _line(project: Project) -> Iterator[Finding]:
    yoke = project.garment.yoke
    if yoke.line_width == 0 and yoke.line_increase != "front and back":
        yield Finding(
            "raglan.line-none",
            Severity.ERROR,
            "garment.yoke.line_width",
            f'With line_increase = "{yoke.line_increase}" and a line of 0 stitches both increases '
            "would be made at one place, and neither has a stitch to stand against.",
            'Write line_width = 1 or more, or line_increase = "front and back".',
        )
    if yoke.line_increase == "front and back" and yoke.proportions != "measured":
        yield Finding(
            "raglan.front-and-back",
            Severity.ERROR,
            "garment.yoke.line_increase",
            f'The proportions are "{yoke.proportions}", and by them a sleeve begins with no '
            "stitches at all; an increase by front and back needs a stitch to be worked in.",
            'Write line_increase = "lifted" or "yarn over", or proportions = "measured".',
        )


def _unheeded_increases(project: Project) -> Iterator[Finding]:
    yoke = project.garment.yoke
    if yoke.increases != "regular":
        yield Finding(
            "raglan.increases",
            Severity.NOTE,
            "garment.yoke.increases",
            f'increases = "{yoke.increases}" is a choice of the circular yoke; a raglan increases '
            "at its lines, as often as its pieces need.",
            "The line may stay, or be taken out.",
        )


def _unheeded_line(project: Project) -> Iterator[Finding]:
    yoke = project.garment.yoke
    if (yoke.line_width, yoke.line_increase) != (2, "lifted"):
        yield Finding(
            "yoke.no-lines",
            Severity.NOTE,
            "garment.yoke.style",
            "line_width and line_increase tell how the lines of a raglan are worked, and a "
            "circular yoke has none.",
            'For a raglan write style = "raglan".',
        )
