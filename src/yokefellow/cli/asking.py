"""Questions at the terminal, one after another; Enter skips one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import click

from yokefellow.cli.choices import known_size
from yokefellow.cli.shown import tell_findings
from yokefellow.cli.terminal import say, tell, wrapped
from yokefellow.findings import ProjectError
from yokefellow.project.questions import QUESTIONS, Answers, Question, check, default_of
from yokefellow.sizing.tables import tables
from yokefellow.units import LengthUnit, length_unit

__all__ = ["asked"]


def asked(answers: Answers) -> Answers:
    """Ask whatever has no answer yet.

    Raises:
        click.Abort: Ctrl-C, or the end of the input.
    """
    say(wrapped("Enter alone takes what stands in brackets, or leaves the field for later."))
    for question in QUESTIONS:
        if getattr(answers, question.key) is None:
            answer: dict[str, Any] = {question.key: _answer(question, answers)}
            answers = replace(answers, **answer)
    return answers


def _answer(question: Question, answers: Answers) -> str | None:
    """Ask until the answer can be taken."""
    unit = length_unit(answers.unit) or "cm"
    default = default_of(question, unit=unit)
    # The hint stands below its question, set in: above it, it seemed to judge the last answer.
    say(f"\n{wrapped(question.text)}")
    if question.hint:
        say(wrapped(question.hint_in(unit), first="  ", rest="  "))
    while True:
        typed: str = click.prompt(
            f"  [{default}]" if default else " ",
            default=default or "",
            show_default=False,
            prompt_suffix=" > ",
        )
        if not typed.strip():
            return None
        try:
            return _taken(question, typed, answers, unit)
        except ProjectError as refused:
            tell_findings(refused.findings)
        except click.BadParameter as refused:
            tell(wrapped(refused.message))


def _taken(question: Question, typed: str, answers: Answers, unit: LengthUnit) -> str:
    """Give the answer as the file will have it.

    Raises:
        ProjectError: the field does not take it.
        click.BadParameter: the table has no such size.
    """
    if question.key == "size":
        return known_size(tables()[answers.table or "women"], typed)
    return check(question, typed, unit=unit)
