"""What two fields of a project say about each other: impossible, unlikely, or worth knowing."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.checks.bands import band_findings
from yokefellow.project_file.checks.body import body_findings
from yokefellow.project_file.checks.neck import neck_choice_findings
from yokefellow.project_file.checks.pattern import pattern_findings
from yokefellow.project_file.checks.pins import fixed_findings
from yokefellow.project_file.checks.swatch import swatch_findings
from yokefellow.project_file.checks.yarn import yarn_findings
from yokefellow.project_file.checks.yoke import raglan_findings
from yokefellow.project_file.models import Project
from yokefellow.quantities import CM_PER_INCH, show_length
from yokefellow.words import found

USUAL_EASE_CM = (-4 * CM_PER_INCH, 12 * CM_PER_INCH)


def check_project(project: Project) -> tuple[Finding, ...]:
    """Check the fields of a project against each other.

    Returns:
        All findings, the errors first. Whether `wearer.size` stands in its
        table is checked where the tables are read; which yarns no band uses,
        where the charts are read.
    """
    findings = [finding for check in _CHECKS for finding in check(project)]
    order = list(Severity)
    return tuple(sorted(findings, key=lambda finding: order.index(finding.severity)))


def _ease(project: Project) -> Iterator[Finding]:
    ease = project.ease.chest
    low, high = USUAL_EASE_CM
    if isinstance(ease, float) and not low <= ease <= high:
        yield found(
            "ease.unusual",
            Severity.CAUTION,
            "ease.chest",
            ease=show_length(ease, unit=project.unit),
            least=show_length(low, unit=project.unit),
            most=show_length(high, unit=project.unit),
        )


def _needles(project: Project) -> Iterator[Finding]:
    main, rib = project.needles.main, project.needles.rib
    if rib is not None and rib > main:
        smaller = f"{max(main - 0.5, 1):g}"
        yield found(
            "needles.rib-over-main",
            Severity.CAUTION,
            "needles.rib",
            mends=(Mend("needles.rib", f'"{smaller} mm"'),),
            rib=f"{rib:g}",
            main=f"{main:g}",
            smaller=smaller,
        )


_CHECKS: tuple[Callable[[Project], Iterator[Finding]], ...] = (
    body_findings,
    _ease,
    swatch_findings,
    yarn_findings,
    band_findings,
    fixed_findings,
    pattern_findings,
    raglan_findings,
    neck_choice_findings,
    _needles,
)
