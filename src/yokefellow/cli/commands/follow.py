"""`follow`: the sizes of a pattern at the knitter's gauge, and what becomes of its rounds."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from yokefellow.cli.columns import columns
from yokefellow.cli.options import SHOWN_AS
from yokefellow.cli.terminal import say, wrapped
from yokefellow.pattern_sizes.follow import Followed, stretches
from yokefellow.pattern_sizes.sizes import SizeAt
from yokefellow.plan import Plan
from yokefellow.project_file.models import Project
from yokefellow.quantities import length
from yokefellow.sheet.pattern import from_pattern, size_heads, size_lines
from yokefellow.words import words

HELP = """\
Show what each size of a pattern you hold would become at your gauge, which of
them to follow, and how many rounds to add or leave out, and where. The file
holds the pattern's numbers in a table [pattern]. Nothing is written.

\b
Examples:
  $ yokefellow follow mine.toml
  $ yokefellow follow mine.toml --as json
"""


@click.command("follow", help=HELP)
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--as", "form", type=SHOWN_AS, default="text", help="Which form.  [default: text]")
def follow(file: Path, form: str) -> None:
    """Show every size of the pattern at the knitter's gauge, and what becomes of its rounds."""
    from yokefellow.cli.commands.follow import as_record, sizes_table, told
    from yokefellow.cli.terminal import document
    from yokefellow.plan import plan, sizes_of
    from yokefellow.project_file.load import load

    project = load(file)
    followed = sizes_of(project)
    if form == "json":
        say(document(as_record(plan(project), followed)))
        return
    # The table first: it is of use even where the size it names cannot be planned.
    say(sizes_table(project, followed))
    say(told(plan(project)))


def sizes_table(project: Project, followed: Followed) -> str:
    """Show every size in columns, the one to follow marked."""
    wanted = length(followed.size.chest_cm - followed.size.off_cm, project.sheet.units)
    lines = [
        ["  size", *(head.lower() for head in size_heads())],
        *(
            [f"{'* ' if line.is_followed else '  '}{line.size}", *line.cells]
            for line in size_lines(followed, project.sheet.units)
        ),
    ]
    return "\n".join(
        (
            wrapped(words("commands").sizes_at_your_gauge(chest=wanted)),
            "",
            *columns(lines),
            "",
        )
    )


def told(plan: Plan) -> str:
    """Say what becomes of the pattern's rounds."""
    view = from_pattern(plan)
    if view is None or plan.followed is None:
        return ""
    head = words("commands").size_in_your_yarn(size=plan.followed.size.size.size)
    notes = (wrapped(note, first="- ", rest="  ") for note in view.told)
    return "\n".join(("", head, *notes))


def as_record(plan: Plan, followed: Followed) -> dict[str, Any]:
    """Give the sizes and the stretches of the yoke as data."""
    return {
        "pattern": followed.pattern.name,
        "followed": followed.size.size.size,
        "nearest": followed.best.size.size,
        "wanted_chest_cm": round(followed.size.chest_cm - followed.size.off_cm, 2),
        "sizes": [_size(one) for one in followed.sizes],
        "rounds": [
            {
                "first": one.first,
                "last": one.last,
                "printed_first": one.printed_first,
                "printed_last": one.printed_last,
                "more": one.more,
                "increase": one.increase,
                "stitches": one.count,
            }
            for one in stretches(followed, plan.shape)
        ],
    }


def _size(one: SizeAt) -> dict[str, Any]:
    return {
        "size": one.size.size,
        "computed": list(one.computed),
        "body": one.counts.body,
        "chest_cm": _rounded(one.chest_cm),
        "ease_cm": _rounded(one.ease_cm),
        "upper_arm_cm": _rounded(one.upper_arm_cm),
        "arm_ease_cm": _rounded(one.arm_ease_cm),
        "neck_cm": _rounded(one.neck_cm),
        "yoke_as_printed_cm": _rounded(one.depth_cm),
        "yoke_at_its_gauge_cm": _rounded(one.own_depth_cm),
        "printed_chest_cm": _rounded(one.printed_chest_cm),
    }


def _rounded(cm: float | None) -> float | None:
    return None if cm is None else round(cm, 2)
