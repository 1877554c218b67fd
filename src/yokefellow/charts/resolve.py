"""The charts of a project's bands: found by name, put into the band's yarns, read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from typing import NamedTuple

from yokefellow.charts.chart import Chart
from yokefellow.charts.library import chart_text, motifs
from yokefellow.charts.read import read_chart
from yokefellow.charts.text import ChartText, colours_of, with_other_yarns
from yokefellow.findings import Finding, Mend, Severity, as_typed
from yokefellow.project_file.models import Band, PieceBand, Project
from yokefellow.words import found


def resolve(project: Project) -> tuple[tuple[Chart, ...], tuple[Finding, ...]]:
    """Give the chart of each band of the yoke, in the order of the bands.

    A chart of the project goes before a motif of the same name.

    Returns:
        The charts, and what was found, on the body and the sleeves too. When a
        finding is an error, the charts that cannot be worked are missing, and
        no longer stand beside their bands.
    """
    bands = project.garment.yoke.bands
    charts, findings = _of_piece(project, bands, "garment.yoke.bands")
    pieces, below = resolve_pieces(project)
    findings = (*findings, *(finding for finding in below if finding not in findings))
    if not findings:
        findings = tuple(_unused_yarns(project, [*charts, *pieces.body, *pieces.sleeves]))
    return charts, findings


class PieceCharts(NamedTuple):
    """The charts of the bands below the underarm, in the order of the bands."""

    body: tuple[Chart, ...] = ()
    sleeves: tuple[Chart, ...] = ()


NO_CHARTS = PieceCharts()
"""Where nothing below the underarm has a band."""


def resolve_pieces(project: Project) -> tuple[PieceCharts, tuple[Finding, ...]]:
    """Give the charts of the bands on the body and the sleeves; as `resolve`."""
    garment = project.garment
    body, findings = _of_piece(project, garment.body.bands, "garment.body.bands")
    sleeves, also = _of_piece(project, garment.sleeves.bands, "garment.sleeves.bands")
    grown = (
        finding
        for piece, charts in (("body", body), ("sleeves", sleeves))
        for number, chart in enumerate(charts, start=1)
        for finding in _growing(chart, f"garment.{piece}.bands[{number}].chart")
    )
    new = (finding for finding in also if finding not in findings)
    return PieceCharts(body, sleeves), (*findings, *new, *grown)


def other_charts(project: Project, *, but: str) -> Iterator[tuple[str, Chart]]:
    """Give every other chart that the project's yarns can work and that does not grow."""
    for name in dict.fromkeys((*project.charts, *motifs())):
        text = _text(project, name)
        if name == but or text is None or any(c not in project.yarn for c in colours_of(text)):
            continue
        chart, _ = read_chart(text)
        if chart is not None and chart.last_width == chart.first_width:
            yield name, chart


def _growing(chart: Chart, field: str) -> Iterator[Finding]:
    if chart.last_width != chart.first_width:
        yield found(
            "band.grows-here",
            Severity.ERROR,
            field,
            chart=chart.name,
            first=chart.first_width,
            last=chart.last_width,
        )


def _of_piece(
    project: Project, bands: Sequence[Band | PieceBand], table: str
) -> tuple[tuple[Chart, ...], tuple[Finding, ...]]:
    charts: list[Chart] = []
    findings: list[Finding] = []
    for number, band in enumerate(bands, start=1):
        chart, of_chart = _chart(project, band, f"{table}[{number}]")
        findings += (finding for finding in of_chart if finding not in findings)
        if chart is not None:
            charts.append(chart)
    return tuple(charts), tuple(findings)


def _chart(
    project: Project, band: Band | PieceBand, field: str
) -> tuple[Chart | None, tuple[Finding, ...]]:
    is_own = band.chart in project.charts
    text = _text(project, band.chart)
    if text is None:
        return None, (_unknown(project, band.chart, field),)
    if is_own:
        # A fault of the drawing is told of the chart, once, and not of each band.
        chart, findings = read_chart(text)
        if findings or not band.colours:
            return chart, findings
    swap = band.colours or {}
    refused = tuple(_swap_findings(text, swap, field))
    if refused:
        return None, refused
    swapped = with_other_yarns(text, swap)
    missing = tuple(_missing_yarns(project, swapped, field))
    if missing:
        return None, missing
    chart, findings = read_chart(swapped)
    return chart, tuple(replace(finding, field=field) for finding in findings)


def _text(project: Project, name: str) -> ChartText | None:
    if name in project.charts:
        return chart_text(name, project.charts[name])
    return motifs().get(name)


def _unknown(project: Project, name: str, field: str) -> Finding:
    known = [*project.charts, *motifs()]
    near = get_close_matches(name, known, cutoff=0.5)
    meant = as_typed(near[0]) if near else ""
    return found(
        "band.unknown-chart",
        Severity.ERROR,
        f"{field}.chart",
        mends=(Mend(f"{field}.chart", meant),) if meant else (),
        chart=as_typed(name),
        known=tuple(known),
        meant=meant,
    )


def _swap_findings(text: ChartText, swap: Mapping[str, str], field: str) -> Iterator[Finding]:
    colours = colours_of(text)
    for yarn in swap:
        if yarn not in colours:
            yield found(
                "band.not-in-chart",
                Severity.ERROR,
                f"{field}.colours",
                chart=text.name,
                yarn=yarn,
                yarns=colours,
            )
    worn: dict[str, str] = {}
    for yarn in colours:
        other = swap.get(yarn, yarn)
        if other in worn:
            yield found(
                "band.one-yarn-for-two",
                Severity.ERROR,
                f"{field}.colours",
                chart=text.name,
                yarns=(worn[other], yarn),
                other=other,
            )
        worn[other] = yarn


def _missing_yarns(project: Project, text: ChartText, field: str) -> Iterator[Finding]:
    spare = [yarn for yarn in project.yarn if yarn not in colours_of(text)]
    for yarn in colours_of(text):
        if yarn not in project.yarn:
            yield found(
                "band.no-yarn",
                Severity.ERROR,
                field,
                chart=text.name,
                yarn=yarn,
                yarns=tuple(project.yarn),
                spare=spare[0] if spare else "",
            )


def _unused_yarns(project: Project, charts: Sequence[Chart]) -> Iterator[Finding]:
    used = {"MC", *(colour for chart in charts for colour in chart.colours)}
    for yarn in project.yarn:
        if yarn not in used:
            yield found("yarn.unused", Severity.NOTE, f"yarn.{yarn}", yarn=yarn)
