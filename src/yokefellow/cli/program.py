"""The program itself: its verbs in the order in which one needs them."""

from __future__ import annotations

from importlib import import_module

import click
from click.shell_completion import CompletionItem

from yokefellow import __version__
from yokefellow.cli.exit_status import endings
from yokefellow.cli.terminal import wants_colour

VERBS = {
    "open": "Open a sweater as a page in the browser.",
    "begin": "Write a fresh project file to fill in.",
    "check": "Plan a project file and show what was found.",
    "glance": "Show the sweater in short, here.",
    "follow": "Show which size of a pattern to follow.",
    "suppose": "Try other lengths, necks and edges.",
    "longest": "Find the longest that the yarn allows.",
    "sheet": "Write the sheet, to print and to tick.",
    "weigh": "Weigh as you go, and see farther.",
    "knitted": "Write down which rows are finished.",
    "pace": "Say how many hours are left, and when it is done.",
    "log": "Show the knitting log; take an event back.",
    "motifs": "Show the motifs for color bands.",
    "sizes": "Show the sizing tables, or the nearest size.",
    "schema": "Give the project file's JSON Schema, for editors.",
    "completion": "Let your shell complete with Tab.",
}
"""In the order of the work, each with what it is for; `commands/NAME.py` holds the verb NAME."""


class Program(click.Group):
    """A group that imports a verb when it is called, and never shows a traceback."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Give the verbs in the order of the work, not of the alphabet."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Import a verb; None where there is none of that name."""
        if cmd_name not in VERBS:
            return None
        command = getattr(import_module(f"yokefellow.cli.commands.{cmd_name}"), cmd_name)
        assert isinstance(command, click.Command)  # noqa: S101 -- for the types only
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List the verbs without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(VERBS.items()))

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Complete a verb without importing any."""
        verbs = [
            CompletionItem(verb, help=what)
            for verb, what in VERBS.items()
            if verb.startswith(incomplete)
        ]
        return [*verbs, *click.Command.shell_complete(self, ctx, incomplete)]

    def invoke(self, ctx: click.Context) -> object:
        """Run a verb; whatever goes wrong ends in words and an exit status."""
        if not wants_colour(None):
            ctx.color = False
        with endings():
            return super().invoke(ctx)


HELP = """\
Turn a body, a swatch and a pile of yarn into a row-by-row schedule for a
top-down yoke sweater, to print and to tick.

\b
A worked example, from nothing to a sheet:
  $ yokefellow begin mine.toml --size M
      Open mine.toml in a text editor. Write down your measurements, what
      you counted on the swatch, the yarn and the needle.
  $ yokefellow check mine.toml
      Says what is missing, and what to be careful of. Edit, check again.
  $ yokefellow glance mine.toml
      Shows the sweater in short: its size, its rows, whether the yarn lasts.
  $ yokefellow suppose mine.toml
      Shows what other lengths would take, and whether the yarn lasts.
  $ yokefellow sheet mine.toml
      Writes mine.html, to tick on a phone, and mine.pdf, to print.

Every verb has its own help: yokefellow VERB --help
"""

program = Program(
    "yokefellow",
    help=HELP,
    subcommand_metavar="VERB ...",
    context_settings={"help_option_names": ["-h", "--help"]},
)
click.version_option(__version__, prog_name="yokefellow", message="%(prog)s %(version)s")(program)
