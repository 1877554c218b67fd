"""`sizes`: the sizing tables, and the size nearest to a body."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.options import UNIT, complete_tables, known_table
from yokefellow.cli.terminal import say
from yokefellow.findings import ProjectError, Severity

if TYPE_CHECKING:
    from yokefellow.quantities import LengthUnit

HELP = """\
Without TABLE, list the sizing tables. With TABLE, show its measurements and
where they come from. With --body, find the size nearest to the body in a
project file, and show where that body departs from it.

\b
Examples:
  $ yokefellow sizes
  $ yokefellow sizes women --unit in
  $ yokefellow sizes --body mine.toml
"""


@click.command("sizes", help=HELP)
@click.argument("table", required=False, callback=known_table, shell_complete=complete_tables)
@click.option(
    "--body",
    metavar="FILE",
    type=click.Path(path_type=Path),
    help="A project file: show the size nearest to its body.",
)
@click.option("--unit", type=UNIT, help="Show lengths in this unit.  [default: cm, or FILE's own]")
def sizes(table: str | None, body: Path | None, unit: str | None) -> None:
    """Show the sizing tables, one of them, or the size nearest to a body."""
    from yokefellow.body.size_tables import tables
    from yokefellow.cli.columns import one_table, table_list

    if table is not None and body is not None:
        raise click.UsageError("Give a TABLE or --body, not both: the file names its table.")
    if body is not None:
        say(_nearest(body, unit))
    elif table is not None:
        say(one_table(tables()[table], "in" if unit == "in" else "cm"))
    else:
        say(table_list(tables().values()))


def _nearest(file: Path, unit: str | None) -> str:
    """Set the body of a project file beside its nearest size.

    Raises:
        ProjectError: the file names a size that its table has not.
    """
    from yokefellow.body.fill_in import fill
    from yokefellow.body.nearest_size import nearest
    from yokefellow.body.size_tables import tables
    from yokefellow.cli.columns import nearest_size
    from yokefellow.project_file.load import load

    project = load(file)
    figures, found = fill(project)
    errors = [finding for finding in found if finding.severity is Severity.ERROR]
    if errors:
        raise ProjectError(errors)
    shown: LengthUnit = "in" if (unit or project.sheet.units) == "in" else "cm"
    return nearest_size(nearest(figures), tables()[figures.group], figures.cm("chest"), shown)
