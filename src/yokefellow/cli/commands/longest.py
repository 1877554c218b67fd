"""`longest`: the longest sleeves and body for which the yarn lasts."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.options import SHOWN_AS
from yokefellow.cli.terminal import say

if TYPE_CHECKING:
    from yokefellow.what_if import Forecast, Longest

HELP = """\
Find the longest sleeves, the longest body, or both together, for which the
yarn lasts as surely as you ask; say what limits it, what is held back, and
what to write into the file. What was weighed so far (yokefellow weigh) counts.

\b
Examples:
  $ yokefellow longest mine.toml
  $ yokefellow longest mine.toml --body --sure 95
  $ yokefellow longest mine.toml --both --prefer 0.8
"""


@click.command("longest", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--sleeves", "wish", flag_value="sleeves", help="The sleeves.  [default]")
@click.option("--body", "wish", flag_value="body", help="The body; the sleeves as in the file.")
@click.option("--both", "wish", flag_value="both", help="Both together.")
@click.option(
    "--prefer",
    metavar="SHARE",
    type=click.FloatRange(0, 1),
    help="With --both: 1 gives to the sleeves first, 0 to the body.  [default: 0.5]",
)
@click.option("--sure", metavar="PERCENT", help="How sure it must be.  [default: as in FILE]")
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def longest(
    file: Path, wish: str | None, prefer: float | None, sure: str | None, form: str
) -> None:
    """Show the longest sleeves and body for which the yarn lasts."""
    from yokefellow.cli.findings import tell_findings
    from yokefellow.cli.longest_output import longest_record, longest_words
    from yokefellow.cli.row_places import readings
    from yokefellow.cli.terminal import document
    from yokefellow.plan import plan
    from yokefellow.project_file.load import load
    from yokefellow.what_if import change, forecast

    if prefer is not None and wish != "both":
        raise click.UsageError("--prefer weighs sleeves against body: give it with --both.")
    project = load(file)
    if sure is not None:
        project = change(project, sure=sure)
    made = plan(project)
    ahead = forecast(made, readings(file), prefer_sleeves=0.5 if prefer is None else prefer)
    tell_findings(ahead.findings)
    found = _open(ahead, wish or "sleeves")
    say(document(longest_record(made, found)) if form == "json" else longest_words(made, found))


def _open(ahead: Forecast, wish: str) -> Longest:
    """Give what was asked for, if it can still be chosen.

    Raises:
        ProjectError: it is knitted, or its shaping is begun.
    """
    from yokefellow.findings import Finding, ProjectError, Severity

    if wish in ahead.longest:
        return ahead.longest[wish]
    still = " and ".join(f"--{what}" for what in ahead.open)
    raise ProjectError(
        [
            Finding(
                "longest.begun",
                Severity.ERROR,
                "",
                f"The length asked for ({wish}) is no longer open: by the weighings the knitting"
                " has come too far.",
                f"Ask for {still}." if still else "Knit on as the sheet has it.",
            )
        ]
    )
