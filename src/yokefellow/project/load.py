"""From a file on disk, or its text, to a project; every refusal is a finding."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pydantic import ValidationError

from yokefellow.findings import ProjectError, Severity
from yokefellow.project.chart_files import with_chart_files
from yokefellow.project.lines import key_lines
from yokefellow.project.models import Project
from yokefellow.project.refusals import refusals
from yokefellow.project.sense import sense
from yokefellow.project.texts import LARGEST_BYTES, LONGEST_LINE, check_size, read_text
from yokefellow.project.toml import tables_of
from yokefellow.units import as_typed, length_unit

__all__ = ["LARGEST_BYTES", "LONGEST_LINE", "load", "parse"]


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
    errors = [found for found in sense(project) if found.severity is Severity.ERROR]
    if errors:
        raise ProjectError(errors)
    return project


def _validated(text: str, tables: dict[str, Any]) -> Project:
    unit = length_unit(tables.get("unit")) or "cm"
    try:
        # The unit of a bare number must be known before any number is read.
        return Project.model_validate(tables, context={"unit": unit})
    except ValidationError as problem:
        raise ProjectError(refusals(problem, lines=key_lines(text), unit=unit)) from None
