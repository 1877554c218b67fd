"""`schema`: the project file's JSON Schema, for editors."""

from __future__ import annotations

from pathlib import Path

import click

from yokefellow.cli.terminal import say

HELP = """\
Give the JSON Schema of the project file. An editor that reads it completes the
names of fields and marks mistakes while you type.

\b
Examples:
  $ yokefellow schema
  $ yokefellow schema --into yokefellow.schema.json
"""


@click.command("schema", help=HELP)
@click.option("--into", metavar="FILE", type=click.Path(path_type=Path), help="Write it there.")
def schema(into: Path | None) -> None:
    """Write the JSON Schema of the project file."""
    import json

    from yokefellow.files import replace
    from yokefellow.findings import visible
    from yokefellow.project_file.schema import schema as project_schema

    text = json.dumps(project_schema(), indent=2, ensure_ascii=True) + "\n"
    if into is None:
        say(text)
        return
    replace(into, text)
    say(f"Wrote {visible(str(into))}.")
