"""`glance`: the sweater in short."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.terminal import say

__all__ = ["glance"]

HELP = """\
Show the sweater in short: its measurements, its rows, and whether the yarn
lasts. Nothing is written.

\b
Example:
  $ yokefellow glance mine.toml
"""


@click.command("glance", help=HELP, short_help="Show the sweater in short, here.")
@click.argument("file", type=click.Path(path_type=Path))
def glance(file: Path) -> None:
    """Parse, call, print."""
    from yokefellow.cli.readings import readings
    from yokefellow.conductor import plan
    from yokefellow.project.load import load
    from yokefellow.sheet.glance import render_glance
    from yokefellow.whatif import prospects

    planned = plan(load(file))
    say(render_glance(planned, prospects(planned, readings(file))))
