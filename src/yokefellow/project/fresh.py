"""A fresh project file: commented, ready to edit in any editor."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import cast

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from yokefellow.findings import Finding, ProjectError
from yokefellow.project.models import Body
from yokefellow.project.notes import field_note
from yokefellow.project.questions import QUESTIONS, Answers, check, default_of
from yokefellow.project.refusals import typed_at
from yokefellow.shelf import shelf
from yokefellow.units import LengthUnit, length_unit, show_tape

__all__ = ["fresh"]


@dataclass(frozen=True, slots=True)
class _Measure:
    """One line of the body: hers, the table's as a remark, or an example as a remark."""

    key: str
    note: str
    hers: str | None
    tables: str | None
    example: str


def fresh(answers: Answers, *, has_pattern: bool = False) -> str:
    """Write the text of a project file from the answers; any may be missing.

    Her own numbers stand as numbers. A number of the sizing table stands as a
    remark beside its field, so that nobody takes it for a measurement; the
    plan fills in the same number and says so. What is needed and missing
    stands as a remark that asks to be filled in.

    Args:
        answers: as typed.
        has_pattern: whether the table for the numbers of a pattern stands in the
            file to be filled in, and not as a remark.

    Raises:
        ProjectError: an answer that its field does not take.
    """
    unit = length_unit(answers.unit) or "cm"
    page = _environment().get_template("project.toml.j2")
    checked = _checked(answers, unit)
    return page.render(
        {
            "a": checked,
            "unit": unit,
            "has_pattern": has_pattern,
            "measures": tuple(_measures(checked, answers.table_cm, unit)),
            "over": "4 in" if unit == "in" else "10 cm",
            "some": "2 in" if unit == "in" else "5 cm",
        }
    )


def _environment() -> Environment:
    # Not HTML: nothing is escaped but by the filter, which quotes for TOML.
    environment = Environment(
        loader=FileSystemLoader(shelf("templates")),
        undefined=StrictUndefined,
        autoescape=False,  # noqa: S701
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["toml"] = _quoted
    return environment


def _quoted(text: str) -> str:
    """Quote text for TOML, whose escapes are those of JSON and one more."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _checked(answers: Answers, unit: LengthUnit) -> dict[str, str | None]:
    """Give each answer as it will stand in the file, or its default, or None."""
    written: dict[str, str | None] = {}
    refused: list[Finding] = []
    for question in QUESTIONS:
        answer = cast("str | None", getattr(answers, question.key))
        if answer is None or not answer.strip():
            answer = default_of(question, unit=unit)
        try:
            written[question.key] = None if answer is None else check(question, answer, unit=unit)
        except ProjectError as error:
            refused.extend(error.findings)
    if refused:
        raise ProjectError(refused)
    return written


def _measures(
    checked: Mapping[str, str | None], table_cm: Mapping[str, float], unit: LengthUnit
) -> Iterator[_Measure]:
    for key in Body.model_fields:
        typed = typed_at(("body", key))
        tables = table_cm.get(key)
        yield _Measure(
            key,
            field_note("Body", key),
            checked.get(key),
            None if tables is None else show_tape(tables, unit=unit),
            "" if typed is None else typed.example(unit),
        )
