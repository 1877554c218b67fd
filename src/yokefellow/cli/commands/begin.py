"""`begin`: a fresh project file, to fill in."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from yokefellow.body.size_tables import tables
from yokefellow.cli.findings import tell_findings
from yokefellow.cli.options import UNIT, complete_tables, known_size, known_table
from yokefellow.cli.terminal import as_argument, called, say, tell, wrapped
from yokefellow.findings import ProjectError
from yokefellow.project_file.new_file import QUESTIONS, Answers, Question, check, default_of
from yokefellow.quantities import LengthUnit, length_unit

if TYPE_CHECKING:
    from yokefellow.project_file.new_file import Answers

HELP = """\
Write a fresh project file, with a remark on every line, to fill in with a
text editor. A file that is there already is never written over.

With --size the measurements of that size stand beside the fields as remarks:
your own are always better.

\b
Examples:
  $ yokefellow begin mine.toml
  $ yokefellow begin hers.toml --table women --size M --unit in
  $ yokefellow begin his.toml --table men --ask
  $ yokefellow begin ours.toml --pattern
"""


@click.command("begin", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--table",
    metavar="TABLE",
    callback=known_table,
    shell_complete=complete_tables,
    help="The sizing table that stands nearest.  [default: women]",
)
@click.option("--size", metavar="SIZE", help="A size of that table.")
@click.option("--unit", type=UNIT, help="The unit you measure in.  [default: cm]")
@click.option("--pattern", is_flag=True, help="With a table for the numbers of a pattern you hold.")
@click.option("--ask", is_flag=True, help="Ask for what is needed, here at the terminal.")
def begin(
    file: Path,
    table: str | None,
    size: str | None,
    unit: str | None,
    *,
    pattern: bool,
    ask: bool,
) -> None:
    """Parse, call, print."""
    from yokefellow.cli.commands.begin import asked
    from yokefellow.files import check_free, write_new
    from yokefellow.findings import visible
    from yokefellow.project_file.new_file import Answers, fresh

    check_free(file)
    if size is not None and table is None and not ask:
        table = "women"
    answers = Answers(unit=unit, table=table, size=size)
    if ask:
        answers = asked(answers)
    write_new(file, fresh(_beside_its_size(answers), has_pattern=pattern))
    say(f"Wrote {visible(str(file))}")
    say(f"Fill in what it asks for, then: {called()} check {as_argument(file)}")


def _beside_its_size(answers: Answers) -> Answers:
    """Add the measurements of the size, which the file shows as remarks."""
    from dataclasses import replace

    from yokefellow.body.size_tables import tables
    from yokefellow.project_file.models import Body

    if answers.size is None:
        return answers
    table = tables()[answers.table or "women"]
    size = known_size(table, answers.size)
    # Not every measure of a body stands in a sizing table.
    measured = [name for name in Body.model_fields if name in table.rows]
    measures = {name: table.middle_cm(name, size) for name in measured}
    return replace(answers, size=size, table_cm=measures)


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
