"""`weigh`: what the ball weighs now, and what that tells."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.choices import SHOWN_AS
from yokefellow.cli.terminal import say

if TYPE_CHECKING:
    from yokefellow.conductor import Plan
    from yokefellow.weighings import Entry

__all__ = ["weigh"]

HELP = """\
Write down what is left of a yarn when a row is finished, and tell what it
teaches: whether the yarn lasts, and the lengths still open. Weigh every ball
of that yarn together, without the work and the needle. The readings go into
mine.weighings.jsonl beside the file; the file itself stays as it is. A second
reading at the same row takes the place of the first; to take one back
altogether, delete its line there.

Without --left, show the readings so far and what is known by them.

\b
Examples:
  $ yokefellow weigh mine.toml
  $ yokefellow weigh mine.toml --left "166 g" --after "yoke"
  $ yokefellow weigh mine.toml --yarn MC --left "153 g" --after "body 9"
"""


MOST_OF_STASH = 1.1
"""Balls may weigh a little more than their labels say (common practice, no source)."""


@click.command("weigh", help=HELP, short_help="Weigh as you go, and see farther.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--yarn", metavar="CODE", help="Which yarn.  [default: MC]")
@click.option("--left", metavar="WEIGHT", help="What is left of it, in g or oz.")
@click.option("--after", metavar="ROW", help="The last finished row: 'yoke 58', 'left sleeve 20'.")
@click.option("--note", metavar="TEXT", default="", help="A few words to keep with it.")
@click.option("--at", metavar="TIME", help="When it was weighed, as ISO 8601.  [default: now]")
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def weigh(
    file: Path,
    yarn: str | None,
    left: str | None,
    after: str | None,
    note: str,
    at: str | None,
    form: str,
) -> None:
    """Parse, call, print."""
    from yokefellow.cli.forecasts import forecast_record, forecast_words
    from yokefellow.cli.readings import readings
    from yokefellow.cli.records import document
    from yokefellow.conductor import plan
    from yokefellow.project.load import load
    from yokefellow.weighings import add, log_path
    from yokefellow.whatif import forecast

    if (left is None) != (after is None):
        raise click.UsageError("Give --left and --after together: how much, and at which row.")
    if left is None and (yarn or note or at):
        raise click.UsageError("--yarn, --note and --at belong to a reading: give --left too.")
    made = plan(load(file))
    if left is not None and after is not None:
        time = at or datetime.now(UTC).isoformat(timespec="seconds")
        add(log_path(file), _entry(made, time, yarn or "MC", left, after, note))
    ahead = forecast(made, readings(file))
    say(document(forecast_record(made, ahead)) if form == "json" else forecast_words(made, ahead))


def _entry(made: Plan, time: str, yarn: str, left: str, after: str, note: str) -> Entry:
    """Check a reading against the sweater before it is written down.

    Raises:
        click.BadParameter: the sweater has no such yarn or row, or it is no weight.
    """
    from yokefellow.cli.places import read_place
    from yokefellow.weighings import Entry

    code = yarn.strip().upper()
    if code not in made.yarns:
        raise click.BadParameter(
            f"{yarn!r} is none of the yarns of this sweater: {', '.join(made.yarns)}.",
            param_hint="--yarn",
        )
    section, row, side = read_place(after, made.schedule)
    grams, stash = _grams(left), made.yarns[code].stash.grams
    if grams > MOST_OF_STASH * stash:
        raise click.BadParameter(
            f"{left!r} is more than all the {code} of the file, {stash:.0f} g. Weigh again, or "
            f"correct the balls under [yarn.{code}].",
            param_hint="--left",
        )
    return Entry(time, code, grams, section, row, side, note)


def _grams(typed: str) -> float:
    """Read a weight; a ball may also be at its end.

    Raises:
        click.BadParameter: it is no weight.
    """
    import re

    from yokefellow.units import QuantityError, parse_mass_g

    if re.fullmatch(r"\s*0+([.,]0*)?\s*(g|oz)?\s*", typed):
        return 0.0
    try:
        return parse_mass_g(typed)
    except QuantityError as refused:
        raise click.BadParameter(f"{refused}.", param_hint="--left") from None
