"""`glance`: the sweater in short."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.terminal import say

HELP = """\
Show the sweater in short: its measurements, its rows, and whether the yarn
lasts. Nothing is written.

\b
Example:
  $ yokefellow glance mine.toml
"""


@click.command("glance", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
def glance(file: Path) -> None:
    """Show a sweater on one screen."""
    from yokefellow.cli.row_places import readings
    from yokefellow.plan import plan
    from yokefellow.project_file.load import load
    from yokefellow.sheet.glance import render_glance
    from yokefellow.what_if import learn, prospects

    planned = plan(load(file))
    entries = readings(file)
    planned = learn(planned, entries).of(planned)
    say(render_glance(planned, prospects(planned, entries)))
