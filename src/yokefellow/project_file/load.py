"""From a file on disk, or its text, to a project; every refusal is a finding."""

from __future__ import annotations

import difflib
import os
import stat
import tomllib
from collections.abc import Mapping
from dataclasses import replace
from itertools import islice
from pathlib import Path
from typing import Any, NoReturn

from pydantic import ValidationError

from yokefellow.findings import Finding, ProjectError, Severity, as_typed
from yokefellow.project_file.chart_fields import chart_file
from yokefellow.project_file.checks.body import no_chest
from yokefellow.project_file.checks.project import check_project
from yokefellow.project_file.field_errors import refusals
from yokefellow.project_file.models import MOST_CHARTS, Project
from yokefellow.project_file.toml_mistakes import toml_mistakes
from yokefellow.quantities import QuantityError, length_unit
from yokefellow.words import found

LARGEST_BYTES = 200_000
"""A long project file has 10,000 bytes; twenty times that is no project file."""

LONGEST_LINE = 1_000
"""In letters. Also keeps a line of dotted names from taking minutes to read."""


def read_text(path: Path, *, largest_bytes: int = LARGEST_BYTES) -> str:
    """Read a text file.

    Raises:
        ProjectError: it is missing, a folder, not to be read, too large, or not in UTF-8.
    """
    name = as_typed(path.name)
    try:
        if path.is_dir():
            refuse("file.folder", name=name)
        content = _content(path, name, largest_bytes + 1)
    except FileNotFoundError:
        refuse("file.missing", name=name, meant=_nearest(path))
    except (OSError, ValueError) as problem:
        refuse("file.unreadable", name=name, reason=getattr(problem, "strerror", None) or "")
    return _decoded(content, name=name, largest_bytes=largest_bytes)


def _content(path: Path, name: str, most_bytes: int) -> bytes:
    # A pipe is not waited for: nobody may ever write into it.
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
    with os.fdopen(descriptor, "rb") as file:
        if not stat.S_ISREG(os.fstat(descriptor).st_mode):
            refuse("file.no-plain-file", name=name)
        return file.read(most_bytes)


def _nearest(path: Path) -> str | None:
    """Give the project file of the same folder whose name is most like this one."""
    try:
        there = [file.name for file in islice(path.parent.glob("*.toml"), 1_000)]
    except (OSError, ValueError):
        return None
    plain = {name.casefold(): name for name in sorted(there)}
    wanted = path.name.casefold()
    alike = [f"{wanted}.toml"] if f"{wanted}.toml" in plain else []
    alike += difflib.get_close_matches(wanted[:100], plain, n=1)
    return as_typed(plain[alike[0]]) if alike else None


def _decoded(content: bytes, *, name: str, largest_bytes: int) -> str:
    if len(content) > largest_bytes:
        refuse("file.too-large", name=name, most_kb=largest_bytes // 1000)
    if content.startswith((b"{\\rtf", b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        refuse("file.rich-text", name=name)
    if len(content) / 3 < content.count(0) < len(content) * 0.8:
        refuse("file.not-utf-8", name=name, line=None)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = content.count(b"\n", 0, problem.start) + 1
        refuse("file.not-utf-8", name=name, line=line)


def check_size(text: str, name: str) -> None:
    """Refuse a text that is too long, or has a line that is.

    Raises:
        ProjectError: one of the two.
    """
    if len(text) > LARGEST_BYTES:
        refuse("file.too-large", name=name, most_kb=LARGEST_BYTES // 1000)
    for number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            refuse("file.long-line", name=name, line=number, letters=len(line), most=LONGEST_LINE)


def refuse(code: str, **values: Any) -> NoReturn:
    """Stop with one finding about the whole file.

    Raises:
        ProjectError: always.
    """
    raise ProjectError([found(code, Severity.ERROR, "", **values)]) from None


def tables_of(text: str) -> dict[str, Any]:
    """Read TOML.

    Raises:
        ProjectError: it is none; says what looks wrong, and where.
    """
    plain = text.removeprefix("\ufeff")
    try:
        return tomllib.loads(plain)
    except RecursionError:
        refuse("file.nested")
    except ValueError as problem:  # TOMLDecodeError, and a number with thousands of digits
        raise ProjectError(toml_mistakes(plain, problem)) from None


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
        many, most = len(charts), MOST_CHARTS
        raise ProjectError(
            [found("charts.too-many", Severity.ERROR, "charts", charts=many, most=most)]
        )
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


def _filled(chart: object, folder: Path | None) -> object:
    if not isinstance(chart, dict) or "file" not in chart:
        return chart
    path = _path(chart["file"], folder)
    inside = _read(path)
    if "file" in inside:
        refuse("chart-file.chained", name=as_typed(path.name))
    return {**inside, **chart}


def _path(given: object, folder: Path | None) -> Path:
    try:
        name: str = chart_file.read(given, "cm")
    except QuantityError as refused:
        values = {"problem": f"{refused}", "allowed": chart_file.allowed("cm")}
        refuse(refused.code, **values, example=chart_file.example("cm"))
    if folder is None:
        refuse("chart-file.no-folder", name=as_typed(name))
    path = folder / name
    try:
        is_inside = path.resolve().is_relative_to(folder.resolve())
        # A pipe or a device would be waited for, perhaps for ever.
        is_plain = path.is_file() or not path.exists() or path.is_dir()
    except (OSError, RuntimeError) as problem:  # a link that leads to itself
        reason = getattr(problem, "strerror", None) or ""
        refuse("chart-file.unreadable", name=as_typed(name), reason=reason)
    if not is_inside or not is_plain:
        refuse("chart-file.outside", name=as_typed(name))
    return path


def _read(path: Path) -> Mapping[str, Any]:
    name = as_typed(path.name)
    try:
        text = read_text(path, largest_bytes=LARGEST_CHART_BYTES)
        check_size(text, name)
        return tables_of(text)
    except ProjectError as error:
        raise ProjectError([_of_the_chart(finding, name) for finding in error.findings]) from None


def _of_the_chart(finding: Finding, name: str) -> Finding:
    """Say of the chart's file what was said of a file."""
    if not finding.code.startswith("file."):
        if name in finding.message:
            return finding
        return replace(finding, message=f"{name}: {finding.message}")
    code = f"chart-{finding.code}"
    values: dict[str, Any] = dict(finding.values)
    return found(code, finding.severity, finding.field, **{"name": name, **values})


def load(path: Path) -> Project:
    """Read a project file, and the files of their own that its charts may have beside it.

    Raises:
        ProjectError: it cannot be read, or says something impossible; holds all findings.
    """
    return parse(read_text(path), name=as_typed(path.name), folder=path.parent)


def parse(text: str, *, name: str = "project file", folder: Path | None = None) -> Project:
    """Read the text of a project file.

    Args:
        text: the whole file.
        name: stands for the file in the findings.
        folder: where the files of charts are looked for; without it none is read.

    Raises:
        ProjectError: it is not a sound project file; holds all findings.
    """
    check_size(text, name)
    tables = with_chart_files(tables_of(text), folder=folder)
    project = _validated(text, tables)
    errors = [one for one in check_project(project) if one.severity is Severity.ERROR]
    if errors:
        raise ProjectError(errors)
    return project


def _validated(text: str, tables: dict[str, Any]) -> Project:
    unit = length_unit(tables.get("unit")) or "cm"
    try:
        # The unit of a bare number must be known before any number is read.
        return Project.model_validate(tables, context={"unit": unit})
    except ValidationError as problem:
        findings = refusals(problem, text=text, unit=unit)
        body, wearer = (tables.get(name) for name in ("body", "wearer"))
        of_the_body = any(one.field.startswith(("body", "wearer")) for one in findings)
        has_chest = isinstance(body, dict) and "chest" in body
        has_size = isinstance(wearer, dict) and bool(wearer.get("size"))
        if not (of_the_body or has_chest or has_size):
            findings = (*findings, no_chest(unit))
        raise ProjectError(findings) from None
