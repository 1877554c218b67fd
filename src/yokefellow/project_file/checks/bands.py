"""Whether charts, bands and yarns of a project fit each other.

What only a reading of the chart can tell, and everything about the shipped
motifs, is told in `yokefellow.charts.resolve`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from yokefellow.findings import Finding, Mend, Severity
from yokefellow.project_file.models import Band, PieceBand, Project
from yokefellow.words import found


def band_findings(project: Project) -> Iterator[Finding]:
    """Check that every yarn of a chart or band is there, and that the bands can be placed."""
    yield from _yarns_of_charts(project)
    yield from _yarns_of_bands(project)
    yield from _placed_by_shares(project)
    yield from _unused(project)


def _yarns_of_charts(project: Project) -> Iterator[Finding]:
    for name, chart in project.charts.items():
        swaps = [set(b.colours or ()) for _, b in _all_bands(project) if b.chart == name]
        replaced = set.intersection(*swaps) if swaps else set()
        for yarn in dict.fromkeys(chart.colours.values()):
            if yarn not in replaced:
                yield from _missing_yarn(project, yarn, f"charts.{name}.colours")


def _yarns_of_bands(project: Project) -> Iterator[Finding]:
    for field, band in _all_bands(project):
        for yarn in dict.fromkeys((band.colours or {}).values()):
            yield from _missing_yarn(project, yarn, f"{field}.colours")


def _all_bands(project: Project) -> Iterator[tuple[str, Band | PieceBand]]:
    """Give every band of the sweater with its field."""
    garment = project.garment
    pieces: tuple[tuple[str, Sequence[Band | PieceBand]], ...] = (
        ("yoke", garment.yoke.bands),
        ("body", garment.body.bands),
        ("sleeves", garment.sleeves.bands),
    )
    for piece, bands in pieces:
        for number, band in enumerate(bands, start=1):
            yield f"garment.{piece}.bands[{number}]", band


def _missing_yarn(project: Project, yarn: str, field: str) -> Iterator[Finding]:
    if yarn in project.yarn or yarn == "MC":  # a missing main color is told once, elsewhere
        return
    yarns = tuple(project.yarn)
    yield found("yarn.not-given", Severity.ERROR, field, yarn=yarn, yarns=yarns)


def _placed_by_shares(project: Project) -> Iterator[Finding]:
    yoke = project.garment.yoke
    if yoke.bands and yoke.proportions != "measured":
        yield found(
            "yoke.bands-percentage",
            Severity.ERROR,
            "garment.yoke.bands",
            mends=(Mend("garment.yoke.proportions", '"measured"'),),
            proportions=yoke.proportions,
        )


def _unused(project: Project) -> Iterator[Finding]:
    used = {band.chart for _, band in _all_bands(project)}
    for name in project.charts:
        if name not in used:
            yield found("charts.unused", Severity.NOTE, f"charts.{name}", chart=name)
