"""`check`: what a project file lacks, and what to be careful of."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.findings import counted, say_findings
from yokefellow.cli.terminal import say, wrapped

HELP = """\
Read a project file, plan its sweater, and show everything found: errors, which
stop the plan; cautions, which may spoil the sweater; notes. The exit status is
1 when there is an error.

\b
Example:
  $ yokefellow check mine.toml
"""


@click.command("check", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
def check(file: Path) -> None:
    """Show everything that loading, checking and planning a project finds."""
    from yokefellow.cli.row_places import readings
    from yokefellow.cli.yarn_tables import verdicts
    from yokefellow.plan import plan
    from yokefellow.project_file.load import load
    from yokefellow.sheet.other_lengths import rescue_views
    from yokefellow.what_if import learn, rescues
    from yokefellow.words import words
    from yokefellow.yarn import MAIN

    planned = plan(load(file))
    learnt = learn(planned, readings(file))
    planned = learnt.of(planned)
    findings = (*planned.findings, *learnt.findings)
    say_findings(findings)
    for verdict in verdicts(planned, planned.yarns):
        say(verdict)
    others = [code for code in planned.yarns if code != MAIN]
    helping = [one for code in others for one in rescues(planned, code, learnt.knowledge)]
    for rescue in rescue_views(planned, helping):
        say(wrapped(words("commands").would_help(what=rescue.words)))
    title = planned.project.title
    say(wrapped(words("commands").can_be_knitted(title=title, counted=counted(findings))))
