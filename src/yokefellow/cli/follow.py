"""`follow`: the sizes of a pattern at the knitter's gauge, and what becomes of its rounds."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.choices import SHOWN_AS
from yokefellow.cli.terminal import say

__all__ = ["follow"]

HELP = """\
Show what each size of a pattern you hold would become at your gauge, which of
them to follow, and how many rounds to add or leave out, and where. The file
holds the pattern's numbers in a table [pattern]. Nothing is written.

\b
Examples:
  $ yokefellow follow mine.toml
  $ yokefellow follow mine.toml --as json
"""


@click.command("follow", help=HELP, short_help="Show which size of a pattern to follow.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def follow(file: Path, form: str) -> None:
    """Parse, call, print."""
    from yokefellow.cli.followed import as_record, sizes_table, told
    from yokefellow.cli.records import document
    from yokefellow.conductor import plan, sizes_of
    from yokefellow.project.load import load

    project = load(file)
    followed = sizes_of(project)
    if form == "json":
        say(document(as_record(plan(project), followed)))
        return
    # The table first: it is of use even where the size it names cannot be planned.
    say(sizes_table(project, followed))
    say(told(plan(project)))
