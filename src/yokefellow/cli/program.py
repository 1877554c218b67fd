"""The program itself: its verbs in the order in which one needs them."""

from __future__ import annotations

import click

from yokefellow import __version__
from yokefellow.cli.commands.begin import begin
from yokefellow.cli.commands.check import check
from yokefellow.cli.commands.completion import completion
from yokefellow.cli.commands.follow import follow
from yokefellow.cli.commands.glance import glance
from yokefellow.cli.commands.longest import longest
from yokefellow.cli.commands.schema import schema
from yokefellow.cli.commands.sheet import sheet
from yokefellow.cli.commands.sizes import sizes
from yokefellow.cli.commands.suppose import suppose
from yokefellow.cli.commands.weigh import weigh
from yokefellow.cli.exit_status import endings
from yokefellow.cli.terminal import wants_colour


class Program(click.Group):
    """A group whose verbs stand in the order of the work, and which never shows a traceback."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """Give the verbs in the order of the work, not of the alphabet."""
        return list(self.commands)

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
    commands=[
        begin,
        check,
        glance,
        follow,
        suppose,
        longest,
        sheet,
        weigh,
        sizes,
        schema,
        completion,
    ],
)
click.version_option(__version__, prog_name="yokefellow", message="%(prog)s %(version)s")(program)
