"""`suppose`: the sweater with something chosen otherwise; the file stays as it is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from yokefellow.cli.choices import SHOWN_AS
from yokefellow.cli.terminal import say

if TYPE_CHECKING:
    from yokefellow.project.models import Project

__all__ = ["suppose"]

HELP = """\
Plan the sweater with something chosen otherwise, and show it beside the
sweater of the file: lengths, stitches, yarn, and whether the yarn lasts. The
file stays as it is. Without a choice, show every length, neck, rib and finish.

\b
Examples:
  $ yokefellow suppose mine.toml
  $ yokefellow suppose mine.toml --sleeves short
  $ yokefellow suppose mine.toml --body cropped --rib 2x2 --neck wide
  $ yokefellow suppose mine.toml --field "garment.body.gather = 10"
"""

_FIELDS = {
    "sleeves": ("garment.sleeves.length",),
    "body": ("garment.body.length",),
    "neck": ("garment.neck.opening",),
    "rib": ("garment.neck.rib", "garment.body.rib", "garment.sleeves.rib"),
    "finish": ("garment.neck.finish", "garment.body.finish", "garment.sleeves.finish"),
    "hem": ("garment.body.hem",),
    "cuff": ("garment.sleeves.cuff",),
    "shape": ("garment.body.shape",),
}
"""The fields that each option chooses."""


@click.command("suppose", help=HELP, short_help="Try other lengths, necks and edges.")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--sleeves", metavar="LENGTH", help="Sleeves of this length, as in the file.")
@click.option("--body", metavar="LENGTH", help="A body of this length, as in the file.")
@click.option("--neck", metavar="OPENING", help="This neck opening.")
@click.option("--rib", metavar="RIB", help="This rib at neck, hem and cuffs.")
@click.option("--finish", metavar="FINISH", help="This finish at neck, hem and cuffs.")
@click.option("--hem", metavar="DEPTH", help="A hem of this depth.")
@click.option("--cuff", metavar="DEPTH", help="Cuffs of this depth.")
@click.option("--shape", metavar="SHAPE", help="A body of this shape.")
@click.option(
    "--field",
    "fields",
    metavar="FIELD=VALUE",
    multiple=True,
    help="Any field of the file; may be given several times.",
)
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def suppose(file: Path, fields: tuple[str, ...], form: str, **given: str | None) -> None:
    """Parse, call, print."""
    from yokefellow.project.load import load

    choices = {
        field: value
        for name, value in given.items()
        if value is not None
        for field in _FIELDS[name]
    }
    choices.update(map(_field, fields))
    project = load(file)
    say(_supposed(file, project, choices, form) if choices else _every_choice(file, project, form))


def _field(typed: str) -> tuple[str, str]:
    """Read `FIELD=VALUE`.

    Raises:
        click.BadParameter: a part of it is missing.
    """
    field, equals, value = (part.strip() for part in typed.partition("="))
    if not (field and equals and value):
        raise click.BadParameter(
            f"{typed!r} is no field with its value, such as garment.body.gather=10.",
            param_hint="--field",
        )
    return field, value


def _every_choice(file: Path, project: Project, form: str) -> str:
    from yokefellow.cli.readings import readings
    from yokefellow.cli.records import document
    from yokefellow.cli.supposed import every_choice, every_choice_record
    from yokefellow.conductor import plan
    from yokefellow.whatif import learn, table

    made = plan(project)
    knowledge = learn(made, readings(file)).knowledge
    variants = table(made, knowledge)
    if form == "json":
        return document(every_choice_record(made, variants))
    return every_choice(made, made.reckoning.estimates(knowledge), variants)


def _supposed(file: Path, project: Project, choices: dict[str, str], form: str) -> str:
    from yokefellow.cli.readings import readings
    from yokefellow.cli.records import document
    from yokefellow.cli.supposed import beside, beside_record
    from yokefellow.conductor import plan
    from yokefellow.whatif import change, learn

    made, other = plan(project), plan(change(project, **choices))
    knowledge = learn(made, readings(file)).knowledge
    yarns = (made.reckoning.estimates(knowledge), other.reckoning.estimates(knowledge))
    if form == "json":
        return document(beside_record(made, other, yarns, choices))
    return beside(made, other, yarns, choices)
