"""`begin`: a fresh project file, to fill in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.choices import UNIT, complete_tables, known_size, known_table
from yokefellow.cli.terminal import as_argument, called, say

if TYPE_CHECKING:
    from yokefellow.project.questions import Answers

__all__ = ["begin"]

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


@click.command("begin", help=HELP, short_help="Write a fresh project file to fill in.")
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
    from yokefellow.cli.asking import asked
    from yokefellow.files import check_free, write_new
    from yokefellow.findings import visible
    from yokefellow.project.fresh import fresh
    from yokefellow.project.questions import Answers

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

    from yokefellow.project.models import Body
    from yokefellow.sizing.tables import tables

    if answers.size is None:
        return answers
    table = tables()[answers.table or "women"]
    size = known_size(table, answers.size)
    # Not every measure of a body stands in a sizing table.
    measured = [name for name in Body.model_fields if name in table.rows]
    measures = {name: table.middle_cm(name, size) for name in measured}
    return replace(answers, size=size, table_cm=measures)
