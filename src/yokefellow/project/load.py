"""From a file on disk, or its text, to a project; every refusal is a finding."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any, NoReturn

from pydantic import ValidationError

from yokefellow.findings import Finding, ProjectError, Severity
from yokefellow.project.lines import key_lines
from yokefellow.project.models import Project
from yokefellow.project.refusals import refusals
from yokefellow.project.sense import sense
from yokefellow.project.slips import slips
from yokefellow.units import LengthUnit, as_typed

__all__ = ["LARGEST_BYTES", "LONGEST_LINE", "load", "parse"]

LARGEST_BYTES = 200_000
"""A long project file has 10,000 bytes; twenty times that is no project file."""

LONGEST_LINE = 1_000
"""In letters. Also keeps a line of dotted names from taking minutes to read."""


def load(path: Path) -> Project:
    """Read a project file.

    Raises:
        ProjectError: it cannot be read, or says something impossible; holds all findings.
    """
    name = as_typed(path.name)
    try:
        if path.is_dir():
            _refuse("file.folder", f"{name} is a folder.", "Name the project file inside it.")
        with path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        _refuse(
            "file.missing",
            f"There is no file {name} here.",
            "Check its name and the folder you are in, or write a fresh project file first.",
        )
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "its name is not one a file can have"
        _refuse(
            "file.unreadable",
            f"{name} cannot be read: {reason}.",
            "Check that the file is yours to read.",
        )
    return _parse_bytes(content, name=name)


def parse(text: str, *, name: str = "project file") -> Project:
    """Read the text of a project file; `name` stands for it in the findings.

    Raises:
        ProjectError: it is not a sound project file; holds all findings.
    """
    _check_size(text, name)
    project = _validated(text, _tables_of(text))
    errors = [found for found in sense(project) if found.severity is Severity.ERROR]
    if errors:
        raise ProjectError(errors)
    return project


def _parse_bytes(content: bytes, *, name: str) -> Project:
    if len(content) > LARGEST_BYTES:
        _refuse_size(name)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        line = content.count(b"\n", 0, problem.start) + 1
        _refuse(
            "file.not-utf-8",
            f"{name} is not a text in UTF-8: line {line} cannot be read.",
            "Save it again as plain text with the encoding UTF-8.",
        )
    return parse(text, name=name)


def _check_size(text: str, name: str) -> None:
    if len(text) > LARGEST_BYTES:
        _refuse_size(name)
    for line_number, line in enumerate(text.split("\n"), start=1):
        if len(line) > LONGEST_LINE:
            _refuse(
                "file.long-line",
                f"Line {line_number} of {name} has {len(line)} letters; "
                f"allowed are {LONGEST_LINE}.",
                "Break the line, or check that this is the right file.",
            )


def _refuse_size(name: str) -> NoReturn:
    _refuse(
        "file.too-large",
        f"{name} is larger than {LARGEST_BYTES // 1000} kB, the largest project file allowed.",
        "Check that this is the right file.",
    )


def _refuse(code: str, message: str, remedy: str) -> NoReturn:
    raise ProjectError([Finding(code, Severity.ERROR, "", message, remedy)])


def _tables_of(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except RecursionError:
        _refuse(
            "file.nested",
            "Lists or tables stand inside each other more deeply than can be read.",
            "Check the square brackets and the braces.",
        )
    except ValueError as problem:  # TOMLDecodeError, and a number with thousands of digits
        raise ProjectError(slips(text.removeprefix("\ufeff"), problem)) from None


def _validated(text: str, tables: dict[str, Any]) -> Project:
    unit: LengthUnit = "in" if _unit_typed(tables) == "in" else "cm"
    try:
        # The unit of a bare number must be known before any number is read.
        return Project.model_validate(tables, context={"unit": unit})
    except ValidationError as problem:
        raise ProjectError(refusals(problem, lines=key_lines(text), unit=unit)) from None


def _unit_typed(tables: dict[str, Any]) -> str:
    typed = tables.get("unit")
    return typed.strip().lower() if isinstance(typed, str) else ""
