"""`begin`: a fresh project file, to fill in."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.body.size_tables import tables
from yokefellow.cli.findings import tell_findings
from yokefellow.cli.options import UNIT, complete_tables, known_size, known_table
from yokefellow.cli.terminal import as_argument, called, say, tell, wrapped
from yokefellow.files import check_free, write_new
from yokefellow.findings import ProjectError, visible
from yokefellow.project_file.models import Body
from yokefellow.project_file.new_file import check, fresh, hint, usual
from yokefellow.project_file.statements import FieldFacts, first_questions, second_color_questions
from yokefellow.quantities import LengthUnit, length_unit

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
    """Write a fresh project file, with what is answered in it."""
    check_free(file)
    if size is not None and table is None and not ask:
        table = "women"
    given = {"unit": unit, "wearer.table": table, "wearer.size": size}
    answers: dict[str, str | list[str]] = {field: one for field, one in given.items() if one}
    stopped = bool(ask) and not _asked(answers)
    cm = _of_its_size(answers)
    if stopped and len(answers) == sum(map(bool, given.values())):
        raise click.Abort
    write_new(file, fresh(answers, table_cm=cm, has_pattern=pattern))
    if stopped:
        say(f"\nStopped. What you answered is kept in {visible(str(file))}")
    else:
        say(f"Wrote {visible(str(file))}")
    say(f"Fill in what it asks for, then: {called()} check {as_argument(file)}")


def _of_its_size(answers: dict[str, str | list[str]]) -> dict[str, float]:
    """Give the measurements of the size, which the file shows as remarks."""
    size = answers.get("wearer.size")
    if not isinstance(size, str):
        return {}
    table = tables()[str(answers.get("wearer.table", "women"))]
    answers["wearer.size"] = size = known_size(table, size)
    # Not every measure of a body stands in a sizing table.
    measured = [name for name in Body.model_fields if name in table.rows]
    return {name: table.middle_cm(name, size) for name in measured}


BACK = "back"
"""Typed in place of an answer, asks the question before once more."""


def _asked(answers: dict[str, str | list[str]]) -> bool:
    """Ask whatever has no answer yet, and put the answers in; False when it was stopped."""
    say(wrapped("Enter alone takes what stands in brackets, or leaves the field for later."))
    say(wrapped(f'"{BACK}" asks the question before once more; Ctrl-C keeps what is answered.'))
    questions = [field for field in first_questions() if field.field not in answers]
    second = second_color_questions()
    questions += second
    at = 0
    try:
        while at < len(questions):
            answer = _answer(questions[at], answers)
            if answer == BACK:
                at = max(0, at - 1)
                answers.pop(questions[at].field, None)
                continue
            if answer:
                answers[questions[at].field] = answer
            elif questions[at] is second[0]:
                break
            at += 1
    except (click.Abort, KeyboardInterrupt, EOFError):
        return False
    return True


def _answer(field: FieldFacts, answers: dict[str, str | list[str]]) -> str | list[str] | None:
    """Ask until the answer can be taken; several readings until there is none more."""
    unit = length_unit(answers.get("unit")) or "cm"
    default = usual(field, unit=unit)
    # The hint stands below its question, set in: above it, it seemed to judge the last answer.
    say(f"\n{wrapped(field.stated.question)}")
    say(wrapped(_hint(field, answers, unit), first="  ", rest="  "))
    typed = _typed(field, answers, unit, default)
    if not field.is_list or typed in {None, BACK}:
        return typed
    readings = [str(typed)]
    say(wrapped("Another place on the swatch? Enter alone goes on.", first="  ", rest="  "))
    while (more := _typed(field, answers, unit, None)) not in {None, BACK}:
        readings.append(str(more))
    return BACK if more == BACK else readings


def _hint(field: FieldFacts, answers: dict[str, str | list[str]], unit: LengthUnit) -> str:
    if field.field != "wearer.size":
        return hint(field, unit=unit)
    table = tables()[str(answers.get("wearer.table", "women"))]
    return f"{field.help} The table has {', '.join(table.sizes)}."


def _typed(
    field: FieldFacts,
    answers: dict[str, str | list[str]],
    unit: LengthUnit,
    default: str | None,
) -> str | None:
    while True:
        typed: str = click.prompt(
            f"  [{default}]" if default else " ",
            default=default or "",
            show_default=False,
            prompt_suffix=" > ",
        )
        if not typed.strip():
            return None
        if typed.strip().lower() == BACK:
            return BACK
        try:
            if field.field == "wearer.size":
                return known_size(tables()[str(answers.get("wearer.table", "women"))], typed)
            return check(field, typed, unit=unit)
        except ProjectError as refused:
            tell_findings(refused.findings)
        except click.BadParameter as refused:
            tell(wrapped(refused.message))
