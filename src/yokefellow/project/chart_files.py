"""Charts that stand in files of their own: found, read, and put where the project names them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.project.colourwork import MOST_CHARTS
from yokefellow.project.marks import chart_file
from yokefellow.project.texts import check_size, read_text
from yokefellow.project.toml import tables_of
from yokefellow.units import QuantityError, as_typed

__all__ = ["LARGEST_CHART_BYTES", "with_chart_files"]

LARGEST_CHART_BYTES = 60_000
"""Room for the largest chart that can be drawn, and its remarks."""


def with_chart_files(tables: dict[str, Any], *, folder: Path | None) -> dict[str, Any]:
    """Fill in each chart that names a file from that file; what stands in the project file wins.

    Args:
        tables: the project file as TOML has it, not yet validated.
        folder: where the project file stands; None when there is only its text.

    Raises:
        ProjectError: too many charts, or a file that cannot be read; holds all findings.
    """
    charts = tables.get("charts")
    if not isinstance(charts, dict):
        return tables
    if len(charts) > MOST_CHARTS:
        raise ProjectError([_too_many(len(charts))])
    filled: dict[str, Any] = {}
    refused: list[Finding] = []
    for name, chart in charts.items():
        try:
            filled[name] = _filled(chart, folder)
        except ProjectError as error:
            field = f"charts.{as_typed(name)[1:-1]}.file"
            refused += [replace(finding, field=field) for finding in error.findings]
    if refused:
        raise ProjectError(refused)
    return {**tables, "charts": filled}


def _too_many(charts: int) -> Finding:
    return Finding(
        "charts.too-many",
        Severity.ERROR,
        "charts",
        f"There are {charts} charts; allowed are {MOST_CHARTS}.",
        "Take out those that no band uses.",
    )


def _filled(chart: object, folder: Path | None) -> object:
    if not isinstance(chart, dict) or "file" not in chart:
        return chart
    path = _path(chart["file"], folder)
    inside = _read(path)
    if "file" in inside:
        raise _refusal(
            "chart-file.chained",
            f"{as_typed(path.name)} names another file.",
            "Write the rows of the chart into it, or name that other file here.",
        )
    return {**inside, **chart}


def _path(given: object, folder: Path | None) -> Path:
    try:
        name: str = chart_file.read(given, "cm")
    except QuantityError as refused:
        raise _refusal(
            refused.code,
            f"{refused}; allowed is {chart_file.allowed('cm')}.",
            f"Type, for example: file = {chart_file.example('cm')}.",
        ) from None
    if folder is None:
        raise _refusal(
            "chart-file.no-folder",
            f"The chart stands in {as_typed(name)}, and only the text of the project was given.",
            "Write the chart's fields in place of its file.",
        )
    path = folder / name
    try:
        is_inside = path.resolve().is_relative_to(folder.resolve())
        # A pipe or a device would be waited for, perhaps for ever.
        is_plain = path.is_file() or not path.exists() or path.is_dir()
    except (OSError, RuntimeError) as problem:  # a link that leads to itself
        reason = getattr(problem, "strerror", None) or "its links lead nowhere"
        raise _refusal(
            "chart-file.unreadable",
            f"{as_typed(name)} cannot be read: {reason}.",
            "Put the chart's file itself there.",
        ) from None
    if not is_inside or not is_plain:
        raise _refusal(
            "chart-file.outside",
            f"{as_typed(name)} leads out of the project file's folder, or is no plain file.",
            "Put the chart's file into the folder of the project file.",
        )
    return path


def _read(path: Path) -> Mapping[str, Any]:
    name = as_typed(path.name)
    try:
        text = read_text(path, largest_bytes=LARGEST_CHART_BYTES)
        check_size(text, name)
        return tables_of(text)
    except ProjectError as error:
        raise ProjectError([_of_the_chart(finding, name) for finding in error.findings]) from None


_REMEDIES = {
    "file.missing": "Check its name, and put it into the folder of the project file.",
    "file.folder": "Name the chart's file inside it.",
}


def _of_the_chart(finding: Finding, name: str) -> Finding:
    """Say of the chart's file what was said of a file."""
    code = f"chart-{finding.code}" if finding.code.startswith("file.") else finding.code
    said = finding.message if name in finding.message else f"{name}: {finding.message}"
    remedy = _REMEDIES.get(finding.code, finding.remedy)
    return replace(finding, code=code, message=said.replace(" here.", " there."), remedy=remedy)


def _refusal(code: str, message: str, remedy: str) -> ProjectError:
    return ProjectError([Finding(code, Severity.ERROR, "", message, remedy)])
