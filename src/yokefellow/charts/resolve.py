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
from yokefellow.findings import Finding, Severity, as_typed
from yokefellow.project_file.models import Band, PieceBand, Project


def resolve(project: Project) -> tuple[tuple[Chart, ...], tuple[Finding, ...]]:
    """Give the chart of each band of the yoke, in the order of the bands.

    A chart of the project goes before a motif of the same name.

    Returns:
        The charts, and what was found, on the body and the sleeves too. When a
        finding is an error, the charts that cannot be worked are missing, and
        no longer stand beside their bands.
    """
    bands = project.garment.yoke.bands
    charts, found = _of_piece(project, bands, "garment.yoke.bands")
    pieces, said = resolve_pieces(project)
    found = (*found, *(finding for finding in said if finding not in found))
    if not found:
        found = tuple(_unused_yarns(project, [*charts, *pieces.body, *pieces.sleeves]))
    return charts, found


class PieceCharts(NamedTuple):
    """The charts of the bands below the underarm, in the order of the bands."""

    body: tuple[Chart, ...] = ()
    sleeves: tuple[Chart, ...] = ()


NO_CHARTS = PieceCharts()
"""Where nothing below the underarm has a band."""


def resolve_pieces(project: Project) -> tuple[PieceCharts, tuple[Finding, ...]]:
    """Give the charts of the bands on the body and the sleeves; as `resolve`."""
    garment = project.garment
    body, said = _of_piece(project, garment.body.bands, "garment.body.bands")
    sleeves, also = _of_piece(project, garment.sleeves.bands, "garment.sleeves.bands")
    grown = (
        finding
        for piece, charts in (("body", body), ("sleeves", sleeves))
        for number, chart in enumerate(charts, start=1)
        for finding in _growing(chart, f"garment.{piece}.bands[{number}].chart")
    )
    return PieceCharts(body, sleeves), (*said, *(f for f in also if f not in said), *grown)


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
        yield _error(
            "grows-here",
            field,
            f"The chart {chart.name} grows from {chart.first_width} to {chart.last_width} "
            "stitches, and below the underarm nothing grows with it.",
            "Take a chart whose rows are all as wide, or put this one on the yoke.",
        )


def _of_piece(
    project: Project, bands: Sequence[Band | PieceBand], table: str
) -> tuple[tuple[Chart, ...], tuple[Finding, ...]]:
    charts: list[Chart] = []
    found: list[Finding] = []
    for number, band in enumerate(bands, start=1):
        chart, said = _chart(project, band, f"{table}[{number}]")
        found += (finding for finding in said if finding not in found)
        if chart is not None:
            charts.append(chart)
    return tuple(charts), tuple(found)


def _chart(
    project: Project, band: Band | PieceBand, field: str
) -> tuple[Chart | None, tuple[Finding, ...]]:
    is_own = band.chart in project.charts
    text = _text(project, band.chart)
    if text is None:
        return None, (_unknown(project, band.chart, field),)
    if is_own:
        # A fault of the drawing is told of the chart, once, and not of each band.
        chart, said = read_chart(text)
        if said or not band.colours:
            return chart, said
    swap = band.colours or {}
    refused = tuple(_swap_findings(text, swap, field))
    if refused:
        return None, refused
    swapped = with_other_yarns(text, swap)
    missing = tuple(_missing_yarns(project, swapped, field))
    if missing:
        return None, missing
    chart, said = read_chart(swapped)
    return chart, tuple(replace(finding, field=field) for finding in said)


def _text(project: Project, name: str) -> ChartText | None:
    if name in project.charts:
        return chart_text(name, project.charts[name])
    return motifs().get(name)


def _error(code: str, field: str, message: str, remedy: str) -> Finding:
    return Finding(f"band.{code}", Severity.ERROR, field, message, remedy)


def _unknown(project: Project, name: str, field: str) -> Finding:
    known = [*project.charts, *motifs()]
    near = get_close_matches(name, known, cutoff=0.5)
    return _error(
        "unknown-chart",
        f"{field}.chart",
        f"There is no chart {as_typed(name)} in this file, and no motif of that name.",
        f"Did you mean {as_typed(near[0])}?" if near else f"Known are {', '.join(known)}.",
    )


def _swap_findings(text: ChartText, swap: Mapping[str, str], field: str) -> Iterator[Finding]:
    colours = colours_of(text)
    for yarn in swap:
        if yarn not in colours:
            yield _error(
                "not-in-chart",
                f"{field}.colours",
                f"The chart {text.name} has no {yarn}; its yarns are {', '.join(colours)}.",
                "Name one of these, and the yarn to take for it.",
            )
    worn: dict[str, str] = {}
    for yarn in colours:
        other = swap.get(yarn, yarn)
        if other in worn:
            yield _error(
                "one-yarn-for-two",
                f"{field}.colours",
                f"{worn[other]} and {yarn} of the chart {text.name} would both be {other}, and "
                "its picture would vanish.",
                "Take a yarn of its own for each.",
            )
        worn[other] = yarn


def _missing_yarns(project: Project, text: ChartText, field: str) -> Iterator[Finding]:
    spare = [yarn for yarn in project.yarn if yarn not in colours_of(text)]
    for yarn in colours_of(text):
        if yarn not in project.yarn:
            swap = f', or type in the band: colours = {{ {yarn} = "{spare[0]}" }}' if spare else ""
            yield _error(
                "no-yarn",
                field,
                f"The chart {text.name} is worked in {yarn} here, and the yarns are "
                f"{', '.join(project.yarn)}.",
                f"Add a table [yarn.{yarn}] with its ball{swap}.",
            )


def _unused_yarns(project: Project, charts: Sequence[Chart]) -> Iterator[Finding]:
    used = {"MC", *(colour for chart in charts for colour in chart.colours)}
    for yarn in project.yarn:
        if yarn not in used:
            yield Finding(
                "yarn.unused",
                Severity.NOTE,
                f"yarn.{yarn}",
                f"{yarn} is in the stash, and no band uses it.",
                "Nothing needs to change.",
            )
